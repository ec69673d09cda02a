"""Rotations against an independent library, and poses against what a ruler would say."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from snipfold.flat import Blank, Fold, Point, Role
from snipfold.folding import Vec, pose, turned
from snipfold.measure import ZERO, Length
from snipfold.styles import Stand

coordinates = st.floats(-500, 500, allow_nan=False)
vectors = st.builds(Vec, coordinates, coordinates, coordinates)


@given(vectors, vectors.filter(lambda v: v.length() > 1), st.floats(-360, 360))
@settings(max_examples=200, deadline=None)
def test_turning_agrees_with_scipys_rotations(step: Vec, axis: Vec, degrees: float) -> None:
    """Reference: scipy.spatial.transform.Rotation (general-purpose reference library)."""
    unit = axis.unit()
    reference = Rotation.from_rotvec(np.array(unit) * math.radians(degrees)).apply(np.array(step))
    assert np.allclose(np.array(turned(step, unit, degrees)), reference, atol=1e-9)


@pytest.mark.parametrize("quarters", [1, 2, 3, 4, -1, -2])
def test_quarter_turns_are_exact(quarters: int) -> None:
    once = turned(Vec(3.0, 5.0, 7.0), Vec(0.0, 0.0, 1.0), 90.0 * quarters)
    turns = {1: (-5.0, 3.0), 2: (-3.0, -5.0), 3: (5.0, -3.0), 4: (3.0, 5.0)}
    assert once == (*turns[(quarters - 1) % 4 + 1], 7.0)


def card(fold: Fold, degrees: int) -> tuple[object, object]:
    blank = Blank("card", Length.mm(60), Length.mm(40))
    w, m, h = Length.mm(60), Length.mm(20), Length.mm(40)
    blank.panel("left", Role.WALL, (ZERO, ZERO), (m, ZERO), (m, h), (ZERO, h))
    blank.panel("right", Role.WALL, (m, ZERO), (w, ZERO), (w, h), (m, h))
    blank.score("left", "right", fold, degrees)
    stand = Stand("card", "left", (1, 0, 0), (0, 1, 0), Point(*(ZERO.as_mm,) * 2), (ZERO,) * 3)
    return blank.build(), stand


@pytest.mark.parametrize(("fold", "side"), [(Fold.MOUNTAIN, -1), (Fold.VALLEY, 1)])
def test_a_mountain_folds_away_from_who_sees_the_outside_and_a_valley_towards(
    fold: Fold, side: int
) -> None:
    piece, stand = card(fold, 90)
    folded = pose(piece, stand, {("left", "right"): 90.0})  # type: ignore[arg-type]
    far = folded.placed["right"].corners[1]
    assert far == pytest.approx((20, 0, side * 40))


@given(st.floats(0, 180), st.sampled_from(Fold))
@settings(max_examples=60, deadline=None)
def test_folding_keeps_every_length_and_unfolding_undoes_it(degrees: float, fold: Fold) -> None:
    piece, stand = card(fold, 90)
    folded = pose(piece, stand, {("left", "right"): degrees})  # type: ignore[arg-type]
    flat = pose(piece, stand, {("left", "right"): 0.0})  # type: ignore[arg-type]
    for panel in ("left", "right"):
        a, b = folded.placed[panel].corners, flat.placed[panel].corners
        for i in range(4):
            j = (i + 2) % 4
            assert a[i].minus(a[j]).length() == pytest.approx(b[i].minus(b[j]).length())
        for corner, spot in zip(a, piece.panel(panel).corners, strict=True):  # type: ignore[attr-defined]
            assert folded.placed[panel].placement.flat(corner) == pytest.approx(
                (float(spot.x), float(spot.y))
            )


@pytest.mark.parametrize(
    ("p", "q", "published"),
    [
        # Dihedral angles to 4 decimals: dizziness.academickids.com "Dihedral angle"; formula
        # sin(theta/2) = cos(pi/q) / sin(pi/p).
        (3, 3, 70.5288),
        (4, 3, 90.0),
        (3, 4, 109.4712),
        (5, 3, 116.5651),
        (3, 5, 138.1897),
    ],
    ids=["tetrahedron", "cube", "octahedron", "dodecahedron", "icosahedron"],
)
def test_folding_by_the_published_dihedral_angle_closes_a_corner_of_a_regular_solid(
    p: int, q: int, published: float
) -> None:
    """q faces laid round a vertex and folded by 180 - dihedral: the last edge meets the first."""
    interior = math.pi * (p - 2) / p
    first = Vec(1.0, 0.0, 0.0)
    edge, normal = first, Vec(0.0, 0.0, 1.0)
    for _ in range(q):
        # The next edge lies `interior` round in the face; then fold the next face about it.
        edge = turned(edge, normal, math.degrees(interior))
        normal = turned(normal, edge, -(180 - published))
    assert edge.minus(first).length() < 5e-6 * q
