"""Plans against facts of the trade and published sizes."""

from __future__ import annotations

from fractions import Fraction

import pytest

from snipfold.cutting import Axis, Part, SheetSize, plan_make, replay
from snipfold.findings import Severity
from snipfold.measure import Length, Ruler
from snipfold.workshop import Trimmer

from .cases import MILLIMETRES, SIXTEENTHS, TWELVE, cuts_of, inch_part, mm_sheet


def test_two_bags_with_their_straps_come_out_of_one_sheet_and_not_three() -> None:
    """Common practice, no source: blanks of 10 1/2 x 5 in, straps of 7/8 x 12 in."""
    bag = [inch_part("bag", "21/2", "5"), inch_part("strap", "7/8", "12")]
    plan = plan_make(bag, TWELVE, SIXTEENTHS)
    assert (plan.sets_per_sheet, plan.bound, plan.proven) == (2, 2, True)
    assert replay(plan, SIXTEENTHS).faults == ()


def test_nine_mats_of_3_7_8_come_out_of_one_sheet_at_one_setting() -> None:
    """Common practice, no source: the mat; 3 x 3 7/8 = 11 5/8 in leaves 3/8 in each way."""
    plan = plan_make([inch_part("mat", "31/8", "31/8")], TWELVE, SIXTEENTHS)
    check = replay(plan, SIXTEENTHS)
    assert (plan.sets_per_sheet, plan.proven) == (9, True)
    assert check.settings == (Length.inch("31/8"),)
    assert check.cuts == 12


def test_nine_mats_take_two_rounds_at_the_trimmer_strips_first() -> None:
    plan = plan_make([inch_part("mat", "31/8", "31/8")], TWELVE, SIXTEENTHS)
    first, second = plan.steps[0]
    assert first.gives == ("", "", "")
    assert second.gives == ("mat",) * 9
    assert first.axis is not second.axis


@pytest.mark.parametrize(
    ("name", "width", "height", "number"),
    [("A5", 148, 210, 2), ("A6", 105, 148, 4), ("A7", 74, 105, 8), ("A8", 52, 74, 16)],
)
def test_an_a4_sheet_halves_into_the_smaller_sizes_of_its_series(
    name: str, width: int, height: int, number: int
) -> None:
    """ISO 216: each size is the one before it halved, rounded down to the millimetre."""
    part = Part(name, Length.mm(width), Length.mm(height), 1, True)
    plan = plan_make([part], mm_sheet(210, 297), MILLIMETRES)
    assert (plan.sets_per_sheet, plan.proven) == (number, True)


def test_a_letter_sheet_halves_without_an_offcut_in_one_cut() -> None:
    """Half letter is 5 1/2 x 8 1/2 in (common practice, no source)."""
    letter = SheetSize("Letter", Length.inch("17/2"), Length.inch(11))
    plan = plan_make([inch_part("card", "11/2", "17/2")], letter, SIXTEENTHS)
    assert plan.sets_per_sheet == 2
    (cut,) = cuts_of(plan.patterns[0].tree)
    assert (cut.axis, cut.at) == (Axis.UP, Length.inch("11/2"))


def test_a_measured_sheet_that_falls_short_gives_one_bag_fewer() -> None:
    """Sheets sold as 12 x 12 in have been measured at 11 15/16 in: two straps no longer fit.

    scrappyhare.blogspot.com/2007/02/size-does-matter.html
    """
    short = SheetSize("12 x 12 in card", Length.inch("191/16"), Length.inch("191/16"))
    plan = plan_make([inch_part("strap", "7/8", "12")], short, SIXTEENTHS)
    assert (plan.sets_per_sheet, plan.sheets_per_set, plan.patterns) == (0, 0, ())
    (finding,) = plan.findings
    assert (finding.code, finding.severity) == ("sheet.too-small", Severity.ERROR)
    assert finding.where == ("strap", "12 x 12 in card")
    assert finding.amount == Length.inch("1/16")
    assert "strap" in finding.says
    assert "12 x 12 in card" in finding.says
    assert "1/16 in short" in finding.says


def test_pieces_that_do_not_share_a_sheet_take_one_each() -> None:
    tray = [inch_part("base", "13/2", "31/4"), inch_part("lid", "53/8", "63/8")]
    plan = plan_make(tray, TWELVE, SIXTEENTHS)
    assert (plan.sets_per_sheet, plan.sheets_per_set) == (0, 2)
    assert (plan.bound, plan.proven) == (2, True)
    assert [pattern.times for pattern in plan.patterns] == [1, 1]
    assert replay(plan, SIXTEENTHS).got == ({"lid": 1}, {"base": 1})


def test_equal_sheets_are_one_pattern_cut_several_times() -> None:
    plan = plan_make([inch_part("panel", "7", "7", copies=3)], TWELVE, SIXTEENTHS)
    assert plan.sheets_per_set == 3
    assert [pattern.times for pattern in plan.patterns] == [3]
    assert replay(plan, SIXTEENTHS).faults == ()


def test_a_size_between_two_marks_is_planned_at_the_nearest_and_said() -> None:
    """17.25 cm lies half a millimetre off a ruler with millimetres; a tie goes up."""
    lid = Part("lid", Length.cm("17.25"), Length.cm("17.25"), 1, True)
    plan = plan_make([lid], mm_sheet(305, 305), MILLIMETRES)
    assert [finding.code for finding in plan.findings] == ["cut.off-graduation"] * 2
    for finding, side in zip(plan.findings, ("width", "height"), strict=True):
        assert finding.severity is Severity.CAUTION
        assert finding.where == ("lid", side)
        assert finding.amount == Length.mm("0.5")
        assert "17.3 cm" in finding.says
    assert replay(plan, MILLIMETRES).settings == (Length.mm(173),)


def test_an_inch_part_on_a_metric_trimmer_names_the_metric_mark() -> None:
    """3 7/8 in is 98.425 mm, by the inch of 25.4 mm exactly (NIST SP 811)."""
    part = Part("mat", Length.inch("31/8"), Length.mm(98), 1, True)
    plan = plan_make([part], mm_sheet(305, 305), MILLIMETRES)
    (finding,) = plan.findings
    assert finding.where == ("mat", "width")
    assert finding.amount == Length.mm("0.425")
    assert "9.8 cm" in finding.says
    assert plan.sets_per_sheet == 9


def test_the_sheet_counts_up_to_the_last_whole_mark() -> None:
    """A 12 in sheet is 304.8 mm: 304 marks of a millimetre, two pieces of 152 but not of 153."""
    sheet = SheetSize("card", Length.inch(12), Length.mm(100))
    for width, number in ((152, 2), (153, 1)):
        part = Part("tag", Length.mm(width), Length.mm(100), 1, False)
        plan = plan_make([part], sheet, MILLIMETRES)
        assert plan.sets_per_sheet == number
        assert plan.patterns[0].tree.region.width == Length.mm(304)


def test_nothing_is_planned_smaller_than_one_mark() -> None:
    part = Part("thread", Length.mm("0.2"), Length.mm(10), 1, True)
    plan = plan_make([part], mm_sheet(3, 10), MILLIMETRES)
    assert plan.sets_per_sheet == 3
    assert [(f.code, f.amount) for f in plan.findings] == [("cut.off-graduation", Length.mm("0.8"))]


def test_a_part_with_a_direction_is_never_turned() -> None:
    upright = inch_part("front mat", "5", "9", copies=2, turn=False)
    sheet = SheetSize("pattern paper", Length.inch(10), Length.inch(9))
    assert plan_make([upright], sheet, SIXTEENTHS).sets_per_sheet == 1
    lying = SheetSize("pattern paper", Length.inch(9), Length.inch(10))
    assert plan_make([upright], lying, SIXTEENTHS).sheets_per_set == 2


def test_the_advice_says_when_turning_would_do() -> None:
    upright = inch_part("front mat", "5", "9", turn=False)
    lying = SheetSize("pattern paper", Length.inch(9), Length.inch(6))
    (finding,) = plan_make([upright], lying, SIXTEENTHS).findings
    assert finding.amount == Length.inch(3)
    assert "turned sideways" in finding.advice


def test_the_shortfall_is_that_of_the_better_way_up() -> None:
    """14 x 7 in on 12 x 8 in: 2 in short as it is; upright it would be 6 in short."""
    sheet = SheetSize("card", Length.inch(12), Length.inch(8))
    (finding,) = plan_make([inch_part("wrap", "7", "14")], sheet, SIXTEENTHS).findings
    assert finding.amount == Length.inch(2)
    assert "14 in x 8 in" in finding.advice or "14 in x 7 in" in finding.advice


def test_a_trimmer_that_cannot_make_the_first_cut_says_by_how_much() -> None:
    small = Trimmer(Ruler(Length.inch("1/16")), Length.inch("17/2"))
    plan = plan_make([inch_part("mat", "3", "4")], TWELVE, small)
    assert (plan.sets_per_sheet, plan.sheets_per_set) == (0, 0)
    (finding,) = plan.findings
    assert (finding.code, finding.severity) == ("trimmer.too-short", Severity.ERROR)
    assert finding.amount == Length.inch("7/2")
    assert "12 in" in finding.says
    assert "8 1/2 in" in finding.says


def test_a_short_trimmer_still_cuts_a_long_sheet_across_its_short_side() -> None:
    """A4 on a 220 mm trimmer: only the short side can be cut at first, then what is left of it."""
    trimmer = Trimmer(Ruler(Length.mm(1)), Length.mm(220))
    part = Part("card", Length.mm(105), Length.mm(148), 1, True)
    plan = plan_make([part], mm_sheet(210, 297), trimmer)
    assert (plan.sets_per_sheet, plan.proven) == (4, True)
    tree = plan.patterns[0].tree
    assert next(cuts_of(tree)).axis is Axis.UP
    assert replay(plan, trimmer).faults == ()


def test_a_part_longer_than_the_cut_says_so() -> None:
    trimmer = Trimmer(Ruler(Length.mm(1)), Length.mm(220))
    part = Part("strap", Length.mm(20), Length.mm(280), 1, True)
    plan = plan_make([part], mm_sheet(210, 297), trimmer)
    (finding,) = plan.findings
    assert finding.code == "trimmer.too-short"
    assert finding.where == ("strap", "sheet")
    assert finding.amount == Length.mm(60)


def test_a_part_that_is_the_sheet_needs_no_cut() -> None:
    plan = plan_make([inch_part("base", "12", "12")], TWELVE, SIXTEENTHS)
    check = replay(plan, SIXTEENTHS)
    assert (plan.sets_per_sheet, check.cuts, check.faults) == (1, 0, ())
    assert plan.steps == ((),)


def test_parts_of_one_size_keep_their_names() -> None:
    parts = [
        inch_part("front mat", "3", "4", copies=2),
        inch_part("back mat", "4", "3", copies=1),
        inch_part("side mat", "1", "4", copies=2),
    ]
    plan = plan_make(parts, TWELVE, SIXTEENTHS)
    check = replay(plan, SIXTEENTHS)
    assert check.faults == ()
    assert check.got[0]["front mat"] == 2 * check.got[0]["back mat"] == 2 * plan.sets_per_sheet


def test_no_more_sets_are_planned_than_are_of_use() -> None:
    plan = plan_make([inch_part("mat", "31/8", "31/8")], TWELVE, SIXTEENTHS, most_sets=4)
    assert (plan.sets_per_sheet, plan.bound, plan.proven) == (4, 4, True)
    assert replay(plan, SIXTEENTHS).got == ({"mat": 4},)


def test_confetti_is_planned_up_to_a_number_one_can_cut_and_said() -> None:
    plan = plan_make([inch_part("confetti", "1/8", "1/8")], TWELVE, SIXTEENTHS)
    assert 0 < plan.sets_per_sheet < 96 * 96
    assert plan.bound == 96 * 96
    assert not plan.proven
    assert [finding.code for finding in plan.findings] == ["cut.many"]
    assert replay(plan, SIXTEENTHS).faults == ()


def test_without_effort_the_plan_is_honest_about_its_gap() -> None:
    """Six sizes, eight sets: far too many handfuls for a table without effort."""
    parts = [
        inch_part(f"part {i}", width, height, copies=2)
        for i, (width, height) in enumerate(
            [("3/2", "9/8"), ("5/4", "3/4"), ("7/8", "5/8"), ("2", "1/2"), ("9/16", "7/4")]
        )
    ]
    plan = plan_make(parts, TWELVE, SIXTEENTHS, effort=0)
    area = sum(Fraction(p.width.as_inch * p.height.as_inch) * p.copies for p in parts)
    assert plan.sets_per_sheet <= plan.bound <= 144 / area
    assert plan.proven == (plan.sets_per_sheet == plan.bound)
    assert replay(plan, SIXTEENTHS).faults == ()


@pytest.mark.parametrize(
    "parts",
    [
        [],
        [inch_part("a", "0", "1")],
        [inch_part("a", "1", "-1")],
        [inch_part("a", "1", "1", copies=-1)],
        [inch_part("a", "1", "1"), inch_part("a", "1", "2")],
    ],
)
def test_what_makes_no_sense_is_refused(parts: list[Part]) -> None:
    with pytest.raises(ValueError, match="part"):
        plan_make(parts, TWELVE, SIXTEENTHS)


def test_the_same_parts_always_give_the_same_plan() -> None:
    parts = [inch_part("a", "7/2", "2", copies=2), inch_part("b", "3", "5/4", copies=3)]
    assert plan_make(parts, TWELVE, SIXTEENTHS) == plan_make(parts, TWELVE, SIXTEENTHS)
