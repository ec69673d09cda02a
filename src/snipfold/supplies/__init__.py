"""How much of everything, and what it costs."""

from .supplies import AdhesiveNeed, PaperNeed, Supplies

__all__ = ["AdhesiveNeed", "PaperNeed", "Supplies"]
