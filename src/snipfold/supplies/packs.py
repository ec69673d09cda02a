"""Buying in whole packs and rolls, less what is on hand."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import Enum
from fractions import Fraction

from ..measure import ZERO, Length


class Goods(Enum):
    """What is bought."""

    PAPER = "paper"
    ADHESIVE = "adhesive"
    EMBELLISHMENT = "embellishment"
    ENVELOPE = "envelope"


@dataclass(frozen=True, slots=True)
class PackLine:
    """One thing that is bought by the pack: how many are needed, and how many packs that takes.

    `need`, `on_hand` and `pack` count sheets or pieces; `price` is a pack's. With `gone`, no more
    can be bought, and `packs` is 0.
    """

    name: str
    goods: Goods
    need: int
    on_hand: int
    pack: int
    packs: int
    price: Decimal | None
    gone: bool = False

    @property
    def short(self) -> int:
        """How many are still wanting when everything on the list is bought; only if `gone`."""
        return max(0, self.need - self.on_hand - self.packs * self.pack)

    @property
    def left(self) -> int:
        """How many are left when all is made."""
        return max(0, self.on_hand + self.packs * self.pack - self.need)

    @property
    def spend(self) -> Fraction | None:
        """What the packs cost, exactly; None where the price is unknown and something is bought."""
        return _spend(self.packs, self.price)

    @property
    def used(self) -> Fraction | None:
        """What the pieces that are used cost, exactly; those on hand at the same price."""
        return None if self.price is None else Fraction(self.price) * self.need / self.pack


@dataclass(frozen=True, slots=True)
class RollLine:
    """One adhesive: the length that is needed, in so many pieces, and how many rolls that takes.

    `roll` is None where its length is unknown, and `rolls` then too.
    """

    name: str
    goods: Goods
    need: Length
    on_hand: Length
    roll: Length | None
    rolls: int | None
    price: Decimal | None
    pieces: int = 0

    @property
    def left(self) -> Length | None:
        """How much is left when all is made; None where the rolls are of unknown length."""
        if self.rolls is None or self.roll is None:
            return self.on_hand - self.need if self.need <= self.on_hand else None
        return self.on_hand + self.roll * self.rolls - self.need

    @property
    def spend(self) -> Fraction | None:
        """What the rolls cost, exactly; None where that cannot be known."""
        return None if self.rolls is None else _spend(self.rolls, self.price)

    @property
    def used(self) -> Fraction | None:
        """What the length that is used costs, exactly; what is on hand at the same price."""
        if self.price is None or self.roll is None:
            return None
        return Fraction(self.price) * self.need.over(self.roll)


def _spend(count: int, price: Decimal | None) -> Fraction | None:
    if not count:
        return Fraction(0)
    return None if price is None else Fraction(price) * count


def packs_for(
    name: str,
    goods: Goods,
    need: int,
    on_hand: int,
    pack: int,
    price: Decimal | None,
    *,
    gone: bool = False,
) -> PackLine:
    """The fewest whole packs that bring `on_hand` up to `need`; none of what is `gone`.

    Raises `ValueError` for counts below zero or an empty pack.
    """
    if need < 0 or on_hand < 0 or pack < 1:
        raise ValueError("counts are zero or more, and a pack holds at least one")
    packs = 0 if gone else -(-max(0, need - on_hand) // pack)
    return PackLine(name, goods, need, on_hand, pack, packs, price, gone)


def rolls_for(
    name: str,
    need: Length,
    on_hand: Length,
    roll: Length | None,
    price: Decimal | None,
    pieces: int = 0,
) -> RollLine:
    """The fewest whole rolls that bring `on_hand` up to `need`, which is cut into `pieces`.

    Raises `ValueError` for lengths below zero or an empty roll.
    """
    if need < ZERO or on_hand < ZERO or (roll is not None and roll <= ZERO):
        raise ValueError("lengths are zero or more, and a roll holds something")
    short = max(ZERO, need - on_hand)
    rolls: int | None = None
    if not short:
        rolls = 0
    elif roll is not None:
        rolls = -(-short.as_mm // roll.as_mm)
    return RollLine(name, Goods.ADHESIVE, need, on_hand, roll, rolls, price, pieces)
