"""Where panels in space touch, overlap or cross."""

from __future__ import annotations

from collections.abc import Sequence

from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from ..measure.tolerance import COPLANAR_MM, OVERLAP_MM2, PIERCE_MM
from .pose import Placed
from .space import Vec

#: Two unit normals are parallel when their cross product is shorter than this: over the longest
#: sheet (1 m) the planes then part by less than a micrometre.
_PARALLEL = 1e-9


def coplanar(one: Placed, other: Placed) -> bool:
    """Whether two panels lie in one plane (either way up)."""
    if one.outward.cross(other.outward).length() > _PARALLEL:
        return False
    return all(abs(one.placement.above(corner)) < COPLANAR_MM for corner in other.corners)


def outline(placed: Placed, seen_in: Placed) -> Polygon:
    """A panel's outline in the blank coordinates of another panel's plane, mm."""
    return Polygon([seen_in.placement.flat(corner) for corner in placed.corners])


def overlap(one: Placed, other: Placed) -> BaseGeometry | None:
    """Where two coplanar panels overlap, in the first one's plane; None where they only touch."""
    common = outline(one, one).intersection(outline(other, one))
    return common if common.area > OVERLAP_MM2 else None


def pierces(one: Placed, other: Placed) -> float:
    """By how much two panels that are not coplanar pass through each other, mm; 0 if they do not.

    The depth is the least distance by which one would have to draw back out of the other.
    Panels are convex.
    """
    depth_one, span_one = _through(one.corners, other)
    depth_two, span_two = _through(other.corners, one)
    if not span_one or not span_two:
        return 0.0
    along = one.outward.cross(other.outward).unit()
    (low_one, high_one), (low_two, high_two) = _range(span_one, along), _range(span_two, along)
    if min(high_one, high_two) - max(low_one, low_two) <= PIERCE_MM:
        return 0.0
    return min(depth_one, depth_two)


def _through(corners: Sequence[Vec], plane: Placed) -> tuple[float, list[Vec]]:
    """How far a polygon reaches through a plane on its shorter side, and where it meets it."""
    above = [plane.placement.above(corner) for corner in corners]
    depth = min(max(above), -min(above))
    if depth <= PIERCE_MM:
        return 0.0, []
    crossing = []
    for i, corner in enumerate(corners):
        after = (i + 1) % len(corners)
        if above[i] * above[after] < 0:
            share = above[i] / (above[i] - above[after])
            crossing.append(corner.plus(corners[after].minus(corner), share))
        elif above[i] == 0:
            crossing.append(corner)
    return depth, crossing


def _range(points: Sequence[Vec], along: Vec) -> tuple[float, float]:
    at = [point.dot(along) for point in points]
    return min(at), max(at)
