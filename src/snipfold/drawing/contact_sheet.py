"""A contact sheet: small pictures in rows, each with its name and figures below."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .inks import FAINT, INK
from .layout import framed, moved
from .lettering import BOLD, POINT_MM, REGULAR, width_mm
from .scene import Anchor, Drawing, Mark, Stroke, Text

#: mm. The room for one picture and, below it, for its words.
CELL_WIDTH_MM, PICTURE_HEIGHT_MM = 62.0, 46.0
_GAP_MM = 6.0
_IN_ROW = 3
_TITLE_PT, _LINE_PT = 11.0, 11.0
_LEADING = 1.25
_MOST_LINES = 5


@dataclass(frozen=True, slots=True)
class Thumbnail:
    """A picture no larger than its cell, its title, and lines of figures."""

    picture: Drawing
    title: str
    lines: tuple[str, ...]


def contact_sheet(thumbnails: Sequence[Thumbnail]) -> Drawing:
    """All pictures on one sheet, three in a row, in order; none is scaled, all stand on a line."""
    layers: list[tuple[str, list[Mark]]] = []
    words: list[Mark] = []
    rules: list[Mark] = []
    leading = _LINE_PT * POINT_MM * _LEADING
    row_height = PICTURE_HEIGHT_MM + _MOST_LINES * leading + _GAP_MM
    for index, one in enumerate(thumbnails):
        row, column = divmod(index, _IN_ROW)
        left = column * (CELL_WIDTH_MM + _GAP_MM)
        floor = -row * row_height
        across = left + (CELL_WIDTH_MM - one.picture.width_mm) / 2
        layers.append(
            (f"picture {index + 1}", [moved(mark, across, floor) for mark in one.picture.marks()])
        )
        rules.append(Stroke(((left, floor - 1.0), (left + CELL_WIDTH_MM, floor - 1.0)), FAINT))
        titles = [(line, BOLD) for line in _broken(one.title, _TITLE_PT, BOLD)]
        figures = [
            (part, REGULAR) for line in one.lines for part in _broken(line, _LINE_PT, REGULAR)
        ]
        for number, (line, weight) in enumerate((titles + figures)[:_MOST_LINES], start=1):
            at = (left, floor - 1.0 - number * leading)
            words.append(Text(at, line, _LINE_PT, Anchor.START, weight, colour=INK))
    layers += [("rules", rules), ("words", words)]
    alt = "; ".join(
        f"{one.title}: {', '.join(one.lines)}. {one.picture.alt}" for one in thumbnails
    )  # fmt: skip
    return framed("contact sheet", layers, alt)


def _broken(text: str, size_pt: float, weight: int) -> list[str]:
    """The text in lines that fit a cell, broken between words."""
    lines: list[str] = []
    for word in text.split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_mm(longer, size_pt, weight) <= CELL_WIDTH_MM:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
