"""What the maker buys: papers and adhesives."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import Enum
from fractions import Fraction

from ..measure import ZERO, Length


class Grain(Enum):
    """Which way the fibres of a sheet run, seen with the sheet upright."""

    UPRIGHT = "upright"
    ACROSS = "across"
    UNKNOWN = "unknown"


class Edge(Enum):
    """An edge of a sheet or piece that lies upright before the maker."""

    LEFT = "left"
    RIGHT = "right"
    TOP = "top"
    BOTTOM = "bottom"


@dataclass(frozen=True, slots=True)
class EdgeStrip:
    """A strip along one edge of a sheet that cannot be used, such as a printed selling strip."""

    edge: Edge
    width: Length


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper as sold and as measured.

    `width` and `height` are the nominal size, upright; `measured_width` and `measured_height`
    what the maker's ruler says, where that differs. `gsm` is the weight in g/m2 and `thickness`
    one sheet's. `directed` is true for a pattern that has an up. `two_sided` is false where only
    one face is good (white-core or one-sided pattern paper). `price` is for a pack of `pack`
    sheets, in the workshop's currency; `colour` is how drawings show the good face and
    `back_colour` the other. `cousin` names the paper to use instead in the other edition
    (12 x 12 in against 30.5 x 30.5 cm).

    `on_hand` counts the sheets on the shelf; no more can be bought of a paper that is
    `discontinued`. Papers of one `stock` are the same paper in other sheet sizes, and stand in for
    each other; "" where there is no other.
    """

    name: str
    width: Length
    height: Length
    gsm: Fraction
    thickness: Length
    measured_width: Length | None = None
    measured_height: Length | None = None
    grain: Grain = Grain.UNKNOWN
    directed: bool = False
    two_sided: bool = True
    strip: EdgeStrip | None = None
    price: Decimal | None = None
    pack: int = 1
    colour: str = "#C9A66B"
    back_colour: str = "#F4EFE4"
    cousin: str = ""
    on_hand: int = 0
    discontinued: bool = False
    stock: str = ""

    @property
    def true_width(self) -> Length:
        """The sheet's width as measured, or the nominal one where it was not measured."""
        return self.measured_width if self.measured_width is not None else self.width

    @property
    def true_height(self) -> Length:
        """The sheet's height as measured, or the nominal one where it was not measured."""
        return self.measured_height if self.measured_height is not None else self.height

    @property
    def usable_width(self) -> Length:
        """The measured width less an unusable strip along the left or right edge."""
        if self.strip is not None and self.strip.edge in (Edge.LEFT, Edge.RIGHT):
            return self.true_width - self.strip.width
        return self.true_width

    @property
    def usable_height(self) -> Length:
        """The measured height less an unusable strip along the top or bottom edge."""
        if self.strip is not None and self.strip.edge in (Edge.TOP, Edge.BOTTOM):
            return self.true_height - self.strip.width
        return self.true_height


class AdhesiveKind(Enum):
    """What an adhesive is, which decides how it is laid and what cautions go with it."""

    TAPE = "tape"
    GLUE = "glue"
    HOT_GLUE = "hot glue"
    FOAM = "foam"


@dataclass(frozen=True, slots=True)
class Adhesive:
    """An adhesive: tape with a liner of a given width, glue, or foam.

    `width` is the tape's (or the line of glue's), `thickness` what it adds between two layers,
    `roll` the length sold, `price` for one roll or bottle, `on_hand` how much of it is left.
    """

    name: str
    kind: AdhesiveKind
    width: Length
    thickness: Length
    roll: Length | None = None
    price: Decimal | None = None
    on_hand: Length = ZERO
