"""Labels for kits, and the cautions that belong to an order."""

from __future__ import annotations

from collections.abc import Sequence

from ..measure import System, number, words
from ..workshop import AdhesiveKind, Workshop
from .demand import Demand
from .order import KitPart, Label, PaperPlan


def part_words(part: KitPart, system: System) -> str:
    """A part as a packing list names it: "2 front mat, 3 × 4 in"."""
    size = f"{number(part.width, system)} × {words(part.height, system)}"
    return f"{part.count} {part.name}, {size}"


def labels_of(demand: Demand) -> tuple[Label, ...]:
    """One label for the kits that were asked for, and one for the spare ones."""
    design = demand.wanted.design
    lines = [demand.name, f"Kit for one {design.style.name}"]
    lines += [part_words(part, design.system) for part in demand.parts]
    lines += [f"{extra.count} {extra.name}" for extra in demand.extras]
    if demand.extras:
        lines.append("Small parts: not for children under 3.")
    labels = [Label(tuple(lines), demand.wanted.sets)]
    if demand.wanted.spare:
        labels.append(Label((f"{lines[0]} (spare)", *lines[1:]), demand.wanted.spare))
    return tuple(labels)


def cautions_of(
    demanded: Sequence[Demand], plans: Sequence[PaperPlan], workshop: Workshop, *, in_class: bool
) -> tuple[str, ...]:
    """The usual cautions of cutting in numbers, teaching and sending; common practice, no source.

    Where rules differ by place, they defer to them.
    """
    said = ["Keep fingers behind the guard, and change a blunt blade: it slips."]
    if any(plan.sequence.layers > 1 for plan in plans):
        said.append(
            "Never put more sheets into the trimmer than its maker allows, whatever the list says."
        )
    if any(
        workshop.adhesive(one.name).kind is AdhesiveKind.HOT_GLUE
        for demand in demanded
        for one in demand.adhesives
    ):
        said.append("Hot glue burns: one gun a table, on a mat, away from its cord.")
    if in_class:
        said.append("Count the blades in and out, and seat children with a grown-up.")
    if any(demand.extras for demand in demanded):
        said.append("Embellishments are small parts: not for children under 3.")
    if any(demand.wanted.design.project.contents for demand in demanded):
        said.append(
            "Wrap food, label it with its ingredients, and keep to the food rules of your place."
        )
    return tuple(said)
