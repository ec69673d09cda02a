"""A series: projects with their days, made in one go or one after the other."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from enum import Enum
from fractions import Fraction

from ..cutting.order_plan import Prefer
from ..project import Design
from ..workshop import Workshop
from .asked import ClassDay, Planner, Progress, Stopped, Wanted, class_spare, spare_sets
from .order import Order
from .take import SECONDS, order_of


class Occasion(Enum):
    """What happens on a day of a project."""

    MAKE = "make"
    FILM = "film"
    PUBLISH = "publish"
    CLASS = "class"


@dataclass(frozen=True, slots=True)
class Day:
    """A day of a project; `number` counts days of one occasion from one."""

    occasion: Occasion
    on: date
    number: int


@dataclass(frozen=True, slots=True)
class SeriesProject:
    """One project of a series: its file, how many sets, its days, and its class if it has one.

    `spare` is its own share of spare sets, None where the series says.
    """

    file: str
    sets: int
    spare: Fraction | None
    days: tuple[Day, ...]
    day: ClassDay | None


@dataclass(frozen=True, slots=True)
class Series:
    """What a series file says."""

    name: str
    spare: Fraction | None
    prefer: Prefer | None
    projects: tuple[SeriesProject, ...]
    notes: str


@dataclass(frozen=True, slots=True)
class Saving:
    """What buying once saves: packs or rolls together, and what each project alone would need."""

    name: str
    together: int
    apart: int


@dataclass(frozen=True, slots=True)
class SeriesOrder:
    """A series, worked out: everything bought once, and each project as if it were made alone.

    `alone` has one order a project, in the order of the file. `savings` names what is bought in
    fewer packs together than alone.
    """

    series: Series
    names: tuple[str, ...]
    whole: Order
    alone: tuple[Order, ...]
    savings: tuple[Saving, ...]


def wanted_of(series: Series, designs: Sequence[Design]) -> tuple[Wanted, ...]:
    """The sets of each project of a series, with its spare ones.

    A project's own share of spare sets goes first, then that of the series, then what a class
    usually takes.
    """
    made = []
    for project, design in zip(series.projects, designs, strict=True):
        share = project.spare if project.spare is not None else series.spare
        if share is not None:
            spare = spare_sets(project.sets, share)
        else:
            spare = class_spare(project.day) if project.day is not None else 0
        made.append(Wanted(design, project.sets, spare))
    return tuple(made)


def series_order(
    series: Series,
    designs: Sequence[Design],
    workshop: Workshop,
    *,
    prefer: Prefer | None = None,
    seconds: float = SECONDS,
    seed: int = 0,
    progress: Progress | None = None,
    stopped: Stopped | None = None,
    planner: Planner | None = None,
) -> SeriesOrder:
    """The series worked out: `designs` are those of its projects, in order.

    Half of `seconds` goes into the whole, the rest into each project alone. Raises `OrderError`
    as `order_of` does.
    """
    wanted = wanted_of(series, designs)
    wish = prefer or series.prefer or Prefer.SHEETS
    whole = order_of(
        wanted, workshop, prefer=wish, seconds=seconds / 2, seed=seed,
        progress=progress, stopped=stopped, planner=planner,
    )  # fmt: skip
    alone = tuple(
        order_of(
            (one,), workshop, prefer=wish, day=project.day,
            spare=None if project.day is None else Fraction(one.spare, one.sets),
            seconds=seconds / 2 / len(wanted), seed=seed, stopped=stopped, planner=planner,
        )
        for one, project in zip(wanted, series.projects, strict=True)
    )  # fmt: skip
    return SeriesOrder(
        series, tuple(kit.name for kit in whole.kits), whole, alone, _savings(whole, alone)
    )


def _savings(whole: Order, alone: Iterable[Order]) -> tuple[Saving, ...]:
    together, apart = _packs(whole), [_packs(one) for one in alone]
    found = (
        Saving(name, packs, sum(one.get(name, 0) for one in apart))
        for name, packs in together.items()
    )
    return tuple(saving for saving in found if saving.together < saving.apart)


def _packs(order: Order) -> Mapping[str, int]:
    """Packs and rolls to buy, by name; stock on hand counts for every order alike."""
    shopping = order.shopping
    packs = {
        line.name: line.packs
        for line in (*shopping.papers, *shopping.embellishments, *shopping.envelopes)
    }
    return packs | {line.name: line.rolls or 0 for line in shopping.adhesives}
