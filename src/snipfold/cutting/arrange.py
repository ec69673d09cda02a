"""Of all the ways to cut a handful of pieces from a sheet, one that is pleasant to cut."""

from __future__ import annotations

from typing import NamedTuple

from .fit import Fit, Key
from .plan import Axis


class Way(NamedTuple):
    """One way to cut a handful from a region: what it costs, and its first cut.

    `settings` has bit n set where the trimmer is set to n graduations; `offcut` is the area of
    the largest offcut. With `axis` None the region is a piece of `kind`. `rest` is None where what
    falls beyond the blade is an offcut.
    """

    settings: int
    cuts: int
    offcut: int
    axis: Axis | None = None
    at: int = 0
    kind: int = -1
    first: Way | None = None
    rest: Way | None = None

    @property
    def rank(self) -> tuple[int, int, int]:
        """Fewer settings, then fewer cuts, then the larger offcut: the lesser is the better."""
        return self.settings.bit_count(), self.cuts, -self.offcut


class _Move(NamedTuple):
    """A first cut, led by how good it looks.

    Best at a side of a piece (a setting that is needed anyway), then with few kinds in the first
    part, with little waste, far from the edge.
    """

    odd: bool
    kinds: int
    waste: int
    far: int
    number: int
    axis: Axis
    at: int
    first: Key
    rest: Key | None


class _SpentError(Exception):
    """The effort is used up."""


#: The searches, one after another as far as the effort goes: ways kept for each handful and
#: region, and first cuts followed up.
_SEARCHES = ((1, 2), (1, 4), (2, 6), (2, 12), (3, 40), (4, 1 << 30))


def arrange(fit: Fit, key: Key, width: int, height: int, effort: int) -> Way:
    """A way to cut the handful from a region that it fits: few settings, few cuts, large offcut.

    Exact when the effort (first cuts looked at) lasts for the last of the searches, but for the
    limit of ways that are kept; the best found otherwise, and always a way.
    """
    best: Way | None = None
    left = effort
    for keep, tries in _SEARCHES:
        search = _Search(fit, keep, tries, left if best else None)
        try:
            found = search.ways(key, width, height)[0]
        except _SpentError:
            break
        if best is None or found.rank < best.rank:
            best = found
        left -= search.spent
        if search.complete:
            break
    assert best is not None
    return best


class _Search:
    def __init__(self, fit: Fit, keep: int, tries: int, most: int | None) -> None:
        self._fit = fit
        self._task = fit.task
        self._keep = keep
        self._tries = tries
        self._most = most
        self._known: dict[tuple[Key, int, int], list[Way]] = {}
        self._about: dict[Key, tuple[int, int, int]] = {}
        self._sides = {side for kind in fit.task.kinds for pose in kind.poses for side in pose}
        self.spent = 0
        #: Whether no first cut was left out for want of tries.
        self.complete = True

    def ways(self, key: Key, width: int, height: int) -> list[Way]:
        """Ways to cut the handful from a region that it fits, best first; at least one."""
        known = self._known.get((key, width, height))
        if known is not None:
            return known
        if self._most is not None and self.spent > self._most:
            raise _SpentError
        kind = self._fit.piece(key)
        if kind is not None and (width, height) in self._task.kinds[kind].poses:
            found = [Way(0, 0, 0, None, 0, kind)]
            self._known[key, width, height] = found
            return found
        moves = self._moves(key, width, height)
        if len(moves) > self._tries:
            self.complete = False
        made: list[Way] = []
        best = (1 << 30, 0, 0)
        for move in moves[: self._tries]:
            at, across = move.at, move.axis is Axis.ACROSS
            mark = 1 << at
            if move.rest is None:
                left = (width - at) * height if across else width * (height - at)
                inner = self.ways(key, at, height) if across else self.ways(key, width, at)
                for one in inner:
                    way = Way(
                        one.settings | mark,
                        one.cuts + 1,
                        max(one.offcut, left),
                        move.axis,
                        at,
                        -1,
                        one,
                    )
                    made.append(way)
                    best = min(best, way.rank)
                continue
            ones = self.ways(move.first, at, height) if across else self.ways(move.first, width, at)
            # What is beyond the blade takes at least one cut fewer than it has pieces.
            more = self._pieces(move.rest)
            ones = [
                one
                for one in ones
                if ((one.settings | mark).bit_count(), one.cuts + more) <= best[:2]
            ]
            if not ones:
                continue
            twos = (
                self.ways(move.rest, width - at, height)
                if across
                else self.ways(move.rest, width, height - at)
            )
            for one in ones:
                for two in twos:
                    way = Way(
                        one.settings | two.settings | mark,
                        one.cuts + two.cuts + 1,
                        max(one.offcut, two.offcut),
                        move.axis,
                        at,
                        -1,
                        one,
                        two,
                    )
                    made.append(way)
                    best = min(best, way.rank)
        made.sort(key=lambda way: way.rank)
        kept: list[Way] = []
        for way in made:
            if not any(
                k.settings | way.settings == way.settings and k.cuts <= way.cuts for k in kept
            ):
                kept.append(way)
                if len(kept) == self._keep:
                    break
        self._known[key, width, height] = kept
        return kept

    def _pieces(self, key: Key) -> int:
        return self._of(key)[2]

    def _of(self, key: Key) -> tuple[int, int, int]:
        """The area of a handful, its kinds and its pieces."""
        known = self._about.get(key)
        if known is None:
            held = self._fit.contents(key)
            known = self._about[key] = (
                sum(n * self._task.kinds[kind].area for kind, n in held.items()),
                len(held),
                sum(held.values()),
            )
        return known

    def _moves(self, key: Key, width: int, height: int) -> list[_Move]:
        fit, task = self._fit, self._task
        moves: list[_Move] = []
        for axis, length, side, most, leasts in (
            (Axis.ACROSS, width, height, task.tallest, fit.least_widths),
            (Axis.UP, height, width, task.widest, fit.least_heights),
        ):
            if side > most:
                continue
            least = leasts(side)
            at = least[key]
            if at < length:
                moves.append(_Move(at not in self._sides, 1, 0, 0, len(moves), axis, at, key, None))
            for first, rest in fit.partings(key):
                at = least[first]
                if at + least[rest] <= length:
                    area, kinds, _ = self._of(first)
                    waste = (at * side - area) * 20 // (at * side)
                    moves.append(
                        _Move(
                            at not in self._sides,
                            kinds,
                            waste,
                            -at,
                            len(moves),
                            axis,
                            at,
                            first,
                            rest,
                        )
                    )
        self.spent += len(moves)
        moves.sort(key=lambda move: move[:5])
        return moves
