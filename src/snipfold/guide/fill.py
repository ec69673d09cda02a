"""Filling, and what else is worth knowing."""

from __future__ import annotations

from ..findings import Severity
from ..project import Design
from ..styles import Doing
from .cautions import CHILDREN, FIRE, FOOD, RULES
from .content import Column, Part, Section, Table, Tone, Words
from .finished import DIRECTIONS, clear_row
from .wording import upper_first


def fill(design: Design) -> tuple[Section, ...]:
    """One section: what goes in and how much room there is, with the cautions about treats.

    None for a piece that has no inside.
    """
    if design.construction.cavity.is_open:
        return ()
    tables = []
    rows: list[tuple[Words, ...]] = [clear_row(design)]
    rows += [
        ((upper_first(treat.name),), (treat.width,), (treat.depth,), (treat.height,))
        for treat in design.project.contents
    ]
    if rows:
        tables.append(
            Table(
                (),
                (Column(""), *(Column(d, Tone.MEASURE) for d in DIRECTIONS)),
                tuple(rows),
            )
        )
    sentences: list[Words] = [(_how(design),)]
    return (
        Section(
            Part.FILL,
            Part.FILL.value,
            tables=tuple(tables),
            sentences=tuple(sentences),
            cautions=(FOOD, CHILDREN, FIRE, RULES),
        ),
    )


def _how(design: Design) -> str:
    cavity, (one, _) = design.construction.cavity, design.style.noun
    if cavity.flat:
        closes = any(step.doing is Doing.CLOSE for step in design.construction.steps)
        return f"Slip what it holds into the {one}{', then close it' if closes else ''}."
    if not cavity.around and (cavity.width is None or cavity.depth is None):
        return f"Wrap treats first, then slide the {one} over them."
    hangs = any(step.doing is Doing.HANG for step in design.construction.steps)
    if not cavity.floor and not hangs:
        return f"Slide what it holds into the {one}; it is open below."
    if not cavity.floor:
        return f"Wrap treats first, then fill and close the bag that the {one} goes on."
    return f"Wrap treats first, then fill the {one}."


_SIGNS = {
    Severity.ERROR: "Mend first",
    Severity.CAUTION: "Take care",
    Severity.NOTE: "Note",
}


def worth_knowing(design: Design) -> tuple[Section, ...]:
    """The findings that the maker should know, worst first, each with what to do about it."""
    if not design.findings:
        return ()
    return (
        Section(
            Part.WORTH_KNOWING,
            Part.WORTH_KNOWING.value,
            tables=(
                Table(
                    (),
                    (Column(""), Column("what"), Column("what to do")),
                    tuple(
                        (
                            (_SIGNS[finding.severity],),
                            (f"{upper_first(finding.says)}.",),
                            (f"{upper_first(finding.advice)}.",) if finding.advice else (),
                        )
                        for finding in design.findings
                    ),
                ),
            ),
        ),
    )
