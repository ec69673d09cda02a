"""Reading a project file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from types import MappingProxyType

from ..dressing import MatWish, StrapWish
from ..dressing.names import panel_keys
from ..findings import Mend, ProjectFileError
from ..folding import Treat
from ..measure import ZERO, Length, Ruler, System, words
from ..styles import STYLES, Construction, Given, Measure, ScoredBlank, Style, style_named
from ..supplies import Extra
from ..workshop import SYSTEMS, Workshop, default_workshop
from ..workshop.toml_text import Table, field_name, nearest, one_of, read_toml, shown
from .project import Project
from .read_blank import has_room, read_blank

#: What papers are named for besides the pieces of the style.
OTHER_PAPERS = ("mats", "strap")

#: Borders, straps and allowances where the file says nothing: common practice, no source, but the
#: metric border of 2 mm (http://inkspirationaldesigns.blogspot.com/2013/06/borders-matting-and-layers.html)
#: and the allowance of 1/8 in on each side of what goes in
#: (https://messageinafold.wordpress.com/2011/12/19/boxed-in-the-ears-by-math/).
BORDER = {System.INCH: Length.inch("1/16"), System.METRIC: Length.mm(2)}
STRAP_WIDTH = {System.INCH: Length.inch("3/4"), System.METRIC: Length.mm(20)}
STRAP_OPENING = {System.INCH: Length.inch("5/2"), System.METRIC: Length.mm(65)}
STRAP_FOOT = {System.INCH: Length.inch(1), System.METRIC: Length.mm(25)}
ALLOWANCE = {System.INCH: Length.inch("1/8"), System.METRIC: Length.mm(3)}

_MARKS = {System.INCH: Ruler(Length.inch("1/32")), System.METRIC: Ruler(Length.mm("0.5"))}
_MOST_CONTENTS = 50
_MOST_EXTRAS = 50
#: Pieces of one embellishment on one box.
_MOST_PIECES = 1_000


def read_project(text: str, source: str) -> Project:
    """The project that the TOML `text` says; `source` is the file's name for the messages.

    Raises `ProjectFileError` with every problem found: broken TOML, unknown names, measures that
    cannot be read or lie beyond the limits of the style. Names of papers depend on the workshop:
    `check_papers` looks at those.
    """
    top = read_toml(text, source)
    name, notes = top.words("name"), top.words("notes", notes=True)
    system = top.choice("units", SYSTEMS)
    if "units" not in top:
        top.problem(("units",), "", "missing", 'write units = "inch" or units = "metric"')
    style = _style(top, system or System.INCH)
    keep_grain = top.yes_no("keep_grain")
    tables = {key: top.table(key) for key in ("measures", "papers", "mats", "strap")}
    contents = top.tables("contents", _MOST_CONTENTS)
    together, extras = top.names("same_sheet"), top.tables("extras", _MOST_EXTRAS)
    top.finish()
    if style is None:
        # Without its style, no measure, piece or panel of the file can be told right from wrong.
        raise ProjectFileError(top.problems)
    reading = _Reading(style, system or System.INCH)
    project = Project(
        name=name or style.name,
        style=style.name,
        system=reading.system,
        measures=reading.measures(tables["measures"]),
        papers=reading.papers(tables["papers"]),
        keep_grain=keep_grain or False,
        mats=reading.mats(tables["mats"]),
        strap=reading.strap(tables["strap"]),
        contents=tuple(reading.treat(table) for table in contents),
        notes=notes or "",
        same_sheet=reading.same_sheet(top, together),
        extras=reading.extras(extras),
        blank=style.plan if isinstance(style, ScoredBlank) else None,
    )
    if project.blank is not None and contents and not has_room(project.blank):
        wrong, right = (
            "nothing says what bounds the inside",
            "write [blank.cavity], or leave this out",
        )
        top.problem(("contents", 0), "", wrong, right)
    if top.problems:
        raise ProjectFileError(top.problems)
    return project


def check_papers(project: Project, workshop: Workshop, text: str, source: str) -> None:
    """Make sure that the workshop holds every paper that the project names.

    `text` is what `project` was read from. Raises `ProjectFileError`.
    """
    table = read_toml(text, source).table("papers")
    known = [paper.name for paper in workshop.papers]
    for piece, paper in project.papers.items():
        if paper and paper not in known:
            guess = nearest(paper, known)
            right = f"did you mean “{guess}”?" if guess else "add it to your workshop file"
            mend = Mend(field_name((*table.path, piece)), paper, guess) if guess else None
            table.problem((piece,), paper, "no such paper in the workshop", right, mend)
    if table.problems:
        raise ProjectFileError(table.problems)


def field_line(text: str, field: str) -> int:
    """The line of a field ("measures.height") of a project file; 0 where the file leaves it out."""
    return next(
        (line for path, line in read_toml(text, "").lines.items() if field_name(path) == field), 0
    )


def _style(top: Table, system: System) -> Style | None:
    name = top.words("style")
    if name == ScoredBlank.name:
        plan = read_blank(top.table("blank"), system)
        return None if plan is None else ScoredBlank(plan)
    names = [*(style.name for style in STYLES), ScoredBlank.name]
    if name in names:
        return style_named(name)
    if "style" not in top:
        top.problem(("style",), "", "missing", f"known: {', '.join(names)}")
    elif name is not None:
        guess = nearest(name, names)
        if guess == ScoredBlank.name:
            # Its plan is no riddle, only its name is.
            top.raw("blank")
        mend = Mend("style", name, guess) if guess else None
        top.problem(("style",), name, "no such style", one_of(name, names), mend)
    return None


@lru_cache(maxsize=64)
def _as_assumed(style: Style) -> Construction:
    """The style with its default measures: names of panels and the place of a strap do not differ."""
    given = Given(System.INCH, default_tape(System.INCH))
    return style.build(style.complete({}, given), given)


def panel_names(style: Style) -> dict[str, tuple[str, ...]]:
    """What panels may be called in a project file, and which panels that means.

    Panels are known by their name alone, or where several pieces have one of that name, with the
    piece before it ("base front wall"). The name alone then means all of them, and a piece may be
    named where it need not be.
    """
    meant: dict[str, tuple[str, ...]] = {}
    keys = panel_keys(_as_assumed(style))
    for key, (_, panel) in keys.items():
        meant[panel] = (*meant.get(panel, ()), key)
    for key, (piece, panel) in keys.items():
        meant.setdefault(f"{piece} {panel}", (key,))
    return meant


class _Reading:
    """Reads the tables of a project of one style, in one system."""

    def __init__(self, style: Style, system: System) -> None:
        self.style = style
        self.system = system
        self._given = Given(system, default_tape(system))

    def measures(self, table: Table) -> dict[str, Length]:
        said: dict[str, Length] = {}
        unreadable = set()
        for measure in self.style.measures:
            # Whether zero or less will do is for the style's own limits to say.
            length = table.length(measure.name, self.system, zero=True)
            if length is not None:
                said[measure.name] = length
            elif measure.name in table:
                unreadable.add(measure.name)
        table.finish()
        self._limits(table, said, unreadable)
        return said

    def _limits(self, table: Table, said: Mapping[str, Length], unreadable: set[str]) -> None:
        """Hold every measure against its limits.

        A measure beyond its limits is taken at the limit from there on, and what depends on one
        that cannot be read is passed over, so that one slip does not bring a row of problems.
        """
        known = _Known(unreadable)
        for measure in self.style.measures:
            name = measure.name
            try:
                value = said.get(name)
                if value is None:
                    value = measure.default(known, self._given)
                least, most = measure.least(known, self._given), measure.most(known, self._given)
            except _UnreadableError:
                if name in said:
                    known[name] = said[name]
                else:
                    known.unreadable.add(name)
                continue
            if name in unreadable:
                continue
            known[name] = min(max(value, least), most)
            if known[name] != value:
                self._beyond(table, measure, value, known[name], is_said=name in said)

    def _beyond(
        self, table: Table, measure: Measure, value: Length, limit: Length, *, is_said: bool
    ) -> None:
        def worded(length: Length) -> str:
            return words(length, self.system)

        over = value > limit
        says = measure.most_says if over else measure.least_says
        marks = _MARKS[self.system]
        to = marks.below(limit) if over else marks.above(limit)
        to = to if to > ZERO or not limit else limit
        figures = worded(limit) if any(c.isdigit() for c in says) else f"{says}, {worded(limit)}"
        wrong = (
            f"{worded(value)} is {'more than the most' if over else 'less than the least'} that "
            f"the {measure.name} of a {self.style.name} may be ({figures})"
        )
        if not is_said:
            wrong = f"not given, so it is {measure.default_says}; {wrong}"
        right = f"write {worded(to)} or {'less' if over else 'more'}"
        raw = table.raw(measure.name)
        if self.system is System.METRIC and is_said and not isinstance(raw, str):
            right += "; a bare number counts in millimetres"
        now = worded(value) if is_said else ""
        mend = Mend(field_name((*table.path, measure.name)), now, worded(to))
        table.problem((measure.name,), shown(raw) if is_said else "", wrong, right, mend)

    def papers(self, table: Table) -> dict[str, str]:
        names = [*self.style.pieces, *OTHER_PAPERS]
        papers = {name: table.words(name) or "" for name in names}
        table.finish()
        return papers

    def mats(self, table: Table) -> MatWish:
        on = table.yes_no("on")
        border = table.length("border", self.system) or BORDER[self.system]
        borders_table = table.table("borders")
        known = panel_names(self.style)
        borders: dict[str, Length] = {}
        # What is said of one panel goes before what is said of all that have its name.
        for key in sorted(borders_table.keys, key=lambda key: -len(known.get(key, ()))):
            length = borders_table.length(key, self.system)
            if key not in known:
                borders_table.problem((key,), "", "no such panel", one_of(key, known))
            elif length is not None:
                borders.update(dict.fromkeys(known[key], length))
        off, also = self._named(table, "off", known), self._named(table, "also", known)
        for name in also.keys() & off.keys():
            table.problem(("also", also[name]), name, "is under off too", "keep one of the two")
        table.finish()
        return MatWish(
            on is not False, border, MappingProxyType(borders), frozenset(off), frozenset(also)
        )

    def _named(
        self, table: Table, key: str, known: Mapping[str, tuple[str, ...]]
    ) -> dict[str, int]:
        """The panels that a list names, with their number in it."""
        named: dict[str, int] = {}
        for number, name in table.names(key):
            if name in known:
                named.update(dict.fromkeys(known[name], number))
            else:
                table.problem((key, number), name, "no such panel", one_of(name, known))
        return named

    def strap(self, table: Table) -> StrapWish:
        on = table.yes_no("on")
        wish = StrapWish(
            on=_as_assumed(self.style).handle is not None if on is None else on,
            width=table.length("width", self.system) or STRAP_WIDTH[self.system],
            opening=table.length("opening", self.system) or STRAP_OPENING[self.system],
            foot=table.length("foot", self.system) or STRAP_FOOT[self.system],
            length=table.length("length", self.system),
        )
        table.finish()
        return wish

    def same_sheet(self, top: Table, named: list[tuple[int, str]]) -> tuple[str, ...]:
        known = [*self.style.pieces, *OTHER_PAPERS]
        kept: dict[str, None] = {}
        for number, name in named:
            if name not in known:
                top.problem(("same_sheet", number), name, "no such piece", one_of(name, known))
            elif name in kept:
                top.problem(
                    ("same_sheet", number), name, "stands there twice", "keep one of the two"
                )
            else:
                kept[name] = None
        if len(named) == 1:
            top.problem(
                ("same_sheet",), named[0][1], "one piece alone", "name two or more, or none"
            )
        return tuple(kept)

    def extras(self, tables: list[Table]) -> tuple[Extra, ...]:
        made: dict[str, Extra] = {}
        for table in tables:
            name, price = table.words("name"), table.price("price")
            count = table.count("count", _MOST_PIECES, "pieces")
            for key, right in (("name", '"ribbon bow"'), ("count", "1")):
                if key not in table:
                    table.problem((key,), "", "missing", f"write {key} = {right}")
            table.finish()
            if name in made:
                table.problem(("name",), name, "is there twice", "add the two counts up")
            elif name and count:
                made[name] = Extra(name, count, price)
        return tuple(made.values())

    def treat(self, table: Table) -> Treat:
        sides = {key: table.length(key, self.system) for key in ("width", "depth", "height")}
        for key in sides:
            if key not in table:
                table.problem((key,), "", "missing", "measure what goes in, and write it here")
        allowance = table.length("allowance", self.system, zero=True)
        proud = table.length("proud", self.system, zero=True)
        name = table.words("name")
        table.finish()
        return Treat(
            name=name or f"treat {int(table.path[-1]) + 1}",
            allowance=ALLOWANCE[self.system] if allowance is None else allowance,
            proud=ZERO if proud is None else proud,
            **{key: side or ZERO for key, side in sides.items()},
        )


@cache
def default_tape(system: System) -> Length:
    """The width of the tape that limits are worked out with: that of the assumed workshop."""
    workshop = default_workshop(system)
    return workshop.adhesive(workshop.tape).width


class _UnreadableError(Exception):
    """A measure was asked for that the file holds in a form that cannot be read."""


@dataclass
class _Known(Mapping[str, Length]):
    """Measures as far as they are known; asking for one that is not raises `_UnreadableError`."""

    unreadable: set[str]

    def __post_init__(self) -> None:
        self._lengths: dict[str, Length] = {}

    def __setitem__(self, name: str, length: Length) -> None:
        self._lengths[name] = length

    def __getitem__(self, name: str) -> Length:
        if name in self.unreadable:
            raise _UnreadableError
        return self._lengths[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._lengths)

    def __len__(self) -> int:
        return len(self._lengths)
