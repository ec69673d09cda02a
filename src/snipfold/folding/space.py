"""Points, directions and rigid placements in space, in floats.

Floats begin here. Lengths are mm; x to the right, y to the back, z up.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

from ..flat import Point


class Vec(NamedTuple):
    """A point or direction in space, mm."""

    x: float
    y: float
    z: float

    def plus(self, other: Vec, times: float = 1.0) -> Vec:
        """This point moved along `other`, `times` its length."""
        return Vec(self.x + times * other.x, self.y + times * other.y, self.z + times * other.z)

    def minus(self, other: Vec) -> Vec:
        """The step from `other` to this point."""
        return Vec(self.x - other.x, self.y - other.y, self.z - other.z)

    def dot(self, other: Vec) -> float:
        """The scalar product."""
        return self.x * other.x + self.y * other.y + self.z * other.z

    def cross(self, other: Vec) -> Vec:
        """The vector product."""
        return Vec(
            self.y * other.z - self.z * other.y,
            self.z * other.x - self.x * other.z,
            self.x * other.y - self.y * other.x,
        )

    def length(self) -> float:
        """The length, mm."""
        return math.sqrt(self.dot(self))

    def unit(self) -> Vec:
        """The direction of length one. Raises `ZeroDivisionError` for no direction."""
        length = self.length()
        return Vec(self.x / length, self.y / length, self.z / length)


def turned(step: Vec, axis: Vec, degrees: float) -> Vec:
    """`step` turned about the unit `axis` by the right-hand rule.

    Quarter turns are exact. Source: Rodrigues' rotation formula.
    """
    quarter, rest = divmod(degrees, 90)
    if rest == 0:
        cos, sin = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4]
    else:
        angle = math.radians(degrees)
        cos, sin = math.cos(angle), math.sin(angle)
    along = axis.dot(step) * (1 - cos)
    across = axis.cross(step)
    return Vec(
        step.x * cos + across.x * sin + axis.x * along,
        step.y * cos + across.y * sin + axis.y * along,
        step.z * cos + across.z * sin + axis.z * along,
    )


@dataclass(frozen=True, slots=True)
class Placement:
    """Where the blank's plane lies: its point (0, 0), and where its x and y run (unit steps)."""

    origin: Vec
    x: Vec
    y: Vec

    @property
    def outward(self) -> Vec:
        """The direction in which the outside face looks."""
        return self.x.cross(self.y)

    def place(self, point: Point | tuple[float, float]) -> Vec:
        """The place in space of a point of the blank, mm."""
        return self.origin.plus(self.x, float(point[0])).plus(self.y, float(point[1]))

    def flat(self, place: Vec) -> tuple[float, float]:
        """The blank's coordinates of the point of this plane nearest to `place`, mm."""
        step = place.minus(self.origin)
        return step.dot(self.x), step.dot(self.y)

    def above(self, place: Vec) -> float:
        """How far `place` lies off this plane on its outside, mm."""
        return place.minus(self.origin).dot(self.outward)

    def turned(self, hinge: Vec, axis: Vec, degrees: float) -> Placement:
        """This placement turned about the line through `hinge` along the unit `axis`."""
        return Placement(
            hinge.plus(turned(self.origin.minus(hinge), axis, degrees)),
            turned(self.x, axis, degrees),
            turned(self.y, axis, degrees),
        )
