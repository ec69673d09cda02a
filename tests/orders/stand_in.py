"""A planner of strips, simple enough to be sure of: it cuts everything, and proves little.

It stands in for the real one where a test is about what an order makes of a plan.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from snipfold.cutting import (
    Axis,
    Cut,
    Got,
    Node,
    Offcut,
    Part,
    Region,
    SheetPattern,
    SheetSize,
    cut_steps,
)
from snipfold.cutting.order_plan import Ended, OrderPlan, Prefer, SheetSupply, SheetUse
from snipfold.measure import ZERO, Length
from snipfold.workshop import Trimmer

Piece = tuple[Length, Length, str, bool]
"""Width, height, name, turned."""


@dataclass
class Strip:
    height: Length
    used: Length = ZERO
    pieces: list[Piece] = field(default_factory=list)


def strips_planner(
    parts: Sequence[Part],
    supplies: Sequence[SheetSupply],
    trimmer: Trimmer,
    *,
    prefer: Prefer = Prefer.SHEETS,
    seconds: float = 1.0,
    seed: int = 0,
    stopped: Callable[[], bool] | None = None,
) -> OrderPlan:
    ruler = trimmer.ruler
    waiting: list[Piece] = []
    turns = {}
    for part in parts:
        turns[part.name] = part.turn
        size = (ruler.nearest(part.width), ruler.nearest(part.height))
        waiting += [(*size, part.name, False)] * part.copies
    waiting.sort(key=lambda one: (-max(one[0], one[1]), one[2]))
    trees: Counter[tuple[int, Node]] = Counter()
    counts = [0] * len(supplies)
    for number in sorted(range(len(supplies)), key=lambda n: supplies[n].cost):
        supply = supplies[number]
        while waiting and (supply.most is None or counts[number] < supply.most):
            strips, waiting_after = _fill(waiting, turns, supply.sheet, trimmer)
            if not strips:
                break
            waiting = waiting_after
            counts[number] += 1
            trees[number, _tree(strips, supply.sheet, trimmer)] += 1
    uses = tuple(
        SheetUse(number, SheetPattern(tree, times), cut_steps(tree))
        for (number, tree), times in trees.items()
    )
    cost = sum((s.cost * n for s, n in zip(supplies, counts, strict=True)), Fraction(0))
    bound = min(cost, _by_area(parts, supplies))
    return OrderPlan(
        tuple(parts), tuple(supplies), uses, tuple(counts), cost, bound, cost == bound,
        cost - bound, len({step.setting for use in uses for step in use.steps}),
        tuple(Counter(piece[2] for piece in waiting).items()),
        Ended.PROVEN if cost == bound else Ended.TIME, (),
    )  # fmt: skip


def _fill(
    waiting: Sequence[Piece], turns: dict[str, bool], sheet: SheetSize, trimmer: Trimmer
) -> tuple[list[Strip], list[Piece]]:
    wide, high = trimmer.ruler.below(sheet.width), trimmer.ruler.below(sheet.height)
    strips: list[Strip] = []
    left: list[Piece] = []
    for width, height, name, _ in waiting:
        ways = [(width, height, name, False)]
        if turns[name]:
            ways.append((height, width, name, True))
        for way in ways:
            home = next((s for s in strips if way[1] <= s.height and s.used + way[0] <= wide), None)
            taken = sum((s.height for s in strips), ZERO)
            if home is None and way[0] <= wide and taken + way[1] <= high:
                home = Strip(way[1])
                strips.append(home)
            if home is not None:
                home.pieces.append(way)
                home.used = home.used + way[0]
                break
        else:
            left.append((width, height, name, False))
    return strips, left


def _tree(strips: Sequence[Strip], sheet: SheetSize, trimmer: Trimmer) -> Node:
    ruler = trimmer.ruler
    whole = Region(ZERO, ZERO, ruler.below(sheet.width), ruler.below(sheet.height))
    return _stacked(list(strips), whole)


def _stacked(strips: list[Strip], region: Region) -> Node:
    if not strips:
        return Offcut(region)
    strip = strips[0]
    if strip.height == region.height:
        return _row(list(strip.pieces), region)
    low = Region(region.x, region.y, region.width, strip.height)
    rest = Region(region.x, region.y + strip.height, region.width, region.height - strip.height)
    return Cut(
        region, Axis.UP, strip.height, _row(list(strip.pieces), low), _stacked(strips[1:], rest)
    )


def _row(pieces: list[Piece], region: Region) -> Node:
    if not pieces:
        return Offcut(region)
    width = pieces[0][0]
    if width == region.width:
        return _cell(pieces[0], region)
    left = Region(region.x, region.y, width, region.height)
    rest = Region(region.x + width, region.y, region.width - width, region.height)
    return Cut(region, Axis.ACROSS, width, _cell(pieces[0], left), _row(pieces[1:], rest))


def _cell(piece: Piece, region: Region) -> Node:
    _, height, name, turned = piece
    if height == region.height:
        return Got(region, name, turned)
    low = Region(region.x, region.y, region.width, height)
    high = Region(region.x, region.y + height, region.width, region.height - height)
    return Cut(region, Axis.UP, height, Got(low, name, turned), Offcut(high))


def _by_area(parts: Sequence[Part], supplies: Sequence[SheetSupply]) -> Fraction:
    def size(sheet: SheetSize) -> Fraction:
        return sheet.width.as_mm * sheet.height.as_mm

    need = sum(part.width.as_mm * part.height.as_mm * part.copies for part in parts)
    need -= sum(size(s.sheet) * (s.most or 0) for s in supplies if not s.cost)
    paid = [s for s in supplies if s.cost]
    if not paid or need <= 0:
        return Fraction(0)
    least = need * min(s.cost / size(s.sheet) for s in paid)
    if len({s.cost for s in paid}) == 1:
        return paid[0].cost * -(-least // paid[0].cost)
    return least
