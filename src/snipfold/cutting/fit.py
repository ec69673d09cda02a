"""Does a handful of pieces fit: for every handful, the least height at each width.

Any pattern of edge-to-edge cuts is built from pieces by setting two blocks side by side or one
above the other. So the least height of a handful at width x is the least, over all ways of
parting the handful in two, of the two heights added (one above the other), or of what the widths
side by side allow. Heights over all useful widths form a row of numbers; a row is packed into one
whole number with a lane for each width, so that two rows are added, or the lesser of two taken
lane by lane, in a few operations on whole numbers.

Useful widths are the sums of piece widths: in any pattern, blocks can be pushed left and down
until every edge lies on such a sum (the "normal patterns" of Christofides and Whitlock 1977,
Operations Research 25:30-44).
"""

from __future__ import annotations

from array import array
from bisect import bisect_right
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import prod
from typing import Literal

from .grid import Task

#: A handful: a place in the lattice of bundles, or (kind, pieces) for part of a bundle.
Key = int | tuple[int, int]

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


class _Lanes:
    """Rows of numbers up to `most`, one number for each place of `at`, packed into one each."""

    def __init__(self, at: list[int], most: int) -> None:
        self.at = at
        self.code: Literal["H", "I"] = "H" if most < 1 << 13 else "I"
        self.bytes = array(self.code).itemsize
        self.shift = 8 * self.bytes - 1
        self.none = most + 1
        self.ones = self.pack([1] * len(at))
        self.guard = self.ones << self.shift
        lane = self.shift + 1
        self._onward = {
            place: (self.ones >> (i * lane)) << (i * lane) for i, place in enumerate(at)
        }
        #: The working form of a row of minima, all "none": guards set, one less in each lane.
        self.start = (self.pack([self.none] * len(at)) | self.guard) - self.ones

    def pack(self, row: list[int]) -> int:
        return int.from_bytes(array(self.code, row).tobytes(), "little")

    def unpack(self, row: int) -> list[int]:
        raw = row.to_bytes(len(self.at) * self.bytes, "little")
        return memoryview(raw).cast(self.code).tolist()

    def stairs(self, corners: Sequence[tuple[int, int]]) -> int:
        """The packed row that falls to each number from its place on; places ascending."""
        last = self.none
        row = self.none * self.ones
        for place, number in corners:
            row -= (last - number) * self._onward[place]
            last = number
        return row

    def opened(self, working: int) -> list[int]:
        return self.unpack((working + self.ones) ^ self.guard)

    def lane(self, place: int) -> int:
        """The lane of the widest place no wider than `place`, -1 if none is."""
        return bisect_right(self.at, place) - 1

    def read(self, row: int, lane: int) -> int:
        return (row >> (lane * (self.shift + 1))) & ((1 << self.shift) - 1)


def _steps(row: list[int]) -> list[tuple[int, int]]:
    """Where a falling row takes on each of its numbers, and the number."""
    place = 0
    found = []
    for number in dict.fromkeys(row):
        place = row.index(number, place)
        found.append((place, number))
    return found


class _Column(dict[Key, int]):
    """The numbers that the rows of all handfuls have in one lane, read as they are asked for."""

    def __init__(self, rows: Callable[[Key], int], lanes: _Lanes, lane: int) -> None:
        self._rows, self._lanes, self._lane = rows, lanes, lane

    def __missing__(self, key: Key) -> int:
        row = self._rows(key)
        found = self._lanes.read(row, self._lane) if row and self._lane >= 0 else self._lanes.none
        self[key] = found
        return found


class Fit:
    """The least heights and widths of every handful of the bundles that fits on the sheet.

    With `single` bundles the table is exact: a handful fits if and only if the table says so.
    With larger bundles, what it says fits does fit. `goal` is the handful of all the bundles,
    `spent` the joins made.
    """

    def __init__(self, task: Task, bundles: Sequence[Bundle]) -> None:
        self.task = task
        self.bundles = tuple(bundles)
        self.spent = 0
        counts = [0] * len(task.kinds)
        for bundle in bundles:
            counts[bundle.kind] += bundle.size * bundle.count
        poses = [kind.poses for kind in task.kinds]
        self._x = _Lanes(sums([[w for w, _ in p] for p in poses], counts, task.width), task.height)
        self._y = _Lanes(sums([[h for _, h in p] for p in poses], counts, task.height), task.width)
        self._load = 1 + (len(self._x.at) + len(self._y.at)) // 400
        self._widest = self._x.lane(task.widest) + 1
        self._tallest = self._y.lane(task.tallest) + 1
        self._strides: list[int] = []
        stride = 1
        for bundle in bundles:
            self._strides.append(stride)
            stride *= bundle.count + 1
        self.goal = stride - 1
        self._pure: dict[int, tuple[list[int], list[int], list[int]]] = {}
        for bundle in bundles:
            if bundle.size > 1 and bundle.kind not in self._pure:
                self._pure[bundle.kind] = self._one_kind(bundle.kind, counts[bundle.kind])
        self._names: dict[int, Key] = {}
        self._parts: dict[Key, list[tuple[Key, Key]]] = {}
        self._by_width: dict[int, _Column] = {}
        self._by_height: dict[int, _Column] = {}
        self._lattice()

    # -- filling the table

    def _pose_rows(self, kind: int) -> tuple[list[int], list[int]]:
        poses = self.task.kinds[kind].poses
        none_h, none_w = self._x.none, self._y.none
        return (
            [min((h for w, h in poses if w <= x), default=none_h) for x in self._x.at],
            [min((w for w, h in poses if h <= y), default=none_w) for y in self._y.at],
        )

    def _join(
        self, heights: list[int], widths: list[int], firsts: Sequence[int], whole: int
    ) -> tuple[int, int]:
        """The rows of `whole`, from all ways of parting it that `firsts` begin; 0, 0 if none."""
        x, y = self._x, self._y
        guard_x, ones_x, shift_x = x.guard, x.ones, x.shift
        guard_y, ones_y, shift_y = y.guard, y.ones, y.shift
        low, thin = x.start, y.start
        for first in firsts:
            one = heights[first]
            if not one:
                continue
            rest = whole - first
            two = heights[rest]
            if not two:
                continue
            # Lanes where the sum is less than the least so far keep their guard bit.
            joined = one + two
            less = (low - joined) & guard_x
            if less:
                low ^= (low ^ ((joined | guard_x) - ones_x)) & (less | (less - (less >> shift_x)))
            joined = widths[first] + widths[rest]
            less = (thin - joined) & guard_y
            if less:
                thin ^= (thin ^ ((joined | guard_y) - ones_y)) & (less | (less - (less >> shift_y)))
        self.spent += len(firsts) * self._load
        if low == x.start and thin == y.start:
            return 0, 0
        return self._settle(x.opened(low), y.opened(thin))

    def _settle(self, stacked: list[int], beside: list[int]) -> tuple[int, int]:
        """One row of heights and one of widths that say the same, from those of the last joins.

        A join of one above another is cut from side to side, so only where the trimmer reaches;
        what is wider is first trimmed.
        """
        corners = [(self._x.at[i], height) for i, height in _steps(stacked[: self._widest])]
        corners += [(width, self._y.at[j]) for j, width in _steps(beside[: self._tallest])]
        corners.sort()
        least = self._x.none
        kept = []
        for width, height in corners:
            if height < least and width < self._y.none:
                least = height
                kept.append((width, height))
        if not kept:
            return 0, 0
        return self._x.stairs(kept), self._y.stairs([(h, w) for w, h in reversed(kept)])

    def _one_kind(self, kind: int, count: int) -> tuple[list[int], list[int], list[int]]:
        """Rows for 0 to `count` pieces of one kind, and for which numbers there are any."""
        task = self.task
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
        heights, widths = [0] * (count + 1), [0] * (count + 1)
        low, thin = self._pose_rows(kind)
        heights[1], widths[1] = self._x.pack(low), self._y.pack(thin)
        menu = sorted(numbers)
        for n in menu[1:]:
            firsts = [a for a in menu if 2 * a <= n and n - a in numbers]
            heights[n], widths[n] = self._join(heights, widths, firsts, n)
        return heights, widths, menu

    def _lattice(self) -> None:
        bundles, strides = self.bundles, self._strides
        areas = [b.size * self.task.kinds[b.kind].area for b in bundles]
        heights, widths = [0] * (self.goal + 1), [0] * (self.goal + 1)
        below: list[list[int] | None] = [None] * (self.goal + 1)
        below[0] = [0]
        digits = [0] * len(bundles)
        self.heights, self.widths, self._below = heights, widths, below
        for whole in range(1, self.goal + 1):
            place = 0
            while digits[place] == bundles[place].count:
                digits[place] = 0
                place += 1
            digits[place] += 1
            top = len(digits) - 1
            while not digits[top]:
                top -= 1
            base = below[whole - digits[top] * strides[top]]
            if base is None:
                continue
            if sum(d * a for d, a in zip(digits, areas, strict=True)) > self.task.area:
                continue
            if any(
                d and whole != stride and not heights[whole - stride]
                for d, stride in zip(digits, strides, strict=True)
            ):
                continue
            firsts = [
                a + b
                for a in range(0, (digits[top] + 1) * strides[top], strides[top])
                for b in base
            ]
            bundle = bundles[top]
            if len(firsts) == digits[top] + 1 and bundle.kind in self._pure:
                self._names[whole] = (bundle.kind, digits[top] * bundle.size)
                ready = self._pure[bundle.kind]
                n = digits[top] * bundle.size
                heights[whole], widths[whole] = ready[0][n], ready[1][n]
            elif whole == strides[top]:
                low, thin = self._pose_rows(bundle.kind)
                heights[whole], widths[whole] = self._x.pack(low), self._y.pack(thin)
            else:
                heights[whole], widths[whole] = self._join(
                    heights, widths, firsts[1 : (len(firsts) + 1) // 2], whole
                )
            if heights[whole]:
                below[whole] = firsts

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
        return whole == 0 or bool(self.heights[whole])

    def _row_of_heights(self, key: Key) -> int:
        if isinstance(key, int):
            return self.heights[key]
        return self._pure[key[0]][0][key[1]]

    def _row_of_widths(self, key: Key) -> int:
        if isinstance(key, int):
            return self.widths[key]
        return self._pure[key[0]][1][key[1]]

    def least_heights(self, width: int) -> Mapping[Key, int]:
        """The least height of each handful in a region of that width, above any sheet's if none."""
        lane = self._x.lane(width)
        if lane not in self._by_width:
            self._by_width[lane] = _Column(self._row_of_heights, self._x, lane)
        return self._by_width[lane]

    def least_widths(self, height: int) -> Mapping[Key, int]:
        """The least width of each handful in a region of that height, above any sheet's if none."""
        lane = self._y.lane(height)
        if lane not in self._by_height:
            self._by_height[lane] = _Column(self._row_of_widths, self._y, lane)
        return self._by_height[lane]

    def partings(self, key: Key) -> list[tuple[Key, Key]]:
        """Every way of parting a handful in two that the table knows, each order of the two."""
        found = self._parts.get(key)
        if found is not None:
            return found
        if isinstance(key, int):
            below = self._below[key] or []
            found = [
                (self.name(first), self.name(key - first))
                for first in below[1:-1]
                if self.heights[first] and self.heights[key - first]
            ]
        else:
            kind, count = key
            heights, _, menu = self._pure[kind]
            found = [
                ((kind, n), (kind, count - n)) for n in menu if n < count and heights[count - n]
            ]
        self._parts[key] = found
        return found

    def piece(self, key: Key) -> int | None:
        """The kind, if the handful is a single piece."""
        if isinstance(key, int):
            for bundle, stride in zip(self.bundles, self._strides, strict=True):
                if key == stride and bundle.size == 1:
                    return bundle.kind
            return None
        return key[0] if key[1] == 1 else None

    def contents(self, key: Key) -> dict[int, int]:
        """How many pieces of each kind a handful holds."""
        if not isinstance(key, int):
            return {key[0]: key[1]}
        held: dict[int, int] = {}
        for bundle, stride in zip(self.bundles, self._strides, strict=True):
            number = key // stride % (bundle.count + 1)
            if number:
                held[bundle.kind] = held.get(bundle.kind, 0) + number * bundle.size
        return held
