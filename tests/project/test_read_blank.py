"""Reading a scored blank: what is right, what is left out, and errors that point at the cell."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given as given_by
from hypothesis import settings
from hypothesis import strategies as st

from snipfold.cli.commands import snipfold
from snipfold.findings import Problem, ProjectFileError
from snipfold.flat import Fold
from snipfold.measure import Length, System
from snipfold.project import edit_field, new_blank_text, read_project, resolve, style_of
from snipfold.styles import Doing, ScoredBlank
from snipfold.workshop import default_workshop

from ..styles.blanks import BAG, HEAD, designed, read

INCH = Length.inch

#: Two columns and three rows: 1.1 and 2.1 below, 1.3 and 2.3 above.
GRID = """[blank]
width = "4 in"
height = "6 in"
across = ["2 in"]
up = ["2 in", "4 in"]
"""


def problems(text: str) -> tuple[Problem, ...]:
    with pytest.raises(ProjectFileError) as refused:
        read(text)
    return refused.value.problems


def refused(text: str) -> tuple[Problem, ...]:
    """The problems of a file, if there are any."""
    try:
        read(text)
    except ProjectFileError as error:
        return error.problems
    return ()


def test_a_blank_that_says_nothing_else_is_scored_at_every_line() -> None:
    plan = read(HEAD + GRID).blank
    assert plan is not None
    assert (plan.width, plan.across, plan.up) == (INCH(4), (INCH(2),), (INCH(2), INCH(4)))
    assert len(plan.panels) == 6
    # Three lines between columns, four between rows.
    assert len(plan.scores) == 7
    assert all((s.fold, s.degrees) == (Fold.MOUNTAIN, 90) for s in plan.scores)
    assert plan.cavity.is_open


def test_its_style_comes_from_the_plan() -> None:
    style = style_of(read(BAG))
    assert isinstance(style, ScoredBlank)
    assert style.noun == ("bag", "bags")
    assert style.pieces == ("bag",)


def test_a_panel_goes_by_its_name_or_any_of_its_cells() -> None:
    by_name = read(HEAD + GRID + 'valley = [["lid", "1.2"]]\n[blank.names]\n"1.3" = "lid"\n').blank
    by_cell = read(HEAD + GRID + 'valley = [["1.2", "1.3"]]\n[blank.names]\n"1.3" = "lid"\n').blank
    assert by_name == by_cell is not None


@pytest.mark.parametrize(
    ("text", "line", "field", "words"),
    [
        # lines
        ('up = ["4 in", "2 in"]', 8, "blank.up.2", "row 2 has no height"),
        ('up = ["2 in", "2 in"]', 8, "blank.up.2", "no further than the line before it, 2 in"),
        ('up = ["2 in", "6 in"]', 8, "blank.up.2", "beyond the upper edge: the blank is 6 in high"),
        ('up = ["2 in", "0 in"]', 8, "blank.up.2", "more than nothing"),
        ('up = "2 in"', 8, "blank.up", "in brackets"),
        ('up = ["2 cubits"]', 8, "blank.up.1", "cubits"),
        # cells
        ('away = ["4.3"]', 9, "blank.away.1",
         "cell 4.3: the blank has only 2 columns and 3 rows"),
        ('away = ["0.1"]', 9, "blank.away.1", "count columns from the left"),
        ("away = [1.1]", 9, "blank.away.1", 'in quotes, like "2.1"'),
        ('away = ["left"]', 9, "blank.away.1", "not a cell"),
        ('away = "1.1"', 9, "blank.away", "not a list"),
        ('away = ["1.1", "1.1"]', 9, "blank.away.2", "cell 1.1 stands there twice"),
        ('away = ["1.1", "1.2", "1.3", "2.1", "2.2", "2.3"]', 9, "blank.away", "nothing is left"),
        ('away = ["1.2", "2.1"]', 9, "blank.away",
         "cell 1.1: no score joins it to the rest, so it would fall off"),
        # joined cells
        ('joined = [["1.1", "2.2"]]', 9, "blank.joined.1",
         "cells 1.1, 2.2 make no rectangle: 2.1, 1.2 are missing"),
        ('joined = [["1.1"]]', 9, "blank.joined.1", "not a group"),
        ('away = ["1.1"]\njoined = [["1.1", "1.2"]]', 10, "blank.joined.1.1",
         "cell 1.1 is cut away"),
        ('joined = [["1.1", "1.2"], ["1.2", "1.3"]]', 9, "blank.joined.2.1",
         "cell 1.2 is joined already"),
        # slits and folds
        ('slit = [["1.1", "2.2"]]', 9, "blank.slit.1",
         "cell 1.1 and cell 2.2 do not lie side by side"),
        ('slit = [["1.1"]]', 9, "blank.slit.1", "not two panels"),
        ('slit = [["1.1", "1.1"]]', 9, "blank.slit.1", "both are the one panel cell 1.1"),
        ('slit = [["1.1", "2.1"], ["2.1", "1.1"]]', 9, "blank.slit.2", "slit already"),
        ('slit = [["1.1", "1.2"], ["1.1", "2.1"]]', 9, "blank.slit",
         "cell 1.1: no score joins it"),
        ('slit = [["1.1", "1.2"]]\nvalley = [["1.1", "1.2"]]', 10, "blank.valley.1", "is slit"),
        ('away = ["2.3"]\nvalley = [["1.3", "2.3"]]', 10, "blank.valley.1.2",
         "cell 2.3 is cut away"),
        ('[[blank.fold]]\nbetween = ["1.1", "1.2"]\ndegrees = 200', 11, "blank.fold.1.degrees",
         "from 1 to 180"),
        ('[[blank.fold]]\nbetween = ["1.1", "1.2"]\ndegrees = "90"', 11, "blank.fold.1.degrees",
         "not an angle"),
        ('[[blank.fold]]\nbetween = ["1.1", "1.2"]\nfold = "hill"', 11, "blank.fold.1.fold",
         '"mountain"'),
        # trims
        ('tucked = ["1.2"]', 9, "blank.tucked.1", "cell 1.2 hangs on 3 scores"),
        ('slit = [["1.1", "2.1"]]\ntucked = ["1.1"]\nsliver = "1 in"', 10, "blank.tucked.1",
         "nothing is left"),
        ('slit = [["1.1", "2.1"]]\ntucked = ["1.1"]\nmitred = ["1.1"]', 11, "blank.mitred.1",
         "trimmed already"),
        # names
        ('away = ["1.1"]\n[blank.names]\n"1.1" = "tab"', 11, 'blank.names."1.1"',
         "cell 1.1 is cut away, so it is no panel"),
        ('[blank.names]\n"1.1" = "tab"\n"2.1" = "Tab"', 11, 'blank.names."2.1"',
         "another panel has that name"),
        ('joined = [["1.1", "2.1"]]\n[blank.names]\n"1.1" = "a"\n"2.1" = "b"', 12,
         'blank.names."2.1"', "cell 2.1 is part of the a already"),
        ('[blank.names]\n"1.1" = "2.2"', 10, 'blank.names."1.1"', "not a name for a panel"),
        ('[blank.names]\nfront = "1.1"', 10, "blank.names.front", "not a cell"),
        ('valley = [["frnt", "1.2"]]\n[blank.names]\n"1.3" = "front"', 9, "blank.valley.1.1",
         "did you mean “front”?"),
        ('called = "mats"', 9, "blank.called", "means something else"),
        # glue
        ('[[blank.glue]]\npanel = "1.1"', 9, "blank.glue.1.on", "missing"),
        ('[[blank.glue]]\npanel = "1.1"\non = "1.1"', 11, "blank.glue.1.on", "hold on to itself"),
        ('[[blank.glue]]\npanel = "1.2"\non = "1.1"', 9, "blank.glue.1.along",
         "cell 1.2 has several scores"),
        ('[[blank.glue]]\npanel = "1.2"\non = "1.1"\nalong = "up"', 12, "blank.glue.1.along",
         '"left"'),
        ('[[blank.glue]]\npanel = "1.2"\non = "1.1"\nalong = "left"\nends = "1 in"', 13,
         "blank.glue.1.ends", "the left side of cell 1.2 is only 2 in long"),
        ('[[blank.glue]]\npanel = "1.2"\non = "1.1"\nalong = "left"\n'
         '[[blank.glue]]\npanel = "1.2"\non = "1.1"\nalong = "left"', 14, "blank.glue.2.panel",
         "has this strip already"),
        # what meets
        ('meets = [["1.1 left", "2.1 rigth"]]', 9, "blank.meets.1.2", "did you mean “right”?"),
        ('meets = [["1.1", "2.1 right"]]', 9, "blank.meets.1.1", "no side of a panel"),
        ('meets = [["1.1 left", "1.1 left"]]', 9, "blank.meets.1", "the same side"),
        # room, strap
        ('[blank.cavity]\nfloor = "1.1"', 10, "blank.cavity.floor", "does not lie level"),
        ('[blank.cavity]\nwidth = ["1.3", "1.1"]', 10, "blank.cavity.width",
         "cell 1.3 does not face that way when closed"),
        ('[blank.cavity]\ndepth = "1.1"', 10, "blank.cavity.depth", "faces that way itself"),
        ('strap_on = ["1.1", "2.1"]', 9, "blank.strap_on", "do not face each other"),
        ('[[contents]]\nwidth = "1 in"\ndepth = "1 in"\nheight = "1 in"', 9, "contents.1",
         "nothing says what bounds the inside"),
        # steps
        ('[[blank.step]]\nfold = [["1.1", "1.2"]]', 9, "blank.step",
         "the score between cell 2.2 and cell 2.1 is folded in no step"),
        ('[[blank.step]]\ntitle = "Rest"', 9, "blank.step.1.fold", "missing"),
        ('[[blank.step]]\nglue = ["1.1"]', 10, "blank.step.1.glue.1", "no glue lies on that panel"),
        ('[[blank.step]]\nfold = [["1.1", "2.2"]]', 10, "blank.step.1.fold.1", "side by side"),
        ('[[blank.step]]\nfold = [["1.1", "1.2"]]\n[[blank.step]]\nfold = [["1.2", "1.1"]]', 12,
         "blank.step.2.fold.1", "folded in step 1 already"),
        # what nobody knows
        ("colour = 3", 9, "blank.colour", "no “colour” is known here"),
        ('[measures]\nwidth = "3 in"', 10, "measures.width", "no “width” is known here"),
    ],
)  # fmt: skip
def test_each_slip_points_at_its_line_its_field_and_its_cell(
    text: str, line: int, field: str, words: str
) -> None:
    key = text.partition(" = ")[0]
    grid = "".join(f"{one}\n" for one in GRID.splitlines() if not one.startswith(f"{key} ="))
    found = problems(HEAD + grid + text + "\n")
    said = [(p.line, p.field) for p in found if words in str(p)]
    assert said == [(line, field)], list(map(str, found))
    assert all(p.source == "own.toml" and p.right for p in found)


@pytest.mark.parametrize("key", ["width", "height"])
def test_a_blank_without_its_size_says_so(key: str) -> None:
    grid = "".join(f"{one}\n" for one in GRID.splitlines() if not one.startswith(key))
    (problem,) = problems(HEAD + grid)
    assert (problem.field, problem.wrong) == (f"blank.{key}", "missing")


def test_other_styles_have_no_blank() -> None:
    (problem,) = problems('style = "wrap bag"\nunits = "inch"\n' + GRID)
    assert (problem.line, problem.field) == (3, "blank")


def test_a_slip_in_the_name_of_the_style_is_recognised() -> None:
    (problem,) = problems(HEAD.replace("scored blank", "scord blank") + GRID)
    assert "did you mean “scored blank”?" in problem.right


def test_steps_are_as_they_are_listed_and_glue_meets_as_soon_as_both_panels_are_there() -> None:
    text = (
        BAG
        + """
[[blank.step]]
title = "Wrap it"
fold = [["tab", "left side"], ["left side", "front"], ["front", "right side"], ["right side", "back"]]
[[blank.step]]
fold = [["left side", "left flap"], ["right side", "right flap"]]
[[blank.step]]
fold = [["back", "back flap"]]
[[blank.step]]
does = "press"
fold = [["front", "front flap"]]
"""
    )
    steps = designed(text).construction.steps
    assert [(step.title, step.doing) for step in steps[1:]] == [
        ("Wrap it", Doing.SEAM),
        ("Fold in the left flap and the right flap", Doing.TURN_IN),
        ("Press the back flap down", Doing.PRESS),
        ("Press the front flap down", Doing.PRESS),
    ]
    assert [step.glue for step in steps[1:]] == [
        ("tab tape",), (), ("left flap tape", "right flap tape"), ("back flap tape",),
    ]  # fmt: skip


def test_what_is_pushed_in_behind_a_wall_is_tucked_last() -> None:
    """A sleeve with a lid: its tuck flap goes in behind the front, which stands already."""
    text = (
        HEAD
        + """
[blank]
called = "box"
width = "10 1/2 in"
height = "6 in"
across = ["1/2 in", "3 in", "5 1/2 in", "8 in"]
up = ["3 in", "5 1/2 in"]
away = ["1.2", "1.3", "2.2", "2.3", "4.2", "4.3", "5.2", "5.3"]
slid = [["tuck flap", "back"]]
tucked = ["tuck flap"]
mitred = ["tab"]
[blank.names]
"1.1" = "tab"
"2.1" = "left side"
"3.1" = "front"
"4.1" = "right side"
"5.1" = "back"
"3.2" = "lid"
"3.3" = "tuck flap"
[[blank.glue]]
panel = "tab"
on = "back"
[blank.cavity]
width = ["left side", "right side"]
depth = ["front", "back"]
rim = "lid"
"""
    )
    design = designed(text)
    assert [step.doing for step in design.construction.steps] == [
        Doing.CREASE, Doing.SEAM, Doing.TUCK,
    ]  # fmt: skip
    assert design.construction.steps[-1].moving == ("tuck flap", "lid")
    assert design.construction.cavity.covered
    assert not [one for one in design.findings if one.severity.value != "note"]


# ---- changing a file


@pytest.mark.parametrize(
    ("field", "value", "line"),
    [
        ("blank.across.3", "5 7/8 in", 'across = ["1/2 in", "2 in", "5 7/8 in", "7 1/4 in"]'),
        ("blank.width", "11 1/4 in", 'width = "11 1/4 in"'),
        ("blank.away", "1.1, 2.1", 'away = ["1.1", "2.1"]'),
        ('blank.names."3.2"', "face", '"3.2" = "face"'),
        ("blank.glue.4.ends", "1/8 in", 'ends = "1/8 in"'),
        ("blank.cavity.covered", "true", "covered = true"),
    ],
)
def test_a_field_of_a_blank_is_changed_in_place(field: str, value: str, line: str) -> None:
    before, after = BAG.splitlines(), edit_field(BAG, field, value).splitlines()
    assert line in after
    assert sum(one not in after for one in before) <= 1


def test_a_field_that_no_blank_has_is_refused() -> None:
    for field, value in (
        ("blank.slit", "1.1"), ("blank.across.9", "3 in"), ("blank.fold.1.degrees", "many"),
    ):  # fmt: skip
        with pytest.raises(ValueError, match=r"blank|number 9"):
            edit_field(BAG, field, value)


# ---- starting one


@pytest.mark.parametrize("system", System)
def test_a_new_file_checks_clean(system: System) -> None:
    text = new_blank_text(system, "Sample")
    project = read_project(text, "new.toml")
    assert (project.name, project.system) == ("Sample", system)
    assert resolve(project, default_workshop(system)).findings == ()


def _remarks(text: str) -> Iterator[str]:
    """The text with each remark that is a line of a file woken, one at a time.

    Those that belong below a heading which is a remark too are left alone.
    """
    lines = text.splitlines()
    heading = False
    for number, line in enumerate(lines):
        heading = line.startswith("# ") and (heading or line.startswith("# ["))
        woken = line.removeprefix("# ")
        if line != woken and not heading and re.match(r"[a-z_]+ = ", woken):
            yield "\n".join([*lines[:number], woken, *lines[number + 1 :]])


@pytest.mark.parametrize("system", System)
def test_every_remark_of_a_new_file_is_a_line_that_it_may_hold(system: System) -> None:
    woken = list(_remarks(new_blank_text(system)))
    assert len(woken) > 12
    for text in woken:
        tomllib.loads(text)
        assert not [one for one in refused(text) if "known here" in one.wrong]


def test_the_command_starts_one_and_lists_it(tmp_path: Path) -> None:
    path = tmp_path / "own.toml"
    runner = CliRunner()
    assert runner.invoke(snipfold, ["new", str(path), "--style", "scored-blank"]).exit_code == 0
    assert 'name = "Own"' in path.read_text(encoding="utf-8")
    checked = runner.invoke(snipfold, ["check", str(path)])
    assert (checked.exit_code, "Nothing to mend." in checked.output) == (0, True)
    listed = runner.invoke(snipfold, ["styles"]).output
    assert "scored blank" in listed
    assert "docs/scored-blank.md" in listed


def test_a_scored_blank_has_no_measures_to_set(tmp_path: Path) -> None:
    args = ["new", str(tmp_path / "own.toml"), "--style", "scored blank", "--set", "width=3 in"]
    refused = CliRunner().invoke(snipfold, args)
    assert refused.exit_code == 2
    assert "has no measures" in refused.output


def test_where_its_lines_are_is_told_in_the_tutorial() -> None:
    """Every field of [blank] that a file may hold is explained."""
    told = (Path(__file__).parents[2] / "docs/scored-blank.md").read_text(encoding="utf-8")
    known = [one.right for one in problems(HEAD + GRID + "q9 = 1\n") if one.field == "blank.q9"]
    fields = known[0].removeprefix("known: ").split(", ")
    assert len(fields) > 20
    assert all(f"`{field}`" in told or f"[blank.{field}]" in told for field in fields)


# ---- whatever is written, it is read or refused


_WORD = st.sampled_from(
    ["1.1", "2.2", "9.9", "1.10", "", " ", "front", "left", "1.1 left", "tab", "2 in", "-1 in"]
)
_THING = st.recursive(
    _WORD.map(lambda word: f'"{word}"')
    | st.sampled_from(["1", "1.1", "true", "0.5", "1979-05-27"]),
    lambda inner: st.lists(inner, max_size=3).map(lambda items: f"[{', '.join(items)}]"),
    max_leaves=6,
)
_KEYS = (
    "called", "several", "says", "across", "up", "away", "joined", "slit", "valley", "tucked",
    "mitred", "sliver", "mitre", "stands", "stands_as", "inside", "slid", "meets", "strap_on",
    "names", "roles", "glue", "fold", "step", "cavity",
)  # fmt: skip


@given_by(st.dictionaries(st.sampled_from(_KEYS), _THING, max_size=4))
@settings(max_examples=150, deadline=None)
def test_whatever_stands_in_a_blank_it_is_read_or_refused_with_its_line(
    said: dict[str, str],
) -> None:
    lines = {"width": '"4 in"', "height": '"6 in"', "across": '["2 in"]', "up": '["2 in"]', **said}
    text = HEAD + "[blank]\n" + "".join(f"{key} = {value}\n" for key, value in lines.items())
    found = refused(text)
    assert all(p.line > 0 and p.field.startswith("blank") for p in found)
    if not found:
        resolve(read(text), default_workshop(System.INCH))
