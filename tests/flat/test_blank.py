"""A flat piece is a map: what a style lays down either tiles the blank or is refused."""

import pytest

from snipfold.flat import Blank, EdgeKind, FlatError, Role, area, flat_findings
from snipfold.measure import Length, System


def inch(text: str) -> Length:
    return Length.inch(text)


def corners(*pairs: tuple[str, str]) -> tuple[tuple[Length, Length], ...]:
    return tuple((inch(x), inch(y)) for x, y in pairs)


LEFT = corners(("0", "0"), ("1", "0"), ("1", "3"), ("0", "3"))
RIGHT = corners(("1", "0"), ("3", "0"), ("3", "3"), ("1", "3"))


def two_panels() -> Blank:
    blank = Blank("card", inch("3"), inch("3"))
    blank.panel("left", Role.WALL, *LEFT)
    blank.panel("right", Role.WALL, *RIGHT)
    return blank


def test_a_score_joins_the_two_panels_beside_it_and_runs_their_shared_edge() -> None:
    blank = two_panels()
    blank.score("left", "right")
    score = blank.build().score("right", "left")
    assert {score.start, score.end} == {(inch("1").as_mm, 0), (inch("1").as_mm, inch("3").as_mm)}


def test_overlapping_panels_are_refused() -> None:
    blank = Blank("card", inch("3"), inch("3"))
    blank.panel("left", Role.WALL, *corners(("0", "0"), ("2", "0"), ("2", "3"), ("0", "3")))
    blank.panel("right", Role.WALL, *RIGHT)
    with pytest.raises(FlatError):
        blank.build()


def test_a_hole_between_panels_is_refused() -> None:
    blank = Blank("card", inch("3"), inch("3"))
    blank.panel("left", Role.WALL, *LEFT)
    blank.panel("right", Role.WALL, *corners(("5/4", "0"), ("3", "0"), ("3", "3"), ("5/4", "3")))
    with pytest.raises(FlatError):
        blank.build()


def test_a_panel_that_hangs_over_the_blank_is_refused() -> None:
    blank = Blank("card", inch("5/2"), inch("3"))
    blank.panel("left", Role.WALL, *LEFT)
    blank.panel("right", Role.WALL, *RIGHT)
    with pytest.raises(FlatError):
        blank.build()


@pytest.mark.parametrize(
    "shape",
    [
        corners(("0", "0"), ("0", "3"), ("1", "3"), ("1", "0")),
        corners(("0", "0"), ("1", "3"), ("1", "0"), ("0", "3")),
        corners(("0", "0"), ("1", "0"), ("1", "0"), ("0", "3")),
    ],
    ids=["clockwise", "crossing itself", "corner said twice"],
)
def test_an_outline_that_is_none_is_refused(shape: tuple[tuple[Length, Length], ...]) -> None:
    blank = Blank("card", inch("3"), inch("3"))
    blank.panel("left", Role.WALL, *shape)
    blank.panel("right", Role.WALL, *RIGHT)
    with pytest.raises(FlatError):
        blank.build()


def test_a_score_between_panels_that_do_not_touch_is_refused() -> None:
    blank = Blank("card", inch("3"), inch("3"))
    blank.panel("left", Role.WALL, *LEFT)
    blank.panel("middle", Role.WALL, *corners(("1", "0"), ("2", "0"), ("2", "3"), ("1", "3")))
    blank.panel("right", Role.WALL, *corners(("2", "0"), ("3", "0"), ("3", "3"), ("2", "3")))
    blank.score("left", "right")
    with pytest.raises(FlatError):
        blank.build()


def test_panels_with_nothing_between_them_need_a_snip_as_long_as_they_touch() -> None:
    (finding,) = flat_findings(two_panels().build(), System.INCH)
    assert finding.code == "snip.missing"
    assert finding.amount == inch("3")
    assert set(finding.where) == {"card", "left", "right"}


def test_a_slit_parts_panels_and_takes_nothing_away() -> None:
    blank = two_panels()
    blank.slit("slit", "left", "right")
    piece = blank.build()
    assert flat_findings(piece, System.INCH) == ()
    assert sum(edge.kind is EdgeKind.SLIT for edge in piece.edges) == 1
    assert sum(area(panel.corners) for panel in piece.panels) == inch("3").as_mm ** 2


def test_a_slit_may_take_a_part_of_a_score() -> None:
    """Of a 3 in edge the lowest 1/2 in is slit: the score keeps the other 2 1/2 in."""
    blank = two_panels()
    blank.score("left", "right")
    blank.slit("lock", "left", "right", (corners(("1", "0"))[0], corners(("1", "1/2"))[0]))
    piece = blank.build()
    score = piece.score("left", "right")
    assert {score.start.y, score.end.y} == {inch("1/2").as_mm, inch("3").as_mm}
    (slit,) = (edge for edge in piece.edges if edge.kind is EdgeKind.SLIT)
    assert {piece.vertices[slit.start].y, piece.vertices[slit.end].y} == {0, inch("1/2").as_mm}
    assert [(snip.name, len(snip.corners)) for snip in piece.snips] == [("lock", 2)]
    assert flat_findings(piece, System.INCH) == ()
