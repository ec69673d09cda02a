"""Parts from the hidden middle of a covered layer.

Source of the practice: small pieces are cut from the middle of a layer that another one covers,
https://mamiepapyrus.com/my-blog/getting-back-to-basics-tips-and-tricks. It weakens the layer, so it
is offered and never done without being asked for.
"""

from __future__ import annotations

from collections.abc import Sequence

from ..dressing import Mat, panel_key
from ..dressing.margins import LEAST_BORDER
from ..dressing.rectangle import Rectangle
from ..flat import Role
from ..measure import ZERO, Length
from .demand import Asked, Demand
from .order import HiddenMiddle

#: Panels that may lose their middle. A floor carries what goes in, a top what stands on it.
_MAY = (Role.WALL,)


def hidden_middles(demanded: Sequence[Demand], asked: Asked) -> tuple[HiddenMiddle, ...]:
    """The middles of this paper that mats cover, and into which at least one other part fits.

    Each keeps clear of the adhesive under its mat, and of the mat's edge by the least border that
    is sure to hide it. Only walls give theirs: a floor carries what goes in.
    """
    names = {paper.name for paper in asked.papers}
    found = []
    for demand in demanded:
        design = demand.wanted.design
        own = {part.name: part for part in demand.parts}
        for mat in design.dressing.mats:
            blank = own.get(mat.piece)
            piece = design.construction.piece(mat.piece)
            if blank is None or blank.paper not in names:
                continue
            if piece.panel(mat.panel).role not in _MAY:
                continue
            clear = _clear(demand, mat)
            if clear is None:
                continue
            width, height = clear
            if blank.width != piece.width:
                width, height = height, width
            if _takes_any(asked, demand, blank.part, width, height):
                key = panel_key(design.construction, mat.piece, mat.panel)
                found.append(
                    HiddenMiddle(
                        demand.name, mat.piece, key, blank.paper, width, height,
                        demand.wanted.made,
                    )
                )  # fmt: skip
    return tuple(found)


def _clear(demand: Demand, mat: Mat) -> tuple[Length, Length] | None:
    """What may go from under a mat, along the blank's x and y; None where nothing may."""
    design = demand.wanted.design
    key = panel_key(design.construction, mat.piece, mat.panel)
    under = (
        strip.width for strip in design.dressing.strips if strip.on == "mat" and strip.item == key
    )
    place = Rectangle.around(mat.corners)
    # The adhesive runs all round, the least border inside the mat's edge; as much again for a slip.
    edge = max(under, default=ZERO) + LEAST_BORDER[design.system] * 2
    width, height = place.across - edge * 2, place.up - edge * 2
    return (width, height) if width > ZERO and height > ZERO else None


def _takes_any(asked: Asked, demand: Demand, blank: str, width: Length, height: Length) -> bool:
    return any(
        part.name != blank
        and (
            (part.width <= width and part.height <= height)
            or (part.turn and part.height <= width and part.width <= height)
        )
        for part in asked.parts
    )
