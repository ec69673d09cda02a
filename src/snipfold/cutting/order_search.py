"""The cheapest sheets for a job: patterns found one after another, then whole numbers of them."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

import numpy as np

from .order_block import Block, counted, piece, row
from .order_clock import Clock
from .order_job import Job, Stock
from .order_master import Column, Master, Shares, covers, whole
from .order_near import Near
from .order_worth import MOST_WORTH, Numbers, Table, Worths
from .plan import Axis

#: A mix whose pieces are worth less than this share above a sheet's cost cannot be bettered.
_LEVEL = 1e-8
#: Patterns of equal worth that are taken up at a time.
_TURNS = 4
#: The sheets at the end of a dive that are left to a program: one of these numbers.
_LAST = (2, 3, 5)
#: Patterns for them lose no more than these shares of a sheet, one after the other.
_SHARES = (0.01, 0.03)
#: Handfuls kept for each region when only good patterns are wanted, not all.
_KEEP = 8
#: Work of one look for near patterns, in joins of two handfuls.
_STEPS = 2_000_000
#: Near patterns that a dive takes up, and that a proof can be built on.
_FEW = 300
_MOST_NEAR = 20_000
#: Nodes of one program, and of one for the last sheets of a dive.
_NODES = 100
_LAST_NODES = 20
#: Rounds in which all patterns near the bound are looked for.
_PROOFS = (2, 6, 14)


@dataclass(frozen=True, slots=True)
class Answer:
    """How often each column is cut, what that costs, and the least that anything can cost."""

    times: Mapping[Column, int]
    cost: int
    bound: int


@dataclass(frozen=True, slots=True)
class _Prices:
    """Whole worths of the kinds, and whole rents of the stocks, at `scale` for a cost of 1.

    No pattern's pieces are worth more than its sheet's cost and rent, so no plan costs less than
    all pieces wanted are worth, less the rents of all limited sheets: `bound`.
    """

    worths: Numbers
    rents: tuple[int, ...]
    scale: int
    bound: Fraction


class Search:
    """The search for one job; `run` may be called once."""

    def __init__(
        self, job: Job, clock: Clock, seed: int, table: Callable[[Stock], Table] = Worths
    ) -> None:
        self.job = job
        self._table = table
        self.clock = clock
        self.seed = seed
        self.master = Master(job)
        self._worths: dict[tuple[object, ...], Table] = {}
        self.bound = 0
        self.best: dict[Column, int] | None = None
        self.cost = 0
        self.prices: _Prices | None = None
        self.shares: Shares | None = None

    # -- small questions

    def worths(self, stock: Stock) -> Table:
        """The table of worths of a stock; one for all stocks of a size."""
        key = (stock.width, stock.height, stock.tallest, stock.widest, stock.poses)
        if key not in self._worths:
            self._worths[key] = self._table(stock)
        return self._worths[key]

    def closed(self) -> bool:
        """Whether the best plan costs no more than the bound."""
        return self.best is not None and self.cost <= self.bound

    def cost_of(self, times: Mapping[Column, int]) -> int:
        """What so many of each column cost."""
        return sum(
            number * self.job.cost_of(column.stock, column.counts)
            for column, number in times.items()
        )

    def take(self, times: Mapping[Column, int]) -> bool:
        """Whether a plan is one, and better than the best so far; it is then the best."""
        cost = self.cost_of(times)
        if self.best is not None and cost >= self.cost:
            return False
        columns = list(times)
        mosts = [stock.most for stock in self.job.stocks]
        if not covers(columns, dict(enumerate(times.values())), self.job.demand, mosts):
            return False
        self.best, self.cost = dict(times), cost
        return True

    # -- first patterns

    def plain(self) -> None:
        """Patterns of one kind each, so that every piece has some."""
        kinds = len(self.job.demand)
        for number, stock in enumerate(self.job.stocks):
            for kind, poses in enumerate(stock.poses):
                blocks = [grid(kind, pose, stock) for pose in poses]
                if blocks:
                    best = max(blocks, key=lambda block: counted(block, kinds)[kind])
                    self.master.add(Column(number, counted(best, kinds), best))
        if self.job.leaving is not None:
            for kind in range(kinds):
                one = tuple(int(kind == other) for other in range(kinds))
                self.master.add(Column(-1, one, None))

    def greedy(self, start: Mapping[Column, int]) -> dict[Column, int] | None:
        """A plan that adds patterns of one kind each to a beginning; None where sheets run out."""
        job = self.job
        left = [stock.most for stock in job.stocks]
        wanted = list(job.demand)
        times = Counter(start)
        for column, number in start.items():
            wanted = [d - number * n for d, n in zip(wanted, column.counts, strict=True)]
            if (most := left[column.stock]) is not None:
                left[column.stock] = most - number
        for kind in sorted(range(len(wanted)), key=lambda kind: -job.areas[kind]):
            ways = [c for c in self.master.columns if 0 < c.counts[kind] == sum(c.counts)]
            ways.sort(
                key=lambda c: (
                    c.stock < 0,
                    Fraction(job.cost_of(c.stock, c.counts), sum(c.counts)),
                )
            )
            for column in ways:
                number = -(-wanted[kind] // column.counts[kind])
                most = left[column.stock] if column.stock >= 0 else None
                if most is not None:
                    number = min(number, most)
                if number > 0:
                    times[column] += number
                    wanted[kind] -= number * column.counts[kind]
                    if most is not None:
                        left[column.stock] = most - number
            if wanted[kind] > 0:
                return None
        return dict(times)

    # -- the linear program

    def descend(
        self,
        demand: Sequence[int],
        mosts: Sequence[int | None],
        final: bool,
        most: int | None = None,
    ) -> Shares | None:
        """The best mix for a demand, with all patterns that it takes; the bound of it if `final`.

        With `most`, only until it is clear that this cost is not enough.
        """
        self.master.ask(demand, mosts)
        while True:
            shares = self.master.shares()
            if shares is None or self.clock.over():
                return shares
            if most is not None and self.bound > most:
                return shares
            if not self._priced(shares, demand, final):
                return shares

    def _priced(self, shares: Shares, demand: Sequence[int], final: bool) -> bool:
        """Whether some pattern is worth more than its sheet; those found are added."""
        job = self.job
        largest = max(1, *(stock.cost for stock in job.stocks), *(job.leaving or (0,)))
        pieces = max(
            (
                stock.area // min(w * h for poses in stock.poses for w, h in poses)
                for stock in job.stocks
            ),
            default=1,
        )
        scale = 1 << ((MOST_WORTH // (largest * (pieces + 1))).bit_length() - 1)
        worths = np.floor(np.array(shares.worths) * scale).astype(np.int64)
        if job.leaving is not None:
            worths = np.minimum(worths, np.array(job.leaving, dtype=np.int64) * scale)
        mosts: list[int] = []
        news = False
        for number, stock in enumerate(job.stocks):
            table = self.worths(stock)
            mosts.append(table.most(worths))
            if mosts[-1] <= (stock.cost + shares.rents[number]) * scale * (1 + _LEVEL):
                continue
            for turn in range(_TURNS):
                content = table.content(turn)
                news |= self.master.add(Column(number, counted(content, len(demand)), content))
        if final:
            self._bounded(worths, mosts, scale)
        return news

    def _bounded(self, worths: Numbers, mosts: Sequence[int], scale: int) -> None:
        """Takes up a bound on the cost from worths of the kinds, if it is the best yet."""
        job = self.job
        part = Fraction(1)
        for stock, most in zip(job.stocks, mosts, strict=True):
            if stock.most is None and most > stock.cost * scale:
                part = min(part, Fraction(stock.cost * scale, most))
        scaled = np.array([int(worth) * part.numerator // part.denominator for worth in worths])
        rents = tuple(
            max(0, ceil(most * part) - stock.cost * scale)
            for stock, most in zip(job.stocks, mosts, strict=True)
        )
        total = sum(int(w) * d for w, d in zip(scaled, job.demand, strict=True))
        for stock, rent in zip(job.stocks, rents, strict=True):
            total -= rent * (stock.most or 0)
        bound = Fraction(total, scale)
        if self.prices is None or bound > self.prices.bound:
            self.prices = _Prices(scaled, rents, scale, bound)
            self.bound = max(self.bound, ceil(bound))

    # -- whole numbers

    def rounded(self, shares: Shares) -> dict[Column, int]:
        """A plan from a mix: rounded up, then what is too many taken off again."""
        columns = self.master.columns
        times = {place: ceil(x - 1e-6) for place, x in enumerate(shares.amounts) if x > 1e-6}
        for place in sorted(times, key=lambda place: shares.amounts[place] % 1):
            times[place] -= 1
            mosts = [None] * len(self.job.stocks)
            if not covers(columns, times, self.job.demand, mosts):
                times[place] += 1
        return {columns[place]: number for place, number in times.items() if number}

    def program(self, columns: Sequence[Column], nodes: int) -> bool:
        """Whether whole numbers of the columns surely give nothing below the best plan.

        A better plan that turns up is taken.
        """
        assert self.best is not None
        found = whole(
            self.job,
            columns,
            below=self.cost,
            target=self.bound,
            nodes=nodes,
            clock=self.clock,
            seed=self.seed,
        )
        if found.times is not None:
            self.take({columns[place]: number for place, number in found.times.items()})
        return found.final

    def near(self, share: float | None, keep: int | None, steps: int) -> tuple[list[Column], bool]:
        """Columns that a plan at the bound can use, and whether these are all of them.

        With `share`, only those that lose no more than that share of their sheet's cost.
        """
        assert self.prices is not None
        prices = self.prices
        slack = floor((self.bound - prices.bound) * prices.scale)
        columns: list[Column] = []
        complete = self.job.leaving is None
        for number, stock in enumerate(self.job.stocks):
            table = self.worths(stock)
            most = table.most(prices.worths)
            paid = stock.cost * prices.scale + prices.rents[number]
            room = slack
            if share is not None and slack > share * paid:
                room = floor(share * paid)
                complete = False
            found = Near(table, self.job.demand, room - (paid - most), keep, steps, self.clock.over)
            complete &= found.complete
            columns += [
                Column(number, handful, found.content(handful))
                for handful in found.handfuls[:_MOST_NEAR]
            ]
            complete &= len(found.handfuls) <= _MOST_NEAR
        return columns, complete

    def dive(self, chance: random.Random) -> bool:
        """Whether following the mix step by step, whole sheets first, gives a better plan.

        After each step the mix is worked out anew for what is left, with new patterns for it; the
        last few sheets are left to a program of whole numbers.
        """
        job, columns = self.job, self.master.columns
        left = list(job.demand)
        mosts = [stock.most for stock in job.stocks]
        times: Counter[Column] = Counter()
        spent = 0
        dearest = max(stock.cost for stock in job.stocks)
        last = dearest * chance.choice(_LAST)
        shares: Shares | None = None
        while any(left):
            shares = self.descend(left, mosts, False)
            if shares is None or self.clock.over():
                return False
            if spent + ceil(shares.cost - 1e-6) >= self.cost:
                return False
            if shares.cost <= last and sum(shares.amounts) <= 2 * _LAST[-1]:
                break
            taken = {place: floor(x + 1e-6) for place, x in enumerate(shares.amounts) if x >= 1}
            if not taken:
                taken = {self._likely(shares, left, chance): 1}
            for place, number in taken.items():
                column = columns[place]
                times[column] += number
                spent += number * job.cost_of(column.stock, column.counts)
                left = [max(0, a - number * b) for a, b in zip(left, column.counts, strict=True)]
                if column.stock >= 0 and (most := mosts[column.stock]) is not None:
                    mosts[column.stock] = most - number
        if any(left):
            assert shares is not None
            rest = self._last_sheets(shares, left, mosts, spent)
            if rest is None:
                return False
            times.update(rest)
        return self.take(times)

    def _likely(self, shares: Shares, left: Sequence[int], chance: random.Random) -> int:
        """The column to round up: one of much use of which the mix takes much."""

        def rank(place: int) -> float:
            column = self.master.columns[place]
            use = sum(
                worth * min(a, b)
                for worth, a, b in zip(shares.worths, column.counts, left, strict=True)
            )
            return float(use * shares.amounts[place] ** 0.5 * chance.uniform(0.7, 1.3))

        return max((place for place, x in enumerate(shares.amounts) if x > 1e-6), key=rank)

    def _last_sheets(
        self, shares: Shares, left: Sequence[int], mosts: Sequence[int | None], spent: int
    ) -> Mapping[Column, int] | None:
        """The last sheets of a dive, from patterns with no more than what is left; None if dear."""
        job = self.job
        below = self.cost - spent
        for share in _SHARES:
            scale = MOST_WORTH >> 20
            scale //= max(1, ceil(max(shares.worths)))
            worths = np.floor(np.array(shares.worths) * scale).astype(np.int64)
            for number, stock in enumerate(job.stocks):
                if mosts[number] == 0:
                    continue
                table = self.worths(stock)
                loss = int((stock.cost + shares.rents[number]) * scale) - table.most(worths)
                room = int(share * stock.cost * scale) - loss
                if room < 0:
                    continue
                found = Near(table, left, room, _KEEP, _STEPS // 8, self.clock.over)
                for handful in found.handfuls[:_FEW]:
                    self.master.add(Column(number, handful, found.content(handful)))
            better = self.master.shares()
            if better is None or ceil(better.cost - 1e-6) >= below:
                return None
            shares = better
        gap = below - 1 - shares.cost
        ranked: list[tuple[float, int, Column]] = []
        for column in self.master.columns:
            use = sum(w * n for w, n in zip(shares.worths, column.counts, strict=True))
            rent = shares.rents[column.stock] if column.stock >= 0 else 0.0
            dear = float(job.cost_of(column.stock, column.counts)) + rent - use
            if dear <= gap + 1e-6:
                ranked.append((dear, len(ranked), column))
        columns = [column for *_, column in sorted(ranked)[:_FEW]]
        found_whole = whole(
            job,
            columns,
            below=below,
            target=max(0, self.bound - spent),
            nodes=_LAST_NODES,
            clock=self.clock,
            seed=self.seed,
            demand=left,
            mosts=mosts,
        )
        if found_whole.times is None:
            return None
        return {columns[place]: number for place, number in found_whole.times.items()}

    def run(self, start: Mapping[Column, int] | None = None) -> Answer:
        """The best plan and bound, once they meet or the time is over.

        `start` is a beginning that gives all those kinds that no endless stock gives.
        """
        job = self.job
        mosts = [stock.most for stock in job.stocks]
        self.plain()
        for beginning in (start or {}, {}):
            for column in beginning:
                self.master.add(column)
            first = self.greedy(beginning)
            if first is not None:
                self.take(first)
        self.clock.tell("looking for good patterns", 0.05)
        shares = self.descend(job.demand, mosts, True)
        if shares is not None:
            self.take(self.rounded(shares))
        if not self.clock.over() and not self.closed():
            self._close()
        assert self.best is not None
        return Answer(self.best, self.cost, self.bound)

    def mixed(self, most: int) -> float | None:
        """What the best mix of the patterns costs, known and new ones; None if more than `most`."""
        job = self.job
        for kind in range(len(job.demand)):
            one = tuple(int(kind == other) for other in range(len(job.demand)))
            self.master.add(Column(-1, one, None))
        shares = self.descend(job.demand, [stock.most for stock in job.stocks], True, most)
        if shares is None or self.bound > most:
            return None
        return shares.cost

    def within(self, most: int, nodes: int, dives: int) -> dict[Column, int] | None:
        """A plan that leaves nothing out and costs no more than `most`, if one is soon found.

        With none, `bound` above `most` says that there is none.
        """
        cost = self.mixed(most)
        if cost is None:
            return None
        self.bound = max(self.bound, most)
        self.best, self.cost = {}, most + 1
        for column in self.near(0.01, _KEEP, _STEPS)[0][:_FEW]:
            self.master.add(column)
        chance = random.Random(self.seed)
        for _ in range(dives):
            if self.dive(chance) or self.clock.over():
                break
        if not self.best:
            columns = [column for column in self.master.columns if column.stock >= 0]
            self.program(columns[-_FEW:], nodes)
        if any(column.stock < 0 for column in self.best):
            return None
        return self.best or None

    def _close(self) -> None:
        """Brings plan and bound together as far as the time goes."""
        chance = random.Random(self.seed)
        nodes = _NODES
        self.clock.tell("rounding to whole sheets", 0.2)
        self.program(self.master.columns, nodes)
        proof: list[Column] | None = None
        rounds = 0
        while not self.closed() and not self.clock.over():
            rounds += 1
            self.clock.tell("filling the last sheets better", 1 - 0.75 * 0.97**rounds)
            if rounds == 1:
                columns, complete = self.near(0.01, _KEEP, _STEPS)
                for column in columns[:_FEW]:
                    self.master.add(column)
                if not self.dive(chance):
                    self.program([*self.master.columns, *columns[_FEW : 3 * _FEW]], nodes)
                continue
            if self.dive(chance):
                continue
            if rounds in _PROOFS:
                columns, complete = self.near(None, None, _STEPS * rounds)
                proof = columns if complete else None
                for column in columns[: _FEW * rounds]:
                    self.master.add(column)
            if proof is not None and self.program(proof, nodes) and not self.closed():
                # No plan at the bound, whatever the patterns.
                self.bound += 1
                proof = None
                rounds = 0
            elif proof is None and rounds % 4 == 0:
                self.program(self.master.columns, nodes)
                nodes *= 2


def grid(kind: int, pose: tuple[int, int], stock: Stock) -> Block:
    """As many pieces of one kind as lie on a sheet in rows, all one way."""
    one = piece(kind, pose)
    across, up = max(1, stock.width // pose[0]), max(1, stock.height // pose[1])
    # A piece too long to be cut free at one side fills the sheet that way already.
    line = row(Axis.ACROSS, [one] * across)
    assert line is not None
    block = row(Axis.UP, [line] * up)
    assert block is not None
    return block
