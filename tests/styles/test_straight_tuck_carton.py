"""The straight tuck carton: its blank, how it closes and locks, and the room in it."""

from itertools import pairwise

import pytest
from hypothesis import given as given_by
from hypothesis import settings

from snipfold.flat import EdgeKind, Role
from snipfold.measure import Length
from snipfold.styles import Construction, Given, Style, style_named

from .cartons import CARD, INCH, TAPE, built, carton, in_space, inside, lines, plane_of, proven
from .strategies import measured

NAME = "straight tuck carton"
Drawn = tuple[Style, dict[str, Length], Given, Construction]


def test_carton_of_practice() -> None:
    """Common practice, no source: 2 1/2 x 1 1/4 x 3 1/2 in with 3/4 in tucks and a 1/2 in glue tab.

    Across: tab, back, side, front, side. Up: tuck, bottom, walls, top, tuck.
    """
    _, made = built(
        NAME, width=INCH("5/2"), depth=INCH("5/4"), height=INCH("7/2"), tab=INCH("1/2"),
        tuck=INCH("3/4"),
    )  # fmt: skip
    (blank,) = made.pieces
    assert (blank.width, blank.height) == (INCH(8), INCH("15/2"))
    assert lines(blank, 0) == [INCH("1/2"), INCH(3), INCH("17/4"), INCH("27/4")]
    assert lines(blank, 1) == [INCH("3/4"), INCH(2), INCH("11/2"), INCH("27/4")]


@given_by(measured(style_named(NAME)))
@settings(max_examples=40, deadline=None)
def test_both_tucks_close_on_the_same_panel(drawn: Drawn) -> None:
    """Straight tuck: brownpackaging.com, "Folding carton styles and when to use them"."""
    made = drawn[3]
    pose = carton(made)
    for end in ("top", "bottom"):
        assert inside(made, f"{end} tuck flap") == {"front"}
        assert plane_of(pose, f"{end} tuck flap", 1) == plane_of(pose, "front", 1)


@given_by(measured(style_named(NAME)))
@settings(max_examples=40, deadline=None)
def test_dust_flaps_are_unglued_and_turned_in_under_the_closure(drawn: Drawn) -> None:
    """Dust flap: nationalcarton.com, "Folding carton terminology"."""
    made = drawn[3]
    (blank,) = made.pieces
    pose = carton(made)
    for end in ("top", "bottom"):
        for side in ("left", "right"):
            flap = f"{end} {side} dust flap"
            assert not any(flap in (glue.panel, glue.mate) for glue in blank.glue)
            assert end in inside(made, flap)
            assert plane_of(pose, flap, 2) == plane_of(pose, end, 2)


@given_by(measured(style_named(NAME)))
@settings(max_examples=40, deadline=None)
def test_a_flap_has_one_score(drawn: Drawn) -> None:
    """Panel and flap: cartonsolutions.com.au, "Definitions": one score and three edges or more."""
    (blank,) = drawn[3].pieces
    for panel in blank.panels:
        if panel.role is Role.FLAP:
            assert sum(panel.name in score.panels for score in blank.scores) == 1


@given_by(measured(style_named(NAME)))
@settings(max_examples=40, deadline=None)
def test_the_seam_stands_at_the_observers_right(drawn: Drawn) -> None:
    """ISO 2206 (by GB/T 4857.1-92): the manufacturer's joint upright at the observer's right."""
    _, m, _, made = drawn
    pose = carton(made)
    assert plane_of(pose, "tab", 0) == plane_of(pose, "right side", 0)
    assert plane_of(pose, "tab", 0) == pytest.approx(m["width"].float_mm, abs=1e-6)


@given_by(measured(style_named(NAME)))
@settings(max_examples=40, deadline=None)
def test_the_shoulders_of_the_dust_flaps_lie_in_the_locking_slits(drawn: Drawn) -> None:
    """Each slit ends where the shoulder next to it does, and lies on its line in space."""
    _, m, _, made = drawn
    (blank,) = made.pieces
    for end, hinge in (("top", "high"), ("bottom", "low")):
        wall = blank.panel("front").corners
        level = Length.mm(max(c.y for c in wall) if hinge == "high" else min(c.y for c in wall))
        out = m["slit"] if end == "top" else -m["slit"]
        slits = {
            snip.name: {in_space(made, end, Length.mm(p.x), Length.mm(p.y)) for p in snip.corners}
            for snip in blank.snips
            if len(snip.corners) == 2
        }
        for flap_side, column in (("left", "left side"), ("right", "right side")):
            xs = {c.x for c in blank.panel(column).corners}
            # The edge next to the front.
            at = Length.mm(max(xs) if flap_side == "left" else min(xs))
            shoulder = in_space(made, f"{end} {flap_side} dust flap", at, level + out)
            # The back, on which the panel hangs, is seen the other way round.
            seen = "right" if flap_side == "left" else "left"
            assert shoulder in slits[f"locking slit, {end} {seen}"]


@given_by(measured(style_named(NAME)))
@settings(max_examples=40, deadline=None)
def test_a_slit_takes_its_length_from_the_score(drawn: Drawn) -> None:
    _, m, _, made = drawn
    (blank,) = made.pieces
    score = blank.score("top", "top tuck flap")
    assert Length.mm(abs(score.end.x - score.start.x)) == m["width"] - m["slit"] * 2
    slit = [edge for edge in blank.edges if edge.kind is EdgeKind.SLIT]
    assert len(slit) == 4
    for edge in slit:
        run = blank.vertices[edge.start].x - blank.vertices[edge.end].x
        assert Length.mm(abs(run)) == m["slit"] - m["sliver"]


def test_tuck_flaps_trimmed_as_published() -> None:
    """mecreating.blogspot.com 2008/08, "Box making": about 1/8 in off the ends of tuck flaps."""
    _, made = built(NAME, width=INCH(3), depth=INCH("3/2"), height=INCH(4), sliver=INCH("1/8"))
    (blank,) = made.pieces
    xs = [corner.x for corner in blank.panel("top tuck flap").corners]
    host = [corner.x for corner in blank.panel("top").corners]
    assert Length.mm(min(xs) - min(host)) == Length.mm(max(host) - max(xs)) == INCH("1/8")


def test_clear_inside() -> None:
    """By hand: half a wall each side; the tab with its tape inside the right side; a tuck flap
    inside the front; a dust flap inside the top and inside the bottom."""
    found = proven(*built(NAME, width=INCH(3), depth=INCH("3/2"), height=INCH(4)))
    assert found.clear["width"] == INCH(3) - CARD - (CARD + TAPE)
    assert found.clear["depth"] == INCH("3/2") - CARD - CARD
    assert found.clear["height"] == INCH(4) - CARD - CARD * 2


def test_dust_flaps_that_lie_over_one_another_are_charged_both() -> None:
    """Dust flaps of 2 in across 3 in: the left one lies inside the right one."""
    found = proven(*built(NAME, width=INCH(3), depth=INCH(2), height=INCH(4), dust_flap=INCH(2)))
    assert found.findings == ()
    assert found.clear["height"] == INCH(4) - CARD - CARD * 4


def test_the_ends_are_turned_in_before_they_are_tucked() -> None:
    _, made = built(NAME)
    order = [set(step.moving) for step in made.steps]
    for end in ("bottom", "top"):
        dust = order.index({f"{end} left dust flap", f"{end} right dust flap"})
        tuck = order.index({f"{end} tuck flap", end})
        assert dust < tuck
    titles = [step.title for step in made.steps]
    assert all(one != other for one, other in pairwise(titles))
