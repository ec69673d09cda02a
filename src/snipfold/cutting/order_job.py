"""An order in whole graduations: kinds of pieces, and the sheets that can be cut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

from ..findings import Finding, Severity
from ..measure import Length
from ..workshop import Trimmer
from .grid import Member, Size, task_of
from .order_plan import SheetSupply
from .plan import Part

#: More copies or sheets than anybody cuts; past it a number is a slip of the keyboard.
MOST_COPIES = 10**9


@dataclass(frozen=True, slots=True)
class Stock:
    """Sheets of one supply: size and reach of the trimmer as in `Task`, and how each kind may lie.

    `poses` has an entry for each kind, empty where it cannot come from this sheet. `cost` is in
    whole units of the job; `most` is None where there is no end of them.
    """

    supply: int
    width: int
    height: int
    tallest: int
    widest: int
    poses: tuple[tuple[Size, ...], ...]
    cost: int
    most: int | None

    @property
    def area(self) -> int:
        """The area of one sheet, in square graduations."""
        return self.width * self.height

    @property
    def free_cuts(self) -> bool:
        """Whether the trimmer makes every cut that the sheet can ask for."""
        return self.tallest >= self.height and self.widest >= self.width


@dataclass(frozen=True, slots=True)
class Job:
    """What an order comes down to: how many of each kind, from which stocks.

    `members` says whose the pieces of a kind are, with all their copies. A cost of 1 here is
    `unit` of the supplies' costs; where no supply costs anything, every sheet costs 1 and `unit`
    is 0. `leaving` is None where
    every piece must be cut, or else what it costs to leave out one of each kind.
    """

    demand: tuple[int, ...]
    members: tuple[tuple[Member, ...], ...]
    stocks: tuple[Stock, ...]
    graduation: Length
    unit: Fraction
    leaving: tuple[int, ...] | None = None

    def cost_of(self, stock: int, counts: Sequence[int]) -> int:
        """What a sheet of a stock costs, or (stock -1) to leave out so many pieces."""
        if stock >= 0:
            return self.stocks[stock].cost
        assert self.leaving is not None
        return sum(count * cost for count, cost in zip(counts, self.leaving, strict=True))

    @property
    def areas(self) -> tuple[int, ...]:
        """The area of one piece of each kind."""
        return tuple(members[0].size[0] * members[0].size[1] for members in self.members)


@dataclass(frozen=True, slots=True)
class Read:
    """A job, what was found about its measures, and the parts that no sheet can give."""

    job: Job
    findings: tuple[Finding, ...]
    hopeless: tuple[tuple[str, int], ...]


def job_of(parts: Sequence[Part], supplies: Sequence[SheetSupply], trimmer: Trimmer) -> Read:
    """The job of an order.

    Raises `ValueError` for no parts, no supplies, sizes that are not more than zero or beyond all
    sense, negative copies, costs or numbers of sheets, and two different parts of one name.
    """
    if not supplies:
        raise ValueError("an order needs at least one supply of sheets")
    for part in parts:
        if part.copies > MOST_COPIES:
            raise ValueError(f"a number of copies that makes sense, not {part.copies}")
    for supply in supplies:
        if supply.cost < 0 or (supply.most is not None and supply.most < 0):
            raise ValueError(f"a supply costs, and has, no less than nothing, unlike {supply!r}")
    copies: dict[str, int] = {}
    for part in parts:
        if part.copies:
            copies[part.name] = copies.get(part.name, 0) + part.copies
    findings: list[Finding] = []
    misfits: dict[str, list[Finding]] = {name: [] for name in copies}
    poses: dict[str, list[tuple[Size, ...]]] = {name: [] for name in copies}
    sizes: dict[str, Size] = {}
    tasks = []
    for supply in supplies:
        task, found, _ = task_of(parts, supply.sheet, trimmer)
        tasks.append(task)
        lying = {member.name: kind.poses for kind in task.kinds for member in kind.members}
        sizes |= {member.name: member.size for kind in task.kinds for member in kind.members}
        for name, ways in poses.items():
            ways.append(lying.get(name, ()))
            # A sheet that cannot be cut at all is said of the sheet, not of the part.
            misfits[name] += [f for f in found if f.severity is Severity.ERROR and
                              (name in f.where or f.where == (supply.sheet.name,))]  # fmt: skip
        findings += [f for f in found if f.severity is not Severity.ERROR]
    hopeless = [name for name, ways in poses.items() if not any(ways)]
    for name in hopeless:
        findings.append(min(misfits[name], key=lambda f: (f.amount is None, f.amount)))
    kinds: dict[tuple[tuple[Size, ...], ...], list[Member]] = {}
    for name, ways in poses.items():
        if any(ways):
            kinds.setdefault(tuple(ways), []).append(Member(name, copies[name], sizes[name]))
    # Where nothing costs anything, sheets are counted.
    free = not any(supply.cost for supply in supplies)
    unit = Fraction(0) if free else _unit([supply.cost for supply in supplies])
    stocks = tuple(
        Stock(
            number,
            task.width,
            task.height,
            task.tallest,
            task.widest,
            tuple(ways[number] for ways in kinds),
            1 if free else int(supply.cost / unit),
            supply.most,
        )
        for number, (supply, task) in enumerate(zip(supplies, tasks, strict=True))
        if supply.most != 0 and any(ways[number] for ways in kinds)
    )
    job = Job(
        tuple(sum(member.copies for member in members) for members in kinds.values()),
        tuple(tuple(members) for members in kinds.values()),
        stocks,
        trimmer.ruler.graduation,
        unit,
    )
    return Read(
        job, tuple(dict.fromkeys(findings)), tuple((name, copies[name]) for name in hopeless)
    )


def _unit(costs: Sequence[Fraction]) -> Fraction:
    """The largest cost that every cost is a whole number of."""
    below = lcm(*(cost.denominator for cost in costs))
    return Fraction(gcd(*(int(cost * below) for cost in costs)), below)
