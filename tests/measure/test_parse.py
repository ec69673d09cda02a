"""What makers write, and what the reader makes of it."""

from __future__ import annotations

import pytest

from snipfold.measure import Length, MeasureError, System, parse_length, parse_size


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("3 7/8 in", Length.inch("31/8")),
        ('3-7/8"', Length.inch("31/8")),
        ("3⅞ in", Length.inch("31/8")),
        ("3 ⅞”", Length.inch("31/8")),
        ("3 7⁄8 inches", Length.inch("31/8")),
        ("3.875 in", Length.inch("31/8")),
        ("½ in", Length.inch("1/2")),
        (".5in", Length.inch("1/2")),
        ("2 & 1/4 in", Length.inch("9/4")),
        ("98 mm", Length.mm(98)),
        ("9,8 cm", Length.mm(98)),
        ("9.8 CM", Length.mm(98)),
        ("17.25 centimetres", Length.mm("172.5")),
        ("  6 in.  ", Length.inch(6)),
        ("6 in", Length.inch(6)),
        ("0,125 in", Length.inch("1/8")),
    ],
)
def test_a_measure_is_read_as_the_maker_meant_it(text: str, meant: Length) -> None:
    assert parse_length(text) == meant


@pytest.mark.parametrize(
    ("text", "meant"),
    [("4 1/4", Length.inch("17/4")), ("½", Length.inch("1/2")), ("4.5", Length.inch("9/2"))],
)
def test_a_bare_number_counts_in_inches_for_a_maker_in_inches(text: str, meant: Length) -> None:
    assert parse_length(text, System.INCH) == meant


def test_a_bare_number_counts_in_millimetres_for_a_metric_maker() -> None:
    assert parse_length("95", System.METRIC) == Length.mm(95)


@pytest.mark.parametrize(
    "text",
    [
        "31/2 in",  # 3 1/2 with its space lost, or fifteen and a half
        "1,250 mm",  # a decimal comma, or thousands
        "3 9/8 in",  # no ruler reads so
        "7/0 in",
        "4",  # no unit, and nobody said which
        "4 furlongs",
        "4'",
        "0.3 m",
        "12 pt",
        "4 in 3/8",
        "3 7/8 / 2 in",
        "1e3 mm",
        "nan",
        "inf in",
        "in",
        "",
        "   ",
        "four in",
        "4..5 in",
        "4,5,6 mm",
        "9" * 60,
        "\x00",
    ],
)
def test_what_is_no_measure_or_could_be_two_is_refused_with_advice(text: str) -> None:
    with pytest.raises(MeasureError) as refused:
        parse_length(text)
    assert refused.value.reason
    assert refused.value.advice


def test_a_lost_space_is_answered_with_both_readings() -> None:
    with pytest.raises(MeasureError, match=r"3 1/2 or 15 1/2"):
        parse_length("31/2 in")


def test_a_comma_before_three_figures_is_answered_with_both_readings() -> None:
    with pytest.raises(MeasureError, match=r"1250 or 1\.250"):
        parse_length("1,250 mm")


def test_a_size_takes_its_unit_from_the_second_number() -> None:
    assert parse_size("8 1/2 x 11 in") == (Length.inch("17/2"), Length.inch(11))
    assert parse_size("30,5 × 30,5 cm") == (Length.mm(305), Length.mm(305))
    assert parse_size("210 by 297 mm") == (Length.mm(210), Length.mm(297))


@pytest.mark.parametrize("text", ["12", "12 in", "12 x", "x 12", "12 x 12 x 12 in", "a x b"])
def test_what_is_no_size_is_refused(text: str) -> None:
    with pytest.raises(MeasureError):
        parse_size(text)
