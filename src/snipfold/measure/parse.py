"""Reading the measures that makers write."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

from .length import Length
from .system import System


@dataclass
class MeasureError(ValueError):
    """A measure that cannot be read, or could be read in two ways.

    `text` is what was read, `reason` what is wrong with it, `advice` what would be right.
    """

    text: str
    reason: str
    advice: str

    def __str__(self) -> str:
        return f"“{self.text}”: {self.reason}; {self.advice}"


_UNITS = {
    "in": "in", "in.": "in", "inch": "in", "inches": "in", '"': "in", "″": "in", "”": "in",
    "“": "in", "''": "in", "’’": "in", "′′": "in",
    "mm": "mm", "mm.": "mm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm",
    "millimeters": "mm",
    "cm": "cm", "cm.": "cm", "centimetre": "cm", "centimetres": "cm", "centimeter": "cm",
    "centimeters": "cm",
}  # fmt: skip
_OTHER_UNITS = {
    "'": "feet", "’": "feet", "′": "feet", "ft": "feet", "foot": "feet", "feet": "feet",
    "m": "metres", "metre": "metres", "metres": "metres", "meter": "metres", "meters": "metres",
    "pt": "points", "px": "pixels", "yd": "yards", "dm": "decimetres",
}  # fmt: skip
_MM_PER = {"in": Fraction(127, 5), "cm": Fraction(10), "mm": Fraction(1)}
_DEFAULT_UNIT = {System.INCH: "in", System.METRIC: "mm"}
_MIXED = re.compile(r"(\d+)(?:\s*[-–+&]\s*|\s+)(\d+)\s*/\s*(\d+)")
_FRACTION = re.compile(r"(\d+)\s*/\s*(\d+)")
_DECIMAL = re.compile(r"(\d*)([.,]?)(\d*)")
_SPLIT = re.compile(r"^(?P<number>[-−+]?\s*[\d.,/\s–+&-]*)(?P<unit>.*)$", re.DOTALL)
#: No measure at a craft table has more digits; longer ones are slips of the keyboard.
_LONGEST_TEXT = 40


def _plain(text: str) -> str:
    """The text with one-character fractions written out ("3⅞" as "3 7/8")."""
    out: list[str] = []
    for character in text:
        decomposed = unicodedata.normalize("NFKC", character)
        if "⁄" in decomposed and len(decomposed) > 1:
            if out and out[-1][-1:].isdigit():
                out.append(" ")
            out.append(decomposed.replace("⁄", "/"))
        elif character in "⁄∕":
            out.append("/")
        else:
            out.append(character if character.isspace() is False else " ")
    return "".join(out).strip()


def _value(number: str, text: str) -> Fraction:
    if match := _MIXED.fullmatch(number):
        whole, top, bottom = (int(group) for group in match.groups())
        if bottom == 0:
            raise MeasureError(text, "a fraction over zero", "write it like 3 7/8")
        if top >= bottom:
            raise MeasureError(
                text,
                f"{top}/{bottom} after a whole number is not less than one",
                "write the whole inches and what is left over, like 3 7/8",
            )
        return whole + Fraction(top, bottom)
    if match := _FRACTION.fullmatch(number):
        top, bottom = (int(group) for group in match.groups())
        if bottom == 0:
            raise MeasureError(text, "a fraction over zero", "write it like 7/8")
        if top > bottom:
            lost = f"{str(top)[0]} {str(top)[1:]}/{bottom}" if top >= 10 else ""
            kept = Fraction(top, bottom)
            whole = kept.__floor__()
            meant = f"{whole} {kept - whole}" if kept != whole else str(whole)
            raise MeasureError(
                text,
                "could be a whole number and a fraction with the space lost",
                f"write {lost + ' or ' if lost else ''}{meant}, whichever is meant",
            )
        return Fraction(top, bottom)
    match = _DECIMAL.fullmatch(number)
    if match is None or not (match[1] or match[3]) or (match[2] and not match[3]):
        raise MeasureError(text, "not a measure", "write it like 3 7/8 in, 3.875 in or 98 mm")
    if match[2] == "," and len(match[3]) == 3 and match[1] not in ("", "0"):
        raise MeasureError(
            text,
            "the comma could part thousands or mark decimals",
            f"write {match[1]}{match[3]} or {match[1]}.{match[3]}, whichever is meant",
        )
    return Fraction(f"{match[1] or '0'}.{match[3] or '0'}")


def parse_length(text: str, unless_said: System | None = None) -> Length:
    """The exact length that `text` says.

    Takes fractions ("3 7/8 in", '3-7/8"', "½ in"), decimals with a point or a comma ("3.875 in",
    "9,8 cm") in inches, centimetres or millimetres. A bare number is inches or millimetres where
    `unless_said` says which, otherwise an error. A leading minus is read, so that whoever asked
    can say what is wrong with it. Raises `MeasureError` for anything else, and for anything that
    could be read in two ways ("31/2", "1,250 mm").

    >>> parse_length('3-7/8"') == Length.inch("31/8")
    True
    """
    shown = text if len(text) <= _LONGEST_TEXT else text[: _LONGEST_TEXT - 1] + "…"
    plain = _plain(text)
    if not plain:
        raise MeasureError(shown, "empty", "write a measure like 3 7/8 in or 98 mm")
    if len(plain) > _LONGEST_TEXT:
        raise MeasureError(shown, "too long for a measure", "write it like 3 7/8 in or 98 mm")
    match = _SPLIT.match(plain)
    number, unit_text = (match["number"].strip(), match["unit"].strip()) if match else ("", plain)
    if not number or not unit_text.isprintable():
        raise MeasureError(shown, "not a measure", "write it like 3 7/8 in or 98 mm")
    unit_key = unit_text.casefold()
    if unit_key in _OTHER_UNITS:
        raise MeasureError(
            shown, f"{_OTHER_UNITS[unit_key]} are not used here", "write it in in, cm or mm"
        )
    if unit_key == "":
        if unless_said is None:
            raise MeasureError(shown, "no unit", f"write {number} in, {number} cm or {number} mm")
        unit = _DEFAULT_UNIT[unless_said]
    elif unit_key in _UNITS:
        unit = _UNITS[unit_key]
    else:
        raise MeasureError(
            shown, f"“{unit_text}” is no unit known here", "write a measure like 3 7/8 in or 98 mm"
        )
    negative = number[0] in "-−"
    digits = number[1:].strip() if number[0] in "-−+" else number
    if not digits.isascii():
        digits = unicodedata.normalize("NFKC", digits).replace("–", "-")
    value = _value(digits, shown) * _MM_PER[unit]
    return Length.mm(-value if negative else value)


def parse_size(text: str, unless_said: System | None = None) -> tuple[Length, Length]:
    """Width and height from a size such as "8 1/2 x 11 in" or "30.5 × 30.5 cm".

    A unit said once, after the second number, counts for both; one that is said only after the
    first could mean either. Raises `MeasureError`.
    """
    parts = re.split(r"\s*(?:[x×]|\bby\b)\s*", text.strip(), flags=re.IGNORECASE)
    if len(parts) != 2 or not all(parts):
        raise MeasureError(text, "not a size", "write width x height, like 8 1/2 x 11 in")
    units = []
    for part in parts:
        match = _SPLIT.match(_plain(part))
        units.append(match["unit"].strip() if match else "")
    if units[0] and not units[1]:
        raise MeasureError(
            text, "no unit after the second number", f"write {text.strip()} {units[0]}"
        )
    first = parse_length(parts[0] if units[0] else f"{parts[0]} {units[1]}", unless_said)
    return first, parse_length(parts[1], unless_said)
