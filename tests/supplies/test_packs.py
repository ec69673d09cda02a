"""Whole packs and rolls, less what is on hand."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from snipfold.measure import ZERO, Length
from snipfold.supplies import Goods, packs_for, rolls_for

MM = Length.mm


def packs(need: int, on_hand: int, pack: int, price: str | None = None, gone: bool = False):  # type: ignore[no-untyped-def]
    money = None if price is None else Decimal(price)
    return packs_for("card", Goods.PAPER, need, on_hand, pack, money, gone=gone)


def test_thirty_one_sheets_with_six_on_hand_are_one_pack_of_25() -> None:
    line = packs(31, 6, 25, "5.50")
    assert (line.packs, line.left, line.short) == (1, 0, 0)
    assert line.spend == Fraction("5.5")


def test_one_sheet_more_is_one_pack_more() -> None:
    line = packs(32, 6, 25, "5.50")
    assert (line.packs, line.left) == (2, 24)
    assert line.spend == 11


def test_what_is_used_costs_its_share_of_the_pack_exactly() -> None:
    assert packs(7, 0, 12, "10.00").used == Fraction(70, 12)


def test_a_paper_that_is_gone_is_not_bought_but_said_to_be_short() -> None:
    line = packs(31, 6, 25, "5.50", gone=True)
    assert (line.packs, line.short, line.left) == (0, 25, 0)


def test_nothing_is_spent_on_what_is_on_hand_and_no_price_is_made_up() -> None:
    assert packs(5, 6, 25).spend == 0
    assert packs(7, 6, 25).spend is None
    assert packs(7, 6, 25).used is None


@given(st.integers(0, 5_000), st.integers(0, 5_000), st.integers(1, 500), st.integers(0, 10_000))
def test_packs_are_whole_enough_and_not_one_too_many(
    need: int, on_hand: int, pack: int, cents: int
) -> None:
    line = packs(need, on_hand, pack, str(Decimal(cents) / 100))
    had = on_hand + line.packs * pack
    assert had >= need
    assert had - need == line.left
    assert line.packs == 0 or had - pack < need
    assert line.spend == Fraction(cents, 100) * line.packs


@given(st.integers(0, 10**7), st.integers(0, 10**6), st.integers(1, 10**6))
def test_rolls_are_whole_enough_and_not_one_too_many(need: int, on_hand: int, roll: int) -> None:
    line = rolls_for("tape", MM(need), MM(on_hand), MM(roll), Decimal(3))
    assert line.rolls is not None
    had = MM(on_hand) + MM(roll) * line.rolls
    assert had >= MM(need)
    assert line.left == had - MM(need)
    assert line.rolls == 0 or had - MM(roll) < MM(need)
    assert line.used == Fraction(3 * need, roll)


def test_a_roll_of_unknown_length_cannot_be_counted() -> None:
    line = rolls_for("glue", MM(500), MM(100), None, Decimal(3))
    assert (line.rolls, line.spend, line.used, line.left) == (None, None, None, None)
    enough = rolls_for("glue", MM(50), MM(100), None, None)
    assert (enough.rolls, enough.spend, enough.left) == (0, 0, MM(50))


@pytest.mark.parametrize("counts", [(-1, 0, 1), (0, -1, 1), (0, 0, 0)])
def test_counts_below_nothing_are_our_own_mistake(counts: tuple[int, int, int]) -> None:
    with pytest.raises(ValueError, match="counts"):
        packs(*counts)
    with pytest.raises(ValueError, match="lengths"):
        rolls_for("tape", MM(-1), ZERO, None, None)
