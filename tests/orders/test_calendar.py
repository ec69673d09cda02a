"""The calendar file, read back by a parser that shares no code with it."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from snipfold.orders import Day, Occasion, Series, SeriesProject, calendar_text, read_series

icalendar = pytest.importorskip("icalendar")

TEXT = """
name = "Autumn, at the stall; first half"

[[projects]]
file = "bag.toml"
sets = 24
make = 2026-09-05
film = 2026-09-07
publish = 2026-12-31

[[projects]]
file = "tray.toml"
makers = 12
tables = 3
class = [2026-10-03, 2026-10-10]
"""
NAMES = ("Fair bag", "Fudge tray")


def events(text: str) -> list[Any]:
    return list(icalendar.Calendar.from_ical(text).walk("VEVENT"))


def series(text: str = TEXT) -> Series:
    return read_series(text, "autumn.toml")


def test_every_day_comes_back_as_a_whole_day_that_ends_the_day_after() -> None:
    """RFC 5545, 3.6.1: DTEND is not part of the event, so a day ends with the next date."""
    found = {
        (str(one["SUMMARY"]), one["DTSTART"].dt, one["DTEND"].dt)
        for one in events(calendar_text(series(), NAMES))
    }
    day = timedelta(days=1)
    wanted = {
        ("Make: Fair bag", date(2026, 9, 5)), ("Film: Fair bag", date(2026, 9, 7)),
        ("Publish: Fair bag", date(2026, 12, 31)), ("Class: Fudge tray", date(2026, 10, 3)),
        ("Class: Fudge tray", date(2026, 10, 10)),
    }  # fmt: skip
    assert found == {(summary, on, on + day) for summary, on in wanted}


def test_what_rfc_5545_requires_is_there() -> None:
    """3.6: VERSION and PRODID once; 3.6.1: UID and DTSTAMP in every event; UIDs differ."""
    calendar = icalendar.Calendar.from_ical(calendar_text(series(), NAMES))
    assert str(calendar["VERSION"]) == "2.0"
    assert calendar["PRODID"]
    found = calendar.walk("VEVENT")
    assert len({str(one["UID"]) for one in found}) == len(found) == 5
    first = datetime(2026, 9, 5, tzinfo=UTC)
    assert {one["DTSTAMP"].dt for one in found} == {first}


def test_a_description_says_who_comes() -> None:
    classes = [one for one in events(calendar_text(series(), NAMES)) if "Class" in one["SUMMARY"]]
    assert {str(one["DESCRIPTION"]) for one in classes} == {
        "12 makers at 3 tables\n12 sets of tray.toml"
    }


def test_the_same_series_gives_the_same_bytes() -> None:
    assert calendar_text(series(), NAMES) == calendar_text(series(), NAMES)


def test_an_event_keeps_its_uid_when_its_day_moves() -> None:
    """RFC 5545, 3.8.4.7: a UID stays with its event, so that a calendar moves it."""
    moved = series(TEXT.replace("film = 2026-09-07", "film = 2026-09-09"))

    def uids(one: Series) -> dict[str, str]:
        return {
            f"{event['SUMMARY']} {event['DTSTART'].dt.month}": str(event["UID"])
            for event in events(calendar_text(one, NAMES))
        }

    assert uids(moved) == uids(series())


def test_lines_end_in_cr_lf_and_hold_at_most_75_octets() -> None:
    """RFC 5545, 3.1."""
    long = ("Bäckerei " * 12, "Fudge")
    data = calendar_text(series(), long).encode()
    assert data.endswith(b"END:VCALENDAR\r\n")
    lines = data.split(b"\r\n")
    assert all(len(line) <= 75 for line in lines)
    assert b"\n" not in data.replace(b"\r\n", b"")
    for line in lines:
        line.decode()
    assert any(len(line) > 70 for line in lines), "nothing was long enough to fold"


@given(
    st.text(st.characters(blacklist_categories=("Cs",)), max_size=200),
    st.text(st.characters(blacklist_categories=("Cs",)), max_size=80),
    st.dates(date(2000, 1, 1), date(2199, 12, 30)),
)
def test_any_name_comes_back_as_it_was_written(name: str, file: str, on: date) -> None:
    one = SeriesProject(file, 3, None, (Day(Occasion.MAKE, on, 1),), None)
    text = calendar_text(Series(name, None, None, (one,), ""), (name,))
    (event,) = events(text)
    kept = "".join(c for c in name.replace("\r\n", "\n") if c == "\n" or c.isprintable())
    assert str(event["SUMMARY"]) == f"Make: {kept}"
    assert event["DTSTART"].dt == on
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n"))
