"""Planning how a piece is scored: lines, edges, order, and the shift onto kinder numbers."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise, permutations, product

from ..findings import Finding, Severity
from ..flat import Face, FlatPiece, Fold, Point, Score
from ..measure import ZERO, Length, Ruler, System, total, words
from ..workshop import Edge, ScoringBoard
from .kindness import REPEATS, unkindness
from .plan import Move, ScoreLine, ScorePass, ScoringPlan
from .turning import FLIPPING, TURNING, UPRIGHT, from_edge, move_between

#: Which face is up for each fold: the bead that scoring raises below goes inside the fold.
_FACE_UP = {Fold.MOUNTAIN: Face.OUTSIDE, Fold.VALLEY: Face.INSIDE}
_ACROSS = (Edge.BOTTOM, Edge.TOP)


@dataclass(frozen=True, slots=True)
class _Read:
    """A line as read from one edge. Whatever is worse counts higher."""

    position: Length
    ruled: Length
    groove: bool
    too_far: bool
    off_mark: bool
    unkind: int


@dataclass(frozen=True, slots=True)
class _Line:
    """A full line of the piece: all the scores of one fold in one straight run."""

    upright: bool
    at: Length
    fold: Fold
    panels: tuple[tuple[str, str], ...]
    reads: dict[Edge, _Read]

    def badness(self, edge: Edge) -> tuple[bool, bool, bool, int, Length]:
        read = self.reads[edge]
        return read.too_far, read.off_mark, not read.groove, read.unkind, read.position


_Pass = tuple[Edge, tuple[_Line, ...]]


def plan_scoring(
    piece: FlatPiece, board: ScoringBoard, ruler: Ruler, system: System
) -> ScoringPlan:
    """How to score `piece` on `board`, its positions read with `ruler`.

    Scores of one fold in one straight run are one line, scored from edge to edge: also across
    what is snipped away, and along the line of a snip. Of all ways the plan takes the one that,
    in this order: reaches every line within the board; has the fewest positions that are on no
    mark; turns and flips the piece least; has the most positions on grooves; has the kindest
    numbers (`unkindness`); has the smallest positions. Marks come before turns because a line off
    the marks is scored in the wrong place, while a turn costs only time.

    Findings: `scoring.board-too-short`, `score.off-ruler`, `score.off-groove`,
    `score.stops-short` (a line that would run on through a panel), `score.slanting`.
    """
    lines, slanting = _lines(piece, board, ruler, system)
    best = min(_ways(lines), key=_cost, default=())
    passes = []
    last: tuple[Face, Edge] | None = None
    for edge, in_pass in best:
        face = _FACE_UP[in_pass[0].fold]
        move = Move.START if last is None else move_between(last, (face, edge))
        last = (face, edge)
        ordered = tuple(sorted(in_pass, key=lambda line: line.reads[edge].position))
        passes.append(_score_pass(ordered, face, edge, move, board, ruler, system))
    moves = [each.move for each in passes]
    return ScoringPlan(
        piece.name,
        tuple(passes),
        sum(move in TURNING for move in moves),
        sum(move in FLIPPING for move in moves),
        (
            *_position_findings(piece, passes, board, ruler, system),
            *_stopping_findings(piece, lines, system),
            *_slanting_findings(piece, slanting),
        ),
        slanting,
    )


def _lines(
    piece: FlatPiece, board: ScoringBoard, ruler: Ruler, system: System
) -> tuple[list[_Line], tuple[Score, ...]]:
    runs: dict[tuple[bool, Fraction, Fold], list[Score]] = {}
    slanting = []
    for score in piece.scores:
        (x0, y0), (x1, y1) = score.start, score.end
        if x0 == x1:
            runs.setdefault((True, x0, score.fold), []).append(score)
        elif y0 == y1:
            runs.setdefault((False, y0, score.fold), []).append(score)
        else:
            slanting.append(score)
    lines = []
    for (upright, millimetres, fold), scores in runs.items():
        at = Length.mm(millimetres)
        reads = {
            edge: _read(from_edge(piece, upright, at, edge), board, ruler, system)
            for edge in (UPRIGHT if upright else _ACROSS)
        }
        longest = sorted(scores, key=lambda score: -_run(score.start, score.end))
        lines.append(_Line(upright, at, fold, tuple(score.panels for score in longest), reads))
    return lines, tuple(slanting)


def _run(start: Point, end: Point) -> Fraction:
    """The length of a segment along a row or column, mm."""
    return abs(end.x - start.x) + abs(end.y - start.y)


def _read(position: Length, board: ScoringBoard, ruler: Ruler, system: System) -> _Read:
    ruled = position if board.grooves.has(position) else ruler.nearest(position)
    return _Read(
        position,
        ruled,
        board.grooves.has(ruled) and position <= board.length,
        position > board.length,
        ruled != position,
        unkindness(ruled, system),
    )


def _ways(lines: Sequence[_Line]) -> Iterator[tuple[_Pass, ...]]:
    """Every sensible sequence of passes, those that begin upright with the left edge first.

    The outside comes first and the piece is flipped once at most.
    """
    groups: dict[tuple[Face, bool], list[_Line]] = {}
    for line in lines:
        groups.setdefault((_FACE_UP[line.fold], line.upright), []).append(line)
    keys = [key for key in product((Face.OUTSIDE, Face.INSIDE), (True, False)) if key in groups]
    for chosen in product(*(_options(groups[key]) for key in keys)):
        outside, inside = (
            [
                one
                for key, passes in zip(keys, chosen, strict=True)
                if key[0] is face
                for one in passes
            ]
            for face in (Face.OUTSIDE, Face.INSIDE)
        )
        for first, then in product(permutations(outside), permutations(inside)):
            yield first + then


def _options(group: list[_Line]) -> list[tuple[_Pass, ...]]:
    """The ways to score the lines of one face and direction: from one edge, or some from each.

    Only those with the fewest lines beyond the board and off the marks, which are worth more than
    any turn; some from each edge only where that has fewer than either edge alone.
    """
    edges = UPRIGHT if group[0].upright else _ACROSS
    nearer = [min(edges, key=line.badness) for line in group]
    fewest = _misses(zip(group, nearer, strict=True))
    whole: list[tuple[_Pass, ...]] = [
        ((edge, tuple(group)),)
        for edge in edges
        if _misses((line, edge) for line in group) == fewest
    ]
    if whole:
        return whole
    return [
        tuple(
            (
                edge,
                tuple(line for line, near in zip(group, nearer, strict=True) if near is edge),
            )
            for edge in edges
        )
    ]


def _misses(read_from: Iterable[tuple[_Line, Edge]]) -> tuple[int, int]:
    """How many lines, each read from its edge, lie beyond the board and on no mark."""
    reads = [line.reads[edge] for line, edge in read_from]
    return sum(read.too_far for read in reads), sum(read.off_mark for read in reads)


def _cost(way: tuple[_Pass, ...]) -> tuple[tuple[int, ...], Length]:
    reads = [line.reads[edge] for edge, lines in way for line in lines]
    lies = [(_FACE_UP[lines[0].fold], edge) for edge, lines in way]
    moves = [move_between(one, other) for one, other in pairwise(lies)]
    flips = sum(move in FLIPPING for move in moves)
    return (
        (
            *_misses((line, edge) for edge, lines in way for line in lines),
            sum(move in TURNING for move in moves) + flips,
            flips,
            sum(move is Move.HALF for move in moves),
            sum(not read.groove for read in reads),
            sum(read.unkind for read in reads),
        ),
        total(read.position for read in reads),
    )


def _score_pass(
    lines: tuple[_Line, ...],
    face: Face,
    edge: Edge,
    move: Move,
    board: ScoringBoard,
    ruler: Ruler,
    system: System,
) -> ScorePass:
    reads = [line.reads[edge] for line in lines]
    shift = _shift(reads, board, ruler, system)
    return ScorePass(
        face,
        edge,
        move,
        shift,
        tuple(
            ScoreLine(
                read.position,
                read.ruled,
                read.groove,
                None if shift is None else read.ruled + shift,
                shift is not None and board.grooves.has(read.ruled + shift),
                line.fold,
                line.panels,
            )
            for line, read in zip(lines, reads, strict=True)
        ),
    )


def _shift(
    reads: Sequence[_Read], board: ScoringBoard, ruler: Ruler, system: System
) -> Length | None:
    """How far to move the piece after its first line; None where that gains nothing.

    A shift gains when it puts more of the remaining lines on grooves, or as many with kinder
    numbers, where the number at which the first line is lined up counts as one to be read. The
    best shift has the most on grooves, then the kindest numbers, then is the smallest. No shift
    reaches further than the marks take to repeat, nor any line beyond the board.
    """
    first, *rest = (read.ruled for read in reads)
    if not rest or reads[-1].too_far:
        return None
    has, step = board.grooves.has, ruler.graduation
    best: tuple[int, int, Length] = (
        sum(not has(position) for position in rest),
        sum(unkindness(position, system) for position in rest),
        ZERO,
    )
    lined_up = ruler.below(first) + step
    furthest = min(first + REPEATS[system], board.length - rest[-1] + first)
    while lined_up <= furthest:
        shift = lined_up - first
        moved = [position + shift for position in rest]
        way = (
            sum(not has(position) for position in moved),
            unkindness(lined_up, system) + sum(unkindness(position, system) for position in moved),
            shift,
        )
        best = min(best, way)
        lined_up = lined_up + step
    return best[2] if best[2] > ZERO else None


def _position_findings(
    piece: FlatPiece,
    passes: Sequence[ScorePass],
    board: ScoringBoard,
    ruler: Ruler,
    system: System,
) -> Iterator[Finding]:
    """At most one finding a line: the board ends before it, it is on no mark, or on no groove."""
    for each in passes:
        for line in each.lines:
            one, other = line.panels[0]
            where = (piece.name, one, other)
            at = words(line.position, system)
            line_is = f"{piece.name}: the score between {one} and {other}"
            if line.position > board.length:
                beyond = line.position - board.length
                yield Finding(
                    "scoring.board-too-short",
                    Severity.ERROR,
                    where,
                    f"{line_is} lies {at} from the nearest edge that it can be measured from, "
                    f"{words(beyond, system)} beyond the board's {words(board.length, system)}",
                    "use a longer board, or mark both ends and score along a ruler",
                    beyond,
                )
            elif line.ruled != line.position:
                off = abs(line.position - line.ruled)
                yield Finding(
                    "score.off-ruler",
                    Severity.CAUTION,
                    where,
                    f"{line_is} lies {at} from the {each.fence.value} edge, which is on no mark: "
                    f"the nearest is {words(line.ruled, system)}, {words(off, system)} off",
                    "change the measures that add up to it, so that it lies on a mark",
                    off,
                )
            elif not line.groove:
                nearest = board.grooves.nearest(line.ruled)
                yield Finding(
                    "score.off-groove",
                    Severity.NOTE,
                    where,
                    f"{line_is} lies {at} from the {each.fence.value} edge, off the board's "
                    f"grooves: the nearest is at {words(nearest, system)}",
                    _off_groove_advice(each, line, board, ruler, system),
                    abs(nearest - line.ruled),
                )


def _off_groove_advice(
    each: ScorePass, line: ScoreLine, board: ScoringBoard, ruler: Ruler, system: System
) -> str:
    first = each.lines[0]
    if (
        line is not first
        and line.shifted_groove
        and line.shifted is not None
        and first.shifted is not None
    ):
        return (
            f"score the first line at {words(first.ruled, system)}, move the piece until that "
            f"line lies at {words(first.shifted, system)}, then score this one at "
            f"{words(line.shifted, system)}"
        )
    groove = board.grooves.above(line.ruled)
    start = groove - line.ruled
    if groove <= board.length and ruler.has(start):
        return (
            f"lay the edge at {words(start, system)} instead of at the fence and score at "
            f"{words(groove, system)}, or score along a ruler"
        )
    return "mark both ends and score along a ruler"


def _stopping_findings(
    piece: FlatPiece, lines: Sequence[_Line], system: System
) -> Iterator[Finding]:
    """Lines that must stop: scored from edge to edge they would run on through a panel."""
    for line in lines:
        crossed = []
        for panel in piece.panels:
            along = [corner.x if line.upright else corner.y for corner in panel.corners]
            if min(along) < line.at.as_mm < max(along):
                crossed.append(panel.name)
        if crossed:
            one, other = line.panels[0]
            yield Finding(
                "score.stops-short",
                Severity.NOTE,
                (piece.name, one, other, *crossed),
                f"{piece.name}: the score between {one} and {other} runs on into "
                f"{' and '.join(crossed)} when scored from edge to edge",
                f"stop where {' and '.join(crossed)} {'begin' if len(crossed) > 1 else 'begins'}",
            )


def _slanting_findings(piece: FlatPiece, slanting: Sequence[Score]) -> Iterator[Finding]:
    for score in slanting:
        one, other = score.panels
        yield Finding(
            "score.slanting",
            Severity.NOTE,
            (piece.name, one, other),
            f"{piece.name}: the score between {one} and {other} runs along no edge, so no fence "
            "can guide it",
            f"mark both ends and score along a ruler, {_FACE_UP[score.fold].value} face up",
        )
