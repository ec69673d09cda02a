"""What the maker works with: trimmer, scoring board, ruler."""

from __future__ import annotations

from dataclasses import dataclass

from ..measure import Length, Ruler


@dataclass(frozen=True, slots=True)
class Trimmer:
    """A guillotine or sliding-blade trimmer: its graduation and the longest cut it makes."""

    ruler: Ruler
    longest_cut: Length


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
