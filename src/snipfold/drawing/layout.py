"""Laying marks out: where they reach, moving them, fitting them into a width."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from math import cos, radians, sin

from .inks import PAGE
from .lettering import CAPITAL, FRACTION_SIZE, POINT_MM, REGULAR, width_mm
from .scene import XY, Anchor, Arrow, Drawing, Fill, Hatch, Layer, Mark, Ring, Stroke, Text

Box = tuple[float, float, float, float]
"""Left, bottom, right, top, mm."""

#: How far letters reach below the baseline, in parts of the type size.
_DESCENT = 0.22
#: mm. The empty rim kept round every drawing, so that no line is cut in half at its edge.
RIM_MM = 1.0


@dataclass(frozen=True, slots=True)
class Lay:
    """How a plane figure lies in the drawing: x' = xx x + xy y + dx, y' = yx x + yy y + dy."""

    xx: float = 1.0
    xy: float = 0.0
    yx: float = 0.0
    yy: float = 1.0
    dx: float = 0.0
    dy: float = 0.0

    def at(self, point: Sequence[object]) -> XY:
        """Where a point comes to lie, mm."""
        x, y = float(point[0]), float(point[1])  # type: ignore[arg-type]
        return self.xx * x + self.xy * y + self.dx, self.yx * x + self.yy * y + self.dy

    def ring(self, corners: Iterable[Sequence[object]]) -> Ring:
        """Where corners come to lie."""
        return tuple(self.at(corner) for corner in corners)

    def scaled(self, scale: float) -> Lay:
        """This lay drawn `scale` times as large."""
        return Lay(*(scale * v for v in (self.xx, self.xy, self.yx, self.yy, self.dx, self.dy)))


def text_box(text: Text) -> Box:
    """The rectangle round a text (round all of its corners where it is turned), mm."""
    width = width_mm(text.says, text.size_pt, text.weight)
    size = text.size_pt * POINT_MM
    left = {Anchor.START: 0.0, Anchor.MIDDLE: -width / 2, Anchor.END: -width}[text.anchor]
    tall = FRACTION_SIZE if "⁄" in text.says else 1.1
    low, high = -_DESCENT * size, CAPITAL * size * tall
    c, s = cos(radians(text.degrees)), sin(radians(text.degrees))
    corners = [
        (text.at[0] + x * c - y * s, text.at[1] + x * s + y * c)
        for x in (left, left + width)
        for y in (low, high)
    ]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return min(xs), min(ys), max(xs), max(ys)


def box_of(marks: Iterable[Mark]) -> Box:
    """The rectangle round all marks, their line widths included, mm."""
    boxes = []
    for mark in marks:
        match mark:
            case Text():
                boxes.append(text_box(mark))
            case Stroke() | Arrow():
                half = mark.ink.width_mm / 2
                boxes.append(_around(mark.points, half))
            case Fill() | Hatch():
                boxes.append(_around(mark.rings[0], 0.0))
    if not boxes:
        return 0.0, 0.0, 0.0, 0.0
    return (
        min(b[0] for b in boxes), min(b[1] for b in boxes),
        max(b[2] for b in boxes), max(b[3] for b in boxes),
    )  # fmt: skip


def _around(points: Iterable[XY], by: float) -> Box:
    xs, ys = zip(*points, strict=True)
    return min(xs) - by, min(ys) - by, max(xs) + by, max(ys) + by


def touch(one: Box, other: Box) -> bool:
    """Whether two rectangles overlap."""
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def moved(mark: Mark, dx: float, dy: float) -> Mark:
    """The mark moved, mm."""

    def ring(points: Ring) -> Ring:
        return tuple((x + dx, y + dy) for x, y in points)

    match mark:
        case Text():
            return replace(mark, at=(mark.at[0] + dx, mark.at[1] + dy))
        case Stroke() | Arrow():
            return replace(mark, points=ring(mark.points))
        case Fill() | Hatch():
            return replace(mark, rings=tuple(ring(r) for r in mark.rings))


def framed(name: str, layers: Iterable[tuple[str, Sequence[Mark]]], alt: str) -> Drawing:
    """A drawing just large enough for its marks and a rim; layers without marks are left out."""
    kept = [(title, marks) for title, marks in layers if marks]
    left, low, right, high = box_of(mark for _, marks in kept for mark in marks)
    dx, dy = RIM_MM - left, RIM_MM - low
    return Drawing(
        name,
        right - left + 2 * RIM_MM,
        high - low + 2 * RIM_MM,
        tuple(Layer(title, tuple(moved(mark, dx, dy) for mark in marks)) for title, marks in kept),
        alt,
    )


def fitted(
    build: Callable[[float], Drawing], scale: float, width_mm: float, height_mm: float
) -> Drawing:
    """The drawing that `build` makes at the largest scale, at most `scale`, that fits the room.

    Lettering keeps its size whatever the scale, so the scale is found by trying.
    """
    drawing = build(scale)
    for _ in range(24):
        over_x = drawing.width_mm - width_mm
        over_y = drawing.height_mm - height_mm
        if over_x <= 0 and over_y <= 0:
            break
        scale *= max(
            0.5,
            min(
                1 - max(0.0, over_x) / drawing.width_mm,
                1 - max(0.0, over_y) / drawing.height_mm,
            )
            * 0.995,
        )
        drawing = build(scale)
    return drawing


def spread(
    centres: Sequence[float],
    widths: Sequence[float],
    gap: float,
    low: float = float("-inf"),
    high: float = float("inf"),
) -> list[float]:
    """Places near `centres` (ascending) for labels of `widths`, `gap` apart, in order.

    Labels that crowd are spread about their common middle; all stay between `low` and `high`
    where there is room.

    >>> spread([0, 1], [4, 4], 1)
    [-2.0, 3.0]
    """
    # Neighbours that overlap become one block whose labels keep their least distances; a block
    # lies where the mean of its labels' shifts is zero.
    blocks: list[tuple[float, list[int]]] = []
    offset: list[float] = [0.0] * len(centres)

    def place(members: list[int]) -> float:
        run = 0.0
        for before, member in zip([None, *members], members, strict=False):
            if before is not None:
                run += (widths[before] + widths[member]) / 2 + gap
            offset[member] = run
        start = sum(centres[m] - offset[m] for m in members) / len(members)
        first, last = members[0], members[-1]
        start = min(start, high - widths[last] / 2 - offset[last])
        return max(start, low + widths[first] / 2)

    for index in range(len(centres)):
        members = [index]
        start = place(members)
        while blocks:
            before_start, before = blocks[-1]
            end = before_start + offset[before[-1]] + widths[before[-1]] / 2 + gap
            if end <= start - widths[members[0]] / 2 + 1e-9:
                break
            blocks.pop()
            members = before + members
            start = place(members)
        blocks.append((start, members))
    result = [0.0] * len(centres)
    for start, members in blocks:
        place(members)
        for member in members:
            result[member] = start + offset[member]
    return result


def middle_text(
    at: XY,
    says: str,
    size_pt: float,
    *,
    weight: int = REGULAR,
    degrees: float = 0.0,
    colour: str | None = None,
    anchor: Anchor = Anchor.MIDDLE,
) -> Text:
    """A text whose capitals are centred on `at` in height."""
    drop = CAPITAL * size_pt * POINT_MM / 2
    c, s = cos(radians(degrees)), sin(radians(degrees))
    text = Text((at[0] + drop * s, at[1] - drop * c), says, size_pt, anchor, weight, degrees)
    return text if colour is None else replace(text, colour=colour)


def plate(text: Text, colour: str = PAGE, room_mm: float = 0.6) -> Fill:
    """A patch to lie under a text, so that no line runs through it."""
    left, low, right, high = text_box(text)
    left, low, right, high = left - room_mm, low - room_mm * 0.3, right + room_mm, high + room_mm
    return Fill((((left, low), (right, low), (right, high), (left, high)),), colour)


def circle(centre: XY, radius: float, corners: int = 32) -> Ring:
    """The corners of a polygon that stands for a circle."""
    return tuple(
        (
            centre[0] + radius * cos(radians(360 * k / corners)),
            centre[1] + radius * sin(radians(360 * k / corners)),
        )
        for k in range(corners)
    )
