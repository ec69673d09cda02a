"""An independent check of a cutting plan: every cut made again, every piece counted.

Shares the plan's values and the measures with the planner, and no code.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from ..measure import ZERO, Length
from ..workshop import Trimmer
from .plan import Axis, Cut, CutPlan, CutStep, Got, Node, Part, Region


@dataclass(frozen=True, slots=True)
class Replay:
    """What a replay found.

    `faults` says in words everything that is wrong with the plan; empty when nothing is. `got`
    has, for each pattern, how many of each part one sheet of it gives, by name. `cuts` counts the
    cuts of all sheets, `settings` are the different settings of the trimmer, ascending.
    """

    faults: tuple[str, ...]
    got: tuple[Mapping[str, int], ...]
    cuts: int
    settings: tuple[Length, ...]


def replay(plan: CutPlan, trimmer: Trimmer) -> Replay:
    """The plan replayed from the sheet: each cut as a maker would make it, each piece counted.

    Checks that each pattern begins with the sheet (at the mark at or below its size), that every
    cut goes from edge to edge of its own region and leaves two parts that fill it, lies on the
    trimmer's graduation and is no longer than it cuts, that every part has its size (at the
    nearest mark) and lies as it may, that sets are complete, that the plan's figures agree, and
    that the steps make every cut once, at its setting, after the cut that frees its region.
    """
    faults: list[str] = []
    got: list[Mapping[str, int]] = []
    settings: set[Length] = set()
    cuts = 0
    if len(plan.steps) != len(plan.patterns):
        faults.append(f"{len(plan.patterns)} patterns, but steps for {len(plan.steps)}")
    for number, pattern in enumerate(plan.patterns):
        where = f"pattern {number + 1}"
        if pattern.times < 1:
            faults.append(f"{where}: cut {pattern.times} times")
        found = _tree(plan, pattern.tree, trimmer, where, faults)
        got.append(Counter(piece.part for piece in found if isinstance(piece, Got)))
        made = [piece for piece in found if isinstance(piece, Cut)]
        cuts += len(made) * pattern.times
        settings |= {cut.at for cut in made}
        if number < len(plan.steps):
            _steps(pattern.tree, plan.steps[number], where, faults)
    _sets(plan, got, faults)
    return Replay(tuple(faults), tuple(got), cuts, tuple(sorted(settings)))


def _at(region: Region) -> str:
    mm = [float(x.as_mm) for x in (region.width, region.height, region.x, region.y)]
    return "{:g} x {:g} mm at {:g}, {:g}".format(*mm)


def _tree(plan: CutPlan, tree: Node, trimmer: Trimmer, where: str, faults: list[str]) -> list[Node]:
    """All nodes of one pattern, its faults noted."""
    ruler = trimmer.ruler
    parts: dict[str, list[Part]] = {}
    for part in plan.parts:
        parts.setdefault(part.name, []).append(part)
    whole = Region(ZERO, ZERO, ruler.below(plan.sheet.width), ruler.below(plan.sheet.height))
    if tree.region != whole:
        faults.append(f"{where}: begins with {_at(tree.region)}, not with the sheet, {_at(whole)}")
    nodes: list[Node] = []
    waiting = [tree]
    while waiting:
        node = waiting.pop()
        nodes.append(node)
        region = node.region
        if isinstance(node, Cut):
            waiting += [node.rest, node.first]
            _cut(node, plan, trimmer, where, faults)
        elif isinstance(node, Got):
            named = parts.get(node.part)
            if named is None:
                faults.append(f"{where}: “{node.part}” is no part of the plan")
                continue
            least = ruler.graduation
            sizes = [
                (max(least, ruler.nearest(p.width)), max(least, ruler.nearest(p.height)))
                for p in named
            ]
            size = region.width, region.height
            if node.turned:
                if not any(part.turn for part in named):
                    faults.append(f"{where}: “{node.part}” is turned and may not be")
                size = region.height, region.width
            if size not in sizes:
                faults.append(f"{where}: “{node.part}” is not {_at(region)}")
    return nodes


def _cut(cut: Cut, plan: CutPlan, trimmer: Trimmer, where: str, faults: list[str]) -> None:
    """One cut's faults."""
    region, at = cut.region, cut.at
    this = f"{where}: the cut {cut.axis.value} at {float(at.as_mm):g} mm of {_at(region)}"
    if not trimmer.ruler.has(at):
        faults.append(f"{this} is off the trimmer's marks")
    if cut.axis is Axis.ACROSS:
        inside, long = ZERO < at < region.width, region.height
        first = Region(region.x, region.y, at, region.height)
        rest = Region(region.x + at, region.y, region.width - at, region.height)
        from_edge = region.height == trimmer.ruler.below(plan.sheet.height)
        sheet = plan.sheet.height
    else:
        inside, long = ZERO < at < region.height, region.width
        first = Region(region.x, region.y, region.width, at)
        rest = Region(region.x, region.y + at, region.width, region.height - at)
        from_edge = region.width == trimmer.ruler.below(plan.sheet.width)
        sheet = plan.sheet.width
    if not inside:
        faults.append(f"{this} does not lie inside it")
    # A region as long as the sheet is as long as the sheet truly is.
    if (max(long, sheet) if from_edge else long) > trimmer.longest_cut:
        faults.append(f"{this} is longer than the trimmer cuts")
    for side, node, region_after in (("first", cut.first, first), ("rest", cut.rest, rest)):
        if node.region != region_after:
            faults.append(
                f"{this} leaves {_at(region_after)}, but the {side} is {_at(node.region)}"
            )


def _steps(tree: Node, steps: tuple[CutStep, ...], where: str, faults: list[str]) -> None:
    """The faults of the order of one pattern's cuts: what lies on the table is cut, step by step."""
    table: dict[Region, Node] = {tree.region: tree}
    for number, step in enumerate(steps):
        this = f"{where}, step {number + 1}"
        if len(step.pieces) != len(step.gives) or not step.pieces:
            faults.append(f"{this}: {len(step.pieces)} pieces give {len(step.gives)}")
        for piece, gives in zip(step.pieces, step.gives, strict=False):
            node = table.get(piece)
            if not isinstance(node, Cut):
                faults.append(f"{this}: there is no {_at(piece)} to be cut yet, or no longer")
                continue
            if (node.at, node.axis) != (step.setting, step.axis):
                faults.append(f"{this}: {_at(piece)} is cut at another setting than the tree says")
                continue
            del table[piece]
            table[node.first.region] = node.first
            table[node.rest.region] = node.rest
            off = node.first.part if isinstance(node.first, Got) else ""
            if off != gives:
                faults.append(f"{this}: {_at(piece)} gives “{off}”, not “{gives}”")
    left = sum(isinstance(node, Cut) for node in table.values())
    if left:
        faults.append(f"{where}: {left} pieces are left that should have been cut")


def _sets(plan: CutPlan, got: list[Mapping[str, int]], faults: list[str]) -> None:
    """The faults of the plan's figures: complete sets, sheets, and the bound."""
    wanted: Counter[str] = Counter()
    for part in plan.parts:
        wanted[part.name] += part.copies
    sheets = sum(pattern.times for pattern in plan.patterns)
    if plan.sets_per_sheet:
        if len(plan.patterns) != 1 or sheets != 1:
            faults.append(f"sets from one sheet, but {sheets} sheets are cut")
        if plan.sets_per_sheet > plan.bound:
            faults.append(
                f"{plan.sets_per_sheet} sets from a sheet that gives {plan.bound} at most"
            )
    elif plan.sheets_per_set:
        if sheets != plan.sheets_per_set:
            faults.append(f"{plan.sheets_per_set} sheets make one set, but {sheets} are cut")
        if plan.sheets_per_set < plan.bound:
            faults.append(f"{plan.sheets_per_set} sheets for a set that takes {plan.bound}")
    else:
        if plan.patterns:
            faults.append("patterns in a plan that makes nothing")
        return
    reached = plan.bound == (plan.sets_per_sheet or plan.sheets_per_set)
    if plan.proven != reached:
        faults.append(f"said to be {'' if plan.proven else 'not '}proven, with bound {plan.bound}")
    total: Counter[str] = Counter()
    for pattern, counts in zip(plan.patterns, got, strict=True):
        for name, number in counts.items():
            total[name] += number * pattern.times
    sets = max(1, plan.sets_per_sheet)
    for name, copies in wanted.items():
        if total[name] != copies * sets:
            faults.append(f"{total[name]} of “{name}”, where {sets} sets take {copies * sets}")


__all__ = ["Replay", "replay"]
