"""What to buy for an order."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from decimal import Decimal

from ..measure import total
from ..supplies import Goods, PackLine, Posted, RollLine, packs_for, rolls_for
from ..workshop import Embellishment, Envelope, Workshop
from .demand import Demand
from .order import Origin, PaperPlan, Shopping


def shopping_list(
    demanded: Sequence[Demand],
    plans: Sequence[PaperPlan],
    posted: Sequence[Posted],
    workshop: Workshop,
    *,
    finished: bool,
) -> Shopping:
    """Whole packs and rolls of everything, less what is on hand; no envelopes for made-up boxes."""
    return Shopping(
        _papers(plans, workshop),
        _adhesives(demanded, workshop),
        _embellishments(demanded, workshop),
        () if finished else _envelopes(demanded, posted),
    )


def _papers(plans: Sequence[PaperPlan], workshop: Workshop) -> tuple[PackLine, ...]:
    used: Counter[str] = Counter()
    for plan in plans:
        used[plan.paper] += 0
        for source, count in zip(plan.sources, plan.plan.sheets, strict=True):
            if source.origin is Origin.SHEET:
                used[source.paper] += count
    lines = []
    for name, need in used.items():
        paper = workshop.paper(name)
        lines.append(
            packs_for(
                name, Goods.PAPER, need, paper.on_hand, paper.pack, paper.price,
                gone=paper.discontinued,
            )
        )  # fmt: skip
    return tuple(lines)


def _adhesives(demanded: Sequence[Demand], workshop: Workshop) -> tuple[RollLine, ...]:
    lines = []
    for name in dict.fromkeys(one.name for demand in demanded for one in demand.adhesives):
        adhesive = workshop.adhesive(name)
        laid = [
            (one, demand.wanted.made)
            for demand in demanded
            for one in demand.adhesives
            if one.name == name
        ]
        lines.append(
            rolls_for(
                name,
                total(one.length * made for one, made in laid),
                adhesive.on_hand,
                adhesive.roll,
                adhesive.price,
                sum(one.strips * made for one, made in laid),
            )
        )
    return tuple(lines)


def embellishment(name: str, price: Decimal | None, workshop: Workshop) -> Embellishment:
    """An embellishment as the workshop buys it, or by the piece at the price of a project file."""
    known = workshop.embellishment(name)
    if known is None:
        return Embellishment(name, price)
    if known.price is None and price is not None and known.pack == 1:
        return Embellishment(name, price, 1, known.on_hand, known.weight, known.thickness)
    return known


def _embellishments(demanded: Sequence[Demand], workshop: Workshop) -> tuple[PackLine, ...]:
    need: Counter[str] = Counter()
    prices: dict[str, list[Decimal | None]] = {}
    for demand in demanded:
        for extra in demand.wanted.design.project.extras:
            need[extra.name] += extra.count * demand.wanted.made
            prices.setdefault(extra.name, []).append(extra.price)
    lines = []
    for name, count in need.items():
        # Where project files differ, the dearest holds: a list that is too low helps nobody.
        price = max((one for one in prices[name] if one is not None), default=None)
        one = embellishment(name, price, workshop)
        lines.append(packs_for(name, Goods.EMBELLISHMENT, count, one.on_hand, one.pack, one.price))
    return tuple(lines)


def _envelopes(demanded: Sequence[Demand], posted: Sequence[Posted]) -> tuple[PackLine, ...]:
    need: Counter[Envelope] = Counter()
    for demand, one in zip(demanded, posted, strict=True):
        if one.envelope is not None:
            need[one.envelope] += demand.wanted.made
    return tuple(
        packs_for(
            envelope.name, Goods.ENVELOPE, count, envelope.on_hand, envelope.pack, envelope.price
        )
        for envelope, count in need.items()
    )
