"""The guide as content: what it says and shows, whatever it is printed on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from ..drawing import Drawing
from ..measure import Length, System, number, unit_word, words


@dataclass(frozen=True, slots=True)
class Size:
    """A width and a height that are worded together, with one unit: "5 1/4 × 12 in"."""

    width: Length
    height: Length


Word = str | Length | Size
"""A part of a sentence: text, or a measure that is still exact."""

Words = tuple[Word, ...]
"""A sentence, or what stands in a cell of a table. Nothing is added between its parts."""


def spoken(said: Words, system: System) -> str:
    """The words as plain text, measures worded for a ruler of that system.

    >>> spoken(("Cut ", Size(Length.inch(5), Length.inch("21/2")), "."), System.INCH)
    'Cut 5 × 10 1/2 in.'
    """
    return "".join(_plain(word, system) for word in said)


def _plain(word: Word, system: System) -> str:
    if isinstance(word, Length):
        return words(word, system)
    if isinstance(word, Size):
        return f"{number(word.width, system)} × {number(word.height, system)} {unit_word(system)}"
    return word


class Part(Enum):
    """The parts of a guide, in their order; the value is the heading."""

    FINISHED = "Finished"
    NEED = "What you need"
    CUT = "Cut"
    SCORE = "Score"
    SNIP = "Snip"
    FOLD = "Fold and burnish"
    TAPE = "Tape"
    MATS = "Mats"
    STRAP = "Strap"
    ASSEMBLE = "Put it together"
    FILL = "Fill"
    WORTH_KNOWING = "Worth knowing"
    CARD = "The numbers again"


class Hazard(Enum):
    """What can hurt; the value is the word that a caution starts with."""

    BLADES = "Blades"
    HEAT = "Hot glue"
    ADHESIVE = "Adhesives"
    FOOD = "Food"
    CHILDREN = "Small parts"
    FIRE = "Flames"
    RULES = "Local rules"


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution: what it is about, and what to do."""

    hazard: Hazard
    says: str


class Tone(Enum):
    """How loud a column of a table is."""

    PLAIN = "plain"
    MEASURE = "measure"
    """A measure to be read at arm's length."""
    LOUD = "loud"
    """The measure that this page is about."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: its heading and how loud it is."""

    heading: str
    tone: Tone = Tone.PLAIN


@dataclass(frozen=True, slots=True)
class Table:
    """A table: a caption (may be empty), its columns, and rows of as many cells each."""

    caption: Words
    columns: tuple[Column, ...]
    rows: tuple[tuple[Words, ...], ...]

    def __post_init__(self) -> None:
        if any(len(row) != len(self.columns) for row in self.rows):
            raise ValueError("every row of a table has a cell for each column")


@dataclass(frozen=True, slots=True)
class Section:
    """One idea: a heading, figures, tables of measures, a few sentences, cautions.

    `sentences` are what to do, at most three. `facts` are short remarks below the measures.
    `legend` explains the line styles of the figures, where they use any that need it.
    """

    part: Part
    heading: str
    figures: tuple[Drawing, ...] = ()
    tables: tuple[Table, ...] = ()
    sentences: tuple[Words, ...] = ()
    facts: tuple[Words, ...] = ()
    cautions: tuple[Caution, ...] = ()
    legend: Drawing | None = None

    def __post_init__(self) -> None:
        if len(self.sentences) > 3:
            raise ValueError(f"{self.heading}: more than three sentences")


@dataclass(frozen=True, slots=True)
class Guide:
    """A guide: its title, a line about the box, and its sections in order.

    `page` is the paper that it is laid out for: "letter" or "a4".
    """

    title: str
    says: str
    system: System
    page: str
    sections: tuple[Section, ...]

    def of(self, part: Part) -> tuple[Section, ...]:
        """The sections of one part."""
        return tuple(section for section in self.sections if section.part is part)

    def measures(self) -> Iterator[Length]:
        """Every measure that the guide says, in order, in sentences and in tables."""
        for section in self.sections:
            cells = [cell for table in section.tables for row in table.rows for cell in row]
            captions = [table.caption for table in section.tables]
            for said in (*section.sentences, *captions, *cells, *section.facts):
                for word in said:
                    if isinstance(word, Length):
                        yield word
                    elif isinstance(word, Size):
                        yield word.width
                        yield word.height
