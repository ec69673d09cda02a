"""The room inside a closed box, what fits it, and the air under a lid."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from itertools import combinations

from ..findings import Finding, Mend, Severity
from ..flat import Role
from ..measure import ZERO, Length, Ruler, System, words
from ..measure.tolerance import CLOSING_MM
from ..styles import Cavity, Construction, Slide
from .layers import stack_on
from .pose import Pose
from .report import Air, Stack, Treat
from .space import Vec

Thickness = Mapping[str, Length]
"""The thickness of each piece's paper, by the piece's name."""
Covers = Mapping[tuple[str, str], Length]
"""What lies on the outside of a panel (mat and adhesive), by piece and panel."""


def _mid(folded: Pose, panel: str) -> Vec:
    corners = folded.placed[panel].corners
    count = len(corners)
    return Vec(*(sum(axis) / count for axis in zip(*corners, strict=True)))


def _apart(folded: Pose, one: str, other: str, axis: int) -> Length:
    """How far apart the mid-surfaces of two facing panels stand along an axis of the box."""
    return Length.figure(abs(_mid(folded, one)[axis] - _mid(folded, other)[axis]))


def _extent(folded: Pose, one: str, other: str, axis: int) -> Length:
    """How far two panels reach together along an axis of the box."""
    at = [corner[axis] for panel in (one, other) for corner in folded.placed[panel].corners]
    return Length.figure(max(at) - min(at))


def _looks_along(folded: Pose, panel: str, axis: int) -> bool:
    """Whether a panel stands square to an axis of the box, so that its thickness counts along it."""
    return abs(folded.placed[panel].outward[axis]) > 0.5


def clear_inside(
    construction: Construction, folded: Mapping[str, Pose], thickness: Thickness, tape: Length
) -> tuple[dict[str, Length], tuple[Stack, ...]]:
    """The clear inside by direction, and the stacks of panels charged to it.

    A wall stands half its thickness to each side of its mid-surface; what lies inside it (tabs,
    flaps, with their adhesive) is charged in full, as if it lay over the whole wall. Directions in
    which nothing bounds the inside, and the height of a flat one, are left out. Between more than
    four walls, width and depth are those of the largest square.
    """
    cavity = construction.cavity
    piece, pose = construction.piece(cavity.piece), folded[cavity.piece]
    paper = thickness[cavity.piece]
    stacks: list[Stack] = []

    def inside(panel: str) -> Length:
        stack = stack_on(construction, piece, pose, panel, paper, tape)
        if len(stack.panels) > 1:
            stacks.append(stack)
        return paper / 2 + stack.height

    clear = {}
    for direction, pair, axis in (("width", cavity.width, 0), ("depth", cavity.depth, 1)):
        if pair is None:
            continue
        one, other = pair
        if one == other:
            low, high = _reach(pose, pair, axis)
            clear[direction] = Length.figure(high - low) - paper
        else:
            clear[direction] = _apart(pose, one, other, axis) - inside(one) - inside(other)
    if cavity.around:
        walls = _walls(construction, pose, inside)
        # A square of side t reaches (|nx| + |ny|) t / 2 from its middle towards a wall.
        side = _largest([(n, room, (abs(n[0]) + abs(n[1])) / 2) for n, room in walls])
        clear["width"] = clear["depth"] = Length.figure(side)
    if cavity.floor and not cavity.flat:
        rim = max(corner.z for corner in pose.placed[cavity.rim].corners)
        floor = min(corner.z for corner in pose.placed[cavity.floor].corners)
        clear["height"] = Length.figure(rim - floor) - inside(cavity.floor)
        if _level(pose, cavity.rim):
            clear["height"] = clear["height"] - inside(cavity.rim)
    return clear, tuple(stacks)


#: A panel lies level when its outside looks up or down to about a degree.
_LEVEL = 0.9998


def _level(folded: Pose, panel: str) -> bool:
    return abs(folded.placed[panel].outward.z) > _LEVEL


def _reach(folded: Pose, pair: tuple[str, str], axis: int) -> tuple[float, float]:
    """From where to where a direction of the inside runs along an axis, mm."""
    one, other = pair
    if one == other:
        at = [corner[axis] for corner in folded.placed[one].corners]
        return min(at), max(at)
    low, high = sorted((_mid(folded, one)[axis], _mid(folded, other)[axis]))
    return low, high


_Wall = tuple[tuple[float, float], float]
"""A wall from above: where it looks (right, back), and how far it stands from the middle, mm."""


def _walls(
    construction: Construction, folded: Pose, inside: Callable[[str], Length]
) -> list[_Wall]:
    """The walls of a many-sided box, each as its clear inside stands from the floor's middle."""
    cavity = construction.cavity
    middle = _mid(folded, cavity.floor)
    walls = []
    for wall in cavity.around:
        placed = folded.placed[wall]
        out = placed.outward
        away = -placed.placement.above(middle) - inside(wall).float_mm
        walls.append(((out.x, out.y), away))
    return walls


def _largest(walls: Sequence[tuple[tuple[float, float], float, float]]) -> float:
    """The largest t for which some place c has n . c + g t <= b for every (n, b, g) of `walls`.

    A linear programme in three unknowns: its best lies where three of the walls are touched, so
    every three are tried (at most 56 for eight walls). The sum of the walls' directions is nothing
    and g is above zero, so there is always a best.
    """
    best = -math.inf
    for three in combinations(walls, 3):
        ((a, b), r, g), ((c, d), s, h), ((e, f), u, i) = three
        whole = a * (d * i - h * f) - b * (c * i - h * e) + g * (c * f - d * e)
        if abs(whole) < 1e-12:
            continue
        t = (a * (d * u - s * f) - b * (c * u - s * e) + r * (c * f - d * e)) / whole
        x = (r * (d * i - h * f) - b * (s * i - h * u) + g * (s * f - d * u)) / whole
        y = (a * (s * i - h * u) - r * (c * i - h * e) + g * (c * u - s * e)) / whole
        if all(n[0] * x + n[1] * y + k * t <= room + 1e-9 for n, room, k in walls):
            best = max(best, t)
    return best


def too_deep(construction: Construction, folded: Mapping[str, Pose]) -> dict[str, float]:
    """The flaps that reach through the closed box and out past its walls, and by how much, mm.

    A flap that lies wholly outside was folded the wrong way, which is another matter.
    """
    cavity = construction.cavity
    pose = folded[cavity.piece]
    past: dict[str, float] = {}
    for panel in construction.piece(cavity.piece).panels:
        if panel.role is not Role.FLAP:
            continue
        for pair, axis in ((cavity.width, 0), (cavity.depth, 1)):
            if pair is None:
                continue
            low, high = _reach(pose, pair, axis)
            reach = [corner[axis] for corner in pose.placed[panel.name].corners]
            inside = min(max(reach), high) - max(min(reach), low)
            by = max(low - min(reach), max(reach) - high)
            if inside > CLOSING_MM and by > max(CLOSING_MM, past.get(panel.name, 0.0)):
                past[panel.name] = by
    return past


def too_deep_findings(
    construction: Construction,
    past: Mapping[str, float],
    measures: Mapping[str, Length],
    ruler: Ruler,
    system: System,
) -> tuple[Finding, ...]:
    """One finding for all flaps that reach out past the walls, with the deepest's figure."""
    if not past:
        return ()
    size = Length.figure(max(past.values()))
    piece = construction.cavity.piece
    # What the style calls the depth of these flaps, by the last words of their names.
    named = ("dust_flap", "flap")
    own = [one for one in named if all(name.endswith(one.replace("_", " ")) for name in past)]
    field = next((one for one in own if one in measures), None)
    mend = None
    if field is not None:
        flap = measures[field]
        mend = Mend(
            f"measures.{field}", words(flap, system), words(ruler.below(flap - size), system)
        )
    return (
        Finding(
            "flap.too-deep",
            Severity.ERROR,
            (piece, *past),
            f"{piece}: {_list(past)} {'reaches' if len(past) == 1 else 'reach'} "
            f"{words(size, system)} past the walls of the closed {piece}",
            f"make the flaps {words(size, system)} less deep",
            size,
            mend,
        ),
    )


def _list(names: Mapping[str, float]) -> str:
    *most, last = (f"the {name}" for name in names)
    return f"{', '.join(most)} and {last}" if most else last


def fit_findings(
    construction: Construction,
    folded: Mapping[str, Pose],
    clear: Mapping[str, Length],
    treats: Sequence[Treat],
    thickness: Thickness,
    tape: Length,
    measures: Mapping[str, Length],
    ruler: Ruler,
    system: System,
) -> tuple[Finding, ...]:
    """Whether the treats, set one upon another, fit the clear inside with their allowance.

    Each may stand either way round. The allowance is asked on both sides across and deep, and
    once above where a lid covers the box; in an open box the topmost may stand proud of the rim.
    Between panels that are folded onto each other, all treats together are as thick as they are
    tall, and that takes from the room across and deep: what goes round a card of width w and
    thickness t is 2 (w + t), and a flat pocket is no longer round than twice its width.
    """
    if not treats:
        return ()
    cavity = construction.cavity
    if cavity.around:
        found = _fit_around(
            construction, folded, treats, thickness, tape, measures, ruler, system
        )  # fmt: skip
    else:
        found = _fit_across(cavity, clear, treats, measures, ruler, system)
    if "height" not in clear:
        return tuple(found)
    piece = cavity.piece
    covered = cavity.covered
    tall = sum((treat.height for treat in treats), ZERO)
    tall = tall + (max(t.allowance for t in treats) if covered else -treats[-1].proud)
    lack = tall - clear["height"]
    if lack > ZERO:
        name = treats[0].name if len(treats) == 1 else "the treats together"
        found.append(_misfit(piece, name, "height", lack, measures, ruler, system))
    return tuple(found)


def _fit_across(
    cavity: Cavity,
    clear: Mapping[str, Length],
    treats: Sequence[Treat],
    measures: Mapping[str, Length],
    ruler: Ruler,
    system: System,
) -> list[Finding]:
    """What lacks between walls that face each other."""
    found = []
    thick = sum((treat.height for treat in treats), ZERO) if cavity.flat else ZERO
    for treat in treats:
        ways = [(treat.width, treat.depth), (treat.depth, treat.width)]
        around = treat.allowance * 2 + thick
        short = [
            tuple(
                max(size + around - clear[direction], ZERO) if direction in clear else ZERO
                for direction, size in zip(("width", "depth"), way, strict=True)
            )
            for way in ways
        ]
        lacks = min(short, key=lambda pair: pair[0] + pair[1])
        for direction, lack in zip(("width", "depth"), lacks, strict=True):
            if lack > ZERO:
                # Where it would fit if it were thin, its thickness is what is too much.
                too = "tall" if lack <= thick else _TOO[direction]
                found.append(
                    _misfit(cavity.piece, treat.name, direction, lack, measures, ruler, system, too)
                )
    return found


def _fit_around(
    construction: Construction,
    folded: Mapping[str, Pose],
    treats: Sequence[Treat],
    thickness: Thickness,
    tape: Length,
    measures: Mapping[str, Length],
    ruler: Ruler,
    system: System,
) -> list[Finding]:
    """What lacks across between more than four walls, for a treat that stands square to the front."""
    cavity = construction.cavity
    piece, pose = construction.piece(cavity.piece), folded[cavity.piece]
    paper = thickness[cavity.piece]

    def inside(wall: str) -> Length:
        return paper / 2 + stack_on(construction, piece, pose, wall, paper, tape).height

    walls = _walls(construction, pose, inside)
    found = []
    for treat in treats:
        around = treat.allowance * 2
        spare = -math.inf
        for one, other in ((treat.width, treat.depth), (treat.depth, treat.width)):
            wide, deep = ((size + around).float_mm / 2 for size in (one, other))
            room = [(n, b - abs(n[0]) * wide - abs(n[1]) * deep, 1.0) for n, b in walls]
            spare = max(spare, _largest(room))
        if spare < 0:
            lack = Length.figure(-2 * spare)
            now = measures[cavity.measure]
            to = ruler.above(now + _by(lack, cavity.grows))
            found.append(
                Finding(
                    "treat.too-wide",
                    Severity.ERROR,
                    (cavity.piece, treat.name),
                    f"{treat.name} with its allowance is {words(lack, system)} too wide for the "
                    "clear inside",
                    f"make the {cavity.measure.replace('_', ' ')} {words(to, system)}",
                    lack,
                    Mend(f"measures.{cavity.measure}", words(now, system), words(to, system)),
                )
            )
    return found


_TOO = {"width": "wide", "depth": "deep", "height": "tall"}
_MORE = {"width": "wider", "depth": "deeper", "height": "taller"}


def _misfit(
    piece: str, name: str, direction: str, lack: Length, measures: Mapping[str, Length],
    ruler: Ruler, system: System, too: str = "",
) -> Finding:  # fmt: skip
    too = too or _TOO[direction]
    # A piece that is drawn without measures has none that one could write anew.
    advice, mend = f"make the {piece} {words(ruler.above(lack), system)} {_MORE[direction]}", None
    if (now := measures.get(direction)) is not None:
        to = ruler.above(now + lack)
        advice = f"make the {direction} {words(to, system)}"
        mend = Mend(f"measures.{direction}", words(now, system), words(to, system))
    return Finding(
        f"treat.too-{too}",
        Severity.ERROR,
        (piece, name),
        f"{name} with its allowance is {words(lack, system)} too {too} for the clear inside",
        advice,
        lack,
        mend,
    )


def air_between(
    construction: Construction,
    folded: Mapping[str, Pose],
    thickness: Thickness,
    covers: Covers,
    tape: Length,
) -> tuple[Air, ...]:
    """The air across wherever one piece slides over another.

    Total less two thicknesses (half a wall on each side, of each piece; a rim has none), less the
    outer piece's own inside tabs, less mats and adhesive on both walls of the inner piece.
    """
    airs = []
    for slide in construction.slides:
        outer, inner = folded[slide.outer], folded[slide.inner]
        outer_piece = construction.piece(slide.outer)
        for direction, (out_one, in_one, in_other, out_other) in slide.across:
            axis = ("width", "depth", "height").index(direction)
            whole = _apart(outer, out_one, out_other, axis) - _extent(inner, in_one, in_other, axis)
            faces = [wall for wall in (in_one, in_other) if _looks_along(inner, wall, axis)]
            paper = thickness[slide.outer] + thickness[slide.inner] * len(faces) / 2
            tabs = ZERO
            for wall in (out_one, out_other):
                stack = stack_on(
                    construction, outer_piece, outer, wall, thickness[slide.outer], tape
                )
                tabs = tabs + stack.height
            mats = ZERO
            for wall in faces:
                mats = mats + covers.get((slide.inner, wall), ZERO)
            left = whole - paper - tabs - mats
            airs.append(Air(slide.outer, slide.inner, direction, whole, paper, tabs, mats, left))
        if slide.around:
            airs.append(_air_around(construction, folded, slide, thickness, covers, tape))
    return tuple(airs)


def _air_around(
    construction: Construction,
    folded: Mapping[str, Pose],
    slide: Slide,
    thickness: Thickness,
    covers: Covers,
    tape: Length,
) -> Air:
    """The air across the flats of pieces with more than four walls: twice that by an apothem.

    The tabs that lie inside one wall of the outer piece push it aside by no more than they are
    thick, so the thickest are charged once; mats are charged on both sides, as if every wall had
    the thickest.
    """
    outer, inner = folded[slide.outer], folded[slide.inner]
    piece = construction.piece(slide.outer)
    whole = Length.figure(
        2 * min(
            -outer.placed[out].placement.above(_mid(inner, within)) for out, within in slide.around
        )
    )  # fmt: skip
    paper = thickness[slide.outer] + thickness[slide.inner]
    tabs = max(
        stack_on(construction, piece, outer, out, thickness[slide.outer], tape).height
        for out, _ in slide.around
    )
    mats = max(covers.get((slide.inner, within), ZERO) for _, within in slide.around) * 2
    left = whole - paper - tabs - mats
    return Air(slide.outer, slide.inner, "flats", whole, paper, tabs, mats, left)


def _by(lack: Length, grows: float) -> Length:
    """How much larger a measure must be, where what lacks grows so many times as fast."""
    return lack if grows == 1.0 else Length.figure(lack.float_mm / grows)


def air_findings(
    construction: Construction,
    airs: Sequence[Air],
    thickness: Thickness,
    measures: Mapping[str, Length],
    ruler: Ruler,
    system: System,
) -> tuple[Finding, ...]:
    """A lid without air cannot go on; one with less air than its paper is thick will stick."""
    found = []
    for slide in construction.slides:
        mine = [air for air in airs if (air.outer, air.inner) == (slide.outer, slide.inner)]
        tightest = min(mine, key=lambda air: air.left)
        wanted = thickness[slide.outer]
        if tightest.left >= wanted:
            continue
        now = measures[slide.measure]
        to = ruler.above(now + _by(wanted - tightest.left, slide.grows))
        negative = tightest.left < ZERO
        mats = (
            f", of which the mats on the {slide.inner} take {words(tightest.mats, system)}"
            if tightest.mats
            else ""
        )
        says = (
            f"the {slide.outer} is {words(-tightest.left, system)} too small across the "
            f"{tightest.direction} to go over the {slide.inner}{mats}"
            if negative
            else f"the {slide.outer} has only {words(tightest.left, system)} of air across the "
            f"{tightest.direction}{mats}: it will stick"
        )
        found.append(
            Finding(
                "lid.no-air" if negative else "lid.tight",
                Severity.ERROR if negative else Severity.CAUTION,
                (slide.outer, slide.inner, tightest.direction),
                says,
                f"make the {slide.measure.replace('_', ' ')} {words(to, system)}"
                f"{'' if slide.around else ' in total across'}",
                -tightest.left if negative else wanted - tightest.left,
                Mend(f"measures.{slide.measure}", words(now, system), words(to, system)),
            )
        )
    return tuple(found)
