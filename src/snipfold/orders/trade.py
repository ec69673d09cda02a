"""What one wish costs in terms of the others: sheets, trimmer settings, offcut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..cutting.order_plan import Prefer
from ..workshop import ShelvedOffcut, Workshop
from .asked import Planner, Progress, Stopped, Wanted
from .order import Order
from .take import SECONDS, order_of


@dataclass(frozen=True, slots=True)
class TradeRow:
    """What an order comes to under one wish: `offcut` is the largest single piece that is left.

    `settings` counts the different settings over all papers, `changes` how often one is changed.
    """

    prefer: Prefer
    sheets: int
    settings: int
    changes: int
    strokes: int
    offcut: ShelvedOffcut | None
    proven: bool


def trade_row(order: Order) -> TradeRow:
    """The row of an order that is worked out already."""
    offcuts = [offcut for plan in order.papers for offcut in plan.offcuts]
    return TradeRow(
        order.prefer,
        order.sheets,
        sum(plan.plan.settings for plan in order.papers),
        sum(plan.sequence.changes for plan in order.papers),
        sum(plan.sequence.strokes for plan in order.papers),
        max(offcuts, key=lambda one: one.width.as_mm * one.height.as_mm, default=None),
        order.proven,
    )


def trade(
    wanted: Sequence[Wanted],
    workshop: Workshop,
    *,
    seconds: float = SECONDS,
    seed: int = 0,
    progress: Progress | None = None,
    stopped: Stopped | None = None,
    planner: Planner | None = None,
) -> tuple[TradeRow, ...]:
    """The order under each wish in turn, for the maker to pick from.

    Spare sets are taken from each `Wanted`. Raises `OrderError` as `order_of` does.
    """
    rows = []
    for number, prefer in enumerate(Prefer):
        if progress is not None:
            progress(prefer.value, number, len(Prefer))
        order = order_of(
            wanted, workshop, prefer=prefer, seconds=seconds / len(Prefer), seed=seed,
            stopped=stopped, planner=planner,
        )  # fmt: skip
        rows.append(trade_row(order))
    return tuple(rows)
