"""`resolve`: a project carried through all the rooms, once, in order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from ..cutting import CutPlan, Part, SheetSize, plan_make
from ..cutting.plan import Got, Node, Offcut
from ..dressing import Dressing, Mat, check_dressing, dress, panel_key
from ..findings import Finding, Mend, Severity, worst_first
from ..folding import closed, grain_findings, lies_well, prove
from ..measure import ZERO, Length, System, words
from ..scoring import plan_scoring
from ..styles import Construction, Given
from ..supplies import work_out
from ..workshop import Grain, Paper, Workshop
from .blank_fill import at_marks
from .design import Design
from .project import Project, style_of

MATS = "mats"
STRAP = "strap"


def resolve(project: Project, workshop: Workshop) -> Design:
    """The design that a project comes to in a workshop.

    Raises `KeyError` for a style or paper that is unknown; whoever reads the project file makes
    sure that there is none.
    """
    style = style_of(project)
    given = Given(project.system, workshop.adhesive(workshop.tape).width)
    measures = style.complete(project.measures, given)
    return worked_through(project, workshop, measures, style.build(measures, given))


def worked_through(
    project: Project,
    workshop: Workshop,
    measures: Mapping[str, Length],
    construction: Construction,
    dressing: Dressing | None = None,
) -> Design:
    """The design of a construction that stands already; `resolve` but for its first step.

    With `dressing`, that dressing is taken as it is, and only checked.
    """
    system = project.system
    tape = workshop.adhesive(workshop.tape)
    mat_adhesive = workshop.adhesive(workshop.mat_adhesive)
    papers = _papers(project, construction, workshop)
    poses = closed(construction)
    # A strap goes round the outside of the piece that holds it.
    outside = papers[construction.handle.piece].thickness if construction.handle else ZERO
    if dressing is None:
        dressing = dress(
            construction, poses, project.mats, project.strap, project.contents, tape,
            mat_adhesive, workshop.ruler, system, _longest_strip(papers[STRAP]), thickness=outside,
        )  # fmt: skip
    covers = {
        (mat.piece, mat.panel): papers[MATS].thickness + mat_adhesive.thickness
        for mat in dressing.mats
    }
    proof = prove(
        construction,
        measures,
        thickness={piece.name: papers[piece.name].thickness for piece in construction.pieces},
        tape=tape.thickness,
        covers=covers,
        treats=project.contents,
        ruler=workshop.ruler,
        trimmer=workshop.trimmer.ruler,
        system=system,
    )
    scoring = tuple(
        plan_scoring(piece, workshop.board, workshop.ruler, system) for piece in construction.pieces
    )
    cutting = _cutting(project, construction, dressing, papers, workshop)
    papers = {
        name: paper
        for name, paper in papers.items()
        if (name != MATS or dressing.mats) and (name != STRAP or dressing.strap is not None)
    }
    # On a box that does not close, what the dressing would say follows from that.
    dressed = (
        (
            *dressing.findings,
            *check_dressing(
                construction, dressing, measures, tape, workshop.ruler, system,
                poses=poses, thickness=outside, wish=project.mats,
            ),
        )
        if proof.closes
        else ()
    )  # fmt: skip
    findings = worst_first(
        (
            *proof.findings,
            *dressed,
            *(found for plan in scoring for found in plan.findings),
            *(found for plan in cutting.values() for found in plan.findings),
            *_grain(project, construction, papers, cutting),
        )
    )
    return Design(
        project, workshop, style_of(project), system, measures, construction, papers,
        proof, dressing, scoring, cutting, work_out(papers, cutting, dressing, workshop), findings,
    )  # fmt: skip


def _papers(project: Project, construction: Construction, workshop: Workshop) -> dict[str, Paper]:
    """The paper of each piece, of the mats and of the strap: as the project says, or the first."""
    first = workshop.papers[0]
    second = workshop.papers[1] if len(workshop.papers) > 1 else first

    def paper(name: str, unless_said: Paper) -> Paper:
        said = project.papers.get(name, "")
        return workshop.paper(said) if said else unless_said

    papers = {piece.name: paper(piece.name, first) for piece in construction.pieces}
    papers[MATS] = paper(MATS, second)
    papers[STRAP] = paper(STRAP, papers[construction.pieces[0].name])
    return papers


def _longest_strip(paper: Paper) -> Length:
    return max(paper.usable_width, paper.usable_height)


def _cutting(
    project: Project,
    construction: Construction,
    dressing: Dressing,
    papers: Mapping[str, Paper],
    workshop: Workshop,
) -> dict[str, CutPlan]:
    """One plan for each paper: its blanks, the strap and the mats that come from it."""
    parts: dict[str, list[Part]] = {}
    for piece in construction.pieces:
        paper = papers[piece.name]
        part = Part(piece.name, piece.width, piece.height, 1, turn=not paper.directed)
        if project.keep_grain and paper.grain is not Grain.UNKNOWN:
            part = replace(part, turn=False)
            if not lies_well(piece, paper.grain, turned=False) and not paper.directed:
                part = replace(part, width=piece.height, height=piece.width)
        parts.setdefault(paper.name, []).append(part)
    if dressing.strap is not None:
        paper = papers[STRAP]
        strap = dressing.strap
        parts.setdefault(paper.name, []).append(
            Part(STRAP, strap.width, strap.length, 1, turn=True)
        )
    if dressing.mats:
        paper = papers[MATS]
        alike: dict[tuple[Length, Length], list[Mat]] = {}
        for mat in dressing.mats:
            size = (mat.width, mat.height)
            if not paper.directed and size not in alike and size[::-1] in alike:
                size = size[::-1]
            alike.setdefault(size, []).append(mat)
        for (width, height), mats in alike.items():
            name = ", ".join(f"{panel_key(construction, mat.piece, mat.panel)} mat" for mat in mats)
            parts.setdefault(paper.name, []).append(
                Part(name, width, height, len(mats), turn=not paper.directed)
            )
    by_name = {paper.name: paper for paper in papers.values()}
    return {
        name: plan_make(
            wanted,
            SheetSize(name, by_name[name].usable_width, by_name[name].usable_height),
            workshop.trimmer,
        )
        for name, wanted in parts.items()
    }


def _grain(
    project: Project,
    construction: Construction,
    papers: Mapping[str, Paper],
    cutting: Mapping[str, CutPlan],
) -> list[Finding]:
    found: list[Finding] = []
    for piece in construction.pieces:
        paper = papers[piece.name]
        if paper.grain is Grain.UNKNOWN:
            continue
        plan = cutting[paper.name]
        ways = {
            got.turned != _was_turned(plan, piece.name, piece.width)
            for pattern in plan.patterns
            for got in _got(pattern.tree)
            if got.part == piece.name
        }
        for turned in sorted(ways, reverse=True):
            news = grain_findings(
                piece,
                paper.grain,
                turned,
                may_turn=not project.keep_grain
                and not paper.directed
                and piece.height <= paper.usable_width
                and piece.width <= paper.usable_height,
                system=project.system,
            )
            found.extend(news)
            if news:
                break
    return found


def _was_turned(plan: CutPlan, name: str, width: Length) -> bool:
    """Whether the part was handed to the planner sideways, to keep its scores along the grain."""
    return any(part.name == name and part.width != width for part in plan.parts)


def _got(node: Node) -> list[Got]:
    if isinstance(node, Got):
        return [node]
    if isinstance(node, Offcut):
        return []
    return [*_got(node.first), *_got(node.rest)]


def for_edition(
    project: Project, workshop: Workshop, system: System, other: Workshop
) -> tuple[Project, Workshop, tuple[Finding, ...]]:
    """The project and workshop of the edition in `system`, worked out anew, and what gave.

    Where the project is in that system already, nothing changes. Otherwise each measure that the
    project sets goes to the nearest mark of `other`'s ruler (measures that it leaves out take the
    style's own defaults in that system), each paper to its cousin in `other`, and tools and
    adhesives are `other`'s. When fewer sets then come from a sheet, the style's free measure gives
    until as many do again, or a tenth of it is gone; a finding says so. The lines of a scored blank
    go to marks too, and nothing of it gives.
    """
    if project.system is system:
        return project, workshop, ()
    ruler = other.ruler
    start = replace(
        project,
        system=system,
        measures={name: ruler.nearest(length) for name, length in project.measures.items()},
        papers={
            name: _cousin(paper, workshop, other) for name, paper in project.papers.items() if paper
        },
        mats=replace(
            project.mats,
            border=ruler.above(project.mats.border),
            borders={name: ruler.above(b) for name, b in project.mats.borders.items()},
        ),
        strap=replace(
            project.strap,
            width=ruler.nearest(project.strap.width),
            opening=ruler.nearest(project.strap.opening),
            foot=ruler.nearest(project.strap.foot),
            length=None if project.strap.length is None else ruler.nearest(project.strap.length),
        ),
        blank=None if project.blank is None else at_marks(project.blank, ruler),
    )
    free = style_of(project).free
    if not free:
        return start, other, ()
    wanted = {name: _yield(plan) for name, plan in resolve(project, workshop).cutting.items()}
    made = resolve(start, other)
    full = made.measures[free]
    now = start
    while _falls_short(wanted, made, workshop, other):
        smaller = made.measures[free] - ruler.graduation
        if smaller < full * 9 / 10:
            return start, other, ()
        now = replace(now, measures={**now.measures, free: smaller})
        made = resolve(now, other)
    gave = full - made.measures[free]
    if not gave:
        return start, other, ()
    return now, other, (
        Finding(
            "edition.gave",
            Severity.NOTE,
            (free,),
            f"the {free} gives {words(gave, system)} in this edition, so that as many sets come "
            "from its sheet",
            f"nothing to do; the {free} is now {words(made.measures[free], system)}",
            gave,
            Mend(f"measures.{free}", words(full, system), words(made.measures[free], system)),
        ),
    )  # fmt: skip


def _yield(plan: CutPlan) -> tuple[int, int]:
    return plan.sets_per_sheet, -plan.sheets_per_set


def _falls_short(
    wanted: Mapping[str, tuple[int, int]], made: Design, workshop: Workshop, other: Workshop
) -> bool:
    return any(
        _yield(made.cutting[cousin]) < yields
        for name, yields in wanted.items()
        if (cousin := _cousin(name, workshop, other)) in made.cutting
    )


def _cousin(name: str, workshop: Workshop, other: Workshop) -> str:
    known = {paper.name for paper in other.papers}
    cousin = workshop.paper(name).cousin
    if cousin in known:
        return cousin
    return name if name in known else ""
