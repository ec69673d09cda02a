"""What the maker asks for as dressing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..measure import Length


@dataclass(frozen=True, slots=True)
class MatWish:
    """Mats wanted: the border on each side, panels with a border of their own, panels without.

    `also` names panels that get a mat although they would not by default (the underside of a box).
    Panels are named "front", or "base front wall" as piece and panel where several pieces have one.
    """

    on: bool
    border: Length
    borders: Mapping[str, Length]
    off: frozenset[str]
    also: frozenset[str]


@dataclass(frozen=True, slots=True)
class StrapWish:
    """A strap wanted: its width, the clear circle between rim and strap, and its feet.

    `opening` is the diameter of the circle that must pass, `proud` how far the treats stand above
    the rim, `foot` the length stuck down at each end. `length`, where given, is the strip's length
    as cut; otherwise it is worked out.
    """

    on: bool
    width: Length
    opening: Length
    foot: Length
    length: Length | None
