"""Working out what one set takes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from fractions import Fraction

from ..cutting.plan import CutPlan, Part
from ..dressing import Dressing
from ..measure import total, words
from ..workshop import AdhesiveKind, Paper, Workshop
from .supplies import AdhesiveNeed, PaperNeed, Supplies

_MM2_IN_M2 = 10**6


def work_out(
    papers: Mapping[str, Paper],
    cutting: Mapping[str, CutPlan],
    dressing: Dressing,
    workshop: Workshop,
) -> Supplies:
    """Everything that one set takes.

    `papers` maps each piece, "mats" and "strap" to its paper; `cutting` has the plan of each
    paper, by the paper's name. Prices come only from the maker's own papers and adhesives. Raises
    `KeyError` for a plan of a paper, or a strip of an adhesive, that is unknown.
    """
    by_name = {paper.name: paper for paper in papers.values()}
    paper_needs = tuple(_paper(by_name[name], plan) for name, plan in cutting.items())
    adhesive_needs = _adhesives(dressing, workshop)
    prices = [
        *((need.paper, need.price) for need in paper_needs),
        *((need.adhesive, need.price) for need in adhesive_needs),
    ]
    priced = [price for _, price in prices if price is not None]
    return Supplies(
        paper_needs,
        adhesive_needs,
        _tools(adhesive_needs, workshop),
        _rounded(sum(priced, Fraction(0))) if priced else None,
        workshop.currency,
        tuple(name for name, price in prices if price is None),
    )


def sheet_weight(paper: Paper, parts: Sequence[Part]) -> Fraction:
    """What all copies of `parts` weigh when cut from `paper`, grams, exactly.

    As cut, before anything is snipped away. Source: ISO 536, grammage is mass over area.
    """
    area = sum((part.width.as_mm * part.height.as_mm * part.copies for part in parts), Fraction(0))
    return paper.gsm * area / _MM2_IN_M2


def _paper(paper: Paper, plan: CutPlan) -> PaperNeed:
    price = None
    if paper.price is not None and (plan.sets_per_sheet or plan.sheets_per_set):
        sheet = Fraction(paper.price) / paper.pack
        price = sheet / plan.sets_per_sheet if plan.sets_per_sheet else sheet * plan.sheets_per_set
    return PaperNeed(
        paper.name,
        plan.sets_per_sheet,
        plan.sheets_per_set,
        tuple((part.name, part.copies, part.width, part.height) for part in plan.parts),
        sheet_weight(paper, plan.parts),
        price,
    )


def _adhesives(dressing: Dressing, workshop: Workshop) -> tuple[AdhesiveNeed, ...]:
    names = dict.fromkeys(strip.adhesive for strip in dressing.strips)
    needs = []
    for name in names:
        adhesive = workshop.adhesive(name)
        strips = [strip for strip in dressing.strips if strip.adhesive == name]
        length = total(strip.length for strip in strips)
        price = (
            Fraction(adhesive.price) * length.over(adhesive.roll)
            if adhesive.price is not None and adhesive.roll is not None
            else None
        )
        needs.append(AdhesiveNeed(name, length, len(strips), price))
    return tuple(needs)


def _tools(adhesives: Sequence[AdhesiveNeed], workshop: Workshop) -> tuple[str, ...]:
    system = workshop.system
    trimmer, board = workshop.trimmer, workshop.board
    hot = any(workshop.adhesive(need.adhesive).kind is AdhesiveKind.HOT_GLUE for need in adhesives)
    return (
        f"trimmer that cuts {words(trimmer.longest_cut, system)}, marked every "
        f"{words(trimmer.ruler.graduation, system)}",
        f"scoring board, grooves every {words(board.grooves.graduation, system)}",
        "bone folder",
        "scissors",
        "ruler and pencil",
        *(("glue gun",) if hot else ()),
    )


def _rounded(amount: Fraction) -> Decimal:
    """The amount to the hundredth, half up, rounded once from the exact value."""
    hundredths = (amount * 100 + Fraction(1, 2)).__floor__()
    return Decimal(hundredths).scaleb(-2)
