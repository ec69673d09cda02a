"""Faults sown in tuck cartons, straight and reverse: each gives its finding, amount and mend."""

import pytest

from snipfold.findings import Mend
from snipfold.project import Project

from .seeding import (
    CARD,
    INCH,
    designed,
    folded_back,
    grave,
    on_the_other_face,
    only,
    project,
    slipped,
    spoilt,
    treat,
)

# Columns: 1/2 | 2 1/2 | 1 1/4 | 2 1/2 | 1 1/4. Rows: 3/4 | 1 1/4 | 3 1/2 | 1 1/4 | 3/4.
SIZES = {
    "width": INCH("5/2"), "depth": INCH("5/4"), "height": INCH("7/2"), "tab": INCH("1/2"),
    "tuck": INCH("3/4"), "dust_flap": INCH("5/4"),
}  # fmt: skip
STRAIGHT = project("straight tuck carton", **SIZES)
REVERSE = project("reverse tuck carton", **SIZES)
BOTH = pytest.mark.parametrize("of", [STRAIGHT, REVERSE], ids=["straight", "reverse"])
HOST = {STRAIGHT.style: "back", REVERSE.style: "front"}


@BOTH
def test_without_a_fault_there_is_no_finding(of: Project) -> None:
    assert grave(designed(of)) == []


@BOTH
@pytest.mark.parametrize("by", ["1/8", "-1/16"])
@pytest.mark.parametrize(
    "pair",
    [("tab", "back"), ("back", "left side"), ("left side", "front"), ("front", "right side"),
     ("top", "top tuck flap"), ("bottom", "bottom tuck flap"), ("back", "top"),
     ("right side", "bottom right dust flap")],
)  # fmt: skip
def test_a_score_out_of_place(of: Project, pair: tuple[str, str], by: str) -> None:
    """Level lines run through: the finding names one pair of panels along the line."""
    finding = only(spoilt(of, slipped(*pair, INCH(by))))
    assert finding.code == "score.misplaced"
    assert finding.amount == abs(INCH(by))
    piece = designed(of).construction.pieces[0]
    right, named = piece.score(*pair), piece.score(*finding.where[1:])
    axis = 0 if right.start.x == right.end.x else 1
    assert named.start[axis] == named.end[axis] == right.start[axis]


def test_where_a_slipped_score_belongs() -> None:
    """The tuck flap's score at 6 3/4 in: 3/4 + 1 1/4 + 3 1/2 + 1 1/4."""
    finding = only(spoilt(STRAIGHT, slipped("top", "top tuck flap", INCH("1/8"))))
    assert "6 3/4 in from the lower edge, not at 6 7/8 in" in finding.advice


@BOTH
@pytest.mark.parametrize(
    "pair",
    [("tab", "back"), ("back", "left side"), ("left side", "front"), ("front", "right side"),
     ("top", "top tuck flap"), ("bottom", "bottom tuck flap"), ("back", "top"),
     ("HOST", "bottom"), ("left side", "top left dust flap"),
     ("right side", "bottom right dust flap")],
)  # fmt: skip
def test_a_reversed_fold(of: Project, pair: tuple[str, str]) -> None:
    one, other = (HOST[of.style] if name == "HOST" else name for name in pair)
    finding = only(spoilt(of, folded_back(one, other)))
    assert finding.code == "fold.reversed"
    assert set(finding.where) == {"carton", one, other}
    assert "mountain fold seen from the outside" in finding.advice


@BOTH
def test_how_far_a_dust_flap_folded_out_reaches(of: Project) -> None:
    """It sticks out over the side by all of its 1 1/4 in."""
    finding = only(spoilt(of, folded_back("left side", "top left dust flap")))
    assert finding.amount == INCH("5/4")


@BOTH
def test_how_far_a_tuck_flap_folded_up_reaches(of: Project) -> None:
    """It stands up from the top by all of its 3/4 in."""
    finding = only(spoilt(of, folded_back("top", "top tuck flap")))
    assert finding.amount == INCH("3/4")


@BOTH
def test_a_tab_narrower_than_the_tape(of: Project) -> None:
    """Tape of 1/4 in on a tab of 3/16: 1/16 in too wide."""
    narrow = project(of.style, **{**SIZES, "tab": INCH("3/16")})
    finding = only(designed(narrow))
    assert finding.code == "tape.wider-than-tab"
    assert finding.where == ("carton", "tab")
    assert finding.amount == INCH("1/16")
    assert finding.mend == Mend("measures.tab", "3/16 in", "1/4 in")


@BOTH
def test_glue_on_the_wrong_face(of: Project) -> None:
    """The strip is 3 1/2 in less a mitre of 1/8 in at each end."""
    finding = only(spoilt(of, on_the_other_face("tab tape")))
    assert finding.code == "glue.wrong-face"
    assert finding.where == ("carton", "tab", "right side")
    assert finding.amount == INCH("13/4")
    assert finding.advice == "lay it on the outside of the tab"


@BOTH
def test_a_treat_too_tall(of: Project) -> None:
    """Clear height 3 1/2 in less a top, a bottom (half each) and two dust flaps: 3 papers."""
    finding = only(designed(project(of.style, treat("2", "1/2", "7/2", "1/16"), **SIZES)))
    assert finding.code == "treat.too-tall"
    assert finding.amount == INCH("1/16") + CARD * 3
    assert finding.mend == Mend("measures.height", "3 1/2 in", "3 5/8 in")


@BOTH
def test_dust_flaps_longer_than_the_carton_is_wide(of: Project) -> None:
    """Flaps of 2 in across a carton 1 1/2 in wide reach 1/2 in out of the other side."""
    deep = project(
        of.style, width=INCH("3/2"), depth=INCH(2), height=INCH("7/2"), dust_flap=INCH(2)
    )
    finding = only(designed(deep))
    assert finding.code == "flap.too-deep"
    assert len(finding.where) == 5
    assert finding.amount == INCH("1/2")
    assert finding.mend == Mend("measures.dust_flap", "2 in", "1 1/2 in")


def test_tuck_flaps_that_run_into_each_other() -> None:
    """Two tucks of 2 in behind a front 3 1/2 in tall overlap by 1/2 in; in a reverse tuck they
    lie behind different walls."""
    long = {**SIZES, "tuck": INCH(2)}
    small = {"width": INCH("3/2"), "depth": INCH(1), "dust_flap": INCH("3/4")}
    finding = only(designed(project(STRAIGHT.style, **{**long, **small})))
    assert finding.code == "panels.overlap"
    assert set(finding.where) == {"carton", "top tuck flap", "bottom tuck flap"}
    assert finding.amount == INCH("1/2")
    assert grave(designed(project(REVERSE.style, **{**long, **small}))) == []
