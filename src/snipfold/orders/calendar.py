"""The days of a series as an iCalendar file.

Source: RFC 5545, Internet Calendaring and Scheduling Core Object Specification (iCalendar). Whole
days only: `DTSTART` and `DTEND` are dates, and the end is the day after (section 3.6.1). Lines end
in CR LF and are folded at 75 octets (3.1); text escapes backslash, semicolon, comma and line break
(3.3.11). `NAME` is from RFC 7986, section 5.1.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from uuid import NAMESPACE_URL, uuid5

from .series import Day, Occasion, Series, SeriesProject

_PRODUCT = "-//Snipfold//Series//EN"
_MOST_OCTETS = 75
_SAID = {
    Occasion.MAKE: "Make",
    Occasion.FILM: "Film",
    Occasion.PUBLISH: "Publish",
    Occasion.CLASS: "Class",
}


def calendar_text(series: Series, names: Sequence[str]) -> str:
    """The make, film, publish and class days of a series, `names` those of its projects.

    The same series always gives the same text: an event keeps its UID when its day moves, and
    the time stamp is the first day of the series, since no clock is read.
    """
    days = [day.on for project in series.projects for day in project.days]
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:{_PRODUCT}", "CALSCALE:GREGORIAN"]
    lines.append(f"NAME:{_text(series.name)}")
    seen: dict[str, int] = {}
    for project, name in zip(series.projects, names, strict=True):
        seen[project.file] = seen.get(project.file, 0) + 1
        for day in sorted(project.days, key=lambda one: (one.on, one.occasion.value)):
            lines += _event(series, project, name, day, seen[project.file], min(days))
    lines.append("END:VCALENDAR")
    return "".join(f"{part}\r\n" for line in lines for part in _folded(line))


def _event(
    series: Series, project: SeriesProject, name: str, day: Day, copy: int, stamp: date
) -> Iterator[str]:
    key = "\n".join((series.name, project.file, str(copy), day.occasion.value, str(day.number)))
    yield "BEGIN:VEVENT"
    yield f"UID:{uuid5(NAMESPACE_URL, f'snipfold:{key}')}"
    yield f"DTSTAMP:{stamp:%Y%m%d}T000000Z"
    yield f"DTSTART;VALUE=DATE:{_date(day.on)}"
    yield f"DTEND;VALUE=DATE:{_date(day.on + timedelta(days=1))}"
    yield f"SUMMARY:{_text(f'{_SAID[day.occasion]}: {name}')}"
    yield f"DESCRIPTION:{_text(_describe(project, day))}"
    yield f"CATEGORIES:{_text(day.occasion.value)}"
    yield "TRANSP:TRANSPARENT"
    yield "END:VEVENT"


def _describe(project: SeriesProject, day: Day) -> str:
    sets = f"{project.sets} set{'' if project.sets == 1 else 's'} of {project.file}"
    if day.occasion is Occasion.CLASS and project.day is not None:
        makers, tables = project.day.makers, project.day.tables
        return (
            f"{makers} maker{'' if makers == 1 else 's'} at "
            f"{tables} table{'' if tables == 1 else 's'}\n{sets}"
        )
    return sets


def _date(day: date) -> str:
    return f"{day.year:04}{day.month:02}{day.day:02}"


def _text(said: str) -> str:
    """Text as a value: escaped, without characters that no text may hold."""
    kept = "".join(c for c in said.replace("\r\n", "\n") if c == "\n" or c.isprintable())
    for sign in ("\\", ";", ","):
        kept = kept.replace(sign, f"\\{sign}")
    return kept.replace("\n", "\\n")


def _folded(line: str) -> Iterator[str]:
    """A line in pieces of at most 75 octets, every piece but the first begun with a space.

    No character is taken apart.
    """
    piece, octets = "", 0
    for character in line:
        size = len(character.encode())
        if octets + size > _MOST_OCTETS:
            yield piece
            piece, octets = " ", 1
        piece += character
        octets += size
    yield piece
