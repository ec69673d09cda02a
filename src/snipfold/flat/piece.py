"""`FlatPiece`: a piece of cardstock before it is folded, as a planar map."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from math import lcm
from typing import NamedTuple

from ..measure import Length


class Point(NamedTuple):
    """A point of the blank, millimetres, exact: x to the right, y up, outside face up."""

    x: Fraction
    y: Fraction


class Face(Enum):
    """The two faces of a piece; the outside is the printed one."""

    OUTSIDE = "outside"
    INSIDE = "inside"

    @property
    def other(self) -> Face:
        """The other face."""
        return Face.INSIDE if self is Face.OUTSIDE else Face.OUTSIDE


class Role(Enum):
    """What a panel does on the finished box."""

    WALL = "wall"
    FLOOR = "floor"
    TOP = "top"
    FLAP = "flap"
    TAB = "tab"


class Fold(Enum):
    """Which way a score folds, seen from the outside."""

    MOUNTAIN = "mountain"
    VALLEY = "valley"

    @property
    def other(self) -> Fold:
        """The opposite fold."""
        return Fold.VALLEY if self is Fold.MOUNTAIN else Fold.MOUNTAIN


class EdgeKind(Enum):
    """What an edge of the map is to the maker."""

    CUT = "cut"
    """The outline: paper on one side only."""
    SLIT = "slit"
    """A cut between two panels that takes nothing away."""
    SCORE = "score"
    PLAIN = "plain"
    """Two panels with nothing between them: the paper runs on. No sound piece has one."""


@dataclass(frozen=True, slots=True)
class Edge:
    """A straight edge of the map from vertex `start` to vertex `end`.

    `left` and `right` are the panels beside it; "" where there is no paper.
    """

    start: int
    end: int
    kind: EdgeKind
    left: str
    right: str


@dataclass(frozen=True, slots=True)
class Panel:
    """A flat face of the piece: its name, role and corners, anticlockwise from the outside."""

    name: str
    role: Role
    corners: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Score:
    """A score line between two panels.

    It runs from `start` to `end` with `panels[0]` on its left; `degrees` is how far it is folded
    when the box is closed (0 flat, 180 folded onto itself). `said_in` is the field of the project
    file that says where it lies, where one field alone does.
    """

    panels: tuple[str, str]
    start: Point
    end: Point
    fold: Fold
    degrees: float
    said_in: str = ""

    def joins(self, one: str, other: str) -> bool:
        """Whether this is the score between these two panels, in either order."""
        return self.panels in ((one, other), (other, one))


@dataclass(frozen=True, slots=True)
class Snip:
    """What scissors do to the blank: a corner or sliver cut away (`corners`), or a slit (a line).

    A slit has two corners; a piece taken away has three or more.
    """

    name: str
    corners: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class GlueArea:
    """Where adhesive goes: a rectangle on one face of one panel, and what it holds on to.

    `corners` in the blank's coordinates; `width` and `length` of the strip; `edge` names in words
    the edge that it runs along; `inset` is how far it keeps from that edge.
    """

    name: str
    panel: str
    face: Face
    corners: tuple[Point, ...]
    mate: str
    mate_face: Face
    width: Length
    length: Length
    edge: str
    inset: Length


@dataclass(frozen=True, slots=True)
class FlatPiece:
    """One blank: its rectangle, the panels and what is snipped off, and the lines between.

    The panels and the parts taken away tile the rectangle without overlap; that is a fact of the
    map (`vertices`, `edges`), made sure of when the piece is built.
    """

    name: str
    width: Length
    height: Length
    vertices: tuple[Point, ...]
    edges: tuple[Edge, ...]
    panels: tuple[Panel, ...]
    scores: tuple[Score, ...]
    snips: tuple[Snip, ...]
    glue: tuple[GlueArea, ...]

    def panel(self, name: str) -> Panel:
        """The panel of that name; `KeyError` if there is none."""
        for panel in self.panels:
            if panel.name == name:
                return panel
        raise KeyError(name)

    def score(self, one: str, other: str) -> Score:
        """The score between two panels, in either order; `KeyError` if there is none."""
        for score in self.scores:
            if score.joins(one, other):
                return score
        raise KeyError(f"{one} | {other}")

    def cuts(self) -> tuple[tuple[Point, Point], ...]:
        """Every cut as a segment: the outline and the slits."""
        return tuple(
            (self.vertices[edge.start], self.vertices[edge.end])
            for edge in self.edges
            if edge.kind in (EdgeKind.CUT, EdgeKind.SLIT)
        )


def area(corners: tuple[Point, ...]) -> Fraction:
    """The signed area of a polygon, mm2, exactly: positive when its corners run anticlockwise.

    Source: the trapezoid ("shoelace") formula.
    """
    # In whole steps of a grid that all corners lie on, which is quicker than in fractions.
    grid = lcm(*(at.denominator for corner in corners for at in corner))
    steps = [[at.numerator * (grid // at.denominator) for at in corner] for corner in corners]
    twice = 0
    for (x0, y0), (x1, y1) in zip(steps, steps[1:] + steps[:1], strict=True):
        twice += x0 * y1 - x1 * y0
    return Fraction(twice, 2 * grid * grid)
