"""What a style builds: flat pieces, and how they go together."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from ..flat import Face, FlatPiece, Point
from ..measure import Length

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


@dataclass(frozen=True, slots=True)
class Turn:
    """The score between two panels, and how far it is folded at the end of a step (degrees)."""

    panels: tuple[str, str]
    degrees: int


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
    `flat` lies at the place `at` (x right, y back, z up).
    """

    piece: str
    panel: str
    x: Direction
    y: Direction
    flat: Point
    at: tuple[Length, Length, Length]


@dataclass(frozen=True, slots=True)
class Layer:
    """Two panels of a piece that lie face to face when it is closed: which is nearer the inside."""

    piece: str
    inner: str
    outer: str


@dataclass(frozen=True, slots=True)
class EdgeOf:
    """An edge of a panel: from its corner number `corner` to the next, anticlockwise."""

    panel: str
    corner: int


@dataclass(frozen=True, slots=True)
class Meet:
    """Two edges of a piece that must come together when it is closed."""

    piece: str
    one: EdgeOf
    other: EdgeOf


@dataclass(frozen=True, slots=True)
class Cavity:
    """The space inside a piece: the two panels that bound it across, deep and high.

    Its height runs from `floor`, the outermost panel of the bottom, to the upper edge of the wall
    `rim`. `covered` says whether something closes it there, so that nothing may stand proud.
    """

    piece: str
    width: tuple[str, str]
    depth: tuple[str, str]
    floor: str
    rim: str
    covered: bool


@dataclass(frozen=True, slots=True)
class Slide:
    """A piece that must slide over another: lid over base.

    `across` pairs the walls that face each other: (outer's wall, inner's wall, inner's wall,
    outer's wall) for each direction, with the direction's name.
    """

    outer: str
    inner: str
    across: tuple[tuple[str, tuple[str, str, str, str]], ...]
    measure: str


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
