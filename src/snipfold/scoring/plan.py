"""The scoring plan as values: which face is up, which edge at the fence, which positions."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from ..findings import Finding
from ..flat import Face, Fold
from ..measure import Length
from ..workshop import Edge


class Move(Enum):
    """How the piece is moved from the pass before to this one."""

    START = "start"
    STAY = "stay"
    QUARTER_LEFT = "quarter turn anticlockwise"
    QUARTER_RIGHT = "quarter turn clockwise"
    HALF = "half turn"
    OVER_SIDEWAYS = "turn over like a page"
    OVER_END = "turn over top to bottom"


@dataclass(frozen=True, slots=True)
class ScoreLine:
    """One line to score: how far from the fence edge, and what it parts.

    `position` is the measure as designed; `ruled` is what the maker sets (the nearest mark of the
    ruler); `groove` is whether a groove of the board lies there. After the pass's shift the line
    lies at `shifted` and `shifted_groove` tells whether that is a groove. `panels` are all pairs of
    panels that the line parts along its run.
    """

    position: Length
    ruled: Length
    groove: bool
    shifted: Length | None
    shifted_groove: bool
    fold: Fold
    panels: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class ScorePass:
    """Lines scored one after another without turning the piece.

    `fence` is the edge of the blank (as seen outside face up, upright) that lies against the
    fence; `move` how the piece gets there from the pass before. With `shift`, the first line is
    scored at its own position, then the piece is moved until that line lies at
    `lines[0].shifted`, and the rest are scored at their shifted positions.
    """

    face_up: Face
    fence: Edge
    move: Move
    shift: Length | None
    lines: tuple[ScoreLine, ...]


@dataclass(frozen=True, slots=True)
class ScoringPlan:
    """How one piece is scored."""

    piece: str
    passes: tuple[ScorePass, ...]
    turns: int
    flips: int
    findings: tuple[Finding, ...]
