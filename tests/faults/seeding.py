"""Sound designs, and faults to sow in them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from snipfold.dressing import MatWish, StrapWish
from snipfold.findings import Finding, Severity
from snipfold.flat import FlatPiece
from snipfold.folding import Treat, with_line_moved
from snipfold.measure import ZERO, Length, System
from snipfold.project import Design, Project, resolve, worked_through
from snipfold.styles import Construction, Given, style_named
from snipfold.workshop import Adhesive, AdhesiveKind, Paper, Workshop, default_workshop

INCH = Length.inch
#: Paper and adhesive, thick enough to be seen in a figure.
CARD, TAPE = Length.mm("0.3"), Length.mm("0.1")
TAPE_WIDTH = INCH("1/4")


def workshop() -> Workshop:
    """A workshop in inches with one cardstock, one pattern paper and two tapes."""
    return replace(
        default_workshop(System.INCH),
        papers=(
            Paper("plain", INCH(12), INCH(12), Fraction(216), CARD),
            Paper("dotted", INCH(12), INCH(12), Fraction(120), Length.mm("0.2")),
        ),
        adhesives=(
            Adhesive("tape", AdhesiveKind.TAPE, TAPE_WIDTH, TAPE),
            Adhesive("fine tape", AdhesiveKind.TAPE, INCH("1/8"), Length.mm("0.05")),
        ),
        tape="tape",
        mat_adhesive="fine tape",
    )


def project(style: str, *treats: Treat, **measures: Length) -> Project:
    """A matted project of that style in inches; measures left out are the style's own."""
    return Project(
        name="Hazel Row sampler",
        style=style,
        system=System.INCH,
        measures=measures,
        papers={},
        keep_grain=False,
        mats=MatWish(True, INCH("1/16"), {}, frozenset(), frozenset()),
        strap=StrapWish(False, INCH("3/4"), INCH("5/2"), INCH(1), None),
        contents=treats,
        notes="",
    )


def treat(width: str, depth: str, height: str, allowance: str = "1/8", name: str = "bar") -> Treat:
    """A treat of so many inches each way."""
    return Treat(name, INCH(width), INCH(depth), INCH(height), INCH(allowance), ZERO)


def designed(of: Project) -> Design:
    """The design as it is meant."""
    return resolve(of, workshop())


def spoilt(of: Project, change: Callable[[FlatPiece], FlatPiece], piece: int = 0) -> Design:
    """The design with one piece changed after the style had built it."""
    style = style_named(of.style)
    given = Given(of.system, TAPE_WIDTH)
    measures = style.complete(of.measures, given)
    built: Construction = style.build(measures, given)
    pieces = list(built.pieces)
    pieces[piece] = change(pieces[piece])
    return worked_through(of, workshop(), measures, replace(built, pieces=tuple(pieces)))


def slipped(one: str, other: str, by: Length) -> Callable[[FlatPiece], FlatPiece]:
    """The line of the score between two panels drawn `by` out of place."""
    return lambda piece: with_line_moved(piece, piece.score(one, other), by)


def folded_back(one: str, other: str) -> Callable[[FlatPiece], FlatPiece]:
    """The score between two panels folded the other way."""

    def turn(piece: FlatPiece) -> FlatPiece:
        wrong = piece.score(one, other)
        return replace(
            piece,
            scores=tuple(replace(s, fold=s.fold.other) if s is wrong else s for s in piece.scores),
        )

    return turn


def on_the_other_face(glue: str) -> Callable[[FlatPiece], FlatPiece]:
    """One strip of adhesive laid on the wrong face of its panel."""
    return lambda piece: replace(
        piece,
        glue=tuple(replace(g, face=g.face.other) if g.name == glue else g for g in piece.glue),
    )


def grave(design: Design) -> list[str]:
    """The codes of all that is more than a note."""
    return [one.code for one in design.findings if one.severity is not Severity.NOTE]


def only(design: Design) -> Finding:
    """The one finding of the design that is more than a note."""
    found = [one for one in design.findings if one.severity is not Severity.NOTE]
    assert len(found) == 1, [f"{one.code}: {one.says}" for one in found]
    return found[0]
