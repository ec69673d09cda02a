"""Rectangles onto sheets with a trimmer: plan, proof, and an independent checker."""

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
    "Got",
    "Node",
    "Offcut",
    "Part",
    "Region",
    "Replay",
    "SheetPattern",
    "SheetSize",
    "cut_steps",
    "plan_make",
    "replay",
]
