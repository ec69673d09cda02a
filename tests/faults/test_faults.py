"""The proof, proven: each seeded fault gives exactly its finding, its amount and its mend.

Figures are worked out by hand from the measures below, in the comments beside them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from snipfold.dressing import MatWish, StrapWish
from snipfold.findings import Finding, Mend, Severity
from snipfold.flat import Blank, Face, FlatPiece, Fold, Point, Role
from snipfold.folding import Treat, with_line_moved
from snipfold.measure import ZERO, Length, System
from snipfold.project import Design, Project, resolve, worked_through
from snipfold.styles import Construction, Given, Layer, style_named
from snipfold.workshop import Adhesive, AdhesiveKind, Grain, Paper, Workshop, default_workshop

INCH = Length.inch
CARD = Length.mm("0.3")
TAPE = Length.mm("0.1")
MAT_PAPER = Length.mm("0.2")
MAT_TAPE = Length.mm("0.05")

SHEET = Paper("plain", INCH(12), INCH(12), Fraction(216), CARD)
PATTERN = Paper("dotted", INCH(12), INCH(12), Fraction(120), MAT_PAPER)


def workshop(sheet: Paper = SHEET) -> Workshop:
    return replace(
        default_workshop(System.INCH),
        papers=(sheet, PATTERN),
        adhesives=(
            Adhesive("tape", AdhesiveKind.TAPE, INCH("1/4"), TAPE),
            Adhesive("fine tape", AdhesiveKind.TAPE, INCH("1/8"), MAT_TAPE),
        ),
        tape="tape",
        mat_adhesive="fine tape",
    )


def project(style: str, **measures: Length) -> Project:
    return Project(
        name="Hazel Row sampler",
        style=style,
        system=System.INCH,
        measures=measures,
        papers={},
        keep_grain=False,
        mats=MatWish(True, INCH("1/16"), {}, frozenset(), frozenset()),
        strap=StrapWish(style == "wrap bag", INCH("3/4"), INCH("5/2"), INCH(1), None),
        contents=(),
        notes="",
    )


# Columns from the tab end: 1/2 | 1 1/2 | 3 3/4 | 1 1/2 | 3 3/4; scores at 1/2, 2, 5 3/4, 7 1/4.
BAG = project(
    "wrap bag", width=INCH("15/4"), depth=INCH("3/2"), height=INCH("19/4"), tab=INCH("1/2")
)
# Base blank 6 1/2 x 5 1/2 in, scores at 1 1/4; lid 1/8 in larger in total.
TRAY = project(
    "tray with lift-off lid", width=INCH(4), depth=INCH(3), height=INCH("5/4"),
    lid_height=INCH("3/4"), clearance=INCH("1/4"),
)  # fmt: skip


def construction(of: Project) -> tuple[dict[str, Length], Construction]:
    style = style_named(of.style)
    given = Given(of.system, INCH("1/4"))
    measures = style.complete(of.measures, given)
    return measures, style.build(measures, given)


def changed(of: Project, change: Callable[[Construction], Construction]) -> Design:
    """The design of a construction that was spoilt after the style had built it."""
    measures, built = construction(of)
    return worked_through(of, workshop(), measures, change(built))


def piece_changed(
    change: Callable[[FlatPiece], FlatPiece],
) -> Callable[[Construction], Construction]:
    return lambda built: replace(built, pieces=(change(built.pieces[0]), *built.pieces[1:]))


def only(design: Design) -> Finding:
    """The one finding of the design that is more than a note."""
    found = [one for one in design.findings if one.severity is not Severity.NOTE]
    assert len(found) == 1, [f"{one.code}: {one.says}" for one in found]
    return found[0]


@pytest.mark.parametrize("of", [BAG, TRAY], ids=lambda p: p.style)
def test_without_a_fault_there_is_no_finding(of: Project) -> None:
    assert [
        one.code for one in resolve(of, workshop()).findings if one.severity is not Severity.NOTE
    ] == []


def test_a_score_an_eighth_off() -> None:
    def slip(piece: FlatPiece) -> FlatPiece:
        return with_line_moved(piece, piece.score("front", "right side"), INCH("1/8"))

    finding = only(changed(BAG, piece_changed(slip)))
    assert finding.code == "score.misplaced"
    assert set(finding.where) == {"bag", "front", "right side"}
    assert finding.amount == INCH("1/8")
    assert "5 3/4 in from the left edge, not at 5 7/8 in" in finding.advice


@pytest.mark.parametrize(
    "pair", [("left side", "front"), ("right side", "back"), ("tab", "left side")]
)
@pytest.mark.parametrize("by", ["1/8", "-1/16"])
def test_any_wall_score_that_slips_is_named_with_its_slip(pair: tuple[str, str], by: str) -> None:
    def slip(piece: FlatPiece) -> FlatPiece:
        return with_line_moved(piece, piece.score(*pair), INCH(by))

    finding = only(changed(BAG, piece_changed(slip)))
    assert finding.code == "score.misplaced"
    assert set(pair) < set(finding.where)
    assert finding.amount == abs(INCH(by))


@pytest.mark.parametrize("pair", [("floor", "left wall"), ("floor", "front wall")])
def test_a_tray_score_an_eighth_off(pair: tuple[str, str]) -> None:
    def slip(piece: FlatPiece) -> FlatPiece:
        return with_line_moved(piece, piece.score(*pair), INCH("1/8"))

    finding = only(changed(TRAY, piece_changed(slip)))
    assert finding.code == "score.misplaced"
    assert finding.where[0] == "base"
    assert finding.amount == INCH("1/8")


def test_a_position_off_the_grooves() -> None:
    """The bottom score at 1 7/16 in lies 1/16 in from the grooves at 1 3/8 and 1 1/2.

    So it does from the rim, at 4 11/16 in.
    """
    odd = {**BAG.measures, "flap": INCH("23/16"), "height": INCH("75/16")}
    design = resolve(replace(BAG, measures=odd), workshop())
    (finding,) = design.findings
    assert finding.code == "score.off-groove"
    assert finding.where[0] == "bag"
    assert finding.amount == INCH("1/16")
    assert finding.advice


@pytest.mark.parametrize(
    "pair",
    [("tab", "left side"), ("left side", "front"), ("right side", "back"), ("back", "back flap"),
     ("front", "front flap"), ("left side", "left flap")],
)  # fmt: skip
def test_a_reversed_fold(pair: tuple[str, str]) -> None:
    def turn(piece: FlatPiece) -> FlatPiece:
        wrong = piece.score(*pair)
        return replace(
            piece,
            scores=tuple(replace(s, fold=Fold.VALLEY) if s is wrong else s for s in piece.scores),
        )

    finding = only(changed(BAG, piece_changed(turn)))
    assert finding.code == "fold.reversed"
    assert set(finding.where) == {"bag", *pair}
    assert finding.amount is not None
    assert "mountain fold seen from the outside" in finding.advice


def test_how_far_a_reversed_fold_gapes() -> None:
    """A tab folded out carries its tape up to 7/16 in past the edge of the back it should stick to.

    The tape is 1/4 in wide, a quarter of the 1/4 in of room beside it (1/16 in) in from the edge.
    """

    def turn(piece: FlatPiece) -> FlatPiece:
        wrong = piece.score("tab", "left side")
        return replace(
            piece,
            scores=tuple(replace(s, fold=Fold.VALLEY) if s is wrong else s for s in piece.scores),
        )

    assert only(changed(BAG, piece_changed(turn))).amount == INCH("7/16")


def test_the_tab_on_the_wrong_side() -> None:
    """The tab hung on the back, which it should be stuck to: its 4 1/2 in of tape miss."""

    def other_end(piece: FlatPiece) -> FlatPiece:
        tab, end = INCH("1/2").as_mm, piece.width.as_mm

        def slid(points: tuple[Point, ...]) -> tuple[Point, ...]:
            return tuple(Point(p.x - tab, p.y) for p in points)

        def turned_round(points: tuple[Point, ...]) -> tuple[Point, ...]:
            return tuple(Point(end - p.x, p.y) for p in points)[::-1]

        panels = tuple(
            replace(
                p, corners=turned_round(p.corners) if p.role is Role.TAB else slid(p.corners)
            )
            for p in piece.panels
        )  # fmt: skip
        scores = []
        for score in piece.scores:
            if set(score.panels) == {"tab", "left side"}:
                edge = end - tab
                scores.append(
                    replace(
                        score, panels=("back", "tab"), start=Point(edge, score.start.y),
                        end=Point(edge, score.end.y),
                    )
                )  # fmt: skip
                if scores[-1].start.y > scores[-1].end.y:
                    scores[-1] = replace(scores[-1], start=scores[-1].end, end=scores[-1].start)
            else:
                (start, stop) = slid((score.start, score.end))
                scores.append(replace(score, start=start, end=stop))
        glue = tuple(
            replace(g, corners=turned_round(g.corners) if g.panel == "tab" else slid(g.corners))
            for g in piece.glue
        )
        return replace(piece, panels=panels, scores=tuple(scores), glue=glue)

    def change(built: Construction) -> Construction:
        (stand,) = built.stands
        tab = INCH("1/2").as_mm
        moved_stand = replace(stand, flat=Point(stand.flat.x - tab, stand.flat.y))
        return replace(
            built, pieces=(other_end(built.pieces[0]),), stands=(moved_stand,), meets=(),
            layers=tuple(layer for layer in built.layers if layer.inner != "tab"),
        )  # fmt: skip

    finding = only(changed(BAG, change))
    assert finding.code == "tab.wrong-side"
    assert finding.where == ("bag", "tab")
    assert finding.amount == INCH("9/2")
    assert "free edge of the left side" in finding.advice


def test_the_tab_laid_outside() -> None:
    def change(built: Construction) -> Construction:
        return replace(
            built,
            layers=tuple(
                Layer(layer.piece, "back", "tab") if layer.inner == "tab" else layer
                for layer in built.layers
            ),
        )

    finding = only(changed(BAG, change))
    assert finding.code == "tab.outside"
    assert finding.where == ("bag", "tab", "back")
    assert finding.amount == INCH("9/2")
    assert finding.advice == "tuck the tab inside the back"


def test_a_tab_narrower_than_the_tape() -> None:
    """Tape of 1/4 in on a tab of 3/16: 1/16 in too wide."""
    finding = only(
        resolve(replace(BAG, measures={**BAG.measures, "tab": INCH("3/16")}), workshop())
    )
    assert finding.code == "tape.wider-than-tab"
    assert finding.where[:2] == ("bag", "tab")
    assert finding.amount == INCH("1/16")
    assert finding.mend == Mend("measures.tab", "3/16 in", "1/4 in")


def test_glue_on_the_wrong_face() -> None:
    def turn(piece: FlatPiece) -> FlatPiece:
        return replace(
            piece,
            glue=tuple(replace(g, face=Face.INSIDE) if g.panel == "tab" else g for g in piece.glue),
        )

    finding = only(changed(BAG, piece_changed(turn)))
    assert finding.code == "glue.wrong-face"
    assert finding.where == ("bag", "tab", "back")
    assert finding.amount == INCH("9/2")
    assert finding.advice == "lay it on the outside of the tab"


@pytest.mark.parametrize(
    ("flap", "past", "says"),
    [("7/4", "1/4", "1 3/4 in"), ("5/2", "1", "2 1/2 in"), ("7/2", "2", "3 1/2 in")],
)
def test_a_flap_deeper_than_the_bag(flap: str, past: str, says: str) -> None:
    """Flaps of 1 3/4 in under a bag 1 1/2 in deep reach 1/4 in past its walls, and so on."""
    finding = only(resolve(replace(BAG, measures={**BAG.measures, "flap": INCH(flap)}), workshop()))
    assert finding.code == "flap.too-deep"
    assert finding.where == ("bag", "front flap", "back flap")
    assert finding.amount == INCH(past)
    assert finding.mend == Mend("measures.flap", says, "1 1/2 in")


def test_a_snip_missing() -> None:
    """The left flap left whole at the front: joined to the front flap over their 1 1/2 in."""

    def whole(piece: FlatPiece) -> FlatPiece:
        corner = piece.panel("front flap").corners[0]
        blank = Blank(piece.name, piece.width, piece.height)
        for panel in piece.panels:
            points = panel.corners
            if panel.name == "left flap":
                points = (points[0], corner, *points[2:])
            blank.panel(panel.name, panel.role, *((Length.mm(x), Length.mm(y)) for x, y in points))
        for snip in piece.snips:
            if snip.name != "sliver, left flap by front":
                blank.snip(snip.name, *((Length.mm(x), Length.mm(y)) for x, y in snip.corners))
        for score in piece.scores:
            blank.score(*score.panels)
        return replace(blank.build(), glue=piece.glue)

    finding = only(changed(BAG, piece_changed(whole)))
    assert finding.code == "snip.missing"
    assert set(finding.where) == {"bag", "left flap", "front flap"}
    assert finding.amount == INCH("3/2")
    assert "1 1/2 in long" in finding.advice


def test_a_mat_over_a_score() -> None:
    """The front's mat laid 3/16 in further right than its 1/16 in border allows: 1/8 in over."""
    design = resolve(BAG, workshop())
    slid = INCH("3/16").as_mm
    mats = tuple(
        replace(mat, corners=tuple(Point(p.x + slid, p.y) for p in mat.corners))
        if mat.panel == "front"
        else mat
        for mat in design.dressing.mats
    )
    spoilt = worked_through(
        BAG, workshop(), design.measures, design.construction, replace(design.dressing, mats=mats)
    )
    finding = only(spoilt)
    assert finding.code == "mat.over-score"
    assert finding.where[:2] == ("bag", "front")
    assert finding.amount == INCH("1/8")
    assert finding.advice


def test_a_mat_over_glue() -> None:
    """A mat on the tab would cover its tape: 1/4 in across."""
    design = resolve(BAG, workshop())
    tab = design.construction.pieces[0].panel("tab")
    front = next(mat for mat in design.dressing.mats if mat.panel == "front")
    low, high = INCH("1/16"), INCH("7/16")
    y0, y1 = INCH(2), INCH(4)
    on_tab = replace(
        front, panel=tab.name, width=high - low, height=y1 - y0,
        corners=tuple(Point(x.as_mm, y.as_mm) for x, y in ((low, y0), (high, y0), (high, y1), (low, y1))),
    )  # fmt: skip
    spoilt = worked_through(
        BAG, workshop(), design.measures, design.construction,
        replace(design.dressing, mats=(*design.dressing.mats, on_tab)),
    )  # fmt: skip
    finding = only(spoilt)
    assert finding.code == "mat.over-glue"
    assert finding.where[:2] == ("bag", "tab")
    assert finding.amount == INCH("1/4")


def test_a_strap_too_short_for_its_opening() -> None:
    """Cut 1 in shorter than what was worked out."""
    right = resolve(BAG, workshop()).dressing.strap
    assert right is not None
    short = right.length - INCH(1)
    finding = only(resolve(replace(BAG, strap=replace(BAG.strap, length=short)), workshop()))
    assert finding.code == "strap.too-short"
    assert finding.mend is not None
    assert finding.mend.field == "strap.length"
    # The worked-out strap is rounded up to a sixteenth, so the shortfall is within one of 1 in.
    assert finding.amount is not None
    exact = right.least_free + right.foot * 2 - short
    assert finding.amount == exact
    assert INCH("15/16") <= finding.amount <= INCH(1)


def test_a_lid_with_negative_air() -> None:
    """Clearance 0: less two thicknesses (0.6), two tabs with tape (0.8), two mats with tape (0.5)."""
    finding = only(
        resolve(replace(TRAY, measures={**TRAY.measures, "clearance": ZERO}), workshop())
    )
    assert finding.code == "lid.no-air"
    assert finding.where == ("lid", "base", "width")
    assert finding.amount == Length.mm("1.9")
    # 1.9 mm to nothing and the lid's own 0.3 mm to slide on: 2.2 mm is under 1/8 in (3.175 mm)
    # and over 1/16 in (1.5875 mm).
    assert finding.mend == Mend("measures.clearance", "0 in", "1/8 in")


def test_a_sheet_that_measures_less_than_it_is_sold_as() -> None:
    """A base blank of 12 in (9 1/2 + 2 x 1 1/4) from a sheet that measures 11 15/16 in."""
    small = replace(SHEET, measured_width=INCH("191/16"), measured_height=INCH("191/16"))
    long = replace(
        TRAY, measures={**TRAY.measures, "width": INCH("19/2")}, papers={"base": "plain"}
    )
    lid_apart = replace(long, mats=replace(long.mats, on=False))
    fits = [
        f.code for f in resolve(lid_apart, workshop()).findings if f.severity is not Severity.NOTE
    ]
    assert fits == []
    finding = only(resolve(lid_apart, workshop(small)))
    assert finding.code == "sheet.too-small"
    assert finding.where[0] == "base"
    assert finding.amount == INCH("1/16")
    assert finding.advice


def test_a_treat_too_tall() -> None:
    """Clear height of the tray: 1 1/4 in less half a floor (0.15 mm); a treat of 1 1/4 with 1/8 above."""
    treat = Treat("bar", INCH(3), INCH(2), INCH("5/4"), INCH("1/8"), ZERO)
    finding = only(resolve(replace(TRAY, contents=(treat,)), workshop()))
    assert finding.code == "treat.too-tall"
    assert finding.where == ("base", "bar")
    assert finding.amount == INCH("1/8") + Length.mm("0.15")
    assert finding.mend == Mend("measures.height", "1 1/4 in", "1 7/16 in")


def test_scores_across_the_grain() -> None:
    """Upright scores of the bag: 4 x 4 3/4 = 19 in; level ones 2 x (1 1/2 + 3 3/4) = 10 1/2 in."""
    for grain in (Grain.UPRIGHT, Grain.ACROSS):
        design = resolve(BAG, workshop(replace(SHEET, grain=grain)))
        crossed = [f for f in design.findings if f.code == "grain.across"]
        if crossed:
            break
    (finding,) = crossed
    assert finding.where == ("bag",)
    assert finding.amount == INCH(19)
    assert finding.mend == Mend("keep_grain", "false", "true")
    assert only(design) is finding
    kept = resolve(replace(BAG, keep_grain=True), workshop(replace(SHEET, grain=grain)))
    assert [f.code for f in kept.findings if f.severity is not Severity.NOTE] == []
