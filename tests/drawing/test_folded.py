"""The box in space: what shows of it, and its steps."""

import pytest

from snipfold.drawing import folded_picture, step_picture
from snipfold.drawing.body import Looks, faces_of, moved
from snipfold.drawing.inks import GLUE
from snipfold.drawing.scene import Arrow, Hatch
from snipfold.drawing.solid import Face, Seen, seen
from snipfold.drawing.views import BACK_LEFT, FRONT_RIGHT, View
from snipfold.folding import Vec, closed
from snipfold.project import Design
from snipfold.styles import Doing

from . import samples


def _panels_seen(of: Design, view: View, lid_up_mm: float = 0.0) -> dict[tuple[str, str], Seen]:
    """What is seen of every panel of the closed box without mats and strap, by piece and panel."""
    poses = closed(of.construction)
    if lid_up_mm:
        poses = moved(poses, "lid", Vec(0.0, 0.0, lid_up_mm))
    faces = faces_of(of.construction, poses, of.papers, of.dressing, Looks(strap=False))
    bare = [face for face in faces if face.kind == "paper"]
    keys = [(name, panel) for name, pose in poses.items() for panel in pose.placed]
    by_face: dict[Face, tuple[str, str]] = dict(zip(bare, keys, strict=True))
    return {by_face[one.face]: one for one in seen(bare, view)}


def test_of_a_closed_bag_the_front_and_right_side_are_seen_whole() -> None:
    found = _panels_seen(samples.design("bag"), FRONT_RIGHT)
    for name in ("front", "right side"):
        one = found["bag", name]
        assert one.outside
        assert one.visible.area == pytest.approx(one.whole.area, rel=1e-3)


def test_of_an_open_bag_the_back_and_left_side_are_seen_from_the_inside_only() -> None:
    found = _panels_seen(samples.design("bag"), FRONT_RIGHT)
    for name in ("back", "left side"):
        one = found["bag", name]
        assert not one.outside
        assert 0 < one.visible.area < one.whole.area


def test_the_seam_tab_lies_inside_the_back_so_it_is_seen_from_inside_and_never_from_outside() -> (
    None
):
    inside = _panels_seen(samples.design("bag"), FRONT_RIGHT)["bag", "tab"]
    assert inside.visible.area > 0
    outside = _panels_seen(samples.design("bag"), BACK_LEFT)["bag", "tab"]
    assert outside.visible.area == 0


def test_under_a_lid_no_floor_is_seen_and_with_the_lid_lifted_the_floor_is() -> None:
    of = samples.design("tray")
    assert _panels_seen(of, FRONT_RIGHT)["base", "floor"].visible.area == 0
    lifted = _panels_seen(of, FRONT_RIGHT, lid_up_mm=200.0)
    assert lifted["base", "floor"].visible.area > 0
    assert not lifted["base", "floor"].outside
    assert lifted["lid", "top"].outside


def test_a_picture_with_the_lid_lifted_says_so_and_is_taller() -> None:
    of = samples.design("tray")
    lid_on, lid_off = folded_picture(of), folded_picture(of, closed=False)
    assert "lid lifted off" in lid_off.alt
    assert "lifted" not in lid_on.alt
    assert lid_off.height_mm > lid_on.height_mm


@pytest.mark.parametrize("name", samples.NAMES)
def test_a_step_with_adhesive_shows_the_adhesive_and_an_arrow(name: str) -> None:
    of = samples.design(name)
    for index, step in enumerate(of.construction.steps):
        marks = list(step_picture(of, index).marks())
        if step.glue:
            assert any(isinstance(m, Hatch) and m.ink is GLUE for m in marks), step.title
        if step.doing is not Doing.CREASE:
            assert any(isinstance(m, Arrow) for m in marks), step.title


@pytest.mark.parametrize("name", samples.NAMES)
def test_once_all_is_stuck_no_adhesive_is_left_to_be_seen(name: str) -> None:
    of = samples.design(name)
    last = len(of.construction.steps) - 1
    after = [layer for layer in step_picture(of, last).layers if layer.name == "glue after"]
    assert after == []


@pytest.mark.parametrize("name", samples.NAMES)
def test_the_words_of_a_step_name_what_moves_and_how_the_box_lies(name: str) -> None:
    of = samples.design(name)
    for index, step in enumerate(of.construction.steps):
        alt = step_picture(of, index).alt
        assert step.title in alt
        if step.doing is not Doing.SET_ON:
            assert all(panel in alt for panel in step.moving)
        assert "seen from" in alt


def test_the_bottom_of_a_bag_is_closed_with_the_bag_lying_down() -> None:
    of = samples.design("bag")
    for index, step in enumerate(of.construction.steps):
        if any("flap" in panel for panel in step.moving) and step.doing is not Doing.CREASE:
            assert "the bottom towards you" in step_picture(of, index).alt


def test_the_picture_is_the_same_each_time() -> None:
    of = samples.design("bag")
    assert folded_picture(of) == folded_picture(of)
