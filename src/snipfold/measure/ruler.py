"""`Ruler`: what a tool can be set to."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from .length import Length


@dataclass(frozen=True, slots=True)
class Ruler:
    """A graduation, counted from zero: 1/16 in of a trimmer, 1/8 in of a scoring board, 1 mm."""

    graduation: Length

    def __post_init__(self) -> None:
        if self.graduation <= Length.mm(0):
            raise ValueError("a graduation is more than zero")

    def marks(self, length: Length) -> Fraction:
        """How many graduations `length` is, exactly; a whole number when it lies on a mark."""
        return length.over(self.graduation)

    def has(self, length: Length) -> bool:
        """Whether `length` lies on a mark."""
        return self.marks(length).denominator == 1

    def below(self, length: Length) -> Length:
        """The mark at or next below `length`."""
        return self.graduation * math.floor(self.marks(length))

    def above(self, length: Length) -> Length:
        """The mark at or next above `length`."""
        return self.graduation * math.ceil(self.marks(length))

    def nearest(self, length: Length) -> Length:
        """The mark nearest to `length`; half way between two marks, the larger one.

        One rule everywhere: the exact measure is rounded once, at the end (as the NIST metric
        style guide asks), and a tie goes up, as a maker reads "a little over".
        """
        return self.graduation * math.floor(self.marks(length) + Fraction(1, 2))
