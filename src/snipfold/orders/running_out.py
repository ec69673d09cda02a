"""Papers that run out, and which projects work with what is on hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..cutting.order_plan import Prefer
from ..workshop import Workshop
from .asked import Planner, Stopped
from .demand import Asked, Demand
from .order import PaperPlan, RunsOut
from .sheets import supplies_of


def runs_out(
    demanded: Sequence[Demand],
    asked: Sequence[Asked],
    plans: Sequence[PaperPlan],
    workshop: Workshop,
    planner: Planner,
    *,
    seconds: float,
    seed: int,
    stopped: Stopped | None,
) -> tuple[RunsOut, ...]:
    """Every paper that a shelf is kept of and that does not last, in the order of `asked`.

    A paper of which nothing is on hand, and more can be bought, is simply bought. Each project is
    then tried alone with what is on hand, its sheets and offcuts.
    """
    found = []
    for one, plan in zip(asked, plans, strict=True):
        on_hand = sum(paper.on_hand for paper in one.papers)
        gone = all(paper.discontinued for paper in one.papers)
        wanting = _wanting(one, plan, workshop)
        if not wanting or not (on_hand or gone):
            continue
        works: list[str] = []
        partly: list[tuple[str, int]] = []
        for demand in demanded:
            own = _own(one, demand)
            if own is None:
                continue
            sets = _sets(own, demand, workshop, planner, seconds, seed, stopped)
            if sets >= demand.wanted.made:
                works.append(demand.name)
            else:
                partly.append((demand.name, sets))
        found.append(RunsOut(one.name, on_hand, wanting, gone, tuple(works), tuple(partly)))
    return tuple(found)


def _wanting(asked: Asked, plan: PaperPlan, workshop: Workshop) -> int:
    """How many sheets have to be bought; for a paper that is gone, those that its parts lack."""
    on_hand = sum(paper.on_hand for paper in asked.papers)
    if plan.sheets > on_hand:
        return plan.sheets - on_hand
    if not plan.plan.missing:
        return 0
    sheet = asked.papers[0]
    area = sheet.usable_width.as_mm * sheet.usable_height.as_mm
    sizes = {part.name: part.width.as_mm * part.height.as_mm for part in plan.plan.parts}
    short = sum(sizes[name] * copies for name, copies in plan.plan.missing)
    return max(1, -(-short // area))


def _own(asked: Asked, demand: Demand) -> Asked | None:
    """What one project alone asks of a paper; parts that share a sheet count as loose ones."""
    mine = {part.part for part in demand.parts}
    loose = [part for part in asked.parts if part.name in mine]
    loose += [
        replace(part, copies=part.copies * group.sets)
        for group in asked.together
        for part in group.parts
        if part.name in mine
    ]
    return replace(asked, parts=tuple(loose), together=()) if loose else None


def _sets(
    own: Asked,
    demand: Demand,
    workshop: Workshop,
    planner: Planner,
    seconds: float,
    seed: int,
    stopped: Stopped | None,
) -> int:
    """How many sets, at least, come from what is on hand."""
    made = demand.wanted.made
    by_sheet = max(
        (
            plan.sets_per_sheet * paper.on_hand
            for name, plan in demand.wanted.design.cutting.items()
            for paper in own.papers
            if paper.name == name
        ),
        default=0,
    )
    if by_sheet >= made:
        return made
    supplies, _ = supplies_of(own, workshop, only_on_hand=True)
    if not supplies:
        return 0
    plan = planner(
        own.parts,
        [supply.sheet for supply in supplies],
        workshop.trimmer,
        prefer=Prefer.SHEETS,
        seconds=seconds,
        seed=seed,
        stopped=stopped,
    )
    lacking = dict(plan.missing)
    counts = {part.part: part.count for part in demand.parts}
    whole = min(
        (part.copies - lacking.get(part.name, 0)) // counts[part.name] for part in own.parts
    )
    return max(by_sheet, whole)
