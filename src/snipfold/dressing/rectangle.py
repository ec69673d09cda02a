"""Upright rectangles on a blank, exact: what mats, feet and tape are."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from ..flat import Point
from ..measure import Length


class Rectangle(NamedTuple):
    """A rectangle along the blank's edges, mm."""

    left: Fraction
    low: Fraction
    right: Fraction
    high: Fraction

    @classmethod
    def around(cls, corners: Sequence[Point]) -> Rectangle:
        """The smallest rectangle that holds all `corners`."""
        across, up = [corner.x for corner in corners], [corner.y for corner in corners]
        return cls(min(across), min(up), max(across), max(up))

    @property
    def across(self) -> Length:
        """Its size along x."""
        return Length.mm(self.right - self.left)

    @property
    def up(self) -> Length:
        """Its size along y."""
        return Length.mm(self.high - self.low)

    @property
    def shorter(self) -> Length:
        """The shorter of its sides."""
        return min(self.across, self.up)

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Its corners, anticlockwise from the lower left."""
        return (
            Point(self.left, self.low),
            Point(self.right, self.low),
            Point(self.right, self.high),
            Point(self.left, self.high),
        )

    def drawn_in(self, border: Length) -> Rectangle:
        """This rectangle less `border` on each side (more, where `border` is below zero)."""
        by = border.as_mm
        return Rectangle(self.left + by, self.low + by, self.right - by, self.high - by)

    def overlap(self, other: Rectangle) -> Length:
        """How far this one must draw back from `other` to be clear of it; zero when it is."""
        across = min(self.right, other.right) - max(self.left, other.left)
        up = min(self.high, other.high) - max(self.low, other.low)
        return Length.mm(min(across, up) if across > 0 and up > 0 else 0)


def is_rectangle(corners: Sequence[Point]) -> bool:
    """Whether the corners, in order round a polygon, are those of an upright rectangle."""
    return len(corners) == 4 and set(corners) == set(Rectangle.around(corners).corners)
