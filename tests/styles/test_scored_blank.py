"""The scored blank: what is laid out, how it is folded, and that it is a style like any other."""

from __future__ import annotations

import json
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given as given_by
from hypothesis import settings

from snipfold.dressing.mats import has_visible_outside
from snipfold.findings import Severity
from snipfold.flat import EdgeKind, Face, FlatPiece, Role, area, flat_findings
from snipfold.folding import closed
from snipfold.measure import Length, System
from snipfold.project import Design, for_edition, resolve
from snipfold.publish.design_json import design_json
from snipfold.styles import Doing, Given, Layer, ScoredBlank
from snipfold.styles.scored_blank import sketch
from snipfold.workshop import default_workshop

from .blanks import BAG, HEAD, changed, designed, drawn_blanks, read

INCH = Length.inch


def piece_of(design: Design) -> FlatPiece:
    (piece,) = design.construction.pieces
    return piece


def grave(design: Design) -> list[str]:
    return [one.code for one in design.findings if one.severity is not Severity.NOTE]


# ---- the wrap bag, drawn line by line


@pytest.fixture(scope="module")
def both() -> tuple[Design, Design]:
    """A bag of 3 3/4 x 1 1/2 x 4 3/4 in by its lines, and the built-in wrap bag of those measures."""
    own = read(BAG)
    measures = {
        "width": INCH("15/4"), "depth": INCH("3/2"), "height": INCH("19/4"), "tab": INCH("1/2"),
        "flap": INCH("3/2"), "sliver": INCH("1/16"),
    }  # fmt: skip
    workshop = default_workshop(System.INCH)
    built_in = replace(own, blank=None, style="wrap bag", measures=measures)
    return resolve(own, workshop), resolve(built_in, workshop)


def test_a_bag_drawn_line_by_line_is_the_built_in_bag(both: tuple[Design, Design]) -> None:
    own, built_in = (piece_of(design) for design in both)
    assert (own.width, own.height) == (built_in.width, built_in.height)
    assert own.panels == built_in.panels
    assert {replace(score, said_in="") for score in own.scores} == set(built_in.scores)
    assert own.glue == built_in.glue
    assert {frozenset(snip.corners) for snip in own.snips} == {
        frozenset(snip.corners) for snip in built_in.snips
    }


def test_what_it_leaves_out_is_worked_out_as_the_built_in_bag_has_it(
    both: tuple[Design, Design],
) -> None:
    own, built_in = (design.construction for design in both)
    assert own.stands == built_in.stands
    assert own.meets == built_in.meets
    assert own.cavity == built_in.cavity
    assert own.handle == built_in.handle
    # Side flaps 3 3/4 in apart never overlap, so their order is of no matter.
    assert set(own.layers) == set(built_in.layers) - {Layer("bag", "left flap", "right flap")}
    steps = [(step.doing, step.glue, step.moving) for step in own.steps[1:]]
    assert steps == [(step.doing, step.glue, step.moving) for step in built_in.steps[1:]]


def test_its_proof_and_its_plans_are_the_built_in_bags_too(both: tuple[Design, Design]) -> None:
    own, built_in = both
    assert own.findings == built_in.findings == ()
    by_code = [{law.code: law for law in design.proof.laws} for design in both]
    # The built-in bag declares one pair of layers more, which its law counts.
    for laws in by_code:
        del laws["layers"]
    assert by_code[0] == by_code[1]
    assert own.proof.clear == built_in.proof.clear
    assert own.scoring == built_in.scoring
    assert own.cutting == built_in.cutting
    assert own.dressing == built_in.dressing
    assert own.supplies == built_in.supplies


# ---- what is laid out


def test_a_tucked_panel_loses_a_sliver_at_its_free_end_and_a_mitred_one_twice_that() -> None:
    piece = piece_of(designed(BAG))
    flap = [corner.x for corner in piece.panel("left flap").corners if corner.y == 0]
    assert Length.mm(max(flap) - min(flap)) == INCH("3/2") - INCH("1/16") * 2
    tab = [corner.y for corner in piece.panel("tab").corners if corner.x == 0]
    assert Length.mm(max(tab) - min(tab)) == INCH("19/4") - INCH("1/8") * 2


def test_a_cell_that_is_cut_away_goes_in_one_snip_with_the_slivers_beside_it() -> None:
    """1/2 x 1 1/2 in, the flap's sliver 1/16 x 1 1/2 / 2, the tab's mitre 1/8 x 1/2 / 2."""
    (corner,) = (s for s in piece_of(designed(BAG)).snips if s.name == "lower left corner")
    assert area(corner.corners) / INCH(1).as_mm ** 2 == (
        INCH("1/2").as_inch * INCH("3/2").as_inch + INCH("3/64").as_inch + INCH("1/32").as_inch
    )
    assert len(corner.corners) == 4


def test_joined_cells_are_one_panel_without_a_score() -> None:
    text = (
        HEAD
        + """
[blank]
width = "6 in"
height = "4 in"
across = ["2 in", "4 in"]
up = ["2 in"]
joined = [["1.1", "2.1"], ["1.2", "2.2"]]
"""
    )
    piece = piece_of(designed(text))
    assert {panel.name for panel in piece.panels} == {
        "panel 1.1", "panel 1.2", "panel 3.1", "panel 3.2",
    }  # fmt: skip
    assert area(piece.panel("panel 1.1").corners) == (INCH(4).as_mm * INCH(2).as_mm)
    assert len(piece.scores) == 4


def test_a_slit_parts_two_panels_and_takes_nothing_away() -> None:
    text = changed(BAG, ('tucked = ["2.1", "4.1"]\n', ""))
    piece = piece_of(designed(text))
    slits = [snip for snip in piece.snips if len(snip.corners) == 2]
    assert len(slits) == 3
    assert sum(edge.kind is EdgeKind.SLIT for edge in piece.edges) == 3


@given_by(drawn_blanks())
@settings(max_examples=30, deadline=None)
def test_whatever_hangs_together_is_laid_out_whole_and_worked_through(text: str) -> None:
    """Panels and snips tile the blank; the proof says what is wrong, and nothing breaks."""
    design = designed(text)
    piece = piece_of(design)
    parts = [panel.corners for panel in piece.panels]
    parts += [snip.corners for snip in piece.snips if len(snip.corners) > 2]
    assert sum(map(area, parts)) == piece.width.as_mm * piece.height.as_mm
    assert flat_findings(piece, design.system) == ()
    assert json.loads(design_json(design))["style"] == "scored blank"


@given_by(drawn_blanks())
@settings(max_examples=40, deadline=None)
def test_the_sketch_that_is_folded_while_reading_is_the_piece_that_is_built(text: str) -> None:
    plan = read(text).blank
    assert plan is not None
    given = Given(System.INCH, INCH("1/4"))
    construction = ScoredBlank(plan).build({}, given)
    (built,) = construction.pieces
    drawn = replace(construction, pieces=(sketch(plan),))
    for name, placed in closed(construction)[built.name].placed.items():
        again = closed(drawn)[built.name].placed[name]
        assert all(
            one.minus(other).length() < 1e-9
            for one, other in zip(placed.corners, again.corners, strict=True)
        )


@given_by(drawn_blanks())
@settings(max_examples=25, deadline=None)
def test_whatever_it_is_it_is_worked_out_in_other_units_too(text: str) -> None:
    project = read(text)
    other = System.METRIC if project.system is System.INCH else System.INCH
    workshop = default_workshop(other)
    made, shop, gave = for_edition(project, default_workshop(project.system), other, workshop)
    assert gave == ()
    assert made.blank is not None
    lines = (*made.blank.across, *made.blank.up, made.blank.width, made.blank.height)
    assert all(workshop.ruler.has(line) for line in lines)
    resolve(made, shop)


# ---- how it stands and what its panels are


TRAY = (
    HEAD
    + """
[blank]
called = "tray"
width = "6 in"
height = "5 in"
across = ["1 in", "5 in"]
up = ["1 in", "4 in"]
slit = [["1.1", "1.2"], ["1.2", "1.3"], ["3.1", "3.2"], ["3.2", "3.3"]]
tucked = ["1.1", "1.3", "3.1", "3.3"]
[blank.names]
"2.2" = "floor"
"1.2" = "left wall"
"3.2" = "right wall"
"2.1" = "back wall"
"2.3" = "front wall"
[[blank.glue]]
panel = "1.1"
on = "left wall"
[[blank.glue]]
panel = "1.3"
on = "left wall"
[[blank.glue]]
panel = "3.1"
on = "right wall"
[[blank.glue]]
panel = "3.3"
on = "right wall"
[blank.cavity]
width = ["left wall", "right wall"]
depth = ["front wall", "back wall"]
floor = "floor"
rim = "front wall"
"""
)


def test_a_tray_stands_on_its_floor_with_its_upper_wall_in_front() -> None:
    design = designed(TRAY)
    assert grave(design) == []
    placed = closed(design.construction)["tray"].placed
    assert placed["floor"].outward.z == pytest.approx(-1)
    assert placed["front wall"].outward.y == pytest.approx(-1)
    corners = [corner for one in placed.values() for corner in one.corners]
    for axis, size in enumerate((4, 3, 1)):
        at = [corner[axis] for corner in corners]
        assert (min(at), max(at)) == pytest.approx((0, size * 25.4))


def test_what_a_panel_is_follows_from_its_name_its_glue_and_where_it_looks() -> None:
    piece = piece_of(designed(TRAY))
    assert piece.panel("floor").role is Role.FLOOR
    assert piece.panel("left wall").role is Role.WALL
    assert piece.panel("panel 1.1").role is Role.TAB
    said = changed(TRAY, ("[blank.cavity]", '[blank.roles]\n"1.1" = "flap"\n[blank.cavity]'))
    assert piece_of(designed(said)).panel("panel 1.1").role is Role.FLAP


def test_ends_are_raised_with_all_their_tabs_before_a_side_is_pressed_on() -> None:
    steps = designed(TRAY).construction.steps
    assert [step.doing for step in steps] == [
        Doing.CREASE, Doing.RAISE, Doing.PRESS, Doing.PRESS,
    ]  # fmt: skip
    assert set(steps[1].moving) == {"front wall", "back wall"}
    assert len(steps[1].glue) == 0
    assert steps[2].moving == ("left wall",)
    assert set(steps[2].glue) == {"panel 1.1 tape", "panel 1.3 tape"}


def test_every_score_is_folded_to_its_end_in_some_step() -> None:
    for text in (BAG, TRAY, PLEAT, POCKET):
        construction = designed(text).construction
        (piece,) = construction.pieces
        reached = {
            frozenset(t.panels): t.degrees for step in construction.steps for t in step.turns
        }
        assert reached == {frozenset(s.panels): s.degrees for s in piece.scores}


# ---- flat things


POCKET = (
    HEAD
    + """
[blank]
called = "pocket"
width = "4 1/4 in"
height = "6 7/8 in"
across = ["1/2 in", "3 3/4 in"]
up = ["7/8 in", "4 3/8 in"]
away = ["1.1", "1.2", "3.1", "3.2"]
mitred = ["1.3", "3.3"]
stands = "front"
[blank.names]
"2.3" = "front"
"2.2" = "back"
"2.1" = "hem"
"1.3" = "left tab"
"3.3" = "right tab"
[[blank.fold]]
between = ["front", "back"]
degrees = 180
[[blank.fold]]
between = ["back", "hem"]
degrees = 180
[[blank.fold]]
between = ["front", "left tab"]
degrees = 180
[[blank.fold]]
between = ["front", "right tab"]
degrees = 180
[[blank.glue]]
panel = "left tab"
on = "back"
[[blank.glue]]
panel = "right tab"
on = "back"
[[blank.glue]]
panel = "hem"
face = "inside"
on = "back"
[blank.cavity]
width = "front"
depth = "front"
flat = true
"""
)


def test_a_flat_pocket_lies_face_up_and_its_hem_is_stuck_before_it_is_closed() -> None:
    design = designed(POCKET)
    assert grave(design) == []
    assert closed(design.construction)["pocket"].placed["front"].outward.z == pytest.approx(1)
    pressed = [step.moving for step in design.construction.steps if step.doing is Doing.PRESS]
    assert pressed == [("hem",), ("back",)]
    assert {(layer.inner, layer.outer) for layer in design.construction.layers} >= {
        ("front", "left tab"), ("left tab", "back"), ("hem", "back"),
    }  # fmt: skip


def test_the_hems_glue_meets_the_inside_of_the_panel_that_it_is_folded_onto() -> None:
    (hem,) = (g for g in piece_of(designed(POCKET)).glue if g.panel == "hem")
    assert (hem.face, hem.mate_face) == (Face.INSIDE, Face.INSIDE)


PLEAT = (
    HEAD
    + """
[blank]
width = "9 in"
height = "4 in"
across = ["3 in", "6 in"]
stands = "1.1"
[[blank.fold]]
between = ["1.1", "2.1"]
degrees = 180
fold = "valley"
[[blank.fold]]
between = ["2.1", "3.1"]
degrees = 180
"""
)


def test_a_pleat_lies_outside_on_outside_and_hides_both() -> None:
    design = designed(PLEAT)
    assert grave(design) == []
    construction = design.construction
    assert Layer("box", "panel 1.1", "panel 2.1", pleated=True) in construction.layers
    seen = [
        panel.name
        for panel in piece_of(design).panels
        if has_visible_outside(construction, closed(construction), "box", panel.name)
    ]
    assert seen == ["panel 3.1"]


def test_a_thing_without_an_inside_has_no_clear_inside() -> None:
    design = designed(PLEAT)
    assert design.construction.cavity.is_open
    assert design.proof.clear == {}


# ---- other units


def test_in_other_units_equal_columns_stay_equal_and_the_bag_still_closes() -> None:
    """1 9/16 in is 39.69 mm and 3 5/16 in is 84.14 mm: 40 and 84, whatever they add up to."""
    text = changed(
        BAG,
        ('"1/2 in", "2 in", "5 3/4 in", "7 1/4 in"',
         '"1/2 in", "2 1/16 in", "5 3/8 in", "6 15/16 in"'),
        ('width = "11 in"', 'width = "10 1/4 in"'),
    )  # fmt: skip
    project = read(text)
    metric = default_workshop(System.METRIC)
    made, shop, _ = for_edition(project, default_workshop(System.INCH), System.METRIC, metric)
    assert made.blank is not None
    assert made.blank.columns == tuple(map(Length.mm, (0, 13, 53, 137, 177, 261)))
    design = resolve(made, shop)
    assert grave(design) == []
    assert design.proof.closes


def test_where_sums_must_agree_the_rounding_that_changes_least_is_found() -> None:
    """Two flaps of 1 1/4 and 2 1/2 in meet over a floor of 3 3/4 in.

    31.75 + 63.5 mm are 95.25 mm; rounded each for itself, 32 + 64 mm lie over 95 mm.
    """
    text = (
        HEAD
        + """
[blank]
called = "wrap"
width = "9 1/2 in"
height = "3 in"
across = ["1 1/4 in", "2 1/4 in", "6 in", "7 in"]
meets = [["left flap left", "right flap right"]]
[blank.names]
"1.1" = "left flap"
"2.1" = "left side"
"3.1" = "floor"
"4.1" = "right side"
"5.1" = "right flap"
"""
    )
    project = read(text)
    assert project.blank is not None
    metric = default_workshop(System.METRIC)
    made, _, _ = for_edition(project, default_workshop(System.INCH), System.METRIC, metric)
    assert made.blank is not None
    at = made.blank.columns
    sizes = [after - before for before, after in pairwise(at)]
    assert sizes[0] + sizes[4] == sizes[2]
    assert sizes[1] == sizes[3]
