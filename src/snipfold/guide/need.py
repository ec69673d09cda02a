"""What you need: papers, adhesives, tools."""

from __future__ import annotations

from ..project import Design
from ..styles import Doing
from .content import Column, Part, Section, Size, Table, Tone, Words
from .wording import listed, plural, upper_first


def need(design: Design) -> tuple[Section, ...]:
    """One section: papers with sheet size and weight, adhesives with totals, tools."""
    tables = [_papers(design)]
    if design.supplies.adhesives:
        tables.append(_adhesives(design))
    supplies = design.supplies
    fixes = any(step.doing is Doing.HANG for step in design.construction.steps)
    if tools_needed := (*supplies.tools, *(("stapler, or tape",) if fixes else ())):
        tools = tuple(((upper_first(tool),),) for tool in tools_needed)
        tables.append(Table(("Tools",), (Column(""),), tools))
    facts: list[Words] = []
    if supplies.cost is not None:
        left_out = f", without {listed(supplies.unpriced)}" if supplies.unpriced else ""
        facts.append((f"One costs about {supplies.currency}{supplies.cost:.2f}{left_out}.",))
    return (Section(Part.NEED, Part.NEED.value, tables=tuple(tables), facts=tuple(facts)),)


def _papers(design: Design) -> Table:
    rows: list[tuple[Words, ...]] = []
    papers = {paper.name: paper for paper in design.papers.values()}
    for needed in design.supplies.papers:
        paper = papers.get(needed.paper) or design.workshop.paper(needed.paper)
        if needed.sets_per_sheet:
            amount = f"1 sheet makes {needed.sets_per_sheet}"
        elif needed.sheets_per_set:
            amount = f"{plural(needed.sheets_per_set, 'sheet')} for one"
        else:
            amount = "too small"
        rows.append(
            (
                (upper_first(paper.name),),
                (Size(paper.true_width, paper.true_height),),
                (f"{round(paper.gsm)} g/m²",),
                (amount,),
            )
        )
    return Table(
        ("Paper",),
        (Column("paper"), Column("sheet", Tone.MEASURE), Column("weight"), Column("how much")),
        tuple(rows),
    )


def _adhesives(design: Design) -> Table:
    return Table(
        ("To stick",),
        (Column("adhesive"), Column("in total", Tone.MEASURE), Column("strips")),
        tuple(
            ((upper_first(needed.adhesive),), (needed.length,), (str(needed.strips),))
            for needed in design.supplies.adhesives
        ),
    )
