"""The order of the cuts at the trimmer."""

from __future__ import annotations

from snipfold.cutting import Axis, Cut, Got, Offcut, Region, cut_steps
from snipfold.measure import ZERO, Length


def region(x: int, y: int, width: int, height: int) -> Region:
    return Region(*(Length.mm(n) for n in (x, y, width, height)))


def got(x: int, y: int, width: int, height: int, name: str = "tag") -> Got:
    return Got(region(x, y, width, height), name, False)


def test_no_cuts_make_no_steps() -> None:
    assert cut_steps(Offcut(region(0, 0, 10, 10))) == ()


def test_strips_come_first_and_one_setting_serves_all_of_them() -> None:
    """Two strips of 40, each cut at 30: two settings, one change."""

    def strip(x: int) -> Cut:
        return Cut(
            region(x, 0, 40, 50),
            Axis.UP,
            Length.mm(30),
            got(x, 0, 40, 30),
            Offcut(region(x, 30, 40, 20)),
        )

    tree = Cut(region(0, 0, 80, 50), Axis.ACROSS, Length.mm(40), strip(0), strip(40))
    first, second = cut_steps(tree)
    assert (first.setting, first.axis, first.pieces) == (
        Length.mm(40), Axis.ACROSS, (region(0, 0, 80, 50),)
    )  # fmt: skip
    assert (second.setting, second.axis) == (Length.mm(30), Axis.UP)
    assert second.pieces == (region(0, 0, 40, 50), region(40, 0, 40, 50))
    assert second.gives == ("tag", "tag")


def test_a_setting_waits_for_the_strip_that_will_need_it_too() -> None:
    """A sheet gives a strip at 20 at once, and at 50 a piece that is then also cut at 20.

    Going first to 20 would mean 20, 50, 20; first 50 leaves one change fewer.
    """
    inner = Cut(
        region(0, 0, 50, 60), Axis.UP, Length.mm(20), got(0, 0, 50, 20), Offcut(region(0, 20, 50, 40))
    )  # fmt: skip
    outer = Cut(
        region(50, 0, 50, 60), Axis.UP, Length.mm(20), got(50, 0, 50, 20),
        Cut(
            region(50, 20, 50, 40), Axis.ACROSS, Length.mm(10),
            got(50, 20, 10, 40, "strap"), Offcut(region(60, 20, 40, 40)),
        ),
    )  # fmt: skip
    deep = Cut(region(0, 0, 100, 60), Axis.ACROSS, Length.mm(50), inner, outer)
    tree = Cut(
        region(0, 0, 100, 80), Axis.UP, Length.mm(60), deep,
        Cut(
            region(0, 60, 100, 20), Axis.ACROSS, Length.mm(20), got(0, 60, 20, 20, "tile"),
            Offcut(region(20, 60, 80, 20)),
        ),
    )  # fmt: skip
    steps = cut_steps(tree)
    changes = [steps[0].setting]
    for step in steps[1:]:
        if step.setting != changes[-1]:
            changes.append(step.setting)
    assert changes == [Length.mm(60), Length.mm(50), Length.mm(20), Length.mm(10)]
    at_twenty = [step for step in steps if step.setting == Length.mm(20)]
    assert sum(len(step.pieces) for step in at_twenty) == 3


def test_one_setting_both_ways_is_cut_along_one_axis_and_then_turned() -> None:
    """Squares of 30 from 60 x 60: one setting; all strips, then all pieces."""

    def strip(x: int) -> Cut:
        return Cut(
            region(x, 0, 30, 60), Axis.UP, Length.mm(30), got(x, 0, 30, 30), got(x, 30, 30, 30)
        )

    tree = Cut(region(0, 0, 60, 60), Axis.ACROSS, Length.mm(30), strip(0), strip(30))
    first, second = cut_steps(tree)
    assert first.setting == second.setting == Length.mm(30)
    assert (len(first.pieces), len(second.pieces)) == (1, 2)


def test_a_setting_that_must_come_twice_comes_no_more_than_twice() -> None:
    """30, then 20 inside it, then 30 again inside that: no order saves the third change."""
    innermost = Cut(
        region(0, 0, 20, 40), Axis.UP, Length.mm(30), got(0, 0, 20, 30), Offcut(region(0, 30, 20, 10))
    )  # fmt: skip
    middle = Cut(
        region(0, 0, 30, 40), Axis.ACROSS, Length.mm(20), innermost, Offcut(region(20, 0, 10, 40))
    )
    tree = Cut(
        region(0, 0, 50, 40), Axis.ACROSS, Length.mm(30), middle, Offcut(region(30, 0, 20, 40))
    )
    assert [step.setting for step in cut_steps(tree)] == [
        Length.mm(30), Length.mm(20), Length.mm(30)
    ]  # fmt: skip
    assert cut_steps(tree)[0].pieces[0].x == ZERO
