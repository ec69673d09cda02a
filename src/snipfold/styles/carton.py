"""What cartons share: four walls round a glue tab, and ends that close with dust flaps and a tuck.

No style itself. Words of the trade (nationalcarton.com "folding carton terminology";
cartonsolutions.com.au "definitions"): a dust flap is an unglued side flap turned in at the closure;
a flap is an extension of a panel with one score and three edges; the seam is where one side panel
joins another. The seam stands at the observer's right, as ISO 2206 has it (GB/T 4857.1-92).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
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
from .style import MARKS, Given, Measure, Measures, fixed, tape_inset

_Place = Callable[[Length, Length], Corner]
_Loop = Callable[..., tuple[Corner, ...]]

#: The columns of the blank from the left. Seen from the outside the walls follow each other round
#: the box, so that the tab comes to lie inside the right side, at the back.
COLUMNS = ("tab", "back", "left side", "front", "right side")
PIECE = "carton"
#: The wall across the box from another.
FACING = {"front": "back", "back": "front"}


def carton_measures(
    width: tuple[str, str, str],
    depth: tuple[str, str, str],
    height: tuple[str, str, str],
) -> tuple[Measure, ...]:
    """The measures of a carton, with its usual size: each in inches, in mm, and in words."""
    return (
        Measure(
            "width",
            "how wide the front is, crease to crease",
            fixed(*width[:2]),
            width[2],
            fixed("1", "25"),
            "1 in, 2.5 cm",
            fixed("40", "1000"),
            "40 in, 100 cm",
        ),
        Measure(
            "depth",
            "how deep the carton is from front to back, crease to crease",
            fixed(*depth[:2]),
            depth[2],
            fixed("1/2", "12"),
            "1/2 in, 1.2 cm",
            fixed("20", "500"),
            "20 in, 50 cm",
        ),
        Measure(
            "height",
            "how tall the carton stands, crease to crease",
            fixed(*height[:2]),
            height[2],
            fixed("3/4", "20"),
            "3/4 in, 2 cm",
            fixed("40", "1000"),
            "40 in, 100 cm",
        ),
        Measure(
            "tab",
            "how wide the glue tab of the seam is",
            fixed("1/2", "12"),
            "1/2 in, 1.2 cm",
            fixed("1/8", "4"),
            "1/8 in, 4 mm",
            lambda m, given: m["depth"],
            "the depth",
        ),
        Measure(
            "tuck",
            "how far a tuck flap goes down inside",
            lambda m, given: min(
                fixed("3/4", "20")(m, given), MARKS[given.system].below(m["height"] / 2)
            ),
            "3/4 in, 2 cm, at most half the height",
            fixed("1/4", "6"),
            "1/4 in, 6 mm",
            lambda m, given: m["height"],
            "the height",
        ),
        Measure(
            "sliver",
            "clearance for the paper: how much is snipped off each end of a tuck flap, and off each "
            "edge of a flap that is folded in first",
            fixed("1/16", "2"),
            "1/16 in, 2 mm",
            fixed("1/32", "1/2"),
            "1/32 in, 0.5 mm",
            lambda m, given: min(m["depth"] / 6, m["width"] / 10),
            "a sixth of the depth, and a tenth of the width",
        ),
        Measure(
            "slit",
            "how far the locking slits reach in from each end of a tuck flap's score",
            lambda m, given: max(fixed("1/4", "6")(m, given), m["sliver"] * 2),
            "1/4 in, 6 mm, at least twice the sliver",
            lambda m, given: m["sliver"] * 2,
            "twice the sliver",
            lambda m, given: min(m["width"] / 4, m["depth"] / 2),
            "a quarter of the width, and half the depth",
        ),
        Measure(
            "dust_flap",
            "how far a dust flap reaches in",
            lambda m, given: max(
                m["slit"] * 2, min(m["depth"], MARKS[given.system].below(m["width"] / 2))
            ),
            "half the width, at most the depth",
            lambda m, given: m["slit"] * 2,
            "twice the slit",
            lambda m, given: m["depth"],
            "the depth",
        ),
    )


@dataclass(frozen=True, slots=True)
class Frame:
    """Where the walls of a carton lie on its blank: the sides of each column, and two levels.

    `low` and `high` are the scores at which the walls end; `blank_height` is the upper rim. The
    tab's corners are drawn in by `mitre` at both ends.
    """

    columns: dict[str, tuple[Length, Length]]
    low: Length
    high: Length
    blank_height: Length
    mitre: Length

    @property
    def blank_width(self) -> Length:
        """How wide the blank is."""
        return self.columns[COLUMNS[-1]][1]


def frame_of(measures: Measures, below: Length, above: Length) -> Frame:
    """The frame of a carton whose blank reaches `below` and `above` its walls."""
    width, depth = measures["width"], measures["depth"]
    sizes = {"tab": measures["tab"], "back": width, "front": width}
    columns, x = {}, ZERO
    for name in COLUMNS:
        right = x + sizes.get(name, depth)
        columns[name] = (x, right)
        x = right
    high = below + measures["height"]
    mitre = min(measures["sliver"] * 2, measures["height"] / 4)
    return Frame(columns, below, high, high + above, mitre)


def lay_walls(blank: Blank, frame: Frame, given: Given) -> None:
    """The tab and the four walls, their scores, and the tape of the seam."""
    low, high, mitre = frame.low, frame.high, frame.mitre
    for name, (left, right) in frame.columns.items():
        if name == "tab":
            blank.panel(
                name, Role.TAB,
                (left, low + mitre), (right, low), (right, high), (left, high - mitre),
            )  # fmt: skip
        else:
            blank.panel(name, Role.WALL, (left, low), (right, low), (right, high), (left, high))
    for one, other in pairwise(COLUMNS):
        blank.score(one, other)
    left, right = frame.columns["tab"]
    inset = tape_inset(right - left, given)
    blank.glue(
        "tab tape", "tab", Face.OUTSIDE,
        (left + inset, low + mitre), (left + inset + given.tape, high - mitre),
        mate="right side", mate_face=Face.INSIDE, edge="outer edge", inset=inset,
    )  # fmt: skip


def ring(*corners: Corner) -> tuple[Corner, ...]:
    """The corners without those that come twice in a row, round about."""
    return tuple(
        corner
        for before, corner in zip(corners[-1:] + corners[:-1], corners, strict=True)
        if corner != before
    )


@dataclass(frozen=True, slots=True)
class TuckEnd:
    """An end of a carton that closes with a tuck: its name ("top", "bottom") and its `host`.

    The host is the wall that its panel hangs on, front or back; the tuck flap goes in behind the
    other one.
    """

    name: str
    host: str

    @property
    def flap(self) -> str:
        """The name of the tuck flap."""
        return f"{self.name} tuck flap"

    @property
    def dust(self) -> tuple[str, str]:
        """The names of the dust flaps, left and right."""
        return f"{self.name} left dust flap", f"{self.name} right dust flap"

    def lay(self, blank: Blank, frame: Frame, measures: Measures, given: Given) -> None:
        """Lay the panel, its tuck flap with the locking slits, and the dust flaps.

        Each dust flap keeps its full width next to the tuck flap for as far as the slits reach:
        that shoulder catches in the slit.
        """
        depth, tuck, sliver = measures["depth"], measures["tuck"], measures["sliver"]
        slit = measures["slit"]
        left, right = frame.columns[self.host]
        # The free corners of the tuck flap are snipped aslant, so that it finds its way in.
        marks = MARKS[given.system]
        slant = min(marks.below(tuck / 2), marks.below((right - left) / 8))
        full, shoulder = depth + tuck, depth + tuck - slant

        def at(x: Length, up: Length) -> Corner:
            """A place by how far it is from the end of the walls, outwards."""
            return (x, frame.high + up if self.name == "top" else frame.low - up)

        def turned(*corners: Corner) -> tuple[Corner, ...]:
            return corners if self.name == "top" else corners[::-1]

        role = Role.TOP if self.name == "top" else Role.FLOOR
        blank.panel(
            self.name, role,
            *turned(at(left, ZERO), at(right, ZERO), at(right, depth), at(left, depth)),
        )  # fmt: skip
        blank.panel(
            self.flap, Role.FLAP,
            *turned(
                at(left + sliver, depth), at(right - sliver, depth), at(right - sliver, shoulder),
                at(right - sliver - slant, full), at(left + sliver + slant, full),
                at(left + sliver, shoulder),
            ),
        )  # fmt: skip
        blank.score(self.host, self.name)
        blank.score(self.name, self.flap)
        for side, outer, inner in (
            ("left", left + sliver, left + slit),
            ("right", right - sliver, right - slit),
        ):
            blank.slit(
                f"locking slit, {self.name} {side}", self.name, self.flap,
                (at(outer, depth), at(inner, depth)),
            )  # fmt: skip
        for mirrored in (True, False):
            edge = left if mirrored else right

            def outwards(
                u: Length, up: Length, edge: Length = edge, mirrored: bool = mirrored
            ) -> Corner:
                return at(edge - u if mirrored else edge + u, up)

            def anticlockwise(*corners: Corner, mirrored: bool = mirrored) -> tuple[Corner, ...]:
                way = corners[::-1] if mirrored else corners
                return turned(*ring(*way))

            tuck_side = (
                outwards(-(sliver + slant), full), outwards(-sliver, shoulder),
                outwards(-sliver, depth), outwards(ZERO, depth),
            )  # fmt: skip
            beside = _beside(self.host, mirrored)
            if beside == ("tab",):
                out = frame.columns["tab"][1]
                blank.snip(
                    f"corner {'above' if self.name == 'top' else 'below'} the tab",
                    *anticlockwise(
                        outwards(ZERO, ZERO), outwards(out, -frame.mitre), outwards(out, full),
                        *tuck_side,
                    ),
                )  # fmt: skip
            else:
                self._lay_dust_side(
                    blank, frame, measures, beside, outwards, anticlockwise, full, tuck_side
                )

    def _lay_dust_side(
        self,
        blank: Blank,
        frame: Frame,
        measures: Measures,
        beside: Sequence[str],
        outwards: _Place,
        anticlockwise: _Loop,
        full: Length,
        tuck_side: tuple[Corner, ...],
    ) -> None:
        """The columns beside the host on one side: dust flaps, and what is snipped between them."""
        dust, sliver, slit = measures["dust_flap"], measures["sliver"], measures["slit"]
        names = {"left side": self.dust[0], "right side": self.dust[1]}
        stops = [ZERO]
        for column in beside:
            start, end = frame.columns[column]
            stops.append(stops[-1] + (end - start))
        over = "over" if self.name == "top" else "under"
        flaps = [names[column] for column in beside if column in names]
        # One straight cut first, then the notches and slivers below it.
        blank.snip(
            f"strip {over} the {flaps[0] if len(flaps) == 1 else f'{self.name} dust flaps'}",
            *anticlockwise(
                outwards(ZERO, dust), outwards(stops[-1], dust), outwards(stops[-1], full),
                *tuck_side,
            ),
        )  # fmt: skip
        for index, column in enumerate(beside):
            near, far = stops[index], stops[index + 1]
            before = beside[index - 1] if index else ""
            after = beside[index + 1] if index + 1 < len(beside) else ""
            if column not in names:
                if column != "tab":
                    ends = (
                        (outwards(far, ZERO), outwards(far, slit), outwards(far + sliver, dust))
                        if after in names
                        else (
                            outwards(far, ZERO), outwards(stops[-1], -frame.mitre),
                            outwards(stops[-1], dust),
                        )
                    )  # fmt: skip
                    blank.snip(
                        f"notch {over} the {column}",
                        *anticlockwise(
                            outwards(near, ZERO), *ends, outwards(near - sliver, dust),
                            outwards(near, slit),
                        ),
                    )  # fmt: skip
                continue
            name, wall = names[column], column
            # The shoulder is on the edge away from the host.
            if index == 0:
                corners = (
                    outwards(near, ZERO), outwards(far, ZERO), outwards(far, slit),
                    outwards(far - sliver, dust), outwards(near + sliver, dust),
                )  # fmt: skip
                blank.snip(
                    f"sliver, {name} by {self.name}",
                    *anticlockwise(
                        outwards(near, ZERO), outwards(near + sliver, dust), outwards(near, dust)
                    ),
                )
                if not after:
                    blank.snip(
                        f"sliver, {name} by the rim",
                        *anticlockwise(
                            outwards(far, slit), outwards(far, dust), outwards(far - sliver, dust)
                        ),
                    )
            else:
                assert before not in names
                corners = (
                    outwards(near, ZERO), outwards(far, ZERO), outwards(far - sliver, dust),
                    outwards(near + sliver, dust), outwards(near, slit),
                )  # fmt: skip
                blank.snip(
                    f"sliver, {name} by the rim",
                    *anticlockwise(
                        outwards(far, ZERO), outwards(far, dust), outwards(far - sliver, dust)
                    ),
                )
            blank.panel(name, Role.FLAP, *anticlockwise(*corners))
            blank.score(wall, name)

    def layers(self) -> tuple[Layer, ...]:
        """Dust flaps inside the panel, the left one innermost; the tuck flap behind the far wall."""
        left, right = self.dust
        return (
            Layer(PIECE, left, right),
            Layer(PIECE, left, self.name),
            Layer(PIECE, right, self.name),
            Layer(PIECE, self.flap, FACING[self.host], slid=True),
        )

    def meets(self) -> tuple[Meet, ...]:
        """The panel's far edge comes to the far wall's edge."""
        far = 2 if self.name == "top" else 0
        return (Meet(PIECE, EdgeOf(self.name, far), EdgeOf(FACING[self.host], far)),)

    @property
    def hinges(self) -> tuple[tuple[str, str], ...]:
        """The pairs of panels whose scores close this end: dust flaps, panel, tuck flap."""
        left, right = self.dust
        return (
            ("left side", left),
            ("right side", right),
            (self.host, self.name),
            (self.name, self.flap),
        )

    def steps(self, moment: Moment) -> tuple[Step, ...]:
        """Turn the dust flaps in, then tuck."""
        left, right, panel, flap = self.hinges
        return (
            Step(
                PIECE, f"Turn in the {self.name} dust flaps", Moment.BOTTOM, Doing.TURN_IN,
                (Turn(left, 90), Turn(right, 90)), (), self.dust,
            ),
            Step(
                PIECE, f"Close and lock the {self.name}", moment, Doing.TUCK,
                (Turn(panel, 90), Turn(flap, 90)), (), (self.flap, self.name),
            ),
        )  # fmt: skip


def _beside(host: str, mirrored: bool) -> tuple[str, ...]:
    """The columns beside the host, from it outwards: to the left where `mirrored`."""
    at = COLUMNS.index(host)
    return COLUMNS[:at][::-1] if mirrored else COLUMNS[at + 1 :]


def seam_meet() -> Meet:
    """The right side's free edge comes to the back's, where the tab hangs."""
    return Meet(PIECE, EdgeOf("right side", 1), EdgeOf("back", 3))


def front_stands(frame: Frame) -> Stand:
    """The front stays still, its lower left corner at the nearest lower corner of the box."""
    corner = Point(frame.columns["front"][0].as_mm, frame.low.as_mm)
    return Stand(PIECE, "front", (1, 0, 0), (0, 0, 1), corner, (ZERO, ZERO, ZERO))


def first_steps(hinges: Sequence[tuple[str, str]]) -> tuple[Step, Step]:
    """Crease every score, then close the seam; `hinges` are the scores beyond the walls."""
    walls = tuple(pairwise(COLUMNS))
    scores = (*walls, *hinges)
    moving = dict.fromkeys(name for pair in scores for name in pair if name != "front")
    return (
        Step(
            PIECE, "Fold and burnish", Moment.FLAT, Doing.CREASE,
            tuple(Turn(pair, 60) for pair in scores), (), tuple(moving),
        ),
        Step(
            PIECE, "Close the seam", Moment.SEAM, Doing.SEAM,
            (*(Turn(pair, 90) for pair in walls), *(Turn(pair, 0) for pair in hinges)),
            ("tab tape",), ("right side",),
        ),
    )  # fmt: skip


def tuck_carton(measures: Measures, given: Given, *, bottom: str, top: str) -> Construction:
    """A carton that closes with a tuck at both ends; `bottom` and `top` name their hosts."""
    ends = (TuckEnd("bottom", bottom), TuckEnd("top", top))
    reach = measures["depth"] + measures["tuck"]
    frame = frame_of(measures, reach, reach)
    blank = Blank(PIECE, frame.blank_width, frame.blank_height)
    lay_walls(blank, frame, given)
    for end in ends:
        end.lay(blank, frame, measures, given)
    return Construction(
        pieces=(blank.build(),),
        stands=(front_stands(frame),),
        steps=(
            *first_steps([hinge for end in ends for hinge in end.hinges]),
            *ends[0].steps(Moment.BOTTOM),
            *ends[1].steps(Moment.CLOSED),
        ),
        layers=(Layer(PIECE, "tab", "right side"), *ends[0].layers(), *ends[1].layers()),
        meets=(seam_meet(), *ends[0].meets(), *ends[1].meets()),
        cavity=Cavity(
            PIECE, ("left side", "right side"), ("front", "back"), "bottom", "top", True
        ),
        slides=(),
        handle=None,
    )  # fmt: skip
