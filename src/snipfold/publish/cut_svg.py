"""The cut file: a piece as SVG in real units, cuts, scores and pencil marks on layers of their own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from xml.sax.saxutils import escape

from ..drawing.blank import outlines, slits
from ..dressing import Mark
from ..flat import Face, FlatPiece, Fold, Point
from ..measure import Length, System
from ..project import Design
from .names import file_word

#: Decimals of a coordinate in mm: a tenth of a micrometre, far below any blade.
_DECIMALS = 4
#: mm. The width of every line; what a line does is told by its layer.
_LINE_MM = "0.1"
_COLOURS = {"cut": "#22302F", "score mountain": "#00616B", "score valley": "#4C9AA3"}
_PENCIL = "#8A6A2A"


def files(design: Design, page: str) -> dict[str, bytes]:
    """A cut file for each piece, as `cut-<piece>.svg`."""
    marks = design.dressing.strap.marks if design.dressing.strap is not None else ()
    return {
        f"cut-{file_word(piece.name)}.svg": cut_svg(
            piece, [mark for mark in marks if mark.piece == piece.name], design.system
        ).encode()
        for piece in design.construction.pieces
    }


def cut_svg(piece: FlatPiece, marks: Sequence[Mark], system: System) -> str:
    """The cut file of a piece, seen with its outside up.

    One unit of the view box is 1 mm; width and height say the true size, in inches for makers in
    inches. Groups "cut", "score mountain", "score valley" and "pencil" carry their names as ids
    (spaces as hyphens) and titles. Marks for the inside, if any, are in "pencil inside".
    """
    width, height = piece.width, piece.height
    layers: list[tuple[str, str, list[str]]] = [
        (
            "cut",
            _COLOURS["cut"],
            [_path(piece, loop, closed=True) for loop in outlines(piece)]
            + [_path(piece, slit) for slit in slits(piece)],
        )
    ]
    for fold, name in ((Fold.MOUNTAIN, "score mountain"), (Fold.VALLEY, "score valley")):
        runs = [_path(piece, (s.start, s.end)) for s in piece.scores if s.fold is fold]
        layers.append((name, _COLOURS[name], runs))
    for face, name in ((Face.OUTSIDE, "pencil"), (Face.INSIDE, "pencil inside")):
        lines = [_path(piece, (mark.start, mark.end)) for mark in marks if mark.face is face]
        if lines or face is Face.OUTSIDE:
            layers.append((name, _PENCIL, lines))
    groups = "".join(
        f'<g id="{name.replace(" ", "-")}" stroke="{colour}">\n<title>{name}</title>\n'
        + "".join(f"{path}\n" for path in paths)
        + "</g>\n"
        for name, colour, paths in layers
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_real(width, system)}" '
        f'height="{_real(height, system)}" viewBox="0 0 {_decimal(width.as_mm)} '
        f'{_decimal(height.as_mm)}" fill="none" stroke-width="{_LINE_MM}">\n'
        f"<title>{escape(piece.name)}, outside up</title>\n{groups}</svg>\n"
    )


def _real(length: Length, system: System) -> str:
    if system is System.INCH:
        return f"{_decimal(length.as_inch, 6)}in"
    return f"{_decimal(length.as_mm)}mm"


def _decimal(value: Fraction, decimals: int = _DECIMALS) -> str:
    rounded = round(value, decimals)
    text = f"{float(rounded):.{decimals}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _path(piece: FlatPiece, points: Iterable[Point], *, closed: bool = False) -> str:
    top = piece.height.as_mm
    steps = " L".join(f"{_decimal(p.x)} {_decimal(top - p.y)}" for p in points)
    return f'<path d="M{steps}{" Z" if closed else ""}"/>'
