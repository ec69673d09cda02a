"""Laws of exact measures, for any measure."""

from __future__ import annotations

import pickle
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from snipfold.measure import Length, Ruler, System, parse_length, total, words

sixty_fourths = st.integers(0, 64 * 200).map(lambda n: Length.inch(Fraction(n, 64)))
hundredths_mm = st.integers(0, 100 * 3000).map(lambda n: Length.mm(Fraction(n, 100)))
lengths = st.fractions(min_value=0, max_value=5000, max_denominator=10**6).map(Length.mm)
rulers = st.sampled_from(
    [Ruler(Length.inch(Fraction(1, d))) for d in (8, 16, 32)]
    + [Ruler(Length.mm(Fraction(n))) for n in (1, 5, 10)]
)


@given(sixty_fourths)
def test_inches_read_back_as_they_are_worded(length: Length) -> None:
    assert parse_length(words(length, System.INCH)) == length


@given(hundredths_mm)
def test_centimetres_read_back_as_they_are_worded(length: Length) -> None:
    assert parse_length(words(length, System.METRIC)) == length


@given(lengths)
def test_words_without_about_are_exact_and_with_about_are_near(length: Length) -> None:
    for system, finest in ((System.INCH, Length.inch("1/64")), (System.METRIC, Length.mm("0.01"))):
        worded = words(length, system)
        read = parse_length(worded.removeprefix("about "))
        if worded.startswith("about "):
            assert length != read
            assert abs(length - read) * 2 <= finest
        else:
            assert length == read


@given(lengths, rulers)
def test_the_nearest_mark_lies_within_half_a_graduation(length: Length, ruler: Ruler) -> None:
    mark = ruler.nearest(length)
    assert ruler.has(mark)
    assert abs(mark - length) * 2 <= ruler.graduation
    assert ruler.below(length) <= length <= ruler.above(length)
    assert ruler.below(length) <= mark <= ruler.above(length)


@given(st.lists(lengths, max_size=8))
def test_sums_are_exact_in_any_order(parts: list[Length]) -> None:
    assert total(parts) == total(reversed(parts))
    assert total(parts).as_mm == sum((part.as_mm for part in parts), Fraction(0))


@given(lengths)
def test_inches_and_millimetres_agree_and_a_length_survives_storing(length: Length) -> None:
    assert Length.inch(length.as_inch) == Length.cm(length.as_cm) == length
    assert pickle.loads(pickle.dumps(length)) == length


@pytest.mark.parametrize("value", [3.5, True, None])
def test_a_length_is_never_made_from_a_float(value: object) -> None:
    with pytest.raises(TypeError):
        Length.mm(value)  # type: ignore[arg-type]


def test_a_bare_number_cannot_be_added_to_a_length() -> None:
    with pytest.raises(TypeError, match=r"Length\.inch\(3\)"):
        Length.inch(1) + 3  # type: ignore[operator]
