"""Published sizes, factors and roundings, and published mistakes that must not be repeated."""

from __future__ import annotations

from fractions import Fraction

import pytest

from snipfold.measure import Length, Ruler, System, parse_length, words

_CM = Ruler(Length.cm(1))
_MM = Ruler(Length.mm(1))


def test_an_inch_is_25_point_4_mm_exactly() -> None:
    """International inch; NIST factor tables print the factor in bold, as exact.

    FOLD specification, frame_unit, "in: inches (25.4 mm)"
    (https://github.com/edemaine/fold, doc/spec.md).
    """
    assert Length.inch(1) == Length.mm("25.4")
    assert Length.inch("1/16") == Length.mm("1.5875")
    assert Length.inch("1/8") == Length.mm("3.175")


@pytest.mark.parametrize(
    ("inches", "ruler", "rounded"),
    [
        ("36", _CM, Length.cm(91)),  # not 91.44 cm
        ("40.1", _MM, Length.cm("101.9")),  # not 101.854 cm
    ],
)
def test_rounding_follows_the_examples_of_the_nist_metric_style_guide(
    inches: str, ruler: Ruler, rounded: Length
) -> None:
    """NIST Metric Style Guide LC 1137, as quoted at
    http://daysontheweb.blogspot.com/2006/10/nist-metric-information-an_116135405415359333.html
    """
    assert ruler.nearest(Length.inch(inches)) == rounded


def test_rounding_once_at_the_end_differs_from_rounding_twice() -> None:
    """Convert with the exact factor, round once at the end: the author of the NASA SP-7012
    tables, https://www.mail-archive.com/usma@colostate.edu/msg15680.html. Eight walls of
    1 3/8 in, rounded each for itself, come out a millimetre too long."""
    wall = Length.inch("11/8")
    assert _MM.nearest(wall * 8) == Length.mm(279)
    assert _MM.nearest(wall) * 8 == Length.mm(280)


def test_ten_inches_are_not_250_mm() -> None:
    """Published error: a packaging page counts 25 mm to the inch
    (http://www.planpack.co.uk/boxinfo.php), 4 mm short on 10 in."""
    assert parse_length("10 in") - parse_length("250 mm") == Length.mm(4)


@pytest.mark.parametrize(
    ("envelope", "width", "height", "right", "published_wrong"),
    [
        ("A2", "4 3/8 in", "5 3/4 in", ("111.1", "146.1"), ("110.3", "144.9")),
        ("No. 10", "4 1/8 in", "9 1/2 in", ("104.8", "241.3"), ("104.0", "239.4")),
    ],
)
def test_envelopes_convert_right_where_a_published_table_does_not(
    envelope: str, width: str, height: str, right: tuple[str, str], published_wrong: tuple[str, str]
) -> None:
    """Published error: a table that counts about 25.2 mm to the inch
    (http://the-uncensored-wiki.com:20082/articles/e/n/v/Envelope_size.html)."""
    tenth = Ruler(Length.mm("0.1"))
    for text, good, bad in zip((width, height), right, published_wrong, strict=True):
        assert tenth.nearest(parse_length(text)) == Length.mm(good)
        assert abs(parse_length(text) - Length.mm(bad)) > Length.mm("0.5")


def test_tenths_on_a_ruler_are_not_eighths() -> None:
    """Published mishap: a ruler divided in tenths read as eighths, every box scored wrong
    (http://cardsbymaaike.blogspot.com/2016/01/4-boxes-for-3-scented-tealights-from.html)."""
    eighths = Ruler(Length.inch("1/8"))
    assert not eighths.has(parse_length("3.7 in"))
    assert eighths.nearest(parse_length("3.7 in")) == parse_length("3 3/4 in")


def test_the_us_sizes_are_what_their_standard_says() -> None:
    """ANSI/ASME Y14.1 size A and B: 8.5 x 11 in, 11 x 17 in."""
    assert parse_length("8 1/2 in") == Length.mm("215.9")
    assert parse_length("11 in") == Length.mm("279.4")


def test_a_tie_goes_up() -> None:
    """Half a graduation over is read as "a little over" (common practice, no source)."""
    assert Ruler(Length.inch("1/16")).nearest(Length.inch("1/32")) == Length.inch("1/16")


@pytest.mark.parametrize(
    ("length", "system", "worded"),
    [
        # "8 9/16 x 9 13/16", catherinepooler.com 2013, "1/16 rule of box making"
        (Length.inch("137/16"), System.INCH, "8 9/16 in"),
        (Length.inch("157/16"), System.INCH, "9 13/16 in"),
        # "17.25 x 17.25", stampinmoments.com 2008, "box measurements"
        (Length.mm("172.5"), System.METRIC, "17.25 cm"),
        (Length.mm(45), System.METRIC, "4.5 cm"),
        (Length.inch(6), System.INCH, "6 in"),
    ],
)
def test_measures_are_worded_as_published_tutorials_print_them(
    length: Length, system: System, worded: str
) -> None:
    assert words(length, system) == worded


def test_a_measure_off_every_ruler_is_given_as_about() -> None:
    assert words(Length.mm(98), System.INCH) == "about 3 55/64 in"
    assert abs(Length.mm(98) - Length.inch(Fraction(3 * 64 + 55, 64))) < Length.inch("1/128")
