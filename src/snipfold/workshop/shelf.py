"""What else lies on the maker's shelf: offcuts, envelopes, embellishments."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from ..measure import Length


@dataclass(frozen=True, slots=True)
class ShelvedOffcut:
    """Offcuts of one size: of which paper, `width` and `height` as the sheet stood, and how many."""

    paper: str
    width: Length
    height: Length
    count: int


@dataclass(frozen=True, slots=True)
class Envelope:
    """An envelope that the maker buys: its outside size, flat and empty.

    `price` is for a pack of `pack`, in the workshop's currency; `on_hand` counts those on the
    shelf. `weight` is that of an empty one in grams and `thickness` that of its two walls, where
    the maker has measured them.
    """

    name: str
    width: Length
    height: Length
    price: Decimal | None = None
    pack: int = 1
    on_hand: int = 0
    weight: Fraction | None = None
    thickness: Length | None = None


@dataclass(frozen=True, slots=True)
class Embellishment:
    """Something bought by the piece: brads, ribbon bows, tags.

    `price` is for a pack of `pack`; `on_hand` counts pieces. `weight` is one piece's, grams, and
    `thickness` what it adds to an envelope, where the maker has measured them.
    """

    name: str
    price: Decimal | None = None
    pack: int = 1
    on_hand: int = 0
    weight: Fraction | None = None
    thickness: Length | None = None
