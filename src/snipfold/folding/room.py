"""The room inside a closed box, what fits it, and the air under a lid."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..findings import Finding, Mend, Severity
from ..flat import Role
from ..measure import ZERO, Length, Ruler, System, words
from ..measure.tolerance import CLOSING_MM
from ..styles import Construction
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


def clear_inside(
    construction: Construction, folded: Mapping[str, Pose], thickness: Thickness, tape: Length
) -> tuple[dict[str, Length], tuple[Stack, ...]]:
    """The clear inside by direction, and the stacks of panels charged to it.

    A wall stands half its thickness to each side of its mid-surface; what lies inside it (tabs,
    flaps, with their adhesive) is charged in full, as if it lay over the whole wall.
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
    for direction, (one, other), axis in (
        ("width", cavity.width, 0), ("depth", cavity.depth, 1),
    ):  # fmt: skip
        clear[direction] = _apart(pose, one, other, axis) - inside(one) - inside(other)
    rim = max(corner.z for corner in pose.placed[cavity.rim].corners)
    floor = min(corner.z for corner in pose.placed[cavity.floor].corners)
    clear["height"] = Length.figure(rim - floor) - inside(cavity.floor)
    return clear, tuple(stacks)


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
        for (one, other), axis in ((cavity.width, 0), (cavity.depth, 1)):
            low, high = sorted((_mid(pose, one)[axis], _mid(pose, other)[axis]))
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
    flap = measures.get("flap")
    mend = None
    if flap is not None:
        mend = Mend("measures.flap", words(flap, system), words(ruler.below(flap - size), system))
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
    clear: Mapping[str, Length],
    treats: Sequence[Treat],
    measures: Mapping[str, Length],
    ruler: Ruler,
    system: System,
) -> tuple[Finding, ...]:
    """Whether the treats, set one upon another, fit the clear inside with their allowance.

    Each may stand either way round. The allowance is asked on both sides across and deep, and
    once above where a lid covers the box; in an open box the topmost may stand proud of the rim.
    """
    if not treats:
        return ()
    found = []
    piece = construction.cavity.piece
    for treat in treats:
        ways = [(treat.width, treat.depth), (treat.depth, treat.width)]
        needs = [(w + treat.allowance * 2, d + treat.allowance * 2) for w, d in ways]
        short = [(max(w - clear["width"], ZERO), max(d - clear["depth"], ZERO)) for w, d in needs]
        lacks = min(short, key=lambda pair: pair[0] + pair[1])
        for direction, lack in zip(("width", "depth"), lacks, strict=True):
            if lack > ZERO:
                found.append(_misfit(piece, treat.name, direction, lack, measures, ruler, system))
    covered = construction.cavity.covered
    tall = sum((treat.height for treat in treats), ZERO)
    tall = tall + (max(t.allowance for t in treats) if covered else -treats[-1].proud)
    lack = tall - clear["height"]
    if lack > ZERO:
        name = treats[0].name if len(treats) == 1 else "the treats together"
        found.append(_misfit(piece, name, "height", lack, measures, ruler, system))
    return tuple(found)


_TOO = {"width": "wide", "depth": "deep", "height": "tall"}


def _misfit(
    piece: str, name: str, direction: str, lack: Length, measures: Mapping[str, Length],
    ruler: Ruler, system: System,
) -> Finding:  # fmt: skip
    now = measures[direction]
    to = ruler.above(now + lack)
    return Finding(
        f"treat.too-{_TOO[direction]}",
        Severity.ERROR,
        (piece, name),
        f"{name} with its allowance is {words(lack, system)} too {_TOO[direction]} for the clear "
        f"inside",
        f"make the {direction} {words(to, system)}",
        lack,
        Mend(f"measures.{direction}", words(now, system), words(to, system)),
    )


def air_between(
    construction: Construction,
    folded: Mapping[str, Pose],
    thickness: Thickness,
    covers: Covers,
    tape: Length,
) -> tuple[Air, ...]:
    """The air across wherever one piece slides over another.

    Total less two thicknesses (half a wall on each side, of each piece), less the outer piece's
    own inside tabs, less mats and adhesive on both walls of the inner piece.
    """
    airs = []
    for slide in construction.slides:
        outer, inner = folded[slide.outer], folded[slide.inner]
        outer_piece = construction.piece(slide.outer)
        for direction, (out_one, in_one, in_other, out_other) in slide.across:
            axis = ("width", "depth", "height").index(direction)
            whole = _apart(outer, out_one, out_other, axis) - _apart(inner, in_one, in_other, axis)
            paper = thickness[slide.outer] + thickness[slide.inner]
            tabs = ZERO
            for wall in (out_one, out_other):
                stack = stack_on(
                    construction, outer_piece, outer, wall, thickness[slide.outer], tape
                )
                tabs = tabs + stack.height
            mats = ZERO
            for wall in (in_one, in_other):
                mats = mats + covers.get((slide.inner, wall), ZERO)
            left = whole - paper - tabs - mats
            airs.append(Air(slide.outer, slide.inner, direction, whole, paper, tabs, mats, left))
    return tuple(airs)


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
        to = ruler.above(now + wanted - tightest.left)
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
                f"make the {slide.measure} {words(to, system)} in total across",
                -tightest.left if negative else wanted - tightest.left,
                Mend(f"measures.{slide.measure}", words(now, system), words(to, system)),
            )
        )
    return tuple(found)
