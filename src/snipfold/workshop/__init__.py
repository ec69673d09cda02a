"""What the maker owns and buys, with defaults in inches and in metric."""

from .stock import Adhesive, AdhesiveKind, Edge, EdgeStrip, Grain, Paper
from .tools import ScoringBoard, Slips, Trimmer
from .weight import BASIC_SHEETS, grams_per_square_metre, thickness, thickness_of_points
from .workshop import Workshop

__all__ = [
    "BASIC_SHEETS",
    "Adhesive",
    "AdhesiveKind",
    "Edge",
    "EdgeStrip",
    "Grain",
    "Paper",
    "ScoringBoard",
    "Slips",
    "Trimmer",
    "Workshop",
    "grams_per_square_metre",
    "thickness",
    "thickness_of_points",
]
