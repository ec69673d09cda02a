"""Reading what makers say of their treats."""

from __future__ import annotations

import re
from fractions import Fraction

from ..measure import MM_PER_INCH, ZERO, Length, MeasureError, System, parse_length
from ..workshop.toml_text import ShareError, parse_share
from .contents import Arrange, Ball, Block, Loose, Round, Rows, Shape, Way

_TREAT = "write a block like 2 1/2 x 1 x 3 in, or “round 2 x 1/2 in”, “ball 1 in”, “loose 250 ml”"
_BETWEEN = re.compile(r"\s*(?:[x×]|\bby\b)\s*", re.IGNORECASE)
_UNIT = re.compile(r"[^\d.,/\s–+&½¼¾⅛⅜⅝⅞⅓⅔-].*$", re.DOTALL)

#: mm3 in a unit of volume, exactly. The US fluid ounce is 231/128 in3 (NIST Handbook 44, appendix
#: C); a litre is 1 dm3 (SI Brochure, 9th edition, table 8).
_MM3 = {
    "ml": Fraction(1000),
    "cl": Fraction(10_000),
    "dl": Fraction(100_000),
    "l": Fraction(1_000_000),
    "litre": Fraction(1_000_000),
    "litres": Fraction(1_000_000),
    "liter": Fraction(1_000_000),
    "liters": Fraction(1_000_000),
    "cm3": Fraction(1000),
    "cm³": Fraction(1000),
    "cc": Fraction(1000),
    "in3": MM_PER_INCH**3,
    "in³": MM_PER_INCH**3,
    "cu in": MM_PER_INCH**3,
    "fl oz": MM_PER_INCH**3 * Fraction(231, 128),
}
_VOLUME = re.compile(r"([\d.,/\s–-]*[\d])\s*(.*)", re.DOTALL)
_LOOSE = "write it like “loose 250 ml” or “loose 15 cu in at 60%”"


def read_treat(text: str, unless_said: System | None = None) -> Shape | Loose:
    """The treat that `text` says.

    A block is width x depth x height as it stands ("2 1/2 x 1 x 3 in"); "round 2 x 1/2 in" is
    across x tall; "ball 1 in"; "loose 250 ml", with "at 60%" for the share of the room that the
    treats themselves fill. A unit said last counts for all. Raises `MeasureError`.
    """
    word, _, rest = text.strip().partition(" ")
    kind = word.casefold().rstrip(":")
    if kind == "loose":
        return _loose(text, rest)
    if kind == "ball":
        (across,) = _sides(text, rest, 1, unless_said)
        return Ball(across)
    if kind == "round":
        across, height = _sides(text, rest, 2, unless_said)
        return Round(across, height)
    width, depth, height = _sides(text, text, 3, unless_said)
    return Block(width, depth, height)


def _sides(text: str, said: str, count: int, system: System | None) -> list[Length]:
    parts = _BETWEEN.split(said.strip())
    if len(parts) != count or not all(parts):
        raise MeasureError(text, "not a treat", _TREAT)
    units = [match[0].strip() if (match := _UNIT.search(part)) else "" for part in parts]
    if any(units) and not units[-1]:
        raise MeasureError(text, "no unit after the last number", f"write {text.strip()} in, or mm")
    sides = [
        parse_length(part if unit else f"{part} {units[-1]}", system)
        for part, unit in zip(parts, units, strict=True)
    ]
    for part, side in zip(parts, sides, strict=True):
        if side <= ZERO:
            raise MeasureError(
                text, f"{part} leaves nothing of the treat", "measure it, and write what you read"
            )
        if side > _LARGEST:
            raise MeasureError(text, f"{part} is larger than any box here", "check the unit")
    return sides


#: Beyond any box of card: a slip of the keyboard or of the unit.
_LARGEST = Length.mm(2000)
_MOST_MM3 = Fraction(2000) ** 3


def _loose(text: str, said: str) -> Loose:
    amount, at, share_said = said.partition(" at ")
    match = _VOLUME.fullmatch(amount.strip())
    if match is None:
        raise MeasureError(text, "no amount", _LOOSE)
    unit = " ".join(match[2].casefold().rstrip(".").split())
    if unit not in _MM3:
        wrong = (
            "cups differ from kitchen to kitchen"
            if unit in ("cup", "cups")
            else f"“{match[2]}” is no unit of volume known here"
            if unit
            else "no unit"
        )
        raise MeasureError(text, wrong, "say it in ml, l, fl oz or cu in")
    # The number is read as any measure's is, and its unit of length taken away again.
    volume = parse_length(f"{match[1].strip()} mm").as_mm * _MM3[unit]
    if not 0 < volume <= _MOST_MM3:
        raise MeasureError(text, f"{amount.strip()} goes into no box here", _LOOSE)
    share = Fraction(1)
    if at:
        try:
            share = parse_share(share_said, 100)
        except ShareError as error:
            raise MeasureError(text, error.wrong, error.right) from None
        if not share:
            raise MeasureError(text, "a share of nothing", _LOOSE)
    return Loose(volume, share)


_COUNTS = re.compile(r"(\d+)\s*(across|deep|high)\b", re.IGNORECASE)
_GRID = re.compile(r"(\d+)\s*[x×]\s*(\d+)(?:\s*[x×]\s*(\d+))?")
_WAYS = {
    "standing": Way.STANDING,
    "lying": Way.LYING,
    "either way": Way.EITHER,
}
_ROWS = {"square": Rows.SQUARE, "staggered": Rows.STAGGERED}
_ARRANGE = (
    "write it like 3 x 2, or with words: 3 across, 2 deep, 2 high; standing, lying or either way; "
    "square or staggered"
)


def read_arrange(text: str) -> Arrange:
    """The arrangement that `text` says, in any order, parted by commas or spaces.

    "3 x 2" is across x deep, "3 x 2 x 2" that and high; "3 across", "2 deep", "2 high" fix one
    each; "standing", "lying" or "either way"; "square" or "staggered". Raises `MeasureError`.
    """
    left = f" {' '.join(text.casefold().replace(',', ' ').replace(';', ' ').split())} "
    counts: dict[str, int] = {}

    def count(where: str, number: str) -> None:
        if where in counts or not 1 <= int(number[:6]) <= 999:
            raise MeasureError(text, f"{number} {where} does not go with the rest", _ARRANGE)
        counts[where] = int(number)

    if match := _GRID.search(left):
        for where, number in zip(("across", "deep", "high"), match.groups(), strict=True):
            if number is not None:
                count(where, number)
        left = left.replace(match[0], " ")
    for match in _COUNTS.finditer(left):
        count(match[2], match[1])
    left = _COUNTS.sub(" ", left)
    ways = [way for word, way in _WAYS.items() if f" {word} " in left]
    rows = [row for word, row in _ROWS.items() if f" {word} " in left]
    for word in (*_WAYS, *_ROWS):
        left = left.replace(f" {word} ", "  ")
    if left.strip() or len(ways) > 1 or len(rows) > 1:
        says = f"“{left.strip()}” is no arrangement" if left.strip() else "two ways at once"
        raise MeasureError(text, says, _ARRANGE)
    return Arrange(
        ways[0] if ways else None,
        rows[0] if rows else Rows.EITHER,
        counts.get("across"),
        counts.get("deep"),
        counts.get("high"),
    )
