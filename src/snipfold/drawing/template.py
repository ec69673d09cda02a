"""Full-size drawings: the template of a piece, its cut file, and the scale check."""

from __future__ import annotations

from collections.abc import Sequence

from ..dressing import Mark as PencilMark
from ..dressing import Strip
from ..flat import Face, FlatPiece, Fold
from .blank import cut_marks, name_marks, score_marks
from .inks import FAINT, GLUE, PENCIL, THIN
from .layout import Lay, framed, middle_text
from .lettering import BOLD
from .measures import NAME_PT, NOTE_PT
from .scene import Anchor, Drawing, Hatch, Layer, Mark, Stroke


def template_drawing(
    piece: FlatPiece,
    *,
    marks: Sequence[PencilMark] = (),
    strips: Sequence[Strip] = (),
    face: Face = Face.OUTSIDE,
    margin_mm: float = 2.0,
) -> Drawing:
    """The piece at full size, 1 mm to the mm, seen with its outside up.

    Layers: "cut" (the outline after snipping, as closed lines, and the slits), "score mountain",
    "score valley", "pencil marks", "glue" and "labels". `marks` and `strips` of other pieces or of
    the other face are left out. The lower left corner of the blank lies at (`margin_mm`,
    `margin_mm`).
    """
    lay = Lay(dx=margin_mm, dy=margin_mm)
    scores = score_marks(piece, lay)
    folds = [score.fold for score in piece.scores]
    mountain = [m for m, fold in zip(scores, folds, strict=True) if fold is Fold.MOUNTAIN]
    valley = [m for m, fold in zip(scores, folds, strict=True) if fold is Fold.VALLEY]
    pencil: list[Mark] = [
        Stroke((lay.at(mark.start), lay.at(mark.end)), PENCIL)
        for mark in marks
        if mark.piece == piece.name and mark.face is face
    ]
    glue: list[Mark] = []
    for strip in strips:
        if strip.piece == piece.name and strip.face is face and strip.corners:
            ring = lay.ring(strip.corners)
            glue += [Hatch((ring,), GLUE), Stroke(ring, FAINT, True)]
    width, height = piece.width.float_mm, piece.height.float_mm
    layers: tuple[tuple[str, list[Mark]], ...] = (
        ("glue", glue),
        ("score mountain", mountain),
        ("score valley", valley),
        ("pencil marks", pencil),
        ("cut", cut_marks(piece, lay)),
        ("labels", name_marks(piece.panels, lay, height + margin_mm, outside=False)),
    )
    return Drawing(
        f"{piece.name} template",
        width + 2 * margin_mm,
        height + 2 * margin_mm,
        tuple(Layer(name, tuple(content)) for name, content in layers if content),
        f"The {piece.name} at full size, outside up: cut lines, score lines"
        f"{', pencil marks' if pencil else ''}{', adhesive' if glue else ''} and panel names.",
    )


#: mm. What the scale check shows: a square inch, 50 mm square, and lines of 4 in and 100 mm.
_INCH_MM = 25.4
_SQUARE_MM = 50.0
_LINE_INCH_MM = 4 * 25.4
_LINE_MM = 100.0


def scale_check() -> Drawing:
    """Squares of 1 in and 50 mm and lines of 4 in and 100 mm, at full size, to measure by ruler."""
    marks: list[Mark] = []
    for x, side, says in ((0.0, _SQUARE_MM, "50 mm"), (_SQUARE_MM + 6, _INCH_MM, "1 in")):
        ring = ((x, 0.0), (x + side, 0.0), (x + side, side), (x, side))
        marks.append(Stroke(ring, THIN, True))
        marks.append(middle_text((x + side / 2, side / 2), says, NOTE_PT, weight=BOLD))
    for y, length, says in ((-8.0, _LINE_MM, "100 mm"), (-16.0, _LINE_INCH_MM, "4 in")):
        marks.append(Stroke(((0.0, y), (length, y)), THIN))
        for x in (0.0, length):
            marks.append(Stroke(((x, y - 2.0), (x, y + 2.0)), THIN))
        marks.append(
            middle_text((length + 2.5, y), says, NOTE_PT, weight=BOLD, anchor=Anchor.START)
        )
    x = _SQUARE_MM + 6 + _INCH_MM + 5
    for row, line in enumerate(
        ("Lay a ruler here.", "If it is off, print", "at 100 %, not “fit”.")
    ):
        marks.append(
            middle_text((x, _SQUARE_MM - 3 - row * 5.0), line, NAME_PT, anchor=Anchor.START)
        )
    return framed(
        "scale check",
        (("check", marks),),
        "To check the print: a square of 50 mm, a square of 1 in, a line of 100 mm and a line of "
        "4 in, at full size.",
    )
