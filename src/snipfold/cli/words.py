"""What the commands print: calm, aligned, measures first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import click

from ..findings import Finding, Severity
from ..measure import number, words
from ..project import Design, field_line
from ..styles import ScoredBlank, Style

_COLOURS = {Severity.ERROR: "red", Severity.CAUTION: "yellow", Severity.NOTE: "blue"}


def columns(rows: Iterable[Sequence[str]], indent: str = "  ") -> list[str]:
    """Rows with their columns under each other; the last one is as wide as it likes."""
    kept = [list(row) for row in rows]
    widths = [
        max(len(row[index]) for row in kept if index < len(row) - 1)
        for index in range(max((len(row) for row in kept), default=1) - 1)
    ]
    return [
        indent
        + "  ".join(
            [*(cell.ljust(w) for cell, w in zip(row, widths, strict=False)), row[-1]]
        ).rstrip()
        for row in kept
    ]


def heading(text: str) -> str:
    """A heading, bold where the terminal can show it."""
    return click.style(text, bold=True)


def style_lines(style: Style) -> Iterator[str]:
    """A style with its measures, their defaults and limits in both systems."""
    yield heading(style.name)
    yield f"  {style.says}"
    yield ""
    rows = []
    for measure in style.measures:
        rows.append((measure.name, measure.says))
        rows.append(("", f"unless said: {measure.default_says}"))
        rows.append(("", f"from {measure.least_says}, to {measure.most_says}"))
    yield from columns(rows)
    yield ""


def blank_lines(style: type[ScoredBlank]) -> Iterator[str]:
    """The style that has no measures: what it is, and where its file is described."""
    yield heading(style.name)
    yield f"  {style.says}"
    yield ""
    yield "  It has no measures: docs/scored-blank.md tells how its file is written, and"
    yield "  snipfold new my-own.toml --style scored-blank starts one."
    yield ""


def _title(design: Design) -> str:
    edition = {"inch": "inches", "metric": "metric"}[design.system.value]
    return f"{heading(design.project.name)}  ({design.style.name}, {edition})"


def check_lines(design: Design, text: str) -> Iterator[str]:
    """The proof, law by law, and every finding with its mend. `text` is the project file's."""
    yield _title(design)
    yield ""
    yield heading("The proof")
    yield from columns(
        ("holds" if law.holds else "FAILS", law.asks, law.says) for law in design.proof.laws
    )
    yield ""
    yield from finding_lines(design, text)


def finding_lines(design: Design, text: str) -> Iterator[str]:
    """Every finding with its mend, worst first, and how many there are."""
    for finding in design.findings:
        yield from _finding(finding, text)
        yield ""
    counts = [
        _counted(sum(finding.severity is severity for finding in design.findings), severity.value)
        for severity in Severity
    ]
    found = [count for count in counts if count]
    yield f"{', '.join(found)}." if found else "Nothing to mend."


def _counted(count: int, what: str) -> str:
    return "" if not count else f"{count} {what}{'' if count == 1 else 's'}"


def _finding(finding: Finding, text: str) -> Iterator[str]:
    where = ", ".join(finding.where)
    severity = click.style(finding.severity.value, fg=_COLOURS[finding.severity], bold=True)
    yield f"{severity}  {where}  [{finding.code}]"
    yield f"  {_sentence(finding.says)}"
    yield f"  To mend it: {finding.advice}."
    if finding.mend is not None:
        mend = finding.mend
        line = field_line(text, mend.field)
        place = f"line {line}, now {mend.now}" if line else "not in the file yet"
        yield f"  In the file: {mend.field} = {mend.to}  ({place})"


def _sentence(says: str) -> str:
    return f"{says[:1].upper()}{says[1:]}."


def show_lines(design: Design, text: str) -> Iterator[str]:
    """Every measure of a design: the style's own, then what the guide says of each part.

    `text` is the project file's.
    """
    # The guide draws too, and a check should not wait for it.
    from ..guide import Part, spoken
    from ..guide.cut import cut
    from ..guide.dress import mats, strap, tape
    from ..guide.finished import finished
    from ..guide.need import need
    from ..guide.score import score
    from ..guide.snip import snip

    system = design.system
    yield _title(design)
    yield ""
    if design.measures:
        yield heading("Measures")
        given = design.project.measures
        yield from columns(
            (
                measure.name,
                words(design.measures[measure.name], system),
                "" if measure.name in given else "assumed",
                measure.says,
            )
            for measure in design.style.measures
        )
        yield ""
    yield heading("Pieces")
    yield from columns(
        (
            piece.name,
            f"{number(piece.width, system)} × {words(piece.height, system)}",
            f"from {design.papers[piece.name].name}",
        )
        for piece in design.construction.pieces
    )
    parts = (finished, need, cut, score, snip, tape, mats, strap)
    for section in (section for part in parts for section in part(design)):
        yield ""
        yield heading(section.heading)
        if section.part is Part.SCORE:
            yield from (f"  {spoken(said, system)}" for said in section.sentences)
        for table in section.tables:
            if caption := spoken(table.caption, system):
                yield f"  {caption}"
            rows = [[spoken(cell, system) for cell in row] for row in table.rows]
            head = [column.heading for column in table.columns]
            yield from columns([head, *rows] if any(head) else rows, "    ")
        yield from (f"  {spoken(said, system)}" for said in section.facts)
    yield ""
    yield from finding_lines(design, text)
