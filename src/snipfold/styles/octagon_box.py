"""The octagon box with lid: a prism of eight sides."""

from __future__ import annotations

from .construction import Construction
from .prism import BASE, LID, prism, prism_measures
from .style import Given, Measures, Style


class OctagonBox(Style):
    """An octagon box: eight walls in one strip, the floor on the middle one; a lid likewise."""

    name = "octagon box with lid"
    says = "eight walls in one strip, a floor stuck to tabs, and a lid a little larger"
    pieces = (BASE, LID)
    free = "height"
    measures = prism_measures(8, "5/4", "30", "1 1/4 in, 3 cm")

    def build(self, measures: Measures, given: Given) -> Construction:
        """A base and a lid of eight sides."""
        return prism(8, measures, given)
