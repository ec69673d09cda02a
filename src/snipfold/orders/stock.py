"""The shelf after an order is made: what was used is gone, offcuts are put by."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from ..measure import ZERO, Length, System
from ..project import exact_words
from ..supplies import PackLine, RollLine
from ..workshop import Adhesive, Embellishment, Envelope, Paper, ShelvedOffcut, Workshop
from .order import Order, Origin


@dataclass(frozen=True, slots=True)
class StockChange:
    """One thing on the shelf before and after, in numbers of pieces, or lengths of adhesive."""

    name: str
    before: int | Length
    after: int | Length


def stock_after(order: Order, workshop: Workshop) -> Workshop:
    """The workshop once everything of the shopping list is bought and the order is made.

    Sheets, adhesives, embellishments and envelopes are what was on hand and bought, less what was
    used; offcuts that were cut are gone and those worth keeping are on the shelf. An adhesive of
    which nobody knows how much a roll holds goes down to nothing at most.
    """
    packs = {(line.goods.value, line.name): line for line in order.shopping.lines}

    def left(goods: str, name: str, now: int) -> int:
        line = packs.get((goods, name))
        return line.left if isinstance(line, PackLine) else now

    def length_left(one: Adhesive) -> Length:
        line = packs.get(("adhesive", one.name))
        if not isinstance(line, RollLine):
            return one.on_hand
        return ZERO if line.left is None else line.left

    def papers(one: Paper) -> Paper:
        return replace(one, on_hand=left("paper", one.name, one.on_hand))

    def embellishments(one: Embellishment) -> Embellishment:
        return replace(one, on_hand=left("embellishment", one.name, one.on_hand))

    def envelopes(one: Envelope) -> Envelope:
        return replace(one, on_hand=left("envelope", one.name, one.on_hand))

    return replace(
        workshop,
        papers=tuple(map(papers, workshop.papers)),
        adhesives=tuple(replace(one, on_hand=length_left(one)) for one in workshop.adhesives),
        embellishments=tuple(map(embellishments, workshop.embellishments)),
        envelopes=tuple(map(envelopes, workshop.envelopes)),
        offcuts=_offcuts(order, workshop),
    )


def _offcuts(order: Order, workshop: Workshop) -> tuple[ShelvedOffcut, ...]:
    """The offcuts on the shelf: those that were there and not cut, then new ones."""
    counts: Counter[tuple[str, Length, Length]] = Counter()
    for offcut in workshop.offcuts:
        counts[offcut.paper, offcut.width, offcut.height] += offcut.count
    for plan in order.papers:
        for source, count in zip(plan.sources, plan.plan.sheets, strict=True):
            if source.origin is Origin.SHELF:
                counts[source.paper, source.width, source.height] -= count
        for offcut in plan.offcuts:
            counts[offcut.paper, offcut.width, offcut.height] += offcut.count
    return tuple(ShelvedOffcut(*size, count) for size, count in counts.items() if count > 0)


def stock_changes(before: Workshop, after: Workshop) -> tuple[StockChange, ...]:
    """Everything on the shelf that differs, by name."""
    pairs: list[tuple[str, int | Length, int | Length]] = [
        pair for counts in _counts(before, after).values() for pair in counts
    ]
    pairs += (
        (was.name, was.on_hand, now.on_hand)
        for was, now in zip(before.adhesives, after.adhesives, strict=True)
    )
    changes = [StockChange(name, had, has) for name, had, has in pairs if had != has]
    was, now = (_counted(one, before.system) for one in (before, after))
    changes += (
        StockChange(name, was.get(name, 0), now.get(name, 0))
        for name in dict.fromkeys([*was, *now])
        if was.get(name, 0) != now.get(name, 0)
    )
    return tuple(changes)


def _counts(before: Workshop, after: Workshop) -> dict[str, list[tuple[str, int, int]]]:
    """What is counted by the piece, before and after, by the table of the workshop file."""
    return {
        "papers": [
            (a.name, a.on_hand, b.on_hand) for a, b in zip(before.papers, after.papers, strict=True)
        ],
        "embellishments": [
            (a.name, a.on_hand, b.on_hand)
            for a, b in zip(before.embellishments, after.embellishments, strict=True)
        ],
        "envelopes": [
            (a.name, a.on_hand, b.on_hand)
            for a, b in zip(before.envelopes, after.envelopes, strict=True)
        ],
    }


def _counted(workshop: Workshop, system: System) -> dict[str, int]:
    counts: Counter[str] = Counter()
    for one in workshop.offcuts:
        counts[f"offcut {_size(one, system)} of {one.paper}"] += one.count
    return dict(counts)


def _size(offcut: ShelvedOffcut, system: System) -> str:
    """A size that reads back exactly."""
    sides = exact_words(offcut.width, system), exact_words(offcut.height, system)
    unit = sides[1].rsplit(" ", 1)[-1]
    if sides[0].endswith(f" {unit}"):
        return f"{sides[0].removesuffix(f' {unit}')} x {sides[1]}"
    return " x ".join(sides)


def stock_text(text: str, before: Workshop, after: Workshop) -> str:
    """The text of a workshop file with the new stock, its remarks and all else as they were.

    `before` is what the text was read to. Only what differs is written: `on_hand` of papers,
    adhesives, embellishments and envelopes, and the list of offcuts.
    """
    # Only this needs it, and an order should not wait for it.
    import tomlkit

    document = tomlkit.parse(text)
    for key, counts in _counts(before, after).items():
        _write_counts(document, key, counts)
    for was, now in zip(before.adhesives, after.adhesives, strict=True):
        if was.on_hand != now.on_hand:
            _entry(document, "adhesives", was.name)["on_hand"] = exact_words(
                now.on_hand, before.system
            )
    if before.offcuts != after.offcuts:
        _write_offcuts(document, before.offcuts, after.offcuts, before.system)
    return tomlkit.dumps(document)


def _write_counts(document: Any, key: str, changed: Iterable[tuple[str, int, int]]) -> None:
    for name, was, now in changed:
        if was != now:
            _entry(document, key, name)["on_hand"] = now


def _entry(document: Any, key: str, name: str) -> Any:
    """The table of one thing, made where the file has none: a paper that is assumed, for one."""
    import tomlkit

    if key not in document:
        document[key] = tomlkit.table(is_super_table=True)
    if name not in document[key]:
        document[key][name] = tomlkit.table()
    return document[key][name]


def _write_offcuts(
    document: Any,
    before: tuple[ShelvedOffcut, ...],
    after: tuple[ShelvedOffcut, ...],
    system: System,
) -> None:
    """Change counts in place, take out what is gone, add what is new at the end."""
    import tomlkit

    left: Mapping[tuple[str, Length, Length], int]
    left = {(one.paper, one.width, one.height): one.count for one in after}
    listed = document.get("offcuts")
    seen: set[tuple[str, Length, Length]] = set()
    if listed is not None:
        for number in range(len(before) - 1, -1, -1):
            one = before[number]
            size = (one.paper, one.width, one.height)
            count = left.get(size, 0) if size not in seen else 0
            seen.add(size)
            if not count:
                del listed[number]
            elif count != one.count:
                listed[number]["count"] = count
    fresh = [one for one in after if (one.paper, one.width, one.height) not in seen]
    if not fresh:
        if listed is not None and not len(listed):
            del document["offcuts"]
        return
    if listed is None or not len(listed):
        if listed is not None:
            del document["offcuts"]
        listed = tomlkit.aot()
    for one in fresh:
        table = tomlkit.table()
        table["paper"] = one.paper
        table["size"] = _size(one, system)
        table["count"] = one.count
        listed.append(table)
    if "offcuts" not in document:
        document.append("offcuts", listed)
