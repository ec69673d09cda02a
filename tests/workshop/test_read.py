"""A maker's own workshop file."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from snipfold.findings import Problem, ProjectFileError
from snipfold.measure import Length, System
from snipfold.workshop import (
    AdhesiveKind,
    Edge,
    EdgeStrip,
    Grain,
    Workshop,
    default_workshop,
    grams_per_square_metre,
    read_workshop,
    text_of,
    thickness,
)

INCH, METRIC = default_workshop(System.INCH), default_workshop(System.METRIC)


def problems(text: str, base: Workshop = INCH) -> tuple[Problem, ...]:
    with pytest.raises(ProjectFileError) as refused:
        read_workshop(text, "stall.toml", base)
    return refused.value.problems


def test_a_file_that_says_only_its_units_changes_nothing() -> None:
    assert read_workshop('units = "inch"', "stall.toml", INCH) == INCH


def test_a_sheet_that_measures_less_than_it_is_sold_as_is_taken_as_measured() -> None:
    """ "12 x 12" sheets measure 11 15/16 in (http://scrappyhare.blogspot.com/2007/02/size-does-matter.html)."""
    text = """
        units = "inch"
        [papers."oat cardstock 12 x 12 in"]
        measured = "11 15/16 x 12 in"
    """
    paper = read_workshop(text, "stall.toml", INCH).paper("oat cardstock 12 x 12 in")
    assert paper.width == Length.inch(12)
    assert paper.usable_width == Length.inch("191/16")
    assert paper.usable_height == Length.inch(12)


def test_a_paper_of_ones_own_is_read_whole() -> None:
    text = """
        units = "inch"
        first_paper = "market kraft"
        [papers."market kraft"]
        size = "12 x 12 in"
        weight = "80 lb cover"
        thickness = "11 pt"
        grain = "upright"
        directed = true
        two_sided = false
        strip = { edge = "bottom", width = "1/2 in" }
        price = "12.50"
        pack = 25
        colour = "#c9a66b"
        cousin = "oat cardstock 30.5 cm"
    """
    workshop = read_workshop(text, "stall.toml", INCH)
    paper = workshop.papers[0]
    assert paper.name == "market kraft"
    assert paper.gsm == grams_per_square_metre(Fraction(80), "cover")
    assert paper.thickness == Length.inch("0.011")
    assert paper.grain is Grain.UPRIGHT
    assert (paper.directed, paper.two_sided, paper.pack) == (True, False, 25)
    assert paper.strip == EdgeStrip(Edge.BOTTOM, Length.inch("1/2"))
    assert paper.usable_height == Length.inch("23/2")
    assert paper.price == Decimal("12.50")
    assert len(workshop.papers) == len(INCH.papers) + 1


def test_a_new_weight_brings_its_thickness_along() -> None:
    text = 'units = "metric"\n[papers."oat cardstock A4"]\nweight = "200 g/m2"\n'
    paper = read_workshop(text, "stall.toml", METRIC).paper("oat cardstock A4")
    assert paper.gsm == 200
    assert paper.thickness == thickness(Fraction(200))


def test_tools_tape_and_slips_are_the_makers_own() -> None:
    text = """
        units = "metric"
        currency = "kr"
        page = "a4"
        tape = "9 mm tape"
        [trimmer]
        longest_cut = "45 cm"
        [scoring_board]
        grooves = 10
        [ruler]
        graduation = "0.5 mm"
        [slips]
        cut = 0
        [adhesives."9 mm tape"]
        kind = "tape"
        width = 9
        roll = "25 m"
        price = "3,20"
    """
    workshop = read_workshop(text, "stall.toml", METRIC)
    assert workshop.trimmer.longest_cut == Length.cm(45)
    assert workshop.trimmer.ruler.graduation == Length.mm(1)
    assert workshop.board.grooves.graduation == Length.mm(10)
    assert workshop.ruler.graduation == Length.mm("0.5")
    assert workshop.slips.cut == Length.mm(0)
    assert workshop.slips.line_up == METRIC.slips.line_up
    tape = workshop.adhesive(workshop.tape)
    assert (tape.kind, tape.width) == (AdhesiveKind.TAPE, Length.mm(9))
    assert (tape.roll, tape.price) == (Length.cm(2500), Decimal("3.20"))
    assert workshop.currency == "kr"


def test_tools_in_inches_do_not_rule_a_metric_edition_but_papers_stay() -> None:
    text = """
        units = "inch"
        currency = "£"
        [trimmer]
        graduation = "1/8 in"
        [papers."oat cardstock 30.5 cm"]
        measured = "30.4 x 30.5 cm"
    """
    workshop = read_workshop(text, "stall.toml", METRIC)
    assert workshop.trimmer == METRIC.trimmer
    assert workshop.paper("oat cardstock 30.5 cm").usable_width == Length.mm(304)
    assert workshop.currency == "£"


def test_pounds_without_a_grade_are_refused_with_what_each_grade_would_be() -> None:
    """65 lb cover is 176 g/m2 (visualfoodie.com); 65 lb text would be 96."""
    (problem,) = problems('units = "inch"\n[papers."oat cardstock Letter"]\nweight = "65 lb"\n')
    assert (problem.line, problem.read) == (3, "65 lb")
    assert "cover (176 g/m2)" in problem.right
    assert "text (96 g/m2)" in problem.right


@pytest.mark.parametrize(
    ("line", "field", "word"),
    [
        ('tape = "1/4 in tap"', "tape", "1/4 in tape"),
        ('first_paper = "oat cardstok Letter"', "first_paper", "oat cardstock Letter"),
        ('page = "a5"', "page", "letter"),
        ("currency = 5", "currency", "quotes"),
        ('trimmer = "1/16"', "trimmer", "[trimmer]"),
        ('trimmer.graduation = "0 in"', "trimmer.graduation", "nothing"),
        ('trimmer.longest = "12 in"', "trimmer.longest", "longest_cut"),
        ('scoring_bord.grooves = "1/8 in"', "scoring_bord", "scoring_board"),
        ('slips.cut = "-1/32 in"', "slips.cut", "less than nothing"),
        ('papers."new".size = "12 x 12 in"', "papers.new.weight", "missing"),
        ('papers."oat cardstock A4".size = "21 cm"', "papers.oat cardstock A4.size", "width x"),
        ('papers."oat cardstock A4".measured = "21 x 21 cm"', "papers.oat cardstock A4.measured",
         "a tenth"),
        ('papers."oat cardstock A4".grain = "sideways"', "papers.oat cardstock A4.grain", "across"),
        ('papers."oat cardstock A4".weight = 176', "papers.oat cardstock A4.weight", "176 gsm"),
        ('papers."oat cardstock A4".weight = "5 gsm"', "papers.oat cardstock A4.weight", "no paper"),
        ('papers."oat cardstock A4".weight = "65 lb caver"', "papers.oat cardstock A4.weight",
         "caver"),
        ('papers."oat cardstock A4".thickness = "900 pt"', "papers.oat cardstock A4.thickness",
         "thick"),
        ('papers."oat cardstock A4".colour = "red"', "papers.oat cardstock A4.colour", "#"),
        ('papers."oat cardstock A4".price = "free"', "papers.oat cardstock A4.price", "4.50"),
        ('papers."oat cardstock A4".price = "1,250"', "papers.oat cardstock A4.price", "price"),
        ('papers."oat cardstock A4".price = -3', "papers.oat cardstock A4.price", "price"),
        ('papers."oat cardstock A4".pack = 0', "papers.oat cardstock A4.pack", "sheets"),
        ('papers."oat cardstock A4".cousin = "a Letter"', "papers.oat cardstock A4.cousin", "Letter"),
        ('papers."oat cardstock A4".strip = { edge = "left" }',
         "papers.oat cardstock A4.strip.width", "missing"),
        ('papers."oat cardstock A4".strip = { edge = "left", width = "21 cm" }',
         "papers.oat cardstock A4.strip.width", "as wide as the sheet"),
        ('adhesives."dots".kind = "foam"', "adhesives.dots.width", "missing"),
        ('adhesives."dots" = { kind = "dots", width = "1/4 in" }', "adhesives.dots.kind", "foam"),
        ('adhesives."1/4 in tape".roll = "0 m"', "adhesives.1/4 in tape.roll", "25 m"),
    ],
)  # fmt: skip
def test_each_slip_names_its_line_its_field_and_what_would_be_right(
    line: str, field: str, word: str
) -> None:
    (problem,) = problems(f'units = "inch"\n{line}\n')
    assert (problem.source, problem.line, problem.field) == ("stall.toml", 2, field)
    assert word in str(problem)


def test_a_file_without_units_is_asked_for_them() -> None:
    (problem,) = problems('currency = "€"\n')
    assert problem.field == "units"
    assert "metric" in problem.right


def test_all_problems_come_at_once_in_the_order_of_the_file() -> None:
    found = problems('units = "inch"\ntape = "string"\n[ruler]\ngraduation = "nan"\nx = 1\n')
    assert [problem.line for problem in found] == [2, 4, 5]


@pytest.mark.parametrize(
    ("data", "word"),
    [
        (b"\xff\xfeu\x00", "UTF-8"),
        (b'units = "inch"\ncurrency = "\xa3"\n', "UTF-8"),
        (b"\x7fELF\x00\x00", "text"),
        (b"x" * 1_000_001, "1 MB"),
    ],
)
def test_what_is_no_text_is_refused(data: bytes, word: str) -> None:
    with pytest.raises(ProjectFileError, match=word) as refused:
        text_of(data, "stall.toml")
    assert refused.value.problems[0].source == "stall.toml"


def test_the_line_of_a_letter_that_is_no_utf_8_is_named() -> None:
    with pytest.raises(ProjectFileError) as refused:
        text_of(b'units = "inch"\ncurrency = "\xa3"\n', "stall.toml")
    assert refused.value.problems[0].line == 2


def test_a_byte_order_mark_is_no_fault() -> None:
    assert text_of(b'\xef\xbb\xbfunits = "inch"', "stall.toml") == 'units = "inch"'
