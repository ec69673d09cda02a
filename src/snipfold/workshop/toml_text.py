"""Reading a maker's TOML file: every value with its line, every mistake as a `Problem`.

Numbers stay exact: decimals are read as `Decimal`, never as floats.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, time
from decimal import Decimal
from difflib import get_close_matches
from fractions import Fraction
from typing import Any, TypeVar

from ..findings import Mend, Problem, ProjectFileError
from ..measure import ZERO, Length, MeasureError, System, parse_length, parse_size, words
from .key_lines import Path, key_lines

T = TypeVar("T")

#: bytes. The longest project a maker would write has a hundredth of that.
MOST_BYTES = 1_000_000
#: No measure on a craft table is longer; one that is has lost its point or its unit.
LONGEST = {System.INCH: Length.inch(200), System.METRIC: Length.mm(5000)}
_BARE_UNIT = {System.INCH: "in", System.METRIC: "mm"}
#: Characters of a name; longer ones do not fit a picture's caption.
_LONGEST_NAME = 80
_LONGEST_NOTES = 4000
#: Digits of a number; more are a slip of the keyboard.
_MOST_DIGITS = 18
_PRICE = re.compile(r"(\d{1,9})(?:[.,](\d{1,2}))?")
_AMOUNT = re.compile(r"\d{1,9}(?:[.,]\d{1,9})?")
_TIME = re.compile(
    r"(\d{1,6}(?:[.,]\d{1,6})?)\s*(s|secs?|seconds?|m|mins?|minutes?)?\.?", re.IGNORECASE
)
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")
_LONGEST_MINUTES = 24 * 60
_AT = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")


def text_of(data: bytes, source: str) -> str:
    """The text of a file's bytes. Raises `ProjectFileError` for what is no text or far too long.

    A byte order mark at the beginning is dropped.
    """
    if len(data) > MOST_BYTES:
        raise _refusal(
            source, 0, "more than 1 MB, too long for a file of measures", "give a TOML file"
        )
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise _refusal(source, 0, "saved as UTF-16", "save the file as UTF-8")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise _refusal(source, line, "not plain text in UTF-8", "save the file as UTF-8") from None
    if "\0" in text:
        line = text.count("\n", 0, text.index("\0")) + 1
        raise _refusal(source, line, "not a text file", "give a TOML file")
    return text


def _refusal(source: str, line: int, wrong: str, right: str) -> ProjectFileError:
    return ProjectFileError((Problem(source, line, "", "", wrong, right),))


def read_toml(text: str, source: str) -> Table:
    """The top table of a TOML text. Raises `ProjectFileError` where it is no TOML."""
    text = text.removeprefix("\ufeff")
    if len(text) > MOST_BYTES:
        raise _refusal(
            source, 0, "more than 1 MB, too long for a file of measures", "give a TOML file"
        )
    if not text.strip():
        raise _refusal(source, 1, "the file is empty", "start one with `snipfold new`")
    try:
        values = tomllib.loads(text, parse_float=Decimal)
    except RecursionError:
        raise _refusal(source, 0, "brackets within brackets without end", "close them") from None
    except ValueError as error:
        raise ProjectFileError((_broken(text, source, error),)) from None
    return Table(_Sheet(source, key_lines(text).lines), (), values)


_SPACED = re.compile(r"[\w-]+([ \t]+[\w-]+)+\s*=")

#: What the standard reader says of broken TOML, and what a maker should hear.
_SAID = (
    ("Expected '='", "no “=” after the name", 'write it as name = "value"'),
    ("Expected newline", "more after the value than belongs there",
     'put words and measures in quotes, like width = "3 7/8 in"'),
    ("Invalid date", "no such day", "write it like 2026-09-05"),
    ("Invalid value", "neither quoted words, a number, true nor false",
     'put words and measures in quotes, like width = "3 7/8 in"'),
    ("Illegal character '\\n'", "a quote that is not closed", 'close it with "'),
    ("Unterminated string", "a quote that is not closed", 'close it with "'),
    ("Illegal character", "a character that a text file cannot hold", "delete it"),
    ("Unclosed", "a bracket that is not closed", "close it"),
    ("Expected ']'", "a heading that is not closed", "write it like [measures]"),
    ("Invalid initial character for a key part", "a name with signs in it that a name cannot have",
     'put the name in quotes, like "base front wall" = "1/8 in"'),
    ("Unescaped", "a backslash that stands for nothing", "write \\\\ for a backslash"),
)  # fmt: skip


def _broken(text: str, source: str, error: ValueError) -> Problem:
    for path, first, second in key_lines(text).doubled:
        return Problem(
            source, second, field_name(path), "",
            f"stands on line {first} and again on line {second}", "keep one of the two",
        )  # fmt: skip
    said = str(error)
    place = _AT.search(said)
    lines = text.splitlines() or [""]
    line = int(place[1]) if place and place[1] else len(lines) if place else 0
    if not place:
        # Only a number too long for the reader comes without its place.
        digits = re.search(r"[0-9_]{1000,}", text)
        line = text.count("\n", 0, digits.start()) + 1 if digits else 0
    # An open quote is noticed at the end of its line, which may count as the next one.
    read = lines[line - 1].strip() if 0 < line <= len(lines) else ""
    read = read if len(read) <= 60 else read[:59] + "…"
    if "end of document" in said and read.endswith(("[", ",", "{")):
        return Problem(source, line, "", read, "a bracket that is not closed", "close it")
    if _SPACED.match(read):
        right = 'put the name in quotes, like "base front wall" = "1/8 in"'
        return Problem(source, line, "", read, "a name of several words", right)
    for begins, wrong, right in _SAID:
        if said.startswith(begins):
            return Problem(source, line, "", read, wrong, right)
    return Problem(source, line, "", read, "not written as TOML", "see https://toml.io")


def field_name(path: Path) -> str:
    """A path as findings and mends write it: "measures.height", "contents.2.width".

    Elements of an array count from one; a key with a dot in it is quoted.

    >>> field_name(("contents", 0, "width"))
    'contents.1.width'
    """
    return ".".join(
        str(part + 1) if isinstance(part, int) else f'"{part}"' if "." in part else part
        for part in path
    )


def nearest(name: str, known: Iterable[str]) -> str:
    """The known name that looks most like `name`, or "" where none does."""
    by_fold = {one.casefold(): one for one in known}
    found = get_close_matches(name.casefold(), by_fold, 1, 0.5)
    return by_fold[found[0]] if found else ""


def one_of(name: str, known: Iterable[str]) -> str:
    """Advice for a name that is not known: the nearest, or all of them."""
    names = list(known)
    if meant := nearest(name, names):
        return f"did you mean “{meant}”?"
    return f"known: {', '.join(names)}" if names else "leave it out"


@dataclass
class _Sheet:
    """What all tables of one file share."""

    source: str
    lines: Mapping[Path, int]
    problems: list[Problem] = field(default_factory=list)


class Table:
    """One table of the file. Each reading method returns the value, or None with a problem noted.

    A key counts as known once it was asked for; `finish` notes a problem for every other one.
    """

    def __init__(self, sheet: _Sheet, path: Path, values: Mapping[str, Any]) -> None:
        self._sheet = sheet
        self.path = path
        self._values = values
        self._asked: dict[str, None] = {}

    @property
    def keys(self) -> list[str]:
        """The keys that the file sets in this table, in order."""
        return list(self._values)

    @property
    def values(self) -> Mapping[str, Any]:
        """Everything in this table as TOML gives it."""
        return self._values

    @property
    def problems(self) -> list[Problem]:
        """Every problem noted so far, in any table of the file, in reading order."""
        return sorted(self._sheet.problems, key=lambda problem: problem.line)

    @property
    def lines(self) -> Mapping[Path, int]:
        """The line of every key of the file, by path."""
        return self._sheet.lines

    def __contains__(self, key: str) -> bool:
        return key in self._values

    def line(self, *keys: str | int) -> int:
        """The line of a key below this table; the table's own where the file leaves it out."""
        path = (*self.path, *keys)
        while path and path not in self._sheet.lines:
            path = path[:-1]
        return self._sheet.lines.get(path, 1)

    def problem(
        self, keys: Sequence[str | int], read: str, wrong: str, right: str, mend: Mend | None = None
    ) -> None:
        """Note what is wrong with a key below this table."""
        read = read if len(read) <= _LONGEST_NAME else read[: _LONGEST_NAME - 1] + "…"
        name = field_name((*self.path, *keys))
        self._sheet.problems.append(
            Problem(self._sheet.source, self.line(*keys), name, read, wrong, right, mend)
        )

    def finish(self) -> None:
        """Note a problem for every key that nobody asked for."""
        for key in self._values:
            if key not in self._asked:
                self.problem((key,), "", f"no “{key}” is known here", one_of(key, self._asked))

    def raw(self, key: str) -> Any:
        """The value as TOML gives it, or None where the file leaves it out."""
        self._asked[key] = None
        return self._values.get(key)

    def _wrong_kind(self, keys: Sequence[str | int], value: object, right: str) -> None:
        self.problem(keys, shown(value), f"{_kind(value)} where none belongs", right)

    def table(self, key: str) -> Table:
        """The table of that name; an empty one where the file leaves it out."""
        value = self.raw(key)
        if value is None:
            value = {}
        elif not isinstance(value, dict):
            self._wrong_kind((key,), value, f"write [{key}] and its measures below it")
            value = {}
        return Table(self._sheet, (*self.path, key), value)

    def tables(self, key: str, most: int) -> list[Table]:
        """The tables of an array of tables, at most `most`."""
        value = self.raw(key)
        if value is None:
            return []
        if not isinstance(value, list):
            right = f"write [[{key}]], with double brackets"
            self._wrong_kind((key,), value, right)
            return []
        if len(value) > most:
            self.problem((key,), "", f"{len(value)} of them", f"give at most {most}")
            return []
        made = []
        for number, item in enumerate(value):
            if isinstance(item, dict):
                made.append(Table(self._sheet, (*self.path, key, number), item))
            else:
                self._wrong_kind((key, number), item, f"write [[{key}]], with double brackets")
        return made

    def words(self, key: str, *, notes: bool = False) -> str | None:
        """A name of one line, or with `notes` several lines of text."""
        value = self.raw(key)
        if value is None:
            return None
        if not isinstance(value, str):
            self._wrong_kind((key,), value, f'write words in quotes, like {key} = "…"')
            return None
        most = _LONGEST_NOTES if notes else _LONGEST_NAME
        text = value.strip()
        if not text and not notes:
            self.problem((key,), "", "empty", f'write words in quotes, like {key} = "…"')
        elif len(text) > most:
            self.problem((key,), text, f"{len(text)} letters", f"keep it to {most}")
        elif not all(
            c.isprintable() or (notes and c in "\n\t") for c in text.replace("\r\n", "\n")
        ):
            self.problem((key,), text, "holds a character that cannot be printed", "delete it")
        else:
            return text.replace("\r\n", "\n")
        return None

    def choice(self, key: str, known: Mapping[str, T]) -> T | None:
        """What one of the known words stands for."""
        value = self.raw(key)
        if value is None:
            return None
        names = " or ".join(f'"{name}"' for name in known)
        if not isinstance(value, str):
            self._wrong_kind((key,), value, f"write {names}")
            return None
        found = {name.casefold(): meant for name, meant in known.items()}
        if value.strip().casefold() not in found:
            guess = nearest(value, known)
            right = f"did you mean “{guess}”? Write {names}" if guess else f"write {names}"
            self.problem((key,), value, "not one of the words known here", right)
            return None
        return found[value.strip().casefold()]

    def yes_no(self, key: str) -> bool | None:
        """True or false."""
        value = self.raw(key)
        if value is None or isinstance(value, bool):
            return value
        self._wrong_kind((key,), value, "write true or false, without quotes")
        return None

    def count(self, key: str, most: int, what: str, *, zero: bool = False) -> int | None:
        """A whole number of `what` ("sheets"), from one (with `zero`, from zero) to `most`."""
        value = self.raw(key)
        if value is None:
            return None
        least = 0 if zero else 1
        right = f"write a whole number from {least} to {most}, like {key} = {min(12, most)}"
        if isinstance(value, bool) or not isinstance(value, int):
            self.problem((key,), shown(value), f"not a number of {what}", right)
        elif value < least:
            self.problem(
                (key,), shown(value), f"{'no' if not value else 'less than no'} {what}", right
            )
        elif value > most:
            self.problem((key,), shown(value), f"more than {most} {what}", right)
        else:
            return value
        return None

    def price(self, key: str) -> Decimal | None:
        """A price: nothing or more, to the hundredth."""
        value = self.raw(key)
        if value is None:
            return None
        text = value.strip() if isinstance(value, str) else _plain_number(value)
        if match := _PRICE.fullmatch(text):
            return Decimal(f"{match[1]}.{match[2] or '0'}")
        below = text.startswith(("-", "\u2212")) and _PRICE.fullmatch(text[1:].strip())
        wrong = "less than nothing" if below else "not a price"
        self.problem((key,), shown(value), wrong, 'write it like "4.50"')
        return None

    def share(self, key: str, most: int, *, under: bool = False) -> Fraction | None:
        """A share such as "10%": from 0 to `most` per cent (with `under`, less than that)."""
        value = self.raw(key)
        if value is None:
            return None
        try:
            return parse_share(value, most, under=under)
        except ShareError as error:
            self.problem((key,), shown(value), error.wrong, error.right)
            return None

    def amount(self, key: str, unit: str, most: int) -> Fraction | None:
        """A number above zero of `unit` ("g"), bare or with the unit behind it, up to `most`."""
        value = self.raw(key)
        if value is None:
            return None
        text = value.strip() if isinstance(value, str) else _plain_number(value)
        text = text.removesuffix(unit).strip()
        right = f'write it like {key} = "9.5 {unit}"'
        if not _AMOUNT.fullmatch(text):
            self.problem((key,), shown(value), f"not a number of {unit}", right)
            return None
        number = Fraction(text.replace(",", "."))
        if not 0 < number <= most:
            wrong = "nothing" if not number else f"more than {most} {unit}"
            self.problem((key,), shown(value), wrong, right)
            return None
        return number

    def minutes(self, key: str) -> Fraction | None:
        """A time such as "30 s" or "1.5 min"; a bare number counts in minutes."""
        value = self.raw(key)
        if value is None:
            return None
        text = value.strip() if isinstance(value, str) else _plain_number(value)
        match = _TIME.fullmatch(text)
        if match is None:
            self.problem((key,), shown(value), "not a time", 'write it like "30 s" or "1.5 min"')
            return None
        number = Fraction(match[1].replace(",", "."))
        minutes = number / 60 if (match[2] or "m").casefold().startswith("s") else number
        if minutes > _LONGEST_MINUTES:
            self.problem((key,), shown(value), "longer than a day", 'write it like "30 s"')
            return None
        return minutes

    def days(self, key: str, most: int = 60) -> tuple[date, ...]:
        """A day, or a list of days, such as 2026-09-05."""
        value = self.raw(key)
        if value is None:
            return ()
        listed = value if isinstance(value, list) else [value]
        if len(listed) > most:
            self.problem((key,), "", f"{len(listed)} of them", f"give at most {most}")
            return ()
        days = []
        for number, item in enumerate(listed):
            keys = (key, number) if isinstance(value, list) else (key,)
            day = self._day(keys, item)
            if day is not None:
                days.append(day)
        return tuple(days)

    def _day(self, keys: Sequence[str | int], value: object) -> date | None:
        right = f"write it like {keys[0]} = 2026-09-05"
        if isinstance(value, datetime):
            self.problem(keys, shown(value), "a time of day, where a whole day belongs", right)
        elif isinstance(value, date):
            return value
        elif isinstance(value, str) and _DAY.fullmatch(value.strip()):
            try:
                return date.fromisoformat(value.strip())
            except ValueError:
                self.problem(keys, value, "no such day", right)
        else:
            self.problem(keys, shown(value), "not a day", right)
        return None

    def names(self, key: str) -> list[tuple[int, str]]:
        """A list of names, each with its number from zero."""
        value = self.raw(key)
        if value is None:
            return []
        if isinstance(value, str):
            value = [value]
        if not isinstance(value, list):
            self._wrong_kind((key,), value, f'write names in brackets, like {key} = ["front"]')
            return []
        made = []
        for number, item in enumerate(value):
            if isinstance(item, str):
                made.append((number, item.strip()))
            else:
                self._wrong_kind((key, number), item, "write the name in quotes")
        return made

    def length(
        self, key: str, system: System, *, zero: bool = False, most: Length | None = None
    ) -> Length | None:
        """A measure above zero (with `zero`, zero too). A bare number counts in inches or mm."""
        value = self.raw(key)
        if value is None:
            return None
        return self._length_at((key,), value, system, zero, most or LONGEST[system])

    def lengths(self, key: str, system: System) -> list[tuple[int, Length]] | None:
        """A list of measures above zero, each with its number from zero; None where it is left out.

        What cannot be read is passed over, with a problem noted.
        """
        value = self.raw(key)
        if value is None:
            return None
        if not isinstance(value, list):
            right = f"write measures in brackets, like {key} = [{_example(system)}]"
            self._wrong_kind((key,), value, right)
            return None
        made = []
        for number, item in enumerate(value):
            length = self._length_at((key, number), item, system, False, LONGEST[system])
            if length is not None:
                made.append((number, length))
        return made

    def _length_at(
        self, keys: Sequence[str | int], value: object, system: System, zero: bool, most: Length
    ) -> Length | None:
        try:
            length = _length(value, system)
        except MeasureError as error:
            self.problem(keys, error.text, error.reason, error.advice)
            return None
        if length is None:
            right = f"write a measure, like {_example(system)}"
            self._wrong_kind(keys, value, right)
            return None
        sound = self._sound(keys, shown(value), length, system, zero, most)
        return length if sound else None

    def _sound(
        self,
        keys: Sequence[str | int],
        read: str,
        length: Length,
        system: System,
        zero: bool,
        most: Length,
    ) -> bool:
        if length < ZERO:
            right = "write nothing or more" if zero else "write more than nothing"
            self.problem(keys, read, "less than nothing", right)
        elif length == ZERO and not zero:
            self.problem(keys, read, "nothing", "write more than nothing")
        elif length > most:
            right = f"write at most {words(most, system)}"
            self.problem(keys, read, "longer than anything on a craft table", right)
        else:
            return True
        return False

    def size(self, key: str, system: System) -> tuple[Length, Length] | None:
        """A width and a height, such as "8 1/2 x 11 in"."""
        value = self.raw(key)
        if value is None:
            return None
        if not isinstance(value, str):
            self._wrong_kind((key,), value, 'write it like "8 1/2 x 11 in"')
            return None
        try:
            width, height = parse_size(value, system)
        except MeasureError as error:
            self.problem((key,), error.text, error.reason, error.advice)
            return None
        sound = [
            self._sound((key,), value, side, system, False, LONGEST[system])
            for side in (width, height)
        ]
        return (width, height) if all(sound) else None


class ShareError(ValueError):
    """A share that cannot be used: what is wrong with it, and what would be right."""

    def __init__(self, wrong: str, right: str) -> None:
        self.wrong, self.right = wrong, right
        super().__init__(f"{wrong}; {right}")


def parse_share(value: object, most: int, *, under: bool = False) -> Fraction:
    """A share such as "10%" as a fraction of one, exactly; a bare number counts in per cent.

    Raises `ShareError` where it is none, below zero or above `most` per cent (with `under`, not
    below it).

    >>> parse_share("12.5 %", 100)
    Fraction(1, 8)
    """
    text = value.strip() if isinstance(value, str) else _plain_number(value)
    text = text.removesuffix("%").strip()
    right = f'write it like "{min(10, most)}%", {"less than" if under else "at most"} {most}%'
    negative = text.startswith(("-", "\u2212"))
    if not _AMOUNT.fullmatch(text.lstrip("-\u2212").strip()):
        raise ShareError("not a share", right)
    if negative:
        raise ShareError("less than nothing", right)
    share = Fraction(text.replace(",", ".")) / 100
    if share * 100 > most or (under and share * 100 == most):
        raise ShareError("more than that can be", right)
    return share


def _plain_number(value: object) -> str:
    if isinstance(value, bool) or not isinstance(value, int | Decimal):
        return ""
    return shown(value)


def _example(system: System) -> str:
    return '"3 7/8 in"' if system is System.INCH else '"9.8 cm"'


def _length(value: object, system: System) -> Length | None:
    """The length of a TOML value, or None where it is no measure at all."""
    if isinstance(value, str):
        return parse_length(value, system)
    if isinstance(value, bool) or not isinstance(value, int | Decimal):
        return None
    unit = _BARE_UNIT[system]
    if isinstance(value, Decimal):
        if not value.is_finite():
            raise MeasureError(
                str(value).lower(), "not a measure", f"write it like {_example(system)}"
            )
        if abs(value.adjusted()) > _MOST_DIGITS or len(value.as_tuple().digits) > _MOST_DIGITS:
            raise MeasureError(
                shown(value), "no measure has so many figures", f"round it to {unit}"
            )
    elif abs(value) > 10**_MOST_DIGITS:
        raise MeasureError(shown(value), "no measure has so many figures", f"round it to {unit}")
    exact = Fraction(value)
    return Length.inch(exact) if system is System.INCH else Length.mm(exact)


_KINDS: tuple[tuple[type | tuple[type, ...], str], ...] = (
    (bool, "true or false"),
    ((int, Decimal), "a number"),
    (str, "words"),
    (list, "a list"),
    (dict, "a table"),
    ((datetime, date, time), "a date"),
)


def _kind(value: object) -> str:
    return next((word for kind, word in _KINDS if isinstance(value, kind)), "something")


def shown(value: object) -> str:
    """A TOML value as a message shows it, short."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int) and abs(value) > 10**40:
        return "a very long number"
    if isinstance(value, Decimal) and not value.is_finite():
        return str(value).lower().replace("infinity", "inf")
    if isinstance(value, list):
        return "[…]"
    if isinstance(value, dict):
        return "{…}"
    text = str(value)
    return text if len(text) <= 40 else text[:39] + "…"
