"""From the sheet to sizes: every size at which the yield changes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from ..measure import Length, System
from ..styles import Style
from ..workshop import Paper, Workshop
from .sizer import SizeError, Sizer
from .yields import Yield, parts_of, sheet_of, yield_of


@dataclass(frozen=True, slots=True)
class YieldStep:
    """The largest size of one measure at which a sheet still gives so much.

    From there down to just above the step before (the next smaller one), the yield is `got`; a mark
    more, and it is that of the step after.
    """

    size: Length
    got: Yield


def yield_steps(
    style: Style,
    vary: str,
    paper: Paper,
    workshop: Workshop,
    system: System,
    *,
    said: Mapping[str, Length] | None = None,
    least: Length | None = None,
    most: Length | None = None,
    pieces: Sequence[str] = (),
) -> tuple[YieldStep, ...]:
    """Every size at which the yield changes when one measure varies, ascending, on the marks.

    `said` holds other measures fixed; those that are not said are as the style assumes them.
    `least` and `most` narrow the range, which is otherwise that of the style's limits; `pieces`
    names those that come from this sheet, where not all do. Sizes that cannot be built are passed
    over, and the last step is the largest at which a set comes from sheets at all. Empty where
    there is none. Raises `KeyError` for a measure that the style has not.

    As long as no blank gets smaller while the measure grows, the yield can only fall, and halving
    the range finds every step; where one does, every mark is tried.
    """
    style.measure(vary)
    return _Steps(Sizer(style, paper, workshop, system), vary, paper, workshop, said or {}, pieces)(
        least, most
    )


@dataclass(frozen=True, slots=True)
class _At:
    got: Yield
    sides: tuple[tuple[Length, Length], ...]


class _Steps:
    def __init__(
        self,
        sizer: Sizer,
        vary: str,
        paper: Paper,
        workshop: Workshop,
        said: Mapping[str, Length],
        pieces: Sequence[str],
    ) -> None:
        self.sizer, self.vary = sizer, vary
        self.paper, self.workshop, self.pieces = paper, workshop, pieces
        self.said = {name: length for name, length in said.items() if name != vary}
        self.mark = sizer.marks.graduation
        self._known: dict[int, _At | None] = {}

    def __call__(self, least: Length | None, most: Length | None) -> tuple[YieldStep, ...]:
        low, high = self._range(least, most)
        # Beyond the sheet's longer side nothing is cut; a measure that makes no blank larger is
        # tried no further than that.
        sheet = sheet_of(self.paper)
        high = min(high, self._marks(2 * (sheet.width + sheet.height)))
        while low <= high and self._at(low) is None:
            low += 1
        while high > low and self._at(high) is None:
            high -= 1
        if low > high:
            return ()
        marks = self._changes(low, high)
        if not self._only_grows():
            marks = list(range(low, high + 1))
        steps: list[YieldStep] = []
        for mark in marks:
            at = self._at(mark)
            if at is None:
                continue
            if steps and steps[-1].got == at.got:
                steps.pop()
            steps.append(YieldStep(self.mark * mark, at.got))
        return tuple(step for step in steps if step.got.sheets)

    def _marks(self, length: Length) -> int:
        return int(self.sizer.marks.marks(self.sizer.marks.below(length)))

    def _range(self, least: Length | None, most: Length | None) -> tuple[int, int]:
        measure, given = self.sizer.style.measure(self.vary), self.sizer.given
        measures = self.sizer.style.complete(self.said, given)
        low, high = measure.least(measures, given), measure.most(measures, given)
        if least is not None:
            low = max(low, least)
        if most is not None:
            high = min(high, most)
        return int(self.sizer.marks.marks(self.sizer.marks.above(low))), self._marks(high)

    def _at(self, mark: int) -> _At | None:
        if mark not in self._known:
            try:
                _, made = self.sizer.drawn({**self.said, self.vary: self.mark * mark})
            except SizeError:
                self._known[mark] = None
            else:
                parts = parts_of(made, self.paper, self.pieces)
                got = yield_of(parts, sheet_of(self.paper), self.workshop.trimmer)
                sides = tuple((part.width, part.height) for part in parts)
                self._known[mark] = _At(got, sides)
        return self._known[mark]

    def _changes(self, low: int, high: int) -> list[int]:
        """Marks with every one at which the yield is about to change, ascending."""
        waiting, found = [(low, high)], {low, high}
        while waiting:
            first, last = waiting.pop()
            one, other = self._at(first), self._at(last)
            if last - first < 2 or (one and other and one.got == other.got):
                continue
            middle = (first + last) // 2
            found.add(middle)
            waiting += [(first, middle), (middle, last)]
        return sorted(found)

    def _only_grows(self) -> bool:
        """Whether no side of a blank, wherever one was looked at, gets smaller along the range."""
        seen = [at.sides for _, at in sorted(self._known.items()) if at is not None]
        return all(
            before[0] <= after[0] and before[1] <= after[1]
            for smaller, larger in pairwise(seen)
            for before, after in zip(smaller, larger, strict=True)
        )
