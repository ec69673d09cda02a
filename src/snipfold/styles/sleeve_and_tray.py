"""The sleeve and tray: a tray that slides into a sleeve, open at both ends, like a drawer."""

from __future__ import annotations

from itertools import pairwise

from ..flat import Blank, Face, FlatPiece, Point, Role
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
from .parts import tray, tray_layers, tray_meets, tray_steps, tray_tab
from .style import Given, Measure, Measures, Style, fixed, tape_inset

TRAY = "tray"
SLEEVE = "sleeve"

#: The columns of the sleeve's blank from the left. The tab hangs on the back and comes to lie inside
#: the bottom, where the seam is not seen.
_COLUMNS = ("tab", "back", "top", "front", "bottom")
_HINGES = tuple(pairwise(_COLUMNS))


class SleeveAndTray(Style):
    """A tray and the sleeve that it slides into; each from one blank."""

    name = "sleeve and tray"
    says = "a tray that slides into a sleeve from either side, tabs glued inside"
    pieces = (TRAY, SLEEVE)
    free = "height"
    measures = (
        Measure(
            "width",
            "how wide the tray is, crease to crease; it slides that way",
            fixed("4", "100"),
            "4 in, 10 cm",
            fixed("3/4", "20"),
            "3/4 in, 2 cm",
            fixed("40", "1000"),
            "40 in, 100 cm",
        ),
        Measure(
            "depth",
            "how deep the tray is from front to back, crease to crease",
            fixed("5/2", "65"),
            "2 1/2 in, 6.5 cm",
            fixed("3/4", "20"),
            "3/4 in, 2 cm",
            fixed("40", "1000"),
            "40 in, 100 cm",
        ),
        Measure(
            "height",
            "how tall the tray stands",
            fixed("1", "25"),
            "1 in, 2.5 cm",
            fixed("1/4", "6"),
            "1/4 in, 6 mm",
            fixed("20", "500"),
            "20 in, 50 cm",
        ),
        Measure(
            "clearance",
            "sleeve size less tray size, crease to crease, in total: from front to back, and in "
            "height",
            fixed("1/8", "3"),
            "1/8 in, 3 mm",
            fixed("0", "0"),
            "nothing",
            fixed("1", "25"),
            "1 in, 2.5 cm",
        ),
        Measure(
            "sleeve",
            "how long the sleeve is from one open end to the other",
            lambda m, given: m["width"],
            "the width of the tray",
            lambda m, given: m["width"] / 3,
            "a third of the width",
            lambda m, given: m["width"],
            "the width of the tray",
        ),
        Measure(
            "sliver",
            "how much each edge of a tab is tapered towards its end",
            fixed("1/16", "2"),
            "1/16 in, 2 mm",
            fixed("1/32", "1/2"),
            "1/32 in, 0.5 mm",
            lambda m, given: min(m["height"] / 3, m["depth"] / 8, m["sleeve"] / 3),
            "a third of the height, an eighth of the depth and a third of the sleeve's length",
        ),
        Measure(
            "tray_tab",
            "how long the tray's corner tabs are",
            tray_tab("height"),
            "the height, at most what half the depth leaves room for",
            fixed("1/8", "4"),
            "1/8 in, 4 mm",
            lambda m, given: m["height"],
            "the height of the tray",
        ),
        Measure(
            "sleeve_tab",
            "how wide the glue tab of the sleeve is",
            fixed("1/2", "12"),
            "1/2 in, 1.2 cm",
            fixed("1/8", "4"),
            "1/8 in, 4 mm",
            lambda m, given: m["depth"],
            "the depth of the tray",
        ),
    )

    def build(self, measures: Measures, given: Given) -> Construction:
        """A tray, and a sleeve larger by the clearance, centred round it."""
        width, depth, height = measures["width"], measures["depth"], measures["height"]
        length, over = measures["sleeve"], measures["clearance"] / 2
        # The tray is drawn from below, so its far wall on the blank stands in front.
        drawer = tray(
            TRAY, "floor", Role.FLOOR, width, depth, height, measures["tray_tab"],
            measures["sliver"], given, near="back", far="front",
        )  # fmt: skip
        sleeve, top_left = _sleeve(measures, given)
        return Construction(
            pieces=(drawer, sleeve),
            stands=(
                Stand(
                    TRAY, "floor", (1, 0, 0), (0, -1, 0),
                    Point(height.as_mm, height.as_mm), (ZERO, depth, ZERO),
                ),
                # Round the sleeve is from left to right on its blank, along it is up.
                Stand(
                    SLEEVE, "top", (0, -1, 0), (1, 0, 0), Point(top_left.as_mm, ZERO.as_mm),
                    ((width - length) / 2, depth + over, height + over),
                ),
            ),
            steps=(*tray_steps(TRAY, "floor"), *_steps(sleeve)),
            layers=(*tray_layers(TRAY), Layer(SLEEVE, "tab", "bottom")),
            meets=(
                *tray_meets(TRAY, near="back", far="front"),
                Meet(SLEEVE, EdgeOf("bottom", 1), EdgeOf("back", 3)),
            ),
            cavity=Cavity(
                TRAY, ("left wall", "right wall"), ("front wall", "back wall"),
                "floor", "front wall", True,
            ),
            slides=(
                Slide(
                    SLEEVE,
                    TRAY,
                    (
                        ("depth", ("front", "front wall", "back wall", "back")),
                        # The tray is open above: its back wall stands for the rim.
                        ("height", ("top", "back wall", "floor", "bottom")),
                    ),
                    "clearance",
                    off=(1, 0, 0),
                ),
            ),
            handle=None,
        )  # fmt: skip


def _sleeve(measures: Measures, given: Given) -> tuple[FlatPiece, Length]:
    """The sleeve, and how far from the left edge its top begins."""
    length, tab, sliver = measures["sleeve"], measures["sleeve_tab"], measures["sliver"]
    deep = measures["depth"] + measures["clearance"]
    tall = measures["height"] + measures["clearance"]
    sizes = {"tab": tab, "back": tall, "top": deep, "front": tall, "bottom": deep}
    roles = {"back": Role.WALL, "top": Role.TOP, "front": Role.WALL, "bottom": Role.FLOOR}
    stops = [ZERO]
    for name in _COLUMNS:
        stops.append(stops[-1] + sizes[name])
    blank = Blank(SLEEVE, stops[-1], length)
    blank.panel(
        "tab", Role.TAB, (ZERO, sliver), (tab, ZERO), (tab, length), (ZERO, length - sliver)
    )
    for name, (left, right) in zip(_COLUMNS[1:], pairwise(stops[1:]), strict=True):
        blank.panel(name, roles[name], (left, ZERO), (right, ZERO), (right, length), (left, length))
    blank.snip("corner below the tab", (ZERO, ZERO), (tab, ZERO), (ZERO, sliver))
    blank.snip("corner above the tab", (ZERO, length - sliver), (tab, length), (ZERO, length))
    for one, other in _HINGES:
        blank.score(one, other)
    inset = tape_inset(tab, given)
    blank.glue(
        "sleeve tab tape", "tab", Face.OUTSIDE,
        (inset, sliver), (inset + given.tape, length - sliver),
        mate="bottom", mate_face=Face.INSIDE, edge="outer edge", inset=inset,
    )  # fmt: skip
    return blank.build(), stops[2]


def _steps(sleeve: FlatPiece) -> tuple[Step, ...]:
    return (
        Step(
            SLEEVE, "Fold and burnish the sleeve", Moment.FLAT, Doing.CREASE,
            tuple(Turn(pair, 60) for pair in _HINGES), (), ("tab", "back", "front", "bottom"),
        ),
        Step(
            SLEEVE, "Close the sleeve", Moment.SEAM, Doing.SEAM,
            tuple(Turn(pair, 90) for pair in _HINGES), ("sleeve tab tape",), ("bottom",),
        ),
        Step(
            SLEEVE, "Slide the sleeve on", Moment.CLOSED, Doing.SET_ON, (), (),
            tuple(panel.name for panel in sleeve.panels),
        ),
    )  # fmt: skip
