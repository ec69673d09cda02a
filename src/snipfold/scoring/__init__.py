"""Where to score, from which edge, in which order, on this maker's board."""

from .plan import Move, ScoreLine, ScorePass, ScoringPlan

__all__ = ["Move", "ScoreLine", "ScorePass", "ScoringPlan"]
