"""The SVG pen: a drawing as SVG 1.1, sized in millimetres."""

from __future__ import annotations

from xml.sax.saxutils import escape, quoteattr

from .inks import Ink
from .lettering import FAMILY, FRACTION_SIZE, GAP_SIZE, POINT_MM, REGULAR, plain_figures, runs
from .scene import Drawing, draw

_XY = tuple[float, float]


def svg(drawing: Drawing, *, layer_ids: bool = True) -> str:
    """The drawing as an SVG document.

    Its width and height are in mm and one unit of its view box is 1 mm. Hatches are lines and
    arrowheads polygons, so that every reader shows the same. Each layer is a group, named by
    `data-layer` and, with `layer_ids`, by an id.
    """
    pen = SvgPen(layer_ids=layer_ids)
    draw(drawing, pen)
    return pen.document()


def _figure(value: float) -> str:
    """A coordinate to a tenth of a micrometre."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


class SvgPen:
    """A pen that writes SVG."""

    def __init__(self, *, layer_ids: bool = True) -> None:
        self._ids = layer_ids
        self._lines: list[str] = []
        self._open = False
        self._top_mm = 0.0

    def document(self) -> str:
        """All that was drawn, as one SVG document."""
        return "\n".join(self._lines) + "\n"

    def begin(self, name: str, width_mm: float, height_mm: float, alt: str) -> None:
        """Start the document."""
        width, height = _figure(width_mm), _figure(height_mm)
        self._top_mm = height_mm
        self._lines += [
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
            f'viewBox="0 0 {width} {height}" role="img" aria-label={quoteattr(alt)} '
            f"font-family={quoteattr(FAMILY + ', sans-serif')} "
            'fill="none" stroke-linecap="round" stroke-linejoin="round">',
            f"<title>{escape(name)}</title>",
            f"<desc>{escape(alt)}</desc>",
        ]

    def layer(self, name: str) -> None:
        """Start a group."""
        self._close()
        slug = name.replace(" ", "-")
        named = f" id={quoteattr(slug)}" if self._ids else ""
        self._lines.append(f"<g{named} data-layer={quoteattr(name)}>")
        self._open = True

    def stroke(self, points: tuple[_XY, ...], ink: Ink, closed: bool) -> None:
        """Draw a path."""
        dashes = (
            f' stroke-dasharray="{" ".join(_figure(d) for d in ink.dashes_mm)}"'
            ' stroke-linecap="butt"'
            if ink.dashes_mm
            else ""
        )
        self._lines.append(
            f'<path d="{self._path(points, closed)}" stroke="{ink.colour}" '
            f'stroke-width="{_figure(ink.width_mm)}"{dashes}/>'
        )

    def fill(self, rings: tuple[tuple[_XY, ...], ...], colour: str) -> None:
        """Draw a filled path; holes by the even-odd rule."""
        path = "".join(self._path(ring, True) for ring in rings)
        rule = ' fill-rule="evenodd"' if len(rings) > 1 else ""
        self._lines.append(f'<path d="{path}" fill="{colour}"{rule}/>')

    def text(
        self,
        at: _XY,
        says: str,
        size_pt: float,
        anchor: str,
        weight: int,
        degrees: float,
        colour: str,
    ) -> None:
        """Set a text, its fractions as real fractions."""
        x, y = _figure(at[0]), _figure(self._top_mm - at[1])
        size = size_pt * POINT_MM
        turn = f' transform="rotate({_figure(-degrees)} {x} {y})"' if degrees else ""
        bold = f' font-weight="{weight}"' if weight != REGULAR else ""
        words = ""
        for run, fraction in runs(plain_figures(says)):
            if not fraction:
                words += escape(run)
                continue
            if run.startswith(" "):
                words += f'<tspan font-size="{_figure(size * GAP_SIZE)}">\u00a0</tspan>'
            words += f'<tspan font-size="{_figure(size * FRACTION_SIZE)}">{run.strip()}</tspan>'
        place = f' text-anchor="{anchor}"' if anchor != "start" else ""
        self._lines.append(
            f'<text x="{x}" y="{y}" font-size="{_figure(size)}"{bold}{place} fill="{colour}"{turn}>'
            f"{words}</text>"
        )

    def end(self) -> None:
        """Finish the document."""
        self._close()
        self._lines.append("</svg>")

    def _close(self) -> None:
        if self._open:
            self._lines.append("</g>")
            self._open = False

    def _path(self, points: tuple[_XY, ...], closed: bool) -> str:
        steps = " ".join(f"{_figure(x)} {_figure(self._top_mm - y)}" for x, y in points)
        return f"M{steps}{'Z' if closed else ''}"
