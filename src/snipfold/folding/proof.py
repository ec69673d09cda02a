"""The proof: every law of a design, with its figure."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from ..findings import Finding, Severity
from ..flat import flat_findings
from ..measure import Length, Ruler, System, words
from ..measure.tolerance import BACKED_GAP_MM, CLOSING_MM
from ..styles import Construction
from .closing import Gap, closing_findings, gaps, glue_findings, glue_off
from .layers import contact_findings, order_findings
from .pose import Pose, closed, closed_angles, pose
from .report import Law, Proof, Treat
from .room import (
    Covers,
    Thickness,
    air_between,
    air_findings,
    clear_inside,
    fit_findings,
    too_deep,
    too_deep_findings,
)
from .slips import as_ruled


def prove(
    construction: Construction,
    measures: Mapping[str, Length],
    *,
    thickness: Thickness,
    tape: Length,
    covers: Covers,
    treats: Sequence[Treat],
    ruler: Ruler,
    trimmer: Ruler,
    system: System,
) -> Proof:
    """The proof of a box: laws with figures, the clear inside, stacks, air, and what is wrong.

    `thickness` is each piece's paper, `tape` what a strip of the tape adds between two panels,
    `covers` what lies on outside faces; `ruler` is what pencil and scores are measured with,
    `trimmer` what blanks are cut with. Of a fault and what follows from it only the fault is a
    finding.
    """
    folded = closed(construction)
    findings: list[Finding] = []
    laws: list[Law] = []

    def law(
        code: str, asks: str, found: Sequence[Finding], figure: float, limit: float, says: str,
        unit: str = "mm",
    ) -> None:  # fmt: skip
        findings.extend(found)
        holds = not any(one.severity is not Severity.NOTE for one in found)
        laws.append(Law(code, asks, holds, figure, limit, unit, says))

    flat = [one for piece in construction.pieces for one in flat_findings(piece, system)]
    law(
        "flat", "panels and snips tile each blank, and every panel is free to fold", flat,
        float(len(flat)), 0.0, f"{len(flat)} of {len(construction.pieces)} at fault", "count",
    )  # fmt: skip

    designed = max(
        (
            gap.size
            for piece in construction.pieces
            for gap in gaps(piece, folded[piece.name], construction.meets)
        ),
        default=0.0,
    )
    past = too_deep(construction, folded)
    closing = {
        piece.name: closing_findings(
            construction, piece, folded[piece.name], measures, frozenset(past), ruler, system
        )
        for piece in construction.pieces
    }
    law(
        "closing.designed", "edges that belong together meet when the box is closed",
        [one for found in closing.values() for one in found], designed, CLOSING_MM,
        _at_most("widest gap as designed", designed, CLOSING_MM),
    )  # fmt: skip
    sound = [piece for piece in construction.pieces if not closing[piece.name]]

    # Edges that run side by side leave no gap, whatever is between them.
    ruled = [
        gap
        for gap in _ruled_gaps(construction, folded, ruler, trimmer)
        if gap.meet is None or gap.meet.touches
    ]
    marked = max((gap.size for gap in ruled), default=0.0)
    whole = len(sound) == len(construction.pieces)
    marked_found = _marked_findings(ruled, min(thickness.values()), ruler, system) if whole else ()
    law(
        "closing.marked", "it still closes with every line at the ruler's nearest mark",
        marked_found, marked, min(thickness.values()).float_mm,
        _at_most("widest gap as marked", marked, CLOSING_MM),
    )  # fmt: skip

    if closing[construction.cavity.piece]:
        past = {}
    skip = frozenset(past)
    law(
        "flaps", "flaps stay within the walls", too_deep_findings(construction, past, measures, ruler, system),
        max(past.values(), default=0.0), 0.0,
        _at_most("furthest past the walls", max(past.values(), default=0.0), 0.0),
    )  # fmt: skip

    contact = [
        one for piece in sound
        for one in contact_findings(construction, piece, folded[piece.name], skip, system)
    ]  # fmt: skip
    deepest = max((one.amount.float_mm for one in contact if one.amount), default=0.0)
    law(
        "contact", "panels touch only where one is meant to lie on another", contact, deepest, 0.0,
        _at_most("deepest crossing", deepest, 0.0),
    )  # fmt: skip
    order = [one for piece in construction.pieces for one in order_findings(construction, piece)]
    law(
        "layers", "what lies inside is folded first", order, float(len(order)), 0.0,
        f"{len(construction.layers)} pairs, {len(order)} at fault", "count",
    )  # fmt: skip

    glue = [
        one for piece in sound
        for one in glue_findings(construction, piece, folded[piece.name], skip, system)
    ]  # fmt: skip
    furthest = max(
        (
            max(glue_off(piece, folded[piece.name], area))
            for piece in construction.pieces
            for area in piece.glue
        ),
        default=0.0,
    )
    law(
        "glue", "every strip of adhesive lies on its mate, on the faces that meet", glue,
        furthest, CLOSING_MM, _at_most("furthest off its mate", furthest, CLOSING_MM),
    )  # fmt: skip

    clear, stacks = clear_inside(construction, folded, thickness, tape)
    whole = whole and not past
    fit = (
        fit_findings(construction, folded, clear, treats, thickness, tape, measures, ruler, system)
        if whole
        else ()
    )
    lack = max((one.amount.float_mm for one in fit if one.amount), default=0.0)
    law(
        "contents", "the treats fit the clear inside with their allowance", fit, lack, 0.0,
        "nothing to put in was given" if not treats else _at_most("most lacking", lack, 0.0),
    )  # fmt: skip

    airs = air_between(construction, folded, thickness, covers, tape)
    if airs:
        least = min(air.left for air in airs)
        law(
            "air", f"the {airs[0].outer} slides over the {airs[0].inner}",
            air_findings(construction, airs, thickness, measures, ruler, system) if whole else (),
            least.float_mm, 0.0, f"least air across {least.float_mm:.3f} mm",
        )  # fmt: skip
    return Proof(
        tuple(laws), clear, stacks, airs, Length.figure(designed), Length.figure(marked),
        tuple(findings),
    )  # fmt: skip


def _at_most(what: str, figure: float, nothing: float) -> str:
    """The figure in words: none, where it is no more than rounding."""
    return f"{what}: none" if figure <= nothing else f"{what}: {figure:.3f} mm"


def _ruled_gaps(
    construction: Construction, folded: Mapping[str, Pose], ruler: Ruler, trimmer: Ruler
) -> Iterator[Gap]:
    """Every gap of every piece as it is drawn with those rulers; `folded` is as designed."""
    for piece in construction.pieces:
        drawn = as_ruled(piece, ruler, trimmer)
        there = (
            folded[piece.name]
            if drawn is piece
            else pose(drawn, construction.stand(piece.name), closed_angles(drawn))
        )
        yield from gaps(drawn, there, construction.meets)


def _marked_findings(
    ruled: Sequence[Gap], thinnest: Length, ruler: Ruler, system: System
) -> tuple[Finding, ...]:
    """The widest gap of the piece as ruled, where it is more than the paper is thick.

    It is a caution where it shows, and a note where paper lies behind it and it is small.
    """

    def weight(gap: Gap) -> tuple[bool, float]:
        behind = gap.meet is not None and gap.meet.backed
        return gap.size > (BACKED_GAP_MM if behind else thinnest.float_mm + CLOSING_MM), gap.size

    worst = max(ruled, key=weight, default=None)
    if worst is None or worst.size <= thinnest.float_mm + CLOSING_MM:
        return ()
    shows, _ = weight(worst)
    gap = Length.figure(worst.size)
    return (
        Finding(
            "closing.marked",
            Severity.CAUTION if shows else Severity.NOTE,
            (worst.piece, worst.one, worst.other),
            f"{worst.piece}: ruled to the nearest mark, {worst.one} and {worst.other} stay "
            f"{words(gap, system)} apart, which is more than the paper is thick",
            f"choose measures that lie on marks of {words(ruler.graduation, system)}"
            if shows
            else "nothing to do, since paper lies behind that joint; or draw round the template",
            gap,
        ),
    )
