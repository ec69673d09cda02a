"""Project files that are written: new ones, and single fields changed in place."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from snipfold.findings import ProjectFileError
from snipfold.measure import Length, System, parse_length
from snipfold.project import check_papers, edit_field, exact_words, new_project_text, read_project
from snipfold.styles import STYLES, Style
from snipfold.workshop import default_workshop

styles = st.sampled_from(STYLES)
systems = st.sampled_from(list(System))
names = st.text(
    st.characters(codec="utf-8", exclude_categories=["C", "Z"]), min_size=1, max_size=60
)

FILE = """\
# Our Saturday bag.
style = "wrap bag"      # the one with the strap
units = "inch"

[measures]
width = "4 1/4 in"      # two fingers more than a bun
# tab = "1/2 in"        # wide enough for the tape

[mats]
border = "1/16 in"
# off = ["back"]        # that side is never seen

# [mats.borders]
# front = "1/8 in"

[strap]
width = "3/4 in"
# length = "12 in"      # as cut

[[contents]]
name = "bun"
width = "3 1/2 in"
depth = "1 in"
height = 4
"""


@given(styles, systems, names)
def test_a_new_file_reads_back_as_what_it_was_made_of(
    style: Style, system: System, name: str
) -> None:
    text = new_project_text(style, system, name=name)
    project = read_project(text, "new.toml")
    assert (project.name, project.style, project.system) == (name, style.name, system)
    check_papers(project, default_workshop(system), text, "new.toml")


@given(styles, systems, st.data())
def test_measures_given_to_a_new_file_are_in_it_exactly(
    style: Style, system: System, data: st.DataObject
) -> None:
    millimetres = st.fractions(30, 200, max_denominator=64).map(Length.mm)
    inches = st.integers(20, 120).map(lambda n: Length.inch(Fraction(n, 16)))
    sizes = [m.name for m in style.measures if m.name in ("width", "depth", "height", "side")]
    given_measures: Mapping[str, Length] = data.draw(
        st.fixed_dictionaries({}, optional=dict.fromkeys(sizes, millimetres | inches))
    )
    text = new_project_text(style, system, given_measures)
    measures = tomllib.loads(text)["measures"]
    for name, length in given_measures.items():
        assert parse_length(measures[name]) == length


def test_every_remark_of_a_new_file_is_a_line_that_works() -> None:
    """Taking the # away from every line that is one gives a project file as well."""
    for style in STYLES:
        for system in System:
            lines = new_project_text(style, system).splitlines()
            woken = [
                line[2:] if "=" in line.partition("#")[2] or line.startswith("# [") else line
                for line in lines
                if not line.startswith("# Measures are")
            ]
            text = "\n".join(woken)
            project = read_project(text, "woken.toml")
            assert len(project.contents) == 1
            assert project.keep_grain
            assert len(project.measures) == len(style.measures)
            assert project.mats.borders
            assert project.mats.off
            assert project.mats.also


@given(st.fractions(0, 5000, max_denominator=10**6).map(Length.mm), systems)
def test_words_for_a_file_read_back_as_exactly_that_measure(length: Length, system: System) -> None:
    assert parse_length(exact_words(length, system)) == length


def test_a_changed_field_keeps_its_remark_and_everything_else() -> None:
    edited = edit_field(FILE, "measures.width", "4 1/2 in")
    assert edited == FILE.replace('"4 1/4 in"', '"4 1/2 in"')


def test_a_remark_comes_to_life() -> None:
    edited = edit_field(FILE, "measures.tab", "5/8 in")
    assert 'tab = "5/8 in"                  # wide enough for the tape\n' in edited
    assert read_project(edited, "f.toml").measures["tab"] == Length.inch("5/8")


def test_a_remark_of_another_table_stays_a_remark() -> None:
    text = FILE.replace("[mats]\n", "[mats]\n# width = 3\n")
    edited = edit_field(text, "contents.1.proud", "1/2 in")
    assert "# width = 3" in edited
    assert read_project(edited, "f.toml").contents[0].proud == Length.inch("1/2")


@pytest.mark.parametrize(
    ("field", "value", "path", "held"),
    [
        ("measures.height", "5 in", ("measures", "height"), "5 in"),
        ("mats.border", "1/8 in", ("mats", "border"), "1/8 in"),
        ("mats.borders.front", "1/4 in", ("mats", "borders", "front"), "1/4 in"),
        ("mats.borders.left side", "1/4 in", ("mats", "borders", "left side"), "1/4 in"),
        ("mats.on", "false", ("mats", "on"), False),
        ("mats.off", "back, left side", ("mats", "off"), ["back", "left side"]),
        ("papers.bag", "oat cardstock A4", ("papers", "bag"), "oat cardstock A4"),
        ("keep_grain", "true", ("keep_grain",), True),
        ("strap.length", "11 in", ("strap", "length"), "11 in"),
        ("contents.1.height", "3 in", ("contents", 0, "height"), "3 in"),
        ("name", 'Bun "to go"', ("name",), 'Bun "to go"'),
    ],
)
def test_each_field_that_a_mend_may_name_can_be_set(
    field: str, value: str, path: tuple[str | int, ...], held: object
) -> None:
    edited = edit_field(FILE, field, value)
    found: object = tomllib.loads(edited)
    for part in path:
        found = found[part]  # type: ignore[index]
    assert found == held
    for remark in ("# Our Saturday bag.", "# the one with the strap", "# two fingers more"):
        assert remark in edited
    read_project(edited, "f.toml")


def test_a_field_can_be_taken_out() -> None:
    edited = edit_field(FILE, "strap.width", "")
    assert "width" not in tomllib.loads(edited)["strap"]
    assert edit_field(FILE, "measures.sliver", "") == FILE


def test_inline_tables_can_be_edited_too() -> None:
    text = 'style = "wrap bag"\nunits = "inch"\nmeasures = { width = 4 } # ours\n'
    edited = edit_field(text, "measures.width", "5 in")
    assert edited == text.replace("4 }", '"5 in" }')
    assert read_project(edit_field(text, "measures.depth", "2 in"), "f").measures["depth"]


@pytest.mark.parametrize(
    "field", ["", "colour", "mats.borders.front.left", "contents.1", "measures"]
)
def test_a_field_that_no_file_has_is_refused(field: str) -> None:
    with pytest.raises(ValueError, match="no project file has a field"):
        edit_field(FILE, field, "1")


def test_a_thing_that_is_not_there_cannot_be_changed() -> None:
    with pytest.raises(ValueError, match="no number 2"):
        edit_field(FILE, "contents.2.width", "1 in")


def test_a_broken_file_is_not_edited() -> None:
    with pytest.raises(ProjectFileError):
        edit_field("style = wrap bag", "measures.width", "4 in")


@given(st.sampled_from(["measures.width", "measures.flap", "strap.foot", "mats.border"]),
       st.integers(1, 64))  # fmt: skip
def test_an_edit_is_read_back_as_it_was_made(field: str, sixteenths: int) -> None:
    length = Length.inch(Fraction(sixteenths, 16))
    edited = edit_field(FILE, field, exact_words(length, System.INCH))
    table, key = field.split(".")
    assert parse_length(tomllib.loads(edited)[table][key]) == length
