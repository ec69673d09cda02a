"""Grain: scores along it fold clean, scores across it crack."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Finding, Mend, Severity
from ..flat import FlatPiece
from ..measure import ZERO, Length, System, words
from ..workshop import Grain


@dataclass(frozen=True, slots=True)
class ScoreLengths:
    """How much of a piece's scores runs up the blank, and how much across it."""

    up: Length
    across: Length


def score_lengths(piece: FlatPiece) -> ScoreLengths:
    """The total length of the upright and of the level scores of a piece."""
    up = across = ZERO
    for score in piece.scores:
        if score.start.x == score.end.x:
            up = up + Length.mm(abs(score.end.y - score.start.y))
        elif score.start.y == score.end.y:
            across = across + Length.mm(abs(score.end.x - score.start.x))
    return ScoreLengths(up, across)


def lies_well(piece: FlatPiece, grain: Grain, turned: bool) -> bool:
    """Whether a piece laid so on a sheet has most of its score length along the grain."""
    lengths = score_lengths(piece)
    runs_up = (grain is Grain.UPRIGHT) != turned
    along, over = (lengths.up, lengths.across) if runs_up else (lengths.across, lengths.up)
    return grain is Grain.UNKNOWN or along >= over


def grain_findings(
    piece: FlatPiece, grain: Grain, turned: bool, may_turn: bool, system: System
) -> tuple[Finding, ...]:
    """A caution where the greater part of a piece's score length lies across the grain.

    `turned` is how the cutting plan lays the piece on the upright sheet; `may_turn` whether it
    could lie the other way. Common practice, no source for the rule of the greater part; that
    folds crack across the grain is widely published.
    """
    if lies_well(piece, grain, turned):
        return ()
    lengths = score_lengths(piece)
    over, along = max(lengths.up, lengths.across), min(lengths.up, lengths.across)
    return (
        Finding(
            "grain.across",
            Severity.CAUTION,
            (piece.name,),
            f"{piece.name}: {words(over, system)} of scores lie across the grain and may crack, "
            f"{words(along, system)} along it",
            "cut it the other way round from the sheet: ask for keep_grain"
            if may_turn
            else "choose a sheet with its grain the other way",
            over,
            Mend("keep_grain", "false", "true") if may_turn else None,
        ),
    )
