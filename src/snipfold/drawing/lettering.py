"""How wide words and figures run, and how fractions are set."""

from __future__ import annotations

import re

#: mm in a typographic point (1/72 in).
POINT_MM = 25.4 / 72
#: The height of capitals and figures, in parts of the type size (OS/2 table of Source Sans Pro).
CAPITAL = 0.66
FAMILY = "Source Sans Pro"
REGULAR, BOLD = 400, 600

#: Advance widths of the characters from the space to "~", thousandths of the type size (hmtx table
#: of Source Sans Pro Regular and Semibold).
_REGULAR = (
    200, 289, 426, 497, 497, 824, 609, 249, 303, 303, 418, 497, 249, 311, 249, 350, 497, 497, 497,
    497, 497, 497, 497, 497, 497, 497, 249, 249, 497, 497, 497, 425, 847, 544, 588, 571, 615, 527,
    494, 617, 652, 263, 480, 579, 486, 727, 647, 664, 566, 664, 569, 534, 536, 645, 515, 786, 513,
    476, 539, 303, 350, 303, 497, 500, 542, 504, 553, 456, 555, 496, 292, 504, 544, 246, 247, 495,
    255, 829, 547, 542, 555, 555, 347, 419, 338, 544, 467, 718, 446, 467, 425, 303, 241, 303, 497,
)  # fmt: skip
_BOLD = (
    200, 315, 482, 513, 513, 841, 639, 275, 324, 324, 438, 513, 275, 322, 275, 344, 513, 513, 513,
    513, 513, 513, 513, 513, 513, 513, 275, 275, 513, 513, 513, 444, 875, 558, 597, 576, 625, 538,
    510, 628, 663, 282, 494, 597, 502, 745, 656, 674, 582, 674, 592, 545, 546, 655, 536, 800, 541,
    501, 540, 324, 344, 324, 513, 500, 549, 516, 563, 462, 564, 507, 317, 520, 558, 262, 263, 522,
    271, 843, 560, 549, 564, 564, 373, 431, 361, 556, 495, 748, 481, 495, 443, 324, 255, 324, 513,
)  # fmt: skip
#: A figure of a fraction, and the slash (the font's numr and dnom figures; same source).
_SMALL_FIGURE = {REGULAR: 367, BOLD: 372}
_SLASH = {REGULAR: 86, BOLD: 91}
#: Characters outside the table are taken as wide as a figure.
_OTHER = {REGULAR: 497, BOLD: 513}

#: Fractions are set this much larger, so that their figures reach from the baseline to the height
#: of capitals and read at arm's length.
FRACTION_SIZE = 1.18
#: The space between whole and fraction, in parts of the type size.
GAP_SIZE = 0.25

_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉", "01234567890123456789")
_TYPESET = re.compile(r"(\d?)([⁰¹²³⁴⁵⁶⁷⁸⁹]+)⁄([₀₁₂₃₄₅₆₇₈₉]+)")
_FRACTION = re.compile(r"(?:(?<=\d) )?\d+⁄\d+")


def plain_figures(text: str) -> str:
    """`text` with raised and lowered figures made plain about their slash: "3⁷⁄₈" as "3 7⁄8".

    Plain figures about a fraction slash are what a shaper turns into the font's own fraction
    figures; raised and lowered ones stand too far above and below the line.

    >>> plain_figures("11¹⁵⁄₁₆ by ½")
    '11 15⁄16 by ½'
    """

    def plain(match: re.Match[str]) -> str:
        whole, top, bottom = match.groups()
        gap = f"{whole} " if whole else ""
        return f"{gap}{top.translate(_RAISED)}⁄{bottom.translate(_RAISED)}"

    return _TYPESET.sub(plain, text)


def runs(text: str) -> list[tuple[str, bool]]:
    """The runs of a text as written by `plain_figures`, each with whether it is a fraction.

    A fraction's run starts with the narrow space that parts it from its whole number.

    >>> runs("3 7⁄8 in")
    [('3', False), (' 7⁄8', True), (' in', False)]
    """
    found: list[tuple[str, bool]] = []
    end = 0
    for match in _FRACTION.finditer(text):
        if match.start() > end:
            found.append((text[end : match.start()], False))
        found.append((match[0], True))
        end = match.end()
    if end < len(text):
        found.append((text[end:], False))
    return found


def width_mm(text: str, size_pt: float, weight: int = REGULAR) -> float:
    """How wide a text runs at a type size, mm (kerning left out, which only tightens it)."""
    table = _BOLD if weight == BOLD else _REGULAR
    total = 0.0
    for run, fraction in runs(plain_figures(text)):
        for character in run:
            place = ord(character) - 32
            if fraction and character == " ":
                total += GAP_SIZE * table[0]
            elif fraction:
                one = _SLASH[weight] if character == "⁄" else _SMALL_FIGURE[weight]
                total += FRACTION_SIZE * one
            else:
                total += table[place] if 0 <= place < len(table) else _OTHER[weight]
    return total / 1000 * size_pt * POINT_MM
