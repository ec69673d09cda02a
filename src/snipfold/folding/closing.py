"""Closing: whether the edges that must come together do, and if not, which line is at fault."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from shapely import Point as FlatSpot
from shapely import Polygon

from ..findings import Finding, Severity
from ..flat import Face, FlatPiece, GlueArea, Role, Score
from ..measure import Length, Ruler, System, words
from ..measure.tolerance import CLOSING_MM, OVERLAP_MM2
from ..styles import Construction, EdgeOf, Meet, Stand
from .pose import Pose, closed_angles, pose
from .slips import with_line_moved
from .space import Vec


@dataclass(frozen=True, slots=True)
class Gap:
    """Two edges of one piece that should meet, and how far apart their worse ends are, mm."""

    piece: str
    one: str
    other: str
    size: float


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
            yield Gap(piece.name, meet.one.panel, meet.other.panel, _apart(folded, meet))


def _apart(folded: Pose, meet: Meet) -> float:
    return max(step.length() for step in _steps(folded, meet.one, meet.other))


def _steps(folded: Pose, one: EdgeOf, other: EdgeOf) -> tuple[Vec, Vec]:
    (a, b), (c, d) = folded.edge(one.panel, one.corner), folded.edge(other.panel, other.corner)
    # The edges of two faces that meet run against each other, whichever way the faces look.
    there = (a.minus(d), b.minus(c))
    back = (a.minus(c), b.minus(d))
    return min(there, back, key=lambda steps: steps[0].length() + steps[1].length())


def glue_off(piece: FlatPiece, folded: Pose, glue: GlueArea) -> tuple[float, float]:
    """How far a glue area lies off its mate, mm: out of the mate's plane, and past its outline.

    Only the part that is on its own panel counts (tape wider than its tab is another matter).
    """
    own = Polygon(glue.corners).intersection(Polygon(piece.panel(glue.panel).corners))
    if not isinstance(own, Polygon) or own.area <= OVERLAP_MM2:
        return 0.0, 0.0
    on, mate = folded.placed[glue.panel], folded.placed[glue.mate]
    spots = [on.placement.place(corner) for corner in own.exterior.coords[:-1]]
    off_plane = max(abs(mate.placement.above(spot)) for spot in spots)
    shape = Polygon(piece.panel(glue.mate).corners)
    past = max(shape.distance(FlatSpot(mate.placement.flat(spot))) for spot in spots)
    return off_plane, past


def faces_meet(folded: Pose, glue: GlueArea) -> bool:
    """Whether the glued face and its mate's face look at each other."""
    same_way = folded.placed[glue.panel].outward.dot(folded.placed[glue.mate].outward) > 0
    return same_way == (glue.face is not glue.mate_face)


@dataclass(frozen=True, slots=True)
class _Misfit:
    """The misfits of a folded piece, mm: at meeting edges and glued planes; and of glue past mates."""

    seams: float
    past: float

    @property
    def worst(self) -> float:
        return max(self.seams, self.past)


def _misfit(piece: FlatPiece, stand: Stand, meets: Iterable[Meet]) -> _Misfit:
    folded = pose(piece, stand, closed_angles(piece))
    seams = max((gap.size for gap in gaps(piece, folded, meets)), default=0.0)
    past = 0.0
    for glue in piece.glue:
        off_plane, beyond = glue_off(piece, folded, glue)
        seams, past = max(seams, off_plane), max(past, beyond)
    return _Misfit(seams, past)


def closing_findings(
    construction: Construction,
    piece: FlatPiece,
    measures: Mapping[str, Length],
    skip: frozenset[str],
    ruler: Ruler,
    system: System,
) -> tuple[Finding, ...]:
    """Nothing when the piece closes; otherwise the one thing at fault, found by trying.

    Each fold is turned the other way, each score moved square to itself, each glued tab tried on
    the other panels: the first change that makes every seam close is the mend. Panels in `skip`
    have a finding already that explains whatever their glue does.
    """
    stand, meets = construction.stand(piece.name), construction.meets
    glued = tuple(g for g in piece.glue if g.panel not in skip and g.mate not in skip)
    piece = replace(piece, glue=glued)
    misfit = _misfit(piece, stand, meets)
    if misfit.worst <= CLOSING_MM:
        return ()
    for score in piece.scores:
        scores = tuple(replace(s, fold=s.fold.other) if s is score else s for s in piece.scores)
        if _misfit(replace(piece, scores=scores), stand, meets).worst <= CLOSING_MM:
            return (_reversed(piece, score, misfit, system),)
    if misfit.seams <= CLOSING_MM:
        return ()
    if found := _wrong_side(construction, piece, system):
        return (found,)
    if slip := _slip(construction, piece, measures):
        return (_misplaced(piece, *slip, ruler, system),)
    folded = pose(piece, stand, closed_angles(piece))
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


def _slip(
    construction: Construction, piece: FlatPiece, measures: Mapping[str, Length]
) -> tuple[Score, float] | None:
    """The score whose move closes every seam, and that move, mm; None where no single one does.

    Of several, the one that gives the box the size it was meant to have, then the least move.
    """
    stand, meets = construction.stand(piece.name), construction.meets
    here = _misses(piece, stand, meets)
    found = []
    for score in piece.scores:
        if score.start.x != score.end.x and score.start.y != score.end.y:
            continue
        there = _misses(with_line_moved(piece, score, Length.mm(1)), stand, meets)
        slopes = [after - at for at, after in zip(here, there, strict=True)]
        steep = sum(slope * slope for slope in slopes)
        if steep == 0:
            continue
        by = -sum(at * slope for at, slope in zip(here, slopes, strict=True)) / steep
        left = max(abs(at + by * slope) for at, slope in zip(here, slopes, strict=True))
        if left <= CLOSING_MM:
            mended = with_line_moved(piece, score, Length.figure(by))
            off = _off_size(construction, mended, measures)
            found.append((round(off / CLOSING_MM), abs(by), score, by))
    if not found:
        return None
    _, _, score, by = min(found, key=lambda one: one[:2])
    return score, by


def _off_size(
    construction: Construction, piece: FlatPiece, measures: Mapping[str, Length]
) -> float:
    """How far the closed piece's width and depth are from what was asked for, mm."""
    cavity = construction.cavity
    if piece.name != cavity.piece:
        return 0.0
    folded = pose(piece, construction.stand(piece.name), closed_angles(piece))
    off = 0.0
    for direction, (one, other) in (("width", cavity.width), ("depth", cavity.depth)):
        corner = folded.placed[other].corners[0]
        across = abs(folded.placed[one].placement.above(corner))
        off += abs(across - measures[direction].float_mm)
    return off


def _misplaced(piece: FlatPiece, score: Score, by: float, ruler: Ruler, system: System) -> Finding:
    upright = score.start.x == score.end.x
    at = Length.mm(score.start.x if upright else score.start.y)
    to = at + Length.figure(by)
    # Where the line was meant to lie is a mark of the ruler but for float dust.
    if abs(ruler.nearest(to) - to) < Length.mm("0.001"):
        to = ruler.nearest(to)
    size = abs(to - at)
    one, other = score.panels
    return Finding(
        "score.misplaced",
        Severity.ERROR,
        (piece.name, one, other),
        f"{piece.name}: the score between {one} and {other} is {words(size, system)} out of place",
        f"score it {words(to, system)} from the {'left' if upright else 'lower'} edge, not at "
        f"{words(at, system)}",
        size,
    )


def _misses(piece: FlatPiece, stand: Stand, meets: tuple[Meet, ...]) -> list[float]:
    """Every coordinate by which meeting edges miss each other, mm."""
    folded = pose(piece, stand, closed_angles(piece))
    return [
        coordinate
        for meet in meets
        if meet.piece == piece.name
        for step in _steps(folded, meet.one, meet.other)
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
        if tab.role is Role.TAB and (glue.mate, glue.panel) in outside:
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
