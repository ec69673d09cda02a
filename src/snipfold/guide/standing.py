"""What the closed box tells the guide: its sizes, where edges come together and come to lie."""

from __future__ import annotations

from ..flat import FlatPiece, Role
from ..folding import Pose, Vec, closed, pose, states
from ..measure import Length
from ..measure.tolerance import COPLANAR_MM
from ..project import Design
from ..styles import Construction, Meet


def finished_sizes(construction: Construction) -> dict[str, tuple[Length, Length, Length]]:
    """Width, depth and height of every closed piece as it stands, crease to crease, by its name."""
    sizes = {}
    for name, standing in closed(construction).items():
        places = [corner for placed in standing.placed.values() for corner in placed.corners]
        sizes[name] = (
            Length.figure(max(p.x for p in places) - min(p.x for p in places)),
            Length.figure(max(p.y for p in places) - min(p.y for p in places)),
            Length.figure(max(p.z for p in places) - min(p.z for p in places)),
        )
    return sizes


def meets_of_steps(construction: Construction) -> dict[int, tuple[Meet, ...]]:
    """The edges that come together in each step, by the step's number in the order of work."""
    found: dict[int, tuple[Meet, ...]] = {}
    waiting = list(construction.meets)
    for index, state in enumerate(states(construction)):
        name = state.step.piece
        standing = pose(construction.piece(name), construction.stand(name), state.angles[name])
        met = tuple(m for m in waiting if m.piece == name and _together(standing, m))
        if met:
            found[index] = met
            waiting = [meet for meet in waiting if meet not in met]
    return found


def _together(standing: Pose, meet: Meet) -> bool:
    a, b = standing.edge(meet.one.panel, meet.one.corner)
    c, d = standing.edge(meet.other.panel, meet.other.corner)
    # Edges of neighbours run in opposite directions round their panels.
    return min(max(_gap(a, d), _gap(b, c)), max(_gap(a, c), _gap(b, d))) < COPLANAR_MM


def _gap(one: Vec, other: Vec) -> float:
    return one.minus(other).length()


def raw_edge_at(design: Design, piece: FlatPiece, flap: str) -> str:
    """The wall at which the free edge of a closed flap comes to lie; "" where it lies by none.

    The free edge is the flap's edge farthest from its score; it lies at a wall when it is nearer
    to that wall than to the middle of the flap's own fold.
    """
    standing = pose(
        piece,
        design.construction.stand(piece.name),
        {score.panels: float(score.degrees) for score in piece.scores},
    )
    scores = [score for score in piece.scores if flap in score.panels]
    if len(scores) != 1:
        return ""
    placed = standing.placed[flap]
    start = placed.placement.place(scores[0].start)
    along = placed.placement.place(scores[0].end).minus(start).unit()
    corners = placed.corners
    middles = [_middle(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)]

    def depth(place: Vec) -> float:
        return place.minus(start).cross(along).length()

    free = max(middles, key=depth)
    walls = [panel.name for panel in piece.panels if panel.role is Role.WALL]
    if not walls:
        return ""
    nearest = min(walls, key=lambda wall: abs(standing.placed[wall].placement.above(free)))
    reach = abs(standing.placed[nearest].placement.above(free))
    return nearest if reach < depth(free) / 2 and nearest not in scores[0].panels else ""


def _middle(one: Vec, other: Vec) -> Vec:
    return Vec((one.x + other.x) / 2, (one.y + other.y) / 2, (one.z + other.z) / 2)
