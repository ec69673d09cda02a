"""Designs to draw, resolved once, and every picture of each."""

from collections.abc import Iterator
from functools import cache

from snipfold.drawing import (
    Drawing,
    blank_picture,
    folded_picture,
    mats_picture,
    scoring_picture,
    sheet_picture,
    snip_picture,
    step_picture,
    strap_picture,
    tape_picture,
    template_drawing,
)
from snipfold.flat import Face
from snipfold.measure import System
from snipfold.project import Design
from snipfold.project.read import read_project
from snipfold.project.resolve import resolve
from snipfold.workshop import default_workshop

_PROJECTS = {
    "bag": """
        name = "Seed bag"
        style = "wrap bag"
        units = "inch"
        [measures]
        width = "3 1/2 in"
        depth = "1 3/4 in"
        height = "5 in"
        [mats]
        on = true
        [strap]
        on = true
        """,
    "metric bag": """
        name = "Seed bag"
        style = "wrap bag"
        units = "metric"
        [measures]
        width = "8 cm"
        depth = "4 cm"
        height = "11 cm"
        [strap]
        on = true
        """,
    "tray": """
        name = "Button tray"
        style = "tray with lift-off lid"
        units = "inch"
        [measures]
        width = "4 in"
        depth = "2 3/4 in"
        height = "1 1/8 in"
        [mats]
        on = true
        """,
    "metric tray": """
        name = "Button tray"
        style = "tray with lift-off lid"
        units = "metric"
        [measures]
        width = "9 cm"
        depth = "6.5 cm"
        height = "2.5 cm"
        """,
}
NAMES = tuple(_PROJECTS)


@cache
def design(name: str) -> Design:
    """The design of that name."""
    project = read_project(_PROJECTS[name], name)
    return resolve(project, default_workshop(project.system))


def with_measures(name: str, **measures: str) -> Design:
    """A design of that name's style with measures of its own."""
    kept = design(name).project
    lines = "\n".join(f'{key} = "{value}"' for key, value in measures.items())
    units = "inch" if kept.system is System.INCH else "metric"
    text = f'name = "x"\nstyle = "{kept.style}"\nunits = "{units}"\n[measures]\n{lines}\n'
    project = read_project(text, "measures")
    return resolve(project, default_workshop(project.system))


def flat_pictures(of: Design) -> Iterator[Drawing]:
    """Every picture of the flat pieces, the strap and the sheets."""
    for piece in of.construction.pieces:
        yield blank_picture(of, piece.name)
        plan = next(plan for plan in of.scoring if plan.piece == piece.name)
        for index in range(len(plan.passes)):
            yield scoring_picture(of, piece.name, index)
        yield snip_picture(of, piece.name)
        for face in Face:
            yield tape_picture(of, piece.name, face)
        yield mats_picture(of, piece.name)
    if of.dressing.strap is not None:
        yield strap_picture(of)
    for plan_of_sheet in of.cutting.values():
        for index in range(len(plan_of_sheet.patterns)):
            yield sheet_picture(plan_of_sheet, index, of.system, "#C9A66B")


def space_pictures(of: Design) -> Iterator[Drawing]:
    """Every picture of the box in space."""
    yield folded_picture(of)
    yield folded_picture(of, closed=False)
    for index in range(len(of.construction.steps)):
        yield step_picture(of, index)


@cache
def pictures(name: str) -> tuple[Drawing, ...]:
    """Every picture of the design of that name, templates left out."""
    return (*flat_pictures(design(name)), *space_pictures(design(name)))


def templates(of: Design) -> Iterator[Drawing]:
    """The template of every piece, with all that can be on it."""
    marks = of.dressing.strap.marks if of.dressing.strap is not None else ()
    for piece in of.construction.pieces:
        yield template_drawing(piece, marks=marks, strips=of.dressing.strips)
