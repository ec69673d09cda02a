"""The sheet and its cuts, to scale."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import hypot
from string import ascii_uppercase

from ..cutting.plan import Axis, Cut, CutPlan, CutStep, Got, Node, Offcut, Region
from ..measure import System, typeset_number, unit_word, words
from .blank import PICTURE_WIDTH_MM, size_typeset, size_words
from .inks import CUT, FAINT, INK, NARROW_MM, PAGE, Ink, mixed
from .layout import Box, box_of, circle, fitted, framed, middle_text, text_box, touch
from .lettering import BOLD, REGULAR, width_mm
from .measures import MEASURE_PT, NAME_PT, NOTE_PT, chain_below, chain_left, line_height_mm
from .scene import XY, Anchor, Drawing, Fill, Mark, Ring, Stroke, Text

_HEIGHT_MM = 150.0
_BADGE_MM = 2.9
_LEAST_BADGE_MM = 1.9
#: The list of settings runs on in another column after so many.
_MOST_ROWS = 13
_SOFT = "#6E7876"
_PART_EDGE = Ink("part", "", INK, NARROW_MM)


def sheet_picture(plan: CutPlan, pattern_index: int, system: System, paper_colour: str) -> Drawing:
    """One sheet of a plan to scale: its parts with their sizes, its cuts numbered in order.

    Each number stands at its cut; the list beside the sheet says what the trimmer is set to and
    how often it cuts. Raises `IndexError` for a pattern that the plan does not have.
    """
    pattern = plan.patterns[pattern_index]
    steps = plan.steps[pattern_index]
    leaves = list(_leaves(pattern.tree))

    def build(scale: float) -> Drawing:
        wide, high = plan.sheet.width.float_mm * scale, plan.sheet.height.float_mm * scale
        sheet: Ring = ((0, 0), (wide, 0), (wide, high), (0, high))
        parts: list[Mark] = []
        names: list[Mark] = []
        boxes: list[Box] = []
        letters = _letters(leaves, scale, system)
        for leaf in leaves:
            ring = _ring(leaf.region, scale)
            if isinstance(leaf, Got):
                parts += [
                    Fill((ring,), mixed(paper_colour, PAGE, 0.55)),
                    Stroke(ring, _PART_EDGE, True),
                ]
                if leaf.part in letters:
                    names += _letter(letters[leaf.part], ring, boxes)
                    continue
            size = size_typeset(leaf.region.width, leaf.region.height, system)
            label = leaf.part if isinstance(leaf, Got) else "offcut"
            names += _words(label, size, ring, isinstance(leaf, Got)) or []
        badges, lines = _cuts(steps, scale, _boxes(names))
        below, low = chain_below([0, wide], [typeset_number(plan.sheet.width, system)], -2.0)
        beside, left = chain_left([0, high], [typeset_number(plan.sheet.height, system)], -2.0)
        unit = middle_text((left / 2, low + 2.5), unit_word(system), NOTE_PT)
        settings = _settings(steps, wide + 8.0, high, system)
        low = min(low, box_of(settings)[1]) if settings else low
        return framed(
            f"{plan.sheet.name} sheet {pattern_index + 1}",
            (
                ("sheet", [Fill((sheet,), PAGE), Stroke(sheet, FAINT, True)]),
                ("parts", parts),
                ("cut", [*lines, Stroke(sheet, FAINT, True)]),
                ("names", names),
                ("badges", badges),
                ("measures", [*below, *beside, unit]),
                ("settings", settings),
                ("key", _key(letters, leaves, left, low - 4.0, system)),
            ),
            _alt(plan, pattern_index, system),
        )

    return fitted(build, 1.0, PICTURE_WIDTH_MM, _HEIGHT_MM)


def mat_sheet(plan: CutPlan, pattern_index: int, system: System, paper_colour: str) -> Drawing:
    """The sheet from which mats are cut; the same picture as `sheet_picture`."""
    return sheet_picture(plan, pattern_index, system, paper_colour)


def _leaves(node: Node) -> Iterator[Got | Offcut]:
    match node:
        case Cut():
            yield from _leaves(node.first)
            yield from _leaves(node.rest)
        case _:
            yield node


def _ring(region: Region, scale: float) -> Ring:
    x0, y0 = region.x.float_mm * scale, region.y.float_mm * scale
    x1 = x0 + region.width.float_mm * scale
    y1 = y0 + region.height.float_mm * scale
    return (x0, y0), (x1, y0), (x1, y1), (x0, y1)


def _letters(leaves: Sequence[Got | Offcut], scale: float, system: System) -> dict[str, str]:
    """A letter for each part whose name and size do not fit on every copy of it."""
    letters: dict[str, str] = {}
    for leaf in leaves:
        if not isinstance(leaf, Got) or leaf.part in letters:
            continue
        size = size_typeset(leaf.region.width, leaf.region.height, system)
        if _words(leaf.part, size, _ring(leaf.region, scale), True) is None:
            letters[leaf.part] = ascii_uppercase[len(letters) % len(ascii_uppercase)]
    return letters


def _boxes(marks: Sequence[Mark]) -> list[Box]:
    return [text_box(mark) for mark in marks if isinstance(mark, Text)]


def _letter(letter: str, ring: Ring, boxes: list[Box]) -> list[Mark]:
    """The letter of a part on it; very slim copies go without where their neighbour has one.

    `boxes` are those of the letters before it, to which its own is added.
    """
    (x0, y0), _, (x1, y1), _ = ring
    room = min(x1 - x0, y1 - y0)
    size = MEASURE_PT if room > 5.0 else NAME_PT * 0.8
    text = middle_text(((x0 + x1) / 2, (y0 + y1) / 2), letter, size, weight=BOLD)
    box = text_box(text)
    if any(touch(box, other) for other in boxes):
        return []
    boxes.append(box)
    return [text]


def _key(
    letters: dict[str, str],
    leaves: Sequence[Got | Offcut],
    left: float,
    top: float,
    system: System,
) -> list[Mark]:
    """What each letter stands for: how many, their size as they are named, and their names."""
    marks: list[Mark] = []
    y = top
    for part, letter in letters.items():
        copies = [leaf for leaf in leaves if isinstance(leaf, Got) and leaf.part == part]
        first = copies[0].region
        upright = (first.height, first.width) if copies[0].turned else (first.width, first.height)
        size = size_typeset(*upright, system)
        x = left
        for says, points, weight, room in (
            (letter, MEASURE_PT, BOLD, 6.0),
            (f"{len(copies)} of", NAME_PT, REGULAR, 10.0),
            (size, MEASURE_PT, BOLD, width_mm(size, MEASURE_PT, BOLD) + 3.0),
        ):
            marks.append(middle_text((x, y), says, points, weight=weight, anchor=Anchor.START))
            x += room
        for line in _wrapped(part, left + PICTURE_WIDTH_MM - 4.0 - x):
            marks.append(middle_text((x, y), line, NAME_PT, anchor=Anchor.START))
            y -= line_height_mm(NAME_PT) + 0.6
        y -= line_height_mm(MEASURE_PT) - line_height_mm(NAME_PT) + 0.4
    return marks


def _wrapped(text: str, room_mm: float) -> list[str]:
    """The text in lines no wider than the room, broken at spaces."""
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and width_mm(longer, NAME_PT) > room_mm:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def _words(name: str, size: str, ring: Ring, part: bool) -> list[Mark] | None:
    """A part's name and size on it, in two lines or one, level or upright; None without room."""
    (x0, y0), _, (x1, y1), _ = ring
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    colour = INK if part else _SOFT
    line = line_height_mm(MEASURE_PT)
    size_run, name_run = width_mm(size, MEASURE_PT, BOLD), width_mm(name, NAME_PT)
    for turned, across, up in ((0.0, x1 - x0, y1 - y0), (90.0, y1 - y0, x1 - x0)):
        across, up = across - 2 * _BADGE_MM - 1.5, up - 1.2
        both = size_run + name_run + 2.5
        # Each text: its shift along the line and across it, words, size, weight.
        rows: list[tuple[float, float, str, float, int]]
        if size_run <= across and name_run <= across and line * 1.75 <= up:
            rows = [(0.0, 2.7, name, NAME_PT, REGULAR), (0.0, -2.5, size, MEASURE_PT, BOLD)]
        elif both <= across and line * 0.8 <= up:
            rows = [
                ((name_run - both) / 2, 0.0, name, NAME_PT, REGULAR),
                ((both - size_run) / 2, 0.0, size, MEASURE_PT, BOLD),
            ]
        elif not part and size_run <= across and line * 0.8 <= up:
            rows = [(0.0, 0.0, size, MEASURE_PT, BOLD)]
        else:
            continue
        return [
            middle_text(
                (x - rise, y + run) if turned else (x + run, y + rise),
                says, points, weight=weight, degrees=turned, colour=colour,
            )
            for run, rise, says, points, weight in rows
        ]  # fmt: skip
    return None


def _cuts(
    steps: tuple[CutStep, ...], scale: float, words_at: Sequence[Box]
) -> tuple[list[Mark], list[Mark]]:
    """The numbers at the cuts, clear of each other and of the words, and the cuts."""
    badges: list[Mark] = []
    lines: list[Mark] = []
    taken: list[XY] = []
    # Slim strips get smaller numbers.
    slimmest = min(
        (abs(step.setting.float_mm) * scale for step in steps if len(step.pieces) > 1),
        default=_BADGE_MM * 2,
    )
    radius = min(_BADGE_MM, max(_LEAST_BADGE_MM, 0.45 * slimmest))
    for number, step in enumerate(steps, start=1):
        # Cuts of one setting that have no room for the number do without, all but the first.
        numbered = False
        for region in step.pieces:
            (x0, y0), _, (x1, y1), _ = _ring(region, scale)
            if step.axis is Axis.ACROSS:
                x = x0 + step.setting.float_mm * scale
                ends, way = ((x, y0), (x, y1)), (0.0, 1.0)
            else:
                y = y0 + step.setting.float_mm * scale
                ends, way = ((x0, y), (x1, y)), (1.0, 0.0)
            lines.append(Stroke(ends, CUT))
            length = (x1 - x0) * way[0] + (y1 - y0) * way[1]
            place, free = _free_place(ends[0], way, length, taken, words_at, radius)
            if not free and numbered:
                continue
            numbered = True
            taken.append(place)
            badges += _badge(place, number, radius)
    return badges, lines


def _free_place(
    start: XY,
    way: XY,
    length: float,
    taken: Sequence[XY],
    words_at: Sequence[Box],
    radius: float,
) -> tuple[XY, bool]:
    """The place along a cut, near its start, where a number covers nothing, and True.

    Where it is crowded all along, the freest place, and False.
    """
    end = start[0] + way[0] * length, start[1] + way[1] * length
    reach = 2.1 * radius
    lane = (
        start[0] - reach, start[1] - reach, end[0] + reach, end[1] + reach,
    )  # fmt: skip
    taken = [(u, v) for u, v in taken if touch(lane, (u, v, u, v))]
    words_at = [box for box in words_at if touch(lane, box)]
    along = min(radius * 1.6, length / 2)
    best, best_gap = start, -1e9
    while along <= max(length - radius, length / 2):
        place = (start[0] + way[0] * along, start[1] + way[1] * along)
        x, y = place
        gap = min((hypot(x - u, y - v) - reach for u, v in taken), default=radius)
        for left, low, right, high in words_at:
            aside = max(left - x, x - right, 0.0), max(low - y, y - high, 0.0)
            gap = min(gap, hypot(*aside) - radius)
        if gap > 0:
            return place, True
        if gap > best_gap:
            best, best_gap = place, gap
        along += radius / 2
    return best, False


def _badge(at: XY, number: int, radius: float = _BADGE_MM) -> list[Mark]:
    size = NAME_PT * radius / _BADGE_MM
    text = middle_text(at, str(number), size, weight=BOLD, colour=PAGE)
    return [Fill((circle(at, radius),), INK), text]


def _settings(steps: tuple[CutStep, ...], left: float, top: float, system: System) -> list[Mark]:
    """The list of settings: number, what the trimmer is set to, how many cuts; in columns."""
    if not steps:
        return []
    marks: list[Mark] = [
        middle_text((left, top - 2.0), f"set to, {unit_word(system)}", NOTE_PT, anchor=Anchor.START)
    ]
    pitch = line_height_mm(MEASURE_PT + 2) + 2.2
    widest = max(width_mm(typeset_number(s.setting, system), MEASURE_PT + 2, BOLD) for s in steps)
    column = 2 * _BADGE_MM + 8.0 + widest
    if any(len(step.pieces) > 1 for step in steps):
        most = max(len(step.pieces) for step in steps)
        column += width_mm(f"{most} cuts", NOTE_PT)
    columns = -(-len(steps) // _MOST_ROWS)
    rows = -(-len(steps) // columns)
    first = left
    for number, step in enumerate(steps, start=1):
        left = first + (number - 1) // rows * column
        y = top - 2.0 - ((number - 1) % rows + 1) * pitch
        marks += _badge((left + _BADGE_MM, y), number)
        marks.append(
            middle_text(
                (left + 2 * _BADGE_MM + 2.0, y), typeset_number(step.setting, system),
                MEASURE_PT + 2, weight=BOLD, anchor=Anchor.START,
            )
        )  # fmt: skip
        if len(step.pieces) > 1:
            at = (left + 2 * _BADGE_MM + 4.0 + widest, y)
            marks.append(middle_text(at, f"{len(step.pieces)} cuts", NOTE_PT, anchor=Anchor.START))
    return marks


def _alt(plan: CutPlan, pattern_index: int, system: System) -> str:
    pattern = plan.patterns[pattern_index]
    counts: dict[str, int] = {}
    left_over = []
    for leaf in _leaves(pattern.tree):
        size = size_words(leaf.region.width, leaf.region.height, system)
        if isinstance(leaf, Got):
            key = f"{leaf.part} {size}"
            counts[key] = counts.get(key, 0) + 1
        else:
            left_over.append(size)
    parts = ", ".join(f"{count} x {name}" for name, count in counts.items())
    cuts = "; ".join(
        f"{number}: set {words(step.setting, system)}, "
        f"{len(step.pieces)} cut{'s' if len(step.pieces) > 1 else ''}"
        for number, step in enumerate(plan.steps[pattern_index], start=1)
    )
    return (
        f"A sheet of {plan.sheet.name}, "
        f"{size_words(plan.sheet.width, plan.sheet.height, system)}, gives {parts}. Cuts: {cuts}. "
        f"Left over: {', '.join(left_over) or 'nothing'}."
    )
