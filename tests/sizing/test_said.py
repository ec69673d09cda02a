"""What makers say of their treats."""

from __future__ import annotations

from fractions import Fraction

import pytest

from snipfold.measure import Length, MeasureError, System
from snipfold.sizing import Arrange, Ball, Block, Loose, Round, Rows, Way
from snipfold.sizing.said import read_arrange, read_treat

I, MM = Length.inch, Length.mm  # noqa: E741


@pytest.mark.parametrize(
    ("text", "treat"),
    [
        ("2 1/2 x 1 3/8 x 2 1/2 in", Block(I("5/2"), I("11/8"), I("5/2"))),
        ("60 × 40 × 20 mm", Block(MM(60), MM(40), MM(20))),
        ('2 1/2" by 1" by 3"', Block(I("5/2"), I(1), I(3))),
        ("6 cm x 40 mm x 2 cm", Block(MM(60), MM(40), MM(20))),
        ("round 2 x 1/2 in", Round(I(2), I("1/2"))),
        ("ball 1 1/4 in", Ball(I("5/4"))),
        ("loose 250 ml", Loose(Fraction(250_000))),
        ("loose 1,5 l at 60%", Loose(Fraction(1_500_000), Fraction(3, 5))),
        ("loose 2 cu in", Loose(2 * Fraction(254, 10) ** 3)),
        # A US gallon is 231 in3 and holds 128 fl oz (NIST Handbook 44, appendix C).
        ("loose 128 fl oz", Loose(231 * Fraction(254, 10) ** 3)),
    ],
)
def test_a_treat_is_read_as_it_is_written(text: str, treat: Block | Round | Ball | Loose) -> None:
    assert read_treat(text) == treat


def test_a_bare_number_counts_in_the_makers_units() -> None:
    assert read_treat("2 x 1 x 3", System.INCH) == Block(I(2), I(1), I(3))
    assert read_treat("ball 20", System.METRIC) == Ball(MM(20))


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "not a treat"),
        ("2 x 3 in", "not a treat"),
        ("2 x 1 x 3", "no unit"),
        ("2 in x 1 x 3", "no unit after the last number"),
        ("0 x 1 x 1 in", "leaves nothing"),
        ("-2 x 1 x 1 in", "leaves nothing"),
        ("31/2 x 1 x 1 in", "3 1/2 or 15 1/2"),
        ("nan x 1 x 1 in", "not a measure"),
        ("900 x 1 x 1 in", "larger than any box"),
        ("ball", "not a treat"),
        ("loose", "no amount"),
        ("loose 2 cups", "cups differ"),
        ("loose 250", "no unit"),
        ("loose 2 ml at 140%", "at most 100%"),
        ("loose 2 ml at 0%", "share of nothing"),
        ("loose 0 ml", "goes into no box"),
    ],
)
def test_what_cannot_be_meant_is_refused_in_words(text: str, says: str) -> None:
    with pytest.raises(MeasureError) as caught:
        read_treat(text)
    assert says in str(caught.value)


@pytest.mark.parametrize(
    ("text", "arrange"),
    [
        ("", Arrange()),
        ("3 x 2", Arrange(across=3, deep=2)),
        ("3x2x4", Arrange(across=3, deep=2, high=4)),
        ("lying, staggered", Arrange(Way.LYING, Rows.STAGGERED)),
        ("2 high; standing", Arrange(Way.STANDING, high=2)),
        ("either way", Arrange(Way.EITHER)),
        ("4 deep 2 across square", Arrange(rows=Rows.SQUARE, across=2, deep=4)),
    ],
)
def test_an_arrangement_is_read_in_any_order(text: str, arrange: Arrange) -> None:
    assert read_arrange(text) == arrange


@pytest.mark.parametrize(
    "text", ["sideways", "0 across", "3 x 2, 4 deep", "standing lying", "3", "square staggered"]
)
def test_an_arrangement_that_says_two_things_or_none_is_refused(text: str) -> None:
    with pytest.raises(MeasureError, match="write it like"):
        read_arrange(text)
