"""Arrangements of treats, against published packings and against trying every grid."""

from __future__ import annotations

from itertools import product
from math import pi, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from snipfold.measure import Length, total
from snipfold.sizing import (
    Arrange,
    Ball,
    Block,
    Bunch,
    Loose,
    Round,
    Rows,
    Treats,
    Way,
    bunches,
    loose_bunches,
)

I = Length.inch  # noqa: E741
STANDING = Way.STANDING

#: Smallest square for n circles of radius 1. Source: https://erich-friedman.github.io/packing/cirinsqu/
#: and https://infogalactic.com/info/Circle_packing_in_a_square
SQUARES = {
    1: 2, 2: 3.414214, 3: 3.931852, 4: 4, 5: 4.828427, 6: 5.328201, 7: 5.732051, 8: 5.863703,
    9: 6, 10: 6.747, 12: 7.144958, 14: 7.732051, 15: 7.863703, 16: 8, 18: 8.656402, 20: 8.978083,
}  # fmt: skip

#: Most circles of area 1 in a square of area n = 1, 2, …. Source: OEIS A337020.
MOST_IN_AREA = (
    0, 1, 1, 2, 3, 4, 4, 5, 5, 6, 8, 9, 9, 9, 10, 11, 12, 13, 13, 15, 16, 16, 16, 18, 18, 20, 20,
    21, 22, 22,
)  # fmt: skip


def layer(count: int, across: Length, rows: Rows = Rows.EITHER) -> tuple[Bunch, ...]:
    """All ways to stand so many round treats in one layer."""
    return bunches([Treats(Round(across, I(1)), count, Arrange(STANDING, rows, high=1))])


def square_side(count: int) -> float:
    """The side, mm, of the smallest square that a layer of circles of radius 1 mm is put into."""
    return min(max(b.width, b.depth).float_mm for b in layer(count, Length.mm(2)))


@pytest.mark.parametrize("count", SQUARES)
def test_no_layer_of_tins_is_smaller_than_the_best_packing_known(count: int) -> None:
    assert square_side(count) >= SQUARES[count] - 1e-6


@pytest.mark.parametrize("count", [1, 2, 4, 5, 9, 16])
def test_rows_reach_the_best_packing_where_that_is_in_rows(count: int) -> None:
    """Square rows are best for 1, 4, 9, 16 (https://newikis.com/en/Circle_packing_in_a_rectangle);
    2 and 5 stand on the corners of a square lattice."""
    assert square_side(count) == pytest.approx(SQUARES[count], abs=1e-6)


@pytest.mark.parametrize("area", range(1, len(MOST_IN_AREA) + 1))
def test_no_square_takes_more_than_the_published_limit(area: int) -> None:
    one_too_many = MOST_IN_AREA[area - 1] + 1
    assert square_side(one_too_many) * (1 / sqrt(pi)) > sqrt(area) - 1e-6


def most_that_fit(across: str, width: str, depth: str, rows: Rows) -> int:
    def fits(count: int) -> bool:
        return any(
            b.width <= I(width) and b.depth <= I(depth) for b in layer(count, I(across), rows)
        )

    return max(count for count in range(1, 60) if fits(count))


@pytest.mark.parametrize(
    ("across", "width", "depth", "square", "staggered"),
    [
        # Derived: floor(w/d) floor(h/d) in line; staggered rows 0.866 d apart.
        ("2", "8", "21/2", 20, 18),
        ("3/2", "8", "21/2", 35, 39),
        ("9/4", "8", "21/2", 12, 15),
        ("2", "12", "12", 36, 33),
    ],
)
def test_both_kinds_of_rows_are_tried_since_either_may_hold_more(
    across: str, width: str, depth: str, square: int, staggered: int
) -> None:
    assert most_that_fit(across, width, depth, Rows.SQUARE) == square
    assert most_that_fit(across, width, depth, Rows.STAGGERED) == staggered


@given(st.integers(2, 60), st.integers(10, 90))
@settings(max_examples=60, deadline=None)
def test_staggered_tins_are_no_denser_than_the_hexagonal_limit(count: int, across: int) -> None:
    """Source: the limit pi / (2 sqrt 3), as in the comment to OEIS A337020."""
    for bunch in layer(count, Length.mm(across), Rows.STAGGERED):
        discs = count * pi * across**2 / 4
        # The limit is that of the plane; in a box, it holds for the box without its rim.
        assert discs <= bunch.width.float_mm * bunch.depth.float_mm * pi / (2 * sqrt(3)) * (
            1 + 1e-9
        )


def undercut(one: tuple[int, ...], others: set[tuple[int, ...]]) -> bool:
    return any(
        other != one and all(b <= a for a, b in zip(one, other, strict=True)) for other in others
    )


@pytest.mark.parametrize("count", [1, 2, 3, 5, 6, 8])
@pytest.mark.parametrize("way", [Way.STANDING, Way.EITHER])
def test_blocks_are_arranged_as_trying_every_grid_and_turn_finds(count: int, way: Way) -> None:
    w, d, h = 31, 17, 11
    turns = [(w, d, h), (d, w, h)]
    if way is Way.EITHER:
        turns += [(w, h, d), (h, w, d), (d, h, w), (h, d, w)]
    every: set[tuple[int, ...]] = {
        (sides[0] * a, sides[1] * b, sides[2] * c)
        for sides in turns
        for a, b, c in product(range(1, count + 1), repeat=3)
        if a * b * c >= count
    }
    least = {sides for sides in every if not undercut(sides, every)}
    found = bunches([Treats(Block(*map(Length.mm, (w, d, h))), count, Arrange(way))])
    assert {tuple(int(side.as_mm) for side in bunch.sides) for bunch in found} == least
    assert len(found) == len(least)


SHAPES = st.one_of(
    st.builds(Round, st.integers(5, 80).map(Length.mm), st.integers(3, 80).map(Length.mm)),
    st.builds(Ball, st.integers(5, 80).map(Length.mm)),
    st.builds(Block, *[st.integers(3, 80).map(Length.mm)] * 3),
)


def volume_mm3(shape: Round | Ball | Block) -> float:
    if isinstance(shape, Block):
        return shape.width.float_mm * shape.depth.float_mm * shape.height.float_mm
    across = shape.across.float_mm
    if isinstance(shape, Ball):
        return pi * across**3 / 6
    return pi * across**2 / 4 * shape.height.float_mm


@given(SHAPES, st.integers(1, 24))
@settings(max_examples=40, deadline=None)
def test_treats_never_need_more_room_than_their_bunch_has(
    shape: Round | Ball | Block, count: int
) -> None:
    found = bunches([Treats(shape, count)])
    assert found
    for bunch in found:
        w, d, h = (side.float_mm for side in bunch.sides)
        assert w * d * h >= count * volume_mm3(shape) * (1 - 1e-9)


def test_a_number_that_is_said_is_kept() -> None:
    lot = Treats(Block(I(2), I(1), I("1/2")), 12, Arrange(across=3, high=2))
    for bunch in bunches([lot]):
        assert bunch.height == I(1)
        assert bunch.width in (I(6), I(3))
        assert bunch.says.startswith("3 across, 2 deep, 2 high")


def test_standing_tins_stand_and_lying_tins_lie() -> None:
    tin = Round(I(3), I(1))
    stood = bunches([Treats(tin, 1, Arrange(Way.STANDING))])
    assert [bunch.sides for bunch in stood] == [(I(3), I(3), I(1))]
    lain = {bunch.sides for bunch in bunches([Treats(tin, 1, Arrange(Way.LYING))])}
    assert lain == {(I(1), I(3), I(3)), (I(3), I(1), I(3))}


def test_an_arrangement_that_is_too_small_is_refused() -> None:
    with pytest.raises(ValueError, match="cannot be arranged"):
        bunches([Treats(Block(I(1), I(1), I(1)), 9, Arrange(across=2, deep=2, high=2))])


def test_one_lot_stands_upon_another() -> None:
    lower, upper = Block(I(3), I(2), I(1)), Block(I(2), I(2), I("1/2"))
    heights = {
        bunch.height for bunch in bunches([Treats(lower), Treats(upper, 2, Arrange(high=2))])
    }
    assert heights == {total([I(1), I("1/2"), I("1/2")])}


@given(st.integers(1000, 3_000_000), st.sampled_from(["1", "3/5", "7/10"]))
@settings(max_examples=60, deadline=None)
def test_loose_treats_get_exactly_the_room_they_need(volume: int, share: str) -> None:
    from fractions import Fraction

    loose = Loose(Fraction(volume), Fraction(share))
    for bunch in loose_bunches(loose):
        w, d, h = (side.as_mm for side in bunch.sides)
        assert w * d * h == Fraction(volume) / Fraction(share)
        assert max(w, d, h) <= 5 * min(w, d, h)
