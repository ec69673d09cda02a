"""Scenes and pens: what a pen is told, hatches, fractions in width, layout laws."""

import struct
from itertools import pairwise
from pathlib import Path

import font_source_sans_pro
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon

from snipfold.drawing import Drawing, RecordingPen, draw, legend
from snipfold.drawing.inks import CUT, GLUE, LEGEND, NARROW_MM, SLIT, WASTE, WIDE_MM, HatchInk
from snipfold.drawing.layout import Lay, spread
from snipfold.drawing.lettering import BOLD, POINT_MM, REGULAR, width_mm
from snipfold.drawing.scene import Arrow, Fill, Layer, Stroke, hatch_lines


def _calls(*marks: object) -> list[tuple[object, ...]]:
    pen = RecordingPen()
    draw(Drawing("a", 50.0, 50.0, (Layer("one", marks),), "alt"), pen)  # type: ignore[arg-type]
    return pen.calls


def test_a_pen_hears_the_size_first_and_the_marks_in_order() -> None:
    ring = ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0))
    calls = _calls(Fill((ring,), "#112233"), Stroke(ring, CUT, True))
    assert calls == [
        ("begin", "a", 50.0, 50.0, "alt"),
        ("layer", "one"),
        ("fill", (ring,), "#112233"),
        ("stroke", ring, "cut", True),
        ("end",),
    ]


def test_a_slit_has_a_tick_across_each_end() -> None:
    strokes = [c for c in _calls(Stroke(((10.0, 5.0), (30.0, 5.0)), SLIT)) if c[0] == "stroke"]
    assert len(strokes) == 3
    for (_, tick, _, _), end in zip(strokes[1:], (10.0, 30.0), strict=True):
        (x0, y0), (x1, y1) = tick  # type: ignore[misc]
        assert x0 == pytest.approx(end) == x1
        assert y0 + y1 == pytest.approx(10.0)
        assert y0 != y1


def test_an_arrow_ends_in_a_filled_head_whose_point_is_its_end() -> None:
    fills = [c for c in _calls(Arrow(((0.0, 0.0), (20.0, 0.0)), CUT)) if c[0] == "fill"]
    ((point, left, right),) = fills[0][1]  # type: ignore[misc]
    assert point == (20.0, 0.0)
    assert left[0] == pytest.approx(right[0])
    assert left[0] < 20.0


def test_narrow_lines_are_half_as_wide_as_wide_ones() -> None:
    # ISO 128-20: the ratio of the line widths on one drawing is 2 : 1.
    assert WIDE_MM == 2 * NARROW_MM


def test_no_two_line_styles_differ_by_colour_alone() -> None:
    seen = set()
    for ink in LEGEND:
        sign = (ink.degrees,) if isinstance(ink, HatchInk) else (ink.dashes_mm, ink.width_mm)
        # A slit looks like a cut and has ticks at its ends; see the test above.
        seen.add((ink is SLIT, isinstance(ink, HatchInk), sign))
    assert len(seen) == len(LEGEND)


def test_a_legend_explains_what_is_used_and_nothing_else() -> None:
    shown = legend(["cut", "glue", "thin", "outline"])
    assert shown.texts() == ("cut", "adhesive")
    assert {"cut", "glue"} <= shown.kinds()
    assert "mountain" not in shown.kinds()


# Hatches -------------------------------------------------------------------------------------


@pytest.mark.parametrize("ink", [GLUE, WASTE], ids=lambda ink: ink.key)
def test_a_hatch_stays_inside_its_shape_and_off_its_holes(ink: HatchInk) -> None:
    outer = ((3.0, 2.0), (37.0, 4.0), (30.0, 28.0), (18.0, 12.0), (5.0, 25.0))
    hole = ((10.0, 6.0), (16.0, 6.0), (16.0, 10.0), (10.0, 10.0))
    shape = Polygon(outer, [hole])
    lines = [LineString(line) for line in hatch_lines((outer, hole), ink.degrees, ink.spacing_mm)]
    assert lines
    for line in lines:
        assert shape.buffer(1e-6).contains(line)
    # Lines every s over an area A are A / s long in all (Cavalieri), up to what the rim cuts off.
    expected = len(ink.degrees) * shape.area / ink.spacing_mm
    assert sum(line.length for line in lines) == pytest.approx(expected, rel=0.05)


@given(x=st.floats(0, 30), y=st.floats(0, 30), wide=st.floats(1.5, 30), high=st.floats(1.5, 30))
def test_the_hatch_of_any_rectangle_lies_in_it(
    x: float, y: float, wide: float, high: float
) -> None:
    ring = ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))
    for line in hatch_lines((ring,), (45.0,), 1.3):
        for u, v in line:
            assert x - 1e-9 <= u <= x + wide + 1e-9
            assert y - 1e-9 <= v <= y + high + 1e-9


def test_hatches_of_neighbours_carry_on_across_their_edge() -> None:
    one = hatch_lines((((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)),), (45.0,), 1.3)
    other = hatch_lines((((10.0, 0.0), (20.0, 0.0), (20.0, 10.0), (10.0, 10.0)),), (45.0,), 1.3)
    ends = {round(v, 6) for line in one for u, v in line if abs(u - 10) < 1e-6 and 0.1 < v < 9.9}
    starts = {
        round(v, 6) for line in other for u, v in line if abs(u - 10) < 1e-6 and 0.1 < v < 9.9
    }
    assert ends
    assert ends == starts


# Lettering -----------------------------------------------------------------------------------


def _advances(weight: str) -> tuple[dict[int, int], int]:
    """Advance widths by character, and units per em, read from the font file (OpenType spec)."""
    data = Path(font_source_sans_pro.font_directory, f"SourceSansPro-{weight}.ttf").read_bytes()
    tables = {}
    for index in range(struct.unpack(">H", data[4:6])[0]):
        tag, _, offset, _ = struct.unpack(">4sLLL", data[12 + 16 * index : 28 + 16 * index])
        tables[tag.decode()] = offset
    em = struct.unpack_from(">H", data, tables["head"] + 18)[0]
    metrics = struct.unpack_from(">H", data, tables["hhea"] + 34)[0]
    glyphs = {}
    cmap = tables["cmap"]
    for index in range(struct.unpack_from(">H", data, cmap + 2)[0]):
        platform, encoding, offset = struct.unpack_from(">HHL", data, cmap + 4 + 8 * index)
        at = cmap + offset
        if (platform, encoding) != (3, 1) or struct.unpack_from(">H", data, at)[0] != 4:
            continue
        count = struct.unpack_from(">H", data, at + 6)[0] // 2
        ends = struct.unpack_from(f">{count}H", data, at + 14)
        starts = struct.unpack_from(f">{count}H", data, at + 16 + 2 * count)
        deltas = struct.unpack_from(f">{count}h", data, at + 16 + 4 * count)
        ranges = struct.unpack_from(f">{count}H", data, at + 16 + 6 * count)
        for n, (start, end, delta, hop) in enumerate(
            zip(starts, ends, deltas, ranges, strict=True)
        ):
            for code in range(start, min(end, 126) + 1):
                glyph = code + delta
                if hop:
                    place = at + 16 + 6 * count + 2 * n + hop + 2 * (code - start)
                    glyph = struct.unpack_from(">H", data, place)[0]
                    glyph += delta if glyph else 0
                glyphs[code] = glyph % 65536
    widths = {
        code: struct.unpack_from(">H", data, tables["hmtx"] + 4 * min(glyph, metrics - 1))[0]
        for code, glyph in glyphs.items()
        if code >= 32
    }
    return widths, em


@pytest.mark.parametrize(("weight", "file"), [(REGULAR, "Regular"), (BOLD, "Semibold")])
def test_letters_are_as_wide_as_the_font_file_says(weight: int, file: str) -> None:
    # Within one unit in a thousand of the type size, by which the font's two formats differ.
    widths, em = _advances(file)
    assert len(widths) >= 95
    for code, width in widths.items():
        ours = width_mm(chr(code), 72.0, weight)
        assert ours == pytest.approx(width / em * 72.0 * POINT_MM, abs=0.03), chr(code)


def test_a_fraction_runs_narrower_than_its_figures_in_a_row() -> None:
    assert width_mm("11¹⁵⁄₁₆", 14) < width_mm("11 15/16", 14)
    assert width_mm("11¹⁵⁄₁₆", 14) == pytest.approx(width_mm("11 15⁄16", 14))


# Layout --------------------------------------------------------------------------------------


@given(
    st.lists(st.tuples(st.floats(0, 100), st.floats(1, 20)), min_size=1, max_size=9).map(
        lambda given: sorted(given)
    )
)
def test_spread_labels_keep_their_order_and_never_touch(
    labels: list[tuple[float, float]],
) -> None:
    centres, widths = [c for c, _ in labels], [w for _, w in labels]
    places = spread(centres, widths, 1.0)
    for (a, wa), (b, wb) in pairwise(zip(places, widths, strict=True)):
        assert b - a >= (wa + wb) / 2 + 1.0 - 1e-6
    roomy = all(cb - ca >= (wa + wb) / 2 + 1.0 for (ca, wa), (cb, wb) in pairwise(labels))
    if roomy:
        assert places == pytest.approx(centres)


def test_a_lay_carries_points_as_it_says() -> None:
    quarter = Lay(0, -1, 1, 0, 5, 0)
    assert quarter.at((2, 1)) == (4.0, 2.0)
    assert quarter.scaled(2).at((2, 1)) == (8.0, 4.0)
