"""The flat piece as a picture: its outline, scores, snips and names, and the dimensioned blank."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from fractions import Fraction

from shapely import LineString, Polygon

from ..flat import Edge, EdgeKind, FlatPiece, Fold, Panel, Point
from ..measure import Length, System, typeset_number, unit_word, words
from ..project.design import Design
from .inks import (
    CUT,
    FAINT,
    FAINT_SCORE,
    INK,
    MOUNTAIN,
    PAGE,
    SLIT,
    VALLEY,
    WASTE,
    Ink,
    mixed,
)  # fmt: skip
from .layout import Lay, box_of, fitted, framed, middle_text, spread, touch
from .lettering import CAPITAL, POINT_MM, REGULAR, width_mm
from .measures import NAME_PT, NOTE_PT, chain_below, chain_left, leader, line_height_mm
from .scene import XY, Drawing, Fill, Hatch, Mark, Ring, Stroke, Text

#: mm. The room for a picture of half a page, between the margins of Letter and A4.
PICTURE_WIDTH_MM = 170.0
PICTURE_HEIGHT_MM = 118.0
#: Small pieces are enlarged, but no more than this.
_LARGEST = 1.4


def outlines(piece: FlatPiece) -> tuple[tuple[Point, ...], ...]:
    """The outline of the piece after snipping: closed loops of corners, anticlockwise, exact.

    A corner in a straight run is left out.
    """
    after: dict[int, list[Edge]] = {}
    for edge in piece.edges:
        if edge.kind is EdgeKind.CUT:
            after.setdefault(edge.start, []).append(edge)
    loops = []
    while after:
        start = next(iter(after))
        loop = [start]
        here = start
        while True:
            edge = after[here].pop()
            if not after[here]:
                del after[here]
            here = edge.end
            if here == start:
                break
            loop.append(here)
        loops.append(_straightened([piece.vertices[v] for v in loop]))
    return tuple(loops)


def _straightened(loop: list[Point]) -> tuple[Point, ...]:
    kept = []
    for before, here, after in zip(loop[-1:] + loop[:-1], loop, loop[1:] + loop[:1], strict=True):
        turn = (here.x - before.x) * (after.y - here.y) - (here.y - before.y) * (after.x - here.x)
        if turn:
            kept.append(here)
    return tuple(kept)


def slits(piece: FlatPiece) -> tuple[tuple[Point, Point], ...]:
    """Every slit, exact."""
    return tuple(
        (piece.vertices[edge.start], piece.vertices[edge.end])
        for edge in piece.edges
        if edge.kind is EdgeKind.SLIT
    )


def rectangle(piece: FlatPiece) -> tuple[Point, ...]:
    """The blank's rectangle as cut from the sheet."""
    width, height, none = piece.width.as_mm, piece.height.as_mm, Fraction(0)
    return (
        Point(none, none), Point(width, none), Point(width, height), Point(none, height),
    )  # fmt: skip


def fold_ink(fold: Fold) -> Ink:
    """The line style of a score seen from the outside."""
    return MOUNTAIN if fold is Fold.MOUNTAIN else VALLEY


def score_marks(piece: FlatPiece, lay: Lay, *, seen_inside: bool = False) -> list[Mark]:
    """Every score in its line style; seen from the inside a mountain is a valley."""
    return [
        Stroke(
            (lay.at(score.start), lay.at(score.end)),
            fold_ink(score.fold.other if seen_inside else score.fold),
        )
        for score in piece.scores
    ]


def faint_score_marks(piece: FlatPiece, lay: Lay) -> list[Mark]:
    """Every score, faint."""
    return [Stroke((lay.at(score.start), lay.at(score.end)), FAINT_SCORE) for score in piece.scores]


def cut_marks(piece: FlatPiece, lay: Lay, ink: Ink = CUT) -> list[Mark]:
    """The outline after snipping, and the slits."""
    marks: list[Mark] = [Stroke(lay.ring(loop), ink, True) for loop in outlines(piece)]
    marks += [Stroke(lay.ring(slit), SLIT) for slit in slits(piece)]
    return marks


def waste_marks(piece: FlatPiece, lay: Lay) -> list[Mark]:
    """What is snipped away, cross-hatched, with a faint rim where the blank was cut."""
    marks: list[Mark] = []
    for snip in piece.snips:
        if len(snip.corners) > 2:
            ring = lay.ring(snip.corners)
            marks += [Hatch((ring,), WASTE), Stroke(ring, FAINT, True)]
    return marks


def paper_fill(piece: FlatPiece, lay: Lay, colour: str, share: float = 0.72) -> list[Mark]:
    """The piece after snipping in a tint of its paper; `share` is how much white is in it."""
    return [Fill((lay.ring(loop),), mixed(colour, PAGE, share)) for loop in outlines(piece)]


def _middle(ring: Ring) -> XY:
    xs, ys = zip(*ring, strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def name_in(
    ring: Ring, name: str, size_pt: float = NAME_PT, colour: str = INK, weight: int = REGULAR
) -> list[Mark] | None:
    """The name inside a panel: in one line, in two, or upright; None where there is no room."""
    xs, ys = zip(*ring, strict=True)
    across, up = max(xs) - min(xs) - 2.0, max(ys) - min(ys) - 1.6
    centre = _middle(ring)
    shape = Polygon(ring)
    # Tapered panels are narrower at one end: the room is what their middle leaves.
    if len(ring) == 4 and len(set(xs)) + len(set(ys)) > 4:
        across, up = across * 0.92, up * 0.92
    elif shape.area < _POINTED * across * up:
        centre = shape.centroid.coords[0]
        across, up = (0.7 * room for room in _room_about(shape, centre))
    for turn, run, rise in ((0.0, across, up), (90.0, up, across)):
        for lines in _broken(name):
            height = line_height_mm(size_pt) * (len(lines) - 1) + CAPITAL * size_pt * POINT_MM
            if height > rise or max(width_mm(li, size_pt, weight) for li in lines) > run:
                continue
            marks: list[Mark] = []
            for number, line in enumerate(lines):
                shift = ((len(lines) - 1) / 2 - number) * line_height_mm(size_pt)
                at = (centre[0], centre[1] + shift) if not turn else (centre[0] - shift, centre[1])
                marks.append(
                    middle_text(at, line, size_pt, degrees=turn, colour=colour, weight=weight)
                )
            return marks
    return None


#: A panel that fills less of the rectangle about it than this is named at its centre of gravity.
_POINTED = 0.7


def _room_about(shape: Polygon, at: XY) -> tuple[float, float]:
    """How far a panel reaches across and up through a place in it, mm."""
    (x, y), (low_x, low_y, high_x, high_y) = at, shape.bounds
    level, upright = LineString([(low_x, y), (high_x, y)]), LineString([(x, low_y), (x, high_y)])
    return shape.intersection(level).length, shape.intersection(upright).length


def _broken(name: str) -> list[list[str]]:
    """The name in one line, then in two and three, broken where the lines are most alike."""
    found = [[name]]
    parts = name.split()
    for count in (2, 3):
        if len(parts) < count:
            break
        options = []
        for breaks in _ways(len(parts), count):
            lines = [" ".join(parts[a:b]) for a, b in itertools.pairwise(breaks)]
            options.append((max(len(line) for line in lines), lines))
        found.append(min(options)[1])
    return found


def _ways(parts: int, count: int) -> list[tuple[int, ...]]:
    if count == 2:
        return [(0, a, parts) for a in range(1, parts)]
    return [(0, a, b, parts) for a in range(1, parts) for b in range(a + 1, parts)]


def name_marks(
    panels: Iterable[Panel],
    lay: Lay,
    top_y: float,
    *,
    size_pt: float = NAME_PT,
    colour: str = INK,
    outside: bool = True,
    avoid: Iterable[Mark] = (),
) -> list[Mark]:
    """The names of panels, inside them; thin ones get a leader from above `top_y`.

    A name that would touch any mark of `avoid` is left out.
    """
    taken = [box_of([mark]) for mark in avoid if isinstance(mark, Fill | Text)]
    marks: list[Mark] = []
    left_out: list[tuple[XY, str]] = []
    for panel in panels:
        ring = lay.ring(panel.corners)
        inside = name_in(ring, panel.name, size_pt, colour) or name_in(
            ring, panel.name, size_pt * 0.86, colour
        )
        if inside is not None:
            if not any(touch(box_of([mark]), box) for mark in inside for box in taken):
                marks += inside
        else:
            left_out.append((_middle(ring), panel.name))
    if outside and left_out:
        left_out.sort()
        y = top_y + 4.5
        places = spread(
            [x for (x, _), _ in left_out],
            [width_mm(name, size_pt) for _, name in left_out],
            3.0,
        )
        for place, (point, name) in zip(places, left_out, strict=True):
            marks += leader(point, (place, y - 0.6))
            marks.append(middle_text((place, y + 1.4), name, size_pt))
    return marks


def columns(piece: FlatPiece) -> tuple[Length, ...]:
    """Where the upright scores lie, with the two edges: exact, ascending."""
    found = {Fraction(0), piece.width.as_mm}
    found |= {score.start.x for score in piece.scores if score.start.x == score.end.x}
    return tuple(Length.mm(x) for x in sorted(found))


def rows(piece: FlatPiece) -> tuple[Length, ...]:
    """Where the level scores lie, with the two edges: exact, ascending."""
    found = {Fraction(0), piece.height.as_mm}
    found |= {score.start.y for score in piece.scores if score.start.y == score.end.y}
    return tuple(Length.mm(y) for y in sorted(found))


def steps_between(stops: Sequence[Length]) -> list[Length]:
    """The exact distances between neighbours."""
    return [b - a for a, b in itertools.pairwise(stops)]


def size_words(width: Length, height: Length, system: System) -> str:
    """A size in plain words: "10 1/2 x 5 in"."""
    return f"{words(width, system).rsplit(' ', 1)[0]} x {words(height, system)}"


def size_typeset(width: Length, height: Length, system: System) -> str:
    """A size as drawings set it, without its unit."""
    return f"{typeset_number(width, system)} × {typeset_number(height, system)}"


def edge_measures(
    piece: FlatPiece, scale: float, system: System
) -> tuple[list[Mark], tuple[float, float]]:
    """Measures along two edges of a piece that lies upright with its lower left corner at (0, 0).

    Two rows each way: between the scores, and overall; the unit stands where they meet. Returns
    the marks and where the outermost stand (x, y).
    """
    marks: list[Mark] = []
    low = left = 0.0
    for stops in (columns(piece), (Length.mm(0), piece.width)):
        if len(stops) == 2 and stops is not columns(piece) and len(columns(piece)) == 2 and marks:
            break
        at = [stop.float_mm * scale for stop in stops]
        labels = [typeset_number(step, system) for step in steps_between(stops)]
        more, low = chain_below(at, labels, low if marks else 0.0, off_mm=5.0 if not marks else 3.0)
        marks += more
    first = True
    for stops in (rows(piece), (Length.mm(0), piece.height)):
        if len(rows(piece)) == 2 and not first:
            break
        at = [stop.float_mm * scale for stop in stops]
        labels = [typeset_number(step, system) for step in steps_between(stops)]
        more, left = chain_left(at, labels, left, off_mm=5.0 if first else 3.0)
        marks += more
        first = False
    marks.append(middle_text((left / 2 - 2, low + 2.5), unit_word(system), NOTE_PT))
    return marks, (left, low)


def blank_picture(design: Design, piece_name: str) -> Drawing:
    """The blank to scale: panels named, cuts, scores and snips, measures along two edges.

    Seen from the outside, at most 170 mm wide. Raises `KeyError` for an unknown piece.
    """
    piece = design.construction.piece(piece_name)
    paper = design.papers[piece_name]
    system = design.system

    def build(scale: float) -> Drawing:
        lay = Lay().scaled(scale)
        measures, _ = edge_measures(piece, scale, system)
        top = piece.height.float_mm * scale
        return framed(
            f"{piece_name} blank",
            (
                ("paper", paper_fill(piece, lay, paper.colour)),
                ("waste", waste_marks(piece, lay)),
                ("score", score_marks(piece, lay)),
                ("cut", cut_marks(piece, lay)),
                ("names", name_marks(piece.panels, lay, top)),
                ("measures", measures),
            ),
            _blank_alt(piece, system),
        )

    return fitted(build, _LARGEST, PICTURE_WIDTH_MM, PICTURE_HEIGHT_MM)


def _blank_alt(piece: FlatPiece, system: System) -> str:
    across = ", ".join(words(step, system) for step in steps_between(columns(piece)))
    up = ", ".join(words(step, system) for step in steps_between(rows(piece)))
    taken = sum(1 for snip in piece.snips if len(snip.corners) > 2)
    return (
        f"The {piece.name} flat, outside up: a blank of "
        f"{size_words(piece.width, piece.height, system)}. Between the scores from left to right: "
        f"{across}. From bottom to top: {up}. Panels: "
        f"{', '.join(panel.name for panel in piece.panels)}. {taken} places are snipped away."
    )
