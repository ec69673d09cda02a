"""The diagonal envelope: a square whose four corners are folded in over a card."""

from __future__ import annotations

import math

from ..flat import Blank, Corner, Face, Point, Role
from ..measure import ZERO, Length
from .construction import (
    Cavity,
    Construction,
    Doing,
    EdgeOf,
    Layer,
    Meet,
    Moment,
    Stand,
    Step,
    Turn,
)
from .style import MARKS, Given, Measure, Measures, Style, fixed, irrational, tape_inset

PIECE = "envelope"
FRONT, LEFT, RIGHT = "front", "left flap", "right flap"
LOWER, UPPER = "lower flap", "upper flap"

_LEAST_OVERLAP = fixed("3/8", "9")


def _least_depth(measures: Measures, given: Given) -> Length:
    """The depth at which the lower flap still ends within the envelope."""
    return measures["width"] / 2 + _LEAST_OVERLAP(measures, given)


class DiagonalEnvelope(Style):
    """A square blank; the card lies on it turned by an eighth, and the corners are folded over."""

    name = "diagonal envelope"
    says = "a square with its corners folded in over a card, the lower flap stuck to the side flaps"
    pieces = (PIECE,)
    free = "overlap"
    noun = ("envelope", "envelopes")
    measures = (
        Measure(
            "width",
            "how wide the closed envelope is as it lies before you, its longer side",
            fixed("23/4", "162"),
            "5 3/4 in, 16.2 cm",
            fixed("2", "50"),
            "2 in, 5 cm",
            fixed("20", "500"),
            "20 in, 50 cm",
        ),
        Measure(
            "depth",
            "how deep the closed envelope is as it lies, from its lower to its upper fold",
            lambda m, given: min(
                m["width"],
                max(
                    fixed("35/8", "114")(m, given),
                    MARKS[given.system].above(_least_depth(m, given)),
                ),
            ),
            "4 3/8 in, 11.4 cm, within what the width leaves",
            _least_depth,
            "half the width and 3/8 in, 9 mm",
            lambda m, given: m["width"],
            "the width",
        ),
        Measure(
            "overlap",
            "how far neighbouring flaps lie over each other, measured across the joint",
            lambda m, given: min(
                fixed("5/8", "15")(m, given),
                MARKS[given.system].below(m["depth"] - m["width"] / 2),
            ),
            "5/8 in, 1.5 cm, at most what the depth is more than half the width",
            _LEAST_OVERLAP,
            "3/8 in, 9 mm",
            lambda m, given: m["depth"] - m["width"] / 2,
            "what the depth is more than half the width",
        ),
    )

    def build(self, measures: Measures, given: Given) -> Construction:
        """One square, cut at a mark of the trimmer; what that adds goes to the overlap.

        Folded in, the corners of a square round a rectangle W x D would just meet along their
        edges: its side is then (W + D) / sqrt 2. A square larger by the overlap carries every edge
        out by half of that, and neighbouring flaps lie over each other by all of it.
        """
        width, depth = measures["width"].float_mm, measures["depth"].float_mm
        marks = MARKS[given.system]
        # From the middle of the square to a corner of the rectangle, along its sides.
        far, near = (irrational(side / math.sqrt(8)) for side in (width + depth, width - depth))
        side = marks.above(far * 2 + measures["overlap"])
        middle = side / 2
        rim = middle - far
        # A corner of the rectangle lies so far along its side of the square; it is notched out, a
        # little wider than square to the scores, so that no flap peeps out at a fold.
        along = middle - near
        low, high = (marks.below(along - rim * 5 / 4), marks.above(along + rim * 5 / 4))
        at_left, at_bottom = (rim, along), (along, rim)
        at_top, at_right = (side - along, side - rim), (side - rim, side - along)
        up, down = side - low, side - high

        blank = Blank(PIECE, side, side)
        blank.panel(FRONT, Role.FLOOR, at_left, at_bottom, at_right, at_top)
        # Seen from the outside the lower flap lies above: the envelope is drawn from below.
        corners: dict[str, tuple[Corner, ...]] = {
            LEFT: (at_left, (ZERO, low), (ZERO, ZERO), (low, ZERO), at_bottom),
            UPPER: (at_bottom, (high, ZERO), (side, ZERO), (side, down), at_right),
            RIGHT: (at_right, (side, up), (side, side), (up, side), at_top),
            LOWER: (at_top, (down, side), (ZERO, side), (ZERO, high), at_left),
        }
        for name, outline in corners.items():
            blank.panel(name, Role.FLAP, *outline)
            blank.score(FRONT, name, degrees=180)
        blank.snip("notch on the left", (ZERO, low), at_left, (ZERO, high))
        blank.snip("notch below", (low, ZERO), (high, ZERO), at_bottom)
        blank.snip("notch on the right", (side, down), (side, up), at_right)
        blank.snip("notch above", (up, side), (down, side), at_top)

        inset = tape_inset(rim * 2, given)
        strip = inset + given.tape
        # It starts clear of the notches of both flaps, and ends at the side flap's point, or where
        # the other strip runs.
        start = marks.above(max(high, along * 2 - low))
        end = marks.below(min(side - near * 2, side - strip))
        for edge, mate, lowest, highest in (
            ("left", LEFT, (inset, start), (strip, end)),
            ("right", RIGHT, (side - end, side - strip), (side - start, side - inset)),
        ):
            blank.glue(
                f"{LOWER} tape, {edge}", LOWER, Face.INSIDE, lowest, highest,
                mate=mate, mate_face=Face.OUTSIDE, edge=f"{edge} free edge", inset=inset,
            )  # fmt: skip
        return Construction(
            pieces=(blank.build(),),
            stands=(
                Stand(
                    PIECE, FRONT, (1, 0, 0), (0, -1, 0),
                    Point(rim.as_mm, along.as_mm), (ZERO, ZERO, ZERO), turned=-45,
                ),
            ),
            steps=_steps(),
            layers=_pile(FRONT, LEFT, RIGHT, LOWER, UPPER),
            meets=_meets(irrational(rim.float_mm * math.sqrt(2))),
            cavity=Cavity(PIECE, (FRONT, FRONT), (FRONT, FRONT), FRONT, UPPER, True, flat=True),
            slides=(),
            handle=None,
        )  # fmt: skip


def _pile(*panels: str) -> tuple[Layer, ...]:
    """The order in which the closed envelope lies on the table, from the bottom up."""
    return tuple(
        Layer(PIECE, below, above)
        for number, below in enumerate(panels)
        for above in panels[number + 1 :]
    )


def _meets(over: Length) -> tuple[Meet, ...]:
    """Neighbouring flaps end side by side, each beyond the other, `over` each way.

    A flap's first free edge, anticlockwise on the blank, is its edge number 1, its second number 2.
    """
    return (
        Meet(PIECE, EdgeOf(LEFT, 1), EdgeOf(LOWER, 2), (-over, over, ZERO), True),
        Meet(PIECE, EdgeOf(RIGHT, 2), EdgeOf(LOWER, 1), (over, over, ZERO), True),
        Meet(PIECE, EdgeOf(LEFT, 2), EdgeOf(UPPER, 1), (-over, -over, ZERO), True),
        Meet(PIECE, EdgeOf(RIGHT, 1), EdgeOf(UPPER, 2), (over, -over, ZERO), True),
    )


def _steps() -> tuple[Step, ...]:
    flaps = LEFT, RIGHT, LOWER, UPPER
    return (
        Step(
            PIECE, "Fold and burnish", Moment.FLAT, Doing.CREASE,
            tuple(Turn((FRONT, flap), 60) for flap in flaps), (), flaps,
        ),
        Step(
            PIECE, "Fold the side flaps in", Moment.SEAM, Doing.TURN_IN,
            (
                *(Turn((FRONT, flap), 180) for flap in flaps[:2]),
                *(Turn((FRONT, flap), 0) for flap in flaps[2:]),
            ),
            (), flaps[:2],
        ),
        Step(
            PIECE, "Press the lower flap onto the side flaps", Moment.BOTTOM, Doing.PRESS,
            (Turn((FRONT, LOWER), 180),), (f"{LOWER} tape, left", f"{LOWER} tape, right"),
            (LOWER,),
        ),
        Step(
            PIECE, "Close the upper flap", Moment.CLOSED, Doing.CLOSE,
            (Turn((FRONT, UPPER), 180),), (), (UPPER,),
        ),
    )  # fmt: skip
