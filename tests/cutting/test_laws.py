"""Laws that every plan keeps."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from snipfold.cutting import (
    Cut,
    CutPlan,
    Got,
    Node,
    Offcut,
    Part,
    SheetSize,
    cut_steps,
    plan_make,
    replay,
)
from snipfold.measure import Length, Ruler
from snipfold.workshop import Trimmer

from .cases import Rectangle, cuts_of, mm_parts, mm_sheet, mm_trimmer

RECTANGLES = st.lists(
    st.tuples(st.integers(4, 60), st.integers(4, 60), st.booleans(), st.integers(1, 3)),
    min_size=1,
    max_size=4,
)
SHEETS = st.tuples(st.integers(60, 120), st.integers(60, 120))
FEW = settings(max_examples=60, deadline=None)
EFFORT = 20_000


def planned(rectangles: list[Rectangle], sheet: tuple[int, int], longest: int = 1000) -> CutPlan:
    return plan_make(mm_parts(rectangles), mm_sheet(*sheet), mm_trimmer(longest), effort=EFFORT)


def worth(plan: CutPlan) -> Fraction:
    """Sets a sheet: more is better."""
    if plan.sets_per_sheet:
        return Fraction(plan.sets_per_sheet)
    return Fraction(1, plan.sheets_per_set) if plan.sheets_per_set else Fraction(0)


def areas(node: Node) -> Fraction:
    """The area of the pieces and offcuts of a tree."""
    total, waiting = Fraction(0), [node]
    while waiting:
        part = waiting.pop()
        if isinstance(part, Cut):
            waiting += [part.first, part.rest]
        else:
            total += part.region.width.as_mm * part.region.height.as_mm
    return total


@FEW
@given(RECTANGLES, SHEETS, st.integers(60, 130))
def test_the_replay_finds_no_fault_in_any_plan(
    rectangles: list[Rectangle], sheet: tuple[int, int], longest: int
) -> None:
    plan = planned(rectangles, sheet, longest)
    check = replay(plan, mm_trimmer(longest))
    assert check.faults == ()
    for pattern in plan.patterns:
        assert areas(pattern.tree) == sheet[0] * sheet[1]


@FEW
@given(RECTANGLES, SHEETS, st.integers(2, 7))
def test_everything_larger_by_one_factor_is_cut_the_same_way(
    rectangles: list[Rectangle], sheet: tuple[int, int], factor: int
) -> None:
    plan = planned(rectangles, sheet)
    parts = [
        Part(p.name, p.width * factor, p.height * factor, p.copies, p.turn)
        for p in mm_parts(rectangles)
    ]
    large = SheetSize("sheet", Length.mm(sheet[0] * factor), Length.mm(sheet[1] * factor))
    trimmer = Trimmer(Ruler(Length.mm(factor)), Length.mm(1000 * factor))
    scaled = plan_make(parts, large, trimmer, effort=EFFORT)
    assert (scaled.sets_per_sheet, scaled.sheets_per_set, scaled.bound) == (
        plan.sets_per_sheet,
        plan.sheets_per_set,
        plan.bound,
    )
    assert [c.at for p in scaled.patterns for c in cuts_of(p.tree)] == [
        c.at * factor for p in plan.patterns for c in cuts_of(p.tree)
    ]


@FEW
@given(RECTANGLES, SHEETS)
def test_letting_parts_turn_never_gives_fewer_sets(
    rectangles: list[Rectangle], sheet: tuple[int, int]
) -> None:
    fixed = planned([(w, h, False, n) for w, h, _, n in rectangles], sheet)
    free = planned([(w, h, True, n) for w, h, _, n in rectangles], sheet)
    if free.proven:
        assert worth(free) >= worth(fixed)


@FEW
@given(RECTANGLES, SHEETS)
def test_one_copy_more_never_gives_more_sets(
    rectangles: list[Rectangle], sheet: tuple[int, int]
) -> None:
    plan = planned(rectangles, sheet)
    w, h, turn, copies = rectangles[0]
    more = planned([(w, h, turn, copies + 1), *rectangles[1:]], sheet)
    if plan.proven:
        assert worth(more) <= worth(plan)


@FEW
@given(RECTANGLES, SHEETS)
def test_the_sheet_and_all_parts_on_their_side_give_as_many_sets(
    rectangles: list[Rectangle], sheet: tuple[int, int]
) -> None:
    plan = planned(rectangles, sheet)
    lying = planned([(h, w, turn, n) for w, h, turn, n in rectangles], sheet[::-1])
    if plan.proven and lying.proven:
        assert worth(lying) == worth(plan)


@FEW
@given(RECTANGLES, SHEETS)
def test_a_larger_sheet_never_gives_fewer_sets(
    rectangles: list[Rectangle], sheet: tuple[int, int]
) -> None:
    plan = planned(rectangles, sheet)
    larger = planned(rectangles, (sheet[0] + 5, sheet[1]))
    if larger.proven:
        assert worth(larger) >= worth(plan)


def fewest_changes(tree: Node) -> int:
    """The fewest settings, one after another, in which the cuts can be made: every order tried."""
    cuts = list(cuts_of(tree))
    needs = [
        next((j for j, c in enumerate(cuts) if cut in (c.first, c.rest)), None) for cut in cuts
    ]
    level: set[tuple[frozenset[int], Length | None]] = {(frozenset(), None)}
    changes = 0
    while True:
        seen = set(level)
        waiting = list(level)
        for done, setting in waiting:  # grows as it goes
            if len(done) == len(cuts):
                return changes
            for i, cut in enumerate(cuts):
                after = (done | {i}, setting)
                ready = i not in done and needs[i] in {None, *done}
                if ready and cut.at == setting and after not in seen:
                    seen.add(after)
                    waiting.append(after)
        settings_left = {cut.at for cut in cuts}
        level = {(done, setting) for done, _ in seen for setting in settings_left}
        changes += 1


@FEW
@given(RECTANGLES, SHEETS)
def test_steps_hold_every_cut_once_with_the_fewest_changes_of_setting(
    rectangles: list[Rectangle], sheet: tuple[int, int]
) -> None:
    for pattern in planned(rectangles, sheet).patterns:
        steps = cut_steps(pattern.tree)
        cuts = list(cuts_of(pattern.tree))
        assert Counter(piece for step in steps for piece in step.pieces) == Counter(
            cut.region for cut in cuts
        )
        assert all(
            one.setting != two.setting or one.axis is not two.axis for one, two in pairwise(steps)
        )
        if len(cuts) <= 7:
            changes = 1 + sum(one.setting != two.setting for one, two in pairwise(steps))
            assert (changes if steps else 0) == fewest_changes(pattern.tree)


@FEW
@given(RECTANGLES, SHEETS)
def test_what_comes_off_before_the_blade_is_always_wanted(
    rectangles: list[Rectangle], sheet: tuple[int, int]
) -> None:
    """A maker keeps what lies between edge and blade; only what falls beyond is left over."""
    for pattern in planned(rectangles, sheet).patterns:
        for cut in cuts_of(pattern.tree):
            assert isinstance(cut.first, Cut | Got)
            assert isinstance(cut.rest, Cut | Got | Offcut)
