"""How much of everything one make takes, as values."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from ..measure import Length


@dataclass(frozen=True, slots=True)
class PaperNeed:
    """One paper: for how many sets a sheet does, or how many sheets a set takes, and its parts.

    `weight` is what the parts of one set weigh, grams, exactly. `price` is the price of the sheet
    share of one set, where the paper has a price (exact, unrounded).
    """

    paper: str
    sets_per_sheet: int
    sheets_per_set: int
    parts: tuple[tuple[str, int, Length, Length], ...]
    weight: Fraction
    price: Fraction | None


@dataclass(frozen=True, slots=True)
class AdhesiveNeed:
    """One adhesive: the total length of its strips for one set."""

    adhesive: str
    length: Length
    strips: int
    price: Fraction | None


@dataclass(frozen=True, slots=True)
class Supplies:
    """Everything one set takes. `tools` and `others` are words; `cost` is None without prices."""

    papers: tuple[PaperNeed, ...]
    adhesives: tuple[AdhesiveNeed, ...]
    tools: tuple[str, ...]
    cost: Decimal | None
    currency: str
