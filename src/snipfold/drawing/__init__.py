"""Pictures as vector drawings: one hand draws the guide, the templates and the cut files."""

from .blank import blank_picture
from .flatwork import mats_picture, snip_picture, tape_picture
from .folded import folded_picture
from .legend import legend
from .pens import Pen, RecordingPen
from .scene import Drawing, draw
from .scoring import ruler_picture, scoring_picture
from .sheet import mat_sheet, sheet_picture
from .steps import step_picture
from .strap import strap_picture
from .svg import SvgPen, svg
from .template import scale_check, template_drawing
from .views import BACK_LEFT, BACK_RIGHT, FRONT_LEFT, FRONT_RIGHT, View

__all__ = [
    "BACK_LEFT",
    "BACK_RIGHT",
    "FRONT_LEFT",
    "FRONT_RIGHT",
    "Drawing",
    "Pen",
    "RecordingPen",
    "SvgPen",
    "View",
    "blank_picture",
    "draw",
    "folded_picture",
    "legend",
    "mat_sheet",
    "mats_picture",
    "ruler_picture",
    "scale_check",
    "scoring_picture",
    "sheet_picture",
    "snip_picture",
    "step_picture",
    "strap_picture",
    "svg",
    "tape_picture",
    "template_drawing",
]
