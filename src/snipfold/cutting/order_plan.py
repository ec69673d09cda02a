"""The plan of an order as values: many parts from many sheets."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from ..findings import Finding
from .plan import CutStep, Part, SheetPattern, SheetSize


class Prefer(Enum):
    """What the maker wants least of, once every part is cut."""

    SHEETS = "fewest sheets"
    SETTINGS = "fewest trimmer settings"
    OFFCUT = "largest usable offcut"


class Ended(Enum):
    """Why planning stopped."""

    PROVEN = "proven"
    TIME = "out of time"
    STOPPED = "stopped"


@dataclass(frozen=True, slots=True)
class SheetSupply:
    """A sheet that can be cut: its size, what one costs, and how many there are.

    `cost` is in any one unit (1 for each counts sheets; an offcut on hand costs 0). `most` is None
    where more can be bought.
    """

    sheet: SheetSize
    cost: Fraction
    most: int | None


@dataclass(frozen=True, slots=True)
class SheetUse:
    """One way of cutting one of the supplies (by its index), how often, and in which steps."""

    supply: int
    pattern: SheetPattern
    steps: tuple[CutStep, ...]


@dataclass(frozen=True, slots=True)
class OrderPlan:
    """Every sheet of an order.

    `parts` are what was asked for (`copies` in all). `sheets` counts the sheets of each supply;
    `cost` is their cost, `bound` the proven least cost; `proven` says that they are the same, and
    `gap` is `cost` - `bound`. `missing` lists parts that could not be cut, with how many copies,
    when supplies run out. `settings` counts the different settings of the trimmer over all sheets.
    """

    parts: tuple[Part, ...]
    supplies: tuple[SheetSupply, ...]
    uses: tuple[SheetUse, ...]
    sheets: tuple[int, ...]
    cost: Fraction
    bound: Fraction
    proven: bool
    gap: Fraction
    settings: int
    missing: tuple[tuple[str, int], ...]
    ended: Ended
    findings: tuple[Finding, ...]
