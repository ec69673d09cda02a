"""How many sets come from a sheet: the figure of the cutting plan, without its cuts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..cutting import Part, SheetSize, plan_make
from ..cutting.fit import Fit, joins, single
from ..cutting.grid import task_of
from ..cutting.limits import by_scales
from ..flat import area
from ..styles import Construction
from ..workshop import Paper, Trimmer

#: Joins of a table that is made here; past it the planner has better ways.
_AT_ONCE = 4_000


@dataclass(frozen=True, slots=True)
class Yield:
    """So many `sets` from one sheet, or so many `sheets` for one set (then `sets` is 0).

    With both 0 some part comes from no sheet. `proven` says that no plan does better.
    """

    sets: int
    sheets: int
    proven: bool

    @property
    def rank(self) -> tuple[int, int]:
        """More sets, then fewer sheets, then any at all: the lesser is the better."""
        return -self.sets, self.sheets or 1 << 30


def sheet_of(paper: Paper) -> SheetSize:
    """The rectangle of a paper's sheet that can be used."""
    return SheetSize(paper.name, paper.usable_width, paper.usable_height)


def parts_of(construction: Construction, paper: Paper, pieces: Sequence[str] = ()) -> list[Part]:
    """The blanks as parts to be cut: those named, or all. A pattern with an up may not turn."""
    return [
        Part(piece.name, piece.width, piece.height, 1, turn=not paper.directed)
        for piece in construction.pieces
        if not pieces or piece.name in pieces
    ]


def most_sets(parts: Sequence[Part], sheet: SheetSize, trimmer: Trimmer) -> int:
    """A limit that no plan passes: how many sets the sheet may give at most; 0 where none fits."""
    task, _, all_fit = task_of(parts, sheet, trimmer)
    return by_scales(task)[0] if all_fit else 0


def yield_of(parts: Sequence[Part], sheet: SheetSize, trimmer: Trimmer) -> Yield:
    """How many sets come from one sheet, or how many sheets a set takes, as `plan_make` says.

    Where a small table answers, no cuts are worked out, which is most of a plan's work. Raises
    `ValueError` as `plan_make` does.
    """
    task, _, all_fit = task_of(parts, sheet, trimmer)
    if not all_fit:
        return Yield(0, 0, True)
    copies = [kind.copies for kind in task.kinds]
    top = by_scales(task)[0]
    if top and joins(single([top * copy for copy in copies])) <= _AT_ONCE:
        fit = Fit(task, single([top * copy for copy in copies]))
        for sets in range(top, 0, -1):
            if fit.fits(fit.handful([sets * copy for copy in copies])):
                return Yield(sets, 1, True)
    plan = plan_make(parts, sheet, trimmer)
    return Yield(plan.sets_per_sheet, plan.sheets_per_set, plan.proven)


def gives(parts: Sequence[Part], sheet: SheetSize, trimmer: Trimmer, sets: int) -> bool:
    """Whether one sheet gives so many sets, as `plan_make` says.

    One or two blanks are told without a table: of two that fit, one cut parts them.
    """
    task, _, all_fit = task_of(parts, sheet, trimmer)
    if not all_fit:
        return False
    blanks = [kind.poses for kind in task.kinds for _ in range(kind.copies * sets)]
    if len(blanks) > 2 or not task.free_cuts:
        return yield_of(parts, sheet, trimmer).sets >= sets
    if len(blanks) == 1:
        return True
    return any(
        (w0 + w1 <= task.width and max(h0, h1) <= task.height)
        or (h0 + h1 <= task.height and max(w0, w1) <= task.width)
        for w0, h0 in blanks[0]
        for w1, h1 in blanks[1]
    )


def waste_of(construction: Construction, sheet: SheetSize, got: Yield) -> Fraction:
    """The share of the sheets that ends up in no box: offcuts, and what is snipped away.

    1 where no set comes from them. Exact.
    """
    if not got.sheets:
        return Fraction(1)
    boxes = sum(
        (area(panel.corners) for piece in construction.pieces for panel in piece.panels),
        Fraction(0),
    )
    sheets = sheet.width.as_mm * sheet.height.as_mm * got.sheets
    return 1 - boxes * max(1, got.sets) / sheets
