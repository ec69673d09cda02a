"""The maker's own figures for time and price. Nothing here has a default that counts."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Pace:
    """Minutes that the maker takes for one of each, by their own watch; None where not timed.

    `setting` is one change of the trimmer's setting, `cut` one stroke of the blade, `score` one
    line, `turn` one turning or turning over of a piece on the board, `snip` one snip, `strip` one
    strip of adhesive, `mat` laying on one mat, `step` one step of putting together, `pack` filling
    one envelope.
    """

    setting: Fraction | None = None
    cut: Fraction | None = None
    score: Fraction | None = None
    turn: Fraction | None = None
    snip: Fraction | None = None
    strip: Fraction | None = None
    mat: Fraction | None = None
    step: Fraction | None = None
    pack: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Terms:
    """On what terms the maker sells; None where they have not said.

    `hourly_rate` is what an hour of work is worth, in the workshop's currency. `margin` is the
    share of the price that is left when material and time are paid (below 1).
    """

    hourly_rate: Decimal | None = None
    margin: Fraction | None = None
