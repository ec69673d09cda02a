"""Templates: full size, whole outlines, layers of their own."""

import pytest

from snipfold.drawing import svg, template_drawing
from snipfold.flat import area

from . import samples
from .reading import paths


def _area(ring: list[tuple[float, float]]) -> float:
    return sum(
        x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(ring, ring[1:] + ring[:1], strict=True)
    ) / 2  # fmt: skip


@pytest.mark.parametrize("name", samples.NAMES)
def test_the_cut_line_encloses_exactly_the_panels(name: str) -> None:
    for piece, drawing in zip(
        samples.design(name).construction.pieces,
        samples.templates(samples.design(name)),
        strict=True,
    ):
        loops = [path for path in paths(svg(drawing)) if path.layer == "cut"]
        assert all(path.closed for path in loops)
        panels = sum(float(area(panel.corners)) for panel in piece.panels)
        # Coordinates are written to 1e-4 mm, so over a rim of a metre areas agree to 0.1 mm2.
        assert sum(_area(path.subpaths[0]) for path in loops) == pytest.approx(panels, abs=0.1)


@pytest.mark.parametrize("name", samples.NAMES)
def test_every_score_is_written_at_full_size(name: str) -> None:
    margin = 7.0
    for piece in samples.design(name).construction.pieces:
        text = svg(template_drawing(piece, margin_mm=margin))
        written = {
            tuple(sorted((round(x - margin, 3), round(y - margin, 3)) for x, y in line))
            for path in paths(text)
            if path.layer.startswith("score")
            for line in path.subpaths
        }
        meant = {
            tuple(sorted((round(float(p.x), 3), round(float(p.y), 3)) for p in (s.start, s.end)))
            for s in piece.scores
        }
        assert written == meant


def test_a_template_alone_has_no_pencil_marks_and_one_with_a_strap_has_them() -> None:
    of = samples.design("bag")
    (piece,) = of.construction.pieces
    assert of.dressing.strap is not None
    bare = template_drawing(piece)
    marked = template_drawing(piece, marks=of.dressing.strap.marks)
    assert "pencil marks" not in {layer.name for layer in bare.layers}
    (pencil,) = [layer for layer in marked.layers if layer.name == "pencil marks"]
    assert len(pencil.marks) == len(of.dressing.strap.marks)
    assert {layer.name for layer in marked.only("cut", "pencil marks").layers} == {
        "cut",
        "pencil marks",
    }
