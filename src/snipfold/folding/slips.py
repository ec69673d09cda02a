"""Flat pieces as they come out when lines are not where they were meant to be."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from ..flat import FlatPiece, Point, Score
from ..measure import Length, Ruler
from ..measure.tolerance import COORDINATE_MM


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

    A slanting one goes square to itself, towards its first panel, rounded to 1e-9 mm. A score is
    drawn from edge to edge, so all that lies on its line moves: other scores, and the snips along
    it.
    """
    step = by.as_mm
    if score.start.x == score.end.x:
        at = score.start.x
        return moved(piece, lambda p: Point(p.x + step, p.y) if p.x == at else p)
    if score.start.y == score.end.y:
        at = score.start.y
        return moved(piece, lambda p: Point(p.x, p.y + step) if p.y == at else p)
    run, rise = score.end.x - score.start.x, score.end.y - score.start.y
    long = Fraction(math.hypot(run, rise))
    across = tuple(
        round(part * step / long / COORDINATE_MM) * COORDINATE_MM for part in (-rise, run)
    )

    def square(p: Point) -> Point:
        off = run * (p.y - score.start.y) - rise * (p.x - score.start.x)
        # Corners on a slanting line lie on it but for their rounding.
        if abs(off) > COORDINATE_MM * 4 * long:
            return p
        return Point(p.x + across[0], p.y + across[1])

    return moved(piece, square)


def as_ruled(piece: FlatPiece, ruler: Ruler, trimmer: Ruler) -> FlatPiece:
    """The piece as a maker draws it: every score and every corner at the nearest mark of `ruler`.

    The blank's size is the nearest setting of `trimmer`. Where a score runs along an edge its line
    is ruled; every other corner is marked by its own two distances. The piece itself where all of
    it lies on marks.
    """
    levels = {
        axis: {end[axis] for score in piece.scores if score.start[axis] == score.end[axis]
               for end in (score.start,)}
        for axis in (0, 1)
    }  # fmt: skip
    across = _snapped(levels[0], piece.width, ruler, trimmer)
    up = _snapped(levels[1], piece.height, ruler, trimmer)

    width, height = Length.mm(max(across.values())), Length.mm(max(up.values()))
    marked: dict[Point, Point] = {}

    def mark(point: Point) -> Point:
        if point not in marked:
            x, y = (
                lines[at] if at in lines else ruler.nearest(Length.mm(at)).as_mm
                for at, lines in ((point.x, across), (point.y, up))
            )
            marked[point] = Point(x, y)
        return marked[point]

    drawn = replace(moved(piece, mark), width=width, height=height)
    return piece if all(at == to for at, to in marked.items()) else drawn


def _snapped(
    lines: set[Fraction], size: Length, ruler: Ruler, trimmer: Ruler
) -> dict[Fraction, Fraction]:
    to = {line: ruler.nearest(Length.mm(line)).as_mm for line in lines}
    to[Fraction(0)] = Fraction(0)
    to[size.as_mm] = trimmer.nearest(size).as_mm
    return to
