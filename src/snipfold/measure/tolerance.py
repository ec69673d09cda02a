"""Every tolerance of the project, each with its unit and its reason."""

from fractions import Fraction

#: mm. An irrational coordinate is rounded to this once, when a flat piece is built: a thousandth
#: of the wavelength of light, so that no maker and no later sum can see it.
COORDINATE_MM = Fraction(1, 10**9)

#: mm. Two panels "meet" in space when their edges are closer than this (1e-6 in): far above the
#: rounding of double arithmetic over a box (about 1e-13 mm), far below any paper.
CLOSING_MM = 25.4e-6

#: mm. Two planes are "the same plane" (panels lie face to face) below this distance; mid-surfaces
#: of one stack coincide to rounding, and the thinnest paper is 50 times thicker.
COPLANAR_MM = 1e-3

#: mm2. Panels that overlap by less than this only touch along an edge.
OVERLAP_MM2 = 1e-3

#: mm. A panel pierces another when it passes through by more than this.
PIERCE_MM = 1e-3

#: mm. A figure measured in three dimensions is rounded to this before a reader sees it.
FIGURE_MM = Fraction(1, 10**6)

#: mm (1/16 in). A gap of no more than this does no harm where paper lies behind the joint, since
#: nothing shows through: two usual slips of hand. Common practice, no source.
BACKED_GAP_MM = 1.5875
