"""Money: margins, and rounding once."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from snipfold.supplies import price_with_margin, rounded


@pytest.mark.parametrize(
    ("cost", "margin", "price"),
    [
        # https://mathondemand.com/solutions/selling-price-after-a-30-profit-margin-is-applied-to-an-item-that-cost-70
        (70, Fraction(30, 100), 100),
        # https://mathondemand.com/solutions/selling-price-after-a-90-profit-margin-is-applied-to-an-item-that-cost-10
        (10, Fraction(90, 100), 100),
        # No margin, no profit.
        (25, Fraction(0), 25),
    ],
)
def test_a_margin_is_a_share_of_the_price(cost: int, margin: Fraction, price: int) -> None:
    assert price_with_margin(Fraction(cost), margin) == price


def test_a_margin_is_not_a_markup() -> None:
    """A markup of 50 % on 40 gives 60, of which 1/3 is profit (https://calcreal.com/math/markup-calculator)."""
    assert price_with_margin(Fraction(40), Fraction(1, 2)) == 80
    assert price_with_margin(Fraction(40), Fraction(1, 3)) == 60


@pytest.mark.parametrize("margin", [Fraction(1), Fraction(3, 2), Fraction(-1, 10)])
def test_a_margin_of_everything_has_no_price(margin: Fraction) -> None:
    with pytest.raises(ValueError, match="less than 1"):
        price_with_margin(Fraction(10), margin)


@given(st.fractions(0, 10**6), st.integers(0, 2))
def test_rounding_is_half_up_as_the_decimal_library_does_it(amount: Fraction, places: int) -> None:
    exact = Decimal(amount.numerator) / Decimal(amount.denominator)
    by_library = exact.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)
    # The library's quotient has 28 figures; only there may a tie look different.
    if Fraction(exact) == amount:
        assert rounded(amount, places) == by_library
    assert abs(Fraction(rounded(amount, places)) - amount) * 2 <= Fraction(1, 10**places)
