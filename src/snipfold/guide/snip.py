"""Snipping: corners, slivers and slits, as the scissors go."""

from __future__ import annotations

from collections.abc import Sequence

from ..drawing import snip_picture
from ..flat import FlatPiece, Point
from ..measure import Length, System, carried
from ..project import Design
from .cautions import SCISSORS
from .content import Column, Part, Section, Table, Word, Words
from .wording import BETWEEN_MARKS, place, upper_first

Path = tuple[Point, ...]


def snip(design: Design) -> tuple[Section, ...]:
    """One section for each piece that has snips."""
    sections: list[Section] = []
    for piece in design.construction.pieces:
        if piece.snips:
            sections.append(_piece(design, piece, first=not sections))
    return tuple(sections)


def _piece(design: Design, piece: FlatPiece, *, first: bool) -> Section:
    rows: list[tuple[Words, ...]] = []
    ruler, system = design.workshop.ruler, design.system

    def at(point: Point) -> Words:
        return place(point, ruler, system)

    for number, snipped in enumerate(piece.snips):
        gone = [before.corners for before in piece.snips[:number] if len(before.corners) > 2]
        for path in scissor_paths(piece, snipped.corners, gone):
            middle: list[Word] = []
            for point in path[1:-1]:
                middle += [*((", ",) if middle else ()), *at(point)]
            rows.append(
                (
                    (upper_first(snipped.name),),
                    at(path[0]),
                    tuple(middle),
                    at(path[-1]),
                )
            )
    return Section(
        Part.SNIP,
        f"Snip the {piece.name}",
        figures=(snip_picture(design, piece.name),),
        tables=(
            Table(
                (f"Outside up. → from the left edge of the {piece.name}, ↑ from its bottom edge",),
                (Column("snip"), Column("start at"), Column("by way of"), Column("end at")),
                tuple(rows),
            ),
        ),
        sentences=(
            ("Lay it with its outside up, as it is drawn.",),
            ("Snip along the heavy lines and throw away what is hatched.",),
        ),
        facts=_between_marks(piece, system),
        cautions=(SCISSORS,) if first else (),
    )


def _between_marks(piece: FlatPiece, system: System) -> tuple[Words, ...]:
    """That some corners are given at the nearest mark, where no mark carries them."""
    every = (Length.mm(at) for snip in piece.snips for corner in snip.corners for at in corner)
    if all(carried(at, system) for at in every):
        return ()
    return (BETWEEN_MARKS,)


def scissor_paths(
    piece: FlatPiece, corners: Sequence[Point], gone: Sequence[Sequence[Point]] = ()
) -> tuple[Path, ...]:
    """The ways the scissors take round a part that is cut away: its outline less the blank's rim.

    Where parts that are `gone` already lay beside it, their edge is the rim. A slit (two corners)
    is one path; a part that touches no rim comes back to where it started.
    """
    if len(corners) == 2:
        return (tuple(corners),)
    sides = list(zip(corners, [*corners[1:], corners[0]], strict=True))
    edges = [edge for other in gone for edge in zip(other, [*other[1:], other[0]], strict=True)]
    rim = [_on_rim(piece, *side) or any(_on_edge(side, edge) for edge in edges) for side in sides]
    if not any(rim):
        return ((*corners, corners[0]),)
    start = next(i for i, on in enumerate(rim) if on)
    paths: list[Path] = []
    path: list[Point] = []
    for k in range(1, len(sides) + 1):
        i = (start + k) % len(sides)
        if rim[i]:
            if path:
                paths.append(tuple(path))
            path = []
        else:
            path = [*(path or [sides[i][0]]), sides[i][1]]
    return tuple(paths)


def _on_rim(piece: FlatPiece, one: Point, other: Point) -> bool:
    return (one.x == other.x and one.x in (0, piece.width.as_mm)) or (
        one.y == other.y and one.y in (0, piece.height.as_mm)
    )


def _on_edge(side: tuple[Point, Point], edge: tuple[Point, Point]) -> bool:
    """Whether a side lies within an edge."""
    (ax, ay), (bx, by) = edge
    for x, y in side:
        along = (bx - ax) * (x - ax) + (by - ay) * (y - ay)
        across = (bx - ax) * (y - ay) - (by - ay) * (x - ax)
        if across != 0 or not 0 <= along <= (bx - ax) ** 2 + (by - ay) ** 2:
            return False
    return True
