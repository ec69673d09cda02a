"""The straight tuck carton: both ends hang on the back, so both tucks close behind the front."""

from __future__ import annotations

from .carton import PIECE, carton_measures, tuck_carton
from .construction import Construction
from .style import Given, Measures, Style


class StraightTuckCarton(Style):
    """A carton from one blank; no raw edge shows at the front.

    "Both tucks close on the same panel": brownpackaging.com, "Folding carton styles".
    """

    name = "straight tuck carton"
    says = "a closed carton with a glue tab; top and bottom both tuck in behind the front and lock"
    noun = ("carton", "cartons")
    pieces = (PIECE,)
    free = "height"
    measures = carton_measures(
        ("5/2", "65", "2 1/2 in, 6.5 cm"),
        ("5/4", "30", "1 1/4 in, 3 cm"),
        ("7/2", "90", "3 1/2 in, 9 cm"),
    )

    def build(self, measures: Measures, given: Given) -> Construction:
        """One blank, both of its ends hung on the back."""
        return tuck_carton(measures, given, bottom="back", top="back")
