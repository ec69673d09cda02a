"""`Style`: from a few named measures to flat pieces and the order in which they go together."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from ..measure import ZERO, Length, Ruler, System
from ..measure.tolerance import COORDINATE_MM
from .construction import Construction

Measures = Mapping[str, Length]


@dataclass(frozen=True, slots=True)
class Given:
    """What a style is told besides its measures: the maker's system, and the tape that is used."""

    system: System
    tape: Length


Worked = Callable[[Measures, Given], Length]
"""A length worked out from the measures that stand before it."""


def fixed(inch: str, metric_mm: str) -> Worked:
    """The same length whatever the measures: `inch` for makers in inches, else `metric_mm`."""
    lengths = {System.INCH: Length.inch(inch), System.METRIC: Length.mm(metric_mm)}
    return lambda measures, given: lengths[given.system]


#: The marks that a style rounds to where it chooses a length itself.
MARKS = {System.INCH: Ruler(Length.inch("1/16")), System.METRIC: Ruler(Length.mm(1))}


def tape_inset(across: Length, given: Given) -> Length:
    """How far tape keeps from the free edge of a tab or flap `across` wide.

    A quarter of the tape's own width, at a mark, so that the free edge is held down; less where
    there is less room beside it, and nothing where there is none.
    """
    room = max(across - given.tape, ZERO)
    return min(MARKS[given.system].nearest(given.tape / 4), room)


def irrational(mm: float) -> Length:
    """The length of a coordinate that no fraction is, rounded to 1e-9 mm: once, when it is built."""
    return Length.mm(round(Fraction(mm) / COORDINATE_MM) * COORDINATE_MM)


@dataclass(frozen=True, slots=True)
class Measure:
    """One named measure of a style.

    `says` is what it is, in a maker's words. `default`, `least` and `most` are worked out from
    the measures before it; the matching `…_says` put that in words. Limits are those beyond which
    no piece can be drawn; whether the box then closes and holds is for the proof to say.
    """

    name: str
    says: str
    default: Worked
    default_says: str
    least: Worked
    least_says: str
    most: Worked
    most_says: str


class Style(ABC):
    """A box or bag style.

    Class data first: its name, a line about it, its measures in order, `free`, the measure that
    gives when a sum no longer fits the sheet, and `noun`, what one and several of it are called.
    Then one method.
    """

    name: ClassVar[str]
    says: str
    measures: ClassVar[tuple[Measure, ...]]
    free: ClassVar[str]
    pieces: tuple[str, ...]
    noun: tuple[str, str] = ("box", "boxes")

    @abstractmethod
    def build(self, measures: Measures, given: Given) -> Construction:
        """The flat pieces of these measures and how they go together.

        Every measure of the style is present and within its limits.
        """

    def measure(self, name: str) -> Measure:
        """The measure of that name; `KeyError` if there is none."""
        for measure in self.measures:
            if measure.name == name:
                return measure
        raise KeyError(name)

    def complete(self, given_measures: Measures, given: Given) -> dict[str, Length]:
        """All measures in order: those given, and for the others their defaults."""
        complete: dict[str, Length] = {}
        for measure in self.measures:
            complete[measure.name] = (
                given_measures[measure.name]
                if measure.name in given_measures
                else measure.default(complete, given)
            )
        return complete
