"""The numbers again, on a card to cut out."""

from __future__ import annotations

from ..measure import total
from ..project import Design
from .content import Column, Part, Section, Size, Table, Tone, Word, Words
from .finished import size_table
from .score import lie, ruled
from .wording import listed, place, unique, upper_first


def card(design: Design) -> tuple[Section, ...]:
    """One section that repeats every number that a maker sets on a tool."""
    tables = [size_table(design), _cuts(design), _scores(design)]
    if design.dressing.strips:
        tables.append(_adhesive(design))
    return (
        Section(
            Part.CARD,
            design.project.name,
            tables=tuple(table for table in tables if table.rows),
        ),
    )


def _cuts(design: Design) -> Table:
    rows: list[tuple[Words, ...]] = []
    for name, plan in design.cutting.items():
        for part in plan.parts:
            copies = f" × {part.copies}" if part.copies > 1 else ""
            rows.append(
                (
                    (f"{upper_first(part.name)}{copies}",),
                    (Size(part.width, part.height),),
                    (name,),
                )
            )
    return Table(
        ("Cut",), (Column("part"), Column("size", Tone.MEASURE), Column("from")), tuple(rows)
    )


def _scores(design: Design) -> Table:
    rows: list[tuple[Words, ...]] = []
    for plan in design.scoring:
        piece = design.construction.piece(plan.piece)
        for scored in plan.passes:
            at: list[Word] = []
            for line in scored.lines:
                at += [*((", ",) if at else ()), line.ruled]
            rows.append(((upper_first(piece.name),), lie(piece, scored), tuple(at)))
        for between, _, start, end in ruled(design, plan):
            ruler, system = design.workshop.ruler, design.system
            rows.append(
                (
                    (upper_first(piece.name),),
                    (f"outside up, along a ruler: {between}",),
                    (*place(start, ruler, system), " to ", *place(end, ruler, system)),
                )
            )
    return Table(
        ("Score",), (Column("piece"), Column("lies"), Column("at", Tone.MEASURE)), tuple(rows)
    )


def _adhesive(design: Design) -> Table:
    strips = design.dressing.strips
    return Table(
        ("Stick",),
        (Column("adhesive"), Column("in total", Tone.MEASURE), Column("on")),
        tuple(
            (
                (upper_first(name),),
                (total(strip.length for strip in strips if strip.adhesive == name),),
                (listed(unique(f"{s.item}" for s in strips if s.adhesive == name)),),
            )
            for name in unique(strip.adhesive for strip in strips)
        ),
    )
