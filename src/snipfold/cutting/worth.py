"""The greatest worth of pieces from one sheet, copies unlimited."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from .fit import sums
from .grid import Size, Task
from .plan import Axis

#: A pattern: (axis, at, first, rest) for a cut, a kind for a piece, None for an offcut.
Pattern = tuple[Axis, int, "Pattern", "Pattern"] | int | None


class Worth:
    """The greatest worth of pieces that edge-to-edge cuts get from a sheet, copies unlimited.

    Gilmore and Gomory 1965, Operations Research 13:94-120, over the places of `_places`. Joins
    across and upwards take turns until neither gains anything.
    """

    def __init__(self, task: Task) -> None:
        self._task = task
        self.xs, self.ys = _places(task)
        self.halves = [_halves(self.xs), _halves(self.ys)]
        self._rests = [
            [np.array([b for _, b in pairs], np.intp) for pairs in half] for half in self.halves
        ]
        self._round = sum(len(p) for half in self.halves for p in half) // 2
        self.spent = 0
        self.table: list[list[int]] = []
        self._weights: list[int] = []

    @staticmethod
    def cost_of(task: Task) -> int:
        """About how many joins one round of joining takes."""
        xs, ys = _places(task)
        return (len(xs) ** 2 + len(ys) ** 2) // 8

    def most(self, weights: Sequence[int]) -> int:
        """The greatest worth from the sheet, for whole weights of the kinds, not less than zero."""
        task, xs, ys = self._task, self.xs, self.ys
        self._weights = list(weights)
        pieces = task.area // min(kind.area for kind in task.kinds)
        numbers = np.int32 if max(weights) * pieces < 1 << 31 else np.int64
        table: NDArray[np.signedinteger] = np.zeros((len(xs), len(ys)), numbers)
        for kind, weight in zip(task.kinds, weights, strict=True):
            for w, h in kind.poses:
                part = table[bisect_left(xs, w) :, bisect_left(ys, h) :]
                np.maximum(part, weight, out=part)
        self.spent = quiet = 0
        axis = 0
        while quiet < 2:
            before = table.copy()
            self._join(table, self._rests[axis])
            self.spent += self._round
            quiet = quiet + 1 if np.array_equal(table, before) else 0
            table = np.ascontiguousarray(table.T)
            axis = 1 - axis
        self.table = (table.T if axis else table).tolist()
        return self.table[-1][-1]

    @staticmethod
    def _join(rows: NDArray[np.signedinteger], rests: list[NDArray[np.intp]]) -> None:
        """Raises every row to the best sum of two rows that it can be cut into."""
        for row, rest in zip(rows, rests, strict=True):
            if len(rest):
                both = rows.take(rest, 0)
                both += rows[: len(rest)]
                np.maximum(row, both.max(axis=0), out=row)

    def pattern(self) -> tuple[Pattern, list[int]]:
        """A pattern of the greatest worth last found, and how many of each kind it gives."""
        got = [0] * len(self._weights)
        return self._trace(self._task.width, self._task.height, got), got

    def place(self, width: int, height: int) -> tuple[int, int]:
        """Where in the table a region is; -1 where it is smaller than every piece."""
        return bisect_right(self.xs, width) - 1, bisect_right(self.ys, height) - 1

    def _trace(self, width: int, height: int, got: list[int]) -> Pattern:
        i, j = self.place(width, height)
        if i < 0 or j < 0 or not self.table[i][j]:
            return None
        value = self.table[i][j]
        for k, (kind, weight) in enumerate(zip(self._task.kinds, self._weights, strict=True)):
            if weight == value:
                for w, h in kind.poses:
                    if w <= width and h <= height:
                        got[k] += 1
                        return trimmed(k, (w, h), (width, height))
        for a, b in self.halves[0][i]:
            if self.table[a][j] + self.table[b][j] == value:
                at = self.xs[a]
                return (
                    Axis.ACROSS,
                    at,
                    self._trace(at, height, got),
                    self._trace(width - at, height, got),
                )
        for a, b in self.halves[1][j]:
            if self.table[i][a] + self.table[i][b] == value:
                at = self.ys[a]
                return (
                    Axis.UP,
                    at,
                    self._trace(width, at, got),
                    self._trace(width, height - at, got),
                )
        raise AssertionError("a worth that no first cut explains")


def trimmed(kind: int, pose: Size, region: Size) -> Pattern:
    """The cuts that free a piece from the lower left corner of a region."""
    made: Pattern = kind
    if pose[1] < region[1]:
        made = (Axis.UP, pose[1], made, None)
    if pose[0] < region[0]:
        made = (Axis.ACROSS, pose[0], made, None)
    return made


def _places(task: Task) -> tuple[list[int], list[int]]:
    """Lengths across and upwards that matter: what of the sheet is cut off, and what is left.

    Of the sums of the pieces' sides, all up to half of the sheet, and beyond that only those that
    are left when one of the sums is cut off the sheet (the "raster points" of Terno, Lindemann
    and Scheithauer 1987, Zuschnittprobleme und ihre praktische Loesung): the shorter part of a
    cut is a sum itself, and the longer part, cut in turn, again leaves the sheet less a sum.
    """
    counts = [task.area // kind.area + 1 for kind in task.kinds]
    places = []
    for side, length in ((0, task.width), (1, task.height)):
        sides = [[pose[side] for pose in kind.poses] for kind in task.kinds]
        reached = sums(sides, counts, length)
        left = {
            reached[bisect_right(reached, length - place) - 1]
            for place in [0, *reached]
            if length - place >= reached[0]
        }
        places.append([p for p in reached if 2 * p <= length or p in left])
    return places[0], places[1]


def _halves(at: list[int]) -> list[list[tuple[int, int]]]:
    """For each place, the pairs of places that it can be cut into, the lesser first."""
    halves = []
    for i, place in enumerate(at):
        pairs = []
        for a in range(i):
            if 2 * at[a] > place:
                break
            pairs.append((a, bisect_right(at, place - at[a]) - 1))
        halves.append(pairs)
    return halves
