"""The wrap bag: one strip wrapped round into four walls, four flaps folded under, open on top."""

from __future__ import annotations

from itertools import pairwise

from ..flat import Blank, Corner, Face, Point, Role
from ..measure import ZERO, Length
from .construction import (
    Cavity,
    Construction,
    Doing,
    EdgeOf,
    HandlePlace,
    Layer,
    Meet,
    Moment,
    Stand,
    Step,
    Turn,
)
from .style import Given, Measure, Measures, Style, fixed, tape_inset

PIECE = "bag"

_SLIVER = "sliver"


class WrapBag(Style):
    """A bag from one strip: tab, side, front, side, back, with four bottom flaps."""

    name = "wrap bag"
    says = "one strip wrapped into four walls, flaps folded under, open on top, with a strap"
    pieces = (PIECE,)
    free = "height"
    measures = (
        Measure(
            "width",
            "how wide the front is, crease to crease",
            fixed("15/4", "95"),
            "3 3/4 in, 9.5 cm",
            fixed("1", "25"),
            "1 in, 2.5 cm",
            fixed("40", "1000"),
            "40 in, 100 cm",
        ),
        Measure(
            "depth",
            "how deep the bag is from front to back, crease to crease",
            fixed("3/2", "40"),
            "1 1/2 in, 4 cm",
            fixed("1/2", "12"),
            "1/2 in, 1.2 cm",
            fixed("20", "500"),
            "20 in, 50 cm",
        ),
        Measure(
            "height",
            "how tall the bag stands, from the bottom score to the rim",
            fixed("19/4", "120"),
            "4 3/4 in, 12 cm",
            fixed("3/4", "20"),
            "3/4 in, 2 cm",
            fixed("40", "1000"),
            "40 in, 100 cm",
        ),
        Measure(
            "tab",
            "how wide the seam tab is",
            fixed("1/2", "12"),
            "1/2 in, 1.2 cm",
            fixed("1/8", "4"),
            "1/8 in, 4 mm",
            lambda m, given: m["width"],
            "the width",
        ),
        Measure(
            "flap",
            "how deep the bottom flaps are",
            lambda m, given: min(m["depth"], m["width"]),
            "the depth of the bag, at most its width",
            fixed("1/4", "6"),
            "1/4 in, 6 mm",
            lambda m, given: m["width"] * 2,
            "twice the width",
        ),
        Measure(
            _SLIVER,
            "how much is snipped off each edge of a flap that is tucked first, and off the tab's corners",
            fixed("1/16", "2"),
            "1/16 in, 2 mm",
            fixed("1/32", "1/2"),
            "1/32 in, 0.5 mm",
            lambda m, given: m["depth"] / 6,
            "a sixth of the depth",
        ),
    )

    def build(self, measures: Measures, given: Given) -> Construction:
        """One blank, and its walls wrapped round a tab that goes inside the back."""
        width, depth, height = measures["width"], measures["depth"], measures["height"]
        tab, flap, sliver = measures["tab"], measures["flap"], measures[_SLIVER]
        # Columns from the tab end: tab | left side | front | right side | back.
        x0, x1 = ZERO, tab
        x2, x3 = x1 + depth, x1 + depth + width
        x4, x5 = x3 + depth, x3 + depth + width
        low, high = flap, flap + height
        mitre = min(sliver * 2, height / 4)
        blank = Blank(PIECE, x5, high)

        blank.panel("tab", Role.TAB, (x0, low + mitre), (x1, low), (x1, high), (x0, high - mitre))
        blank.panel("left side", Role.WALL, *_box(x1, x2, low, high))
        blank.panel("front", Role.WALL, *_box(x2, x3, low, high))
        blank.panel("right side", Role.WALL, *_box(x3, x4, low, high))
        blank.panel("back", Role.WALL, *_box(x4, x5, low, high))
        # The side flaps are tucked first, so they lose a sliver at each edge; the back and the
        # front flap close over them and keep their full width.
        blank.panel("left flap", Role.FLAP, *_tucked(x1, x2, low, sliver))
        blank.panel("front flap", Role.FLAP, *_box(x2, x3, ZERO, low))
        blank.panel("right flap", Role.FLAP, *_tucked(x3, x4, low, sliver))
        blank.panel("back flap", Role.FLAP, *_box(x4, x5, ZERO, low))

        # The corner below the tab goes with the sliver of the flap beside it: one snip.
        blank.snip(
            "corner below the tab",
            (x0, ZERO), (x1 + sliver, ZERO), (x1, low), (x0, low + mitre),
        )  # fmt: skip
        blank.snip("corner above the tab", (x0, high - mitre), (x1, high), (x0, high))
        blank.snip("sliver, left flap by front", (x2 - sliver, ZERO), (x2, ZERO), (x2, low))
        blank.snip("sliver, right flap by front", (x3, ZERO), (x3 + sliver, ZERO), (x3, low))
        blank.snip("sliver, right flap by back", (x4 - sliver, ZERO), (x4, ZERO), (x4, low))

        walls = ("tab", "left side", "front", "right side", "back")
        for one, other in pairwise(walls):
            blank.score(one, other)
        flaps = (
            ("left side", "left flap"),
            ("front", "front flap"),
            ("right side", "right flap"),
            ("back", "back flap"),
        )
        for wall, name in flaps:
            blank.score(wall, name)

        tape = given.tape
        inset = tape_inset(tab, given)
        blank.glue(
            "tab tape", "tab", Face.OUTSIDE,
            (inset, low + mitre), (inset + tape, high - mitre),
            mate="back", mate_face=Face.INSIDE, edge="outer edge", inset=inset,
        )  # fmt: skip
        edge = tape_inset(flap, given)
        side_run = min(flap, depth - sliver)
        blank.glue(
            "left flap tape", "left flap", Face.OUTSIDE,
            (x1 + sliver, edge), (x1 + side_run, edge + tape),
            mate="back flap", mate_face=Face.INSIDE, edge="free edge", inset=edge,
        )  # fmt: skip
        blank.glue(
            "right flap tape", "right flap", Face.OUTSIDE,
            (x4 - side_run, edge), (x4 - sliver, edge + tape),
            mate="back flap", mate_face=Face.INSIDE, edge="free edge", inset=edge,
        )  # fmt: skip
        blank.glue(
            "back flap tape", "back flap", Face.OUTSIDE,
            (x4 + sliver, edge), (x5 - sliver, edge + tape),
            mate="front flap", mate_face=Face.INSIDE, edge="free edge", inset=edge,
        )  # fmt: skip
        return Construction(
            pieces=(blank.build(),),
            stands=(
                Stand(
                    PIECE, "front", (1, 0, 0), (0, 0, 1),
                    Point(x2.as_mm, low.as_mm), (ZERO, ZERO, ZERO),
                ),
            ),
            steps=_steps(),
            layers=(
                Layer(PIECE, "tab", "back"),
                Layer(PIECE, "left flap", "right flap"),
                Layer(PIECE, "left flap", "back flap"),
                Layer(PIECE, "right flap", "back flap"),
                Layer(PIECE, "left flap", "front flap"),
                Layer(PIECE, "right flap", "front flap"),
                Layer(PIECE, "back flap", "front flap"),
            ),
            meets=(Meet(PIECE, EdgeOf("back", 1), EdgeOf("left side", 3)),),
            cavity=Cavity(
                PIECE, ("left side", "right side"), ("front", "back"), "front flap", "front", False
            ),
            slides=(),
            handle=HandlePlace(
                PIECE,
                ("left side", "right side"),
                Face.OUTSIDE,
                (EdgeOf("left side", 2), EdgeOf("right side", 2)),
            ),
        )  # fmt: skip


def _box(left: Length, right: Length, low: Length, high: Length) -> tuple[Corner, ...]:
    return (left, low), (right, low), (right, high), (left, high)


def _tucked(left: Length, right: Length, low: Length, sliver: Length) -> tuple[Corner, ...]:
    """A flap below the line `low`, narrowed by the sliver towards its free edge."""
    return (left + sliver, ZERO), (right - sliver, ZERO), (right, low), (left, low)


def _steps() -> tuple[Step, ...]:
    walls = ("left side", "front"), ("front", "right side"), ("right side", "back")
    tab = ("tab", "left side")
    flaps = (
        ("left side", "left flap"),
        ("right side", "right flap"),
        ("back", "back flap"),
        ("front", "front flap"),
    )
    side_flaps = tuple(Turn(pair, 90) for pair in flaps[:2])
    return (
        Step(
            PIECE, "Fold and burnish", Moment.FLAT, Doing.CREASE,
            tuple(Turn(pair, 60) for pair in (tab, *walls, *flaps)), (),
            ("tab", "left side", "right side", "back", "left flap", "front flap", "right flap",
             "back flap"),
        ),
        Step(
            PIECE, "Close the seam", Moment.SEAM, Doing.SEAM,
            (*(Turn(pair, 90) for pair in (tab, *walls)), *(Turn(pair, 0) for pair in flaps)),
            ("tab tape",), ("back",),
        ),
        Step(
            PIECE, "Fold the side flaps under", Moment.BOTTOM, Doing.TURN_IN,
            side_flaps, (), ("left flap", "right flap"),
        ),
        Step(
            PIECE, "Press the back flap down", Moment.BOTTOM, Doing.PRESS,
            (Turn(flaps[2], 90),), ("left flap tape", "right flap tape"), ("back flap",),
        ),
        Step(
            PIECE, "Press the front flap down", Moment.CLOSED, Doing.PRESS,
            (Turn(flaps[3], 90),), ("back flap tape",), ("front flap",),
        ),
    )  # fmt: skip
