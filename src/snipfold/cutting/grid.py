"""The planning task in whole graduations of the trimmer, and what does not fit on it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..findings import Finding, Severity
from ..measure import ZERO, Length, Ruler, System, words
from ..workshop import Trimmer
from .plan import Part, SheetSize

#: More graduations than any sheet has; past it a size is a slip of the keyboard.
MOST_MARKS = 1 << 17

Size = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Member:
    """A part that counts among the pieces of a kind: its name, copies a set, and upright size."""

    name: str
    copies: int
    size: Size


@dataclass(frozen=True, slots=True)
class Kind:
    """Pieces that are alike: every way in which one may lie (width, height), and whose they are."""

    poses: tuple[Size, ...]
    members: tuple[Member, ...]

    @property
    def copies(self) -> int:
        """How many of them one set takes."""
        return sum(member.copies for member in self.members)

    @property
    def area(self) -> int:
        """The area of one, in square graduations."""
        return self.poses[0][0] * self.poses[0][1]


@dataclass(frozen=True, slots=True)
class Task:
    """Kinds of pieces, and the sheet they are cut from, in whole graduations.

    A cut from top to bottom (ACROSS) can be made in a region no taller than `tallest`, one from
    side to side (UP) in a region no wider than `widest`: the trimmer's longest cut.
    """

    kinds: tuple[Kind, ...]
    width: int
    height: int
    tallest: int
    widest: int
    graduation: Length

    @property
    def area(self) -> int:
        """The area of the sheet, in square graduations."""
        return self.width * self.height

    @property
    def set_area(self) -> int:
        """The area of one set, in square graduations."""
        return sum(kind.copies * kind.area for kind in self.kinds)

    @property
    def free_cuts(self) -> bool:
        """Whether the trimmer makes every cut that the sheet can ask for."""
        return self.tallest >= self.height and self.widest >= self.width


def system_of(ruler: Ruler) -> System:
    """The units that a ruler is read in: inches if its graduation is a usual part of an inch."""
    parts = ruler.graduation.as_inch.denominator
    return System.INCH if parts <= 64 and parts & (parts - 1) == 0 else System.METRIC


def planned(length: Length, ruler: Ruler) -> int:
    """The mark, counted in graduations, at which `length` is planned: the nearest, at least one."""
    return max(1, int(ruler.marks(ruler.nearest(length))))


def task_of(
    parts: Sequence[Part], sheet: SheetSize, trimmer: Trimmer
) -> tuple[Task, tuple[Finding, ...], bool]:
    """The task, the findings about its measures, and whether every part can come from the sheet.

    Raises `ValueError` for no parts, sizes that are not more than zero or beyond all sense,
    negative copies, and for two different parts of one name.
    """
    ruler = trimmer.ruler
    wanted = _wanted(parts)
    for length in (sheet.width, sheet.height, trimmer.longest_cut):
        if length <= ZERO or ruler.marks(length) > MOST_MARKS:
            raise ValueError(f"a sheet and a trimmer have a size that makes sense, not {length!r}")
    width, height = (
        int(ruler.marks(ruler.below(sheet.width))),
        int(ruler.marks(ruler.below(sheet.height))),
    )
    longest = int(ruler.marks(ruler.below(trimmer.longest_cut)))
    tallest = min(longest, height - 1) if sheet.height > trimmer.longest_cut else height
    widest = min(longest, width - 1) if sheet.width > trimmer.longest_cut else width
    bare = Task((), width, height, tallest, widest, ruler.graduation)
    findings: list[Finding] = []
    kinds: dict[tuple[Size, ...], list[Member]] = {}
    all_fit = True
    for part in wanted:
        findings += _off_marks(part, ruler)
        size = planned(part.width, ruler), planned(part.height, ruler)
        poses = sorted({size, size[::-1]} if part.turn else {size})
        inside = [pose for pose in poses if pose[0] <= width and pose[1] <= height]
        cuttable = tuple(pose for pose in inside if _can_be_cut(pose, bare))
        if cuttable:
            member = Member(part.name, part.copies, size)
            kinds.setdefault(cuttable, []).append(member)
            continue
        all_fit = False
        if inside:
            findings.append(_too_long(part, inside, sheet, trimmer, bare))
        else:
            findings.append(_too_small(part, size, sheet, ruler))
    made = tuple(Kind(poses, tuple(members)) for poses, members in kinds.items())
    return (
        Task(made, width, height, tallest, widest, ruler.graduation),
        _once(findings),
        all_fit,
    )


def _wanted(parts: Sequence[Part]) -> list[Part]:
    """The parts with copies, one of each name."""
    by_name: dict[str, Part] = {}
    for part in parts:
        if part.copies < 0 or part.width <= ZERO or part.height <= ZERO:
            raise ValueError(f"a part has a size and copies of more than zero, unlike {part!r}")
        if part.copies == 0:
            continue
        other = by_name.get(part.name)
        if other is None:
            by_name[part.name] = part
            continue
        if (other.width, other.height, other.turn) != (part.width, part.height, part.turn):
            raise ValueError(f"two different parts are both named “{part.name}”")
        by_name[part.name] = Part(
            part.name, part.width, part.height, part.copies + other.copies, part.turn
        )
    if not by_name:
        raise ValueError("a cutting plan needs at least one part")
    return list(by_name.values())


def _once(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    return tuple(dict.fromkeys(findings))


def _can_be_cut(pose: Size, task: Task) -> bool:
    """Whether a piece that lies so can be freed by cuts that the trimmer is long enough for.

    A piece taller than the longest upright cut is never freed at its sides: it must be as wide as
    the sheet, and parted from it by cuts from side to side; and the other way about.
    """
    w, h = pose
    if w == task.width and h == task.height:
        return True
    if h > task.tallest:
        return w == task.width and w <= task.widest
    if w > task.widest:
        return h == task.height and h <= task.tallest
    return task.widest >= task.width or task.tallest >= task.height


def _off_marks(part: Part, ruler: Ruler) -> list[Finding]:
    system = system_of(ruler)
    found = []
    for side, length in (("width", part.width), ("height", part.height)):
        mark = ruler.graduation * planned(length, ruler)
        if mark == length:
            continue
        found.append(
            Finding(
                "cut.off-graduation",
                Severity.CAUTION,
                (part.name, side),
                f"{part.name}: its {side}, {words(length, system)}, lies on no mark of the "
                f"trimmer; the nearest mark is {words(mark, system)}",
                f"make the {side} {words(mark, system)}; the plan cuts it so",
                abs(mark - length),
            )
        )
    return found


def _sheet_words(sheet: SheetSize, system: System) -> str:
    return f"{sheet.name} ({words(sheet.width, system)} x {words(sheet.height, system)})"


def _part_words(part: Part, size: Size, ruler: Ruler) -> str:
    system = system_of(ruler)
    w, h = (words(ruler.graduation * side, system) for side in size)
    return f"{part.name} ({w} x {h})"


def _too_small(part: Part, size: Size, sheet: SheetSize, ruler: Ruler) -> Finding:
    system = system_of(ruler)
    w, h = (ruler.graduation * side for side in size)

    def short(across: Length, upwards: Length) -> Length:
        return max(across - sheet.width, upwards - sheet.height)

    upright, lying = short(w, h), short(h, w)
    amount = min(upright, lying) if part.turn else upright
    if not part.turn and lying <= ZERO:
        advice = (
            "it would fit turned sideways: let it turn, if its pattern allows, or use a sheet of "
            f"at least {words(w, system)} x {words(h, system)}"
        )
    else:
        across, upwards = (h, w) if part.turn and lying < upright else (w, h)
        advice = (
            f"use a sheet of at least {words(across, system)} x {words(upwards, system)}, or make "
            f"{part.name} smaller by {words(amount, system)}"
        )
    return Finding(
        "sheet.too-small",
        Severity.ERROR,
        (part.name, sheet.name),
        f"{_part_words(part, size, ruler)} does not fit on {_sheet_words(sheet, system)}: the "
        f"sheet is {words(amount, system)} short",
        advice,
        amount,
    )


def _too_long(
    part: Part, inside: Sequence[Size], sheet: SheetSize, trimmer: Trimmer, task: Task
) -> Finding:
    """The finding that the trimmer is too short to free a part that the sheet could hold."""
    ruler = trimmer.ruler
    system = system_of(ruler)
    longest = trimmer.longest_cut
    if task.tallest < task.height and task.widest < task.width:
        side = min(sheet.width, sheet.height)
        return Finding(
            "trimmer.too-short",
            Severity.ERROR,
            (sheet.name,),
            f"the first cut of {_sheet_words(sheet, system)} is {words(side, system)} long, and "
            f"the trimmer cuts {words(longest, system)} at most",
            f"use a trimmer that cuts {words(side, system)}, a smaller sheet, or knife and ruler "
            "for the first cut",
            side - longest,
        )

    def missing(pose: Size) -> Length:
        sides = [
            side * ruler.graduation
            for side, most in ((pose[0], task.widest), (pose[1], task.tallest))
            if side > most
        ]
        return max(sides) - longest if sides else ZERO

    amount = min(missing(pose) for pose in inside)
    return Finding(
        "trimmer.too-short",
        Severity.ERROR,
        (part.name, sheet.name),
        f"{part.name} cannot be freed from {_sheet_words(sheet, system)}: its long side needs a "
        f"cut of {words(longest + amount, system)}, and the trimmer cuts "
        f"{words(longest, system)} at most",
        f"use a trimmer that cuts {words(longest + amount, system)}, or knife and ruler",
        amount,
    )
