"""Of all the ways to cut a handful of pieces from a sheet, one that is pleasant to cut."""

from __future__ import annotations

from typing import NamedTuple

from .fit import Fit, Key
from .grid import Size
from .plan import Axis

_OTHER = {Axis.ACROSS: Axis.UP, Axis.UP: Axis.ACROSS}


class Way(NamedTuple):
    """One way to cut a handful from a region: what it costs, and its first cut.

    `settings` has bit n set where the trimmer is set to n graduations; `offcut` is the area of
    the largest offcut. With `axis` None the region is a piece of `kind`. `rest` is None where what
    falls beyond the blade is an offcut.
    """

    settings: int
    cuts: int
    offcut: int
    axis: Axis | None = None
    at: int = 0
    kind: int = -1
    first: Way | None = None
    rest: Way | None = None

    @property
    def rank(self) -> tuple[int, int, int]:
        """Fewer settings, then fewer cuts, then the larger offcut: the lesser is the better."""
        return self.settings.bit_count(), self.cuts, -self.offcut


#: A first cut, led by how good it looks: best at a side of a piece (a setting that is needed
#: anyway), then with few kinds in the first part, with little waste, far from the edge. After that
#: a number, the axis, the place of the blade, and both parts; what falls beyond the blade is None
#: where it is an offcut.
_Move = tuple[bool, int, int, int, int, Axis, int, Key, Key | None]


#: The searches, one after another as far as the effort goes: ways kept for each handful and
#: region, and first cuts followed up.
_SEARCHES = ((2, 8), (3, 40), (4, 1 << 30))


def arrange(fit: Fit, key: Key, width: int, height: int, effort: int) -> Way:
    """A way to cut the handful from a region that it fits: few settings, few cuts, large offcut.

    Exact when the effort (first cuts looked at) lasts for the last of the searches, but for the
    limit of ways that are kept; the best found otherwise, and always a way.
    """
    cuts = _Cuts(fit)
    best: Way | None = None
    left = effort
    for keep, tries in _SEARCHES:
        search = _Search(cuts, keep, tries, left)
        found = search.ways(key, width, height)[0]
        if best is None or found.rank < best.rank:
            best = found
        left -= search.spent
        if search.complete or left <= 0:
            break
    assert best is not None
    return best


class _Cuts:
    """The first cuts by which a handful can be cut from a region, best looking first."""

    def __init__(self, fit: Fit) -> None:
        self.fit = fit
        self._task = fit.task
        self._sides = {side for kind in fit.task.kinds for pose in kind.poses for side in pose}
        self._about: dict[Key, tuple[int, int, int]] = {}
        self._partings: dict[Key, list[tuple[Key, Key, int, int]]] = {}
        self._known: dict[tuple[Key, int, int], list[_Move]] = {}
        self._grids: dict[tuple[Key, int, int], list[Way]] = {}

    def of(self, key: Key) -> tuple[int, int, int]:
        """The area of a handful, its kinds and its pieces."""
        known = self._about.get(key)
        if known is None:
            held = self.fit.contents(key)
            known = self._about[key] = (
                sum(n * self._task.kinds[kind].area for kind, n in held.items()),
                len(held),
                sum(held.values()),
            )
        return known

    def grids(self, key: Key, pieces: int, width: int, height: int) -> list[Way]:
        """Ways to cut pieces of one kind as the rows and columns of a grid, best first.

        None where they do not fit so. What is left to look for is rarely better: there is no
        setting but the sides of the piece.
        """
        known = self._grids.get((key, width, height))
        if known is not None:
            return known
        (kind,) = self.fit.contents(key)
        ways: list[Way] = []
        if self._task.free_cuts:
            for w, h in self._task.kinds[kind].poses:
                if (width // w) * (height // h) >= pieces:
                    ways += [_grid(kind, pieces, axis, (w, h), (width, height)) for axis in Axis]
        elif (width, height) in self._task.kinds[kind].poses:
            ways.append(Way(0, 0, 0, None, 0, kind))
        ways.sort(key=lambda way: way.rank)
        self._grids[key, width, height] = ways
        return ways

    def partings(self, key: Key) -> list[tuple[Key, Key, int, int]]:
        """Both parts of each parting, and the area and kinds of the first."""
        known = self._partings.get(key)
        if known is None:
            known = self._partings[key] = [
                (first, rest, *self.of(first)[:2]) for first, rest in self.fit.partings(key)
            ]
        return known

    def moves(self, key: Key, width: int, height: int) -> list[_Move]:
        """All first cuts of the handful from a region that it fits."""
        known = self._known.get((key, width, height))
        if known is not None:
            return known
        fit, task, sides = self.fit, self._task, self._sides
        moves: list[_Move] = []
        for axis, length, side, most, leasts in (
            (Axis.ACROSS, width, height, task.tallest, fit.least_widths),
            (Axis.UP, height, width, task.widest, fit.least_heights),
        ):
            if side > most:
                continue
            least = leasts(side)
            at = least[key]
            if at < length:
                moves.append((at not in sides, 1, 0, 0, len(moves), axis, at, key, None))
            for first, rest, area, kinds in self.partings(key):
                at = least[first]
                if at + least[rest] <= length:
                    waste = (at * side - area) * 20 // (at * side)
                    number = len(moves)
                    moves.append(
                        (at not in sides, kinds, waste, -at, number, axis, at, first, rest)
                    )
        moves.sort()
        self._known[key, width, height] = moves
        return moves


def _grid(kind: int, pieces: int, axis: Axis, piece: Size, region: Size) -> Way:
    """The way to cut a region, which must be large enough, into strips along `axis`, then pieces.

    Every strip but the last is filled.
    """
    other = _OTHER[axis]
    size, length = (piece, region) if axis is Axis.ACROSS else (piece[::-1], region[::-1])
    in_strip = min(pieces, length[1] // size[1])
    strips = -(-pieces // in_strip)
    full = _row(Way(0, 0, 0, None, 0, kind), in_strip, other, size[1], length[1], size[0])
    last = pieces - (strips - 1) * in_strip
    way = (
        full
        if last == in_strip
        else _row(Way(0, 0, 0, None, 0, kind), last, other, size[1], length[1], size[0])
    )
    return _row(full, strips, axis, size[0], length[0], length[1], way)


def _row(
    each: Way, number: int, axis: Axis, at: int, length: int, side: int, last: Way | None = None
) -> Way:
    """So many equal blocks one after another, cut off one by one `at` the same setting."""
    left = length - number * at
    way = last or each
    if left:
        way = Way(
            way.settings | 1 << at, way.cuts + 1, max(way.offcut, left * side), axis, at, -1, way
        )
    for _ in range(number - 1):
        way = Way(
            way.settings | each.settings | 1 << at,
            way.cuts + each.cuts + 1,
            max(way.offcut, each.offcut),
            axis,
            at,
            -1,
            each,
            way,
        )
    return way


class _Search:
    def __init__(self, cuts: _Cuts, keep: int, tries: int, most: int) -> None:
        self._cuts = cuts
        self._keep = keep
        self._tries = tries
        self._most = most
        self._known: dict[tuple[Key, int, int], list[Way]] = {}
        self.spent = 0
        #: Whether no first cut was left out for want of tries.
        self.complete = True

    def ways(self, key: Key, width: int, height: int) -> list[Way]:
        """Ways to cut the handful from a region that it fits, best first; at least one."""
        known = self._known.get((key, width, height))
        if known is not None:
            return known
        _, kinds, pieces = self._cuts.of(key)
        if kinds == 1:
            grids = self._cuts.grids(key, pieces, width, height)
            if grids:
                self.spent += 1
                known = self._known[key, width, height] = self._kept(grids)
                return known
        moves = self._cuts.moves(key, width, height)
        self.spent += len(moves)
        tries = self._tries if self.spent <= self._most else 1
        if len(moves) > tries:
            self.complete = False
        made: list[Way] = []
        best = (1 << 30, 0, 0)
        for *_, axis, at, first, rest in moves[:tries]:
            across = axis is Axis.ACROSS
            mark = 1 << at
            if rest is None:
                left = (width - at) * height if across else width * (height - at)
                inner = self.ways(key, at, height) if across else self.ways(key, width, at)
                for one in inner:
                    way = Way(
                        one.settings | mark,
                        one.cuts + 1,
                        max(one.offcut, left),
                        axis,
                        at,
                        -1,
                        one,
                    )
                    made.append(way)
                    best = min(best, way.rank)
                continue
            ones = self.ways(first, at, height) if across else self.ways(first, width, at)
            # What is beyond the blade takes at least one cut fewer than it has pieces.
            more = self._cuts.of(rest)[2]
            ones = [
                one
                for one in ones
                if ((one.settings | mark).bit_count(), one.cuts + more) <= best[:2]
            ]
            if not ones:
                continue
            twos = (
                self.ways(rest, width - at, height)
                if across
                else self.ways(rest, width, height - at)
            )
            for one in ones:
                for two in twos:
                    way = Way(
                        one.settings | two.settings | mark,
                        one.cuts + two.cuts + 1,
                        max(one.offcut, two.offcut),
                        axis,
                        at,
                        -1,
                        one,
                        two,
                    )
                    made.append(way)
                    best = min(best, way.rank)
        if len(made) > 1:
            made.sort(key=lambda way: way.rank)
            made = self._kept(made)
        self._known[key, width, height] = made
        return made

    def _kept(self, made: list[Way]) -> list[Way]:
        """As many ways as are kept, none of them in every respect worse than another."""
        kept: list[Way] = []
        for way in made:
            if not any(
                k.settings | way.settings == way.settings and k.cuts <= way.cuts for k in kept
            ):
                kept.append(way)
                if len(kept) == self._keep:
                    break
        return kept
