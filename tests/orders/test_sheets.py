"""Sheets of an order: offcuts first, sizes on hand, papers that are gone, parts on one sheet."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from snipfold.cutting import Got, plan_make
from snipfold.cutting.order_plan import Prefer
from snipfold.measure import Length, System
from snipfold.orders import Counted, Order, Origin, PaperPlan, Wanted, order_of, trade
from snipfold.orders.sheets import LEAST_OFFCUT, nodes
from snipfold.project import Design
from snipfold.workshop import ShelvedOffcut, Workshop

from .samples import OAT, bag, shop, with_paper, with_trimmer
from .stand_in import strips_planner

INCH = Length.inch
LETTER = "oat cardstock Letter"


def order(design: Design, sets: int, workshop: Workshop | None = None) -> Order:
    return order_of([Wanted(design, sets)], workshop or shop(), planner=strips_planner)


def oat(made: Order) -> PaperPlan:
    return next(plan for plan in made.papers if plan.paper == OAT)


def used(plan: PaperPlan) -> dict[tuple[str, Origin], int]:
    counts: Counter[tuple[str, Origin]] = Counter()
    for source, count in zip(plan.sources, plan.plan.sheets, strict=True):
        counts[source.paper, source.origin] += count
    return dict(+counts)


def test_offcuts_on_hand_go_first_and_cost_nothing() -> None:
    """Straps of 3/4 x 8 1/2 in come out of offcuts of 3 x 12 in, so fewer sheets are bought."""
    plain = order(bag(), 24)
    shelf = (ShelvedOffcut(OAT, INCH(3), INCH(12), 6),)
    made = order(bag(), 24, replace(shop(), offcuts=shelf))
    assert used(oat(made))[OAT, Origin.SHELF] > 0
    assert oat(made).sheets <= oat(plain).sheets
    assert made.cost.material <= plain.cost.material


def test_offcuts_of_another_paper_stay_where_they_are() -> None:
    shelf = (ShelvedOffcut(LETTER, INCH(3), INCH(11), 6),)
    made = order(bag(), 24, replace(shop(), offcuts=shelf))
    assert all(origin is Origin.SHEET for _, origin in used(oat(made)))


def test_a_paper_that_is_gone_gives_what_is_on_hand_and_the_rest_is_said_to_be_missing() -> None:
    workshop = with_paper(shop(), OAT, on_hand=3, discontinued=True)
    made = order(bag(), 24, workshop)
    plan = oat(made)
    assert plan.sheets == 3
    given_out = Counter(
        node.part for use in plan.plan.uses for node in nodes(use.pattern.tree)
        if isinstance(node, Got) for _ in range(use.pattern.times)
    )  # fmt: skip
    assert dict(plan.plan.missing)["bag"] == 24 - given_out["bag"] > 0
    line = next(line for line in made.shopping.papers if line.name == OAT)
    assert (line.packs, line.gone) == (0, True)


def test_other_sizes_of_the_same_stock_stand_in_and_what_is_on_hand_goes_first() -> None:
    """With prices on both, money is counted; Letter sheets are dearer, but 9 are on hand."""
    workshop = with_paper(shop(), OAT, stock="oat")
    workshop = with_paper(workshop, LETTER, stock="oat", on_hand=9, price=Decimal("10.00"), pack=25)
    plan = oat(order(bag(), 24, workshop))
    assert plan.counted is Counted.PRICE
    assert plan.bound is None
    assert used(plan)[LETTER, Origin.SHEET] == 9
    assert used(plan)[OAT, Origin.SHEET] > 0


def test_sizes_without_a_price_are_weighed_by_their_area() -> None:
    workshop = with_paper(with_paper(shop(), OAT, stock="oat"), LETTER, stock="oat")
    plan = oat(order(bag(), 6, workshop))
    assert plan.counted is Counted.AREA
    costs = {
        source.paper: supply.cost
        for source, supply in zip(plan.sources, plan.plan.supplies, strict=True)
    }
    # Letter is ANSI/ASME Y14.1 size A, 8 1/2 x 11 in: 93.5 of 144 square inches.
    assert costs == {OAT: 1, LETTER: Fraction("93.5") / 144}


# ---- parts that must share a sheet


def sheets_of(plan: PaperPlan, part: str) -> list[tuple[int, Counter[str]]]:
    return [
        (use.pattern.times, gives)
        for use in plan.plan.uses
        if part in (gives := Counter(
            node.part for node in nodes(use.pattern.tree) if isinstance(node, Got)
        ))
    ]  # fmt: skip


@settings(max_examples=8, deadline=None)
@given(st.integers(1, 30))
def test_parts_of_one_print_run_always_come_off_the_same_sheet(sets: int) -> None:
    design = bag(top='same_sheet = ["bag", "strap"]')
    plan = oat(order(design, sets))
    assert plan.same_sheet == (("bag", "strap"),)
    for _, gives in sheets_of(plan, "bag"):
        assert gives["bag"] == gives["strap"]
    assert sum(times * gives["bag"] for times, gives in sheets_of(plan, "bag")) == sets
    # As many sets from a sheet as the planner of one make proves possible: the fewest sheets.
    part = design.cutting[OAT]
    most = plan_make(part.parts, part.sheet, shop().trimmer).sets_per_sheet
    assert plan.sheets == -(-sets // most)
    assert plan.plan.proven
    assert plan.bound == plan.sheets


def test_what_is_left_of_shared_sheets_goes_to_other_parts() -> None:
    design = bag(top='same_sheet = ["bag", "strap"]')
    made = order_of([Wanted(design, 12), Wanted(bag(), 1)], shop(), planner=strips_planner)
    plan = oat(made)
    assert any(origin is Origin.LEFT for _, origin in used(plan))
    assert not plan.plan.missing


def test_parts_of_two_papers_cannot_share_a_sheet_and_it_is_said() -> None:
    made = order(bag(top='same_sheet = ["bag", "mats"]'), 4)
    (found,) = [one for one in made.findings if one.code == "order.same-sheet"]
    assert "2 papers" in found.says
    assert not any(plan.plan.missing for plan in made.papers)


def test_parts_that_share_sheets_of_a_paper_that_is_gone_run_out_in_whole_sets() -> None:
    workshop = with_paper(shop(), OAT, on_hand=2, discontinued=True)
    plan = oat(order(bag(top='same_sheet = ["bag", "strap"]'), 9, workshop))
    assert plan.sheets == 2
    missing = dict(plan.plan.missing)
    assert missing["bag"] == missing["strap"] > 0
    assert not plan.plan.proven


# ---- the sequence


@settings(max_examples=10, deadline=None)
@given(st.integers(1, 50), st.integers(1, 12))
def test_the_sequence_makes_every_cut_once_and_after_the_one_that_frees_it(
    sets: int, layers: int
) -> None:
    workshop = with_trimmer(shop(), layers=layers)
    for plan in order(bag(), sets, workshop).papers:
        done = Counter((use, piece) for run in plan.sequence.runs for use, piece in run.work)
        wanted = Counter(
            (number, piece)
            for number, use in enumerate(plan.plan.uses)
            for step in use.steps
            for piece in step.pieces
        )
        assert done == wanted
        for number, use in enumerate(plan.plan.uses):
            order_of_pieces = [
                piece for run in plan.sequence.runs for other, piece in run.work if other == number
            ]
            for node in nodes(use.pattern.tree):
                for inner in (getattr(node, "first", None), getattr(node, "rest", None)):
                    if inner is not None and hasattr(inner, "axis"):
                        assert order_of_pieces.index(node.region) < order_of_pieces.index(
                            inner.region
                        )
        piles = [-(-use.pattern.times // plan.sequence.layers) for use in plan.plan.uses]
        cuts = [sum(len(step.pieces) for step in use.steps) for use in plan.plan.uses]
        assert plan.sequence.strokes == sum(
            pile * count for pile, count in zip(piles, cuts, strict=True)
        )
        assert plan.sequence.changes <= sum(len(use.steps) for use in plan.plan.uses)


def test_heavier_paper_counts_by_its_weight_in_a_pile() -> None:
    """Ten sheets of 80 g/m2: of 176 g/m2 that is four (704 g/m2 of 800), of lighter paper ten."""
    trimmer = with_trimmer(shop(), layers=10, layers_gsm=Fraction(80)).trimmer
    assert trimmer.layers_of(Fraction(176)) == 4
    assert trimmer.layers_of(Fraction(60)) == 10
    assert trimmer.layers_of(Fraction(2000)) == 1


# ---- offcuts that are left, and the trade-off


def test_only_offcuts_worth_keeping_are_kept_and_none_twice() -> None:
    plan = oat(order(bag(), 5))
    least = LEAST_OFFCUT[System.INCH]
    assert plan.offcuts
    assert all(min(one.width, one.height) >= least for one in plan.offcuts)
    sizes = [(one.width, one.height) for one in plan.offcuts]
    assert len(set(sizes)) == len(sizes)


@pytest.mark.parametrize("sets", [5, 24])
def test_the_trade_off_has_a_row_for_every_wish(sets: int) -> None:
    rows = trade([Wanted(bag(), sets)], shop(), planner=strips_planner)
    assert [row.prefer for row in rows] == list(Prefer)
    made = order(bag(), sets)
    assert rows[0].sheets == made.sheets
    assert rows[0].offcut in {one for plan in made.papers for one in plan.offcuts}
