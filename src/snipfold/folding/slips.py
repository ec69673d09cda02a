"""Flat pieces as they come out when lines are not where they were meant to be."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction

from ..flat import FlatPiece, Point, Score
from ..measure import Length, Ruler


def moved(piece: FlatPiece, to: Callable[[Point], Point]) -> FlatPiece:
    """The piece with every corner and line end carried by `to`; glue stays where it was laid."""
    return replace(
        piece,
        vertices=tuple(to(point) for point in piece.vertices),
        panels=tuple(
            replace(panel, corners=tuple(to(point) for point in panel.corners))
            for panel in piece.panels
        ),
        scores=tuple(
            replace(score, start=to(score.start), end=to(score.end)) for score in piece.scores
        ),
        snips=tuple(
            replace(snip, corners=tuple(to(point) for point in snip.corners))
            for snip in piece.snips
        ),
    )


def with_line_moved(piece: FlatPiece, score: Score, by: Length) -> FlatPiece:
    """The piece with the whole line of one score drawn `by` further right (upright) or up (level).

    A score is drawn from edge to edge, so all that lies on its line moves: other scores, and the
    snips along it. Raises `ValueError` for a slanting score.
    """
    step = by.as_mm
    if score.start.x == score.end.x:
        at = score.start.x
        return moved(piece, lambda p: Point(p.x + step, p.y) if p.x == at else p)
    if score.start.y == score.end.y:
        at = score.start.y
        return moved(piece, lambda p: Point(p.x, p.y + step) if p.y == at else p)
    raise ValueError("a slanting score has no one direction to slip in")


def as_ruled(piece: FlatPiece, ruler: Ruler, trimmer: Ruler) -> FlatPiece:
    """The piece as a maker draws it: every score at the nearest mark of `ruler`.

    The blank's size is the nearest setting of `trimmer`. What lies between two lines keeps its
    share of the room between them.
    """
    levels = {
        axis: {end[axis] for score in piece.scores if score.start[axis] == score.end[axis]
               for end in (score.start,)}
        for axis in (0, 1)
    }  # fmt: skip
    across = _snapped(levels[0], piece.width, ruler, trimmer)
    up = _snapped(levels[1], piece.height, ruler, trimmer)
    if all(at == to for at, to in (*across.items(), *up.items())):
        return piece
    return replace(
        moved(piece, lambda p: Point(_between(p.x, across), _between(p.y, up))),
        width=Length.mm(max(across.values())),
        height=Length.mm(max(up.values())),
    )


def _snapped(
    lines: set[Fraction], size: Length, ruler: Ruler, trimmer: Ruler
) -> dict[Fraction, Fraction]:
    to = {line: ruler.nearest(Length.mm(line)).as_mm for line in lines}
    to[Fraction(0)] = Fraction(0)
    to[size.as_mm] = trimmer.nearest(size).as_mm
    return to


def _between(at: Fraction, lines: Mapping[Fraction, Fraction]) -> Fraction:
    if at in lines:
        return lines[at]
    low = max(line for line in lines if line < at)
    high = min(line for line in lines if line > at)
    return lines[low] + (at - low) / (high - low) * (lines[high] - lines[low])
