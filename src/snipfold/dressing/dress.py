"""`dress`: from what is wished for to all the dressing of one box."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..folding import Pose, Treat
from ..measure import ZERO, Length, Ruler, System
from ..styles import Construction
from ..workshop import Adhesive
from .dressing import Dressing
from .mats import make_mats
from .straps import make_strap
from .strips import make_strips
from .wishes import MatWish, StrapWish


def dress(
    construction: Construction,
    poses: Mapping[str, Pose],
    mats: MatWish,
    strap: StrapWish,
    treats: Sequence[Treat],
    tape: Adhesive,
    mat_adhesive: Adhesive,
    ruler: Ruler,
    system: System,
    strap_sheet: Length | None,
    *,
    thickness: Length = ZERO,
) -> Dressing:
    """All the dressing of one box: mats, strap, and every strip of adhesive.

    `poses` are the closed pieces by name, `ruler` what the maker measures with, `strap_sheet` the
    longest strip that the strap's sheet gives (None where it does not matter), `thickness` that
    of the piece the strap is stuck to (it lies on the outside of both walls). `findings` says
    what of the wishes could not be had as asked; whether the dressing keeps off scores and glue
    and holds is for `check_dressing`, and no finding comes from both.
    """
    made, about_mats = make_mats(construction, poses, mats, ruler, system)
    band, about_strap = make_strap(
        construction, poses, strap, treats, ruler, system, strap_sheet, thickness
    )
    return Dressing(
        tuple(made),
        band,
        tuple(make_strips(construction, made, band, tape, mat_adhesive, system)),
        (*about_mats, *about_strap),
    )
