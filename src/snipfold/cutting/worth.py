"""The greatest worth of pieces from one sheet, copies unlimited."""

from __future__ import annotations

from array import array
from bisect import bisect_right
from collections.abc import Sequence
from typing import Literal

from .fit import sums
from .grid import Size, Task
from .plan import Axis

_LANE: Literal["I"] = "I"
_BITS = 8 * array(_LANE).itemsize

#: A pattern: (axis, at, first, rest) for a cut, a kind for a piece, None for an offcut.
Pattern = tuple[Axis, int, "Pattern", "Pattern"] | int | None


class Worth:
    """The greatest worth of pieces that edge-to-edge cuts get from a sheet, copies unlimited.

    Gilmore and Gomory 1965, Operations Research 13:94-120, over normal patterns. The rows for all
    heights at one width are packed into one whole number and joined together; joins across and
    upwards take turns until neither gains anything.
    """

    def __init__(self, task: Task) -> None:
        self._task = task
        self.xs, self.ys = _places(task)
        self.halves = [_halves(self.xs), _halves(self.ys)]
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
        xs, ys = self.xs, self.ys
        self._weights = list(weights)
        columns = []
        for x in xs:
            row = [0] * len(ys)
            for kind, weight in zip(self._task.kinds, weights, strict=True):
                for w, h in kind.poses:
                    if w <= x:
                        start = bisect_right(ys, h - 1)
                        for j in range(start, len(ys)):
                            if row[j] < weight:
                                row[j] = weight
            columns.append(row)
        rows = columns
        across = True
        quiet = 0
        self.spent = 0
        while quiet < 2:
            packed = [int.from_bytes(array(_LANE, row).tobytes(), "little") for row in rows]
            changed = self._join(packed, self.halves[0 if across else 1], len(rows[0]))
            self.spent += self._round
            size = len(rows[0]) * _BITS // 8
            rows = [memoryview(row.to_bytes(size, "little")).cast(_LANE).tolist() for row in packed]
            quiet = 0 if changed else quiet + 1
            if quiet < 2:
                rows = [list(row) for row in zip(*rows, strict=True)]
                across = not across
        self.table = rows if across else [list(row) for row in zip(*rows, strict=True)]
        return self.table[-1][-1]

    @staticmethod
    def _join(rows: list[int], halves: list[list[tuple[int, int]]], lanes: int) -> bool:
        ones = int.from_bytes(array(_LANE, [1] * lanes).tobytes(), "little")
        shift = _BITS - 1
        guard = ones << shift
        changed = False
        for i, pairs in enumerate(halves):
            if not pairs:
                continue
            best = rows[i]
            for a, b in pairs:
                joined = (rows[a] + rows[b]) | guard
                more = (joined - best - ones) & guard
                if more:
                    best ^= (best ^ joined) & (more - (more >> shift))
                    changed = True
            rows[i] = best
        return changed

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
    counts = [task.area // kind.area + 1 for kind in task.kinds]
    return (
        sums([[w for w, _ in kind.poses] for kind in task.kinds], counts, task.width),
        sums([[h for _, h in kind.poses] for kind in task.kinds], counts, task.height),
    )


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
