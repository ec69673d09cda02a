"""The reverse tuck carton: the top tucks in behind the front, the bottom behind the back."""

from __future__ import annotations

from .carton import PIECE, carton_measures, tuck_carton
from .construction import Construction
from .style import Given, Measures, Style


class ReverseTuckCarton(Style):
    """A carton from one blank, its ends hung on opposite walls.

    "Top and bottom tucks close in opposite directions": brownpackaging.com, "Folding carton
    styles"; asiaprintpackaging.com, "Box styles".
    """

    name = "reverse tuck carton"
    says = "a closed carton with a glue tab; the top tucks in at the front, the bottom at the back"
    noun = ("carton", "cartons")
    pieces = (PIECE,)
    free = "height"
    measures = carton_measures(
        ("3", "75", "3 in, 7.5 cm"),
        ("1", "25", "1 in, 2.5 cm"),
        ("4", "100", "4 in, 10 cm"),
    )

    def build(self, measures: Measures, given: Given) -> Construction:
        """One blank, its top hung on the back and its bottom on the front."""
        return tuck_carton(measures, given, bottom="front", top="back")
