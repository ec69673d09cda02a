"""The full-size template as a PDF: every piece at 1 : 1, tiled over the maker's paper."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from string import ascii_uppercase
from typing import Any

from ..drawing import Drawing, legend, scale_check, template_drawing
from ..project import Design
from .type_faces import title
from .typesetting import PAGES, figure, pdf

#: mm. The rim on which printers leave no ink (1/4 in; common practice, no source).
RIM_MM = 6.35
#: mm. The strip on each page for the tile's name and the map.
HEAD_MM = 14.0
#: mm. How far neighbouring tiles show the same (1/2 in).
OVERLAP_MM = 12.7


@dataclass(frozen=True, slots=True)
class Tile:
    """One page of a template: its row (from the top) and column, and its name, "A1" top left.

    `left_mm` and `top_mm` are where its window lies on the drawing, from the drawing's top left.
    """

    row: int
    column: int
    left_mm: float
    top_mm: float

    @property
    def name(self) -> str:
        """Its row as a letter and its column as a number."""
        return f"{_letters(self.row)}{self.column + 1}"


@dataclass(frozen=True, slots=True)
class Tiling:
    """How a drawing is spread over pages: the window on each page, mm, and the tiles."""

    flipped: bool
    window_width_mm: float
    window_height_mm: float
    rows: int
    columns: int
    tiles: tuple[Tile, ...]


def _letters(row: int) -> str:
    return (_letters(row // 26 - 1) if row >= 26 else "") + ascii_uppercase[row % 26]


def tiling(width_mm: float, height_mm: float, page: str) -> Tiling:
    """The tiling of a drawing of that size on that paper, upright or sideways: the fewest pages."""
    ways = []
    for flipped in (False, True):
        sides = (PAGES[page].width_mm, PAGES[page].height_mm)
        page_width, page_height = sides[::-1] if flipped else sides
        across, down = page_width - 2 * RIM_MM, page_height - 2 * RIM_MM - HEAD_MM
        columns, rows = _count(width_mm, across), _count(height_mm, down)
        ways.append((rows * columns, flipped, across, down, rows, columns))
    _, flipped, across, down, rows, columns = min(ways)
    tiles = tuple(
        Tile(row, column, column * (across - OVERLAP_MM), row * (down - OVERLAP_MM))
        for row in range(rows)
        for column in range(columns)
    )
    return Tiling(flipped, across, down, rows, columns, tiles)


def _count(length_mm: float, window_mm: float) -> int:
    # A drawing that overhangs by less than a hundredth of a millimetre is not worth a page.
    return max(1, ceil((length_mm - OVERLAP_MM - 0.01) / (window_mm - OVERLAP_MM)))


def files(design: Design, page: str) -> dict[str, bytes]:
    """The template, as `template.pdf`."""
    return {"template.pdf": template_pdf(design, page)}


def template_pdf(design: Design, page: str) -> bytes:
    """The full-size template of every piece on that paper, after a page with the scale check."""
    paper = PAGES[page]
    drawings = {piece.name: _drawing(design, piece.name) for piece in design.construction.pieces}
    used = {key for drawing in drawings.values() for key in drawing.kinds()}
    return pdf(
        "template.typ",
        {
            "title": title(design.project.name),
            "paper": paper.typesetter,
            "page": paper.name,
            "width": paper.width_mm,
            "height": paper.height_mm,
            "rim": RIM_MM,
            "head": HEAD_MM,
            "overlap": OVERLAP_MM,
            "check": figure(scale_check()),
            "legend": figure(legend(used)),
            "pieces": [_piece(name, drawing, page) for name, drawing in drawings.items()],
        },
    )


def _drawing(design: Design, name: str) -> Drawing:
    marks = design.dressing.strap.marks if design.dressing.strap is not None else ()
    strips = tuple(strip for strip in design.dressing.strips if strip.on == "panel")
    return template_drawing(design.construction.piece(name), marks=marks, strips=strips)


def _piece(name: str, drawing: Drawing, page: str) -> dict[str, Any]:
    tiled = tiling(drawing.width_mm, drawing.height_mm, page)
    return {
        "name": name,
        "figure": figure(drawing),
        "flipped": tiled.flipped,
        "across": tiled.window_width_mm,
        "down": tiled.window_height_mm,
        "rows": tiled.rows,
        "columns": tiled.columns,
        "tiles": [
            {
                "name": tile.name,
                "row": tile.row,
                "column": tile.column,
                "left": tile.left_mm,
                "top": tile.top_mm,
            }
            for tile in tiled.tiles
        ],
    }
