"""The tray with lift-off lid: two shallow trays, the lid a little larger, corner tabs inside."""

from __future__ import annotations

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
from .style import MARKS, Given, Measure, Measures, Style, Worked, fixed, tape_inset

BASE = "base"
LID = "lid"


def _tab_for(height: str) -> Worked:
    """A tab as long as the corner square, but no longer than half the depth allows."""

    def worked(measures: Measures, given: Given) -> Length:
        room = measures["depth"] / 2 - measures["sliver"]
        return min(measures[height], MARKS[given.system].below(room))

    return worked


class TrayWithLid(Style):
    """A tray, and a lid that lifts off; each from one sheet, folded at four lines."""

    name = "tray with lift-off lid"
    says = "a tray and a lid a little larger, each folded up on four sides, tabs glued inside"
    pieces = (BASE, LID)
    free = "height"
    measures = (
        Measure(
            "width",
            "how wide the tray is, crease to crease",
            fixed("9/2", "115"),
            "4 1/2 in, 11.5 cm",
            fixed("3/4", "20"),
            "3/4 in, 2 cm",
            fixed("40", "1000"),
            "40 in, 100 cm",
        ),
        Measure(
            "depth",
            "how deep the tray is from front to back, crease to crease",
            fixed("3", "75"),
            "3 in, 7.5 cm",
            fixed("3/4", "20"),
            "3/4 in, 2 cm",
            fixed("40", "1000"),
            "40 in, 100 cm",
        ),
        Measure(
            "height",
            "how tall the tray stands",
            fixed("5/4", "30"),
            "1 1/4 in, 3 cm",
            fixed("1/4", "6"),
            "1/4 in, 6 mm",
            fixed("20", "500"),
            "20 in, 50 cm",
        ),
        Measure(
            "lid_height",
            "how far the lid comes down",
            lambda m, given: min(m["height"], fixed("3/4", "20")(m, given)),
            "3/4 in, 2 cm, at most the height",
            fixed("1/4", "6"),
            "1/4 in, 6 mm",
            lambda m, given: m["height"],
            "the height of the tray",
        ),
        Measure(
            "clearance",
            "lid size less tray size, crease to crease, in total across",
            fixed("1/8", "3"),
            "1/8 in, 3 mm",
            fixed("0", "0"),
            "nothing",
            fixed("1", "25"),
            "1 in, 2.5 cm",
        ),
        Measure(
            "sliver",
            "how much each edge of a corner tab is tapered towards its end",
            fixed("1/16", "2"),
            "1/16 in, 2 mm",
            fixed("1/32", "1/2"),
            "1/32 in, 0.5 mm",
            lambda m, given: min(m["lid_height"] / 3, m["depth"] / 8),
            "a third of the lid's height, and an eighth of the depth",
        ),
        Measure(
            "tab",
            "how long the tray's corner tabs are",
            _tab_for("height"),
            "the height, at most what half the depth leaves room for",
            fixed("1/8", "4"),
            "1/8 in, 4 mm",
            lambda m, given: m["height"],
            "the height of the tray",
        ),
        Measure(
            "lid_tab",
            "how long the lid's corner tabs are",
            _tab_for("lid_height"),
            "the lid's height, at most what half the depth leaves room for",
            fixed("1/8", "4"),
            "1/8 in, 4 mm",
            lambda m, given: m["lid_height"],
            "the lid's height",
        ),
    )

    def build(self, measures: Measures, given: Given) -> Construction:
        """A base and a lid; the lid larger by the clearance, standing on the base's rim."""
        width, depth, height = measures["width"], measures["depth"], measures["height"]
        clearance, drop = measures["clearance"], measures["lid_height"]
        sliver = measures["sliver"]
        # The base is drawn from below, so its far wall on the blank stands in front; the lid is
        # drawn from above.
        base = _tray(
            BASE, "floor", Role.FLOOR, width, depth, height, measures["tab"], sliver, given,
            near="back", far="front",
        )  # fmt: skip
        lid = _tray(
            LID, "top", Role.TOP, width + clearance, depth + clearance, drop,
            measures["lid_tab"], sliver, given, near="front", far="back",
        )  # fmt: skip
        over = clearance / 2
        return Construction(
            pieces=(base, lid),
            stands=(
                Stand(
                    BASE, "floor", (1, 0, 0), (0, -1, 0),
                    Point(height.as_mm, height.as_mm), (ZERO, depth, ZERO),
                ),
                Stand(
                    LID, "top", (1, 0, 0), (0, 1, 0),
                    Point(drop.as_mm, drop.as_mm), (-over, -over, height),
                ),
            ),
            steps=(
                *_steps(BASE, "floor"),
                *_steps(LID, "top"),
                Step(
                    LID, "Set the lid on", Moment.CLOSED, Doing.SET_ON, (), (),
                    tuple(panel.name for panel in lid.panels),
                ),
            ),
            layers=tuple(
                Layer(piece, f"{end} {side} tab", f"{side} wall")
                for piece in (BASE, LID)
                for end in ("front", "back")
                for side in ("left", "right")
            ),
            meets=(*_meets(BASE, near="back", far="front"), *_meets(LID, near="front", far="back")),
            cavity=Cavity(
                BASE, ("left wall", "right wall"), ("front wall", "back wall"),
                "floor", "front wall", True,
            ),
            slides=(
                Slide(
                    LID,
                    BASE,
                    (
                        ("width", ("left wall", "left wall", "right wall", "right wall")),
                        ("depth", ("front wall", "front wall", "back wall", "back wall")),
                    ),
                    "clearance",
                ),
            ),
            handle=None,
        )  # fmt: skip


def _tray(
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
    """One tray. `near` names the wall at the blank's lower edge, `far` the one at its upper."""
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


def _meets(piece: str, *, near: str, far: str) -> tuple[Meet, ...]:
    """The four upright corners: an end of each side wall against the end of the next wall."""
    return (
        Meet(piece, EdgeOf("left wall", 0), EdgeOf(f"{near} wall", 3)),
        Meet(piece, EdgeOf("left wall", 2), EdgeOf(f"{far} wall", 3)),
        Meet(piece, EdgeOf("right wall", 0), EdgeOf(f"{near} wall", 1)),
        Meet(piece, EdgeOf("right wall", 2), EdgeOf(f"{far} wall", 1)),
    )


def _steps(piece: str, middle: str) -> tuple[Step, ...]:
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
