"""The heptagon box with lid: a prism of seven sides."""

from __future__ import annotations

from .construction import Construction
from .prism import BASE, LID, prism, prism_measures
from .style import Given, Measures, Style


class HeptagonBox(Style):
    """A heptagon box: seven walls in one strip, the floor on the middle one; a lid likewise."""

    name = "heptagon box with lid"
    says = "seven walls in one strip, a floor stuck to tabs, and a lid a little larger"
    pieces = (BASE, LID)
    free = "height"
    measures = prism_measures(7, "3/2", "40", "1 1/2 in, 4 cm")

    def build(self, measures: Measures, given: Given) -> Construction:
        """A base and a lid of seven sides."""
        return prism(7, measures, given)
