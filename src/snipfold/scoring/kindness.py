"""How hard a number is to find on a ruler."""

from __future__ import annotations

from ..measure import Length, System

#: A number that no ruler of the system carries: harder than the finest mark, 1/64 in.
_NOT_ON_A_RULER = 7

#: After this length a ruler's marks repeat: moving a piece by it changes no number's kindness.
REPEATS = {System.INCH: Length.inch(1), System.METRIC: Length.cm(1)}


def unkindness(length: Length, system: System) -> int:
    """How hard `length` is to find on a ruler: 0 for a whole number, more for a finer mark.

    Inches: how often the inch is halved to reach the mark (1/2 in is 1, 1/16 in is 4).
    Metric: 1 for the half centimetre, 2 for a millimetre, 3 for half of one. 7 for a length
    that such marks do not reach. Common practice, no source: longer marks are read with fewer
    mistakes; only the order matters, and sums of these over a pass weigh one way against another.

    >>> [unkindness(Length.inch(n), System.INCH) for n in ("3", "3/2", "5/8")]
    [0, 1, 3]
    >>> [unkindness(Length.cm(n), System.METRIC) for n in ("3", "3.5", "3.6")]
    [0, 1, 2]
    """
    if system is System.INCH:
        parts = length.as_inch.denominator
        return (
            parts.bit_length() - 1 if parts & (parts - 1) == 0 and parts <= 64 else _NOT_ON_A_RULER
        )
    millimetres = length.as_mm
    for hardness, step in enumerate((10, 5, 1)):
        if (millimetres / step).denominator == 1:
            return hardness
    return 3 if millimetres.denominator == 2 else _NOT_ON_A_RULER
