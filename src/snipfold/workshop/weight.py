"""Paper weights: pounds a ream to g/m2, and weight to thickness."""

from __future__ import annotations

from fractions import Fraction

from ..measure import Length

#: Basic sheet of each US trade grade, inches (facts: published basis-weight tables, as at
#: ivexsp.com, "Basis weight metric conversions").
BASIC_SHEETS: dict[str, tuple[Fraction, Fraction]] = {
    "bond": (Fraction(17), Fraction(22)),
    "text": (Fraction(25), Fraction(38)),
    "cover": (Fraction(20), Fraction(26)),
    "index": (Fraction(51, 2), Fraction(61, 2)),
    "bristol": (Fraction(45, 2), Fraction(57, 2)),
    "tag": (Fraction(24), Fraction(36)),
}

#: g in an avoirdupois pound, exactly (international pound of 1959).
_GRAMS_PER_POUND = Fraction(45359237, 100000)
#: m in an inch, exactly.
_METRES_PER_INCH = Fraction(254, 10000)
_SHEETS_PER_REAM = 500

#: cm3/g. Specific volume of uncoated cover stock where no thickness was measured: the mean of a
#: published weight-and-caliper chart (65 to 120 lb cover gives 1.03 to 1.17, marked there as a
#: guide only).
COVER_BULK = Fraction(112, 100)


def grams_per_square_metre(pounds: Fraction, grade: str) -> Fraction:
    """The weight in g/m2, exactly, of paper of `pounds` a ream of 500 basic sheets of `grade`.

    Raises `KeyError` for a grade that is not in `BASIC_SHEETS`.
    """
    width, height = BASIC_SHEETS[grade]
    area = width * height * _METRES_PER_INCH**2
    return pounds * _GRAMS_PER_POUND / (_SHEETS_PER_REAM * area)


def thickness(gsm: Fraction, bulk: Fraction = COVER_BULK) -> Length:
    """The thickness of paper of `gsm` g/m2 and specific volume `bulk` cm3/g (ISO 534).

    >>> thickness(Fraction(80), Fraction(3, 2)) == Length.mm("0.12")
    True
    """
    return Length.mm(gsm * bulk / 1000)


def thickness_of_points(points: Fraction) -> Length:
    """The thickness of `points` thousandths of an inch."""
    return Length.inch(points / 1000)
