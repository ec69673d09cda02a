"""The piece on the scoring board, pass by pass."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ..flat import Face, FlatPiece, Fold, Point, Score
from ..measure import Length, Ruler, System, carried, typeset_number, unit_word, words
from ..project.design import Design
from ..scoring import ScoreLine, ScorePass, ruler_ends
from ..workshop import Edge
from .blank import PICTURE_WIDTH_MM, fold_ink, name_in, rectangle
from .inks import BOARD, CUT, FAINT, FAINT_SCORE, INK, PAGE, THIN, Ink, mixed
from .layout import Lay, fitted, framed, middle_text, spread
from .lettering import BOLD, width_mm
from .measures import MEASURE_PT, NAME_PT, NOTE_PT, SCORING_PT, line_height_mm
from .scene import Anchor, Drawing, Fill, Mark, Stroke

#: mm. Room for a picture of nearly a page: the scoring page is read from the farthest.
_HEIGHT_MM = 150.0
_LARGEST = 1.2
_FENCE_MM = 3.0
#: mm. How far the board reaches beyond the piece, and its ticks.
_BEYOND_MM = 7.0
_MOVED = "after the move"
#: Stands below a number that lies between two grooves.
_DOTS = Ink("dots", "", INK, 0.5, (0.5, 1.0))


def on_board(piece: FlatPiece, face_up: Face, fence: Edge) -> Lay:
    """How the piece lies on the board: the fence edge along x = 0, the piece to its right, mm.

    `fence` is named as the piece lies upright with its outside up. Turning the other face up
    mirrors the piece, so that distances from the fence stay and left and right change along it.
    """
    width, height = piece.width.float_mm, piece.height.float_mm
    match fence:
        case Edge.LEFT:
            lay = Lay(1, 0, 0, 1)
            run = height
        case Edge.RIGHT:
            lay = Lay(-1, 0, 0, -1, width, height)
            run = height
        case Edge.BOTTOM:
            lay = Lay(0, 1, -1, 0, 0, width)
            run = width
        case Edge.TOP:
            lay = Lay(0, -1, 1, 0, height, 0)
            run = width
    if face_up is Face.INSIDE:
        lay = Lay(lay.xx, lay.xy, -lay.yx, -lay.yy, lay.dx, run - lay.dy)
    return lay


def scoring_picture(design: Design, piece_name: str, pass_index: int) -> Drawing:
    """The piece on the board as it lies in one pass: the lines to score, and where they lie.

    The fence is at the left. Numbers count from the fence and are 22 pt high; where the pass has a
    shift, a second row gives the numbers after the piece was moved. At most 170 mm wide. Raises
    `KeyError` for a piece without a scoring plan, `IndexError` for a pass that is not there.
    """
    piece = design.construction.piece(piece_name)
    plan = next((plan for plan in design.scoring if plan.piece == piece_name), None)
    if plan is None:
        raise KeyError(piece_name)
    this = plan.passes[pass_index]
    paper = design.papers[piece_name]
    colour = paper.colour if this.face_up is Face.OUTSIDE else paper.back_colour
    step = design.workshop.board.grooves.graduation

    def build(scale: float) -> Drawing:
        lay = on_board(piece, this.face_up, this.fence)
        return framed(
            f"{piece_name} scoring {pass_index + 1}",
            _layers(piece, this, lay.scaled(scale), scale, colour, design.system, step),
            _alt(piece, this, design.system),
        )

    return fitted(build, _LARGEST, PICTURE_WIDTH_MM, _HEIGHT_MM)


def ruler_picture(design: Design, piece_name: str) -> Drawing:
    """The blank with its slanting scores, outside up, and where they are marked for a ruler.

    At the rim stand the distances of the marks from the left edge (above and below) or from the
    bottom edge (on the sides), at the nearest mark. At most 170 mm wide. Raises `KeyError` for a
    piece without a scoring plan.
    """
    piece = design.construction.piece(piece_name)
    plan = next((plan for plan in design.scoring if plan.piece == piece_name), None)
    if plan is None:
        raise KeyError(piece_name)
    colour, system = design.papers[piece_name].colour, design.system
    ruler = design.workshop.ruler
    runs = [(score, ruler_ends(piece, score)) for score in plan.slanting]

    def build(scale: float) -> Drawing:
        lay = Lay().scaled(scale)
        outline = lay.ring(rectangle(piece))
        slanting = {score.panels for score in plan.slanting}
        faint: list[Mark] = [
            Stroke((lay.at(score.start), lay.at(score.end)), FAINT_SCORE)
            for score in piece.scores
            if score.panels not in slanting
        ]
        strong: list[Mark] = []
        for score, ends in runs:
            strong.append(Stroke((lay.at(ends[0]), lay.at(ends[1])), fold_ink(score.fold)))
        places = [end for _, ends in runs for end in ends]
        numbers = _rim_numbers(piece, places, lay, ruler, system)
        names: list[Mark] = []
        for panel in piece.panels:
            names += name_in(lay.ring(panel.corners), panel.name, NAME_PT, "#6E7876") or []
        corner = middle_text((-6.0, -6.0), unit_word(system), NOTE_PT)
        return framed(
            f"{piece_name} scores along a ruler",
            (
                ("paper", [Fill((outline,), mixed(colour, PAGE, 0.6)), Stroke(outline, CUT, True)]),
                ("faint", faint),
                ("score", strong),
                ("names", names),
                ("measures", [*numbers, corner]),
            ),
            f"The {piece.name}, outside up, with the scores that are drawn along a ruler: "
            f"{', '.join(' and '.join(score.panels) for score, _ in runs)}.",
        )

    return fitted(build, _LARGEST, PICTURE_WIDTH_MM, _HEIGHT_MM)


def _rim_numbers(
    piece: FlatPiece, places: Sequence[Point], lay: Lay, ruler: Ruler, system: System
) -> list[Mark]:
    """The distances of the marks at the rim, along each of its sides; nothing for marks elsewhere."""
    width, height = piece.width.as_mm, piece.height.as_mm
    marks: list[Mark] = []
    for axis, rim in ((0, Fraction(0)), (0, height), (1, Fraction(0)), (1, width)):
        on = sorted({at[axis] for at in places if at[1 - axis] == rim})
        lengths = [Length.mm(at) for at in on]
        labels = [
            typeset_number(at if carried(at, system) else ruler.nearest(at), system)
            for at in lengths
        ]
        ends = [lay.at(Point(at, rim) if axis == 0 else Point(rim, at)) for at in on]
        wide = [width_mm(label, MEASURE_PT, BOLD) for label in labels]
        room = wide if axis == 0 else [line_height_mm(MEASURE_PT)] * len(on)
        out = 1.0 if rim else -1.0
        for (x, y), label, across, stand in zip(
            ends, labels, wide, spread([end[axis] for end in ends], room, 2.5), strict=True
        ):
            tip, text = (
                ((stand, y + out * 4.0), (stand, y + out * 7.5))
                if axis == 0
                else ((x + out * 4.0, stand), (x + out * (6.0 + across / 2), stand))
            )
            marks.append(Stroke(((x, y), tip), THIN))
            marks.append(middle_text(text, label, MEASURE_PT, weight=BOLD))
    return marks


def _layers(
    piece: FlatPiece,
    this: ScorePass,
    lay: Lay,
    scale: float,
    colour: str,
    system: System,
    groove: Length,
) -> tuple[tuple[str, list[Mark]], ...]:
    upright = this.fence in (Edge.LEFT, Edge.RIGHT)
    depth = (piece.width if upright else piece.height).float_mm * scale
    run = (piece.height if upright else piece.width).float_mm * scale
    right, top = depth + _BEYOND_MM, run + _BEYOND_MM
    board: list[Mark] = [
        Fill((((0, -3), (right, -3), (right, top), (0, top)),), BOARD),
        Stroke(((right, -3), (0, -3), (0, top), (right, top)), FAINT),
    ]
    board += _groove_ticks(groove, system, scale, right, top)
    fence: list[Mark] = [
        Fill((((-_FENCE_MM, -3), (0, -3), (0, top), (-_FENCE_MM, top)),), INK),
        middle_text((-_FENCE_MM - 3.2, run / 2), "fence", NOTE_PT, weight=BOLD, degrees=90),
    ]
    outline = lay.ring(rectangle(piece))
    paper: list[Mark] = [Fill((outline,), mixed(colour, PAGE, 0.6))]
    pairs = {frozenset(pair) for line in this.lines for pair in line.panels}
    strong: list[Mark] = []
    faint: list[Mark] = []
    for score in piece.scores:
        ends = (lay.at(score.start), lay.at(score.end))
        if frozenset(score.panels) in pairs:
            strong.append(Stroke(ends, fold_ink(_seen(score, this.face_up))))
        else:
            faint.append(Stroke(ends, FAINT_SCORE))
    names: list[Mark] = []
    for panel in piece.panels:
        names += name_in(lay.ring(panel.corners), panel.name, NAME_PT, "#6E7876") or []
    lies = f"{this.face_up.value} up, {this.fence.value} edge against the fence"
    names.append(middle_text((depth / 2, -7.5), lies, 12.5, weight=BOLD))
    if any(not _grooved(line, shifted=row) for line in this.lines for row in _rows(this)):
        note = "dotted below: between two grooves"
        names.append(middle_text((depth / 2, -13.5), note, NOTE_PT))
    return (
        ("board", board + fence),
        ("paper", [*paper, Stroke(outline, CUT, True)]),
        ("faint", faint),
        ("score", strong),
        ("names", names),
        ("measures", _numbers(this, scale, run, top, right, system)),
    )


def _seen(score: Score, face_up: Face) -> Fold:
    return score.fold if face_up is Face.OUTSIDE else score.fold.other


def _groove_ticks(
    groove: Length, system: System, scale: float, right: float, top: float
) -> list[Mark]:
    """A tick at the upper rim of the board for every groove, longer on whole units."""
    marks: list[Mark] = []
    whole = Length.inch(1) if system is System.INCH else Length.cm(1)
    number = 1
    while (x := (groove * number).float_mm * scale) < right:
        long = (groove * number).over(whole).denominator == 1
        if long or groove.float_mm * scale > 1.0:
            marks.append(Stroke(((x, top), (x, top - (3.4 if long else 1.6))), FAINT))
        number += 1
    return marks


def _numbers(
    this: ScorePass, scale: float, run: float, top: float, right: float, system: System
) -> list[Mark]:
    rows = [("from the fence", [typeset_number(line.ruled, system) for line in this.lines])]
    if this.shift is not None:
        rows.append(
            (
                _MOVED,
                [typeset_number(_after(line), system) for line in this.lines],
            )
        )
    widths = [
        max(width_mm(labels[i], SCORING_PT, BOLD) for _, labels in rows)
        for i in range(len(this.lines))
    ]
    lines = [line.position.float_mm * scale for line in this.lines]
    places = spread(lines, widths, 4.0, low=0.0)
    marks: list[Mark] = []
    knee, foot = top + 5.0, top + 8.0
    for x, place in zip(lines, places, strict=True):
        marks.append(Stroke(((x, run), (x, top + 1.0), (place, knee), (place, foot)), THIN))
    height = line_height_mm(SCORING_PT)
    for row, (title, labels) in enumerate(reversed(rows)):
        y = foot + 1.2 + height * 0.42 + row * (height + 2.2)
        for index, (place, label) in enumerate(zip(places, labels, strict=True)):
            marks.append(middle_text((place, y), label, SCORING_PT, weight=BOLD))
            if not _grooved(this.lines[index], shifted=title == _MOVED):
                half = width_mm(label, SCORING_PT, BOLD) / 2
                drop = y - height * 0.46
                marks.append(Stroke(((place - half, drop), (place + half, drop)), _DOTS))
        end = places[-1] + widths[-1] / 2 + 4.0
        note = f"{title}, {unit_word(system)}" if row == len(rows) - 1 else title
        marks.append(middle_text((end, y), note, NOTE_PT, anchor=Anchor.START))
    return marks


def _rows(this: ScorePass) -> tuple[bool, ...]:
    """Whether each row of numbers is that after the move."""
    return (False,) if this.shift is None else (False, True)


def _grooved(line: ScoreLine, *, shifted: bool) -> bool:
    return line.shifted_groove if shifted else line.groove


def _after(line: ScoreLine) -> Length:
    return line.shifted if line.shifted is not None else line.ruled


def _alt(piece: FlatPiece, this: ScorePass, system: System) -> str:
    at = ", ".join(words(line.ruled, system) for line in this.lines)
    text = (
        f"The {piece.name} on the scoring board, {this.face_up.value} up, its {this.fence.value} "
        f"edge against the fence at the left. Score at {at} from the fence."
    )
    if this.shift is not None:
        after = ", ".join(words(_after(line), system) for line in this.lines)
        text += (
            f" Or score the first line, move the piece by {words(abs(this.shift), system)} so that "
            f"this line lies at {words(_after(this.lines[0]), system)}, and score the rest: {after}."
        )
    return text
