"""Orders and series as the commands print them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..measure import Length, System, words
from ..orders import StockChange
from ..orders.telling import Told
from .words import columns, heading


def told_lines(sections: Sequence[Told]) -> Iterator[str]:
    """Sections with their headings, columns under each other."""
    for section in sections:
        yield heading(section.heading)
        for listing in section.listings:
            if listing.caption:
                yield f"  {listing.caption}"
            rows = [listing.head, *listing.rows] if listing.head else list(listing.rows)
            yield from columns(rows, "    " if listing.caption else "  ")
        yield from (f"  {said}" for said in section.says)
        yield ""


def stock_lines(changes: Sequence[StockChange], system: System) -> Iterator[str]:
    """What changes on the shelf."""
    yield from columns(
        (change.name, f"{_amount(change.before, system)} →", _amount(change.after, system))
        for change in changes
    )


def _amount(amount: int | Length, system: System) -> str:
    return words(amount, system) if isinstance(amount, Length) else str(amount)
