"""Where each adhesive goes: on panels, under mats, on the strap's ends."""

from __future__ import annotations

from collections.abc import Sequence

from ..flat import Face
from ..measure import ZERO, Length, System
from ..styles import Construction
from ..workshop import Adhesive
from .dressing import COVER_STAGE, MAT_STAGE, STRAP_STAGE, TAPE_STAGE, Mat, Strap, Strip
from .margins import LEAST_BORDER
from .names import panel_key

ENDS = ("first end", "second end")


def make_strips(
    construction: Construction,
    mats: Sequence[Mat],
    strap: Strap | None,
    tape: Adhesive,
    mat_adhesive: Adhesive,
    system: System,
) -> list[Strip]:
    """Every strip of adhesive, in the order in which they go down."""
    strips = [
        Strip(
            glue.name, tape.name, piece.name, "panel", glue.panel, glue.face, glue.edge,
            glue.width, glue.length, glue.corners, TAPE_STAGE,
        )
        for piece in construction.pieces
        for glue in piece.glue
    ]  # fmt: skip
    covers = [_mat_strip(construction, mat, strap, mat_adhesive, system) for mat in mats]
    strips += [strip for strip in covers if strip.stage == MAT_STAGE]
    if strap is not None:
        for end, panel in zip(ENDS, strap.panels, strict=True):
            strips += _end_strips(strap, end, panel, mats, tape)
    strips += [strip for strip in covers if strip.stage == COVER_STAGE]
    return strips


def mat_run(width: Length, height: Length, line: Length, inset: Length) -> Length:
    """How much adhesive a mat of `width` x `height` takes, in a line all round.

    `line` is how wide the adhesive is, `inset` how far it keeps from the mat's edge. Four strips,
    each of which begins where the one before it ends, are together as long as the middle line of
    that frame. A mat too narrow for two strips side by side takes one along its middle.
    """
    across = inset + line / 2
    longer, shorter = max(width, height), min(width, height)
    if shorter < inset * 2 + line * 2:
        return max(longer - inset * 2, ZERO)
    return (width + height - across * 4) * 2


def _mat_strip(
    construction: Construction, mat: Mat, strap: Strap | None, adhesive: Adhesive, system: System
) -> Strip:
    key = panel_key(construction, mat.piece, mat.panel)
    inset = LEAST_BORDER[system]
    # A mat over the strap's foot waits until the strap is on.
    waits = strap is not None and covers_foot(mat, strap, mat.panel)
    return Strip(
        f"{key} mat", adhesive.name, mat.piece, "mat", key, Face.INSIDE, "all round",
        adhesive.width, mat_run(mat.width, mat.height, adhesive.width, inset), (),
        COVER_STAGE if waits else MAT_STAGE,
    )  # fmt: skip


def covers_foot(mat: Mat, strap: Strap, panel: str) -> bool:
    """Whether the mat lies over the strap's foot on that panel."""
    return (
        panel in strap.panels
        and mat.piece == strap.piece
        and mat.panel == panel
        and mat.face is strap.face
    )


def _end_strips(
    strap: Strap, end: str, panel: str, mats: Sequence[Mat], tape: Adhesive
) -> list[Strip]:
    """The tape on one end of the strap.

    The face that touches the panel is always taped. Its other face is taped where a mat covers the
    foot: the mat's own adhesive would otherwise bridge the step at the strap's edges and let go.
    With no mat there, tape on it would only show.
    """
    touching = strap.face.other
    faces = [touching]
    if any(covers_foot(mat, strap, panel) for mat in mats):
        faces.append(touching.other)
    return [
        Strip(
            f"strap, {end}, {face.value}, {edge}", tape.name, strap.piece, "strap", end, face,
            edge, tape.width, length, (), STRAP_STAGE,
        )
        for face in faces
        for edge, length in _laid(strap, tape)
    ]  # fmt: skip


def _laid(strap: Strap, tape: Adhesive) -> list[tuple[str, Length]]:
    """How tape lies on a foot: two strips across where it is long enough, else what fits.

    Across, one strip at the rim takes the peel of a pulled handle and one at the lower end keeps
    that end down.
    """
    if strap.foot >= tape.width * 2:
        return [("across, at the rim", strap.width), ("across, at the end", strap.width)]
    if strap.width >= tape.width * 2:
        return [("along, left", strap.foot), ("along, right", strap.foot)]
    return [("across, in the middle", strap.width)]
