"""Envelopes: published sizes, and the smallest that takes the parts."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from snipfold.measure import ZERO, Length, System, parse_length
from snipfold.supplies import EASE, PUBLISHED, smallest, takes
from snipfold.workshop import Envelope

INCH, MM = Length.inch, Length.mm
US, ISO = PUBLISHED[System.INCH], PUBLISHED[System.METRIC]
A_STYLES = [one for one in US if one.name.startswith("US A")]
WIKI = "http://the-uncensored-wiki.com:20082/articles/e/n/v/Envelope_size.html"


def named(name: str) -> Envelope:
    return next(one for one in (*US, *ISO) if one.name == name)


@pytest.mark.parametrize(
    ("name", "short", "long"),
    [
        # The inch column of WIKI.
        ("US A2", "4 3/8", "5 3/4"), ("US A6", "4 3/4", "6 1/2"), ("US A7", "5 1/4", "7 1/4"),
        ("US No. 6 3/4", "3 5/8", "6 1/2"), ("US No. 9", "3 7/8", "8 7/8"),
        ("US No. 10", "4 1/8", "9 1/2"),
        # https://dimensionsguide.com/envelope-sizes
        ("US A8", "5 1/2", "8 1/8"), ("US A10", "6", "9 1/2"), ("US 6 x 9 booklet", "6", "9"),
        ("US 9 x 12 booklet", "9", "12"), ("US 10 x 13 booklet", "10", "13"),
    ],
)  # fmt: skip
def test_us_sizes_are_those_published_in_inches(name: str, short: str, long: str) -> None:
    sides = [parse_length(f"{side} in") for side in (short, long)]
    assert sorted((named(name).width, named(name).height)) == sides


@pytest.mark.parametrize(
    ("name", "short", "long"),
    [
        # ISO 269, and the C series of ISO 216 (WIKI; ISO 216 table at
        # https://www.wiki3.en-us.nina.az/ISO_216.html).
        ("ISO DL", 110, 220), ("ISO C6", 114, 162), ("ISO C6/C5", 114, 229),
        ("ISO C5", 162, 229), ("ISO C4", 229, 324),
    ],
)  # fmt: skip
def test_iso_sizes_are_those_of_the_standard(name: str, short: int, long: int) -> None:
    assert sorted((named(name).width, named(name).height)) == [MM(short), MM(long)]


@pytest.mark.parametrize(
    ("name", "exact", "published"),
    [
        # WIKI prints 110.3 x 144.9 and 104.0 x 239.4 mm beside the inches, at about 25.2 mm to the
        # inch; an inch is 25.4 mm exactly.
        ("US A2", ("111.125", "146.05"), ("110.3", "144.9")),
        ("US No. 10", ("104.775", "241.3"), ("104.0", "239.4")),
    ],
)
def test_the_published_column_of_millimetres_is_wrong_and_not_ours(
    name: str, exact: tuple[str, str], published: tuple[str, str]
) -> None:
    ours = sorted((named(name).width, named(name).height))
    assert ours == [MM(side) for side in exact]
    assert all(mine > MM(wrong) for mine, wrong in zip(ours, published, strict=True))


def test_a_quarter_letter_card_goes_into_an_a2_envelope() -> None:
    """https://stampingimperfection.com/stamping-101-how-to-create-card-layers: A2 card 4.25 x 5.5."""
    card = [(INCH("17/4"), INCH("11/2"))]
    found = smallest(US, card, MM("0.5"), EASE[System.INCH])
    assert found is not None
    assert found.name == "US A2"


@pytest.mark.parametrize(
    ("envelope", "width", "height"),
    [
        # Largest enclosures as published at https://www.thoughtco.com/envelope-design-styles-4122796
        ("US A2", "11/2", "33/8"), ("US A6", "25/4", "9/2"), ("US A7", "7", "5"),
        ("US A8", "63/8", "21/4"), ("US A10", "37/4", "23/4"),
    ],
)  # fmt: skip
def test_published_enclosures_go_into_their_a_style_envelope_and_no_smaller_one(
    envelope: str, width: str, height: str
) -> None:
    found = smallest(A_STYLES, [(INCH(width), INCH(height))], MM("0.5"), EASE[System.INCH])
    assert found is not None
    assert found.name == envelope


def test_a_letter_sheet_folded_in_three_goes_into_a_no_10_and_not_into_a_no_6() -> None:
    """Letter 8 1/2 x 11 in, in three, in a No. 10
    (https://info.eliteenvelope.com/blog/topic/envelope-sizes)."""
    letter = [(INCH("17/2"), INCH("11/3"))]
    assert takes(named("US No. 10"), letter, MM("0.4"), EASE[System.INCH])
    assert not takes(named("US No. 6 3/4"), letter, MM("0.4"), EASE[System.INCH])


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [
        # ISO 269: C6 takes A6 flat, C5 takes A5, C4 takes A4, DL takes A4 in three.
        ("ISO C6", 105, 148), ("ISO C5", 148, 210), ("ISO C4", 210, 297), ("ISO DL", 99, 210),
    ],
)  # fmt: skip
def test_iso_sheets_go_into_the_envelope_made_for_them(name: str, width: int, height: int) -> None:
    found = smallest(ISO, [(MM(width), MM(height))], MM("0.5"), EASE[System.METRIC])
    assert found is not None
    assert found.name == name


def test_a_thick_pile_takes_room_off_the_width() -> None:
    """A flat tube 162 mm wide has a girth of 324 mm: round 150 x 12 mm it just goes, 150 x 13 not."""
    envelope = [Envelope("C5", MM(162), MM(229))]
    part = [(MM(150), MM(200))]
    assert smallest(envelope, part, MM(12)) is not None
    assert smallest(envelope, part, MM(13)) is None


def test_what_goes_in_no_envelope_is_said_so() -> None:
    assert smallest(US, [(INCH(12), INCH(12))], MM(1), EASE[System.INCH]) is None


@given(st.integers(10, 400), st.integers(10, 400), st.integers(0, 30))
def test_the_smallest_takes_the_part_and_no_smaller_one_does(w: int, h: int, t: int) -> None:
    part = [(MM(w), MM(h))]
    found = smallest(ISO, part, MM(t))
    fitting = [one for one in ISO if takes(one, part, MM(t), ZERO)]
    assert (found is None) == (not fitting)
    if found is not None:
        areas = [one.width.as_mm * one.height.as_mm for one in fitting]
        assert found.width.as_mm * found.height.as_mm == min(areas)
        assert smallest(ISO, [(MM(h), MM(w))], MM(t)) == found, "lying the other way"
