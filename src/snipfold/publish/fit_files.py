"""The files of a fit: a contact sheet, a picture and a project file for each candidate, the data."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..drawing import folded_picture, svg
from ..drawing.contact_sheet import CELL_WIDTH_MM, PICTURE_HEIGHT_MM, Thumbnail, contact_sheet
from ..measure import System
from ..project import Design, exact_words, new_project_text
from ..project.write import quoted
from ..sizing import Candidate, Loose, Wish
from ..sizing.telling import contents_words, percent_words, size_words, yield_words
from ..workshop import Paper, Workshop
from .names import file_word


@dataclass(frozen=True, slots=True)
class Sample:
    """A candidate, the project file that makes it, and the design that this comes to."""

    candidate: Candidate
    text: str
    design: Design


def sized_project_text(
    candidate: Candidate, wish: Wish, paper: Paper, workshop: Workshop, system: System
) -> str:
    """A project file for a candidate: its measures, its paper, and what goes in."""
    others = tuple(other for other in workshop.papers if other is not paper)
    text = new_project_text(
        candidate.style, system, candidate.said, "", replace(workshop, papers=(paper, *others))
    )
    says = contents_words(wish.contents, system)
    if isinstance(wish.contents, Loose):
        return f"{text}\n# Sized to hold: {says}.\n"
    sides = zip(("width", "depth", "height"), candidate.bunch.sides, strict=True)
    cavity = candidate.construction.cavity
    # Under a lid the proof asks for the allowance above as well.
    air = wish.allowance
    if cavity.covered and wish.head_room is not None:
        air = min(air, wish.head_room)
    lines = [
        "",
        f"# {says}: {candidate.bunch.says}.",
        "[[contents]]",
        'name = "the treats"',
        *(f"{side} = {quoted(exact_words(length, system))}" for side, length in sides),
        f"allowance = {quoted(exact_words(air, system))}",
    ]
    return text + "\n".join(lines) + "\n"


def fit_files(
    samples: Sequence[Sample],
    data: str,
    system: System,
) -> dict[str, bytes]:
    """The contact sheet and all that it shows, by file name; `data` is the fit as JSON text.

    Candidates are numbered in the order given.
    """
    files: dict[str, bytes] = {}
    thumbnails = []
    for number, sample in enumerate(samples, start=1):
        picture = folded_picture(sample.design, width_mm=CELL_WIDTH_MM, height_mm=PICTURE_HEIGHT_MM)
        name = f"{number}-{file_word(sample.candidate.style.name)}"
        files[f"{name}.svg"] = svg(picture).encode()
        files[f"{name}.toml"] = sample.text.encode()
        one = sample.candidate
        thumbnails.append(
            Thumbnail(
                picture,
                f"{number}  {one.style.name}",
                (
                    size_words(one.said, system, typeset=True),
                    f"{yield_words(one.got)} a sheet, {percent_words(one.waste)} waste",
                ),
            )
        )
    sheet = svg(contact_sheet(thumbnails)).encode()
    return {"contact-sheet.svg": sheet, **files, "fit.json": data.encode()}
