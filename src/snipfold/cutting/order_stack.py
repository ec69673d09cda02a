"""Cutting several sheets in one go."""

from __future__ import annotations

from dataclasses import dataclass

from .order_plan import OrderPlan


@dataclass(frozen=True, slots=True)
class Stack:
    """How the sheets of one use are piled: `layers` in each round, `last` in the last of `rounds`.

    `passes` counts the passes of the blade over all rounds; `alone` is how many there would be
    with one sheet at a time.
    """

    use: int
    layers: int
    rounds: int
    last: int
    passes: int
    alone: int


def stacked(plan: OrderPlan, most: int) -> tuple[Stack, ...]:
    """How to pile the sheets of each use of a plan on a trimmer that cuts up to `most` layers.

    The fewest rounds, as even as they can be with only the last one lower. How many layers a
    trimmer takes is for its maker to say, by the thickness of the paper.

    Raises `ValueError` for fewer than one layer.
    """
    if most < 1:
        raise ValueError(f"a trimmer cuts at least one layer, not {most}")
    stacks = []
    for number, use in enumerate(plan.uses):
        times = use.pattern.times
        rounds = -(-times // most)
        layers = -(-times // rounds)
        # With even layers the last rounds may not be needed at all.
        rounds = -(-times // layers)
        cuts = sum(len(step.pieces) for step in use.steps)
        stacks.append(
            Stack(
                number,
                layers,
                rounds,
                times - (rounds - 1) * layers,
                rounds * cuts,
                times * cuts,
            )
        )
    return tuple(stacks)
