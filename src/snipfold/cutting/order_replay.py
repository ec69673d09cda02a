"""An independent check of an order's plan: every sheet cut again, every piece and cost counted.

Shares the plan's values and the replay of one make with the planner, and no code that plans.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from ..measure import Length
from ..workshop import Trimmer
from .order_plan import Ended, OrderPlan, SheetUse
from .plan import Cut, CutPlan, Got, Node, SheetPattern
from .replay import replay


@dataclass(frozen=True, slots=True)
class OrderReplay:
    """What the replay of an order found.

    `faults` says in words everything that is wrong with the plan; empty when nothing is. `got`
    has how many of each part all sheets give, by name. `cuts` counts the cuts of all sheets, one
    sheet at a time; `settings` are the different settings of the trimmer, ascending.
    """

    faults: tuple[str, ...]
    got: Mapping[str, int]
    cuts: int
    settings: tuple[Length, ...]


def replay_order(plan: OrderPlan, trimmer: Trimmer) -> OrderReplay:
    """The plan replayed from its sheets: each cut as a maker would make it, each piece counted.

    Each sheet is checked as `replay` checks the sheet of one make: cuts from edge to edge, on the
    trimmer's marks and within its reach, pieces of the right size lying as they may, steps in an
    order that can be worked. Then: the pieces of all sheets and the missing ones are exactly those
    that were asked for, no supply gives more sheets than it has, and sheets, cost, bound, gap and
    settings are what the plan says.
    """
    faults: list[str] = []
    got: Counter[str] = Counter()
    settings: set[Length] = set()
    sheets = [0] * len(plan.supplies)
    cuts = 0
    for number, use in enumerate(plan.uses):
        where = f"sheet {number + 1}"
        if not 0 <= use.supply < len(plan.supplies):
            faults.append(f"{where}: there is no supply {use.supply}")
            continue
        held = _held(use.pattern.tree)
        if not held:
            faults.append(f"{where}: nothing is cut from it")
        if use.pattern.times < 1:
            faults.append(f"{where}: cut {use.pattern.times} times")
        again = replay(_alone(plan, use, held), trimmer)
        faults += [f"{where}, {fault}" for fault in again.faults]
        for name, count in held.items():
            got[name] += count * use.pattern.times
        settings |= set(again.settings)
        cuts += again.cuts * use.pattern.times
        sheets[use.supply] += use.pattern.times
    _pieces(plan, got, faults)
    _figures(plan, sheets, len(settings), faults)
    return OrderReplay(tuple(faults), dict(got), cuts, tuple(sorted(settings)))


def _held(tree: Node) -> Counter[str]:
    """How many of each part come from one sheet."""
    held: Counter[str] = Counter()
    waiting = [tree]
    while waiting:
        node = waiting.pop()
        if isinstance(node, Got):
            held[node.part] += 1
        elif isinstance(node, Cut):
            waiting += [node.first, node.rest]
    return held


def _alone(plan: OrderPlan, use: SheetUse, held: Mapping[str, int]) -> CutPlan:
    """One sheet as the plan of a make that takes just what it gives."""
    parts = {part.name: replace(part, copies=held.get(part.name, 0)) for part in plan.parts}
    return CutPlan(
        plan.supplies[use.supply].sheet,
        tuple(parts.values()),
        1,
        0,
        1,
        True,
        (SheetPattern(use.pattern.tree, 1),),
        (use.steps,),
        (),
    )


def _pieces(plan: OrderPlan, got: Mapping[str, int], faults: list[str]) -> None:
    """The faults of what is cut and what is missing, against what was asked for."""
    wanted: Counter[str] = Counter()
    missing: Counter[str] = Counter()
    for part in plan.parts:
        wanted[part.name] += part.copies
    for name, number in plan.missing:
        if number < 1 or name not in wanted:
            faults.append(f"{number} of “{name}” are said to be missing")
        missing[name] += number
    for name, copies in wanted.items():
        if got.get(name, 0) + missing[name] != copies:
            faults.append(
                f"{got.get(name, 0)} of “{name}” are cut and {missing[name]} missing, "
                f"where {copies} are wanted"
            )


def _figures(plan: OrderPlan, sheets: list[int], settings: int, faults: list[str]) -> None:
    """The faults of sheets, cost, bound and settings."""
    if tuple(sheets) != plan.sheets:
        faults.append(f"{tuple(sheets)} sheets are cut, not {plan.sheets}")
    cost = Fraction(0)
    for number, supply in zip(sheets, plan.supplies, strict=True):
        cost += supply.cost * number
        if supply.most is not None and number > supply.most:
            faults.append(f"{number} sheets of “{supply.sheet.name}”, of which {supply.most} exist")
    if cost != plan.cost:
        faults.append(f"the sheets cost {cost}, not {plan.cost}")
    if plan.bound > cost:
        faults.append(f"the sheets cost {cost}, less than the least possible, {plan.bound}")
    if plan.gap != plan.cost - plan.bound:
        faults.append(f"the gap of {plan.cost} to {plan.bound} is not {plan.gap}")
    if plan.proven != (plan.cost == plan.bound):
        said = "" if plan.proven else "not "
        faults.append(f"said to be {said}proven, with cost {plan.cost} and bound {plan.bound}")
    if plan.ended is Ended.PROVEN and not plan.proven:
        faults.append("said to have ended with a proof, but is not proven")
    if settings != plan.settings:
        faults.append(f"the trimmer has {settings} different settings, not {plan.settings}")


__all__ = ["OrderReplay", "replay_order"]
