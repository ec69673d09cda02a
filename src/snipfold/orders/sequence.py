"""All cuts of one paper in a row, those at one setting together."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from ..cutting.order_plan import SheetUse
from ..cutting.plan import Axis, Region
from .order import CutSequence, SettingRun


def cut_sequence(uses: Sequence[SheetUse], layers: int) -> CutSequence:
    """The cuts of all sheets by settings of the trimmer, `layers` sheets on each other.

    The steps of each pattern stay in their order; between patterns, the setting that most of them
    wait for comes next. Where that would take more changes than cutting one pattern after the
    other, it is one after the other.
    """
    merged = _together(uses)
    in_turn = [(use, step) for use in range(len(uses)) for step in range(len(uses[use].steps))]
    order = min((merged, in_turn), key=lambda one: _changes(uses, one))
    piles = [-(-use.pattern.times // layers) for use in uses]
    runs: list[SettingRun] = []
    gathered: list[tuple[int, Region]] = []
    strokes = 0
    for place, (use, number) in enumerate(order):
        step = uses[use].steps[number]
        gathered += [(use, region) for region in step.pieces]
        strokes += len(step.pieces) * piles[use]
        following = order[place + 1] if place + 1 < len(order) else None
        if following is None or _key(uses, following) != (step.setting, step.axis):
            runs.append(SettingRun(step.setting, step.axis, tuple(gathered), strokes))
            gathered, strokes = [], 0
    single = sum(len(step.pieces) * use.pattern.times for use in uses for step in use.steps)
    return CutSequence(
        tuple(runs), _changes(uses, order), layers, sum(run.strokes for run in runs), single
    )


def _key(uses: Sequence[SheetUse], at: tuple[int, int]) -> tuple[object, Axis]:
    step = uses[at[0]].steps[at[1]]
    return step.setting, step.axis


def _changes(uses: Sequence[SheetUse], order: Sequence[tuple[int, int]]) -> int:
    settings = [uses[use].steps[step].setting for use, step in order]
    return sum(
        place == 0 or setting != settings[place - 1] for place, setting in enumerate(settings)
    )


def _together(uses: Sequence[SheetUse]) -> list[tuple[int, int]]:
    """The steps of all patterns, each pattern's in its order, equal settings together."""
    at = [0] * len(uses)
    order: list[tuple[int, int]] = []
    while waiting := [use for use in range(len(uses)) if at[use] < len(uses[use].steps)]:
        heads = Counter(uses[use].steps[at[use]].setting for use in waiting)
        setting = max(heads, key=lambda one: (heads[one], one))
        ready = []
        for use in waiting:
            steps = uses[use].steps
            while at[use] < len(steps) and steps[at[use]].setting == setting:
                ready.append((use, at[use]))
                at[use] += 1
        # Across first, then up, so that the table is turned once; a pattern's own steps keep
        # their order among themselves.
        order += _by_axis(uses, ready)
    return order


def _by_axis(uses: Sequence[SheetUse], ready: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    waiting = {use: [step for other, step in ready if other == use] for use, _ in ready}
    axis, made = uses[ready[0][0]].steps[ready[0][1]].axis, []
    while any(waiting.values()):
        for use, steps in waiting.items():
            while steps and uses[use].steps[steps[0]].axis is axis:
                made.append((use, steps.pop(0)))
        axis = Axis.UP if axis is Axis.ACROSS else Axis.ACROSS
    return made
