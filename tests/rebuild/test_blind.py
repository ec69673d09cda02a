"""The text of a printed guide is enough to make the box."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from snipfold.guide import Guide, Part
from snipfold.measure import Length, System
from snipfold.publish.guide_pdf import guide_pdf

from ..publish.designs import STYLES, design, guided
from . import blind

EDITIONS = [(style, system) for style in STYLES for system in System]


def printed(guide: Guide, folder: Path) -> Path:
    path = folder / "guide.pdf"
    path.write_bytes(guide_pdf(guide))
    return path


@pytest.fixture(scope="module")
def texts(tmp_path_factory: pytest.TempPathFactory) -> dict[tuple[str, System], str]:
    found = {}
    for style, system in EDITIONS:
        path = printed(guided(style, system), tmp_path_factory.mktemp("guide"))
        found[style, system] = blind.text_of(str(path))
    return found


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_the_box_that_the_text_describes_closes(
    style: str, system: System, texts: dict[tuple[str, System], str]
) -> None:
    gaps = blind.rebuild(texts[style, system])
    pieces = design(style, system).construction.pieces
    assert set(gaps) == {piece.name for piece in pieces}
    assert max(gaps.values()) <= blind.CLOSE


@pytest.mark.parametrize(
    ("style", "system", "measures"),
    [
        ("wrap bag", System.INCH, ('width = "2 3/8 in"', 'depth = "1 1/8 in"', 'flap = "7/8 in"')),
        ("wrap bag", System.METRIC, ('width = "6.3 cm"', 'height = "9.1 cm"', 'tab = "1.5 cm"')),
        ("tray with lift-off lid", System.INCH, ('width = "3 5/16 in"', 'tab = "3/4 in"')),
        ("tray with lift-off lid", System.METRIC, ('depth = "5.7 cm"', 'clearance = "4 mm"')),
    ],
)
def test_boxes_of_other_measures_close_too(
    style: str, system: System, measures: tuple[str, ...], tmp_path: Path
) -> None:
    text = blind.text_of(str(printed(guided(style, system, measures), tmp_path)))
    assert max(blind.rebuild(text).values()) <= blind.CLOSE
    usual = blind.text_of(str(printed(without_figures(guided(style, system)), tmp_path)))
    assert blind.read_scores(text) != blind.read_scores(usual)


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_every_score_of_the_design_is_recovered(
    style: str, system: System, texts: dict[tuple[str, System], str]
) -> None:
    recovered = blind.read_scores(texts[style, system])
    for piece in design(style, system).construction.pieces:
        parted = {frozenset(p) for line in recovered[piece.name].lines for p in line.pairs}
        assert parted == {frozenset(score.panels) for score in piece.scores}


def scoring_pages(text: str) -> tuple[int, int]:
    """Where the scoring pages begin and end."""
    return text.index("Score the "), text.index("Snip the ")


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_any_score_that_is_printed_wrong_is_found(
    style: str, system: System, texts: dict[tuple[str, System], str]
) -> None:
    text = texts[style, system]
    start, end = scoring_pages(text)
    wrong = "1/8 in" if system is System.INCH else "0.3 cm"
    tables = re.compile(r"(?<= )((?:\d+ )?\d+/\d+ in|\d+(?:\.\d+)? (?:in|cm))(?= [a-z][a-z ]* \| )")
    places = list(tables.finditer(text, start, end))
    assert len(places) >= 5
    for place in places:
        total = blind.inches(place[1]) + blind.inches(wrong)
        if system is System.INCH:
            whole, rest = divmod(total, 1)
            worded = f"{whole} {rest} in" if whole and rest else f"{rest or whole} in"
        else:
            worded = f"{float(total * 254 / 100):g} cm"
        altered = text[: place.start()] + worded + text[place.end() :]
        with pytest.raises(blind.WrongError):
            blind.rebuild(altered)


@pytest.mark.parametrize(("style", "system"), EDITIONS)
def test_any_setting_of_the_trimmer_that_is_printed_wrong_is_found(
    style: str, system: System, texts: dict[tuple[str, System], str]
) -> None:
    text = texts[style, system]
    start, end = text.index("set the trimmer to"), text.index("Score the ")
    unit = "in" if system is System.INCH else "cm"
    rows = re.compile(
        rf"(?<= \d )((?:\d+ )?\d+/\d+ {unit}|\d+(?:\.\d+)? {unit})(?= (?:\d+ × )?(?:sheet|strip),)"
    )
    settings = list(rows.finditer(text, start, end))
    plans = design(style, system).cutting.values()
    assert len(settings) >= sum(len(steps) for plan in plans for steps in plan.steps)
    for place in settings:
        altered = text[: place.start()] + f"1/64 {unit}" + text[place.end() :]
        with pytest.raises(blind.WrongError):
            blind.rebuild(altered)


def test_a_fold_that_is_printed_wrong_is_found(texts: dict[tuple[str, System], str]) -> None:
    for text in texts.values():
        with pytest.raises(blind.WrongError):
            blind.rebuild(text.replace("away from you 90°", "away from you 80°", 1))


def without_figures(guide: Guide) -> Guide:
    plain = (replace(section, figures=(), legend=None) for section in guide.sections)
    return replace(guide, sections=tuple(plain))


def test_a_pdf_with_one_score_moved_does_not_pass(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    guide = guided("wrap bag", System.INCH)
    sections = []
    for section in without_figures(guide).sections:
        if section.part is Part.SCORE:
            table = section.tables[0]
            ((first, *cells), *rows) = table.rows
            (at,) = first
            assert isinstance(at, Length)
            moved = ((at + Length.inch("1/8"),), *cells)
            section = replace(section, tables=(replace(table, rows=(moved, *rows)),))
        sections.append(section)
    assert blind.main(str(printed(without_figures(guide), tmp_path))) == 0
    assert blind.main(str(printed(replace(guide, sections=tuple(sections)), tmp_path))) == 1
    assert "guide.pdf" in capsys.readouterr().out
