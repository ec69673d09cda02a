"""Envelopes: published sizes, and the smallest that takes the flat parts of a kit.

Sources: US sizes in inches as listed at
http://the-uncensored-wiki.com:20082/articles/e/n/v/Envelope_size.html (its inch column; the column
of millimetres beside it is wrong, A2 for one is 111.125 x 146.05 mm and not 110.3 x 144.9), and at
https://dimensionsguide.com/envelope-sizes (A8, A10, booklet and catalogue sizes). ISO 269 sizes in
millimetres as listed at the first, C4 and C5 as in ISO 216's C series.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ..measure import ZERO, Length, System
from ..workshop import Envelope


def _inch(name: str, width: str, height: str) -> Envelope:
    return Envelope(name, Length.inch(width), Length.inch(height))


def _mm(name: str, width: int, height: int) -> Envelope:
    return Envelope(name, Length.mm(width), Length.mm(height))


#: Published sizes; 35/8 in is 4 3/8 in.
PUBLISHED: dict[System, tuple[Envelope, ...]] = {
    System.INCH: (
        _inch("US A2", "35/8", "23/4"),
        _inch("US A6", "19/4", "13/2"),
        _inch("US A7", "21/4", "29/4"),
        _inch("US A8", "11/2", "65/8"),
        _inch("US A10", "6", "19/2"),
        _inch("US No. 6 3/4", "29/8", "13/2"),
        _inch("US No. 9", "31/8", "71/8"),
        _inch("US No. 10", "33/8", "19/2"),
        _inch("US 6 x 9 booklet", "6", "9"),
        _inch("US 9 x 12 booklet", "9", "12"),
        _inch("US 10 x 13 booklet", "10", "13"),
    ),
    System.METRIC: (
        _mm("ISO C6", 114, 162),
        _mm("ISO DL", 110, 220),
        _mm("ISO C6/C5", 114, 229),
        _mm("ISO C5", 162, 229),
        _mm("ISO C4", 229, 324),
    ),
}

#: Room between a flat part and its envelope, in all, each way. Source for inches: the A2 card
#: (4 1/4 x 5 1/2 in, https://stampingimperfection.com/stamping-101-how-to-create-card-layers) in
#: the A2 envelope (4 3/8 x 5 3/4 in). Millimetres: its neighbour on a metric ruler.
EASE = {System.INCH: Length.inch("1/8"), System.METRIC: Length.mm(3)}


def takes(
    envelope: Envelope, parts: Iterable[tuple[Length, Length]], thickness: Length, ease: Length
) -> bool:
    """Whether the envelope takes all flat `parts` (width, height), in one pile so thick.

    Each part lies straight, either way round, with `ease` to spare or the thickness, whichever is
    more: an envelope `w` wide when flat holds what measures at most w - t across when it is t
    thick, since its girth 2 w stays what it is.
    """
    room = max(ease, thickness)
    low, high = sorted((envelope.width, envelope.height))
    return all(
        min(width, height) + room <= low and max(width, height) + room <= high
        for width, height in parts
    )


def smallest(
    envelopes: Iterable[Envelope],
    parts: Sequence[tuple[Length, Length]],
    thickness: Length,
    ease: Length = ZERO,
) -> Envelope | None:
    """The envelope with the least area that takes the parts; None where none does.

    Of two as large, the less long one, then the first. A maker who has measured the walls of an
    envelope has them counted in `thickness` by whoever calls.
    """
    fitting = [one for one in envelopes if takes(one, parts, thickness, ease)]
    return min(
        fitting,
        key=lambda one: (one.width.as_mm * one.height.as_mm, max(one.width, one.height)),
        default=None,
    )
