"""The picture to share."""

import struct
import zlib

import pytest

from snipfold.measure import System
from snipfold.publish.picture_png import files

from .designs import STYLES, design


def chunks(png: bytes) -> dict[bytes, bytes]:
    """The chunks of a PNG by type, joined (W3C PNG, clause 5.3)."""
    found: dict[bytes, bytes] = {}
    at = 8
    while at < len(png):
        (length,) = struct.unpack_from(">I", png, at)
        kind = png[at + 4 : at + 8]
        found[kind] = found.get(kind, b"") + png[at + 8 : at + 8 + length]
        at += 12 + length
    return found


@pytest.mark.parametrize("style", STYLES)
def test_the_picture_is_1600_pixels_wide_and_shows_something(style: str) -> None:
    png = files(design(style, System.INCH), "letter")["box.png"]
    assert png.startswith(b"\x89PNG\r\n\x1a\n")
    parts = chunks(png)
    width, height = struct.unpack_from(">II", parts[b"IHDR"])
    assert width == 1600
    assert 400 < height < 3200
    pixels = zlib.decompress(parts[b"IDAT"])
    assert len(set(pixels[: width * 4 * 400])) > 20


def test_the_same_design_gives_the_same_bytes() -> None:
    made = design("wrap bag", System.METRIC)
    assert files(made, "a4") == files(made, "a4")
