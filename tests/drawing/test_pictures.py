"""Every picture: fits its page, clips nothing, overlaps no words, says true measures."""

import re
from dataclasses import replace
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from snipfold.drawing import Drawing, blank_picture, legend, scoring_picture, tape_picture
from snipfold.drawing.inks import LEGEND, PAGE
from snipfold.drawing.layout import box_of, text_box
from snipfold.drawing.scene import Stroke, Text
from snipfold.drawing.scoring import on_board
from snipfold.flat import Face
from snipfold.measure import Length, System, parse_length, words
from snipfold.workshop import Edge

from . import samples

#: mm. Text boxes are a little larger than the letters, so a hair of overlap is none.
_TOUCH_MM = 0.35


def _overlapping(drawing: Drawing, *, numbers: bool = True) -> list[tuple[str, str]]:
    """The pairs of texts that overlap; without `numbers` those of cuts (in white) are passed over."""
    boxes = [
        (mark.says, text_box(mark))
        for mark in drawing.marks()
        if isinstance(mark, Text) and (numbers or mark.colour != PAGE)
    ]
    return [
        (one, other)
        for (one, a), (other, b) in combinations(boxes, 2)
        if min(a[2], b[2]) - max(a[0], b[0]) > _TOUCH_MM
        and min(a[3], b[3]) - max(a[1], b[1]) > _TOUCH_MM
    ]


def _measure(text: str, system: System) -> Length:
    plain = text.replace("⁄", "/").translate(
        str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉", "0123456789" * 2)
    )
    for index, character in enumerate(text):
        if character in "⁰¹²³⁴⁵⁶⁷⁸⁹" and index and text[index - 1].isascii():
            plain = f"{plain[:index]} {plain[index:]}"
            break
    unit = "in" if system is System.INCH else "cm"
    return parse_length(f"{plain} {unit}")


@pytest.mark.parametrize("name", samples.NAMES)
def test_every_picture_fits_between_the_margins_of_letter_and_a4(name: str) -> None:
    # The narrower of the two sheets is A4, 210 mm (ISO 216), less a margin of 20 mm each side.
    for drawing in samples.pictures(name):
        assert drawing.width_mm <= 170.0 + 1.0, drawing.name
        assert drawing.height_mm <= 160.0, drawing.name


@pytest.mark.parametrize("name", samples.NAMES)
def test_nothing_is_clipped(name: str) -> None:
    for drawing in samples.pictures(name):
        left, low, right, high = box_of(drawing.marks())
        assert left >= 0, drawing.name
        assert low >= 0, drawing.name
        assert right <= drawing.width_mm, drawing.name
        assert high <= drawing.height_mm, drawing.name


@pytest.mark.parametrize("name", samples.NAMES)
def test_no_words_lie_over_other_words(name: str) -> None:
    for drawing in samples.pictures(name):
        assert _overlapping(drawing) == [], drawing.name


def _sixteenths(count: int) -> str:
    return words(Length.inch(Fraction(count, 16)), System.INCH)


@settings(max_examples=15, deadline=None)
@given(
    width=st.integers(16, 96), depth=st.integers(12, 64), height=st.integers(12, 112),
    tab=st.integers(4, 16),
)  # fmt: skip
def test_bags_of_any_proportion_keep_their_words_apart(
    width: int, depth: int, height: int, tab: int
) -> None:
    of = samples.with_measures(
        "bag", width=_sixteenths(width), depth=_sixteenths(depth), height=_sixteenths(height),
        tab=_sixteenths(min(tab, width)),
    )  # fmt: skip
    # On a sheet of dozens of slim strips the numbers of cuts may have no room of their own.
    for drawing in samples.flat_pictures(of):
        assert _overlapping(drawing, numbers=False) == [], drawing.name
        assert drawing.width_mm <= 171.0, drawing.name


@settings(max_examples=15, deadline=None)
@given(width=st.integers(16, 96), depth=st.integers(16, 96), height=st.integers(6, 48))
def test_trays_of_any_proportion_keep_their_words_apart(
    width: int, depth: int, height: int
) -> None:
    of = samples.with_measures(
        "tray", width=_sixteenths(width), depth=_sixteenths(depth), height=_sixteenths(height)
    )
    # On a sheet of dozens of slim strips the numbers of cuts may have no room of their own.
    for drawing in samples.flat_pictures(of):
        assert _overlapping(drawing, numbers=False) == [], drawing.name
        assert drawing.width_mm <= 171.0, drawing.name


_NUMBER = re.compile(r"[≈ ]*[0-9⁰¹²³⁴⁵⁶⁷⁸⁹₀-₉⁄.]+( × [0-9⁰¹²³⁴⁵⁶⁷⁸⁹₀-₉⁄.]+)?")


@pytest.mark.parametrize("name", samples.NAMES)
def test_measures_are_at_least_14_pt_as_a_guide_is_read_at_an_arms_length(name: str) -> None:
    found = 0
    for drawing in samples.flat_pictures(samples.design(name)):
        for mark in drawing.marks():
            # White figures are the numbers of cuts.
            if isinstance(mark, Text) and _NUMBER.fullmatch(mark.says) and mark.colour != PAGE:
                found += 1
                assert mark.size_pt >= 14.0, (drawing.name, mark.says)
    assert found > 30


# Blanks --------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", samples.NAMES)
def test_the_measures_along_an_edge_add_up_to_the_blank(name: str) -> None:
    of = samples.design(name)
    for piece in of.construction.pieces:
        drawing = blank_picture(of, piece.name)
        (layer,) = [la for la in drawing.layers if la.name == "measures"]
        told = [
            _measure(mark.says, of.system)
            for mark in layer.marks
            if isinstance(mark, Text) and mark.says not in ("in", "cm")
        ]
        across, up = told[: told.index(piece.width)], told[told.index(piece.width) + 1 : -1]
        assert sum((length.as_mm for length in across), Fraction(0)) == piece.width.as_mm
        assert sum((length.as_mm for length in up), Fraction(0)) == piece.height.as_mm
        assert told[-1] == piece.height


@pytest.mark.parametrize("name", samples.NAMES)
def test_every_panel_is_named_on_its_blank(name: str) -> None:
    of = samples.design(name)
    for piece in of.construction.pieces:
        drawing = blank_picture(of, piece.name)
        said = " ".join(drawing.texts())
        for panel in piece.panels:
            assert all(word in said for word in panel.name.split())
            assert panel.name in drawing.alt


def test_a_sixteenth_tab_that_is_too_thin_for_its_name_gets_a_leader() -> None:
    of = samples.with_measures("bag", tab="1/8 in", width="6 in", height="6 in")
    drawing = blank_picture(of, "bag")
    (tab,) = [m for m in drawing.marks() if isinstance(m, Text) and m.says == "tab"]
    cut = next(la for la in drawing.layers if la.name == "cut")
    assert tab.at[1] > box_of(cut.marks)[3]


# Scoring -------------------------------------------------------------------------------------


@pytest.mark.parametrize("face", Face)
@pytest.mark.parametrize("fence", Edge)
def test_the_fence_edge_lies_at_the_fence_whichever_face_is_up(face: Face, fence: Edge) -> None:
    piece = samples.design("bag").construction.pieces[0]
    lay = on_board(piece, face, fence)
    w, h = piece.width.float_mm, piece.height.float_mm
    edge = {
        Edge.LEFT: ((0, 0), (0, h)), Edge.RIGHT: ((w, 0), (w, h)),
        Edge.BOTTOM: ((0, 0), (w, 0)), Edge.TOP: ((0, h), (w, h)),
    }[fence]  # fmt: skip
    for corner in edge:
        assert lay.at(corner)[0] == pytest.approx(0)
    corners = [lay.at(c) for c in ((0, 0), (w, 0), (w, h), (0, h))]
    assert min(x for x, _ in corners) == pytest.approx(0)
    assert min(y for _, y in corners) == pytest.approx(0)
    # Turning a piece in its plane keeps left and right, turning it over swaps them.
    turn = lay.xx * lay.yy - lay.xy * lay.yx
    assert turn == pytest.approx(1 if face is Face.OUTSIDE else -1)


@pytest.mark.parametrize("name", samples.NAMES)
def test_scores_are_drawn_where_their_numbers_say(name: str) -> None:
    of = samples.design(name)
    for plan in of.scoring:
        for index, this in enumerate(plan.passes):
            drawing = scoring_picture(of, plan.piece, index)
            (numbers,) = [la for la in drawing.layers if la.name == "measures"]
            rulers = [m for m in numbers.marks if isinstance(m, Text) and m.size_pt >= 20.0]
            rows = 1 if this.shift is None else 2
            assert len(rulers) == rows * len(this.lines)
            # The last row is the one from the fence.
            told = [_measure(m.says, of.system) for m in rulers[-len(this.lines) :]]
            assert told == [line.ruled for line in this.lines]
            (paper,) = [la for la in drawing.layers if la.name == "paper"]
            left, _, right, _ = box_of([m for m in paper.marks if not isinstance(m, Stroke)])
            (score,) = [la for la in drawing.layers if la.name == "score"]
            piece = of.construction.piece(plan.piece)
            upright = this.fence in (Edge.LEFT, Edge.RIGHT)
            depth = (piece.width if upright else piece.height).float_mm
            scale = (right - left) / depth
            places = {
                round((m.points[0][0] - left) / scale, 3)
                for m in score.marks
                if isinstance(m, Stroke)
            }
            assert places == {round(line.position.float_mm, 3) for line in this.lines}


def test_a_mountain_scored_from_the_inside_is_drawn_as_the_valley_that_is_seen() -> None:
    of = samples.design("tray")
    plan = of.scoring[0]
    turned = replace(plan, passes=(replace(plan.passes[0], face_up=Face.INSIDE),))
    seen = scoring_picture(replace(of, scoring=(turned,)), plan.piece, 0)
    assert "valley" in seen.kinds()
    assert "mountain" not in seen.kinds()


# Words ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["bag", "tray"])
def test_the_alternative_of_a_tape_picture_gives_every_strip(name: str) -> None:
    of = samples.design(name)
    for piece in of.construction.pieces:
        said = " ".join(tape_picture(of, piece.name, face).alt for face in Face)
        for area in piece.glue:
            assert area.panel in said
            assert words(area.length, of.system) in said


@pytest.mark.parametrize("name", samples.NAMES)
def test_a_legend_covers_every_style_that_needs_explaining(name: str) -> None:
    known = {ink.key for ink in LEGEND}
    quiet = {"dots", "thin", "outline", "faint", "faint score", "part", "glue edge", "halo"}
    for drawing in samples.pictures(name):
        assert drawing.kinds() <= known | quiet, drawing.name
        used = drawing.kinds() & known
        if used:
            assert used <= legend(used).kinds()
