"""How much of everything, what it weighs, and what it costs."""

from .envelopes import EASE, PUBLISHED, smallest, takes
from .extras import Extra
from .needs import sheet_weight, work_out
from .packs import Goods, PackLine, RollLine, packs_for, rolls_for
from .post import FlatPart, Posted, post
from .price import price_with_margin, rounded
from .supplies import AdhesiveNeed, PaperNeed, Supplies

__all__ = [
    "EASE",
    "PUBLISHED",
    "AdhesiveNeed",
    "Extra",
    "FlatPart",
    "Goods",
    "PackLine",
    "PaperNeed",
    "Posted",
    "RollLine",
    "Supplies",
    "packs_for",
    "post",
    "price_with_margin",
    "rolls_for",
    "rounded",
    "sheet_weight",
    "smallest",
    "takes",
    "work_out",
]
