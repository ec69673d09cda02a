"""What the plan of a scored blank leaves out: worked out from how it folds.

Each function takes the plan as far as it is known and returns the part that it is named for.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, pairwise, product

from ..flat import Face, FlatPiece, Fold, Role, Score
from ..folding import Placed, Pose, Vec, closed_angles, pose
from ..folding.closing import gaps
from ..folding.contact import coplanar, overlap
from ..measure import ZERO, Length, Ruler
from ..measure.tolerance import CLOSING_MM
from ..styles import Direction, Doing, EdgeOf, Layer, Meet, Moment, Step, Turn
from ..styles.scored_blank import (
    BlankPlan,
    PlannedPanel,
    PlannedStand,
    PlannedStrip,
    Side,
    in_sizes,
    sketch,
    stand_of,
    strip_name,
    touching,
)

#: The ways in which a panel can stand, by what it is: where its x and y run. The front looks to the
#: front; a floor is seen from below; a top lies face up.
STANDS: dict[str, tuple[Direction, Direction]] = {
    "front": ((1, 0, 0), (0, 0, 1)),
    "floor": ((1, 0, 0), (0, -1, 0)),
    "top": ((1, 0, 0), (0, 1, 0)),
}
#: The last word of a panel's name and the part that it plays.
ROLES = {
    "tab": Role.TAB,
    "flap": Role.FLAP,
    "floor": Role.FLOOR,
    "bottom": Role.FLOOR,
    "base": Role.FLOOR,
    "top": Role.TOP,
    "lid": Role.TOP,
}
#: A panel looks along an axis, or two run alike, when it is less than 45 degrees off.
_STEEP = 0.7071
#: How far scores are creased before the piece is opened out again, degrees.
_CREASED = 60.0
#: Sizes that are rounded for an edition in every way; more would take too long (2 to that power).
_MOST_SIZES = 7


@dataclass(frozen=True)
class Folded:
    """A plan folded shut: its flat piece, its pose, and how its panels hang on the standing one.

    `hangs` is the score by which each panel but the standing one hangs, in the order of folding.
    """

    plan: BlankPlan
    piece: FlatPiece
    pose: Pose
    hangs: Mapping[str, Score]

    @classmethod
    def of(cls, plan: BlankPlan) -> Folded:
        """The plan, folded, in the corner of left, front and table."""
        plan = set_down(plan)
        piece = sketch(plan)
        return cls(plan, piece, _closed(plan, piece), _hangs(piece, plan.stand.panel))

    def saying(self, plan: BlankPlan) -> Folded:
        """The same with more of the plan known: nothing that changes its lines or folds."""
        return replace(self, plan=plan)

    def parent(self, panel: str) -> str:
        """The panel on which another hangs."""
        (other,) = (one for one in self.hangs[panel].panels if one != panel)
        return other

    def path(self, one: str, other: str) -> tuple[str, ...]:
        """The panels whose scores must be folded before two panels stand as they should.

        Each is named for the score that it hangs by, from `one` up and down to `other`.
        """
        up, down = self._line(one), self._line(other)
        while up and down and up[-1] == down[-1]:
            up.pop()
            down.pop()
        return (*up, *reversed(down))

    def _line(self, panel: str) -> list[str]:
        """The panel and all that it hangs on, without the standing one."""
        line = []
        while panel != self.plan.stand.panel:
            line.append(panel)
            panel = self.parent(panel)
        return line

    def ends(self, panel: str) -> bool:
        """Whether nothing hangs on a panel."""
        return all(self.parent(other) != panel for other in self.hangs)

    def placed(self, panel: str) -> Placed:
        """Where a panel is."""
        return self.pose.placed[panel]

    def same_way(self, one: str, other: str) -> bool:
        """Whether the outsides of two panels look the same way."""
        return self.placed(one).outward.dot(self.placed(other).outward) > 0

    def overlap(self, one: str, other: str) -> bool:
        """Whether two panels lie on one another."""
        a, b = self.placed(one), self.placed(other)
        return coplanar(a, b) and overlap(a, b) is not None


def _closed(plan: BlankPlan, piece: FlatPiece) -> Pose:
    return pose(piece, stand_of(plan), closed_angles(piece))


def _hangs(piece: FlatPiece, stands: str) -> dict[str, Score]:
    found: dict[str, Score] = {}
    waiting = [stands]
    for name in waiting:
        for score in piece.scores:
            if name in score.panels:
                (other,) = (one for one in score.panels if one != name)
                if other not in found and other != stands:
                    found[other] = score
                    waiting.append(other)
    return found


# ---- what stands, and what the panels are


def standing_panel(panels: Sequence[PlannedPanel], sizes: Mapping[str, Length]) -> str:
    """The panel that stays still unless one is named: front, floor, bottom, top, or the largest.

    `sizes` is how large each panel is, in whatever way, to choose by.
    """
    names = [panel.name for panel in panels]
    for name in ("front", "floor", "bottom", "base", "top"):
        if name in names:
            return name
    return max(names, key=lambda name: sizes[name])


def stands_as(panel: str) -> str:
    """How a panel stands unless it is said: by its name, else as the front."""
    role = ROLES.get(panel.split()[-1])
    return {Role.FLOOR: "floor", Role.TOP: "top"}.get(role, "front") if role else "front"


def set_down(plan: BlankPlan) -> BlankPlan:
    """The plan with its piece, when closed, in the corner of left, front and table."""
    place = plan.stand
    standing = _closed(plan, sketch(plan))
    corners = [corner for placed in standing.placed.values() for corner in placed.corners]
    low = [Length.figure(min(corner[axis] for corner in corners)) for axis in range(3)]
    x, y, z = (at - by for at, by in zip(place.at, low, strict=True))
    return replace(plan, stand=PlannedStand(place.panel, place.x, place.y, (x, y, z)))


def roles(
    folded: Folded, said: Mapping[str, Role], glued: Iterable[str], inner: Iterable[str]
) -> dict[str, Role]:
    """What each panel is: as `said`, by the last word of its name, or by where it ends up.

    An end panel that is `glued` is a tab, one that is `inner` to another a flap. Else a panel that
    looks down is a floor, one that looks up a top, and the others are walls.
    """
    plan, glued, inner = folded.plan, set(glued), set(inner)

    def role(name: str) -> Role:
        if name in said:
            return said[name]
        if name.split()[-1] in ROLES:
            return ROLES[name.split()[-1]]
        if name != plan.stand.panel and len(plan.hinges(name)) == 1 and name in glued | inner:
            return Role.TAB if name in glued else Role.FLAP
        up = folded.placed(name).outward.z
        return Role.TOP if up > _STEEP else Role.FLOOR if up < -_STEEP else Role.WALL

    return {panel.name: role(panel.name) for panel in plan.panels}


# ---- what lies on what


def mate_face(folded: Folded, panel: str, face: Face, mate: str, inner: str | None) -> Face:
    """The face of the mate that a strip sticks to.

    Where one of the two is said to lie inside the other, that tells: the outer one's inside. Else
    it is the face that looks at the glued one when the piece is closed.
    """
    if inner == panel:
        return Face.INSIDE
    if inner == mate:
        return Face.OUTSIDE if folded.same_way(panel, mate) else Face.INSIDE
    return face.other if folded.same_way(panel, mate) else face


def layers(
    folded: Folded,
    said: Sequence[tuple[str, str]],
    slid: Sequence[tuple[str, str]],
) -> tuple[Layer, ...]:
    """What lies inside what: as said, from the glue, from folds of 180 degrees, and what follows.

    `said` and `slid` are pairs of inner and outer. Of two panels inside one outer panel, the one
    that is named first lies inside the other, where they overlap. What is
    folded flat onto its neighbour lies over it; but where that neighbour has others on its inside,
    a hem lies among them.
    """
    plan = folded.plan
    pairs = list(dict.fromkeys((*said, *slid)))
    given = {frozenset(pair) for pair in pairs}
    onto = {
        frozenset((folded.parent(name), name)): name
        for name, score in folded.hangs.items()
        if score.degrees == 180
    }
    for strip in plan.strips:
        both = frozenset((strip.panel, strip.mate))
        if both not in given and both not in onto:
            pairs.append(_glued_pair(folded, strip))
    pleats = set()
    for both, name in onto.items():
        if both in given:
            continue
        over = (folded.parent(name), name)
        if folded.hangs[name].fold is Fold.VALLEY:
            pleats.add(over)
        elif folded.ends(name) and (
            _lies_over(folded, over[0])
            or any(pair[1] == over[0] for pair in pairs if pair not in pleats)
        ):
            over = over[::-1]
        pairs.append(over)
    pairs = list(dict.fromkeys(pairs))
    flat = {pair for pair in pairs if frozenset(pair) in onto}
    later = {inner for inner, _ in slid}
    follows = _following(folded, pairs, flat)
    return tuple(
        Layer(
            plan.called,
            *pair,
            slid=pair in slid or (pair in follows and pair[0] in later),
            pleated=pair in pleats,
        )
        for pair in (*pairs, *follows)
    )


def _lies_over(folded: Folded, panel: str) -> bool:
    """Whether a panel is itself folded flat onto the one that it hangs on."""
    score = folded.hangs.get(panel)
    return score is not None and score.degrees == 180 and score.fold is Fold.MOUNTAIN


def _glued_pair(folded: Folded, strip: PlannedStrip) -> tuple[str, str]:
    """The inner and the outer panel of a strip, by its face: glue on an outside lies inside."""
    if strip.face is Face.OUTSIDE:
        return strip.panel, strip.mate
    if folded.same_way(strip.panel, strip.mate):
        return strip.mate, strip.panel
    # Two insides meet in a flat pile: what is nearer to what stands lies below.
    stands = folded.plan.stand.panel
    near = len(folded.path(strip.mate, stands)) <= len(folded.path(strip.panel, stands))
    return (strip.mate, strip.panel) if near else (strip.panel, strip.mate)


def _following(
    folded: Folded, pairs: Sequence[tuple[str, str]], flat: Collection[tuple[str, str]]
) -> list[tuple[str, str]]:
    """The pairs that overlap and whose order follows from the pairs that are known.

    `flat` are those of them where one panel is folded flat onto the other.
    """
    outer: dict[str, set[str]] = {}
    for a, b in pairs:
        outer.setdefault(a, set()).add(b)
    names = [panel.name for panel in folded.plan.panels]
    for middle, a in product(names, names):
        if middle in outer.get(a, ()):
            outer[a] |= outer.get(middle, set())
    found = [
        (a, b)
        for a, b in product(names, names)
        if b in outer.get(a, ()) and a not in outer.get(b, ()) and (a, b) not in pairs
    ]
    beside: dict[str, list[str]] = {}
    for a, b in pairs:
        if (a, b) not in flat:
            beside.setdefault(b, []).append(a)
    found += [
        (a, b)
        for inners in beside.values()
        for a, b in combinations(inners, 2)
        if a not in outer.get(b, ()) and b not in outer.get(a, ())
    ]
    return [pair for pair in dict.fromkeys(found) if folded.overlap(*pair)]


def meets(folded: Folded) -> tuple[Meet, ...]:
    """The edges that come together at each glued tab: that on which it hangs, and its mate's.

    Of its mate's free edges it is the one that runs alongside and is nearest when all is closed.
    """
    plan, found = folded.plan, []
    for strip in plan.strips:
        if plan.panel(strip.panel).role is not Role.TAB or len(plan.hinges(strip.panel)) != 1:
            continue
        wall = next(n for n in plan.hinges(strip.panel)[0].panels if n != strip.panel)
        hinge = plan.hinge_side(strip.panel)
        if hinge is None or wall == strip.mate:
            continue
        own = EdgeOf(wall, hinge.across.value)
        free = [
            EdgeOf(strip.mate, side.value)
            for side in Side
            if not _scored(plan, strip.mate, side) and _alike(folded, own, strip.mate, side)
        ]
        if free:
            near = min(free, key=lambda edge: _apart(folded, own, edge))
            found.append(meet(plan, near, own))
    return tuple(dict.fromkeys(found))


def meet(plan: BlankPlan, one: EdgeOf, other: EdgeOf) -> Meet:
    """Two edges that come together, over their whole length where they are equally long."""
    sizes = {plan.size(plan.panel(edge.panel), Side(edge.corner)) for edge in (one, other)}
    return Meet(plan.called, one, other, in_part=len(sizes) > 1)


def _scored(plan: BlankPlan, panel: str, side: Side) -> bool:
    own = plan.panel(panel)
    return any(
        touching(own, plan.panel(other)) is side
        for score in plan.hinges(panel)
        for other in score.panels
        if other != panel
    )


def _alike(folded: Folded, own: EdgeOf, mate: str, side: Side) -> bool:
    a, b = folded.pose.edge(own.panel, own.corner)
    c, d = folded.pose.edge(mate, side.value)
    return abs(b.minus(a).unit().dot(d.minus(c).unit())) > _STEEP


def _apart(folded: Folded, one: EdgeOf, other: EdgeOf) -> float:
    here, there = (_middle(folded.pose.edge(edge.panel, edge.corner)) for edge in (one, other))
    return round(here.minus(there).length(), 6)


def _middle(edge: tuple[Vec, Vec]) -> Vec:
    return edge[0].plus(edge[1].minus(edge[0]), 0.5)


def highest_edge(folded: Folded, panel: str) -> EdgeOf:
    """The upper edge of a panel of the closed piece."""
    sides = [EdgeOf(panel, side.value) for side in Side]
    return max(sides, key=lambda edge: _middle(folded.pose.edge(panel, edge.corner)).z)


# ---- in which order it goes together


@dataclass(frozen=True)
class Work:
    """A step as it is planned: what is folded, each score named for the panel that hangs by it.

    What is None follows from the others.
    """

    folds: tuple[str, ...]
    doing: Doing | None = None
    title: str = ""
    glue: tuple[str, ...] | None = None
    moving: tuple[str, ...] | None = None


class Assembly:
    """The steps of a plan whose panels, strips and layers are known."""

    def __init__(self, folded: Folded) -> None:
        self.plan = plan = folded.plan
        self.folded = folded
        self.hangs = folded.hangs
        self._inside = {
            frozenset((layer.inner, layer.outer)): (layer.inner, layer.outer)
            for layer in plan.layers
        }

    def usual(self) -> list[Work]:
        """One step a glued joint, after what has to be folded before it; then what is left."""
        works: list[Work] = []
        done: set[str] = set()

        def work(folds: Iterable[str], doing: Doing) -> None:
            new = tuple(name for name in dict.fromkeys(folds) if name not in done)
            if new:
                works.append(Work(new, doing))
                done.update(new)

        hems = [
            layer.inner
            for layer in self.plan.layers
            if layer.inner in self.hangs and self.folded.parent(layer.inner) == layer.outer
        ]
        glued = {name for strip in self.plan.strips for name in (strip.panel, strip.mate)}
        for name in hems:
            work((name,), Doing.PRESS if name in glued else Doing.TURN_IN)
        for outer, inners in self._joints():
            path = [
                name
                for inner in inners
                for name in self.folded.path(inner, outer)
                if name not in done
            ]
            ends = [name for name in inners if name in path and self.folded.ends(name)]
            between = [name for name in path if name not in ends and name != outer]
            if between and self._is_tube(path):
                work(path, Doing.SEAM)
                continue
            if between:
                tabs = [name for name in self.hangs if self._is_tab_on(name, between)]
                work((*between, *ends, *tabs), Doing.RAISE)
            if outer in path:
                work(ends, Doing.TURN_IN)
            work((*ends, outer) if outer in path else ends, Doing.PRESS)
        left = [name for name in self.hangs if name not in done]
        slid = {layer.inner for layer in self.plan.layers if layer.slid}
        tucked = [name for name in left if name in slid]
        with_tuck = {self.folded.parent(name) for name in tucked} & set(left)
        first = [
            name
            for name in left
            if name not in tucked
            and name not in with_tuck
            and any(
                layer.inner == name and layer.outer in left and not layer.slid
                for layer in self.plan.layers
            )
        ]
        work(first, Doing.TURN_IN)
        rest = [n for n in left if n not in (*first, *tucked, *with_tuck)]
        before = [name for name in rest if self._hangs_before(name, tucked)]
        work(before, Doing.TURN_IN)
        for name in tucked:
            parent = self.folded.parent(name)
            work((parent, name) if parent in left else (name,), Doing.TUCK)
        closes = bool(self.plan.strips) and not self.plan.cavity.is_open
        work(rest, Doing.CLOSE if closes else Doing.TURN_IN)
        return works

    def _hangs_before(self, name: str, tucked: Sequence[str]) -> bool:
        """Whether a tucked panel hangs on this one, so that it has to be folded before."""
        return any(name in self.folded.path(end, self.plan.stand.panel) for end in tucked)

    def _joints(self) -> Iterator[tuple[str, tuple[str, ...]]]:
        """The outer panel of each glued joint with those inside it, in the order of the strips."""
        joints: dict[str, list[str]] = {}
        for strip in self.plan.strips:
            inner, outer = self._ordered(strip)
            joints.setdefault(outer, []).append(inner)
        for outer, inners in joints.items():
            yield outer, tuple(dict.fromkeys(inners))

    def _ordered(self, strip: PlannedStrip) -> tuple[str, str]:
        return self._inside[frozenset((strip.panel, strip.mate))]

    def _is_tube(self, folds: Sequence[str]) -> bool:
        """Whether all these scores run the same way on the blank: walls that go round."""
        ways = {self.hangs[name].start.x == self.hangs[name].end.x for name in folds}
        return len(ways) == 1

    def _is_tab_on(self, name: str, panels: Sequence[str]) -> bool:
        return (
            self.plan.panel(name).role is Role.TAB
            and self.folded.ends(name)
            and self.folded.parent(name) in panels
        )

    def steps(self, works: Sequence[Work]) -> tuple[Step, ...]:
        """The steps, with creasing before them; what a step leaves out is worked out.

        Every score that is not in a step yet is opened flat when the first one begins.
        """
        called = self.plan.called
        names = tuple(self.hangs)
        angles = {score.panels: score.degrees for score in self.plan.scores}
        scores = {score.panels: score for score in self.folded.piece.scores}

        def turn(panels: tuple[str, str], share: float | None = None) -> Turn:
            full = next(
                angle for pair, angle in angles.items() if frozenset(pair) == frozenset(panels)
            )
            if share is None:
                return Turn(panels, full)
            return Turn(panels, min(_CREASED, full * share))

        made = [
            Step(
                called, "Fold and burnish", Moment.FLAT, Doing.CREASE,
                tuple(turn(pair, 2 / 3) for pair in scores), (), names,
            )
        ]  # fmt: skip
        glue = self._glue(works)
        done: set[str] = set()
        loops = [pair for pair, score in scores.items() if score not in self.hangs.values()]
        for number, (work, strips) in enumerate(zip(works, glue, strict=True)):
            done.update(work.folds)
            turns = [turn(self.hangs[name].panels) for name in work.folds]
            whole = [pair for pair in loops if set(self.folded.path(*pair)) <= done]
            loops = [pair for pair in loops if pair not in whole]
            turns += [turn(pair) for pair in whole]
            if number == 0:
                moved = {one.panels for one in turns}
                turns += [Turn(pair, 0) for pair in scores if pair not in moved]
            doing = work.doing or self._doing(work, strips)
            moving = work.moving or self._moving(work, doing, strips)
            last = number == len(works) - 1
            moment = (
                Moment.CLOSED
                if last
                else Moment.SEAM
                if doing in (Doing.SEAM, Doing.RAISE)
                else Moment.BOTTOM
            )
            made.append(
                Step(
                    called, work.title or _title(doing, moving), moment, doing, tuple(turns),
                    tuple(strip_name(self.plan.strips, strip) for strip in strips), moving,
                )
            )  # fmt: skip
        return tuple(made)

    def _glue(self, works: Sequence[Work]) -> list[list[PlannedStrip]]:
        """The strips that meet their mates in each step: as said, else as soon as both are there."""
        left = list(self.plan.strips)
        said = {name for work in works for name in work.glue or ()}
        done: set[str] = set()
        found = []
        for work in works:
            done.update(work.folds)
            here = [
                strip
                for strip in left
                if (
                    strip.panel in (work.glue or ())
                    if strip.panel in said
                    else set(self.folded.path(strip.panel, strip.mate)) <= done
                )
            ]
            left = [strip for strip in left if strip not in here]
            found.append(here)
        return found

    def _doing(self, work: Work, strips: Sequence[PlannedStrip]) -> Doing:
        if strips:
            ends = {name for strip in strips for name in (strip.panel, strip.mate)}
            between = [name for name in work.folds if name not in ends]
            return Doing.SEAM if between and self._is_tube(work.folds) else Doing.PRESS
        slid = {layer.inner for layer in self.plan.layers if layer.slid}
        return Doing.TUCK if slid & set(work.folds) else Doing.TURN_IN

    def _moving(self, work: Work, doing: Doing, strips: Sequence[PlannedStrip]) -> tuple[str, ...]:
        """The panels that are named and drawn as moving."""
        outers = dict.fromkeys(self._ordered(strip)[1] for strip in strips)
        moving = [name for name in outers if name in work.folds]
        if doing in (Doing.SEAM, Doing.PRESS) and moving:
            return tuple(moving)
        if doing is Doing.SEAM:
            # The outer one stands still: it is the end that goes inside which is brought round.
            return work.folds[:1]
        if doing is Doing.RAISE:
            walls = [n for n in work.folds if self.plan.panel(n).role is not Role.TAB]
            return tuple(walls or work.folds)
        if doing is Doing.TUCK:
            return work.folds[::-1]
        return work.folds


def _title(doing: Doing, moving: Sequence[str]) -> str:
    names = [f"the {name}" for name in moving]
    several = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
    if len(names) > 3:
        several = f"the {len(names)} panels"
    return {
        Doing.SEAM: "Close the seam",
        Doing.RAISE: f"Raise {several}",
        Doing.PRESS: f"Press {several} down",
        Doing.TUCK: f"Tuck {several} in",
        Doing.CLOSE: f"Close {several}",
    }.get(doing, f"Fold in {several}")


# ---- other units


def at_marks(plan: BlankPlan, ruler: Ruler) -> BlankPlan:
    """The plan for makers with another ruler: every column and row a whole number of its marks.

    Columns that are equally wide stay so. Each goes to its nearest mark; where the piece then does
    not close any more, though it did, those roundings are tried that change least.
    """

    def near(length: Length) -> Length:
        return max(ruler.nearest(length), ruler.graduation)

    plan = replace(
        plan,
        panels=tuple(
            replace(panel, trim=near(panel.trim)) if panel.trim else panel for panel in plan.panels
        ),
        strips=tuple(
            replace(strip, ends=near(strip.ends)) if strip.ends else strip for strip in plan.strips
        ),
    )
    columns, rows = _steps_of(plan.columns), _steps_of(plan.rows)
    sizes = sorted({*columns, *rows})
    first = tuple(near(size) for size in sizes)
    ways: list[tuple[Length, ...]] = []
    if len(sizes) <= _MOST_SIZES:
        options = [(max(ruler.below(s), ruler.graduation), ruler.above(s)) for s in sizes]
        ways = sorted(product(*options), key=lambda way: _change(sizes, way))

    def made(way: Sequence[Length]) -> BlankPlan:
        to = dict(zip(sizes, way, strict=True))
        return _kept(in_sizes(plan, [to[size] for size in columns], [to[size] for size in rows]))

    closes = _gap(plan) <= CLOSING_MM
    sound = (way for way in (first, *ways) if not closes or _gap(made(way)) <= CLOSING_MM)
    return set_down(made(next(sound, first)))


def _kept(plan: BlankPlan) -> BlankPlan:
    """The plan with no more trimmed off a panel, or left free by its tape, than it has."""

    def trimmed(panel: PlannedPanel) -> PlannedPanel:
        hinge = plan.hinge_side(panel.name)
        most = plan.size(panel, hinge) / 4 if hinge is not None else ZERO
        return replace(panel, trim=min(panel.trim, most))

    return replace(
        plan,
        panels=tuple(map(trimmed, plan.panels)),
        strips=tuple(
            replace(strip, ends=min(strip.ends, plan.size(plan.panel(strip.panel), strip.side) / 4))
            for strip in plan.strips
        ),
    )


def _steps_of(lines: Sequence[Length]) -> list[Length]:
    return [after - before for before, after in pairwise(lines)]


def _change(sizes: Sequence[Length], way: Sequence[Length]) -> Length:
    return sum((abs(to - size) for size, to in zip(sizes, way, strict=True)), ZERO)


def _gap(plan: BlankPlan) -> float:
    """The widest gap of a plan's piece when it is closed, mm."""
    piece = sketch(plan)
    gaps_of = gaps(piece, _closed(plan, piece), plan.meets)
    return max((gap.size for gap in gaps_of), default=0.0)
