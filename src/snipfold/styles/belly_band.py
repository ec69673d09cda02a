"""The belly band: a strip that goes round a box or a stack of treats, its ends overlapping below."""

from __future__ import annotations

from itertools import pairwise

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
from .style import Given, Measure, Measures, Style, fixed, tape_inset

PIECE = "band"


class BellyBand(Style):
    """A band from one strip: overlap, side, top, side, bottom; open in front and behind."""

    name = "belly band"
    says = "a strip round a box or a stack of treats, its ends stuck over each other underneath"
    pieces = (PIECE,)
    free = "depth"
    noun = ("band", "bands")
    measures = (
        Measure(
            "width",
            "how wide the band is across the top, crease to crease: what it goes round, and air",
            fixed("4", "100"),
            "4 in, 10 cm",
            fixed("1/2", "12"),
            "1/2 in, 1.2 cm",
            fixed("40", "1000"),
            "40 in, 100 cm",
        ),
        Measure(
            "depth",
            "how broad the band is, from its front edge to its back edge",
            fixed("3/2", "38"),
            "1 1/2 in, 3.8 cm",
            fixed("3/8", "10"),
            "3/8 in, 1 cm",
            fixed("40", "1000"),
            "40 in, 100 cm",
        ),
        Measure(
            "height",
            "how tall the band stands, crease to crease: what it goes round, and air",
            fixed("1", "25"),
            "1 in, 2.5 cm",
            fixed("1/8", "3"),
            "1/8 in, 3 mm",
            fixed("40", "1000"),
            "40 in, 100 cm",
        ),
        Measure(
            "tab",
            "how far the ends of the band overlap underneath",
            lambda m, given: min(m["width"], fixed("3/4", "20")(m, given)),
            "3/4 in, 2 cm, at most the width",
            fixed("1/8", "4"),
            "1/8 in, 4 mm",
            lambda m, given: m["width"],
            "the width",
        ),
        Measure(
            "sliver",
            "how much is snipped off each corner of the end that goes inside",
            fixed("1/16", "2"),
            "1/16 in, 2 mm",
            fixed("1/32", "1/2"),
            "1/32 in, 0.5 mm",
            lambda m, given: m["depth"] / 4,
            "a quarter of the depth",
        ),
    )

    def build(self, measures: Measures, given: Given) -> Construction:
        """One strip, its walls wrapped round a tab that goes inside the bottom."""
        width, depth, height = measures["width"], measures["depth"], measures["height"]
        tab, sliver = measures["tab"], measures["sliver"]
        # Columns from the tab end: tab | left side | top | right side | bottom.
        x1 = tab
        x2, x3 = x1 + height, x1 + height + width
        x4, x5 = x3 + height, x3 + height + width
        blank = Blank(PIECE, x5, depth)

        def box(left: Length, right: Length) -> tuple[Corner, ...]:
            return (left, ZERO), (right, ZERO), (right, depth), (left, depth)

        blank.panel(
            "tab", Role.TAB, (ZERO, sliver), (x1, ZERO), (x1, depth), (ZERO, depth - sliver)
        )
        blank.panel("left side", Role.WALL, *box(x1, x2))
        blank.panel("top", Role.TOP, *box(x2, x3))
        blank.panel("right side", Role.WALL, *box(x3, x4))
        blank.panel("bottom", Role.FLOOR, *box(x4, x5))
        blank.snip("taper below the tab", (ZERO, ZERO), (x1, ZERO), (ZERO, sliver))
        blank.snip("taper above the tab", (ZERO, depth - sliver), (x1, depth), (ZERO, depth))
        folds = tuple(pairwise(("tab", "left side", "top", "right side", "bottom")))
        for one, other in folds:
            blank.score(one, other)
        inset = tape_inset(tab, given)
        blank.glue(
            "tab tape", "tab", Face.OUTSIDE,
            (inset, sliver), (inset + given.tape, depth - sliver),
            mate="bottom", mate_face=Face.INSIDE, edge="outer edge", inset=inset,
        )  # fmt: skip
        return Construction(
            pieces=(blank.build(),),
            stands=(
                Stand(
                    PIECE, "top", (1, 0, 0), (0, 1, 0),
                    Point(x2.as_mm, ZERO.as_mm), (ZERO, ZERO, height),
                ),
            ),
            steps=(
                Step(
                    PIECE, "Fold and burnish", Moment.FLAT, Doing.CREASE,
                    tuple(Turn(pair, 60) for pair in folds), (),
                    ("tab", "left side", "right side", "bottom"),
                ),
                Step(
                    PIECE, "Close the band", Moment.CLOSED, Doing.SEAM,
                    tuple(Turn(pair, 90) for pair in folds), ("tab tape",), ("bottom",),
                ),
            ),
            layers=(Layer(PIECE, "tab", "bottom"),),
            meets=(Meet(PIECE, EdgeOf("bottom", 1), EdgeOf("left side", 3)),),
            cavity=Cavity(PIECE, ("left side", "right side"), None, "bottom", "top", True),
            slides=(),
            handle=None,
        )  # fmt: skip
