"""The flat piece in three dimensions: poses, closing, collisions, capacity."""

from .pose import Angles, Placed, Pose, State, closed, closed_angles, flat_angles, pose, states
from .report import Air, Law, Proof, Stack, Treat
from .space import Placement, Vec, turned

__all__ = [
    "Air",
    "Angles",
    "Law",
    "Placed",
    "Placement",
    "Pose",
    "Proof",
    "Stack",
    "State",
    "Treat",
    "Vec",
    "closed",
    "closed_angles",
    "flat_angles",
    "pose",
    "states",
    "turned",
]
