"""The template is true to size, wherever it is printed, and nothing is lost between its pages."""

import io
import itertools
from collections.abc import Iterator
from typing import Any

import pikepdf
import pypdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from snipfold.measure import System
from snipfold.publish.template_pdf import HEAD_MM, OVERLAP_MM, RIM_MM, files, tiling
from snipfold.publish.typesetting import PAGES

from .designs import design

POINTS = 72 / 25.4

Matrix = tuple[float, float, float, float, float, float]
Segment = tuple[tuple[float, float], tuple[float, float]]


def template(page: str, style: str = "wrap bag") -> bytes:
    return files(design(style, System.INCH), page)["template.pdf"]


def times(one: Matrix, other: Matrix) -> Matrix:
    a, b, c, d, e, f = one
    g, h, i, j, k, m = other
    return (
        a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j,
        e * g + f * i + k, e * h + f * j + m,
    )  # fmt: skip


def segments(holder: Any, matrix: Matrix = (1, 0, 0, 1, 0, 0)) -> Iterator[Segment]:
    """Every straight line of a page in points, read from its content (ISO 32000-1, 8.5.2)."""
    stack: list[Matrix] = []
    here = start = (0.0, 0.0)

    def at(x: Any, y: Any) -> tuple[float, float]:
        a, b, c, d, e, f = matrix
        return float(x) * a + float(y) * c + e, float(x) * b + float(y) * d + f

    for instruction in pikepdf.parse_content_stream(holder):
        operands, operator = instruction.operands, str(instruction.operator)
        if operator == "q":
            stack.append(matrix)
        elif operator == "Q":
            matrix = stack.pop()
        elif operator == "cm":
            matrix = times(tuple(float(o) for o in operands), matrix)  # type: ignore[arg-type]
        elif operator == "m":
            here = start = at(*operands)
        elif operator == "l":
            there = at(*operands)
            yield here, there
            here = there
        elif operator == "h":
            yield here, start
            here = start
        elif operator == "re":
            x, y, w, h = (float(o) for o in operands)
            corners = [at(x, y), at(x + w, y), at(x + w, y + h), at(x, y + h)]
            yield from zip(corners, corners[1:] + corners[:1], strict=True)
        elif operator == "Do":
            inner = holder.Resources.XObject[operands[0]]
            if inner.Subtype == "/Form":
                own = tuple(float(v) for v in inner.get("/Matrix", (1, 0, 0, 1, 0, 0)))
                yield from segments(inner, times(own, matrix))  # type: ignore[arg-type]


def lengths(page: Any) -> list[float]:
    return [((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 for (x0, y0), (x1, y1) in segments(page)]


@pytest.mark.parametrize("page", PAGES)
def test_the_scale_check_measures_what_it_says(page: str) -> None:
    """72 points are an inch (ISO 32000-1, 8.3.2.3): 50 mm, 1 in, 100 mm and 4 in, in points."""
    with pikepdf.open(io.BytesIO(template(page))) as pdf:
        found = lengths(pdf.pages[0])
    for length in (50 * POINTS, 72.0, 100 * POINTS, 288.0):
        assert min(abs(one - length) for one in found) < 0.01
    assert sum(abs(one - 72) < 0.01 for one in found) >= 4
    assert sum(abs(one - 50 * POINTS) < 0.01 for one in found) >= 4


@pytest.mark.parametrize("page", PAGES)
def test_a_score_of_the_template_is_as_long_as_the_wall_is_high(page: str) -> None:
    height = design("wrap bag", System.INCH).measures["height"]
    with pikepdf.open(io.BytesIO(template(page))) as pdf:
        found = lengths(pdf.pages[1])
    wanted = float(height.as_inch) * 72
    assert sum(abs(one - wanted) < 0.01 for one in found) >= 3


def test_the_scores_of_the_template_lie_as_far_apart_as_the_sides_are_wide() -> None:
    made = design("wrap bag", System.INCH)
    high = float(made.measures["height"].as_inch) * 72
    with pikepdf.open(io.BytesIO(template("letter"))) as pdf:
        upright = sorted(
            {
                round(x0, 2)
                for (x0, y0), (x1, y1) in segments(pdf.pages[1])
                if abs(x0 - x1) < 0.01 and abs(abs(y0 - y1) - high) < 0.01
            }
        )
    depth, width = (float(made.measures[m].as_inch) * 72 for m in ("depth", "width"))
    steps = [b - a for a, b in itertools.pairwise(upright)]
    assert any(abs(step - depth) < 0.02 for step in steps)
    assert any(abs(step - width) < 0.02 for step in steps)


@pytest.mark.parametrize("page", PAGES)
@given(st.floats(1, 1500), st.floats(1, 1500))
@settings(max_examples=60, deadline=None)
def test_every_point_of_a_drawing_is_on_some_page_and_seams_are_on_two(
    page: str, width: float, height: float
) -> None:
    tiled = tiling(width, height, page)
    for size, window, count, lefts in (
        (width, tiled.window_width_mm, tiled.columns, {t.left_mm for t in tiled.tiles}),
        (height, tiled.window_height_mm, tiled.rows, {t.top_mm for t in tiled.tiles}),
    ):
        starts = sorted(lefts)
        assert len(starts) == count
        assert starts[0] == 0
        assert starts[-1] + window >= size - 0.02
        for one, other in itertools.pairwise(starts):
            assert one + window - other == pytest.approx(OVERLAP_MM)


@given(st.floats(1, 1500), st.floats(1, 1500))
@settings(max_examples=60, deadline=None)
def test_nothing_is_printed_where_the_printer_cannot(width: float, height: float) -> None:
    for name, paper in PAGES.items():
        tiled = tiling(width, height, name)
        across, down = paper.width_mm, paper.height_mm
        if tiled.flipped:
            across, down = down, across
        assert tiled.window_width_mm + 2 * RIM_MM <= across + 1e-9
        assert tiled.window_height_mm + HEAD_MM + 2 * RIM_MM <= down + 1e-9


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("style", ["wrap bag", "tray with lift-off lid"])
def test_every_page_says_which_it_is(page: str, style: str) -> None:
    made = design(style, System.INCH)
    pages = [p.extract_text() for p in pypdf.PdfReader(io.BytesIO(template(page, style))).pages]
    assert "Print at 100 %" in pages[0]
    for piece in made.construction.pieces:
        own = [text for text in pages[1:] if text.lower().startswith(piece.name)]
        tiled = tiling(piece.width.float_mm + 4, piece.height.float_mm + 4, page)
        assert len(own) == len(tiled.tiles)
        for tile, text in zip(tiled.tiles, own, strict=True):
            assert tile.name in text
            assert "print at 100 %" in text


def test_rows_are_letters_and_columns_are_numbers() -> None:
    names = [tile.name for tile in tiling(500, 300, "letter").tiles]
    assert names[0] == "A1"
    assert len(set(names)) == len(names)


def test_the_same_design_gives_the_same_bytes() -> None:
    assert template("letter") == template("letter")
