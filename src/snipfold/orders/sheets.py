"""The sheets of one paper: offcuts on hand first, then as few sheets as can be."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from ..cutting import Got, Node, Offcut, Part, SheetPattern, SheetSize, plan_make
from ..cutting.order_plan import Ended, OrderPlan, Prefer, SheetSupply, SheetUse
from ..findings import Finding, Severity
from ..measure import Length, System, number, words
from ..supplies import rounded
from ..workshop import Paper, ShelvedOffcut, Workshop
from .asked import Planner, Stopped
from .demand import Asked, Together
from .order import Counted, HiddenMiddle, Origin, PaperPlan, Source
from .sequence import cut_sequence

#: The shorter side from which an offcut goes on the shelf. Common practice, no source.
LEAST_OFFCUT = {System.INCH: Length.inch(1), System.METRIC: Length.mm(25)}

#: What a sheet on hand counts beside one that has to be bought, where several sizes compete: so
#: little that it always goes first, and yet not nothing, so that few are taken.
_ON_HAND = Fraction(1, 1000)


@dataclass(frozen=True, slots=True)
class Supply:
    """A supply as the planner sees it, and what it is."""

    source: Source
    sheet: SheetSupply


def supplies_of(
    asked: Asked, workshop: Workshop, *, only_on_hand: bool = False
) -> tuple[tuple[Supply, ...], Counted]:
    """Everything that the parts can be cut from, the paper that is asked for first.

    Where papers of several sizes compete, they cost what the maker pays, or if some have no price,
    their area; where there is one, sheets are counted. Offcuts on hand cost nothing.
    """
    system = workshop.system
    sizes = asked.papers
    counted = Counted.SHEETS
    if len(sizes) > 1:
        priced = all(paper.price for paper in sizes)
        counted = Counted.PRICE if priced else Counted.AREA
    made = []
    for paper in sizes:
        cost = _cost(paper, sizes[0], counted)
        if only_on_hand or paper.discontinued:
            if paper.on_hand:
                made.append(_whole(paper, cost, paper.on_hand))
        elif counted is Counted.SHEETS:
            made.append(_whole(paper, cost, None))
        else:
            if paper.on_hand:
                made.append(_whole(paper, cost * _ON_HAND, paper.on_hand))
            made.append(_whole(paper, cost, None))
    for offcut in workshop.offcuts:
        if any(offcut.paper == paper.name for paper in sizes):
            says = (
                f"offcut {number(offcut.width, system)} × {words(offcut.height, system)} "
                f"of {offcut.paper}"
            )
            colour = workshop.paper(offcut.paper).colour
            source = Source(offcut.paper, Origin.SHELF, offcut.width, offcut.height, says, colour)
            made.append(_free(source, offcut.count))
    return tuple(made), counted


def _cost(paper: Paper, first: Paper, counted: Counted) -> Fraction:
    if counted is Counted.SHEETS:
        return Fraction(1)
    if counted is Counted.PRICE and paper.price is not None:
        return Fraction(paper.price) / paper.pack
    return _area(paper) / _area(first)


def _area(paper: Paper) -> Fraction:
    return paper.usable_width.as_mm * paper.usable_height.as_mm


def _whole(paper: Paper, cost: Fraction, most: int | None) -> Supply:
    width, height = paper.usable_width, paper.usable_height
    source = Source(paper.name, Origin.SHEET, width, height, paper.name, paper.colour)
    return Supply(source, SheetSupply(SheetSize(paper.name, width, height), cost, most))


def _free(source: Source, count: int) -> Supply:
    size = SheetSize(source.says, source.width, source.height)
    return Supply(source, SheetSupply(size, Fraction(0), count))


def plan_paper(
    asked: Asked,
    workshop: Workshop,
    planner: Planner,
    *,
    prefer: Prefer,
    seconds: float,
    seed: int,
    stopped: Stopped | None,
    hidden: Sequence[HiddenMiddle] = (),
) -> PaperPlan:
    """The plan of one paper.

    Parts that must share a sheet are planned first, as many sets from a sheet as can be proven;
    what is left of those sheets goes to the others. With `hidden`, parts may also come from there.
    """
    supplies, counted = supplies_of(asked, workshop)
    supplies += tuple(_middle(middle, workshop) for middle in hidden)
    shared, asked = _share(asked, supplies, workshop)
    rest: OrderPlan | None = None
    offered = (
        *_less(supplies, shared.supply, shared.sheets),
        *(_free(source, count) for source, count in shared.left),
    )
    if asked.parts:
        rest = planner(
            asked.parts,
            [supply.sheet for supply in offered],
            workshop.trimmer,
            prefer=prefer,
            seconds=seconds,
            seed=seed,
            stopped=stopped,
        )
    plan = _joined(shared, rest, offered, supplies)
    sources = tuple(supply.source for supply in offered)
    layers = workshop.trimmer.layers_of(max(paper.gsm for paper in asked.papers))
    return PaperPlan(
        asked.name,
        sources,
        plan,
        counted,
        tuple(tuple(part.name for part in group.parts) for group in shared.groups),
        cut_sequence(plan.uses, layers),
        _left_over(plan, sources, LEAST_OFFCUT[workshop.system]),
    )


def _middle(middle: HiddenMiddle, workshop: Workshop) -> Supply:
    says = f"hidden middle of {middle.panel} of {middle.kit}"
    colour = workshop.paper(middle.paper).colour
    source = Source(middle.paper, Origin.HIDDEN, middle.width, middle.height, says, colour)
    return _free(source, middle.count)


@dataclass(frozen=True, slots=True)
class _Shared:
    """The sheets that are cut for parts that must share one; all from `supply`, by its number."""

    supply: int = 0
    groups: tuple[Together, ...] = ()
    uses: tuple[SheetUse, ...] = ()
    sheets: int = 0
    least: int = 0
    """No plan can do with fewer sheets of that size."""
    left: tuple[tuple[Source, int], ...] = ()
    missing: tuple[tuple[str, int], ...] = ()
    findings: tuple[Finding, ...] = ()


def _share(asked: Asked, supplies: Sequence[Supply], workshop: Workshop) -> tuple[_Shared, Asked]:
    """The sheets of the parts that must share one, and what is still asked for."""
    # What can be bought without end serves every set; a shelf may run out between two sizes.
    whole_sheets = sorted(
        (n for n, one in enumerate(supplies) if one.source.origin is Origin.SHEET),
        key=lambda n: (supplies[n].source.paper != asked.name, supplies[n].sheet.most is not None),
    )
    if not asked.together or not whole_sheets:
        return _Shared(), _loosened(asked, asked.together)
    supply = whole_sheets[0]
    first = supplies[supply]
    kept: list[Together] = []
    uses: list[SheetUse] = []
    missing: list[tuple[str, int]] = []
    findings: list[Finding] = []
    sheets, least = 0, 0
    most = first.sheet.most
    for group in asked.together:
        made = plan_make(group.parts, first.sheet.sheet, workshop.trimmer, most_sets=group.sets)
        if not made.sets_per_sheet:
            findings.append(_cannot_share(group, asked.name))
            continue
        kept.append(group)
        findings += made.findings
        whole, over = divmod(group.sets, made.sets_per_sheet)
        if most is not None and whole + bool(over) > most - sheets:
            whole, over = most - sheets, 0
            cut = whole * made.sets_per_sheet
            missing += [(part.name, part.copies * (group.sets - cut)) for part in group.parts]
        if whole:
            pattern = SheetPattern(made.patterns[0].tree, whole)
            uses.append(SheetUse(supply, pattern, made.steps[0]))
        if over:
            last = plan_make(group.parts, first.sheet.sheet, workshop.trimmer, most_sets=over)
            uses.append(SheetUse(supply, last.patterns[0], last.steps[0]))
        sheets += whole + bool(over)
        least = max(least, -(-group.sets // made.bound))
    left = Counter(
        {
            Source(
                asked.name,
                Origin.LEFT,
                width,
                height,
                _left_words(width, height, workshop),
                first.source.colour,
            ): n
            for (width, height), n in _offcuts(uses).items()
        }
    )
    shared = _Shared(
        supply, tuple(kept), tuple(uses), sheets, least, tuple(left.items()), tuple(missing),
        tuple(findings),
    )  # fmt: skip
    return shared, _loosened(asked, [one for one in asked.together if one not in kept])


def _left_words(width: Length, height: Length, workshop: Workshop) -> str:
    system = workshop.system
    return f"offcut {number(width, system)} × {words(height, system)} of this order"


def _cannot_share(group: Together, paper: str) -> Finding:
    names = " and ".join(part.name for part in group.parts)
    return Finding(
        "order.same-sheet", Severity.CAUTION, (group.kit, paper),
        f"not even one set of {names} comes from one sheet of {paper}, so they cannot share one",
        "take a larger sheet, or leave same_sheet out",
    )  # fmt: skip


def _loosened(asked: Asked, groups: Sequence[Together]) -> Asked:
    """What is asked for, these groups free to come from any sheet."""
    freed = (
        replace(part, copies=part.copies * group.sets) for group in groups for part in group.parts
    )
    return replace(asked, parts=(*asked.parts, *freed), together=())


def _less(supplies: Sequence[Supply], number: int, taken: int) -> tuple[Supply, ...]:
    """The supplies, less the sheets that were taken from one of them."""
    made = list(supplies)
    if taken and (most := made[number].sheet.most) is not None:
        sheet = replace(made[number].sheet, most=most - taken)
        made[number] = replace(made[number], sheet=sheet)
    return tuple(made)


def _joined(
    shared: _Shared, rest: OrderPlan | None, offered: Sequence[Supply], supplies: Sequence[Supply]
) -> OrderPlan:
    """One plan of the sheets that are shared and the others, with a bound that holds for both."""
    if rest is not None and not shared.groups:
        return replace(rest, findings=(*shared.findings, *rest.findings))
    sheets = list(rest.sheets) if rest is not None else [0] * len(offered)
    for use in shared.uses:
        sheets[use.supply] += use.pattern.times
    uses = (*shared.uses, *(rest.uses if rest is not None else ()))
    parts = (
        *(
            replace(part, copies=part.copies * group.sets)
            for group in shared.groups
            for part in group.parts
        ),
        *(rest.parts if rest is not None else ()),
    )
    whole = [one.sheet for one in supplies]
    cost = sum((one.cost * n for one, n in zip(whole, sheets, strict=False)), Fraction(0))
    bound = min(cost, _least_cost(shared, parts, supplies))
    return OrderPlan(
        parts=parts,
        supplies=(*whole, *(one.sheet for one in offered[len(whole) :])),
        uses=uses,
        sheets=tuple(sheets),
        cost=cost,
        bound=bound,
        proven=cost == bound and not shared.missing,
        gap=cost - bound,
        settings=len({step.setting for use in uses for step in use.steps}),
        missing=(*shared.missing, *(rest.missing if rest is not None else ())),
        ended=rest.ended if rest is not None else Ended.PROVEN,
        findings=(*shared.findings, *(rest.findings if rest is not None else ())),
    )


def _least_cost(shared: _Shared, parts: Sequence[Part], supplies: Sequence[Supply]) -> Fraction:
    """No plan costs less: by area, and by the parts that must share a sheet.

    Where one size is all there is to cut from, those take at least `shared.least` sheets, less one
    for every offcut on hand, since none gives more sets than a sheet.
    """
    free = sum(
        _size(one.sheet.sheet) * (one.sheet.most or 0) for one in supplies if not one.sheet.cost
    )
    needed = sum(part.width.as_mm * part.height.as_mm * part.copies for part in parts) - free
    bought = [one.sheet for one in supplies if one.sheet.cost]
    if not bought:
        return Fraction(0)
    each = min(one.cost / _size(one.sheet) for one in bought)
    least = max(Fraction(0), needed * each)
    if len(bought) == 1:
        offcuts = sum(one.sheet.most or 0 for one in supplies if not one.sheet.cost)
        sheets = max(-(-least // bought[0].cost), shared.least - offcuts)
        least = bought[0].cost * sheets
    return least


def _size(sheet: SheetSize) -> Fraction:
    return sheet.width.as_mm * sheet.height.as_mm


def nodes(tree: Node) -> Iterator[Node]:
    """Every node of a tree, each before what it is cut into."""
    waiting = [tree]
    while waiting:
        node = waiting.pop()
        yield node
        if not isinstance(node, Got | Offcut):
            waiting += [node.rest, node.first]


def _offcuts(uses: Sequence[SheetUse]) -> Counter[tuple[Length, Length]]:
    found: Counter[tuple[Length, Length]] = Counter()
    for use in uses:
        for node in nodes(use.pattern.tree):
            if isinstance(node, Offcut):
                found[node.region.width, node.region.height] += use.pattern.times
    return found


def _left_over(
    plan: OrderPlan, sources: Sequence[Source], least: Length
) -> tuple[ShelvedOffcut, ...]:
    """The offcuts that are worth keeping, largest first, less those that were cut again."""
    found: Counter[tuple[str, Length, Length]] = Counter()
    for use in plan.uses:
        paper = sources[use.supply].paper
        for (width, height), count in _offcuts((use,)).items():
            found[paper, width, height] += count
    for source, count in zip(sources, plan.sheets, strict=True):
        if source.origin is Origin.LEFT:
            found[source.paper, source.width, source.height] -= count
    kept = [
        ShelvedOffcut(paper, width, height, count)
        for (paper, width, height), count in found.items()
        if count > 0 and min(width, height) >= least
    ]
    return tuple(sorted(kept, key=lambda one: (-(one.width.as_mm * one.height.as_mm), one.paper)))


def worded_cost(amount: Fraction, counted: Counted, currency: str, places: int) -> str:
    """A cost of a plan in words: so many sheets, so much money, or so many sheets' area."""
    if counted is Counted.PRICE:
        return f"{currency}{rounded(amount, places)}"
    sheets = f"{float(amount):g}"
    return f"{sheets} sheet{'' if amount == 1 else 's'}" + (
        "" if counted is Counted.SHEETS else " of that area"
    )
