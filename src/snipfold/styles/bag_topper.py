"""The bag topper: a card folded over the rim of a bag, with a ridge as deep as the rim is thick."""

from __future__ import annotations

from ..flat import Blank, Corner, Point, Role
from ..measure import ZERO, Length
from .construction import Cavity, Construction, Doing, EdgeOf, Meet, Moment, Stand, Step, Turn
from .style import Given, Measure, Measures, Style, fixed

PIECE = "topper"


class BagTopper(Style):
    """A card of three panels: front, ridge, back; open below and at both ends."""

    name = "bag topper"
    says = "a card folded over the rim of a bag, then stapled through or taped"
    pieces = (PIECE,)
    free = "height"
    noun = ("topper", "toppers")
    measures = (
        Measure(
            "width",
            "how wide the topper is: the rim of the bag, and a little on each side",
            fixed("4", "100"),
            "4 in, 10 cm",
            fixed("3/4", "20"),
            "3/4 in, 2 cm",
            fixed("40", "1000"),
            "40 in, 100 cm",
        ),
        Measure(
            "depth",
            "how deep the ridge is from front to back, crease to crease: the rim of the bag, closed",
            fixed("1/4", "5"),
            "1/4 in, 5 mm",
            fixed("1/16", "2"),
            "1/16 in, 2 mm",
            fixed("4", "100"),
            "4 in, 10 cm",
        ),
        Measure(
            "height",
            "how far the topper comes down, from the ridge to its lower edge",
            fixed("2", "50"),
            "2 in, 5 cm",
            fixed("1/2", "12"),
            "1/2 in, 1.2 cm",
            fixed("20", "500"),
            "20 in, 50 cm",
        ),
    )

    def build(self, measures: Measures, given: Given) -> Construction:
        """One blank: the front stands upright on it, the ridge above, the back upside down."""
        width, depth, height = measures["width"], measures["depth"], measures["height"]
        blank = Blank(PIECE, width, height * 2 + depth)

        def box(low: Length, high: Length) -> tuple[Corner, ...]:
            return (ZERO, low), (width, low), (width, high), (ZERO, high)

        blank.panel("front", Role.WALL, *box(ZERO, height))
        blank.panel("ridge", Role.TOP, *box(height, height + depth))
        blank.panel("back", Role.WALL, *box(height + depth, height * 2 + depth))
        folds = ("front", "ridge"), ("ridge", "back")
        for pair in folds:
            blank.score(*pair)
        return Construction(
            pieces=(blank.build(),),
            stands=(
                Stand(
                    PIECE, "front", (1, 0, 0), (0, 0, 1),
                    Point(ZERO.as_mm, ZERO.as_mm), (ZERO, ZERO, ZERO),
                ),
            ),
            steps=(
                Step(
                    PIECE, "Fold and burnish", Moment.FLAT, Doing.CREASE,
                    tuple(Turn(pair, 45) for pair in folds), (), ("ridge", "back"),
                ),
                Step(
                    PIECE, "Fix it over the bag", Moment.CLOSED, Doing.HANG,
                    tuple(Turn(pair, 90) for pair in folds), (), ("back",),
                ),
            ),
            layers=(),
            # Front and back come down equally far, as far apart as the ridge is deep.
            meets=(Meet(PIECE, EdgeOf("front", 0), EdgeOf("back", 2), (ZERO, depth, ZERO)),),
            cavity=Cavity(PIECE, ("front", "front"), ("front", "back"), "", "ridge", False),
            slides=(),
            handle=None,
        )  # fmt: skip
