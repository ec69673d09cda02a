"""Scoring blanks that hang together: the joined piece once, then halved."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from ..cutting.plan import Axis, Cut, Got, Node, Offcut
from ..flat import FlatPiece, Panel, Point
from ..scoring import ScoreLine, ScorePass, ScoringPlan
from ..workshop import Edge, ScoringBoard
from .demand import Demand
from .order import Gang, PaperPlan

#: The edges from which lines that run across a blank (along its x) are measured.
_LEVEL = (Edge.TOP, Edge.BOTTOM)


def gangs(
    demanded: Sequence[Demand], plans: Sequence[PaperPlan], board: ScoringBoard
) -> tuple[Gang, ...]:
    """Where scoring joined blanks saves passes, in the plans as they are.

    Blanks count as joined where the plan parts a row of them, all lying the same way, with nothing
    in between: the row is scored before those last cuts, and each blank then has the lines of its
    own that run the other way still to score. A line is scored through only where it crosses no
    panel that it has no business on. Rows longer than the board are parted first.
    """
    found: list[Gang] = []
    for demand in demanded:
        design = demand.wanted.design
        parts = {part.part: part.name for part in demand.parts}
        plans_of = {plan.piece: plan for plan in design.scoring}
        rows = Counter[tuple[str, bool, int]]()
        for plan in plans:
            for use in plan.plan.uses:
                for name, level, count in joined_rows(use.pattern.tree):
                    if name in parts and parts[name] in plans_of:
                        rows[name, level, count] += use.pattern.times
        for (name, level, count), times in rows.items():
            piece = design.construction.piece(parts[name])
            part = next(one for one in demand.parts if one.part == name)
            # A blank may be handed to the planner sideways, to keep its scores along the grain.
            level ^= part.width != piece.width
            gang = _gang(demand.name, piece, plans_of[piece.name], board, level, count, times)
            if gang is not None:
                found.append(gang)
    return tuple(found)


def joined_rows(tree: Node) -> Iterator[tuple[str, bool, int]]:
    """Rows of two and more equal parts that only the last cuts part.

    Gives the part's name, whether they lie side by side along its own x, and how many.
    """
    row = _row(tree)
    if row is not None:
        name, turned, axis, count = row
        if axis is not None and count > 1:
            yield name, (axis is Axis.ACROSS) ^ turned, count
    elif isinstance(tree, Cut):
        yield from joined_rows(tree.first)
        yield from joined_rows(tree.rest)


def _row(tree: Node) -> tuple[str, bool, Axis | None, int] | None:
    """The part of a row, whether turned, along which axis and how many; an offcut has no part.

    An offcut at the end of a row is as long as its parts across it, and a line may run into it.
    """
    if isinstance(tree, Offcut):
        return "", False, None, 0
    if isinstance(tree, Got):
        return tree.part, tree.turned, None, 1
    one, other = _row(tree.first), _row(tree.rest)
    if one is None or other is None:
        return None
    if one[0] and other[0] and one[:2] != other[:2]:
        return None
    if any(side[2] not in (None, tree.axis) for side in (one, other)):
        return None
    return *(one if one[0] else other)[:2], tree.axis, one[3] + other[3]


def _gang(
    kit: str,
    piece: FlatPiece,
    plan: ScoringPlan,
    board: ScoringBoard,
    level: bool,
    count: int,
    times: int,
) -> Gang | None:
    """What scoring `times` rows of `count` blanks at once saves; None where it saves nothing.

    `level` says that they lie side by side along their own x.
    """
    long = piece.width if level else piece.height
    most = min(count, int(board.length.over(long)))
    if most < 2:
        return None
    through = [
        one
        for one in plan.passes
        if (one.fence in _LEVEL) == level
        and all(_runs_through(piece, one, line) for line in one.lines)
    ]
    if not through:
        return None
    whole, over = divmod(count, most)
    saved = whole * (most - 1) + max(0, over - 1)
    lines = sum(len(one.lines) for one in through)
    return Gang(
        kit, piece.name, most, times * whole, long * most, len(through), lines,
        saved * times * len(through), saved * times * lines,
    )  # fmt: skip


def _runs_through(piece: FlatPiece, at: ScorePass, line: ScoreLine) -> bool:
    """Whether a score right across the blank on this line marks no panel where none belongs."""
    level = at.fence in _LEVEL
    from_edge = line.position.as_mm
    size = (piece.height if level else piece.width).as_mm
    place = size - from_edge if at.fence in (Edge.TOP, Edge.RIGHT) else from_edge
    covered = []
    for score in piece.scores:
        ends = [_across(point, level) for point in (score.start, score.end)]
        if ends[0][0] == ends[1][0] == place:
            covered.append(tuple(sorted((ends[0][1], ends[1][1]))))
    # The line is looked at between all corners of panels, where nothing changes.
    corners = {_across(corner, level)[1] for panel in piece.panels for corner in panel.corners}
    for panel in piece.panels:
        corners |= set(_crossings(panel, place, level))
    stops = sorted(corners)
    for low, high in pairwise(stops):
        middle = (low + high) / 2
        if any(start <= low and high <= end for start, end in covered):
            continue
        if any(_inside(panel, place, middle, level) for panel in piece.panels):
            return False
    return True


def _across(point: Point, level: bool) -> tuple[Fraction, Fraction]:
    """A point as (distance from the line's fence axis, place along the line)."""
    return (point.y, point.x) if level else (point.x, point.y)


def _sides(panel: Panel, level: bool) -> Iterator[tuple[tuple[Fraction, Fraction], ...]]:
    corners = [_across(corner, level) for corner in panel.corners]
    yield from zip(corners, corners[1:] + corners[:1], strict=True)


def _crossings(panel: Panel, place: Fraction, level: bool) -> Iterator[Fraction]:
    """Where the line crosses the outline of a panel."""
    for (a, along), (b, further) in _sides(panel, level):
        if min(a, b) <= place <= max(a, b) and a != b:
            yield along + (further - along) * (place - a) / (b - a)


def _inside(panel: Panel, place: Fraction, along: Fraction, level: bool) -> bool:
    """Whether a point lies inside a panel, and not on its edge (even-odd rule, exact)."""
    odd = False
    for (a, start), (b, end) in _sides(panel, level):
        if a == b == place and min(start, end) <= along <= max(start, end):
            return False
        if (a > place) != (b > place):
            crossing = start + (end - start) * (place - a) / (b - a)
            if crossing == along:
                return False
            odd ^= crossing > along
    return odd
