"""Ways to arrange treats: the room that each takes, as a block."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

from ..measure import ZERO, Length
from ..measure.tolerance import COORDINATE_MM
from .contents import Arrange, Ball, Block, Loose, Round, Rows, Treats, Way


@dataclass(frozen=True, slots=True)
class Bunch:
    """Treats arranged: the block that they fill, touching, and how, in words."""

    width: Length
    depth: Length
    height: Length
    says: str

    @property
    def sides(self) -> tuple[Length, Length, Length]:
        """Width, depth and height."""
        return self.width, self.depth, self.height


def bunches(contents: Iterable[Treats]) -> tuple[Bunch, ...]:
    """Every arrangement that no other undercuts in width, depth and height at once.

    Lots of treats stand one upon another, each arranged in its own way. Sizes are exact, but for
    the roots of staggered rows, which are rounded up by less than 1e-9 mm each, so that a bunch is
    never too small. Raises `ValueError` where nothing was said or nothing fits what was said.
    """
    piled: tuple[Bunch, ...] = ()
    for lot in contents:
        own = least_of(_bunches(lot))
        if not own:
            raise ValueError(f"{lot.count} treats cannot be arranged like that")
        piled = least_of(_upon(below, top) for below in piled for top in own) if piled else own
    if not piled:
        raise ValueError("nothing to put in")
    return piled


def least_of(made: Iterable[Bunch]) -> tuple[Bunch, ...]:
    """Those that no other one undercuts; of equal ones the first. In order of width, then depth."""
    kept: list[Bunch] = []
    # Whatever could undercut a bunch comes before it. Of those, the ones that matter are the
    # lowest at each depth: `depths` ascending, `heights` falling.
    depths: list[Length] = []
    heights: list[Length] = []
    for bunch in sorted(made, key=lambda bunch: bunch.sides):
        at = bisect_right(depths, bunch.depth)
        if at and heights[at - 1] <= bunch.height:
            continue
        kept.append(bunch)
        first = bisect_left(depths, bunch.depth)
        last = first
        while last < len(depths) and heights[last] >= bunch.height:
            last += 1
        depths[first:last] = [bunch.depth]
        heights[first:last] = [bunch.height]
    return tuple(kept)


#: Proportions in which loose treats are tried, width to depth to height: cubes and slabs, upright,
#: lying and square. Any list would do; a closer one costs more plans.
PROPORTIONS = (
    (1, 1, 1), (1, 1, 2), (2, 2, 1), (3, 2, 2), (3, 2, 3), (3, 2, 4), (2, 1, 1), (2, 1, 2),
    (2, 1, 3), (3, 2, 1), (3, 1, 4), (3, 1, 2),
)  # fmt: skip


def loose_bunches(loose: Loose) -> tuple[Bunch, ...]:
    """Blocks that hold the room of loose treats, one for each of `PROPORTIONS`.

    Width and depth are rounded up to a tenth of a millimetre; the height then makes up the volume
    exactly.
    """
    made = []
    for wide, deep, tall in PROPORTIONS:
        unit = _cube_root_up(loose.room_mm3 / (wide * deep * tall))
        width, depth = unit * wide, unit * deep
        made.append(
            Bunch(
                Length.mm(width), Length.mm(depth), Length.mm(loose.room_mm3 / (width * depth)),
                f"loose, {wide} : {deep} : {tall}",
            )
        )  # fmt: skip
    return tuple(made)


def _cube_root_up(value: Fraction) -> Fraction:
    """The cube root, rounded up to a tenth."""
    tenths = value * 1000
    root = round(float(tenths) ** (1 / 3))
    while root**3 < tenths:
        root += 1
    while root > 1 and (root - 1) ** 3 >= tenths:
        root -= 1
    return Fraction(root, 10)


def _upon(below: Bunch, top: Bunch) -> Bunch:
    return Bunch(
        max(below.width, top.width), max(below.depth, top.depth), below.height + top.height,
        f"{below.says}; upon them {top.says}",
    )  # fmt: skip


def _bunches(lot: Treats) -> Iterator[Bunch]:
    shape, arrange = lot.shape, lot.arrange
    if isinstance(shape, Block):
        for sides, says in _block_ways(shape, arrange.way or Way.STANDING):
            for counts in _grids(lot.count, arrange):
                yield _in_lines(sides, counts, says)
        return
    for length, stands in _round_ways(shape, arrange.way or Way.EITHER):
        yield from _rounds(shape, lot.count, arrange, length, stands)


def _block_ways(block: Block, way: Way) -> Iterator[tuple[tuple[Length, Length, Length], str]]:
    w, d, h = block.width, block.depth, block.height
    if way is not Way.LYING:
        yield (w, d, h), ""
        yield (d, w, h), "turned"
    if way is not Way.STANDING:
        yield (w, h, d), "laid on the back"
        yield (h, w, d), "laid on the back, turned"
        yield (h, d, w), "laid on the side"
        yield (d, h, w), "laid on the side, turned"


def _round_ways(shape: Round | Ball, way: Way) -> Iterator[tuple[Length, int]]:
    """The treat's length along the axis that it is round about, and which axis of the box that is."""
    length = shape.across if isinstance(shape, Ball) else shape.height
    for axis in (2, 0, 1):
        # A ball stands and lies at once.
        if isinstance(shape, Ball) or way is Way.EITHER or (axis == 2) is (way is Way.STANDING):
            yield length, axis


def _grids(count: int, arrange: Arrange) -> Iterator[tuple[int, int, int]]:
    """Numbers across, deep and high that hold `count`, with no row to spare but what was said."""
    for high in _numbers(count, arrange.high):
        for across, deep in _lines_of(-(-count // high), arrange.across, arrange.deep):
            yield across, deep, high


def _lines_of(count: int, in_line: int | None, lines: int | None) -> Iterator[tuple[int, int]]:
    """How many in a line, and how many lines, that hold `count`."""
    if in_line is None and lines is not None:
        yield -(-count // lines), lines
        return
    for number in _numbers(count, in_line):
        needed = -(-count // number)
        if lines is None or lines >= needed:
            yield number, needed if lines is None else lines


def _numbers(count: int, said: int | None) -> Iterator[int]:
    """How many rows `count` may be parted into, none to spare; or what was said."""
    if said is not None:
        yield said
        return
    for rows in range(1, count + 1):
        if -(-count // -(-count // rows)) == rows:
            yield rows


def _in_lines(
    sides: tuple[Length, Length, Length], counts: tuple[int, int, int], says: str
) -> Bunch:
    width, depth, height = (
        side * number for side, number in zip(sides, counts, strict=True)
    )  # fmt: skip
    return Bunch(width, depth, height, ", ".join(part for part in (_counted(counts), says) if part))


def _counted(counts: tuple[int, int, int]) -> str:
    if counts == (1, 1, 1):
        return "one"
    named = zip(counts, ("across", "deep", "high"), strict=True)
    return ", ".join(f"{number} {where}" for number, where in named if number > 1)


@dataclass(frozen=True, slots=True)
class _Plane:
    """Circles in a plane: how far they reach along rows and across them, and how many rows."""

    along: Length
    over: Length
    in_row: int
    rows: int
    says: str


def _rounds(
    shape: Round | Ball, count: int, arrange: Arrange, length: Length, axis: int
) -> Iterator[Bunch]:
    """Round treats: circles in the plane square to their axis, repeated along it."""
    said = (arrange.across, arrange.deep, arrange.high)
    # One alone stands in line with itself.
    rows = arrange.rows if count > 1 else Rows.SQUARE
    first, second = (other for other in (0, 1, 2) if other != axis)
    stands = (
        "" if isinstance(shape, Ball) else ("lying across", "lying front to back", "standing")[axis]
    )
    for repeats in _numbers(count, said[axis]):
        circles = -(-count // repeats)
        # Rows of an upright plane lie level, so that each row rests on the one below.
        ways = ((first, second), (second, first)) if axis == 2 else ((first, second),)
        for row_axis, over_axis in ways:
            for plane in _planes(shape.across, circles, rows, said[row_axis], said[over_axis]):
                sides, counts = [ZERO] * 3, [0] * 3
                for at, side, number in (
                    (axis, length * repeats, repeats),
                    (row_axis, plane.along, plane.in_row),
                    (over_axis, plane.over, plane.rows),
                ):
                    sides[at], counts[at] = side, number
                says = ", ".join(
                    part for part in (
                        _counted((counts[0], counts[1], counts[2])), stands, plane.says
                    ) if part
                )  # fmt: skip
                yield Bunch(sides[0], sides[1], sides[2], says)


def _planes(
    across: Length, count: int, rows: Rows, in_row: int | None, over: int | None
) -> Iterator[_Plane]:
    """Ways to lay `count` circles of one size in rows.

    Square: in line both ways. Staggered: each row half a step on from the one before, as near as
    it will go (60 degrees; the densest rows of all), or opened until rows of a square lattice stand
    on their corners (45 degrees). The second row may have as many as the first, or one fewer.
    """
    if rows is not Rows.STAGGERED:
        for number, lines in _lines_of(count, in_row, over):
            yield _Plane(across * number, across * lines, number, lines, "")
    if rows is Rows.SQUARE or count < 2:
        return
    mm = across.as_mm
    corner = _root_up(mm * mm / 2)
    for step, rise, says in (
        (mm, _root_up(mm * mm * Fraction(3, 4)), "staggered"),
        (2 * corner, corner, "staggered at 45 degrees"),
    ):
        for shorter in (False, True):
            for number, lines in _staggers(count, shorter, in_row, over):
                along = mm + (number - 1) * step + (0 if shorter else step / 2)
                yield _Plane(
                    Length.mm(along), Length.mm(mm + (lines - 1) * rise), number, lines, says
                )


def _staggers(
    count: int, shorter: bool, in_row: int | None, over: int | None
) -> Iterator[tuple[int, int]]:
    """How many in the first of at least two staggered rows, and how many rows, that hold `count`."""
    before = 0
    for number in (in_row,) if in_row is not None else range(1 + shorter, count):
        needed = _lines(count, number, shorter)
        lines = needed if over is None else over
        # A longer row that saves none is no use.
        if lines >= max(2, needed) and lines != before and not (shorter and number < 2):
            yield number, lines
            before = lines


def _lines(count: int, in_row: int, shorter: bool) -> int:
    """How many rows hold `count`, every second one of them one shorter if so."""
    if not shorter:
        return -(-count // in_row)
    pairs, left = divmod(count, 2 * in_row - 1)
    return 2 * pairs + (0 if not left else 1 if left <= in_row else 2)


def _root_up(value: Fraction) -> Fraction:
    """The square root, rounded up to a multiple of `COORDINATE_MM`."""
    scaled = value / COORDINATE_MM**2
    root = isqrt(scaled.__ceil__())
    while root * root < scaled:
        root += 1
    return root * COORDINATE_MM
