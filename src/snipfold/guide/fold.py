"""Folding and burnishing every score, then opening the piece again."""

from __future__ import annotations

from ..drawing import step_picture
from ..flat import FlatPiece, Fold
from ..project import Design
from ..styles import Doing
from .content import Column, Part, Section, Table, Tone, Words
from .wording import fold_words, parted

SQUARE = 90


def fold(design: Design) -> tuple[Section, ...]:
    """One section for each piece that is creased."""
    sections = []
    for index, step in enumerate(design.construction.steps):
        if step.doing is Doing.CREASE:
            piece = design.construction.piece(step.piece)
            sections.append(
                Section(
                    Part.FOLD,
                    step.title,
                    figures=(step_picture(design, index),),
                    tables=(fold_table(piece),),
                    sentences=(
                        (f"Lay the {piece.name} with its outside up.",),
                        (f"Fold {_way(piece)}, and burnish each fold with a bone folder.",),
                        ("Open it out flat again.",),
                    ),
                )
            )
    return tuple(sections)


def _way(piece: FlatPiece) -> str:
    folds = {score.fold for score in piece.scores}
    if folds == {Fold.MOUNTAIN}:
        return "every score away from you"
    if folds == {Fold.VALLEY}:
        return "every score towards you"
    return "mountains away from you, valleys towards you"


def fold_table(piece: FlatPiece) -> Table:
    """Which way each score folds, and how far it is folded when the box is closed (degrees)."""
    alike: dict[tuple[Fold, float], list[tuple[str, str]]] = {}
    for score in piece.scores:
        alike.setdefault((score.fold, score.degrees), []).append(score.panels)
    rows: list[tuple[Words, ...]] = [
        ((fold_words(way),), (f"{degrees:.4g}°",), (parted(piece, pairs),))
        for (way, degrees), pairs in alike.items()
    ]
    return Table(
        (),
        (Column("fold"), Column("closed at", Tone.MEASURE), Column("between")),
        tuple(rows),
    )
