"""What the maker owns and buys, with defaults in inches and in metric."""

from .defaults import default_workshop
from .read import SYSTEMS, read_workshop
from .selling import Pace, Terms
from .shelf import Embellishment, Envelope, ShelvedOffcut
from .stock import Adhesive, AdhesiveKind, Edge, EdgeStrip, Grain, Paper
from .toml_text import text_of
from .tools import ScoringBoard, Slips, Trimmer
from .weight import BASIC_SHEETS, grams_per_square_metre, thickness, thickness_of_points
from .workshop import Workshop

__all__ = [
    "BASIC_SHEETS",
    "SYSTEMS",
    "Adhesive",
    "AdhesiveKind",
    "Edge",
    "EdgeStrip",
    "Embellishment",
    "Envelope",
    "Grain",
    "Pace",
    "Paper",
    "ScoringBoard",
    "ShelvedOffcut",
    "Slips",
    "Terms",
    "Trimmer",
    "Workshop",
    "default_workshop",
    "grams_per_square_metre",
    "read_workshop",
    "text_of",
    "thickness",
    "thickness_of_points",
]
