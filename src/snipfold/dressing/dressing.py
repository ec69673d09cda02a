"""What goes on the box, worked out: mats, strap, and where each adhesive goes."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Finding
from ..flat import Face, Point
from ..measure import Length


@dataclass(frozen=True, slots=True)
class Mat:
    """A mat: the panel face it lies on, its place on the blank, its size and its border.

    `corners` in the blank's coordinates of that piece, anticlockwise from the outside; `width`
    and `height` as it lies on the standing box; `border` on each side (in total twice that).
    """

    piece: str
    panel: str
    face: Face
    corners: tuple[Point, ...]
    width: Length
    height: Length
    border: Length

    @property
    def border_total(self) -> Length:
        """Both borders together: how much smaller the mat is than its panel, each way."""
        return self.border * 2


@dataclass(frozen=True, slots=True)
class Mark:
    """A pencil mark on a piece: a line from `start` to `end` on one face, and what it is for."""

    piece: str
    panel: str
    face: Face
    start: Point
    end: Point
    says: str


@dataclass(frozen=True, slots=True)
class Strap:
    """A strap: how it is cut, where its feet go and what it clears.

    `least_free` is the least free length that leaves the opening with the treats that stand
    proud; `free` what this strap has between its feet; `length` = free + two feet. `feet` are the
    rectangles on the blank that the feet cover (corners in the blank's coordinates), first the one
    that is stuck first. `marks` line up both, to be drawn before the bag is closed.
    """

    piece: str
    panels: tuple[str, str]
    face: Face
    width: Length
    length: Length
    foot: Length
    free: Length
    least_free: Length
    opening: Length
    span: Length
    feet: tuple[tuple[Point, ...], tuple[Point, ...]]
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class Strip:
    """A strip of adhesive: what it is, on which face and edge, its size, and when it goes down.

    `on` is "panel", "strap" or "mat"; `item` names the panel, the mat's panel or the strap's end.
    `stage` orders the work: tape with its liner on goes down before mats, mats before assembly.
    `corners` on the blank for a panel, empty otherwise. `face` is the face of the item it is on.
    """

    name: str
    adhesive: str
    piece: str
    on: str
    item: str
    face: Face
    edge: str
    width: Length
    length: Length
    corners: tuple[Point, ...]
    stage: int


@dataclass(frozen=True, slots=True)
class Dressing:
    """All the dressing of one box."""

    mats: tuple[Mat, ...]
    strap: Strap | None
    strips: tuple[Strip, ...]
    findings: tuple[Finding, ...]

    def mats_on(self, piece: str) -> tuple[Mat, ...]:
        """The mats of one piece."""
        return tuple(mat for mat in self.mats if mat.piece == piece)
