"""The small distances that hand work keeps, in marks of the maker's own system."""

from __future__ import annotations

from ..measure import Length, System

#: The least border that is sure to show, and the least that keeps off an edge. Source for the
#: metric one: the narrow border at inkspirationaldesigns.blogspot.com/2013/06 "Borders, matting
#: and layers" (2 mm); 1/16 in is its neighbour on an inch ruler.
LEAST_BORDER = {System.INCH: Length.inch("1/16"), System.METRIC: Length.mm(2)}

#: The smallest side of a mat that can be cut and handled. Common practice, no source.
LEAST_MAT = {System.INCH: Length.inch("1/4"), System.METRIC: Length.mm(6)}
