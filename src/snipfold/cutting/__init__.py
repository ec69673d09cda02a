"""Rectangles onto sheets with a trimmer: plan, proof, and an independent checker."""

from .order import plan_order
from .order_plan import Ended, OrderPlan, Prefer, SheetSupply, SheetUse
from .order_replay import OrderReplay, replay_order
from .plan import (
    Axis,
    Cut,
    CutPlan,
    CutStep,
    Got,
    Node,
    Offcut,
    Part,
    Region,
    SheetPattern,
    SheetSize,
)
from .planner import plan_make
from .replay import Replay, replay
from .steps import cut_steps

__all__ = [
    "Axis",
    "Cut",
    "CutPlan",
    "CutStep",
    "Ended",
    "Got",
    "Node",
    "Offcut",
    "OrderPlan",
    "OrderReplay",
    "Part",
    "Prefer",
    "Region",
    "Replay",
    "SheetPattern",
    "SheetSize",
    "SheetSupply",
    "SheetUse",
    "cut_steps",
    "plan_make",
    "plan_order",
    "replay",
    "replay_order",
]
