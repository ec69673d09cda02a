"""Designs that several tests publish: styles that close on themselves, in both systems."""

from dataclasses import replace
from functools import cache

from snipfold.guide import Guide, guide_of
from snipfold.measure import System
from snipfold.project import Design, read_project, resolve
from snipfold.workshop import default_workshop

#: Boxes whose measures hold each other: a wrong one keeps them from closing.
STYLES = (
    "wrap bag",
    "tray with lift-off lid",
    "straight tuck carton",
    "reverse tuck carton",
    "carton with an interlocking four-flap base",
    "sleeve and tray",
)
PAGES = {System.INCH: "letter", System.METRIC: "a4"}

_CONTENTS = {
    ("wrap bag", System.INCH): '[[contents]]\nname = "oat biscuits"\n'
    'width = "2 3/4 in"\ndepth = "3/4 in"\nheight = "3 1/2 in"\n',
    ("wrap bag", System.METRIC): '[[contents]]\nname = "oat biscuits"\n'
    'width = "7 cm"\ndepth = "2 cm"\nheight = "9 cm"\n',
}


@cache
def design(
    style: str,
    system: System,
    name: str = "Hazel Row sampler",
    notes: str = "",
    measures: tuple[str, ...] = (),
) -> Design:
    """A design of a style with its own measures, matted and, where it can be, strapped.

    `measures` are lines such as 'width = "3 in"' that change some of them.
    """
    text = (
        f'style = "{style}"\nunits = "{system.value}"\n'
        f"[measures]\n{chr(10).join(measures)}\n"
        f"[mats]\n{'[strap]' if style == 'wrap bag' else ''}\n{_CONTENTS.get((style, system), '')}"
    )
    project = read_project(text, "sampler.toml")
    return resolve(replace(project, name=name, notes=notes), default_workshop(system))


@cache
def guided(style: str, system: System, measures: tuple[str, ...] = ()) -> Guide:
    """The guide of that design."""
    return guide_of(design(style, system, measures=measures), page=PAGES[system])
