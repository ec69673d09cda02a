"""Sizes as the commands print them."""

from __future__ import annotations

import shlex
from collections.abc import Iterator, Sequence

from ..measure import System, number, unit_word, words
from ..project import exact_words
from ..sizing import Candidate, Fitted, Loose, Roomiest, Wish, YieldStep
from ..sizing.telling import (
    clear_words,
    contents_words,
    finest_words,
    percent_words,
    size_words,
    yield_words,
)
from ..styles import Style
from ..workshop import Paper
from .words import columns, heading


def sheet_words(paper: Paper, system: System) -> str:
    """A paper's sheet, as far as it can be used."""
    width, height = number(paper.usable_width, system), words(paper.usable_height, system)
    return f"{paper.name} ({width} × {height})"


def fit_lines(fitted: Fitted, wish: Wish, paper: Paper, system: System) -> Iterator[str]:
    """The table of candidates, best first, then what is no use and why."""
    yield f"{heading('To hold')}  {contents_words(wish.contents, system)}"
    if not isinstance(wish.contents, Loose):
        yield f"  {words(wish.allowance, system)} of air on each side"
    if wish.head_room is not None:
        yield f"  {words(wish.head_room, system)} of air above"
    yield f"{heading('From')}  {sheet_words(paper, system)}"
    yield ""
    if fitted.candidates:
        head = ("", "style", "a sheet gives", "waste", "finest mark")
        rows = [
            (
                str(index),
                one.style.name,
                yield_words(one.got),
                percent_words(one.waste),
                finest_words(one, system),
            )
            for index, one in enumerate(fitted.candidates, start=1)
        ]
        table = columns([head, *rows])
        yield table[0]
        for line, one in zip(table[1:], fitted.candidates, strict=True):
            yield line
            yield f"       {size_words(one.said, system)}"
            yield f"       treats: {one.bunch.says}; clear inside {clear_words(one.clear, system)}"
        yield ""
        yield "Sets count the blanks alone: mats, and a strap, are cut besides."
        yield f"To go on:  {_next(fitted.candidates[0], system)}"
    else:
        yield "Nothing holds it."
    if fitted.unfit:
        yield ""
        yield heading("No use here")
        yield from columns((one.style.name, one.reason) for one in fitted.unfit)


def _next(one: Candidate, system: System) -> str:
    sets = " ".join(
        f"--set {name}={shlex.quote(exact_words(length, system))}"
        for name, length in one.said.items()
    )
    units = "" if system is System.INCH else " --units metric"
    style = one.style.name.replace(" ", "-")
    return f"snipfold new box.toml --style {style}{units} {sets}"


def steps_lines(
    style: Style, vary: str, steps: Sequence[YieldStep], paper: Paper, system: System
) -> Iterator[str]:
    """Every size of one measure at which the yield changes."""
    yield f"{heading(style.name)}  from {sheet_words(paper, system)}"
    yield ""
    if not steps:
        yield f"At no {vary.replace('_', ' ')} does a sheet give one."
        return
    rows = [
        (f"up to {words(step.size, system)}", yield_words(step.got))
        for step in steps
    ]  # fmt: skip
    yield from columns([(vary.replace("_", " "), "a sheet gives"), *rows])


def most_room_lines(most: Roomiest | None, sets: int, system: System) -> Iterator[str]:
    """The size with the most room."""
    yield ""
    yield heading(f"Most room, {sets} {'set' if sets == 1 else 'sets'} from a sheet")
    if most is None:
        yield "  There is no such size."
        return
    yield f"  {size_words(most.size.said, system)}"
    yield f"  clear inside {clear_words(most.size.clear, system)}"
    cubed = float(most.room_mm3) / (25.4**3 if system is System.INCH else 1000)
    yield f"  room for about {cubed:.0f} {unit_word(system)}³"
    if not most.proven:
        yield "  There may be a size with more room; the search was cut short."
