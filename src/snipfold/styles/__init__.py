"""Box and bag styles: one file a style, and one line in this table."""

from .bag_topper import BagTopper
from .belly_band import BellyBand
from .construction import (
    Cavity,
    Construction,
    Direction,
    Doing,
    EdgeOf,
    HandlePlace,
    Layer,
    Meet,
    Moment,
    Slide,
    Stand,
    Step,
    Turn,
)
from .diagonal_envelope import DiagonalEnvelope
from .gift_card_holder import GiftCardHolder
from .heptagon_box import HeptagonBox
from .hexagon_box import HexagonBox
from .interlocking_base_carton import InterlockingBaseCarton
from .octagon_box import OctagonBox
from .pentagon_box import PentagonBox
from .reverse_tuck_carton import ReverseTuckCarton
from .scored_blank import BlankPlan, ScoredBlank
from .sleeve_and_tray import SleeveAndTray
from .square_box import SquareBox
from .straight_tuck_carton import StraightTuckCarton
from .style import MARKS, Given, Measure, Measures, Style, tape_inset
from .tray_with_lid import TrayWithLid
from .triangle_box import TriangleBox
from .wrap_bag import WrapBag

#: Every style that is made from measures, in the order in which lists show them. The scored blank
#: stands beside them: it is made from a plan (`ScoredBlank(plan)`), one for every project.
STYLES: tuple[Style, ...] = (
    WrapBag(),
    TrayWithLid(),
    StraightTuckCarton(),
    ReverseTuckCarton(),
    InterlockingBaseCarton(),
    SleeveAndTray(),
    BellyBand(),
    BagTopper(),
    GiftCardHolder(),
    TriangleBox(),
    SquareBox(),
    PentagonBox(),
    HexagonBox(),
    HeptagonBox(),
    OctagonBox(),
    DiagonalEnvelope(),
)

if len({style.name for style in STYLES}) != len(STYLES):
    raise ImportError("two styles have one name")


def style_named(name: str) -> Style:
    """The style of that name; `KeyError` if there is none."""
    for style in STYLES:
        if style.name == name:
            return style
    raise KeyError(name)


__all__ = [
    "MARKS",
    "STYLES",
    "BlankPlan",
    "Cavity",
    "Construction",
    "Direction",
    "Doing",
    "EdgeOf",
    "Given",
    "HandlePlace",
    "Layer",
    "Measure",
    "Measures",
    "Meet",
    "Moment",
    "ScoredBlank",
    "Slide",
    "Stand",
    "Step",
    "Style",
    "Turn",
    "style_named",
    "tape_inset",
]
