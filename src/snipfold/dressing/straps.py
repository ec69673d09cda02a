"""Straps: how long, where the feet go, and the pencil marks that line them up."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from fractions import Fraction

from ..findings import Finding, Mend, Severity
from ..flat import Face, FlatPiece, Point
from ..folding import Pose, Treat, Vec
from ..measure import ZERO, Length, Ruler, System, words
from ..styles import Construction, EdgeOf, HandlePlace
from .dressing import Mark, Strap
from .wishes import StrapWish


def least_free(span: Length, opening: Length, rise: Length = ZERO) -> Length:
    """The least free length of a strap, to 1e-6 mm.

    `span` is the distance between its feet at the rim, `opening` the diameter d of the circle that
    must pass below it, `rise` how far treats stand above the rim.

    A taut strap follows the hull of what lies below it. A circle of diameter d that rests on the
    middle of the rim line, between feet s apart, touches that line s/2 from either foot, so the
    other tangent from a foot is s/2 long too. It leaves the foot at twice the angle
    a = atan(d/s) at which the circle's centre is seen from there; the two tangents turn the strap
    by 4a in all, along an arc of 4a d/2 of the circle. In all s + 2 d atan(d/s).

    Treats may stand anywhere between the walls, so room is left as if they filled the opening from
    foot to foot up to their height p above the rim (treats that fill less lie within that block,
    and the hull of a part is never longer than that of the whole). Up to d = s the tangents lean
    inwards, so the hull runs straight up the block first: the same figure, 2p longer. A wider
    circle bulges past the block; the tangents then run from the feet to the raised circle.
    """
    if opening <= span:
        s, d = span.float_mm, opening.float_mm
        return Length.figure(s + 2 * d * math.atan2(d, s)) + rise * 2
    half, radius = span.float_mm / 2, opening.float_mm / 2
    centre = rise.float_mm + radius
    tangent = math.sqrt(half**2 + centre**2 - radius**2)
    # The arc is the whole turn less, on each side, the angle from straight down to the foot and
    # from there to the point where the tangent touches.
    arc = 2 * math.pi - 2 * (math.atan2(half, centre) + math.atan2(tangent, radius))
    return Length.figure(2 * tangent + radius * arc)


def make_strap(
    construction: Construction,
    poses: Mapping[str, Pose],
    wish: StrapWish,
    treats: Sequence[Treat],
    ruler: Ruler,
    system: System,
    strap_sheet: Length | None,
    thickness: Length,
) -> tuple[Strap | None, list[Finding]]:
    """The strap that is wished for, and what stands in its way.

    Findings: `strap.no-place`, `strap.trimmed`, `strap.sheet-too-short`. Whether it is long
    enough and its feet hold is for `check_dressing` to say.
    """
    if not wish.on:
        return None, []
    place = construction.handle
    if place is None:
        return None, [
            Finding(
                "strap.no-place",
                Severity.CAUTION,
                ("strap",),
                "this style has no place for a strap, so none is planned",
                "leave the strap out",
                None,
                Mend("strap.on", "true", "false"),
            )
        ]
    piece, pose = construction.piece(place.piece), poses[place.piece]
    span = span_between(place, pose, thickness)
    rise = max((treat.proud for treat in treats), default=ZERO)
    least = least_free(span, wish.opening, rise)
    needed = ruler.above(least + wish.foot * 2)
    length = wish.length if wish.length is not None else needed
    trim = max(length - needed, ZERO)
    middles = _middles(piece, place, pose)
    feet = tuple(
        _foot(piece, rim, middle, wish.width, wish.foot)
        for rim, middle in zip(place.rims, middles, strict=True)
    )
    strap = Strap(
        place.piece, place.panels, place.face, wish.width, length, wish.foot,
        length - trim - wish.foot * 2, least, wish.opening, span, (feet[0], feet[1]),
        _marks(piece, place, pose, (feet[0], feet[1])), rise, trim,
    )  # fmt: skip
    found = []
    if trim:
        found.append(
            Finding(
                "strap.trimmed",
                Severity.NOTE,
                ("strap",),
                f"the strip is {words(length, system)} long and {words(needed, system)} are needed",
                f"trim {words(trim, system)} off one end, or keep it for a taller handle",
                trim,
            )
        )
    if strap_sheet is not None and length > strap_sheet:
        found.append(_sheet_too_short(wish, length, needed, span, rise, strap_sheet, ruler, system))
    return strap, found


def span_between(place: HandlePlace, pose: Pose, thickness: Length) -> Length:
    """How far apart the strap's feet are on the closed piece, at the rim, to 1e-6 mm.

    Panels are mid-surfaces: on the outside faces the paper's `thickness` comes on top, on the
    inside faces it goes off.
    """
    one, other = (_middle(pose, rim) for rim in place.rims)
    between = Length.figure(one.minus(other).length())
    return between + thickness if place.face is Face.OUTSIDE else between - thickness


def _middle(pose: Pose, rim: EdgeOf) -> Vec:
    start, end = pose.edge(rim.panel, rim.corner)
    return start.plus(end.minus(start), 0.5)


def _rim_frame(piece: FlatPiece, rim: EdgeOf) -> tuple[Point, Point, Point]:
    """The middle of a rim on the blank, the unit step along it, and the unit step into the panel.

    Corners run anticlockwise, so the panel lies on the left of its edge. Exact along rows and
    columns; a slanting step is rounded to 1e-9.
    """
    corners = piece.panel(rim.panel).corners
    start, end = corners[rim.corner], corners[(rim.corner + 1) % len(corners)]
    dx, dy = end.x - start.x, end.y - start.y
    length = abs(dx) + abs(dy) if dx == 0 or dy == 0 else round(Fraction(math.hypot(dx, dy)), 9)
    along = Point(dx / length, dy / length)
    middle = Point((start.x + end.x) / 2, (start.y + end.y) / 2)
    return middle, along, Point(-along.y, along.x)


def _across(place: HandlePlace, pose: Pose, point: Point) -> Point:
    """The point of the second panel that lies straight across from one of the first, to 1e-6 mm.

    Seen across the closed box and brought back to the blank. A pencil mark goes into no sum.
    """
    here, there = (pose.placed[panel].placement for panel in place.panels)
    x, y = there.flat(here.place(point))
    return Point(Length.figure(x).as_mm, Length.figure(y).as_mm)


def _middles(piece: FlatPiece, place: HandlePlace, pose: Pose) -> tuple[Point, Point]:
    """Where the strap's middle meets each rim: midway on the first, straight across on the second.

    On a sound box that is midway on the second too, and then exactly so.
    """
    first, _, _ = _rim_frame(piece, place.rims[0])
    second, along, _ = _rim_frame(piece, place.rims[1])
    seen = _across(place, pose, first)
    off = Length.figure(float((seen.x - second.x) * along.x + (seen.y - second.y) * along.y)).as_mm
    return first, Point(second.x + along.x * off, second.y + along.y * off)


def _foot(
    piece: FlatPiece, rim: EdgeOf, middle: Point, width: Length, foot: Length
) -> tuple[Point, ...]:
    """The rectangle that a foot covers: either side of `middle`, and `foot` down from the rim."""
    _, along, into = _rim_frame(piece, rim)
    half, deep = width.as_mm / 2, foot.as_mm

    def at(sideways: Fraction, down: Fraction) -> Point:
        return Point(
            middle.x + along.x * sideways + into.x * down,
            middle.y + along.y * sideways + into.y * down,
        )

    zero = Fraction(0)
    return at(-half, zero), at(half, zero), at(half, deep), at(-half, deep)


def _marks(
    piece: FlatPiece,
    place: HandlePlace,
    pose: Pose,
    feet: tuple[tuple[Point, ...], tuple[Point, ...]],
) -> tuple[Mark, ...]:
    """For each end the middle line that starts at the rim, and the line where the foot stops.

    The second middle line is the first one seen across the closed box, so that the strap runs
    straight.
    """
    centre = tuple(
        Point((one.x + other.x) / 2, (one.y + other.y) / 2)
        for one, other in ((feet[0][0], feet[0][1]), (feet[0][3], feet[0][2]))
    )
    lines = (centre, tuple(_across(place, pose, point) for point in centre))
    return tuple(
        mark
        for panel, foot, (start, end), word in zip(
            place.panels, feet, lines, ("first", "second"), strict=True
        )
        for mark in (
            Mark(piece.name, panel, place.face, start, end, f"the middle of the strap, {word} end"),
            Mark(
                piece.name, panel, place.face, foot[2], foot[3],
                f"where the strap's {word} end stops",
            ),
        )
    )  # fmt: skip


def _sheet_too_short(
    wish: StrapWish,
    length: Length,
    needed: Length,
    span: Length,
    rise: Length,
    strap_sheet: Length,
    ruler: Ruler,
    system: System,
) -> Finding:
    """The strip that is wanted is longer than any the sheet gives; the mend asks for less."""
    short = length - strap_sheet
    mend = None
    if wish.length is not None and needed <= strap_sheet:
        to = ruler.below(strap_sheet)
        mend = Mend("strap.length", words(wish.length, system), words(to, system))
    elif wish.length is None:
        opening = _widest_opening(wish, span, rise, strap_sheet, ruler)
        if opening > ZERO:
            mend = Mend("strap.opening", words(wish.opening, system), words(opening, system))
    return Finding(
        "strap.sheet-too-short",
        Severity.ERROR,
        ("strap",),
        f"the strap is {words(length, system)} long and the longest strip of its sheet "
        f"{words(strap_sheet, system)}, {words(short, system)} less",
        f"set {mend.field} to {mend.to}, or take a larger sheet for the strap"
        if mend is not None
        else "take a larger sheet for the strap",
        short,
        mend,
    )


def _widest_opening(
    wish: StrapWish, span: Length, rise: Length, strap_sheet: Length, ruler: Ruler
) -> Length:
    """The largest opening on a mark whose strap the sheet gives; zero where there is none.

    A larger opening always takes a longer strap, so halving finds it.
    """
    fits, too_many = 0, math.ceil(ruler.marks(wish.opening))
    while too_many - fits > 1:
        middle = (fits + too_many) // 2
        free = least_free(span, ruler.graduation * middle, rise)
        if ruler.above(free + wish.foot * 2) <= strap_sheet:
            fits = middle
        else:
            too_many = middle
    return ruler.graduation * fits
