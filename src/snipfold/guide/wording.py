"""Small pieces of wording that several parts of the guide share."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ..flat import Face, FlatPiece, Fold, Point
from ..measure import Length, Ruler, System, carried
from ..styles import EdgeOf
from ..workshop import AdhesiveKind, Edge
from .content import Words

#: Parts the two panels of a score in a table; no panel's name holds it.
PARTS = " | "


def listed(names: Sequence[str]) -> str:
    """Names as a list in a sentence.

    >>> listed(["front"]), listed(["front", "back"]), listed(["tab", "front", "back"])
    ('front', 'front and back', 'tab, front and back')
    """
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def the(names: Sequence[str]) -> str:
    """The same with an article before each name.

    >>> the(["left flap", "right flap"])
    'the left flap and the right flap'
    """
    return listed([f"the {name}" for name in names])


def unique(names: Iterable[str]) -> tuple[str, ...]:
    """The names without those that came before, in order."""
    return tuple(dict.fromkeys(names))


def plural(count: int, one: str, more: str = "") -> str:
    """The count and the word that it counts.

    >>> plural(1, "sheet"), plural(3, "box", "boxes")
    ('1 sheet', '3 boxes')
    """
    return f"{count} {one if count == 1 else more or one + 's'}"


def upper_first(text: str) -> str:
    """The text with its first letter a capital."""
    return text[:1].upper() + text[1:]


def parted(piece: FlatPiece, pairs: Iterable[tuple[str, str]]) -> str:
    """The panels on the two sides of each line, as the piece lies upright with its outside up.

    Left then right of an upright line ("left side | front"), above then below a level one
    ("front | front flap"); the lines from the left, then from the top.
    """
    lines = []
    for pair in pairs:
        score = piece.score(*pair)
        (x0, y0), (x1, y1) = score.start, score.end
        # The first panel of a score is on the left of its run: on the left of a run upwards,
        # above a run to the right.
        first_leads = y1 > y0 if abs(y1 - y0) > abs(x1 - x0) else x1 > x0
        names = score.panels if first_leads else score.panels[::-1]
        lines.append((min(x0, x1), -max(y0, y1), PARTS.join(names)))
    return ", ".join(words for _, _, words in sorted(lines))


def edge_name(piece: FlatPiece, edge: EdgeOf) -> str:
    """Which edge of its panel this is, as the blank lies before the maker, outside up."""
    corners = piece.panel(edge.panel).corners
    (x0, y0), (x1, y1) = corners[edge.corner], corners[(edge.corner + 1) % len(corners)]
    # Corners run anticlockwise, so outwards is to the right of the way along the edge.
    out_x, out_y = y1 - y0, x0 - x1
    if abs(out_x) >= abs(out_y):
        return "right edge" if out_x > 0 else "left edge"
    return "top edge" if out_y > 0 else "bottom edge"


def panels_along(piece: FlatPiece, edge: Edge) -> tuple[str, ...]:
    """The panels that have a side on that edge of the blank, from the left or from the bottom."""
    upright = edge in (Edge.LEFT, Edge.RIGHT)
    rim = {
        Edge.LEFT: Length.mm(0),
        Edge.RIGHT: piece.width,
        Edge.BOTTOM: Length.mm(0),
        Edge.TOP: piece.height,
    }[edge].as_mm
    found = []
    for panel in piece.panels:
        on = [corner for corner in panel.corners if (corner.x if upright else corner.y) == rim]
        if len(on) > 1:
            found.append((min(c.y if upright else c.x for c in on), panel.name))
    return tuple(name for _, name in sorted(found))


def fold_words(fold: Fold) -> str:
    """Which way a fold goes, with the outside up."""
    return {
        Fold.MOUNTAIN: "mountain, away from you",
        Fold.VALLEY: "valley, towards you",
    }[fold]


def face_words(face: Face) -> str:
    """A face, as a table names it."""
    return face.value


def place(point: Point, ruler: Ruler, system: System) -> Words:
    """A point of the blank: how far across from the left edge, how far up from the bottom edge.

    A distance that no ruler carries is given at the nearest mark of `ruler`.
    """
    across, up = (marked(Length.mm(at), ruler, system) for at in point)
    # No line breaks inside it.
    return ("→\u00a0", across, "\u00a0\u00a0↑\u00a0", up)


#: Said where a table gives some places at the nearest mark.
BETWEEN_MARKS: Words = (
    "Places between two marks are given at the nearest; the template has them exactly.",
)


def marked(length: Length, ruler: Ruler, system: System) -> Length:
    """The length itself where a ruler of that system carries it, else the nearest mark of `ruler`.

    >>> from snipfold.measure import words
    >>> words(marked(Length.mm("39.3"), Ruler(Length.inch("1/16")), System.INCH), System.INCH)
    '1 9/16 in'
    """
    return length if carried(length, system) else ruler.nearest(length)


def make_ready(kind: AdhesiveKind, panels: Sequence[str], strips: int = 1) -> str:
    """What to do to the adhesive, so many strips on those panels, before they are pressed on."""
    if kind is AdhesiveKind.GLUE:
        return f"Spread a thin line of glue on {the(panels)}."
    if kind is AdhesiveKind.HOT_GLUE:
        return f"Run a thin line of hot glue along {the(panels)}."
    if len(panels) == 1:
        return f"Peel the liner{'s' if strips > 1 else ''} off {the(panels)}."
    return f"Peel the liners off {the(panels) if len(panels) < 4 else f'all {len(panels)} strips'}."
