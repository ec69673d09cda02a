"""Scoring joined blanks: how many passes it saves, and where it must not be done."""

from __future__ import annotations

from dataclasses import replace

from snipfold.cutting import Axis, Cut, Got, Node, Offcut, Region
from snipfold.measure import ZERO, Length
from snipfold.orders import Gang, Wanted, order_of
from snipfold.orders.gang import joined_rows

from .samples import example, shop, tray
from .stand_in import strips_planner

INCH = Length.inch


def region(x: int, y: int, width: int, height: int) -> Region:
    return Region(INCH(x), INCH(y), INCH(width), INCH(height))


def row(names: str, turned: str = "", height: int = 3) -> Node:
    """Parts of 2 x 3 in side by side: a letter each, "." an offcut; those in `turned` lie so."""
    x, whole = ZERO, INCH(2 * len(names))
    width = whole - x

    def cell(name: str, at: Length) -> Node:
        place = Region(at, ZERO, INCH(2), INCH(height))
        return Offcut(place) if name == "." else Got(place, name, name in turned)

    def rest(left: str, at: Length, width: Length) -> Node:
        if len(left) == 1:
            return cell(left, at)
        whole = Region(at, ZERO, width, INCH(height))
        further = rest(left[1:], at + INCH(2), width - INCH(2))
        return Cut(whole, Axis.ACROSS, INCH(2), cell(left[0], at), further)

    return rest(names, x, width)


def gangs(sets: int, name: str = "fudge-tray", board: Length | None = None) -> tuple[Gang, ...]:
    workshop = shop()
    if board is not None:
        workshop = replace(workshop, board=replace(workshop.board, length=board))
    design = tray() if name == "fudge-tray" else example(name)
    return order_of([Wanted(design, sets)], workshop, planner=strips_planner).gangs


def test_two_equal_blanks_side_by_side_are_a_row() -> None:
    assert list(joined_rows(row("aa"))) == [("a", True, 2)]
    assert list(joined_rows(row("aaa."))) == [("a", True, 3)]


def test_blanks_that_lie_turned_are_joined_along_their_own_height() -> None:
    assert list(joined_rows(row("aa", turned="a"))) == [("a", False, 2)]


def test_different_blanks_and_a_blank_alone_are_no_row() -> None:
    assert list(joined_rows(row("ab"))) == []
    assert list(joined_rows(row("a."))) == []


def test_a_row_inside_a_sheet_is_found() -> None:
    low, high = row("aa"), Offcut(region(0, 3, 4, 3))
    sheet = Cut(region(0, 0, 4, 6), Axis.UP, INCH(3), low, high)
    assert list(joined_rows(sheet)) == [("a", True, 2)]


def test_two_trays_joined_save_a_pass_of_two_lines_for_every_pair() -> None:
    """A tray has two lines each way: of a joined pair those along it are scored once, so 12 trays
    in 6 pairs save 6 passes and 12 lines on the bases and as much on the lids."""
    assert {
        (gang.piece, gang.in_row, gang.rows, gang.saved_passes, gang.saved_lines)
        for gang in gangs(12)
    } == {("base", 2, 6, 6, 12), ("lid", 2, 6, 6, 12)}
    assert {gang.joined for gang in gangs(12)} == {INCH("45/4"), INCH(10)}


def test_a_pair_that_is_longer_than_the_board_is_not_offered() -> None:
    """Two bases are 11 1/4 in long together, two lids 10 in."""
    assert {gang.piece for gang in gangs(12, board=INCH(11))} == {"lid"}
    assert gangs(12, board=INCH(9)) == ()


def test_one_set_alone_has_nothing_to_join() -> None:
    assert gangs(1) == ()
