"""The order in which a person makes the cuts of one sheet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ..measure import Length
from .plan import Axis, Cut, CutStep, Got, Node

#: States of the work that are looked at for an order with fewer changes of setting.
_STATES = 2_000


@dataclass(frozen=True, slots=True)
class _Job:
    """One cut of the tree, its setting by number, its depth, and the cuts that it opens."""

    cut: Cut
    setting: int
    depth: int
    opens: tuple[int, ...]


def cut_steps(tree: Node) -> tuple[CutStep, ...]:
    """The cuts of one sheet in an order with the fewest changes of the trimmer's setting.

    Every cut comes after the one that frees its region. At one setting everything that is ready
    is cut before it changes, first along one axis, then, turned, along the other. Where several
    settings would do equally well, the strips come before what is cut from them, and then the
    axis stays the same where it can.

    The fewest changes are certain for all but the most tangled trees (more than 2000 states of
    the work to look at); those get a good order.
    """
    jobs = _jobs(tree)
    order = _fewest(jobs)
    steps: list[CutStep] = []
    for axis, numbers in _runs(jobs, order):
        cuts = [jobs[number].cut for number in numbers]
        steps.append(
            CutStep(
                cuts[0].at,
                axis,
                tuple(cut.region for cut in cuts),
                tuple(cut.first.part if isinstance(cut.first, Got) else "" for cut in cuts),
            )
        )
    return tuple(steps)


def _jobs(tree: Node) -> list[_Job]:
    """All cuts, each before those that it opens."""
    jobs: list[_Job] = []
    waiting: list[tuple[Cut, int]] = [(tree, 0)] if isinstance(tree, Cut) else []
    number = len(waiting)
    settings: dict[Length, int] = {}
    for cut, depth in waiting:  # grows as it goes
        inner = [node for node in (cut.first, cut.rest) if isinstance(node, Cut)]
        waiting += [(node, depth + 1) for node in inner]
        setting = settings.setdefault(cut.at, len(settings))
        jobs.append(_Job(cut, setting, depth, tuple(range(number, number + len(inner)))))
        number += len(inner)
    return jobs


def _run(
    jobs: Sequence[_Job], ready: Iterable[int], setting: int, axis: Axis | None
) -> tuple[list[tuple[Axis, list[int]]], frozenset[int]]:
    """All cuts that can be made at one setting, by axis, `axis` first; and what is ready then."""
    now = [number for number in sorted(ready) if jobs[number].setting == setting]
    later = {number for number in ready if jobs[number].setting != setting}
    parts: list[tuple[Axis, list[int]]] = []
    while now:
        if not any(jobs[number].cut.axis is axis for number in now):
            axis = jobs[now[0]].cut.axis
        assert axis is not None
        made: list[int] = []
        kept: list[int] = []
        for number in now:  # grows as it goes
            if jobs[number].cut.axis is not axis:
                kept.append(number)
                continue
            made.append(number)
            for opened in jobs[number].opens:
                if jobs[opened].setting == setting:
                    now.append(opened)
                else:
                    later.add(opened)
        parts.append((axis, made))
        now = kept
    return parts, frozenset(later)


def _runs(jobs: Sequence[_Job], order: Sequence[int]) -> Iterable[tuple[Axis, list[int]]]:
    ready = frozenset({0}) if jobs else frozenset()
    axis: Axis | None = None
    for setting in order:
        parts, ready = _run(jobs, ready, setting, axis)
        for axis, numbers in parts:
            yield axis, numbers


def _fewest(jobs: Sequence[_Job]) -> list[int]:
    """The settings, one after another, with the fewest changes."""
    if not jobs:
        return []
    settings = {job.setting for job in jobs}
    quick = _greedy(jobs)
    if len(quick) == len(settings):
        return quick
    # Breadth first over what is ready; a setting that can be finished for good is taken at once.
    seen = {frozenset({0})}
    level: list[tuple[frozenset[int], list[int]]] = [(frozenset({0}), [])]
    while level and len(level[0][1]) + 1 < len(quick):
        following: list[tuple[frozenset[int], list[int]]] = []
        for ready, order in level:
            for setting in _choices(jobs, ready):
                _, left = _run(jobs, ready, setting, None)
                longer = [*order, setting]
                if not left:
                    return longer
                if left not in seen:
                    seen.add(left)
                    following.append((left, longer))
                    if len(seen) > _STATES:
                        return quick
        level = following
    return quick


def _beneath(jobs: Sequence[_Job], ready: Iterable[int]) -> set[int]:
    """The settings of all the cuts that the ready ones open, near or far."""
    found: set[int] = set()
    waiting = list(ready)
    for number in waiting:  # grows as it goes
        found.add(jobs[number].setting)
        waiting += jobs[number].opens
    return found


def _choices(jobs: Sequence[_Job], ready: frozenset[int]) -> list[int]:
    """The settings worth a try: one that can be finished for good, if there is one, else all."""
    settings = dict.fromkeys(jobs[number].setting for number in sorted(ready))
    for setting in settings:
        _, left = _run(jobs, ready, setting, None)
        if setting not in _beneath(jobs, left):
            return [setting]
    return list(settings)


def _greedy(jobs: Sequence[_Job]) -> list[int]:
    """An order that takes settings that can be finished first, strips before their pieces."""
    ready = frozenset({0})
    order: list[int] = []
    axis: Axis | None = None
    while ready:
        best: tuple[tuple[bool, int, bool, int], int] | None = None
        for setting in dict.fromkeys(jobs[number].setting for number in sorted(ready)):
            at_it = [number for number in ready if jobs[number].setting == setting]
            _, left = _run(jobs, ready, setting, axis)
            rank = (
                setting in _beneath(jobs, left),
                min(jobs[number].depth for number in at_it),
                all(jobs[number].cut.axis is not axis for number in at_it),
                -len(at_it),
            )
            if best is None or rank < best[0]:
                best = rank, setting
        assert best is not None
        parts, ready = _run(jobs, ready, best[1], axis)
        axis = parts[-1][0]
        order.append(best[1])
    return order
