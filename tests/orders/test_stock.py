"""Stock: what was used is gone, offcuts are on the shelf, remarks stay."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from snipfold.measure import ZERO, Length, System
from snipfold.orders import (
    Order,
    Origin,
    Wanted,
    order_of,
    stock_after,
    stock_changes,
    stock_text,
)
from snipfold.workshop import Workshop, default_workshop, read_workshop

from .samples import OAT, bag
from .stand_in import strips_planner

TEXT = """\
units = "inch"   # what the tools are marked in

# Papers of the stall.
[papers."oat cardstock 12 x 12 in"]
on_hand = 7      # counted on Sunday
price = "5.50"
pack = 25

[adhesives."1/4 in tape"]
roll = "27 yd"
on_hand = "10 yd"   # the open roll

# Straps come out of these.
[[offcuts]]
paper = "oat cardstock 12 x 12 in"
size = "3 x 12 in"  # long ones
count = 4

[[offcuts]]
paper = "oat cardstock Letter"
size = "2 x 2 in"
count = 1

[embellishments.bow]
price = "4.00"
pack = 50
on_hand = 12

[envelopes."large"]
size = "9 x 12 in"
on_hand = 30
"""
BASE = default_workshop(System.INCH)
BOWS = '[[extras]]\nname = "bow"\ncount = 2'


def workshop(text: str = TEXT) -> Workshop:
    return read_workshop(text, "stall.toml", BASE)


def made(sets: int = 24, shop: Workshop | None = None) -> Order:
    return order_of([Wanted(bag(BOWS), sets)], shop or workshop(), planner=strips_planner)


def test_everything_that_was_had_and_bought_was_used_or_is_left() -> None:
    order = made()
    after = stock_after(order, workshop())
    oat = next(line for line in order.shopping.papers if line.name == OAT)
    assert after.paper(OAT).on_hand == 7 + oat.packs * 25 - oat.need
    # 24 sets of 2 bows: 48, of which 12 are there; one pack of 50.
    bow = after.embellishment("bow")
    assert bow is not None
    assert bow.on_hand == 12 + 50 - 48
    assert after.envelopes[0].on_hand == 30 - 24
    tape = next(line for line in order.shopping.adhesives if line.name == "1/4 in tape")
    assert tape.rolls is not None
    left = Length.inch(360) + Length.inch(972) * tape.rolls - tape.need
    assert after.adhesive("1/4 in tape").on_hand == left


def test_offcuts_that_were_cut_are_gone_and_new_ones_are_on_the_shelf() -> None:
    order = made()
    after = stock_after(order, workshop())
    (plan,) = (plan for plan in order.papers if plan.paper == OAT)
    cut = sum(
        count
        for source, count in zip(plan.sources, plan.plan.sheets, strict=True)
        if source.origin is Origin.SHELF
    )
    long = sum(
        one.count
        for one in after.offcuts
        if (one.paper, one.width, one.height) == (OAT, Length.inch(3), Length.inch(12))
    )
    assert cut > 0
    assert long == 4 - cut
    shelved = {(one.paper, one.width, one.height) for one in after.offcuts}
    assert {(one.paper, one.width, one.height) for one in plan.offcuts} <= shelved
    assert any(one.paper == "oat cardstock Letter" for one in after.offcuts), "it was not touched"


@settings(max_examples=12, deadline=None)
@given(st.integers(1, 80))
def test_the_file_says_the_new_stock_and_keeps_its_remarks(sets: int) -> None:
    before = workshop()
    after = stock_after(made(sets), before)
    text = stock_text(TEXT, before, after)
    assert read_workshop(text, "stall.toml", BASE) == after
    for remark in (
        "# what the tools are marked in", "# Papers of the stall.", "# counted on Sunday",
        "# the open roll", "# Straps come out of these.",
    ):  # fmt: skip
        assert remark in text


def test_a_file_that_says_little_gets_what_is_new() -> None:
    text = 'units = "inch"\n'
    before = workshop(text)
    after = stock_after(made(6, before), before)
    written = stock_text(text, before, after)
    assert "[[offcuts]]" in written
    assert read_workshop(written, "stall.toml", BASE) == after


def test_nothing_to_write_leaves_every_byte() -> None:
    assert stock_text(TEXT, workshop(), workshop()) == TEXT


@pytest.mark.parametrize("ending", ["\n", "\r\n"])
def test_the_last_offcut_goes_and_its_table_with_it(ending: str) -> None:
    text = TEXT.replace("\n", ending)
    before = workshop(text)
    after = replace(before, offcuts=())
    assert read_workshop(stock_text(text, before, after), "stall.toml", BASE) == after


def test_changes_are_told_by_name_before_and_after() -> None:
    before = workshop()
    after = stock_after(made(), before)
    changes = {
        change.name: (change.before, change.after) for change in stock_changes(before, after)
    }
    assert changes["bow"] == (12, 14)
    assert changes["large"] == (30, 6)
    assert all(was != now for was, now in changes.values())


def test_an_adhesive_of_unknown_rolls_goes_down_to_nothing() -> None:
    before = workshop(TEXT.replace('roll = "27 yd"\n', "").replace("10 yd", "1 yd"))
    assert stock_after(made(24, before), before).adhesive("1/4 in tape").on_hand == ZERO
