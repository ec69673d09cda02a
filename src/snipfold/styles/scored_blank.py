"""The scored blank: the maker's own invention, drawn as a grid of scores instead of by measures."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction
from itertools import combinations, pairwise
from math import lcm
from typing import NamedTuple

from ..flat import Blank, Corner, Face, FlatPiece, Fold, Panel, Point, Role, Score
from ..measure import ZERO, Length, total
from .construction import (
    Cavity,
    Construction,
    Direction,
    HandlePlace,
    Layer,
    Meet,
    Stand,
    Step,
)
from .style import Given, Measures, Style, tape_inset

Cell = tuple[int, int]
"""A cell of the grid: its column, counted from the left, and its row from the bottom; from one."""


class Side(Enum):
    """A side of a panel as the blank lies, outside up. The value is the number of its corner."""

    BOTTOM = 0
    RIGHT = 1
    TOP = 2
    LEFT = 3

    @property
    def across(self) -> Side:
        """The side opposite."""
        return Side((self.value + 2) % 4)

    @property
    def upright(self) -> bool:
        """Whether it runs up the blank."""
        return self in (Side.LEFT, Side.RIGHT)


_WORDS = {Side.BOTTOM: "lower", Side.RIGHT: "right", Side.TOP: "upper", Side.LEFT: "left"}


@dataclass(frozen=True, slots=True)
class PlannedPanel:
    """One panel: the cells from `low` to `high` in one, without a score between.

    `trim` is how much each of the two sides beside its only score is drawn in at its free end.
    """

    name: str
    role: Role
    low: Cell
    high: Cell
    trim: Length = ZERO

    def holds(self, cell: Cell) -> bool:
        """Whether the cell belongs to the panel."""
        return all(a <= at <= b for a, at, b in zip(self.low, cell, self.high, strict=True))


@dataclass(frozen=True, slots=True)
class PlannedScore:
    """A score between two panels that lie side by side."""

    panels: tuple[str, str]
    fold: Fold = Fold.MOUNTAIN
    degrees: float = 90.0


@dataclass(frozen=True, slots=True)
class PlannedStrip:
    """A strip of the maker's tape on a face of a panel, along one side of it, and what it holds.

    It stays `ends` away from both ends of that side.
    """

    panel: str
    face: Face
    side: Side
    mate: str
    mate_face: Face
    ends: Length = ZERO


@dataclass(frozen=True, slots=True)
class PlannedStand:
    """Which panel stays still, and how the blank's x and y then run in space; its place there."""

    panel: str
    x: Direction
    y: Direction
    at: tuple[Length, Length, Length] = (ZERO, ZERO, ZERO)


@dataclass(frozen=True, slots=True)
class BlankPlan:
    """A whole plan of a scored blank, with nothing left out.

    `called` and `several` are what one and several are called; `called` names the piece too.
    `across` and `up` are where its lines lie, from the left and from the bottom edge, increasing
    and within the blank. Cells that belong to no panel are cut away. Panels that lie side by side
    are scored or slit; each pair of them stands in `scores` or in `slits`.
    """

    called: str
    several: str
    says: str
    width: Length
    height: Length
    across: tuple[Length, ...]
    up: tuple[Length, ...]
    panels: tuple[PlannedPanel, ...]
    scores: tuple[PlannedScore, ...]
    slits: tuple[tuple[str, str], ...]
    strips: tuple[PlannedStrip, ...]
    stand: PlannedStand
    steps: tuple[Step, ...]
    layers: tuple[Layer, ...]
    meets: tuple[Meet, ...]
    cavity: Cavity
    handle: HandlePlace | None

    @property
    def columns(self) -> tuple[Length, ...]:
        """Where columns begin and end: the edges and the lines between."""
        return (ZERO, *self.across, self.width)

    @property
    def rows(self) -> tuple[Length, ...]:
        """Where rows begin and end."""
        return (ZERO, *self.up, self.height)

    def panel(self, name: str) -> PlannedPanel:
        """The panel of that name; `KeyError` if there is none."""
        for panel in self.panels:
            if panel.name == name:
                return panel
        raise KeyError(name)

    def box(self, panel: PlannedPanel) -> tuple[Length, Length, Length, Length]:
        """A panel's left and right side, and its lower and upper one, before it is trimmed."""
        return (
            self.columns[panel.low[0] - 1],
            self.columns[panel.high[0]],
            self.rows[panel.low[1] - 1],
            self.rows[panel.high[1]],
        )

    def size(self, panel: PlannedPanel, side: Side) -> Length:
        """How long a side of a panel is, before it is trimmed."""
        left, right, low, high = self.box(panel)
        return high - low if side.upright else right - left

    def hinges(self, name: str) -> tuple[PlannedScore, ...]:
        """The scores that a panel hangs on or carries."""
        return tuple(score for score in self.scores if name in score.panels)

    def hinge_side(self, name: str) -> Side | None:
        """The side of a panel on which its only score lies; None where it has several."""
        scores = self.hinges(name)
        if len(scores) != 1:
            return None
        (other,) = (one for one in scores[0].panels if one != name)
        return touching(self.panel(name), self.panel(other))

    def away(self) -> tuple[Cell, ...]:
        """The cells that are cut away."""
        return tuple(
            (column, row)
            for row in range(1, len(self.rows))
            for column in range(1, len(self.columns))
            if not any(panel.holds((column, row)) for panel in self.panels)
        )


def touching(one: PlannedPanel, other: PlannedPanel) -> Side | None:
    """The side of the one on which the other lies beside it; None where they share no line."""
    for axis, before, after in ((0, Side.LEFT, Side.RIGHT), (1, Side.BOTTOM, Side.TOP)):
        along = 1 - axis
        if one.low[along] > other.high[along] or other.low[along] > one.high[along]:
            continue
        if other.high[axis] + 1 == one.low[axis]:
            return before
        if one.high[axis] + 1 == other.low[axis]:
            return after
    return None


class ScoredBlank(Style):
    """A style made from a plan; every other style is made from measures."""

    name = "scored blank"
    says = "a blank of your own: you say where it is scored, slit, cut away and glued"
    measures = ()
    free = ""
    pieces = ("box",)

    def __init__(self, plan: BlankPlan) -> None:
        self.plan = plan
        self.says = plan.says or self.says
        self.pieces = (plan.called,)
        self.noun = (plan.called, plan.several)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, ScoredBlank) and self.plan == other.plan

    def __hash__(self) -> int:
        return hash(self.plan)

    def build(self, measures: Measures, given: Given) -> Construction:
        """The piece as planned, taped with the maker's tape. Raises `FlatError` for no plan at all."""
        plan = self.plan
        return Construction(
            pieces=(lay_out(plan, given),),
            stands=(stand_of(plan),),
            steps=plan.steps,
            layers=plan.layers,
            meets=plan.meets,
            cavity=plan.cavity,
            slides=(),
            handle=plan.handle,
        )  # fmt: skip


def lay_out(plan: BlankPlan, given: Given) -> FlatPiece:
    """The flat piece of a plan. Raises `FlatError` where the plan's panels are none."""
    blank = Blank(plan.called, plan.width, plan.height)
    gone = [_Gone(_cell_box(plan, cell)) for cell in plan.away()]
    parted: set[frozenset[str]] = set()
    for panel in plan.panels:
        blank.panel(panel.name, panel.role, *_corners(plan, panel))
        for sliver in _slivers(plan, panel):
            gone.append(sliver)
            parted |= {frozenset((panel.name, other)) for other in sliver.beside}
    for name, outline in _snips(plan, gone):
        blank.snip(name, *((Length.mm(x), Length.mm(y)) for x, y in outline))
    for score in plan.scores:
        one, other = (plan.panel(name) for name in score.panels)
        blank.score(*score.panels, score.fold, score.degrees, said_in=_field(plan, one, other))
    for pair in plan.slits:
        if frozenset(pair) not in parted:
            blank.slit(f"slit, {pair[0]} by {pair[1]}", *pair)
    for strip in plan.strips:
        _tape(plan, strip, blank, given)
    return blank.build()


def _field(plan: BlankPlan, one: PlannedPanel, other: PlannedPanel) -> str:
    """The field of the project file that says where the line between two panels lies."""
    side = touching(one, other)
    if side is None:
        return ""
    axis = 0 if side.upright else 1
    line = one.high[axis] if side in (Side.RIGHT, Side.TOP) else one.low[axis] - 1
    return f"blank.{'across' if side.upright else 'up'}.{line}"


def _corners(plan: BlankPlan, panel: PlannedPanel) -> tuple[Corner, ...]:
    """A panel's corners from its lower left one, drawn in at the free end where it is trimmed."""
    left, right, low, high = plan.box(panel)
    hinge = plan.hinge_side(panel.name) if panel.trim else None
    by = {side: panel.trim if hinge is not None and side is hinge.across else ZERO for side in Side}
    return (
        (left + by[Side.BOTTOM], low + by[Side.LEFT]),
        (right - by[Side.BOTTOM], low + by[Side.RIGHT]),
        (right - by[Side.TOP], high - by[Side.RIGHT]),
        (left + by[Side.TOP], high - by[Side.LEFT]),
    )


@dataclass(frozen=True, slots=True)
class _Gone:
    """A part that is cut away: its corners.

    For a sliver the panel that it is off, on which side, and the panels beside it.
    """

    corners: tuple[Point, ...]
    off: str = ""
    side: str = ""
    beside: tuple[str, ...] = ()


def _cell_box(plan: BlankPlan, cell: Cell) -> tuple[Point, ...]:
    (left, right), (low, high) = (
        (lines[at - 1].as_mm, lines[at].as_mm)
        for lines, at in zip((plan.columns, plan.rows), cell, strict=True)
    )
    return Point(left, low), Point(right, low), Point(right, high), Point(left, high)


def _slivers(plan: BlankPlan, panel: PlannedPanel) -> Iterator[_Gone]:
    """What a trimmed panel loses: a triangle at each side beside its score."""
    hinge = plan.hinge_side(panel.name) if panel.trim else None
    if hinge is None:
        return
    left, right, low, high = (length.as_mm for length in plan.box(panel))
    whole = (Point(left, low), Point(right, low), Point(right, high), Point(left, high))
    drawn = tuple(Point(x.as_mm, y.as_mm) for x, y in _corners(plan, panel))
    for side in Side:
        if side.upright == hinge.upright:
            continue
        start, end = side.value, (side.value + 1) % 4
        # One end of the side is on the score and stays; the other is drawn in.
        corners = (whole[start], whole[end], drawn[end], drawn[start])
        beside = tuple(one.name for one in plan.panels if touching(panel, one) is side)
        yield _Gone(tuple(dict.fromkeys(corners)), panel.name, _WORDS[side], beside)


def _snips(plan: BlankPlan, gone: Sequence[_Gone]) -> Iterator[tuple[str, tuple[Point, ...]]]:
    """What is cut away in one: parts that share an edge are one snip, named by what is beside it."""
    names: set[str] = set()
    grid = lcm(1, *(at.denominator for part in gone for corner in part.corners for at in corner))
    whole = [tuple(_Knot(int(x * grid), int(y * grid)) for x, y in p.corners) for p in gone]
    for knots, parts in _together(whole):
        outline = tuple(Point(Fraction(x, grid), Fraction(y, grid)) for x, y in knots)
        own = [gone[number] for number in parts]
        name = _snip_name(plan, outline, own)
        if name in names and not name.startswith("sliver"):
            name = f"{name}, by the {_neighbours(plan, outline)[-1]}"
        count, first = 1, name
        while name in names:
            count += 1
            name = f"{first}, {count}"
        names.add(name)
        yield name, outline


def _snip_name(plan: BlankPlan, outline: tuple[Point, ...], parts: Sequence[_Gone]) -> str:
    at = _blank_corners(plan, outline)
    if all(part.off for part in parts):
        if len(parts) > 1:
            return f"notch between {' and '.join(part.off for part in parts)}"
        off, beside = parts[0].off, parts[0].beside
        return f"sliver, {off} by {beside[0]}" if beside else f"sliver, {off}, {parts[0].side} side"
    if len(at) == 1:
        return at[0]
    rim = any(
        point.x in (0, plan.width.as_mm) or point.y in (0, plan.height.as_mm) for point in outline
    )
    kind = "strip" if at else "notch" if rim else "window"
    return f"{kind} by the {_neighbours(plan, outline)[0]}"


def _blank_corners(plan: BlankPlan, outline: tuple[Point, ...]) -> list[str]:
    """The corners of the blank that belong to a part, in words."""
    across = {Fraction(0): "left", plan.width.as_mm: "right"}
    up = {Fraction(0): "lower", plan.height.as_mm: "upper"}
    return [
        f"{up[point.y]} {across[point.x]} corner"
        for point in outline
        if point.x in across and point.y in up
    ]


def _neighbours(plan: BlankPlan, outline: tuple[Point, ...]) -> tuple[str, ...]:
    """The panels along a part that is cut away, those that share more of its outline first."""
    shared: dict[str, float] = {}
    for panel in plan.panels:
        corners = tuple(Point(x.as_mm, y.as_mm) for x, y in _corners(plan, panel))
        shared[panel.name] = sum(
            _common(a, b, c, d)
            for a, b in pairwise((*outline, outline[0]))
            for c, d in pairwise((*corners, corners[0]))
        )
    found = [name for name, length in shared.items() if length > 0]
    return tuple(sorted(found, key=lambda name: -shared[name])) or (plan.called,)


def _common(a: Point, b: Point, c: Point, d: Point) -> float:
    """How much of two edges lies on each other, mm."""
    dx, dy = b.x - a.x, b.y - a.y
    if any(dx * (p.y - a.y) != dy * (p.x - a.x) for p in (c, d)):
        return 0.0
    square = dx * dx + dy * dy
    at = sorted((dx * (p.x - a.x) + dy * (p.y - a.y)) / square for p in (c, d))
    share = min(at[1], Fraction(1)) - max(at[0], Fraction(0))
    return float(max(share, Fraction(0))) * math.sqrt(float(square))


class _Knot(NamedTuple):
    """A corner on a grid so fine that every corner lies on it."""

    x: int
    y: int


_Way = tuple[_Knot, _Knot]


def _together(
    polygons: Sequence[tuple[_Knot, ...]],
) -> Iterator[tuple[tuple[_Knot, ...], tuple[int, ...]]]:
    """The outlines of polygons that touch along edges, joined, and which of them are in each.

    Polygons run anticlockwise and do not overlap. What two of them share falls away; parts that
    only touch at a point stay apart. Where a whole has no simple outline, for it closes round
    something or touches itself, its parts stay as they are.
    """
    points = sorted({point for polygon in polygons for point in polygon})
    owner: dict[_Way, int] = {}
    for number, polygon in enumerate(polygons):
        for a, b in pairwise((*polygon, polygon[0])):
            for way in pairwise((a, *_stops(a, b, points), b)):
                owner[way] = number
    one_with = list(range(len(polygons)))

    def root(number: int) -> int:
        while one_with[number] != number:
            number = one_with[number]
        return number

    for (a, b), number in owner.items():
        if (b, a) in owner:
            one_with[root(number)] = root(owner[b, a])
    left = {way: number for way, number in owner.items() if way[::-1] not in owner}
    outlines: dict[int, list[tuple[_Knot, ...]]] = {}
    while left:
        first = min(left, key=lambda way: (left[way], way))
        group = root(left.pop(first))
        path = [first]
        while path[-1][1] != first[0]:
            before = path[-1]
            onward = [way for way in left if way[0] == before[1] and root(left[way]) == group]
            path.append(_leftmost(before, onward))
            left.pop(path[-1])
        corners = [
            way[0]
            for before, way in zip([path[-1], *path[:-1]], path, strict=True)
            if _turn(before, way) != 0.0
        ]
        outlines.setdefault(group, []).append(tuple(corners))
    for group, loops in outlines.items():
        own = tuple(number for number in range(len(polygons)) if root(number) == group)
        if len(loops) == 1 and len(set(loops[0])) == len(loops[0]):
            yield loops[0], own
        else:
            yield from ((polygons[number], (number,)) for number in own)


def _leftmost(before: _Way, onward: Sequence[_Way]) -> _Way:
    """The way on that turns furthest to the left: it keeps to the outline of one part."""
    return max(onward, key=lambda way: _turn(before, way))


def _stops(a: _Knot, b: _Knot, points: Iterable[_Knot]) -> list[_Knot]:
    """The points strictly between two others, in order from the first."""
    dx, dy = b.x - a.x, b.y - a.y
    square = dx * dx + dy * dy
    between = []
    for point in points:
        px, py = point.x - a.x, point.y - a.y
        if dx * py == dy * px and 0 < dx * px + dy * py < square:
            between.append((dx * px + dy * py, point))
    return [point for _, point in sorted(between)]


def _turn(before: _Way, after: _Way) -> float:
    """By how much the way turns to the left from one edge to the next, radians; 0.0 if straight on."""
    (a, b), (c, d) = before, after
    one, two = (b.x - a.x, b.y - a.y), (d.x - c.x, d.y - c.y)
    across = one[0] * two[1] - one[1] * two[0]
    along = one[0] * two[0] + one[1] * two[1]
    return 0.0 if across == 0 and along > 0 else math.atan2(across, along)


def _tape(plan: BlankPlan, strip: PlannedStrip, blank: Blank, given: Given) -> None:
    panel = plan.panel(strip.panel)
    left, right, low, high = plan.box(panel)
    reach = right - left if strip.side.upright else high - low
    inset = tape_inset(reach, given)
    hinge = plan.hinge_side(panel.name)
    # Along a side that is drawn in, the tape keeps to what is left of the panel.
    off = inset
    if hinge is not None and strip.side.upright != hinge.upright:
        off = off + panel.trim
    near = {
        Side.LEFT: left + off,
        Side.RIGHT: right - off - given.tape,
        Side.BOTTOM: low + off,
        Side.TOP: high - off - given.tape,
    }[strip.side]
    far = near + given.tape
    if strip.side.upright:
        corners = (near, low + strip.ends), (far, high - strip.ends)
    else:
        corners = (left + strip.ends, near), (right - strip.ends, far)
    edge = f"{strip.side.name.lower()} edge"
    if hinge is not None and strip.side is hinge.across:
        edge = "outer edge" if panel.role is Role.TAB else "free edge"
    blank.glue(
        strip_name(plan.strips, strip), strip.panel, strip.face, *corners,
        mate=strip.mate, mate_face=strip.mate_face, edge=edge, inset=inset,
    )  # fmt: skip


def sketch(plan: BlankPlan) -> FlatPiece:
    """The panels and scores of a plan alone, as far as folding asks for them."""
    scores = []
    for score in plan.scores:
        one, other = (plan.panel(name) for name in score.panels)
        side = touching(one, other)
        (left, right, low, high), (left_2, right_2, low_2, high_2) = map(plan.box, (one, other))
        x0, x1 = max(left, left_2), min(right, right_2)
        y0, y1 = max(low, low_2), min(high, high_2)
        ends = Point(x0.as_mm, y0.as_mm), Point(x1.as_mm, y1.as_mm)
        # The first panel lies on the left of the way from start to end.
        start, end = ends if side in (Side.RIGHT, Side.BOTTOM) else ends[::-1]
        scores.append(Score(score.panels, start, end, score.fold, score.degrees))
    panels = tuple(
        Panel(
            panel.name,
            panel.role,
            tuple(Point(x.as_mm, y.as_mm) for x, y in _corners(plan, panel)),
        )
        for panel in plan.panels
    )
    return FlatPiece(plan.called, plan.width, plan.height, (), (), panels, tuple(scores), (), ())


def stand_of(plan: BlankPlan) -> Stand:
    """How the piece of a plan stands."""
    place = plan.stand
    left, _, low, _ = plan.box(plan.panel(place.panel))
    corner = Point(left.as_mm, low.as_mm)
    return Stand(plan.called, place.panel, place.x, place.y, corner, place.at)


def side_by_side(panels: Sequence[PlannedPanel]) -> tuple[tuple[str, str], ...]:
    """Every pair of panels that share a line: beside each other first, then above each other."""
    pairs = [
        (one, other, side)
        for one, other in combinations(panels, 2)
        if (side := touching(one, other)) is not None
    ]
    pairs.sort(key=lambda pair: not pair[2].upright)
    return tuple((one.name, other.name) for one, other, _ in pairs)


def strip_name(strips: Sequence[PlannedStrip], strip: PlannedStrip) -> str:
    """What the glue area of a strip is called."""
    own = [one for one in strips if one.panel == strip.panel]
    name = f"{strip.panel} tape"
    if len(own) > 1:
        name += f", {strip.side.name.lower()}"
    if sum(one.side is strip.side for one in own) > 1:
        name += f", onto the {strip.mate}"
    return name


def in_sizes(plan: BlankPlan, columns: Sequence[Length], rows: Sequence[Length]) -> BlankPlan:
    """The plan with its columns and rows so wide and so high, all else as it was."""
    return replace(
        plan,
        width=total(columns),
        height=total(rows),
        across=tuple(total(columns[:count]) for count in range(1, len(columns))),
        up=tuple(total(rows[:count]) for count in range(1, len(rows))),
    )
