"""`plan_order`: the sheets of an order of many parts, as cheap as can be, proven."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from ..workshop import Trimmer
from .order_plan import OrderPlan, Prefer, SheetSupply
from .plan import Part

#: Seconds that a plan may take unless said otherwise.
SECONDS = 20.0


def plan_order(
    parts: Sequence[Part],
    supplies: Sequence[SheetSupply],
    trimmer: Trimmer,
    *,
    prefer: Prefer = Prefer.SHEETS,
    seconds: float = SECONDS,
    seed: int = 1,
    progress: Callable[[str, float], None] | None = None,
    stopped: Callable[[], bool] | None = None,
) -> OrderPlan:
    """The plan that cuts all copies of the parts from the supplies at the least cost.

    All cuts go from edge to edge. Lengths are planned on the trimmer's marks, as in `plan_make`.
    Equal parts are given out in the order of `parts`. A part that no sheet can hold is among
    `missing`, with a finding, and the rest is planned; so are parts that the sheets run out for,
    as little of their area as possible.

    `prefer` says what comes next at equal cost. `seconds` limits the time: the plan is then the
    best found, and `bound`, `proven` and `gap` say how good it is. `progress` is called with what
    is being done and the share that is done (0 to 1); `stopped` is asked often, and planning ends
    soon after it says True. With the same seed the plan is the same again, unless time ran out.

    Raises `ValueError` for no parts, no supplies, sizes or copies that are not more than zero or
    beyond all sense, negative costs or numbers of sheets, and two different parts of one name.
    """
    # The solver and its arrays are loaded by those who plan orders alone.
    from .order_make import make_plan

    return make_plan(parts, supplies, trimmer, prefer, seconds, seed, progress, stopped)
