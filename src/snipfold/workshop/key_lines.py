"""On which line of a TOML text each key stands.

The standard reader gives values without their places. This one gives the places without the
values: it walks the text by the TOML 1.0 grammar (https://toml.io/en/v1.0.0) and notes where each
key, table and array element begins, and which keys stand twice.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from contextlib import suppress
from dataclasses import dataclass, field

Path = tuple[str | int, ...]
"""Keys, and for array elements their number from zero, from the top of the file."""

_SPACE = re.compile(r"[ \t]*")
_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_BASIC = re.compile(r'"((?:[^"\\\n]|\\[^\n])*)"')
_LITERAL = re.compile(r"'([^'\n]*)'")
_LONG_BASIC = re.compile(r'"""(?:[^"\\]++|\\.|"{1,2}(?!"))*"{3,5}', re.DOTALL)
_LONG_LITERAL = re.compile(r"'''(?:[^']++|'{1,2}(?!'))*'{3,5}", re.DOTALL)
_BARE_VALUE = re.compile(r"[^,\]}#\r\n]*")
_ESCAPE = re.compile(r"\\(?:u([0-9a-fA-F]{4})|U([0-9a-fA-F]{8})|(.))")
_ESCAPED = {"b": "\b", "t": "\t", "n": "\n", "f": "\f", "r": "\r"}


class _BrokenError(Exception):
    """The text is no TOML from here on."""


@dataclass
class KeyLines:
    """`lines` by path; `doubled` holds (path, first line, second line) of keys that stand twice."""

    lines: dict[Path, int] = field(default_factory=dict)
    doubled: list[tuple[Path, int, int]] = field(default_factory=list)


def key_lines(text: str) -> KeyLines:
    """The lines of all keys of a TOML text, counted from one, as far as it can be read.

    >>> key_lines('a.b = 1\\n[[c]]\\nd = {e = 2}').lines[("c", 0, "d", "e")]
    3
    """
    walk = _Walk(text)
    with suppress(_BrokenError, RecursionError):
        walk.document()
    return walk.found


class _Walk:
    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.found = KeyLines()
        self._starts = [0, *(match.end() for match in re.finditer("\n", text))]
        self._set: set[Path] = set()
        self._counts: dict[Path, int] = {}

    def document(self) -> None:
        table: Path = ()
        while True:
            self._skip(_BLANK)
            if self.at >= len(self.text):
                return
            if self._ahead("[["):
                line, name = self._header("[[", "]]")
                path = self._below(name[:-1]) + name[-1:]
                number = self._counts.get(path, 0)
                self._counts[path] = number + 1
                self._note(path, line, is_set=False)
                table = (*path, number)
                self.found.lines[table] = line
            elif self._ahead("["):
                line, name = self._header("[", "]")
                table = self._below(name)
                self._note(table, line, is_set=True)
            else:
                self._pair(table)
                self._skip(_SPACE)
                if self.at < len(self.text) and self.text[self.at] not in "\r\n#":
                    raise _BrokenError

    def _line(self) -> int:
        return bisect_right(self._starts, self.at)

    def _ahead(self, mark: str) -> bool:
        return self.text.startswith(mark, self.at)

    def _skip(self, pattern: re.Pattern[str]) -> re.Match[str]:
        match = pattern.match(self.text, self.at)
        if match is None:
            raise _BrokenError
        self.at = match.end()
        return match

    def _take(self, mark: str) -> None:
        if not self._ahead(mark):
            raise _BrokenError
        self.at += len(mark)

    def _header(self, opening: str, closing: str) -> tuple[int, tuple[str, ...]]:
        line = self._line()
        self._take(opening)
        name = self._key()
        self._take(closing)
        return line, name

    def _key(self) -> tuple[str, ...]:
        parts = []
        while True:
            self._skip(_SPACE)
            if self._ahead('"'):
                parts.append(_ESCAPE.sub(_plain, self._skip(_BASIC)[1]))
            elif self._ahead("'"):
                parts.append(self._skip(_LITERAL)[1])
            else:
                parts.append(self._skip(_BARE_KEY)[0])
            self._skip(_SPACE)
            if not self._ahead("."):
                return tuple(parts)
            self.at += 1

    def _below(self, name: tuple[str, ...]) -> Path:
        """The path of a table's name, through the newest element of each array of tables."""
        path: Path = ()
        for part in name:
            path = (*path, part)
            if path in self._counts:
                path = (*path, self._counts[path] - 1)
        return path

    def _note(self, path: Path, line: int, *, is_set: bool) -> None:
        for end in range(1, len(path)):
            self.found.lines.setdefault(path[:end], line)
        if is_set:
            if path in self._set:
                self.found.doubled.append((path, self.found.lines[path], line))
            else:
                self.found.lines[path] = line
            self._set.add(path)
        else:
            self.found.lines.setdefault(path, line)

    def _pair(self, table: Path) -> None:
        line = self._line()
        path = (*table, *self._key())
        self._note(path, line, is_set=True)
        self._take("=")
        self._skip(_SPACE)
        self._value(path)

    def _value(self, path: Path) -> None:
        if self._ahead('"""'):
            self._skip(_LONG_BASIC)
        elif self._ahead("'''"):
            self._skip(_LONG_LITERAL)
        elif self._ahead('"'):
            self._skip(_BASIC)
        elif self._ahead("'"):
            self._skip(_LITERAL)
        elif self._ahead("["):
            self._array(path)
        elif self._ahead("{"):
            self._inline(path)
        else:
            self._skip(_BARE_VALUE)

    def _array(self, path: Path) -> None:
        self._take("[")
        number = 0
        while True:
            self._skip(_BLANK)
            if self._ahead("]"):
                break
            self._note((*path, number), self._line(), is_set=False)
            self._value((*path, number))
            number += 1
            self._skip(_BLANK)
            if not self._ahead(","):
                break
            self.at += 1
        self._take("]")

    def _inline(self, path: Path) -> None:
        self._take("{")
        # TOML 1.0 keeps inline tables on one line, except inside their arrays and long strings.
        self._skip(_BLANK)
        while not self._ahead("}"):
            self._pair(path)
            self._skip(_BLANK)
            if not self._ahead(","):
                break
            self.at += 1
            self._skip(_BLANK)
        self._take("}")


def _plain(match: re.Match[str]) -> str:
    if digits := match[1] or match[2]:
        return chr(min(int(digits, 16), 0x10FFFF))
    return _ESCAPED.get(match[3], match[3])
