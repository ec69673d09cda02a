"""Where the cuts of one sheet fall: strips first, few settings, little to cut."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from ..measure import Length
from .grid import Size
from .order_block import Block
from .plan import Axis, Cut, Got, Node, Offcut, Region

#: The part that a piece of a kind is, and whether it is turned, by the size that it has.
Name = Callable[[int, Size], tuple[str, bool]]


class Laid(NamedTuple):
    """How one region is cut: a piece of `kind` that fills it, or strips along `axis`.

    Each strip has its length and what comes from it (None: an offcut). What is left of the region
    beyond the strips is an offcut; where nothing is left, the last strip is not cut off, but is
    what remains.
    """

    axis: Axis | None
    kind: int
    strips: tuple[tuple[int, Laid | None], ...]

    @property
    def pieces(self) -> Iterator[int]:
        """The kind of each piece."""
        if self.axis is None:
            yield self.kind
        for _, inner in self.strips:
            if inner is not None:
                yield from inner.pieces


def sides_after(axis: Axis, length: int, size: Size) -> Size:
    """The size of a strip of that length, cut along the axis from a region."""
    return (length, size[1]) if axis is Axis.ACROSS else (size[0], length)


def along(axis: Axis, size: Size) -> int:
    """The side of a region along which an axis measures."""
    return size[0] if axis is Axis.ACROSS else size[1]


def settings_of(laid: Laid | None, size: Size) -> Iterator[int]:
    """Every setting of the trimmer for the cuts of a region, once for each cut."""
    if laid is None or laid.axis is None:
        return
    spare = along(laid.axis, size) - sum(length for length, _ in laid.strips)
    for number, (length, inner) in enumerate(laid.strips):
        if spare or number + 1 < len(laid.strips):
            yield length
        yield from settings_of(inner, sides_after(laid.axis, length, size))


def offcuts_of(laid: Laid | None, size: Size) -> Iterator[Size]:
    """The size of every offcut of a region."""
    if laid is None:
        yield size
    elif laid.axis is not None:
        for length, inner in laid.strips:
            yield from offcuts_of(inner, sides_after(laid.axis, length, size))
        spare = along(laid.axis, size) - sum(length for length, _ in laid.strips)
        if spare:
            yield sides_after(laid.axis, spare, size)


class _Way(NamedTuple):
    settings: frozenset[int]
    cuts: int
    offcut: int
    laid: Laid


class Layout:
    """Lays out blocks on regions for a trimmer that cuts `tallest` across and `widest` up.

    Among the ways to cut a block, those with the fewest settings that are not `liked` come first,
    then those with fewer cuts, then those with the larger offcut.
    """

    def __init__(self, tallest: int, widest: int, liked: Iterable[int]) -> None:
        self._most = {Axis.ACROSS: tallest, Axis.UP: widest}
        self._liked = frozenset(liked)
        self._known: dict[tuple[Block, Size], _Way | None] = {}

    def laid(self, block: Block, size: Size) -> Laid:
        """A way to cut the block from a region of that size, which must be possible."""
        way = self._way(block, size)
        if way is None:
            raise ValueError("a block that the trimmer cannot cut from its region")
        return way.laid

    def _rank(self, way: _Way) -> tuple[int, int, int]:
        return len(way.settings - self._liked), way.cuts, -way.offcut

    def _can(self, axis: Axis, size: Size) -> bool:
        across = size[1] if axis is Axis.ACROSS else size[0]
        return across <= self._most[axis]

    def _way(self, block: Block, size: Size) -> _Way | None:
        key = block, size
        if key not in self._known:
            ways = [way for way in self._ways(block, size) if way is not None]
            self._known[key] = min(ways, key=self._rank) if ways else None
        return self._known[key]

    def _ways(self, block: Block, size: Size) -> Iterator[_Way | None]:
        if block.axis is None and (block.width, block.height) == size:
            yield _Way(frozenset(), 0, 0, Laid(None, block.kind, ()))
            return
        for axis, need in ((Axis.ACROSS, block.width), (Axis.UP, block.height)):
            if block.axis is not axis and need < along(axis, size) and self._can(axis, size):
                yield self._strips(axis, [block], size)
        if block.axis is not None and self._can(block.axis, size):
            if sum(_length(block.axis, part) for part in block.parts) < along(block.axis, size):
                yield self._strips(block.axis, block.parts, size)
                return
            for last in dict.fromkeys(_length(block.axis, part) for part in block.parts):
                yield self._strips(
                    block.axis,
                    sorted(block.parts, key=lambda part: _length(block.axis, part) == last),
                    size,
                )

    def _strips(self, axis: Axis | None, parts: Sequence[Block], size: Size) -> _Way | None:
        assert axis is not None
        settings: set[int] = set()
        cuts = offcut = 0
        strips = []
        spare = along(axis, size) - sum(_length(axis, part) for part in parts)
        if spare:
            over = sides_after(axis, spare, size)
            offcut = over[0] * over[1]
        for number, part in enumerate(parts):
            length = _length(axis, part)
            way = self._way(part, sides_after(axis, length, size))
            if way is None:
                return None
            if spare or number + 1 < len(parts):
                settings.add(length)
                cuts += 1
            settings |= way.settings
            cuts += way.cuts
            offcut = max(offcut, way.offcut)
            strips.append((length, way.laid))
        return _Way(frozenset(settings), cuts, offcut, Laid(axis, -1, tuple(strips)))


def _length(axis: Axis | None, block: Block) -> int:
    return block.width if axis is Axis.ACROSS else block.height


def without(laid: Laid | None, size: Size, spare: list[int]) -> Laid | None:
    """The cuts of a region without as many pieces of each kind as `spare` says; taken off it.

    Strips that nothing is wanted from any more are joined to what is left over, as long as that
    needs no other setting.
    """
    if laid is None:
        return None
    if laid.axis is None:
        if spare[laid.kind]:
            spare[laid.kind] -= 1
            return None
        return laid
    axis = laid.axis
    # From the back, so that what goes is near what is left over.
    kept = [
        (length, without(inner, sides_after(axis, length, size), spare))
        for length, inner in reversed(laid.strips)
    ][::-1]
    if all(inner is None for _, inner in kept):
        return None
    full = along(axis, size) == sum(length for length, _ in kept)
    if full and kept[-1][1] is not None:
        cut = {length for length, inner in kept[:-1] if inner is not None}
        if kept[-1][0] not in cut:
            return Laid(axis, -1, tuple(kept))
    return Laid(axis, -1, tuple(strip for strip in kept if strip[1] is not None))


class Trees:
    """Turns cuts in whole graduations into the plan's trees."""

    def __init__(self, graduation: Length) -> None:
        self._graduation = graduation
        self._lengths: dict[int, Length] = {}

    def tree(self, laid: Laid | None, size: Size, name: Name) -> Node:
        """The tree of one sheet; `name` says of each piece whose it is, and whether it is turned."""
        return self._node(laid, 0, 0, size, name)

    def length(self, marks: int) -> Length:
        """So many graduations."""
        if marks not in self._lengths:
            self._lengths[marks] = self._graduation * marks
        return self._lengths[marks]

    def _region(self, x: int, y: int, size: Size) -> Region:
        return Region(*(self.length(marks) for marks in (x, y, *size)))

    def _node(
        self,
        laid: Laid | None,
        x: int,
        y: int,
        size: Size,
        name: Name,
    ) -> Node:
        if laid is None:
            return Offcut(self._region(x, y, size))
        if laid.axis is None:
            return Got(self._region(x, y, size), *name(laid.kind, size))
        axis = laid.axis
        nodes: list[tuple[int, int, Node]] = []
        at = 0
        for length, inner in laid.strips:
            px, py = (x + at, y) if axis is Axis.ACROSS else (x, y + at)
            node = self._node(inner, px, py, sides_after(axis, length, size), name)
            nodes.append((at, length, node))
            at += length
        whole = along(axis, size)
        rest: Node | None = None
        if at < whole:
            px, py = (x + at, y) if axis is Axis.ACROSS else (x, y + at)
            rest = Offcut(self._region(px, py, sides_after(axis, whole - at, size)))
        for start, length, node in reversed(nodes):
            if rest is None:
                rest = node
                continue
            px, py = (x + start, y) if axis is Axis.ACROSS else (x, y + start)
            region = self._region(px, py, sides_after(axis, whole - start, size))
            rest = Cut(region, axis, self.length(length), node, rest)
        assert rest is not None
        return rest
