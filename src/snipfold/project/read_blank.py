"""Reading the plan of a scored blank: the table [blank] of a project file.

Cells are written "column.row", counted from the left and from the bottom, from one. Wherever a
panel is meant, its name will do, or any of its cells.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from ..flat import Face, Fold, Role
from ..measure import ZERO, Length, System, words
from ..styles import Cavity, Doing, EdgeOf, HandlePlace, Meet
from ..styles.scored_blank import (
    BlankPlan,
    Cell,
    PlannedPanel,
    PlannedScore,
    PlannedStand,
    PlannedStrip,
    Side,
    side_by_side,
    touching,
)
from ..workshop.toml_text import Table, nearest, one_of, shown
from . import blank_fill as fill
from .blank_fill import Assembly, Folded, Work

#: What is trimmed off each side of a tucked panel where the file does not say: as in other styles.
SLIVER = {System.INCH: Length.inch("1/16"), System.METRIC: Length.mm(2)}
#: Lines each way, and tables of a kind: more are a slip, and would take long to fold.
_MOST_LINES = 24
_MOST_TABLES = 60

_CELL = re.compile(r"(\d{1,4})\.(\d{1,4})")
_SIDES = {side.name.lower(): side for side in Side}
_FACES = {face.value: face for face in Face}
_FOLDS = {fold.value: fold for fold in Fold}
_ROLES = {role.value: role for role in Role}
_DOINGS = {
    doing.value: doing
    for doing in (
        Doing.SEAM, Doing.TURN_IN, Doing.PRESS, Doing.RAISE, Doing.TUCK, Doing.CLOSE,
    )
}  # fmt: skip
_STANDS = {name: name for name in fill.STANDS}
#: Names that mean something else where panels or pieces are named.
_TAKEN = ("mats", "strap")

Keys = tuple[str | int, ...]


def read_blank(table: Table, system: System) -> BlankPlan | None:
    """The plan that [blank] says, with what it leaves out filled in; None with problems noted."""
    return _Reading(table, system).plan()


def has_room(plan: BlankPlan) -> bool:
    """Whether the plan says what bounds its inside, so that contents can be held against it."""
    return not plan.cavity.is_open


class _Reading:
    """Reads one [blank], stage by stage: each stage needs that the one before found no problem."""

    def __init__(self, table: Table, system: System) -> None:
        self.table = table
        self.system = system
        self._before = len(table.problems)
        self.across: tuple[Length, ...] = ()
        self.up: tuple[Length, ...] = ()
        self.panels: list[PlannedPanel] = []
        self._away: set[Cell] = set()

    @property
    def sound(self) -> bool:
        """Whether nothing wrong was found so far."""
        return len(self.table.problems) == self._before

    def plan(self) -> BlankPlan | None:
        table = self.table
        called, several = self._called()
        says = table.words("says") or ""
        width = self._size("width")
        height = self._size("height")
        lines = {
            "across": table.lengths("across", self.system),
            "up": table.lengths("up", self.system),
        }
        strips, folds = table.tables("glue", _MOST_TABLES), table.tables("fold", _MOST_TABLES)
        steps = table.tables("step", _MOST_TABLES)
        names, roles, cavity = table.table("names"), table.table("roles"), table.table("cavity")
        for key in (
            "away", "joined", "slit", "valley", "tucked", "mitred", "sliver", "mitre", "stands",
            "stands_as", "inside", "slid", "meets", "strap_on",
        ):  # fmt: skip
            table.raw(key)
        table.finish()
        if width is not None and height is not None:
            self.across = self._lines("across", lines["across"], width, "right", "wide")
            self.up = self._lines("up", lines["up"], height, "upper", "high")
        if width is None or height is None or not self.sound:
            return None
        self._lay_panels(names)
        if not self.sound:
            return None
        scores, slits = self._lay_lines(folds)
        if not self.sound:
            return None
        plan = BlankPlan(
            called, several, says, width, height, self.across, self.up, tuple(self.panels),
            scores, slits, (), PlannedStand(self.panels[0].name, (1, 0, 0), (0, 0, 1)), (), (), (),
            Cavity(called, None, None, "", self.panels[0].name, False), None,
        )  # fmt: skip
        plan = self._trimmed(plan)
        plan = self._standing(plan)
        if not self.sound:
            return None
        return self._filled(Folded.of(plan), strips, roles, steps, cavity)

    def _filled(
        self,
        folded: Folded,
        strips: list[Table],
        roles: Table,
        steps: list[Table],
        cavity: Table,
    ) -> BlankPlan | None:
        """The plan with all that depends on how it folds."""
        glued = [ref for table in strips if (ref := self._quietly(table.raw("panel")))]
        inside = [pair for _, pair in self._pairs("inside")]
        slid = [pair for _, pair in self._pairs("slid")]
        parts = fill.roles(
            folded, self._roles(roles), glued, [inner for inner, _ in (*inside, *slid)]
        )
        plan = folded.plan
        plan = replace(
            plan, panels=tuple(replace(panel, role=parts[panel.name]) for panel in plan.panels)
        )
        plan = replace(plan, strips=self._strips(folded.saying(plan), strips, inside))
        if not self.sound:
            return None
        plan = replace(plan, layers=fill.layers(folded.saying(plan), inside, slid))
        folded = folded.saying(plan)
        plan = replace(
            plan,
            meets=self._meets(folded),
            cavity=self._cavity(folded, cavity),
            handle=self._handle(folded),
        )
        folded = folded.saying(plan)
        works = self._works(folded, steps)
        if not self.sound:
            return None
        assembly = Assembly(folded)
        return replace(plan, steps=assembly.steps(works if steps else assembly.usual()))

    # ---- what it is called, and its lines

    def _called(self) -> tuple[str, str]:
        table = self.table
        called = table.words("called") or "box"
        several = table.words("several") or f"{called}{'es' if called.endswith('x') else 's'}"
        if called in _TAKEN:
            table.problem(("called",), called, "means something else under [papers]",
                          'call it what it is, like "pocket"')  # fmt: skip
        return called, several

    def _size(self, key: str) -> Length | None:
        if key not in self.table:
            self.table.problem(
                (key,), "", "missing", f"write the {key} of the blank before it is cut"
            )
        return self.table.length(key, self.system)

    def _lines(
        self,
        key: str,
        read: list[tuple[int, Length]] | None,
        size: Length,
        far: str,
        way: str,
    ) -> tuple[Length, ...]:
        """The lines one way, each further than the last and none at or beyond the far edge."""
        raw = self.table.raw(key)
        if read is None:
            return ()
        if len(read) > _MOST_LINES:
            self.table.problem((key,), "", f"{len(read)} of them", f"give at most {_MOST_LINES}")
            return ()
        kind = "column" if key == "across" else "row"
        last = ZERO
        for number, length in read:
            text, at = shown(raw[number]), (key, number)
            if length >= size:
                self.table.problem(
                    at, text, f"beyond the {far} edge: the blank is {words(size, self.system)} {way}",
                    f"write less than {words(size, self.system)}, or make the blank larger",
                )  # fmt: skip
                break
            if length <= last:
                start = "left" if key == "across" else "bottom"
                self.table.problem(
                    at, text,
                    f"no further than the line before it, {words(last, self.system)}, so {kind} "
                    f"{number + 1} has no width" if key == "across" else
                    f"no further than the line before it, {words(last, self.system)}, so {kind} "
                    f"{number + 1} has no height",
                    f"write the positions in order, each measured from the {start} edge",
                )  # fmt: skip
                break
            last = length
        return tuple(length for _, length in read)

    # ---- cells and panels

    @property
    def _columns(self) -> int:
        return len(self.across) + 1

    @property
    def _rows(self) -> int:
        return len(self.up) + 1

    def _cell(self, keys: Keys, value: object, table: Table | None = None) -> Cell | None:
        """A cell of the grid."""
        table = table or self.table
        text = value.strip() if isinstance(value, str) else shown(value)
        match = _CELL.fullmatch(text) if isinstance(value, str) else None
        if match is None:
            table.problem(keys, text, "not a cell", 'write column and row in quotes, like "2.1"')
            return None
        cell = int(match[1]), int(match[2])
        if not (1 <= cell[0] <= self._columns and 1 <= cell[1] <= self._rows):
            table.problem(
                keys, "", f"cell {text}: the blank has only {_counted(self._columns, 'column')} "
                f"and {_counted(self._rows, 'row')}",
                "count columns from the left and rows from the bottom, from 1",
            )  # fmt: skip
            return None
        return cell

    def _cells(self, key: str) -> list[tuple[Keys, Cell]]:
        found: list[tuple[Keys, Cell]] = []
        for number, item in enumerate(self._list(self.table, key)):
            cell = self._cell((key, number), item)
            if cell is not None and any(cell == other for _, other in found):
                self.table.problem((key, number), "", f"cell {_named(cell)} stands there twice",
                                   "keep one of the two")  # fmt: skip
            elif cell is not None:
                found.append(((key, number), cell))
        return found

    def _list(self, table: Table, key: str) -> Sequence[object]:
        value = table.raw(key)
        if value is None:
            return ()
        if not isinstance(value, list):
            table.problem((key,), shown(value), "not a list", f'write {key} = ["2.1"]')
            return ()
        return value

    def _lay_panels(self, names: Table) -> None:
        """Panels from cells: joined ones in one, each other kept cell its own."""
        self._away = {cell for _, cell in self._cells("away")}
        taken: dict[Cell, int] = {}
        groups: list[tuple[Cell, Cell]] = []
        for number, item in enumerate(self._list(self.table, "joined")):
            group = self._group(number, item, taken)
            if group is not None:
                groups.append(group)
        groups += [
            (cell, cell)
            for cell in (
                (column, row)
                for row in range(1, self._rows + 1)
                for column in range(1, self._columns + 1)
            )
            if cell not in self._away and cell not in taken
        ]
        if not groups:
            self.table.problem(("away",), "", "every cell is cut away, so nothing is left",
                               "keep the cells that make the piece")  # fmt: skip
            return
        groups.sort(key=lambda group: (-group[1][1], group[0][0]))
        self.panels = [
            PlannedPanel(f"panel {_named(low)}", Role.WALL, low, high) for low, high in groups
        ]
        self._name(names)

    def _group(self, number: int, item: object, taken: dict[Cell, int]) -> tuple[Cell, Cell] | None:
        """The corners of a joined group; None where it is no rectangle of kept cells."""
        if not isinstance(item, list) or len(item) < 2:
            self.table.problem(
                ("joined", number), shown(item), "not a group of cells",
                'write the cells that are one panel together, like ["2.1", "3.1"]',
            )  # fmt: skip
            return None
        cells: list[Cell] = []
        for place, value in enumerate(item):
            keys = ("joined", number, place)
            cell = self._cell(keys, value)
            if cell is None:
                return None
            if cell in self._away:
                self.table.problem(keys, "", f"cell {_named(cell)} is cut away, so it joins nothing",
                                   "take it out of away, or out of joined")  # fmt: skip
                return None
            if cell in taken:
                self.table.problem(keys, "", f"cell {_named(cell)} is joined already",
                                   "name each cell in one group only")  # fmt: skip
                return None
            taken[cell] = number
            cells.append(cell)
        low = min(c for c, _ in cells), min(r for _, r in cells)
        high = max(c for c, _ in cells), max(r for _, r in cells)
        lack = [
            (column, row)
            for row in range(low[1], high[1] + 1)
            for column in range(low[0], high[0] + 1)
            if (column, row) not in cells
        ]
        if lack:
            self.table.problem(
                ("joined", number), "",
                f"cells {', '.join(map(_named, cells))} make no rectangle: "
                f"{', '.join(map(_named, lack))} {'is' if len(lack) == 1 else 'are'} missing",
                "join cells that make a rectangle, and score the others",
            )  # fmt: skip
            return None
        return low, high

    def _name(self, names: Table) -> None:
        named: dict[str, str] = {}
        for key in names.keys:
            name = names.words(key)
            cell = self._cell((key,), key, names)
            if name is None or cell is None:
                continue
            if cell in self._away:
                names.problem((key,), name, f"cell {_named(cell)} is cut away, so it is no panel",
                              "take it out of away, or name another cell")  # fmt: skip
                continue
            number = next(i for i, panel in enumerate(self.panels) if panel.holds(cell))
            own = self.panels[number].name
            if own in named.values():
                names.problem((key,), name, f"cell {_named(cell)} is part of the {own} already",
                              "give a panel one name")  # fmt: skip
            elif name.casefold() in named:
                names.problem(
                    (key,), name, "another panel has that name", "give it a name of its own"
                )
            elif _CELL.fullmatch(name) or "|" in name or name in _TAKEN:
                names.problem((key,), name, "not a name for a panel",
                              'write words, like "front" or "left flap"')  # fmt: skip
            else:
                self.panels[number] = replace(self.panels[number], name=name)
                named[name.casefold()] = name
        names.finish()

    def _panel(self, keys: Keys, value: object, table: Table | None = None) -> str | None:
        """The name of the panel that a name or cell means."""
        table = table or self.table
        names = [panel.name for panel in self.panels]
        text = value.strip() if isinstance(value, str) else shown(value)
        if text in names and isinstance(value, str):
            return text
        if not isinstance(value, str) or _CELL.fullmatch(text):
            cell = self._cell(keys, value, table)
            if cell is None:
                return None
            if cell in self._away:
                table.problem(keys, "", f"cell {_named(cell)} is cut away",
                              "name a cell that is kept, or take it out of away")  # fmt: skip
                return None
            return next(panel.name for panel in self.panels if panel.holds(cell))
        table.problem(keys, text, "no such panel", one_of(text, names))
        return None

    def _quietly(self, value: object) -> str | None:
        """The panel that is meant, without a word if there is none."""
        if not isinstance(value, str):
            return None
        text = value.strip()
        for panel in self.panels:
            match = _CELL.fullmatch(text)
            if panel.name == text or (match and panel.holds((int(match[1]), int(match[2])))):
                return panel.name
        return None

    def _where(self, name: str) -> str:
        """A panel with its cell, for a message."""
        cell = _named(self._planned(name).low)
        return f"cell {cell}" if name == f"panel {cell}" else f"{name} (cell {cell})"

    def _planned(self, name: str) -> PlannedPanel:
        return next(panel for panel in self.panels if panel.name == name)

    def _two(self, keys: Keys, value: object, table: Table | None = None) -> tuple[str, str] | None:
        """Two different panels."""
        table = table or self.table
        if not isinstance(value, list) or len(value) != 2:
            table.problem(keys, shown(value), "not two panels", 'write both, like ["2.1", "3.1"]')
            return None
        one, other = (self._panel((*keys, place), item, table) for place, item in enumerate(value))
        if one is None or other is None:
            return None
        if one == other:
            table.problem(keys, "", f"both are the one panel {self._where(one)}",
                          "name two panels")  # fmt: skip
            return None
        return one, other

    def _pairs(self, key: str) -> list[tuple[Keys, tuple[str, str]]]:
        found: list[tuple[Keys, tuple[str, str]]] = []
        for number, item in enumerate(self._list(self.table, key)):
            pair = self._two((key, number), item)
            if pair is not None:
                found.append(((key, number), pair))
        return found

    def _neighbours(self, keys: Keys, pair: tuple[str, str], table: Table | None = None) -> bool:
        """Whether two panels lie side by side; a problem if they do not."""
        one, other = map(self._planned, pair)
        if touching(one, other) is None:
            (table or self.table).problem(
                keys, "", f"{self._where(one.name)} and {self._where(other.name)} do not lie side "
                "by side, so there is no line between them",
                "name two panels that share a line",
            )  # fmt: skip
            return False
        return True

    # ---- scores, slits and trims

    def _lay_lines(
        self, folds: list[Table]
    ) -> tuple[tuple[PlannedScore, ...], tuple[tuple[str, str], ...]]:
        """Every line between two panels: slit as said, else scored."""
        slit: set[frozenset[str]] = set()
        for keys, pair in self._pairs("slit"):
            if self._neighbours(keys, pair):
                if frozenset(pair) in slit:
                    self.table.problem(keys, "", "this line is slit already", "keep one of the two")
                slit.add(frozenset(pair))
        how: dict[frozenset[str], tuple[Fold, float]] = {}
        for keys, pair in self._pairs("valley"):
            if self._neighbours(keys, pair) and self._is_scored(keys, pair, slit):
                how[frozenset(pair)] = (Fold.VALLEY, 90.0)
        said: set[frozenset[str]] = set()
        for table in folds:
            two = self._two(("between",), table.raw("between"), table)
            degrees, fold = self._degrees(table), table.choice("fold", _FOLDS)
            table.finish()
            if two is None or not self._neighbours(("between",), two, table):
                continue
            key = frozenset(two)
            if not self._is_scored(("between",), two, slit, table):
                continue
            if key in said:
                table.problem(("between",), "", "said of this score already", "keep one of the two")
            said.add(key)
            usual = how.get(key, (Fold.MOUNTAIN, 90.0))
            how[key] = (fold or usual[0], degrees or usual[1])
        pairs = side_by_side(self.panels)
        scores = tuple(
            PlannedScore(pair, *how.get(frozenset(pair), (Fold.MOUNTAIN, 90.0)))
            for pair in pairs
            if frozenset(pair) not in slit
        )
        if self.sound:
            self._must_hang_together(scores)
        return scores, tuple(pair for pair in pairs if frozenset(pair) in slit)

    def _is_scored(
        self,
        keys: Keys,
        pair: tuple[str, str],
        slit: set[frozenset[str]],
        table: Table | None = None,
    ) -> bool:
        if frozenset(pair) not in slit:
            return True
        (table or self.table).problem(
            keys, "", f"the line between {self._where(pair[0])} and {self._where(pair[1])} is slit, "
            "so it does not fold",
            "take it out of slit",
        )  # fmt: skip
        return False

    def _degrees(self, table: Table) -> float | None:
        value = table.raw("degrees")
        if value is None:
            return None
        number = isinstance(value, int | Decimal) and not isinstance(value, bool)
        if not number or not Decimal(value).is_finite() or not 0 < value <= 180:
            table.problem(("degrees",), shown(value), "not an angle of a fold",
                          "write how far it is folded, from 1 to 180, like degrees = 90")  # fmt: skip
            return None
        return float(value)

    def _must_hang_together(self, scores: Sequence[PlannedScore]) -> None:
        """A problem for every panel that no score joins to the rest."""
        beside: dict[str, list[str]] = {panel.name: [] for panel in self.panels}
        for score in scores:
            one, other = score.panels
            beside[one].append(other)
            beside[other].append(one)
        parts: list[list[str]] = []
        left = dict.fromkeys(beside)
        while left:
            part = [next(iter(left))]
            for name in part:
                left.pop(name, None)
                part += [other for other in beside[name] if other in left and other not in part]
            parts.append(part)
        parts.sort(key=len, reverse=True)
        key = "slit" if "slit" in self.table else "away"
        for part in parts[1:]:
            for name in part[:1]:
                self.table.problem(
                    (key,), "",
                    f"{self._where(name)}: no score joins it to the rest, so it would fall off",
                    "cut it away too, or leave one of its sides unslit",
                )  # fmt: skip

    def _trimmed(self, plan: BlankPlan) -> BlankPlan:
        """The plan with slivers and mitres off the panels that lose them."""
        sliver = self.table.length("sliver", self.system) or SLIVER[self.system]
        mitre = self.table.length("mitre", self.system)
        trims: dict[str, Length] = {}
        for key in ("tucked", "mitred"):
            for number, item in enumerate(self._list(self.table, key)):
                name = self._panel((key, number), item)
                if name is None:
                    continue
                hinge = plan.hinge_side(name)
                if hinge is None:
                    count = len(plan.hinges(name))
                    self.table.problem(
                        (key, number), "",
                        f"{self._where(name)} hangs on {_counted(count, 'score')}",
                        "only a panel with one score loses slivers beside it; slit its other sides",
                    )  # fmt: skip
                    continue
                if name in trims:
                    self.table.problem((key, number), "", f"{self._where(name)} is trimmed already",
                                       "name it once, under tucked or mitred")  # fmt: skip
                long = plan.size(plan.panel(name), hinge)
                by = sliver if key == "tucked" else mitre or min(sliver * 2, long / 4)
                if by * 2 >= long:
                    self.table.problem(
                        (key, number), "",
                        f"{self._where(name)} is {words(long, self.system)} across, so nothing is "
                        f"left of it after {words(by, self.system)} off each side",
                        "make the sliver or mitre smaller",
                    )  # fmt: skip
                trims[name] = by
        self.panels = [replace(panel, trim=trims.get(panel.name, ZERO)) for panel in self.panels]
        return replace(plan, panels=tuple(self.panels))

    # ---- how it stands, and what its panels are

    def _standing(self, plan: BlankPlan) -> BlankPlan:
        said = self.table.raw("stands")
        name = None if said is None else self._panel(("stands",), said)
        if name is None:
            sizes = {
                panel.name: plan.size(panel, Side.BOTTOM) + plan.size(panel, Side.LEFT)
                for panel in plan.panels
            }
            name = fill.standing_panel(plan.panels, sizes)
        folds_flat = bool(plan.scores) and all(score.degrees == 180 for score in plan.scores)
        usual = "top" if folds_flat else fill.stands_as(name)
        way = self.table.choice("stands_as", _STANDS) or usual
        return replace(plan, stand=PlannedStand(name, *fill.STANDS[way]))

    def _roles(self, table: Table) -> dict[str, Role]:
        said = {}
        for key in table.keys:
            name, role = self._panel((key,), key, table), table.choice(key, _ROLES)
            if name is not None and role is not None:
                said[name] = role
        return said

    # ---- glue

    def _strips(
        self, folded: Folded, tables: list[Table], inside: Sequence[tuple[str, str]]
    ) -> tuple[PlannedStrip, ...]:
        plan = folded.plan
        made: list[PlannedStrip] = []
        for table in tables:
            for key in ("panel", "on"):
                if key not in table:
                    says = "the glue lies on" if key == "panel" else "it holds on to"
                    table.problem((key,), "", "missing", f"name the panel that {says}")
            panel = self._panel(("panel",), table.raw("panel"), table) if "panel" in table else None
            mate = self._panel(("on",), table.raw("on"), table) if "on" in table else None
            face = table.choice("face", _FACES) or Face.OUTSIDE
            on_face = table.choice("on_face", _FACES)
            side, ends = table.choice("along", _SIDES), table.length("ends", self.system, zero=True)
            table.finish()
            if panel is None or mate is None or (side is None and "along" in table):
                continue
            if panel == mate:
                table.problem(("on",), "", f"{self._where(panel)} cannot hold on to itself",
                              "name the panel that it is pressed onto")  # fmt: skip
                continue
            strip = self._strip(plan, table, panel, side, ends)
            if strip is None:
                continue
            side, ends = strip
            inner = next((pair[0] for pair in inside if set(pair) == {panel, mate}), None)
            mate_face = on_face or fill.mate_face(folded, panel, face, mate, inner)
            new = PlannedStrip(panel, face, side, mate, mate_face, ends)
            if any((o.panel, o.side, o.mate) == (panel, side, mate) for o in made):
                table.problem(("panel",), "", f"{self._where(panel)} has this strip already",
                              "keep one of the two")  # fmt: skip
            else:
                made.append(new)
        return tuple(made)

    def _strip(
        self, plan: BlankPlan, table: Table, panel: str, side: Side | None, ends: Length | None
    ) -> tuple[Side, Length] | None:
        """Along which side a strip lies and how far it keeps from both ends of that side."""
        hinge, own = plan.hinge_side(panel), plan.panel(panel)
        if side is None:
            if hinge is None:
                table.problem(
                    ("along",), "", f"{self._where(panel)} has several scores, so it has no one "
                    "free side",
                    'say along which side the glue lies, like along = "left"',
                )  # fmt: skip
                return None
            side = hinge.across
        if ends is None:
            ends = own.trim if side is (hinge.across if hinge else None) else ZERO
        long = plan.size(own, side)
        if ends * 2 >= long:
            table.problem(
                ("ends",), words(ends, self.system),
                f"the {side.name.lower()} side of {self._where(panel)} is only "
                f"{words(long, self.system)} long, so no strip is left",
                "write less",
            )  # fmt: skip
            return None
        return side, ends

    # ---- what meets, the inside, the strap

    def _meets(self, folded: Folded) -> tuple[Meet, ...]:
        if "meets" not in self.table:
            return fill.meets(folded)
        plan = folded.plan
        made = []
        for number, item in enumerate(self._list(self.table, "meets")):
            if not isinstance(item, list) or len(item) != 2:
                self.table.problem(
                    ("meets", number), shown(item), "not two sides that meet",
                    'write both, like ["back right", "5.2 left"]',
                )  # fmt: skip
                continue
            one, other = (
                self._edge(("meets", number, place), value) for place, value in enumerate(item)
            )
            if one is not None and other is not None:
                if one == other:
                    self.table.problem(("meets", number), "", "both are the same side",
                                       "name two sides")  # fmt: skip
                made.append(fill.meet(plan, one, other))
        return tuple(made)

    def _edge(self, keys: Keys, value: object) -> EdgeOf | None:
        """A side of a panel, such as "back right" or "5.2 left"."""
        text = value.strip() if isinstance(value, str) else shown(value)
        name, _, word = text.rpartition(" ")
        side = _SIDES.get(word.casefold())
        if side is None or not name:
            meant = nearest(word, _SIDES)
            right = f"did you mean “{meant}”? " if meant else ""
            self.table.problem(
                keys, text, "no side of a panel",
                f'{right}write the panel and then left, right, top or bottom, like "5.2 right"',
            )  # fmt: skip
            return None
        panel = self._panel(keys, name)
        return None if panel is None else EdgeOf(panel, side.value)

    def _cavity(self, folded: Folded, table: Table) -> Cavity:
        plan = folded.plan
        across = {
            key: self._bounds(folded, table, key, axis)
            for axis, key in ((0, "width"), (1, "depth"))
        }
        floor, rim = (
            None if (value := table.raw(key)) is None else self._panel((key,), value, table)
            for key in ("floor", "rim")
        )
        if floor is not None and abs(folded.placed(floor).outward.z) < fill._STEEP:
            table.problem(("floor",), floor, f"{self._where(floor)} does not lie level when closed",
                          "name the panel that is the bottom")  # fmt: skip
        covered, flat = table.yes_no("covered"), table.yes_no("flat")
        table.finish()
        if rim is None:
            named = [pair[0] for pair in (across["depth"], across["width"]) if pair]
            walls = [name for name in named if plan.panel(name).role is Role.WALL]
            rim = walls[0] if walls else plan.stand.panel
        if covered is None:
            covered = plan.panel(rim).role is Role.TOP
        return Cavity(
            plan.called, across["width"], across["depth"], floor or "", rim, covered, bool(flat)
        )

    def _bounds(self, folded: Folded, table: Table, key: str, axis: int) -> tuple[str, str] | None:
        """The panels that bound the inside one way: two, or one that is as large as the inside."""
        value = table.raw(key)
        if value is None:
            return None
        listed = value if isinstance(value, list) else [value]
        if not 1 <= len(listed) <= 2:
            table.problem((key,), shown(value), "not two panels",
                          'write both, like ["left side", "right side"]')  # fmt: skip
            return None
        names = [
            self._panel((key, place) if isinstance(value, list) else (key,), item, table)
            for place, item in enumerate(listed)
        ]
        if None in names:
            return None
        one, other = str(names[0]), str(names[-1])
        for name in (one, other):
            across = abs(folded.placed(name).outward[axis])
            if (one == other) == (across > fill._STEEP):
                wrong = "faces that way itself" if one == other else "does not face that way"
                table.problem(
                    (key,), "", f"{self._where(name)} {wrong} when closed, so it bounds no {key}",
                    f"name the two panels between which the {key} lies, or one that is as "
                    f"{'wide' if axis == 0 else 'deep'} as the inside",
                )  # fmt: skip
                return None
        return one, other

    def _handle(self, folded: Folded) -> HandlePlace | None:
        value = self.table.raw("strap_on")
        pair = None if value is None else self._two(("strap_on",), value)
        if pair is None:
            return None
        one, other = pair
        if abs(folded.placed(one).outward.dot(folded.placed(other).outward)) < fill._STEEP:
            self.table.problem(
                ("strap_on",), "", f"{self._where(one)} and {self._where(other)} do not face each "
                "other when closed",
                "name two walls that do",
            )  # fmt: skip
        rims = fill.highest_edge(folded, one), fill.highest_edge(folded, other)
        return HandlePlace(folded.plan.called, pair, Face.OUTSIDE, rims)

    # ---- the order of work

    def _works(self, folded: Folded, tables: list[Table]) -> list[Work]:
        """The steps that the file lists, after creasing."""
        if not tables:
            return []
        done: dict[str, int] = {}
        works = []
        for table in tables:
            title = table.words("title") or ""
            doing = table.choice("does", _DOINGS)
            folds = self._folds(folded, table, done)
            glue = self._names(table, "glue")
            moving = self._names(table, "moves")
            table.finish()
            for number, name in enumerate(glue or ()):
                if all(strip.panel != name for strip in folded.plan.strips):
                    table.problem(("glue", number), name, "no glue lies on that panel",
                                  "name the panel that the glue lies on")  # fmt: skip
            if not folds and not glue and self.sound:
                table.problem(("fold",), "", "missing",
                              'say which scores are folded, like fold = [["2.1", "3.1"]]')  # fmt: skip
            works.append(Work(folds, doing, title, glue, moving))
        left = [name for name in folded.hangs if name not in done]
        for name in left if self.sound else ():
            pair = " and ".join(self._where(one) for one in (folded.parent(name), name))
            self.table.problem(
                ("step",), "", f"the score between {pair} is folded in no step",
                "add it to the fold of the step in which it is folded",
            )  # fmt: skip
        return works

    def _folds(self, folded: Folded, table: Table, done: dict[str, int]) -> tuple[str, ...]:
        """The scores of a step, each named for the panel that hangs by it."""
        folds: list[str] = []
        for number, item in enumerate(self._list(table, "fold")):
            keys = ("fold", number)
            pair = self._two(keys, item, table)
            if pair is None or not self._neighbours(keys, pair, table):
                continue
            if not any(set(score.panels) == set(pair) for score in folded.plan.scores):
                table.problem(keys, "", "the line between them is slit, so it does not fold",
                              "leave it out")  # fmt: skip
                continue
            name = next(
                (n for n, score in folded.hangs.items() if set(score.panels) == set(pair)), None
            )
            if name is None:
                continue
            if name in done:
                table.problem(keys, "", f"folded in step {done[name] + 1} already",
                              "fold each score in one step")  # fmt: skip
                continue
            done[name] = int(table.path[-1])
            folds.append(name)
        return tuple(folds)

    def _names(self, table: Table, key: str) -> tuple[str, ...] | None:
        if table.raw(key) is None:
            return None
        names = [
            self._panel((key, number), item, table)
            for number, item in enumerate(self._list(table, key))
        ]
        return tuple(name for name in names if name is not None) or None


def _named(cell: Cell) -> str:
    return f"{cell[0]}.{cell[1]}"


def _counted(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"
