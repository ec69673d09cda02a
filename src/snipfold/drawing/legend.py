"""The legend: the line styles that a drawing uses, and no others."""

from __future__ import annotations

from collections.abc import Iterable

from .inks import LEGEND, MOVES, TINT, HatchInk, Ink
from .layout import framed, middle_text
from .lettering import width_mm
from .measures import NAME_PT
from .scene import Anchor, Arrow, Drawing, Fill, Hatch, Mark, Stroke

_SAMPLE_MM = 13.0
_GAP_MM = 7.0
_ROW_MM = 7.0


def legend(kinds: Iterable[str], room_mm: float = 170.0) -> Drawing:
    """A legend of the line styles with these keys (as `Drawing.kinds` gives them).

    In rows no wider than `room_mm`. Keys that need no explaining are passed over.
    """
    wanted = frozenset(kinds)
    marks: list[Mark] = []
    x = y = 0.0
    named = []
    for ink in LEGEND:
        if ink.key not in wanted:
            continue
        run = _SAMPLE_MM + 2.0 + width_mm(ink.means, NAME_PT)
        if x and x + run > room_mm - 2.0:
            x, y = 0.0, y - _ROW_MM
        marks += _sample(ink, x, y)
        marks.append(
            middle_text((x + _SAMPLE_MM + 2.0, y), ink.means, NAME_PT, anchor=Anchor.START)
        )
        named.append(ink.means)
        x += run + _GAP_MM
    return framed("legend", (("legend", marks),), f"Line styles: {'; '.join(named)}.")


def _sample(ink: Ink | HatchInk, x: float, y: float) -> list[Mark]:
    ends = ((x, y), (x + _SAMPLE_MM, y))
    if isinstance(ink, HatchInk):
        ring = ((x, y - 2.0), (x + _SAMPLE_MM, y - 2.0), (x + _SAMPLE_MM, y + 2.0), (x, y + 2.0))
        edge = Ink(f"{ink.key} rim", "", ink.ink.colour, ink.ink.width_mm)
        return [Hatch((ring,), ink), Stroke(ring, edge, True)]
    if ink is MOVES:
        ring = ((x, y - 2.2), (x + _SAMPLE_MM, y - 2.2), (x + _SAMPLE_MM, y + 2.2), (x, y + 2.2))
        return [Fill((ring,), TINT), Arrow(((x + 2.0, y), (x + _SAMPLE_MM - 2.0, y)), ink)]
    return [Stroke(ends, ink)]
