"""Exact lengths: reading, arithmetic, rulers and wording."""

from .length import MM_PER_INCH, ZERO, Length, total
from .parse import MeasureError, parse_length, parse_size
from .ruler import Ruler
from .system import System
from .wording import carried, number, typeset, typeset_number, unit_word, words

__all__ = [
    "MM_PER_INCH",
    "ZERO",
    "Length",
    "MeasureError",
    "Ruler",
    "System",
    "carried",
    "number",
    "parse_length",
    "parse_size",
    "total",
    "typeset",
    "typeset_number",
    "unit_word",
    "words",
]
