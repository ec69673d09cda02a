"""Fewer settings of the trimmer: sheets cut at chosen settings alone."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from .order_clock import Clock
from .order_job import Job
from .order_layout import Laid, Layout, settings_of
from .order_master import Column
from .order_search import Search
from .order_share import Sheets, pared
from .order_worth import Set

#: Nodes of the program that looks for whole sheets at chosen settings, and dives tried after it.
_NODES = 10
_DIVES = 3
_INF = float("inf")


def settings_in(job: Job, uses: Iterable[Sheets]) -> Counter[int]:
    """The settings of all sheets, with the number of cuts at each."""
    found: Counter[int] = Counter()
    for use in uses:
        stock = job.stocks[use.stock]
        for setting in settings_of(use.laid, (stock.width, stock.height)):
            found[setting] += use.times
    return found


def fewer_settings(
    job: Job,
    uses: Sequence[Sheets],
    known: Iterable[Column],
    most: int,
    clock: Clock,
    seed: int,
) -> list[Sheets]:
    """Sheets that cost no more than `most` altogether, with fewer settings where some are found."""
    fewer = _Fewer(job, uses, known, most, clock, seed)
    fewer.jump()
    fewer.step_by_step()
    return fewer.best


class _Fewer:
    """The search for fewer settings: mixes of patterns first, then whole sheets.

    What a mix at given settings costs is a bound for whole sheets at these and at any fewer
    settings; patterns are found anew for just the settings that are left.
    """

    def __init__(
        self,
        job: Job,
        uses: Sequence[Sheets],
        known: Iterable[Column],
        most: int,
        clock: Clock,
        seed: int,
    ) -> None:
        self.best = list(uses)
        self._job, self._most, self._clock, self._seed = job, most, clock, seed
        dear = max(1, *(stock.cost for stock in job.stocks))
        self._leaving = replace(job, leaving=(dear,) * len(job.demand))
        self._pool: list[tuple[Column, frozenset[int]]] = []
        self._known: set[Column] = set()
        #: No mix without the setting costs less, whatever other settings have gone already.
        self._floors = dict.fromkeys(settings_in(job, uses), 0.0)
        self._failed: set[frozenset[int]] = set()
        self._laid_out(known)

    def _laid_out(self, known: Iterable[Column]) -> None:
        """Fills the pool."""
        for use in self.best:
            counts = Counter(use.laid.pieces)
            held = tuple(counts[kind] for kind in range(len(self._job.demand)))
            self._add(Column(use.stock, held, use.laid))
        layouts = [Layout(stock.tallest, stock.widest, self._floors) for stock in self._job.stocks]
        for column in known:
            laid = column.content
            if laid is None:
                continue
            if not isinstance(laid, Laid):
                stock = self._job.stocks[column.stock]
                laid = layouts[column.stock].laid(laid, (stock.width, stock.height))
            self._add(replace(column, content=laid))

    def _add(self, column: Column) -> None:
        if column.stock < 0 or column in self._known:
            return
        assert isinstance(column.content, Laid)
        stock = self._job.stocks[column.stock]
        self._known.add(column)
        self._pool.append(
            (column, frozenset(settings_of(column.content, (stock.width, stock.height))))
        )

    def _search(self, settings: frozenset[int]) -> Search:
        search = Search(self._leaving, self._clock, self._seed, lambda stock: Set(stock, settings))
        for column, used in self._pool:
            if used <= settings:
                search.master.add(column)
        return search

    def _mix(self, settings: frozenset[int]) -> float | None:
        """What the best mix at the settings costs; None if more than it may."""
        search = self._search(settings)
        cost = search.mixed(self._most)
        for column in search.master.columns:
            self._add(column)
        return cost

    def _whole(self, settings: frozenset[int]) -> bool:
        """Whether whole sheets at the settings are soon found; they are then the best."""
        search = self._search(settings)
        found = search.within(self._most, _NODES, _DIVES)
        for column in search.master.columns:
            self._add(column)
        if found is None:
            self._failed.add(settings)
            return False
        uses = []
        for column, number in found.items():
            assert isinstance(column.content, Laid)
            uses.append(Sheets(column.stock, column.content, number))
        self.best = pared(self._job, uses)
        return True

    def _without_one(self, settings: frozenset[int]) -> Iterator[frozenset[int]]:
        """The settings without one of them, those first whose mixes cost least."""
        used = settings_in(self._job, self.best)
        fresh: set[int] = set()
        while not self._clock.over():
            options = [t for t in settings if self._floors.get(t, 0.0) <= self._most]
            options = [t for t in options if settings - {t} not in self._failed]
            if not options:
                return
            setting = min(options, key=lambda t: (self._floors.get(t, 0.0), used[t], t))
            left = settings - {setting}
            if setting in fresh:
                yield left
                self._failed.add(left)
                continue
            cost = self._mix(left)
            self._floors[setting] = _INF if cost is None else cost
            fresh.add(setting)
            used_up = 1 - len(options) / (2 * len(used) + 1)
            self._clock.tell("looking for fewer settings", 0.3 + 0.6 * used_up)

    def jump(self) -> None:
        """Leaves out settings as long as a mix allows, then looks how many whole sheets bear."""
        levels = [frozenset(settings_in(self._job, self.best))]
        while True:
            left = next(self._without_one(levels[-1]), None)
            if left is None:
                break
            levels.append(left)
        # Whole sheets are known at the level `low`, and are not found at `high`.
        low, high = 0, len(levels)
        while high - low > 1 and not self._clock.over():
            middle = (low + high) // 2
            if self._whole(levels[middle]):
                low = middle
            else:
                high = middle

    def step_by_step(self) -> None:
        """Leaves out one setting after another for which whole sheets are found."""
        while not self._clock.over():
            settings = frozenset(settings_in(self._job, self.best))
            for left in self._without_one(settings):
                if self._whole(left):
                    break
            else:
                return
