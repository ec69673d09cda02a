"""Filling, and what else is worth knowing."""

from __future__ import annotations

from ..findings import Severity
from ..project import Design
from .cautions import CHILDREN, FIRE, FOOD, RULES
from .content import Column, Part, Section, Table, Tone, Words
from .finished import DIRECTIONS, ruled_down
from .wording import upper_first


def fill(design: Design) -> tuple[Section, ...]:
    """One section: what goes in and how much room there is, with the cautions about treats."""
    tables = []
    clear = design.proof.clear
    rows: list[tuple[Words, ...]] = []
    if all(direction in clear for direction in DIRECTIONS):
        rows.append((("Clear inside",), *((ruled_down(clear[d], design),) for d in DIRECTIONS)))
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
    sentences: list[Words] = [("Wrap treats first, then fill the box.",)]
    return (
        Section(
            Part.FILL,
            Part.FILL.value,
            tables=tuple(tables),
            sentences=tuple(sentences),
            cautions=(FOOD, CHILDREN, FIRE, RULES),
        ),
    )


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
