"""A series file: read with every slip named, bought once."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from snipfold.cutting.order_plan import Prefer
from snipfold.findings import Problem, ProjectFileError
from snipfold.orders import ClassDay, Day, Occasion, Series, read_series, series_order

from .samples import EXAMPLES, OAT, bag, example, shop, tray
from .stand_in import strips_planner

TEXT = """
name = "Autumn"
spare = "10%"
prefer = "settings"

[[projects]]
file = "bag.toml"
sets = 24
make = 2026-09-05
film = "2026-09-07"
publish = 2026-09-12

[[projects]]
file = "tray.toml"
makers = 12
tables = 3
spare = "0%"
class = [2026-10-10, 2026-10-03]
"""


def problems(text: str) -> tuple[Problem, ...]:
    with pytest.raises(ProjectFileError) as refused:
        read_series(text, "autumn.toml")
    return refused.value.problems


def test_a_series_is_read_whole() -> None:
    series = read_series(TEXT, "autumn.toml")
    assert (series.name, series.spare, series.prefer) == (
        "Autumn", Fraction(1, 10), Prefer.SETTINGS,
    )  # fmt: skip
    bags, trays = series.projects
    assert (bags.file, bags.sets, bags.spare, bags.day) == ("bag.toml", 24, None, None)
    assert bags.days == (
        Day(Occasion.MAKE, date(2026, 9, 5), 1),
        Day(Occasion.FILM, date(2026, 9, 7), 1),
        Day(Occasion.PUBLISH, date(2026, 9, 12), 1),
    )
    assert (trays.sets, trays.spare, trays.day) == (12, 0, ClassDay(12, 3))
    assert [day.on for day in trays.days] == [date(2026, 10, 3), date(2026, 10, 10)]


ONE = '[[projects]]\nfile = "bag.toml"\nsets = 4\n'


@pytest.mark.parametrize(
    ("text", "line", "field", "word"),
    [
        ('[[projects]]\nfile = "bag.toml"\nsets = 0', 3, "projects.1.sets", "no sets"),
        ('[[projects]]\nfile = "bag.toml"\nsets = -2', 3, "projects.1.sets", "less than no sets"),
        ('[[projects]]\nfile = "bag.toml"\nsets = 1000000', 3, "projects.1.sets", "100000"),
        ('[[projects]]\nfile = "bag.toml"\nsets = "ten"', 3, "projects.1.sets", "not a number"),
        ('[[projects]]\nfile = "bag.toml"', 1, "projects.1.sets", "missing"),
        ("[[projects]]\nsets = 4", 1, "projects.1.file", "fair-bag.toml"),
        ('spare = "400%"\n' + ONE, 1, "spare", "at most 100%"),
        ('spare = "-5%"\n' + ONE, 1, "spare", "less than nothing"),
        ('spare = "lots"\n' + ONE, 1, "spare", "10%"),
        ('prefer = "speed"\n' + ONE, 1, "prefer", '"sheets"'),
        (ONE + 'make = "soon"', 4, "projects.1.make", "2026-09-05"),
        (ONE + 'make = "2026-02-30"', 4, "projects.1.make", "no such day"),
        (ONE + "make = 0026-09-05", 4, "projects.1.make", "the year 26"),
        (ONE + "make = 2026-09-05T10:00:00", 4, "projects.1.make", "whole day"),
        (ONE + "make = [2026-09-05, 7]", 4, "projects.1.make.2", "not a day"),
        (ONE + "make = 2026-09-05\nfilm = 2026-09-01", 5, "projects.1.film", "2026-09-05"),
        (ONE + "make = 2026-09-05\nclass = [2026-09-09, 2026-09-01]", 5, "projects.1.class.2",
         "before the first make day"),
        (ONE + "tables = 3", 4, "projects.1.tables", "makers"),
        (ONE + "makers = 3\ntables = 9", 5, "projects.1.tables", "more than the 3 makers"),
        (ONE + 'colour = "red"', 4, "projects.1.colour", "known here"),
    ],
)  # fmt: skip
def test_each_slip_names_its_line_its_field_and_what_would_be_right(
    text: str, line: int, field: str, word: str
) -> None:
    (problem,) = problems(text)
    assert (problem.source, problem.line, problem.field) == ("autumn.toml", line, field)
    assert word in str(problem)


def test_a_day_that_toml_itself_refuses_is_named_by_its_line() -> None:
    (problem,) = problems(ONE + "make = 2026-02-30")
    assert problem.line == 4
    assert "no such day" in str(problem)


def test_a_series_of_nothing_is_refused() -> None:
    (problem,) = problems('name = "Autumn"')
    assert "[[projects]]" in str(problem)


# ---- worked out


def autumn() -> Series:
    text = (EXAMPLES / "series" / "hazel-row-autumn.toml").read_text(encoding="utf-8")
    return read_series(text, "autumn.toml")


def test_shared_papers_are_bought_once_and_what_that_saves_is_named() -> None:
    """Bags and trays both take small check, 12 a pack: each alone opens a pack of its own."""
    series = read_series(TEXT, "autumn.toml")
    made = series_order(series, [bag(), tray()], shop(), planner=strips_planner)
    assert made.whole.prefer is Prefer.SETTINGS
    alone = [
        {line.name: line for line in one.shopping.papers}[name].packs
        for one in made.alone
        for name in ("small check 12 x 12 in",)
    ]
    together = {line.name: line for line in made.whole.shopping.papers}["small check 12 x 12 in"]
    assert together.packs < sum(alone)
    assert ("small check 12 x 12 in", together.packs, sum(alone)) in {
        (one.name, one.together, one.apart) for one in made.savings
    }


def test_the_kits_of_a_series_are_those_of_its_projects_alone() -> None:
    series = read_series(TEXT, "autumn.toml")
    made = series_order(series, [bag(), tray()], shop(), planner=strips_planner)
    assert [(kit.sets, kit.spare) for kit in made.whole.kits] == [(24, 3), (12, 0)]
    assert [(one.kits[0].sets, one.kits[0].spare) for one in made.alone] == [(24, 3), (12, 0)]
    assert made.alone[0].classroom is None
    assert made.alone[1].classroom is not None
    for kit, one in zip(made.whole.kits, made.alone, strict=True):
        mine = one.kits[0]
        assert [(p.name, p.width, p.height, p.count) for p in kit.parts] == [
            (p.name, p.width, p.height, p.count) for p in mine.parts
        ]


def test_the_example_series_is_whole() -> None:
    series = autumn()
    designs = [
        example(project.file.removeprefix("../").removesuffix(".toml"))
        for project in series.projects
    ]
    made = series_order(series, designs, shop(), planner=strips_planner)
    assert not any(plan.plan.missing for plan in made.whole.papers)
    assert {kit.name for kit in made.whole.kits} == set(made.names)
    assert made.whole.kits[1].spare == 3, "a class of 12 at 3 tables: one a table"
    assert OAT in {plan.paper for plan in made.whole.papers}
