"""The hexagon box with lid: a prism of six sides."""

from __future__ import annotations

from .construction import Construction
from .prism import BASE, LID, prism, prism_measures
from .style import Given, Measures, Style


class HexagonBox(Style):
    """A hexagon box: six walls in one strip, the floor on the middle one; a lid likewise."""

    name = "hexagon box with lid"
    says = "six walls in one strip, a floor stuck to tabs, and a lid a little larger"
    pieces = (BASE, LID)
    free = "height"
    measures = prism_measures(6, "7/4", "45", "1 3/4 in, 4.5 cm")

    def build(self, measures: Measures, given: Given) -> Construction:
        """A base and a lid of six sides."""
        return prism(6, measures, given)
