"""The tray with lift-off lid: two shallow trays, the lid a little larger, corner tabs inside."""

from __future__ import annotations

from ..flat import Point, Role
from ..measure import ZERO
from .construction import Cavity, Construction, Doing, Moment, Slide, Stand, Step
from .parts import tray, tray_layers, tray_meets, tray_steps, tray_tab
from .style import Given, Measure, Measures, Style, fixed

BASE = "base"
LID = "lid"


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
            tray_tab("height"),
            "the height, at most what half the depth leaves room for",
            fixed("1/8", "4"),
            "1/8 in, 4 mm",
            lambda m, given: m["height"],
            "the height of the tray",
        ),
        Measure(
            "lid_tab",
            "how long the lid's corner tabs are",
            tray_tab("lid_height"),
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
        base = tray(
            BASE, "floor", Role.FLOOR, width, depth, height, measures["tab"], sliver, given,
            near="back", far="front",
        )  # fmt: skip
        lid = tray(
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
                *tray_steps(BASE, "floor"),
                *tray_steps(LID, "top"),
                Step(
                    LID, "Set the lid on", Moment.CLOSED, Doing.SET_ON, (), (),
                    tuple(panel.name for panel in lid.panels),
                ),
            ),
            layers=(*tray_layers(BASE), *tray_layers(LID)),
            meets=(
                *tray_meets(BASE, near="back", far="front"),
                *tray_meets(LID, near="front", far="back"),
            ),
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
