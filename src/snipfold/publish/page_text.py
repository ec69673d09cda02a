"""Words made ready for a typeset page: measures apart from text, and no text is ever markup."""

from __future__ import annotations

import re
from typing import Any

from ..guide import Size, Words
from ..measure import Length, System, number, unit_word
from .type_faces import printable

Run = str | dict[str, Any]
"""A run of a line: plain text, or a measure as its figures and unit."""

#: A measure in inches within ready-made words, as a finding has it: "3 7/8" or "7/8".
_FRACTION = re.compile(r"(?<![\w/.,-])(?:(\d+) )?(\d{1,2})/(\d{1,2})(?![\w/])")


def runs(said: Words, system: System) -> list[Run]:
    """The words as runs, measures as `{"figures": [[whole, fraction]], "unit": …}`."""
    found: list[Run] = []
    for word in said:
        if isinstance(word, Length):
            found.append(_measure((word,), system))
        elif isinstance(word, Size):
            found.append(_measure((word.width, word.height), system))
        elif word:
            found.extend(text_runs(word))
    return found


def text_runs(text: str) -> list[Run]:
    """Ready-made words as runs, so that fractions in them are set as fractions.

    >>> text_runs("it is 1 3/16 in too tall")
    ['it is ', {'figures': [['1', '3/16']], 'unit': ''}, ' in too tall']
    """
    text = printable(text)
    found: list[Run] = []
    end = 0
    for match in _FRACTION.finditer(text):
        if match.start() > end:
            found.append(text[end : match.start()])
        found.append({"figures": [[match[1] or "", f"{match[2]}/{match[3]}"]], "unit": ""})
        end = match.end()
    if end < len(text):
        found.append(text[end:])
    return found


def _measure(lengths: tuple[Length, ...], system: System) -> Run:
    return {
        "figures": [_figures(number(length, system)) for length in lengths],
        "unit": unit_word(system),
    }


def _figures(worded: str) -> list[str]:
    """A number as its whole part and its fraction: "3 7/8" as "3" and "7/8"."""
    if "/" not in worded:
        return [worded, ""]
    whole, _, fraction = worded.rpartition(" ")
    return [whole, fraction]
