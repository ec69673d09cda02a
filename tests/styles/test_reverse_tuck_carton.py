"""The reverse tuck carton: its blank and how it closes."""

from hypothesis import given as given_by
from hypothesis import settings

from snipfold.flat import area
from snipfold.measure import Length
from snipfold.styles import Construction, Given, Style, style_named

from .cartons import CARD, INCH, TAPE, built, carton, inside, lines, plane_of, proven
from .strategies import measured

NAME = "reverse tuck carton"
Drawn = tuple[Style, dict[str, Length], Given, Construction]


def test_carton_of_practice() -> None:
    """Common practice, no source: 3 x 1 x 4 in with 3/4 in tucks and a 1/2 in glue tab."""
    _, made = built(
        NAME, width=INCH(3), depth=INCH(1), height=INCH(4), tab=INCH("1/2"), tuck=INCH("3/4")
    )
    (blank,) = made.pieces
    assert (blank.width, blank.height) == (INCH("17/2"), INCH("15/2"))
    assert lines(blank, 0) == [INCH("1/2"), INCH("7/2"), INCH("9/2"), INCH("15/2")]
    assert lines(blank, 1) == [INCH("3/4"), INCH("7/4"), INCH("23/4"), INCH("27/4")]


@given_by(measured(style_named(NAME)))
@settings(max_examples=40, deadline=None)
def test_top_and_bottom_tuck_in_opposite_directions(drawn: Drawn) -> None:
    """Reverse tuck: brownpackaging.com, "Folding carton styles"; asiaprintpackaging.com."""
    made = drawn[3]
    pose = carton(made)
    for end, wall in (("top", "front"), ("bottom", "back")):
        assert inside(made, f"{end} tuck flap") == {wall}
        assert plane_of(pose, f"{end} tuck flap", 1) == plane_of(pose, wall, 1)
    hosts = {end: {n for s in made.pieces[0].scores if end in s.panels for n in s.panels}
             for end in ("top", "bottom")}  # fmt: skip
    assert hosts["top"] == {"back", "top", "top tuck flap"}
    assert hosts["bottom"] == {"front", "bottom", "bottom tuck flap"}


@given_by(measured(style_named(NAME)))
@settings(max_examples=40, deadline=None)
def test_it_takes_as_much_paper_as_a_straight_tuck_of_its_size(drawn: Drawn) -> None:
    """Only the bottom has moved from the back to the front, so the panels' areas are the same."""
    _, measures, given, made = drawn
    straight = style_named("straight tuck carton").build(measures, given)

    def used(of: Construction) -> object:
        return sum(area(panel.corners) for panel in of.pieces[0].panels)

    assert used(made) == used(straight)
    assert made.pieces[0].width == straight.pieces[0].width
    assert made.pieces[0].height == straight.pieces[0].height


def test_clear_inside() -> None:
    """By hand: as with a straight tuck, but one tuck flap lies inside the front, one inside the
    back."""
    found = proven(*built(NAME, width=INCH(3), depth=INCH("3/2"), height=INCH(4)))
    assert found.clear["width"] == INCH(3) - CARD - (CARD + TAPE)
    assert found.clear["depth"] == INCH("3/2") - CARD - CARD * 2
    assert found.clear["height"] == INCH(4) - CARD - CARD * 2
