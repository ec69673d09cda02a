"""The printed guide: readable by people, by screen readers, and by scripts."""

import io
import itertools
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Any

import pikepdf
import pypdf
import pytest

from snipfold.guide import Guide, Part, spoken
from snipfold.measure import System, words
from snipfold.publish.guide_pdf import files, guide_pdf
from snipfold.publish.template_pdf import files as template_files
from snipfold.publish.type_faces import printable

from .designs import PAGES, STYLES, design, guided

EDITIONS = [(style, system) for style in STYLES for system in System]


@cache
def published(style: str, system: System) -> bytes:
    return guide_pdf(guided(style, system))


def reader(data: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(data))


def plain(data: bytes) -> str:
    pages = " ".join(page.extract_text() for page in reader(data).pages)
    return re.sub(r"\s+", " ", pages)


@cache
def page_texts(style: str, system: System) -> list[str]:
    return [page.extract_text() for page in reader(published(style, system)).pages]


def elements(node: Any) -> Iterator[Any]:
    """Every structure element of a tagged PDF, in reading order."""
    kids = node.get("/K", [])
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            yield kid
            yield from elements(kid)


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_the_pdf_is_tagged_as_pdf_ua_1_asks(style: str, system: System) -> None:
    """Source: ISO 14289-1 (PDF/UA-1), clauses 5 (identifier), 7.1 (tags, title), 7.2 (language)."""
    with pikepdf.open(io.BytesIO(published(style, system))) as pdf:
        assert pdf.Root.MarkInfo.Marked
        assert str(pdf.Root.Lang).startswith("en")
        assert pdf.Root.ViewerPreferences.DisplayDocTitle
        with pdf.open_metadata() as meta:
            assert meta["pdfuaid:part"] == "1"
            assert meta["dc:title"] == "Hazel Row sampler"


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_every_figure_says_what_it_shows(style: str, system: System) -> None:
    guide = guided(style, system)
    drawings = sum(len(s.figures) + (s.legend is not None) for s in guide.sections)
    with pikepdf.open(io.BytesIO(published(style, system))) as pdf:
        figures = [e for e in elements(pdf.Root.StructTreeRoot) if str(e.S) == "/Figure"]
        assert len(figures) == drawings
        assert all(len(str(figure.Alt).split()) >= 3 for figure in figures)


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_headings_go_down_one_level_at_a_time(style: str, system: System) -> None:
    with pikepdf.open(io.BytesIO(published(style, system))) as pdf:
        levels = [
            int(str(e.S)[2:])
            for e in elements(pdf.Root.StructTreeRoot)
            if re.fullmatch(r"/H[1-6]", str(e.S))
        ]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(deeper - level <= 1 for level, deeper in itertools.pairwise(levels))


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_every_measure_of_the_guide_can_be_read_from_the_pdf(style: str, system: System) -> None:
    text = re.sub(r"\s+", " ", " ".join(page_texts(style, system)))
    guide = guided(style, system)
    for section in guide.sections:
        for table in section.tables:
            for row in table.rows:
                for cell in row:
                    said = re.sub(r"\s+", " ", printable(spoken(cell, system))).strip()
                    assert said in text
    assert all(words(length, system).split()[-2] in text for length in guide.measures())


def test_the_two_papers_are_letter_and_a4() -> None:
    """Sizes in points: 8 1/2 x 11 in at 72 a inch; ISO 216 A4, 210 x 297 mm."""
    for page, width, height in (("letter", 612, 792), ("a4", 595.28, 841.89)):
        box = reader(guide_pdf(replace(short_guide(), page=page))).pages[0].mediabox
        assert float(box.width) == pytest.approx(width, abs=0.01)
        assert float(box.height) == pytest.approx(height, abs=0.01)


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_a_guide_has_no_more_pages_than_ideas(style: str, system: System) -> None:
    guide = guided(style, system)
    pages = len(reader(published(style, system)).pages)
    assert pages <= len(guide.sections)
    assert pages <= 24


@pytest.mark.parametrize(("style", "system"), EDITIONS[1:3])
def test_scoring_measures_are_set_in_20_points_or_more(style: str, system: System) -> None:
    loud: set[str] = set()

    def visit(text: str, cm: list[float], tm: list[float], font: Any, size: float) -> None:
        if abs(size * tm[3] * cm[3]) >= 20:
            loud.update(text.split())

    pages = reader(published(style, system)).pages
    sections = guided(style, system).of(Part.SCORE)
    scoring = [k for k, text in enumerate(page_texts(style, system)) if "score at" in text]
    assert len(scoring) == len(sections)
    for number, section in zip(scoring, sections, strict=True):
        loud.clear()
        pages[number].extract_text(visitor_text=visit)
        for row in section.tables[0].rows:
            assert set(spoken(row[0], system).split()[:-1]) <= loud


@pytest.mark.parametrize(("style", "system"), EDITIONS[1:3])
def test_the_same_design_gives_the_same_bytes(style: str, system: System) -> None:
    again = files(design(style, system), PAGES[system])["guide.pdf"]
    assert again == published(style, system)


NAMES = {
    '#read("/etc/passwd")': '#read("/etc/passwd")',
    "<b>bold</b> & *stars* _lines_": "<b>bold</b> & *stars* _lines_",
    "$x^2$ @ref = ~ `tick` \\ //": "$x^2$ @ref = ~ `tick` \\ //",
    '#import "@preview/x:1.0.0"': '#import "@preview/x:1.0.0"',
    "]] #{ panic() } [[": "]] #{ panic() } [[",
    "Zoë's Grüße, Łódź": "Zoë's Grüße, Łódź",
    "中文 box": "☐☐ box",
    "🍪 biscuits 👩‍🍳": "☐ biscuits ☐",
    "عيد box": "☐☐☐ box",
    "a\u200bb\u202ec": "abc",
    "1/2 of 3 3/4": "1/2 of 3 3/4",
}


@cache
def short_guide() -> Guide:
    """The first page and the card of a guide."""
    guide = guided("wrap bag", System.INCH)
    return replace(guide, sections=(*guide.of(Part.FINISHED), *guide.of(Part.CARD)))


def named(name: str) -> bytes:
    """A short guide with that name wherever a maker's own words stand."""
    finished, card = short_guide().sections
    finished = replace(finished, heading=name, facts=((f"Note: {name}",),))
    sections = (finished, replace(card, heading=name))
    return guide_pdf(replace(short_guide(), title=name, sections=sections))


@pytest.mark.parametrize("name", NAMES)
def test_a_name_prints_as_it_is_or_with_clear_stand_ins(name: str) -> None:
    data = named(name)
    text = plain(data)
    assert text.count(NAMES[name]) >= 3
    assert f"Note: {NAMES[name]}" in text
    with pikepdf.open(io.BytesIO(data)) as pdf, pdf.open_metadata() as meta:
        assert meta["dc:title"] == NAMES[name]


def test_a_design_with_all_those_names_is_published_whole() -> None:
    made = design("wrap bag", System.INCH, " ".join(NAMES), "\n".join(NAMES))
    assert "read(" in plain(files(made, "letter")["guide.pdf"])
    assert "read(" in plain(template_files(made, "letter")["template.pdf"])


def test_a_long_name_is_broken_over_lines() -> None:
    data = named("harvest " * 10)
    assert plain(data).count("harvest") >= 10 * len(reader(data).pages)


@pytest.mark.parametrize("name", ["   ", "\u200b"])
def test_a_name_that_nobody_sees_still_gives_a_title(name: str) -> None:
    with pikepdf.open(io.BytesIO(named(name))) as pdf, pdf.open_metadata() as meta:
        assert str(meta["dc:title"]).strip()
