"""`Project`: what a project file says, read and checked, before anything is worked out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..dressing import MatWish, StrapWish
from ..folding import Treat
from ..measure import Length, System
from ..styles import BlankPlan, ScoredBlank, Style, style_named
from ..supplies import Extra


@dataclass(frozen=True, slots=True)
class Project:
    """One project.

    `measures` holds only what the file sets; the style's defaults come when it is designed.
    `papers` maps each piece of the style, and "mats" and "strap", to a paper's name; "" where the
    workshop's first paper of this system is meant. `keep_grain` asks that long scores run along
    the grain even where that costs sheets. `same_sheet` names pieces ("mats" and "strap" too) that
    must come from one and the same sheet in every set. `extras` are embellishments by the piece.
    `blank` is the plan of a scored blank, and None for every style that is made from measures.
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
    same_sheet: tuple[str, ...] = ()
    extras: tuple[Extra, ...] = ()
    blank: BlankPlan | None = None


def style_of(project: Project) -> Style:
    """The style of a project: the one of that name, or the one that its own plan makes.

    Raises `KeyError` for a style that is unknown.
    """
    return style_named(project.style) if project.blank is None else ScoredBlank(project.blank)
