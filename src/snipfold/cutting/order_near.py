"""All patterns that come near the best: those that a cheaper plan could still use."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from .order_worth import Content, Numbers, Table
from .plan import Axis

#: A handful of pieces, its numbers packed into one whole number with a lane for each kind.
_Pieces = int
#: (loss, axis, place of the first part, what it gives, what the rest gives): how a region gives
#: a handful. Without an axis the third is the kind of a lone piece; -1 for what fits in less.
_How = tuple[int, Axis | None, int, _Pieces, _Pieces]
_Place = tuple[int, int]

#: Handfuls of one region that are compared with each other, to leave out those that another
#: contains.
_COMPARED = 600


class Near:
    """Patterns of one stock whose worth falls short of the greatest by no more than `slack`.

    Only handfuls are told apart, not the ways to cut them; none holds more pieces of a kind than
    `demand`, and one that another contains may be left out. With `keep` only that many handfuls of
    each region are followed up, those that lose least. `complete` says that none were left out;
    `limit` bounds the work.

    A pattern gives up worth at every cut (the greatest worths of both parts may come to less than
    that of the region), and where a region is not used at its best. First the least loss at which
    each region can come up at all is worked out from the sheet downwards; then handfuls are joined
    from the smallest regions upwards as long as both losses together stay within the slack.
    """

    def __init__(
        self,
        table: Table,
        demand: Sequence[int],
        slack: int,
        keep: int | None,
        limit: int,
        over: Callable[[], bool] = lambda: False,
    ) -> None:
        self._table = table
        self._keep = keep
        self._weights = [int(weight) for weight in table.weights]
        self._poses = table.stock.poses
        # No more than the demand, and no more than a sheet has area for.
        self._most = [
            min(number, table.stock.area // min(w * h for w, h in poses)) if poses else 0
            for number, poses in zip(demand, self._poses, strict=True)
        ]
        self._bits = max(self._most).bit_length() + 1
        self._units = [1 << (self._bits * kind) for kind in range(len(self._most))]
        self._guard = sum(unit << (self._bits - 1) for unit in self._units)
        self._full = self._guard + sum(
            n * unit for n, unit in zip(self._most, self._units, strict=True)
        )
        self._lane = (1 << (self._bits - 1)) - 1
        self._got: dict[_Place, dict[_Pieces, _How]] = {}
        self.complete = keep is None
        self.steps = 0
        self._last = (len(table.xs) - 1, len(table.ys) - 1)
        rooms = _rooms(table, slack)
        places = [(int(i), int(j)) for i, j in zip(*np.nonzero(rooms >= 0), strict=True)]
        for number, place in enumerate(places):  # row by row, so parts before wholes
            if self.steps > limit or (number % 64 == 0 and over()):
                self.complete = False
                break
            self._got[place] = self._kept(self._held(place, int(rooms[place])), place)
        self._found = self._got.get(self._last, {})

    @property
    def handfuls(self) -> list[tuple[int, ...]]:
        """How many pieces of each kind each pattern gives, those that lose least first."""
        best = sorted(self._found.items(), key=lambda item: (item[1][0], item[0]))
        return [self._counts(pieces) for pieces, _ in best]

    def content(self, handful: Sequence[int]) -> Content:
        """What gives one of the handfuls."""
        return self._trace(
            sum(n * unit for n, unit in zip(handful, self._units, strict=True)), *self._last
        )

    def _counts(self, pieces: _Pieces) -> tuple[int, ...]:
        return tuple(pieces >> (self._bits * kind) & self._lane for kind in range(len(self._units)))

    def _held(self, place: _Place, room: int) -> dict[_Pieces, _How]:
        """The handfuls of one region, with the least loss of each."""
        worths = self._table
        (i, j), table = place, worths.table
        value = int(table[i, j])
        held: dict[_Pieces, _How] = {}
        for kind in worths.fitting(i, j):
            loss = value - self._weights[kind]
            if loss <= room and self._most[kind]:
                held[self._units[kind]] = (loss, None, kind, 0, 0)
        smaller = worths.trimmed(i, j)
        if smaller is not None:
            self._less(place, smaller, room, held)
        if j < worths.tall:
            first, rest = worths.across[i]
            lost = value - table[first, j] - table[rest, j]
            for n in np.flatnonzero(lost <= room).tolist():
                a = int(first[n])
                self._join(Axis.ACROSS, (a, j), (int(rest[n]), j), a, int(lost[n]), room, held)
        if i < worths.wide:
            first, rest = worths.upward[j]
            lost = value - table[i, first] - table[i, rest]
            for n in np.flatnonzero(lost <= room).tolist():
                a = int(first[n])
                self._join(Axis.UP, (i, a), (i, int(rest[n])), a, int(lost[n]), room, held)
        return held

    def _less(self, place: _Place, part: _Place, room: int, held: dict[_Pieces, _How]) -> None:
        """What the region gives when it is first trimmed to a smaller one."""
        lost = int(self._table.table[place] - self._table.table[part])
        for pieces, how in self._got.get(part, {}).items():
            if lost + how[0] <= room:
                held.setdefault(pieces, (lost + how[0], None, -1, pieces, 0))

    def _join(
        self,
        axis: Axis,
        first: _Place,
        rest: _Place,
        at: int,
        lost: int,
        room: int,
        held: dict[_Pieces, _How],
    ) -> None:
        self.steps += 4
        ones = self._got.get(first) or self._nothing(first)
        twos = self._got.get(rest) or self._nothing(rest)
        guard, full = self._guard, self._full
        steps = 0
        cheap = sorted((how[0], pieces) for pieces, how in twos.items())
        for one, how in ones.items():
            left = room - lost - how[0]
            for loss, two in cheap:
                if loss > left:
                    break
                steps += 1
                both = one + two
                if (full - both) & guard != guard:
                    both, extra = self._capped(one, two)
                    if extra > left - loss:
                        continue
                    total = room - left + loss + extra
                else:
                    total = room - left + loss
                if both and both not in held:
                    held[both] = (total, axis, at, one, two)
        self.steps += steps

    def _nothing(self, place: _Place) -> dict[_Pieces, _How]:
        return {0: (int(self._table.table[place]), None, -1, 0, 0)}

    def _capped(self, one: _Pieces, two: _Pieces) -> tuple[_Pieces, int]:
        """Both together, but no more than wanted, and the worth of what is too many."""
        both = extra = 0
        for kind, most in enumerate(self._most):
            shift = self._bits * kind
            number = (one >> shift & self._lane) + (two >> shift & self._lane)
            if number > most:
                extra += (number - most) * self._weights[kind]
                number = most
            both += number << shift
        return both, extra

    def _kept(self, held: dict[_Pieces, _How], place: _Place) -> dict[_Pieces, _How]:
        """The handfuls of a region that are worth following up."""
        order = sorted(held.items(), key=lambda item: (item[1][0], -item[0]))
        if len(order) > _COMPARED and self._keep is None and place != self._last:
            return dict(order)
        guard = self._guard
        kept: list[tuple[_Pieces, _How]] = []
        above: list[int] = []
        for item in order[: 4 * self._keep if self._keep and place != self._last else None]:
            self.steps += len(above) // 8
            pieces = item[0]
            if len(above) <= _COMPARED and any((more - pieces) & guard == guard for more in above):
                continue
            kept.append(item)
            above.append(pieces | guard)
            if self._keep and len(kept) == self._keep and place != self._last:
                break
        return dict(kept)

    def _trace(self, pieces: _Pieces, i: int, j: int) -> Content:
        if not pieces:
            return None
        _, axis, at, one, two = self._got[i, j][pieces]
        table = self._table
        if axis is None:
            smaller = table.trimmed(i, j)
            if at >= 0 or smaller is None:
                return table.piece(at, i, j)
            return self._trace(one, *smaller)
        firsts, rests = table.across[i] if axis is Axis.ACROSS else table.upward[j]
        rest = int(rests[np.flatnonzero(firsts == at)[0]])
        if axis is Axis.ACROSS:
            return table.joined(axis, i, at, self._trace(one, at, j), self._trace(two, rest, j))
        return table.joined(axis, j, at, self._trace(one, i, at), self._trace(two, i, rest))


def _rooms(worths: Table, slack: int) -> Numbers:
    """What each region that can come up may lose; -1 where it cannot come up."""
    table = worths.table
    rooms = np.full(table.shape, -1, dtype=np.int64)
    rooms[-1, -1] = slack
    for i in range(table.shape[0] - 1, -1, -1):
        for j in range(table.shape[1] - 1, -1, -1):
            room = rooms[i, j]
            if room < 0:
                continue
            if j < worths.tall:
                first, rest = worths.across[i]
                left = room - (table[i, j] - table[first, j] - table[rest, j])
                np.maximum.at(rooms[:, j], first, left)
                np.maximum.at(rooms[:, j], rest, left)
            if i < worths.wide:
                first, rest = worths.upward[j]
                left = room - (table[i, j] - table[i, first] - table[i, rest])
                np.maximum.at(rooms[i], first, left)
                np.maximum.at(rooms[i], rest, left)
            smaller = worths.trimmed(i, j)
            if smaller is not None:
                rooms[smaller] = max(rooms[smaller], room - table[i, j] + table[smaller])
    return np.maximum(rooms, -1)
