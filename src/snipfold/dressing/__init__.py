"""What goes on the box: mats, straps, and the adhesive under everything."""

from .dressing import Dressing, Mark, Mat, Strap, Strip
from .wishes import MatWish, StrapWish

__all__ = ["Dressing", "Mark", "Mat", "MatWish", "Strap", "StrapWish", "Strip"]
