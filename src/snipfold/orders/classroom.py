"""A class: tools for every table, and what to prepare before it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ..measure import words
from ..workshop import AdhesiveKind, Workshop
from .asked import ClassDay
from .demand import Demand
from .order import Classroom, Operation, Shopping, Tool, Work
from .work import making_up, minutes

MAKER, TABLE = "maker", "table"


def classroom(
    day: ClassDay,
    demanded: Sequence[Demand],
    shopping: Shopping,
    prep: Sequence[Work],
    workshop: Workshop,
) -> Classroom:
    """What a class needs. Parts come cut, so there is no trimmer on the tables.

    Who has a tool alone and what a table shares is common practice, no source.
    """
    pieces = [piece for demand in demanded for piece in demand.wanted.design.construction.pieces]
    tools = [Tool("bone folder", day.makers, MAKER)]
    if any(piece.snips for piece in pieces):
        tools.append(Tool("scissors", day.makers, MAKER))
    if any(piece.scores for piece in pieces):
        system, board = workshop.system, workshop.board
        grooves = words(board.grooves.graduation, system)
        tools.append(Tool(f"scoring board, grooves every {grooves}", day.tables, TABLE))
    tools.append(Tool("ruler and pencil", day.tables, TABLE))
    for line in shopping.adhesives:
        if workshop.adhesive(line.name).kind is AdhesiveKind.HOT_GLUE:
            tools.append(Tool("glue gun", day.tables, TABLE))
        else:
            tools.append(Tool(line.name, day.tables, TABLE))
    times = {one.operation: one.minutes for one in prep}
    prepare: list[tuple[str, Fraction | None]] = []
    strokes = next((one.count for one in prep if one.operation is Operation.CUT), 0)
    if strokes:
        cutting = [times.get(Operation.CUT), times.get(Operation.SETTING)]
        timed = [one for one in cutting if one is not None]
        said = f"cut every part: {strokes} strokes of the blade"
        prepare.append((said, sum(timed, Fraction(0)) if len(timed) == 2 else None))
    made = sum(demand.wanted.made for demand in demanded)
    prepare.append((f"pack and label {made} envelopes", times.get(Operation.PACK)))
    prepare.append((f"set out the tools of {day.tables} table{'s' * (day.tables > 1)}", None))
    prepare.append(("make one of each to show", _shown(demanded, workshop)))
    return Classroom(day, tuple(tools), tuple(prepare))


def _shown(demanded: Sequence[Demand], workshop: Workshop) -> Fraction | None:
    """Minutes of making up one of each; None where not all is timed."""
    works = [one for demand in demanded for one in making_up(demand.wanted.design, workshop.pace)]
    return None if any(one.minutes is None for one in works) else minutes(works)
