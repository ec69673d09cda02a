"""The cut file says what a machine does, at the true size, on layers that any program can read."""

import re
from xml.etree import ElementTree

import pytest
from shapely import Polygon
from shapely.ops import unary_union

from snipfold.flat import EdgeKind, Fold, area
from snipfold.measure import System
from snipfold.publish.cut_svg import files

from .designs import STYLES, design

SVG = "{http://www.w3.org/2000/svg}"
EDITIONS = [(style, system) for style in STYLES for system in System]


def groups(text: str) -> dict[str, list[list[tuple[float, float]]]]:
    """The paths of each named group, as points."""
    root = ElementTree.fromstring(text)
    return {
        group.attrib["id"]: [
            [(float(x), float(y)) for x, y in re.findall(r"[ML](\S+) ([^ ML]+)", path.attrib["d"])]
            for path in group.findall(f"{SVG}path")
        ]
        for group in root.findall(f"{SVG}g")
    }


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_each_piece_has_a_file_at_its_true_size(style: str, system: System) -> None:
    """Real units: SVG 1.1, 7.10; one inch is 25.4 mm exactly."""
    made = design(style, system)
    written = files(made, "letter")
    assert set(written) == {f"cut-{piece.name}.svg" for piece in made.construction.pieces}
    for piece in made.construction.pieces:
        root = ElementTree.fromstring(written[f"cut-{piece.name}.svg"])
        _, _, width, height = (float(v) for v in root.attrib["viewBox"].split())
        unit, mm = ("in", 25.4) if system is System.INCH else ("mm", 1.0)
        assert root.attrib["width"].endswith(unit)
        assert root.attrib["height"].endswith(unit)
        assert float(root.attrib["width"].removesuffix(unit)) * mm == pytest.approx(width)
        assert float(root.attrib["height"].removesuffix(unit)) * mm == pytest.approx(height)
        assert width == pytest.approx(float(piece.width.as_mm))
        assert height == pytest.approx(float(piece.height.as_mm))


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_the_outline_encloses_just_the_panels(style: str, system: System) -> None:
    """Areas by Shapely against the exact areas of the panels."""
    made = design(style, system)
    for piece in made.construction.pieces:
        cuts = groups(files(made, "letter")[f"cut-{piece.name}.svg"].decode())["cut"]
        shape = unary_union([Polygon(points) for points in cuts if len(points) > 2])
        panels = float(sum(area(panel.corners) for panel in piece.panels))
        assert shape.area == pytest.approx(panels, abs=0.05)
        around = sum(
            ((piece.vertices[e.start].x - piece.vertices[e.end].x) ** 2
             + (piece.vertices[e.start].y - piece.vertices[e.end].y) ** 2) ** 0.5
            for e in piece.edges
            if e.kind is EdgeKind.CUT
        )  # fmt: skip
        assert shape.length == pytest.approx(float(around), abs=0.01)


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_scores_lie_on_the_layer_of_their_fold(style: str, system: System) -> None:
    made = design(style, system)
    for piece in made.construction.pieces:
        layers = groups(files(made, "letter")[f"cut-{piece.name}.svg"].decode())
        top = float(piece.height.as_mm)
        for fold, layer in ((Fold.MOUNTAIN, "score-mountain"), (Fold.VALLEY, "score-valley")):
            wanted = sorted(
                sorted((round(float(p.x), 3), round(top - float(p.y), 3)) for p in (s.start, s.end))
                for s in piece.scores
                if s.fold is fold
            )
            drawn = sorted(
                sorted((round(x, 3), round(y, 3)) for x, y in run) for run in layers[layer]
            )
            assert drawn == wanted


def test_the_marks_of_the_strap_are_pencil() -> None:
    made = design("wrap bag", System.INCH)
    assert made.dressing.strap is not None
    layers = groups(files(made, "letter")["cut-bag.svg"].decode())
    assert len(layers["pencil"]) == len(made.dressing.strap.marks) > 0


def test_every_layer_is_titled_in_plain_svg() -> None:
    text = files(design("wrap bag", System.INCH), "letter")["cut-bag.svg"].decode()
    root = ElementTree.fromstring(text)
    titles = [group.findtext(f"{SVG}title") for group in root.findall(f"{SVG}g")]
    assert titles == ["cut", "score mountain", "score valley", "pencil"]
    assert all(element.tag.startswith(SVG) for element in root.iter())
    assert all("{" not in name for element in root.iter() for name in element.attrib)
