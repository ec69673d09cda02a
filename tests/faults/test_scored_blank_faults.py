"""Faults sown in the file of a scored blank: each gives its finding, its amount and its mend."""

from __future__ import annotations

import pytest

from snipfold.findings import Finding, Mend, Severity
from snipfold.measure import Length
from snipfold.project import Design, edit_field

from ..styles.blanks import BAG, changed, designed

INCH = Length.inch
LINES = '"1/2 in", "2 in", "5 3/4 in", "7 1/4 in"'


def grave(design: Design) -> list[Finding]:
    return [one for one in design.findings if one.severity is not Severity.NOTE]


def only(text: str) -> Finding:
    """The one finding of the file that is more than a note."""
    found = grave(designed(text))
    assert len(found) == 1, [f"{one.code}: {one.says}" for one in found]
    return found[0]


def test_without_a_fault_there_is_no_finding() -> None:
    assert grave(designed(BAG)) == []


@pytest.mark.parametrize(
    ("number", "right", "wrong", "pair"),
    [
        (1, "1/2 in", "5/8 in", ("tab", "left side")),
        (1, "1/2 in", "3/8 in", ("tab", "left side")),
        (2, "2 in", "2 1/8 in", ("left side", "front")),
        (2, "2 in", "1 7/8 in", ("left side", "front")),
        (3, "5 3/4 in", "5 7/8 in", ("front", "right side")),
        (3, "5 3/4 in", "5 5/8 in", ("front", "right side")),
    ],
)
def test_a_line_an_eighth_off_is_found_with_the_field_that_mends_it(
    number: int, right: str, wrong: str, pair: tuple[str, str]
) -> None:
    text = edit_field(BAG, f"blank.across.{number}", wrong)
    finding = only(text)
    assert finding.code == "score.misplaced"
    assert set(finding.where) == {"bag", *pair}
    assert finding.amount == INCH("1/8")
    assert finding.mend == Mend(f"blank.across.{number}", wrong, right)
    assert edit_field(text, finding.mend.field, finding.mend.to) == BAG


def test_where_two_lines_would_mend_it_as_well_both_are_named() -> None:
    """The last line off makes a right side of 1 3/8 in. It closes with a left side of 1 3/8 in too,
    and nothing in the file says which bag was meant."""
    finding = only(edit_field(BAG, "blank.across.4", "7 1/8 in"))
    assert (finding.code, finding.amount) == ("score.misplaced", INCH("1/8"))
    assert "score it 1 7/8 in from the left edge, not at 2 in" in finding.advice
    assert (
        "or the one between right side and back: score it 7 1/4 in from the left edge, "
        "not at 7 1/8 in" in finding.advice
    )


def test_lines_off_in_two_places_leave_a_gap_that_no_single_line_mends() -> None:
    """Sides of 1 1/2 and 1 5/8 in, front and back of 3 7/8 and 3 1/2 in."""
    finding = only(changed(BAG, (LINES, '"1/2 in", "2 in", "5 7/8 in", "7 1/2 in"')))
    assert finding.code == "closing.gap"
    assert finding.amount is not None
    assert finding.amount > INCH("1/8")


@pytest.mark.parametrize(
    "pair",
    [
        ("1.2", "2.2"),
        ("2.2", "3.2"),
        ("3.2", "4.2"),
        ("4.2", "5.2"),
        ("5.2", "5.1"),
        ("2.2", "2.1"),
    ],
)
def test_a_fold_the_wrong_way(pair: tuple[str, str]) -> None:
    text = changed(BAG, ("[blank.names]", f'valley = [["{pair[0]}", "{pair[1]}"]]\n[blank.names]'))
    finding = only(text)
    assert finding.code == "fold.reversed"
    assert "mountain fold seen from the outside" in finding.advice


def test_glue_on_the_wrong_face() -> None:
    """The strip is as long as the bag is tall, less the mitre at each end: 4 1/2 in."""
    finding = only(
        changed(
            BAG,
            ("[blank.names]", 'inside = [["tab", "back"]]\n[blank.names]'),
            ('panel = "tab"\n', 'panel = "tab"\nface = "inside"\n'),
        )
    )
    assert finding.code == "glue.wrong-face"
    assert finding.where == ("bag", "tab", "back")
    assert finding.amount == INCH("9/2")
    assert finding.advice == "lay it on the outside of the tab"


@pytest.mark.parametrize(
    "change",
    [
        ("[blank.names]", 'inside = [["back", "tab"]]\n[blank.names]'),
        ('panel = "tab"\n', 'panel = "tab"\nface = "inside"\n'),
    ],
)
def test_a_tab_outside_the_wall(change: tuple[str, str]) -> None:
    finding = only(changed(BAG, change))
    assert finding.code == "tab.outside"
    assert finding.where == ("bag", "tab", "back")
    assert finding.amount == INCH("9/2")
    assert finding.advice == "tuck the tab inside the back"


def test_a_tab_narrower_than_the_tape() -> None:
    """Tape of 1/4 in on a tab of 3/16: 1/16 in too wide."""
    finding = only(
        changed(
            BAG,
            (LINES, '"3/16 in", "1 11/16 in", "5 7/16 in", "6 15/16 in"'),
            ('width = "11 in"', 'width = "10 11/16 in"'),
        )
    )
    assert finding.code == "tape.wider-than-tab"
    assert finding.where == ("bag", "tab")
    assert finding.amount == INCH("1/16")


def test_flaps_deeper_than_the_bag() -> None:
    """Flaps of 1 5/8 in under a bag 1 1/2 in deep."""
    finding = only(edit_field(BAG, "blank.up.1", "1 5/8 in"))
    assert finding.code == "flap.too-deep"
    assert finding.amount == INCH("1/8")


def test_a_flap_that_is_pressed_down_before_the_one_inside_it() -> None:
    steps = """
[[blank.step]]
fold = [["tab", "left side"], ["left side", "front"], ["front", "right side"], ["right side", "back"]]
[[blank.step]]
fold = [["front", "front flap"], ["left side", "left flap"], ["right side", "right flap"]]
[[blank.step]]
fold = [["back", "back flap"]]
"""
    finding = only(BAG + steps)
    assert finding.code == "layers.order"
    assert finding.where == ("bag", "back flap", "front flap")


def test_a_treat_too_tall() -> None:
    """5 in in a bag of 4 3/4 in, open above, less half a sheet and what lies on its bottom."""
    clear = designed(BAG).proof.clear["height"]
    assert clear < INCH("19/4")
    loaf = '[[contents]]\nname = "loaf"\nwidth = "3 in"\ndepth = "1 in"\nheight = "5 in"\n'
    finding = only(BAG + loaf)
    assert finding.code == "treat.too-tall"
    assert finding.amount == INCH(5) - clear
    assert finding.advice == "make the bag 5/16 in taller"
    assert finding.mend is None
