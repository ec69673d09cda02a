"""The flat piece in three dimensions: poses, closing, collisions, capacity."""

from .grain import grain_findings, lies_well, score_lengths
from .pose import Angles, Placed, Pose, State, closed, closed_angles, flat_angles, pose, states
from .proof import prove
from .report import Air, Law, Proof, Stack, Treat
from .slips import as_ruled, with_line_moved
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
    "as_ruled",
    "closed",
    "closed_angles",
    "flat_angles",
    "grain_findings",
    "lies_well",
    "pose",
    "prove",
    "score_lengths",
    "states",
    "turned",
    "with_line_moved",
]
