"""The replay finds every fault that is put into a plan."""

from __future__ import annotations

import ast
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

import snipfold.cutting
from snipfold.cutting import (
    Axis,
    Cut,
    CutPlan,
    CutStep,
    Got,
    Node,
    Offcut,
    Region,
    SheetPattern,
    plan_make,
    replay,
)
from snipfold.measure import ZERO, Length, Ruler
from snipfold.workshop import Trimmer

from .cases import SIXTEENTHS, TWELVE, inch_part


@pytest.fixture
def plan() -> CutPlan:
    """Two sets of a wide and a narrow piece, and a directed mat, from one sheet."""
    made = plan_make(
        [
            inch_part("wrap", "17/2", "5"),
            inch_part("strap", "3/4", "11"),
            inch_part("mat", "5/4", "3/2", turn=False),
        ],
        TWELVE,
        SIXTEENTHS,
    )
    assert made.sets_per_sheet == 2
    assert replay(made, SIXTEENTHS).faults == ()
    return made


def with_tree(plan: CutPlan, tree: Node) -> CutPlan:
    return replace(plan, patterns=(SheetPattern(tree, 1),))


def changed(node: Node, where: Callable[[Node], bool], change: Callable[[Node], Node]) -> Node:
    """The tree with the first node that `where` holds of changed."""
    done = False

    def walk(node: Node) -> Node:
        nonlocal done
        if not done and where(node):
            done = True
            return change(node)
        if isinstance(node, Cut):
            return replace(node, first=walk(node.first), rest=walk(node.rest))
        return node

    tree = walk(node)
    assert done
    return tree


def is_part(name: str) -> Callable[[Node], bool]:
    return lambda node: isinstance(node, Got) and node.part == name


def found(plan: CutPlan, trimmer: Trimmer = SIXTEENTHS) -> str:
    """All faults of a plan, which must have some."""
    faults = replay(plan, trimmer).faults
    assert faults
    return "; ".join(faults)


def test_a_moved_cut_is_found(plan: CutPlan) -> None:
    tree = plan.patterns[0].tree
    assert isinstance(tree, Cut)
    moved = replace(tree, at=tree.at + Length.inch("1/16"))
    assert "leaves" in found(with_tree(plan, moved))


def test_a_cut_off_the_marks_is_found() -> None:
    """A cut and its parts moved together by 1/32 in: every region tiles, no mark is there."""
    whole = plan_make([inch_part("half", "6", "12")], TWELVE, SIXTEENTHS)
    at = Length.inch("193/32")
    first = Region(ZERO, ZERO, at, Length.inch(12))
    rest = Region(at, ZERO, Length.inch(12) - at, Length.inch(12))
    tree = whole.patterns[0].tree
    moved = Cut(tree.region, Axis.ACROSS, at, Got(first, "half", False), Got(rest, "half", False))
    assert "off the trimmer's marks" in found(with_tree(whole, moved))


def test_a_part_turned_against_its_flag_is_found(plan: CutPlan) -> None:
    tree = changed(
        plan.patterns[0].tree,
        is_part("mat"),
        lambda node: replace(node, turned=True),  # type: ignore[arg-type]
    )
    assert "turned and may not be" in found(with_tree(plan, tree))


def test_a_part_of_another_size_is_found(plan: CutPlan) -> None:
    tree = changed(
        plan.patterns[0].tree,
        is_part("strap"),
        lambda node: replace(node, part="wrap"),  # type: ignore[arg-type]
    )
    assert "“wrap” is not" in found(with_tree(plan, tree))


def test_a_part_nobody_asked_for_is_found(plan: CutPlan) -> None:
    tree = changed(
        plan.patterns[0].tree,
        is_part("strap"),
        lambda node: replace(node, part="ribbon"),  # type: ignore[arg-type]
    )
    assert "“ribbon” is no part" in found(with_tree(plan, tree))


def test_a_lost_part_is_found(plan: CutPlan) -> None:
    tree = changed(plan.patterns[0].tree, is_part("strap"), lambda node: Offcut(node.region))
    assert "1 of “strap”, where 2 sets take 2" in found(with_tree(plan, tree))


def test_a_lost_strip_of_the_sheet_is_found(plan: CutPlan) -> None:
    tree = plan.patterns[0].tree
    assert isinstance(tree, Cut)
    short = replace(tree.rest.region, width=tree.rest.region.width - Length.inch(1))
    assert "the rest is" in found(with_tree(plan, replace(tree, rest=Offcut(short))))


def test_a_sheet_of_another_size_is_found(plan: CutPlan) -> None:
    larger = replace(plan, sheet=replace(TWELVE, width=Length.inch("25/2")))
    assert "not with the sheet" in found(larger)


def test_a_cut_too_long_for_the_trimmer_is_found(plan: CutPlan) -> None:
    shorter = Trimmer(Ruler(Length.inch("1/16")), Length.inch("191/16"))
    assert "longer than the trimmer cuts" in found(plan, shorter)


def test_a_sheet_a_little_longer_than_the_trimmer_is_found() -> None:
    """12 1/32 in is planned as 12 in, but the cut is as long as the sheet truly is."""
    sheet = replace(TWELVE, height=Length.inch("385/32"), width=Length.inch(6))
    plan = plan_make(
        [inch_part("strap", "1", "12", turn=False)],
        sheet,
        Trimmer(Ruler(Length.inch("1/16")), Length.inch(13)),
    )
    assert plan.sets_per_sheet == 6
    assert "longer than the trimmer cuts" in found(plan, SIXTEENTHS)


def swapped(steps: tuple[CutStep, ...]) -> tuple[CutStep, ...]:
    return (steps[1], steps[0], *steps[2:])


@pytest.mark.parametrize(
    ("damage", "says"),
    [
        (swapped, "to be cut yet"),
        (lambda steps: steps[:-1], "should have been cut"),
        (lambda steps: (*steps, steps[-1]), "or no longer"),
        (
            lambda steps: (replace(steps[0], setting=Length.inch(1)), *steps[1:]),
            "another setting",
        ),
        (
            lambda steps: (
                replace(steps[0], axis=Axis.UP if steps[0].axis is Axis.ACROSS else Axis.ACROSS),
                *steps[1:],
            ),
            "another setting",
        ),
        (
            lambda steps: (
                *steps[:-1],
                replace(steps[-1], gives=("ribbon",) * len(steps[-1].gives)),
            ),
            "not “ribbon”",
        ),
        (lambda steps: (replace(steps[0], gives=()), *steps[1:]), "give 0"),
    ],
)
def test_a_wrong_order_of_work_is_found(
    plan: CutPlan,
    damage: Callable[[tuple[CutStep, ...]], tuple[CutStep, ...]],
    says: str,
) -> None:
    assert says in found(replace(plan, steps=(damage(plan.steps[0]),)))


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"sets_per_sheet": 3}, "where 3 sets take 3"),
        ({"bound": 1}, "gives 1 at most"),
        ({"bound": 3}, "said to be proven"),
        ({"proven": False}, "said to be not proven"),
        ({"steps": ()}, "steps for 0"),
        ({"sets_per_sheet": 0, "sheets_per_set": 2}, "2 sheets make one set"),
        ({"sets_per_sheet": 0, "sheets_per_set": 0}, "makes nothing"),
    ],
)
def test_figures_that_do_not_agree_are_found(
    plan: CutPlan, change: dict[str, object], says: str
) -> None:
    assert says in found(replace(plan, **change))  # type: ignore[arg-type]


def test_the_replay_shares_no_code_with_the_planner() -> None:
    """It reads the plan's values, the measures and the trimmer, and nothing else of ours."""
    source = Path(snipfold.cutting.__file__).with_name("replay.py").read_text()
    tree = ast.parse(source)
    ours = {
        node.module
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and node.level > 0
    }
    assert ours == {"measure", "workshop", "plan"}
