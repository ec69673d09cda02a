"""`plan_make`: the sheets of one make, with the most complete sets from each, proven."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from ..findings import Finding, Severity
from ..workshop import Trimmer
from .arrange import arrange
from .close import close
from .cover import cover
from .fit import Bundle, Fit, bundled, joins, single
from .grid import Task, task_of
from .layout import Namer, pattern_of
from .limits import by_scales, by_weights
from .plan import CutPlan, Part, SheetPattern, SheetSize
from .shelves import shelves
from .steps import cut_steps
from .worth import Pattern, Worth

#: Work that a plan may take unless said otherwise; a step is about a microsecond.
EFFORT = 150_000
#: The part of it, one in so many, that goes into one set more from a sheet.
_SHARE = 3
#: First cuts looked at for a pleasant way to cut a sheet.
_ARRANGING = 300
#: Joins of a table that is made without trying anything cheaper first.
_AT_ONCE = 6_000
#: Joins of the tables of bundles that are tried, one after another; 0 stands for strips.
_BUNDLED = (1_500, 8_000, 0, 25_000)
#: Tables up to here are made to see what fits rather than limits worked out.
_OUTRIGHT = 40_000
#: Pieces that one sheet is planned for at most, and pieces in one row.
_MOST_PIECES = 1_200
_MOST_IN_ROW = 200


@dataclass(frozen=True, slots=True)
class _Sets:
    """So many sets from one sheet, by a table's handful or a pattern, and the limit."""

    sets: int
    bound: int
    fit: Fit | None = None
    handful: int = 0
    pattern: Pattern = None


def plan_make(
    parts: Sequence[Part],
    sheet: SheetSize,
    trimmer: Trimmer,
    *,
    most_sets: int | None = None,
    effort: int = EFFORT,
) -> CutPlan:
    """The cutting plan with the most complete sets of `parts` from one sheet, or the fewest sheets.

    All cuts go from edge to edge. Lengths are planned on the trimmer's marks: parts at the nearest
    mark (a finding says where that moves them), the sheet at the mark below. When not one set
    comes from a sheet, the plan makes one set from the fewest sheets. When some part cannot come
    from the sheet at all, the plan has no patterns and the findings say by how much it misses.

    `most_sets` is the most sets that are of any use. `effort` limits the work, in steps of about
    a microsecond on an ordinary computer; it is counted, so that the plan does not depend on the
    computer's speed. Past it the plan is the best found, and `bound` and `proven` say how good it
    is. Among plans with equally many sets, one with few settings of the trimmer is given, then
    with few cuts, then with a large offcut.

    Raises `ValueError` for no parts, sizes or copies that are not more than zero, sizes beyond all
    sense, and two different parts of one name.
    """
    if most_sets is not None and most_sets < 1:
        raise ValueError(f"most_sets is at least 1, not {most_sets}")
    task, findings, all_fit = task_of(parts, sheet, trimmer)
    if not all_fit:
        return CutPlan(sheet, tuple(parts), 0, 0, 0, True, (), (), findings)
    wanted = _worth_planning(task, most_sets)
    found = _most_sets(task, wanted, effort)
    if found.sets:
        bound = found.bound if most_sets is None else min(found.bound, most_sets)
        if bound > wanted:
            findings += (_too_many(sheet, wanted, bound),)
        return _plan(sheet, parts, task, findings, found.sets, [_pattern(task, found)], 1, bound)
    sheets = cover(task, 2 * effort, _ARRANGING)
    if len(sheets.patterns) == 1:
        return _plan(sheet, parts, task, findings, 1, sheets.patterns, 1, found.bound)
    return _plan(
        sheet, parts, task, findings, 0, sheets.patterns, len(sheets.patterns), sheets.bound
    )


def _plan(
    sheet: SheetSize,
    parts: Sequence[Part],
    task: Task,
    findings: tuple[Finding, ...],
    sets: int,
    patterns: Sequence[Pattern],
    sheets: int,
    bound: int,
) -> CutPlan:
    namer = Namer(task, max(1, sets))
    times = Counter(namer.tree(pattern) for pattern in patterns)
    return CutPlan(
        sheet,
        tuple(parts),
        sets,
        sheets,
        bound,
        sets == bound if sets else sheets == bound,
        tuple(SheetPattern(tree, number) for tree, number in times.items()),
        tuple(cut_steps(tree) for tree in times),
        findings,
    )


def _worth_planning(task: Task, most_sets: int | None) -> int:
    """The most sets that are worth planning: as asked, and what one can cut from one sheet."""
    shortest = min(side for kind in task.kinds for pose in kind.poses for side in pose)
    in_row = max(task.width, task.height) // shortest
    pieces = _MOST_PIECES if in_row <= _MOST_IN_ROW else _MOST_IN_ROW
    cap = max(1, pieces // sum(kind.copies for kind in task.kinds))
    return cap if most_sets is None else min(cap, most_sets)


def _too_many(sheet: SheetSize, sets: int, bound: int) -> Finding:
    return Finding(
        "cut.many",
        Severity.NOTE,
        (sheet.name,),
        f"the parts are so small that one sheet may give up to {bound} sets; the plan cuts {sets}",
        "cut larger pieces first, or ask for the number of sets that you need",
    )


def _pattern(task: Task, found: _Sets) -> Pattern:
    if found.fit is None:
        return found.pattern
    fit = found.fit
    return pattern_of(arrange(fit, fit.name(found.handful), task.width, task.height, _ARRANGING))


def _most_sets(task: Task, wanted: int, effort: int) -> _Sets:
    """The most sets, up to `wanted`, that one sheet gives, and the limit of what it can give."""
    copies = [kind.copies for kind in task.kinds]
    bound = by_scales(task)[0]
    top = min(bound, wanted)
    if not top:
        return _Sets(0, 0)
    load = 1 + min(task.width + task.height, 4_000) // 400
    whole = joins(single([top * copy for copy in copies])) * load
    if whole <= _AT_ONCE:
        return _exactly(task, top, bound)
    best = _found(task, top, bound, _BUNDLED)
    if best.sets == top:
        return best
    if whole <= min(effort, _OUTRIGHT):
        return _exactly(task, top, bound)
    for sets in _descending(top):
        best = _found(task, sets, bound, _BUNDLED[:3])
        if best.sets:
            break
    return _closed(task, best, top, bound, effort // _SHARE)


def _exactly(task: Task, top: int, bound: int) -> _Sets:
    """The most sets up to `top`, from a table of every handful."""
    fit = Fit(task, single([top * kind.copies for kind in task.kinds]))
    for sets in range(top, 0, -1):
        handful = fit.handful([sets * kind.copies for kind in task.kinds])
        if fit.fits(handful):
            return _Sets(sets, bound if sets == top else sets, fit, handful)
    return _Sets(0, 0)


def _found(task: Task, sets: int, bound: int, tables: Sequence[int]) -> _Sets:
    """So many sets, where strips, or equal pieces kept together, show that they fit; or none."""
    tried: tuple[Bundle, ...] | None = None
    for most in tables:
        if not most:
            pattern = shelves(task, sets)
            if pattern is not None:
                return _Sets(sets, bound, pattern=pattern)
            continue
        bundles = bundled([sets * kind.copies for kind in task.kinds], most)
        if bundles is not None and bundles != tried:
            tried = bundles
            fit = Fit(task, bundles)
            if fit.fits(fit.goal):
                return _Sets(sets, bound, fit, fit.goal)
    return _Sets(0, bound)


def _descending(top: int) -> Iterator[int]:
    """Fewer and fewer sets than `top`, in ever larger steps, down to one."""
    step, sets = 1, top
    while sets > 1:
        sets = max(1, sets - step)
        yield sets
        step += max(1, step // 2) if top - sets > 2 else 0


def _closed(task: Task, best: _Sets, top: int, bound: int, effort: int) -> _Sets:
    """The most sets, with `best` known to be possible and `top` not yet ruled out.

    Weights of the pieces bring the limit down; what is left is tried one set at a time.
    """
    left = effort
    worth = Worth(task) if Worth.cost_of(task) * 4 <= left else None
    weights: tuple[int, ...] = ()
    if worth is not None:
        weighed = by_weights(task, worth, best.sets, left * 2 // 3)
        weights = weighed.weights
        bound = min(bound, weighed.sets)
        left -= weighed.spent
        if task.free_cuts and weighed.best > best.sets:
            best = _Sets(min(weighed.best, top), bound, pattern=weighed.pattern)
    while best.sets < min(bound, top) and left > 0:
        sets = best.sets + 1
        counts = [sets * kind.copies for kind in task.kinds]
        if joins(single(counts)) <= left:
            fit = Fit(task, single(counts))
            left -= fit.spent
            if not fit.fits(fit.goal):
                bound = best.sets
                break
            best = _Sets(sets, bound, fit, fit.goal)
            continue
        if worth is None:
            break
        answer = close(task, worth, weights, sets, left // 3)
        left -= answer.spent
        if answer.possible is False:
            bound = best.sets
        if not answer.possible or not task.free_cuts:
            break
        best = _Sets(sets, bound, pattern=answer.pattern)
    return replace(best, bound=bound)
