"""How much of everything, and what it costs."""

from .needs import sheet_weight, work_out
from .supplies import AdhesiveNeed, PaperNeed, Supplies

__all__ = ["AdhesiveNeed", "PaperNeed", "Supplies", "sheet_weight", "work_out"]
