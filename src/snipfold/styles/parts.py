"""Parts that several styles share. No style itself."""

from __future__ import annotations

from ..flat import Blank, Corner, Face, FlatPiece, Role
from ..measure import ZERO, Length
from .construction import Doing, EdgeOf, Layer, Meet, Moment, Step, Turn
from .style import MARKS, Given, Measures, Worked, tape_inset


def tray_tab(height: str) -> Worked:
    """A tab as long as the corner square, but no longer than half the depth allows.

    `height` names the measure that is the tray's height.
    """

    def worked(measures: Measures, given: Given) -> Length:
        room = measures["depth"] / 2 - measures["sliver"]
        return min(measures[height], MARKS[given.system].below(room))

    return worked


def tray(
    name: str,
    middle: str,
    role: Role,
    width: Length,
    depth: Length,
    height: Length,
    tab: Length,
    sliver: Length,
    given: Given,
    *,
    near: str,
    far: str,
) -> FlatPiece:
    """One tray: a middle panel of `width` x `depth`, four walls, and two tabs on each end wall.

    `role` is what the middle does; `near` names the wall at the blank's lower edge, `far` the one
    at its upper. The tabs are taped inside the side walls.
    """
    full_width, full_depth = width + height * 2, depth + height * 2
    blank = Blank(name, full_width, full_depth)
    left, right = height, height + width
    low, high = height, height + depth

    def box(x0: Length, x1: Length, y0: Length, y1: Length) -> tuple[Corner, ...]:
        return (x0, y0), (x1, y0), (x1, y1), (x0, y1)

    blank.panel(middle, role, *box(left, right, low, high))
    blank.panel("left wall", Role.WALL, *box(ZERO, left, low, high))
    blank.panel("right wall", Role.WALL, *box(right, full_width, low, high))
    blank.panel(f"{near} wall", Role.WALL, *box(left, right, ZERO, low))
    blank.panel(f"{far} wall", Role.WALL, *box(left, right, high, full_depth))
    for wall in ("left wall", "right wall", f"{near} wall", f"{far} wall"):
        blank.score(middle, wall)

    inset = tape_inset(tab, given)
    for end, across in ((near, False), (far, True)):
        for side, along in (("left", False), ("right", True)):

            def at(x: Length, y: Length, along: bool = along, across: bool = across) -> Corner:
                """A point of the lower left corner square, carried to this corner."""
                return (full_width - x if along else x, full_depth - y if across else y)

            def turned(*corners: Corner, mirrored: bool = along != across) -> tuple[Corner, ...]:
                return corners[::-1] if mirrored else corners

            tab_name = f"{end} {side} tab"
            end_x = height - tab
            blank.panel(
                tab_name, Role.TAB,
                *turned(
                    at(end_x, sliver), at(height, ZERO), at(height, height),
                    at(end_x, height - sliver),
                ),
            )  # fmt: skip
            if tab == height:
                blank.snip(
                    f"taper, {tab_name} by the rim",
                    *turned(at(ZERO, ZERO), at(height, ZERO), at(ZERO, sliver)),
                )
                blank.snip(
                    f"sliver, {tab_name} by {side} wall",
                    *turned(at(ZERO, height - sliver), at(height, height), at(ZERO, height)),
                )
            else:
                blank.snip(
                    f"corner by the {tab_name}",
                    *turned(
                        at(ZERO, ZERO), at(height, ZERO), at(end_x, sliver),
                        at(end_x, height - sliver), at(height, height), at(ZERO, height),
                    ),
                )  # fmt: skip
            blank.score(f"{end} wall", tab_name)
            one = at(end_x + inset, sliver)
            other = at(end_x + inset + given.tape, height - sliver)
            blank.glue(
                f"{tab_name} tape", tab_name, Face.OUTSIDE,
                (min(one[0], other[0]), min(one[1], other[1])),
                (max(one[0], other[0]), max(one[1], other[1])),
                mate=f"{side} wall", mate_face=Face.INSIDE, edge="outer edge", inset=inset,
            )  # fmt: skip
    return blank.build()


def tray_layers(piece: str) -> tuple[Layer, ...]:
    """The tabs lie inside the side walls."""
    return tuple(
        Layer(piece, f"{end} {side} tab", f"{side} wall")
        for end in ("front", "back")
        for side in ("left", "right")
    )


def tray_meets(piece: str, *, near: str, far: str) -> tuple[Meet, ...]:
    """The four upright corners: an end of each side wall against the end of the next wall."""
    return (
        Meet(piece, EdgeOf("left wall", 0), EdgeOf(f"{near} wall", 3)),
        Meet(piece, EdgeOf("left wall", 2), EdgeOf(f"{far} wall", 3)),
        Meet(piece, EdgeOf("right wall", 0), EdgeOf(f"{near} wall", 1)),
        Meet(piece, EdgeOf("right wall", 2), EdgeOf(f"{far} wall", 1)),
    )


def tray_steps(piece: str, middle: str) -> tuple[Step, ...]:
    """Crease, raise the ends with their tabs, press the sides onto them."""
    ends, sides = ("front", "back"), ("left", "right")
    walls = tuple((middle, f"{wall} wall") for wall in (*ends, *sides))
    tabs = tuple((f"{end} wall", f"{end} {side} tab") for end in ends for side in sides)
    return (
        Step(
            piece, f"Fold and burnish the {piece}", Moment.FLAT, Doing.CREASE,
            tuple(Turn(pair, 45) for pair in (*walls, *tabs)), (),
            tuple(name for _, name in (*walls, *tabs)),
        ),
        Step(
            piece, f"Raise the front and back of the {piece}", Moment.SEAM, Doing.RAISE,
            (
                *(Turn(pair, 90) for pair in (*walls[:2], *tabs)),
                *(Turn(pair, 0) for pair in walls[2:]),
            ),
            (), ("front wall", "back wall"),
        ),
        Step(
            piece, f"Press the sides of the {piece} onto the tabs", Moment.CLOSED, Doing.PRESS,
            tuple(Turn(pair, 90) for pair in walls[2:]),
            tuple(f"{name} tape" for _, name in tabs), ("left wall", "right wall"),
        ),
    )  # fmt: skip
