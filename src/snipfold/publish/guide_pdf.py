"""The guide as a typeset PDF."""

from __future__ import annotations

from typing import Any

from ..guide import Column, Guide, Part, Section, Table, Words, guide_of
from ..measure import System
from ..project import Design
from .page_text import runs
from .type_faces import printable, title
from .typesetting import PAGES, figure, pdf

#: Letters. A cell longer than this may have to be broken.
_LONG = 34
#: About as many letters as a measure is wide, like 15/16 in.
_MEASURE = 5


def files(design: Design, page: str) -> dict[str, bytes]:
    """The guide, as `guide.pdf`."""
    return {"guide.pdf": guide_pdf(guide_of(design, page=page))}


def guide_pdf(guide: Guide) -> bytes:
    """The PDF of a guide: tagged, on its paper, the same bytes for the same guide."""
    return pdf("guide.typ", guide_data(guide))


def guide_data(guide: Guide) -> dict[str, Any]:
    """The guide as the values that its template takes."""
    page = PAGES[guide.page]
    numbers = {part: number for number, part in enumerate(_parts(guide))}
    seen: set[Part] = set()
    sections = []
    for section in guide.sections:
        opens = section.part not in seen
        seen.add(section.part)
        number = numbers[section.part]
        label = section.part.value if number == 0 else f"{number}  {section.part.value}"
        sections.append(_section(section, guide.system, label, opens=opens))
    return {
        "title": title(guide.title),
        "says": printable(guide.says),
        "paper": page.typesetter,
        "width": page.width_mm,
        "height": page.height_mm,
        "sections": sections,
    }


def _parts(guide: Guide) -> list[Part]:
    return list(dict.fromkeys(section.part for section in guide.sections))


def _section(section: Section, system: System, label: str, *, opens: bool) -> dict[str, Any]:
    heading = title(section.heading)
    return {
        "opens": opens,
        "step": section.part is Part.ASSEMBLE,
        "beside": section.part is Part.FOLD and bool(section.figures),
        "label": label,
        "heading": "" if opens and heading == section.part.value else heading,
        "card": section.part is Part.CARD,
        "figures": [figure(drawing) for drawing in section.figures],
        "legend": figure(section.legend) if section.legend is not None else None,
        "tables": [_table(table, system) for table in section.tables],
        "sentences": [runs(said, system) for said in section.sentences],
        "facts": [runs(said, system) for said in section.facts],
        "cautions": [
            {"hazard": caution.hazard.value, "says": caution.says} for caution in section.cautions
        ],
    }


def _table(table: Table, system: System) -> dict[str, Any]:
    return {
        "caption": runs(table.caption, system),
        "setting": any(not isinstance(word, str) for word in table.caption),
        "columns": [_column(table, index) for index in range(len(table.columns))],
        "rows": [[runs(cell, system) for cell in row] for row in table.rows],
    }


def _column(table: Table, index: int) -> dict[str, Any]:
    column: Column = table.columns[index]
    return {
        "heading": column.heading,
        "tone": column.tone.value,
        # Columns with long cells share the room that is left.
        "wide": max((_letters(row[index]) for row in table.rows), default=0) > _LONG,
    }


def _letters(cell: Words) -> int:
    return sum(len(word) if isinstance(word, str) else _MEASURE for word in cell)
