"""The pentagon box with lid: a prism of five sides."""

from __future__ import annotations

from .construction import Construction
from .prism import BASE, LID, prism, prism_measures
from .style import Given, Measures, Style


class PentagonBox(Style):
    """A pentagon box: five walls in one strip, the floor on the middle one; a lid likewise."""

    name = "pentagon box with lid"
    says = "five walls in one strip, a floor stuck to tabs, and a lid a little larger"
    pieces = (BASE, LID)
    free = "height"
    measures = prism_measures(5, "2", "50", "2 in, 5 cm")

    def build(self, measures: Measures, given: Given) -> Construction:
        """A base and a lid of five sides."""
        return prism(5, measures, given)
