"""How forgiving a box is: what shows when every cut, score and seam slips a little.

Every line of a blank is given a slip of its own, and so is every seam that is lined up by eye. A
gap is a sum of slips, each times what it does to that gap; what it does is found once, by folding
the piece with that line moved. For pieces whose lines run along and across, the sums are exact; for
others they hold as far as slips are small beside panels. Then slips are drawn at random, many times
over, and the gaps added up.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from random import Random

from ..flat import FlatPiece, Point, Score
from ..measure import ZERO, Length
from ..measure.tolerance import BACKED_GAP_MM, CLOSING_MM, COORDINATE_MM
from ..styles import Construction, Doing, EdgeOf, Meet, Slide
from ..workshop import Slips
from .pose import Pose, closed_angles, pose
from .report import Air
from .slips import moved, with_line_moved
from .space import Vec

#: Boxes that are made at random: enough for a chance that is right to about one in a hundred.
TRIES = 2000
#: A second line is named where it matters at least this much as the first.
_ALSO = 0.5
#: The guide speaks of lining up where at least this share of what may show comes from it.
_SEAM = 0.4
#: Effects of a slip smaller than this are rounding: a hundredth of a micrometre for a millimetre.
_NOTHING = 1e-5


class SlipKind(Enum):
    """What slipped."""

    SCORE = "score"
    CUT = "cut"
    LINE_UP = "lining up"


@dataclass(frozen=True, slots=True)
class Watch:
    """A line worth measuring twice: its piece, what it is in words, and its panels.

    `share` is how much of all that may show comes from it (the variances of gaps, each weighed by
    what that joint forgives).
    """

    piece: str
    kind: SlipKind
    says: str
    panels: tuple[str, ...]
    share: float


@dataclass(frozen=True, slots=True)
class Joint:
    """One joint: the two panels whose edges meet, and how it comes out over all tries.

    `forgives` is the widest gap that does not show: 1/16 in where paper lies behind the joint,
    otherwise the paper's thickness (as the proof holds measures off the ruler's marks to).
    `usual` is the median gap, `bad` the one that 95 boxes of 100 stay within, `closes` the share of
    tries in which nothing shows.
    """

    piece: str
    panels: tuple[str, str]
    forgives: Length
    usual: Length
    bad: Length
    closes: float


@dataclass(frozen=True, slots=True)
class Forgiveness:
    """How forgiving a box is, over `tries` boxes made at random from `seed`.

    `closes` is the share of boxes in which no gap shows at any joint. `usual` and `bad` are the
    median and the 95th percentile of each box's widest gap. `goes_on` is the share in which what
    slides over has air all round; None where nothing slides. `watch` names the one or two lines
    that matter most. `lining_up` is the share of all that may show which comes from lining up seams
    by eye.
    """

    tries: int
    seed: int
    closes: float
    usual: Length
    bad: Length
    joints: tuple[Joint, ...]
    goes_on: float | None
    watch: tuple[Watch, ...]
    lining_up: float

    @property
    def remark(self) -> str:
        """One line for the guide; "" where nothing that slips shows."""
        if not self.watch:
            return "Line up the seam with care: a slip there shows most." if self.lining_up else ""
        first, *more = (one.says for one in self.watch)
        these = (
            f"these two: measure {first}, and {more[0]}," if more else f"this one: measure {first}"
        )
        seam = "; then take your time to line up the seam" if self.lining_up >= _SEAM else ""
        return f"Watch {these} twice, since a slip there shows most{seam}."


@dataclass(frozen=True, slots=True)
class _Slip:
    """One thing that slips: how far it usually does, mm, and what it is."""

    usual: float
    kind: SlipKind
    piece: str
    says: str
    panels: tuple[str, ...]


_Sum = tuple[float, tuple[tuple[int, float], ...]]
"""A figure as a sum: where it starts, and how much of which slip is added."""


@dataclass(frozen=True, slots=True)
class _Ends:
    """A joint as sums: for each end of its edges the coordinates of the gap there."""

    meet: Meet
    forgives: float
    ends: tuple[tuple[_Sum, ...], ...]


def forgiveness(
    construction: Construction,
    slips: Slips,
    thickness: Mapping[str, Length],
    *,
    seed: int = 0,
    tries: int = TRIES,
    airs: Sequence[Air] = (),
) -> Forgiveness:
    """How forgiving a construction is of a maker's `slips`, with papers of that `thickness`.

    Slips are independent and normal, with the workshop's usual error as standard deviation. Blanks
    lie with their left and lower edges against the fence, so those edges are where measuring
    begins; the other two, and edges cut free inside the blank, slip by `slips.cut`, every score
    line by `slips.score`, and each seam that is lined up by eye by `slips.line_up`, along it and
    across. Edges that only run side by side leave no gap. `airs` are the proof's, and say how much
    room what slides over another has.

    The same seed gives the same answer. Raises `ValueError` for fewer tries than one.
    """
    if tries < 1:
        raise ValueError(f"at least one try, not {tries}")
    work = _Work(construction, slips, thickness)
    joints, slides = work.joints(), work.slides(airs)
    drawn = _drawn(work.slips, seed, tries)
    gaps: list[list[float]] = [[] for _ in joints]
    widest: list[float] = []
    closed = on = 0
    for slip in drawn:
        whole = True
        most = 0.0
        for joint, seen in zip(joints, gaps, strict=True):
            gap = _gap(joint, slip)
            seen.append(gap)
            most = max(most, gap)
            whole = whole and gap <= joint.forgives
        widest.append(most)
        closed += whole
        on += all(_value(air, slip) >= 0 for air in slides)
    watch, lining_up = _watched(work.slips, joints, slides)
    return Forgiveness(
        tries,
        seed,
        closed / tries,
        _quantile(widest, 0.5),
        _quantile(widest, 0.95),
        tuple(
            Joint(
                joint.meet.piece,
                (joint.meet.one.panel, joint.meet.other.panel),
                Length.figure(joint.forgives),
                _quantile(seen, 0.5),
                _quantile(seen, 0.95),
                sum(gap <= joint.forgives for gap in seen) / tries,
            )
            for joint, seen in zip(joints, gaps, strict=True)
        ),
        on / tries if slides else None,
        watch,
        lining_up,
    )


def _drawn(slips: Sequence[_Slip], seed: int, tries: int) -> Iterator[list[float]]:
    chance = Random(seed)
    usual = [slip.usual for slip in slips]
    for _ in range(tries):
        yield [chance.gauss(0.0, sigma) for sigma in usual]


def _value(figure: _Sum, slip: Sequence[float]) -> float:
    value, terms = figure
    for index, times in terms:
        value += times * slip[index]
    return value


def _gap(joint: _Ends, slip: Sequence[float]) -> float:
    return math.sqrt(max(sum(_value(part, slip) ** 2 for part in end) for end in joint.ends))


def _quantile(values: Sequence[float], share: float) -> Length:
    """The least value that this share of all values does not pass; nothing where there are none."""
    if not values:
        return ZERO
    return Length.figure(sorted(values)[math.ceil(share * len(values)) - 1])


def _watched(
    slips: Sequence[_Slip], joints: Sequence[_Ends], slides: Sequence[_Sum]
) -> tuple[tuple[Watch, ...], float]:
    """The one or two lines that matter most, and how much of it all is lining up."""
    weights = [0.0] * len(slips)
    for joint in joints:
        for end in joint.ends:
            for _, terms in end:
                for index, times in terms:
                    effect = times * slips[index].usual / joint.forgives
                    weights[index] += effect * effect / len(joint.ends)
    for left, terms in slides:
        for index, times in terms:
            # Air that is gone already is for the proof to speak of.
            effect = times * slips[index].usual / left if left > CLOSING_MM else 0.0
            weights[index] += effect * effect
    whole = sum(weights)
    if not whole:
        return (), 0.0
    shares = [weight / whole for weight in weights]
    # Shares that differ by rounding alone are alike, and the earlier line goes first.
    order = sorted(
        (index for index, slip in enumerate(slips) if slip.kind is not SlipKind.LINE_UP),
        key=lambda index: -round(shares[index], 9),
    )
    watch = [
        Watch(
            slips[index].piece, slips[index].kind, slips[index].says, slips[index].panels,
            shares[index],
        )
        for index in order[:2]
        if shares[index] > 0 and shares[index] >= _ALSO * shares[order[0]]
    ]  # fmt: skip
    lining_up = sum(
        share for share, slip in zip(shares, slips, strict=True) if slip.kind is SlipKind.LINE_UP
    )
    return tuple(watch), lining_up


class _Work:
    """Every slip of a construction, and every gap and air as a sum of them."""

    def __init__(
        self, construction: Construction, slips: Slips, thickness: Mapping[str, Length]
    ) -> None:
        self._construction = construction
        self._usual = slips
        self._thickness = thickness
        self.slips: list[_Slip] = []
        self._meets = [meet for meet in construction.meets if meet.touches]
        self._poses = {piece.name: self._posed(piece) for piece in construction.pieces}
        self._steps = {
            id(meet): _ends_of(self._poses[meet.piece], meet) for meet in self._meets
        }  # fmt: skip
        #: What each slip does: to the ends of each joint, and to each room that is slid over.
        self._effects: list[dict[int, tuple[Vec, ...]]] = []
        self._rooms = _rooms(construction, self._poses)
        self._shifts: list[tuple[float, ...]] = []
        for piece in construction.pieces:
            for slip, shifted in self._lines(piece):
                self._fold(slip, piece, shifted)
            self._free_edges(piece)
        self._line_ups()

    def _posed(self, piece: FlatPiece) -> Pose:
        return pose(piece, self._construction.stand(piece.name), closed_angles(piece))

    # -- what slips

    def _lines(self, piece: FlatPiece) -> Iterator[tuple[_Slip, Callable[[float], FlatPiece]]]:
        """The score lines of a blank and its right and upper edges; each with the piece moved."""
        seen: list[Score] = []
        for score in piece.scores:
            if any(_on_line(score.start, one) and _on_line(score.end, one) for one in seen):
                continue
            seen.append(score)

            def scored(by: float, score: Score = score) -> FlatPiece:
                return with_line_moved(piece, score, Length.figure(by))

            one, other = score.panels
            yield (
                _Slip(
                    self._usual.score.float_mm, SlipKind.SCORE, piece.name,
                    self._named(piece, f"the score between {one} and {other}"), score.panels,
                ),
                scored,
            )  # fmt: skip
        for axis, side, edge in ((0, piece.width, "right"), (1, piece.height, "upper")):
            rim = side.as_mm

            def cut(by: float, axis: int = axis, rim: object = rim) -> FlatPiece:
                step = Length.figure(by).as_mm

                def to(p: Point) -> Point:
                    if p[axis] != rim:
                        return p
                    return Point(p.x + step, p.y) if axis == 0 else Point(p.x, p.y + step)

                return moved(piece, to)

            yield (
                _Slip(
                    self._usual.cut.float_mm, SlipKind.CUT, piece.name,
                    self._named(piece, f"the blank up to its {edge} edge"), (),
                ),
                cut,
            )  # fmt: skip

    def _named(self, piece: FlatPiece, says: str) -> str:
        return says if len(self._construction.pieces) == 1 else f"{says} of the {piece.name}"

    def _fold(self, slip: _Slip, piece: FlatPiece, shifted: Callable[[float], FlatPiece]) -> None:
        """Take in a line: what the piece's gaps and rooms do when it is moved both ways."""
        by = slip.usual
        if not by:
            return
        there, back = self._posed(shifted(by)), self._posed(shifted(-by))
        effects = {}
        for index, meet in enumerate(self._meets):
            if meet.piece == piece.name:
                before = self._steps[id(meet)]
                one = _ends_of(there, meet, before).steps
                other = _ends_of(back, meet, before).steps
                effects[index] = tuple(
                    _scaled(end.minus(start), 0.5 / by)
                    for end, start in zip(one, other, strict=True)
                )
        more = _rooms(self._construction, {**self._poses, piece.name: there})
        less = _rooms(self._construction, {**self._poses, piece.name: back})
        shifts = tuple((far - near) / (2 * by) for far, near in zip(more, less, strict=True))
        self._take(slip, effects, shifts)

    def _take(
        self, slip: _Slip, effects: Mapping[int, tuple[Vec, ...]], shifts: tuple[float, ...] = ()
    ) -> None:
        self.slips.append(slip)
        self._effects.append(dict(effects))
        self._shifts.append(shifts or tuple(0.0 for _ in self._rooms))

    def _free_edges(self, piece: FlatPiece) -> None:
        """Edges of joints that are cut inside the blank: each may be cut a little short or long."""
        done: set[EdgeOf] = set()
        for meet in self._meets:
            if meet.piece != piece.name:
                continue
            for edge in (meet.one, meet.other):
                if edge in done or not _is_cut_free(piece, edge):
                    continue
                done.add(edge)
                square = _square_to(piece, self._poses[piece.name], edge)
                effects = {}
                for index, other in enumerate(self._meets):
                    if other.piece == piece.name and edge in (other.one, other.other):
                        step = square if edge == other.one else _scaled(square, -1.0)
                        effects[index] = (step, step)
                self._take(
                    _Slip(
                        self._usual.cut.float_mm, SlipKind.CUT, piece.name,
                        self._named(piece, f"the free edge of the {edge.panel}"), (edge.panel,),
                    ),
                    effects,
                )  # fmt: skip

    def _line_ups(self) -> None:
        """Seams that are lined up by eye: the end of a wrap, which nothing else holds in place.

        A wall that is pressed onto its tabs turns about its own score, which holds it.
        """
        for step in self._construction.steps:
            if step.doing is not Doing.SEAM:
                continue
            piece = self._construction.piece(step.piece)
            for glue in piece.glue:
                if glue.name not in step.glue:
                    continue
                hung = {
                    panel
                    for score in piece.scores
                    if glue.panel in score.panels
                    for panel in score.panels
                }
                joined = [
                    index
                    for index, meet in enumerate(self._meets)
                    if meet.piece == piece.name
                    and any(
                        one == glue.mate and other in hung
                        for one, other in (
                            (meet.one.panel, meet.other.panel),
                            (meet.other.panel, meet.one.panel),
                        )
                    )
                ]
                if not joined:
                    continue
                folded = self._poses[piece.name]
                first = self._meets[joined[0]].one
                low, high = folded.edge(first.panel, first.corner)
                along = high.minus(low).unit()
                across = folded.placed[glue.mate].outward.cross(along)
                for way, says in ((along, "along"), (across, "across")):
                    self._take(
                        _Slip(
                            self._usual.line_up.float_mm, SlipKind.LINE_UP, piece.name,
                            self._named(piece, f"the seam, {says} it"), (glue.panel, glue.mate),
                        ),
                        dict.fromkeys(joined, (way, way)),
                    )  # fmt: skip

    # -- what comes of it

    def joints(self) -> list[_Ends]:
        """Every joint as sums of slips."""
        made = []
        for index, meet in enumerate(self._meets):
            ends: list[tuple[_Sum, ...]] = []
            for end, start in enumerate(self._steps[id(meet)].steps):
                parts: list[_Sum] = []
                for axis in range(3):
                    terms = tuple(
                        (number, effects[index][end][axis])
                        for number, effects in enumerate(self._effects)
                        if index in effects and abs(effects[index][end][axis]) > _NOTHING
                    )
                    begin = start[axis] if abs(start[axis]) > CLOSING_MM else 0.0
                    if terms or begin:
                        parts.append((begin, terms))
                ends.append(tuple(parts))
            # A line that moves evenly does the same at both ends.
            made.append(_Ends(meet, self._forgives(meet), tuple(dict.fromkeys(ends))))
        return made

    def _forgives(self, meet: Meet) -> float:
        if meet.backed or self._has_tab_behind(meet):
            return BACKED_GAP_MM
        return self._thickness[meet.piece].float_mm

    def _has_tab_behind(self, meet: Meet) -> bool:
        """Whether a panel that hangs on one of the two lies inside the other, behind the joint."""
        piece = self._construction.piece(meet.piece)
        ways = (
            (meet.one.panel, meet.other.panel),
            (meet.other.panel, meet.one.panel),
        )
        return any(
            layer.piece == piece.name
            and layer.outer == outer
            and any(score.joins(layer.inner, hung) for score in piece.scores)
            for layer in self._construction.layers
            for outer, hung in ways
        )

    def slides(self, airs: Sequence[Air]) -> list[_Sum]:
        """The air wherever one piece slides over another, as sums of slips."""
        made: list[_Sum] = []
        rooms = iter(range(len(self._rooms)))
        for slide in self._construction.slides:
            for name, count in _room_names(slide):
                own = [next(rooms) for _ in range(count)]
                air = next(
                    (
                        air
                        for air in airs
                        if (air.outer, air.inner, air.direction) == (slide.outer, slide.inner, name)
                    ),
                    None,
                )
                if air is None or not own:
                    continue
                tightest = min(self._rooms[index] for index in own)
                for index in own:
                    terms = tuple(
                        (number, shifts[index])
                        for number, shifts in enumerate(self._shifts)
                        if abs(shifts[index]) > _NOTHING
                    )
                    left = air.left.float_mm + self._rooms[index] - tightest
                    made.append((left, terms))
        return made


@dataclass(frozen=True, slots=True)
class _Paired:
    """The steps by which the ends of two edges miss each other, and how the ends are paired."""

    steps: tuple[Vec, Vec]
    against: bool


def _ends_of(folded: Pose, meet: Meet, as_before: _Paired | None = None) -> _Paired:
    (a, b), (c, d) = (folded.edge(edge.panel, edge.corner) for edge in (meet.one, meet.other))
    there, back = (a.minus(d), b.minus(c)), (a.minus(c), b.minus(d))
    against = (
        as_before.against
        if as_before is not None
        else sum(step.length() for step in there) <= sum(step.length() for step in back)
    )
    return _Paired(there if against else back, against)


def _scaled(step: Vec, times: float) -> Vec:
    return Vec(step.x * times, step.y * times, step.z * times)


def _on_line(place: Point, score: Score) -> bool:
    """Whether a place lies on the whole line of a score, but for rounding."""
    run, rise = score.end.x - score.start.x, score.end.y - score.start.y
    off = run * (place.y - score.start.y) - rise * (place.x - score.start.x)
    return float(abs(off)) <= 4 * float(COORDINATE_MM) * math.hypot(run, rise)


def _edge(piece: FlatPiece, edge: EdgeOf) -> tuple[Point, Point]:
    corners = piece.panel(edge.panel).corners
    return corners[edge.corner], corners[(edge.corner + 1) % len(corners)]


def _is_cut_free(piece: FlatPiece, edge: EdgeOf) -> bool:
    """Whether an edge is cut inside the blank: no score's, and none of the blank's own sides."""
    start, end = _edge(piece, edge)
    for axis, side in ((0, piece.width), (1, piece.height)):
        if start[axis] == end[axis] and start[axis] in (0, side.as_mm):
            return False
    return not any(
        edge.panel in score.panels and _on_line(start, score) and _on_line(end, score)
        for score in piece.scores
    )


def _square_to(piece: FlatPiece, folded: Pose, edge: EdgeOf) -> Vec:
    """The direction in space in which a panel grows at one of its edges."""
    low, high = folded.edge(edge.panel, edge.corner)
    return high.minus(low).unit().cross(folded.placed[edge.panel].outward)


def _middle(folded: Pose, panel: str) -> Vec:
    corners = folded.placed[panel].corners
    return Vec(*(sum(axis) / len(corners) for axis in zip(*corners, strict=True)))


def _room_names(slide: Slide) -> Iterator[tuple[str, int]]:
    """The directions in which a piece slides over another, and how many rooms each has."""
    for direction, _ in slide.across:
        yield direction, 1
    if slide.around:
        yield "flats", len(slide.around)


def _rooms(construction: Construction, poses: Mapping[str, Pose]) -> list[float]:
    """How much larger outer pieces are than what they slide over, crease to crease, mm.

    In the order of `_room_names`.
    """
    rooms = []
    for slide in construction.slides:
        outer, inner = poses[slide.outer], poses[slide.inner]
        for direction, (out_one, in_one, in_other, out_other) in slide.across:
            axis = ("width", "depth", "height").index(direction)
            wide = abs(_middle(outer, out_one)[axis] - _middle(outer, out_other)[axis])
            at = [
                corner[axis]
                for panel in (in_one, in_other)
                for corner in inner.placed[panel].corners
            ]
            rooms.append(wide - (max(at) - min(at)))
        rooms += [
            -2 * outer.placed[out].placement.above(_middle(inner, within))
            for out, within in slide.around
        ]
    return rooms
