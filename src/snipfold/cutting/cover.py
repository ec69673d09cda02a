"""The fewest sheets for one set, where one sheet does not hold it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from operator import itemgetter

from .arrange import arrange
from .fit import Bundle, Fit, bundled, joins, single
from .grid import Task
from .layout import pattern_of
from .limits import by_scales
from .worth import Pattern

#: Covers by equally few sheets that are compared for how pleasant they are to cut.
_COMPARED = 6
#: Joins of a table of all the pieces that is made without trying anything cheaper first.
_AT_ONCE = 40_000
#: Joins of one table when the pieces are too many for an exact one.
_TABLE = 20_000


@dataclass(frozen=True, slots=True)
class Sheets:
    """One pattern a sheet, and the least number of sheets that is proven to be needed."""

    patterns: tuple[Pattern, ...]
    bound: int


def cover(task: Task, effort: int, arranging: int) -> Sheets:
    """The fewest sheets for one set of a task whose every piece comes from a sheet.

    Exact as long as the effort lasts for a table of all the pieces and the choice of handfuls;
    otherwise each sheet in turn takes the handful of largest area that is found, which may be the
    fewest all the same, and the bound is that by areas.
    """
    bundles = single([kind.copies for kind in task.kinds])
    bound = by_scales(task)[1]
    quick: tuple[Pattern, ...] | None = None
    if joins(bundles) > _AT_ONCE:
        quick = _in_turn(task, arranging)
        if len(quick) == bound:
            return Sheets(quick, bound)
    if joins(bundles) <= effort:
        fit = Fit(task, bundles)
        exact = _Covers(fit, effort - fit.spent)
        found = exact.fewest(bound)
        if found:
            _, patterns = min(
                (_arranged(fit, handfuls, arranging) for handfuls in found), key=itemgetter(0)
            )
            return Sheets(patterns, len(patterns))
        bound = exact.bound
    return Sheets(quick or _in_turn(task, arranging), bound)


def _arranged(
    fit: Fit, handfuls: Sequence[int], arranging: int
) -> tuple[tuple[int, int, int], tuple[Pattern, ...]]:
    """The rank of a cover as in `Way.rank`, and its patterns."""
    task = fit.task
    ways = [
        arrange(fit, fit.name(handful), task.width, task.height, arranging // len(handfuls))
        for handful in handfuls
    ]
    settings = 0
    for way in ways:
        settings |= way.settings
    rank = (settings.bit_count(), sum(way.cuts for way in ways), -max(way.offcut for way in ways))
    return rank, tuple(pattern_of(way) for way in ways)


class _Covers:
    """Ways to part all the pieces of an exact table into handfuls that each fit on a sheet."""

    def __init__(self, fit: Fit, effort: int) -> None:
        self._fit = fit
        self._left = effort
        task = fit.task
        areas = [bundle.size * task.kinds[bundle.kind].area for bundle in fit.bundles]
        bits = max(bundle.count for bundle in fit.bundles).bit_length() + 1
        self._guard = sum(1 << (bits * i + bits - 1) for i in range(len(areas)))
        #: Handfuls that fit, largest area first: (area, digits packed apart, place).
        self._handfuls: list[tuple[int, int, int]] = []
        self._packed: dict[int, int] = {}
        for whole in range(1, fit.goal + 1):
            digits = fit.digits(whole)
            packed = sum(digit << (bits * i) for i, digit in enumerate(digits))
            if fit.fits(whole):
                area = sum(d * a for d, a in zip(digits, areas, strict=True))
                self._handfuls.append((area, packed, whole))
            self._packed[whole] = packed
        self._handfuls.sort(key=lambda handful: (-handful[0], handful[2]))
        self._area = sum(b.count * a for b, a in zip(fit.bundles, areas, strict=True))
        self._field = (1 << bits) - 1
        # The piece that each cover places next: one of the largest that is left.
        self._order = sorted(range(len(areas)), key=lambda i: -areas[i])
        self._bits = bits
        self._hopeless: set[tuple[int, int]] = set()
        #: No fewer sheets than this will do.
        self.bound = 1

    def fewest(self, bound: int) -> list[tuple[int, ...]]:
        """Some covers by the fewest handfuls; none if the effort runs out before one is found."""
        self.bound = bound
        while True:
            found: list[tuple[int, ...]] = []
            try:
                self._search(self._fit.goal, self._area, self.bound, (), found)
            except _SpentError:
                return found
            if found:
                return found
            self.bound += 1

    def _search(
        self,
        whole: int,
        area: int,
        sheets: int,
        chosen: tuple[int, ...],
        found: list[tuple[int, ...]],
    ) -> None:
        if not whole:
            found.append(chosen)
            return
        if sheets == 1:
            if self._fit.fits(whole):
                found.append((*chosen, whole))
            return
        if (whole, sheets) in self._hopeless:
            return
        most = self._fit.task.area
        before = len(found)
        packed = self._packed[whole]
        full = packed | self._guard
        largest = (
            next(i for i in self._order if packed >> (i * self._bits) & self._field) * self._bits
        )
        for size, digits, place in self._handfuls:
            if area - size > (sheets - 1) * most or len(found) >= _COMPARED:
                break
            self._left -= 1
            if digits >> largest & self._field and (full - digits) & self._guard == self._guard:
                self._search(whole - place, area - size, sheets - 1, (*chosen, place), found)
        if self._left < 0:
            raise _SpentError
        if len(found) == before:
            self._hopeless.add((whole, sheets))


class _SpentError(Exception):
    """The effort is used up."""


def _in_turn(task: Task, arranging: int) -> tuple[Pattern, ...]:
    """Sheet after sheet with the largest area found from what is left."""
    left = [kind.copies for kind in task.kinds]
    patterns: list[Pattern] = []
    while any(left):
        best: tuple[int, Fit, int] | None = None
        for bundles in (bundled(left, _TABLE), _few(task, left)):
            if not bundles:
                continue
            fit = Fit(task, bundles)
            for whole in range(1, fit.goal + 1):
                if fit.fits(whole):
                    area = sum(
                        n * task.kinds[kind].area
                        for kind, n in fit.contents(fit.name(whole)).items()
                    )
                    if best is None or area > best[0]:
                        best = area, fit, whole
        assert best is not None
        _, fit, whole = best
        way = arrange(fit, fit.name(whole), task.width, task.height, arranging)
        patterns.append(pattern_of(way))
        for kind, n in fit.contents(fit.name(whole)).items():
            left[kind] -= n
    return tuple(patterns)


def _few(task: Task, left: Sequence[int]) -> tuple[Bundle, ...]:
    """As many single pieces of each kind as a table takes; of the largest kinds if of few."""
    most = max(left)
    while most:
        bundles = single([min(most, n) for n in left])
        if joins(bundles) <= _TABLE:
            return bundles
        most -= 1
    order = sorted(range(len(left)), key=lambda kind: -task.kinds[kind].area)
    chosen = [kind for kind in order if left[kind]][:9]
    return single([int(kind in chosen) for kind in range(len(left))])
