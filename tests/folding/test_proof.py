"""Closing, room inside and air, against hand calculation and published figures."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given as given_by
from hypothesis import settings

from snipfold.folding import Proof, Treat, closed, prove
from snipfold.measure import ZERO, Length, Ruler, System
from snipfold.styles import Construction, Given, Layer, Step, Style, style_named

from ..styles.strategies import measured

INCH = Length.inch
CARD = Length.mm("0.3")
TAPE = Length.mm("0.1")
RULER = Ruler(INCH("1/16"))


def build(style: str, **measures: Length) -> tuple[dict[str, Length], Construction]:
    made = style_named(style)
    given = Given(System.INCH, INCH("1/4"))
    complete = made.complete(measures, given)
    return complete, made.build(complete, given)


def proof(
    measures: dict[str, Length],
    construction: Construction,
    *,
    paper: Length = CARD,
    tape: Length = TAPE,
    covers: dict[tuple[str, str], Length] | None = None,
    treats: tuple[Treat, ...] = (),
    ruler: Ruler = RULER,
) -> Proof:
    return prove(
        construction, measures, thickness={p.name: paper for p in construction.pieces}, tape=tape,
        covers=covers or {}, treats=treats, ruler=ruler, trimmer=ruler, system=System.INCH,
    )  # fmt: skip


@given_by(measured())
@settings(max_examples=80, deadline=None)
def test_every_design_within_its_limits_closes(
    drawn: tuple[Style, dict[str, Length], Given, Construction],
) -> None:
    _, measures, _, construction = drawn
    found = proof(measures, construction)
    assert found.gap_designed < INCH(Fraction(1, 10**6))
    assert all(
        law.holds for law in found.laws if law.code in ("flat", "closing.designed", "layers")
    )


@given_by(measured())
@settings(max_examples=60, deadline=None)
def test_the_closed_box_is_as_large_as_its_measures_say(
    drawn: tuple[Style, dict[str, Length], Given, Construction],
) -> None:
    """As it stands in front of you: width to the right, depth to the back, height up."""
    _, measures, _, construction = drawn
    pose = closed(construction)[construction.cavity.piece]
    cavity = construction.cavity
    walls = (*(cavity.width or ()), *(cavity.depth or ()), *cavity.around)
    corners = [corner for wall in walls for corner in pose.placed[wall].corners]
    for axis, name in enumerate(("width", "depth", "height")):
        if name not in measures:
            continue
        extent = max(c[axis] for c in corners) - min(c[axis] for c in corners)
        assert extent == pytest.approx(measures[name].float_mm, abs=1e-6)


def test_clear_inside_of_a_bag() -> None:
    """By hand: walls lose half a thickness each side; the tab and its tape lie inside the back;
    three layers and two tapes lie on the bottom, the outermost by half."""
    found = proof(*build("wrap bag", width=INCH(4), depth=INCH(2), height=INCH(5)))
    assert found.clear["width"] == INCH(4) - CARD
    assert found.clear["depth"] == INCH(2) - CARD - (CARD + TAPE)
    assert found.clear["height"] == INCH(5) - CARD / 2 - (CARD + TAPE) * 2


def test_air_under_a_lid() -> None:
    """Total less two thicknesses, less the lid's tabs on both sides, less mats on both walls."""
    mat = Length.mm("0.25")
    walls = ("left wall", "right wall", "front wall", "back wall")
    found = proof(
        *build("tray with lift-off lid", clearance=INCH("1/8")),
        covers={("base", wall): mat for wall in walls},
    )
    across, deep = found.air
    assert (across.direction, deep.direction) == ("width", "depth")
    assert across.left == INCH("1/8") - CARD * 2 - (CARD + TAPE) * 2 - mat * 2
    # The tabs lie inside the side walls only.
    assert deep.left == INCH("1/8") - CARD * 2 - mat * 2
    assert (across.total, across.mats) == (INCH("1/8"), mat * 2)


@pytest.mark.parametrize(
    ("sheet", "corner", "volume"),
    [
        # math.answers.com, open box of 8.5 x 11: corner 1.5854, volume 66.1482.
        (("8.5", "11"), "1.5854", 66.1482),
        # algebra.com solution 648211, 24 x 36: 10 - sqrt(28); volume by the formula.
        (("24", "36"), "4.708497", 1825.2966),
        # homeworksource.com p/1005884, 18 x 24: 3.39445, volume 654.977.
        (("18", "24"), "3.39445", 654.977),
        # Square of 12 in: calculus textbook exercise, corner S/6, volume 2 S^3 / 27.
        (("12", "12"), "2", 128.0),
        # The published wrong answer for 24 in (askanewquestion.com 1132304: "x = 8, V = 512")
        # is no optimum: the right one is x = 4 with twice that volume.
        (("24", "24"), "4", 1024.0),
    ],
)
def test_volume_of_the_open_box_of_calculus(
    sheet: tuple[str, str], corner: str, volume: float
) -> None:
    cut = INCH(corner)
    width, depth = (INCH(side) - cut * 2 for side in sheet)
    nothing = Length.mm("0.000001")
    found = proof(
        *build("tray with lift-off lid", width=width, depth=depth, height=cut),
        paper=nothing, tape=ZERO,
    )  # fmt: skip
    inside = [float(found.clear[d].as_inch) for d in ("width", "depth", "height")]
    assert inside[0] * inside[1] * inside[2] == pytest.approx(volume, rel=2e-6)


def test_treats_fit_either_way_round_and_pile_up() -> None:
    measures, construction = build("tray with lift-off lid", width=INCH(4), depth=INCH(3))
    lying = Treat("bar", INCH("5/2"), INCH("7/2"), INCH("1/2"), INCH("1/8"), ZERO)
    assert proof(measures, construction, treats=(lying,)).findings == ()
    assert proof(measures, construction, treats=(lying, lying)).findings == ()
    (tall,) = proof(measures, construction, treats=(lying,) * 3).findings
    assert tall.code == "treat.too-tall"


def test_a_treat_may_stand_proud_of_an_open_bag_as_far_as_it_is_said_to() -> None:
    measures, construction = build("wrap bag", height=INCH(4))
    stick = Treat("stick", INCH(1), INCH("1/2"), INCH("9/2"), INCH("1/8"), INCH("3/4"))
    assert proof(measures, construction, treats=(stick,)).findings == ()
    (tall,) = proof(measures, construction, treats=(replace(stick, proud=ZERO),)).findings
    assert tall.code == "treat.too-tall"


def test_a_gap_that_only_the_ruler_makes_is_reported_and_weighed() -> None:
    """Scores at thirds of an inch, ruled in sixteenths: 1/48 in off on each line, and they add up."""
    measures, construction = build(
        "wrap bag", width=INCH("11/3"), depth=INCH("5/3"), height=INCH(5), tab=INCH("1/2")
    )
    found = proof(measures, construction)
    assert found.gap_designed < Length.mm("0.0001")
    assert found.gap_marked > INCH("1/64")
    assert [one.code for one in found.findings] == ["closing.marked"]
    assert found.findings[0].amount == found.gap_marked


def test_an_order_of_layers_that_bites_its_tail_is_refused() -> None:
    measures, construction = build("wrap bag")
    circle = replace(
        construction, layers=(*construction.layers, Layer("bag", "front flap", "left flap"))
    )
    assert "layers.circle" in [one.code for one in proof(measures, circle).findings]


def test_a_flap_folded_before_what_lies_inside_it_is_refused() -> None:
    measures, construction = build("wrap bag")
    steps = list(construction.steps)
    steps[2], steps[4] = steps[4], steps[2]
    wrong: tuple[Step, ...] = tuple(steps)
    codes = {one.code for one in proof(measures, replace(construction, steps=wrong)).findings}
    assert codes == {"layers.order"}


def test_tabs_that_run_into_each_other_are_named_with_their_overlap() -> None:
    """Tabs of 2 in from both ends of a wall 3 in long overlap by 1 in."""
    measures, construction = build(
        "tray with lift-off lid", width=INCH(5), depth=INCH(3), height=INCH(2), tab=INCH(2)
    )
    found = [one for one in proof(measures, construction).findings if one.where[0] == "base"]
    assert {one.code for one in found} == {"panels.overlap"}
    assert {one.amount for one in found} == {INCH(1)}
    assert len(found) == 2
