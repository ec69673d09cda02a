"""`Length`: an exact measure."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction
from functools import total_ordering

from .tolerance import FIGURE_MM

#: mm in an inch, exactly (international inch of 1959; NIST SP 811 prints the factor as exact).
MM_PER_INCH = Fraction(127, 5)

Exact = int | Fraction | Decimal | str


def _fraction(value: Exact, unit: str) -> Fraction:
    if isinstance(value, bool) or not isinstance(value, int | Fraction | Decimal | str):
        raise TypeError(
            f"Length.{unit}() takes a whole number, a Fraction, a Decimal or a string such as "
            f"'7/8', so that the measure stays exact; not {type(value).__name__} {value!r}"
        )
    return Fraction(value)


@total_ordering
class Length:
    """An exact length: a rational number of millimetres, never a float.

    Made by naming the unit, read by naming the unit:

    >>> Length.inch("3/8") + Length.mm(5)
    Length.mm('581/40')
    >>> (Length.inch("3/8") * 8).as_inch
    Fraction(3, 1)

    Adding a bare number is an error, since it has no unit; so is multiplying two lengths
    (areas are worked out by whoever needs them, from `as_mm`).
    """

    __slots__ = ("_mm",)
    _mm: Fraction

    def __init__(self) -> None:
        raise TypeError("say the unit: Length.mm(…), Length.cm(…) or Length.inch(…)")

    @classmethod
    def _of(cls, mm: Fraction) -> Length:
        made = object.__new__(cls)
        object.__setattr__(made, "_mm", mm)
        return made

    @classmethod
    def mm(cls, value: Exact) -> Length:
        """The length of `value` millimetres."""
        return cls._of(_fraction(value, "mm"))

    @classmethod
    def cm(cls, value: Exact) -> Length:
        """The length of `value` centimetres."""
        return cls._of(_fraction(value, "cm") * 10)

    @classmethod
    def inch(cls, value: Exact) -> Length:
        """The length of `value` inches (25.4 mm each, exactly)."""
        return cls._of(_fraction(value, "inch") * MM_PER_INCH)

    @classmethod
    def figure(cls, mm: float) -> Length:
        """The length of a float `mm` measured in three dimensions, rounded to 1e-6 mm.

        For the figures of checks and findings only; it never goes back into a design.
        """
        return cls._of(round(Fraction(mm) / FIGURE_MM) * FIGURE_MM)

    @property
    def as_mm(self) -> Fraction:
        """Millimetres, exactly."""
        return self._mm

    @property
    def as_cm(self) -> Fraction:
        """Centimetres, exactly."""
        return self._mm / 10

    @property
    def as_inch(self) -> Fraction:
        """Inches, exactly."""
        return self._mm / MM_PER_INCH

    @property
    def float_mm(self) -> float:
        """Millimetres as a float, for three dimensions and pictures."""
        return float(self._mm)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError("a Length never changes; make a new one")

    def __reduce__(self) -> tuple[object, ...]:
        return (Length.mm, (self._mm,))

    def _other(self, other: object, doing: str) -> Fraction:
        if isinstance(other, Length):
            return other._mm
        raise TypeError(
            f"cannot {doing} a Length and {other!r}: say its unit, as in Length.mm({other!r}) "
            f"or Length.inch({other!r})"
        )

    def __add__(self, other: Length) -> Length:
        return Length._of(self._mm + self._other(other, "add"))

    def __sub__(self, other: Length) -> Length:
        return Length._of(self._mm - self._other(other, "subtract"))

    def __neg__(self) -> Length:
        return Length._of(-self._mm)

    def __abs__(self) -> Length:
        return Length._of(abs(self._mm))

    def __mul__(self, times: int | Fraction) -> Length:
        if isinstance(times, bool) or not isinstance(times, int | Fraction):
            raise TypeError(
                f"a Length is multiplied by a whole number or a Fraction, not {times!r}"
            )
        return Length._of(self._mm * times)

    __rmul__ = __mul__

    def __truediv__(self, by: int | Fraction) -> Length:
        if isinstance(by, bool) or not isinstance(by, int | Fraction):
            raise TypeError(
                f"a Length is divided by a whole number or a Fraction, not {by!r}; "
                "the ratio of two lengths is a.over(b)"
            )
        return Length._of(self._mm / by)

    def over(self, other: Length) -> Fraction:
        """The exact ratio of this length to `other`."""
        return self._mm / self._other(other, "compare")

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Length) and self._mm == other._mm

    def __lt__(self, other: Length) -> bool:
        return self._mm < self._other(other, "compare")

    def __hash__(self) -> int:
        return hash(("Length", self._mm))

    def __bool__(self) -> bool:
        return self._mm != 0

    def __repr__(self) -> str:
        return f"Length.mm('{self._mm}')"


ZERO = Length.mm(0)


def total(lengths: Iterable[Length]) -> Length:
    """The exact sum of an iterable of lengths (zero for none)."""
    result = ZERO
    for length in lengths:
        result = result + length
    return result
