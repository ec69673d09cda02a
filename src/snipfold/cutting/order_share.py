"""Whose each piece is, and nothing cut that nobody wants."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from .grid import Member, Size
from .order_job import Job
from .order_layout import Laid, Trees, without
from .plan import Node


@dataclass(frozen=True, slots=True)
class Sheets:
    """So many sheets of a stock (by its place in the job), cut alike."""

    stock: int
    laid: Laid
    times: int


def pared(job: Job, uses: Sequence[Sheets]) -> list[Sheets]:
    """The same sheets without the pieces that are too many.

    They stay uncut on as few sheets as possible, so that the offcuts there are large; a sheet
    that nothing is wanted from is left out.
    """
    kinds = len(job.demand)
    counts = [_counts(use.laid, kinds) for use in uses]
    times = [use.times for use in uses]
    spare = [-number for number in job.demand]
    for number, held in zip(times, counts, strict=True):
        spare = [s + number * h for s, h in zip(spare, held, strict=True)]
    areas = job.areas
    made: list[Sheets] = []
    while any(spare):
        gone = [
            [min(s, h) for s, h in zip(spare, held, strict=True)] if number else []
            for number, held in zip(times, counts, strict=True)
        ]
        place = max(
            range(len(uses)),
            key=lambda i: sum(n * a for n, a in zip(gone[i], areas, strict=False)),
        )
        most = min(s // g for s, g in zip(spare, gone[place], strict=True) if g)
        number = min(times[place], most)
        use = uses[place]
        stock = job.stocks[use.stock]
        left = without(use.laid, (stock.width, stock.height), list(gone[place]))
        times[place] -= number
        spare = [s - number * g for s, g in zip(spare, gone[place], strict=True)]
        if left is not None:
            made.append(Sheets(use.stock, left, number))
    made += [
        Sheets(use.stock, use.laid, number)
        for use, number in zip(uses, times, strict=True)
        if number
    ]
    together: Counter[tuple[int, Laid]] = Counter()
    for use in made:
        together[use.stock, use.laid] += use.times
    found = [Sheets(stock, laid, number) for (stock, laid), number in together.items()]
    return sorted(found, key=lambda use: (use.stock, -use.times))


def _counts(laid: Laid, kinds: int) -> list[int]:
    counts = [0] * kinds
    for kind in laid.pieces:
        counts[kind] += 1
    return counts


class Names:
    """Gives the pieces of a job's kinds to its parts, sheet after sheet."""

    def __init__(self, job: Job, trees: Trees) -> None:
        self._job = job
        self._trees = trees
        self._left = [[member.copies for member in members] for members in job.members]

    def trees(self, use: Sheets) -> list[tuple[Node, int]]:
        """The trees of so many sheets cut alike, and how many of them get the same names."""
        stock = self._job.stocks[use.stock]
        counts = _counts(use.laid, len(self._left))
        left, made = use.times, []
        while left:
            shares = [self._share(kind, count) for kind, count in enumerate(counts)]
            times = left
            for number, share in zip(self._left, shares, strict=True):
                for member, count in share.items():
                    times = min(times, number[member] // count)
            for number, share in zip(self._left, shares, strict=True):
                for member, count in share.items():
                    number[member] -= count * times
            names = [
                [self._job.members[kind][member] for member in share.elements()][::-1]
                for kind, share in enumerate(shares)
            ]

            def name(kind: int, size: Size, names: list[list[Member]] = names) -> tuple[str, bool]:
                member = names[kind].pop()
                return member.name, size != member.size

            tree = self._trees.tree(use.laid, (stock.width, stock.height), name)
            made.append((tree, times))
            left -= times
        return made

    def _share(self, kind: int, count: int) -> Counter[int]:
        """Whose the next pieces of a kind are."""
        share: Counter[int] = Counter()
        for member, left in enumerate(self._left[kind]):
            if count and left:
                share[member] = min(count, left)
                count -= share[member]
        return share
