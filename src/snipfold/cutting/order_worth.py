"""The greatest worth of pieces from one sheet, copies unlimited, in whole numbers."""

from __future__ import annotations

from abc import ABC, abstractmethod
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from .fit import sums
from .grid import Size
from .order_block import Block, piece, row
from .order_job import Stock
from .order_layout import Laid
from .plan import Axis

Numbers = NDArray[np.int64]
Places = NDArray[np.intp]
#: For a place on one side, the places of both parts that it can be cut into.
Pairs = tuple[Places, Places]
#: What a sheet is cut into: a block, or its cuts laid out; None for nothing.
Content = Block | Laid | None

#: Worths of sheets stay below this, so that sums of two fit into 64 bits.
MOST_WORTH = 1 << 61


class Table(ABC):
    """The greatest worth that edge-to-edge cuts get from every region of one stock's sheet.

    Gilmore and Gomory 1965, Operations Research 13:94-120. A region is a pair of places in `xs`
    and `ys`, the widths and heights that regions have, ascending; the last pair is the sheet.
    `across` and `upward` list for each place the pairs of places that it can be cut into.
    Regions from `wide` on are too wide to be cut from side to side, those from `tall` on too tall
    to be cut across.
    """

    def __init__(self, stock: Stock, xs: list[int], ys: list[int]) -> None:
        self.stock = stock
        self.xs, self.ys = xs, ys
        self.wide = bisect_right(xs, stock.widest)
        self.tall = bisect_right(ys, stock.tallest)
        self.across: list[Pairs] = []
        self.upward: list[Pairs] = []
        self._blocks: list[tuple[int, int]] = []
        self.table: Numbers = np.zeros((len(xs), len(ys)), dtype=np.int64)
        self.weights: Numbers = np.zeros(len(stock.poses), dtype=np.int64)

    @abstractmethod
    def _pieces(self) -> Numbers:
        """The worth of the best single piece of every region."""

    @abstractmethod
    def fitting(self, i: int, j: int) -> Iterable[int]:
        """The kinds of which a piece comes from a region."""

    @abstractmethod
    def piece(self, kind: int, i: int, j: int) -> Content:
        """One piece from a region."""

    @abstractmethod
    def joined(self, axis: Axis, place: int, at: int, first: Content, rest: Content) -> Content:
        """What comes from both parts of a region cut at a place of its side along the axis."""

    def trimmed(self, i: int, j: int) -> tuple[int, int] | None:
        """The region that one too large for some cut is first trimmed to, if there is one."""
        return None

    def most(self, weights: Numbers) -> int:
        """The greatest worth from the sheet for weights of the kinds that are no less than zero."""
        self.weights = weights
        table = self._pieces()
        tall = self.tall
        for start, end in self._blocks:
            for i in range(start, end):
                first, rest = self.across[i]
                line = table[i, :tall]
                if len(first):
                    best = (table[first, :tall] + table[rest, :tall]).max(axis=0)
                    np.maximum(line, best, out=line)
                if i >= self.wide and self.trimmed(i, 0):
                    np.maximum(line, table[i - 1, :tall], out=line)
            if start >= self.wide:
                continue
            lines = np.ascontiguousarray(table[start:end].T)
            for j, (first, rest) in enumerate(self.upward):
                if len(first):
                    np.maximum(lines[j], (lines[first] + lines[rest]).max(axis=0), out=lines[j])
                if j >= tall and self.trimmed(start, j):
                    np.maximum(lines[j], lines[j - 1], out=lines[j])
            table[start:end] = lines.T
        self.table = table
        return int(table[-1, -1])

    def content(self, turn: int = 0) -> Content:
        """What gives the greatest worth last found; another `turn` may give another of equals."""
        return self._content(len(self.xs) - 1, len(self.ys) - 1, turn)

    def _content(self, i: int, j: int, turn: int) -> Content:
        value = int(self.table[i, j])
        if not value:
            return None
        for kind in self.fitting(i, j):
            if self.weights[kind] == value:
                return self.piece(kind, i, j)
        for axis in (Axis.UP, Axis.ACROSS) if turn % 2 else (Axis.ACROSS, Axis.UP):
            pair = self._parted(axis, i, j, value, turn // 2)
            if pair is None:
                continue
            first, rest = pair
            if axis is Axis.ACROSS:
                both = self._content(first, j, turn), self._content(rest, j, turn)
                return self.joined(axis, i, first, *both)
            both = self._content(i, first, turn), self._content(i, rest, turn)
            return self.joined(axis, j, first, *both)
        smaller = self.trimmed(i, j)
        if smaller is None:
            raise AssertionError("a worth that no cut explains")
        return self._content(*smaller, turn)

    def _parted(self, axis: Axis, i: int, j: int, value: int, turn: int) -> tuple[int, int] | None:
        """The places of two parts that are worth so much together."""
        if axis is Axis.ACROSS:
            if j >= self.tall:
                return None
            first, rest = self.across[i]
            even = np.flatnonzero(self.table[first, j] + self.table[rest, j] == value)
        else:
            if i >= self.wide:
                return None
            first, rest = self.upward[j]
            even = np.flatnonzero(self.table[i, first] + self.table[i, rest] == value)
        if not len(even):
            return None
        n = even[-1 - turn % len(even)]
        return int(first[n]), int(rest[n])


class Worths(Table):
    """The greatest worths with cuts at any mark.

    Regions are told apart only by sides that can matter: where the trimmer makes every cut those
    are the reduced raster points (Terno, Lindemann and Scheithauer 1987, "Zuschnittprobleme und
    ihre praktische Loesung"; also in Cintra et al. 2008, European J. Operational Research
    191:61-85), otherwise all sums of sides.
    """

    def __init__(self, stock: Stock) -> None:
        sides = [pose for poses in stock.poses for pose in poses]
        super().__init__(
            stock,
            _places([w for w, _ in sides], stock.width, stock.free_cuts),
            _places([h for _, h in sides], stock.height, stock.free_cuts),
        )
        self._lying = [
            (kind, bisect_left(self.xs, w), bisect_left(self.ys, h))
            for kind, poses in enumerate(stock.poses)
            for w, h in poses
        ]
        kinds, lefts, lows = zip(*self._lying, strict=True)
        self._kinds = np.array(kinds, dtype=np.intp)
        self._at = np.array(lefts, dtype=np.intp), np.array(lows, dtype=np.intp)
        self.across = [_halves(self.xs, i) for i in range(len(self.xs))]
        self.upward = [_halves(self.ys, j) for j in range(len(self.ys))]
        self._blocks = _blocks(self.xs, self.wide)

    def _pieces(self) -> Numbers:
        table = np.zeros((len(self.xs), len(self.ys)), dtype=np.int64)
        np.maximum.at(table, self._at, self.weights[self._kinds])
        np.maximum.accumulate(table, axis=0, out=table)
        np.maximum.accumulate(table, axis=1, out=table)
        return table

    def fitting(self, i: int, j: int) -> Iterable[int]:
        """The kinds of part that fit this place."""
        return dict.fromkeys(kind for kind, left, low in self._lying if left <= i and low <= j)

    def piece(self, kind: int, i: int, j: int) -> Content:
        """One part of this kind, laid at this place."""
        return piece(kind, next(
            (w, h) for w, h in self.stock.poses[kind] if w <= self.xs[i] and h <= self.ys[j]
        ))  # fmt: skip

    def joined(self, axis: Axis, place: int, at: int, first: Content, rest: Content) -> Content:
        """Two contents joined across or up."""
        return row(axis, [part for part in (first, rest) if isinstance(part, Block)])

    def trimmed(self, i: int, j: int) -> tuple[int, int] | None:
        """The next smaller place that holds as much, if there is one."""
        if i and i >= self.wide and j < self.tall:
            return i - 1, j
        if j and j >= self.tall and i < self.wide:
            return i, j - 1
        return None


def _places(sides: Sequence[int], length: int, free: bool) -> list[int]:
    """The sides that can matter, ascending."""
    found = sums([sides], [length], length)
    if not free:
        return found
    whole = [0, *found]
    reduced = {whole[bisect_right(whole, length - place) - 1] for place in whole}
    return sorted(reduced - {0})


def _halves(at: Sequence[int], place: int) -> Pairs:
    """Pairs of places that one can be cut into, the lesser first; for each second the best first."""
    best: dict[int, int] = {}
    for first in range(place):
        if 2 * at[first] > at[place]:
            break
        best[bisect_right(at, at[place] - at[first]) - 1] = first
    return np.array(list(best.values()), dtype=np.intp), np.array(list(best), dtype=np.intp)


def _blocks(at: Sequence[int], wide: int) -> list[tuple[int, int]]:
    """Runs of places that are never cut into one another, none across `wide`."""
    blocks = []
    start = 0
    for place in range(1, len(at) + 1):
        if place in (len(at), wide) or at[place] - at[start] >= at[0]:
            blocks.append((start, place))
            start = place
    return blocks


class Set(Table):
    """The greatest worths when the trimmer is set to some `settings` alone.

    Every region has just the size that the settings leave it, and a piece must fill its region.
    Place 0 on either side stands for sizes that hold no piece.
    """

    def __init__(self, stock: Stock, settings: Iterable[int]) -> None:
        marks = sorted(set(settings))
        poses = [pose for ways in stock.poses for pose in ways]
        super().__init__(
            stock,
            _sizes(stock.width, marks, min(w for w, _ in poses)),
            _sizes(stock.height, marks, min(h for _, h in poses)),
        )
        self.across = [_parts(self.xs, i, marks) for i in range(len(self.xs))]
        self.upward = [_parts(self.ys, j, marks) for j in range(len(self.ys))]
        self._blocks = _runs(self.xs, marks, self.wide)
        where = [{size: place for place, size in enumerate(at)} for at in (self.xs, self.ys)]
        self._filling: dict[Size, list[int]] = {}
        for kind, ways in enumerate(stock.poses):
            for w, h in ways:
                if w in where[0] and h in where[1]:
                    self._filling.setdefault((where[0][w], where[1][h]), []).append(kind)

    def _pieces(self) -> Numbers:
        table = np.zeros((len(self.xs), len(self.ys)), dtype=np.int64)
        for place, kinds in self._filling.items():
            table[place] = max(self.weights[kind] for kind in kinds)
        return table

    def fitting(self, i: int, j: int) -> Iterable[int]:
        """The kinds of part that fit this place."""
        return self._filling.get((i, j), ())

    def piece(self, kind: int, i: int, j: int) -> Content:
        """One part of this kind, laid at this place."""
        return Laid(None, kind, ())

    def joined(self, axis: Axis, place: int, at: int, first: Content, rest: Content) -> Content:
        """Two contents joined across or up."""
        assert not isinstance(first, Block)
        assert not isinstance(rest, Block)
        sizes = self.xs if axis is Axis.ACROSS else self.ys
        if first is None and rest is None:
            return None
        if rest is None:
            return Laid(axis, -1, ((sizes[at], first),))
        if rest.axis is axis:
            return Laid(axis, -1, ((sizes[at], first), *rest.strips))
        return Laid(axis, -1, ((sizes[at], first), (sizes[place] - sizes[at], rest)))


def _sizes(length: int, marks: Sequence[int], least: int) -> list[int]:
    """Nothing, and the sizes no less than `least` that cuts at the marks make of a length."""
    found = {length}
    waiting = [length]
    for size in waiting:  # grows as it goes
        for mark in marks:
            for part in (mark, size - mark):
                if mark < size and part >= least and part not in found:
                    found.add(part)
                    waiting.append(part)
    return [0, *sorted(found)]


def _parts(at: Sequence[int], place: int, marks: Sequence[int]) -> Pairs:
    """Places of both parts for each mark that a size can be cut at."""
    where = {size: place for place, size in enumerate(at)}
    pairs = [
        (where.get(mark, 0), where.get(at[place] - mark, 0)) for mark in marks if mark < at[place]
    ]
    return (
        np.array([first for first, _ in pairs], dtype=np.intp),
        np.array([rest for _, rest in pairs], dtype=np.intp),
    )


def _runs(at: Sequence[int], marks: Sequence[int], wide: int) -> list[tuple[int, int]]:
    """Runs of places that are never cut into one another, none across `wide`."""
    blocks = []
    start = 0
    for place in range(1, len(at) + 1):
        if (
            place in (len(at), wide)
            or at[place - 1] in marks
            or (marks and at[place] - at[start] >= marks[0])
        ):
            blocks.append((start, place))
            start = place
    return blocks
