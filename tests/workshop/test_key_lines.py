"""Line numbers of keys, however the file is written."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from snipfold.workshop.key_lines import Path, key_lines

TEXT = '''# a remark = 1
name = "bag"        # [not a table]
"style" = 'wrap "bag"'
notes = """
[not.a.table]
x = 1 \\""" still
"""
raw = \'\'\'
y = 2\'\'\'

[measures]
width = 4
depth.inner = 1
depth . "outer, really" = { a = 1, b = [2,
  3], "c.d" = "}" }

[mats.borders]
"base front wall" = "1/8 in"

[[contents]]
name = "first"

[[contents]]
name = "second"
width = "2 in"
sizes = [
  "a",  # ]
  { w = 1 },
  [
    "deep",
  ],
]
[contents.more]
height = 1
'''


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("name",), 2),
        (("style",), 3),
        (("notes",), 4),
        (("raw",), 8),
        (("measures",), 11),
        (("measures", "width"), 12),
        (("measures", "depth"), 13),
        (("measures", "depth", "inner"), 13),
        (("measures", "depth", "outer, really"), 14),
        (("measures", "depth", "outer, really", "a"), 14),
        (("measures", "depth", "outer, really", "b", 0), 14),
        (("measures", "depth", "outer, really", "b", 1), 15),
        (("measures", "depth", "outer, really", "c.d"), 15),
        (("mats",), 17),
        (("mats", "borders"), 17),
        (("mats", "borders", "base front wall"), 18),
        (("contents",), 20),
        (("contents", 0), 20),
        (("contents", 0, "name"), 21),
        (("contents", 1), 23),
        (("contents", 1, "name"), 24),
        (("contents", 1, "sizes"), 26),
        (("contents", 1, "sizes", 0), 27),
        (("contents", 1, "sizes", 1, "w"), 28),
        (("contents", 1, "sizes", 2, 0), 30),
        (("contents", 1, "more"), 33),
        (("contents", 1, "more", "height"), 34),
    ],
)
def test_every_key_is_found_on_its_line(path: Path, line: int) -> None:
    assert key_lines(TEXT).lines[path] == line


def _paths(value: Any, path: Path = ()) -> set[Path]:
    below = (
        value.items()
        if isinstance(value, dict)
        else enumerate(value)
        if isinstance(value, list)
        else ()
    )
    found = {path} if path else set()
    for key, item in below:
        found |= _paths(item, (*path, key))
    return found


def test_the_walk_finds_the_same_keys_as_the_standard_reader() -> None:
    assert set(key_lines(TEXT).lines) == _paths(tomllib.loads(TEXT))


def test_windows_line_ends_count_once() -> None:
    assert key_lines("a = 1\r\n\r\n[b]\r\nc = 2\r\n").lines[("b", "c")] == 4


def test_a_key_that_stands_twice_is_told_with_both_lines() -> None:
    found = key_lines("[measures]\nwidth = 4\ndepth = 1\nwidth = 5\n")
    assert found.doubled == [(("measures", "width"), 2, 4)]


_KEYS = st.one_of(st.from_regex(r"[a-z_-]{1,6}", fullmatch=True), st.text(max_size=6))
_VALUES = st.recursive(
    st.one_of(st.integers(-5, 5), st.booleans(), st.text(max_size=8)),
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(_KEYS, inner, max_size=3)),
    max_leaves=10,
)


@given(st.dictionaries(_KEYS, _VALUES, max_size=5))
def test_whatever_is_written_the_walk_finds_every_key(values: dict[str, Any]) -> None:
    """Written by tomlkit, read by the standard reader: two libraries that know nothing of ours."""
    import tomlkit

    text = tomlkit.dumps(values)
    assert set(key_lines(text).lines) == _paths(tomllib.loads(text))


@given(st.text(alphabet="ab=.[]{}\"'\\\n# ,1", max_size=60))
def test_no_text_however_broken_makes_the_walk_fail(text: str) -> None:
    key_lines(text)
