"""Faults sown in prism boxes: each gives its finding, its amount and its mend."""

from dataclasses import replace

import pytest

from snipfold.findings import Mend, Severity
from snipfold.measure import Length
from snipfold.project import Project

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

# Seam tab 1/2, six walls of 1 3/4: scores at 1/2, 2 1/4, 4, 5 3/4, 7 1/2, 9 1/4 in. The base's
# blank is 5 1/16 in high, its walls 2: the floor hangs at 3 1/16 in.
HEXAGON = project(
    "hexagon box with lid", side=INCH("7/4"), height=INCH(2), lid_side=INCH("29/16"),
    lid_height=INCH("3/4"), tab=INCH("1/2"), sliver=INCH("1/16"),
)  # fmt: skip
TRIANGLE = project("triangle box with lid")
EVERY = [
    project(f"{shape} box with lid")
    for shape in ("triangle", "square", "pentagon", "hexagon", "heptagon", "octagon")
]


@pytest.mark.parametrize("of", [HEXAGON, *EVERY], ids=lambda of: of.style)
def test_without_a_fault_there_is_no_finding(of: Project) -> None:
    assert grave(designed(of)) == []


@pytest.mark.parametrize(
    ("pair", "at"),
    [
        (("seam tab", "wall 1"), "1/2"),
        (("wall 1", "wall 2"), "2 1/4"),
        (("wall 3", "wall 4"), "5 3/4"),
        (("wall 4", "wall 5"), "7 1/2"),
        (("wall 5", "wall 6"), "9 1/4"),
    ],
)
def test_a_score_an_eighth_off(pair: tuple[str, str], at: str) -> None:
    finding = only(spoilt(HEXAGON, slipped(*pair, INCH("1/8"))))
    assert finding.code == "score.misplaced"
    assert set(finding.where) == {"base", *pair}
    assert finding.amount == INCH("1/8")
    assert f"score it {at} in from the left edge" in finding.advice


@pytest.mark.parametrize("pair", [("wall 1", "wall 2"), ("wall 2", "wall 3")])
def test_a_score_of_a_triangle_an_eighth_off(pair: tuple[str, str]) -> None:
    finding = only(spoilt(TRIANGLE, slipped(*pair, INCH("1/8"))))
    assert finding.code == "score.misplaced"
    assert set(finding.where) == {"base", *pair}
    assert finding.amount == INCH("1/8")


@pytest.mark.parametrize("pair", [("wall 1", "wall 2"), ("wall 4", "floor"), ("wall 2", "tab 2")])
def test_a_reversed_fold(pair: tuple[str, str]) -> None:
    finding = only(spoilt(HEXAGON, folded_back(*pair)))
    assert finding.code == "fold.reversed"
    assert set(finding.where) == {"base", *pair}
    assert "mountain fold seen from the outside" in finding.advice


def test_tabs_narrower_than_the_tape() -> None:
    """Tape of 1/4 in on tabs of 3/16: 1/16 in too wide, on both pieces, which share the measure."""
    narrow = replace(HEXAGON, measures={**HEXAGON.measures, "tab": INCH("3/16")})
    found = [one for one in designed(narrow).findings if one.severity is not Severity.NOTE]
    assert [one.code for one in found] == ["tape.wider-than-tab"] * 2
    assert [one.where[0] for one in found] == ["base", "lid"]
    for one in found:
        assert one.amount == INCH("1/16")
        assert one.mend == Mend("measures.tab", "3/16 in", "1/4 in")


@pytest.mark.parametrize(
    ("glue", "where", "length"),
    [
        ("seam tab tape", ("base", "seam tab", "wall 6"), INCH("15/8")),
        # 1 3/4 in less three quarters of the tab's 1/2 in at each end, which is at a mark.
        ("tab 2 tape", ("base", "tab 2", "floor"), INCH(1)),
    ],
)
def test_tape_on_the_wrong_face(glue: str, where: tuple[str, ...], length: Length) -> None:
    finding = only(spoilt(HEXAGON, on_the_other_face(glue)))
    assert finding.code == "glue.wrong-face"
    assert finding.where == where
    assert finding.amount == length


def test_a_stack_too_tall() -> None:
    """Clear height: 2 in less half the floor, the tabs on it and their tape; 1/8 in is asked above."""
    finding = only(designed(replace(HEXAGON, contents=(treat("1", "1", "2"),))))
    assert finding.code == "treat.too-tall"
    assert finding.where == ("base", "bar")
    assert finding.amount == INCH("1/8") + CARD / 2 + CARD + TAPE
    assert finding.mend == Mend("measures.height", "2 in", "2 3/16 in")


def test_a_block_too_deep_between_the_flats() -> None:
    """A block 1 1/2 in wide and as deep as the flats are apart, 1 3/4 x 1.7320508 in.

    Front and back have nothing inside, so it lacks half a thickness on each side. Turned, its
    corners would lack more.
    """
    flats = Length.figure(INCH("7/4").float_mm * 3**0.5)
    block = replace(treat("3/2", "1", "1", "0"), depth=flats)
    finding = only(designed(replace(HEXAGON, contents=(block,))))
    assert finding.code == "treat.too-wide"
    assert finding.amount is not None
    assert finding.amount.float_mm == pytest.approx(CARD.float_mm, abs=1e-4)
    assert finding.mend == Mend("measures.side", "1 3/4 in", "1 13/16 in")


def test_a_lid_no_larger_than_its_base() -> None:
    """Nothing larger, less two thicknesses (0.6), a seam tab with tape (0.4), two mats with tape (0.5)."""
    tight = replace(HEXAGON, measures={**HEXAGON.measures, "lid_side": INCH("7/4")})
    finding = only(designed(tight))
    assert finding.code == "lid.no-air"
    assert finding.where == ("lid", "base", "flats")
    assert finding.amount == Length.mm("1.5")
    # 1.8 mm across with its own 0.3 mm to slide on: a side of 1.04 mm more, 1/16 in (1.5875 mm).
    assert finding.mend == Mend("measures.lid_side", "1 3/4 in", "1 13/16 in")
