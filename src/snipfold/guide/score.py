"""Scoring: pass after pass, how the piece lies, and every position from the fence."""

from __future__ import annotations

from ..drawing import ruler_picture, scoring_picture
from ..flat import FlatPiece, Fold, Point
from ..measure import Length, carried
from ..project import Design
from ..scoring import Move, ScoreLine, ScorePass, ScoringPlan, ruler_ends
from .content import Column, Part, Section, Size, Table, Tone, Words
from .wording import BETWEEN_MARKS, listed, panels_along, parted, place

_MOVES = {
    Move.STAY: "Leave the {piece} as it lies",
    Move.QUARTER_LEFT: "Give the {piece} a quarter turn anticlockwise",
    Move.QUARTER_RIGHT: "Give the {piece} a quarter turn clockwise",
    Move.HALF: "Give the {piece} half a turn",
    Move.OVER_SIDEWAYS: "Turn the {piece} over like a page",
    Move.OVER_END: "Turn the {piece} over, top to bottom",
    Move.OVER_QUARTER_LEFT: "Turn the {piece} over like a page, then a quarter anticlockwise",
    Move.OVER_QUARTER_RIGHT: "Turn the {piece} over like a page, then a quarter clockwise",
}


def score(design: Design) -> tuple[Section, ...]:
    """One section for each pass of each piece."""
    sections = []
    for plan in design.scoring:
        piece = design.construction.piece(plan.piece)
        for index, scored in enumerate(plan.passes):
            sections.append(_pass(design, plan, piece, scored, index))
        if plan.slanting:
            sections.append(_along_a_ruler(design, plan, piece))
    return tuple(sections)


def _pass(
    design: Design, plan: ScoringPlan, piece: FlatPiece, scored: ScorePass, index: int
) -> Section:
    many = len(plan.passes) > 1
    heading = f"Score the {piece.name}" + (
        f", pass {index + 1} of {len(plan.passes)}" if many else ""
    )
    facts: list[Words] = []
    if all(line.groove for line in scored.lines):
        facts.append(("All of them are grooves of the board.",))
    elif not all(line.groove or line.shifted_groove for line in scored.lines):
        facts.append(("Between two grooves: draw the line in pencil and score it along a ruler.",))
    facts += _stops(plan, scored)
    return Section(
        Part.SCORE,
        heading,
        figures=(scoring_picture(design, piece.name, index),),
        tables=(pass_table(piece, scored),),
        sentences=_sentences(piece, scored),
        facts=tuple(facts),
    )


def _along_a_ruler(design: Design, plan: ScoringPlan, piece: FlatPiece) -> Section:
    """The scores that no fence can guide: marked at both ends and drawn along a ruler."""
    folds = {score.fold for score in plan.slanting}
    up = "outside" if folds == {Fold.MOUNTAIN} else "inside"
    sentences: list[Words] = [
        (f"Lay the {piece.name}, ", Size(piece.width, piece.height), ", with its outside up."),
        ("Mark both ends of each line in pencil, and score along a ruler from mark to mark.",),
    ]
    if up == "inside":
        sentences.append(
            ("Prick the ends of valleys through, turn it over, and score those from the inside.",)
        )
    every = [Length.mm(at) for _, _, *ends in ruled(design, plan) for end in ends for at in end]
    exact = all(carried(at, design.system) for at in every)
    return Section(
        Part.SCORE,
        f"Score the {piece.name} along a ruler",
        figures=(ruler_picture(design, piece.name),),
        tables=(
            Table(
                (f"Outside up. → from the left edge of the {piece.name}, ↑ from its bottom edge",),
                (
                    Column("from", Tone.MEASURE),
                    Column("to", Tone.MEASURE),
                    Column("between"),
                    Column("fold"),
                ),
                tuple(
                    (
                        place(start, design.workshop.ruler, design.system),
                        place(end, design.workshop.ruler, design.system),
                        (between,),
                        (fold.value,),
                    )
                    for between, fold, start, end in ruled(design, plan)
                ),
            ),
        ),
        sentences=tuple(sentences),
        facts=() if exact else (BETWEEN_MARKS,),
    )


def ruled(design: Design, plan: ScoringPlan) -> list[tuple[str, Fold, Point, Point]]:
    """The slanting scores: what each parts, how it folds, and from where to where it is drawn."""
    piece = design.construction.piece(plan.piece)
    found = []
    for score in plan.slanting:
        start, end = sorted(ruler_ends(piece, score))
        found.append((parted(piece, [score.panels]), score.fold, start, end))
    return sorted(found, key=lambda line: line[2:])


def _stops(plan: ScoringPlan, scored: ScorePass) -> list[Words]:
    """The lines of a pass that must not run on from edge to edge, and where they stop."""
    said: list[Words] = []
    for found in plan.findings:
        if found.code != "score.stops-short":
            continue
        _, one, other, *crossed = found.where
        if any((one, other) in line.panels for line in scored.lines):
            begin = "begin" if len(crossed) > 1 else "begins"
            said.append((f"{one} | {other}: stop where {listed(crossed)} {begin}.",))
    return said


def lie(piece: FlatPiece, scored: ScorePass) -> Words:
    """How the piece lies in a pass: which face is up, which edge is at the fence."""
    along = panels_along(piece, scored.fence)
    by = f" (the edge of the {listed(along)})" if len(along) == 1 else ""
    return (f"{scored.face_up.value} up, {scored.fence.value} edge at the fence{by}",)


def _sentences(piece: FlatPiece, scored: ScorePass) -> tuple[Words, ...]:
    said: list[Words] = []
    (lies,) = lie(piece, scored)
    if scored.move is Move.START:
        size = Size(piece.width, piece.height)
        said.append((f"Lay the {piece.name}, ", size, f", with its {lies}."))
    else:
        said.append((f"{_MOVES[scored.move].format(piece=piece.name)}: {lies}.",))
    shifted = scored.lines[0].shifted
    if scored.shift is None or shifted is None:
        said.append(("Score at each of these, measured from the fence.",))
        return tuple(said)
    away = "away from" if scored.shift > Length.mm(0) else "towards"
    said.append(("Score the first line at ", scored.lines[0].ruled, "."))
    said.append(
        (
            "Or, for kinder numbers: move the piece ", abs(scored.shift),
            f" {away} the fence, so that this line lies at ", shifted,
            ", and score the rest as the second column says.",
        )
    )  # fmt: skip
    return tuple(said)


def pass_table(piece: FlatPiece, scored: ScorePass) -> Table:
    """The positions of one pass: from the fence, after a shift where there is one, and what each parts."""
    columns = [Column("score at", Tone.LOUD)]
    if scored.shift is not None:
        columns.append(Column("after moving", Tone.LOUD))
    grooves = not all(line.groove for line in scored.lines)
    if grooves:
        columns.append(Column("groove"))
    columns.append(Column("between"))
    rows = []
    for line in scored.lines:
        row: list[Words] = [(line.ruled,)]
        if scored.shift is not None:
            row.append((line.shifted,) if line.shifted is not None else ("–",))
        if grooves:
            row.append((_groove(line, scored.shift),))
        row.append((parted(piece, line.panels),))
        rows.append(tuple(row))
    return Table((), tuple(columns), tuple(rows))


def _groove(line: ScoreLine, shift: Length | None) -> str:
    if shift is None or line.groove == line.shifted_groove:
        return "groove" if line.groove else "between two"
    return "groove after moving" if line.shifted_groove else "groove before moving"
