"""The box as it stands: parallel projection, hidden surfaces removed, three flat tones."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from shapely.geometry import LineString, MultiPoint
from shapely.geometry.base import BaseGeometry
from shapely.ops import linemerge, unary_union

from ..folding import Vec
from ..folding import closed as closed_poses
from ..project.design import Design
from ..styles import Construction
from .body import Looks, Poses, corners_of, faces_of, moved, tone
from .inks import GLUE, MOUNTAIN, NARROW_MM, OUTLINE, THIN, Ink
from .layout import framed
from .scene import Drawing, Fill, Hatch, Mark, Ring, Stroke
from .solid import Face, Seen, lines, polygons, seen
from .views import FROM_ABOVE, FRONT_RIGHT, View

#: mm. The room for the picture of a finished box.
_WIDTH_MM = 130.0
_HEIGHT_MM = 120.0
#: mm in the picture. How wide the paper's edge is drawn where it is seen: wider than it is, or it
#: would vanish between two lines.
_RIM_MM = 0.7
_SHADE = "#EEEFEB"
_GLUE_GROUND = "#F6EBD8"
_FLAT_SCORE = Ink(MOUNTAIN.key, MOUNTAIN.means, MOUNTAIN.colour, NARROW_MM, MOUNTAIN.dashes_mm)


def folded_picture(
    design: Design,
    *,
    closed: bool = True,
    view: View | None = None,
    width_mm: float = _WIDTH_MM,
    height_mm: float = _HEIGHT_MM,
) -> Drawing:
    """The finished box, at most `width_mm` x `height_mm`; with `closed` false its lid is lifted.

    It is seen from the front right unless told otherwise, and from higher up where it is flat.
    Papers, mats and the strap have their own colours, the inside that of the paper's back.
    """
    poses: Poses = closed_poses(design.construction)
    lifted = [] if closed else [slide.outer for slide in design.construction.slides]
    if view is None:
        view = FROM_ABOVE if design.construction.cavity.flat else FRONT_RIGHT
    for name in lifted:
        poses = moved(poses, name, _lift(poses, name, off_of(design.construction, name)))
    marks = box_marks(design, poses, Looks(), view, width_mm, height_mm)
    return framed("finished box", marks, _alt(design, lifted, view))


def off_of(construction: Construction, name: str) -> Vec:
    """The way in which a piece comes off what it slides over: up where nothing is said of it."""
    for slide in construction.slides:
        if slide.outer == name:
            return Vec(*map(float, slide.off))
    return Vec(0.0, 0.0, 1.0)


def _lift(poses: Poses, name: str, off: Vec) -> Vec:
    """How far a lid is lifted: clear of what it covers, and as much again of its own height.

    One that comes off sideways is drawn most of its own length off.
    """
    if not off.z:
        reach = [corner.dot(off) for one in poses[name].placed.values() for corner in one.corners]
        return Vec(0, 0, 0).plus(off, 0.75 * (max(reach) - min(reach)))
    heights = [corner.z for one in poses[name].placed.values() for corner in one.corners]
    deepest = max(
        corner.z
        for other, pose in poses.items()
        if other != name
        for one in pose.placed.values()
        for corner in one.corners
    )
    lid = max(heights) - min(heights)
    return Vec(0.0, 0.0, deepest - min(heights) + max(1.2 * lid, 0.6 * deepest))


def _alt(design: Design, lifted: Sequence[str], view: View) -> str:
    pieces = " and ".join(piece.name for piece in design.construction.pieces)
    dressed = []
    if design.dressing.mats:
        dressed.append(f"{len(design.dressing.mats)} mats")
    if design.dressing.strap is not None:
        dressed.append("a strap")
    extra = f", with {' and '.join(dressed)}" if dressed else ""
    lid = f", the {' and '.join(lifted)} lifted off" if lifted else ""
    return f"The finished {design.style.name} ({pieces}){extra}{lid}, seen {view.seen}."


def box_marks(
    design: Design,
    poses: Poses,
    looks: Looks,
    view: View,
    width_mm: float,
    height_mm: float,
    scale: float | None = None,
) -> tuple[tuple[str, list[Mark]], ...]:
    """The layers of a picture of posed pieces, scaled to fit the room (never larger than life)."""
    faces = faces_of(design.construction, poses, design.papers, design.dressing, looks)
    if scale is None:
        scale = fitting_scale(faces, view, width_mm, height_mm)
    rims = replace(looks, rim_mm=_RIM_MM / scale)
    faces = faces_of(design.construction, poses, design.papers, design.dressing, rims)
    return picture(faces, view, scale)


def fitting_scale(faces: Sequence[Face], view: View, width_mm: float, height_mm: float) -> float:
    """The scale, at most 1, at which the faces and their shade fit the room."""
    corners = corners_of(faces)
    fall = _fall(corners, view)
    places = [view.place(corner) for corner in corners]
    places += [view.place(fall(corner)) for corner in corners]
    wide = max(p.x for p in places) - min(p.x for p in places)
    high = max(p.y for p in places) - min(p.y for p in places)
    return min(1.0, (width_mm - 3.0) / wide, (height_mm - 3.0) / high)


def picture(faces: Sequence[Face], view: View, scale: float) -> tuple[tuple[str, list[Mark]], ...]:
    """The layers of a picture of faces in space: shade, paper, adhesive, lines."""
    scaled = [_scaled(face, scale) for face in faces]
    seen_faces = seen(scaled, view)
    shapes: dict[str, dict[str, list[BaseGeometry]]] = {}
    glue: list[Mark] = []
    for one in seen_faces:
        if one.visible.is_empty:
            continue
        if one.face.kind == "glue":
            for polygon in polygons(one.visible):
                rings = _rings(polygon)
                glue += [Fill(rings, _GLUE_GROUND), Hatch(rings, GLUE)]
            continue
        colour = tone(_colour(one), _toward(one, view))
        # A hair wider than it is, so that no light shows between neighbours.
        wider = one.visible.buffer(_SAME_MM, join_style="bevel")
        shapes.setdefault(one.face.group, {}).setdefault(colour, []).append(wider)
    paper: list[Mark] = []
    bodies = []
    for tones in shapes.values():
        whole = {colour: unary_union(parts) for colour, parts in tones.items()}
        bodies.append(unary_union(list(whole.values())))
        for colour, shape in whole.items():
            paper += [Fill(_rings(polygon), colour) for polygon in polygons(shape)]
    narrow, wide, dashed = _edges(seen_faces, bodies, view)
    return (
        ("shade", _shade(scaled, view)),
        ("paper", paper),
        ("glue", glue),
        ("score", dashed),
        ("edges", narrow),
        ("outline", wide),
    )


def _scaled(face: Face, scale: float) -> Face:
    return Face(
        tuple(Vec(c.x * scale, c.y * scale, c.z * scale) for c in face.corners),
        face.outward, face.front, face.back, face.group, face.lift_mm, face.soft, face.scores,
        face.kind,
    )  # fmt: skip


def _colour(one: Seen) -> str:
    return one.face.front if one.outside else one.face.back


def _toward(one: Seen, view: View) -> Vec:
    normal = view.place(one.face.outward)
    return normal if one.outside else Vec(-normal.x, -normal.y, -normal.z)


def _rings(polygon: BaseGeometry) -> tuple[Ring, ...]:
    outer = tuple((x, y) for x, y in polygon.exterior.coords[:-1])
    inner = tuple(tuple((x, y) for x, y in ring.coords[:-1]) for ring in polygon.interiors)
    return (outer, *inner)


#: mm. Lines closer than this are one line.
_SAME_MM = 0.015


def _edges(
    seen_faces: Sequence[Seen], bodies: Sequence[BaseGeometry], view: View
) -> tuple[list[Mark], list[Mark], list[Mark]]:
    """The lines of the picture: between faces narrow, round each body wide, flat scores dashed."""
    rims: list[BaseGeometry] = []
    soft: list[BaseGeometry] = []
    joints: list[BaseGeometry] = []
    scores: list[BaseGeometry] = []
    for one in seen_faces:
        if one.visible.is_empty:
            continue
        places = [view.place(corner) for corner in one.face.corners]
        ring = [(p.x, p.y) for p in [*places, places[0]]]
        for index in one.face.soft:
            soft.append(LineString(ring[index : index + 2]))
            if one.face.kind == "foot":
                joints.append(soft[-1])
        for index in one.face.scores:
            scores.append(LineString(ring[index : index + 2]))
        rims.append(one.visible.boundary)
    outline = unary_union([body.boundary for body in bodies])
    if joints:
        outline = outline.difference(unary_union(joints).buffer(2 * _SAME_MM))
    inner = unary_union(rims)
    visible_scores: BaseGeometry | None = None
    if scores:
        score_lines = unary_union(scores)
        near = score_lines.buffer(_SAME_MM)
        visible_scores = linemerge(unary_union(lines(inner.intersection(near))))
        inner = inner.difference(near)
        # Two boundaries that run along one score are one line.
        visible_scores = score_lines.intersection(inner.envelope.buffer(1)).intersection(
            visible_scores.buffer(_SAME_MM)
        )
    if soft:
        inner = inner.difference(unary_union(soft).buffer(_SAME_MM))
    inner = inner.difference(outline.buffer(_SAME_MM * 2.5))
    return (
        [Stroke(tuple(line.coords), THIN) for line in _merged(inner)],
        [Stroke(tuple(line.coords), OUTLINE) for line in _merged(outline)],
        [Stroke(tuple(line.coords), _FLAT_SCORE) for line in _merged(visible_scores)]
        if visible_scores is not None
        else [],
    )


def _merged(shape: BaseGeometry) -> list[LineString]:
    parts = [line for line in lines(shape) if line.length > 0.08]
    if len(parts) < 2:
        return parts
    return [line for line in lines(linemerge(parts)) if line.length > 0.08]


#: How the shade falls on the table: from a light high up on the left, before the box.
_FALL = (0.30, 0.16)


def _fall(corners: Sequence[Vec], view: View) -> Callable[[Vec], Vec]:
    """Where the shade of a point falls on the table on which the lowest of these corners lies."""
    ground = min(corner.dot(view.ground) for corner in corners)
    nothing = Vec(0, 0, 0)
    level = view.toward.minus(nothing.plus(view.ground, view.toward.dot(view.ground))).unit()
    aside = nothing.plus(view.right, _FALL[0]).plus(level, -_FALL[1])

    def fall(corner: Vec) -> Vec:
        height = corner.dot(view.ground) - ground
        return corner.plus(view.ground, -height).plus(aside, height)

    return fall


def _shade(faces: Sequence[Face], view: View) -> list[Mark]:
    """The box's flat shade on the table."""
    fall = _fall(corners_of(faces), view)
    shapes = []
    for face in faces:
        places = [view.place(fall(corner)) for corner in face.corners]
        shapes.append(MultiPoint([(p.x, p.y) for p in places]).convex_hull)
    whole = unary_union([shape for shape in shapes if shape.area > 0.01])
    return [Fill(_rings(polygon), _SHADE) for polygon in polygons(whole)]
