"""Whether so many sets come from one sheet, when weights alone cannot say."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .grid import Task
from .plan import Axis
from .worth import Pattern, Worth, trimmed

#: How many joins or cuts looked at here take as long as one of the other steps of a plan.
_LIGHT = 4

#: Handfuls kept for each region, in one search after another; None for all of them.
_KEPT = (6, 24, None)

#: A region, by the places of its width and height in the table of worth.
_Place = tuple[int, int]
#: (axis, the places of both parts along it, loss): a cut of a region.
_Cut = tuple[Axis, int, int, int]
#: (loss, axis, place of the first part, what it gives, what the rest gives): how a region gives
#: a handful; without an axis the third is the kind of the one piece.
_How = tuple[int, Axis | None, int, int, int]


@dataclass(frozen=True, slots=True)
class Closed:
    """The answer: `possible` is None when the effort was used up; `pattern` gives the sets."""

    possible: bool | None
    pattern: Pattern
    spent: int


def close(task: Task, worth: Worth, weights: Sequence[int], sets: int, effort: int) -> Closed:
    """Whether `sets` sets come from one sheet by edge-to-edge cuts of any length.

    With whole weights of the kinds, the best pattern is worth no less than the sets are; the
    difference is all that a pattern with the sets can afford to lose, over all its cuts, to what
    each region could be worth at best. So only cuts and handfuls are followed up whose losses,
    with the least loss at which their region can come up at all, stay within it.

    First only the few handfuls of each region that lose least are kept, which often finds a
    pattern; then all.
    """
    most = worth.most(weights)
    wanted = [kind.copies * sets for kind in task.kinds]
    slack = most - sum(n * w for n, w in zip(wanted, weights, strict=True))
    if slack < 0:
        return Closed(False, None, worth.spent)
    limit = effort * _LIGHT
    regions = _regions(worth, slack, limit)
    if regions is None:
        return Closed(None, None, worth.spent + effort)
    rooms, cuts, steps = regions
    for keep in _KEPT:
        search = _Handfuls(task, worth, weights, wanted, rooms, cuts, keep)
        answer = search.run(limit - steps)
        steps += search.steps
        if answer is not None or steps >= limit:
            break
    pattern = search.pattern() if answer else None
    return Closed(answer, pattern, worth.spent + steps // _LIGHT)


class _Handfuls:
    """What each region can give, `keep` handfuls of each that lose least."""

    def __init__(
        self,
        task: Task,
        worth: Worth,
        weights: Sequence[int],
        wanted: Sequence[int],
        rooms: dict[_Place, int],
        cuts: dict[_Place, list[_Cut]],
        keep: int | None,
    ) -> None:
        self._task, self._worth, self._weights = task, worth, weights
        self._rooms, self._cuts, self._keep = rooms, cuts, keep
        bits = max(wanted).bit_length() + 1
        self._units = [1 << (bits * i) for i in range(len(wanted))]
        self._whole = sum(n * unit for n, unit in zip(wanted, self._units, strict=True))
        self._guard = sum(unit << (bits - 1) for unit in self._units)
        self._got: dict[_Place, dict[int, _How]] = {}
        self.steps = 0

    def run(self, limit: int) -> bool | None:
        """Whether the sheet gives what is wanted; None if that stays open."""
        left_out = False
        for place in sorted(self._rooms):
            held = self._pieces(place)
            for cut in self._cuts[place]:
                self._join(place, cut, held)
            if self.steps > limit:
                return None
            if self._keep is not None and len(held) > self._keep and place != max(self._rooms):
                left_out = True
                least = sorted(held.items(), key=lambda item: (item[1][0], item[0]))
                held = dict(least[: self._keep])
            self._got[place] = held
        if self._whole in held:
            return True
        return None if left_out else False

    def _pieces(self, place: _Place) -> dict[int, _How]:
        """Nothing, or one piece, of a region."""
        i, j = place
        room, value = self._rooms[place], self._worth.table[i][j]
        held: dict[int, _How] = {}
        if value <= room:
            held[0] = (value, None, -1, 0, 0)
        for k, kind in enumerate(self._task.kinds):
            loss = value - self._weights[k]
            if loss <= room and any(
                w <= self._worth.xs[i] and h <= self._worth.ys[j] for w, h in kind.poses
            ):
                held[self._units[k]] = (loss, None, k, 0, 0)
        return held

    def _join(self, place: _Place, cut: _Cut, held: dict[int, _How]) -> None:
        """Adds to `held` what both sides of one cut give together."""
        i, j = place
        axis, a, b, lost = cut
        one = self._got.get((a, j) if axis is Axis.ACROSS else (i, a))
        two = self._got.get((b, j) if axis is Axis.ACROSS else (i, b))
        self.steps += _LIGHT
        if not one or not two:
            return
        room, guard, full = self._rooms[place], self._guard, self._whole | self._guard
        steps = 0
        cheapest = sorted((how[0], pieces) for pieces, how in two.items())
        for pieces, how in one.items():
            left = room - lost - how[0]
            for loss, more in cheapest:
                if loss > left:
                    break
                steps += 1
                both = pieces + more
                if both not in held and (full - both) & guard == guard:
                    held[both] = (room - left + loss, axis, a, pieces, more)
        self.steps += steps

    def pattern(self) -> Pattern:
        """The pattern that gives what is wanted, once `run` has found that there is one."""
        return self._trace(self._whole, self._task.width, self._task.height)

    def _trace(self, pieces: int, width: int, height: int) -> Pattern:
        place = self._worth.place(width, height)
        if not pieces:
            return None
        _, axis, at, one, two = self._got[place][pieces]
        if axis is None:
            pose = next((w, h) for w, h in self._task.kinds[at].poses if w <= width and h <= height)
            return trimmed(at, pose, (width, height))
        if axis is Axis.ACROSS:
            at = self._worth.xs[at]
            return (
                axis,
                at,
                self._trace(one, at, height),
                self._trace(two, width - at, height),
            )
        at = self._worth.ys[at]
        return axis, at, self._trace(one, width, at), self._trace(two, width, height - at)


def _regions(
    worth: Worth, slack: int, limit: int
) -> tuple[dict[_Place, int], dict[_Place, list[_Cut]], int] | None:
    """What each region that can come up may lose, and the cuts of it that are worth a look."""
    table, xs, ys = worth.table, worth.xs, worth.ys
    rooms: list[dict[int, int]] = [{} for _ in xs]
    rooms[-1][len(ys) - 1] = slack
    cuts: dict[_Place, list[_Cut]] = {}
    steps = 0
    for i in range(len(xs) - 1, -1, -1):
        row = rooms[i]
        for j in range(len(ys) - 1, -1, -1):
            room = row.get(j)
            if room is None:
                continue
            value = table[i][j]
            kept: list[_Cut] = []
            for a, b in worth.halves[0][i]:
                lost = value - table[a][j] - table[b][j]
                if lost <= room:
                    kept.append((Axis.ACROSS, a, b, lost))
                    for part in (a, b):
                        if rooms[part].get(j, -1) < room - lost:
                            rooms[part][j] = room - lost
            for a, b in worth.halves[1][j]:
                lost = value - table[i][a] - table[i][b]
                if lost <= room:
                    kept.append((Axis.UP, a, b, lost))
                    for part in (a, b):
                        if row.get(part, -1) < room - lost:
                            row[part] = room - lost
            cuts[i, j] = kept
            steps += len(worth.halves[0][i]) + len(worth.halves[1][j])
            if steps > limit:
                return None
    return {(i, j): room for i, row in enumerate(rooms) for j, room in row.items()}, cuts, steps
