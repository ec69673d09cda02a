"""Which parts an order asks for, of which paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..cutting.plan import Part
from ..findings import Finding, Severity
from ..measure import total
from ..project.resolve import MATS, STRAP
from ..workshop import Paper, Workshop
from .asked import OrderError, Wanted
from .order import KitAdhesive, KitExtra, KitPart


@dataclass(frozen=True, slots=True)
class Demand:
    """One project of an order before anything is planned: its name there, and what a set takes."""

    name: str
    wanted: Wanted
    parts: tuple[KitPart, ...]
    extras: tuple[KitExtra, ...]
    adhesives: tuple[KitAdhesive, ...]


@dataclass(frozen=True, slots=True)
class Together:
    """Parts that must share a sheet: what one set takes of them, and for how many sets."""

    kit: str
    parts: tuple[Part, ...]
    sets: int


@dataclass(frozen=True, slots=True)
class Asked:
    """All parts of one paper, or of papers of one stock: the one that is asked for comes first.

    `parts` are those that may come from any sheet (copies in all), `together` those that must
    share one.
    """

    papers: tuple[Paper, ...]
    parts: tuple[Part, ...]
    together: tuple[Together, ...]

    @property
    def name(self) -> str:
        """The paper that is asked for."""
        return self.papers[0].name


def demands(wanted: Sequence[Wanted], workshop: Workshop) -> tuple[Demand, ...]:
    """What each project of an order takes. Raises `OrderError` for an unknown paper."""
    names = _names(wanted)
    known = {paper.name for paper in workshop.papers}
    made = []
    for name, one in zip(names, wanted, strict=True):
        design = one.design
        parts = []
        for paper, plan in design.cutting.items():
            if paper not in known:
                raise OrderError(
                    f"paper “{paper}” of {name}", "not in the workshop",
                    "add it to your workshop file, or name another in the project file",
                )  # fmt: skip
            parts += [
                KitPart(
                    part.name, part.name if len(wanted) == 1 else f"{name}: {part.name}",
                    paper, part.width, part.height, part.copies,
                )
                for part in plan.parts
            ]  # fmt: skip
        strips = design.dressing.strips
        adhesives = tuple(
            KitAdhesive(
                adhesive,
                total(strip.length for strip in strips if strip.adhesive == adhesive),
                sum(strip.adhesive == adhesive for strip in strips),
            )
            for adhesive in dict.fromkeys(strip.adhesive for strip in strips)
        )
        extras = tuple(KitExtra(extra.name, extra.count) for extra in design.project.extras)
        made.append(Demand(name, one, tuple(parts), extras, adhesives))
    return tuple(made)


def _names(wanted: Sequence[Wanted]) -> list[str]:
    """A name for each project that no other has."""
    names: list[str] = []
    for one in wanted:
        name, number = one.design.project.name, 2
        while name in names:
            name = f"{one.design.project.name} ({number})"
            number += 1
        names.append(name)
    return names


def asked_papers(
    demanded: Sequence[Demand], workshop: Workshop
) -> tuple[tuple[Asked, ...], tuple[Finding, ...]]:
    """All parts by the paper they come from, and what stands against parts sharing a sheet."""
    loose: dict[str, list[Part]] = {}
    together: dict[str, list[Together]] = {}
    stocks: dict[str, tuple[Paper, ...]] = {}
    findings: list[Finding] = []
    for demand in demanded:
        kept = _kept_together(demand, findings)
        shared: dict[str, list[Part]] = {}
        for part in demand.parts:
            papers = _stock(part.paper, workshop)
            stock = papers[0].stock or papers[0].name
            stocks.setdefault(stock, papers)
            one = Part(part.part, part.width, part.height, part.count, _turns(demand, part))
            if part.name in kept:
                shared.setdefault(stock, []).append(one)
                loose.setdefault(stock, [])
            else:
                loose.setdefault(stock, []).append(
                    replace(one, copies=one.copies * demand.wanted.made)
                )
        for stock, parts in shared.items():
            together.setdefault(stock, []).append(
                Together(demand.name, tuple(parts), demand.wanted.made)
            )
    asked = tuple(
        Asked(stocks[stock], tuple(parts), tuple(together.get(stock, ())))
        for stock, parts in loose.items()
    )
    return asked, tuple(findings)


def _stock(name: str, workshop: Workshop) -> tuple[Paper, ...]:
    """The paper of that name, and those that stand in for it."""
    paper = workshop.paper(name)
    others = (
        other
        for other in workshop.papers
        if paper.stock
        and other.name != name
        and (other.stock, other.directed) == (paper.stock, paper.directed)
    )
    return (paper, *others)


def _turns(demand: Demand, part: KitPart) -> bool:
    """Whether the part may lie sideways, as its own plan has it."""
    plan = demand.wanted.design.cutting[part.paper]
    return next(one.turn for one in plan.parts if one.name == part.name)


def _kept_together(demand: Demand, findings: list[Finding]) -> frozenset[str]:
    """The parts of a kit that must share a sheet; none, with a finding, where they cannot."""
    named = demand.wanted.design.project.same_sheet
    if not named:
        return frozenset()
    papers = demand.wanted.design.papers
    missing = [name for name in named if name not in papers]
    asked = {papers[name].name for name in named if name in papers}
    if missing or len(asked) > 1:
        wrong = (
            f"there are no {missing[0]} in this box"
            if missing
            else f"they are of {len(asked)} papers: {', '.join(sorted(asked))}"
        )
        findings.append(
            Finding(
                "order.same-sheet",
                Severity.CAUTION,
                (demand.name, *named),
                f"{' and '.join(named)} cannot share a sheet: {wrong}",
                "give them one paper, or leave same_sheet out",
            )
        )
        return frozenset()
    own = {piece.name for piece in demand.wanted.design.construction.pieces} | {STRAP}
    paper = asked.pop()
    return frozenset(
        part.name
        for part in demand.parts
        if part.paper == paper and (part.name in named or (MATS in named and part.name not in own))
    )
