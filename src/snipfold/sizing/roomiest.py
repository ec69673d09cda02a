"""From the sheet to sizes: the most room that a style gets out of one sheet."""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from math import inf

from ..cutting import Part
from ..measure import Length, System
from ..styles import Style
from ..workshop import Paper, Workshop
from .sizer import DIRECTIONS, Sized, SizeError, Sizer
from .yields import Yield, gives, parts_of, sheet_of, yield_of

#: Boxes of sizes that are opened before the search settles for the best found so far.
_MOST_OPENED = 20_000
#: Boxes with fewer sizes than this are not looked at for straightness: each size is built.
_FEW = 30
#: A straight line misses figures that are rounded to 1e-6 mm by no more than this, mm.
_ROUNDING_MM = 4e-6

_Marks = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Roomiest:
    """The size with the most room: the volume of its clear inside in mm3, exact.

    `got` is what the sheet gives of it. `proven` says that no size on the marks has more room,
    given that room and blanks grow with the measures that make room.
    """

    size: Sized
    room_mm3: Fraction
    got: Yield
    proven: bool


def roomiest(
    style: Style,
    paper: Paper,
    workshop: Workshop,
    system: System,
    *,
    sets: int = 1,
    said: Mapping[str, Length] | None = None,
    pieces: Sequence[str] = (),
) -> Roomiest | None:
    """The size of a style with the most room of which one sheet gives `sets`; None if none does.

    Room is the clear inside, width x depth x height. The measures that make room are searched over
    the maker's marks, all at once; `said` holds others fixed, and `pieces` names those that come
    from this sheet, where not all do. Sizes are searched in boxes, each with the room of its
    largest corner as a limit: the most promising is opened next, until its limit is no more than
    what was found (branch and bound, Land and Doig 1960, Econometrica 28:497-520), so the answer is
    exact and not merely near.

    Raises `SizeError` for a style that is open or flat, and `ValueError` for no sets.
    """
    if sets < 1:
        raise ValueError(f"a sheet is asked for at least one set, not {sets}")
    return _Search(style, paper, workshop, system, sets, said or {}, pieces).search()


@dataclass(frozen=True, slots=True)
class _Straight:
    """Blanks and room over a box of sizes in which both grow in straight lines.

    `sides` are those of the blanks at the low corner, mm, `grow` what each side gains for a mark
    of each measure; `clear` and `gain` the same for the clear inside, as floats.
    """

    low: _Marks
    sides: tuple[Fraction, ...]
    grow: tuple[tuple[Fraction, ...], ...]
    clear: tuple[float, ...]
    gain: tuple[tuple[float, ...], ...]

    def sides_at(self, marks: _Marks) -> tuple[Fraction, ...]:
        """The blanks' sides at a size, exactly."""
        steps = [at - first for at, first in zip(marks, self.low, strict=True)]
        return tuple(
            side + sum((g * step for g, step in zip(grow, steps, strict=True) if step), Fraction(0))
            for side, grow in zip(self.sides, self.grow, strict=True)
        )

    def clear_at(self, marks: _Marks) -> tuple[float, ...]:
        """The clear inside at a size, mm."""
        steps = [at - first for at, first in zip(marks, self.low, strict=True)]
        return tuple(
            clear + sum(g * step for g, step in zip(gain, steps, strict=True))
            for clear, gain in zip(self.clear, self.gain, strict=True)
        )


@dataclass(frozen=True, slots=True)
class _Box:
    """Sizes from `low` up to `high`, in marks of each measure; `line` where they are straight."""

    low: _Marks
    high: _Marks
    line: _Straight | None


class _Search:
    def __init__(
        self,
        style: Style,
        paper: Paper,
        workshop: Workshop,
        system: System,
        sets: int,
        said: Mapping[str, Length],
        pieces: Sequence[str],
    ) -> None:
        self.sizer = Sizer(style, paper, workshop, system)
        if len(self.sizer.bounded) < len(DIRECTIONS):
            raise SizeError("it holds no block of treats")
        self.paper, self.workshop, self.sets, self.pieces = paper, workshop, sets, pieces
        self.names = [driver.measure for driver in self.sizer.drivers if driver.measure not in said]
        self.said = dict(said)
        self.mark = self.sizer.marks.graduation
        self.sheet = sheet_of(paper)
        self._given: dict[tuple[Fraction, ...], bool] = {}
        self._best: _Marks | None = None
        self._room = -1.0

    def search(self) -> Roomiest | None:
        low, high = self._ends()
        waiting: list[tuple[float, _Marks, _Box]] = []
        self._keep(_Box(low, high, None), waiting)
        opened = 0
        while waiting and -waiting[0][0] > self._room and opened < _MOST_OPENED:
            opened += 1
            _, _, box = heapq.heappop(waiting)
            for half in _parted(box, *self._parting(box)):
                self._keep(half, waiting)
        if self._best is None:
            return None
        size = self._size(self._best)
        assert size is not None
        parts = parts_of(size.construction, self.paper, self.pieces)
        room = Fraction(1)
        for direction in DIRECTIONS:
            room *= size.clear[direction].as_mm
        return Roomiest(
            size,
            room,
            yield_of(parts, self.sheet, self.workshop.trimmer),
            not waiting or -waiting[0][0] <= self._room,
        )

    def _keep(self, box: _Box, waiting: list[tuple[float, _Marks, _Box]]) -> None:
        """Look at a box: note the best size seen in it, and keep it where there may be better."""
        if any(first > last for first, last in zip(box.low, box.high, strict=True)):
            return
        if not self._fits(box.low, box.line):
            return
        if box.line is None and _count(box) >= _FEW:
            box = _Box(box.low, box.high, self._straight(box))
        high = tuple(
            self._furthest(box, box.low, axis) for axis in range(len(box.low))
        )  # fmt: skip
        box = _Box(box.low, high, box.line)
        if self._limit(box) <= self._room:
            return
        for corner in self._grown(box):
            room = self._room_at(corner, box.line)
            if room > self._room:
                self._best, self._room = corner, room
        if self._limit(box) > self._room and high != box.low:
            heapq.heappush(waiting, (-self._limit(box), box.low, box))

    def _ends(self) -> tuple[_Marks, _Marks]:
        """The least and the most marks of each measure, by the style's limits and the sheet."""
        style, given, marks = self.sizer.style, self.sizer.given, self.sizer.marks
        # No blank's side is shorter than the measure that makes room along it, give or take a fold.
        longest = self.sheet.width + self.sheet.height
        low: dict[str, Length] = dict(self.said)
        high: dict[str, Length] = dict(self.said)
        for measure in style.measures:
            if measure.name in self.names:
                least = measure.least(style.complete(low, given), given)
                most = measure.most(style.complete(high, given), given)
                low[measure.name] = marks.above(least)
                high[measure.name] = marks.below(min(most, longest))
        return self._counted(low), self._counted(high)

    def _counted(self, lengths: Mapping[str, Length]) -> _Marks:
        return tuple(int(self.sizer.marks.marks(lengths[name])) for name in self.names)

    def _size(self, marks: _Marks) -> Sized | None:
        try:
            return self.sizer.build(self._said(marks))
        except SizeError:
            return None

    def _said(self, marks: _Marks) -> dict[str, Length]:
        lengths = zip(self.names, marks, strict=True)
        return {**self.said, **{name: self.mark * number for name, number in lengths}}

    def _sides(self, marks: _Marks) -> tuple[Fraction, ...] | None:
        """The blanks' sides at a size, mm; None for one that cannot be drawn."""
        try:
            _, construction = self.sizer.drawn(self._said(marks))
        except SizeError:
            return None
        parts = parts_of(construction, self.paper, self.pieces)
        return tuple(side.as_mm for part in parts for side in (part.width, part.height))

    def _straight(self, box: _Box) -> _Straight | None:
        """The straight lines of a box, where blanks and room lie on them at ends and middles.

        A size that grows by the lesser or the greater of two lengths lies on a straight line at
        both ends and in the middle only if it does so everywhere between them.
        """
        axes = range(len(box.low))
        middle = tuple((first + last) // 2 for first, last in zip(box.low, box.high, strict=True))
        stops = list(zip(box.low, middle, box.high, strict=True))
        first, sides = self._size(box.low), self._sides(box.low)
        if first is None or sides is None:
            return None
        clear = _clear(first)
        grow: list[list[Fraction]] = [[] for _ in sides]
        gain: list[list[float]] = [[] for _ in clear]
        for axis in axes:
            span = box.high[axis] - box.low[axis]
            far = _with(box.low, axis, box.high[axis])
            end, far_sides = self._size(far), self._sides(far)
            if end is None or far_sides is None:
                return None
            for into, then, now in zip(grow, far_sides, sides, strict=True):
                into.append((then - now) / span if span else Fraction(0))
            for rise, there, here in zip(gain, _clear(end), clear, strict=True):
                rise.append((there - here) / span if span else 0.0)
        line = _Straight(
            box.low, sides, tuple(map(tuple, grow)), clear, tuple(map(tuple, gain))
        )  # fmt: skip
        # Most that are not straight show it at the far corner.
        for marks in product(*(stop[::-1] for stop in stops)):
            if self._sides(marks) != line.sides_at(marks):
                return None
            size = self._size(marks)
            if size is None or any(
                abs(one - other) > _ROUNDING_MM
                for one, other in zip(_clear(size), line.clear_at(marks), strict=True)
            ):
                return None
        return line

    def _parting(self, box: _Box) -> tuple[int, int]:
        """Where to part a box: at a bend of the blanks' sides, otherwise half way along it.

        From the low corner along each measure in turn, the bend is where sides leave the line that
        they start on.
        """
        widest = max(range(len(box.low)), key=lambda axis: box.high[axis] - box.low[axis])
        half = widest, (box.low[widest] + box.high[widest]) // 2
        if box.line is not None or _count(box) < _FEW:
            return half
        here = self._sides(box.low)
        for axis, (first, last) in enumerate(zip(box.low, box.high, strict=True)):
            if last - first < 2 or here is None:
                continue
            next_to = self._sides(_with(box.low, axis, first + 1))
            if next_to is None:
                continue
            grow = [after - before for after, before in zip(next_to, here, strict=True)]

            def straight(
                at: int, axis: int = axis, first: int = first, grow: list[Fraction] = grow
            ) -> bool:
                sides = self._sides(_with(box.low, axis, at))
                return sides is not None and all(
                    now == start + g * (at - first)
                    for now, start, g in zip(sides, here, grow, strict=True)
                )

            if straight(last):
                continue
            while last - first > 1:
                middle = (first + last) // 2
                first, last = (middle, last) if straight(middle) else (first, middle)
            # A bend near the corner is one that runs on through the box; halves part it sooner.
            if 10 * (first - box.low[axis]) > box.high[axis] - box.low[axis]:
                return axis, first
        return half

    def _fits(self, marks: _Marks, line: _Straight | None) -> bool:
        sides = self._sides(marks) if line is None else line.sides_at(marks)
        if sides is None:
            return False
        known = self._given.get(sides)
        if known is None:
            parts = [
                Part(str(number), Length.mm(w), Length.mm(h), 1, not self.paper.directed)
                for number, (w, h) in enumerate(zip(sides[::2], sides[1::2], strict=True))
            ]
            known = gives(parts, self.sheet, self.workshop.trimmer, self.sets)
            self._given[sides] = known
        return known

    def _room_at(self, marks: _Marks, line: _Straight | None) -> float:
        """The room of a size, mm3; without limit for one that cannot be built."""
        if line is None:
            size = self._size(marks)
            if size is None:
                return inf
            clear = _clear(size)
        else:
            clear = line.clear_at(marks)
        room = 1.0
        for side in clear:
            room *= max(side, 0.0)
        return room

    def _limit(self, box: _Box) -> float:
        return self._room_at(box.high, box.line)

    def _grown(self, box: _Box) -> Iterator[_Marks]:
        """Sizes that fit: from the low corner, each measure in turn as large as it then goes."""
        wide = sorted(range(len(box.low)), key=lambda axis: box.low[axis] - box.high[axis])
        for order in (wide, wide[::-1]):
            at = box.low
            for axis in order:
                at = _with(at, axis, self._furthest(box, at, axis))
            yield at

    def _furthest(self, box: _Box, at: _Marks, axis: int) -> int:
        """The most marks of one measure, from `at` up to the box's, at which the size still fits."""
        first, last = at[axis], box.high[axis]
        if self._fits(_with(at, axis, last), box.line):
            return last
        while last - first > 1:
            middle = (first + last) // 2
            if self._fits(_with(at, axis, middle), box.line):
                first = middle
            else:
                last = middle
        return first


def _clear(size: Sized) -> tuple[float, ...]:
    return tuple(size.clear[direction].float_mm for direction in DIRECTIONS)


def _with(marks: _Marks, axis: int, value: int) -> _Marks:
    return (*marks[:axis], value, *marks[axis + 1 :])


def _count(box: _Box) -> int:
    count = 1
    for first, last in zip(box.low, box.high, strict=True):
        count *= last - first + 1
    return count


def _parted(box: _Box, axis: int, middle: int) -> tuple[_Box, _Box]:
    return (
        _Box(box.low, _with(box.high, axis, middle), box.line),
        _Box(_with(box.low, axis, middle + 1), box.high, box.line),
    )
