"""Mats, straps and adhesive: where they go, how large they are, and what is found when they don't."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import MultiPoint, Polygon

from snipfold.dressing import (
    COVER_STAGE,
    MAT_STAGE,
    TAPE_STAGE,
    Dressing,
    Mat,
    MatWish,
    StrapWish,
    adhesive_findings,
    check_dressing,
    dress,
    least_free,
    mat_run,
    panel_key,
)
from snipfold.findings import Finding, Mend, Severity
from snipfold.flat import Face, Point
from snipfold.folding import Treat, closed
from snipfold.measure import ZERO, Length, Ruler, System
from snipfold.styles import STYLES, Construction, Given, style_named
from snipfold.workshop import Adhesive, AdhesiveKind

RULER = Ruler(Length.inch("1/16"))
TAPE = Adhesive("tape", AdhesiveKind.TAPE, Length.inch("1/4"), Length.mm("0.1"))
FINE = Adhesive("fine tape", AdhesiveKind.TAPE, Length.inch("1/8"), Length.mm("0.1"))
GIVEN = Given(System.INCH, TAPE.width)
TRAY = "tray with lift-off lid"
BAG = "wrap bag"


def inch(number: str | int | Fraction) -> Length:
    return Length.inch(number)


def mats(
    border: str = "1/16",
    *,
    on: bool = True,
    borders: Mapping[str, Length] | None = None,
    off: tuple[str, ...] = (),
    also: tuple[str, ...] = (),
) -> MatWish:
    return MatWish(on, inch(border), borders or {}, frozenset(off), frozenset(also))


def strap(
    width: str = "3/4", opening: str = "5/2", foot: str = "1", length: Length | None = None
) -> StrapWish:
    return StrapWish(True, inch(width), inch(opening), inch(foot), length)


NO_STRAP = replace(strap(), on=False)


def worked(style: str, **measures: Length) -> tuple[Mapping[str, Length], Construction]:
    complete = style_named(style).complete(measures, GIVEN)
    return complete, style_named(style).build(complete, GIVEN)


def dressed(
    construction: Construction,
    mat_wish: MatWish | None = None,
    strap_wish: StrapWish | None = None,
    treats: tuple[Treat, ...] = (),
    sheet: Length | None = None,
) -> Dressing:
    return dress(
        construction,
        closed(construction),
        mat_wish or mats(),
        strap_wish or NO_STRAP,
        treats,
        TAPE,
        FINE,
        RULER,
        System.INCH,
        sheet,
    )


def checked(
    measures: Mapping[str, Length], construction: Construction, dressing: Dressing
) -> tuple[Finding, ...]:
    return check_dressing(construction, dressing, measures, TAPE, RULER, System.INCH)


def mat_on(dressing: Dressing, panel: str, piece: str = "") -> Mat:
    (mat,) = (m for m in dressing.mats if m.panel == panel and piece in ("", m.piece))
    return mat


@st.composite
def boxes(draw: st.DrawFn) -> tuple[Mapping[str, Length], Construction]:
    """Boxes of every style with measures on sixteenths."""
    style = draw(st.sampled_from(STYLES))
    measures: dict[str, Length] = {}
    for measure in style.measures[:3]:
        marks = draw(st.integers(4, 120))
        measures[measure.name] = measure.least(measures, GIVEN) + RULER.graduation * marks
    complete = style.complete(measures, GIVEN)
    for measure in style.measures:
        complete[measure.name] = min(
            max(complete[measure.name], measure.least(complete, GIVEN)),
            measure.most(complete, GIVEN),
        )
    return complete, style.build(complete, GIVEN)


# Mats.


@pytest.mark.parametrize(
    ("panel", "border", "mat"),
    [
        # stampingimperfection.com, "Stamping 101: how to create card layers": a panel of
        # 4 1/4 x 5 1/2 with 1/8 in showing on each side, and with 1/16 in.
        (("17/4", "11/2"), "1/8", ("4", "21/4")),
        (("17/4", "11/2"), "1/16", ("33/8", "43/8")),
        # ourpastimes.com, scrapbooking paper sizes: 1/4 in on each side.
        (("9/2", "13/2"), "1/4", ("4", "6")),
        (("11/2", "15/2"), "1/4", ("5", "7")),
    ],
)
def test_published_mats_leave_their_border_on_each_side(
    panel: tuple[str, str], border: str, mat: tuple[str, str]
) -> None:
    _, box = worked(TRAY, width=inch(panel[0]), depth=inch(panel[1]))
    made = mat_on(dressed(box, mats(border, also=("floor",))), "floor")
    assert (made.width, made.height) == (inch(mat[0]), inch(mat[1]))


def test_a_border_is_known_on_each_side_and_in_total() -> None:
    """Many makers mean both borders together when they say "a 1/4 in mat".

    Source: stampingmadly.com, September 2012, "Mats and layers in paper crafting".
    """
    _, box = worked(TRAY)
    made = mat_on(dressed(box, mats("1/8")), "top")
    assert (made.border, made.border_total) == (inch("1/8"), inch("1/4"))
    outline = box.piece("lid").panel("top").corners
    panel_width = Length.mm(max(p.x for p in outline) - min(p.x for p in outline))
    assert panel_width - made.width == made.border_total


def test_mats_go_where_the_finished_box_shows() -> None:
    _, bag = worked(BAG)
    assert {m.panel for m in dressed(bag).mats} == {"left side", "front", "right side", "back"}
    _, tray = worked(TRAY)
    on_tray = {(m.piece, m.panel) for m in dressed(tray).mats}
    walls = {f"{side} wall" for side in ("front", "back", "left", "right")}
    assert on_tray == {
        *(("base", wall) for wall in walls),
        *(("lid", wall) for wall in walls),
        ("lid", "top"),
    }


def test_panels_can_be_left_bare_or_the_underside_covered() -> None:
    _, tray = worked(TRAY)
    made = dressed(tray, mats(off=("top", "base front wall"), also=("floor",)))
    names = {panel_key(tray, m.piece, m.panel) for m in made.mats}
    assert "floor" in names
    assert "lid front wall" in names
    assert not names & {"top", "base front wall"}


def test_a_panel_may_have_a_border_of_its_own() -> None:
    _, bag = worked(BAG, width=inch(4), height=inch(5))
    made = dressed(bag, mats("1/8", borders={"front": inch("1/2")}))
    front = mat_on(made, "front")
    assert (front.border, front.width, front.height) == (inch("1/2"), inch(3), inch(4))
    assert mat_on(made, "back").border == inch("1/8")


def test_a_mat_is_measured_as_its_panel_stands() -> None:
    """A side wall of a tray lies along the blank upright, and stands lying down."""
    _, tray = worked(TRAY, width=inch(5), depth=inch(3), height=inch(1))
    for wall in ("left wall", "right wall"):
        mat = mat_on(dressed(tray, mats("1/8")), wall, "base")
        assert (mat.width, mat.height) == (inch("11/4"), inch("3/4"))


@settings(max_examples=60, deadline=None)
@given(boxes(), st.integers(1, 8))
def test_every_mat_lies_inside_its_panel_and_off_all_glue(
    box: tuple[Mapping[str, Length], Construction], marks: int
) -> None:
    measures, construction = box
    wish = mats(str(Fraction(marks, 16)), also=("back flap", "front flap"))
    if construction.handle is None:
        wish = replace(wish, also=frozenset())
    made = dressed(construction, wish)
    for mat in made.mats:
        piece = construction.piece(mat.piece)
        lies = Polygon(mat.corners)
        assert lies.exterior.is_ccw
        panel = Polygon(piece.panel(mat.panel).corners)
        assert panel.contains(lies)
        assert panel.exterior.distance(lies) == pytest.approx(mat.border.float_mm)
        for glue in piece.glue:
            if glue.panel == mat.panel and glue.face is mat.face:
                assert lies.intersection(Polygon(glue.corners)).area == pytest.approx(0)
        assert lies.area == pytest.approx(mat.width.float_mm * mat.height.float_mm)
    found = checked(measures, construction, made)
    assert not [f for f in found if f.code in ("mat.over-score", "mat.over-glue", "mat.no-border")]


def test_a_mat_keeps_off_glue_on_its_panel_and_says_so() -> None:
    """Tape on the back flap: 1/4 in wide, a quarter of that (1/16 in) from its free edge."""
    _, bag = worked(BAG, depth=inch("3/2"), flap=inch("3/2"))
    made = dressed(bag, mats("1/8", also=("back flap",)))
    (finding,) = made.findings
    assert (finding.code, finding.where) == ("mat.shortened", ("bag", "back flap"))
    # 1 1/4 in of mat would begin 1/8 in from the free edge; it begins beyond the tape, at 5/16.
    assert finding.amount == inch("3/16")
    assert mat_on(made, "back flap").height == inch("17/16")


def test_a_border_too_wide_for_its_panel_says_by_how_much() -> None:
    """A side 1 in across keeps at least 1/4 in of mat, so its border can be 3/8 in at most."""
    _, bag = worked(BAG, depth=inch(1), width=inch(4), height=inch(5))
    made = dressed(bag, mats("1/2"))
    assert {m.panel for m in made.mats} == {"front", "back"}
    first, second = made.findings
    assert {first.where, second.where} == {("bag", "left side"), ("bag", "right side")}
    for finding in (first, second):
        assert (finding.code, finding.severity) == ("mat.no-room", Severity.ERROR)
        assert finding.amount == inch("1/8")
        assert finding.mend == Mend("mats.border", "1/2 in", "3/8 in")
    own = dressed(bag, mats("1/8", borders={"left side": inch("1/2")}))
    (finding,) = own.findings
    assert finding.mend == Mend("mats.borders.left side", "1/2 in", "3/8 in")


def test_a_panel_that_is_not_there_is_answered_with_the_nearest_name() -> None:
    _, bag = worked(BAG)
    (finding,) = dressed(bag, mats(off=("frunt",))).findings
    assert finding.code == "mat.unknown-panel"
    assert finding.advice == "write front"


@pytest.mark.parametrize("over", ["1/16", "1/8", "3/16"])
def test_a_mat_over_a_score_gives_one_finding_and_its_amount(over: str) -> None:
    measures, bag = worked(BAG)
    made = dressed(bag)
    slid = (inch(over) + inch("1/16")).as_mm
    spoilt = replace(
        made,
        mats=tuple(
            replace(mat, corners=tuple(Point(p.x, p.y - slid) for p in mat.corners))
            if mat.panel == "back"
            else mat
            for mat in made.mats
        ),
    )
    assert checked(measures, bag, made) == ()
    (finding,) = checked(measures, bag, spoilt)
    assert (finding.code, finding.severity) == ("mat.over-score", Severity.ERROR)
    assert finding.where == ("bag", "back")
    assert finding.amount == inch(over)
    assert finding.mend is not None
    assert finding.mend.field == "mats.border"


def test_a_mat_cut_too_large_lies_over_the_scores_beside_it() -> None:
    """A front 4 in wide, its mat cut 4 1/4 in wide: 1/8 in over on either side."""
    measures, bag = worked(BAG, width=inch(4))
    made = dressed(bag)
    spoilt = replace(
        made,
        mats=tuple(
            replace(mat, width=inch("17/4")) if mat.panel == "front" else mat for mat in made.mats
        ),
    )
    (finding,) = checked(measures, bag, spoilt)
    assert (finding.code, finding.amount) == ("mat.over-score", inch("1/8"))


def test_a_border_below_zero_is_mended_by_the_least_border() -> None:
    measures, bag = worked(BAG)
    made = dressed(bag, mats("-1/8", off=("left side", "right side", "back")))
    (finding,) = checked(measures, bag, made)
    assert (finding.code, finding.amount) == ("mat.over-score", inch("1/8"))
    assert finding.mend == Mend("mats.border", "-1/8 in", "1/16 in")
    assert checked(measures, bag, dressed(bag, mats("1/16"))) == ()


def test_a_mat_that_ends_on_a_score_is_a_caution() -> None:
    measures, bag = worked(BAG)
    (finding,) = checked(
        measures, bag, dressed(bag, mats("0", off=("left side", "right side", "back")))
    )
    assert (finding.code, finding.severity) == ("mat.no-border", Severity.CAUTION)
    assert finding.mend == Mend("mats.border", "0 in", "1/16 in")


def test_a_mat_over_glue_gives_one_finding_and_how_far_it_must_draw_back() -> None:
    """The whole back flap less 1/8 in: the tape, 1/16 to 5/16 in from the free edge, is covered."""
    measures, bag = worked(BAG, depth=inch("3/2"), flap=inch("3/2"))
    made = dressed(bag, mats("1/8", also=("back flap",)))
    mat = mat_on(made, "back flap")
    low = inch("1/8").as_mm
    left, right = (edge(p.x for p in mat.corners) for edge in (min, max))
    high = max(p.y for p in mat.corners)
    whole = replace(
        mat,
        corners=(Point(left, low), Point(right, low), Point(right, high), Point(left, high)),
        height=inch("5/4"),
    )
    spoilt = replace(made, mats=tuple(whole if m is mat else m for m in made.mats))
    assert checked(measures, bag, made) == ()
    (finding,) = checked(measures, bag, spoilt)
    assert (finding.code, finding.severity) == ("mat.over-glue", Severity.ERROR)
    assert finding.where == ("bag", "back flap")
    assert finding.amount == inch("3/16")
    assert finding.mend is not None
    assert finding.mend.now == "1/8 in"
    assert finding.mend.to == "5/16 in"


# Straps.


def hull_length(span: float, opening: float, rise: float) -> float:
    """The hull of both feet, the treats' block and a circle on top, less the rim: by shapely."""
    half = span / 2
    circle = shapely.Point(0, rise + opening / 2).buffer(opening / 2, quad_segs=4000)
    corners = MultiPoint([(-half, 0), (half, 0), (-half, rise), (half, rise)])
    return float(shapely.union_all([corners, circle]).convex_hull.length - span)


@settings(max_examples=60, deadline=None)
@given(st.floats(10, 400), st.floats(1, 400), st.floats(0, 200))
def test_a_strap_follows_the_hull_of_circle_treats_and_feet(
    span: float, opening: float, rise: float
) -> None:
    free = least_free(Length.figure(span), Length.figure(opening), Length.figure(rise))
    # A circle drawn with 16000 straight sides is shorter than a round one by under 1e-8 of it.
    assert free.float_mm == pytest.approx(hull_length(span, opening, rise), rel=1e-6, abs=1e-5)


def test_a_circle_as_wide_as_the_span_takes_the_span_and_a_half_circle() -> None:
    """With d = s, atan(1) is an eighth of a turn: s + pi d / 2."""
    free = least_free(Length.mm(100), Length.mm(100))
    assert free.float_mm == pytest.approx(100 + 100 * 3.14159265358979 / 2, abs=1e-6)


def test_no_opening_needs_no_more_than_the_span() -> None:
    assert least_free(inch(4), ZERO) == inch(4)


@settings(max_examples=60, deadline=None)
@given(st.integers(20, 300), st.integers(0, 300), st.integers(1, 50), st.integers(0, 50))
def test_a_larger_opening_or_taller_treats_take_a_longer_strap(
    span: int, opening: int, more: int, rise: int
) -> None:
    s, d, p = Length.mm(span), Length.mm(opening), Length.mm(rise)
    free = least_free(s, d, p)
    assert least_free(s, d + Length.mm(more), p) > free
    taller = least_free(s, d, p + Length.mm(more))
    assert free < taller <= free + Length.mm(2 * more)
    if d <= s:
        assert taller == free + Length.mm(2 * more)
        assert least_free(s + Length.mm(more), d, p) > free


@settings(max_examples=40, deadline=None)
@given(boxes(), st.integers(0, 160), st.integers(4, 16), st.integers(0, 24))
def test_a_strap_is_its_free_length_and_two_feet_on_a_mark_and_long_enough(
    box: tuple[Mapping[str, Length], Construction], opening: int, foot: int, rise: int
) -> None:
    measures, construction = box
    wish = strap(opening=str(Fraction(opening, 16)), foot=str(Fraction(foot, 16)))
    stick = Treat("stick", inch(1), inch(1), inch(1), ZERO, RULER.graduation * rise)
    whole = dressed(construction, mats(on=False), wish, (stick,))
    made = whole.strap
    if construction.handle is None:
        assert made is None
        return
    assert made is not None
    assert "strap.too-short" not in {f.code for f in checked(measures, construction, whole)}
    assert made.length == made.free + made.foot * 2
    assert RULER.has(made.length)
    assert made.free >= made.least_free
    assert made.free - made.least_free < RULER.graduation
    assert made.span == measures["width"]


def test_treats_that_stand_proud_raise_the_strap_at_both_ends() -> None:
    _, bag = worked(BAG)
    stick = Treat("stick", inch(1), inch(1), inch(6), ZERO, inch("3/4"))
    low = dressed(bag, strap_wish=strap()).strap
    high = dressed(bag, strap_wish=strap(), treats=(stick,)).strap
    assert low is not None
    assert high is not None
    assert (low.rise, high.rise) == (ZERO, inch("3/4"))
    assert high.length - low.length == inch("3/2")


def test_paper_on_the_outside_of_both_walls_lengthens_the_span() -> None:
    _, bag = worked(BAG, width=inch(4))
    made = dress(
        bag, closed(bag), mats(), strap(), (), TAPE, FINE, RULER, System.INCH, None,
        thickness=Length.mm("0.3"),
    ).strap  # fmt: skip
    assert made is not None
    assert made.span == inch(4) + Length.mm("0.3")


def test_a_strap_too_short_for_its_opening_gives_one_finding_and_its_shortfall() -> None:
    """Span and circle both 4 in: 4 + 2 x 4 x pi/4 free, and two feet of 1 in: 12.283 in."""
    measures, bag = worked(BAG, width=inch(4))
    made = dressed(bag, strap_wish=strap(opening="4", length=inch(12)))
    assert made.findings == ()
    (finding,) = checked(measures, bag, made)
    assert (finding.code, finding.severity) == ("strap.too-short", Severity.ERROR)
    assert finding.amount is not None
    assert finding.amount.float_mm == pytest.approx((6 + 6.283185307 - 12) * 25.4, abs=1e-5)
    assert finding.mend == Mend("strap.length", "12 in", "12 5/16 in")
    mended = dressed(bag, strap_wish=strap(opening="4", length=inch("197/16")))
    assert (mended.findings, checked(measures, bag, mended)) == ((), ())


def test_a_strap_shortened_by_hand_is_found_too() -> None:
    measures, bag = worked(BAG)
    made = dressed(bag, strap_wish=strap())
    assert made.strap is not None
    spoilt = replace(made, strap=replace(made.strap, length=made.strap.length - inch("1/2")))
    (finding,) = checked(measures, bag, spoilt)
    needed = made.strap.least_free + made.strap.foot * 2
    assert (finding.code, finding.amount) == (
        "strap.too-short",
        needed - made.strap.length + inch("1/2"),
    )


def test_a_longer_strip_is_trimmed() -> None:
    measures, bag = worked(BAG)
    right = dressed(bag, strap_wish=strap()).strap
    assert right is not None
    made = dressed(bag, strap_wish=strap(length=right.length + inch(2)))
    assert made.strap is not None
    assert (made.strap.trim, made.strap.free) == (inch(2), right.free)
    (finding,) = made.findings
    assert (finding.code, finding.amount) == ("strap.trimmed", inch(2))
    assert checked(measures, bag, made) == ()


def test_a_sheet_too_short_for_the_strap_says_so_and_how_wide_it_could_open() -> None:
    _, bag = worked(BAG, width=inch(4))
    made = dressed(bag, strap_wish=strap(opening="4"), sheet=inch(12))
    (finding,) = made.findings
    assert (finding.code, finding.amount) == ("strap.sheet-too-short", inch("5/16"))
    assert finding.mend is not None
    assert (finding.mend.field, finding.mend.now) == ("strap.opening", "4 in")
    narrower = dressed(bag, strap_wish=strap(opening="62/16"), sheet=inch(12))
    wider = dressed(bag, strap_wish=strap(opening="63/16"), sheet=inch(12))
    # 4 + 2 d atan(d/4) + 2 is 11.964 in at d = 3 7/8 and 12.123 in at d = 3 15/16.
    assert (narrower.findings, len(wider.findings)) == ((), 1)
    assert finding.mend.to == "3 7/8 in"


def test_a_strap_wider_than_its_panel_less_a_margin_is_found() -> None:
    measures, bag = worked(BAG, depth=inch(1))
    (finding,) = checked(measures, bag, dressed(bag, strap_wish=strap(width="1")))
    assert (finding.code, finding.severity) == ("strap.wider-than-panel", Severity.CAUTION)
    assert finding.amount == inch("1/8")
    assert finding.mend == Mend("strap.width", "1 in", "7/8 in")
    assert checked(measures, bag, dressed(bag, strap_wish=strap(width="7/8"))) == ()
    (finding,) = checked(measures, bag, dressed(bag, strap_wish=strap(width="9/8")))
    assert finding.severity is Severity.ERROR


def test_a_foot_longer_than_the_wall_and_one_shorter_than_the_tape_are_found() -> None:
    measures, bag = worked(BAG, height=inch(2))
    (finding,) = checked(measures, bag, dressed(bag, strap_wish=strap(foot="2")))
    assert (finding.code, finding.amount) == ("strap.foot-too-long", inch("1/16"))
    assert finding.mend == Mend("strap.foot", "2 in", "1 15/16 in")
    (finding,) = checked(measures, bag, dressed(bag, strap_wish=strap(foot="3/16")))
    assert (finding.code, finding.amount) == ("strap.foot-too-short", inch("1/16"))
    assert finding.mend == Mend("strap.foot", "3/16 in", "1/4 in")


def test_a_style_without_a_place_for_a_strap_says_so() -> None:
    _, tray = worked(TRAY)
    made = dressed(tray, strap_wish=strap())
    assert made.strap is None
    assert [f.code for f in made.findings] == ["strap.no-place"]


@settings(max_examples=30, deadline=None)
@given(st.integers(16, 100), st.integers(16, 60), st.integers(32, 100))
def test_the_mark_for_the_second_end_lies_straight_across_from_the_first(
    width: int, depth: int, height: int
) -> None:
    measures, bag = worked(
        BAG,
        width=RULER.graduation * width,
        depth=RULER.graduation * depth,
        height=RULER.graduation * height,
    )
    made = dressed(bag, mats(), strap(width="1/2"))
    assert made.strap is not None
    middle, lower, across, across_lower = made.strap.marks
    pose = closed(bag)["bag"]
    for one, other in ((middle.start, across.start), (middle.end, across.end)):
        first = pose.placed["left side"].placement.place(one)
        second = pose.placed["right side"].placement.place(other)
        # Straight across a standing bag: only the step from left to right is left.
        assert second.minus(first) == pytest.approx((measures["width"].float_mm, 0, 0), abs=1e-5)
    left, right = made.strap.feet
    assert Polygon(left).exterior.is_ccw
    for foot, panel, line, end in (
        (left, "left side", middle, lower),
        (right, "right side", across, across_lower),
    ):
        outline = Polygon(bag.piece("bag").panel(panel).corners)
        assert outline.covers(Polygon(foot))
        assert Polygon(foot).centroid.x == pytest.approx(outline.centroid.x)
        assert max(p.y for p in foot) == bag.piece("bag").height.as_mm
        assert line.panel == end.panel == panel
        assert line.start.x == line.end.x == (end.start.x + end.end.x) / 2
        assert float(line.start.x) == pytest.approx(outline.centroid.x)
        assert end.start.y == end.end.y == bag.piece("bag").height.as_mm - inch(1).as_mm
    assert checked(measures, bag, made) == ()


def test_feet_out_of_line_are_found() -> None:
    measures, bag = worked(BAG)
    made = dressed(bag, strap_wish=strap())
    assert made.strap is not None
    first, second = made.strap.feet
    slid = inch("1/8").as_mm
    crooked = replace(made.strap, feet=(first, tuple(Point(p.x + slid, p.y) for p in second)))
    (finding,) = checked(measures, bag, replace(made, strap=crooked))
    assert (finding.code, finding.amount) == ("strap.crooked", inch("1/8"))


# Adhesive.


def test_tape_goes_down_before_mats_and_the_strap_before_the_mats_over_it() -> None:
    _, bag = worked(BAG)
    made = dressed(bag, mats(), strap())
    stages = [strip.stage for strip in made.strips]
    assert stages == sorted(stages)
    by_item = {(strip.on, strip.item): strip.stage for strip in made.strips}
    assert by_item["panel", "tab"] == TAPE_STAGE
    assert by_item["mat", "front"] == MAT_STAGE
    assert by_item["mat", "left side"] == COVER_STAGE


def test_every_glue_area_gets_its_strip_on_its_face() -> None:
    for style in (BAG, TRAY):
        _, box = worked(style)
        areas = {
            (p.name, g.name, g.panel, g.face, g.corners, g.length)
            for p in box.pieces
            for g in p.glue
        }
        strips = {
            (s.piece, s.name, s.item, s.face, s.corners, s.length)
            for s in dressed(box).strips
            if s.on == "panel"
        }
        assert strips == areas


def test_a_strap_end_is_taped_on_both_faces_only_where_a_mat_covers_it() -> None:
    _, bag = worked(BAG)
    made = dressed(bag, mats(off=("right side",)), strap())
    faces = {
        end: [s.face for s in made.strips if s.on == "strap" and s.item == end]
        for end in ("first end", "second end")
    }
    assert faces["first end"] == [Face.INSIDE] * 2 + [Face.OUTSIDE] * 2
    assert faces["second end"] == [Face.INSIDE] * 2


def test_tape_on_a_foot_never_reaches_past_it() -> None:
    for foot, width in (("1", "3/4"), ("3/8", "3/4"), ("3/8", "3/8")):
        _, bag = worked(BAG)
        made = dressed(bag, strap_wish=strap(width=width, foot=foot))
        strips = [s for s in made.strips if s.item == "first end" and s.face is Face.INSIDE]
        taken = sum((s.width.as_mm * s.length.as_mm for s in strips), Fraction(0))
        assert taken <= inch(foot).as_mm * inch(width).as_mm
        room = inch(foot) if strips[0].edge.startswith("across") else inch(width)
        assert TAPE.width * len(strips) <= room


def test_adhesive_round_a_mat_is_as_long_as_its_middle_line() -> None:
    """3 x 2 in, a 1/8 in line kept 1/16 in from the edge: its middle runs 2 3/4 x 1 3/4 in round."""
    assert mat_run(inch(3), inch(2), inch("1/8"), inch("1/16")) == inch(9)
    # Too narrow for two lines side by side: one along the middle.
    assert mat_run(inch(3), inch("1/4"), inch("1/8"), inch("1/16")) == inch("23/8")


def test_tape_wider_than_its_tab_gives_one_finding_and_the_tab_that_holds_it() -> None:
    measures, bag = worked(BAG, tab=inch("3/16"))
    (finding,) = checked(measures, bag, dressed(bag))
    assert (finding.code, finding.severity) == ("tape.wider-than-tab", Severity.ERROR)
    assert finding.where == ("bag", "tab")
    assert finding.amount == inch("1/16")
    assert finding.mend == Mend("measures.tab", "3/16 in", "1/4 in")


def test_tape_wider_than_the_lids_tabs_names_them_all_and_their_one_measure() -> None:
    measures, tray = worked(TRAY, lid_tab=inch("1/8"))
    (finding,) = adhesive_findings(tray, measures, TAPE, RULER, System.INCH)
    assert finding.where[0] == "lid"
    assert len(finding.where) == 5
    assert finding.amount == inch("1/8")
    assert finding.mend == Mend("measures.lid_tab", "1/8 in", "1/4 in")


def test_tape_wider_than_a_flap_names_the_flaps_measure() -> None:
    measures, bag = worked(BAG, flap=inch("1/4"))
    wide = replace(TAPE, width=inch("3/8"))
    findings = adhesive_findings(bag, measures, wide, RULER, System.INCH)
    (finding,) = findings
    assert set(finding.where) == {"bag", "left flap", "right flap", "back flap"}
    assert finding.mend == Mend("measures.flap", "1/4 in", "3/8 in")


def test_a_mat_narrower_than_its_adhesive_is_a_caution() -> None:
    measures, tray = worked(TRAY, height=inch("1/2"), lid_height=inch("3/8"))
    made = dressed(tray)
    wide = replace(
        made,
        strips=tuple(
            replace(s, width=inch("3/8")) if s.item == "lid front wall" else s for s in made.strips
        ),
    )
    found = checked(measures, tray, wide)
    assert [(f.code, f.amount) for f in found if f.code != "tape.wider-than-tab"] == [
        ("mat.narrower-than-adhesive", inch("1/8"))
    ]
