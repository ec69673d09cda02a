"""The square box with lid: a prism of four sides."""

from __future__ import annotations

from .construction import Construction
from .prism import BASE, LID, prism, prism_measures
from .style import Given, Measures, Style


class SquareBox(Style):
    """A square box: four walls in one strip, the floor on the middle one; a lid likewise."""

    name = "square box with lid"
    says = "four walls in one strip, a floor stuck to tabs, and a lid a little larger"
    pieces = (BASE, LID)
    free = "height"
    measures = prism_measures(4, "5/2", "65", "2 1/2 in, 6.5 cm")

    def build(self, measures: Measures, given: Given) -> Construction:
        """A base and a lid of four sides."""
        return prism(4, measures, given)
