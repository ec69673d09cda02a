"""What an order costs, exactly; only the maker's own prices count."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from ..supplies import Posted, price_with_margin, rounded
from ..workshop import Workshop
from .demand import Demand
from .order import KitCost, Operation, OrderCost, Origin, PaperPlan, Shopping, Work
from .work import cutting_shares, minutes, untimed, work


def order_cost(shopping: Shopping) -> OrderCost:
    """The cost of what is used and of what is bought, and what has no price."""
    lines = shopping.lines
    used = [line.used for line in lines]
    spend = [line.spend for line in lines]
    unpriced = (
        line.name
        for line, a, b in zip(lines, used, spend, strict=True)
        if (a is None or b is None) and line.need
    )
    return OrderCost(
        sum((one for one in used if one is not None), Fraction(0)),
        sum((one for one in spend if one is not None), Fraction(0)),
        tuple(dict.fromkeys(unpriced)),
    )


def material_shares(
    demanded: Sequence[Demand],
    plans: Sequence[PaperPlan],
    posted: Sequence[Posted],
    shopping: Shopping,
) -> tuple[Fraction, ...]:
    """What each project uses of everything, exactly; together what the order uses.

    The sheets of a paper are shared by the area of the parts that come from them; adhesives by
    length, the rest by the piece.
    """
    shares = [Fraction(0)] * len(demanded)
    prices = {line.name: line for line in shopping.papers}
    for plan in plans:
        spent = Fraction(0)
        for source, count in zip(plan.sources, plan.plan.sheets, strict=True):
            line = prices.get(source.paper)
            if source.origin is Origin.SHEET and line is not None and line.price is not None:
                spent += Fraction(line.price) / line.pack * count
        areas = {
            part.name: part.width.as_mm * part.height.as_mm * part.copies
            for part in plan.plan.parts
        }
        whole = sum(areas.values(), Fraction(0))
        for number, demand in enumerate(demanded):
            own = sum(
                (areas[part.part] for part in demand.parts if part.part in areas), Fraction(0)
            )
            shares[number] += spent * own / whole
    for number, (demand, stuffed) in enumerate(zip(demanded, posted, strict=True)):
        made = demand.wanted.made
        for pack in shopping.envelopes:
            takes_it = stuffed.envelope is not None and stuffed.envelope.name == pack.name
            if takes_it and pack.used is not None:
                shares[number] += pack.used * made / pack.need
        for roll in shopping.adhesives:
            if roll.used is not None and roll.need:
                for one in demand.adhesives:
                    if one.name == roll.name:
                        shares[number] += roll.used * (one.length * made).over(roll.need)
        for pack in shopping.embellishments:
            if pack.used is not None:
                for extra in demand.extras:
                    if extra.name == pack.name:
                        shares[number] += pack.used * Fraction(extra.count * made, pack.need)
    return tuple(shares)


def kit_cost(
    demand: Demand,
    material: Fraction,
    plans: Sequence[PaperPlan],
    making: Sequence[Work],
    workshop: Workshop,
    unpriced: Sequence[str],
    *,
    finished: bool,
) -> KitCost:
    """The cost of one project and, where the maker has named a margin, a price for one set.

    The price covers material, spare sets included, and the minutes of cutting and packing, for
    made-up boxes those of making up instead of packing. Rounded once, from the exact value.
    """
    sets, made = demand.wanted.sets, demand.wanted.made
    pace, terms = workshop.pace, workshop.terms
    shares = cutting_shares(plans, pace)
    prep = sum((shares.get(part.part, Fraction(0)) for part in demand.parts), Fraction(0))
    cutting = [work(Operation.SETTING, 1, pace), work(Operation.CUT, 1, pace)]
    packing = [] if finished else [work(Operation.PACK, made, pace)]
    prep = (prep + minutes(packing)) / sets
    make = minutes(making) * made / sets
    per_set = material / sets
    counted = prep + make if finished else prep
    lacking = [f"the price of {name}" for name in unpriced]
    works = [*cutting, *packing, *(making if finished else ())]
    missing = untimed(works)
    if len(missing) == len(works):
        lacking.append("your time")
    else:
        lacking += [f"the time of {name}" for name in missing]
    if terms.hourly_rate is None:
        lacking.append("what your hour is worth")
    price: Decimal | None = None
    if terms.margin is not None:
        rate = Fraction(terms.hourly_rate or 0)
        whole = per_set + rate * counted / 60
        price = rounded(price_with_margin(whole, terms.margin), workshop.places) if whole else None
    else:
        lacking.append("your margin")
    return KitCost(material, per_set, prep, make, price, tuple(lacking))
