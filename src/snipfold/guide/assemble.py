"""Putting together, step by step, worded from what each step does."""

from __future__ import annotations

from collections.abc import Callable

from ..drawing import step_picture
from ..flat import FlatPiece, GlueArea, Role
from ..measure import Length, Ruler, System
from ..project import Design
from ..styles import Doing, Meet, Step
from ..workshop import AdhesiveKind
from .cautions import OF_ADHESIVE
from .content import Column, Part, Section, Table, Tone, Words
from .standing import meets_of_steps, raw_edge_at
from .wording import edge_name, make_ready, the, unique

#: Air is told this finely, and never more than there is.
_FINE = {System.INCH: Ruler(Length.inch("1/64")), System.METRIC: Ruler(Length.mm("0.1"))}


def assemble(design: Design) -> tuple[Section, ...]:
    """One section for each step after creasing, each with a picture of the state after it."""
    meets = meets_of_steps(design.construction)
    sections: list[Section] = []
    warned: set[AdhesiveKind] = set()
    for index, step in enumerate(design.construction.steps):
        if step.doing is Doing.CREASE:
            continue
        areas = _glued(design, step)
        new = {_kind(design, areas)} - warned if areas else set()
        warned |= new
        sections.append(
            Section(
                Part.ASSEMBLE,
                step.title,
                figures=(step_picture(design, index),),
                tables=_checks(design, step, meets.get(index, ())),
                sentences=_WORDED[step.doing](design, step),
                cautions=tuple(caution for kind in new for caution in OF_ADHESIVE[kind]),
            )
        )
    return tuple(sections)


def _glued(design: Design, step: Step) -> tuple[GlueArea, ...]:
    piece = design.construction.piece(step.piece)
    return tuple(area for area in piece.glue if area.name in step.glue)


def _kind(design: Design, areas: tuple[GlueArea, ...]) -> AdhesiveKind:
    names = {area.name for area in areas}
    for strip in design.dressing.strips:
        if strip.name in names:
            return design.workshop.adhesive(strip.adhesive).kind
    return design.workshop.adhesive(design.workshop.tape).kind


def _ready(design: Design, areas: tuple[GlueArea, ...]) -> list[Words]:
    if not areas:
        return []
    return [(make_ready(_kind(design, areas), unique(area.panel for area in areas)),)]


def _crease(design: Design, step: Step) -> tuple[Words, ...]:
    return (("Fold and burnish every score, then open it out flat.",),)


def _seam(design: Design, step: Step) -> tuple[Words, ...]:
    areas = _glued(design, step)
    tabs = unique(area.panel for area in areas)
    wrapped = the(step.moving)
    inside = f": {the(tabs)} goes inside" if tabs else ""
    return (
        *_ready(design, areas),
        (f"Wrap the walls round and lay {wrapped} over{inside}.",),
        ("Line the seam up at the top first, then at the bottom, and press.",),
    )


def _turn_in(design: Design, step: Step) -> tuple[Words, ...]:
    piece = design.construction.piece(step.piece)
    first, *rest = inner_first(design, step)
    then = "".join(f", then the {name}" for name in rest)
    square = " square to its wall" if not rest else ", each square to its wall"
    tucked = " They lie under what comes next." if rest else " It lies under what comes next."
    loose = "" if step.glue else "Do not stick anything yet."
    said: list[Words] = [(f"Fold in the {first}{then}{square}.",)]
    if loose:
        said.append((loose + (tucked if _covered(design, piece, step) else ""),))
    return tuple(said)


def inner_first(design: Design, step: Step) -> tuple[str, ...]:
    """The moving panels in the order in which they lie on each other, the innermost first."""
    inner = {
        (layer.inner, layer.outer)
        for layer in design.construction.layers
        if layer.piece == step.piece
    }
    return tuple(
        sorted(
            step.moving,
            key=lambda name: sum((other, name) in inner for other in step.moving),
        )
    )


def _covered(design: Design, piece: FlatPiece, step: Step) -> bool:
    return all(
        any(
            layer.piece == piece.name and layer.inner == name and layer.outer not in step.moving
            for layer in design.construction.layers
        )
        for name in step.moving
    )


def _press(design: Design, step: Step) -> tuple[Words, ...]:
    piece = design.construction.piece(step.piece)
    areas = _glued(design, step)
    under = unique(area.panel for area in areas)
    onto = f" onto {the(under) if len(under) < 4 else 'the tabs'}" if under else ""
    flaps = {piece.panel(name).role for name in step.moving} <= {Role.FLAP, Role.TAB}
    over = "Fold" if flaps else "Stand up"
    said = [
        *_ready(design, areas),
        (f"{over} {the(step.moving)}{' over' if flaps else ''}, and press {_it(step)}{onto}.",),
    ]
    if not flaps:
        said.append(("Line the upper edges up first, then the corners below.",))
    else:
        walls = [raw_edge_at(design, piece, name) for name in step.moving]
        if len(walls) == 1 and walls[0] and _outermost(design, step):
            said.append((f"Its raw edge now lies at the {walls[0]}.",))
    return tuple(said)


def _it(step: Step) -> str:
    return "it" if len(step.moving) == 1 else "them"


def _outermost(design: Design, step: Step) -> bool:
    return not any(
        layer.piece == step.piece and layer.inner in step.moving
        for layer in design.construction.layers
    )


def _raise(design: Design, step: Step) -> tuple[Words, ...]:
    piece = design.construction.piece(step.piece)
    turned = unique(
        name
        for turn in step.turns
        if turn.degrees > 0
        for name in turn.panels
        if piece.panel(name).role is Role.TAB and name not in step.moving
    )
    said: list[Words] = [(f"Stand {the(step.moving)} up.",)]
    if turned:
        which = the(turned) if len(turned) < 3 else f"their {len(turned)} tabs"
        said.append((f"Turn {which} in, square: they go inside the next walls.",))
    return tuple(said)


def _tuck(design: Design, step: Step) -> tuple[Words, ...]:
    first, *rest = inner_first(design, step)
    folded = f"Fold in {the((*rest, first))}."
    return ((folded,), (f"Push the {first} down inside until it holds.",))


def _set_on(design: Design, step: Step) -> tuple[Words, ...]:
    others = [slide.inner for slide in design.construction.slides if slide.outer == step.piece]
    onto = f" on {the(others)}" if others else ""
    return (
        (f"Set the {step.piece}{onto}.",),
        ("It should slide down by its own weight, with a little air all round.",),
    )


_WORDED: dict[Doing, Callable[[Design, Step], tuple[Words, ...]]] = {
    Doing.CREASE: _crease,
    Doing.SEAM: _seam,
    Doing.TURN_IN: _turn_in,
    Doing.PRESS: _press,
    Doing.RAISE: _raise,
    Doing.TUCK: _tuck,
    Doing.SET_ON: _set_on,
}


def _checks(design: Design, step: Step, meets: tuple[Meet, ...]) -> tuple[Table, ...]:
    piece = design.construction.piece(step.piece)
    tables = []
    if meets:
        tables.append(
            Table(
                (f"It is right when, on the {piece.name},",),
                (Column("this edge"), Column("meets")),
                tuple(
                    (
                        (f"{edge_name(piece, meet.one)} of the {meet.one.panel}",),
                        (f"{edge_name(piece, meet.other)} of the {meet.other.panel}",),
                    )
                    for meet in meets
                ),
            )
        )
    if step.doing is Doing.SET_ON:
        tables.append(
            Table(
                (f"The {step.piece} is larger, and has air left",),
                (
                    Column("across the"),
                    Column("larger by, in total", Tone.MEASURE),
                    Column("air left, in total", Tone.MEASURE),
                ),
                tuple(
                    ((air.direction,), (air.total,), (_FINE[design.system].below(air.left),))
                    for air in design.proof.air
                    if air.outer == step.piece
                ),
            )
        )
    return tuple(table for table in tables if table.rows)
