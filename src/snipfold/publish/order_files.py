"""The files of an order and of a series, by name."""

from __future__ import annotations

from collections.abc import Sequence

from ..drawing import sheet_picture, svg
from ..orders import Order, SeriesOrder, TradeRow, calendar_text
from ..orders.telling import Told, label_text, packing_text, told_order, told_series
from .names import file_word
from .order_json import order_json, series_json

Files = dict[str, bytes]


def order_files(order: Order, trade: Sequence[TradeRow] = ()) -> Files:
    """The order as text and data, its packing list and its labels."""
    return {
        "order.txt": plain_text(told_order(order, trade)).encode(),
        "packing.txt": packing_text(order).encode(),
        "labels.txt": label_text(order).encode(),
        "order.json": order_json(order, trade).encode(),
    } | sheet_pictures(order)


def series_files(series: SeriesOrder) -> Files:
    """The series as text and data, its packing list and labels, and its days as a calendar.

    A series without days has no calendar, since an iCalendar file holds at least one event.
    """
    files = {
        "series.txt": plain_text(told_series(series)).encode(),
        "packing.txt": packing_text(series.whole).encode(),
        "labels.txt": label_text(series.whole).encode(),
        "series.json": series_json(series).encode(),
    } | sheet_pictures(series.whole)
    if any(project.days for project in series.series.projects):
        files["calendar.ics"] = calendar_text(series.series, series.names).encode()
    return files


def sheet_pictures(order: Order) -> Files:
    """Every sheet pattern drawn to scale, its name saying how often it is cut."""
    files: Files = {}
    for plan in order.papers:
        for index, use in enumerate(plan.plan.uses):
            source = plan.sources[use.supply]
            picture = sheet_picture(plan.cut_plan(index), 0, order.system, source.colour)
            name = f"{file_word(plan.paper)}-pattern-{index + 1}-cut-{use.pattern.times}.svg"
            files[name] = svg(picture).encode()
    return files


def plain_text(sections: Sequence[Told]) -> str:
    """Sections as plain text, columns under each other."""
    lines: list[str] = []
    for section in sections:
        lines.append(section.heading)
        for listing in section.listings:
            if listing.caption:
                lines.append(f"  {listing.caption}")
            rows = [listing.head, *listing.rows] if listing.head else list(listing.rows)
            lines += _columns(rows)
        lines += [f"  {said}" for said in section.says]
        lines.append("")
    return "\n".join(lines)


def _columns(rows: Sequence[tuple[str, ...]]) -> list[str]:
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)] if rows else []
    return [
        ("    " + "  ".join(cell.ljust(w) for cell, w in zip(row, widths, strict=True))).rstrip()
        for row in rows
    ]
