"""From the contents to candidates: ranked as trying everything ranks them."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest
from shapely import Polygon

from snipfold.cutting import Part, plan_make
from snipfold.findings import Severity
from snipfold.measure import Length, System
from snipfold.scoring.kindness import unkindness
from snipfold.sizing import (
    Arrange,
    Ball,
    Block,
    Candidate,
    Contents,
    Fitted,
    Loose,
    SizeError,
    Sizer,
    Treats,
    Wish,
    bunches,
    fit,
    sheet_of,
    yield_of,
)
from snipfold.sizing.yields import gives, most_sets, parts_of
from snipfold.styles import STYLES, style_named

from .workshops import INCH, METRIC, sheet, with_marks

I = Length.inch  # noqa: E741
AIR = I("1/8")
BAR = (Treats(Block(I("5/2"), I("11/8"), I("5/2"))),)
PAPER = INCH.papers[0]


def fitted(contents: Contents, **more: object) -> Fitted:
    return fit(Wish(contents, AIR), PAPER, INCH, System.INCH, **more)  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def bars() -> Fitted:
    return fitted(BAR)


def test_every_style_is_either_sized_or_no_use_for_a_reason(bars: Fitted) -> None:
    sized = [one.style.name for one in bars.candidates]
    left = {one.style.name: one.reason for one in bars.unfit}
    assert sorted([*sized, *left]) == sorted(style.name for style in STYLES)
    assert all(left.values())


def test_the_best_comes_first(bars: Fitted) -> None:
    ranks = [one.rank for one in bars.candidates]
    assert ranks == sorted(ranks)
    sets = [one.got.sets for one in bars.candidates]
    assert sets == sorted(sets, reverse=True)
    assert sets[0] >= 2


def test_nothing_that_fails_its_proof_is_offered(bars: Fitted) -> None:
    for one in bars.candidates:
        assert not [found for found in one.findings if found.severity is Severity.ERROR]


def test_every_size_lies_on_the_makers_marks_and_has_room_to_spare(bars: Fitted) -> None:
    for one in bars.candidates:
        assert all(INCH.ruler.has(length) for length in one.said.values())
        assert all(spare >= Length.mm(0) for spare in one.spare.values())


def test_a_style_that_is_open_holds_nothing_unless_it_is_asked_for() -> None:
    band = style_named("belly band")
    assert not fitted(BAR, styles=[band]).candidates
    (one,) = fitted(BAR, styles=[band], open_too=True).candidates
    assert one.style is band


def test_a_flat_holder_takes_a_card_and_no_bun() -> None:
    """An ID-1 card is 85.60 x 53.98 x 0.76 mm (ISO/IEC 7810)."""
    holder = style_named("gift-card holder")
    card = (Treats(Block(Length.mm("85.60"), Length.mm("53.98"), Length.mm("0.76"))),)
    (one,) = fitted(card, styles=[holder]).candidates
    air = AIR * 2 + Length.mm("0.76")
    assert max(one.clear.values()) >= Length.mm("85.60") + air
    assert min(one.clear.values()) >= Length.mm("53.98") + air
    bun = (Treats(Ball(I(2))),)
    (unfit,) = fitted(bun, styles=[holder]).unfit
    assert "lies flat" in unfit.reason


def test_what_no_sheet_gives_is_told_with_its_blanks() -> None:
    crate = (Treats(Block(I(9), I(9), I(9))),)
    found = fitted(crate, styles=[style_named("wrap bag")])
    assert not found.candidates
    assert "more than oat cardstock 12 x 12 in gives" in found.unfit[0].reason


@pytest.mark.parametrize("name", ["wrap bag", "tray with lift-off lid", "hexagon box with lid"])
@pytest.mark.parametrize("contents", [BAR, (Treats(Block(I(1), I(2), I("1/2")), 3),)])
def test_no_size_on_the_marks_gives_more_sets_than_the_one_found(
    name: str, contents: tuple[Treats, ...]
) -> None:
    """Every size on a ruler of half inches that holds the treats, in every arrangement."""
    workshop = with_marks("1/2")
    style, wish = style_named(name), Wish(contents, AIR)
    sizer = Sizer(style, PAPER, workshop, System.INCH)
    makes_room = [driver.measure for driver in sizer.drivers]
    cover = sizer.usual.construction
    best = 0
    for marks in product(range(2, 9), repeat=len(makes_room)):
        said = {name: I("1/2") * number for name, number in zip(makes_room, marks, strict=True)}
        try:
            made = sizer.build(said)
        except SizeError:
            continue
        if all(sizer.lacks(made, wish.want(bunch, cover)) for bunch in bunches(contents)):
            continue
        plan = plan_make(
            parts_of(made.construction, PAPER), sheet_of(PAPER), workshop.trimmer, effort=30_000
        )
        best = max(best, plan.sets_per_sheet)
    found = fit(wish, PAPER, workshop, System.INCH, styles=[style], kinder=False)
    assert [one.got.sets for one in found.candidates] == ([best] if best else [])


def test_the_arrangement_chosen_is_the_best_of_sizing_each_alone() -> None:
    style = style_named("sleeve and tray")
    contents = (Treats(Block(I(1), I(2), I("1/2")), 4),)
    (one,) = fitted(contents, styles=[style], kinder=False, most_bunches=99).candidates
    alone: list[Candidate] = []
    for bunch in bunches(contents):
        block = (Treats(Block(*bunch.sides)),)
        alone += fitted(block, styles=[style], kinder=False).candidates
    assert one.rank[:3] == min(other.rank[:3] for other in alone)
    assert one.unkindness == min(
        other.unkindness for other in alone if other.rank[:3] == one.rank[:3]
    )


def test_kinder_numbers_cost_no_set_and_little_room(bars: Fitted) -> None:
    plain = {one.style.name: one for one in fitted(BAR, kinder=False).candidates}
    gained = 0
    for one in bars.candidates:
        before = plain[one.style.name]
        assert one.got.sets == before.got.sets
        assert one.unkindness <= before.unkindness
        for name, length in one.said.items():
            assert before.said[name] <= length < before.said[name] + I("1/4")
        gained += before.unkindness - one.unkindness
    assert gained > 0


def test_waste_is_what_an_independent_library_leaves_over(bars: Fitted) -> None:
    """Areas by shapely (general-purpose reference library)."""
    sheet_area = PAPER.usable_width.float_mm * PAPER.usable_height.float_mm
    for one in bars.candidates:
        boxes = sum(
            Polygon([(float(x), float(y)) for x, y in panel.corners]).area
            for piece in one.construction.pieces
            for panel in piece.panels
        )
        sheets = one.got.sheets * sheet_area
        assert float(one.waste) == pytest.approx(1 - max(1, one.got.sets) * boxes / sheets)


def test_unkindness_counts_sides_and_scores_from_the_nearer_edge() -> None:
    """The 4 x 1 x 4 in bag of common practice (no source): 10 1/2 x 5 in, scores at 1/2, 1 1/2,
    5 1/2, 6 1/2 from the tab end, which are 4 and 5 in from the other, and 1 in up."""
    workshop = with_marks("1/2")
    bag = style_named("wrap bag")
    block = (Treats(Block(I("15/4"), I("3/4"), I("15/4"))),)
    wish = Wish(block, Length.mm(0))
    (one,) = fit(wish, PAPER, workshop, System.INCH, styles=[bag], kinder=False).candidates
    assert one.said == {"width": I(4), "depth": I(1), "height": I(4)}
    numbers = [I(n) for n in ("21/2", "5", "1/2", "3/2", "5", "4", "1")]
    assert sorted(one.numbers) == sorted(numbers)
    assert one.unkindness == sum(unkindness(number, System.INCH) for number in numbers) == 3


def test_loose_treats_get_their_room() -> None:
    loose = Loose(Fraction(180_000), Fraction(3, 5))
    found = fitted(loose)
    assert len(found.candidates) >= 5
    for one in found.candidates:
        w, d, h = (one.clear[side].as_mm for side in ("width", "depth", "height"))
        assert w * d * h >= loose.room_mm3


def test_head_room_that_is_asked_for_is_there() -> None:
    bag = style_named("wrap bag")
    plain = fitted(BAR, styles=[bag], kinder=False).candidates[0]
    wish = Wish(BAR, AIR, I(1))
    more = fit(wish, PAPER, INCH, System.INCH, styles=[bag], kinder=False).candidates[0]
    assert plain.clear["height"] >= I("5/2")
    assert more.clear["height"] >= I("7/2")


def test_a_metric_workshop_gets_whole_millimetres() -> None:
    block = (Treats(Block(Length.mm(64), Length.mm(35), Length.mm(64))),)
    found = fit(Wish(block, Length.mm(3)), METRIC.papers[0], METRIC, System.METRIC)
    assert found.candidates
    for one in found.candidates:
        assert all(length.as_mm.denominator == 1 for length in one.said.values())


def test_a_pattern_with_an_up_is_never_turned() -> None:
    directed = replace(sheet("5", "12"), directed=True)
    block = (Treats(Block(I(1), I(1), I(1))),)
    bag = style_named("wrap bag")
    assert fit(Wish(block, AIR), sheet("5", "12"), INCH, System.INCH, styles=[bag]).candidates
    assert not fit(Wish(block, AIR), directed, INCH, System.INCH, styles=[bag]).candidates


def test_an_arrangement_that_cannot_be_is_an_error() -> None:
    lot = Treats(Block(I(1), I(1), I(1)), 9, Arrange(across=2, deep=2, high=2))
    with pytest.raises(ValueError, match="cannot be arranged"):
        fitted((lot,))


# ---- yields


def random_parts(seed: int) -> list[Part]:
    chance = random.Random(seed)
    mark = I("1/16")
    return [
        Part(
            f"part {number}",
            mark * chance.randint(20, 110),
            mark * chance.randint(20, 110),
            1,
            chance.random() < 0.7,
        )
        for number in range(chance.randint(1, 3))
    ]


@pytest.mark.parametrize("seed", range(40))
def test_a_yield_without_cuts_is_that_of_the_plan(seed: int) -> None:
    parts = random_parts(seed)
    plan = plan_make(parts, sheet_of(PAPER), INCH.trimmer)
    got = yield_of(parts, sheet_of(PAPER), INCH.trimmer)
    assert (got.sets, got.sheets) == (plan.sets_per_sheet, plan.sheets_per_set)
    assert most_sets(parts, sheet_of(PAPER), INCH.trimmer) >= got.sets
    for sets in (1, 2, 3):
        assert gives(parts, sheet_of(PAPER), INCH.trimmer, sets) == (plan.sets_per_sheet >= sets)


def test_no_size_of_a_style_is_offered_twice() -> None:
    contents = (Treats(Block(I(2), I(1), I("1/2")), 4),)
    hexagon = style_named("hexagon box with lid")
    found = fitted(contents, styles=[hexagon], each=4).candidates
    sizes = [tuple(one.measures.items()) for one in found]
    assert len(sizes) == len(set(sizes)) > 1
