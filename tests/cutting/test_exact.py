"""Plans and their limits against other ways of working them out."""

from __future__ import annotations

import json
import random
from pathlib import Path

import pytest

from snipfold.cutting import plan_make, replay
from snipfold.cutting.close import close
from snipfold.cutting.fit import Fit, bundled, single
from snipfold.cutting.grid import Kind, Member, Task
from snipfold.cutting.limits import by_area, by_scales, by_weights
from snipfold.cutting.worth import Worth
from snipfold.measure import Length

from .cases import Rectangle, by_every_cut, mm_parts, mm_sheet, mm_trimmer

DATA = Path(__file__).parent / "data"
GCUT = json.loads((DATA / "gcut.json").read_text())["instances"]
CGCUT = json.loads((DATA / "cgcut.json").read_text())["instances"]


def task_of_rectangles(rectangles: list[Rectangle], width: int, height: int) -> Task:
    kinds = tuple(
        Kind(
            tuple(sorted({(w, h), (h, w)} if turn else {(w, h)})),
            (Member(f"part {i}", copies, (w, h)),),
        )
        for i, (w, h, turn, copies) in enumerate(rectangles)
    )
    return Task(kinds, width, height, height, width, Length.mm(1))


def small_case(seed: int) -> tuple[list[Rectangle], int, int, int]:
    """Some rectangles, a sheet of a few millimetres and a longest cut that may matter."""
    chance = random.Random(seed)
    width, height = chance.randint(3, 9), chance.randint(3, 9)
    number = chance.randint(1, 3)
    rectangles = [
        (
            chance.randint(1, width),
            chance.randint(1, height),
            chance.random() < 0.5,
            chance.randint(1, 3 if number < 3 else 2),
        )
        for _ in range(number)
    ]
    longest = chance.choice(
        [99, 99, max(width, height), min(width, height), max(width, height) - 1]
    )
    return rectangles, width, height, longest


@pytest.mark.parametrize("hundred", range(15))
def test_sets_and_sheets_are_those_of_trying_every_cut(hundred: int) -> None:
    """An independent solver: every cut of every region, pieces only counted."""
    for seed in range(100 * hundred, 100 * hundred + 100):
        rectangles, width, height, longest = small_case(seed)
        if sum(n * (width * height // (w * h)) for w, h, _, n in rectangles) > 60:
            continue  # too many handfuls for the solver of the test
        trimmer = mm_trimmer(longest)
        plan = plan_make(mm_parts(rectangles), mm_sheet(width, height), trimmer)
        expected = by_every_cut(rectangles, width, height, longest)
        assert (plan.sets_per_sheet, plan.sheets_per_set) == expected, seed
        assert plan.proven
        assert replay(plan, trimmer).faults == ()


@pytest.mark.parametrize("seed", range(60))
def test_every_limit_holds_and_bundles_claim_nothing_too_much(seed: int) -> None:
    rectangles, width, height, _ = small_case(5000 + seed)
    if sum(n * (width * height // (w * h)) for w, h, _, n in rectangles) > 60:
        return
    task = task_of_rectangles(rectangles, width, height)
    sets, sheets = by_every_cut(rectangles, width, height, 99)
    assert sets <= by_scales(task)[0] <= by_area(task)
    assert sheets >= by_scales(task)[1]
    worth = Worth(task)
    weighed = by_weights(task, worth, 0, 10**6)
    assert weighed.best <= sets <= weighed.sets
    for more in (sets, sets + 1):
        if more:
            answer = close(task, worth, weighed.weights, more, 10**6)
            assert answer.possible is (more <= sets)
            bundles = bundled([more * kind.copies for kind in task.kinds], 4)
            if bundles and more > sets:
                fit = Fit(task, bundles)
                assert not fit.fits(fit.goal)


@pytest.mark.parametrize("name", GCUT)
def test_the_greatest_area_from_one_sheet_is_the_published_one(name: str) -> None:
    """Beasley 1985, Journal of the Operational Research Society 36:297-306 (gcut1-12)."""
    instance = GCUT[name]
    width, height = instance["sheet"]
    rectangles: list[Rectangle] = [(w, h, False, 1) for w, h in instance["items"]]
    task = task_of_rectangles(rectangles, width, height)
    worth = Worth(task)
    assert worth.most([kind.area for kind in task.kinds]) == instance["optimum"]
    _, got = worth.pattern()
    assert (
        sum(n * w * h for n, (w, h, _, _) in zip(got, rectangles, strict=True))
        == (instance["optimum"])
    )


def test_the_greatest_value_with_limited_copies_is_the_published_one() -> None:
    """Christofides and Whitlock 1977, Operations Research 25:30-44 (cgcut1: 244)."""
    instance = CGCUT["cgcut1"]
    width, height = instance["sheet"]
    items = instance["items"]
    task = task_of_rectangles([(w, h, False, n) for w, h, n, _ in items], width, height)
    fit = Fit(task, single([n for _, _, n, _ in items]))
    best = max(
        sum(n * value for n, (*_, value) in zip(fit.digits(whole), items, strict=True))
        for whole in range(fit.goal + 1)
        if fit.fits(whole)
    )
    assert best == instance["optimum"]
