"""How long it takes: operations counted from the design and the plan, times the maker's own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from ..project import Design
from ..workshop import Pace
from .order import Operation, PaperPlan, StepTime, Work

_TIMED = {
    Operation.SETTING: "setting",
    Operation.CUT: "cut",
    Operation.PACK: "pack",
    Operation.SCORE: "score",
    Operation.TURN: "turn",
    Operation.SNIP: "snip",
    Operation.STRIP: "strip",
    Operation.MAT: "mat",
    Operation.STEP: "step",
}


def work(operation: Operation, count: int, pace: Pace) -> Work:
    """So many of an operation, with its minutes where the maker has timed it."""
    each: Fraction | None = getattr(pace, _TIMED[operation])
    return Work(operation, count, None if each is None else each * count)


def making_up(design: Design, pace: Pace) -> tuple[Work, ...]:
    """The work of making up one set from its parts; operations that it has none of left out."""
    pieces = design.construction.pieces
    counts = {
        Operation.SCORE: sum(
            sum(len(one.lines) for one in plan.passes) + len(plan.slanting)
            for plan in design.scoring
        ),
        Operation.TURN: sum(plan.turns + plan.flips for plan in design.scoring),
        Operation.SNIP: sum(len(piece.snips) for piece in pieces),
        Operation.STRIP: len(design.dressing.strips),
        Operation.MAT: len(design.dressing.mats),
        Operation.STEP: len(design.construction.steps),
    }
    return tuple(work(operation, count, pace) for operation, count in counts.items() if count)


def step_times(design: Design, pace: Pace) -> tuple[StepTime, ...]:
    """Minutes of every step of putting together, in order."""
    return tuple(StepTime(step.piece, step.title, pace.step) for step in design.construction.steps)


def preparing(papers: Iterable[PaperPlan], envelopes: int, pace: Pace) -> tuple[Work, ...]:
    """Cutting all sheets and packing so many envelopes."""
    plans = list(papers)
    counts = {
        Operation.SETTING: sum(plan.sequence.changes for plan in plans),
        Operation.CUT: sum(plan.sequence.strokes for plan in plans),
        Operation.PACK: envelopes,
    }
    return tuple(work(operation, count, pace) for operation, count in counts.items() if count)


def minutes(works: Iterable[Work]) -> Fraction:
    """The minutes of all that is timed, exactly."""
    return sum((one.minutes for one in works if one.minutes is not None), Fraction(0))


def untimed(works: Iterable[Work]) -> tuple[str, ...]:
    """What has no time, in words."""
    return tuple(one.operation.value for one in works if one.minutes is None)


def cutting_shares(papers: Sequence[PaperPlan], pace: Pace) -> dict[str, Fraction]:
    """Minutes of cutting by part, exactly: each paper's, shared evenly among its pieces."""
    shares: dict[str, Fraction] = {}
    for plan in papers:
        spent = minutes(preparing((plan,), 0, pace))
        pieces = sum(part.copies for part in plan.plan.parts)
        for part in plan.plan.parts:
            shares[part.name] = shares.get(part.name, Fraction(0)) + spent * part.copies / pieces
    return shares
