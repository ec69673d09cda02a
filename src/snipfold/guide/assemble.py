"""Putting together, step by step, worded from what each step does."""

from __future__ import annotations

from collections.abc import Callable

from ..drawing import step_picture
from ..flat import EdgeKind, FlatPiece, GlueArea, Role
from ..folding import closed
from ..measure import Length, Ruler, System
from ..project import Design
from ..styles import Doing, Meet, Step
from ..workshop import AdhesiveKind
from .cautions import FOOD, OF_ADHESIVE
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
                cautions=(
                    *(caution for kind in new for caution in OF_ADHESIVE[kind]),
                    *((FOOD,) if step.doing is Doing.HANG else ()),
                ),
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
    panels = unique(area.panel for area in areas)
    return [(make_ready(_kind(design, areas), panels, len(areas)),)]


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
        (f"Line the seam up at {_ends(design, step, areas)}, and press.",),
    )


def _ends(design: Design, step: Step, areas: tuple[GlueArea, ...]) -> str:
    """The two ends of a seam in the order in which they are lined up, as the piece then stands."""
    standing = closed(design.construction)[step.piece]
    for area in areas:
        run = [standing.placed[area.panel].placement.place(corner) for corner in area.corners]
        reach = [max(at) - min(at) for at in zip(*run, strict=True)]
        if reach[2] < max(reach):
            return "one end first, then at the other"
    return "the top first, then at the bottom"


def _turn_in(design: Design, step: Step) -> tuple[Words, ...]:
    piece = design.construction.piece(step.piece)
    first, *rest = inner_first(design, step)
    then = "".join(f", then the {name}" for name in rest)
    way = "down flat" if _folds_flat(piece, step) else "square to its wall"
    square = f" {way}" if not rest else f", each {way}"
    tucked = "They lie under what comes next." if rest else "It lies under what comes next."
    loose = "Do not stick anything yet." if not step.glue and _sticks_later(piece, step) else ""
    which = f"the {first}{then}" if len(rest) < _MANY else f"the {len(step.moving)} tabs"
    said: list[Words] = [*_fill_first(design, step), (f"Fold in {which}{square}.",)]
    more = [loose] if loose else []
    if not step.glue and _covered(design, piece, step):
        more.append(tucked)
    if more:
        said.append((" ".join(more),))
    return tuple(said)


def _sticks_later(piece: FlatPiece, step: Step) -> bool:
    """Whether adhesive holds any of what moves, in another step than this."""
    return any(area.panel in step.moving or area.mate in step.moving for area in piece.glue)


def _fill_first(design: Design, step: Step) -> list[Words]:
    """To fill the box before its top is closed, in the first step that closes it."""
    construction = design.construction
    cavity = construction.cavity
    piece = construction.piece(cavity.piece)
    if cavity.flat or piece.panel(cavity.rim).role is not Role.TOP:
        return []
    closes = {cavity.rim} | {
        layer.inner
        for layer in construction.layers
        if layer.piece == cavity.piece and layer.outer == cavity.rim
    }
    closing = [
        one
        for one in construction.steps
        if one.piece == cavity.piece
        and one.doing in (Doing.TURN_IN, Doing.TUCK)
        and closes & set(one.moving)
    ]
    if not closing or closing[0] is not step:
        return []
    return [(f"Fill the {design.style.noun[0]} first: from here on it is closed.",)]


#: Degrees of a fold that lays a panel onto its neighbour.
FLAT_ON = 180
#: More panels than this are counted, and not named one by one.
_MANY = 3


def _folds_flat(piece: FlatPiece, step: Step) -> bool:
    """Whether what moves is folded onto its neighbour."""
    return any(piece.score(*turn.panels).degrees == FLAT_ON for turn in step.turns)


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
    # What carries its own adhesive is pressed onto its mate, else onto the adhesive.
    under = unique(area.panel if area.mate in step.moving else area.mate for area in areas)
    onto = f" onto {the(under) if len(under) <= _MANY else 'the tabs'}" if under else ""
    roles = {piece.panel(name).role for name in step.moving}
    flaps = roles <= {Role.FLAP, Role.TAB}
    flat = _folds_flat(piece, step)
    folds = flat or Role.WALL not in roles
    over = "Fold" if folds else "Stand up"
    said = [
        *_ready(design, areas),
        (f"{over} {the(step.moving)}{' over' if folds else ''}, and press {_it(step)}{onto}.",),
    ]
    if not folds:
        said.append(("Line the upper edges up first, then the corners below.",))
    elif not flaps:
        to = "" if flat else " with the walls"
        said.append((f"Line {'its' if len(step.moving) == 1 else 'their'} corners up{to} first.",))
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
    behind = [
        layer.outer
        for layer in design.construction.layers
        if layer.piece == step.piece and layer.inner == first and layer.slid
    ]
    where = f"in behind {the(behind)}" if behind else "down inside"
    until = "its slits catch" if _has_slits(design, step, first) else "it holds"
    return (
        *_fill_first(design, step),
        (f"Fold in {the((*rest, first))}.",),
        (f"Push the {first} {where} until {until}.",),
    )


def _has_slits(design: Design, step: Step, panel: str) -> bool:
    """Whether a panel is slit along a side."""
    return any(
        edge.kind is EdgeKind.SLIT and panel in (edge.left, edge.right)
        for edge in design.construction.piece(step.piece).edges
    )


def _set_on(design: Design, step: Step) -> tuple[Words, ...]:
    others = [slide.inner for slide in design.construction.slides if slide.outer == step.piece]
    onto = f" on {the(others)}" if others else ""
    if any(slide.outer == step.piece and not slide.off[2] for slide in design.construction.slides):
        return (
            (f"Slide the {step.piece} over {the(others)}.",),
            ("It should go on with a light push, with a little air all round.",),
        )
    return (
        (f"Set the {step.piece}{onto}.",),
        ("It should slide down by its own weight, with a little air all round.",),
    )


def _close(design: Design, step: Step) -> tuple[Words, ...]:
    one, _ = design.style.noun
    return (
        (f"Fold {the(step.moving)} over last.",),
        (f"Leave {_it(step)} loose until the {one} is filled.",),
        ("Then hold it with a seal, or with a ribbon tied round.",),
    )


def _hang(design: Design, step: Step) -> tuple[Words, ...]:
    return (
        (
            f"Fold {the(step.moving)} down over the rim of the closed bag, and push the rim up "
            "as far as it goes.",
        ),
        ("Staple through all layers near the fold, or stick the bag to the inside with tape.",),
        ("Press the points of staples flat.",),
    )


_WORDED: dict[Doing, Callable[[Design, Step], tuple[Words, ...]]] = {
    Doing.CREASE: _crease,
    Doing.SEAM: _seam,
    Doing.TURN_IN: _turn_in,
    Doing.PRESS: _press,
    Doing.RAISE: _raise,
    Doing.TUCK: _tuck,
    Doing.SET_ON: _set_on,
    Doing.CLOSE: _close,
    Doing.HANG: _hang,
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
