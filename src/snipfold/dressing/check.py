"""Checking a dressing, whoever made it: mats, strap, and tape against what it lies on.

Nothing here asks how `dress` came to its numbers: mats are held against the outline of their
panels edge by edge, and the strap's length comes from its tangents and its arc.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from ..findings import Finding, Mend, Severity
from ..flat import FlatPiece, Panel, Point, Role
from ..folding import Pose, closed
from ..measure import ZERO, Length, Ruler, System, words
from ..styles import Construction, HandlePlace, Measures
from ..workshop import Adhesive
from .dressing import Dressing, Mat, Strap
from .margins import LEAST_BORDER
from .mats import border_field, standing
from .names import panel_key
from .rectangle import Rectangle
from .straps import span_between
from .wishes import MatWish

#: Two panels face each other when their outsides look opposite ways to about a degree.
_FACING = 0.9998


def check_dressing(
    construction: Construction,
    dressing: Dressing,
    measures: Measures,
    tape: Adhesive,
    ruler: Ruler,
    system: System,
    *,
    poses: Mapping[str, Pose] | None = None,
    thickness: Length = ZERO,
    wish: MatWish | None = None,
) -> tuple[Finding, ...]:
    """Every break of what must hold of a dressing, and of the tape on the pieces.

    `poses` are the closed pieces (worked out anew when left out), `thickness` that of the piece
    the strap is stuck to, `wish` what was asked of the mats, so that a mend can name the very
    field. Findings, besides those of `adhesive_findings`:

    `mat.over-score`, `mat.over-edge`: a mat overhangs a score, or the rim; by how much.
    `mat.no-border`: it ends right on its panel's edge.
    `mat.over-glue`: it lies over glue; how far it must draw back.
    `mat.narrower-than-adhesive`: what holds it would show.
    `strap.too-short`, `strap.wider-than-panel`, `strap.foot-too-long`, `strap.foot-too-short`,
    `strap.crooked`: the strap; each with its shortfall or excess.
    """
    if poses is None:
        poses = closed(construction)
    found: list[Finding] = []
    for mat in dressing.mats:
        found += _mat_findings(construction, poses, dressing, mat, wish, ruler, system)
    for strip in dressing.strips:
        if strip.on == "mat":
            found += _under_mat(construction, dressing, strip.item, strip.width, wish, system)
    if dressing.strap is not None and construction.handle is not None:
        strap, place = dressing.strap, construction.handle
        found += _strap_findings(construction, poses, strap, place, tape, ruler, system, thickness)
    return (*found, *adhesive_findings(construction, measures, tape, ruler, system))


def _border_mend(
    construction: Construction,
    dressing: Dressing,
    mat: Mat,
    wish: MatWish | None,
    to: Length,
    system: System,
) -> Mend:
    """The border that mends a mat: the common one where all mats share it, else its own."""
    key = panel_key(construction, mat.piece, mat.panel)
    if wish is not None:
        field = border_field(wish, key)
    elif all(other.border == mat.border for other in dressing.mats):
        field = "mats.border"
    else:
        field = f"mats.borders.{key}"
    return Mend(field, words(mat.border, system), words(to, system))


def _as_cut(mat: Mat, poses: Mapping[str, Pose]) -> Rectangle:
    """Where a mat lies on the blank, when one cut larger than its place is laid on centred."""
    place = Rectangle.around(mat.corners)
    cut = standing(mat, poses[mat.piece].placed[mat.panel])
    wider = max((cut.width - place.across).as_mm / 2, Fraction(0))
    taller = max((cut.height - place.up).as_mm / 2, Fraction(0))
    return Rectangle(
        place.left - wider, place.low - taller, place.right + wider, place.high + taller
    )


def _mat_findings(
    construction: Construction,
    poses: Mapping[str, Pose],
    dressing: Dressing,
    mat: Mat,
    wish: MatWish | None,
    ruler: Ruler,
    system: System,
) -> Iterator[Finding]:
    piece = construction.piece(mat.piece)
    panel = piece.panel(mat.panel)
    key = panel_key(construction, mat.piece, mat.panel)
    lies = _as_cut(mat, poses)
    where = (mat.piece, mat.panel)
    least = LEAST_BORDER[system]
    borders = list(_borders(panel, lies.corners))
    narrowest = min(borders)
    if narrowest <= ZERO:
        scored = [
            border
            for border, side in zip(borders, _sides(panel), strict=True)
            if _is_scored(piece, panel, *side)
        ]
        over_score = min(scored, default=ZERO) < ZERO
        # What all sides must draw in by, so that the narrowest border becomes the least.
        to = ruler.above(mat.border + least - narrowest)
        mend = _border_mend(construction, dressing, mat, wish, to, system)
        advice = f"make its border {mend.to} on each side ({words(to * 2, system)} in total)"
        if narrowest == ZERO:
            yield Finding(
                "mat.no-border", Severity.CAUTION, where,
                f"the mat on {key} ends right on the panel's edge, where every slip shows",
                advice, least, mend,
            )  # fmt: skip
        elif over_score:
            narrowest = min(scored)
            yield Finding(
                "mat.over-score", Severity.ERROR, where,
                f"the mat on {key} lies {words(-narrowest, system)} over a score, which then "
                "cannot fold", advice, -narrowest, mend,
            )  # fmt: skip
        else:
            yield Finding(
                "mat.over-edge", Severity.ERROR, where,
                f"the mat on {key} stands {words(-narrowest, system)} out over the panel's edge",
                advice, -narrowest, mend,
            )  # fmt: skip
    for glue in piece.glue:
        if glue.panel != mat.panel or glue.face is not mat.face:
            continue
        over = lies.overlap(Rectangle.around(glue.corners))
        if over > ZERO:
            to = ruler.above(mat.border + over)
            yield Finding(
                "mat.over-glue", Severity.ERROR, where,
                f"the mat on {key} lies {words(over, system)} over {glue.name}, which then sticks "
                "to the mat alone",
                f"make its border {words(to, system)} on each side "
                f"({words(to * 2, system)} in total)",
                over, _border_mend(construction, dressing, mat, wish, to, system),
            )  # fmt: skip


def _sides(panel: Panel) -> Iterator[tuple[Point, Point]]:
    """The sides of a panel, each from its one end to its other."""
    return zip(panel.corners, panel.corners[1:] + panel.corners[:1], strict=True)


def _borders(panel: Panel, mat: Iterable[Point]) -> Iterator[Length]:
    """For each side of a panel: how far the mat keeps inside it."""
    mat = tuple(mat)
    for start, end in _sides(panel):
        dx, dy = end.x - start.x, end.y - start.y
        if dx == 0:
            at = [corner.x for corner in mat]
            yield Length.mm(start.x - max(at) if dy > 0 else min(at) - start.x)
        elif dy == 0:
            at = [corner.y for corner in mat]
            yield Length.mm(min(at) - start.y if dx > 0 else start.y - max(at))
        else:
            inside = min(dx * (at.y - start.y) - dy * (at.x - start.x) for at in mat)
            yield Length.figure(float(inside) / math.hypot(dx, dy))


def _is_scored(piece: FlatPiece, panel: Panel, start: Point, end: Point) -> bool:
    """Whether the side of a panel from `start` to `end` is a score."""
    dx, dy = end.x - start.x, end.y - start.y
    return any(
        panel.name in score.panels
        and dx * (score.start.y - start.y) == dy * (score.start.x - start.x)
        and dx * (score.end.y - start.y) == dy * (score.end.x - start.x)
        for score in piece.scores
    )


def _under_mat(
    construction: Construction,
    dressing: Dressing,
    key: str,
    width: Length,
    wish: MatWish | None,
    system: System,
) -> Iterator[Finding]:
    for mat in dressing.mats:
        if panel_key(construction, mat.piece, mat.panel) != key:
            continue
        narrow = min(mat.width, mat.height)
        if width > narrow:
            yield Finding(
                "mat.narrower-than-adhesive",
                Severity.CAUTION,
                (mat.piece, mat.panel),
                f"the mat on {key} is {words(narrow, system)} across and the adhesive under it "
                f"{words(width, system)}, so it would show",
                "use a narrower adhesive for mats, or glue",
                width - narrow,
            )


def _strap_findings(
    construction: Construction,
    poses: Mapping[str, Pose],
    strap: Strap,
    place: HandlePlace,
    tape: Adhesive,
    ruler: Ruler,
    system: System,
    thickness: Length,
) -> Iterator[Finding]:
    pose = poses[strap.piece]
    span = span_between(place, pose, thickness)
    used = strap.length - strap.trim
    needed = _hull(span, strap.opening, strap.rise) + strap.foot * 2
    if used < needed:
        to = words(ruler.above(needed), system)
        yield Finding(
            "strap.too-short", Severity.ERROR, ("strap",),
            f"the strap is {words(used, system)} long and {words(needed, system)} are needed: "
            f"{words(needed - strap.foot * 2, system)} free and two ends of "
            f"{words(strap.foot, system)}",
            f"cut it {to} long", needed - used,
            Mend("strap.length", words(used, system), to),
        )  # fmt: skip
    piece = construction.piece(strap.piece)
    margin = LEAST_BORDER[system]
    panels = [Rectangle.around(piece.panel(name).corners) for name in strap.panels]
    along = [_runs_across(piece, place, end) for end in (0, 1)]
    across = min(p.across if a else p.up for p, a in zip(panels, along, strict=True))
    down = min(p.up if a else p.across for p, a in zip(panels, along, strict=True))
    widest, longest = across - margin * 2, down - margin
    if strap.width > widest:
        fits = ruler.below(widest)
        yield Finding(
            "strap.wider-than-panel",
            Severity.ERROR if strap.width > across else Severity.CAUTION,
            ("strap",),
            f"the strap is {words(strap.width, system)} wide and its panel "
            f"{words(across, system)}, which leaves less than {words(margin, system)} beside it",
            f"make the strap {words(fits, system)} wide or less", strap.width - widest,
            Mend("strap.width", words(strap.width, system), words(fits, system))
            if fits > ZERO else None,
        )  # fmt: skip
    if strap.foot > longest:
        fits = ruler.below(longest)
        yield Finding(
            "strap.foot-too-long",
            Severity.ERROR,
            ("strap",),
            f"each end of the strap goes {words(strap.foot, system)} down a panel that is "
            f"{words(down, system)} tall",
            f"make the foot {words(fits, system)} or less", strap.foot - longest,
            Mend("strap.foot", words(strap.foot, system), words(fits, system))
            if fits > ZERO else None,
        )  # fmt: skip
    if strap.foot < tape.width:
        to = words(ruler.above(tape.width), system)
        yield Finding(
            "strap.foot-too-short",
            Severity.ERROR,
            ("strap",),
            f"each end of the strap is {words(strap.foot, system)} and the tape on it "
            f"{words(tape.width, system)} wide",
            f"make the foot {to}, or use a narrower tape", tape.width - strap.foot,
            Mend("strap.foot", words(strap.foot, system), to),
        )  # fmt: skip
    off = _crooked(strap, pose)
    if off > ZERO:
        yield Finding(
            "strap.crooked",
            Severity.CAUTION,
            ("strap",),
            f"on the closed box the strap's ends lie {words(off, system)} out of line",
            "fix the second end by its middle line, drawn from the first",
            off,
        )


def _hull(span: Length, opening: Length, rise: Length) -> Length:
    """The hull of feet, treats and circle less the rim, to 1e-6 mm, turn by turn.

    From a foot the band goes straight to the circle when that way leans outwards over the treats'
    block, else up the block and on to the circle. It turns, in all, from one tangent's direction
    to the other's, and is bent by that angle along the circle.
    """
    half, radius, height = span.float_mm / 2, opening.float_mm / 2, rise.float_mm
    upright = height if radius <= half else 0.0
    up = height + radius - upright
    away = math.hypot(half, up)
    # The tangent's steepness where it leaves: that of the centre, and as much more as the radius
    # is seen to be.
    steep = math.atan2(up, half) + math.asin(min(radius / away, 1.0))
    straight = math.sqrt(max(away**2 - radius**2, 0.0))
    return Length.figure(2 * (upright + straight) + radius * 2 * steep)


def _runs_across(piece: FlatPiece, place: HandlePlace, end: int) -> bool:
    """Whether the rim at that end runs across the blank."""
    rim = place.rims[end]
    corners = piece.panel(rim.panel).corners
    start, stop = corners[rim.corner], corners[(rim.corner + 1) % len(corners)]
    return abs(stop.x - start.x) >= abs(stop.y - start.y)


def _crooked(strap: Strap, pose: Pose) -> Length:
    """How far out of line the feet's middles are on the closed box, along the rim, to 1e-6 mm.

    Zero where the two panels do not face each other: then the box does not close, which is for the
    proof to say.
    """
    one_out, other_out = (pose.placed[panel].outward for panel in strap.panels)
    if one_out.dot(other_out) > -_FACING:
        return ZERO
    middles, rims = [], []
    for panel, foot in zip(strap.panels, strap.feet, strict=True):
        placement = pose.placed[panel].placement
        one, other = placement.place(foot[0]), placement.place(foot[1])
        middles.append(one.plus(other.minus(one), 0.5))
        rims.append(other.minus(one).unit())
    return abs(Length.figure(middles[1].minus(middles[0]).dot(rims[0])))


def adhesive_findings(
    construction: Construction, measures: Measures, tape: Adhesive, ruler: Ruler, system: System
) -> tuple[Finding, ...]:
    """`tape.wider-than-tab`: tape that is wider than the tab or flap it is on; by how much.

    Tabs or flaps of one piece that share a measure give one finding, since one change mends them.
    """
    narrow: dict[tuple[str, str, Length], list[str]] = {}
    for piece in construction.pieces:
        for glue in piece.glue:
            panel = piece.panel(glue.panel)
            across = _across(piece, panel)
            if across < tape.width and panel.role in _MEASURED:
                names = narrow.setdefault((piece.name, _MEASURED[panel.role], across), [])
                if panel.name not in names:
                    names.append(panel.name)
    found = []
    for (piece_name, word, across), names in narrow.items():
        own = f"{piece_name}_{word}"
        field = own if own in measures else word
        to = words(ruler.above(tape.width), system)
        found.append(
            Finding(
                "tape.wider-than-tab",
                Severity.ERROR,
                (piece_name, *names),
                f"{piece_name}: {', '.join(names)} {'is' if len(names) == 1 else 'are'} "
                f"{words(across, system)} wide and the tape {words(tape.width, system)}",
                f"make the {field.replace('_', ' ')} {to}, or use a narrower tape",
                tape.width - across,
                Mend(f"measures.{field}", words(across, system), to) if field in measures else None,
            )
        )
    return tuple(found)


#: What a style calls the measure of such panels, alone or after the piece's name.
_MEASURED = {Role.TAB: "tab", Role.FLAP: "flap"}


def _across(piece: FlatPiece, panel: Panel) -> Length:
    """How far a tab or flap reaches from the score it hangs on."""
    score = next(score for score in piece.scores if panel.name in score.panels)
    dx, dy = score.end.x - score.start.x, score.end.y - score.start.y
    reach = max(
        abs(dx * (corner.y - score.start.y) - dy * (corner.x - score.start.x))
        for corner in panel.corners
    )
    if dx == 0 or dy == 0:
        return Length.mm(reach / (abs(dx) + abs(dy)))
    return Length.figure(float(reach) / math.hypot(dx, dy))
