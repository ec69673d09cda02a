"""What the maker works with: trimmer, scoring board, ruler."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..measure import Length, Ruler


@dataclass(frozen=True, slots=True)
class Trimmer:
    """A guillotine or sliding-blade trimmer: its graduation and the longest cut it makes.

    `layers` is how many sheets its maker allows at once, of paper of `layers_gsm` g/m2 (None where
    that is said of any paper).
    """

    ruler: Ruler
    longest_cut: Length
    layers: int = 1
    layers_gsm: Fraction | None = None

    def layers_of(self, gsm: Fraction) -> int:
        """How many sheets of that paper may be cut at once: at least 1, never more than `layers`.

        Heavier paper counts by its weight, so that the pile is no heavier than its maker allows.
        """
        if self.layers_gsm is None or gsm <= self.layers_gsm:
            return self.layers
        return max(1, int(self.layers * self.layers_gsm / gsm))


@dataclass(frozen=True, slots=True)
class ScoringBoard:
    """A scoring board: grooves every `grooves`, counted from the fence, up to `length`."""

    grooves: Ruler
    length: Length


@dataclass(frozen=True, slots=True)
class Slips:
    """How far a careful hand slips: the usual (one standard deviation) error of each operation."""

    cut: Length
    score: Length
    line_up: Length
