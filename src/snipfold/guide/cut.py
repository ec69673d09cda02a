"""Cutting: every sheet drawn to scale, and every cut in order with its setting."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from ..cutting.plan import Axis, Cut, CutPlan, CutStep, Got, Node, Region
from ..drawing import sheet_picture
from ..measure import Length
from ..project import Design
from ..workshop import Paper
from .cautions import TRIMMER
from .content import Column, Part, Section, Size, Table, Tone, Words
from .wording import plural

SHEET = "sheet"
STRIP = "strip"
OFFCUT = "offcut"
MAT = "mat"


def cut(design: Design) -> tuple[Section, ...]:
    """One section for each different sheet, in the order of the papers."""
    papers = {paper.name: paper for paper in design.papers.values()}
    sections: list[Section] = []
    for name, plan in design.cutting.items():
        paper = papers.get(name) or design.workshop.paper(name)
        for index in range(len(plan.patterns)):
            sections.append(_sheet(design, paper, plan, index, first=not sections))
    return tuple(sections)


def _sheet(design: Design, paper: Paper, plan: CutPlan, index: int, *, first: bool) -> Section:
    pattern = plan.patterns[index]
    heading = f"Cut the {paper.name}"
    if len(plan.patterns) > 1:
        heading += f": sheet {index + 1} of {len(plan.patterns)}"
    sentences: list[Words] = []
    if paper.strip is not None:
        edge = paper.strip.edge.value
        sentences.append(
            ("Trim ", paper.strip.width, f" off the {edge} edge first: it cannot be used.")
        )
    if paper.directed:
        sentences.append(("Keep the top of the pattern away from you.",))
    times = "" if pattern.times == 1 else f" Cut {plural(pattern.times, SHEET)} like this."
    sentences.append((f"{_gives(plan)}{times}",))
    nominal = (paper.width, paper.height)
    facts: list[Words] = []
    if (paper.true_width, paper.true_height) != nominal:
        facts.append(
            ("This sheet measures ", Size(paper.true_width, paper.true_height), ". Measure yours.")
        )
    if plan.proven and plan.sets_per_sheet:
        facts.append(("No other way of cutting from edge to edge gives more sets from a sheet.",))
    return Section(
        Part.CUT,
        heading,
        figures=(sheet_picture(plan, index, design.system, paper.colour),),
        tables=(cut_table(plan, index),),
        sentences=tuple(sentences),
        facts=tuple(facts),
        cautions=(TRIMMER,) if first else (),
    )


def _gives(plan: CutPlan) -> str:
    if plan.sets_per_sheet:
        return f"One sheet gives {plural(plan.sets_per_sheet, 'set')}."
    return f"One set takes {plural(plan.sheets_per_set, SHEET)}."


def part_name(part: str) -> str:
    """A part as the cutting page calls it: every mat is a “mat”, which its size tells apart."""
    return MAT if part.endswith(f" {MAT}") else part


@dataclass(frozen=True, slots=True)
class Run:
    """Cuts at one setting of one piece: put in, cut, pushed on and cut again.

    `off` comes off at each of `times` cuts and `stays` is what is left at the end; each with what
    it is called.
    """

    put_in: tuple[str, Region]
    along: Length
    times: int
    off: tuple[str, Region]
    stays: tuple[str, Region]

    @property
    def alike(self) -> tuple[object, ...]:
        """Equal for runs that read the same."""
        named = (self.put_in, self.off, self.stays)
        sizes = tuple((name, region.width, region.height) for name, region in named)
        return (*sizes, self.along, self.times)


def cut_table(plan: CutPlan, index: int) -> Table:
    """Every cut of one sheet: the settings in order, and at each what goes in and what comes off.

    Equal runs are one row: "2 × strip" is put in twice. "3 times" is cut, pushed on, and cut
    again.
    """
    called = dict(_called(plan.patterns[index].tree, SHEET))
    rows: list[tuple[Words, ...]] = []
    for number, step in enumerate(plan.steps[index], start=1):
        alike: dict[tuple[object, ...], list[Run]] = {}
        for run in runs(step, called):
            alike.setdefault(run.alike, []).append(run)
        for first, (run, *others) in enumerate(alike.values()):
            setting: tuple[Words, Words] = ((), ())
            if first == 0:
                setting = ((str(number),), (step.setting,))
            rows.append((*setting, *_row(run, 1 + len(others))))
    return Table(
        (),
        (
            Column("cut"),
            Column("set the trimmer to", Tone.MEASURE),
            Column("put in"),
            Column("on the ruler"),
            Column("comes off"),
            Column("stays"),
        ),
        tuple(rows),
    )


def runs(step: CutStep, called: dict[Region, str]) -> list[Run]:
    """The runs of one setting, in the order in which they start."""
    found: list[Run] = []
    for region in step.pieces:
        off, stays = halves(region, step.axis, step.setting)
        cut_off = (called.get(off, STRIP), off)
        left = (called.get(stays, STRIP), stays)
        before = next((k for k, run in enumerate(found) if run.stays[1] == region), None)
        if before is not None and found[before].off[0] == cut_off[0]:
            run = found[before]
            found[before] = replace(run, times=run.times + 1, stays=left)
        else:
            along = region.width if step.axis is Axis.ACROSS else region.height
            found.append(Run((called.get(region, STRIP), region), along, 1, cut_off, left))
    return found


def _row(run: Run, copies: int) -> tuple[Words, ...]:
    many = f"{copies} × " if copies > 1 else ""
    times = f"{run.times} times " if run.times > 1 else ""
    return (
        (many, *_named(run.put_in)),
        (run.along, " edge"),
        (times, *_named(run.off)),
        _named(run.stays),
    )


def _named(what: tuple[str, Region]) -> Words:
    name, region = what
    return (f"{name}, ", Size(region.width, region.height))


def _called(node: Node, name: str) -> Iterator[tuple[Region, str]]:
    """What each region is called: the sheet, a strip, a part, an offcut."""
    if isinstance(node, Cut):
        yield node.region, name
        yield from _called(node.first, STRIP)
        yield from _called(node.rest, STRIP)
    elif isinstance(node, Got):
        yield node.region, part_name(node.part)
    else:
        yield node.region, OFFCUT


def halves(region: Region, axis: Axis, at: Length) -> tuple[Region, Region]:
    """The two parts of a region that a cut makes: that between edge and blade, and the rest."""
    if axis is Axis.ACROSS:
        return (
            Region(region.x, region.y, at, region.height),
            Region(region.x + at, region.y, region.width - at, region.height),
        )
    return (
        Region(region.x, region.y, region.width, at),
        Region(region.x, region.y + at, region.width, region.height - at),
    )
