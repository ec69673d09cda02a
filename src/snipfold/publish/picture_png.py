"""The picture of the finished box as PNG."""

from __future__ import annotations

import resvg_py

from ..drawing import folded_picture
from ..project import Design
from .type_faces import font_files
from .typesetting import printable_svg

#: Pixels across: enough for a shared picture, small enough to send.
WIDTH_PX = 1600
_DPI = 254.0


def files(design: Design, page: str) -> dict[str, bytes]:
    """The picture, as `box.png`."""
    return {"box.png": box_png(design)}


def box_png(design: Design, width_px: int = WIDTH_PX) -> bytes:
    """The finished box, `width_px` pixels wide, on white."""
    drawing = folded_picture(design)
    return bytes(
        resvg_py.svg_to_bytes(
            svg_string=printable_svg(drawing),
            width=width_px,
            # Sizes in mm mean nothing to the renderer without a resolution.
            dpi=_DPI,
            background="#FFFFFF",
            skip_system_fonts=True,
            font_files=font_files(),
        )
    )
