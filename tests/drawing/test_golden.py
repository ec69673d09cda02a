"""Two small drawings against their canonical SVG, kept beside this file.

To rewrite them after a change that was meant: SNIPFOLD_REWRITE_GOLDEN=1 pytest tests/drawing
"""

import os
import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from snipfold.drawing import Drawing, legend, scale_check, svg
from snipfold.drawing.inks import LEGEND

_GOLDEN = Path(__file__).parent / "golden"
_NUMBER = re.compile(r"-?\d+\.?\d*")
#: mm. Coordinates may differ by this: a fiftieth of the narrowest line.
_LOOSE = 0.005

_DRAWINGS = {
    "scale-check.svg": scale_check,
    "legend.svg": lambda: legend([ink.key for ink in LEGEND]),
}


def _difference(one: str, other: str) -> str:
    """The first difference of two SVG documents, "" where they draw the same."""
    left, right = list(ET.fromstring(one).iter()), list(ET.fromstring(other).iter())
    if len(left) != len(right):
        return f"{len(left)} elements against {len(right)}"
    for a, b in zip(left, right, strict=True):
        if (a.tag, a.text or "") != (b.tag, b.text or ""):
            return f"{a.tag} {a.text!r} against {b.tag} {b.text!r}"
        if a.attrib.keys() != b.attrib.keys():
            return f"{a.tag}: {sorted(a.attrib)} against {sorted(b.attrib)}"
        for key, value in a.attrib.items():
            mine, theirs = _NUMBER.findall(value), _NUMBER.findall(b.attrib[key])
            if _NUMBER.sub("#", value) != _NUMBER.sub("#", b.attrib[key]) or any(
                abs(float(u) - float(v)) > _LOOSE for u, v in zip(mine, theirs, strict=True)
            ):
                return f"{a.tag} {key}: {value} against {b.attrib[key]}"
    return ""


@pytest.mark.parametrize("name", _DRAWINGS)
def test_a_drawing_looks_as_it_did(name: str) -> None:
    made: Drawing = _DRAWINGS[name]()
    kept = _GOLDEN / name
    if os.environ.get("SNIPFOLD_REWRITE_GOLDEN") == "1":
        kept.write_text(svg(made), encoding="utf-8")
    assert _difference(svg(made), kept.read_text(encoding="utf-8")) == ""


@pytest.mark.parametrize(
    ("was", "becomes"),
    [("50 mm", "51 mm"), ('stroke-width="0.25"', 'stroke-width="0.35"'), ("M1.125 ", "M1.625 ")],
)
def test_a_damaged_drawing_is_noticed(was: str, becomes: str) -> None:
    whole = svg(scale_check())
    assert was in whole
    assert _difference(whole, whole.replace(was, becomes, 1)) != ""


def test_a_lost_line_is_noticed() -> None:
    whole = svg(scale_check())
    lines = whole.splitlines()
    lost = next(index for index, line in enumerate(lines) if line.startswith("<path"))
    assert _difference(whole, "\n".join(lines[:lost] + lines[lost + 1 :])) != ""
