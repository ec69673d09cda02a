"""An order in words."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from snipfold.measure import Length
from snipfold.orders import ClassDay, Order, Wanted, order_of, trade
from snipfold.orders.telling import (
    label_text,
    minute_words,
    packing_text,
    told_order,
)
from snipfold.workshop import Envelope, ShelvedOffcut

from .samples import CHECK, OAT, bag, shop, tray, with_paper
from .stand_in import strips_planner


def order(*wanted: Wanted, **more: object) -> Order:
    return order_of(wanted, planner=strips_planner, **({"workshop": shop()} | more))  # type: ignore[arg-type]


def said(made: Order) -> str:
    rows = []
    for section in told_order(made):
        rows.append(section.heading)
        rows += [" | ".join(row) for listing in section.listings for row in listing.rows]
        rows += section.says
    return "\n".join(rows)


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        (Fraction(1, 2), "30 s"),
        (Fraction(119, 60), "119 s"),
        (Fraction(2), "2 min"),
        (Fraction(119, 2), "1 h"),
        (Fraction(90), "1 h 30 min"),
    ],
)
def test_times_are_told_as_a_clock_is_read(minutes: Fraction, words: str) -> None:
    assert minute_words(minutes) == words


def test_an_honest_gap_is_told_with_the_reason() -> None:
    made = order(Wanted(bag(), 24))
    plan = next(plan for plan in made.papers if plan.paper == OAT)
    assert not plan.plan.proven
    assert f"at least {plan.bound} are needed; stopped out of time" in said(made)


def test_a_proof_is_told_as_one() -> None:
    assert "proven: no plan takes fewer" in said(order(Wanted(bag(), 1)))


def test_what_is_not_known_is_named_and_not_guessed() -> None:
    bare = with_paper(shop(), CHECK, price=None)
    text = said(order(Wanted(bag(), 4), workshop=bare))
    assert "no price" in text
    assert f"leaves out the price of {CHECK}" in text


def test_a_kit_that_goes_into_no_envelope_says_so() -> None:
    text = said(order(Wanted(bag(), 2)))
    assert "smallest published envelope: US 9 x 12 booklet" in text
    own = replace(shop(), envelopes=(Envelope("big one", Length.inch(10), Length.inch(13)),))
    assert "goes into big one" in said(order(Wanted(bag(), 2), workshop=own))


def test_packing_lists_and_labels_name_every_part_and_every_embellishment() -> None:
    made = order(Wanted(bag('[[extras]]\nname = "bow"\ncount = 2'), 5, 1), Wanted(tray(), 3))
    packing, labels = packing_text(made), label_text(made)
    for kit in made.kits:
        for part in kit.parts:
            assert f"{part.count} {part.name}" in packing
            assert f"{part.count} {part.name}" in labels
    assert "[ ] 2 bow" in packing
    assert "Print 5:" in labels
    assert "Fair bag (spare)" in labels
    assert "not for children under 3" in labels


def test_offcuts_a_class_and_a_trade_off_have_their_sections() -> None:
    shelf = replace(shop(), offcuts=(ShelvedOffcut(OAT, Length.inch(3), Length.inch(12), 2),))
    made = order(Wanted(bag(), 16), workshop=shelf, day=ClassDay(16, 4))
    text = said(made)
    assert "2 × offcut 3 × 12 in of oat cardstock 12 x 12 in first" in text
    assert "Class: 16 makers at 4 tables" in text
    rows = trade([Wanted(bag(), 5)], shop(), planner=strips_planner)
    headings = [section.heading for section in told_order(made, rows)]
    assert "Pick what you want least of" in headings
    assert "Pick what you want least of" not in [one.heading for one in told_order(made)]


def test_cautions_come_where_they_apply() -> None:
    made = order(Wanted(bag(), 4))
    assert any("blade" in one for one in made.cautions)
    assert any("food" in one for one in made.cautions)
    assert not any("more sheets" in one for one in made.cautions)
    stacked = replace(shop(), trimmer=replace(shop().trimmer, layers=4))
    assert any("more sheets" in one for one in order(Wanted(bag(), 4), workshop=stacked).cautions)
