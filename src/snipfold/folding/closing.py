"""Closing: whether the edges that must come together do, and if not, which line is at fault."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from shapely import Point as FlatSpot
from shapely import Polygon

from ..findings import Finding, Mend, Severity
from ..flat import Face, FlatPiece, Fold, GlueArea, Role, Score, area
from ..measure import Length, Ruler, System, words
from ..measure.tolerance import CLOSING_MM, OVERLAP_MM2
from ..styles import Construction, Meet, Stand
from .contact import coplanar, outline, overlap
from .pose import Placed, Pose, closed_angles, pose
from .slips import with_line_moved
from .space import Vec


@dataclass(frozen=True, slots=True)
class Gap:
    """Two edges of one piece that should meet, and how far apart their worse ends are, mm.

    `meet` says how they should meet; None for the two sides of a score.
    """

    piece: str
    one: str
    other: str
    size: float
    meet: Meet | None = None


def gaps(piece: FlatPiece, folded: Pose, meets: Iterable[Meet]) -> Iterator[Gap]:
    """The gap at every score and at every pair of edges that must meet."""
    for score in piece.scores:
        one, other = score.panels
        size = max(
            folded.placed[one].placement.place(end).minus(
                folded.placed[other].placement.place(end)
            ).length()
            for end in (score.start, score.end)
        )  # fmt: skip
        yield Gap(piece.name, one, other, size)
    for meet in meets:
        if meet.piece == piece.name:
            size = max(step.length() for step in _steps(folded, meet))
            yield Gap(piece.name, meet.one.panel, meet.other.panel, size, meet)


def _steps(folded: Pose, meet: Meet) -> tuple[Vec, Vec]:
    """The steps by which the ends of one edge miss where they should lie by the other."""
    (a, b), (c, d) = (folded.edge(edge.panel, edge.corner) for edge in (meet.one, meet.other))
    apart = Vec(*(length.float_mm for length in meet.apart))
    a, b = a.plus(apart), b.plus(apart)
    if meet.in_part and d != c:
        along = d.minus(c).unit()
        return _off_line(a, c, along), _off_line(b, c, along)
    # The edges of two faces that meet run against each other, whichever way the faces look.
    there = (a.minus(d), b.minus(c))
    back = (a.minus(c), b.minus(d))
    return min(there, back, key=lambda steps: steps[0].length() + steps[1].length())


def _off_line(place: Vec, on: Vec, along: Vec) -> Vec:
    """The step square to a line by which a place misses it."""
    step = place.minus(on)
    return step.plus(along, -step.dot(along))


def glue_off(piece: FlatPiece, folded: Pose, glue: GlueArea) -> tuple[float, float]:
    """How far a glue area lies off its mate, mm: out of the mate's plane, and past its outline.

    Only the part that is on its own panel counts (tape wider than its tab is another matter).
    """
    corners, panel, shape = (
        [(float(x), float(y)) for x, y in polygon]
        for polygon in (
            glue.corners,
            piece.panel(glue.panel).corners,
            piece.panel(glue.mate).corners,
        )
    )
    if not _inside(corners, panel):
        own = Polygon(corners).intersection(Polygon(panel))
        if not isinstance(own, Polygon) or own.area <= OVERLAP_MM2:
            return 0.0, 0.0
        corners = own.exterior.coords[:-1]
    on, mate = folded.placed[glue.panel], folded.placed[glue.mate]
    spots = [on.placement.place(corner) for corner in corners]
    off_plane = max(abs(mate.placement.above(spot)) for spot in spots)
    flat = [mate.placement.flat(spot) for spot in spots]
    if _inside(flat, shape):
        return off_plane, 0.0
    outline = Polygon(shape)
    return off_plane, max(outline.distance(FlatSpot(spot)) for spot in flat)


_Spot = tuple[float, float]


def _inside(spots: Sequence[_Spot], polygon: Sequence[_Spot]) -> bool:
    """Whether all spots lie on the left of every side of an anticlockwise polygon, so inside.

    Quick to say; where it says no, they may be inside all the same, in a bay or but for dust.
    """
    for (x0, y0), (x1, y1) in zip(polygon, [*polygon[1:], polygon[0]], strict=True):
        dx, dy = x1 - x0, y1 - y0
        if any(dx * (y - y0) < dy * (x - x0) for x, y in spots):
            return False
    return True


def faces_meet(folded: Pose, glue: GlueArea) -> bool:
    """Whether the glued face and its mate's face look at each other."""
    same_way = folded.placed[glue.panel].outward.dot(folded.placed[glue.mate].outward) > 0
    return same_way == (glue.face is not glue.mate_face)


@dataclass(frozen=True, slots=True)
class _Misfit:
    """The misfits of a folded piece, mm.

    At meeting edges and glued planes; of glue past its mates; and of panels that lie on none of
    those that they are meant to lie inside of.
    """

    seams: float
    past: float
    astray: float

    @property
    def worst(self) -> float:
        return max(self.seams, self.past) or self.astray


def _misfit(construction: Construction, piece: FlatPiece, folded: Pose | None = None) -> _Misfit:
    """The misfits of a piece, folded as it says unless `folded` is that already."""
    if folded is None:
        folded = pose(piece, construction.stand(piece.name), closed_angles(piece))
    seams = max((gap.size for gap in gaps(piece, folded, construction.meets)), default=0.0)
    past = 0.0
    for glue in piece.glue:
        off_plane, beyond = glue_off(piece, folded, glue)
        seams, past = max(seams, off_plane), max(past, beyond)
    if past <= CLOSING_MM and seams <= CLOSING_MM:
        seams = past = 0.0
    astray = max((size for _, _, size in _astray(construction, piece, folded)), default=0.0)
    return _Misfit(seams, past, astray)


def _astray(
    construction: Construction, piece: FlatPiece, folded: Pose
) -> Iterator[tuple[str, tuple[str, ...], float]]:
    """Panels that lie inside none of those that they are meant to: which, and how far off, mm.

    How far off is how far the panel's worst corner is from the nearest of those others.
    """
    outside: dict[str, list[str]] = {}
    for layer in construction.layers:
        if layer.piece == piece.name:
            outside.setdefault(layer.inner, []).append(layer.outer)
    for name, others in outside.items():
        one = folded.placed[name]
        beyond = [folded.placed[other] for other in others]
        if any(coplanar(one, other) and overlap(one, other) is not None for other in beyond):
            continue
        off = min(max(_off(corner, other) for corner in one.corners) for other in beyond)
        yield name, tuple(others), off


def _off(place: Vec, panel: Placed) -> float:
    """How far a place lies from a panel, mm."""
    across = outline(panel, panel).distance(FlatSpot(panel.placement.flat(place)))
    return math.hypot(across, panel.placement.above(place))


def closing_findings(
    construction: Construction,
    piece: FlatPiece,
    folded: Pose,
    measures: Mapping[str, Length],
    skip: frozenset[str],
    ruler: Ruler,
    system: System,
) -> tuple[Finding, ...]:
    """Nothing when the piece, `folded`, closes; otherwise the one thing at fault, by trying.

    Each fold is turned the other way, each score moved square to itself, each glued tab tried on
    the other panels: the first change that makes every seam close is the mend. Panels in `skip`
    have a finding already that explains whatever their glue does.
    """
    meets = construction.meets
    glued = tuple(g for g in piece.glue if g.panel not in skip and g.mate not in skip)
    piece = replace(piece, glue=glued)
    if found := _folded_back(construction, piece):
        return (found,)
    misfit = _misfit(construction, piece, folded)
    if misfit.worst <= CLOSING_MM:
        return ()
    for score in piece.scores:
        scores = tuple(replace(s, fold=s.fold.other) if s is score else s for s in piece.scores)
        if _misfit(construction, replace(piece, scores=scores)).worst <= CLOSING_MM:
            return (_reversed(piece, score, misfit, system),)
    if misfit.seams <= CLOSING_MM:
        return _astray_findings(construction, piece, system) if misfit.past <= CLOSING_MM else ()
    if found := _wrong_side(construction, piece, system):
        return (found,)
    if slips := _slips(construction, piece, measures):
        return (_misplaced(piece, slips, ruler, system),)
    worst = max(gaps(piece, folded, meets), key=lambda gap: gap.size, default=None)
    if worst is None or worst.size <= CLOSING_MM:
        return ()
    size = Length.figure(worst.size)
    return (
        Finding(
            "closing.gap",
            Severity.ERROR,
            (piece.name, worst.one, worst.other),
            f"{piece.name}: {worst.one} and {worst.other} stay {words(size, system)} apart when "
            "the box is closed",
            "measure the panels beside that seam again; no single line mends it",
            size,
        ),
    )


def _astray_findings(
    construction: Construction, piece: FlatPiece, system: System
) -> tuple[Finding, ...]:
    folded = pose(piece, construction.stand(piece.name), closed_angles(piece))
    found = []
    for name, others, off in _astray(construction, piece, folded):
        size = Length.figure(off)
        found.append(
            Finding(
                "panel.astray",
                Severity.ERROR,
                (piece.name, name, *others),
                f"{piece.name}: the {name} ends up {words(size, system)} off the "
                f"{' and the '.join(others)} that it should lie inside of",
                f"make the {name} longer, or fold it the other way",
                size,
            )
        )
    return tuple(found)


def _folded_back(construction: Construction, piece: FlatPiece) -> Finding | None:
    """A panel that is folded flat onto the wrong side of its neighbour, which leaves no gap.

    The inside of the outer one of two layers looks at the inner one, so where they hang together
    their insides meet: a mountain seen from the outside.
    """
    for score in piece.scores:
        if score.degrees != 180 or score.fold is Fold.MOUNTAIN:
            continue
        for layer in construction.layers:
            if layer.piece != piece.name or layer.pleated:
                continue
            if score.joins(layer.inner, layer.outer):
                one, other = score.panels
                return Finding(
                    "fold.reversed",
                    Severity.ERROR,
                    (piece.name, one, other),
                    f"{piece.name}: the score between {one} and {other} is a {score.fold.value} "
                    f"fold, which lays the {layer.outer} on the outside of the {layer.inner}",
                    f"fold it the other way: a {score.fold.other.value} fold seen from the outside",
                )
    return None


def _reversed(piece: FlatPiece, score: Score, misfit: _Misfit, system: System) -> Finding:
    one, other = score.panels
    size = Length.figure(misfit.worst)
    return Finding(
        "fold.reversed",
        Severity.ERROR,
        (piece.name, one, other),
        f"{piece.name}: the score between {one} and {other} is a {score.fold.value} fold, and "
        f"leaves {words(size, system)} open",
        f"fold it the other way: a {score.fold.other.value} fold seen from the outside",
        size,
    )


def _wrong_side(construction: Construction, piece: FlatPiece, system: System) -> Finding | None:
    folded = pose(piece, construction.stand(piece.name), closed_angles(piece))
    for glue in piece.glue:
        if piece.panel(glue.panel).role is not Role.TAB:
            continue
        if not any(score.joins(glue.panel, glue.mate) for score in piece.scores):
            continue
        for other in piece.panels:
            if other.role is not Role.WALL or other.name in (glue.panel, glue.mate):
                continue
            off_plane, beyond = glue_off(piece, folded, replace(glue, mate=other.name))
            if max(off_plane, beyond) <= CLOSING_MM:
                return Finding(
                    "tab.wrong-side",
                    Severity.ERROR,
                    (piece.name, glue.panel),
                    f"{piece.name}: the {glue.panel} hangs on the {glue.mate} that it should be "
                    f"stuck to, so all {words(glue.length, system)} of its tape miss",
                    f"move the {glue.panel} to the free edge of the {other.name}",
                    glue.length,
                )
    return None


def _slips(
    construction: Construction, piece: FlatPiece, measures: Mapping[str, Length]
) -> list[tuple[Score, float]]:
    """The score whose move closes every seam, and that move, mm; none where no single one does.

    Of several, the one that gives the box the size it was meant to have, then the least move. Those
    on other lines that do as well follow it.
    """
    stand, meets = construction.stand(piece.name), construction.meets
    here = _misses(piece, stand, meets)
    found = []
    for score in piece.scores:
        moved = with_line_moved(piece, score, Length.mm(1))
        if not _whole(moved):
            continue
        there = _misses(moved, stand, meets)
        slopes = [after - at for at, after in zip(here, there, strict=True)]
        steep = sum(slope * slope for slope in slopes)
        if steep == 0:
            continue
        by = -sum(at * slope for at, slope in zip(here, slopes, strict=True)) / steep
        left = max(abs(at + by * slope) for at, slope in zip(here, slopes, strict=True))
        if left <= CLOSING_MM:
            mended = with_line_moved(piece, score, Length.figure(by))
            if not _whole(mended):
                continue
            off = _off_size(construction, mended, measures)
            found.append((round(off / CLOSING_MM), abs(by), score, by))
    found.sort(key=lambda one: one[:2])
    slips: list[tuple[Score, float]] = []
    for off_size, size, score, by in found:
        if off_size > found[0][0] or size > found[0][1] + CLOSING_MM:
            break
        if not any(_on_one_line(score, other) for other, _ in slips):
            slips.append((score, by))
    return slips


def _on_one_line(one: Score, other: Score) -> bool:
    """Whether two scores run along one upright or level line of the blank."""
    return any(
        one.start[axis] == one.end[axis] == other.start[axis] == other.end[axis] for axis in (0, 1)
    )


def _whole(piece: FlatPiece) -> bool:
    """Whether every panel has an area: a line that is moved as far as the next one leaves none."""
    return all(area(panel.corners) > 0 for panel in piece.panels)


def _off_size(
    construction: Construction, piece: FlatPiece, measures: Mapping[str, Length]
) -> float:
    """How far the closed piece's width, depth and height are from what was asked for, mm.

    What slides over another piece is to be larger than that by its clearance.
    """
    folded = pose(piece, construction.stand(piece.name), closed_angles(piece))
    off = 0.0
    for slide in construction.slides:
        if slide.outer == piece.name:
            for direction, (wall, _, _, facing) in slide.across:
                corner = folded.placed[facing].corners[0]
                across = abs(folded.placed[wall].placement.above(corner))
                wanted = measures[direction] + measures[slide.measure]
                off += abs(across - wanted.float_mm)
    cavity = construction.cavity
    if piece.name != cavity.piece:
        return off
    walls = [p.name for p in piece.panels if p.role is Role.WALL]
    if walls and "height" in measures:
        at = [corner.z for wall in walls for corner in folded.placed[wall].corners]
        off += abs(max(at) - min(at) - measures["height"].float_mm)
    for axis, (direction, pair) in enumerate((("width", cavity.width), ("depth", cavity.depth))):
        if pair is None or direction not in measures:
            continue
        one, other = (folded.placed[panel] for panel in pair)
        if one is other:
            at = [corner[axis] for corner in one.corners]
            across = max(at) - min(at)
        else:
            across = abs(one.placement.above(other.corners[0]))
        off += abs(across - measures[direction].float_mm)
    return off


def _misplaced(
    piece: FlatPiece, slips: list[tuple[Score, float]], ruler: Ruler, system: System
) -> Finding:
    """The line at fault, the first of `slips`; the others would mend it as well."""
    (score, by), *others = slips
    one, other = score.panels
    if score.start.x != score.end.x and score.start.y != score.end.y:
        size = abs(Length.figure(by))
        return Finding(
            "score.misplaced",
            Severity.ERROR,
            (piece.name, one, other),
            f"{piece.name}: the score between {one} and {other} is {words(size, system)} out of "
            "place",
            f"move it {words(size, system)} square to itself, towards the "
            f"{score.panels[0] if by > 0 else score.panels[1]}",
            size,
        )
    at, to, advice = _moved_to(score, by, ruler, system)
    size = abs(to - at)
    for another, moved in others:
        if another.start.x == another.end.x or another.start.y == another.end.y:
            _, _, instead = _moved_to(another, moved, ruler, system)
            advice += f"; or the one between {' and '.join(another.panels)}: {instead}"
    return Finding(
        "score.misplaced",
        Severity.ERROR,
        (piece.name, one, other),
        f"{piece.name}: the score between {one} and {other} is {words(size, system)} out of place",
        advice,
        size,
        Mend(score.said_in, words(at, system), words(to, system)) if score.said_in else None,
    )


def _moved_to(score: Score, by: float, ruler: Ruler, system: System) -> tuple[Length, Length, str]:
    """Where an upright or level line is, where it should be, and the same as advice."""
    upright = score.start.x == score.end.x
    at = Length.mm(score.start.x if upright else score.start.y)
    to = at + Length.figure(by)
    # Where the line was meant to lie is a mark of the ruler but for float dust.
    if abs(ruler.nearest(to) - to) < Length.mm("0.001"):
        to = ruler.nearest(to)
    edge = "left" if upright else "lower"
    return at, to, f"score it {words(to, system)} from the {edge} edge, not at {words(at, system)}"


def _misses(piece: FlatPiece, stand: Stand, meets: tuple[Meet, ...]) -> list[float]:
    """Every coordinate by which meeting edges miss each other, mm."""
    folded = pose(piece, stand, closed_angles(piece))
    return [
        coordinate
        for meet in meets
        if meet.piece == piece.name
        for step in _steps(folded, meet)
        for coordinate in step
    ]


def glue_findings(
    construction: Construction, piece: FlatPiece, folded: Pose, skip: frozenset[str], system: System
) -> tuple[Finding, ...]:
    """Glue on the wrong face, tabs laid outside, and glue that reaches past its mate.

    Panels in `skip` have a finding already that explains whatever their glue does.
    """
    found = []
    outside = {
        (layer.inner, layer.outer) for layer in construction.layers if layer.piece == piece.name
    }
    for glue in piece.glue:
        if glue.panel in skip or glue.mate in skip:
            continue
        tab = piece.panel(glue.panel)
        same_way = folded.placed[glue.panel].outward.dot(folded.placed[glue.mate].outward) > 0
        if tab.role is Role.TAB and same_way and (glue.mate, glue.panel) in outside:
            found.append(
                Finding(
                    "tab.outside",
                    Severity.ERROR,
                    (piece.name, glue.panel, glue.mate),
                    f"{piece.name}: the {glue.panel} lies outside the {glue.mate}, where its "
                    f"{words(glue.length, system)} edge shows and its tape meets nothing",
                    f"tuck the {glue.panel} inside the {glue.mate}",
                    glue.length,
                )
            )
            continue
        if not faces_meet(folded, glue):
            right = Face.OUTSIDE if glue.face is Face.INSIDE else Face.INSIDE
            found.append(
                Finding(
                    "glue.wrong-face",
                    Severity.ERROR,
                    (piece.name, glue.panel, glue.mate),
                    f"{piece.name}: {words(glue.length, system)} of adhesive on the "
                    f"{glue.face.value} of the {glue.panel} looks away from the {glue.mate}",
                    f"lay it on the {right.value} of the {glue.panel}",
                    glue.length,
                )
            )
            continue
        _, past = glue_off(piece, folded, glue)
        if past > CLOSING_MM:
            size = Length.figure(past)
            found.append(
                Finding(
                    "glue.off-mate",
                    Severity.ERROR,
                    (piece.name, glue.panel, glue.mate),
                    f"{piece.name}: the adhesive on the {glue.panel} reaches {words(size, system)} "
                    f"past the {glue.mate} that it should hold",
                    f"make the {glue.mate} deeper, or use narrower tape",
                    size,
                )
            )
    return tuple(found)
