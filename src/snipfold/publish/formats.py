"""The formats that a design is published in: one file a format, one line in this table."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from ..project import Design
from . import cut_svg, guide_pdf, picture_png, template_pdf
from .design_json import design_json

Files = dict[str, bytes]


@dataclass(frozen=True, slots=True)
class Format:
    """A format: what it is called while it is made, and what makes its files.

    `files` takes a design and the printer's paper ("letter" or "a4") and gives the files by name.
    """

    says: str
    files: Callable[[Design, str], Files]


def _design_json(design: Design, page: str) -> Files:
    return {"design.json": design_json(design).encode()}


#: Every format, in the order in which they are made.
FORMATS: tuple[Format, ...] = (
    Format("guide", guide_pdf.files),
    Format("template", template_pdf.files),
    Format("cut files", cut_svg.files),
    Format("picture", picture_png.files),
    Format("design", _design_json),
)

if len({form.says for form in FORMATS}) != len(FORMATS):
    raise ImportError("two formats have one name")
