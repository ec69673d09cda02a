"""Money: exact until it is told, then rounded once."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction


def rounded(amount: Fraction, places: int = 2) -> Decimal:
    """The amount with so many decimals, half up, rounded once from the exact value.

    >>> rounded(Fraction(1, 8)), rounded(Fraction(1499, 2), 0)
    (Decimal('0.13'), Decimal('750'))
    """
    scaled = amount * 10**places + Fraction(1, 2)
    return Decimal(scaled.__floor__()).scaleb(-places)


def price_with_margin(cost: Fraction, margin: Fraction) -> Fraction:
    """The price of which the share `margin` is left when `cost` is paid, exactly.

    A margin is a share of the price, not of the cost: at 30 %, what costs 70 sells for 100 (worked
    example at https://mathondemand.com/solutions/selling-price-after-a-30-profit-margin-is-applied-to-an-item-that-cost-70).
    Raises `ValueError` for a margin below 0 or of 1 and more.

    >>> price_with_margin(Fraction(70), Fraction(3, 10))
    Fraction(100, 1)
    """
    if not 0 <= margin < 1:
        raise ValueError("a margin is at least 0 and less than 1")
    return cost / (1 - margin)
