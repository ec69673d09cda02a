"""`order_of`: an order carried through from what is asked to what it costs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from ..cutting.order_plan import Prefer
from ..findings import Finding, worst_first
from ..supplies import FlatPart, Posted, post
from ..workshop import Workshop
from .asked import (
    ClassDay,
    Planner,
    Progress,
    Stopped,
    Wanted,
    check_asked,
    class_spare,
    spare_sets,
)
from .classroom import classroom
from .cost import kit_cost, material_shares, order_cost
from .demand import Asked, Demand, asked_papers, demands
from .gang import gangs
from .labels import cautions_of, labels_of
from .order import Kit, Order, Origin, PaperPlan, Shopping, Thrift
from .running_out import runs_out
from .sheets import plan_paper
from .shopping import embellishment, shopping_list
from .thrift import hidden_middles
from .work import making_up, preparing, step_times

#: Seconds that the plans of an order may take together, unless said otherwise.
SECONDS = 20.0
#: The part of them, one in so many, that goes into each offer beside the plan itself.
_OFFER = 4


def order_of(
    wanted: Sequence[Wanted],
    workshop: Workshop,
    *,
    spare: Fraction | None = None,
    prefer: Prefer = Prefer.SHEETS,
    day: ClassDay | None = None,
    finished: bool = False,
    thrift: bool = False,
    seconds: float = SECONDS,
    seed: int = 0,
    progress: Progress | None = None,
    stopped: Stopped | None = None,
    planner: Planner | None = None,
) -> Order:
    """The order of so many sets of each design, cut, packed and paid in one workshop.

    `spare` is a share of the sets, made beyond them and rounded up for each project; left out, it
    is a tenth or one a table for a class (`day`), whichever is more, and otherwise what each
    `Wanted` says. `prefer` says what to want least of. `finished` boxes are sold made up: no
    envelopes, and making up counts as work. With `thrift`, parts come from hidden middles where
    that saves a sheet; without, that is offered. Planning takes about `seconds` in all, or ends
    when `stopped` says so, with the best found and its gap; for a `seed` it is always the same
    plan, as long as time does not run out.

    Raises `OrderError` for what nobody can make: no projects, no sets, more than 100 000 sets, a
    spare above 100 %, papers that the workshop does not have.
    """
    check_asked(wanted, spare, day)
    wanted = _with_spare(wanted, spare, day)
    check_asked(wanted)
    planner = planner or _planner()
    demanded = demands(wanted, workshop)
    asked, findings = asked_papers(demanded, workshop)
    plans: list[PaperPlan] = []
    offers: list[Thrift] = []
    each = seconds / max(1, len(asked))
    for number, one in enumerate(asked):
        if progress is not None:
            progress(one.name, number, len(asked))
        plan = plan_paper(
            one, workshop, planner,
            prefer=prefer, seconds=each, seed=seed, stopped=stopped,
        )  # fmt: skip
        thrifty = _thrifty(demanded, one, plan, workshop, planner, prefer, each, seed, stopped)
        if thrifty is not None:
            offers.append(replace(thrifty[1], applied=thrift))
            plan = thrifty[0] if thrift else plan
        plans.append(plan)
    short = runs_out(
        demanded, asked, plans, workshop, planner,
        seconds=each / _OFFER, seed=seed, stopped=stopped,
    )  # fmt: skip
    if progress is not None:
        progress("done", len(asked), len(asked))
    posted = tuple(_posted(demand, workshop) for demand in demanded)
    shopping = shopping_list(demanded, plans, posted, workshop, finished=finished)
    envelopes = 0 if finished else sum(one.made for one in wanted)
    prep = preparing(plans, envelopes, workshop.pace)
    return Order(
        system=workshop.system,
        prefer=prefer,
        finished=finished,
        kits=_kits(demanded, plans, posted, shopping, workshop, finished=finished),
        papers=tuple(plans),
        shopping=shopping,
        prep=prep,
        cost=order_cost(shopping),
        runs_out=short,
        gangs=gangs(demanded, plans, workshop.board),
        thrift=tuple(offers),
        classroom=None if day is None else classroom(day, demanded, shopping, prep, workshop),
        cautions=cautions_of(demanded, plans, workshop, in_class=day is not None),
        findings=worst_first((*findings, *_found(plans))),
        currency=workshop.currency,
        places=workshop.places,
    )


def _planner() -> Planner:
    from ..cutting import plan_order

    return plan_order


def _with_spare(
    wanted: Sequence[Wanted], share: Fraction | None, day: ClassDay | None
) -> tuple[Wanted, ...]:
    if share is not None:
        return tuple(replace(one, spare=spare_sets(one.sets, share)) for one in wanted)
    if day is not None:
        return tuple(replace(one, spare=class_spare(day)) for one in wanted)
    return tuple(wanted)


def _found(plans: Sequence[PaperPlan]) -> list[Finding]:
    """The findings of all plans, each once."""
    return list(dict.fromkeys(finding for plan in plans for finding in plan.plan.findings))


def _thrifty(
    demanded: Sequence[Demand],
    asked: Asked,
    plan: PaperPlan,
    workshop: Workshop,
    planner: Planner,
    prefer: Prefer,
    seconds: float,
    seed: int,
    stopped: Stopped | None,
) -> tuple[PaperPlan, Thrift] | None:
    """The plan that also cuts from hidden middles, where that saves a sheet."""
    middles = hidden_middles(demanded, asked)
    if not middles or plan.sheets < 2 or plan.plan.missing:
        return None
    thrifty = plan_paper(
        asked, workshop, planner,
        prefer=prefer, seconds=seconds / _OFFER, seed=seed, stopped=stopped, hidden=middles,
    )  # fmt: skip
    if thrifty.sheets >= plan.sheets or thrifty.plan.missing:
        return None
    counts = (
        count
        for source, count in zip(thrifty.sources, thrifty.plan.sheets, strict=True)
        if source.origin is Origin.HIDDEN
    )
    taken = tuple((one, count) for one, count in zip(middles, counts, strict=True) if count)
    saved = plan.sheets - thrifty.sheets
    return thrifty, Thrift(plan.paper, thrifty.sheets, saved, taken, applied=False)


def _posted(demand: Demand, workshop: Workshop) -> Posted:
    parts = [
        FlatPart(workshop.paper(part.paper), part.width, part.height, part.count)
        for part in demand.parts
    ]
    extras = [
        (embellishment(extra.name, extra.price, workshop), extra.count)
        for extra in demand.wanted.design.project.extras
    ]
    return post(parts, extras, workshop.envelopes, workshop.system)


def _kits(
    demanded: Sequence[Demand],
    plans: Sequence[PaperPlan],
    posted: Sequence[Posted],
    shopping: Shopping,
    workshop: Workshop,
    *,
    finished: bool,
) -> tuple[Kit, ...]:
    shares = material_shares(demanded, plans, posted, shopping)
    unpriced = order_cost(shopping).unpriced
    kits = []
    for demand, share, stuffed in zip(demanded, shares, posted, strict=True):
        design = demand.wanted.design
        making = making_up(design, workshop.pace)
        used = {
            *(part.paper for part in demand.parts),
            *(one.name for one in demand.adhesives),
            *(one.name for one in demand.extras),
            *((stuffed.envelope.name,) if stuffed.envelope is not None else ()),
        }
        lacking = [name for name in unpriced if name in used]
        cost = kit_cost(demand, share, plans, making, workshop, lacking, finished=finished)
        kits.append(
            Kit(
                name=demand.name,
                style=design.style.name,
                system=design.system,
                sets=demand.wanted.sets,
                spare=demand.wanted.spare,
                parts=demand.parts,
                extras=demand.extras,
                adhesives=demand.adhesives,
                posted=stuffed,
                work=making,
                steps=step_times(design, workshop.pace),
                cost=cost,
                labels=labels_of(demand),
            )
        )
    return tuple(kits)
