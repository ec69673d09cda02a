"""Box and bag styles: one file a style, and one line in this table."""

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
from .style import MARKS, Given, Measure, Measures, Style, tape_inset
from .tray_with_lid import TrayWithLid
from .wrap_bag import WrapBag

#: Every style, in the order in which lists show them.
STYLES: tuple[Style, ...] = (
    WrapBag(),
    TrayWithLid(),
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
    "Slide",
    "Stand",
    "Step",
    "Style",
    "Turn",
    "style_named",
    "tape_inset",
]
