"""Does a handful of pieces fit: for every handful, the least height at each width.

Any pattern of edge-to-edge cuts is built from pieces by setting two blocks side by side or one
above the other. So the least height of a handful at width x is the least, over all ways of
parting the handful in two, of the two heights added (one above the other), or of what the widths
side by side allow. Heights over all useful widths form a row of whole numbers. A handful is made
from smaller ones only, so all handfuls of equally many bundles are worked out at once, on arrays.

Useful widths are the sums of piece widths: in any pattern, blocks can be pushed left and down
until every edge lies on such a sum (the "normal patterns" of Christofides and Whitlock 1977,
Operations Research 25:30-44).
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import prod

import numpy as np
from numpy.typing import NDArray

from .grid import Task

#: A handful: its row in the table.
Key = int
#: Whole numbers, exact in every sum that is made of them here.
_Numbers = NDArray[np.signedinteger]
_Places = NDArray[np.int64]

#: Pieces of one kind are counted one by one up to here, and by rows of the sheet beyond.
_ONE_BY_ONE = 24


@dataclass(frozen=True, slots=True)
class Bundle:
    """`count` bundles of `size` pieces of one kind; the pieces of a bundle stay in one block."""

    kind: int
    size: int
    count: int


def single(counts: Sequence[int]) -> tuple[Bundle, ...]:
    """Every piece a bundle of its own: what is then found to fit, or not, is exact."""
    return tuple(Bundle(kind, 1, count) for kind, count in enumerate(counts) if count)


def joins(bundles: Sequence[Bundle]) -> int:
    """How many joins of two handfuls a table of these bundles takes, at most."""
    return prod((b.count + 1) * (b.count + 2) // 2 for b in bundles) // 2


def bundled(counts: Sequence[int], most: int) -> tuple[Bundle, ...] | None:
    """Bundles of so many pieces, as small as a table of `most` joins takes; None if none are."""
    sizes = [1] * len(counts)
    while True:
        made = []
        for kind, (count, size) in enumerate(zip(counts, sizes, strict=True)):
            if count:
                made.append(Bundle(kind, size, count // size))
            if count % size:
                made.append(Bundle(kind, count % size, 1))
        if joins(made) <= most:
            return tuple(made)
        kind = max(range(len(counts)), key=lambda kind: counts[kind] // sizes[kind])
        count, number = counts[kind], counts[kind] // sizes[kind]
        if number == 1:
            return None
        # The next size that parts the pieces evenly, unless that would be a long way off.
        even = (
            size
            for size in range(sizes[kind] + 1, count + 1)
            if count % size == 0 and 3 * (count // size) >= number
        )
        sizes[kind] = next(even, -(-count // (number // 2)))


def sums(sides: Sequence[Sequence[int]], counts: Sequence[int], most: int) -> list[int]:
    """All sums of 1 to `most` with up to counts[i] terms, each one of sides[i]; ascending.

    For great counts there may be others among them.
    """
    mask = (1 << (most + 1)) - 1
    reached = 1
    for choice, count in zip(sides, counts, strict=True):
        options = set(choice)
        count = min(count, most // min(options))
        if count <= _ONE_BY_ONE:
            for _ in range(count):
                before = reached
                for side in options:
                    reached |= before << side
                reached &= mask
                if reached == before:
                    break
            continue
        for side in options:
            left, step = min(count, most // side), 1
            while left > 0:
                step = min(step, left)
                reached |= (reached << (side * step)) & mask
                left -= step
                step *= 2
    return [place for place, bit in enumerate(reversed(f"{reached:b}")) if bit == "1"][1:]


class _Side:
    """The useful places along one side of the sheet, and where in the rows they are."""

    def __init__(self, at: list[int], length: int, other: int, reach: int) -> None:
        #: Places, ascending; a row has one number for each.
        self.at = at
        self.places = np.array(at, np.int32)
        #: Stands for "does not fit" in a row along this side: more than the other side.
        self.none = other + 1
        #: So many places lie within the trimmer's reach.
        self.reach = bisect_right(at, reach)
        #: For every length, the first place that is no less; past the last for what is too long.
        self.lanes = np.searchsorted(self.places, np.arange(length + 2))

    def lane(self, length: int) -> int:
        """The lane of the widest place no wider than `length`, -1 if none is."""
        return bisect_right(self.at, length) - 1


class Fit:
    """The least heights and widths of every handful of the bundles that fits on the sheet.

    With `single` bundles the table is exact: a handful fits if and only if the table says so.
    With larger bundles, what it says fits does fit. `goal` is the handful of all the bundles,
    `spent` the joins made.

    The rows of the table are first those of the lattice of bundles, where a handful's place says
    how many of each it holds, and then those of so many pieces of one kind, of which the blocks of
    larger bundles are made.
    """

    def __init__(self, task: Task, bundles: Sequence[Bundle]) -> None:
        self.task = task
        self.bundles = tuple(bundles)
        self.spent = 0
        self._counts = [0] * len(task.kinds)
        for bundle in bundles:
            self._counts[bundle.kind] += bundle.size * bundle.count
        poses = [kind.poses for kind in task.kinds]
        xs = sums([[w for w, _ in p] for p in poses], self._counts, task.width)
        ys = sums([[h for _, h in p] for p in poses], self._counts, task.height)
        self._x = _Side(xs, task.width, task.height, task.widest)
        self._y = _Side(ys, task.height, task.width, task.tallest)
        #: Whether turning the sheet, with all on it, changes nothing: then both rows are one.
        self._even = (
            task.width == task.height
            and task.widest == task.tallest
            and all({(h, w) for w, h in p} == set(p) for p in poses)
        )
        self._load = 1 + (len(xs) + len(ys)) // 400
        self._strides: list[int] = []
        stride = 1
        for bundle in bundles:
            self._strides.append(stride)
            stride *= bundle.count + 1
        self.goal = stride - 1
        #: Numbers of pieces of one kind that have a row, and the row of so many pieces of a kind.
        self._menus = {
            kind: self._menu(kind) for kind in {b.kind for b in self.bundles if b.size > 1}
        }
        self._row: dict[tuple[int, int], Key] = {}
        for kind, menu in self._menus.items():
            for number in menu:
                self._row[kind, number] = stride + len(self._row)
        self._alike = {row: which for which, row in self._row.items()}
        rows = stride + len(self._row)
        numbers = np.int16 if max(task.width, task.height) < 1 << 14 else np.int32
        self._heights = np.full((rows, len(xs)), self._x.none, numbers)
        self._widths = (
            self._heights if self._even else np.full((rows, len(ys)), self._y.none, numbers)
        )
        self._held = np.zeros(rows, bool)
        self._names: dict[int, Key] = {}
        self._parts: dict[Key, list[tuple[Key, Key]]] = {}
        self._by_width: dict[int, list[int]] = {}
        self._by_height: dict[int, list[int]] = {}
        self._of_one_kind()
        self._lattice()

    # -- filling the table

    def _single(self, row: Key, kind: int) -> None:
        """Fills the row of a single piece."""
        for w, h in self.task.kinds[kind].poses:
            start = bisect_right(self._x.at, w - 1)
            np.minimum(self._heights[row, start:], h, out=self._heights[row, start:])
            if not self._even:
                start = bisect_right(self._y.at, h - 1)
                np.minimum(self._widths[row, start:], w, out=self._widths[row, start:])
        self._held[row] = True

    def _join(self, wholes: _Places, firsts: _Places, rests: _Places) -> None:
        """Fills the rows `wholes`, each from every way of parting it into `firsts` and `rests`.

        A row that can be parted in several ways stands so many times in a row.
        """
        self.spent += len(wholes) * self._load
        fitting = self._held[firsts] & self._held[rests]
        if not fitting.all():
            wholes, firsts, rests = wholes[fitting], firsts[fitting], rests[fitting]
        if not len(wholes):
            return
        new = np.flatnonzero(wholes[1:] != wholes[:-1]) + 1
        starts = [0, *new.tolist()]
        rows = wholes[starts]
        bounds = [*zip(starts, [*starts[1:], len(wholes)], strict=True)]
        stacked = self._least(self._heights, firsts, rests, bounds)
        stacked[:, self._x.reach :] = self._x.none
        if self._even:
            beside = stacked
        else:
            beside = self._least(self._widths, firsts, rests, bounds)
            beside[:, self._y.reach :] = self._y.none
        self._settle(rows, stacked, beside)

    @staticmethod
    def _least(
        table: _Numbers, firsts: _Places, rests: _Places, bounds: list[tuple[int, int]]
    ) -> _Numbers:
        joined = table.take(firsts, 0)
        joined += table.take(rests, 0)
        if len(bounds) == len(firsts):
            return joined
        least = np.empty((len(bounds), table.shape[1]), table.dtype)
        for i, (start, end) in enumerate(bounds):
            np.minimum.reduce(joined[start:end], axis=0, out=least[i])
        return least

    def _settle(self, rows: _Places, stacked: _Numbers, beside: _Numbers) -> None:
        """Rows of heights and of widths that say the same, from those of the last joins.

        A join of one above another is cut from side to side, so only where the trimmer reaches;
        what is wider is first trimmed.
        """
        x, y = self._x, self._y
        heights = np.minimum(stacked, x.none)
        which, lanes = _corners(beside, y.none)
        at = x.lanes[beside[which, lanes]]
        heights[which, at] = np.minimum(heights[which, at], y.places[lanes])
        heights = np.minimum.accumulate(heights, axis=1)
        self._heights[rows] = heights
        self._held[rows] = heights[:, -1] < x.none
        if not self._even:
            which, lanes = _corners(heights, x.none)
            widths = np.full_like(beside, y.none)
            widths[which, y.lanes[heights[which, lanes]]] = x.places[lanes]
            self._widths[rows] = np.minimum.accumulate(widths, axis=1)

    def _menu(self, kind: int) -> list[int]:
        """Which numbers of pieces of one kind get a row."""
        task, count = self.task, self._counts[kind]
        numbers = set(range(1, min(count, _ONE_BY_ONE) + 1))
        if count > _ONE_BY_ONE:
            rows = {
                n for w, h in task.kinds[kind].poses for n in (task.width // w, task.height // h)
            }
            numbers |= {k for n in rows for k in range(n, count + 1, n)}
            numbers |= {
                b.size * n for b in self.bundles if b.kind == kind for n in range(1, b.count + 1)
            }
            for n in [n for n in numbers if n > _ONE_BY_ONE]:
                while n > _ONE_BY_ONE:
                    numbers |= {n // 2, n - n // 2}
                    n -= n // 2
            numbers.add(count)
        return sorted(numbers)

    def _of_one_kind(self) -> None:
        """Fills the rows of pieces of one kind."""
        joins: dict[int, list[tuple[Key, Key, Key]]] = {}
        for kind, menu in self._menus.items():
            self._single(self._row[kind, 1], kind)
            for number in menu[1:]:
                whole = self._row[kind, number]
                for first in menu:
                    if 2 * first > number:
                        break
                    rest = self._row.get((kind, number - first))
                    if rest is not None:
                        joins.setdefault(number, []).append((whole, self._row[kind, first], rest))
        for number in sorted(joins):
            wholes, firsts, rests = np.array(joins[number]).T
            self._join(wholes, firsts, rests)

    def _lattice(self) -> None:
        """Fills the rows of the lattice, level by level."""
        size = self.goal + 1
        areas: _Places = np.zeros(1, np.int64)
        levels: _Places = np.zeros(1, np.int64)
        wholes: _Places = np.zeros(1, np.int64)
        firsts: _Places = np.zeros(1, np.int64)
        for bundle, stride in zip(self.bundles, self._strides, strict=True):
            digits = np.arange(bundle.count + 1)[:, None]
            areas = (digits * (bundle.size * self.task.kinds[bundle.kind].area) + areas).ravel()
            levels = (digits + levels).ravel()
            whole, first = np.tril_indices(bundle.count + 1)
            wholes = (whole[:, None] * stride + wholes).ravel()
            firsts = (first[:, None] * stride + firsts).ravel()
        wanted = (areas <= self.task.area) & ~self._ready()
        kept = (firsts > 0) & (2 * firsts <= wholes) & wanted[wholes]
        wholes, firsts = wholes[kept], firsts[kept]
        order = np.sort((levels[wholes] * size + wholes) * size + firsts)
        self._firsts = order % size
        order //= size
        self._wholes = order % size
        order //= size
        ends = [*(np.flatnonzero(order[1:] != order[:-1]) + 1).tolist(), len(order)]
        start = 0
        for end in ends:
            wholes, firsts = self._wholes[start:end], self._firsts[start:end]
            self._join(wholes, firsts, wholes - firsts)
            start = end

    def _ready(self) -> NDArray[np.bool_]:
        """Fills the rows of the lattice that need no joins, and says which they are."""
        ready = np.zeros(self.goal + 1, bool)
        for bundle, stride in zip(self.bundles, self._strides, strict=True):
            if bundle.kind not in self._menus:
                self._single(stride, bundle.kind)
                ready[stride] = True
                continue
            for number in range(1, bundle.count + 1):
                place, row = number * stride, self._row[bundle.kind, number * bundle.size]
                self._names[place] = row
                self._heights[place] = self._heights[row]
                self._widths[place] = self._widths[row]
                self._held[place] = self._held[row]
                ready[place] = True
        return ready

    # -- reading it

    def handful(self, sets: Sequence[int]) -> int:
        """The place in the lattice of so many bundles of each."""
        return sum(n * stride for n, stride in zip(sets, self._strides, strict=True))

    def digits(self, whole: int) -> list[int]:
        """How many of each bundle the handful at a place of the lattice holds."""
        return [
            whole // stride % (bundle.count + 1)
            for bundle, stride in zip(self.bundles, self._strides, strict=True)
        ]

    def name(self, whole: int) -> Key:
        """The handful at a place of the lattice."""
        return self._names.get(whole, whole)

    def fits(self, whole: int) -> bool:
        """Whether the handful at a place of the lattice fits on the sheet."""
        return whole == 0 or bool(self._held[whole])

    def least_heights(self, width: int) -> Sequence[int]:
        """The least height of each handful in a region of that width, above any sheet's if none."""
        return self._column(self._by_width, self._heights, self._x, width)

    def least_widths(self, height: int) -> Sequence[int]:
        """The least width of each handful in a region of that height, above any sheet's if none."""
        return self._column(self._by_height, self._widths, self._y, height)

    @staticmethod
    def _column(
        known: dict[int, list[int]], table: _Numbers, side: _Side, length: int
    ) -> list[int]:
        lane = side.lane(length)
        column = known.get(lane)
        if column is None:
            column = [side.none] * len(table) if lane < 0 else table[:, lane].tolist()
            known[lane] = column
        return column

    @cached_property
    def _partings(self) -> dict[int, list[int]]:
        """The lesser part of every parting of every handful of the lattice that was made by joins."""
        found: dict[int, list[int]] = {}
        for whole, first in zip(self._wholes.tolist(), self._firsts.tolist(), strict=True):
            found.setdefault(whole, []).append(first)
        return found

    def partings(self, key: Key) -> list[tuple[Key, Key]]:
        """Every way of parting a handful in two that the table knows, each order of the two."""
        found = self._parts.get(key)
        if found is not None:
            return found
        held = self._held
        if key <= self.goal:
            half = self._partings.get(key, [])
            both = dict.fromkeys([*half, *(key - first for first in reversed(half))])
            found = [
                (self.name(first), self.name(key - first))
                for first in both
                if held[first] and held[key - first]
            ]
        else:
            kind, count = self._alike[key]
            found = []
            for number in self._menus[kind]:
                first, rest = self._row[kind, number], self._row.get((kind, count - number))
                if rest is not None and held[first] and held[rest]:
                    found.append((first, rest))
        self._parts[key] = found
        return found

    def piece(self, key: Key) -> int | None:
        """The kind, if the handful is a single piece."""
        if key > self.goal:
            kind, number = self._alike[key]
            return kind if number == 1 else None
        for bundle, stride in zip(self.bundles, self._strides, strict=True):
            if key == stride and bundle.size == 1:
                return bundle.kind
        return None

    def contents(self, key: Key) -> dict[int, int]:
        """How many pieces of each kind a handful holds."""
        if key > self.goal:
            kind, number = self._alike[key]
            return {kind: number}
        held: dict[int, int] = {}
        for bundle, stride in zip(self.bundles, self._strides, strict=True):
            number = key // stride % (bundle.count + 1)
            if number:
                held[bundle.kind] = held.get(bundle.kind, 0) + number * bundle.size
        return held


def _corners(table: _Numbers, none: int) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Where falling rows take on each of their numbers that are less than `none`."""
    falls = np.empty(table.shape, bool)
    falls[:, 0] = table[:, 0] < none
    np.less(table[:, 1:], table[:, :-1], out=falls[:, 1:])
    falls &= table < none
    rows, lanes = np.nonzero(falls)
    return rows, lanes
