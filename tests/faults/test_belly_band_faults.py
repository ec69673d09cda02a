"""Faults sown in a belly band: each gives its finding, its amount and its mend."""

from dataclasses import replace

import pytest

from snipfold.findings import Mend
from snipfold.measure import Length

from .seeding import (
    CARD,
    INCH,
    TAPE,
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

# Columns from the tab end: 3/4 | 1 | 4 | 1 | 4; scores at 3/4, 1 3/4, 5 3/4, 6 3/4.
BAND = project(
    "belly band", width=INCH(4), depth=INCH("3/2"), height=INCH(1), tab=INCH("3/4"),
    sliver=INCH("1/16"),
)  # fmt: skip


def test_without_a_fault_there_is_no_finding() -> None:
    assert grave(designed(BAND)) == []


@pytest.mark.parametrize(
    "pair", [("tab", "left side"), ("left side", "top"), ("top", "right side"), ("right side", "bottom")]
)  # fmt: skip
def test_a_score_an_eighth_off(pair: tuple[str, str]) -> None:
    finding = only(spoilt(BAND, slipped(*pair, INCH("1/8"))))
    assert finding.code == "score.misplaced"
    assert set(finding.where) == {"band", *pair}
    assert finding.amount == INCH("1/8")


def test_where_a_slipped_score_belongs() -> None:
    finding = only(spoilt(BAND, slipped("top", "right side", INCH("1/8"))))
    assert "5 3/4 in from the left edge, not at 5 7/8 in" in finding.advice


@pytest.mark.parametrize("pair", [("tab", "left side"), ("top", "right side")])
def test_a_reversed_fold(pair: tuple[str, str]) -> None:
    finding = only(spoilt(BAND, folded_back(*pair)))
    assert finding.code == "fold.reversed"
    assert set(finding.where) == {"band", *pair}
    assert "mountain fold seen from the outside" in finding.advice


def test_a_tab_narrower_than_the_tape() -> None:
    """Tape of 1/4 in on an overlap of 3/16: 1/16 in too wide."""
    finding = only(designed(replace(BAND, measures={**BAND.measures, "tab": INCH("3/16")})))
    assert finding.code == "tape.wider-than-tab"
    assert finding.amount == INCH("1/16")
    assert finding.mend == Mend("measures.tab", "3/16 in", "1/4 in")


def test_tape_on_the_wrong_face() -> None:
    """The strip is as long as the band is broad, less a sliver at each end: 1 3/8 in."""
    finding = only(spoilt(BAND, on_the_other_face("tab tape")))
    assert finding.code == "glue.wrong-face"
    assert finding.where == ("band", "tab", "bottom")
    assert finding.amount == INCH("11/8")
    assert finding.advice == "lay it on the outside of the tab"


def test_a_stack_too_tall() -> None:
    """Clear height: 1 in less half a thickness above and below, less the tab and its tape."""
    finding = only(designed(replace(BAND, contents=(treat("3", "6", "1", "0"),))))
    assert finding.code == "treat.too-tall"
    assert finding.amount == CARD + CARD + TAPE
    assert finding.mend == Mend("measures.height", "1 in", "1 1/16 in")


def test_a_stack_too_wide() -> None:
    """3 7/8 in with 1/8 in on each side, between sides that leave 4 in less one thickness."""
    finding = only(designed(replace(BAND, contents=(treat("31/8", "6", "1/2"),))))
    assert finding.code == "treat.too-wide"
    assert finding.amount == INCH("1/8") + CARD
    assert finding.mend == Mend("measures.width", "4 in", "4 3/16 in")


def test_what_it_goes_round_may_be_deeper_than_the_band_is_broad() -> None:
    assert grave(designed(replace(BAND, contents=(treat("3", "11", "3/4", "0"),)))) == []
    assert Length.inch(11) > BAND.measures["depth"]
