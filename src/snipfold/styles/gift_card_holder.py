"""The gift-card holder: a folded card with a pocket inside, its side flaps stuck to the back."""

from __future__ import annotations

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
from .style import MARKS, Given, Measure, Measures, Style, Worked, fixed, tape_inset

PIECE = "holder"

#: The card that the holder is made for: width, height and thickness of ISO/IEC 7810 ID-1, mm.
#: Source: https://en-academic.com/dic.nsf/enwiki/11587419.
ID_1 = (Length.mm("85.60"), Length.mm("53.98"), Length.mm("0.76"))


def _at_most(inch: str, metric_mm: str, most: Worked) -> Worked:
    """That length, or the mark below `most` where that is less."""
    usual = fixed(inch, metric_mm)
    return lambda m, given: min(usual(m, given), MARKS[given.system].below(most(m, given)))


class GiftCardHolder(Style):
    """A cover, a back and a pocket with two side flaps, folded flat onto each other."""

    name = "gift-card holder"
    says = "a folded card with a pocket inside for a card of the size of a bank card"
    pieces = (PIECE,)
    free = "depth"
    noun = ("holder", "holders")
    measures = (
        Measure(
            "width",
            "how wide the closed holder is as it lies before you",
            fixed("31/8", "98"),
            "3 7/8 in, 9.8 cm",
            fixed("1", "25"),
            "1 in, 2.5 cm",
            fixed("20", "500"),
            "20 in, 50 cm",
        ),
        Measure(
            "depth",
            "how deep the closed holder is as it lies, from fold to fold",
            fixed("5/2", "64"),
            "2 1/2 in, 6.4 cm",
            fixed("3/4", "20"),
            "3/4 in, 2 cm",
            fixed("20", "500"),
            "20 in, 50 cm",
        ),
        Measure(
            "pocket",
            "how deep the pocket is",
            lambda m, given: min(m["depth"], fixed("13/8", "42")(m, given)),
            "1 5/8 in, 4.2 cm, at most the depth",
            fixed("1/2", "12"),
            "1/2 in, 1.2 cm",
            lambda m, given: m["depth"],
            "the depth",
        ),
        Measure(
            "flap",
            "how wide the side flaps of the pocket are",
            _at_most("1/2", "12", lambda m, given: m["width"] / 4),
            "1/2 in, 1.2 cm, at most a quarter of the width",
            fixed("3/16", "5"),
            "3/16 in, 5 mm",
            lambda m, given: m["width"] / 4,
            "a quarter of the width",
        ),
        Measure(
            "ease",
            "how far the pocket keeps in from each side of the back, so that it does not peep out",
            fixed("1/16", "2"),
            "1/16 in, 2 mm",
            fixed("1/32", "1/2"),
            "1/32 in, 0.5 mm",
            lambda m, given: m["flap"] / 2,
            "half a side flap",
        ),
        Measure(
            "notch",
            "how deep the thumb notch in the pocket is; nothing leaves it out",
            _at_most("3/8", "10", lambda m, given: min(m["pocket"] / 2, m["width"] / 8)),
            "3/8 in, 1 cm, at most half the pocket and an eighth of the width",
            fixed("0", "0"),
            "nothing",
            lambda m, given: min(m["pocket"] / 2, m["width"] / 8),
            "half the pocket, and an eighth of the width",
        ),
        Measure(
            "sliver",
            "how much each end of a side flap is tapered",
            fixed("1/16", "2"),
            "1/16 in, 2 mm",
            fixed("1/32", "1/2"),
            "1/32 in, 0.5 mm",
            lambda m, given: m["pocket"] / 6,
            "a sixth of the pocket",
        ),
    )

    def build(self, measures: Measures, given: Given) -> Construction:
        """One blank, drawn from the outside: the cover below, then the back, the pocket above."""
        width, depth, pocket = measures["width"], measures["depth"], measures["pocket"]
        flap, ease, sliver = measures["flap"], measures["ease"], measures["sliver"]
        # The side flaps reach further out than the back: what is beside the back is cut away.
        back_left = flap - ease
        back_right = back_left + width
        left, right = flap, back_right - ease
        full = back_right + back_left
        fold, low, high = depth, depth * 2, depth * 2 + pocket
        blank = Blank(PIECE, full, high)

        blank.panel(
            "cover", Role.TOP,
            (back_left, ZERO), (back_right, ZERO), (back_right, fold), (back_left, fold),
        )  # fmt: skip
        blank.panel(
            "back", Role.FLOOR,
            (back_left, fold), (back_right, fold), (back_right, low), (back_left, low),
        )  # fmt: skip
        notch = _notch(measures, left, right, high)
        blank.panel(
            "pocket", Role.FLAP, (left, low), (right, low), (right, high), *notch[::-1],
            (left, high),
        )  # fmt: skip
        blank.panel(
            "left flap", Role.FLAP,
            (ZERO, low + sliver), (left, low), (left, high), (ZERO, high - sliver),
        )  # fmt: skip
        blank.panel(
            "right flap", Role.FLAP,
            (right, low), (full, low + sliver), (full, high - sliver), (right, high),
        )  # fmt: skip

        blank.snip(
            "strip beside the back, left",
            (ZERO, ZERO), (back_left, ZERO), (back_left, low), (left, low), (ZERO, low + sliver),
        )  # fmt: skip
        blank.snip(
            "strip beside the back, right",
            (back_right, ZERO), (full, ZERO), (full, low + sliver), (right, low),
            (back_right, low),
        )  # fmt: skip
        blank.snip("taper above the left flap", (ZERO, high - sliver), (left, high), (ZERO, high))
        blank.snip("taper above the right flap", (right, high), (full, high - sliver), (full, high))
        if notch:
            blank.snip("thumb notch", *notch)

        blank.score("cover", "back", degrees=180)
        blank.score("back", "pocket", degrees=180)
        blank.score("pocket", "left flap", degrees=180)
        blank.score("pocket", "right flap", degrees=180)
        inset = tape_inset(flap, given)
        run = (low + sliver, high - sliver)
        for name, near in (("left flap", inset), ("right flap", full - inset - given.tape)):
            blank.glue(
                f"{name} tape", name, Face.OUTSIDE, (near, run[0]), (near + given.tape, run[1]),
                mate="back", mate_face=Face.INSIDE, edge="outer edge", inset=inset,
            )  # fmt: skip
        return Construction(
            pieces=(blank.build(),),
            stands=(
                # It is drawn from below, so the pocket, above on the blank, lies nearest.
                Stand(
                    PIECE, "back", (1, 0, 0), (0, -1, 0),
                    Point(back_left.as_mm, low.as_mm), (ZERO, ZERO, ZERO),
                ),
            ),
            steps=_steps(),
            layers=_pile("back", ("left flap", "right flap"), "pocket", "cover"),
            meets=_meets(ease, notched=bool(notch)),
            cavity=Cavity(
                PIECE, ("pocket", "pocket"), ("back", "back"), "back", "cover", True, flat=True
            ),
            slides=(),
            handle=None,
        )  # fmt: skip


def _notch(measures: Measures, left: Length, right: Length, high: Length) -> tuple[Corner, ...]:
    """The corners of the thumb notch, anticlockwise: twice as wide at the rim as at its bottom."""
    deep = measures["notch"]
    if deep == ZERO:
        return ()
    middle = (left + right) / 2
    return (
        (middle - deep * 2, high), (middle - deep, high - deep),
        (middle + deep, high - deep), (middle + deep * 2, high),
    )  # fmt: skip


def _pile(below: str, flaps: tuple[str, str], pocket: str, cover: str) -> tuple[Layer, ...]:
    """The order in which the closed holder lies on the table, from the bottom up."""
    return (
        *(Layer(PIECE, below, over) for over in (*flaps, pocket, cover)),
        *(Layer(PIECE, flap, over) for flap in flaps for over in (pocket, cover)),
        Layer(PIECE, pocket, cover),
    )


def _meets(ease: Length, *, notched: bool) -> tuple[Meet, ...]:
    """The cover ends at the pocket's fold; the pocket's sides run beside those of the back."""
    left_side = 7 if notched else 3
    return (
        Meet(PIECE, EdgeOf("cover", 0), EdgeOf("back", 2)),
        Meet(PIECE, EdgeOf("pocket", left_side), EdgeOf("back", 3), (-ease, ZERO, ZERO), True),
        Meet(PIECE, EdgeOf("pocket", 1), EdgeOf("back", 1), (ease, ZERO, ZERO), True),
    )


def _steps() -> tuple[Step, ...]:
    cover, pocket = ("cover", "back"), ("back", "pocket")
    flaps = ("pocket", "left flap"), ("pocket", "right flap")
    return (
        Step(
            PIECE, "Fold and burnish", Moment.FLAT, Doing.CREASE,
            tuple(Turn(pair, 60) for pair in (cover, pocket, *flaps)), (),
            ("cover", "pocket", "left flap", "right flap"),
        ),
        Step(
            PIECE, "Fold the side flaps in", Moment.SEAM, Doing.TURN_IN,
            (*(Turn(pair, 180) for pair in flaps), Turn(cover, 0), Turn(pocket, 0)), (),
            ("left flap", "right flap"),
        ),
        Step(
            PIECE, "Press the pocket onto the back", Moment.BOTTOM, Doing.PRESS,
            (Turn(pocket, 180),), ("left flap tape", "right flap tape"), ("pocket",),
        ),
        Step(
            PIECE, "Close the cover", Moment.CLOSED, Doing.CLOSE,
            (Turn(cover, 180),), (), ("cover",),
        ),
    )  # fmt: skip
