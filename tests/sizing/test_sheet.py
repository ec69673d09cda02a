"""From the sheet to sizes: where the yield changes, and the most room from one sheet."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from math import sqrt

import pytest

from snipfold.cutting import plan_make
from snipfold.measure import Length, System
from snipfold.sizing import SizeError, Sizer, roomiest, sheet_of, yield_steps
from snipfold.sizing.yields import parts_of
from snipfold.styles import Style, style_named

from .workshops import INCH, METRIC, ideal, sheet, with_marks

I = Length.inch  # noqa: E741
BAG, TRAY = style_named("wrap bag"), style_named("tray with lift-off lid")
CUBIC_INCH = Fraction(254, 10) ** 3


def test_a_little_less_height_gives_one_more_bag() -> None:
    """The 4 x 1 in bag of common practice (no source) is 10 1/2 in long and its height and 1 in
    tall: a 12 x 12 in sheet has 12/1, 12/2 … of those, so one more at 11, 5, 3, 2 in …"""
    said = {"width": I(4), "depth": I(1)}
    steps = yield_steps(BAG, "height", INCH.papers[0], INCH, System.INCH, said=said)
    assert [(step.size, step.got.sets) for step in steps] == [
        (I(1), 6),
        # 12/5 = 2 2/5 in each, less the inch: the mark below is 1 3/8.
        (I("11/8"), 5),
        (I(2), 4),
        (I(3), 3),
        (I(5), 2),
        (I(11), 1),
    ]


@pytest.mark.parametrize(
    ("style", "vary", "least", "most"),
    [
        (BAG, "height", "2", "5"),
        (BAG, "depth", "1/2", "5/2"),
        (TRAY, "width", "1", "5/2"),
        (TRAY, "height", "3/8", "2"),
        (style_named("hexagon box with lid"), "side", "3/4", "3/2"),
        (style_named("straight tuck carton"), "width", "1", "3"),
    ],
)
def test_the_steps_are_those_of_planning_every_mark(
    style: Style, vary: str, least: str, most: str
) -> None:
    steps = yield_steps(
        style, vary, INCH.papers[0], INCH, System.INCH, least=I(least), most=I(most),
    )  # fmt: skip
    sizer = Sizer(style, INCH.papers[0], INCH, System.INCH)
    mark = INCH.ruler.graduation
    seen: list[tuple[Length, int, int]] = []
    size = I(least)
    while size <= I(most):
        try:
            _, made = sizer.drawn({vary: size})
        except SizeError:
            size = size + mark
            continue
        plan = plan_make(
            parts_of(made, INCH.papers[0]), sheet_of(INCH.papers[0]), INCH.trimmer, effort=20_000
        )
        if seen and seen[-1][1:] == (plan.sets_per_sheet, plan.sheets_per_set):
            seen.pop()
        seen.append((size, plan.sets_per_sheet, plan.sheets_per_set))
        size = size + mark
    assert [(step.size, step.got.sets, step.got.sheets) for step in steps] == [
        one for one in seen if one[2]
    ]


def test_a_measure_that_moves_no_blank_has_one_step() -> None:
    steps = yield_steps(BAG, "sliver", INCH.papers[0], INCH, System.INCH)
    assert len(steps) == 1


def test_steps_lie_on_the_millimetres_of_a_metric_ruler() -> None:
    steps = yield_steps(BAG, "height", METRIC.papers[0], METRIC, System.METRIC)
    assert len(steps) > 3
    assert all(step.size.as_mm.denominator == 1 for step in steps)


def test_a_measure_that_the_style_has_not_is_an_error() -> None:
    with pytest.raises(KeyError):
        yield_steps(BAG, "girth", INCH.papers[0], INCH, System.INCH)


# ---- the most room


def open_box(width: str, height: str) -> tuple[float, float]:
    """The open box with the most room that the search finds: corner square, in, and room, in3."""
    found = roomiest(TRAY, sheet(width, height, thin=True), ideal(), System.INCH, pieces=("base",))
    assert found is not None
    assert found.proven
    return float(found.size.said["height"].as_inch), float(found.room_mm3 / CUBIC_INCH)


def corner_square(a: float, b: float) -> float:
    """The best corner square of a sheet, by calculus: x = ((a + b) - sqrt(a^2 - ab + b^2)) / 6."""
    return ((a + b) - sqrt(a * a - a * b + b * b)) / 6


@pytest.mark.parametrize(
    ("width", "height", "square", "room"),
    [
        # https://math.answers.com/... "4 corners of a 8.5 by 11 inch piece": 1.585
        ("17/2", "11", 1.5854, 66.1482),
        # https://www.algebra.com/cgi-bin/show-question-source.mpl?solution=648211: 10 - sqrt 28
        ("24", "36", 4.708497, 1825.2966),
        # https://homeworksource.com/p/1005884/a-box-is-made-from-a-sheet-of-cardboard-by-cutting-squares-f
        ("18", "24", 3.39445, 654.977),
        # A square S gives x = S/6 and 2 S^3 / 27: calculus textbook exercise, stated at
        # http://mathdemos.gcsu.edu/mathdemos/maxmin/buildabox_description.html
        ("16", "16", 16 / 6, 303.407),
        ("12", "12", 2.0, 128.0),
        ("6", "6", 1.0, 16.0),
    ],
)
def test_the_roomiest_open_box_is_that_of_calculus(
    width: str, height: str, square: float, room: float
) -> None:
    assert corner_square(float(Fraction(width)), float(Fraction(height))) == pytest.approx(
        square, abs=1e-4
    )
    found, holds = open_box(width, height)
    assert abs(found - square) <= 1 / 16
    # No size on the marks holds more than the best of all, and one mark off costs little.
    assert holds <= room + 1e-3
    assert holds >= room * 0.999


def test_a_published_wrong_answer_is_not_given() -> None:
    """24 in square, published as x = 8 and 512 in3: https://askanewquestion.com/questions/a-square-piece-of-cardboard-24-inches-by-24-inches-is-to-be-made/1132304

    8 in squares leave 8 x 8 x 8 in, half of what 4 in squares hold.
    """
    assert open_box("24", "24") == (4.0, 1024.0)
    eight = Sizer(TRAY, sheet("24", "24", thin=True), ideal(), System.INCH).build(
        {"width": I(8), "depth": I(8), "height": I(8)}
    )
    assert [float(side.as_inch) for side in eight.clear.values()] == [8, 8, 8]


def test_a_wanted_room_is_met_where_the_published_roots_lie() -> None:
    """18 x 24 in, 275 in3: x is 0.739 or 7.032, while 13.229 leaves no floor (same page as above)."""
    sizer = Sizer(TRAY, sheet("18", "24", thin=True), ideal(), System.INCH)

    def room(x: str) -> float:
        square = I(x)
        made = sizer.build(
            {"width": I(24) - square * 2, "depth": I(18) - square * 2, "height": square}
        )
        w, d, h = (float(side.as_inch) for side in made.clear.values())
        return w * d * h

    assert room("11/16") < 275 < room("3/4")
    assert room("7") > 275 > room("113/16")
    with pytest.raises(SizeError):
        room("13")


@pytest.mark.parametrize("name", ["wrap bag", "tray with lift-off lid"])
def test_the_roomiest_size_is_that_of_trying_every_size(name: str) -> None:
    workshop, paper = with_marks("1/2"), sheet("8", "13/2")
    style = style_named(name)
    sizer = Sizer(style, paper, workshop, System.INCH)
    best = {1: Fraction(0), 2: Fraction(0)}
    for marks in product(range(1, 14), repeat=3):
        said = {
            driver.measure: I("1/2") * number
            for driver, number in zip(sizer.drivers, marks, strict=True)
        }
        # No blank is narrower across than the box is wide and high, or deep and high.
        if sum(sorted(marks)[:2]) > 16:
            continue
        try:
            _, drawn = sizer.drawn(said)
        except SizeError:
            continue
        parts = parts_of(drawn, paper)
        if any(max(part.width, part.height) > I(8) for part in parts):
            continue
        made = sizer.build(said)
        room = Fraction(1)
        for side in made.clear.values():
            room *= side.as_mm
        if room > min(best.values()):
            got = plan_make(parts, sheet_of(paper), workshop.trimmer).sets_per_sheet
            for sets in best:
                if got >= sets:
                    best[sets] = max(best[sets], room)
    assert best[1]
    for sets, room in best.items():
        found = roomiest(style, paper, workshop, System.INCH, sets=sets)
        assert (Fraction(0) if found is None else found.room_mm3) == room
        assert found is None or (found.proven and found.got.sets >= sets)


def test_a_measure_that_is_said_stays() -> None:
    found = roomiest(
        BAG, sheet("12", "12"), with_marks("1/4"), System.INCH, said={"depth": I("3/2")}
    )
    assert found is not None
    assert found.size.measures["depth"] == I("3/2")


def test_what_holds_no_block_has_no_most_room() -> None:
    with pytest.raises(SizeError, match="holds no block"):
        roomiest(style_named("belly band"), sheet("12", "12"), INCH, System.INCH)
    with pytest.raises(ValueError, match="at least one set"):
        roomiest(BAG, sheet("12", "12"), INCH, System.INCH, sets=0)
