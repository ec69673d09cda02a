"""What the guide says, before it is printed: every number the design's, every step a plain one."""

import re
from dataclasses import replace
from itertools import pairwise

import pytest

from snipfold.findings import Finding, Severity
from snipfold.guide import Guide, Hazard, Part, Section, Size, Tone, guide_of, spoken
from snipfold.guide.cut import SHEET, cut_table
from snipfold.guide.snip import scissor_paths
from snipfold.measure import Length, System, total
from snipfold.project import Design, worked_through
from snipfold.styles import Construction, Given, style_named
from snipfold.workshop import Adhesive, AdhesiveKind

from ..publish.designs import STYLES, design, guided

EDITIONS = [(style, system) for style in STYLES for system in System]
INCH = Length.inch


def text_of(section: Section, system: System) -> str:
    cells = [cell for table in section.tables for row in table.rows for cell in row]
    captions = [table.caption for table in section.tables]
    said = (*section.sentences, *captions, *cells, *section.facts)
    return " ".join(spoken(words, system) for words in said)


def whole(guide: Guide) -> str:
    return " ".join(text_of(section, guide.system) for section in guide.sections)


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_the_parts_come_in_the_order_of_the_work(style: str, system: System) -> None:
    order = [list(Part).index(section.part) for section in guided(style, system).sections]
    assert order == sorted(order)
    assert order[0] == 0
    assert {Part.NEED, Part.CUT, Part.SCORE, Part.SNIP, Part.ASSEMBLE, Part.CARD} <= {
        section.part for section in guided(style, system).sections
    }


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_every_score_is_given_as_it_is_set_and_as_it_is_set_after_moving(
    style: str, system: System
) -> None:
    made = design(style, system)
    sections = iter(guided(style, system).of(Part.SCORE))
    for plan in made.scoring:
        for scored in plan.passes:
            section = next(sections)
            (table,) = section.tables
            loud = [k for k, column in enumerate(table.columns) if column.tone is Tone.LOUD]
            wanted = [[line.ruled, line.shifted] for line in scored.lines]
            if scored.shift is None:
                wanted = [[ruled] for ruled, _ in wanted]
            assert [[row[k][0] for k in loud] for row in table.rows] == wanted
            said = text_of(section, system)
            assert f"{scored.face_up.value} up, {scored.fence.value} edge at the fence" in said
            if scored.shift is not None:
                assert abs(scored.shift) in [w for s in section.sentences for w in s]
    assert next(sections, None) is None


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_each_side_of_a_mat_and_both_together_are_told(style: str, system: System) -> None:
    made = design(style, system)
    rows = [row for s in guided(style, system).of(Part.MATS) for row in s.tables[0].rows]
    told = set()
    for size, on, side, both in rows:
        assert both[0] == side[0] * 2  # type: ignore[operator]
        for panel in re.split(", | and ", spoken(on, system)):
            told.add((panel, size[0].width, size[0].height, side[0]))  # type: ignore[union-attr]
    assert told == {(mat.panel, mat.width, mat.height, mat.border) for mat in made.dressing.mats}


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_each_setting_of_the_trimmer_comes_once_in_the_order_of_the_plan(
    style: str, system: System
) -> None:
    for plan in design(style, system).cutting.values():
        for index, steps in enumerate(plan.steps):
            rows = cut_table(plan, index).rows
            assert [row[1][0] for row in rows if row[1]] == [step.setting for step in steps]
            assert spoken(rows[0][2], system).startswith(SHEET)


def test_cuts_of_one_strip_at_one_setting_are_one_line() -> None:
    """A row says how often it is cut; together the rows make just the cuts of the plan."""
    for style, system in EDITIONS:
        for plan in design(style, system).cutting.values():
            for index, steps in enumerate(plan.steps):
                cuts = 0
                for row in cut_table(plan, index).rows:
                    copies = re.match(r"(\d+) × [a-z]", spoken(row[2], system))
                    times = re.match(r"(\d+) times", spoken(row[4], system))
                    cuts += int(copies[1] if copies else 1) * int(times[1] if times else 1)
                assert cuts == sum(len(step.pieces) for step in steps)


def test_the_scissors_go_from_rim_to_rim() -> None:
    """Worked by hand: tab 1/2, depth 1 1/2, flap 1 1/2, sliver 1/16 in: the sliver of the left
    flap beside the front ends where side and front meet, 2 in across and 1 1/2 in up."""
    made = design("wrap bag", System.INCH)
    assert [made.measures[m] for m in ("tab", "depth", "flap")] == [
        INCH("1/2"), INCH("3/2"), INCH("3/2"),
    ]  # fmt: skip
    piece = made.construction.pieces[0]
    snips = {snip.name: snip.corners for snip in piece.snips}
    (path,) = scissor_paths(piece, snips["sliver, left flap by front"])
    places = [(Length.mm(p.x).as_inch, Length.mm(p.y).as_inch) for p in path]
    assert places in (
        [(2, 0), (2, INCH("3/2").as_inch), (INCH("31/16").as_inch, 0)],
        [(INCH("31/16").as_inch, 0), (2, INCH("3/2").as_inch), (2, 0)],
    )
    for corners in snips.values():
        for path in scissor_paths(piece, corners):
            for end in (path[0], path[-1]):
                assert end.x in (0, piece.width.as_mm) or end.y in (0, piece.height.as_mm)


def test_a_slit_is_cut_from_end_to_end() -> None:
    piece = design("wrap bag", System.INCH).construction.pieces[0]
    line = piece.snips[0].corners[:2]
    assert scissor_paths(piece, line) == (line,)


def test_the_bag_goes_together_as_the_trade_does_it() -> None:
    """Common practice, no source: tab inside, seam lined up at the top first, then at the bottom;
    side flaps, back flap, front flap, so that the raw edge lies at the back."""
    guide = guided("wrap bag", System.INCH)
    seam, sides, back, front = guide.of(Part.ASSEMBLE)
    said = [text_of(section, System.INCH) for section in (seam, sides, back, front)]
    assert "the tab goes inside" in said[0]
    assert said[0].index("at the top first") < said[0].index("then at the bottom")
    assert "Fold in the left flap, then the right flap" in said[1]
    assert "not stick" in said[1]
    assert "back flap" in said[2]
    assert "Fold the front flap over" in said[3]
    assert "raw edge now lies at the back" in said[3]
    assert not any("raw edge" in words for words in said[:3])


def test_the_seam_is_right_when_the_back_meets_the_left_side() -> None:
    seam = guided("wrap bag", System.INCH).of(Part.ASSEMBLE)[0]
    assert "right edge of the back left edge of the left side" in text_of(seam, System.INCH)


def test_the_tray_goes_together_piece_after_piece() -> None:
    guide = guided("tray with lift-off lid", System.INCH)
    said = [text_of(section, System.INCH) for section in guide.of(Part.ASSEMBLE)]
    assert len(said) == 5
    assert "tabs in" in said[0]
    assert "press them onto the tabs" in said[1]
    assert said[1].count("edge of the left wall") == 2
    assert "Set the lid on the base." in said[4]
    air = design("tray with lift-off lid", System.INCH).proof.air
    table = guide.of(Part.ASSEMBLE)[4].tables[0]
    assert [row[1][0] for row in table.rows] == [one.total for one in air]
    for row, one in zip(table.rows, air, strict=True):
        assert one.left - INCH("1/64") < row[2][0] <= one.left


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_tape_goes_down_with_its_liner_on_before_mats(style: str, system: System) -> None:
    made = design(style, system)
    guide = guided(style, system)
    taped = guide.of(Part.TAPE)
    assert all("Leave the liner on." in text_of(section, system) for section in taped)
    order = [section.part for section in guide.sections]
    assert order.index(Part.TAPE) < order.index(Part.MATS) < order.index(Part.ASSEMBLE)
    on_panels = [strip for strip in made.dressing.strips if strip.on == "panel"]
    totals = [word for s in taped for fact in s.facts for word in fact if isinstance(word, Length)]
    assert total(totals) == total(strip.length for strip in on_panels)


def test_the_strap_is_given_with_its_ends_and_marks() -> None:
    made = design("wrap bag", System.METRIC)
    strap = made.dressing.strap
    assert strap is not None
    cut, stuck = guided("wrap bag", System.METRIC).of(Part.STRAP)
    said = text_of(cut, System.METRIC)
    measures, marks = cut.tables
    (size, foot, free) = measures.rows[0]
    assert size == (Size(strap.width, strap.length),)
    assert (foot[0], free[0]) == (strap.foot, strap.free)
    assert len(marks.rows) == len(strap.marks)
    assert "before you close the bag" in said
    assert "inside" in text_of(stuck, System.METRIC)


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_figures_that_use_line_styles_have_a_legend(style: str, system: System) -> None:
    for section in guided(style, system).sections:
        used = {kind for drawing in section.figures for kind in drawing.kinds()}
        if used & {"cut", "mountain", "valley", "glue", "waste", "pencil"}:
            assert section.legend is not None


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_the_usual_cautions_stand_where_they_apply(style: str, system: System) -> None:
    """Common practice, no source: blades where it is cut, food and small parts where it is filled."""
    guide = guided(style, system)

    def hazards(part: Part) -> set[Hazard]:
        return {caution.hazard for section in guide.of(part) for caution in section.cautions}

    assert Hazard.BLADES in hazards(Part.CUT)
    assert Hazard.BLADES in hazards(Part.SNIP)
    assert {Hazard.FOOD, Hazard.CHILDREN, Hazard.FIRE, Hazard.RULES} <= hazards(Part.FILL)
    assert any("local rules" in c.says for s in guide.of(Part.FILL) for c in s.cautions)


@pytest.mark.parametrize("style", STYLES)
def test_a_metric_guide_holds_no_inch_and_an_inch_guide_no_decimal(style: str) -> None:
    metric = whole(guided(style, System.METRIC))
    assert not re.search(r"\d in\b|\d/\d", metric)
    inches = whole(guided(style, System.INCH))
    assert not re.search(r"\d\.\d|\d [cm]m\b", inches)


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_nothing_is_said_twice_in_one_breath(style: str, system: System) -> None:
    """No sentence has a doubled space, a doubled word, or lacks its full stop."""
    for section in guided(style, system).sections:
        for said in section.sentences:
            words = spoken(said, system)
            assert words.endswith(".")
            assert "  " not in words
            assert not any(one == other for one, other in pairwise(words.split()))


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_the_card_repeats_every_number(style: str, system: System) -> None:
    made = design(style, system)
    (card,) = guided(style, system).of(Part.CARD)
    said = text_of(card, system)
    for plan in made.scoring:
        for scored in plan.passes:
            positions = ", ".join(spoken((line.ruled,), system) for line in scored.lines)
            assert positions in said
    for plan in made.cutting.values():
        for part in plan.parts:
            assert part.name in said.lower()


def glued(kind: AdhesiveKind) -> Design:
    made = design("wrap bag", System.INCH)
    glue = Adhesive("pot", kind, INCH("1/8"), Length.mm("0.05"))
    workshop = replace(made.workshop, adhesives=(*made.workshop.adhesives, glue), tape="pot")
    strips = tuple(
        replace(strip, adhesive="pot") if strip.on == "panel" else strip
        for strip in made.dressing.strips
    )
    return replace(made, workshop=workshop, dressing=replace(made.dressing, strips=strips))


def test_glue_is_spread_and_not_peeled() -> None:
    guide = guide_of(glued(AdhesiveKind.GLUE))
    seam = text_of(guide.of(Part.ASSEMBLE)[0], System.INCH)
    assert "glue on the tab" in seam
    assert "liner" not in seam
    assert "liner" not in text_of(guide.of(Part.TAPE)[0], System.INCH)


def test_hot_glue_comes_with_its_temperature() -> None:
    guide = guide_of(glued(AdhesiveKind.HOT_GLUE))
    cautions = guide.of(Part.ASSEMBLE)[0].cautions
    assert any(c.hazard is Hazard.HEAT and "120 °C (250 °F)" in c.says for c in cautions)


def test_a_style_that_the_guide_has_never_seen_gets_its_guide() -> None:
    """An open tray: the base alone, as a style of one piece that nothing is set on."""
    made = design("tray with lift-off lid", System.INCH)
    given = Given(System.INCH, made.workshop.adhesive(made.workshop.tape).width)
    both = style_named("tray with lift-off lid").build(made.measures, given)
    alone: Construction = replace(
        both,
        pieces=both.pieces[:1],
        stands=both.stands[:1],
        steps=tuple(step for step in both.steps if step.piece == "base"),
        layers=tuple(layer for layer in both.layers if layer.piece == "base"),
        meets=tuple(meet for meet in both.meets if meet.piece == "base"),
        cavity=replace(both.cavity, covered=False),
        slides=(),
    )
    open_tray = worked_through(made.project, made.workshop, made.measures, alone)
    guide = guide_of(open_tray)
    assert len(guide.of(Part.SCORE)) == len(open_tray.scoring[0].passes)
    assert not re.search(r"\blid\b", whole(guide))
    assert len(guide.of(Part.ASSEMBLE)) == 2


def test_errors_are_told_on_the_first_page() -> None:
    made = design("wrap bag", System.INCH)
    assert not guided("wrap bag", System.INCH).sections[0].sentences
    bad = Finding("treat.too-tall", Severity.ERROR, (), "it is too tall", "make it lower")
    guide = guide_of(replace(made, findings=(bad,)))
    assert guide.sections[0].sentences == (("Mend first: it is too tall; make it lower.",),)
    (known,) = guide.of(Part.WORTH_KNOWING)
    assert "It is too tall." in text_of(known, System.INCH)
