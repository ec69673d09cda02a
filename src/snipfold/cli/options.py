"""Reading what options say."""

from __future__ import annotations

from collections.abc import Iterable

from ..measure import Length, MeasureError, System, parse_length
from ..styles import Style
from ..workshop.toml_text import one_of
from .start import UnusableError


def measures_said(style: Style, system: System, said: Iterable[str]) -> dict[str, Length]:
    """The measures of `--set width="4 in"`. Raises `UnusableError` with all that is wrong."""
    lengths: dict[str, Length] = {}
    wrong = []
    known = [measure.name for measure in style.measures]
    for text in said:
        name, sign, value = text.partition("=")
        name = name.strip()
        if not sign:
            wrong.append(f'--set {text}: no measure; write it like --set {name}="4 1/4 in"')
        elif name not in known:
            wrong.append(f"--set {text}: no “{name}” in a {style.name}; {one_of(name, known)}")
        elif name in lengths:
            wrong.append(f"--set {text}: {name} is set twice; keep one of the two")
        else:
            try:
                lengths[name] = parse_length(value, system)
            except MeasureError as error:
                wrong.append(f"--set {text}: {error.reason}; {error.advice}")
    if wrong:
        raise UnusableError("\n".join(wrong))
    return lengths
