"""Faults sown in a carton with an interlocking base: each gives its finding, amount and mend."""

from dataclasses import replace
from math import hypot

import pytest

from snipfold.findings import Mend
from snipfold.folding import prove
from snipfold.measure import Ruler, System
from snipfold.styles import Given, Layer, style_named

from .seeding import (
    CARD,
    INCH,
    TAPE,
    TAPE_WIDTH,
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

# Columns: 1/2 | 2 1/2 | 2 | 2 1/2 | 2. Rows: 1/2 tongue | 1 front flap | 3 | 2 | 3/4.
SIZES = {
    "width": INCH("5/2"), "depth": INCH(2), "height": INCH(3), "tab": INCH("1/2"),
    "tuck": INCH("3/4"), "tongue": INCH("1/2"),
}  # fmt: skip
STYLE = "carton with an interlocking four-flap base"
CARTON = project(STYLE, **SIZES)


def test_without_a_fault_there_is_no_finding() -> None:
    assert grave(designed(CARTON)) == []


@pytest.mark.parametrize("by", ["1/8", "-1/16"])
@pytest.mark.parametrize(
    "pair", [("tab", "back"), ("back", "left side"), ("left side", "front"), ("front", "right side"),
             ("top", "top tuck flap"), ("back", "top")]
)  # fmt: skip
def test_a_score_out_of_place(pair: tuple[str, str], by: str) -> None:
    finding = only(spoilt(CARTON, slipped(*pair, INCH(by))))
    assert finding.code == "score.misplaced"
    assert finding.amount == abs(INCH(by))
    assert set(finding.where) == {"carton", *pair}


@pytest.mark.parametrize(
    "pair",
    [("tab", "back"), ("front", "right side"), ("top", "top tuck flap"), ("back", "back flap"),
     ("left side", "left flap"), ("right side", "right flap"), ("front", "front flap")],
)  # fmt: skip
def test_a_reversed_fold(pair: tuple[str, str]) -> None:
    finding = only(spoilt(CARTON, folded_back(*pair)))
    assert finding.code == "fold.reversed"
    assert set(finding.where) == {"carton", *pair}
    assert "mountain fold seen from the outside" in finding.advice


def test_a_tongue_left_folded() -> None:
    """Folded square, the tongue stands up inside by its 1/2 in instead of lying on the back flap."""

    finding = only(
        spoilt(
            CARTON,
            lambda piece: replace(
                piece,
                scores=tuple(
                    replace(s, degrees=90) if "tongue" in s.panels else s for s in piece.scores
                ),
            ),
        )
    )
    assert finding.code == "panel.astray"
    assert finding.where == ("carton", "tongue", "back flap")
    assert finding.amount == INCH("1/2")


def test_an_order_that_no_hands_can_fold() -> None:
    """Four flaps each over the next, round in a circle, and a tongue that is not slid in."""
    made = style_named(STYLE)
    measures = made.complete(SIZES, Given(System.INCH, TAPE_WIDTH))
    built = made.build(measures, Given(System.INCH, TAPE_WIDTH))
    marks = Ruler(INCH("1/16"))

    def codes(*layers: Layer) -> set[str]:
        found = prove(
            replace(built, layers=layers), measures, thickness={"carton": CARD}, tape=TAPE,
            covers={}, treats=(), ruler=marks, trimmer=marks, system=System.INCH,
        )  # fmt: skip
        return {one.code for one in found.findings}

    assert codes(*built.layers) == set()
    circle = Layer("carton", "front flap", "back flap")
    assert "layers.circle" in codes(*built.layers, circle)
    forced = (
        replace(layer, slid=False) if layer.inner == "tongue" else layer for layer in built.layers
    )
    assert codes(*forced) == {"layers.order"}


def test_a_tab_narrower_than_the_tape() -> None:
    finding = only(designed(project(STYLE, **{**SIZES, "tab": INCH("3/16")})))
    assert finding.code == "tape.wider-than-tab"
    assert finding.where == ("carton", "tab")
    assert finding.amount == INCH("1/16")
    assert finding.mend == Mend("measures.tab", "3/16 in", "1/4 in")


def test_glue_on_the_wrong_face() -> None:
    """The strip is 3 in less a mitre of 1/8 in at each end."""
    finding = only(spoilt(CARTON, on_the_other_face("tab tape")))
    assert finding.code == "glue.wrong-face"
    assert finding.where == ("carton", "tab", "right side")
    assert finding.amount == INCH("11/4")


def test_a_treat_too_tall() -> None:
    """Clear height 3 in less three papers below (one by half) and two above (one by half)."""
    finding = only(designed(project(STYLE, treat("2", "1", "3", "1/16"), **SIZES)))
    assert finding.code == "treat.too-tall"
    assert finding.amount == INCH("1/16") + CARD * 4
    assert finding.mend == Mend("measures.height", "3 in", "3 1/8 in")


def test_how_far_a_side_flap_folded_out_reaches() -> None:
    """By 13/16 in over the side; its corner farthest from the front flap (1 in deep) stands
    1 15/16 in from the front, so it is 13/16 in beside and 15/16 in behind it."""
    out = project(STYLE, **{**SIZES, "side_flap": INCH("13/16"), "sliver": INCH("1/16")})
    finding = only(spoilt(out, folded_back("left side", "left flap")))
    assert finding.amount is not None
    assert float(finding.amount.as_inch) == pytest.approx(hypot(13 / 16, 15 / 16), abs=1e-6)
