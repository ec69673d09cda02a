"""Upper limits: how many sets a sheet can give at most, whatever the pattern."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from .fit import sums
from .grid import Task
from .worth import Pattern, Worth

#: Steps of the dual feasible functions that are tried along each side.
_STEPS = 12
#: Weights are whole numbers up to this; their sums stay within a lane of `Worth`.
_WEIGHT = 1 << 16
#: Weights are good enough when the limit is this close to what weights can reach.
_CLOSE = 0.002
_ROUNDS = 40


def by_area(task: Task) -> int:
    """The most sets that the sheet's area allows."""
    return task.area // task.set_area


def _scales(length: int, sides: Sequence[int]) -> Iterator[tuple[Callable[[int], int], int]]:
    """Dual feasible functions of whole lengths, each with the value that stands for one.

    Lengths that add up to no more than `length` have values that add up to no more than that
    one. They are u(k) and the rounding for small lengths of Fekete and Schepers 2001,
    Mathematical Programming 91:11-31.
    """
    yield (lambda x: x), length
    for k in range(1, _STEPS + 1):

        def stepped(x: int, k: int = k) -> int:
            whole, left = divmod((k + 1) * x, length)
            return k * x if left == 0 else whole * length

        yield stepped, k * length
    for small in sorted({side for side in sides if 2 * side <= length}):

        def rounded(x: int, small: int = small) -> int:
            return length if x > length - small else x if x >= small else 0

        yield rounded, length


def by_scales(task: Task) -> tuple[int, int]:
    """The most sets one sheet allows, and the fewest sheets one set needs, from areas on scales.

    Stretching both sides of every piece and of the sheet by dual feasible functions turns the
    bound by area into others, some of them sharper (Fekete and Schepers 2004, Mathematical
    Methods of Operations Research 60:311-329). A piece that may turn counts with the lesser area.
    """
    counts = [task.width * task.height // kind.area + 1 for kind in task.kinds]
    poses = [pose for kind in task.kinds for pose in kind.poses]
    width = sums([[w for w, _ in k.poses] for k in task.kinds], counts, task.width)[-1]
    height = sums([[h for _, h in k.poses] for k in task.kinds], counts, task.height)[-1]
    index = {pose: i for i, pose in enumerate(poses)}
    across = [([f(w) for w, _ in poses], one) for f, one in _scales(width, [w for w, _ in poses])]
    upward = [([f(h) for _, h in poses], one) for f, one in _scales(height, [h for _, h in poses])]
    chosen = [([index[pose] for pose in kind.poses], kind.copies) for kind in task.kinds]
    sets, sheets = task.area // task.set_area, -(-task.set_area // task.area)
    for wide, one in across:
        for tall, other in upward:
            area = 0
            for places, copies in chosen:
                i = places[0]
                least = wide[i] * tall[i]
                for i in places[1:]:
                    least = min(least, wide[i] * tall[i])
                area += copies * least
            if area:
                sets = min(sets, one * other // area)
                sheets = max(sheets, -(-area // (one * other)))
    return sets, sheets


@dataclass(frozen=True, slots=True)
class Weighed:
    """What weights of the kinds say: at most `sets` sets, and the weights that say it.

    `best` is the most sets that one of the patterns seen on the way gives, and `pattern` that one.
    """

    sets: int
    weights: tuple[int, ...]
    best: int
    pattern: Pattern
    spent: int


def by_weights(task: Task, worth: Worth, enough: int, effort: int) -> Weighed:
    """The most sets that some weighing of the pieces allows, and the weights.

    Whatever whole weights the kinds are given, a sheet yields no more sets than the greatest
    worth of any pattern divided by the worth of one set. Weights are improved in turn by the
    patterns they bring up, as in Kelley's method of cutting planes; the limit itself is worked out
    in whole numbers and so holds whatever the rounding. Stops once the limit is `enough`, when it
    cannot come down, or when the effort is used up.
    """
    copies = [kind.copies for kind in task.kinds]
    patterns = [
        [max(task.width // w * (task.height // h) for w, h in kind.poses) if i == j else 0
         for i in range(len(copies))]
        for j, kind in enumerate(task.kinds)
    ]  # fmt: skip
    largest = max(kind.area for kind in task.kinds)
    weights = [max(1, kind.area * _WEIGHT // largest) for kind in task.kinds]
    best: tuple[float, int, tuple[int, ...]] | None = None
    most = spent = 0
    giving: Pattern = None
    for _ in range(_ROUNDS):
        value = worth.most(weights)
        spent += worth.spent
        need = sum(w * c for w, c in zip(weights, copies, strict=True))
        if best is None or value / need < best[0]:
            best = value / need, value // need, tuple(weights)
        pattern, got = worth.pattern()
        sets = min(g // c for g, c in zip(got, copies, strict=True))
        if sets > most:
            most, giving = sets, pattern
        if best[1] <= max(enough, most) or spent > effort:
            break
        patterns.append(got)
        shares = _even([[p[i] / copies[i] for p in patterns] for i in range(len(copies))])
        if best[0] - 1 / sum(shares) < _CLOSE:
            break
        per_piece = [share / c for share, c in zip(shares, copies, strict=True)]
        top = max(per_piece)
        weights = [round(share / top * _WEIGHT) for share in per_piece]
    assert best is not None
    return Weighed(best[1], best[2], most, giving, spent)


def _even(payoff: Sequence[Sequence[float]]) -> list[float]:
    """Shares of the rows that make the dearest column cost one at most, with the largest sum.

    The solution of the matrix game with that payoff (rows against columns), by the simplex method
    on a small tableau; the sum of the shares is one over the game's value.
    """
    rows, columns = len(payoff), len(payoff[0])
    table = [
        [payoff[i][p] for i in range(rows)]
        + [1.0 if q == p else 0.0 for q in range(columns)]
        + [1.0]
        for p in range(columns)
    ]
    basis = [rows + p for p in range(columns)]
    costs = [-1.0] * rows + [0.0] * (columns + 1)
    for _ in range(50 * (rows + columns)):
        entering = min(range(rows + columns), key=costs.__getitem__)
        if costs[entering] > -1e-9:
            break
        ratios = [
            (line[-1] / line[entering], p) for p, line in enumerate(table) if line[entering] > 1e-9
        ]
        if not ratios:
            break
        _, leaving = min(ratios)
        pivot = table[leaving][entering]
        table[leaving] = [value / pivot for value in table[leaving]]
        for line in [*table[:leaving], *table[leaving + 1 :], costs]:
            factor = line[entering]
            if factor:
                line[:] = [a - factor * b for a, b in zip(line, table[leaving], strict=True)]
        basis[leaving] = entering
    shares = [0.0] * rows
    for p, variable in enumerate(basis):
        if variable < rows:
            shares[variable] = max(0.0, table[p][-1])
    return shares
