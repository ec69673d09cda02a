"""Faults sown in a bag topper: each gives its finding, its amount and its mend.

It has no adhesive of its own, so there is none to lay wrong.
"""

from dataclasses import replace

import pytest

from snipfold.findings import Mend

from .seeding import CARD, INCH, designed, folded_back, grave, only, project, slipped, spoilt, treat

# Front 2, ridge 1/4, back 2: scores at 2 and 2 1/4 in from the lower edge.
TOPPER = project("bag topper", width=INCH(4), depth=INCH("1/4"), height=INCH(2))


def test_without_a_fault_there_is_no_finding() -> None:
    assert grave(designed(TOPPER)) == []


@pytest.mark.parametrize(
    ("pair", "says"),
    [
        (("front", "ridge"), "2 in from the lower edge, not at 2 1/8 in"),
        (("ridge", "back"), "2 1/4 in from the lower edge, not at 2 3/8 in"),
    ],
)
def test_a_score_an_eighth_off(pair: tuple[str, str], says: str) -> None:
    """The front then comes down further than the back, or less far, and the ridge is too wide."""
    finding = only(spoilt(TOPPER, slipped(*pair, INCH("1/8"))))
    assert finding.code == "score.misplaced"
    assert set(finding.where) == {"topper", *pair}
    assert finding.amount == INCH("1/8")
    assert says in finding.advice


@pytest.mark.parametrize("pair", [("front", "ridge"), ("ridge", "back")])
def test_a_reversed_fold(pair: tuple[str, str]) -> None:
    finding = only(spoilt(TOPPER, folded_back(*pair)))
    assert finding.code == "fold.reversed"
    assert set(finding.where) == {"topper", *pair}
    assert "mountain fold seen from the outside" in finding.advice


def test_a_bag_wider_than_the_topper() -> None:
    """A rim of 4 in in a topper of 4 in, with 1/16 in on each side, less one thickness."""
    rim = treat("4", "1/16", "1", "1/16", name="rim")
    finding = only(designed(replace(TOPPER, contents=(rim,))))
    assert finding.code == "treat.too-wide"
    assert finding.where == ("topper", "rim")
    assert finding.amount == INCH("1/8") + CARD
    assert finding.mend == Mend("measures.width", "4 in", "4 3/16 in")


def test_a_rim_thicker_than_the_ridge() -> None:
    """A gathered rim of 3/8 in under a ridge of 1/4, less half a thickness on each side."""
    rim = treat("3", "3/8", "1", "0", name="rim")
    finding = only(designed(replace(TOPPER, contents=(rim,))))
    assert finding.code == "treat.too-deep"
    assert finding.amount == INCH("1/8") + CARD
    assert finding.mend == Mend("measures.depth", "1/4 in", "7/16 in")


def test_the_bag_may_hang_down_as_far_as_it_likes() -> None:
    rim = treat("3", "1/8", "9", "0", name="rim")
    assert grave(designed(replace(TOPPER, contents=(rim,)))) == []
