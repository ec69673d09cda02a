"""The usual cautions of the craft: common practice, no source, unless one is named.

They never replace local rules, and the guide says so.
"""

from __future__ import annotations

from ..workshop import AdhesiveKind
from .content import Caution, Hazard

TRIMMER = Caution(
    Hazard.BLADES,
    "Keep fingers behind the guard. Cut away from the hand that holds the paper. "
    "Lock or store the blade when you put the trimmer down.",
)
SCISSORS = Caution(
    Hazard.BLADES,
    "Snip away from the hand that holds the paper. With a craft knife: a sharp blade, a cutting "
    "mat, a metal ruler; store the blade when you are done. Blades are for grown-up hands.",
)
#: Temperatures: a school safety sheet on glue guns (low about 250 °F / 121 °C, high about 380 °F /
#: 193 °C, nozzle up to 195 °C), rounded.
HOT_GLUE = Caution(
    Hazard.HEAT,
    "The nozzle and the glue burn skin: a low-temperature gun runs at about 120 °C (250 °F), a "
    "high-temperature one at about 195 °C (380 °F). Press with a tool, not with a finger. "
    "Keep cold water near, and unplug the gun when you leave it.",
)
GLUE = Caution(
    Hazard.ADHESIVE, "Read the label, open a window, and let the glue dry before you fill it."
)
FOOD = Caution(
    Hazard.FOOD,
    "Craft paper, ink, tape and glue are not made to touch food. Wrap treats in food-grade film or "
    "a food-grade bag first. Staples and brads can come loose: keep them away from treats.",
)
CHILDREN = Caution(
    Hazard.CHILDREN,
    "Small treats, brads, beads and loose straps can choke. Keep them from small children.",
)
FIRE = Caution(
    Hazard.FIRE, "Paper burns. No candle or tea light in it or near it; a battery light only."
)
RULES = Caution(
    Hazard.RULES,
    "Follow the local rules for food and toys, and name what is in a treat (allergens) as they ask.",
)

#: Cautions that a kind of adhesive brings with it.
OF_ADHESIVE: dict[AdhesiveKind, tuple[Caution, ...]] = {
    AdhesiveKind.TAPE: (),
    AdhesiveKind.FOAM: (),
    AdhesiveKind.GLUE: (GLUE,),
    AdhesiveKind.HOT_GLUE: (HOT_GLUE,),
}
