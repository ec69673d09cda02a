"""How pieces are scored: faces, edges, order, positions and the shift."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from snipfold.findings import Severity
from snipfold.flat import Blank, Face, FlatPiece, Fold, Role
from snipfold.measure import ZERO, Length, Ruler, System
from snipfold.scoring import Move, ScoringPlan, plan_scoring, score_positions, unkindness
from snipfold.styles import STYLES, Given, style_named
from snipfold.workshop import Edge, ScoringBoard

INCH_BOARD = ScoringBoard(Ruler(Length.inch("1/8")), Length.inch(12))
INCH_RULER = Ruler(Length.inch("1/16"))
METRIC_BOARD = ScoringBoard(Ruler(Length.mm(5)), Length.cm(30))
METRIC_RULER = Ruler(Length.mm(1))
GIVEN = {
    System.INCH: Given(System.INCH, Length.inch("1/4")),
    System.METRIC: Given(System.METRIC, Length.mm(6)),
}


def inches(*numbers: str) -> tuple[Length, ...]:
    return tuple(Length.inch(number) for number in numbers)


def built(style: str, system: System, **measures: Length) -> tuple[FlatPiece, ...]:
    chosen = style_named(style)
    complete = chosen.complete(measures, GIVEN[system])
    return chosen.build(complete, GIVEN[system]).pieces


def strip(*widths: str, folds: str = "", height: str = "3") -> FlatPiece:
    """A strip of panels a, b, c … of these widths in inches; `folds` spells m or v a score."""
    edges = [ZERO]
    for width in widths:
        edges.append(edges[-1] + Length.inch(width))
    top = Length.inch(height)
    blank = Blank("strip", edges[-1], top)
    names = "abcdefgh"
    for name, (left, right) in zip(names, pairwise(edges), strict=False):
        blank.panel(name, Role.WALL, (left, ZERO), (right, ZERO), (right, top), (left, top))
    for index in range(len(widths) - 1):
        fold = Fold.VALLEY if folds[index : index + 1] == "v" else Fold.MOUNTAIN
        blank.score(names[index], names[index + 1], fold)
    return blank.build()


def grid(columns: list[Length], rows: list[Length], folds: list[bool]) -> FlatPiece:
    """A checkerboard of panels, every neighbour scored; `folds` in turn say which are valleys."""
    xs, ys = [ZERO], [ZERO]
    for width in columns:
        xs.append(xs[-1] + width)
    for height in rows:
        ys.append(ys[-1] + height)
    blank = Blank("grid", xs[-1], ys[-1])
    for i, (left, right) in enumerate(pairwise(xs)):
        for j, (low, high) in enumerate(pairwise(ys)):
            blank.panel(
                f"{i} {j}", Role.WALL, (left, low), (right, low), (right, high), (left, high)
            )
    turn = 0
    for i in range(len(columns)):
        for j in range(len(rows)):
            for other in ((i + 1, j), (i, j + 1)):
                if other[0] < len(columns) and other[1] < len(rows):
                    fold = Fold.VALLEY if folds[turn % len(folds)] else Fold.MOUNTAIN
                    turn += 1
                    blank.score(f"{i} {j}", f"{other[0]} {other[1]}", fold)
    return blank.build()


_UP = np.array([0.0, 0.0, 1.0])
_PAGE = Rotation.from_euler("y", 180, degrees=True)
_MOVED = {
    Move.STAY: Rotation.identity(),
    Move.QUARTER_LEFT: Rotation.from_euler("z", 90, degrees=True),
    Move.QUARTER_RIGHT: Rotation.from_euler("z", -90, degrees=True),
    Move.HALF: Rotation.from_euler("z", 180, degrees=True),
    Move.OVER_SIDEWAYS: _PAGE,
    Move.OVER_END: Rotation.from_euler("x", 180, degrees=True),
    Move.OVER_QUARTER_LEFT: Rotation.from_euler("z", 90, degrees=True) * _PAGE,
    Move.OVER_QUARTER_RIGHT: Rotation.from_euler("z", -90, degrees=True) * _PAGE,
}


def laid_down(face: Face, fence: Edge) -> Rotation:
    """The rotation that takes an upright blank, outside up, to its first lie: fence edge left."""
    turn_over = Rotation.identity() if face is Face.OUTSIDE else _PAGE
    outward = {
        Edge.LEFT: (-1.0, 0.0, 0.0),
        Edge.RIGHT: (1.0, 0.0, 0.0),
        Edge.BOTTOM: (0.0, -1.0, 0.0),
        Edge.TOP: (0.0, 1.0, 0.0),
    }[fence]
    x, y, _ = turn_over.apply(outward)
    return Rotation.from_euler("z", np.pi - np.arctan2(y, x)) * turn_over


def follow(piece: FlatPiece, plan: ScoringPlan) -> None:
    """Move a blank in space as the plan says, and measure every line from the fence.

    A general-purpose library turns the blank in space (scipy's Rotation). The fence is a wall at
    the left: whatever of the blank is leftmost lies against it.
    """
    width, height = piece.width.float_mm, piece.height.float_mm
    rim = np.array([(0, 0, 0), (width, 0, 0), (width, height, 0), (0, height, 0)], dtype=float)
    edges = {
        Edge.BOTTOM: rim[[0, 1]],
        Edge.RIGHT: rim[[1, 2]],
        Edge.TOP: rim[[2, 3]],
        Edge.LEFT: rim[[3, 0]],
    }
    lies = Rotation.identity()
    scored: list[tuple[str, str]] = []
    for number, each in enumerate(plan.passes):
        if number == 0:
            assert each.move is Move.START
            lies = laid_down(each.face_up, each.fence)
        else:
            lies = _MOVED[each.move] * lies
        fence = lies.apply(rim)[:, 0].min()
        up = lies.apply(_UP)[2]
        assert up == pytest.approx(1 if each.face_up is Face.OUTSIDE else -1)
        assert lies.apply(edges[each.fence])[:, 0] == pytest.approx(fence, abs=1e-9)
        for line in each.lines:
            assert each.face_up is (Face.OUTSIDE if line.fold is Fold.MOUNTAIN else Face.INSIDE), (
                "the bead goes inside the fold"
            )
            for pair in line.panels:
                score = piece.score(*pair)
                assert score.fold is line.fold
                ends = np.array([(*map(float, end), 0.0) for end in (score.start, score.end)])
                from_fence = lies.apply(ends)[:, 0] - fence
                assert from_fence == pytest.approx(line.position.float_mm, abs=1e-9)
                scored.append(score.panels)
            if each.shift is not None:
                assert line.shifted == line.ruled + each.shift
    along_a_ruler = [score.panels for score in plan.slanting]
    assert sorted(scored + along_a_ruler) == sorted(score.panels for score in piece.scores)


def pieces(system: System) -> st.SearchStrategy[FlatPiece]:
    """Pieces of every style with measures on whole marks."""
    mark = INCH_RULER.graduation if system is System.INCH else METRIC_RULER.graduation

    @st.composite
    def drawn(draw: st.DrawFn) -> FlatPiece:
        style = draw(st.sampled_from(STYLES))
        measures: dict[str, Length] = {}
        for measure in style.measures[:3]:
            least = measure.least(measures, GIVEN[system])
            marks = draw(st.integers(0, 100))
            measures[measure.name] = least + mark * marks
        complete = style.complete(measures, GIVEN[system])
        for measure in style.measures:
            complete[measure.name] = min(
                max(complete[measure.name], measure.least(complete, GIVEN[system])),
                measure.most(complete, GIVEN[system]),
            )
        return draw(st.sampled_from(style.build(complete, GIVEN[system]).pieces))

    return drawn()


@pytest.mark.parametrize("system", System)
def test_following_the_plan_by_hand_scores_every_line_where_it_belongs(system: System) -> None:
    board, ruler = (
        (INCH_BOARD, INCH_RULER) if system is System.INCH else (METRIC_BOARD, METRIC_RULER)
    )

    @settings(max_examples=60, deadline=None)
    @given(pieces(system))
    def holds(piece: FlatPiece) -> None:
        follow(piece, plan_scoring(piece, board, ruler, system))

    holds()


_widths = st.lists(
    st.integers(1, 200).map(lambda n: Length.inch(Fraction(n, 32))), min_size=1, max_size=4
)


@settings(max_examples=120, deadline=None)
@given(_widths, _widths, st.lists(st.booleans(), min_size=1, max_size=7), st.integers(2, 24))
def test_following_the_plan_holds_for_any_mix_of_folds_and_any_board(
    columns: list[Length], rows: list[Length], folds: list[bool], board: int
) -> None:
    piece = grid(columns, rows, folds)
    small = ScoringBoard(INCH_BOARD.grooves, Length.inch(Fraction(board, 2)))
    plan = plan_scoring(piece, small, INCH_RULER, System.INCH)
    follow(piece, plan)
    reached = [line.position <= small.length for each in plan.passes for line in each.lines]
    too_far = sum(finding.code == "scoring.board-too-short" for finding in plan.findings)
    assert too_far == reached.count(False)
    for each in plan.passes:
        if each.shift is not None:
            assert each.shift > ZERO, "the fence is in the way of moving back"
            assert each.lines[-1].shifted is not None
            assert each.lines[-1].shifted <= small.length


@settings(max_examples=60, deadline=None)
@given(pieces(System.INCH))
def test_a_shift_is_only_proposed_when_it_gains(piece: FlatPiece) -> None:
    for each in plan_scoring(piece, INCH_BOARD, INCH_RULER, System.INCH).passes:
        if each.shift is None:
            continue
        first, *rest = each.lines
        assert first.shifted is not None
        assert rest
        plain = (
            sum(not line.groove for line in rest),
            sum(unkindness(line.ruled, System.INCH) for line in rest),
        )
        moved = (
            sum(not line.shifted_groove for line in rest),
            sum(unkindness(line.shifted or ZERO, System.INCH) for line in each.lines),
        )
        assert moved < plain


def test_a_wrap_bag_is_scored_at_its_walls_from_the_tab_end() -> None:
    """Common practice, no source: 4 x 1 x 4 in bag, 1/2 in tab."""
    (bag,) = built(
        "wrap bag",
        System.INCH,
        width=Length.inch(4),
        depth=Length.inch(1),
        height=Length.inch(4),
        tab=Length.inch("1/2"),
    )
    positions = score_positions(bag)
    assert positions[Edge.LEFT] == inches("1/2", "3/2", "11/2", "13/2")
    assert positions[Edge.BOTTOM] == inches("1")
    plan = plan_scoring(bag, INCH_BOARD, INCH_RULER, System.INCH)
    assert (plan.turns, plan.flips, plan.findings) == (1, 0, ())
    walls, bottom = plan.passes
    # From the other end the same four lines are whole numbers, which are easier to read.
    assert walls.fence is Edge.RIGHT
    assert [bag.width - line.position for line in walls.lines] == list(
        inches("13/2", "11/2", "3/2", "1/2")
    )
    assert [line.position for line in bottom.lines] == list(inches("1"))
    assert bottom.fence is Edge.BOTTOM


def test_a_published_metric_tray_is_scored_at_its_wall_height() -> None:
    """12 x 12 x 4.5 cm: 21 cm sheet scored at 4.5 (stampinmoments.com, November 2008).

    Its lid, 2.5 mm larger: 17.25 cm sheet scored at 2.5 from each edge. From one edge alone two of
    its scores would lie at 14.75 cm, which a 1 mm ruler does not show, so every edge comes to the
    fence, a quarter turn each time.
    """
    base, lid = built(
        "tray with lift-off lid",
        System.METRIC,
        width=Length.cm(12),
        depth=Length.cm(12),
        height=Length.cm("4.5"),
        lid_height=Length.cm("2.5"),
        clearance=Length.cm("0.25"),
    )
    assert (base.width, base.height) == (Length.cm(21), Length.cm(21))
    assert (lid.width, lid.height) == (Length.cm("17.25"), Length.cm("17.25"))
    plan = plan_scoring(base, METRIC_BOARD, METRIC_RULER, System.METRIC)
    assert [each.lines[0].position for each in plan.passes] == [Length.cm("4.5")] * 2
    assert [each.lines[1].position for each in plan.passes] == [Length.cm("16.5")] * 2
    assert plan.findings == ()
    plan = plan_scoring(lid, METRIC_BOARD, METRIC_RULER, System.METRIC)
    assert [line.position for each in plan.passes for line in each.lines] == [Length.cm("2.5")] * 4
    assert {each.move for each in plan.passes[1:]} == {Move.QUARTER_RIGHT}
    assert plan.findings == ()


@pytest.mark.parametrize(
    ("width", "depth", "height", "sheet", "score"),
    [
        # cathyscraftroom.blogspot.com, February 2010: 4 1/2 x 5 3/4 x 1 from 6 1/2 x 7 3/4.
        ("9/2", "23/4", "1", ("13/2", "31/4"), "1"),
        # catherinepooler.com, March 2013: 1 1/8 x 3 1/2 x 1 from 3 1/8 x 5 1/2.
        ("9/8", "7/2", "1", ("25/8", "11/2"), "1"),
    ],
)
def test_published_inch_trays_are_scored_at_their_wall_height(
    width: str, depth: str, height: str, sheet: tuple[str, str], score: str
) -> None:
    base, _ = built(
        "tray with lift-off lid",
        System.INCH,
        width=Length.inch(width),
        depth=Length.inch(depth),
        height=Length.inch(height),
    )
    assert (base.width, base.height) == inches(*sheet)
    for positions in score_positions(base).values():
        assert positions[0] == Length.inch(score)
    plan = plan_scoring(base, INCH_BOARD, INCH_RULER, System.INCH)
    assert [each.lines[0].position for each in plan.passes] == [Length.inch(score)] * 2


def test_whole_numbers_are_had_by_moving_the_piece_after_the_first_score() -> None:
    piece = strip("1/2", "1", "4", "5/4")
    (each,) = plan_scoring(piece, INCH_BOARD, INCH_RULER, System.INCH).passes
    assert [line.position for line in each.lines] == list(inches("1/2", "3/2", "11/2"))
    assert each.shift == Length.inch("1/2")
    assert [line.shifted for line in each.lines] == list(inches("1", "2", "6"))


def test_a_shift_never_moves_a_line_off_the_board() -> None:
    """Lines at 1/2, 1 1/2 and 5 1/2 in: the whole numbers at 1, 2 and 6 need a board of 6 in."""
    piece = strip("1/2", "1", "4", "5/4")
    for length, shift in (("6", Length.inch("1/2")), ("23/4", None)):
        board = ScoringBoard(INCH_BOARD.grooves, Length.inch(length))
        (each,) = plan_scoring(piece, board, INCH_RULER, System.INCH).passes
        assert (each.fence, each.shift) == (Edge.LEFT, shift)


def test_a_line_off_the_grooves_is_shifted_onto_one() -> None:
    """The published trick: set the sheet off and score at a groove (paperolio, May 2010)."""
    piece = strip("1/2", "25/16", "11/4", "19/16")
    plan = plan_scoring(piece, INCH_BOARD, INCH_RULER, System.INCH)
    (each,) = plan.passes
    first, *rest = each.lines
    assert not all(line.groove for line in rest)
    assert first.groove
    assert each.shift is not None
    assert all(line.shifted_groove for line in rest)


def test_a_position_off_the_grooves_gives_one_finding_with_its_distance_and_the_shift() -> None:
    piece = strip("1/2", "25/16", "47/16", "2")  # 1/2, 2 1/16, 5 from the left; 2, 4 15/16, 6 1/2
    plan = plan_scoring(piece, INCH_BOARD, INCH_RULER, System.INCH)
    (finding,) = plan.findings
    assert finding.code == "score.off-groove"
    assert finding.severity is Severity.NOTE
    assert finding.where == ("strip", "b", "c")
    assert finding.amount == Length.inch("1/16")


def test_a_position_on_no_mark_gives_one_finding_naming_the_nearest_mark() -> None:
    piece = strip("33/32", "65/32")
    plan = plan_scoring(piece, INCH_BOARD, INCH_RULER, System.INCH)
    (finding,) = plan.findings
    assert finding.code == "score.off-ruler"
    assert finding.severity is Severity.CAUTION
    assert finding.where == ("strip", "a", "b")
    assert finding.amount == Length.inch("1/32")
    assert "1 1/16 in" in finding.says
    ((line,),) = (each.lines for each in plan.passes)
    assert (line.position, line.ruled) == inches("33/32", "17/16")


def test_a_mark_is_worth_a_turn() -> None:
    """1 1/32 in is on no mark, but from the other edge the line lies at 3 in."""
    piece = strip("33/32", "3")
    plan = plan_scoring(piece, INCH_BOARD, INCH_RULER, System.INCH)
    assert [(each.fence, each.lines[0].position) for each in plan.passes] == [
        (Edge.RIGHT, Length.inch(3))
    ]
    assert plan.findings == ()


def test_a_line_beyond_the_board_is_scored_from_the_other_edge() -> None:
    board = ScoringBoard(INCH_BOARD.grooves, Length.inch(6))
    plan = plan_scoring(strip("2", "8", "2"), board, INCH_RULER, System.INCH)
    assert [(each.fence, each.move) for each in plan.passes] == [
        (Edge.LEFT, Move.START),
        (Edge.RIGHT, Move.HALF),
    ]
    assert all(line.position == Length.inch(2) for each in plan.passes for line in each.lines)
    assert plan.findings == ()


def test_a_line_that_no_edge_brings_onto_the_board_says_by_how_much() -> None:
    board = ScoringBoard(INCH_BOARD.grooves, Length.inch(6))
    plan = plan_scoring(strip("7", "15/2"), board, INCH_RULER, System.INCH)
    (finding,) = plan.findings
    assert finding.code == "scoring.board-too-short"
    assert finding.severity is Severity.ERROR
    assert finding.where == ("strip", "a", "b")
    assert finding.amount == Length.inch(1)


def test_a_mountain_is_scored_from_outside_and_a_valley_from_inside_mirrored() -> None:
    plan = plan_scoring(strip("1", "2", "4", folds="mv"), INCH_BOARD, INCH_RULER, System.INCH)
    outside, inside = plan.passes
    assert (outside.face_up, outside.fence, outside.lines[0].position) == (
        Face.OUTSIDE,
        Edge.LEFT,
        Length.inch(1),
    )
    assert (inside.face_up, inside.fence, inside.lines[0].position) == (
        Face.INSIDE,
        Edge.LEFT,
        Length.inch(3),
    )
    # The left edge stays at the fence, so the piece goes over top to bottom.
    assert inside.move is Move.OVER_END
    assert (plan.turns, plan.flips) == (0, 1)


def test_the_flip_happens_where_no_turn_is_needed_with_it() -> None:
    mark = INCH_BOARD.grooves.graduation * 8
    # Rows part as mountains and valleys, columns as mountains only: scores across are flipped.
    blank = Blank("cross", mark * 3, mark * 4)
    for j in range(3):
        low, high = mark * j, mark * (j + 1 + (j == 2))
        blank.panel(f"{j}", Role.WALL, (ZERO, low), (mark * 2, low), (mark * 2, high), (ZERO, high))
    blank.panel(
        "end", Role.WALL, (mark * 2, ZERO), (mark * 3, ZERO), (mark * 3, mark * 4),
        (mark * 2, mark * 4),
    )  # fmt: skip
    blank.score("0", "1", Fold.MOUNTAIN)
    blank.score("1", "2", Fold.VALLEY)
    blank.score("1", "end", Fold.MOUNTAIN)
    blank.slit("low", "0", "end")
    blank.slit("high", "2", "end")
    piece = blank.build()
    plan = plan_scoring(piece, INCH_BOARD, INCH_RULER, System.INCH)
    follow(piece, plan)
    assert (plan.turns, plan.flips, len(plan.passes)) == (1, 1, 3)
    # Scored from edge to edge, the lines across would run on into the end panel.
    assert {f.code for f in plan.findings} == {"score.stops-short"}


def test_turning_over_and_turning_is_one_move_where_both_are_needed() -> None:
    one = Length.inch(1)
    blank = Blank("tee", one * 3, one * 3)
    blank.panel("left", Role.WALL, (ZERO, ZERO), (one, ZERO), (one, one * 3), (ZERO, one * 3))
    blank.panel("low", Role.WALL, (one, ZERO), (one * 3, ZERO), (one * 3, one), (one, one))
    blank.panel("high", Role.WALL, (one, one), (one * 3, one), (one * 3, one * 3), (one, one * 3))
    blank.score("left", "low", Fold.MOUNTAIN)
    blank.score("left", "high", Fold.MOUNTAIN)
    blank.score("low", "high", Fold.VALLEY)
    piece = blank.build()
    plan = plan_scoring(piece, INCH_BOARD, INCH_RULER, System.INCH)
    follow(piece, plan)
    assert plan.passes[1].move in (Move.OVER_QUARTER_LEFT, Move.OVER_QUARTER_RIGHT)
    assert (plan.turns, plan.flips) == (1, 1)


def test_scores_in_one_straight_run_are_one_line() -> None:
    (bag,) = built("wrap bag", System.INCH)
    plan = plan_scoring(bag, INCH_BOARD, INCH_RULER, System.INCH)
    _, bottom = plan.passes
    (line,) = bottom.lines
    assert {frozenset(pair) for pair in line.panels} == {
        frozenset(("left side", "left flap")),
        frozenset(("front", "front flap")),
        frozenset(("right side", "right flap")),
        frozenset(("back", "back flap")),
    }


def test_a_slanting_score_is_marked_and_ruled() -> None:
    one = Length.inch(1)
    blank = Blank("kite", one * 2, one * 2)
    blank.panel("low", Role.WALL, (ZERO, ZERO), (one * 2, ZERO), (one * 2, one * 2))
    blank.panel("high", Role.WALL, (ZERO, ZERO), (one * 2, one * 2), (ZERO, one * 2))
    blank.score("low", "high", Fold.VALLEY)
    plan = plan_scoring(blank.build(), INCH_BOARD, INCH_RULER, System.INCH)
    assert plan.passes == ()
    (score,) = plan.slanting
    assert score.joins("low", "high")
    (finding,) = plan.findings
    assert (finding.code, finding.severity) == ("score.slanting", Severity.NOTE)
    assert "inside face up" in finding.advice


def test_coarser_marks_are_kinder() -> None:
    halvings = ["3", "7/2", "15/4", "31/8", "63/16", "127/32"]
    found = [unkindness(Length.inch(number), System.INCH) for number in halvings]
    assert found == sorted(set(found))
    metric = [unkindness(Length.mm(number), System.METRIC) for number in ("40", "45", "46", "46.5")]
    assert metric == sorted(set(metric))
    assert unkindness(Length.mm(1), System.INCH) > max(found)
