"""What goes on the box: mats, straps, and the adhesive under everything."""

from .check import adhesive_findings, check_dressing
from .dress import dress
from .dressing import (
    COVER_STAGE,
    MAT_STAGE,
    STRAP_STAGE,
    TAPE_STAGE,
    Dressing,
    Mark,
    Mat,
    Strap,
    Strip,
)
from .mats import has_visible_outside
from .names import panel_key, panel_keys
from .straps import least_free
from .strips import mat_run
from .wishes import MatWish, StrapWish

__all__ = [
    "COVER_STAGE",
    "MAT_STAGE",
    "STRAP_STAGE",
    "TAPE_STAGE",
    "Dressing",
    "Mark",
    "Mat",
    "MatWish",
    "Strap",
    "StrapWish",
    "Strip",
    "adhesive_findings",
    "check_dressing",
    "dress",
    "has_visible_outside",
    "least_free",
    "mat_run",
    "panel_key",
    "panel_keys",
]
