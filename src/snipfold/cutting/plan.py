"""The cutting plan as values: what is cut, from which sheet, by which cuts."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from ..findings import Finding
from ..measure import Length


class Axis(Enum):
    """The direction in which a setting is measured: across the piece (x) or up it (y)."""

    ACROSS = "across"
    UP = "up"


@dataclass(frozen=True, slots=True)
class Part:
    """A rectangle wanted `copies` times in every set; `turn` says whether it may lie sideways.

    `width` and `height` are as it lies when not turned, on a sheet that lies upright.
    """

    name: str
    width: Length
    height: Length
    copies: int
    turn: bool


@dataclass(frozen=True, slots=True)
class SheetSize:
    """The rectangle of a sheet that can be used, upright."""

    name: str
    width: Length
    height: Length


@dataclass(frozen=True, slots=True)
class Region:
    """A rectangle of the sheet: its lower left corner from the sheet's, and its size."""

    x: Length
    y: Length
    width: Length
    height: Length


@dataclass(frozen=True, slots=True)
class Cut:
    """One edge-to-edge cut of `region`, `at` from its left (ACROSS) or bottom (UP) edge.

    `at` is what the trimmer is set to; `first` is the part between that edge and the blade, and
    `rest` what falls beyond it.
    """

    region: Region
    axis: Axis
    at: Length
    first: Node
    rest: Node


@dataclass(frozen=True, slots=True)
class Got:
    """A finished part, exactly as large as its region."""

    region: Region
    part: str
    turned: bool


@dataclass(frozen=True, slots=True)
class Offcut:
    """What is left over."""

    region: Region


Node = Cut | Got | Offcut


@dataclass(frozen=True, slots=True)
class SheetPattern:
    """How one sheet is cut, and how many sheets are cut so."""

    tree: Node
    times: int


@dataclass(frozen=True, slots=True)
class CutStep:
    """One setting of the trimmer and all that is cut at it before the setting changes.

    `pieces` are the regions that are put into the trimmer, in order; each is cut `at` the setting
    along `axis` (turn the piece so that this edge lies on the ruler). `gives` names what comes off
    each time: a part's name, or "" for a strip that is cut again.
    """

    setting: Length
    axis: Axis
    pieces: tuple[Region, ...]
    gives: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CutPlan:
    """A plan for the sheets of one make.

    Either `sets_per_sheet` complete sets come from one sheet, or, where not even one set fits,
    `sheets_per_set` sheets make one set (then `sets_per_sheet` is 0); with both 0 some part fits
    no sheet at all and `findings` says which and by how much. `bound` is the proven limit of the
    same figure, and `proven` says whether the plan reaches it. `patterns` holds one pattern a
    different sheet. `steps` holds, for each pattern, its cuts in a sensible order of settings.
    """

    sheet: SheetSize
    parts: tuple[Part, ...]
    sets_per_sheet: int
    sheets_per_set: int
    bound: int
    proven: bool
    patterns: tuple[SheetPattern, ...]
    steps: tuple[tuple[CutStep, ...], ...]
    findings: tuple[Finding, ...]
