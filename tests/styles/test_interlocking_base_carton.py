"""The carton with an interlocking four-flap base: how its flaps hold each other."""

import pytest
from hypothesis import given as given_by
from hypothesis import settings
from shapely import Polygon

from snipfold.folding import prove
from snipfold.measure import ZERO, Length
from snipfold.styles import Construction, Given, Style, style_named

from .cartons import CARD, INCH, SIXTEENTHS, TAPE, built, carton, lines, plane_of, proven
from .strategies import measured

NAME = "carton with an interlocking four-flap base"
BASE = ("back flap", "left flap", "right flap", "front flap", "tongue")
Drawn = tuple[Style, dict[str, Length], Given, Construction]


def from_above(construction: Construction, panel: str) -> Polygon:
    """The outline of a level panel of the closed carton, seen from above, mm."""
    return Polygon([(c.x, c.y) for c in carton(construction).placed[panel].corners])


def test_carton_of_practice() -> None:
    """Common practice, no source: 2 1/2 x 2 x 3 in; the back flap reaches over three quarters of
    the depth, the front flap over half of it, and its tongue over a quarter more."""
    _, made = built(
        NAME, width=INCH("5/2"), depth=INCH(2), height=INCH(3), tab=INCH("1/2"), tuck=INCH("3/4"),
        tongue=INCH("1/2"),
    )  # fmt: skip
    (blank,) = made.pieces
    assert (blank.width, blank.height) == (INCH("19/2"), INCH("29/4"))
    assert lines(blank, 0) == [INCH("1/2"), INCH(3), INCH(5), INCH("15/2")]
    # Root of the tongue; base; top; tuck.
    assert lines(blank, 1) == [INCH("1/2"), INCH("3/2"), INCH("9/2"), INCH("13/2")]


@given_by(measured(style_named(NAME)))
@settings(max_examples=40, deadline=None)
def test_the_flaps_hold_each_other_without_glue(drawn: Drawn) -> None:
    """The back flap lies inside the front flap, and the front flap's tongue inside the back flap;
    both overlap, so that neither can drop without the other."""
    _, _, _, made = drawn
    order = {(layer.inner, layer.outer) for layer in made.layers}
    assert {("back flap", "front flap"), ("tongue", "back flap")} <= order
    back, front, tongue = (from_above(made, n) for n in ("back flap", "front flap", "tongue"))
    assert back.intersection(front).area > 1
    assert tongue.intersection(back).area > 1
    assert not any(name in (glue.panel, glue.mate) for glue in made.pieces[0].glue for name in BASE)


@given_by(measured(style_named(NAME)))
@settings(max_examples=40, deadline=None)
def test_the_tongue_passes_through_the_notch_and_through_nothing_else(drawn: Drawn) -> None:
    """Along its root the tongue comes from outside everything to inside everything: there no other
    flap may lie in its way on both sides of that line."""
    _, m, _, made = drawn
    tongue = from_above(made, "tongue")
    front = from_above(made, "front flap")
    root = tongue.intersection(front)
    x0, y0, x1, y1 = root.bounds
    assert x1 - x0 == pytest.approx(m["tongue_width"].float_mm)
    assert y0 == pytest.approx(y1)
    hair = 0.01
    before = Polygon([(x0, y0 - hair), (x1, y0 - hair), (x1, y0), (x0, y0)])
    beyond = Polygon([(x0, y0), (x1, y0), (x1, y0 + hair), (x0, y0 + hair)])
    for name in ("back flap", "left flap", "right flap"):
        flap = from_above(made, name)
        assert min(flap.intersection(before).area, flap.intersection(beyond).area) < 1e-6, name


@given_by(measured(style_named(NAME)))
@settings(max_examples=40, deadline=None)
def test_all_flaps_of_the_base_lie_level_within_the_walls(drawn: Drawn) -> None:
    _, m, _, made = drawn
    floor = Polygon(
        [(0, 0), (m["width"].float_mm, 0), (m["width"].float_mm, m["depth"].float_mm),
         (0, m["depth"].float_mm)]
    )  # fmt: skip
    for name in BASE:
        assert plane_of(carton(made), name, 2) == pytest.approx(0, abs=1e-6)
        assert from_above(made, name).difference(floor.buffer(1e-6)).area < 1e-6


@given_by(measured(style_named(NAME)))
@settings(max_examples=25, deadline=None)
def test_the_base_has_no_fault_whatever_its_size(drawn: Drawn) -> None:
    _, measures, given, made = drawn
    found = prove(
        made, measures, thickness={"carton": CARD}, tape=TAPE, covers={}, treats=(),
        ruler=SIXTEENTHS, trimmer=SIXTEENTHS, system=given.system,
    )  # fmt: skip
    at_fault = {name for one in found.findings for name in one.where} & set(BASE)
    assert at_fault <= {name for one in found.findings if one.code == "closing.marked"
                        for name in one.where}  # fmt: skip


def test_the_back_is_folded_first_the_front_last() -> None:
    _, made = built(NAME)
    moving = [set(step.moving) for step in made.steps]
    back, sides, front = (
        moving.index(those)
        for those in ({"back flap"}, {"left flap", "right flap"}, {"tongue", "front flap"})
    )
    assert back < sides < front


def test_clear_inside() -> None:
    """By hand: below, half of the front flap, and a side flap and a leg of the back flap on it;
    above, half of the top and a dust flap."""
    found = proven(*built(NAME, width=INCH(3), depth=INCH(2), height=INCH(4)))
    assert found.findings == ()
    assert found.clear["width"] == INCH(3) - CARD - (CARD + TAPE)
    assert found.clear["depth"] == INCH(2) - CARD - CARD
    assert found.clear["height"] == INCH(4) - (CARD / 2 + CARD * 2) - (CARD / 2 + CARD)
    assert found.clear["height"] > ZERO
