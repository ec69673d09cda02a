"""Thrift and papers that run out: said openly, done only when asked."""

from __future__ import annotations

from dataclasses import replace

from snipfold.measure import Length
from snipfold.orders import Order, Origin, Wanted, order_of
from snipfold.project import Design, edit_field, read_project, resolve
from snipfold.workshop import ShelvedOffcut, Workshop

from .samples import EXAMPLES, OAT, bag, shop, with_paper
from .stand_in import strips_planner

INCH = Length.inch


def changed(name: str, **fields: str) -> Design:
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    for field, value in fields.items():
        text = edit_field(text, field.replace("__", "."), value)
    return resolve(read_project(text, name), shop())


def large_bag() -> Design:
    """Walls of 4 x 4 1/4 in; two of its blanks, 12 x 6 in, fill a sheet to its edges."""
    return changed(
        "fair-bag", measures__width="4 in", measures__height="4 1/4 in", strap__on="false"
    )


def small_tray() -> Design:
    """A tray whose mats come from the same oat cardstock as the bag."""
    return changed("fudge-tray", papers__mats=OAT)


def order(*wanted: Wanted, workshop: Workshop | None = None, thrift: bool = False) -> Order:
    return order_of(wanted, workshop or shop(), thrift=thrift, planner=strips_planner)


def test_thrift_is_offered_where_it_saves_a_sheet_and_not_done() -> None:
    made = order(Wanted(large_bag(), 24), Wanted(small_tray(), 24))
    (offer,) = made.thrift
    plan = next(plan for plan in made.papers if plan.paper == OAT)
    assert not offer.applied
    assert offer.saved >= 1
    assert offer.sheets + offer.saved == plan.sheets
    assert not any(source.origin is Origin.HIDDEN for source in plan.sources)


def test_thrift_that_is_asked_for_cuts_under_mats_and_loses_nothing() -> None:
    made = order(Wanted(large_bag(), 24), Wanted(small_tray(), 24), thrift=True)
    (offer,) = made.thrift
    plan = next(plan for plan in made.papers if plan.paper == OAT)
    assert offer.applied
    assert plan.sheets == offer.sheets
    assert not plan.plan.missing
    taken = sum(
        count
        for source, count in zip(plan.sources, plan.plan.sheets, strict=True)
        if source.origin is Origin.HIDDEN
    )
    assert taken == sum(count for _, count in offer.taken) > 0


def test_a_hidden_middle_keeps_clear_of_the_tape_and_of_the_mats_edge() -> None:
    """Mats of 3 7/8 and 1 5/8 x 4 1/8 in on 1/8 in tape that keeps 1/16 in inside them: with
    1/16 in more for a slip that is 1/4 in off every side: 3 3/8 and 1 1/8 x 3 5/8 in are left."""
    (offer,) = order(Wanted(large_bag(), 24), Wanted(small_tray(), 24)).thrift
    sizes = {(middle.width, middle.height) for middle, _ in offer.taken}
    assert sizes == {(INCH("27/8"), INCH("29/8")), (INCH("9/8"), INCH("29/8"))}


def test_nothing_is_taken_from_under_mats_that_are_not_there() -> None:
    bare = changed("fair-bag", mats__on="false")
    assert order(Wanted(bare, 24), Wanted(small_tray(), 24)).thrift == ()


# ---- papers that run out


def test_a_shelf_that_lasts_is_not_mentioned() -> None:
    assert order(Wanted(bag(), 4), workshop=with_paper(shop(), OAT, on_hand=50)).runs_out == ()


def test_what_is_simply_bought_is_not_mentioned_either() -> None:
    assert order(Wanted(bag(), 4)).runs_out == ()


def test_a_shelf_that_does_not_last_names_what_can_be_made_all_the_same() -> None:
    """6 sheets do for 12 bags (two from a sheet) but not for 40 with them."""
    workshop = with_paper(shop(), OAT, on_hand=7)
    many, few = bag(), bag('[[extras]]\nname = "bow"\ncount = 1')
    made = order(Wanted(many, 40), Wanted(few, 6), workshop=workshop)
    (short,) = made.runs_out
    assert short.paper == OAT
    plan = next(plan for plan in made.papers if plan.paper == OAT)
    assert short.wanting == plan.sheets - 7
    assert short.works == ("Fair bag (2)",)
    ((name, sets),) = short.partly
    assert name == "Fair bag"
    assert 12 <= sets <= 14


def test_offcuts_on_hand_count_for_what_still_works() -> None:
    workshop = with_paper(shop(), OAT, discontinued=True)
    nothing = order(Wanted(bag(), 2), workshop=workshop)
    assert nothing.runs_out[0].partly == (("Fair bag", 0),)
    shelf = (ShelvedOffcut(OAT, INCH(12), INCH(10), 2),)
    made = order(Wanted(bag(), 1), workshop=replace(workshop, offcuts=shelf))
    assert made.runs_out == ()
    assert not any(plan.plan.missing for plan in made.papers)
