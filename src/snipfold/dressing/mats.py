"""Mats: which panels get one, and how large it is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from difflib import get_close_matches

from ..findings import Finding, Mend, Severity
from ..flat import Face, Panel, Role
from ..folding import Placed, Pose
from ..measure import Length, Ruler, System, words
from ..measure.tolerance import CLOSING_MM
from ..styles import Construction
from .dressing import Mat
from .margins import LEAST_MAT
from .names import panel_keys
from .rectangle import Rectangle, is_rectangle
from .wishes import MatWish

#: A face looks down (or an edge runs up) when its direction is steeper than 45 degrees.
_STEEP = 0.7071


def has_visible_outside(
    construction: Construction, poses: Mapping[str, Pose], piece: str, panel: str
) -> bool:
    """Whether the panel's outside face is seen on the finished box, closed and standing.

    Tabs and flaps never are, nor are panels that lie inside another, nor faces that look down, nor
    what another piece that slides over it covers whole.
    """
    own, placed = construction.piece(piece).panel(panel), poses[piece].placed
    return (
        own.role not in (Role.FLAP, Role.TAB)
        and not any(
            layer.piece == piece
            and panel in (layer.inner, layer.outer)
            # What is folded flat onto its inside hides nothing of its outside; a pleat hides both.
            and (
                layer.pleated
                or (
                    layer.inner == panel
                    and placed[layer.outer].outward.dot(placed[panel].outward) > 0
                )
            )
            for layer in construction.layers
        )
        and placed[panel].outward.z > -_STEEP
        and not _covered(construction, poses, piece, panel)
    )


def _covered(construction: Construction, poses: Mapping[str, Pose], piece: str, panel: str) -> bool:
    """Whether a wall of a piece that slides over this one stands before all of the panel."""
    own = poses[piece].placed[panel]
    for slide in construction.slides:
        if slide.inner != piece:
            continue
        for direction, (out_one, in_one, in_other, out_other) in slide.across:
            along = ("width", "depth", "height").index(direction)
            if panel not in (in_one, in_other) or abs(own.outward[along]) < _STEEP:
                continue
            over = poses[slide.outer].placed[out_one if panel == in_one else out_other]
            if all(
                min(c[axis] for c in over.corners) <= min(c[axis] for c in own.corners) + CLOSING_MM
                and max(c[axis] for c in own.corners)
                <= max(c[axis] for c in over.corners) + CLOSING_MM
                for axis in range(3)
                if axis != along
            ):
                return True
    return False


def make_mats(
    construction: Construction,
    poses: Mapping[str, Pose],
    wish: MatWish,
    ruler: Ruler,
    system: System,
) -> tuple[list[Mat], list[Finding]]:
    """The mats that are wished for, and what stands in the way of some.

    A mat is its panel less the border on each side, centred, on the outside face. It keeps off
    glue there: it is shortened, or left out where too little would remain. Findings:
    `mat.unknown-panel`, `mat.no-room`, `mat.not-rectangular`, `mat.shortened`, `mat.left-out`.
    """
    if not wish.on:
        return [], []
    keys = panel_keys(construction)
    found = [
        _unknown(name, field, keys)
        for field, names in (
            ("mats.off", sorted(wish.off)),
            ("mats.also", sorted(wish.also)),
            ("mats.borders", wish.borders),
        )
        for name in names
        if name not in keys
    ]
    made = []
    for key, (piece, panel) in keys.items():
        if key in wish.off:
            continue
        if key not in wish.also and not has_visible_outside(construction, poses, piece, panel):
            continue
        mat, news = _mat(construction, poses, wish, key, piece, panel, ruler, system)
        found += news
        if mat is not None:
            made.append(mat)
    return made, found


def _unknown(name: str, field: str, keys: Mapping[str, tuple[str, str]]) -> Finding:
    near = get_close_matches(name, keys, n=1)
    return Finding(
        "mat.unknown-panel",
        Severity.ERROR,
        (name,),
        f"{field} names the panel {name}, and there is none",
        f"write {near[0]}" if near else f"write one of: {', '.join(keys)}",
        None,
        Mend(field if field != "mats.borders" else f"{field}.{name}", name, near[0])
        if near
        else None,
    )


def border_field(wish: MatWish, key: str) -> str:
    """The field of the project file that holds the border of that panel's mat."""
    return f"mats.borders.{key}" if key in wish.borders else "mats.border"


def _mat(
    construction: Construction,
    poses: Mapping[str, Pose],
    wish: MatWish,
    key: str,
    piece: str,
    name: str,
    ruler: Ruler,
    system: System,
) -> tuple[Mat | None, list[Finding]]:
    panel = construction.piece(piece).panel(name)
    where = (piece, name)
    # A panel that can have no mat goes without, unless one was asked for by its name.
    asked = key in wish.also or key in wish.borders
    if not is_rectangle(panel.corners):
        if not asked:
            return None, []
        return None, [
            Finding(
                "mat.not-rectangular",
                Severity.CAUTION,
                where,
                f"{key} is no rectangle, so no mat is planned for it",
                f"leave {key} out of mats.{'also' if key in wish.also else 'borders'}",
            )
        ]
    border = wish.borders.get(key, wish.border)
    outline = Rectangle.around(panel.corners)
    least = LEAST_MAT[system]
    widest = (outline.shorter - least) / 2
    if border > widest:
        fits = ruler.below(widest)
        if fits <= Length.mm(0) and not asked:
            return None, []
        return None, [
            Finding(
                "mat.no-room",
                Severity.ERROR,
                where,
                f"{key} is {words(outline.shorter, system)} across, so a border of "
                f"{words(border, system)} on each side ({words(border * 2, system)} in total) "
                f"leaves less than {words(least, system)} of mat",
                f"make the border {words(fits, system)} on each side or less"
                if fits > Length.mm(0)
                else f"leave {key} without a mat",
                border - widest,
                Mend(border_field(wish, key), words(border, system), words(fits, system))
                if fits > Length.mm(0)
                else None,
            )
        ]
    whole = outline.drawn_in(border)
    clear = _clear_of_glue(construction, piece, panel, whole)
    if clear.shorter < least:
        return None, [
            Finding(
                "mat.left-out",
                Severity.CAUTION,
                where,
                f"adhesive takes up the outside of {key}, so it gets no mat",
                "nothing to do, or move the adhesive to the other part of the joint",
            )
        ]
    placed = poses[piece].placed[name]
    mat = standing(
        Mat(piece, name, Face.OUTSIDE, clear.corners, clear.across, clear.up, border), placed
    )
    if clear == whole:
        return mat, []
    lost = (whole.across - clear.across) + (whole.up - clear.up)
    return mat, [
        Finding(
            "mat.shortened",
            Severity.NOTE,
            where,
            f"the mat on {key} is {words(lost, system)} shorter, to keep off the adhesive there",
            "nothing to do",
            lost,
        )
    ]


def standing(mat: Mat, placed: Placed) -> Mat:
    """The mat, its size along the blank's x and y turned to width and height as the box stands.

    On walls the height runs up; on level panels the width runs from left to right.
    """
    up = placed.placement.y
    upright = abs(up.z) > _STEEP if abs(placed.outward.z) < _STEEP else abs(up.y) > _STEEP
    return mat if upright else replace(mat, width=mat.height, height=mat.width)


def _clear_of_glue(
    construction: Construction, piece: str, panel: Panel, mat: Rectangle
) -> Rectangle:
    """The largest part of the mat on one side of all glue on the panel's outside face."""
    for glue in construction.piece(piece).glue:
        if glue.panel != panel.name or glue.face is not Face.OUTSIDE:
            continue
        taken = Rectangle.around(glue.corners)
        if mat.overlap(taken) > Length.mm(0):
            sides = (
                mat._replace(left=taken.right),
                mat._replace(right=taken.left),
                mat._replace(low=taken.high),
                mat._replace(high=taken.low),
            )
            mat = max(sides, key=_extent)
    return mat


def _extent(part: Rectangle) -> tuple[bool, object]:
    across, up = part.right - part.left, part.high - part.low
    return across > 0 and up > 0, across * up
