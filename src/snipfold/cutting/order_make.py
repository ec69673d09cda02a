"""From an order to its plan: search, layout, names."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from ..findings import Finding, Severity
from ..measure import Length, words
from ..workshop import Trimmer
from .grid import system_of
from .order_clock import Clock
from .order_job import Job, Read, job_of
from .order_layout import Laid, Layout, Trees
from .order_master import Column
from .order_plan import Ended, OrderPlan, Prefer, SheetSupply, SheetUse
from .order_search import Answer, Search
from .order_settings import fewer_settings
from .order_share import Names, Sheets, pared
from .plan import Cut, Node, Part, SheetPattern
from .steps import cut_steps

#: The share of the time that looking for what runs out may take.
_RUN_OUT = 0.4
#: The share that the least cost may take when something else is preferred next.
_FIRST = 0.6


def make_plan(
    parts: Sequence[Part],
    supplies: Sequence[SheetSupply],
    trimmer: Trimmer,
    prefer: Prefer,
    seconds: float,
    seed: int,
    progress: Callable[[str, float], None] | None,
    stopped: Callable[[], bool] | None,
) -> OrderPlan:
    """The plan of `plan_order`, which see."""
    clock = Clock(seconds, progress, stopped)
    read = job_of(parts, supplies, trimmer)
    order = _Order(tuple(parts), tuple(supplies), trimmer, read)
    found = _found(order, prefer, clock, seed)
    clock.tell("done", 1.0)
    return order.plan(found, clock)


@dataclass(frozen=True, slots=True)
class _Found:
    """The sheets, the bound on their cost in the job's units, and what is short of each kind."""

    uses: tuple[Sheets, ...]
    bound: int
    short: tuple[int, ...]
    certain: bool


def _found(order: _Order, prefer: Prefer, clock: Clock, seed: int) -> _Found:
    job = order.read.job
    short = (0,) * len(job.demand)
    answer = Answer({}, 0, 0)
    certain = True
    start: Mapping[Column, int] = {}
    if job.demand and not _endless(job):
        start, short, certain = _what_there_is(job, clock, seed)
        job = _less(job, short)
    known: Sequence[Column] = ()
    if any(job.demand):
        search = Search(job, clock if prefer is Prefer.SHEETS else clock.part(_FIRST), seed)
        answer = search.run(start)
        known = search.master.columns
    uses = pared(job, laid_out(job, answer.times))
    if prefer is Prefer.SETTINGS and uses:
        uses = fewer_settings(job, uses, known, answer.cost, clock, seed)
    return _Found(tuple(uses), answer.bound, short, certain)


def _less(job: Job, short: Sequence[int]) -> Job:
    """The job without so many pieces of each kind, the last parts' first."""
    members = []
    for these, number in zip(job.members, short, strict=True):
        left = []
        for member in reversed(these):
            gone = min(number, member.copies)
            number -= gone
            left.append(replace(member, copies=member.copies - gone))
        members.append(tuple(reversed(left)))
    demand = tuple(sum(member.copies for member in these) for these in members)
    return replace(job, demand=demand, members=tuple(members))


def _endless(job: Job) -> bool:
    """Whether every kind comes from a stock of which there is no end."""
    return all(
        any(stock.most is None and stock.poses[kind] for stock in job.stocks)
        for kind in range(len(job.demand))
    )


def _what_there_is(
    job: Job, clock: Clock, seed: int
) -> tuple[Mapping[Column, int], tuple[int, ...], bool]:
    """Sheets for the kinds of which stocks have an end, the pieces short, and whether certain.

    As little of the area of the pieces is left out as possible.
    """
    ends = [
        not any(stock.most is None and stock.poses[kind] for stock in job.stocks)
        for kind in range(len(job.demand))
    ]
    scarce = replace(
        job,
        demand=tuple(d if end else 0 for d, end in zip(job.demand, ends, strict=True)),
        stocks=tuple(replace(stock, cost=0, most=stock.most or 0) for stock in job.stocks),
        leaving=job.areas,
    )
    answer = Search(scarce, clock.part(_RUN_OUT), seed).run()
    given = Counter({column: n for column, n in answer.times.items() if column.stock >= 0})
    short = tuple(
        max(0, d - sum(n * column.counts[kind] for column, n in given.items()))
        for kind, d in enumerate(scarce.demand)
    )
    return given, short, answer.cost == answer.bound


def laid_out(job: Job, times: Mapping[Column, int]) -> list[Sheets]:
    """The sheets of a search, with the places of their cuts."""
    liked = {side for stock in job.stocks for ways in stock.poses for pose in ways for side in pose}
    layouts = [Layout(stock.tallest, stock.widest, liked) for stock in job.stocks]
    uses = []
    for column, number in times.items():
        stock = job.stocks[column.stock]
        laid = column.content
        assert laid is not None
        if not isinstance(laid, Laid):
            laid = layouts[column.stock].laid(laid, (stock.width, stock.height))
        uses.append(Sheets(column.stock, laid, number))
    return uses


@dataclass(frozen=True, slots=True)
class _Order:
    """What was asked for."""

    parts: tuple[Part, ...]
    supplies: tuple[SheetSupply, ...]
    trimmer: Trimmer
    read: Read

    def plan(self, found: _Found, clock: Clock) -> OrderPlan:
        """The plan with those sheets."""
        job = _less(self.read.job, found.short)
        trees = Trees(job.graduation)
        names = Names(job, trees)
        uses = []
        sheets = [0] * len(self.supplies)
        for use in found.uses:
            supply = job.stocks[use.stock].supply
            sheets[supply] += use.times
            for tree, times in names.trees(use):
                uses.append(SheetUse(supply, SheetPattern(tree, times), cut_steps(tree)))
        cost = sum(
            (supply.cost * number for supply, number in zip(self.supplies, sheets, strict=True)),
            Fraction(0),
        )
        bound = job.unit * found.bound
        short = self._short(job)
        proven = cost == bound
        return OrderPlan(
            self.parts,
            self.supplies,
            tuple(uses),
            tuple(sheets),
            cost,
            bound,
            proven,
            cost - bound,
            len({setting for use in uses for setting in _settings(use.pattern.tree)}),
            tuple(self.read.hopeless) + short,
            Ended.PROVEN if proven and found.certain else clock.ended or Ended.TIME,
            self.read.findings + self._running_out(short, found.certain),
        )

    def _short(self, job: Job) -> tuple[tuple[str, int], ...]:
        """The parts that are short in a job that has been cut down, and by how many."""
        left = {member.name: member.copies for these in job.members for member in these}
        return tuple(
            (member.name, member.copies - left[member.name])
            for these in self.read.job.members
            for member in these
            if member.copies > left[member.name]
        )

    def _running_out(self, short: Sequence[tuple[str, int]], certain: bool) -> tuple[Finding, ...]:
        wanted: Counter[str] = Counter()
        sizes: dict[str, tuple[Length, Length]] = {}
        for part in self.parts:
            wanted[part.name] += part.copies
            sizes[part.name] = part.width, part.height
        system = system_of(self.trimmer.ruler)
        often = "" if certain else "; another plan may leave out less"
        return tuple(
            Finding(
                "sheet.runs-out",
                Severity.ERROR,
                (name,),
                f"{number} of {wanted[name]} {name} cannot be cut: the sheets run out{often}",
                "get more sheets of at least "
                f"{words(sizes[name][0], system)} x {words(sizes[name][1], system)}, or make "
                f"{wanted[name] - number} of them",
            )
            for name, number in short
        )


def _settings(tree: Node) -> set[Length]:
    """The different settings of the cuts of one sheet."""
    found = set()
    waiting = [tree]
    while waiting:
        node = waiting.pop()
        if isinstance(node, Cut):
            found.add(node.at)
            waiting += [node.first, node.rest]
    return found
