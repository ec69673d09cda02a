"""A quick pattern of strips, for more kinds of pieces than tables can hold."""

from __future__ import annotations

from .grid import Size, Task
from .plan import Axis
from .worth import Pattern

_OTHER = {Axis.ACROSS: Axis.UP, Axis.UP: Axis.ACROSS}
#: (kind, its width along the strip, its height, pieces one above the other)
_Column = tuple[int, int, int, int]


def shelves(task: Task, sets: int) -> Pattern:
    """A pattern of strips with so many sets, if one turns up; None otherwise.

    Strips run along the sheet, first those for the tallest pieces; each is filled with columns of
    equal pieces, the fullest first. Tried both ways up, with tall and with flat pieces.
    """
    for strips in (Axis.UP, Axis.ACROSS):
        for tall in (True, False):
            found = _filled(task, sets, strips, tall)
            if found is not None:
                return found
    return None


def _filled(task: Task, sets: int, strips: Axis, tall: bool) -> Pattern:
    length, room, longest, highest = (
        (task.width, task.height, task.widest, task.tallest)
        if strips is Axis.UP
        else (task.height, task.width, task.tallest, task.widest)
    )
    poses: list[list[Size]] = []
    for kind in task.kinds:
        along = [pose if strips is Axis.UP else pose[::-1] for pose in kind.poses]
        poses.append(sorted(along, key=lambda pose: pose[1], reverse=tall))
    left = [kind.copies * sets for kind in task.kinds]
    made: list[tuple[int, list[_Column]]] = []
    while any(left):
        height = max(poses[kind][0][1] for kind, number in enumerate(left) if number)
        room -= height
        if room < 0 or length > longest or height > highest:
            return None
        made.append((height, _strip(poses, left, length, height)))
    pattern: Pattern = None
    for height, columns in reversed(made):
        used = sum(width for _, width, _, _ in columns)
        strip = _columns(columns, length - used, height, strips)
        pattern = strip if room == 0 and pattern is None else (strips, height, strip, pattern)
    return pattern


def _strip(poses: list[list[Size]], left: list[int], length: int, height: int) -> list[_Column]:
    """Columns for one strip, taken off what is left; the first is as high as the strip."""
    columns: list[_Column] = []
    while True:
        best: tuple[tuple[int, int], _Column] | None = None
        for kind, number in enumerate(left):
            for width, high in poses[kind] if number else ():
                if width > length or high > height:
                    continue
                stacked = min(number, height // high)
                rank = (stacked * high if columns else high, width)
                if best is None or rank > best[0]:
                    best = rank, (kind, width, high, stacked)
        if best is None:
            return columns
        columns.append(best[1])
        left[best[1][0]] -= best[1][3]
        length -= best[1][1]


def _columns(columns: list[_Column], spare: int, height: int, strips: Axis) -> Pattern:
    """The cuts of one strip into its columns, and of those into pieces."""
    pattern: Pattern = None
    for number, (kind, width, high, stacked) in enumerate(reversed(columns)):
        column: Pattern = kind if stacked * high == height else (strips, high, kind, None)
        for _ in range(stacked - 1):
            column = (strips, high, kind, column)
        last = number == 0 and spare == 0
        pattern = column if last else (_OTHER[strips], width, column, pattern)
    return pattern
