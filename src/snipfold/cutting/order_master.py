"""The programs of an order: how often to cut each pattern, in fractions and in whole sheets."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import highspy
import numpy as np

from .order_clock import Clock
from .order_job import Job
from .order_worth import Content

_INF: float = highspy.kHighsInf
#: Numbers in the results of floating programs this close to whole are whole.
_NEAR = 1e-6


@dataclass(frozen=True, slots=True)
class Column:
    """One pattern of a stock (by its place in the job), or a piece left out (stock -1).

    The pattern is a block, or has its cuts laid out already; pieces left out have none.
    """

    stock: int
    counts: tuple[int, ...]
    content: Content


@dataclass(frozen=True, slots=True)
class Shares:
    """The best of all mixes of the columns: its cost, how much of each, and what pieces are worth.

    `worths` has one number for each kind; `rents` says by how much a sheet of a limited stock
    would lower the cost.
    """

    cost: float
    amounts: tuple[float, ...]
    worths: tuple[float, ...]
    rents: tuple[float, ...]


class _Quiet(highspy.Highs):
    """The solver without a word on the terminal, on one thread so that it repeats itself."""

    def enableCallbacks(self) -> None:  # noqa: N802
        self.setOptionValue("output_flag", False)
        self.setOptionValue("threads", 1)
        super().enableCallbacks()  # type: ignore[no-untyped-call]


class Master:
    """The linear program over the columns known so far."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.columns: list[Column] = []
        self._known: set[tuple[int, tuple[int, ...]]] = set()
        self._kinds = len(job.demand)
        self._rows = {
            number: self._kinds + place
            for place, number in enumerate(
                number for number, stock in enumerate(job.stocks) if stock.most is not None
            )
        }
        self._solver = _Quiet()  # type: ignore[no-untyped-call]
        for demand in job.demand:
            self._solver.addRow(float(demand), _INF, 0, _ints([]), _floats([]))
        for number in self._rows:
            most = job.stocks[number].most
            assert most is not None
            self._solver.addRow(-_INF, float(most), 0, _ints([]), _floats([]))

    def add(self, column: Column) -> bool:
        """Whether the column is new; it is then part of the program."""
        key = column.stock, column.counts
        if key in self._known or not any(column.counts):
            return False
        self._known.add(key)
        self.columns.append(column)
        places = [kind for kind, number in enumerate(column.counts) if number]
        numbers = [float(column.counts[kind]) for kind in places]
        if column.stock in self._rows:
            places.append(self._rows[column.stock])
            numbers.append(1.0)
        self._solver.addCol(
            float(self.job.cost_of(column.stock, column.counts)),
            0.0,
            _INF,
            len(places),
            _ints(places),
            _floats(numbers),
        )
        return True

    def ask(self, demand: Sequence[int], mosts: Sequence[int | None]) -> None:
        """Changes what is wanted, and how many sheets of each stock there are."""
        for kind, number in enumerate(demand):
            self._solver.changeRowBounds(kind, float(number), _INF)
        for number, place in self._rows.items():
            most = mosts[number]
            assert most is not None
            self._solver.changeRowBounds(place, -_INF, float(most))

    def shares(self) -> Shares | None:
        """The best mix of the columns; None where no mix of them gives all that is wanted."""
        self._solver.run()
        if self._solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None
        found = self._solver.getSolution()
        duals = list(found.row_dual)
        rents = [0.0] * len(self.job.stocks)
        for number, place in self._rows.items():
            rents[number] = max(0.0, -duals[place])
        return Shares(
            float(self._solver.getInfo().objective_function_value),
            tuple(found.col_value),
            tuple(max(0.0, dual) for dual in duals[: self._kinds]),
            tuple(rents),
        )


@dataclass(frozen=True, slots=True)
class Whole:
    """How often each column is cut (by its place), or None; whether that is the last word.

    With `final`, nothing cheaper comes from these columns, or nothing at all if there is none.
    """

    times: Mapping[int, int] | None
    final: bool


def whole(
    job: Job,
    columns: Sequence[Column],
    *,
    below: int,
    target: int,
    nodes: int,
    clock: Clock,
    seed: int,
    demand: Sequence[int] | None = None,
    mosts: Sequence[int | None] | None = None,
    costs: Sequence[int] | None = None,
) -> Whole:
    """Whole numbers of the columns that give what is wanted for less than `below`, if there are.

    Stops at the first that cost no more than `target`, after so many nodes of the search, or when
    the time is out. `costs` stand in for the costs of the columns.
    """
    demand = job.demand if demand is None else demand
    mosts = [stock.most for stock in job.stocks] if mosts is None else mosts
    if costs is None:
        costs = [job.cost_of(column.stock, column.counts) for column in columns]
    entries = [
        (kind, place, number)
        for place, column in enumerate(columns)
        for kind, number in enumerate(column.counts)
        if number and demand[kind]
    ]
    rows = [(float(number), _INF) for number in demand]
    for number, most in enumerate(mosts):
        if most is not None:
            entries += [
                (len(rows), place, 1)
                for place, column in enumerate(columns)
                if column.stock == number
            ]
            rows.append((-_INF, float(most)))
    entries += [(len(rows), place, cost) for place, cost in enumerate(costs) if cost]
    rows.append((-_INF, float(below - 1)))
    solver = loaded(len(columns), costs, rows, entries)
    found, final = run_whole(solver, target, nodes, clock, seed)
    if found is None:
        return Whole(None, final)
    times = {place: round(value) for place, value in enumerate(found) if value > 0.5}
    if not covers(columns, times, demand, mosts):
        return Whole(None, False)
    return Whole(times, final)


def covers(
    columns: Sequence[Column],
    times: Mapping[int, int],
    demand: Sequence[int],
    mosts: Sequence[int | None],
) -> bool:
    """Whether the columns give what is wanted from the sheets that there are, in whole numbers."""
    given = [0] * len(demand)
    sheets = [0] * len(mosts)
    for place, number in times.items():
        column = columns[place]
        for kind, count in enumerate(column.counts):
            given[kind] += count * number
        if column.stock >= 0:
            sheets[column.stock] += number
    return all(g >= d for g, d in zip(given, demand, strict=True)) and all(
        most is None or number <= most for number, most in zip(sheets, mosts, strict=True)
    )


def loaded(
    columns: int,
    costs: Sequence[float],
    rows: Sequence[tuple[float, float]],
    entries: Iterable[tuple[int, int, float]],
    highest: Sequence[float] | None = None,
) -> highspy.Highs:
    """A solver with a program of whole numbers: rows of (least, most), entries (row, column, x)."""
    model = highspy.HighsLp()
    model.num_col_ = columns
    model.num_row_ = len(rows)
    model.col_cost_ = _floats(costs)
    model.col_lower_ = _floats([0.0] * columns)
    model.col_upper_ = _floats([_INF] * columns if highest is None else highest)
    model.row_lower_ = _floats([row[0] for row in rows])
    model.row_upper_ = _floats([row[1] for row in rows])
    ordered = sorted(entries, key=lambda entry: (entry[1], entry[0]))
    starts = np.searchsorted([entry[1] for entry in ordered], range(columns + 1))
    model.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    model.a_matrix_.start_ = starts.astype(np.int32)
    model.a_matrix_.index_ = _ints([entry[0] for entry in ordered])
    model.a_matrix_.value_ = _floats([entry[2] for entry in ordered])
    model.integrality_ = [highspy.HighsVarType.kInteger] * columns
    solver = _Quiet()  # type: ignore[no-untyped-call]
    solver.passModel(model)
    return solver


def run_whole(
    solver: highspy.Highs, target: float, nodes: int, clock: Clock, seed: int
) -> tuple[list[float] | None, bool]:
    """The best values found by the program of whole numbers, and whether none are better."""
    for option, value in (
        ("random_seed", seed),
        ("mip_max_nodes", nodes),
        ("time_limit", max(0.01, clock.left)),
        ("objective_target", target + _NEAR),
        ("mip_rel_gap", 0.0),
        ("mip_abs_gap", 1 - _NEAR),
    ):
        solver.setOptionValue(option, value)

    raised: list[BaseException] = []

    def asked(event: highspy.HighsCallbackEvent) -> None:
        # Nothing may be raised through the solver; it is raised again behind it.
        try:
            if clock.over():
                event.interrupt()
        except BaseException as error:
            raised.append(error)
            event.interrupt()

    solver.cbMipInterrupt.subscribe(asked)
    solver.run()
    if raised:
        raise raised[0]
    status = solver.getModelStatus()
    if status == highspy.HighsModelStatus.kInfeasible:
        return None, True
    info = solver.getInfo()
    if info.primal_solution_status != 2:  # kSolutionStatusFeasible
        return None, False
    values = list(solver.getSolution().col_value)
    return values, status == highspy.HighsModelStatus.kOptimal


def _ints(values: Sequence[int]) -> np.ndarray[tuple[int], np.dtype[np.int32]]:
    return np.array(values, dtype=np.int32)


def _floats(values: Sequence[float]) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    return np.array(values, dtype=np.float64)
