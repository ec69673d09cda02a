"""How much of everything one make takes, as values."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from ..measure import Length


@dataclass(frozen=True, slots=True)
class PaperNeed:
    """One paper: for how many sets a sheet does, or how many sheets a set takes, and its parts.

    `parts` are (name, copies, width, height) as cut. `weight` is what the parts of one set weigh,
    grams, exactly. `price` is the price of the sheet share of one set, where the paper has a
    price and a set can be cut (exact, unrounded).
    """

    paper: str
    sets_per_sheet: int
    sheets_per_set: int
    parts: tuple[tuple[str, int, Length, Length], ...]
    weight: Fraction
    price: Fraction | None


@dataclass(frozen=True, slots=True)
class AdhesiveNeed:
    """One adhesive: the total length of its strips for one set.

    `price` is that of the length used, where the roll has a price and a length (exact, unrounded).
    """

    adhesive: str
    length: Length
    strips: int
    price: Fraction | None


@dataclass(frozen=True, slots=True)
class Supplies:
    """Everything one set takes. `tools` are words.

    `cost` is what one set costs of all that has a price, rounded once, to the hundredth; None
    where nothing has. `unpriced` names what it leaves out.
    """

    papers: tuple[PaperNeed, ...]
    adhesives: tuple[AdhesiveNeed, ...]
    tools: tuple[str, ...]
    cost: Decimal | None
    currency: str
    unpriced: tuple[str, ...] = ()
