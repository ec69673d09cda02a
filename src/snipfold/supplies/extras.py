"""Embellishments that a set takes, as its project file names them."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class Extra:
    """Something that goes into every set by the piece: its name, how many, and one piece's price.

    `price` is what the project file says, None where it says nothing; a pack in the workshop of
    that name goes before it.
    """

    name: str
    count: int
    price: Decimal | None = None
