"""The carton with an interlocking four-flap base: tucked shut on top, its bottom hooks together.

The back flap is notched, the front flap has a tongue. Folded in the order back, sides, front, each
flap lies over the one before; then the tongue goes through the notch and in behind the back flap.
So the back flap's legs lie inside the front flap, and the front flap's tongue inside the back flap:
each holds the other, and the side flaps lie between them.
"""

from __future__ import annotations

from fractions import Fraction

from ..flat import Blank, Role
from ..measure import ZERO, Length
from .carton import (
    PIECE,
    Frame,
    TuckEnd,
    carton_measures,
    first_steps,
    frame_of,
    front_stands,
    lay_walls,
    ring,
    seam_meet,
)
from .construction import Cavity, Construction, Doing, Layer, Moment, Step, Turn
from .style import MARKS, Given, Measure, Measures, Style, fixed

TOP = TuckEnd("top", "back")

_HINGES = (
    ("back", "back flap"),
    ("left side", "left flap"),
    ("right side", "right flap"),
    ("front", "front flap"),
    ("front flap", "tongue"),
)


def _front(measures: Measures, given: Given) -> Length:
    """How deep the front flap is without its tongue: half the depth, on a mark."""
    return MARKS[given.system].below(measures["depth"] / 2)


def _back(measures: Measures, given: Given) -> Length:
    """How deep the back flap is: what the front flap leaves, and its legs as long as the tongue."""
    return measures["depth"] - _front(measures, given) + measures["tongue"]


def _most_side(measures: Measures, given: Given) -> Length:
    room = (measures["width"] - measures["tongue_width"]) / 2
    return min(room, _back(measures, given))


class InterlockingBaseCarton(Style):
    """A carton from one blank whose bottom needs no glue."""

    name = "carton with an interlocking four-flap base"
    says = (
        "a closed carton; its top tucks in, and the four flaps of its bottom hook into each other"
    )
    noun = ("carton", "cartons")
    pieces = (PIECE,)
    free = "height"
    measures = (
        *carton_measures(
            ("5/2", "65", "2 1/2 in, 6.5 cm"),
            ("2", "50", "2 in, 5 cm"),
            ("3", "80", "3 in, 8 cm"),
        ),
        Measure(
            "tongue",
            "how far the tongue of the front flap reaches in behind the back flap",
            lambda m, given: max(
                fixed("1/8", "4")(m, given), MARKS[given.system].below(m["depth"] / 4)
            ),
            "a quarter of the depth",
            fixed("1/8", "4"),
            "1/8 in, 4 mm",
            lambda m, given: m["depth"] / 3,
            "a third of the depth",
        ),
        Measure(
            "tongue_width",
            "how wide the tongue is at its root",
            # What is left beside it lies on a mark.
            lambda m, given: m["width"] - MARKS[given.system].below(m["width"] / 3) * 2,
            "about a third of the width",
            lambda m, given: m["width"] / 4,
            "a quarter of the width",
            lambda m, given: m["width"] / 2,
            "half the width",
        ),
        Measure(
            "side_flap",
            "how far the side flaps reach in",
            lambda m, given: max(
                _most_side(m, given) / 2, MARKS[given.system].below(_most_side(m, given))
            ),
            "what the tongue leaves them, at most as deep as the back flap",
            lambda m, given: _most_side(m, given) / 2,
            "half of that",
            _most_side,
            "what the tongue leaves them on each side, and the depth of the back flap",
        ),
    )

    def build(self, measures: Measures, given: Given) -> Construction:
        """One blank: the tuck above, four flaps below."""
        frame = frame_of(measures, _back(measures, given), measures["depth"] + measures["tuck"])
        blank = Blank(PIECE, frame.blank_width, frame.blank_height)
        lay_walls(blank, frame, given)
        _lay_base(blank, frame, measures, given)
        TOP.lay(blank, frame, measures, given)
        return Construction(
            pieces=(blank.build(),),
            stands=(front_stands(frame),),
            steps=(*first_steps((*_HINGES, *TOP.hinges)), *_base_steps(), *TOP.steps(Moment.CLOSED)),
            layers=(Layer(PIECE, "tab", "right side"), *_base_layers(), *TOP.layers()),
            meets=(seam_meet(), *TOP.meets()),
            cavity=Cavity(
                PIECE, ("left side", "right side"), ("front", "back"), "front flap", "top", True
            ),
            slides=(),
            handle=None,
        )  # fmt: skip


def _lay_base(blank: Blank, frame: Frame, measures: Measures, given: Given) -> None:
    """The four flaps and the tongue below the walls, and what is snipped between them."""
    low, sliver = frame.low, measures["sliver"]
    (x0, x1), (_, x2), (_, x3), (_, x4), (_, x5) = frame.columns.values()
    half, half_tongue = Fraction(1, 2), measures["tongue_width"] / 2
    # The root of the tongue and the bottom of the notch come to lie on one line.
    root = low - _front(measures, given)
    notch = low - (measures["depth"] - _front(measures, given))
    reach = low - measures["side_flap"]

    notch_left, notch_right = (
        (x1 + x2) * half - half_tongue - sliver,
        (x1 + x2) * half + half_tongue + sliver,
    )
    blank.panel(
        "back flap", Role.FLAP,
        (x1 + sliver, ZERO), (notch_left, ZERO), (notch_left, notch), (notch_right, notch),
        (notch_right, ZERO), (x2 - sliver, ZERO), (x2, low), (x1, low),
    )  # fmt: skip
    for name, left, right in (("left flap", x2, x3), ("right flap", x4, x5)):
        blank.panel(
            name, Role.FLAP,
            (left + sliver, reach), (right - sliver, reach), (right, low), (left, low),
        )  # fmt: skip
    blank.panel("front flap", Role.FLAP, (x3, root), (x4, root), (x4, low), (x3, low))
    root_left, root_right = (x3 + x4) * half - half_tongue, (x3 + x4) * half + half_tongue
    tip_left, tip_right = root_left + sliver, root_right - sliver
    blank.panel(
        "tongue", Role.FLAP,
        (tip_left, ZERO), (tip_right, ZERO), (root_right, root), (root_left, root),
    )  # fmt: skip
    for one, other in _HINGES:
        # The tongue bends on its way in, and lies flat again where it holds.
        blank.score(one, other, degrees=0 if other == "tongue" else 90)

    blank.snip(
        "corner below the tab",
        (x0, ZERO), (x1 + sliver, ZERO), (x1, low), (x0, low + frame.mitre),
    )  # fmt: skip
    blank.snip(
        "notch in the back flap",
        (notch_left, ZERO), (notch_right, ZERO), (notch_right, notch), (notch_left, notch),
    )  # fmt: skip
    blank.snip(
        "wedge, back flap by left flap",
        *ring((x2 - sliver, ZERO), (x2 + sliver, ZERO), (x2 + sliver, reach), (x2, low)),
    )
    blank.snip(
        "corner, left flap by tongue",
        *ring(
            (x3 - sliver, ZERO), (tip_left, ZERO), (root_left, root), (x3, root), (x3, low),
            (x3 - sliver, reach),
        ),
    )  # fmt: skip
    blank.snip(
        "corner, right flap by tongue",
        *ring(
            (tip_right, ZERO), (x4 + sliver, ZERO), (x4 + sliver, reach), (x4, low), (x4, root),
            (root_right, root),
        ),
    )  # fmt: skip
    blank.snip(
        "wedge, right flap by the rim",
        *ring((x5 - sliver, ZERO), (x5, ZERO), (x5, low), (x5 - sliver, reach)),
    )
    if reach > ZERO:
        for name, left, right in (("left flap", x2, x3), ("right flap", x4, x5)):
            blank.snip(
                f"end of the {name}",
                (left + sliver, ZERO), (right - sliver, ZERO), (right - sliver, reach),
                (left + sliver, reach),
            )  # fmt: skip


def _base_layers() -> tuple[Layer, ...]:
    """From the inside out: tongue, back flap, side flaps, front flap."""
    return (
        Layer(PIECE, "tongue", "back flap", slid=True),
        Layer(PIECE, "back flap", "left flap"),
        Layer(PIECE, "back flap", "right flap"),
        Layer(PIECE, "back flap", "front flap"),
        Layer(PIECE, "left flap", "front flap"),
        Layer(PIECE, "right flap", "front flap"),
    )


def _base_steps() -> tuple[Step, ...]:
    back, left, right, front, tongue = _HINGES
    return (
        Step(
            PIECE, "Turn in the back flap", Moment.BOTTOM, Doing.TURN_IN,
            (Turn(back, 90),), (), ("back flap",),
        ),
        Step(
            PIECE, "Turn in the side flaps", Moment.BOTTOM, Doing.TURN_IN,
            (Turn(left, 90), Turn(right, 90)), (), ("left flap", "right flap"),
        ),
        Step(
            PIECE, "Hook the front flap in", Moment.BOTTOM, Doing.TUCK,
            (Turn(front, 90), Turn(tongue, 0)), (), ("tongue", "front flap"),
        ),
    )  # fmt: skip
