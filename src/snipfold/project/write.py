"""Writing project files: a new one to start from, and single fields changed in place."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from ..findings import ProjectFileError
from ..flat import Role
from ..measure import Length, MeasureError, System, parse_length, words
from ..styles import Construction, Given, Measure, Style
from ..workshop import Workshop, default_workshop
from ..workshop.toml_text import read_toml
from .read import (
    ALLOWANCE,
    BORDER,
    STRAP_FOOT,
    STRAP_OPENING,
    STRAP_WIDTH,
    default_tape,
)

_Value = bool | int | float | str | list[str]
"""What a field of a project file may hold."""

#: The finished size, which every new file spells out; other measures are shown as remarks.
_SIZE = ("width", "depth", "height", "side")
_TRUE_OR_FALSE = {
    "keep_grain", "mats.on", "strap.on", "blank.cavity.covered", "blank.cavity.flat",
}  # fmt: skip
_LISTS = {
    "mats.off", "mats.also", "same_sheet", "blank.away", "blank.tucked", "blank.mitred",
    "blank.strap_on", "blank.cavity.width", "blank.cavity.depth",
}  # fmt: skip
#: Lists of pairs and groups, which no single value can stand for.
_GROUPED = {
    "blank.joined",
    "blank.slit",
    "blank.valley",
    "blank.inside",
    "blank.slid",
    "blank.meets",
}
#: Arrays of tables, whose elements are named by number.
_ARRAYS = ("contents", "extras", "blank")
#: How many parts the path of a field has, by its first.
_DEPTHS = {
    "name": (1,), "style": (1,), "units": (1,), "notes": (1,), "keep_grain": (1,),
    "measures": (2,), "papers": (2,), "mats": (2, 3), "strap": (2,), "contents": (3,),
    "same_sheet": (1,), "extras": (3,), "blank": (2, 3, 4),
}  # fmt: skip
#: Example treats: sizes of no box in particular.
_TREAT = {
    System.INCH: ("2 1/2 in", "1 in", "4 in"),
    System.METRIC: ("6.5 cm", "2.5 cm", "10 cm"),
}
_STRAP_LENGTH = {System.INCH: Length.inch(12), System.METRIC: Length.mm(300)}
_OTHER = {System.INCH: System.METRIC, System.METRIC: System.INCH}
_UNIT = {System.INCH: "inches", System.METRIC: "millimetres"}


def exact_words(length: Length, system: System) -> str:
    """Words for a length that read back as exactly that length.

    In the units of `system` where they can say it, otherwise in the other's, otherwise as a
    fraction of a millimetre.

    >>> exact_words(Length.mm(98), System.INCH)
    '9.8 cm'
    """
    for units in (system, _OTHER[system]):
        worded = words(length, units)
        try:
            if parse_length(worded) == length:
                return worded
        except MeasureError:
            pass
    whole = length.as_mm.__floor__()
    part: Fraction = length.as_mm - whole
    return f"{whole} {part} mm" if whole else f"{part} mm"


def quoted(text: str) -> str:
    """A TOML basic string, which escapes as JSON does."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _remark(line: str, says: str) -> str:
    return f"{line:<30}  # {says}"


def new_project_text(
    style: Style,
    system: System,
    measures: Mapping[str, Length] | None = None,
    name: str = "",
    workshop: Workshop | None = None,
) -> str:
    """A project file to start from, with remarks: `measures` as given, the others as assumed.

    It names papers of `workshop` (the assumed one where none is given).
    """
    said = dict(measures or {})
    workshop = workshop or default_workshop(system)
    given = Given(system, default_tape(system))
    complete = style.complete(said, given)
    made = style.build(style.complete({}, given), given)
    shown, hidden = _example_panels(style, made)
    first = workshop.papers[0].name
    pattern = next((paper.name for paper in workshop.papers if not paper.two_sided), first)

    def worded(length: Length) -> str:
        return exact_words(length, system)

    lines = [
        f"# {style.name.capitalize()}: {style.says}.",
        "# What stands behind a # is a remark. Take the # away to use a line that is one.",
        '# Measures are written like "3 7/8 in", "9.8 cm" or "98 mm"; a number without quotes',
        f"# counts in {_UNIT[system]}.",
        "",
        f"name = {quoted(name or style.name.capitalize())}",
        f"style = {quoted(style.name)}",
        f"units = {quoted(system.value)}",
        _remark("# keep_grain = true", "long scores along the grain, even if that costs sheets"),
        '# notes = "Whatever the makers should know."',
        "",
        "[measures]",
    ]
    for measure in style.measures:
        line = f"{measure.name} = {quoted(worded(complete[measure.name]))}"
        if measure.name not in said and measure.name not in _SIZE:
            line = f"# {line}"
        least, most = measure.least(complete, given), measure.most(complete, given)
        limits = f"{words(least, system)} to {words(most, system)}"
        if measure.name not in said and _is_derived(measure, given):
            limits += f"; unless said, {measure.default_says}"
        lines += [f"# {measure.says}", _remark(line, limits)]
    lines += ["", "[papers]"]
    lines += [f"{piece} = {quoted(first)}" for piece in style.pieces]
    lines.append(f"mats = {quoted(pattern)}")
    if made.handle is not None:
        lines.append(f"strap = {quoted(first)}")
    border = BORDER[system]
    lines += [
        "",
        "[mats]",
        _remark("on = true", "false leaves all mats out"),
        _remark(
            f"border = {quoted(worded(border))}",
            f"on each side, so a mat is {words(border * 2, system)} smaller than its panel",
        ),
        _remark(f"# off = [{quoted(shown)}]", "panels that get none"),
        _remark(f"# also = [{quoted(hidden)}]", "panels that would get none otherwise"),
        "",
        "# [mats.borders]",
        _remark(f"# {_key(shown)} = {quoted(worded(border * 2))}", "a border of its own"),
    ]
    if made.handle is not None:
        lines += [
            "",
            "[strap]",
            _remark("on = true", "false leaves it out"),
            f"width = {quoted(worded(STRAP_WIDTH[system]))}",
            _remark(
                f"opening = {quoted(worded(STRAP_OPENING[system]))}",
                "the clear circle between rim and strap, for a hand or a door knob",
            ),
            _remark(f"foot = {quoted(worded(STRAP_FOOT[system]))}", "stuck down at each end"),
            _remark(
                f"# length = {quoted(worded(_STRAP_LENGTH[system]))}",
                "as cut; worked out where it is left out",
            ),
        ]
    wide, deep, tall = _TREAT[system]
    lines += [
        "",
        "# What goes in: one block like this for each thing, measured as it stands in the box.",
        "# [[contents]]",
        '# name = "gingerbread house"',
        f'# width = "{wide}"',
        f'# depth = "{deep}"',
        f'# height = "{tall}"',
        _remark(f"# allowance = {quoted(worded(ALLOWANCE[system]))}", "air on each side"),
        _remark(f"# proud = {quoted(worded(ALLOWANCE[system]))}", "may stand above an open rim"),
        "",
        "# What else every box takes, by the piece: for orders, kits and cost.",
        "# [[extras]]",
        '# name = "ribbon bow"',
        "# count = 1",
        _remark('# price = "0.20"', "of one, in your own currency"),
    ]
    return "\n".join(lines) + "\n"


def _is_derived(measure: Measure, given: Given) -> bool:
    """Whether the default follows from other measures."""
    try:
        measure.default({}, given)
    except KeyError:
        return True
    return False


def _example_panels(style: Style, made: Construction) -> tuple[str, str]:
    """A panel that may have a mat, and one that has none unless told so, where there is one."""
    panels = made.pieces[-1].panels
    shown = next((p.name for p in panels if p.role in (Role.TOP, Role.WALL)), panels[0].name)
    other = next(p.name for p in panels if p.name != shown)
    unseen = (
        p.name
        for p in made.pieces[0].panels
        if p.role in (Role.FLOOR, Role.FLAP) and p.name != shown
    )
    return shown, next(unseen, other)


def _key(name: str) -> str:
    return name if re.fullmatch(r"[A-Za-z0-9_-]+", name) else quoted(name)


def field_path(field: str) -> tuple[str | int, ...]:
    """The path that a field's name stands for; the opposite of `field_name`.

    >>> field_path("contents.2.width"), field_path('mats.borders.base front wall')
    (('contents', 1, 'width'), ('mats', 'borders', 'base front wall'))
    """
    parts = [quoted or bare for quoted, bare in re.findall(r'"([^"]*)"|([^".]+)', field)]
    return tuple(
        int(part) - 1 if part.isdecimal() and parts[0] in _ARRAYS else part for part in parts
    )


def edit_field(text: str, field: str, value: str) -> str:
    """The text of a project file with one field changed, and everything else as it was.

    `field` is a path such as "measures.height", "mats.borders.front" or "contents.1.width" (things
    that go in count from one). `value` is what the file should hold: a measure or a name as words,
    "true" or "false", and for `mats.off` and `mats.also` names parted by commas; "" takes the field
    out. A line that the file holds as a remark comes to life. Raises `ProjectFileError` for broken
    TOML and `ValueError` for a field that no project file has.
    """
    read_toml(text, "")
    path = field_path(field)
    if not path or len(path) not in _DEPTHS.get(str(path[0]), ()) or field in _GROUPED:
        raise ValueError(f"no project file has a field “{field}”")
    wanted = _typed(field, value)
    woken = _wake(text, path, wanted)
    return woken if woken is not None else _set(text, path, wanted)


def _typed(field: str, value: str) -> _Value | None:
    if not value:
        return None
    if field.startswith("extras.") and field.endswith(".count"):
        if not value.isdecimal():
            raise ValueError(f"{field} is a whole number, not “{value}”")
        return int(value)
    if field.startswith("blank.fold.") and field.endswith(".degrees"):
        if not re.fullmatch(r"\d{1,3}(\.\d{1,9})?", value):
            raise ValueError(f"{field} is a number of degrees, not “{value}”")
        return float(value) if "." in value else int(value)
    if field in _TRUE_OR_FALSE:
        if value not in ("true", "false"):
            raise ValueError(f"{field} is true or false, not “{value}”")
        return value == "true"
    if field in _LISTS:
        return [name.strip() for name in value.split(",") if name.strip()]
    return value


def _toml(value: _Value) -> str:
    if isinstance(value, bool | int | float):
        return str(value).lower()
    if isinstance(value, str):
        return quoted(value)
    return f"[{', '.join(map(quoted, value))}]"


def _at(values: Any, path: tuple[str | int, ...]) -> Any:
    """The value at a path, or None."""
    for part in path:
        try:
            values = values[part]
        except (KeyError, IndexError, TypeError):
            return None
    return values


def _wake(text: str, path: tuple[str | int, ...], wanted: _Value | None) -> str | None:
    """The text with the remark that holds this field turned into a line; None if there is none."""
    before = _values(text)
    if wanted is None or _at(before, path) is not None:
        return None
    key = _key(str(path[-1]))
    remark = re.compile(rf"#\s*{re.escape(key)}\s*=\s*(?:\"[^\"]*\"|\[[^\]]*\]|\w+)(\s*#.*)?\s*")
    lines = text.splitlines(keepends=True)
    for number, line in enumerate(lines):
        if match := remark.fullmatch(line):
            ending = line[len(line.rstrip("\r\n")) :]
            new = f"{key} = {_toml(wanted)}"
            if match[1]:
                new = f"{new:<30}  {match[1].strip()}"
            made = "".join([*lines[:number], new + ending, *lines[number + 1 :]])
            # The remark may stand in another table, or in one that is a remark itself.
            if _at(_values(made), path) == wanted:
                return made
    return None


def _values(text: str) -> dict[str, Any] | None:
    try:
        return dict(read_toml(text, "").values)
    except ProjectFileError:
        return None


def _set(text: str, path: tuple[str | int, ...], wanted: _Value | None) -> str:
    # Only an edit needs it, and reading a project should not wait for it.
    import tomlkit
    from tomlkit.items import Table as TomlTable

    document = tomlkit.parse(text)
    place: Any = document
    for part in path[:-1]:
        if isinstance(part, int):
            if not isinstance(place, list) or part >= len(place):
                raise ValueError(f"there is no number {part + 1} in the file")
        elif part not in place:
            if wanted is None:
                return text
            if (
                isinstance(place, dict)
                and not isinstance(place, TomlTable)
                and place is not document
            ):
                place[part] = tomlkit.inline_table()
            else:
                place[part] = tomlkit.table()
        place = place[part]
    key = path[-1]
    if isinstance(key, int) and (not isinstance(place, list) or key >= len(place)):
        raise ValueError(f"there is no number {key + 1} in the file")
    if wanted is not None:
        place[key] = wanted
    elif isinstance(key, int) or key in place:
        del place[key]
    return tomlkit.dumps(document)
