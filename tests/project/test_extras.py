"""Embellishments and print runs in a project file."""

from __future__ import annotations

from decimal import Decimal

import pytest

from snipfold.findings import Problem, ProjectFileError
from snipfold.measure import System
from snipfold.project import Project, edit_field, new_project_text, read_project
from snipfold.styles import style_named
from snipfold.supplies import Extra

HEAD = 'style = "wrap bag"\nunits = "inch"\n'


def read(text: str) -> Project:
    return read_project(HEAD + text, "bag.toml")


def problems(text: str) -> tuple[Problem, ...]:
    with pytest.raises(ProjectFileError) as refused:
        read(text)
    return refused.value.problems


def test_a_file_without_extras_has_none() -> None:
    assert read("").extras == ()
    assert read("").same_sheet == ()


def test_extras_are_read_with_their_count_and_price() -> None:
    made = read(
        '[[extras]]\nname = "bow"\ncount = 2\nprice = "0.20"\n[[extras]]\nname = "tag"\ncount = 1'
    )
    assert made.extras == (Extra("bow", 2, Decimal("0.20")), Extra("tag", 1, None))


def test_pieces_of_one_print_run_are_named() -> None:
    assert read('same_sheet = ["bag", "strap"]').same_sheet == ("bag", "strap")


@pytest.mark.parametrize(
    ("text", "line", "field", "word"),
    [
        ('[[extras]]\ncount = 2', 3, "extras.1.name", "missing"),
        ('[[extras]]\nname = "bow"', 3, "extras.1.count", "missing"),
        ('[[extras]]\nname = "bow"\ncount = 0', 5, "extras.1.count", "no pieces"),
        ('[[extras]]\nname = "bow"\ncount = 1.5', 5, "extras.1.count", "not a number of pieces"),
        ('[[extras]]\nname = "bow"\ncount = 1\nprice = "-1"', 6, "extras.1.price",
         "less than nothing"),
        ('[[extras]]\nname = "bow"\ncount = 1\nprice = "cheap"', 6, "extras.1.price", "4.50"),
        ('[[extras]]\nname = "bow"\ncount = 1\n[[extras]]\nname = "bow"\ncount = 2', 7,
         "extras.2.name", "twice"),
        ('[[extras]]\nname = "bow"\ncount = 1\ncolour = "red"', 6, "extras.1.colour", "known here"),
        ('same_sheet = ["bag", "lid"]', 3, "same_sheet.2", "no such piece"),
        ('same_sheet = ["bag"]', 3, "same_sheet", "two or more"),
        ('same_sheet = ["bag", "bag"]', 3, "same_sheet.2", "twice"),
    ],
)  # fmt: skip
def test_each_slip_names_its_line_its_field_and_what_would_be_right(
    text: str, line: int, field: str, word: str
) -> None:
    (problem,) = problems(text)
    assert (problem.source, problem.line, problem.field) == ("bag.toml", line, field)
    assert word in str(problem)


def test_extras_are_edited_in_place() -> None:
    text = HEAD + '[[extras]]\nname = "bow"\ncount = 2  # one a side\n'
    changed = edit_field(text, "extras.1.count", "3")
    assert "count = 3  # one a side" in changed
    assert read_project(changed, "bag.toml").extras == (Extra("bow", 3),)
    priced = edit_field(text, "extras.1.price", "0.20")
    assert read_project(priced, "bag.toml").extras == (Extra("bow", 2, Decimal("0.20")),)
    with pytest.raises(ValueError, match="whole number"):
        edit_field(text, "extras.1.count", "some")


def test_a_new_file_shows_how_extras_are_written() -> None:
    text = new_project_text(style_named("wrap bag"), System.INCH)
    woken = text.replace("# [[extras]]", "[[extras]]")
    for key in ('name = "ribbon bow"', "count = 1", 'price = "0.20"'):
        assert f"# {key}" in woken
        woken = woken.replace(f"# {key}", key)
    assert read_project(woken, "bag.toml").extras == (Extra("ribbon bow", 1, Decimal("0.20")),)
