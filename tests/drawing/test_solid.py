"""Hidden surfaces: small scenes by hand, and a brute-force look along many lines of sight."""

import itertools
import random

import pytest
from shapely.geometry import Point

from snipfold.drawing.body import band, half_ellipse_mm
from snipfold.drawing.solid import Face, Seen, seen
from snipfold.drawing.views import BACK_LEFT, FRONT_RIGHT, View
from snipfold.folding import Vec

#: Seen straight from above: x to the right, y up, z towards the viewer.
FROM_ABOVE = View(Vec(1, 0, 0), Vec(0, 1, 0), Vec(0, 0, 1), Vec(0, 0, 1), "", "")


def _face(*corners: tuple[float, float, float], name: str = "one", lift: float = 0.0) -> Face:
    places = tuple(Vec(*corner) for corner in corners)
    out = places[1].minus(places[0]).cross(places[2].minus(places[0])).unit()
    return Face(places, out, "#111111", "#222222", name, lift)


def _square(x: float, y: float, z: float, side: float = 10.0, **kw: object) -> Face:
    return _face(
        (x, y, z),
        (x + side, y, z),
        (x + side, y + side, z),
        (x, y + side, z),
        **kw,  # type: ignore[arg-type]
    )


def _box(wide: float, deep: float, high: float) -> list[Face]:
    w, d, h = wide, deep, high
    return [
        _face((0, 0, 0), (0, d, 0), (w, d, 0), (w, 0, 0), name="bottom"),
        _face((0, 0, h), (w, 0, h), (w, d, h), (0, d, h), name="top"),
        _face((0, 0, 0), (w, 0, 0), (w, 0, h), (0, 0, h), name="front"),
        _face((w, d, 0), (0, d, 0), (0, d, h), (w, d, h), name="back"),
        _face((0, d, 0), (0, 0, 0), (0, 0, h), (0, d, h), name="left"),
        _face((w, 0, 0), (w, d, 0), (w, d, h), (w, 0, h), name="right"),
    ]


def _areas(found: list[Seen]) -> dict[str, float]:
    return {one.face.group: one.visible.area for one in found}


def test_of_a_box_from_the_front_right_above_exactly_three_faces_are_seen() -> None:
    found = seen(_box(60, 40, 50), FRONT_RIGHT)
    assert {n for n, area in _areas(found).items() if area > 0} == {"front", "right", "top"}
    for one in found:
        if one.visible.area > 0:
            assert one.visible.area == pytest.approx(one.whole.area, rel=1e-4)
            assert one.outside


def test_from_the_back_left_the_other_walls_are_seen() -> None:
    found = _areas(seen(_box(60, 40, 50), BACK_LEFT))
    assert {name for name, area in found.items() if area > 0} == {"back", "left", "top"}


def test_a_nearer_square_hides_the_quarter_that_it_overlaps() -> None:
    found = _areas(seen([_square(0, 0, 0, name="low"), _square(5, 5, 3, name="high")], FROM_ABOVE))
    assert found["high"] == pytest.approx(100)
    assert found["low"] == pytest.approx(75, abs=0.01)


def test_the_order_in_which_faces_come_does_not_matter_where_depths_differ() -> None:
    faces = [_square(5, 5, 3, name="high"), _square(0, 0, 0, name="low")]
    assert _areas(seen(faces, FROM_ABOVE))["low"] == pytest.approx(75, abs=0.01)


def test_faces_of_one_plane_are_ordered_by_their_lift_and_then_by_their_order() -> None:
    by_lift = seen([_square(0, 0, 0, name="a", lift=0.02), _square(0, 0, 0, name="b")], FROM_ABOVE)
    assert _areas(by_lift) == {"a": pytest.approx(100), "b": 0}
    by_order = seen([_square(0, 0, 0, name="a"), _square(0, 0, 0, name="b")], FROM_ABOVE)
    assert _areas(by_order) == {"a": 0, "b": pytest.approx(100)}


def test_two_squares_that_cut_through_each_other_each_show_half() -> None:
    flat = _square(0, 0, 5, name="flat")
    ramp = _face((0, 0, 0), (10, 0, 10), (10, 10, 10), (0, 10, 0), name="ramp")
    found = _areas(seen([flat, ramp], FROM_ABOVE))
    assert found["flat"] == pytest.approx(50, abs=0.01)
    assert found["ramp"] == pytest.approx(50, abs=0.01)


def test_a_face_seen_edge_on_has_no_area() -> None:
    wall = _face((0, 0, 0), (10, 0, 0), (10, 0, 10), (0, 0, 10))
    assert seen([wall], FROM_ABOVE) == []


def test_what_is_seen_and_what_is_hidden_make_up_the_whole() -> None:
    faces = [*_box(60, 40, 50), _square(10, -20, 70, side=40.0, name="lid")]
    for one in seen(faces, FRONT_RIGHT):
        hidden = one.whole.difference(one.visible).area
        assert one.visible.area + hidden == pytest.approx(one.whole.area, abs=1e-6)


@pytest.mark.parametrize("seed", range(6))
def test_along_every_line_of_sight_the_nearest_face_is_the_one_seen(seed: int) -> None:
    """Triangles at random in space against a look along 500 lines of sight, one by one."""
    chance = random.Random(seed)
    faces = []
    while len(faces) < 9:
        corners = [tuple(chance.uniform(0, 60) for _ in range(3)) for _ in range(3)]
        face = _face(*corners, name=str(len(faces)))  # type: ignore[arg-type]
        if abs(face.outward.dot(FRONT_RIGHT.toward)) > 0.05:
            faces.append(face)
    found = seen(faces, FRONT_RIGHT)
    looked = 0
    for _ in range(500):
        at = Point(chance.uniform(-20, 80), chance.uniform(-20, 80))
        depths = []
        for one in found:
            if one.whole.contains(at):
                first, normal = one.face.corners[0], FRONT_RIGHT.place(one.face.outward)
                base = FRONT_RIGHT.place(first)
                rise = (normal.x * (at.x - base.x) + normal.y * (at.y - base.y)) / normal.z
                depths.append((base.z - rise, one))
        depths.sort(key=lambda pair: -pair[0])
        if not depths or (len(depths) > 1 and depths[0][0] - depths[1][0] < 0.05):
            continue
        if any(one.visible.boundary.distance(at) < 0.05 for one in found):
            continue
        looked += 1
        showing = [one.face.group for one in found if one.visible.contains(at)]
        assert showing == [depths[0][1].face.group]
    assert looked > 20


# The strap -----------------------------------------------------------------------------------


def test_half_an_ellipse_is_as_long_as_its_tables_say() -> None:
    # Half axes 2 and 1: the whole is 9.688448 (memory; any table of ellipse perimeters has it).
    assert 2 * half_ellipse_mm(2.0, 1.0) == pytest.approx(9.688448, abs=1e-6)
    assert half_ellipse_mm(3.0, 0.0) == pytest.approx(6.0)


@pytest.mark.parametrize(("span", "length"), [(95.0, 200.0), (60.0, 70.0), (40.0, 300.0)])
def test_a_strap_is_drawn_as_long_as_it_is(span: float, length: float) -> None:
    points = [(u * span, h) for u, h in band(span, length, 400)]
    run = sum(
        ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
        for (x0, y0), (x1, y1) in itertools.pairwise(points)
    )
    assert run == pytest.approx(length, rel=1e-3)
    assert points[0] == (0.0, 0.0)
    assert points[-1][0] == pytest.approx(span)
