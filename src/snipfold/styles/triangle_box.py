"""The triangle box with lid: a prism of three sides."""

from __future__ import annotations

from .construction import Construction
from .prism import BASE, LID, prism, prism_measures
from .style import Given, Measures, Style


class TriangleBox(Style):
    """A triangle box: three walls in one strip, the floor on the middle one; a lid likewise."""

    name = "triangle box with lid"
    says = "three walls in one strip, a floor stuck to tabs, and a lid a little larger"
    pieces = (BASE, LID)
    free = "height"
    measures = prism_measures(3, "13/4", "85", "3 1/4 in, 8.5 cm")

    def build(self, measures: Measures, given: Given) -> Construction:
        """A base and a lid of three sides."""
        return prism(3, measures, given)
