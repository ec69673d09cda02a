"""The gift-card holder: its pocket, and the card that it is made for."""

from fractions import Fraction

import pytest
from hypothesis import given as given_by
from hypothesis import settings
from shapely import Polygon

from snipfold.dressing import MatWish, StrapWish
from snipfold.findings import has_errors
from snipfold.folding import Treat, closed
from snipfold.measure import ZERO, Length, System
from snipfold.project import Project, resolve
from snipfold.styles import Construction, Given, Style, style_named
from snipfold.styles.gift_card_holder import ID_1
from snipfold.workshop import default_workshop

from .strategies import measured

INCH, MM = Length.inch, Length.mm
HOLDER = style_named("gift-card holder")
Drawn = tuple[Style, dict[str, Length], Given, Construction]

ALLOWANCE = {System.INCH: INCH("1/8"), System.METRIC: MM(3)}


def holding(treat: Treat, system: System, **measures: Length) -> Project:
    return Project(
        name="Hazel Row sampler", style=HOLDER.name, system=system, measures=measures, papers={},
        keep_grain=False, mats=MatWish(True, ALLOWANCE[system], {}, frozenset(), frozenset()),
        strap=StrapWish(False, INCH(1), INCH(2), INCH(1), None), contents=(treat,), notes="",
    )  # fmt: skip


def test_the_card_is_that_of_the_standard() -> None:
    """ISO/IEC 7810 ID-1: 85.60 x 53.98 x 0.76 mm (https://en-academic.com/dic.nsf/enwiki/11587419);
    in inches the same page gives 3.370 x 2.125, each rounded for itself."""
    assert (MM("85.60"), MM("53.98"), MM("0.76")) == ID_1
    for length, inches in zip(ID_1, ("3.370", "2.125"), strict=False):
        assert abs(length - INCH(Fraction(inches))) < INCH("1/2000")


@pytest.mark.parametrize("system", System)
@pytest.mark.parametrize("thickness", ["0.68", "0.76", "0.84"])
def test_the_usual_holder_takes_the_card_with_the_usual_allowance(
    system: System, thickness: str
) -> None:
    """ISO/IEC 7810 lets ID-1 cards be 0.68 to 0.84 mm thick (an encyclopaedia's article on it)."""
    card = Treat("card", ID_1[0], ID_1[1], MM(thickness), ALLOWANCE[system], ZERO)
    assert not has_errors(resolve(holding(card, system), default_workshop(system)).findings)


@pytest.mark.parametrize("thick", ["0.76", "3", "8"])
def test_a_flat_pocket_takes_what_goes_round_the_card(thick: str) -> None:
    """A pocket w wide is 2 w round, a card of a x t is 2 (a + t): it goes in while a + t <= w.

    By hand: the pocket's own width is 3 3/4 in (95.25 mm) less one thickness of paper.
    """
    paper = default_workshop(System.INCH).papers[0].thickness
    most = INCH("15/4") - paper - MM(thick)
    for width, fits in ((most, True), (most + MM("0.01"), False)):
        card = Treat("card", width, MM(50), MM(thick), ZERO, ZERO)
        project = holding(card, System.INCH, width=INCH("31/8"), ease=INCH("1/16"))
        found = resolve(project, default_workshop(System.INCH)).findings
        assert has_errors(found) is not fits, (thick, width)


@given_by(measured(HOLDER))
@settings(max_examples=40, deadline=None)
def test_cover_and_back_are_alike_and_the_pocket_keeps_in(drawn: Drawn) -> None:
    _, m, _, construction = drawn
    (holder,) = construction.pieces
    for name in ("cover", "back"):
        xs, ys = zip(*holder.panel(name).corners, strict=True)
        assert (Length.mm(max(xs) - min(xs)), Length.mm(max(ys) - min(ys))) == (
            m["width"], m["depth"],
        )  # fmt: skip
    placed = closed(construction)["holder"].placed
    back = Polygon([corner[:2] for corner in placed["back"].corners])
    for name in ("pocket", "left flap", "right flap"):
        inside = Polygon([corner[:2] for corner in placed[name].corners])
        assert back.buffer(1e-6).contains(inside), name


@given_by(measured(HOLDER))
@settings(max_examples=40, deadline=None)
def test_everything_is_folded_flat_with_the_cover_on_top(drawn: Drawn) -> None:
    placed = closed(drawn[3])["holder"].placed
    assert all(abs(corner.z) < 1e-6 for one in placed.values() for corner in one.corners)
    looks_up = {name for name, one in placed.items() if one.outward.z > 0.999}
    looks_down = {name for name, one in placed.items() if one.outward.z < -0.999}
    assert looks_up == {"cover", "pocket"}
    assert looks_down == {"back", "left flap", "right flap"}


@given_by(measured(HOLDER))
@settings(max_examples=40, deadline=None)
def test_the_notch_is_a_trapezoid_in_the_middle_of_the_pocket(drawn: Drawn) -> None:
    _, m, _, construction = drawn
    (holder,) = construction.pieces
    notches = [snip for snip in holder.snips if snip.name == "thumb notch"]
    if m["notch"] == ZERO:
        assert notches == []
        return
    ((a, b, c, d),) = (snip.corners for snip in notches)
    assert Length.mm(a.y - b.y) == m["notch"]
    assert (a.y, b.y) == (d.y, c.y)
    assert a.x + d.x == holder.width.as_mm == b.x + c.x
    assert b.x < c.x
