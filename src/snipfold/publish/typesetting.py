"""Typesetting: a template of ours and what is to stand in it, made into a PDF."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Any

import typst

from ..drawing import Drawing, svg
from .type_faces import font_folders, printable


@dataclass(frozen=True, slots=True)
class Page:
    """A paper for the printer: its name, the typesetter's name for it, its size upright in mm."""

    name: str
    typesetter: str
    width_mm: float
    height_mm: float


#: The printer's papers. Sizes: ANSI/ASME Y14.1 size A; ISO 216 A4.
PAGES = {
    "letter": Page("Letter", "us-letter", 215.9, 279.4),
    "a4": Page("A4", "a4", 210.0, 297.0),
}


@lru_cache(maxsize=1)
def _fonts() -> typst.Fonts:
    return typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=font_folders()
    )


def pdf(template: str, data: dict[str, Any]) -> bytes:
    """The PDF that the template of that name makes of `data` (values that JSON can hold).

    Tagged, as PDF/UA-1 asks, and the same bytes for the same data.
    """
    source = files(__package__).joinpath("templates", template).read_bytes()
    compiler = typst.Compiler(source, font_paths=_fonts())
    made = compiler.compile(
        format="pdf",
        sys_inputs={"data": json.dumps(data, ensure_ascii=False)},
        pdf_standards="ua-1",
        timestamp=0,
    )
    if not isinstance(made, bytes):
        raise TypeError("the typesetter gave no PDF")
    return made


def figure(drawing: Drawing) -> dict[str, Any]:
    """A drawing as a template takes it: its SVG, its size in mm and its text alternative."""
    return {
        "svg": printable_svg(drawing),
        "width": drawing.width_mm,
        "height": drawing.height_mm,
        "alt": printable(drawing.alt),
    }


def printable_svg(drawing: Drawing) -> str:
    """The SVG of a drawing, without ids and without characters that the type lacks."""
    return "\n".join(printable(line) for line in svg(drawing, layer_ids=False).split("\n"))
