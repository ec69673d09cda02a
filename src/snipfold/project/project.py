"""`Project`: what a project file says, read and checked, before anything is worked out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..dressing import MatWish, StrapWish
from ..folding import Treat
from ..measure import Length, System


@dataclass(frozen=True, slots=True)
class Project:
    """One project.

    `measures` holds only what the file sets; the style's defaults come when it is designed.
    `papers` maps each piece of the style, and "mats" and "strap", to a paper's name; "" where the
    workshop's first paper of this system is meant. `keep_grain` asks that long scores run along
    the grain even where that costs sheets.
    """

    name: str
    style: str
    system: System
    measures: Mapping[str, Length]
    papers: Mapping[str, str]
    keep_grain: bool
    mats: MatWish
    strap: StrapWish
    contents: tuple[Treat, ...]
    notes: str
