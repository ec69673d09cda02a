"""Reading a series file."""

from __future__ import annotations

from datetime import date

from ..cutting.order_plan import Prefer
from ..findings import ProjectFileError
from ..workshop.toml_text import Table, read_toml
from .asked import MOST_SETS, MOST_SPARE, MOST_TABLES, ClassDay
from .series import Day, Occasion, Series, SeriesProject

#: The words of files and commands for what a maker wants least of.
PREFERS = {"sheets": Prefer.SHEETS, "settings": Prefer.SETTINGS, "offcut": Prefer.OFFCUT}

_MOST_PROJECTS = 100
#: Days outside these years are slips of the keyboard.
_YEARS = range(2000, 2200)
#: What cannot come before what.
_BEFORE = (
    (Occasion.MAKE, Occasion.FILM),
    (Occasion.MAKE, Occasion.PUBLISH),
    (Occasion.FILM, Occasion.PUBLISH),
    (Occasion.MAKE, Occasion.CLASS),
)


def read_series(text: str, source: str) -> Series:
    """The series that the TOML `text` says; `source` is the file's name for the messages.

    Raises `ProjectFileError` with every problem found: unknown names, counts, shares and days that
    cannot be. Whether the project files are there is for the reader of files to say.
    """
    top = read_toml(text, source)
    name, notes = top.words("name"), top.words("notes", notes=True)
    spare = top.share("spare", MOST_SPARE)
    prefer = top.choice("prefer", PREFERS)
    tables = top.tables("projects", _MOST_PROJECTS)
    if not tables and not top.problems:
        top.problem(("projects",), "", "missing", "name at least one under [[projects]]")
    projects = [_project(table) for table in tables]
    top.finish()
    made = sum(project.sets for project in projects if project is not None)
    if made > MOST_SETS:
        top.problem(
            ("projects",), "", f"{made} sets in all, more than the {MOST_SETS} planned at once",
            "make two series of them",
        )  # fmt: skip
    if top.problems:
        raise ProjectFileError(top.problems)
    return Series(name or source, spare, prefer, tuple(one for one in projects if one), notes or "")


def _project(table: Table) -> SeriesProject | None:
    file = table.words("file")
    if "file" not in table:
        table.problem(("file",), "", "missing", 'name a project file, like file = "fair-bag.toml"')
    sets = table.count("sets", MOST_SETS, "sets")
    makers = table.count("makers", MOST_SETS, "makers")
    tables = table.count("tables", MOST_TABLES, "tables")
    if "sets" not in table and "makers" not in table:
        table.problem(
            ("sets",), "", "missing", "say how many, like sets = 12, or makers of a class"
        )
    if tables and "makers" not in table:
        table.problem(("tables",), str(tables), "tables without makers", "add makers = 12")
    elif tables and makers and tables > makers:
        table.problem(("tables",), str(tables), f"more than the {makers} makers", "give fewer")
        tables = None
    spare = table.share("spare", MOST_SPARE)
    days = {occasion: table.days(occasion.value) for occasion in Occasion}
    for occasion, on in days.items():
        for number, day in enumerate(on):
            if day.year not in _YEARS:
                keys = _keys(table, occasion, number)
                table.problem(keys, str(day), f"the year {day.year}", "write it like 2026-09-05")
    _in_order(table, days)
    table.finish()
    sets = sets or makers
    if file is None or sets is None:
        return None
    return SeriesProject(
        file,
        sets,
        spare,
        tuple(
            Day(occasion, day, number)
            for occasion, on in days.items()
            for number, day in enumerate(sorted(set(on)), start=1)
        ),
        None if makers is None else ClassDay(makers, tables or 1),
    )


def _keys(table: Table, occasion: Occasion, number: int) -> tuple[str | int, ...]:
    listed = isinstance(table.raw(occasion.value), list)
    return (occasion.value, number) if listed else (occasion.value,)


def _in_order(table: Table, days: dict[Occasion, tuple[date, ...]]) -> None:
    """Nothing is filmed, shown or taught before it is made, nor published before it is filmed."""
    for early, late in _BEFORE:
        if not days[early] or not days[late]:
            continue
        first = min(days[early])
        wrong = [number for number, day in enumerate(days[late]) if day < first]
        if wrong:
            day = days[late][wrong[0]]
            table.problem(
                _keys(table, late, wrong[0]), str(day),
                f"before the first {early.value} day, {first}", "move one of the two",
            )  # fmt: skip
            return
