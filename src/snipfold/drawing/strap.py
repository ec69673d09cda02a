"""The strap as it is cut and taped, and the pencil marks that line it up."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from ..dressing import Mark as PencilMark
from ..dressing import Strap, Strip
from ..flat import Face, FlatPiece
from ..measure import Length, System, typeset_number, unit_word, words
from ..project.design import Design
from .blank import PICTURE_WIDTH_MM, cut_marks, faint_score_marks, name_in, paper_fill
from .flatwork import GLUE_EDGE, face_lay
from .inks import CUT, GLUE, HIDDEN, PAGE, PENCIL, THIN, mixed
from .layout import Lay, box_of, fitted, framed, middle_text, moved, spread, touch
from .lettering import BOLD, width_mm
from .measures import MEASURE_PT, NAME_PT, NOTE_PT, chain_below, chain_left
from .scene import XY, Anchor, Drawing, Fill, Hatch, Mark, Ring, Stroke

_HEIGHT_MM = 150.0
_SOFT = "#6E7876"
#: mm. A strap is drawn at least this wide, so that its tape shows.
_LEAST_WIDE_MM = 9.0


def strap_picture(design: Design) -> Drawing:
    """The strip with its feet and tape, and the piece with the pencil marks for both ends.

    Raises `ValueError` for a design without a strap.
    """
    strap = design.dressing.strap
    if strap is None:
        raise ValueError("this design has no strap")
    piece = design.construction.piece(strap.piece)
    paper = design.papers.get("strap", design.papers[strap.piece])
    under = design.papers[strap.piece]
    ground = under.colour if strap.face is Face.OUTSIDE else under.back_colour
    strips = [strip for strip in design.dressing.strips if strip.on == "strap"]

    def build(scale: float) -> Drawing:
        strip = _strip(strap, strips, paper.colour, design.system)
        below = _marked(piece, strap, ground, scale, design.system)
        box, low = box_of(strip), 0.0
        low = box[1] - 9.0
        top = box_of([mark for _, marks in below for mark in marks])[3]
        placed = [(name, [moved(mark, 0.0, low - top) for mark in marks]) for name, marks in below]
        return framed("strap", (("strap", strip), *placed), _alt(strap, strips, design.system))

    return fitted(build, 1.2, PICTURE_WIDTH_MM, _HEIGHT_MM)


def _strip(strap: Strap, strips: Sequence[Strip], colour: str, system: System) -> list[Mark]:
    """The strip as it lies before the maker, the face that touches the panel up."""
    room = PICTURE_WIDTH_MM - 32.0
    scale = min(1.0, room / strap.length.float_mm)
    wide = max(strap.width.float_mm * scale, _LEAST_WIDE_MM)
    run, foot = strap.length.float_mm * scale, strap.foot.float_mm * scale
    trim = strap.trim.float_mm * scale

    def box(x0: float, x1: float, y0: float = 0.0, y1: float = wide) -> Ring:
        return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))

    marks: list[Mark] = [Fill((box(0, run),), mixed(colour, PAGE, 0.6))]
    touching = strap.face.other
    used = run - trim
    for start, outward in ((0.0, 1.0), (used, -1.0)):
        end = "first end" if outward > 0 else "second end"
        here = [s for s in strips if s.item == end and s.face is touching]
        for number, strip in enumerate(here):
            tape = min(strip.width.float_mm * scale, foot / len(here))
            tape = max(tape, 1.8)
            near, far = start, start + outward * foot
            low, high = 0.0, wide
            if strip.edge.startswith("along"):
                half = wide / len(here)
                low = half * number + 0.4
                high = low + min(tape, half - 0.8)
            elif strip.edge.endswith("the rim"):
                near = far - outward * tape
            elif strip.edge.endswith("the end"):
                far = near + outward * tape
            else:
                near, far = (near + far - tape) / 2, (near + far + tape) / 2
            ring = box(min(near, far), max(near, far), low, high)
            marks += [
                Fill((ring,), mixed(GLUE.ink.colour, PAGE, 0.82)),
                Hatch((ring,), GLUE),
                Stroke(ring, GLUE_EDGE, True),
            ]
        line = start + outward * foot
        marks.append(Stroke(((line, 0.0), (line, wide)), PENCIL))
    marks.append(Stroke(box(0, run), CUT, True))
    stops = [0.0, foot, used - foot, used]
    labels = [strap.foot, strap.free, strap.foot]
    if trim:
        stops.append(run)
        labels.append(strap.trim)
        marks.append(Stroke(((used, 0.0), (used, wide)), CUT))
    told = [typeset_number(length, system) for length in labels]
    chain, low = chain_below(stops, told, 0.0)
    marks += chain
    chain, low = chain_below([0.0, run], [typeset_number(strap.length, system)], low, off_mm=3.0)
    marks += chain
    beside, left = chain_left([0.0, wide], [typeset_number(strap.width, system)], 0.0)
    marks += beside
    marks.append(middle_text((left / 2, low + 2.5), unit_word(system), NOTE_PT))
    for x, says in ((foot / 2, "first end"), (used - foot / 2, "second end")):
        marks.append(middle_text((x, wide + 3.4), says, NAME_PT))
    marks.append(
        middle_text(((foot + used - foot) / 2, wide + 3.4), "strap, taped face up", NAME_PT)
    )
    return marks


def _marked(
    piece: FlatPiece, strap: Strap, colour: str, scale: float, system: System
) -> list[tuple[str, list[Mark]]]:
    lay = face_lay(piece, strap.face).scaled(scale)
    names: list[Mark] = []
    for panel in piece.panels:
        if panel.name not in strap.panels:
            names += name_in(lay.ring(panel.corners), panel.name, NAME_PT, _SOFT) or []
    feet: list[Mark] = [Stroke(lay.ring(foot), HIDDEN, True) for foot in strap.feet]
    pencil: list[Mark] = [Stroke((lay.at(m.start), lay.at(m.end)), PENCIL) for m in strap.marks]
    measures: list[Mark] = []
    above: list[tuple[XY, str]] = []
    for panel_name, foot in zip(strap.panels, strap.feet, strict=True):
        marks = [mark for mark in strap.marks if mark.panel == panel_name]
        measures += _mark_measures(piece, panel_name, marks, lay, system, above)
        ring = lay.ring(foot)
        xs, ys = zip(*lay.ring(piece.panel(panel_name).corners), strict=True)
        room = ((min(xs), min(ys)), (max(xs), min(ys)), (max(xs), min(y for _, y in ring)),
                (min(xs), min(y for _, y in ring)))  # fmt: skip
        names += name_in(room, panel_name, NAME_PT, _SOFT) or []
    measures += _labels_above(above)
    names = [n for n in names if not any(touch(box_of([n]), box_of([m])) for m in measures)]
    return [
        ("paper", paper_fill(piece, lay, colour)),
        ("score", faint_score_marks(piece, lay)),
        ("cut", cut_marks(piece, lay)),
        ("names", names),
        ("feet", feet),
        ("pencil", pencil),
        ("measures", measures),
    ]


def _mark_measures(
    piece: FlatPiece,
    panel_name: str,
    marks: Sequence[PencilMark],
    lay: Lay,
    system: System,
    above: list[tuple[XY, str]],
) -> list[Mark]:
    """How far marks lie from the panel's sides and rim; adds to `above` what stands over the rim."""
    corners = piece.panel(panel_name).corners
    xs = {corner.x for corner in corners}
    found: list[Mark] = []
    stops = {min(xs), max(xs)}
    level = []
    for mark in marks:
        if mark.start.x == mark.end.x:
            stops.add(mark.start.x)
        elif mark.start.y == mark.end.y:
            level.append(mark.start.y)
    ordered = sorted(stops, key=lambda x: lay.at((x, 0))[0])
    at = [lay.at((x, 0))[0] for x in ordered]
    labels = [typeset_number(Length.mm(abs(b - a)), system) for a, b in itertools.pairwise(ordered)]
    if len(at) > 2:
        # The chain hangs below its edge; mirrored about the rim it stands above.
        top = lay.at((0, max(c.y for c in corners)))[1]
        line = top + 4.0
        found.append(Stroke(((at[0], line), (at[-1], line)), THIN))
        for x in at:
            found.append(Stroke(((x, top + 1.0), (x, line + 1.0)), THIN))
            found.append(Stroke(((x - 0.9, line - 0.9), (x + 0.9, line + 0.9)), THIN))
        for a, b, label in zip(at, at[1:], labels, strict=False):
            above.append((((a + b) / 2, line), label))
    if level:
        top_y = max(c.y for c in corners)
        low = min(level)
        (x_right, y_low), (_, y_top) = lay.at((max(xs), low)), lay.at((max(xs), top_y))
        if lay.xx < 0:
            x_right = lay.at((min(xs), low))[0]
        label = typeset_number(Length.mm(top_y - low), system)
        x = x_right + 3.0
        found += [
            Stroke(((x, y_low), (x, y_top)), THIN),
            Stroke(((x - 0.9, y_low - 0.9), (x + 0.9, y_low + 0.9)), THIN),
            Stroke(((x - 0.9, y_top - 0.9), (x + 0.9, y_top + 0.9)), THIN),
            Stroke(((lay.at((sum(xs) / len(xs), low))[0], y_low), (x + 1.0, y_low)), THIN),
            middle_text((x + 1.6, (y_low + y_top) / 2), label, MEASURE_PT, weight=BOLD,
                        anchor=Anchor.START),
        ]  # fmt: skip
    return found


def _labels_above(labels: list[tuple[XY, str]]) -> list[Mark]:
    """Labels in a row over their intervals, spread where they crowd, then with leaders."""
    labels = sorted(labels)
    widths = [width_mm(label, MEASURE_PT, BOLD) for _, label in labels]
    places = spread([x for (x, _), _ in labels], widths, 2.0)
    shifted = any(abs(x - place) > 0.8 for ((x, _), _), place in zip(labels, places, strict=True))
    rise = 7.0 if shifted else 4.4
    marks: list[Mark] = []
    for ((x, line), label), place in zip(labels, places, strict=True):
        if shifted:
            marks.append(Stroke(((x, line), (place, line + rise - 2.8)), THIN))
        marks.append(middle_text((place, line + rise), label, MEASURE_PT, weight=BOLD))
    return marks


def _alt(strap: Strap, strips: Sequence[Strip], system: System) -> str:
    tape = ", ".join(dict.fromkeys(f"{s.item}: {s.edge}" for s in strips)) or "none"
    trim = f", {words(strap.trim, system)} trimmed off" if strap.trim else ""
    marks = "; ".join(f"{mark.says}, on the {mark.panel}" for mark in strap.marks)
    return (
        f"The strap, {words(strap.width, system)} wide and {words(strap.length, system)} long"
        f"{trim}: a foot of {words(strap.foot, system)}, {words(strap.free, system)} free, a foot "
        f"of {words(strap.foot, system)}. Tape: {tape}. Below, the {strap.piece} flat, "
        f"{strap.face.value} up, with pencil marks: {marks}."
    )
