"""Where to score, from which edge, in which order, on this maker's board."""

from .kindness import unkindness
from .plan import Move, ScoreLine, ScorePass, ScoringPlan
from .planner import plan_scoring
from .turning import after, from_edge, lie, move_between, ruler_ends, score_positions

__all__ = [
    "Move",
    "ScoreLine",
    "ScorePass",
    "ScoringPlan",
    "after",
    "from_edge",
    "lie",
    "move_between",
    "plan_scoring",
    "ruler_ends",
    "score_positions",
    "unkindness",
]
