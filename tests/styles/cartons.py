"""What the tests of several cartons share."""

from __future__ import annotations

from snipfold.flat import FlatPiece
from snipfold.folding import Pose, Proof, closed, prove
from snipfold.measure import Length, Ruler, System
from snipfold.styles import Construction, Given, style_named

INCH = Length.inch
#: Paper and tape, thick enough to be told apart in a sum.
CARD, TAPE = Length.mm("0.3"), Length.mm("0.1")
SIXTEENTHS = Ruler(INCH("1/16"))


def built(style: str, **measures: Length) -> tuple[dict[str, Length], Construction]:
    """A style's construction in inches, with quarter-inch tape."""
    made = style_named(style)
    given = Given(System.INCH, INCH("1/4"))
    complete = made.complete(measures, given)
    return complete, made.build(complete, given)


def proven(measures: dict[str, Length], construction: Construction) -> Proof:
    """The proof of a construction that holds nothing."""
    return prove(
        construction, measures, thickness={p.name: CARD for p in construction.pieces}, tape=TAPE,
        covers={}, treats=(), ruler=SIXTEENTHS, trimmer=SIXTEENTHS, system=System.INCH,
    )  # fmt: skip


def lines(piece: FlatPiece, axis: int) -> list[Length]:
    """Where the scores of a piece lie: upright ones (0) or level ones (1)."""
    return [
        Length.mm(at)
        for at in sorted({s.start[axis] for s in piece.scores if s.start[axis] == s.end[axis]})
    ]


def inside(construction: Construction, panel: str) -> set[str]:
    """The panels that a panel lies inside of."""
    return {layer.outer for layer in construction.layers if layer.inner == panel}


def plane_of(pose: Pose, panel: str, axis: int) -> float:
    """Where a panel that stands square to an axis lies along it, mm."""
    at = {round(corner[axis], 6) for corner in pose.placed[panel].corners}
    assert len(at) == 1, (panel, at)
    return at.pop()


def carton(construction: Construction) -> Pose:
    """The carton, closed."""
    return closed(construction)["carton"]


def in_space(construction: Construction, panel: str, x: Length, y: Length) -> tuple[float, ...]:
    """Where a point of the blank lies on the closed carton, to a nanometre."""
    placed = carton(construction).placed[panel]
    return tuple(round(c, 6) for c in placed.placement.place((x.float_mm, y.float_mm)))
