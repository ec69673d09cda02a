"""Faults sown in a diagonal envelope: each gives its finding, its amount and its mend."""

from dataclasses import replace

import pytest

from snipfold.findings import Mend, Severity
from snipfold.project import resolve

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
    workshop,
)

# (5 3/4 + 4 1/2) / sqrt 2 = 7.248 in and 5/8 of overlap: a square of 7 7/8 in, cut at a mark.
ENVELOPE = project("diagonal envelope", width=INCH("23/4"), depth=INCH("9/2"), overlap=INCH("5/8"))
FLAPS = ("left flap", "right flap", "lower flap", "upper flap")


def test_without_a_fault_there_is_no_finding() -> None:
    assert grave(designed(ENVELOPE)) == []


@pytest.mark.parametrize("flap", FLAPS)
@pytest.mark.parametrize("by", ["1/8", "-1/16"])
def test_a_slanting_score_that_slips_is_named_with_its_slip(flap: str, by: str) -> None:
    """It has no distance from an edge, so the mend says how far and towards what it goes."""
    finding = only(spoilt(ENVELOPE, slipped("front", flap, INCH(by))))
    assert finding.code == "score.misplaced"
    assert set(finding.where) == {"envelope", "front", flap}
    assert finding.amount is not None
    assert finding.amount.float_mm == pytest.approx(abs(INCH(by).float_mm), abs=1e-5)
    assert "square to itself" in finding.advice


@pytest.mark.parametrize("flap", FLAPS)
def test_a_reversed_fold(flap: str) -> None:
    finding = only(spoilt(ENVELOPE, folded_back("front", flap)))
    assert finding.code == "fold.reversed"
    assert set(finding.where) == {"envelope", "front", flap}
    assert f"lays the {flap} on the outside of the front" in finding.says
    assert "mountain fold seen from the outside" in finding.advice


def test_an_overlap_narrower_than_the_tape() -> None:
    """An overlap of 3/8 in is cut to 7 5/8 less 7.2478 in, 0.377 in: tape of 1/2 in reaches past it.

    It starts at the flap's own edge, since there is no room beside it: 0.1228 in too far.
    """
    shop = workshop()
    wide = replace(
        shop, adhesives=(replace(shop.adhesives[0], width=INCH("1/2")), shop.adhesives[1])
    )
    narrow = replace(ENVELOPE, measures={**ENVELOPE.measures, "overlap": INCH("3/8")})
    found = [
        one for one in resolve(narrow, wide).findings if one.severity is not Severity.NOTE
    ]  # fmt: skip
    assert [one.code for one in found] == ["glue.off-mate"] * 2
    assert [one.where[2] for one in found] == ["left flap", "right flap"]
    past = 0.5 - (7.625 - 10.25 / 2**0.5)
    for one in found:
        assert one.amount is not None
        assert one.amount.float_mm / 25.4 == pytest.approx(past, abs=1e-5)


def test_tape_on_the_wrong_face() -> None:
    """On the printed face of the lower flap it would stick to nothing."""
    finding = only(spoilt(ENVELOPE, on_the_other_face("lower flap tape, left")))
    assert finding.code == "glue.wrong-face"
    assert finding.where == ("envelope", "lower flap", "left flap")
    assert finding.advice == "lay it on the inside of the lower flap"


def test_a_card_too_wide() -> None:
    """6 in, and its 1/32 in of thickness, into 5 3/4 in less a thickness of paper."""
    wider = treat("6", "4", "1/32", "0", name="card")
    finding = only(designed(replace(ENVELOPE, contents=(wider,))))
    assert finding.code == "treat.too-wide"
    assert finding.amount == INCH("9/32") + CARD
    assert finding.mend == Mend("measures.width", "5 3/4 in", "6 1/16 in")


def test_a_card_too_tall() -> None:
    """A bundle of cards 3/8 in thick: it takes that of the width and of the depth."""
    bundle = treat("11/2", "4", "3/8", "0", name="bundle")
    finding = only(designed(replace(ENVELOPE, contents=(bundle,))))
    assert finding.code == "treat.too-tall"
    assert finding.where == ("envelope", "bundle")
    assert finding.amount == INCH("1/8") + CARD
    assert finding.mend == Mend("measures.width", "5 3/4 in", "5 15/16 in")
