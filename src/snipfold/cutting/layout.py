"""From a pattern in whole graduations to the plan's tree of cuts."""

from __future__ import annotations

from ..measure import Length
from .arrange import Way
from .grid import Size, Task
from .plan import Axis, Cut, Got, Node, Offcut, Region
from .worth import Pattern


def pattern_of(way: Way | None) -> Pattern:
    """The pattern of a way to cut."""
    if way is None:
        return None
    if way.axis is None:
        return way.kind
    return way.axis, way.at, pattern_of(way.first), pattern_of(way.rest)


def tidied(pattern: Pattern, size: Size, left: list[int]) -> Pattern:
    """The pattern of a region of that size with no more pieces of each kind than `left` says.

    What is too many stays in the offcuts; offcuts are not cut; and what is wanted comes off
    before the blade. Takes the pieces off `left`.
    """
    if pattern is None:
        return None
    if isinstance(pattern, int):
        if not left[pattern]:
            return None
        left[pattern] -= 1
        return pattern
    axis, at, first, rest = pattern
    width, height = size
    if axis is Axis.ACROSS:
        length, before, beyond = width, (at, height), (width - at, height)
    else:
        length, before, beyond = height, (width, at), (width, height - at)
    first, rest = tidied(first, before, left), tidied(rest, beyond, left)
    if first is None:
        return None if rest is None else (axis, length - at, rest, None)
    return axis, at, first, rest


class Namer:
    """Gives every piece of the patterns of one plan the name of a part, `sets` times its copies."""

    def __init__(self, task: Task, sets: int) -> None:
        self._task = task
        self._names = [
            [member for member in kind.members for _ in range(member.copies * sets)][::-1]
            for kind in task.kinds
        ]
        self._lengths: dict[int, Length] = {}

    def tree(self, pattern: Pattern) -> Node:
        """The tree of cuts of one sheet; pieces that are too many are left in the offcuts."""
        size = self._task.width, self._task.height
        kept = tidied(pattern, size, [len(names) for names in self._names])
        return self._node(kept, 0, 0, *size)

    def _length(self, marks: int) -> Length:
        known = self._lengths.get(marks)
        if known is None:
            known = self._lengths[marks] = self._task.graduation * marks
        return known

    def _node(self, pattern: Pattern, x: int, y: int, width: int, height: int) -> Node:
        region = Region(*(self._length(marks) for marks in (x, y, width, height)))
        if pattern is None:
            return Offcut(region)
        if isinstance(pattern, int):
            member = self._names[pattern].pop()
            return Got(region, member.name, (width, height) != member.size)
        axis, at, first, rest = pattern
        if axis is Axis.ACROSS:
            before = self._node(first, x, y, at, height)
            beyond = self._node(rest, x + at, y, width - at, height)
        else:
            before = self._node(first, x, y, width, at)
            beyond = self._node(rest, x, y + at, width, height - at)
        return Cut(region, axis, self._length(at), before, beyond)
