"""Plans of scored blanks for tests: the wrap bag drawn line by line, and blanks drawn at random."""

from __future__ import annotations

import json

from hypothesis import strategies as st

from snipfold.measure import System
from snipfold.project import Design, Project, read_project, resolve
from snipfold.workshop import default_workshop

HEAD = 'name = "Hazel Row sampler"\nstyle = "scored blank"\nunits = "inch"\n'

#: A wrap bag 3 3/4 x 1 1/2 x 4 3/4 in, tab 1/2 in. Its columns from the left: tab, left side, front,
#: right side, back; its upper row the walls, its lower row the flaps.
BAG = (
    HEAD
    + """
[blank]
called = "bag"
width = "11 in"
height = "6 1/4 in"
across = ["1/2 in", "2 in", "5 3/4 in", "7 1/4 in"]
up = ["1 1/2 in"]
away = ["1.1"]
slit = [["2.1", "3.1"], ["3.1", "4.1"], ["4.1", "5.1"]]
tucked = ["2.1", "4.1"]
mitred = ["1.2"]
strap_on = ["left side", "right side"]

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
ends = "1/16 in"

[blank.cavity]
width = ["left side", "right side"]
depth = ["front", "back"]
floor = "front flap"
"""
)


def changed(text: str, *changes: tuple[str, str]) -> str:
    """The text with each of these replaced; each must stand there once."""
    for old, new in changes:
        assert text.count(old) == 1, (old, text.count(old))
        text = text.replace(old, new)
    return text


def read(text: str) -> Project:
    """The project that a text says."""
    return read_project(text, "own.toml")


def designed(text: str) -> Design:
    """The design that a text comes to in the assumed workshop."""
    project = read(text)
    return resolve(project, default_workshop(project.system))


@st.composite
def drawn_blanks(draw: st.DrawFn) -> str:
    """A file of a scored blank whose cells hang together, whatever comes of folding it."""
    columns, rows = draw(st.integers(1, 4)), draw(st.integers(1, 4))
    width = [draw(st.integers(4, 40)) for _ in range(columns)]
    height = [draw(st.integers(4, 40)) for _ in range(rows)]
    cells = [(a, b) for a in range(1, columns + 1) for b in range(1, rows + 1)]
    grown = [draw(st.sampled_from(cells))]
    tree: set[frozenset[tuple[int, int]]] = set()
    for _ in range(draw(st.integers(0, len(cells) - 1))):
        ways = [(a, b) for a in grown for b in _beside(a) if b in cells and b not in grown]
        if not ways:
            break
        way = draw(st.sampled_from(ways))
        grown.append(way[1])
        tree.add(frozenset(way))
    pairs = [(a, b) for a in grown for b in _beside(a) if b in grown and a < b]
    scored = [pair for pair in pairs if frozenset(pair) in tree]
    ends = [cell for cell in grown if sum(cell in pair for pair in scored) == 1]
    some = st.lists(st.sampled_from(ends), unique=True, max_size=4) if ends else st.just([])
    trimmed = draw(some)
    folds = ""
    for pair in scored:
        degrees, fold = draw(st.sampled_from([90, 90, 90, 180, 60])), draw(
            st.sampled_from(["mountain", "mountain", "valley"])
        )  # fmt: skip
        folds += (
            f"[[blank.fold]]\nbetween = {_listed(pair)}\ndegrees = {degrees}\nfold = {fold!r}\n"
        )
    glue = ""
    if len(grown) > 1 and ends:
        panel, mate = draw(st.sampled_from(ends)), draw(st.sampled_from(grown))
        if panel != mate:
            glue = f"[[blank.glue]]\npanel = {_named(panel)}\non = {_named(mate)}\n"
    unit = draw(st.sampled_from(System))
    return f"""{HEAD.replace("inch", unit.value)}
[blank]
width = "{sum(width)} mm"
height = "{sum(height)} mm"
across = {_sums(width)}
up = {_sums(height)}
away = {_listed(cell for cell in cells if cell not in grown)}
slit = [{", ".join(_listed(pair) for pair in pairs if frozenset(pair) not in tree)}]
tucked = {_listed(trimmed[::2])}
mitred = {_listed(trimmed[1::2])}
sliver = "1 mm"
stands = {_named(draw(st.sampled_from(grown)))}
stands_as = "{draw(st.sampled_from(["front", "floor", "top"]))}"
{folds}{glue}"""


def _beside(cell: tuple[int, int]) -> list[tuple[int, int]]:
    a, b = cell
    return [(a + 1, b), (a, b + 1), (a - 1, b), (a, b - 1)]


def _named(cell: tuple[int, int]) -> str:
    return f'"{cell[0]}.{cell[1]}"'


def _listed(cells: object) -> str:
    return f"[{', '.join(_named(cell) for cell in cells)}]"  # type: ignore[attr-defined]


def _sums(sizes: list[int]) -> str:
    return json.dumps([f"{sum(sizes[:count])} mm" for count in range(1, len(sizes))])
