"""What can be seen of flat faces in space: exact hidden-surface removal on polygons.

Every face is a polygon in the picture's plane with a depth that runs evenly over it. A face hides
another where the two overlap in the picture and it lies nearer; what stays of each face after that
is what is drawn. Nothing is sampled.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely import STRtree, intersection
from shapely.geometry import LineString, MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from ..folding import Vec
from .views import View

#: mm. Faces whose depths differ by less than this lie in one plane.
LEVEL_MM = 1e-3
#: Faces seen under a flatter angle than this (its sine) are lines, not areas.
_EDGE_ON = 1e-3
#: mm. By how much what hides is grown.
_GROWN_MM = 1e-4
#: mm. The grid on which overlaps are found.
_GRID_MM = 1e-6
#: mm2. Scraps of less are rounding, not paper.
_SCRAP_MM2 = 2e-3


@dataclass(frozen=True, slots=True)
class Face:
    """A flat face in space.

    `corners` in mm; `outward` is where its outside looks. `lift_mm` moves it along `outward` for
    the question of what lies over what, so that faces of one plane have an order; its place in the
    picture stays. `front` and `back` colour its two sides. `group` names the body that it belongs
    to. `soft` are edges (from a corner to the next) that are no edges of the paper and are not
    drawn; `scores` are those drawn as flat scores. `kind` tells what it is to whoever draws it.
    """

    corners: tuple[Vec, ...]
    outward: Vec
    front: str
    back: str
    group: str
    lift_mm: float = 0.0
    soft: tuple[int, ...] = ()
    scores: tuple[int, ...] = ()
    kind: str = "paper"


@dataclass(frozen=True, slots=True)
class Seen:
    """What is seen of a face: its whole area in the picture and the visible part of it.

    `outside` is whether its outside looks at the viewer.
    """

    face: Face
    whole: Polygon
    visible: BaseGeometry
    outside: bool


@dataclass(frozen=True, slots=True)
class _Flat:
    polygon: Polygon
    # depth = a x + b y + c
    a: float
    b: float
    c: float
    outside: bool


def seen(faces: Sequence[Face], view: View) -> list[Seen]:
    """The faces that have any area in the picture, in the order given, with what is seen of them.

    Where two faces lie in one plane, the later one lies on top. Units mm.
    """
    flats: list[tuple[Face, _Flat]] = []
    for face in faces:
        flat = _flattened(face, view)
        if flat is not None:
            flats.append((face, flat))
    if not flats:
        return []
    polygons = [flat.polygon for _, flat in flats]
    tree = STRtree(polygons)
    near, far = tree.query(polygons, predicate="intersects")
    hiding: list[list[BaseGeometry]] = [[] for _ in flats]
    for one, other in zip(near.tolist(), far.tolist(), strict=True):
        if one < other:
            _compare(one, other, flats[one][1], flats[other][1], hiding)
    result = []
    for (face, flat), hidden in zip(flats, hiding, strict=True):
        visible: BaseGeometry = flat.polygon
        if hidden:
            # Grown by less than any eye sees, so that no hairline stays where parts just meet.
            cover = unary_union(hidden).buffer(_GROWN_MM, join_style="bevel")
            visible = _without_scraps(flat.polygon.difference(cover))
        result.append(Seen(face, flat.polygon, visible, flat.outside))
    return result


def _flattened(face: Face, view: View) -> _Flat | None:
    points = [view.place(corner) for corner in face.corners]
    normal = view.place(face.outward)
    if abs(normal.z) < _EDGE_ON:
        return None
    polygon = Polygon([(p.x, p.y) for p in points])
    if polygon.area < _SCRAP_MM2:
        return None
    if not polygon.is_valid:
        polygon = polygon.buffer(0)
    a, b = -normal.x / normal.z, -normal.y / normal.z
    first = points[0]
    lift = face.lift_mm / normal.z
    return _Flat(polygon, a, b, first.z - a * first.x - b * first.y + lift, normal.z > 0)


def _compare(
    one: int, other: int, first: _Flat, second: _Flat, hiding: list[list[BaseGeometry]]
) -> None:
    """Note what the two hide of each other; `one` comes before `other`."""
    # On a grid far finer than any line: neighbours that share an edge but for rounding can
    # otherwise come out as lying over each other.
    overlap = intersection(first.polygon, second.polygon, grid_size=_GRID_MM)
    if overlap.area < _SCRAP_MM2:
        return
    a, b, c = first.a - second.a, first.b - second.b, first.c - second.c
    for part in _polygons(overlap):
        if part.area < _SCRAP_MM2:
            continue
        ahead = [x * a + y * b + c for x, y in part.exterior.coords]
        most, least = max(ahead), min(ahead)
        if most <= LEVEL_MM and least >= -LEVEL_MM:
            hiding[one].append(part)
        elif least >= -LEVEL_MM:
            hiding[other].append(part)
        elif most <= LEVEL_MM:
            hiding[one].append(part)
        else:
            half = _half_plane(part, a, b, c)
            hiding[other].append(part.intersection(half))
            hiding[one].append(part.difference(half))


def _half_plane(part: Polygon, a: float, b: float, c: float) -> Polygon:
    """The part of the plane about `part` where a x + b y + c is above zero."""
    x0, y0, x1, y1 = part.bounds
    reach = 2 * (x1 - x0 + y1 - y0) + 1.0
    size = (a * a + b * b) ** 0.5
    nx, ny = a / size, b / size
    mx, my = (x0 + x1) / 2, (y0 + y1) / 2
    off = (a * mx + b * my + c) / size
    px, py = mx - nx * off, my - ny * off
    far_x, far_y = nx * (reach + abs(off)), ny * (reach + abs(off))
    ux, uy = -ny * reach, nx * reach
    return Polygon(
        [
            (px + ux, py + uy), (px - ux, py - uy),
            (px - ux + far_x, py - uy + far_y), (px + ux + far_x, py + uy + far_y),
        ]
    )  # fmt: skip


def _polygons(shape: BaseGeometry) -> list[Polygon]:
    if isinstance(shape, Polygon):
        return [] if shape.is_empty else [shape]
    if hasattr(shape, "geoms"):
        return [polygon for one in shape.geoms for polygon in _polygons(one)]
    return []


def _without_scraps(shape: BaseGeometry) -> BaseGeometry:
    """The polygons of a shape that are more than rounding: neither tiny nor thinner than a hair."""
    kept = [p for p in _polygons(shape) if p.area > _SCRAP_MM2 and p.area > p.length * 0.012]
    return kept[0] if len(kept) == 1 else MultiPolygon(kept)


def polygons(shape: BaseGeometry) -> list[Polygon]:
    """The polygons of a shape, none for an empty one."""
    return _polygons(shape)


def lines(shape: BaseGeometry) -> list[LineString]:
    """The lines of a shape, none for an empty one."""
    if shape.is_empty:
        return []
    if hasattr(shape, "geoms"):
        return [line for one in shape.geoms for line in lines(one)]
    return [LineString(shape.coords)] if shape.geom_type in ("LineString", "LinearRing") else []
