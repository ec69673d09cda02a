"""Dihedral angles of the five regular solids, through the folding."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from snipfold.flat import FlatPiece, Fold, Panel, Point, Role, Score
from snipfold.folding import pose
from snipfold.measure import ZERO, Length
from snipfold.styles import Stand

#: Sides of a face, faces round a corner, and the dihedral angle in degrees as printed, and its last
#: digit's worth: CRC Standard Mathematical Tables, 30th ed., section 13.1, and an encyclopaedia's
#: page on dihedral angles (http://dizziness.academickids.com/encyclopedia/index.php/Dihedral_angle).
SOLIDS = {
    "tetrahedron": (3, 3, 70.53, 0.01),
    "cube": (4, 3, 90.0, 0.0),
    "octahedron": (3, 4, 109.47, 0.01),
    "dodecahedron": (5, 3, 116.57, 0.01),
    "icosahedron": (3, 5, 138.19, 0.01),
}


def point(x: float, y: float) -> Point:
    return Point(Fraction(x), Fraction(y))


def fan(sides: int, faces: int, degrees: float) -> FlatPiece:
    """Faces of side 100 mm round one corner, each scored to the next; the last is free of the first."""
    inner = math.pi * (1 - 2 / sides)
    panels, scores = [], []
    for number in range(faces):
        corners, x, y = [], 0.0, 0.0
        for step in range(sides):
            corners.append(point(x, y))
            way = number * inner + step * 2 * math.pi / sides
            x, y = x + 100 * math.cos(way), y + 100 * math.sin(way)
        panels.append(Panel(f"face {number}", Role.WALL, tuple(corners)))
        if number:
            way = number * inner
            end = point(100 * math.cos(way), 100 * math.sin(way))
            # Running outwards from the corner, the later face lies on the left.
            pair = (f"face {number}", f"face {number - 1}")
            scores.append(Score(pair, point(0, 0), end, Fold.MOUNTAIN, degrees))
    size = Length.mm(400)
    return FlatPiece("fan", size, size, (), (), tuple(panels), tuple(scores), (), ())


def gap(sides: int, faces: int, dihedral: float) -> float:
    """How far the last face's free edge ends from the first one's, mm."""
    piece = fan(sides, faces, 180 - dihedral)
    stand = Stand("fan", "face 0", (1, 0, 0), (0, 1, 0), point(0, 0), (ZERO, ZERO, ZERO))
    folded = pose(piece, stand, {score.panels: score.degrees for score in piece.scores})
    first = folded.placed["face 0"].corners[1]
    last = folded.placed[f"face {faces - 1}"].corners[-1]
    return last.minus(first).length()


@pytest.mark.parametrize(("solid", "case"), SOLIDS.items(), ids=list(SOLIDS))
def test_faces_round_a_corner_close_at_the_published_angle(
    solid: str, case: tuple[int, int, float, float]
) -> None:
    """Printed to two digits, so they close to what a hundredth of a degree moves on 100 mm."""
    sides, faces, dihedral, digit = case
    allowed = math.radians(digit) * 100 * faces + 1e-9
    assert gap(sides, faces, dihedral) <= allowed
    assert gap(sides, faces, dihedral + 1) > 0.5


@pytest.mark.parametrize(("solid", "case"), SOLIDS.items(), ids=list(SOLIDS))
def test_they_close_to_rounding_at_the_exact_angle(
    solid: str, case: tuple[int, int, float, float]
) -> None:
    """sin(angle / 2) = cos(180 / q) / sin(180 / p) for p-sided faces, q round a corner."""
    sides, faces, printed, digit = case
    exact = math.degrees(2 * math.asin(math.cos(math.pi / faces) / math.sin(math.pi / sides)))
    assert abs(exact - printed) <= digit + 1e-9
    assert gap(sides, faces, exact) < 1e-9
