"""Snipping: corners, slivers and slits, as the scissors go."""

from __future__ import annotations

from collections.abc import Sequence

from ..drawing import snip_picture
from ..flat import FlatPiece, Point
from ..project import Design
from .cautions import SCISSORS
from .content import Column, Part, Section, Table, Word, Words
from .wording import place, upper_first

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
    for snipped in piece.snips:
        for path in scissor_paths(piece, snipped.corners):
            middle: list[Word] = []
            for point in path[1:-1]:
                middle += [*((", then ",) if middle else ()), *place(point)]
            rows.append(
                (
                    (upper_first(snipped.name),),
                    place(path[0]),
                    tuple(middle),
                    place(path[-1]),
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
        cautions=(SCISSORS,) if first else (),
    )


def scissor_paths(piece: FlatPiece, corners: Sequence[Point]) -> tuple[Path, ...]:
    """The ways the scissors take round a part that is cut away: its outline less the blank's rim.

    A slit (two corners) is one path; a part that touches no rim comes back to where it started.
    """
    if len(corners) == 2:
        return (tuple(corners),)
    sides = list(zip(corners, [*corners[1:], corners[0]], strict=True))
    rim = [_on_rim(piece, *side) for side in sides]
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
