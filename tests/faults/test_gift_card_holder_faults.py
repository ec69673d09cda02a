"""Faults sown in a gift-card holder: each gives its finding, its amount and its mend."""

from dataclasses import replace

import pytest

from snipfold.findings import Mend
from snipfold.folding import Treat
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
)

# Across: flap 1/2, pocket 3 3/4, flap 1/2; the back keeps 1/16 in beyond the pocket on each side.
# Up: cover 2 1/2, back 2 1/2, pocket 1 5/8: scores at 2 1/2 and 5 in.
HOLDER = project(
    "gift-card holder", width=INCH("31/8"), depth=INCH("5/2"), pocket=INCH("13/8"),
    flap=INCH("1/2"), ease=INCH("1/16"), notch=INCH("3/8"), sliver=INCH("1/16"),
)  # fmt: skip


def card(width: Length, depth: Length, height: Length) -> Treat:
    return Treat("card", width, depth, height, ZERO, ZERO)


def test_without_a_fault_there_is_no_finding() -> None:
    assert grave(designed(HOLDER)) == []


@pytest.mark.parametrize(
    ("pair", "says"),
    [
        (("cover", "back"), "2 1/2 in from the lower edge, not at 2 5/8 in"),
        (("back", "pocket"), "5 in from the lower edge, not at 5 1/8 in"),
        (("pocket", "left flap"), "1/2 in from the left edge, not at 5/8 in"),
        (("pocket", "right flap"), "4 1/4 in from the left edge, not at 4 3/8 in"),
    ],
)
def test_a_score_an_eighth_off(pair: tuple[str, str], says: str) -> None:
    finding = only(spoilt(HOLDER, slipped(*pair, INCH("1/8"))))
    assert finding.code == "score.misplaced"
    assert set(finding.where) == {"holder", *pair}
    assert finding.amount == INCH("1/8")
    assert says in finding.advice


@pytest.mark.parametrize(
    "pair",
    [("cover", "back"), ("back", "pocket"), ("pocket", "left flap"), ("pocket", "right flap")],
)
def test_a_reversed_fold(pair: tuple[str, str]) -> None:
    """A fold of 180 degrees leaves no gap either way: it is the wrong side that tells."""
    finding = only(spoilt(HOLDER, folded_back(*pair)))
    assert finding.code == "fold.reversed"
    assert set(finding.where) == {"holder", *pair}
    assert "on the outside of" in finding.says
    assert "mountain fold seen from the outside" in finding.advice


def test_a_flap_narrower_than_the_tape() -> None:
    """Tape of 1/4 in on side flaps of 3/16: 1/16 in too wide; one change mends both."""
    finding = only(designed(replace(HOLDER, measures={**HOLDER.measures, "flap": INCH("3/16")})))
    assert finding.code == "tape.wider-than-tab"
    assert finding.where == ("holder", "left flap", "right flap")
    assert finding.amount == INCH("1/16")
    assert finding.mend == Mend("measures.flap", "3/16 in", "1/4 in")


def test_tape_on_the_wrong_face() -> None:
    """The strip is as long as the pocket is deep, less a sliver at each end: 1 1/2 in."""
    finding = only(spoilt(HOLDER, on_the_other_face("left flap tape")))
    assert finding.code == "glue.wrong-face"
    assert finding.where == ("holder", "left flap", "back")
    assert finding.amount == INCH("3/2")
    assert finding.advice == "lay it on the outside of the left flap"


def test_a_card_too_wide() -> None:
    """4 in and its 1/32 in, into a pocket of 3 3/4 in less one thickness."""
    finding = only(designed(replace(HOLDER, contents=(card(INCH(4), INCH(2), INCH("1/32")),))))
    assert finding.code == "treat.too-wide"
    assert finding.amount == INCH("9/32") + CARD
    assert finding.mend == Mend("measures.width", "3 7/8 in", "4 3/16 in")


def test_a_card_too_tall() -> None:
    """3 5/8 in would go in, but 1/4 in of thickness takes that much of the width."""
    finding = only(designed(replace(HOLDER, contents=(card(INCH("29/8"), INCH(2), INCH("1/4")),))))
    assert finding.code == "treat.too-tall"
    assert finding.where == ("holder", "card")
    assert finding.amount == INCH("1/8") + CARD
    assert finding.mend == Mend("measures.width", "3 7/8 in", "4 1/16 in")
