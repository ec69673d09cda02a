"""How a blank lies on the scoring board, and how it gets there.

The board lies before the maker with its fence on the left, so that numbers run from left to right
as they are read, and the grooves run away from the maker.
"""

from __future__ import annotations

from shapely import LineString, Polygon

from ..flat import Face, FlatPiece, Point, Score
from ..measure import Length
from ..workshop import Edge
from .plan import Move

Lie = tuple[Edge, Edge, Edge, Edge]
"""The blank's edges that lie to the left (at the fence), far from, right of and near the maker."""

#: mm. A line that runs through a panel for no more than this only touches it.
_TOUCH_MM = 1e-3

#: The edges that a line running up the blank is measured from.
UPRIGHT = (Edge.LEFT, Edge.RIGHT)

#: A blank's edges clockwise from its left one, as seen with that face up.
_CLOCKWISE = {
    Face.OUTSIDE: (Edge.LEFT, Edge.TOP, Edge.RIGHT, Edge.BOTTOM),
    Face.INSIDE: (Edge.LEFT, Edge.BOTTOM, Edge.RIGHT, Edge.TOP),
}

#: What each move brings to the left, far, right and near side: the side it comes from.
_BRINGS = {
    Move.STAY: (0, 1, 2, 3),
    Move.QUARTER_LEFT: (1, 2, 3, 0),
    Move.QUARTER_RIGHT: (3, 0, 1, 2),
    Move.HALF: (2, 3, 0, 1),
    Move.OVER_SIDEWAYS: (2, 1, 0, 3),
    Move.OVER_END: (0, 3, 2, 1),
    Move.OVER_QUARTER_LEFT: (1, 0, 3, 2),
    Move.OVER_QUARTER_RIGHT: (3, 2, 1, 0),
}

TURNING = frozenset(
    {
        Move.QUARTER_LEFT,
        Move.QUARTER_RIGHT,
        Move.HALF,
        Move.OVER_QUARTER_LEFT,
        Move.OVER_QUARTER_RIGHT,
    }
)
FLIPPING = frozenset(
    {Move.OVER_SIDEWAYS, Move.OVER_END, Move.OVER_QUARTER_LEFT, Move.OVER_QUARTER_RIGHT}
)


def lie(face_up: Face, fence: Edge) -> Lie:
    """How a blank lies with `face_up` and the edge `fence` against the fence."""
    edges = _CLOCKWISE[face_up]
    at = edges.index(fence)
    left, far, right, near = edges[at:] + edges[:at]
    return left, far, right, near


def after(move: Move, lies: Lie) -> Lie:
    """How a blank that `lies` so lies after `move`. `START` moves nothing."""
    left, far, right, near = _BRINGS[Move.STAY if move is Move.START else move]
    return lies[left], lies[far], lies[right], lies[near]


_MOVES = {
    ((face, fence), (other_face, other_fence)): next(
        move
        for move in _BRINGS
        if (move in FLIPPING) == (face is not other_face)
        and after(move, lie(face, fence)) == lie(other_face, other_fence)
    )
    for face in Face
    for fence in Edge
    for other_face in Face
    for other_fence in Edge
}


def move_between(before: tuple[Face, Edge], then: tuple[Face, Edge]) -> Move:
    """The one move that takes a blank from one lie to another, each as (face up, fence edge)."""
    return _MOVES[before, then]


def from_edge(piece: FlatPiece, upright: bool, at: Length, edge: Edge) -> Length:
    """How far a line lies from `edge`.

    `upright` is whether it runs up the blank, `at` its x (or, running across, its y). Raises
    `ValueError` for an edge that it does not run along.
    """
    if upright is not (edge in UPRIGHT):
        raise ValueError(f"a line that runs {'up' if upright else 'across'} has no {edge.value}")
    if edge in (Edge.LEFT, Edge.BOTTOM):
        return at
    return (piece.width if upright else piece.height) - at


def ruler_ends(piece: FlatPiece, score: Score) -> tuple[Point, Point]:
    """The two places between which a slanting score is drawn along a ruler, exactly.

    Its own ends, each carried on to the rim of the blank where nothing but waste lies between:
    a mark at the rim is easier to set, and a longer line is truer.
    """
    start, end = score.start, score.end
    return _carried_on(piece, end, start), _carried_on(piece, start, end)


def _carried_on(piece: FlatPiece, back: Point, at: Point) -> Point:
    """The place at the rim that the line from `back` through `at` leads to, or `at` itself."""
    dx, dy = at.x - back.x, at.y - back.y
    ways = []
    for where, step, size in ((at.x, dx, piece.width.as_mm), (at.y, dy, piece.height.as_mm)):
        if step:
            ways.append(((size if step > 0 else 0) - where) / step)
    far = min(ways)
    rim = Point(at.x + far * dx, at.y + far * dy)
    beyond = LineString([tuple(map(float, at)), tuple(map(float, rim))])
    for panel in piece.panels:
        outline = Polygon([(float(x), float(y)) for x, y in panel.corners])
        if outline.intersection(beyond).length > _TOUCH_MM:
            return at
    return rim


def score_positions(piece: FlatPiece) -> dict[Edge, tuple[Length, ...]]:
    """Where the score lines of a piece lie, from each of its edges, nearest first.

    Lines of one straight run count once; slanting ones are left out.
    """
    across = {score.start.y for score in piece.scores if score.start.y == score.end.y}
    upright = {score.start.x for score in piece.scores if score.start.x == score.end.x}
    return {
        edge: tuple(
            sorted(
                from_edge(piece, edge in UPRIGHT, Length.mm(at), edge)
                for at in (upright if edge in UPRIGHT else across)
            )
        )
        for edge in Edge
    }
