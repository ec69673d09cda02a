"""The bag topper: its card, and how it hangs on the rim of a bag."""

import pytest
from hypothesis import given as given_by
from hypothesis import settings

from snipfold.flat import EdgeKind
from snipfold.folding import closed
from snipfold.guide import Hazard, Part, guide_of
from snipfold.measure import Length, System
from snipfold.project import new_project_text, read_project, resolve
from snipfold.styles import Construction, Given, Style, style_named
from snipfold.workshop import default_workshop

from .strategies import measured

INCH = Length.inch
TOPPER = style_named("bag topper")
Drawn = tuple[Style, dict[str, Length], Given, Construction]


def test_topper_of_practice() -> None:
    """Common practice, no source: 4 in wide, 2 in down each side of a 1/4 in ridge: 4 x 4 1/4 in."""
    given = Given(System.INCH, INCH("1/4"))
    sizes = {"width": INCH(4), "depth": INCH("1/4"), "height": INCH(2)}
    (topper,) = TOPPER.build(sizes, given).pieces
    assert (topper.width, topper.height) == (INCH(4), INCH("17/4"))
    assert sorted(Length.mm(s.start.y) for s in topper.scores) == [INCH(2), INCH("9/4")]


@given_by(measured(TOPPER))
@settings(max_examples=40, deadline=None)
def test_it_is_all_card_with_nothing_snipped_away(drawn: Drawn) -> None:
    (topper,) = drawn[3].pieces
    assert topper.snips == ()
    assert {edge.kind for edge in topper.edges} == {EdgeKind.CUT, EdgeKind.SCORE}


@given_by(measured(TOPPER))
@settings(max_examples=40, deadline=None)
def test_front_and_back_hang_equally_far_on_both_sides_of_the_rim(drawn: Drawn) -> None:
    _, m, _, construction = drawn
    placed = closed(construction)["topper"].placed
    for name in ("front", "back"):
        heights = [corner.z for corner in placed[name].corners]
        assert min(heights) == pytest.approx(0, abs=1e-6)
        assert max(heights) == pytest.approx(m["height"].float_mm, abs=1e-6)
    assert placed["front"].outward.y < -0.999
    assert placed["back"].outward.y > 0.999
    apart = placed["back"].corners[0].y - placed["front"].corners[0].y
    assert apart == pytest.approx(m["depth"].float_mm, abs=1e-6)


@pytest.mark.parametrize("system", System)
def test_the_page_that_says_to_staple_warns_of_staples_near_food(system: System) -> None:
    text = new_project_text(TOPPER, system)
    guide = guide_of(resolve(read_project(text, "topper.toml"), default_workshop(system)))
    (fixing,) = guide.of(Part.ASSEMBLE)
    assert any("Staple" in str(sentence) for sentence in fixing.sentences)
    (food,) = [caution for caution in fixing.cautions if caution.hazard is Hazard.FOOD]
    assert "Staples" in food.says
