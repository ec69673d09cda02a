"""Workshops for the tests: coarse rulers, long trimmers, paper without thickness."""

from __future__ import annotations

from dataclasses import replace

from snipfold.measure import ZERO, Length, Ruler, System
from snipfold.workshop import Paper, Workshop, default_workshop

INCH = default_workshop(System.INCH)
METRIC = default_workshop(System.METRIC)


def with_marks(marks: str, workshop: Workshop = INCH) -> Workshop:
    """The workshop with ruler and trimmer marked that far apart, inches."""
    ruler = Ruler(Length.inch(marks))
    return replace(workshop, ruler=ruler, trimmer=replace(workshop.trimmer, ruler=ruler))


def ideal(workshop: Workshop = INCH) -> Workshop:
    """The workshop with tape of no thickness and a trimmer as long as any sheet."""
    return replace(
        workshop,
        trimmer=replace(workshop.trimmer, longest_cut=Length.inch(200)),
        adhesives=tuple(replace(one, thickness=ZERO) for one in workshop.adhesives),
    )


def sheet(width: str, height: str, *, thin: bool = False) -> Paper:
    """A sheet of that size, inches; `thin` as no paper is."""
    first = INCH.papers[0]
    return replace(
        first,
        name=f"{width} x {height}",
        width=Length.inch(width),
        height=Length.inch(height),
        thickness=ZERO if thin else first.thickness,
    )
