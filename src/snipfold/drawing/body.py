"""The faces of a box in space: panels with their stacking order, rims, mats, strap, adhesive."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from math import cos, hypot, pi, sin, sqrt

from shapely import Point as FlatSpot
from shapely import Polygon

from ..dressing import Dressing, Mat, Strap
from ..flat import EdgeKind, FlatPiece, GlueArea, Point
from ..flat import Face as Side
from ..folding import Angles, Placed, Pose, Vec, closed_angles
from ..folding import pose as posed
from ..styles import Construction
from ..workshop import Paper
from .inks import INK, PAGE, TINT, mixed
from .solid import LEVEL_MM, Face

#: mm. How far panels of one stack, and what lies on them, are lifted from one another when it is
#: asked what hides what. Far above rounding, and far below any gap between separate pieces, so that
#: no edge is seen to move.
_STACK_MM = 0.02
_ON_PANEL_MM = 0.004
#: A strap is drawn as this many flat facets.
_FACETS = 44

Poses = Mapping[str, Pose]


@dataclass(frozen=True, slots=True)
class Looks:
    """What of a box is shown, and how.

    `moving` are the panels to be tinted, as (piece, panel); `glue` the adhesive areas to be shown,
    by piece; `angles` the angles of each piece's scores, to tell flat scores; `rim_mm` how wide
    the paper's edge is drawn;
    `strap` shows the strap, and the mats that lie over its feet.
    """

    moving: frozenset[tuple[str, str]] = frozenset()
    glue: Mapping[str, Sequence[GlueArea]] = field(default_factory=dict)
    angles: Mapping[str, Angles] = field(default_factory=dict)
    rim_mm: float = 0.0
    strap: bool = True


def faces_of(
    construction: Construction,
    poses: Poses,
    papers: Mapping[str, Paper],
    dressing: Dressing,
    looks: Looks,
) -> list[Face]:
    """Every face of the pieces that are posed, in space."""
    found: list[Face] = []
    for name, pose in poses.items():
        piece = construction.piece(name)
        depth = _depths(construction, piece)
        # Rims come first: where one lies in the plane of a panel, the panel covers it.
        if looks.rim_mm:
            within, onto = _within(construction, pose), _onto(construction, pose)
            found += _rims(piece, pose, papers[name], depth, looks.rim_mm, within, onto)
        found += _panels(piece, pose, papers[name], depth, looks)
        strap = dressing.strap
        paper = papers.get("mats", papers[name])
        found += [
            _mat(mat, pose.placed[mat.panel], paper, depth, looks)
            for mat in dressing.mats_on(name)
            if looks.strap or not _covers_foot(mat, strap)
        ]
        found += _glue(name, pose, depth, looks)
        if looks.strap and strap is not None and strap.piece == name:
            found += _strap(strap, pose, papers.get("strap", papers[name]), depth)
    return found


def _depths(construction: Construction, piece: FlatPiece) -> dict[str, float]:
    """How far each panel lies below the outermost of its stack, mm of `Face.lift_mm`.

    Down is away from where the outside of the outermost looks (its inside, where it lies on a pleat);
    a panel that is folded flat onto the others, or they onto it, looks the other way.
    """
    pleated = {
        layer.outer for layer in construction.layers if layer.piece == piece.name and layer.pleated
    }
    outer: dict[str, list[str]] = {}
    for layer in construction.layers:
        if layer.piece == piece.name:
            outer.setdefault(layer.inner, []).append(layer.outer)

    def depth(panel: str, trail: tuple[str, ...] = ()) -> tuple[int, str]:
        above = [depth(one, (*trail, panel)) for one in outer.get(panel, []) if one not in trail]
        count, outermost = max(above, default=(-1, panel))
        return count + 1, outermost

    placed = posed(piece, construction.stand(piece.name), closed_angles(piece)).placed
    found = {}
    for panel in piece.panels:
        count, outermost = depth(panel.name)
        looks = placed[panel.name].outward.dot(placed[outermost].outward)
        looks = -looks if outermost in pleated else looks
        found[panel.name] = _STACK_MM * count * (-1 if looks > 0 else 1)
    return found


def _panels(
    piece: FlatPiece, pose: Pose, paper: Paper, depth: Mapping[str, float], looks: Looks
) -> list[Face]:
    flat = {
        frozenset(score.panels)
        for score in piece.scores
        if abs(looks.angles.get(piece.name, {}).get(score.panels, 90.0)) < 0.5
    }
    scored: dict[str, list[int]] = {panel.name: [] for panel in piece.panels}
    for score in piece.scores:
        if frozenset(score.panels) in flat:
            for name in score.panels:
                corners = piece.panel(name).corners
                for index, (a, b) in enumerate(
                    zip(corners, corners[1:] + corners[:1], strict=True)
                ):
                    if _lies_on(score.start, a, b) and _lies_on(score.end, a, b):
                        scored[name].append(index)
    found = []
    for panel in piece.panels:
        placed = pose.placed[panel.name]
        front, back = paper.colour, paper.back_colour
        moves = (piece.name, panel.name) in looks.moving
        if moves:
            front, back = _tinted(front), _tinted(back)
        found.append(
            Face(
                placed.corners, placed.outward, front, back, piece.name, depth[panel.name],
                scores=tuple(scored[panel.name]), kind="moving" if moves else "paper",
            )
        )  # fmt: skip
    return found


def _lies_on(at: Point, a: Point, b: Point) -> bool:
    """Whether a point lies on the straight line from a to b, its ends among it."""
    along = (b.x - a.x) * (at.x - a.x) + (b.y - a.y) * (at.y - a.y)
    across = (b.x - a.x) * (at.y - a.y) - (b.y - a.y) * (at.x - a.x)
    return across == 0 and 0 <= along <= (b.x - a.x) ** 2 + (b.y - a.y) ** 2


def _within(construction: Construction, pose: Pose) -> frozenset[str]:
    """The panels on whose inside another lies in this pose, folded flat onto them.

    Their thickness would show through what lies over them.
    """
    found = set()
    for layer in construction.layers:
        if layer.piece != pose.piece:
            continue
        inner, outer = pose.placed[layer.inner], pose.placed[layer.outer]
        flat = inner.outward.dot(outer.outward) < -0.9999
        if flat and abs(inner.placement.above(outer.corners[0])) < LEVEL_MM:
            found.add(layer.inner)
    return frozenset(found)


def _onto(construction: Construction, pose: Pose) -> dict[str, list[Polygon]]:
    """What each outer panel is folded flat onto in this pose, drawn in a little, on the blank.

    The thickness of edges that lie there would show through.
    """
    found: dict[str, list[Polygon]] = {}
    for layer in construction.layers:
        if layer.piece != pose.piece:
            continue
        inner, outer = pose.placed[layer.inner], pose.placed[layer.outer]
        flat = inner.outward.dot(outer.outward) < -0.9999
        if flat and abs(inner.placement.above(outer.corners[0])) < LEVEL_MM:
            shape = Polygon([outer.placement.flat(corner) for corner in inner.corners])
            found.setdefault(layer.outer, []).append(shape.buffer(-LEVEL_MM))
    return found


def _rims(
    piece: FlatPiece,
    pose: Pose,
    paper: Paper,
    depth: Mapping[str, float],
    rim_mm: float,
    within: frozenset[str],
    onto: Mapping[str, Sequence[Polygon]],
) -> list[Face]:
    """The paper's thickness along free edges: slim faces that run inward from the edge.

    Where two rims meet at a fold their inner corners are drawn in, as a mitre. Panels `within` a
    flat stack have none, nor have edges that lie inside what their panel is folded `onto`.
    """
    colour = mixed(mixed(paper.colour, paper.back_colour, 0.5), PAGE, 0.45)
    free: dict[str, set[tuple[int, int]]] = {}
    for edge in piece.edges:
        if edge.kind is EdgeKind.CUT:
            free.setdefault(edge.left or edge.right, set()).add((edge.start, edge.end))
    vertex = {point: number for number, point in enumerate(piece.vertices)}
    found = []
    for panel in piece.panels:
        placed = pose.placed[panel.name]
        if panel.name in within:
            continue
        inward = Vec(0, 0, 0).minus(placed.outward)
        numbers = [vertex[corner] for corner in panel.corners]
        count = len(numbers)
        for index in range(count):
            pair = (numbers[index], numbers[(index + 1) % count])
            if pair not in free.get(panel.name, ()):
                continue
            (ax, ay), (bx, by) = panel.corners[index], panel.corners[(index + 1) % count]
            middle = FlatSpot(float(ax + bx) / 2, float(ay + by) / 2)
            if any(shape.contains(middle) for shape in onto.get(panel.name, ())):
                continue
            # It starts a hair below its panel, so that it never looks through what lies on that.
            below = depth[panel.name] - 4 * _ON_PANEL_MM
            start = placed.corners[index].plus(placed.outward, below)
            end = placed.corners[(index + 1) % count].plus(placed.outward, below)
            along = end.minus(start)
            if along.length() < 4 * rim_mm:
                continue
            step = along.unit()
            out = step.cross(placed.outward)
            # The next and the last edge of the panel: at a fold the rim is mitred.
            after = (pair[1], numbers[(index + 2) % count])
            before = (numbers[index - 1], pair[0])
            start_in, end_in = (
                0.0 if other in free[panel.name] else rim_mm for other in (before, after)
            )
            found.append(
                Face(
                    (
                        start, end,
                        end.plus(inward, rim_mm).plus(step, -end_in),
                        start.plus(inward, rim_mm).plus(step, start_in),
                    ),
                    out, colour, colour, piece.name, soft=(1, 3), kind="rim",
                )
            )  # fmt: skip
    return found


def _tinted(colour: str) -> str:
    return mixed(colour, TINT, 0.65)


def _covers_foot(mat: Mat, strap: Strap | None) -> bool:
    """Whether a mat lies over a foot of the strap, and so waits until the strap is on."""
    return (
        strap is not None
        and mat.piece == strap.piece
        and mat.panel in strap.panels
        and mat.face is strap.face
    )


def _mat(mat: Mat, placed: Placed, paper: Paper, depth: Mapping[str, float], looks: Looks) -> Face:
    over = 3 * _ON_PANEL_MM
    lift = depth[mat.panel] + (over if mat.face is Side.OUTSIDE else -over)
    corners = tuple(placed.placement.place(corner) for corner in mat.corners)
    front = paper.colour if mat.face is Side.OUTSIDE else paper.back_colour
    back = paper.back_colour if mat.face is Side.OUTSIDE else paper.colour
    if (mat.piece, mat.panel) in looks.moving:
        front, back = _tinted(front), _tinted(back)
    return Face(corners, placed.outward, front, back, mat.piece, lift, kind="mat")


def _glue(name: str, pose: Pose, depth: Mapping[str, float], looks: Looks) -> list[Face]:
    found = []
    for area in looks.glue.get(name, ()):
        placed = pose.placed[area.panel]
        out = area.face is Side.OUTSIDE
        lift = depth[area.panel] + (_ON_PANEL_MM if out else -_ON_PANEL_MM)
        corners = tuple(placed.placement.place(corner) for corner in area.corners)
        found.append(Face(corners, placed.outward, PAGE, PAGE, name, lift, kind="glue"))
    return found


# Strap ---------------------------------------------------------------------------------------


def _strap(strap: Strap, pose: Pose, paper: Paper, depth: Mapping[str, float]) -> list[Face]:
    """The strap's feet on their panels, and its free length as a bent band of facets."""
    found: list[Face] = []
    out = strap.face is Side.OUTSIDE
    ends: list[tuple[Vec, Vec]] = []
    for panel, foot in zip(strap.panels, strap.feet, strict=True):
        placed = pose.placed[panel]
        corners = [placed.placement.place(corner) for corner in foot]
        lift = depth[panel] + (2 * _ON_PANEL_MM if out else -2 * _ON_PANEL_MM)
        upper = sorted(range(len(corners)), key=lambda i: -corners[i].z)[:2]
        first = next(i for i in upper if (i + 1) % len(corners) in upper)
        found.append(
            Face(
                tuple(corners), placed.outward, paper.colour, paper.back_colour, "strap", lift,
                soft=(first,), kind="foot",
            )
        )  # fmt: skip
        ends.append((corners[first], corners[(first + 1) % len(corners)]))
    (a0, a1), (b0, b1) = ends
    # Corners of a foot run anticlockwise seen from outside, so the second foot faces the first
    # the other way round.
    span = b1.minus(a0)
    if span.length() > b0.minus(a0).length() + 1e-9:
        b0, b1 = b1, b0
    left, right = (a0, a1), (b1, b0)
    profile = band(hypot(*(a0.minus(right[0]))[:2]), strap.free.float_mm)
    up = Vec(0, 0, 1)
    for (u0, h0), (u1, h1) in itertools.pairwise(profile):
        corners4 = (
            _between(left[0], right[0], u0).plus(up, h0),
            _between(left[1], right[1], u0).plus(up, h0),
            _between(left[1], right[1], u1).plus(up, h1),
            _between(left[0], right[0], u1).plus(up, h1),
        )
        normal = corners4[1].minus(corners4[0]).cross(corners4[3].minus(corners4[0])).unit()
        if normal.z < 0:
            normal = Vec(0, 0, 0).minus(normal)
        front, back = (
            (paper.colour, paper.back_colour) if out else (paper.back_colour, paper.colour)
        )
        found.append(
            Face(corners4, normal, front, back, "strap", _ON_PANEL_MM, soft=(0, 2), kind="strap")
        )
    return found


def _between(start: Vec, end: Vec, share: float) -> Vec:
    return start.plus(end.minus(start), share)


def band(span_mm: float, length_mm: float, facets: int = _FACETS) -> list[tuple[float, float]]:
    """The shape of a strap that leaves its feet straight up: half an ellipse of its real length.

    Points as (share of the span, height in mm). A strap no longer than its span lies flat. The
    height is found by halving until the band is as long as asked, to 1e-6 mm.

    >>> [round(u, 3) for u, h in band(100.0, 90.0, 2)]
    [0.0, 0.5, 1.0]
    """
    height = 0.0
    if length_mm > span_mm:
        low, high = 0.0, length_mm
        while high - low > 1e-6:
            height = (low + high) / 2
            if half_ellipse_mm(span_mm / 2, height) < length_mm:
                low = height
            else:
                high = height
    turns = [pi * k / facets for k in range(facets + 1)]
    return [((1 - cos(turn)) / 2, height * sin(turn)) for turn in turns]


def half_ellipse_mm(one_mm: float, other_mm: float) -> float:
    """The length of half an ellipse with these half axes, mm, to rounding.

    Source: Gauss's arithmetic-geometric mean for the complete elliptic integral of the second kind
    (Abramowitz and Stegun, 17.6).

    >>> round(half_ellipse_mm(1.0, 1.0), 12) == round(pi, 12)
    True
    """
    a, b = max(one_mm, other_mm), min(one_mm, other_mm)
    if b == 0.0:
        return 2 * a
    total, weight, square = a * a, 0.5, a * a - b * b
    total -= weight * square
    while square > 1e-18 * total:
        c = (a - b) / 2
        a, b = (a + b) / 2, sqrt(a * b)
        square, weight = c * c, weight * 2
        total -= weight * square
    return pi * total / a


def moved(poses: Poses, name: str, by: Vec) -> dict[str, Pose]:
    """The poses with one piece carried along `by`."""
    found = dict(poses)
    placed = {
        panel: Placed(
            panel,
            type(one.placement)(one.placement.origin.plus(by), one.placement.x, one.placement.y),
            tuple(corner.plus(by) for corner in one.corners),
        )
        for panel, one in poses[name].placed.items()
    }
    found[name] = Pose(name, placed)
    return found


def corners_of(faces: Iterable[Face]) -> list[Vec]:
    """Every corner of the faces."""
    return [corner for face in faces for corner in face.corners]


#: Three flat tones from one light: above, to the left and a little before the picture.
_LIGHT = Vec(-0.42, 0.76, 0.50)


def tone(colour: str, normal: Vec) -> str:
    """`colour` in one of three tones, by a face's `normal` in the picture, turned to the viewer."""
    shine = normal.dot(_LIGHT) / (normal.length() * _LIGHT.length())
    if shine > 0.62:
        return mixed(colour, PAGE, 0.16)
    if shine > 0.12:
        return mixed(colour, INK, 0.05)
    return mixed(colour, INK, 0.19)
