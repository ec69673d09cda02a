"""Faults sown in a sleeve and tray: each gives its finding, its amount and its mend."""

import pytest

from snipfold.findings import Mend
from snipfold.measure import ZERO, Length

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

# The tray's blank 6 x 4 1/2 in, scored at 1 in. The sleeve's columns from the tab end:
# 1/2 | 1 1/8 | 2 5/8 | 1 1/8 | 2 5/8; scores at 1/2, 1 5/8, 4 1/4, 5 3/8.
SIZES = {
    "width": INCH(4), "depth": INCH("5/2"), "height": INCH(1), "clearance": INCH("1/8"),
    "sleeve_tab": INCH("1/2"), "tray_tab": INCH(1),
}  # fmt: skip
STYLE = "sleeve and tray"
DRAWER = project(STYLE, **SIZES)
TRAY, SLEEVE = 0, 1


def test_without_a_fault_there_is_no_finding() -> None:
    assert grave(designed(DRAWER)) == []


@pytest.mark.parametrize("by", ["1/8", "-1/16"])
@pytest.mark.parametrize(
    ("piece", "pair"),
    [(TRAY, ("floor", "left wall")), (TRAY, ("floor", "front wall")), (SLEEVE, ("tab", "back")),
     (SLEEVE, ("back", "top")), (SLEEVE, ("top", "front")), (SLEEVE, ("front", "bottom"))],
)  # fmt: skip
def test_a_score_out_of_place(piece: int, pair: tuple[str, str], by: str) -> None:
    finding = only(spoilt(DRAWER, slipped(*pair, INCH(by)), piece))
    assert finding.code == "score.misplaced"
    assert set(finding.where) == {("tray", "sleeve")[piece], *pair}
    assert finding.amount == abs(INCH(by))


def test_where_a_slipped_score_of_the_sleeve_belongs() -> None:
    finding = only(spoilt(DRAWER, slipped("top", "front", INCH("1/8")), SLEEVE))
    assert "4 1/4 in from the left edge, not at 4 3/8 in" in finding.advice


@pytest.mark.parametrize(
    ("piece", "pair"),
    [(TRAY, ("floor", "right wall")), (TRAY, ("back wall", "back left tab")),
     (SLEEVE, ("tab", "back")), (SLEEVE, ("back", "top")), (SLEEVE, ("front", "bottom"))],
)  # fmt: skip
def test_a_reversed_fold(piece: int, pair: tuple[str, str]) -> None:
    finding = only(spoilt(DRAWER, folded_back(*pair), piece))
    assert finding.code == "fold.reversed"
    assert set(finding.where) == {("tray", "sleeve")[piece], *pair}
    assert "mountain fold seen from the outside" in finding.advice


@pytest.mark.parametrize(
    ("measure", "piece", "tabs"), [("sleeve_tab", "sleeve", 1), ("tray_tab", "tray", 4)]
)
def test_a_tab_narrower_than_the_tape(measure: str, piece: str, tabs: int) -> None:
    """Tape of 1/4 in on a tab of 3/16: 1/16 in too wide. Each piece has a measure of its own."""
    finding = only(designed(project(STYLE, **{**SIZES, measure: INCH("3/16")})))
    assert finding.code == "tape.wider-than-tab"
    assert finding.where[0] == piece
    assert len(finding.where) == 1 + tabs
    assert finding.amount == INCH("1/16")
    assert finding.mend == Mend(f"measures.{measure}", "3/16 in", "1/4 in")


def test_glue_on_the_wrong_face() -> None:
    """The strip is 4 in less a sliver of 1/16 in at each end."""
    finding = only(spoilt(DRAWER, on_the_other_face("sleeve tab tape"), SLEEVE))
    assert finding.code == "glue.wrong-face"
    assert finding.where == ("sleeve", "tab", "bottom")
    assert finding.amount == INCH("31/8")
    assert finding.advice == "lay it on the outside of the tab"


def test_a_sleeve_without_air() -> None:
    """Clearance 0. In height: the sleeve's paper, half the tray's, and the tab with its tape,
    0.3 + 0.15 + 0.4 mm; with the 0.3 mm to slide on 1.15 mm, so 1/16 in (1.5875 mm) mends it."""
    finding = only(designed(project(STYLE, **{**SIZES, "clearance": ZERO})))
    assert finding.code == "lid.no-air"
    assert finding.where == ("sleeve", "tray", "height")
    assert finding.amount == Length.mm("0.85")
    assert finding.mend == Mend("measures.clearance", "0 in", "1/16 in")


def test_a_treat_too_tall() -> None:
    """Clear height 1 in less half a floor; a treat of 1 in with 1/8 in above."""
    finding = only(designed(project(STYLE, treat("3", "2", "1"), **SIZES)))
    assert finding.code == "treat.too-tall"
    assert finding.where == ("tray", "bar")
    assert finding.amount == INCH("1/8") + CARD / 2
    assert finding.mend == Mend("measures.height", "1 in", "1 3/16 in")
