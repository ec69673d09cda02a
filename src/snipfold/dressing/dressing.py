"""What goes on the box, worked out: mats, strap, and where each adhesive goes."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Finding
from ..flat import Face, Point
from ..measure import ZERO, Length

#: The order in which adhesive goes down (`Strip.stage`). Tape on the blank goes first, its liner
#: left on, so that no mat is in its way; mats while the piece lies flat; then the strap's ends, the
#: second when the walls stand; last the mats that cover them.
TAPE_STAGE, MAT_STAGE, STRAP_STAGE, COVER_STAGE = 1, 2, 3, 4


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

    `span` is how far apart the feet are, between the faces that they are stuck to. `least_free` is
    the least free length that leaves the opening above treats that stand `rise` above the rim;
    `free` what this strap has between its feet. `length` is the strip as cut, `trim` what then
    comes off one end of a strip that was asked for longer than needed: length = trim + free + two
    feet. `feet` are the rectangles on the blank that the feet cover (corners in the blank's
    coordinates, anticlockwise from the outside), first the one that is stuck first. `marks` line
    up both, to be drawn before the bag is closed.
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
    rise: Length = ZERO
    trim: Length = ZERO


@dataclass(frozen=True, slots=True)
class Strip:
    """A strip of adhesive: what it is, on which face and edge, its size, and when it goes down.

    `on` is "panel", "strap" or "mat"; `item` names the panel, the mat's panel or the strap's end
    ("first end", "second end"). `stage` orders the work: `TAPE_STAGE`, `MAT_STAGE`, `STRAP_STAGE`,
    `COVER_STAGE`. `corners` on the blank for a panel, empty otherwise. `face` is the face of the
    item that it is on; a mat's back is its inside. A mat has one strip: the whole run round it.
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
