"""The two ways of measuring that makers use."""

from __future__ import annotations

from enum import Enum


class System(Enum):
    """Inches in fractions, or centimetres and millimetres in decimals."""

    INCH = "inch"
    METRIC = "metric"
