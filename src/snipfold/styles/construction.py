"""What a style builds: flat pieces, and how they go together."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from ..flat import Face, FlatPiece, Point
from ..measure import ZERO, Length

Direction = tuple[int, int, int]
"""An axis of the standing box: one of +-x (right), +-y (back), +-z (up)."""


class Moment(Enum):
    """The named moments of putting together, on which later work hangs its own steps."""

    FLAT = "flat"
    SEAM = "seam"
    BOTTOM = "bottom"
    CLOSED = "closed"


class Doing(Enum):
    """What the maker does in a step; the words for it are the guide's."""

    CREASE = "crease"
    """Fold and burnish every score, then open the piece again."""
    SEAM = "seam"
    """Wrap the walls round and stick the tab."""
    TURN_IN = "turn in"
    """Fold panels in, loose."""
    PRESS = "press"
    """Fold panels over and press them onto adhesive."""
    RAISE = "raise"
    """Stand walls up."""
    TUCK = "tuck"
    """Fold panels in and push their ends down inside, without adhesive."""
    SET_ON = "set on"
    """Set a finished piece over another."""
    CLOSE = "close"
    """Fold panels over to close what was filled; nothing sticks, so that it opens again."""
    HANG = "hang"
    """Set a finished piece over the rim of a bag, and fix it there."""


@dataclass(frozen=True, slots=True)
class Turn:
    """The score between two panels, and how far it is folded at the end of a step (degrees)."""

    panels: tuple[str, str]
    degrees: float


@dataclass(frozen=True, slots=True)
class Step:
    """One step of putting together a piece.

    `moment` is the moment that the step brings about or works towards; `turns` the scores that
    move, `glue` the glue areas that meet their mates, `moving` the panels to be drawn as moving.
    """

    piece: str
    title: str
    moment: Moment
    doing: Doing
    turns: tuple[Turn, ...]
    glue: tuple[str, ...]
    moving: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Stand:
    """How the panel that stays still stands in space.

    Its outside is seen with the blank's x along `x` and the blank's y along `y`; the blank's point
    `flat` lies at the place `at` (x right, y back, z up). Then it is turned about that place by
    `turned` degrees, anticlockwise as its outside is seen.
    """

    piece: str
    panel: str
    x: Direction
    y: Direction
    flat: Point
    at: tuple[Length, Length, Length]
    turned: int = 0


@dataclass(frozen=True, slots=True)
class Layer:
    """Two panels of a piece that lie face to face when it is closed: which is nearer the inside.

    The inside of the outer one looks at the inner one. In a pile that is folded flat, what is
    folded later is the outer one. `slid` is for an inner one that is pushed in behind the outer
    when that is in place already, the paper bending on the way. `pleated` is for a pleat, where the
    outside of the outer one looks at the inner one instead.
    """

    piece: str
    inner: str
    outer: str
    slid: bool = False
    pleated: bool = False


@dataclass(frozen=True, slots=True)
class EdgeOf:
    """An edge of a panel: from its corner number `corner` to the next, anticlockwise."""

    panel: str
    corner: int


@dataclass(frozen=True, slots=True)
class Meet:
    """Two edges of a piece that must come together when it is closed.

    `apart` is how far the other one then lies from the one (right, back, up), where they are
    meant to run side by side. With `in_part` they only lie along one line, and either may reach
    further. `backed` says that paper lies behind the joint, so that no gap shows through.
    """

    piece: str
    one: EdgeOf
    other: EdgeOf
    apart: tuple[Length, Length, Length] = (ZERO, ZERO, ZERO)
    in_part: bool = False
    backed: bool = False

    @property
    def touches(self) -> bool:
        """Whether the edges come together over their whole length."""
        return not self.in_part and self.apart == (ZERO, ZERO, ZERO)


@dataclass(frozen=True, slots=True)
class Cavity:
    """The space inside a piece: the two panels that bound it across, deep and high.

    One panel named twice gives the room by its own size, where no wall stands; None leaves a
    direction open. Its height runs from `floor`, the outermost panel of the bottom, to the upper
    edge of the wall `rim`, or to the underside of a `rim` that lies level; without a floor it is
    open below. `covered` says whether something closes it there, so that nothing may stand proud.

    A `flat` one lies between panels that are folded onto each other: how thick its contents are
    takes from the room across and deep. One with more than four walls names them all in `around`;
    `measure` is then the measure that makes it larger, and `grows` by how much it gets larger
    across where that measure grows by one.
    """

    piece: str
    width: tuple[str, str] | None
    depth: tuple[str, str] | None
    floor: str
    rim: str
    covered: bool
    flat: bool = False
    around: tuple[str, ...] = ()
    measure: str = ""
    grows: float = 1.0

    @property
    def is_open(self) -> bool:
        """Whether nothing bounds it any way, so that the piece has no inside to speak of."""
        return not (self.width or self.depth or self.floor or self.flat or self.around)


@dataclass(frozen=True, slots=True)
class Slide:
    """A piece that must slide over another: lid over base, sleeve over tray.

    `across` pairs the walls that face each other: (outer's wall, inner's wall, inner's wall,
    outer's wall) for each direction, with the direction's name. Where the inner piece is open in
    that direction, a wall that runs along it stands for its rim. Pieces with more than four walls
    name them in `around` instead, each outer wall with the inner one that it faces; `grows` is by
    how much the outer piece gets larger across where `measure` grows by one. `off` is the way in
    which the outer piece comes off.
    """

    outer: str
    inner: str
    across: tuple[tuple[str, tuple[str, str, str, str]], ...]
    measure: str
    around: tuple[tuple[str, str], ...] = ()
    grows: float = 1.0
    off: Direction = (0, 0, 1)


@dataclass(frozen=True, slots=True)
class HandlePlace:
    """Where a strap may be fixed: two facing panels of a piece, the face, and the rim's edges."""

    piece: str
    panels: tuple[str, str]
    face: Face
    rims: tuple[EdgeOf, EdgeOf]


@dataclass(frozen=True, slots=True)
class Construction:
    """All that a style says of one box: its pieces and how they go together.

    `steps` are in order, piece after piece.
    """

    pieces: tuple[FlatPiece, ...]
    stands: tuple[Stand, ...]
    steps: tuple[Step, ...]
    layers: tuple[Layer, ...]
    meets: tuple[Meet, ...]
    cavity: Cavity
    slides: tuple[Slide, ...]
    handle: HandlePlace | None

    def piece(self, name: str) -> FlatPiece:
        """The piece of that name; `KeyError` if there is none."""
        for piece in self.pieces:
            if piece.name == name:
                return piece
        raise KeyError(name)

    def stand(self, piece: str) -> Stand:
        """How that piece stands; `KeyError` if it is unknown."""
        for stand in self.stands:
            if stand.piece == piece:
                return stand
        raise KeyError(piece)
