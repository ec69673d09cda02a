"""`Drawing`: a picture as values, in millimetres, x to the right and y up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import Enum
from math import cos, hypot, radians, sin

from .inks import INK, SLIT, HatchInk, Ink
from .lettering import REGULAR
from .pens import Pen

XY = tuple[float, float]
Ring = tuple[XY, ...]


class Anchor(Enum):
    """Which point of a text lies at its place."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line or polyline in one ink; `closed` joins the last point to the first."""

    points: tuple[XY, ...]
    ink: Ink
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Fill:
    """A filled polygon: its outer ring, then its holes; `colour` as #RRGGBB."""

    rings: tuple[Ring, ...]
    colour: str


@dataclass(frozen=True, slots=True)
class Hatch:
    """A hatched polygon: its outer ring, then its holes. It is drawn as lines cut to its shape."""

    rings: tuple[Ring, ...]
    ink: HatchInk


@dataclass(frozen=True, slots=True)
class Arrow:
    """A line with a head of `head_mm` at its end, and at its start too where `both`."""

    points: tuple[XY, ...]
    ink: Ink
    head_mm: float = 2.2
    both: bool = False


@dataclass(frozen=True, slots=True)
class Text:
    """Words: the place of their anchor on the baseline, size in points, turned anticlockwise."""

    at: XY
    says: str
    size_pt: float
    anchor: Anchor = Anchor.MIDDLE
    weight: int = REGULAR
    degrees: float = 0.0
    colour: str = INK


Mark = Stroke | Fill | Hatch | Arrow | Text


@dataclass(frozen=True, slots=True)
class Layer:
    """Marks that belong together, by name; later marks lie over earlier ones."""

    name: str
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class Drawing:
    """A picture: its size in mm, its layers from the lowest up, and its text alternative."""

    name: str
    width_mm: float
    height_mm: float
    layers: tuple[Layer, ...]
    alt: str

    def only(self, *names: str) -> Drawing:
        """This drawing with the layers of these names alone."""
        return replace(self, layers=tuple(la for la in self.layers if la.name in names))

    def marks(self) -> Iterator[Mark]:
        """Every mark, from the lowest up."""
        for layer in self.layers:
            yield from layer.marks

    def kinds(self) -> frozenset[str]:
        """The keys of all line styles and hatches used, for a legend."""
        return frozenset(
            mark.ink.key for mark in self.marks() if isinstance(mark, Stroke | Hatch | Arrow)
        )

    def texts(self) -> tuple[str, ...]:
        """Every text, in the order drawn."""
        return tuple(mark.says for mark in self.marks() if isinstance(mark, Text))


def draw(drawing: Drawing, pen: Pen) -> None:
    """Draw every layer onto a pen; hatches and arrows become plain lines and polygons."""
    pen.begin(drawing.name, drawing.width_mm, drawing.height_mm, drawing.alt)
    for layer in drawing.layers:
        pen.layer(layer.name)
        for mark in layer.marks:
            _draw(mark, pen)
    pen.end()


def _draw(mark: Mark, pen: Pen) -> None:
    match mark:
        case Stroke():
            pen.stroke(mark.points, mark.ink, mark.closed)
            if mark.ink is SLIT:
                for tick in _end_ticks(mark.points):
                    pen.stroke(tick, mark.ink, False)
        case Fill():
            pen.fill(mark.rings, mark.colour)
        case Hatch():
            for line in hatch_lines(mark.rings, mark.ink.degrees, mark.ink.spacing_mm):
                pen.stroke(line, mark.ink.ink, False)
        case Arrow():
            _draw_arrow(mark, pen)
        case Text():
            pen.text(
                mark.at, mark.says, mark.size_pt, mark.anchor.value, mark.weight, mark.degrees,
                mark.colour,
            )  # fmt: skip


#: mm. How long the ticks at the ends of a slit are.
_TICK_MM = 2.4


def _end_ticks(points: tuple[XY, ...]) -> list[tuple[XY, XY]]:
    ticks = []
    for (x0, y0), (x1, y1) in ((points[0], points[1]), (points[-1], points[-2])):
        length = hypot(x1 - x0, y1 - y0) or 1.0
        nx, ny = -(y1 - y0) / length * _TICK_MM / 2, (x1 - x0) / length * _TICK_MM / 2
        ticks.append(((x0 - nx, y0 - ny), (x0 + nx, y0 + ny)))
    return ticks


def _draw_arrow(arrow: Arrow, pen: Pen) -> None:
    points = list(arrow.points)
    heads = []
    for _ in range(2 if arrow.both else 1):
        (x0, y0), (x1, y1) = points[-2], points[-1]
        length = hypot(x1 - x0, y1 - y0) or 1.0
        ux, uy = (x1 - x0) / length, (y1 - y0) / length
        head, half = arrow.head_mm, arrow.head_mm * 0.32
        bx, by = x1 - ux * head, y1 - uy * head
        heads.append(((x1, y1), (bx - uy * half, by + ux * half), (bx + uy * half, by - ux * half)))
        # The line ends inside its head, so that the point stays sharp.
        points[-1] = (x1 - ux * head * 0.8, y1 - uy * head * 0.8)
        points.reverse()
    pen.stroke(tuple(points), arrow.ink, False)
    for ring in heads:
        pen.fill((ring,), arrow.ink.colour)


def hatch_lines(
    rings: tuple[Ring, ...], degrees: tuple[float, ...], spacing_mm: float
) -> list[tuple[XY, XY]]:
    """The lines of a hatch cut to a polygon (outer ring, then holes), every `spacing_mm`.

    All hatches of one angle lie on one grid, so that neighbouring areas carry on. Points inside
    an odd number of rings are hatched.
    """
    lines: list[tuple[XY, XY]] = []
    for angle in degrees:
        c, s = cos(radians(angle)), sin(radians(angle))
        turned = [[(x * c + y * s, y * c - x * s) for x, y in ring] for ring in rings]
        across = [v for ring in turned for _, v in ring]
        first = int(min(across) // spacing_mm) + 1
        for number in range(first, int(max(across) // spacing_mm) + 1):
            level = number * spacing_mm
            stops = []
            for ring in turned:
                for (u0, v0), (u1, v1) in zip(ring, ring[1:] + ring[:1], strict=True):
                    if (v0 <= level) != (v1 <= level):
                        stops.append(u0 + (u1 - u0) * (level - v0) / (v1 - v0))
            stops.sort()
            lines.extend(
                ((u0 * c - level * s, u0 * s + level * c), (u1 * c - level * s, u1 * s + level * c))
                for u0, u1 in zip(stops[::2], stops[1::2], strict=True)
                if u1 - u0 > 1e-6
            )
    return lines
