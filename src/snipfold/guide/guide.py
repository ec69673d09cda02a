"""`guide_of`: a design as a guide."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from ..drawing import legend
from ..drawing.inks import LEGEND
from ..project import Design
from .assemble import assemble
from .card import card
from .content import Guide, Section
from .cut import cut
from .dress import mats, strap, tape
from .fill import fill, worth_knowing
from .finished import finished
from .fold import fold
from .need import need
from .score import score
from .snip import snip

#: The keys of the line styles that a legend can explain.
_EXPLAINED = frozenset(ink.key for ink in LEGEND)

#: What writes each part, in the order of the guide.
_PARTS: tuple[Callable[[Design], tuple[Section, ...]], ...] = (
    finished,
    need,
    cut,
    score,
    snip,
    fold,
    tape,
    mats,
    strap,
    assemble,
    fill,
    worth_knowing,
    card,
)


def guide_of(design: Design, *, page: str = "letter") -> Guide:
    """The guide of a design for paper of that size ("letter" or "a4"), worded in its system."""
    return Guide(
        title=design.project.name,
        says=design.style.says,
        system=design.system,
        page=page,
        sections=tuple(_explained(section) for write in _PARTS for section in write(design)),
    )


def _explained(section: Section) -> Section:
    """The section with a legend of the line styles that its figures use."""
    used = {key for drawing in section.figures for key in drawing.kinds()} & _EXPLAINED
    return replace(section, legend=legend(used)) if used else section
