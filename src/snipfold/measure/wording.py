"""Words for a measure, as a ruler reads: "3 7/8 in", "9.8 cm"."""

from __future__ import annotations

from fractions import Fraction

from .length import Length
from .system import System

#: Finest inch fraction that a maker's ruler is read to.
_FINEST_INCH = 64
#: Finest part of a millimetre that is worded.
_FINEST_MM = 100

_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_LOWERED = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")


def _half_up(value: Fraction) -> int:
    return (value + Fraction(1, 2)).__floor__()


def _inch_parts(length: Length) -> tuple[bool, int, Fraction]:
    """Whether exact, the whole inches, and the fraction left, of the magnitude."""
    inches = abs(length.as_inch)
    denominator = inches.denominator
    exact = denominator <= _FINEST_INCH and denominator & (denominator - 1) == 0
    if not exact:
        inches = Fraction(_half_up(inches * _FINEST_INCH), _FINEST_INCH)
    whole = inches.__floor__()
    return exact, whole, inches - whole


def carried(length: Length, system: System) -> bool:
    """Whether some ruler of that system carries the length: 64ths of an inch, 0.01 mm."""
    if system is System.INCH:
        return _inch_parts(length)[0]
    return (length.as_mm * _FINEST_MM).denominator == 1


def number(length: Length, system: System) -> str:
    """The number alone, without its unit: "3 7/8", "9.8" (centimetres, or below 1 cm "0.8").

    A measure that no mark of that system carries is given as "about" the nearest 1/64 in, or
    hundredth of a millimetre.

    >>> number(Length.inch("31/8"), System.INCH), number(Length.mm(98), System.METRIC)
    ('3 7/8', '9.8')
    """
    sign = "-" if length < Length.mm(0) else ""
    if system is System.INCH:
        exact, whole, part = _inch_parts(length)
        text = (f"{whole} {part}" if whole else str(part)) if part else str(whole)
        return f"{'' if exact else 'about '}{sign}{text}"
    millimetres = abs(length.as_mm)
    rounded = Fraction(_half_up(millimetres * _FINEST_MM), _FINEST_MM)
    text = f"{float(rounded / 10):.3f}".rstrip("0").rstrip(".")
    return f"{'' if rounded == millimetres else 'about '}{sign}{text}"


def unit_word(system: System) -> str:
    """The unit that `number` counts in."""
    return "in" if system is System.INCH else "cm"


def words(length: Length, system: System) -> str:
    """The measure with its unit.

    >>> words(Length.inch("23/2"), System.INCH), words(Length.cm("17.25"), System.METRIC)
    ('11 1/2 in', '17.25 cm')
    """
    return f"{number(length, system)} {unit_word(system)}"


def typeset_number(length: Length, system: System) -> str:
    """As `number`, with real fractions in Unicode (raised and lowered figures, fraction slash).

    >>> typeset_number(Length.inch("31/8"), System.INCH)
    '3⁷⁄₈'
    """
    if system is System.METRIC:
        return number(length, system)
    exact, whole, part = _inch_parts(length)
    fraction = (
        f"{str(part.numerator).translate(_RAISED)}⁄{str(part.denominator).translate(_LOWERED)}"
        if part
        else ""
    )
    sign = "−" if length < Length.mm(0) else ""
    return f"{'' if exact else '≈ '}{sign}{whole if whole or not part else ''}{fraction}"


def typeset(length: Length, system: System) -> str:
    """As `words`, with real fractions."""
    return f"{typeset_number(length, system)} {unit_word(system)}"
