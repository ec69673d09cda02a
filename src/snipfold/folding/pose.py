"""Poses: every panel of a piece in space, flat, part-folded or closed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..flat import FlatPiece, Fold, Score
from ..styles import Construction, Doing, Stand, Step
from .space import Placement, Vec

Angles = Mapping[tuple[str, str], float]
"""How far each score is folded, degrees, by its two panels as the score names them."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A panel in space: its placement and its corners, mm, in the order of the flat panel."""

    panel: str
    placement: Placement
    corners: tuple[Vec, ...]

    @property
    def outward(self) -> Vec:
        """The direction in which its outside face looks."""
        return self.placement.outward


@dataclass(frozen=True, slots=True)
class Pose:
    """A piece in space. Its panels are mid-surfaces: the paper's thickness lies half each side."""

    piece: str
    placed: Mapping[str, Placed]

    def edge(self, panel: str, corner: int) -> tuple[Vec, Vec]:
        """The edge of a panel from its corner number `corner` to the next."""
        corners = self.placed[panel].corners
        return corners[corner], corners[(corner + 1) % len(corners)]


def closed_angles(piece: FlatPiece) -> dict[tuple[str, str], float]:
    """The angle of every score when the piece is closed."""
    return {score.panels: float(score.degrees) for score in piece.scores}


def flat_angles(piece: FlatPiece) -> dict[tuple[str, str], float]:
    """Every score unfolded."""
    return {score.panels: 0.0 for score in piece.scores}


def pose(piece: FlatPiece, stand: Stand, angles: Angles) -> Pose:
    """The piece with its scores folded by `angles`, its standing panel where `stand` says.

    Every panel hangs on the one nearer to the standing panel; scores beyond that tree are for the
    proof to hold together.
    """
    beside: dict[str, list[tuple[str, Score]]] = {panel.name: [] for panel in piece.panels}
    for score in piece.scores:
        one, other = score.panels
        beside[one].append((other, score))
        beside[other].append((one, score))
    placements = {stand.panel: _standing(stand)}
    waiting = [stand.panel]
    for parent in waiting:
        for neighbour, score in beside[parent]:
            if neighbour not in placements:
                placements[neighbour] = _folded(placements[parent], neighbour, score, angles)
                waiting.append(neighbour)
    placed = {}
    for panel in piece.panels:
        placement = placements[panel.name]
        corners = tuple(placement.place(corner) for corner in panel.corners)
        placed[panel.name] = Placed(panel.name, placement, corners)
    return Pose(piece.name, placed)


def _standing(stand: Stand) -> Placement:
    x, y = Vec(*map(float, stand.x)), Vec(*map(float, stand.y))
    at = Vec(*(length.float_mm for length in stand.at))
    origin = at.plus(x, -float(stand.flat.x)).plus(y, -float(stand.flat.y))
    standing = Placement(origin, x, y)
    return standing.turned(at, standing.outward, stand.turned) if stand.turned else standing


def _folded(parent: Placement, panel: str, score: Score, angles: Angles) -> Placement:
    start, end = parent.place(score.start), parent.place(score.end)
    # Seen with the folding panel on the left of its hinge, a turn by the right-hand rule lifts it
    # towards the viewer, which makes a valley.
    axis = end.minus(start) if panel == score.panels[0] else start.minus(end)
    degrees = angles[score.panels]
    return parent.turned(start, axis.unit(), -degrees if score.fold is Fold.MOUNTAIN else degrees)


@dataclass(frozen=True, slots=True)
class State:
    """The state after a step: the angles of every piece's scores, and which pieces are in place.

    `angles` by piece name. `shown` are the pieces that the step concerns: the piece alone, or all
    of them once one is set on another.
    """

    step: Step
    angles: Mapping[str, Angles]
    shown: tuple[str, ...]


def states(construction: Construction) -> tuple[State, ...]:
    """The state after each step of putting together, in order."""
    angles: dict[str, dict[tuple[str, str], float]] = {
        piece.name: flat_angles(piece) for piece in construction.pieces
    }
    result = []
    for step in construction.steps:
        piece = construction.piece(step.piece)
        for turn in step.turns:
            angles[step.piece][piece.score(*turn.panels).panels] = float(turn.degrees)
        shown = (
            tuple(one.name for one in construction.pieces)
            if step.doing is Doing.SET_ON
            else (step.piece,)
        )
        result.append(State(step, {name: dict(given) for name, given in angles.items()}, shown))
    return tuple(result)


def closed(construction: Construction) -> dict[str, Pose]:
    """Every piece closed and in its place, by name."""
    return {
        piece.name: pose(piece, construction.stand(piece.name), closed_angles(piece))
        for piece in construction.pieces
    }
