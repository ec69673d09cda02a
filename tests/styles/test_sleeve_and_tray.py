"""The sleeve and tray: blanks, the seam that is not seen, and how one slides in the other."""

from dataclasses import replace

import pytest
from hypothesis import given as given_by
from hypothesis import settings

from snipfold.dressing import MatWish
from snipfold.folding import closed, prove
from snipfold.measure import Length, System
from snipfold.project import resolve
from snipfold.styles import Construction, Given, Style, style_named

from ..faults.seeding import project, workshop
from .cartons import CARD, INCH, SIXTEENTHS, TAPE, built, lines, proven
from .strategies import measured

NAME = "sleeve and tray"
Drawn = tuple[Style, dict[str, Length], Given, Construction]


def test_blanks_of_practice() -> None:
    """Common practice, no source: a tray 4 x 2 1/2 x 1 in from 6 x 4 1/2 in scored at 1 in, and a
    sleeve 1/8 in larger from 1/2 + 2 x (1 1/8 + 2 5/8) = 8 in by the length of the tray."""
    _, made = built(
        NAME, width=INCH(4), depth=INCH("5/2"), height=INCH(1), clearance=INCH("1/8"),
        sleeve_tab=INCH("1/2"),
    )  # fmt: skip
    tray, sleeve = made.pieces
    assert (tray.width, tray.height) == (INCH(6), INCH("9/2"))
    assert (lines(tray, 0), lines(tray, 1)) == ([INCH(1), INCH(5)], [INCH(1), INCH("7/2")])
    assert (sleeve.width, sleeve.height) == (INCH(8), INCH(4))
    assert lines(sleeve, 0) == [INCH("1/2"), INCH("13/8"), INCH("17/4"), INCH("43/8")]
    assert lines(sleeve, 1) == []


def test_its_tray_is_that_of_the_tray_with_a_lid() -> None:
    """stampinmoments.com 2008/11, "Tutorial Tuesday: box measurements": a base of 12 x 12 x 4.5 cm
    from a sheet of 21 x 21 cm, scored at 4.5 cm."""
    cm = Length.cm
    _, made = built(NAME, width=cm(12), depth=cm(12), height=cm("4.5"))
    tray = made.pieces[0]
    assert (tray.width, tray.height) == (cm(21), cm(21))
    assert lines(tray, 0) == lines(tray, 1) == [cm("4.5"), cm("16.5")]


@given_by(measured(style_named(NAME)))
@settings(max_examples=40, deadline=None)
def test_the_sleeve_is_larger_by_the_clearance_both_ways_and_open_at_both_ends(
    drawn: Drawn,
) -> None:
    _, m, _, made = drawn
    sleeve = closed(made)["sleeve"]
    corners = [corner for placed in sleeve.placed.values() for corner in placed.corners]
    deep, tall = (max(c[a] for c in corners) - min(c[a] for c in corners) for a in (1, 2))
    assert deep == pytest.approx((m["depth"] + m["clearance"]).float_mm, abs=1e-6)
    assert tall == pytest.approx((m["height"] + m["clearance"]).float_mm, abs=1e-6)
    # No panel closes the way in which the tray slides.
    assert all(abs(placed.outward.x) < 1e-9 for placed in sleeve.placed.values())


@given_by(measured(style_named(NAME)))
@settings(max_examples=40, deadline=None)
def test_the_seam_lies_below_where_it_is_not_seen(drawn: Drawn) -> None:
    placed = closed(drawn[3])["sleeve"].placed
    assert placed["tab"].outward.z == pytest.approx(-1)
    bottom = {round(corner.z, 6) for corner in placed["bottom"].corners}
    assert {round(corner.z, 6) for corner in placed["tab"].corners} == bottom


def test_air_round_the_tray() -> None:
    """By hand, of 1/8 in. Across the depth: two thicknesses. In height: the sleeve's, half of the
    tray's floor (its rim has no thickness above it), and the tab with its tape."""
    found = proven(*built(NAME, clearance=INCH("1/8")))
    deep, tall = found.air
    assert (deep.direction, tall.direction) == ("depth", "height")
    assert deep.left == INCH("1/8") - CARD * 2
    assert tall.left == INCH("1/8") - CARD - CARD / 2 - (CARD + TAPE)
    assert deep.total == tall.total == INCH("1/8")


def test_papers_of_two_weights_are_charged_each_as_thick_as_it_is() -> None:
    measures, made = built(NAME, clearance=INCH("1/8"))
    thick = Length.mm("0.5")
    found = prove(
        made, measures, thickness={"tray": CARD, "sleeve": thick}, tape=TAPE, covers={}, treats=(),
        ruler=SIXTEENTHS, trimmer=SIXTEENTHS, system=System.INCH,
    )  # fmt: skip
    deep, tall = found.air
    assert deep.left == INCH("1/8") - CARD - thick
    assert tall.left == INCH("1/8") - thick - CARD / 2 - (thick + TAPE)


def test_clear_inside() -> None:
    """By hand: half a wall each side, the tray's tabs with their tape inside its left and right
    walls, half of its floor below."""
    found = proven(*built(NAME, width=INCH(4), depth=INCH("5/2"), height=INCH(1)))
    assert found.clear["width"] == INCH(4) - CARD - (CARD + TAPE) * 2
    assert found.clear["depth"] == INCH("5/2") - CARD
    assert found.clear["height"] == INCH(1) - CARD / 2


def test_walls_that_slide_get_no_mats_unless_they_are_asked_for() -> None:
    of = project(NAME)
    made = resolve(of, workshop())
    tray = {mat.panel for mat in made.dressing.mats_on("tray")}
    assert tray == {"left wall", "right wall"}
    assert {mat.panel for mat in made.dressing.mats_on("sleeve")} == {"back", "top", "front"}
    also = frozenset({"front wall", "back wall"})
    asked = replace(of, mats=MatWish(True, INCH("1/16"), {}, frozenset(), also))
    matted = resolve(asked, workshop())
    assert {mat.panel for mat in matted.dressing.mats_on("tray")} == tray | also
    # Paper of 0.2 mm with tape of 0.05 mm on both walls.
    (deep,) = (air for air in matted.proof.air if air.direction == "depth")
    assert deep.mats == Length.mm("0.5")


def test_a_shorter_sleeve_leaves_the_tray_seen_at_both_ends() -> None:
    """A sleeve of 3 in on a tray of 4 in: 1/2 in to the left and to the right."""
    _, made = built(NAME, width=INCH(4), sleeve=INCH(3))
    along = [c.x for p in closed(made)["sleeve"].placed.values() for c in p.corners]
    assert min(along) == pytest.approx(INCH("1/2").float_mm)
    assert max(along) == pytest.approx(INCH("7/2").float_mm)
