"""What the proof says of a box, as values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..findings import Finding
from ..measure import Length


@dataclass(frozen=True, slots=True)
class Treat:
    """What goes in: its measures as it stands in the box, and how the maker wants it held.

    `allowance` is air on each side across and deep, and above where a lid covers it. `proud` is
    how far it may stand above the rim of an open box.
    """

    name: str
    width: Length
    depth: Length
    height: Length
    allowance: Length
    proud: Length


@dataclass(frozen=True, slots=True)
class Law:
    """One law of the proof: its code, what it asks, whether it holds, and its figure in words.

    `figure` is the worst figure found, mm (mm2 for areas), `limit` what it is held against.
    """

    code: str
    asks: str
    holds: bool
    figure: float
    limit: float
    unit: str
    says: str


@dataclass(frozen=True, slots=True)
class Stack:
    """Panels that lie face to face at one place: from the outermost to the innermost."""

    piece: str
    panels: tuple[str, ...]
    height: Length


@dataclass(frozen=True, slots=True)
class Air:
    """The air that is left where one piece slides over another, in one direction.

    `total` is outer size less inner size, crease to crease; `paper` the two thicknesses, `tabs`
    the outer piece's own inside layers with their adhesive, `mats` what lies on both walls of the
    inner piece with its adhesive; `left` = total - paper - tabs - mats, across.
    """

    outer: str
    inner: str
    direction: str
    total: Length
    paper: Length
    tabs: Length
    mats: Length
    left: Length


@dataclass(frozen=True, slots=True)
class Proof:
    """The proof of one design.

    `clear` is the clear inside by direction ("width", "depth", "height"). `gap_designed` and
    `gap_marked` are the worst gap between edges that must meet, as designed and with every
    measure as ruled.
    """

    laws: tuple[Law, ...]
    clear: Mapping[str, Length]
    stacks: tuple[Stack, ...]
    air: tuple[Air, ...]
    gap_designed: Length
    gap_marked: Length
    findings: tuple[Finding, ...]

    @property
    def closes(self) -> bool:
        """Whether everything that belongs together meets when the box is closed, as designed."""
        return all(law.holds for law in self.laws if law.code == "closing.designed")
