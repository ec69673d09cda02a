"""Reading project files: what is read, what is assumed, and what is refused."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from snipfold.findings import Problem, ProjectFileError
from snipfold.measure import Length, System
from snipfold.project import Project, check_papers, field_line, read_project
from snipfold.styles import STYLES
from snipfold.styles.wrap_bag import WrapBag
from snipfold.workshop import default_workshop

BAG = 'style = "wrap bag"\nunits = "inch"\n'


def read(text: str) -> Project:
    return read_project(text, "stall.toml")


def problems(text: str) -> tuple[Problem, ...]:
    with pytest.raises(ProjectFileError) as refused:
        read(text)
    return refused.value.problems


def said(text: str) -> list[str]:
    """What is wrong and what would be right, of each problem; nothing where the text is read."""
    try:
        read(text)
    except ProjectFileError as error:
        return [part for problem in error.problems for part in (problem.wrong, problem.right)]
    return []


def test_a_whole_file_is_read() -> None:
    project = read("""
        name = "Saturday bag"
        style = "wrap bag"
        units = "inch"
        notes = '''
        Tie with twine.
        '''
        keep_grain = true
        [measures]
        width = "4 1/4 in"
        depth = 2
        height = 5.5
        flap = "45 mm"
        [papers]
        bag = "oat cardstock Letter"
        [mats]
        border = "1/8 in"
        off = ["back"]
        also = "front flap"
        [mats.borders]
        front = "1/4 in"
        [strap]
        width = "1 in"
        length = "12 in"
        [[contents]]
        name = "loaf"
        width = "3 1/2 in"
        depth = "1 1/2 in"
        height = "5 in"
        [[contents]]
        width = 1
        depth = 1
        height = 6
        allowance = 0
        proud = "3/4 in"
    """)
    assert (project.name, project.style, project.system) == (
        "Saturday bag", "wrap bag", System.INCH,
    )  # fmt: skip
    assert project.notes == "Tie with twine."
    assert project.keep_grain
    assert project.measures == {
        "width": Length.inch("17/4"),
        "depth": Length.inch(2),
        "height": Length.inch("11/2"),
        "flap": Length.mm(45),
    }
    assert project.papers == {"bag": "oat cardstock Letter", "mats": "", "strap": ""}
    assert project.mats.border == Length.inch("1/8")
    assert project.mats.borders == {"front": Length.inch("1/4")}
    assert (project.mats.off, project.mats.also) == ({"back"}, {"front flap"})
    assert (project.strap.width, project.strap.length) == (Length.inch(1), Length.inch(12))
    loaf, second = project.contents
    assert (loaf.name, loaf.allowance, loaf.proud) == ("loaf", Length.inch("1/8"), Length.mm(0))
    assert (second.name, second.allowance, second.proud) == (
        "treat 2", Length.mm(0), Length.inch("3/4"),
    )  # fmt: skip


def test_a_short_file_takes_the_usual_borders_and_strap() -> None:
    """A 2 mm border: http://inkspirationaldesigns.blogspot.com/2013/06/borders-matting-and-layers.html;
    the others are common practice, no source."""
    inch, metric = read(BAG), read('style = "wrap bag"\nunits = "metric"\n')
    assert (inch.mats.on, inch.mats.border) == (True, Length.inch("1/16"))
    assert (metric.mats.on, metric.mats.border) == (True, Length.mm(2))
    assert (inch.strap.on, inch.strap.opening) == (True, Length.inch("5/2"))
    assert (metric.strap.opening, metric.strap.foot) == (Length.mm(65), Length.mm(25))


def test_a_bare_number_counts_in_the_units_of_the_file() -> None:
    assert read(BAG + "measures.width = 4.1").measures["width"] == Length.inch("4.1")
    metric = read('style = "wrap bag"\nunits = "metric"\nmeasures.width = 95.5')
    assert metric.measures["width"] == Length.mm("95.5")


@pytest.mark.parametrize(
    ("line", "field", "words"),
    [
        ('measures.widht = "4 in"', "measures.widht", "did you mean “width”?"),
        ("measures.width = 0", "measures.width", "write 1 in or more"),
        ('measures.width = "-4 in"', "measures.width", "less than nothing"),
        ("measures.width = nan", "measures.width", "not a measure"),
        ("measures.width = -inf", "measures.width", "not a measure"),
        ('measures.width = "1000000 in"', "measures.width", "longer than"),
        ("measures.width = 1e999999999", "measures.width", "figures"),
        ("measures.width = 0.00000000000000000000001", "measures.width", "figures"),
        ("measures.width = 99999999999999999999999", "measures.width", "figures"),
        ('measures.width = "4 lb"', "measures.width", "“lb” is no unit"),
        ('measures.width = "31/2 in"', "measures.width", "3 1/2 or 15 1/2"),
        ("measures.width = true", "measures.width", "true or false where none belongs"),
        ("measures.width = [4]", "measures.width", "a list where none belongs"),
        ("measures.width = 2024-06-01", "measures.width", "a date where none belongs"),
        ("measures.width = {}", "measures.width", "a table where none belongs"),
        ('measures.width = "50 in"', "measures.width", "write 40 in or less"),
        ('measures.tab = "4 in"', "measures.tab", "the width, 3 3/4 in"),
        ('measures.flap = "8 in"', "measures.flap", "twice the width, 7 1/2 in"),
        ("measures = 4", "measures", "[measures]"),
        ('papers.lid = "x"', "papers.lid", "known: bag, mats, strap"),
        ("papers.bag = 3", "papers.bag", "quotes"),
        ('mats.on = "yes"', "mats.on", "true or false, without quotes"),
        ("mats.border = 0", "mats.border", "write more than nothing"),
        ('mats.off = ["frnt"]', "mats.off.1", "did you mean “front”?"),
        ("mats.also = [3]", "mats.also.1", "quotes"),
        ('mats.borders."frontt" = "1/8 in"', "mats.borders.frontt", "did you mean “front”?"),
        ('mats = { off = ["back"], also = ["back"] }', "mats.also.1", "off too"),
        ('strap.lenght = "12 in"', "strap.lenght", "did you mean “length”?"),
        ('contents = "loaf"', "contents", "[[contents]]"),
        ('contents = ["loaf"]', "contents.1", "[[contents]]"),
        ("contents = [{ width = 1, depth = 1 }]", "contents.1.height", "missing"),
        ("contents = [{ width = 1, depth = 1, height = 0 }]", "contents.1.height", "nothing"),
        ('colour = "red"', "colour", "no “colour” is known here"),
        ('name = ""', "name", "empty"),
        ("name = 5", "name", "quotes"),
        ('name = "a\\u0007b"', "name", "cannot be printed"),
        (f'name = "{"x" * 81}"', "name", "81 letters"),
        ('keep_grain = "false"', "keep_grain", "without quotes"),
    ],
)
def test_each_slip_names_its_line_its_field_and_what_would_be_right(
    line: str, field: str, words: str
) -> None:
    (problem,) = problems(BAG + line)
    assert (problem.source, problem.line, problem.field) == ("stall.toml", 3, field)
    assert words in str(problem)


def test_an_unknown_style_is_answered_with_the_nearest() -> None:
    (problem,) = problems('style = "warp bag"\nunits = "inch"\n')
    assert (problem.line, problem.read) == (1, "warp bag")
    assert "wrap bag" in problem.right
    assert problem.mend is not None
    assert (problem.mend.field, problem.mend.to) == ("style", "wrap bag")


def test_a_style_that_looks_like_none_is_answered_with_all() -> None:
    (problem,) = problems('style = "zeppelin"\nunits = "inch"\n')
    assert all(style.name in problem.right for style in STYLES)


def test_a_panel_that_several_pieces_have_may_be_named_with_its_piece_or_for_all() -> None:
    project = read("""
        style = "tray with lift-off lid"
        units = "metric"
        [mats]
        off = ["lid back wall", "left wall", "lid top"]
        borders = { "base front wall" = 4, "front wall" = 3 }
    """)
    assert project.mats.off == {"lid back wall", "base left wall", "lid left wall", "top"}
    assert project.mats.borders == {
        "base front wall": Length.mm(4), "lid front wall": Length.mm(3),
    }  # fmt: skip


def test_a_style_without_a_place_for_a_strap_has_none_unless_asked() -> None:
    tray = 'style = "tray with lift-off lid"\nunits = "metric"\n'
    assert not read(tray).strap.on
    assert read(tray + "strap.on = true").strap.on


def test_style_and_units_must_be_said() -> None:
    assert [problem.field for problem in problems('name = "x"\n')] == ["units", "style"]


def test_units_are_inch_or_metric() -> None:
    (problem,) = problems('style = "wrap bag"\nunits = "cm"\n')
    assert (problem.line, problem.field) == (2, "units")
    assert '"metric"' in problem.right


def test_a_limit_counts_the_measures_that_the_file_leaves_out(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    class Sleeve(WrapBag):
        """A bag whose tab is as wide as the bag is deep, and must be narrower than the front."""

        name = "sleeve"
        measures = tuple(
            replace(m, default=lambda m, given: m["depth"], default_says="the depth")
            if m.name == "tab"
            else m
            for m in WrapBag.measures
        )

    monkeypatch.setattr("snipfold.project.read.STYLES", (Sleeve(),))
    monkeypatch.setattr("snipfold.project.read.style_named", lambda name: Sleeve())
    (problem,) = problems('style = "sleeve"\nunits = "inch"\n[measures]\nwidth = 1\ndepth = 3\n')
    assert (problem.field, problem.line) == ("measures.tab", 3)
    assert "not given, so it is the depth" in problem.wrong
    assert "the width, 1 in" in problem.wrong
    assert problem.mend is not None
    assert (problem.mend.now, problem.mend.to) == ("", "1 in")


def test_a_measure_that_cannot_be_read_brings_no_second_problem() -> None:
    (problem,) = problems(BAG + '[measures]\ndepth = "a bit"\nsliver = "1 in"\n')
    assert problem.field == "measures.depth"


def test_a_metric_maker_who_means_centimetres_is_told_how_it_was_read() -> None:
    (problem,) = problems('style = "wrap bag"\nunits = "metric"\nmeasures.width = 9.5\n')
    assert "0.95 cm" in problem.wrong
    assert "millimetres" in problem.right


def test_all_problems_come_at_once_in_the_order_of_the_file() -> None:
    text = BAG + (
        'name = ""\n[measures]\nwidth = "x"\nheigth = 3\n[strap]\nfoot = -1\n'
        "[[contents]]\nwidth = 1\ndepth = 1\nheight = 1\n[[contents]]\nwidht = 1\n"
    )
    found = problems(text)
    assert [(problem.line, problem.field) for problem in found] == [
        (3, "name"),
        (5, "measures.width"),
        (6, "measures.heigth"),
        (8, "strap.foot"),
        (13, "contents.2.width"),
        (13, "contents.2.depth"),
        (13, "contents.2.height"),
        (14, "contents.2.widht"),
    ]


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("", 1, "empty"),
        ("  \n\n", 1, "empty"),
        ('style = "wrap bag\nunits = "inch"\n', 1, "a quote that is not closed"),
        ("style = wrap bag\n", 1, "in quotes"),
        ("[measures]\nwidth = 4 1/2 in\n", 2, "in quotes"),
        ("[measures\nwidth = 4\n", 1, "[measures]"),
        ("[measures]\nwidth\n", 2, 'name = "value"'),
        ("[mats]\n\noff = [\n", 3, "bracket"),
        ('base front wall = "1/8 in"\n', 1, "in quotes"),
        ("name = \"a\x01b\"\n", 1, "character"),
        ("x = " + "9" * 5000, 1, ""),
        ("x = " + "[" * 100_000, 0, "brackets"),
        ("x" * 1_000_001, 0, "1 MB"),
    ],
)  # fmt: skip
def test_broken_toml_is_told_with_its_line(text: str, line: int, words: str) -> None:
    (problem,) = problems(text)
    assert problem.line == line
    assert words in str(problem)


@pytest.mark.parametrize(
    ("text", "lines", "field"),
    [
        ('style = "wrap bag"\nname = "a"\nstyle = "wrap bag"\n', (1, 3), "style"),
        ("[measures]\nwidth = 4\n[strap]\n[measures]\n", (1, 4), "measures"),
        ("[measures]\nwidth = 4\ndepth = 1\nwidth = 5\n", (2, 4), "measures.width"),
        ("[[contents]]\na = 1\n[[contents]]\na = 1\na = 2\n", (4, 5), "contents.2.a"),
    ],
)
def test_a_key_that_stands_twice_is_told_with_both_lines(
    text: str, lines: tuple[int, int], field: str
) -> None:
    (problem,) = problems(text)
    assert (problem.line, problem.field) == (lines[1], field)
    assert f"line {lines[0]} and again on line {lines[1]}" in problem.wrong


def test_a_byte_order_mark_and_windows_line_ends_are_no_fault() -> None:
    assert read("﻿" + BAG.replace("\n", "\r\n")).style == "wrap bag"


def test_papers_that_the_workshop_lacks_are_told_with_the_nearest() -> None:
    text = BAG + '[papers]\nbag = "oat cardstock 12 x 12 in"\nmats = "smal check 12 x 12 in"\n'
    with pytest.raises(ProjectFileError) as refused:
        check_papers(read(text), default_workshop(System.INCH), text, "stall.toml")
    (problem,) = refused.value.problems
    assert (problem.source, problem.line, problem.field) == ("stall.toml", 5, "papers.mats")
    assert "did you mean “small check 12 x 12 in”?" in problem.right


def test_the_line_of_a_field_is_found() -> None:
    text = BAG + "[measures]\nwidth = 4\n[[contents]]\n[[contents]]\nwidth = 1\n"
    assert field_line(text, "measures.width") == 4
    assert field_line(text, "contents.2.width") == 7
    assert field_line(text, "measures.depth") == 0


@given(st.text(max_size=80))
def test_no_text_brings_anything_but_a_project_or_its_problems(text: str) -> None:
    for head in ("", BAG, BAG + "[measures]\n"):
        assert all(said(head + text))


_ANYTHING = st.recursive(
    st.one_of(
        st.integers(), st.floats(), st.booleans(), st.text(max_size=12), st.dates(), st.times()
    ),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3), st.dictionaries(st.text(max_size=5), inner, max_size=3)
    ),
    max_leaves=6,
)


@given(st.data())
def test_no_value_in_any_field_brings_anything_but_a_project_or_its_problems(
    data: st.DataObject,
) -> None:
    import tomlkit

    fields = [
        "name", "notes", "units", "keep_grain", "measures", "papers", "mats", "strap", "contents",
        "measures.width", "measures.flap", "papers.bag", "mats.on", "mats.border", "mats.off",
        "mats.borders", "mats.borders.front", "strap.length",
    ]  # fmt: skip
    *tables, key = data.draw(st.sampled_from(fields)).split(".")
    values: dict[str, object] = {"style": "wrap bag", "units": "inch"}
    inner = values
    for table in tables:
        inner[table] = inner = {}
    inner[key] = data.draw(_ANYTHING)
    assert all(said(tomlkit.dumps(values)))
