"""Words on their way to the page."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from snipfold.guide import Size
from snipfold.measure import Length, System
from snipfold.publish.page_text import runs, text_runs
from snipfold.publish.type_faces import printable


def test_a_measure_is_parted_into_whole_fraction_and_unit() -> None:
    said = runs(("at ", Length.inch("31/8"), Size(Length.inch("7/8"), Length.inch(8))), System.INCH)
    assert said == [
        "at ",
        {"figures": [["3", "7/8"]], "unit": "in"},
        {"figures": [["", "7/8"], ["8", ""]], "unit": "in"},
    ]


def test_metric_measures_are_decimal() -> None:
    assert runs((Length.mm(98),), System.METRIC) == [{"figures": [["9.8", ""]], "unit": "cm"}]


@pytest.mark.parametrize("text", ["12/24/2025", "and/or", "1/2/3", "v1.3/4", "3/4x", "1 000/3000"])
def test_what_is_no_measure_is_left_as_it_is(text: str) -> None:
    assert text_runs(text) == [text]


@given(st.text(max_size=60))
def test_printable_text_stays_printable(text: str) -> None:
    once = printable(text)
    assert printable(once) == once
    assert "\n" not in once
