"""Reading what lies on the maker's shelf, and their own times and terms."""

from __future__ import annotations

from dataclasses import fields, replace
from decimal import Decimal

from ..measure import Length, System, words
from .selling import Pace, Terms
from .shelf import Embellishment, Envelope, ShelvedOffcut
from .stock import Paper
from .toml_text import Table, one_of, shown

#: mm. A kit that is thicker goes by parcel.
_THICKEST_EXTRA = Length.mm(100)
#: Sheets or pieces of one kind on a shelf, or in a pack.
MOST_ON_HAND = 100_000
MOST_OFFCUTS = 200
_HEAVIEST_PIECE = 10_000


def known_name(table: Table, key: str, names: list[str]) -> str | None:
    """The name that a key holds, where it is one of `names`; a problem and None otherwise."""
    name = table.words(key)
    if name is not None and name not in names:
        table.problem((key,), name, "not in this workshop", one_of(name, names))
        return None
    return name


def price_of(table: Table, otherwise: Decimal | None) -> Decimal | None:
    """The price of a table, or what it is otherwise."""
    price = table.price("price")
    return otherwise if price is None else price


def pack_of(table: Table, otherwise: int, what: str = "pieces") -> int:
    """How many come in a pack, or what it is otherwise."""
    return table.count("pack", MOST_ON_HAND, what) or otherwise


def on_hand_of(table: Table, otherwise: int, what: str = "pieces") -> int:
    """How many are on hand, or what it is otherwise."""
    count = table.count("on_hand", MOST_ON_HAND, what, zero=True)
    return otherwise if count is None else count


def offcuts_of(
    tables: list[Table], papers: tuple[Paper, ...], system: System
) -> tuple[ShelvedOffcut, ...]:
    """Offcuts on the shelf, each of a paper that the workshop knows and no larger than its sheet."""
    by_name = {paper.name: paper for paper in papers}
    made = []
    for table in tables:
        paper = known_name(table, "paper", list(by_name))
        size = table.size("size", system)
        count = 1 if "count" not in table else table.count("count", MOST_ON_HAND, "offcuts")
        for key, right in (("paper", next(iter(by_name))), ("size", "3 x 12 in")):
            if key not in table:
                table.problem((key,), "", "missing", f'write {key} = "{right}"')
        table.finish()
        if paper is None or size is None or count is None:
            continue
        sheet = by_name[paper]
        if size[0] > sheet.true_width or size[1] > sheet.true_height:
            table.problem(
                ("size",),
                shown(table.raw("size")),
                "larger than its sheet, "
                f"{words(sheet.true_width, system)} by {words(sheet.true_height, system)}",
                "give width and height as the sheet stood upright",
            )
            continue
        made.append(ShelvedOffcut(paper, *size, count))
    return tuple(made)


def envelopes_of(table: Table, base: tuple[Envelope, ...], system: System) -> tuple[Envelope, ...]:
    """The envelopes of `base` with what the table changes and adds."""
    envelopes = {envelope.name: envelope for envelope in base}
    for name in table.keys:
        one = table.table(name)
        size = one.size("size", system)
        old = envelopes.get(name)
        if old is None:
            if "size" not in one:
                one.problem(("size",), "", "missing for a new envelope", 'write size = "6 x 9 in"')
            old = Envelope(name, Length.mm(162), Length.mm(229))
        thick = one.length("thickness", system, most=_THICKEST_EXTRA)
        envelopes[name] = replace(
            old,
            width=size[0] if size else old.width,
            height=size[1] if size else old.height,
            price=price_of(one, old.price),
            pack=pack_of(one, old.pack),
            on_hand=on_hand_of(one, old.on_hand),
            weight=one.amount("weight", "g", _HEAVIEST_PIECE) or old.weight,
            thickness=thick or old.thickness,
        )
        one.finish()
    return tuple(envelopes.values())


def embellishments_of(
    table: Table, base: tuple[Embellishment, ...], system: System
) -> tuple[Embellishment, ...]:
    """The embellishments of `base` with what the table changes and adds."""
    known = {one.name: one for one in base}
    for name in table.keys:
        one = table.table(name)
        old = known.get(name) or Embellishment(name)
        thick = one.length("thickness", system, most=_THICKEST_EXTRA)
        known[name] = replace(
            old,
            price=price_of(one, old.price),
            pack=pack_of(one, old.pack),
            on_hand=on_hand_of(one, old.on_hand),
            weight=one.amount("weight", "g", _HEAVIEST_PIECE) or old.weight,
            thickness=thick or old.thickness,
        )
        one.finish()
    return tuple(known.values())


def pace_of(table: Table, base: Pace) -> Pace:
    """The times of `base` with those that the table says."""
    pace = replace(
        base,
        **{
            field.name: timed
            for field in fields(Pace)
            if (timed := table.minutes(field.name)) is not None
        },
    )
    table.finish()
    return pace


def terms_of(table: Table, base: Terms) -> Terms:
    """The terms of `base` with those that the table says."""
    rate, margin = table.price("hourly_rate"), table.share("margin", 100, under=True)
    table.finish()
    return Terms(
        base.hourly_rate if rate is None else rate, base.margin if margin is None else margin
    )
