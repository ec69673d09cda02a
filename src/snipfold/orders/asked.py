"""What is asked of an order: projects and sets, spare kits, a class; and when it is too much."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol

from ..cutting.order_plan import OrderPlan, Prefer, SheetSupply
from ..cutting.plan import Part
from ..project import Design
from ..workshop import Trimmer

#: Sets of one project, and of all projects of one order together. A million is a slip of the
#: keyboard; whoever needs that many has them die-cut.
MOST_SETS = 100_000
#: Per cent. Nobody makes as many to spare as to use.
MOST_SPARE = 100
MOST_TABLES = 1_000
#: Spare kits of a class: a tenth, or one a table if that is more. Common practice, no source.
CLASS_SPARE = Fraction(1, 10)


class OrderError(ValueError):
    """An order that cannot be worked out: what was asked, what is wrong with it, and the mend."""

    def __init__(self, asked: str, wrong: str, right: str) -> None:
        self.asked, self.wrong, self.right = asked, wrong, right
        super().__init__(f"{asked}: {wrong}; {right}")


@dataclass(frozen=True, slots=True)
class Wanted:
    """So many sets of one design, and the spare sets made beyond them."""

    design: Design
    sets: int
    spare: int = 0

    @property
    def made(self) -> int:
        """All sets that are made."""
        return self.sets + self.spare


@dataclass(frozen=True, slots=True)
class ClassDay:
    """A class: how many makers come, and at how many tables they sit."""

    makers: int
    tables: int = 1


Progress = Callable[[str, int, int], None]
"""Told what is being planned, how many papers are done, and how many there are."""

Stopped = Callable[[], bool]
"""Asked now and then; once it says yes, planning ends with the best plan found."""


class Planner(Protocol):
    """What plans the sheets of one paper: `cutting.plan_order`, or a stand-in for it."""

    def __call__(
        self,
        parts: Sequence[Part],
        supplies: Sequence[SheetSupply],
        trimmer: Trimmer,
        *,
        prefer: Prefer,
        seconds: float,
        seed: int,
        stopped: Stopped | None,
    ) -> OrderPlan:
        """The plan of all `parts` from `supplies`."""
        ...


def spare_sets(sets: int, share: Fraction) -> int:
    """The spare sets that a share of the sets comes to, rounded up to a whole one.

    >>> spare_sets(24, Fraction(1, 10))
    3
    """
    return math.ceil(sets * share)


def class_spare(day: ClassDay) -> int:
    """The spare kits of a class: a tenth of the makers, or one a table if that is more."""
    return max(spare_sets(day.makers, CLASS_SPARE), day.tables)


def check_asked(
    wanted: Sequence[Wanted], share: Fraction | None = None, day: ClassDay | None = None
) -> None:
    """Make sure that an order can be worked out at all. Raises `OrderError`."""
    if not wanted:
        raise OrderError("projects", "none", "name at least one project file")
    if share is not None and not 0 <= share * 100 <= MOST_SPARE:
        raise OrderError(
            f"spare {float(share * 100):g}%",
            "less than nothing" if share < 0 else "more to spare than to use",
            f"write it like 10%, at most {MOST_SPARE}%",
        )
    for one in wanted:
        name = f"sets of {one.design.project.name}"
        if one.sets < 1:
            wrong = "nothing to make" if not one.sets else "less than none"
            raise OrderError(f"{name}, {one.sets}", wrong, "ask for at least 1 set")
        if one.spare < 0:
            raise OrderError(f"spare {name}, {one.spare}", "less than none", "ask for 0 or more")
    made = sum(one.made for one in wanted)
    if made > MOST_SETS:
        raise OrderError(
            f"{made} sets in all", f"more than the {MOST_SETS} that are planned at once",
            f"order {MOST_SETS} or fewer, and as often as you need",
        )  # fmt: skip
    if day is not None:
        if not 1 <= day.makers <= MOST_SETS:
            raise OrderError(
                f"a class of {day.makers}", "nobody to teach" if day.makers < 1 else "too many",
                f"give the number of makers, from 1 to {MOST_SETS}",
            )  # fmt: skip
        if not 1 <= day.tables <= min(MOST_TABLES, day.makers):
            raise OrderError(
                f"{day.tables} tables", f"not so many tables for {day.makers} makers",
                f"give the number of tables, from 1 to {min(MOST_TABLES, day.makers)}",
            )  # fmt: skip
