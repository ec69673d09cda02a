"""The finished box: what it looks like, its sizes, and how many a sheet gives."""

from __future__ import annotations

from ..drawing import folded_picture
from ..findings import Severity
from ..measure import Length
from ..project import Design
from .content import Column, Part, Section, Table, Tone, Words
from .standing import finished_sizes
from .wording import plural, the, upper_first

#: mm. The room for the picture on the first page.
_PICTURE_MM = 165.0

DIRECTIONS = ("width", "depth", "height")


def finished(design: Design) -> tuple[Section, ...]:
    """One section: the picture, the finished sizes and the clear inside, and the yield."""
    return (
        Section(
            Part.FINISHED,
            design.project.name,
            figures=(folded_picture(design, width_mm=_PICTURE_MM, height_mm=_PICTURE_MM),),
            tables=(size_table(design, Tone.LOUD),),
            sentences=_mend_first(design),
            facts=(*yields(design), *_notes(design)),
        ),
    )


def size_table(design: Design, tone: Tone = Tone.MEASURE) -> Table:
    """Width, depth and height of every piece, crease to crease, and of the clear inside."""
    sizes = finished_sizes(design.construction)
    rows: list[tuple[Words, ...]] = [
        ((upper_first(name),), *((length,) if length else (FLAT,) for length in size))
        for name, size in sizes.items()
    ]
    if not design.construction.cavity.is_open:
        rows.append(clear_row(design))
    return Table(
        ("Finished size",),
        (Column(""), *(Column(direction, tone) for direction in DIRECTIONS)),
        tuple(rows),
    )


#: What stands in a table for a height that is no more than the paper.
FLAT = "flat"


def clear_row(design: Design) -> tuple[Words, ...]:
    """The clear inside as a row of a table: its title, and each direction or that it is open."""
    clear, cavity = design.proof.clear, design.construction.cavity

    def room(direction: str) -> Words:
        if direction in clear:
            return (ruled_down(clear[direction], design),)
        return (FLAT if direction == "height" and cavity.flat else "open",)

    return (("Clear inside",), *(room(direction) for direction in DIRECTIONS))


def ruled_down(length: Length, design: Design) -> Length:
    """A length on the hand ruler's marks, never more than there is."""
    return design.workshop.ruler.below(length)


def yields(design: Design) -> tuple[Words, ...]:
    """For each paper, what one sheet gives, or how many sheets one box takes."""
    said: list[Words] = []
    one, several = design.style.noun
    for paper, plan in design.cutting.items():
        what = "everything" if len(design.cutting) == 1 else _parts_of(design, paper)
        if plan.sets_per_sheet > 0:
            boxes = plural(plan.sets_per_sheet, one, several)
            said.append((f"One sheet of {paper} makes {what} for {boxes}.",))
        elif plan.sheets_per_set > 0:
            sheets = plural(plan.sheets_per_set, "sheet")
            said.append((f"{sheets} of {paper} make {what} for one {one}.",))
    return tuple(said)


def _parts_of(design: Design, paper: str) -> str:
    return the([name for name, used in design.papers.items() if used.name == paper] or ["parts"])


def _mend_first(design: Design) -> tuple[Words, ...]:
    """The first errors; all of them stand under what is worth knowing."""
    errors = [found for found in design.findings if found.severity is Severity.ERROR]
    return tuple((f"Mend first: {found.says}; {found.advice}.",) for found in errors[:3])


def _notes(design: Design) -> tuple[Words, ...]:
    return tuple((line.strip(),) for line in design.project.notes.splitlines() if line.strip())
