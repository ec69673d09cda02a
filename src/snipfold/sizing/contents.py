"""What goes in: treats of a shape, so many of each, or loose ones by their volume."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from ..measure import ZERO, Length

#: More treats than one box takes: beyond this a count is a slip of the keyboard.
MOST_TREATS = 200


@dataclass(frozen=True, slots=True)
class Block:
    """A treat with square corners, or one in a wrapper of that size, as it stands."""

    width: Length
    depth: Length
    height: Length

    def __post_init__(self) -> None:
        _more_than_nothing(self.width, self.depth, self.height)


@dataclass(frozen=True, slots=True)
class Round:
    """A treat shaped like a tin: how far `across`, and how tall it stands."""

    across: Length
    height: Length

    def __post_init__(self) -> None:
        _more_than_nothing(self.across, self.height)


@dataclass(frozen=True, slots=True)
class Ball:
    """A treat shaped like a ball, `across` whichever way it lies."""

    across: Length

    def __post_init__(self) -> None:
        _more_than_nothing(self.across)


Shape = Block | Round | Ball


class Way(Enum):
    """Which way up treats may go."""

    STANDING = "standing"
    LYING = "lying"
    EITHER = "either way"


class Rows(Enum):
    """How round treats lie beside each other: in line, or in each other's gaps."""

    SQUARE = "square"
    STAGGERED = "staggered"
    EITHER = "either"


@dataclass(frozen=True, slots=True)
class Arrange:
    """How treats may be arranged.

    `way` is None where nothing was said: blocks then stay as they stand, round treats go either
    way. `across`, `deep` and `high` fix how many are side by side, front to back and one upon
    another; None leaves that open. A number that is said for staggered rows counts the longest row.
    """

    way: Way | None = None
    rows: Rows = Rows.EITHER
    across: int | None = None
    deep: int | None = None
    high: int | None = None

    def __post_init__(self) -> None:
        for number in (self.across, self.deep, self.high):
            if number is not None and number < 1:
                raise ValueError(f"a row has at least one treat, not {number}")


ANYHOW = Arrange()


@dataclass(frozen=True, slots=True)
class Treats:
    """`count` treats of one shape, and how they may be arranged."""

    shape: Shape
    count: int = 1
    arrange: Arrange = ANYHOW

    def __post_init__(self) -> None:
        if not 1 <= self.count <= MOST_TREATS:
            raise ValueError(f"one box takes 1 to {MOST_TREATS} treats, not {self.count}")


@dataclass(frozen=True, slots=True)
class Loose:
    """Loose treats: `volume_mm3` of them, which fill that `share` of the room they take.

    The share is theirs to say: round sweets poured into a box fill about three fifths of it
    (common practice, no source); what was measured in a jug fills all of what the jug showed, so
    its share is 1.
    """

    volume_mm3: Fraction
    share: Fraction = Fraction(1)

    def __post_init__(self) -> None:
        if self.volume_mm3 <= 0 or not 0 < self.share <= 1:
            raise ValueError("loose treats have a volume, and a share above 0, at most 1")

    @property
    def room_mm3(self) -> Fraction:
        """The room that they take, mm3."""
        return self.volume_mm3 / self.share


Contents = tuple[Treats, ...] | Loose
"""All that goes in: treats, one lot upon another, or loose ones."""


def _more_than_nothing(*sides: Length) -> None:
    if any(side <= ZERO for side in sides):
        raise ValueError("every side of a treat is more than nothing")
