"""The written SVG: real units, real fractions, nothing that readers draw differently."""

import itertools
import xml.etree.ElementTree as ET
from fractions import Fraction
from math import hypot

import pytest

from snipfold.drawing import Drawing, scale_check, svg
from snipfold.drawing.inks import CUT
from snipfold.drawing.scene import Layer, Stroke, Text
from snipfold.measure import Length, System, typeset_number

from . import samples
from .reading import NAMESPACE, paths, size_mm, texts


def _drawn(*marks: object) -> str:
    return svg(Drawing("a name", 80.0, 40.0, (Layer("one", marks),), "what is seen"))  # type: ignore[arg-type]


def test_four_inches_and_a_hundred_millimetres_measure_true_in_the_written_file() -> None:
    runs = {
        round(hypot(b[0] - a[0], b[1] - a[1]), 3)
        for path in paths(svg(scale_check()))
        for line in path.subpaths
        for a, b in itertools.pairwise(line)
    }
    # 4 in = 101.6 mm and 1 in = 25.4 mm exactly (NIST SP 811).
    assert {101.6, 100.0, 50.0, 25.4} <= runs


def test_the_lower_left_corner_of_a_drawing_is_its_origin() -> None:
    (path,) = paths(_drawn(Stroke(((0.0, 0.0), (80.0, 40.0)), CUT)))
    assert path.subpaths == [[(0.0, 0.0), (80.0, 40.0)]]
    assert size_mm(_drawn()) == (80.0, 40.0)


@pytest.mark.parametrize("inch", ["7/8", "31/8", "191/16", "10", "1/64", "21/2"])
def test_a_fraction_reads_as_the_measure_that_it_stands_for(inch: str) -> None:
    length = Length.inch(inch)
    (said,) = texts(_drawn(Text((10.0, 10.0), typeset_number(length, System.INCH), 14.0)))
    value = sum((Fraction(part.replace("⁄", "/")) for part in said.split()), Fraction(0))
    assert value == length.as_inch


def test_words_with_signs_of_markup_come_out_as_they_are() -> None:
    says = 'jam & "bread" <1>'
    assert texts(_drawn(Text((10.0, 10.0), says, 10.0))) == [says]


@pytest.mark.parametrize("name", samples.NAMES)
def test_hatches_are_lines_and_nothing_needs_a_clever_reader(name: str) -> None:
    plain = {"svg", "title", "desc", "g", "path", "text", "tspan"}
    for drawing in samples.pictures(name):
        root = ET.fromstring(svg(drawing))
        assert {element.tag.removeprefix(NAMESPACE) for element in root.iter()} <= plain
        assert root.attrib["role"] == "img"
        assert root.attrib["aria-label"] == drawing.alt != ""


def test_layers_are_groups_that_carry_their_names() -> None:
    drawing = next(samples.templates(samples.design("bag")))
    root = ET.fromstring(svg(drawing))
    groups = [group.attrib for group in root.iter(NAMESPACE + "g")]
    assert [g["data-layer"] for g in groups] == [layer.name for layer in drawing.layers]
    assert "score-mountain" in {g["id"] for g in groups}
    without = ET.fromstring(svg(drawing, layer_ids=False))
    assert not any("id" in element.attrib for element in without.iter())
