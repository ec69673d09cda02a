"""The guide as structured content: steps, figures, supplies, cautions; whatever it is printed on."""

from .content import (
    Caution,
    Column,
    Guide,
    Hazard,
    Part,
    Section,
    Size,
    Table,
    Tone,
    Word,
    Words,
    spoken,
)
from .guide import guide_of

__all__ = [
    "Caution",
    "Column",
    "Guide",
    "Hazard",
    "Part",
    "Section",
    "Size",
    "Table",
    "Tone",
    "Word",
    "Words",
    "guide_of",
    "spoken",
]
