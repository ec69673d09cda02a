"""Parts, sheets and trimmers for the tests, and a solver that shares no idea with the planner."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache

from snipfold.cutting import Cut, Node, Part, SheetSize
from snipfold.measure import Length, Ruler
from snipfold.workshop import Trimmer

SIXTEENTHS = Trimmer(Ruler(Length.inch("1/16")), Length.inch(12))
MILLIMETRES = Trimmer(Ruler(Length.mm(1)), Length.mm(310))
TWELVE = SheetSize("12 x 12 in card", Length.inch(12), Length.inch(12))

#: width, height, may be turned, copies
Rectangle = tuple[int, int, bool, int]


def inch_part(name: str, width: str, height: str, copies: int = 1, turn: bool = True) -> Part:
    return Part(name, Length.inch(width), Length.inch(height), copies, turn)


def mm_sheet(width: int, height: int) -> SheetSize:
    return SheetSize("sheet", Length.mm(width), Length.mm(height))


def mm_parts(rectangles: Sequence[Rectangle]) -> list[Part]:
    return [
        Part(f"part {i}", Length.mm(w), Length.mm(h), copies, turn)
        for i, (w, h, turn, copies) in enumerate(rectangles)
    ]


def mm_trimmer(longest: int = 1000) -> Trimmer:
    return Trimmer(Ruler(Length.mm(1)), Length.mm(longest))


def cuts_of(tree: Node) -> Iterator[Cut]:
    """All cuts of a tree, each before those of its parts."""
    waiting = [tree]
    while waiting:
        node = waiting.pop()
        if isinstance(node, Cut):
            yield node
            waiting += [node.rest, node.first]


def by_every_cut(
    rectangles: Sequence[Rectangle], width: int, height: int, longest: int
) -> tuple[int, int]:
    """The most sets from one sheet, and the fewest sheets for a set, by trying every cut.

    Region by region, for every whole millimetre at which it can be cut, all handfuls that it can
    give, with no thought of where pieces lie or how they join.
    """

    def handfuls(cap: tuple[int, ...]) -> frozenset[tuple[int, ...]]:
        @cache
        def given(w: int, h: int) -> frozenset[tuple[int, ...]]:
            found = {(0,) * len(cap)}
            for i, (a, b, turn, _) in enumerate(rectangles):
                if cap[i] and ((a, b) == (w, h) or (turn and (b, a) == (w, h))):
                    found.add(tuple(int(i == j) for j in range(len(cap))))
            halves = []
            if h <= longest:
                halves += [(given(x, h), given(w - x, h)) for x in range(1, w // 2 + 1)]
            if w <= longest:
                halves += [(given(w, y), given(w, h - y)) for y in range(1, h // 2 + 1)]
            for ones, twos in halves:
                for one in ones:
                    for two in twos:
                        both = (a + b for a, b in zip(one, two, strict=True))
                        found.add(tuple(min(n, m) for n, m in zip(both, cap, strict=True)))
            return frozenset(
                p
                for p in found
                if not any(p != q and all(a <= b for a, b in zip(p, q, strict=True)) for q in found)
            )

        return given(width, height)

    one_set = tuple(copies for *_, copies in rectangles)
    most = max(1, width * height // sum(w * h * n for w, h, _, n in rectangles))
    sets = max(
        min(n // copies for n, copies in zip(handful, one_set, strict=True))
        for handful in handfuls(tuple(copies * most for copies in one_set))
    )
    if sets:
        return sets, 1
    sheet = handfuls(one_set)
    if any(all(handful[i] == 0 for handful in sheet) for i in range(len(one_set))):
        return 0, 0
    reached, sheets = {(0,) * len(one_set)}, 0
    while one_set not in reached:
        sheets += 1
        reached = {
            tuple(min(a + b, c) for a, b, c in zip(p, q, one_set, strict=True))
            for p in reached
            for q in sheet
        }
    return 0, sheets
