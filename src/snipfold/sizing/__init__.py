"""From the contents, or from the sheet, to the measures of a style."""

from .bunch import Bunch, bunches, loose_bunches
from .contents import (
    ANYHOW,
    MOST_TREATS,
    Arrange,
    Ball,
    Block,
    Contents,
    Loose,
    Round,
    Rows,
    Shape,
    Treats,
    Way,
)
from .fit import Candidate, Fitted, Unfit, Wish, fit
from .roomiest import Roomiest, roomiest
from .sizer import Sized, SizeError, Sizer, Want
from .steps import YieldStep, yield_steps
from .yields import Yield, sheet_of, yield_of

__all__ = [
    "ANYHOW",
    "MOST_TREATS",
    "Arrange",
    "Ball",
    "Block",
    "Bunch",
    "Candidate",
    "Contents",
    "Fitted",
    "Loose",
    "Roomiest",
    "Round",
    "Rows",
    "Shape",
    "SizeError",
    "Sized",
    "Sizer",
    "Treats",
    "Unfit",
    "Want",
    "Way",
    "Wish",
    "Yield",
    "YieldStep",
    "bunches",
    "fit",
    "loose_bunches",
    "roomiest",
    "sheet_of",
    "yield_of",
    "yield_steps",
]
