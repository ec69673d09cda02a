"""The flat piece: panels, scores, cuts, snips and glue areas, and what must hold of them."""

from .blank import Blank, Corner, FlatError
from .laws import flat_findings
from .piece import (
    Edge,
    EdgeKind,
    Face,
    FlatPiece,
    Fold,
    GlueArea,
    Panel,
    Point,
    Role,
    Score,
    Snip,
    area,
)

__all__ = [
    "Blank",
    "Corner",
    "Edge",
    "EdgeKind",
    "Face",
    "FlatError",
    "FlatPiece",
    "Fold",
    "GlueArea",
    "Panel",
    "Point",
    "Role",
    "Score",
    "Snip",
    "area",
    "flat_findings",
]
