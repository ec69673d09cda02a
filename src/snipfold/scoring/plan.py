"""The scoring plan as values: which face is up, which edge at the fence, which positions."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from ..findings import Finding
from ..flat import Face, Fold, Score
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
    OVER_QUARTER_LEFT = "turn over like a page, then a quarter turn anticlockwise"
    OVER_QUARTER_RIGHT = "turn over like a page, then a quarter turn clockwise"


@dataclass(frozen=True, slots=True)
class ScoreLine:
    """One line to score: how far from the fence edge, and what it parts.

    `position` is the measure as designed; `ruled` is what the maker sets (the position itself
    where a groove lies there, otherwise the nearest mark of the ruler); `groove` is whether a
    groove of the board lies at `ruled`. After the pass's shift the line lies at `shifted` and
    `shifted_groove` tells whether that is a groove; without a shift `shifted` is None. `panels`
    are all pairs of panels that the line parts along its run, the longest stretch first.
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
    fence, on the maker's left; `move` how the piece gets there from the pass before. `lines` are
    nearest first. With `shift`, the first line is scored at its own position, then the piece is
    moved away from the fence by `shift`, until that line lies at `lines[0].shifted`, and the rest
    are scored at their shifted positions. Either way gives the same lines.
    """

    face_up: Face
    fence: Edge
    move: Move
    shift: Length | None
    lines: tuple[ScoreLine, ...]


@dataclass(frozen=True, slots=True)
class ScoringPlan:
    """How one piece is scored.

    `turns` and `flips` count the moves after the first pass that turn the piece and that turn it
    over. `slanting` are scores that run along no edge: mark both ends and score along a ruler, a
    mountain with the outside up, a valley with the inside up.
    """

    piece: str
    passes: tuple[ScorePass, ...]
    turns: int
    flips: int
    findings: tuple[Finding, ...]
    slanting: tuple[Score, ...] = ()
