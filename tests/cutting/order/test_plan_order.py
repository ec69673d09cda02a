"""Orders: the fewest sheets, proven, and replayed by a checker that shares no code."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from snipfold.cutting import (
    Ended,
    OrderPlan,
    Part,
    SheetSize,
    SheetSupply,
    plan_make,
    plan_order,
    replay_order,
)
from snipfold.measure import Length, Ruler
from snipfold.workshop import Trimmer

MARK = Length.inch("1/16")
TRIMMER = Trimmer(Ruler(MARK), MARK * 192)
#: A kit made for this project: width, height, may be turned, pieces a kit; in sixteenths.
KIT = (
    (76, 150, True, 2), (58, 58, True, 2), (18, 58, True, 2), (16, 176, True, 2),
    (98, 126, False, 1), (52, 76, True, 3), (38, 90, True, 4), (26, 104, False, 2),
    (42, 42, True, 6), (28, 34, True, 8), (66, 122, False, 1), (20, 146, True, 2),
)  # fmt: skip


def sheet(width: int, height: int, cost: int = 1, most: int | None = None) -> SheetSupply:
    name = f"sheet {width} x {height}"
    return SheetSupply(SheetSize(name, MARK * width, MARK * height), Fraction(cost), most)


def parts(*sizes: tuple[int, int, int], turn: bool = True) -> list[Part]:
    return [Part(f"part {w} x {h}", MARK * w, MARK * h, n, turn) for w, h, n in sizes]


def replayed(plan: OrderPlan) -> OrderPlan:
    assert replay_order(plan, TRIMMER).faults == ()
    return plan


@pytest.mark.parametrize(("kits", "sheets"), [(10, 32), (50, 156), (200, 624)])
def test_a_kit_of_twelve_parts_takes_the_fewest_sheets(kits: int, sheets: int) -> None:
    """The area alone asks for 31, 154 and 616 sheets; the bounds are the planner's own proof."""
    wanted = [
        Part(f"part {number}", MARK * w, MARK * h, count * kits, turn)
        for number, (w, h, turn, count) in enumerate(KIT)
    ]
    plan = replayed(plan_order(wanted, [sheet(192, 192)], TRIMMER))
    area = sum(w * h * count * kits for w, h, _, count in KIT) / 192**2
    assert plan.sheets == (sheets,)
    assert plan.proven
    assert plan.bound == sheets >= area
    assert (plan.gap, plan.ended) == (0, Ended.PROVEN)


@given(
    st.lists(
        st.tuples(st.integers(20, 192), st.integers(20, 192), st.integers(1, 4)),
        min_size=1, max_size=3, unique_by=lambda size: size[:2],
    )
)  # fmt: skip
@settings(max_examples=25, deadline=None)
def test_small_orders_agree_with_the_exact_planner_of_one_make(
    sizes: list[tuple[int, int, int]],
) -> None:
    wanted = parts(*sizes)
    one = plan_make(wanted, SheetSize("sheet 192 x 192", MARK * 192, MARK * 192), TRIMMER)
    plan = replayed(plan_order(wanted, [sheet(192, 192)], TRIMMER, seconds=10))
    assert sum(w * h * n for w, h, n in sizes) <= 192**2 * plan.sheets[0]
    if one.proven and plan.proven:
        assert plan.sheets[0] == one.sheets_per_set


def test_offcuts_on_hand_are_used_before_a_sheet_is_bought() -> None:
    """Four parts of 4 x 4 in: two fit the 8 x 4 in offcut, the others need one new sheet."""
    supplies = [sheet(192, 192), sheet(128, 64, cost=0, most=1)]
    plan = replayed(plan_order(parts((64, 64, 11)), supplies, TRIMMER))
    # Nine come from a sheet of 12 x 12, so eleven are one sheet and the offcut.
    assert plan.sheets == (1, 1)
    assert plan.cost == 1


def test_what_runs_out_is_named_with_its_copies() -> None:
    plan = replayed(plan_order(parts((192, 192, 5)), [sheet(192, 192, most=3)], TRIMMER))
    assert plan.missing == (("part 192 x 192", 2),)


def test_a_part_larger_than_every_sheet_is_a_finding() -> None:
    plan = plan_order(parts((200, 100, 1), (64, 64, 1)), [sheet(192, 192)], TRIMMER)
    (finding,) = plan.findings
    assert finding.code == "sheet.too-small"
    assert finding.amount == MARK * 8
    assert plan.missing == (("part 200 x 100", 1),)


def test_the_same_seed_gives_the_same_plan() -> None:
    wanted = parts((76, 150, 20), (58, 58, 30), (52, 76, 25))
    first, second = (plan_order(wanted, [sheet(192, 192)], TRIMMER, seed=7) for _ in range(2))
    assert first == second


def test_stopping_gives_a_plan_with_an_honest_gap() -> None:
    wanted = [
        Part(f"part {number}", MARK * w, MARK * h, count * 50, turn)
        for number, (w, h, turn, count) in enumerate(KIT)
    ]
    plan = replayed(plan_order(wanted, [sheet(192, 192)], TRIMMER, stopped=lambda: True))
    assert plan.missing == ()
    assert plan.gap == plan.cost - plan.bound >= 0
    assert plan.proven == (plan.gap == 0)


@pytest.mark.parametrize("wanted", [[], parts((64, 64, 0))])
def test_nothing_to_cut_is_refused(wanted: list[Part]) -> None:
    with pytest.raises(ValueError, match=r"part|cop"):
        plan_order(wanted, [sheet(192, 192)], TRIMMER)
