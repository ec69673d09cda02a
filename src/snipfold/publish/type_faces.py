"""The type that every page is set in: where its files are, and which characters it has."""

from __future__ import annotations

import struct
import unicodedata
from functools import lru_cache
from pathlib import Path

import font_source_sans_pro
import font_source_serif_pro

SANS = "Source Sans Pro"
SERIF = "Source Serif Pro"

#: Stands for a character that the type lacks (the one empty box that it has, U+2610).
LACKING = "☐"

#: The title of what has no name that can be seen.
_NO_NAME = "No name"

#: Joins the signs of a family or a flag into one (U+200D, zero width joiner).
_JOINER = "\u200d"

#: The weights in which text that a maker writes may be set.
_SANS_FILES = ("SourceSansPro-Regular.ttf", "SourceSansPro-Semibold.ttf")
_SERIF_FILES = ("SourceSerifPro-Regular.ttf", "SourceSerifPro-Semibold.ttf")


def font_folders() -> list[str]:
    """The folders that hold the font files."""
    return [font_source_sans_pro.font_directory, font_source_serif_pro.font_directory]


def font_files() -> list[str]:
    """The font files that pictures need."""
    return [str(Path(font_source_sans_pro.font_directory, name)) for name in _SANS_FILES]


def printable(text: str) -> str:
    """The text with every character that the type lacks replaced by "☐".

    What belongs to the character before it (a loose accent, a skin tone, the rest of a family
    joined to one sign) goes with it. White space becomes plain spaces; signs that nobody sees are
    left out.

    >>> printable("Zoë's 中文 box")
    "Zoë's ☐☐ box"
    """
    if text.isascii() and text.isprintable():
        return text
    has = _characters()
    out: list[str] = []
    joined = False
    for character in unicodedata.normalize("NFC", text):
        kind = unicodedata.category(character)
        if character.isspace():
            out.append(character if character == "\u00a0" else " ")
        elif kind in ("Cf", "Cc", "Cs"):
            joined = character == _JOINER
        elif ord(character) in has:
            out.append(character)
            joined = False
        elif joined or kind.startswith("M") or kind == "Sk":
            joined = False
        else:
            out.append(LACKING)
    return "".join(out)


def title(text: str) -> str:
    """The text as a title: printable, and never empty."""
    return printable(text).strip() or _NO_NAME


@lru_cache(maxsize=1)
def _characters() -> frozenset[int]:
    """The characters that every face has in which a maker's text is set."""
    folders = font_folders()
    sans = [_covered(Path(folders[0], name)) for name in _SANS_FILES]
    serif = [_covered(Path(folders[1], name)) for name in _SERIF_FILES]
    return frozenset.intersection(*sans, *serif)


def _covered(file: Path) -> frozenset[int]:
    """The characters in a font's character map.

    Source: OpenType specification, table "cmap", subtable formats 4 and 12.
    """
    data = file.read_bytes()
    (tables,) = struct.unpack_from(">H", data, 4)
    start = next(
        struct.unpack_from(">I", data, 12 + 16 * k + 8)[0]
        for k in range(tables)
        if data[12 + 16 * k : 16 + 16 * k] == b"cmap"
    )
    (count,) = struct.unpack_from(">H", data, start + 2)
    found: set[int] = set()
    for k in range(count):
        (offset,) = struct.unpack_from(">I", data, start + 4 + 8 * k + 4)
        at = start + offset
        (form,) = struct.unpack_from(">H", data, at)
        if form == 4:
            found |= _segments(data, at)
        elif form == 12:
            (groups,) = struct.unpack_from(">I", data, at + 12)
            for g in range(groups):
                first, last, _ = struct.unpack_from(">III", data, at + 16 + 12 * g)
                found.update(range(first, last + 1))
    return frozenset(found)


def _segments(data: bytes, at: int) -> set[int]:
    (twice,) = struct.unpack_from(">H", data, at + 6)
    count = twice // 2
    ends = struct.unpack_from(f">{count}H", data, at + 14)
    starts = struct.unpack_from(f">{count}H", data, at + 16 + twice)
    deltas = struct.unpack_from(f">{count}h", data, at + 16 + 2 * twice)
    ranges_at = at + 16 + 3 * twice
    ranges = struct.unpack_from(f">{count}H", data, ranges_at)
    found = set()
    for k in range(count):
        for code in range(starts[k], ends[k] + 1):
            if code == 0xFFFF:
                continue
            if ranges[k] == 0:
                glyph = (code + deltas[k]) & 0xFFFF
            else:
                place = ranges_at + 2 * k + ranges[k] + 2 * (code - starts[k])
                (glyph,) = struct.unpack_from(">H", data, place)
            if glyph:
                found.add(code)
    return found
