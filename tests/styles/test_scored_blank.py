"""A maker's own blank is proven like any other style, and its mistakes are named by cell."""

import pytest

from snipfold.findings import ProjectFileError, Severity
from snipfold.measure import System
from snipfold.project import new_blank_text, read_project, resolve
from snipfold.workshop import default_workshop

#: The built-in wrap bag of 3 1/2 x 1 3/4 x 4 1/2 in, line by line.
BAG = """
name = "own bag"
style = "scored blank"
units = "inch"
[blank]
called = "bag"
width = "11 in"
height = "6 1/4 in"
across = ["1/2 in", "2 1/4 in", "5 3/4 in", "7 1/2 in"]
up = ["1 3/4 in"]
away = ["1.1"]
slit = [["2.1", "3.1"], ["3.1", "4.1"], ["4.1", "5.1"]]
tucked = ["2.1", "4.1"]
mitred = ["1.2"]
mitre = "1/8 in"
stands = "front"
stands_as = "front"
inside = [["tab", "back"], ["left flap", "back flap"], ["right flap", "back flap"],
          ["left flap", "front flap"], ["right flap", "front flap"], ["back flap", "front flap"]]
[blank.names]
"1.2" = "tab"
"2.2" = "left side"
"3.2" = "front"
"4.2" = "right side"
"5.2" = "back"
"2.1" = "left flap"
"3.1" = "front flap"
"4.1" = "right flap"
"5.1" = "back flap"
[[blank.glue]]
panel = "tab"
on = "back"
[[blank.glue]]
panel = "left flap"
on = "back flap"
[[blank.glue]]
panel = "right flap"
on = "back flap"
[[blank.glue]]
panel = "back flap"
on = "front flap"
[blank.cavity]
width = ["left side", "right side"]
depth = ["front", "back"]
floor = "front flap"
rim = "front"
"""
BUILT_IN = """
name = "bag"
style = "wrap bag"
units = "inch"
[measures]
width = "3 1/2 in"
depth = "1 3/4 in"
height = "4 1/2 in"
[strap]
on = false
"""


def designed(text: str):  # type: ignore[no-untyped-def]
    return resolve(read_project(text, "own.toml"), default_workshop(System.INCH))


def test_the_wrap_bag_written_as_a_scored_blank_is_the_built_in_one() -> None:
    own, built = designed(BAG), designed(BUILT_IN)
    (mine,), (theirs,) = own.construction.pieces, built.construction.pieces
    assert (mine.width, mine.height) == (theirs.width, theirs.height)
    assert {p.name: frozenset(p.corners) for p in mine.panels} == {
        p.name: frozenset(p.corners) for p in theirs.panels
    }
    assert {(frozenset(s.panels), frozenset((s.start, s.end)), s.fold) for s in mine.scores} == {
        (frozenset(s.panels), frozenset((s.start, s.end)), s.fold) for s in theirs.scores
    }
    assert [f.code for f in own.findings if f.severity is not Severity.NOTE] == []
    assert own.proof.clear == built.proof.clear
    assert {n: p.sets_per_sheet for n, p in own.cutting.items()} == {
        n: p.sets_per_sheet for n, p in built.cutting.items()
    }


@pytest.mark.parametrize("system", System)
def test_the_starter_checks_clean(system: System) -> None:
    text = new_blank_text(system, "Starter", default_workshop(system))
    design = resolve(read_project(text, "new.toml"), default_workshop(system))
    assert [f.code for f in design.findings if f.severity is not Severity.NOTE] == []


def test_a_line_an_eighth_off_is_found_with_its_amount() -> None:
    design = designed(BAG.replace('"5 3/4 in"', '"5 7/8 in"'))
    (finding,) = [f for f in design.findings if f.severity is Severity.ERROR]
    assert finding.code == "score.misplaced"
    assert finding.amount == design.workshop.ruler.graduation * 2


@pytest.mark.parametrize(
    ("was", "becomes", "field", "names"),
    [
        ('away = ["1.1"]', 'away = ["6.1"]', "blank.away", "6.1"),
        ('away = ["1.1"]', 'away = ["1.3"]', "blank.away", "1.3"),
        ('"2 1/4 in", "5 3/4 in"', '"5 3/4 in", "2 1/4 in"', "blank.across", "2 1/4 in"),
        ('up = ["1 3/4 in"]', 'up = ["7 in"]', "blank.up", "7 in"),
        ('on = "back"\n', 'on = "bakc"\n', "blank.glue", "back"),
        ('stands = "front"', 'stands = "frunt"', "blank.stands", "front"),
    ],
)
def test_a_mistake_is_named_by_line_field_and_cell(
    was: str, becomes: str, field: str, names: str
) -> None:
    text = BAG.replace(was, becomes, 1)
    assert text != BAG
    with pytest.raises(ProjectFileError) as caught:
        read_project(text, "own.toml")
    first = caught.value.problems[0]
    assert first.field.startswith(field)
    line = text.splitlines()[first.line - 1]
    assert becomes.splitlines()[0][:6] in line
    assert names in str(first)
