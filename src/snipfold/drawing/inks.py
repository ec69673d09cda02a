"""Every ink, tint and line style of the drawings, each with its width in millimetres.

Nothing is told by colour alone: every style has a dash pattern, a hatch or an end mark of its own,
so that a grey print loses nothing. The accents come from a set that colour-blind readers tell
apart (Okabe and Ito, "Color Universal Design", 2008), darkened to print well.
"""

from __future__ import annotations

from dataclasses import dataclass

INK = "#22302F"
PAGE = "#FFFFFF"
TEAL = "#00616B"
OCHRE = "#A86A00"
GREY = "#9AA3A1"
PALE = "#E4E8E6"
TINT = "#D3E9EC"
BOARD = "#F1EEE7"

#: mm. Wide lines are twice as wide as narrow ones (ISO 128 keeps 2 : 1).
WIDE_MM = 0.5
NARROW_MM = 0.25


@dataclass(frozen=True, slots=True)
class Ink:
    """A line style: its key, what it means, colour, width and dashes (line, gap, … in mm)."""

    key: str
    means: str
    colour: str
    width_mm: float
    dashes_mm: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class HatchInk:
    """A hatch: its key, what it means, the ink of its lines, their angles and their spacing."""

    key: str
    means: str
    ink: Ink
    degrees: tuple[float, ...]
    spacing_mm: float


CUT = Ink("cut", "cut", INK, WIDE_MM)
SLIT = Ink("slit", "slit: cut, take nothing away", INK, WIDE_MM)
MOUNTAIN = Ink("mountain", "score, mountain fold", TEAL, WIDE_MM, (4.0, 1.0, 0.8, 1.0))
VALLEY = Ink("valley", "score, valley fold", TEAL, WIDE_MM, (2.4, 1.2))
PENCIL = Ink("pencil", "pencil mark", "#5B6664", NARROW_MM, (6.0, 0.9))
HIDDEN = Ink("hidden", "hidden", INK, NARROW_MM, (0.4, 0.9))

#: Lines that say nothing of the paper: edges of what is drawn, measures, leaders.
OUTLINE = Ink("outline", "", INK, WIDE_MM)
THIN = Ink("thin", "", INK, NARROW_MM)
FAINT = Ink("faint", "", GREY, NARROW_MM)
FAINT_SCORE = Ink("faint score", "", GREY, NARROW_MM, (2.4, 1.2))
MOVES = Ink("moves", "the part that moves", TEAL, 0.7)

GLUE = HatchInk("glue", "adhesive", Ink("glue line", "", OCHRE, NARROW_MM), (45.0,), 1.3)
WASTE = HatchInk("waste", "snip away", Ink("waste line", "", GREY, NARROW_MM), (45.0, 135.0), 1.6)

#: Every style that a legend can explain, in the order in which it lists them.
LEGEND: tuple[Ink | HatchInk, ...] = (
    CUT, SLIT, MOUNTAIN, VALLEY, PENCIL, HIDDEN, GLUE, WASTE, MOVES,
)  # fmt: skip


def mixed(colour: str, other: str, share: float) -> str:
    """`colour` with `share` (0 to 1) of `other` in it, as #RRGGBB.

    >>> mixed("#000000", "#FFFFFF", 0.5)
    '#808080'
    """
    one, two = (tuple(int(c[i : i + 2], 16) for i in (1, 3, 5)) for c in (colour, other))
    return "#" + "".join(
        f"{int(a + (b - a) * share + 0.5):02X}" for a, b in zip(one, two, strict=True)
    )
