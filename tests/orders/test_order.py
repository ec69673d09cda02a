"""An order as a whole: nothing is lost, nothing is made up."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from snipfold.cutting import Got, Node, Offcut
from snipfold.measure import Length, total
from snipfold.orders import ClassDay, Operation, Order, OrderError, Origin, Wanted, order_of
from snipfold.supplies import RollLine, rounded
from snipfold.workshop import Envelope, Pace, Terms, Workshop

from .samples import CHECK, OAT, bag, shop, tray, with_paper
from .stand_in import strips_planner

BOWS = '[[extras]]\nname = "bow"\ncount = 2\nprice = "0.15"'


def order(
    *wanted: Wanted, workshop: Workshop | None = None, spare: Fraction | None = None,
    day: ClassDay | None = None, finished: bool = False, thrift: bool = False,
) -> Order:  # fmt: skip
    return order_of(
        wanted, workshop or shop(), spare=spare, day=day, finished=finished, thrift=thrift,
        planner=strips_planner,
    )  # fmt: skip


def leaves(node: Node) -> Iterator[Got | Offcut]:
    if isinstance(node, Got | Offcut):
        yield node
    else:
        yield from leaves(node.first)
        yield from leaves(node.rest)


def cut(made: Order) -> Counter[str]:
    """How many of each part all sheets of an order give."""
    given: Counter[str] = Counter()
    for plan in made.papers:
        for use in plan.plan.uses:
            for leaf in leaves(use.pattern.tree):
                if isinstance(leaf, Got):
                    given[leaf.part] += use.pattern.times
    return given


# ---- laws


@settings(max_examples=15, deadline=None)
@given(
    st.integers(1, 60), st.integers(1, 40), st.integers(0, 30), st.integers(0, 20),
    st.integers(0, 6),
)  # fmt: skip
def test_every_order_adds_up(bags: int, trays: int, spare: int, on_hand: int, offcuts: int) -> None:
    workshop = with_paper(shop(), OAT, on_hand=on_hand)
    made = order(
        Wanted(bag(BOWS), bags), Wanted(tray(), trays), workshop=workshop,
        spare=Fraction(spare, 100),
    )  # fmt: skip
    # Every kit gets every part, and nothing else is cut.
    wanted: Counter[str] = Counter()
    for kit in made.kits:
        for part in kit.parts:
            wanted[part.part] += part.count * kit.made
    assert cut(made) == wanted
    # What the projects use is what the order uses, to the last fraction of a cent.
    assert sum(kit.cost.material for kit in made.kits) == made.cost.material
    assert all(kit.cost.per_set * kit.sets == kit.cost.material for kit in made.kits)
    # Sheets cut are sheets on the list, in whole packs.
    listed = {line.name: line for line in made.shopping.papers}
    for plan in made.papers:
        used = sum(
            count
            for source, count in zip(plan.sources, plan.plan.sheets, strict=True)
            if source.origin is Origin.SHEET
        )
        assert listed[plan.paper].need == used == plan.sheets
        line = listed[plan.paper]
        assert line.on_hand + line.packs * line.pack - line.need == line.left >= 0
    # Adhesive is the sum of all strips of all sets.
    for roll in made.shopping.adhesives:
        assert roll.need == total(
            one.length * kit.made
            for kit in made.kits
            for one in kit.adhesives
            if one.name == roll.name
        )
    spend = [line.spend for line in made.shopping.lines if line.spend is not None]
    assert sum(spend) == made.cost.to_pay
    # The blade comes down as often as there are cuts.
    for plan in made.papers:
        assert plan.sequence.strokes_single == sum(
            (sum(1 for _ in leaves(use.pattern.tree)) - 1) * use.pattern.times
            for use in plan.plan.uses
        )


@settings(max_examples=10, deadline=None)
@given(st.integers(1, 60))
def test_offcuts_and_parts_cover_every_sheet(bags: int) -> None:
    made = order(Wanted(bag(), bags))
    for plan in made.papers:
        for use in plan.plan.uses:
            sheet = plan.plan.supplies[use.supply].sheet
            area = sum(
                leaf.region.width.as_mm * leaf.region.height.as_mm
                for leaf in leaves(use.pattern.tree)
            )
            assert area == sheet.width.as_mm * sheet.height.as_mm


# ---- facts


def test_embellishments_are_counted_by_the_piece_and_priced_as_the_file_says() -> None:
    """10 sets and 1 to spare, 2 bows each: 22 bows at 0.15."""
    made = order(Wanted(bag(BOWS), 10), spare=Fraction(1, 10))
    (line,) = made.shopping.embellishments
    assert (line.name, line.need, line.packs) == ("bow", 22, 22)
    assert line.spend == Fraction("3.30")


def test_spare_sets_are_rounded_up_and_packed() -> None:
    made = order(Wanted(bag(), 24), spare=Fraction(1, 10))
    (kit,) = made.kits
    assert (kit.sets, kit.spare, kit.made) == (24, 3, 27)
    assert [label.copies for label in kit.labels] == [24, 3]
    assert "spare" in kit.labels[1].lines[0]


def test_the_packing_list_has_every_part_with_its_size() -> None:
    (kit,) = order(Wanted(bag(BOWS), 3)).kits
    design = bag()
    assert {part.name for part in kit.parts} == {
        part.name for plan in design.cutting.values() for part in plan.parts
    }
    blank = next(part for part in kit.parts if part.name == "bag")
    assert (blank.width, blank.height, blank.count) == (Length.inch(10), Length.inch("11/2"), 1)
    assert [(extra.name, extra.count) for extra in kit.extras] == [("bow", 2)]


def test_two_files_of_one_name_stay_apart() -> None:
    made = order(Wanted(bag(), 2), Wanted(bag(BOWS), 3))
    assert [kit.name for kit in made.kits] == ["Fair bag", "Fair bag (2)"]
    assert cut(made)["Fair bag (2): bag"] == 3


def test_the_price_is_material_and_time_with_the_margin_on_top_rounded_once() -> None:
    made = order(Wanted(bag(), 7))
    (kit,) = made.kits
    cost = kit.cost
    hour, margin = Fraction(18), Fraction(3, 10)
    by_hand = (cost.material / 7 + hour * cost.prep / 60) / (1 - margin)
    assert cost.price == rounded(by_hand)
    # Time of the kits: changes at 30 s, strokes at 10 s, envelopes at 60 s.
    counts = {one.operation: one.count for one in made.prep}
    seconds = (
        counts[Operation.SETTING] * 30 + counts[Operation.CUT] * 10 + counts[Operation.PACK] * 60
    )
    assert cost.prep * 7 * 60 == seconds
    assert cost.leaves_out == ()


def test_boxes_sold_made_up_are_paid_for_their_making_and_take_no_envelope() -> None:
    own = replace(shop(), envelopes=(Envelope("kit", Length.inch(9), Length.inch(12)),))
    kits = order(Wanted(bag(), 7), workshop=own)
    made = order(Wanted(bag(), 7), workshop=own, finished=True)
    assert [line.need for line in kits.shopping.envelopes] == [7]
    assert made.shopping.envelopes == ()
    assert Operation.PACK not in {one.operation for one in made.prep}
    (kit,), (box,) = kits.kits, made.kits
    assert kit.cost.price is not None
    assert box.cost.price is not None
    assert box.cost.price > kit.cost.price
    assert box.cost.making == sum(work.minutes or 0 for work in box.work)


def test_without_a_margin_no_price_is_suggested_and_the_reason_is_named() -> None:
    bare = replace(shop(), terms=Terms(), pace=Pace())
    (kit,) = order(Wanted(bag(), 4), workshop=bare).kits
    assert kit.cost.price is None
    assert {"your margin", "what your hour is worth", "your time"} <= set(kit.cost.leaves_out)


def test_what_has_no_price_is_named_and_left_out() -> None:
    made = order(Wanted(bag(), 4), workshop=with_paper(shop(), CHECK, price=None))
    assert made.cost.unpriced == (CHECK,)
    assert f"the price of {CHECK}" in made.kits[0].cost.leaves_out
    priced = order(Wanted(bag(), 4))
    assert priced.cost.unpriced == ()
    assert priced.cost.material > made.cost.material


def test_rolls_are_whole_and_what_is_on_the_last_one_counts() -> None:
    adhesives = tuple(replace(one, on_hand=Length.inch(36)) for one in shop().adhesives)
    made = order(Wanted(bag(), 24), workshop=replace(shop(), adhesives=adhesives))
    for line in made.shopping.adhesives:
        assert isinstance(line, RollLine)
        assert line.on_hand == Length.inch(36)
        assert line.roll is not None
        assert line.rolls is not None
        assert line.on_hand + line.roll * line.rolls >= line.need


def test_a_second_order_is_the_same_order() -> None:
    assert order(Wanted(bag(), 9)) == order(Wanted(bag(), 9))


def test_a_class_has_a_kit_for_each_maker_and_one_to_spare_a_table() -> None:
    """A tenth, or one a table if that is more: common practice, no source."""
    made = order(Wanted(bag(), 16), day=ClassDay(16, 4))
    (kit,) = made.kits
    assert (kit.sets, kit.spare) == (16, 4)
    room = made.classroom
    assert room is not None
    counts = {tool.name: (tool.count, tool.each) for tool in room.tools}
    assert counts["bone folder"] == (16, "maker")
    assert counts["ruler and pencil"] == (4, "table")
    assert not any("trimmer" in name for name in counts), "parts come cut"
    assert any("20 envelopes" in says for says, _ in room.prepare)
    big = order(Wanted(bag(), 40), day=ClassDay(40, 2))
    assert big.kits[0].spare == 4


# ---- what nobody can make


@pytest.mark.parametrize(
    ("sets", "wrong", "right"),
    [
        (0, "nothing to make", "at least 1 set"),
        (-3, "less than none", "at least 1 set"),
        (1_000_000, "more than the 100000", "order 100000 or fewer"),
    ],
)
def test_a_number_of_sets_that_nobody_makes_is_refused_with_the_mend(
    sets: int, wrong: str, right: str
) -> None:
    with pytest.raises(OrderError) as refused:
        order(Wanted(bag(), sets))
    assert wrong in refused.value.wrong
    assert right in refused.value.right


@pytest.mark.parametrize("share", [Fraction(4), Fraction(-1, 10)])
def test_a_spare_of_400_per_cent_is_refused(share: Fraction) -> None:
    with pytest.raises(OrderError, match="at most 100%"):
        order(Wanted(bag(), 5), spare=share)


def test_spare_sets_count_against_the_limit_too() -> None:
    with pytest.raises(OrderError, match="100100 sets in all"):
        order(Wanted(bag(), 91_000), spare=Fraction(1, 10))


def test_no_project_and_no_class_of_nobody() -> None:
    with pytest.raises(OrderError, match="at least one project"):
        order()
    with pytest.raises(OrderError, match="nobody to teach"):
        order(Wanted(bag(), 5), day=ClassDay(0, 1))
    with pytest.raises(OrderError, match="tables"):
        order(Wanted(bag(), 5), day=ClassDay(3, 9))


def test_a_paper_that_the_workshop_does_not_have_is_named() -> None:
    bare = replace(shop(), papers=tuple(p for p in shop().papers if p.name != OAT))
    with pytest.raises(OrderError, match=OAT) as refused:
        order(Wanted(bag(), 2), workshop=bare)
    assert "workshop file" in refused.value.right
