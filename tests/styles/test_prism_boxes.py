"""Prism boxes: their polygons against published figures, and how base and lid close."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given as given_by
from hypothesis import settings
from hypothesis import strategies as st
from shapely import Polygon

from snipfold.findings import Severity
from snipfold.flat import area
from snipfold.folding import closed
from snipfold.measure import Length, Ruler, System
from snipfold.project import new_project_text, read_project, resolve
from snipfold.styles import Construction, Given, Style, style_named
from snipfold.styles.prism import grows, mitre
from snipfold.workshop import default_workshop

from .strategies import measured

INCH = Length.inch
SIDES = {
    3: "triangle box with lid",
    4: "square box with lid",
    5: "pentagon box with lid",
    6: "hexagon box with lid",
    7: "heptagon box with lid",
    8: "octagon box with lid",
}
STYLES = {sides: style_named(name) for sides, name in SIDES.items()}
Drawn = tuple[Style, dict[str, Length], Given, Construction]


def sides_of(style: Style) -> int:
    return next(sides for sides, one in STYLES.items() if one is style)


def walls(sides: int) -> list[str]:
    return [f"wall {number}" for number in range(1, sides + 1)]


@st.composite
def drawn_prisms(draw: st.DrawFn) -> Drawn:
    return draw(measured(STYLES[draw(st.sampled_from(sorted(STYLES)))]))


#: Apothem, radius and area of polygons with sides of one: for 5 and 8 sides
#: getit.forumotion.com/t44-facts-about-regular-polygons-and-polyhedra; for 6 the same and
#: everything2.com/title/hexagon.
PUBLISHED = {
    5: (0.6881910, 0.8506508, 1.7204774),
    6: (0.8660254, 1.0, 2.5980762),
    8: (1.2071068, 1.3065630, 4.8284271),
}


@pytest.mark.parametrize(("sides", "published"), PUBLISHED.items())
@pytest.mark.parametrize("system", System)
def test_floors_are_the_published_polygons(
    sides: int, published: tuple[float, float, float], system: System
) -> None:
    apothem, radius, square = published
    style, given = STYLES[sides], Given(system, Length.mm(6))
    measures = style.complete({}, given)
    base, _ = style.build(measures, given).pieces
    side = measures["side"].float_mm
    corners = base.panel("floor").corners
    assert float(area(corners)) == pytest.approx(square * side**2, rel=1e-7)
    middle = [float(sum(axis) / sides) for axis in zip(*corners, strict=True)]
    for corner in corners:
        assert math.dist(map(float, corner), middle) == pytest.approx(radius * side, rel=1e-6)
    outline = Polygon([(float(x), float(y)) for x, y in corners])
    ring = outline.exterior
    assert ring.distance(outline.centroid) == pytest.approx(apothem * side, rel=1e-6)
    assert grows(sides) == pytest.approx(2 * apothem, abs=2e-7)


def test_a_hexagon_is_1_7320508_across_the_flats() -> None:
    """getit.forumotion.com/t44-facts-about-regular-polygons-and-polyhedra."""
    assert grows(6) == pytest.approx(1.7320508, abs=1e-7)


def test_a_hexagon_ruled_as_1_3_4_is_reported_and_weighed() -> None:
    """A hexagon of side 1 in is 1.7320508 in across; its far corners at 1 3/4 are 0.018 in off.

    That is more than the paper is thick, so it is said; tabs lie behind that joint, so it is said
    as a note.
    """
    text = new_project_text(STYLES[6], System.INCH, {"side": INCH(1), "lid_side": INCH(1)})
    design = resolve(read_project(text, "hexagon.toml"), default_workshop(System.INCH))
    gap = design.proof.gap_marked.float_mm / 25.4
    assert gap == pytest.approx(1.75 - 1.7320508, abs=1e-6)
    (found,) = [one for one in design.findings if one.code == "closing.marked"]
    assert found.severity is Severity.NOTE
    assert found.amount == design.proof.gap_marked
    assert found.where[1] in ("floor", "top")
    law = next(law for law in design.proof.laws if law.code == "closing.marked")
    assert law.holds
    assert "0.456 mm" in law.says


def test_a_gap_that_shows_is_a_caution() -> None:
    """With a ruler marked every inch, corners are half an inch and more off: no tab hides that."""
    text = new_project_text(STYLES[6], System.INCH, {"side": INCH(1), "lid_side": INCH(1)})
    workshop = default_workshop(System.INCH)
    coarse = replace(workshop, ruler=Ruler(INCH(1)))
    design = resolve(read_project(text, "hexagon.toml"), coarse)
    (found,) = [one for one in design.findings if one.code == "closing.marked"]
    assert found.severity is Severity.CAUTION


@given_by(drawn_prisms())
@settings(max_examples=60, deadline=None)
def test_every_free_edge_of_floor_and_top_lies_on_a_wall(drawn: Drawn) -> None:
    """The polygon closes against all walls at once, to a micrometre, whatever the side."""
    style, _, _, construction = drawn
    sides = sides_of(style)
    poses = closed(construction)
    for piece, bottom, end in (("base", "floor", min), ("lid", "top", max)):
        placed = poses[piece].placed
        level = end(corner.z for wall in walls(sides) for corner in placed[wall].corners)
        rim = {
            (round(corner.x, 4), round(corner.y, 4))
            for wall in walls(sides)
            for corner in placed[wall].corners
        }
        assert len(rim) <= 2 * sides
        for corner in placed[bottom].corners:
            assert corner.z == pytest.approx(level, abs=1e-6)
            nearest = min(math.dist((corner.x, corner.y), at) for at in rim)
            assert nearest < 2e-4


@given_by(drawn_prisms())
@settings(max_examples=60, deadline=None)
def test_walls_lean_by_the_outer_angle_of_the_polygon(drawn: Drawn) -> None:
    """Neighbouring walls stand at the polygon's inner angle: 180 less 360 / n degrees."""
    style, _, _, construction = drawn
    sides = sides_of(style)
    placed = closed(construction)["base"].placed
    ring = [placed[f"wall {number}"].outward for number in range(1, sides + 1)]
    for one, other in zip(ring, ring[1:] + ring[:1], strict=True):
        turn = math.degrees(math.acos(max(-1.0, min(1.0, one.dot(other)))))
        assert turn == pytest.approx(360 / sides, abs=1e-6)
        assert abs(one.z) < 1e-9


@given_by(drawn_prisms())
@settings(max_examples=60, deadline=None)
def test_the_lid_is_larger_by_the_same_air_on_every_side(drawn: Drawn) -> None:
    """Walls of the lid stand parallel to those of the base, apart by the difference of apothems."""
    style, m, _, construction = drawn
    sides = sides_of(style)
    poses = closed(construction)
    # The apothem of a regular polygon is side / (2 tan(180 / n degrees)).
    wanted = (m["lid_side"] - m["side"]).float_mm / (2 * math.tan(math.pi / sides))
    for number in range(1, sides + 1):
        outer, inner = (poses[piece].placed[f"wall {number}"] for piece in ("lid", "base"))
        assert outer.outward.dot(inner.outward) == pytest.approx(1, abs=1e-9)
        apart = -outer.placement.above(inner.corners[0])
        assert apart == pytest.approx(wanted, abs=1e-5)


@given_by(drawn_prisms())
@settings(max_examples=40, deadline=None)
def test_the_lid_stands_on_the_rim_of_the_base(drawn: Drawn) -> None:
    _, m, _, construction = drawn
    placed = closed(construction)["lid"].placed
    assert all(
        corner.z == pytest.approx(m["height"].float_mm, abs=1e-6)
        for corner in placed["top"].corners
    )
    assert placed["top"].outward.z > 0.999


@pytest.mark.parametrize("sides", range(3, 9))
def test_tabs_keep_clear_of_each_other_on_the_floor(sides: int) -> None:
    """Two tabs meet at a corner of the floor, each with half its angle: 90 - 180 / n degrees."""
    lean = math.degrees(math.atan(1 / float(mitre(sides))))
    assert lean < 90 - 180 / sides


def test_a_strip_of_practice() -> None:
    """Common practice, no source: six walls of 1 3/4 in and a 1/2 in tab are a strip of 11 in."""
    given = Given(System.INCH, INCH("1/4"))
    measures = STYLES[6].complete({"side": INCH("7/4"), "height": INCH(2)}, given)
    base, lid = STYLES[6].build(measures, given).pieces
    assert base.width == INCH(11)
    # 2 + 1.75 x 1.7320508 = 5.031 in, cut at the next sixteenth.
    assert base.height == INCH("81/16")
    assert lid.width == measures["lid_side"] * 6 + INCH("1/2")


@pytest.mark.parametrize("system", System)
@pytest.mark.parametrize("sides", range(3, 9))
def test_blanks_are_cut_at_marks_and_walls_scored_at_marks(sides: int, system: System) -> None:
    """The polygon's irrational depth falls in the waste, not on the trimmer or the board."""
    shop = default_workshop(system)
    text = new_project_text(STYLES[sides], system)
    design = resolve(read_project(text, "prism.toml"), shop)
    for piece in design.construction.pieces:
        assert shop.trimmer.ruler.has(piece.width)
        assert shop.trimmer.ruler.has(piece.height)
    assert not [one for one in design.findings if one.code == "score.off-ruler"]
