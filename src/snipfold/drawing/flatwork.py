"""What is done to the flat piece: snips, tape and mats."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Sequence
from fractions import Fraction

from shapely import LineString, Polygon

from ..dressing import Mat, Strip
from ..flat import Face, FlatPiece, Point, Snip
from ..measure import Length, System, typeset_number, unit_word, words
from ..project.design import Design
from .blank import (
    PICTURE_HEIGHT_MM,
    PICTURE_WIDTH_MM,
    cut_marks,
    faint_score_marks,
    name_in,
    name_marks,
    paper_fill,
    size_typeset,
    size_words,
    waste_marks,
)  # fmt: skip
from .inks import CUT, GLUE, INK, NARROW_MM, PAGE, THIN, WASTE, Ink, mixed
from .layout import Lay, box_of, fitted, framed, middle_text, moved, plate, spread, touch
from .lettering import BOLD, CAPITAL, POINT_MM, width_mm
from .measures import (
    MEASURE_PT,
    NAME_PT,
    NOTE_PT,
    chain_below,
    chain_left,
    leader,
    line_height_mm,
)  # fmt: skip
from .scene import XY, Anchor, Drawing, Fill, Hatch, Mark, Ring, Stroke, Text

_LARGEST = 1.4
_SOFT = "#6E7876"
#: The rim of an adhesive strip.
GLUE_EDGE = Ink("glue edge", "", GLUE.ink.colour, NARROW_MM)


def _middle(ring: Ring) -> XY:
    xs, ys = zip(*ring, strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


# Snips ---------------------------------------------------------------------------------------


#: mm. A snip narrower than this in the picture is shown enlarged beside it.
_SMALL_MM = 9.0
_DETAIL_MM = 34.0
#: mm. A row of enlargements with its measures, and the room on a page under its heading.
_DETAIL_ROW_MM = 45.0
_MANY = 5
_PAGE_HEIGHT_MM = 190.0


def snip_picture(design: Design, piece_name: str) -> Drawing:
    """What scissors take away: cross-hatched on the blank, and enlarged with its measures.

    Equal snips share one enlargement, which carries their letter; where there are many shapes,
    only slim ones are enlarged. Seen from the outside.
    """
    piece = design.construction.piece(piece_name)
    paper = design.papers[piece_name]
    system = design.system
    shapes = _shapes(piece)
    # Of many, only the slim ones are enlarged: the blank itself must not shrink beside them.
    shown = shapes if len(shapes) <= _MANY else [one for one in shapes if _is_slim(one[1][0])]
    details = [_detail(letter, snips[0], piece, system) for letter, snips in shown]
    # Every further row of enlargements gets room of its own.
    run = sum(box[2] - box[0] + 9.0 for box in map(box_of, details))
    more = _DETAIL_ROW_MM * int(run // PICTURE_WIDTH_MM)

    def build(scale: float) -> Drawing:
        lay = Lay().scaled(scale)
        top, right = piece.height.float_mm * scale, piece.width.float_mm * scale
        letters: list[Mark] = []
        for letter, snips in shapes:
            for snip in snips:
                ring = lay.ring(snip.corners)
                ways = [_lettered(letter, ring, right, top, aside) for aside in _ASIDE_MM]
                letters += next((way for way in ways if not _touches(way, letters)), ways[0])
        names = name_marks(piece.panels, lay, top, colour=_SOFT, outside=False, avoid=letters)
        left, low, high_x, _ = box_of([*letters, *cut_marks(piece, lay)])
        placed: list[Mark] = []
        x, row_low, y = left, low - 6.0, low - 6.0
        for detail in details:
            box = box_of(detail)
            if x > left and x + box[2] - box[0] > max(high_x, PICTURE_WIDTH_MM - 3):
                x, y = left, row_low - 5.0
            placed += [moved(mark, x - box[0], y - box[3]) for mark in detail]
            row_low = min(row_low, y - (box[3] - box[1]))
            x += box[2] - box[0] + 9.0
        return framed(
            f"{piece_name} snips",
            (
                ("paper", paper_fill(piece, lay, paper.colour)),
                ("waste", waste_marks(piece, lay)),
                ("score", faint_score_marks(piece, lay)),
                ("cut", cut_marks(piece, lay)),
                ("names", names),
                ("letters", letters),
                ("details", placed),
            ),
            _snip_alt(piece, shapes, system),
        )

    return fitted(
        build, _LARGEST, PICTURE_WIDTH_MM, min(PICTURE_HEIGHT_MM + 25 + more, _PAGE_HEIGHT_MM)
    )


def _shapes(piece: FlatPiece) -> list[tuple[str, list[Snip]]]:
    """The snips that take paper away, equal ones (also mirrored or turned) together, lettered."""
    found: dict[tuple[tuple[Fraction, Fraction], ...], list[Snip]] = {}
    for snip in piece.snips:
        if len(snip.corners) > 2:
            found.setdefault(_form(snip.corners), []).append(snip)
    return [(chr(ord("A") + n), snips) for n, snips in enumerate(found.values())]


def _is_slim(snip: Snip) -> bool:
    """Whether a snip is too narrow to be seen well on the blank."""
    sizes = [max(c[axis] for c in snip.corners) - min(c[axis] for c in snip.corners)
             for axis in (0, 1)]  # fmt: skip
    return float(min(sizes)) < _SMALL_MM


def _form(corners: Sequence[Point]) -> tuple[tuple[Fraction, Fraction], ...]:
    """What stays of a shape when it is moved, mirrored or turned by quarters."""
    forms = []
    for swap in (False, True):
        for sx in (1, -1):
            for sy in (1, -1):
                points = [
                    (sx * (c.y if swap else c.x), sy * (c.x if swap else c.y)) for c in corners
                ]
                x0, y0 = min(p[0] for p in points), min(p[1] for p in points)
                forms.append(tuple(sorted((x - x0, y - y0) for x, y in points)))
    return min(forms)


#: mm. How far a letter may give way to others along the rim.
_ASIDE_MM = (0.0, 4.0, -4.0, 8.0, -8.0)


def _touches(marks: Sequence[Mark], others: Sequence[Mark]) -> bool:
    """Whether any lettering of the one touches lettering of the others."""
    boxes = [box_of([mark]) for mark in others if isinstance(mark, Text)]
    return any(
        touch(box_of([mark]), box) for mark in marks if isinstance(mark, Text) for box in boxes
    )


def _lettered(letter: str, ring: Ring, right: float, top: float, aside: float = 0.0) -> list[Mark]:
    """The letter of a snip beside it, outside of the blank where there is no room inside.

    There it stands `aside` from its snip along the rim, mm.
    """
    (x, y), size = _middle(ring), NOTE_PT * POINT_MM
    xs, ys = zip(*ring, strict=True)
    if max(xs) - min(xs) > size * 1.6 and max(ys) - min(ys) > size * 1.6:
        text = middle_text((x, y), letter, NOTE_PT, weight=BOLD)
        return [plate(text), text]
    if min(ys) < 0.1:
        at, tip = (x + aside, -3.6), (x + aside, -1.0)
    elif max(ys) > top - 0.1:
        at, tip = (x + aside, top + 3.6), (x + aside, top + 1.0)
    elif min(xs) < 0.1:
        at, tip = (-3.6, y + aside), (-1.0, y + aside)
    elif max(xs) > right - 0.1:
        at, tip = (right + 3.6, y + aside), (right + 1.0, y + aside)
    elif 2 * y < top:
        at, tip = (x + aside, -3.6), (x + aside, -1.0)
    else:
        at, tip = (x + aside, top + 3.6), (x + aside, top + 1.0)
    return [middle_text(at, letter, NOTE_PT, weight=BOLD), Stroke((tip, (x, y)), THIN)]


def _detail(letter: str, snip: Snip, piece: FlatPiece, system: System) -> list[Mark]:
    """One snip enlarged, stretched where it is very slim, with its measures along two edges."""
    xs = sorted({corner.x for corner in snip.corners})
    ys = sorted({corner.y for corner in snip.corners})
    wide, high = float(xs[-1] - xs[0]), float(ys[-1] - ys[0])
    scale = min(_DETAIL_MM / wide, 0.75 * _DETAIL_MM / high)
    across, up = max(9.0, wide * scale), max(9.0, high * scale)
    true = abs(across / wide - up / high) < 0.05 * up / high
    lay = Lay(
        across / wide, 0, 0, up / high, -float(xs[0]) * across / wide, -float(ys[0]) * up / high
    )
    ring = lay.ring(snip.corners)
    stops_x = [lay.at((x, ys[0]))[0] for x in xs]
    stops_y = [lay.at((xs[0], y))[1] for y in ys]
    label_x = [typeset_number(Length.mm(b - a), system) for a, b in itertools.pairwise(xs)]
    label_y = [typeset_number(Length.mm(b - a), system) for a, b in itertools.pairwise(ys)]
    below, _ = chain_below(stops_x, label_x, 0.0, off_mm=3.5)
    beside, _ = chain_left(stops_y, label_y, 0.0, off_mm=3.5)
    frame = tuple((x, y) for x, y in ((0.0, 0.0), (across, 0.0), (across, up), (0.0, up)))
    title = f"{letter}" if true else f"{letter}, not to scale"
    return [
        Fill((frame,), mixed(INK, PAGE, 0.95)),
        Hatch((ring,), WASTE),
        Stroke(ring, CUT, True),
        *below,
        *beside,
        middle_text((across / 2, up + 4.0), title, NOTE_PT, weight=BOLD),
    ]


def _snip_alt(piece: FlatPiece, shapes: list[tuple[str, list[Snip]]], system: System) -> str:
    if not shapes:
        return f"The {piece.name} flat, outside up: nothing is snipped away."
    parts = []
    for letter, snips in shapes:
        xs = [c.x for c in snips[0].corners]
        ys = [c.y for c in snips[0].corners]
        size = size_words(Length.mm(max(xs) - min(xs)), Length.mm(max(ys) - min(ys)), system)
        names = "; ".join(snip.name for snip in snips)
        parts.append(f"{letter}, {size}: {names}")
    return f"The {piece.name} flat, outside up. Snip away {'. '.join(parts)}."


# Tape ----------------------------------------------------------------------------------------


def face_lay(piece: FlatPiece, face: Face) -> Lay:
    """The piece upright with that face up; the inside is seen mirrored, turned like a page."""
    if face is Face.OUTSIDE:
        return Lay()
    return Lay(-1, 0, 0, 1, piece.width.float_mm, 0)


def tape_picture(design: Design, piece_name: str, face: Face) -> Drawing:
    """Where adhesive goes on one face of a piece, each strip with its size.

    The piece lies upright with that face up (the inside as seen after turning it like a page).
    """
    piece = design.construction.piece(piece_name)
    paper = design.papers[piece_name]
    strips = [
        strip
        for strip in design.dressing.strips
        if strip.on == "panel"
        and strip.piece == piece_name
        and strip.face is face
        and strip.corners
    ]
    colour = paper.colour if face is Face.OUTSIDE else paper.back_colour
    system = design.system

    def build(scale: float) -> Drawing:
        lay = face_lay(piece, face).scaled(scale)
        glue: list[Mark] = []
        for strip in strips:
            ring = lay.ring(strip.corners)
            glue += [Fill((ring,), mixed(GLUE.ink.colour, PAGE, 0.82)), Hatch((ring,), GLUE)]
            glue.append(Stroke(ring, GLUE_EDGE, True))
        top = piece.height.float_mm * scale
        labels = _strip_labels(piece, strips, lay, top, system)
        names = name_marks(
            piece.panels, lay, top, colour=_SOFT, outside=False, avoid=[*labels, *glue]
        )
        return framed(
            f"{piece_name} tape {face.value}",
            (
                ("paper", paper_fill(piece, lay, colour)),
                ("score", faint_score_marks(piece, lay)),
                ("cut", cut_marks(piece, lay)),
                ("names", names),
                ("glue", glue),
                ("measures", labels),
            ),
            _tape_alt(piece, face, strips, system),
        )

    return fitted(build, _LARGEST, PICTURE_WIDTH_MM, PICTURE_HEIGHT_MM)


def _strip_labels(
    piece: FlatPiece, strips: list[Strip], lay: Lay, top: float, system: System
) -> list[Mark]:
    """The size of each strip, in rows above and below the piece with leaders to the strips.

    A leader takes the nearer way out, unless only the other crosses no other panel.
    """
    upper: list[tuple[XY, str]] = []
    lower: list[tuple[XY, str]] = []
    for strip in strips:
        x, y = _middle(lay.ring(strip.corners))
        label = size_typeset(strip.width, strip.length, system)
        others = [
            Polygon(lay.ring(panel.corners)) for panel in piece.panels if panel.name != strip.item
        ]
        crosses = [
            any(LineString([(x, y), (x, end)]).intersection(other).length > 0.5 for other in others)
            for end in (top, 0.0)
        ]
        above = crosses[1] if crosses[0] is not crosses[1] else y > top / 2
        (upper if above else lower).append(((x, y), label))
    marks: list[Mark] = []
    for group, up in ((upper, True), (lower, False)):
        marks += _row(group, top + 8.0 if up else -8.0, top if up else 0.0)
    if strips:
        marks.append(
            middle_text((0.0, top + 13.5 if upper else top + 4.5), unit_word(system), NOTE_PT,
                        anchor=Anchor.START)
        )  # fmt: skip
    return marks


def _row(group: list[tuple[XY, str]], y: float, edge: float) -> list[Mark]:
    """Labels in a row at `y`, each with a leader that leaves the piece straight at `edge`."""
    group = sorted(group)
    widths = [width_mm(label, MEASURE_PT, BOLD) for _, label in group]
    places = spread([x for (x, _), _ in group], widths, 4.0)
    marks: list[Mark] = []
    toward = CAPITAL * MEASURE_PT * POINT_MM / 2 + 1.0
    for ((x, py), label), place in zip(group, places, strict=True):
        near = y - toward if y > edge else y + toward
        out = edge + (1.0 if y > edge else -1.0)
        marks += leader((x, py), (x, out))
        marks.append(Stroke(((x, out), (place, near)), THIN))
        marks.append(middle_text((place, y), label, MEASURE_PT, weight=BOLD))
    return marks


def _tape_alt(piece: FlatPiece, face: Face, strips: list[Strip], system: System) -> str:
    if not strips:
        return f"The {piece.name} flat, {face.value} up: no adhesive on this face."
    listed = "; ".join(
        f"{strip.item}, along the {strip.edge}, {size_words(strip.width, strip.length, system)}"
        for strip in strips
    )
    return f"The {piece.name} flat, {face.value} up. Adhesive on: {listed}."


# Mats ----------------------------------------------------------------------------------------


def mats_picture(design: Design, piece_name: str, face: Face = Face.OUTSIDE) -> Drawing:
    """The mats of one face of a piece in their places, each with its size and its border."""
    piece = design.construction.piece(piece_name)
    paper = design.papers[piece_name]
    mats = [mat for mat in design.dressing.mats_on(piece_name) if mat.face is face]
    mat_colour = design.papers["mats"].colour if "mats" in design.papers else paper.back_colour
    system = design.system
    colour = paper.colour if face is Face.OUTSIDE else paper.back_colour

    def build(scale: float) -> Drawing:
        lay = face_lay(piece, face).scaled(scale)
        top = piece.height.float_mm * scale
        laid: list[Mark] = []
        words_on: list[Mark] = []
        outside: list[tuple[XY, str]] = []
        for mat in mats:
            ring = lay.ring(mat.corners)
            laid += [Fill((ring,), mixed(mat_colour, PAGE, 0.45)), Stroke(ring, THIN, True)]
            on, off = _mat_words(mat.panel, size_typeset(mat.width, mat.height, system), ring)
            words_on += on
            outside += off
        upper = [(at, label) for at, label in outside if at[1] > top / 2]
        lower = [(at, label) for at, label in outside if at[1] <= top / 2]
        notes = [*_row(upper, top + 8.0, top), *_row(lower, -8.0, 0.0)]
        low = box_of([*notes, *cut_marks(piece, lay)])[1]
        if mats:
            note = _border_note(mats, system)
            notes.append(middle_text((0.0, low - 5.0), note, 12.5, anchor=Anchor.START))
        return framed(
            f"{piece_name} mats",
            (
                ("paper", paper_fill(piece, lay, colour)),
                ("score", faint_score_marks(piece, lay)),
                ("cut", cut_marks(piece, lay)),
                ("mats", laid),
                ("names", words_on),
                ("measures", notes),
            ),
            _mats_alt(design, piece, face),
        )

    return fitted(build, _LARGEST, PICTURE_WIDTH_MM, PICTURE_HEIGHT_MM)


def _mat_words(panel: str, size: str, ring: Ring) -> tuple[list[Mark], list[tuple[XY, str]]]:
    """The size of a mat and its panel's name on it; what finds no room goes outside."""
    xs, ys = zip(*ring, strict=True)
    (x, y), wide, high = _middle(ring), max(xs) - min(xs) - 1.5, max(ys) - min(ys) - 1.5
    line = line_height_mm(MEASURE_PT)
    run = width_mm(size, MEASURE_PT, BOLD)
    name_run = width_mm(panel, NAME_PT)
    for turned, across, up in ((0.0, wide, high), (90.0, high, wide)):
        if run > across or line * 0.75 > up:
            continue
        both = name_run <= across and line * 1.7 <= up
        shift = 2.6 if both else 0.0
        size_at = (x, y - shift) if not turned else (x + shift, y)
        marks: list[Mark] = [middle_text(size_at, size, MEASURE_PT, weight=BOLD, degrees=turned)]
        if both:
            name_at = (x, y + shift + 0.6) if not turned else (x - shift - 0.6, y)
            marks.append(middle_text(name_at, panel, NAME_PT, degrees=turned))
        return marks, []
    inside = name_in(ring, panel, NAME_PT) or name_in(ring, panel, NAME_PT * 0.86) or []
    return inside, [((x, y), size)]


def _border_note(mats: Sequence[Mat], system: System) -> str:
    """The border per side and in total: the commonest, then the mats that have another."""
    count = Counter(mat.border for mat in mats)
    common = max(count, key=lambda border: count[border])
    told = (
        f"border {typeset_number(common, system)} on each side, "
        f"{typeset_number(common * 2, system)} both sides together"
    )
    for other in sorted(set(count) - {common}):
        names = ", ".join(mat.panel for mat in mats if mat.border == other)
        told += f"; {names} {typeset_number(other, system)}, {typeset_number(other * 2, system)}"
    return f"{told} ({unit_word(system)})"


def _mats_alt(design: Design, piece: FlatPiece, face: Face) -> str:
    mats = [mat for mat in design.dressing.mats_on(piece.name) if mat.face is face]
    if not mats:
        return f"The {piece.name} flat, {face.value} up: no mats on this face."
    listed = "; ".join(
        f"{mat.panel} {size_words(mat.width, mat.height, design.system)}, "
        f"border {words(mat.border, design.system)} on each side"
        for mat in mats
    )
    return f"The {piece.name} flat, {face.value} up, with its mats in place: {listed}."
