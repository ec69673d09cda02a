"""Each step of putting together: the move, and the state after it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import hypot

from ..flat import Face as Side
from ..flat import FlatPiece, GlueArea, Score
from ..folding import Angles, Placed, Pose, State, Vec, flat_angles, states
from ..folding import pose as posed
from ..project.design import Design
from ..styles import Construction, Doing, Step
from .body import Looks, Poses, faces_of, moved
from .folded import box_marks, fitting_scale, off_of
from .inks import MOVES, PAGE, Ink
from .layout import box_of, framed
from .layout import moved as shifted
from .scene import XY, Arrow, Drawing, Mark, Stroke
from .views import FRONT_RIGHT, View, candidates

#: mm. The room for both states of a step side by side, and for one alone.
_WIDTH_MM = 168.0
_HEIGHT_MM = 92.0
_APART_MM = 10.0
#: mm. Shorter ways get no arrow: its head alone would fill them.
_LEAST_ARROW_MM = 5.0
#: mm in the picture. How far off its panel an arrow runs.
_OFF_MM = 2.5
#: How much of its way a panel has gone in the picture of the move: the first where the adhesive
#: that it is pressed on is in sight, or else the last.
_UNDER_WAY = (0.5, 0.3, 0.15)
_ENOUGH_GLUE = 0.3


@dataclass(frozen=True, slots=True)
class _Scene:
    """One state to be drawn: poses of the pieces shown, their angles, and the adhesive in sight."""

    poses: Poses
    angles: Mapping[str, Angles]
    glue: Mapping[str, Sequence[GlueArea]]


def step_picture(
    design: Design, step_index: int, *, width_mm: float = _WIDTH_MM, height_mm: float = _HEIGHT_MM
) -> Drawing:
    """Step number `step_index` (from 0) of `design.construction.steps`, seen so that it shows.

    On the left the move under way: what moves is tinted, arrows show where it goes, and the
    adhesive still to be covered is hatched. On the right the state after it. A step without a way
    to show is one picture. Raises `IndexError` for a step that is not there.
    """
    construction = design.construction
    every = states(construction)
    after, before = every[step_index], _before(every, step_index, construction)
    step = after.step
    # Scores are folded before any tape is down.
    ahead = (
        set[str]()
        if step.doing is Doing.CREASE
        else {area for later in construction.steps[step_index + 1 :] for area in later.glue}
    )
    ending = _scene(construction, after, 1.0, before, ahead)
    single = step.doing is Doing.CREASE
    for under_way in _UNDER_WAY:
        starting = _scene(construction, after, under_way, before, ahead | set(step.glue))
        view, in_sight = _best_view(construction, starting, ending, step)
        if in_sight > _ENOUGH_GLUE:
            break
    moving = frozenset((step.piece, panel) for panel in step.moving)
    strapped = _is_strapped(design, before)
    looks_after = Looks(
        frozenset() if single else moving, ending.glue, ending.angles, strap=strapped
    )
    looks_move = Looks(moving, starting.glue, starting.angles, strap=strapped)
    if single:
        layers = box_marks(design, ending.poses, looks_after, view, width_mm * 0.7, height_mm)
        return framed(f"step {step_index + 1}", layers, _alt(design, step, view, single))
    half = (width_mm - _APART_MM) / 2
    scale = min(
        fitting_scale(
            faces_of(construction, scene.poses, design.papers, design.dressing, looks),
            view, half, height_mm,
        )
        for scene, looks in ((starting, looks_move), (ending, looks_after))
    )  # fmt: skip
    left = box_marks(design, starting.poses, looks_move, view, half, height_mm, scale)
    right = box_marks(design, ending.poses, looks_after, view, half, height_mm, scale)
    arrows = _arrows(construction, after, before, starting, under_way, view, scale)
    return framed(
        f"step {step_index + 1}",
        _side_by_side([*left, ("arrows", arrows)], list(right)),
        _alt(design, step, view, single),
    )


def _is_strapped(design: Design, angles: Mapping[str, Angles]) -> bool:
    """Whether the strap is on: its second end goes on once its two panels face each other."""
    strap = design.dressing.strap
    if strap is None:
        return False
    construction = design.construction
    placed = posed(
        construction.piece(strap.piece), construction.stand(strap.piece), angles[strap.piece]
    ).placed
    one, other = (placed[panel].outward for panel in strap.panels)
    return one.dot(other) < -0.99


def _before(every: Sequence[State], index: int, construction: Construction) -> Mapping[str, Angles]:
    if index == 0:
        return {piece.name: flat_angles(piece) for piece in construction.pieces}
    return every[index - 1].angles


def _scene(
    construction: Construction,
    after: State,
    share: float,
    before: Mapping[str, Angles],
    glue: set[str],
) -> _Scene:
    """The pieces shown, with the step `share` of its way done."""
    step = after.step
    angles: dict[str, Angles] = {}
    poses: dict[str, Pose] = {}
    for name in after.shown:
        piece = construction.piece(name)
        start, end = before[name], after.angles[name]
        angles[name] = {key: start[key] + share * (end[key] - start[key]) for key in end}
        poses[name] = posed(piece, construction.stand(name), angles[name])
    if step.doing is Doing.SET_ON and share < 1.0:
        off = off_of(construction, step.piece)
        away = Vec(0, 0, 0).plus(off, _rise(poses, step.piece, off) * share * 2)
        poses = moved(poses, step.piece, away)
    shown = {
        name: [
            area
            for area in construction.piece(name).glue
            if area.name in glue and (name == step.piece)
        ]
        for name in poses
    }
    return _Scene(poses, angles, shown)


def _rise(poses: Poses, name: str, off: Vec) -> float:
    """How far a piece that is set on another starts from its place, mm.

    One that goes on sideways is shown on its way: the picture would be too wide else.
    """
    reach = [corner.dot(off) for one in poses[name].placed.values() for corner in one.corners]
    return 1.5 * (max(reach) - min(reach)) + 12.0 if off.z else 0.75 * (max(reach) - min(reach))


def _side_by_side(
    left: Sequence[tuple[str, list[Mark]]], right: Sequence[tuple[str, list[Mark]]]
) -> list[tuple[str, list[Mark]]]:
    """Two pictures in one, their lowest lines level, an arrow's room between."""
    box_left = box_of([mark for _, marks in left for mark in marks])
    box_right = box_of([mark for _, marks in right for mark in marks])
    dx = box_left[2] - box_right[0] + _APART_MM
    dy = box_left[1] - box_right[1]
    return [
        *left,
        *((f"{name} after", [shifted(mark, dx, dy) for mark in marks]) for name, marks in right),
    ]


# The view ------------------------------------------------------------------------------------


def _best_view(
    construction: Construction, start: _Scene, end: _Scene, step: Step
) -> tuple[View, float]:
    """The view that shows most of what moves and of its adhesive, the usual one where it can.

    Also how much of the adhesive is seen, 0 to 1 (1 where the step has none).

    Points on the moving panels and on the adhesive are tried: whether they look at the viewer and
    nothing stands before them.
    """
    if step.doing is Doing.SET_ON:
        return FRONT_RIGHT, 1.0
    here, there = start.poses[step.piece].placed, end.poses[step.piece].placed
    best, best_score, best_sight = FRONT_RIGHT, -1.0, 0.0
    still = here[construction.stand(step.piece).panel].outward
    areas = [area for area in start.glue.get(step.piece, ()) if area.name in step.glue]
    for rank, candidate in enumerate(candidates(still)):
        sight = (
            sum(_in_sight(area, here, candidate) for area in areas) / len(areas) if areas else 1.0
        )
        score = 6.0 * sight - 0.05 * rank
        for name in step.moving:
            for placed in (here, there):
                facing = abs(placed[name].outward.dot(candidate.toward))
                if _clear(placed, name, _middle(placed[name]), candidate.toward):
                    score += min(1.0, 0.35 + facing) / len(step.moving)
        if score > best_score:
            best, best_score, best_sight = candidate, score, sight
    return best, best_sight


def _in_sight(area: GlueArea, placed: Mapping[str, Placed], view: View) -> float:
    """How much of an adhesive area is seen, 0 to 1, by three points along it."""
    one = placed[area.panel]
    facing = one.outward.dot(view.toward) * (1.0 if area.face is Side.OUTSIDE else -1.0)
    if facing < 0.08:
        return 0.0
    (x0, y0), (x1, y1) = area.corners[0], area.corners[2]
    along_x = x1 - x0 > y1 - y0
    found = 0.0
    for share in (0.2, 0.5, 0.8):
        u, v = (share, 0.5) if along_x else (0.5, share)
        at = one.placement.place((float(x0) + u * float(x1 - x0), float(y0) + v * float(y1 - y0)))
        found += _clear(placed, area.panel, at, view.toward) / 3
    return found * min(1.0, 0.4 + facing)


def _middle(placed: Placed) -> Vec:
    count = len(placed.corners)
    middle = Vec(0, 0, 0)
    for corner in placed.corners:
        middle = middle.plus(corner, 1 / count)
    return middle


def _clear(every: Mapping[str, Placed], panel: str, at: Vec, toward: Vec) -> bool:
    """Whether nothing stands between a point of a panel and the viewer."""
    for other, placed in every.items():
        slope = placed.outward.dot(toward)
        if other == panel or abs(slope) < 1e-9:
            continue
        way = -placed.placement.above(at) / slope
        if way > 0.3 and _within(placed, at.plus(toward, way)):
            return False
    return True


def _within(placed: Placed, at: Vec) -> bool:
    x, y = placed.placement.flat(at)
    ring = [placed.placement.flat(corner) for corner in placed.corners]
    inside = False
    for (x0, y0), (x1, y1) in zip(ring, ring[1:] + ring[:1], strict=True):
        if (y0 > y) != (y1 > y) and x < x0 + (x1 - x0) * (y - y0) / (y1 - y0):
            inside = not inside
    return inside


# Arrows --------------------------------------------------------------------------------------


def _arrows(
    construction: Construction,
    after: State,
    before: Mapping[str, Angles],
    start: _Scene,
    under_way: float,
    view: View,
    scale: float,
) -> list[Mark]:
    """For each panel that moves, an arrow along the way of the middle of its far edge."""
    step = after.step
    piece = construction.piece(step.piece)
    if step.doing is Doing.SET_ON:
        return _on(start, step, off_of(construction, step.piece), view, scale)
    arrows: list[Mark] = []
    for name in step.moving:
        far = _far_point(construction, piece, name, _OFF_MM / scale)
        # A short way is shown from where the panel lay before the step.
        for first in (under_way, 0.0):
            way: list[XY] = []
            for count in range(13):
                share = first + (1.0 - first) * count / 12
                start_at, end_at = before[step.piece], after.angles[step.piece]
                angles = {k: start_at[k] + share * (end_at[k] - start_at[k]) for k in start_at}
                placed = posed(piece, construction.stand(step.piece), angles).placed[name]
                at = view.place(placed.placement.place(far))
                way.append((at.x * scale, at.y * scale))
            if _length(way) > _LEAST_ARROW_MM:
                arrows += _arrow(way)
                break
    return arrows


#: A pale line under an arrow, so that it stands out from what it crosses.
_HALO = Ink("halo", "", PAGE, 2.0)


def _arrow(way: Sequence[XY]) -> list[Mark]:
    return [Stroke(tuple(way), _HALO), Arrow(tuple(way), MOVES, head_mm=3.6)]


def _far_point(
    construction: Construction, piece: FlatPiece, name: str, off_mm: float
) -> tuple[float, float]:
    """The middle of the panel's edge farthest from the score that it hangs on, `off_mm` beyond."""
    corners = piece.panel(name).corners
    hinge = _hinge(construction, piece, name)
    x0, y0 = float(hinge.start.x), float(hinge.start.y)
    ux, uy = float(hinge.end.x) - x0, float(hinge.end.y) - y0
    run = hypot(ux, uy)
    # The unit step square to the hinge, towards the panel.
    nx, ny = (-uy / run, ux / run) if hinge.panels[0] == name else (uy / run, -ux / run)
    x, y = max(
        (
            (float(a.x + b.x) / 2, float(a.y + b.y) / 2)
            for a, b in zip(corners, corners[1:] + corners[:1], strict=True)
        ),
        key=lambda m: (m[0] - x0) * nx + (m[1] - y0) * ny,
    )
    return x + nx * off_mm, y + ny * off_mm


def _hinge(construction: Construction, piece: FlatPiece, name: str) -> Score:
    """The score on the way from the standing panel to this one."""
    reached = {construction.stand(piece.name).panel}
    while True:
        for score in piece.scores:
            one, other = score.panels
            if (one in reached) != (other in reached):
                new = other if one in reached else one
                if new == name:
                    return score
                reached.add(new)
                break
        else:
            raise KeyError(name)


def _on(start: _Scene, step: Step, off: Vec, view: View, scale: float) -> list[Mark]:
    """An arrow on the way of a piece that is set on: below a lid's front corner, below a sleeve."""
    corners = [c for one in start.poses[step.piece].placed.values() for c in one.corners]
    lowest = min(corners, key=lambda c: view.place(c).y)
    way = min(_rise(start.poses, step.piece, off) * 0.7, 30.0 / scale)
    clear = 2.0 / scale
    start_at = lowest if off.z else lowest.plus(Vec(0, 0, 1), -2 * clear)
    ends = (start_at.plus(off, -clear), start_at.plus(off, -way))
    places = [view.place(end) for end in ends]
    return _arrow([(p.x * scale, p.y * scale) for p in places])


def _length(way: Sequence[XY]) -> float:
    """How far a way leads, mm: from its start to its end."""
    (x0, y0), (x1, y1) = way[0], way[-1]
    return hypot(x1 - x0, y1 - y0)


def _alt(design: Design, step: Step, view: View, single: bool) -> str:
    moving = ", ".join(step.moving)
    if step.doing is Doing.SET_ON:
        moving = f"the {step.piece}"
    glue = " The adhesive still to be covered is hatched." if step.glue else ""
    way = "" if single else " Left, the move under way; right, the state after it."
    return (
        f"{step.title}. The {step.piece} {view.lies}, seen {view.seen}. "
        f"What moves: {moving}.{way}{glue}"
    )
