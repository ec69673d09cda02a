"""Prism boxes with a lid: what the boxes of three to eight sides share. No style itself.

Base and lid are made alike: the walls in one strip, closed by a seam tab; on the middle wall hangs
the floor (the top, on the lid), on the others hang tabs that it is stuck to. The lid's walls are
wider than the base's by what gives it its air, measured across the flats: from one wall through
the middle, twice the apothem.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from fractions import Fraction
from itertools import pairwise

from ..flat import Blank, Corner, Face, FlatPiece, Point, Role
from ..measure import ZERO, Length
from .construction import (
    Cavity,
    Construction,
    Doing,
    EdgeOf,
    Layer,
    Meet,
    Moment,
    Slide,
    Stand,
    Step,
    Turn,
)
from .style import MARKS, Given, Measure, Measures, fixed, irrational, tape_inset

BASE = "base"
LID = "lid"
FLOOR = "floor"
TOP = "top"
SEAM = "seam tab"

#: What a lid is larger than its base by, at the least, across the flats: paper twice, a seam tab
#: with its tape inside the lid, mats on both sides, and a little air. Common practice, no source.
_LEAST_CLEARANCE = fixed("5/64", "2")


def grows(sides: int) -> float:
    """How much larger a regular polygon gets across the flats where its sides grow by one.

    Twice its apothem: the cotangent of half the angle that a side takes up at the middle.
    """
    return 1 / math.tan(math.pi / sides)


def mitre(sides: int) -> Fraction:
    """How far each end of a floor tab draws in, in parts of its depth.

    Tabs of neighbouring walls must not meet where they lie on the floor (half the polygon's angle),
    nor may a tab reach into the floor beside it on the blank. A quarter is the next mark up.
    """
    lean = 2 * math.pi / sides
    least = max(math.tan(math.pi / sides), 1 / math.tan(lean) if lean < math.pi / 2 else 0.0)
    return Fraction(math.ceil(4 * (least + 0.1)), 4)


def _drawn_in(tab: Length, sides: int, given: Given) -> Length:
    """How far each end of a floor tab draws in: its mitre, out to the next mark."""
    return MARKS[given.system].above(tab * mitre(sides))


def prism_measures(sides: int, side_inch: str, side_mm: str, says: str) -> tuple[Measure, ...]:
    """The measures of a box of so many sides; `says` words the usual side."""

    def lid_side(measures: Measures, given: Given) -> Length:
        more = _LEAST_CLEARANCE(measures, given).float_mm / grows(sides)
        return MARKS[given.system].above(measures["side"] + irrational(more))

    def tab_most(measures: Measures, given: Given) -> Length:
        return measures["side"] * 3 / 8 / mitre(sides)

    def tab(measures: Measures, given: Given) -> Length:
        return min(
            fixed("1/2", "10")(measures, given),
            MARKS[given.system].below(tab_most(measures, given)),
        )

    return (
        Measure(
            "side",
            "how wide each wall of the base is, crease to crease",
            fixed(side_inch, side_mm),
            says,
            fixed("1", "25"),
            "1 in, 2.5 cm",
            fixed("20", "500"),
            "20 in, 50 cm",
        ),
        Measure(
            "height",
            "how tall the base stands",
            fixed("2", "50"),
            "2 in, 5 cm",
            fixed("1/2", "12"),
            "1/2 in, 1.2 cm",
            fixed("20", "500"),
            "20 in, 50 cm",
        ),
        Measure(
            "lid_side",
            "how wide each wall of the lid is, crease to crease",
            lid_side,
            "the side and what makes the lid at least 5/64 in, 2 mm larger across the flats",
            lambda m, given: m["side"],
            "the side of the base",
            lambda m, given: m["side"] + fixed("1/2", "12")(m, given),
            "the side of the base and 1/2 in, 1.2 cm",
        ),
        Measure(
            "lid_height",
            "how far the lid comes down",
            lambda m, given: min(m["height"], fixed("3/4", "20")(m, given)),
            "3/4 in, 2 cm, at most the height",
            fixed("1/2", "12"),
            "1/2 in, 1.2 cm",
            lambda m, given: m["height"],
            "the height of the base",
        ),
        Measure(
            "tab",
            "how wide the seam tab is, and how deep the tabs under floor and top are",
            tab,
            "1/2 in, 1 cm, at most what the side leaves room for",
            fixed("1/8", "4"),
            "1/8 in, 4 mm",
            tab_most,
            "what leaves a quarter of the side between its mitred ends",
        ),
        Measure(
            "sliver",
            "how much each end of the seam tab is tapered",
            fixed("1/16", "2"),
            "1/16 in, 2 mm",
            fixed("1/32", "1/2"),
            "1/32 in, 0.5 mm",
            lambda m, given: min(m["lid_height"] / 4, m["tab"] / 2),
            "a quarter of the lid's height, and half the tab",
        ),
    )


def prism(sides: int, measures: Measures, given: Given) -> Construction:
    """A base and a lid of so many sides; the lid stands on the base's rim."""
    side, height = measures["side"], measures["height"]
    lid_side, drop = measures["lid_side"], measures["lid_height"]
    tab, sliver = measures["tab"], measures["sliver"]
    base = _piece(BASE, sides, side, height, tab, sliver, given)
    lid = _piece(LID, sides, lid_side, drop, tab, sliver, given)
    front, left = _front(sides), tab + side * (_front(sides) - 1)
    lid_left = tab + lid_side * (front - 1)
    over = irrational((lid_side - side).float_mm * grows(sides) / 2)
    walls = tuple(map(_wall, range(1, sides + 1)))
    return Construction(
        pieces=(base, lid),
        stands=(
            Stand(
                BASE, _wall(front), (1, 0, 0), (0, 0, 1),
                Point(left.as_mm, (base.height - height).as_mm), (ZERO, ZERO, ZERO),
            ),
            Stand(
                LID, _wall(front), (1, 0, 0), (0, 0, 1), Point(lid_left.as_mm, ZERO.as_mm),
                ((side - lid_side) / 2, -over, height - drop),
            ),
        ),
        steps=(
            *_steps(BASE, FLOOR, sides),
            *_steps(LID, TOP, sides),
            Step(
                LID, "Set the lid on", Moment.CLOSED, Doing.SET_ON, (), (),
                tuple(panel.name for panel in lid.panels),
            ),
        ),
        layers=(*_layers(BASE, FLOOR, sides), *_layers(LID, TOP, sides)),
        meets=(*_meets(BASE, FLOOR, sides), *_meets(LID, TOP, sides)),
        cavity=Cavity(
            BASE, None, None, FLOOR, _wall(front), True,
            around=walls, measure="side", grows=grows(sides),
        ),
        slides=(
            Slide(
                LID, BASE, (), "lid_side",
                around=tuple((wall, wall) for wall in walls), grows=grows(sides),
            ),
        ),
        handle=None,
    )  # fmt: skip


def _wall(number: int) -> str:
    """The name of a wall: they are numbered from the seam tab."""
    return f"wall {number}"


def _front(sides: int) -> int:
    """The number of the wall that stands in front, on which floor and top hang."""
    return sides // 2 + 1


def _tabs(sides: int) -> tuple[tuple[str, str], ...]:
    """The walls that carry a tab, each with its tab."""
    return tuple(
        (_wall(number), f"tab {number}")
        for number in range(1, sides + 1)
        if number != _front(sides)
    )


def _polygon(sides: int, side: Length) -> list[Corner]:
    """A regular polygon below its level upper side: its corners anticlockwise.

    They start at the left end of that side, which is (0, 0), and end at its right end. Each is
    rounded once.
    """
    corners = [(ZERO, ZERO)]
    x = y = 0.0
    for number in range(1, (sides + 1) // 2):
        way = math.pi + number * 2 * math.pi / sides
        x, y = x + side.float_mm * math.cos(way), y + side.float_mm * math.sin(way)
        corners.append((irrational(x), irrational(y)))
    if sides % 2:
        corners[-1] = (side / 2, corners[-1][1])
    # The right half is the left one in a mirror, so that level sides are level to the last digit.
    right = [(side - x, y) for x, y in corners[: sides // 2]]
    return [*corners, *reversed(right)]


def _piece(
    name: str,
    sides: int,
    side: Length,
    height: Length,
    tab: Length,
    sliver: Length,
    given: Given,
) -> FlatPiece:
    """The base, its floor below the walls; or the lid, the same the other way up."""
    polygon = _polygon(sides, side)
    deep = -min(y for _, y in polygon)
    full_width = tab + side * sides
    full_height = MARKS[given.system].above(height + deep)
    fold = full_height - height
    blank = Blank(name, full_width, full_height)
    upside = name == LID
    bottom = TOP if upside else FLOOR

    def turned(corners: Sequence[Corner]) -> tuple[Corner, ...]:
        """Corners of the base, or where they lie on a lid."""
        if not upside:
            return tuple(corners)
        return tuple((x, full_height - y) for x, y in reversed(corners))

    def panel(called: str, role: Role, *corners: Corner) -> None:
        blank.panel(called, role, *turned(corners))

    def snip(called: str, *corners: Corner) -> None:
        blank.snip(called, *turned(corners))

    front = _front(sides)
    run = _drawn_in(tab, sides, given)
    low = fold - tab
    panel(
        SEAM, Role.TAB,
        (ZERO, fold + sliver), (tab, fold), (tab, full_height), (ZERO, full_height - sliver),
    )  # fmt: skip
    edges = [tab + side * number for number in range(sides + 1)]
    for number, (left, right) in enumerate(pairwise(edges), start=1):
        # The walls are named from their lower left corner on both pieces.
        y0, y1 = (ZERO, height) if upside else (fold, full_height)
        blank.panel(_wall(number), Role.WALL, (left, y0), (right, y0), (right, y1), (left, y1))
        if number != front:
            panel(
                f"tab {number}", Role.TAB,
                (left + run, low), (right - run, low), (right, fold), (left, fold),
            )  # fmt: skip
    hinge = edges[front - 1]
    floor = [(hinge + x, fold + y) for x, y in polygon]
    panel(bottom, Role.TOP if upside else Role.FLOOR, *floor)

    _waste(snip, bottom, floor, edges, run, low, fold, front)
    snip(
        f"beside the {SEAM}",
        (ZERO, low), (edges[0] + run, low), (edges[0], fold), (ZERO, fold + sliver),
    )  # fmt: skip
    snip(
        f"taper of the {SEAM}",
        (ZERO, full_height - sliver), (tab, full_height), (ZERO, full_height),
    )  # fmt: skip

    lean = 360 / sides
    for one, other in pairwise((SEAM, *map(_wall, range(1, sides + 1)))):
        blank.score(one, other, degrees=lean)
    for wall, hanging in (*_tabs(sides), (_wall(front), bottom)):
        blank.score(wall, hanging)
    _glue(blank, sides, (side, tab, sliver), given, height, upside=upside)
    return blank.build()


def _waste(
    snip: Callable[..., None],
    bottom: str,
    floor: list[Corner],
    edges: list[Length],
    run: Length,
    low: Length,
    fold: Length,
    front: int,
) -> None:
    """Snip away what is beside the floor and below it, and what is between the tabs."""
    right, below = edges[-1], min(y for _, y in floor)
    lowest = [number for number, (_, y) in enumerate(floor) if y == below]
    first, last = lowest[0], lowest[-1]
    foot = (floor[last][0], ZERO)
    # Where the floor does not reach down to the rim, the strip below it goes with the left side.
    strip = [foot, *floor[last:first:-1]] if below > ZERO else []
    snip(
        f"beside the {bottom}, on the left",
        (ZERO, ZERO), *strip, *floor[first::-1], (edges[front - 1] - run, low), (ZERO, low),
    )  # fmt: skip
    snip(
        f"beside the {bottom}, on the right",
        *([foot] if below > ZERO else []), (right, ZERO), (right, low), (edges[front] + run, low),
        *floor[: last - 1 : -1],
    )  # fmt: skip
    for number, at in enumerate(edges[1:-1], start=1):
        if front not in (number, number + 1):
            snip(
                f"between tab {number} and tab {number + 1}",
                (at - run, low), (at + run, low), (at, fold),
            )  # fmt: skip
    snip(f"beside tab {len(edges) - 1}", (right - run, low), (right, low), (right, fold))


def _glue(
    blank: Blank,
    sides: int,
    measures: tuple[Length, Length, Length],
    given: Given,
    height: Length,
    *,
    upside: bool,
) -> None:
    """Tape along the free edge of the seam tab, and of every tab under the floor."""
    side, tab, sliver = measures
    bottom = TOP if upside else FLOOR
    walls = ZERO if upside else blank.height - height
    inset = tape_inset(tab, given)
    blank.glue(
        f"{SEAM} tape", SEAM, Face.OUTSIDE,
        (inset, walls + sliver), (inset + given.tape, walls + height - sliver),
        mate=_wall(sides), mate_face=Face.INSIDE, edge="outer edge", inset=inset,
    )  # fmt: skip
    run = _drawn_in(tab, sides, given)
    free = walls + height + tab - inset - given.tape if upside else walls - tab + inset
    for wall, hanging in _tabs(sides):
        left = tab + side * (int(wall.rsplit(" ", 1)[1]) - 1)
        blank.glue(
            f"{hanging} tape", hanging, Face.OUTSIDE,
            (left + run, free), (left + side - run, free + given.tape),
            mate=bottom, mate_face=Face.INSIDE, edge="free edge", inset=inset,
        )  # fmt: skip


def _layers(piece: str, bottom: str, sides: int) -> tuple[Layer, ...]:
    return (
        Layer(piece, SEAM, _wall(sides)),
        *(Layer(piece, tab, bottom) for _, tab in _tabs(sides)),
    )


def _meets(piece: str, bottom: str, sides: int) -> tuple[Meet, ...]:
    """The seam; and every free edge of the floor with the wall that it closes against.

    The floor's corners run anticlockwise from the left end of its hinge, the top's from the right.
    """
    upside = piece == LID
    step = 1 if upside else -1
    walls = ((_front(sides) - 1 + step * (k + 1)) % sides + 1 for k in range(sides - 1))
    return (
        Meet(piece, EdgeOf(_wall(sides), 1), EdgeOf(_wall(1), 3)),
        *(
            Meet(piece, EdgeOf(bottom, k), EdgeOf(_wall(wall), 2 if upside else 0), backed=True)
            for k, wall in enumerate(walls)
        ),
    )


def _steps(piece: str, bottom: str, sides: int) -> tuple[Step, ...]:
    lean = 360 / sides
    ring = tuple(pairwise((SEAM, *map(_wall, range(1, sides + 1)))))
    front = (_wall(_front(sides)), bottom)
    tabs = _tabs(sides)
    names = tuple(tab for _, tab in tabs)
    return (
        Step(
            piece, f"Fold and burnish the {piece}", Moment.FLAT, Doing.CREASE,
            (
                *(Turn(pair, lean * 2 / 3) for pair in ring),
                *(Turn(pair, 45) for pair in (*tabs, front)),
            ),
            (), (SEAM, *(_wall(k) for k in range(1, sides + 1) if k != _front(sides)), *names, bottom),
        ),
        Step(
            piece, f"Close the seam of the {piece}", Moment.SEAM, Doing.SEAM,
            (*(Turn(pair, lean) for pair in ring), *(Turn(pair, 0) for pair in (*tabs, front))),
            (f"{SEAM} tape",), (_wall(sides),),
        ),
        Step(
            piece, f"Fold in the tabs of the {piece}", Moment.BOTTOM, Doing.TURN_IN,
            tuple(Turn(pair, 90) for pair in tabs), (), names,
        ),
        Step(
            piece, f"Press the {bottom} onto the tabs", Moment.CLOSED, Doing.PRESS,
            (Turn(front, 90),), tuple(f"{name} tape" for name in names), (bottom,),
        ),
    )  # fmt: skip
