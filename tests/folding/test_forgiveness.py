"""How forgiving boxes are: against statistics by the book, and against folding what slipped."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction
from math import sqrt

import numpy as np
import pytest
from scipy import stats

from snipfold.flat import Blank, Corner, FlatPiece, Fold, Point, Role
from snipfold.folding import Air, closed_angles, pose, prove, with_line_moved
from snipfold.folding.closing import gaps
from snipfold.folding.forgiveness import (
    Forgiveness,
    SlipKind,
    _gap,
    _rooms,
    _Work,
    forgiveness,
)
from snipfold.folding.room import air_between
from snipfold.folding.slips import moved
from snipfold.measure import ZERO, Length, System
from snipfold.measure.tolerance import BACKED_GAP_MM
from snipfold.styles import (
    STYLES,
    Cavity,
    Construction,
    EdgeOf,
    Given,
    Meet,
    Stand,
    Style,
    style_named,
)
from snipfold.workshop import Slips, default_workshop

INCH = default_workshop(System.INCH)
GIVEN = Given(System.INCH, Length.inch("1/4"))
PAPER = INCH.papers[0].thickness
NONE = Slips(ZERO, ZERO, ZERO)


def built(style: Style) -> Construction:
    return style.build(style.complete({}, GIVEN), GIVEN)


def thick(construction: Construction) -> dict[str, Length]:
    return {piece.name: PAPER for piece in construction.pieces}


def of(style: str, slips: Slips = INCH.slips, **more: object) -> Forgiveness:
    construction = built(style_named(style))
    return forgiveness(construction, slips, thick(construction), **more)  # type: ignore[arg-type]


def gate_card() -> Construction:
    """A card whose two leaves fold over its middle and meet there: a simple row of two scores."""
    blank = Blank("card", Length.mm(160), Length.mm(60))
    for name, left, right in (("left leaf", 0, 40), ("middle", 40, 120), ("right leaf", 120, 160)):
        corners: tuple[Corner, ...] = tuple(
            (Length.mm(x), Length.mm(y))
            for x, y in ((left, 0), (right, 0), (right, 60), (left, 60))
        )
        blank.panel(name, Role.WALL, *corners)
    blank.score("left leaf", "middle", Fold.VALLEY, 180)
    blank.score("middle", "right leaf", Fold.VALLEY, 180)
    return Construction(
        pieces=(blank.build(),),
        stands=(
            Stand("card", "middle", (1, 0, 0), (0, 1, 0), Point(Fraction(0), Fraction(0)), (ZERO, ZERO, ZERO)),
        ),
        steps=(),
        layers=(),
        meets=(Meet("card", EdgeOf("left leaf", 3), EdgeOf("right leaf", 1)),),
        cavity=Cavity("card", None, None, "", "", False),
        slides=(),
        handle=None,
    )  # fmt: skip


def near(found: float, right: float, tries: int) -> bool:
    """Whether a share that was found by trying is within four standard errors of the right one."""
    return abs(found - right) <= 4 * sqrt(max(right * (1 - right), 1 / tries) / tries)


# ---- by the book


def test_a_row_of_scores_stacks_up_as_the_root_of_the_sum_of_squares() -> None:
    """Root-sum-square: variances of independent errors add (any book on statistics); the card's
    leaves end at 2 x1 and 2 x2 - W, so the gap has variance 4 s^2 + 4 s^2 + c^2. Reference
    distribution: scipy.stats.halfnorm."""
    score, cut, tries = 0.3, 0.5, 20_000
    slips = Slips(Length.mm("0.5"), Length.mm("0.3"), ZERO)
    card = gate_card()
    found = forgiveness(card, slips, thick(card), seed=3, tries=tries)
    gap = stats.halfnorm(scale=sqrt(8 * score**2 + cut**2))
    assert found.usual.float_mm == pytest.approx(gap.median(), rel=0.03)
    assert found.bad.float_mm == pytest.approx(gap.ppf(0.95), rel=0.03)
    assert near(found.closes, gap.cdf(PAPER.float_mm), tries)


def test_a_seam_lined_up_by_eye_misses_along_and_across() -> None:
    """Two equal independent errors square to each other: scipy.stats.rayleigh."""
    tries = 20_000
    found = of("wrap bag", Slips(ZERO, ZERO, Length.mm("0.8")), tries=tries)
    gap = stats.rayleigh(scale=0.8)
    assert found.usual.float_mm == pytest.approx(gap.median(), rel=0.03)
    assert found.bad.float_mm == pytest.approx(gap.ppf(0.95), rel=0.03)
    assert near(found.closes, gap.cdf(BACKED_GAP_MM), tries)
    assert found.lining_up == pytest.approx(1)


def test_a_wrap_bag_comes_out_as_its_covariances_say() -> None:
    """Lines x1 … x4 and the cut x5, worked out by hand: the seam gapes by (x3 - x2) - (x5 - x4)
    across and (x2 - x1) - (x4 - x3) in depth. Drawn with numpy's generator."""
    score, cut, up, tries = 0.4, 0.3, 0.2, 20_000
    covariance = [
        [3 * score**2 + cut**2 + up**2, -(score**2), 0],
        [-(score**2), 4 * score**2, 0],
        [0, 0, up**2],
    ]
    drawn = np.random.default_rng(5).multivariate_normal([0, 0, 0], covariance, 400_000)
    gap = np.sqrt((drawn**2).sum(axis=1))
    slips = Slips(Length.mm("0.3"), Length.mm("0.4"), Length.mm("0.2"))
    found = of("wrap bag", slips, tries=tries)
    assert found.usual.float_mm == pytest.approx(float(np.median(gap)), rel=0.03)
    assert found.bad.float_mm == pytest.approx(float(np.quantile(gap, 0.95)), rel=0.03)
    assert near(found.closes, float((gap <= BACKED_GAP_MM).mean()), tries)


# ---- against folding it


def _rim_moved(piece: FlatPiece, axis: int, step: Fraction) -> FlatPiece:
    """The piece with its right (axis 0) or upper edge moved."""
    rim = max(p[axis] for p in piece.vertices)

    def to(p: Point) -> Point:
        if p[axis] != rim:
            return p
        return Point(p.x + step, p.y) if axis == 0 else Point(p.x, p.y + step)

    return moved(piece, to)


def _all_moved(work: _Work, piece: FlatPiece, slip: list[float]) -> FlatPiece:
    """The piece with every line of it that slips moved at once."""
    made = piece
    for one, by in zip(work.slips, slip, strict=True):
        if one.piece != piece.name or one.kind is SlipKind.LINE_UP:
            continue
        step = Length.figure(by)
        if one.kind is SlipKind.SCORE:
            made = with_line_moved(made, made.score(*one.panels), step)
        elif "free edge" not in one.says:
            made = _rim_moved(made, 0 if "right edge" in one.says else 1, step.as_mm)
    return made


@pytest.mark.parametrize("name", ["wrap bag", "tray with lift-off lid", "straight tuck carton"])
def test_the_sums_are_what_folding_the_slipped_piece_gives(name: str) -> None:
    """All lines moved at once and folded, against each moved alone and added up."""
    construction = built(style_named(name))
    work = _Work(construction, replace(INCH.slips, line_up=ZERO), thick(construction))
    joints = work.joints()
    chance = random.Random(11)
    for _ in range(5):
        slip = [
            0.0 if "free edge" in one.says else round(chance.gauss(0, one.usual), 6)
            for one in work.slips
        ]
        for piece in construction.pieces:
            drawn = _all_moved(work, piece, slip)
            folded = pose(drawn, construction.stand(piece.name), closed_angles(drawn))
            direct = {
                (gap.one, gap.other): gap.size
                for gap in gaps(drawn, folded, construction.meets)
                if gap.meet is not None
            }
            for joint in joints:
                if joint.meet.piece == piece.name:
                    ends = (joint.meet.one.panel, joint.meet.other.panel)
                    assert _gap(joint, slip) == pytest.approx(direct[ends], abs=1e-5)


@pytest.mark.parametrize("style", STYLES, ids=lambda style: style.name)
def test_small_slips_add_up_for_every_style(style: Style) -> None:
    """Where lines slant the sums are tangents: right for slips that are small beside panels."""
    construction = built(style)
    slips = Slips(Length.mm("0.01"), Length.mm("0.01"), ZERO)
    work = _Work(construction, slips, thick(construction))
    joints = work.joints()
    chance = random.Random(2)
    slip = [
        0.0 if "free edge" in one.says else round(chance.gauss(0, one.usual), 6)
        for one in work.slips
    ]
    for piece in construction.pieces:
        if any(s.start.x != s.end.x and s.start.y != s.end.y for s in piece.scores):
            # Two slanting lines that are moved in turn do not cross where they would at once.
            continue
        drawn = _all_moved(work, piece, slip)
        folded = pose(drawn, construction.stand(piece.name), closed_angles(drawn))
        for gap in gaps(drawn, folded, construction.meets):
            for joint in joints:
                if gap.meet is joint.meet:
                    assert _gap(joint, slip) == pytest.approx(gap.size, abs=2e-4)


@pytest.mark.parametrize("style", STYLES, ids=lambda style: style.name)
def test_rooms_that_are_slid_over_are_those_of_the_proof(style: Style) -> None:
    construction = built(style)
    poses = {
        piece.name: pose(piece, construction.stand(piece.name), closed_angles(piece))
        for piece in construction.pieces
    }
    airs = air_between(construction, poses, thick(construction), {}, ZERO)
    rooms = _rooms(construction, poses)
    for air in airs:
        assert any(room == pytest.approx(air.total.float_mm, abs=1e-5) for room in rooms)
    assert bool(airs) == bool(rooms)


# ---- laws


@pytest.mark.parametrize("style", STYLES, ids=lambda style: style.name)
def test_hands_that_never_slip_close_every_box(style: Style) -> None:
    found = of(style.name, NONE, tries=3)
    assert (found.closes, found.usual, found.bad, found.watch) == (1.0, ZERO, ZERO, ())
    assert found.remark == ""


@pytest.mark.parametrize("style", STYLES, ids=lambda style: style.name)
def test_steadier_hands_make_more_boxes_that_close(style: Style) -> None:
    rough = of(style.name, tries=400)
    half = Slips(*(one / 2 for one in (INCH.slips.cut, INCH.slips.score, INCH.slips.line_up)))
    steady = of(style.name, half, tries=400)
    assert steady.closes >= rough.closes
    assert steady.bad <= rough.bad
    assert rough.usual <= rough.bad
    assert 0 <= rough.closes <= min((joint.closes for joint in rough.joints), default=1.0)


def test_the_same_seed_gives_the_same_answer() -> None:
    assert of("wrap bag", seed=7, tries=300) == of("wrap bag", seed=7, tries=300)
    assert of("wrap bag", seed=7, tries=300).usual != of("wrap bag", seed=8, tries=300).usual


def test_one_try_is_the_least() -> None:
    with pytest.raises(ValueError, match="at least one try"):
        of("wrap bag", tries=0)


# ---- what to watch


def test_the_lines_to_watch_are_the_ones_that_move_most() -> None:
    """By hand: of a wrap bag's lines, the three between its walls move the seam both ways."""
    found = of("wrap bag")
    walls = {("left side", "front"), ("front", "right side"), ("right side", "back")}
    assert len(found.watch) == 2
    assert {tuple(one.panels) for one in found.watch} <= walls
    assert all(one.kind is SlipKind.SCORE for one in found.watch)
    # Weights: scores 1, 2, 2, 2 and the cut 1 at 1/64 in; lining up twice at 1/32 in.
    assert [one.share for one in found.watch] == [pytest.approx(2 / 16)] * 2
    assert found.lining_up == pytest.approx(8 / 16)


def test_a_rough_trimmer_makes_the_blank_the_thing_to_watch() -> None:
    found = of("wrap bag", replace(INCH.slips, cut=Length.inch("1/8")))
    assert [one.kind for one in found.watch] == [SlipKind.CUT]
    assert found.watch[0].says == "the blank up to its right edge"
    assert found.remark == (
        "Watch this one: measure the blank up to its right edge twice, since a slip there shows "
        "most."
    )


def test_the_remark_names_both_lines_and_the_seam() -> None:
    remark = of("wrap bag").remark
    assert remark.startswith("Watch these two: measure the score between left side and front, and ")
    assert remark.endswith("then take your time to line up the seam.")


def test_a_box_of_two_pieces_says_of_which_the_line_is() -> None:
    assert all(
        one.says.endswith(("of the base", "of the lid"))
        for one in of("tray with lift-off lid").watch
    )


# ---- what slides


def _tray_with_clearance(clearance: str) -> tuple[Construction, tuple[Air, ...]]:
    style = style_named("tray with lift-off lid")
    measures = style.complete({"clearance": Length.inch(clearance)}, GIVEN)
    construction = style.build(measures, GIVEN)
    proof = prove(
        construction, measures, thickness=thick(construction),
        tape=INCH.adhesive(INCH.tape).thickness, covers={}, treats=(), ruler=INCH.ruler,
        trimmer=INCH.trimmer.ruler, system=System.INCH,
    )  # fmt: skip
    return construction, proof.air


def test_a_lid_with_more_clearance_goes_on_more_often() -> None:
    shares = []
    for clearance in ("1/16", "1/8", "1/4"):
        construction, air = _tray_with_clearance(clearance)
        found = forgiveness(construction, INCH.slips, thick(construction), airs=air)
        assert found.goes_on is not None
        shares.append(found.goes_on)
    assert shares[0] < shares[1] <= shares[2]
    assert shares[2] > 0.999


def test_a_lid_goes_on_as_often_as_its_air_and_four_lines_say() -> None:
    """By hand: across, the lid's two scores and the base's two slip, each 1/64 in; the width and
    the depth must both stay above nothing. Reference: scipy.stats.norm."""
    construction, air = _tray_with_clearance("1/16")
    sigma = INCH.slips.score.float_mm * 2
    right = 1.0
    for one in air:
        right *= stats.norm.cdf(one.left.float_mm / sigma)
    tries = 10_000
    found = forgiveness(construction, INCH.slips, thick(construction), airs=air, tries=tries)
    assert found.goes_on is not None
    assert near(found.goes_on, right, tries)


def test_nothing_is_said_of_sliding_where_nothing_slides() -> None:
    assert of("wrap bag", tries=10).goes_on is None
