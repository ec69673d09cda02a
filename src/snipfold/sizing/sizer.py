"""`Sizer`: from the room that is needed to the measures of a style."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import product

from ..flat import FlatError
from ..folding import Pose, Treat, closed
from ..folding.room import clear_inside, fit_findings
from ..measure import ZERO, Length, Ruler, System, words
from ..styles import Construction, Given, Style
from ..workshop import Paper, Workshop

DIRECTIONS = ("width", "depth", "height")

#: Marks by which a measure is moved to see what it does.
_STRIDES = (16, -16, 2, -2)
#: Rounds of raising what is too small before a style is given up.
_ROUNDS = 60


class SizeError(ValueError):
    """A style that cannot be sized so; the message says why, to go after the style's name."""


@dataclass(frozen=True, slots=True)
class Want:
    """What the inside must hold: a block of that size, `air` on each side and `head` above.

    In a flat box, the block's height is its thickness, and takes from the room across and deep.
    """

    width: Length
    depth: Length
    height: Length
    air: Length = ZERO
    head: Length = ZERO

    def clear(self, *, flat: bool) -> dict[str, Length]:
        """The clear inside that it asks for between walls that face each other."""
        around = self.air * 2 + (self.height if flat else ZERO)
        return {
            "width": self.width + around,
            "depth": self.depth + around,
            "height": self.height + self.head,
        }


@dataclass(frozen=True, slots=True)
class Sized:
    """A style built: what was `said`, all its measures, the construction, its `poses` when closed.

    `clear` is the clear inside by direction; it leaves out those in which nothing bounds the inside.
    """

    said: Mapping[str, Length]
    measures: Mapping[str, Length]
    construction: Construction
    poses: Mapping[str, Pose]
    clear: Mapping[str, Length]


@dataclass(frozen=True, slots=True)
class Driver:
    """A measure that makes room, and how much by direction, for its own growth."""

    measure: str
    slopes: Mapping[str, Fraction]
    grown: Sized


_Key = tuple[tuple[str, Length], ...]


def marks_of(workshop: Workshop) -> Ruler:
    """The marks that sizes go up to: those of the ruler, or of the trimmer where it has fewer."""
    ruler, trimmer = workshop.ruler, workshop.trimmer.ruler
    return trimmer if ruler.has(trimmer.graduation) else ruler


class Sizer:
    """A style on one paper: builds it by its measures and reads the room off the folding.

    Nothing is known of any style: which measures make room in which direction is found by moving
    each, and every size that is handed out was built and measured in the folding. What was built
    is remembered.
    """

    def __init__(self, style: Style, paper: Paper, workshop: Workshop, system: System) -> None:
        tape = workshop.adhesive(workshop.tape)
        self.style = style
        self.system = system
        self.marks = marks_of(workshop)
        self.given = Given(system, tape.width)
        self._thickness = paper.thickness
        self._tape = tape.thickness
        self._drawn: dict[_Key, tuple[Mapping[str, Length], Construction] | str] = {}
        self._built: dict[_Key, Sized] = {}

    def drawn(self, said: Mapping[str, Length]) -> tuple[Mapping[str, Length], Construction]:
        """All measures and the construction with what is said, before anything is folded.

        Raises `SizeError` where a measure is beyond its limits or no piece can be drawn.
        """
        key = tuple(sorted(said.items()))
        made = self._drawn.get(key)
        if made is None:
            try:
                made = self._draw(said)
            except SizeError as error:
                made = str(error)
            self._drawn[key] = made
        if isinstance(made, str):
            raise SizeError(made)
        return made

    def _draw(self, said: Mapping[str, Length]) -> tuple[Mapping[str, Length], Construction]:
        measures = self.style.complete(said, self.given)
        for measure in self.style.measures:
            value = measures[measure.name]
            least, most = measure.least(measures, self.given), measure.most(measures, self.given)
            if least <= value <= most:
                continue
            limit, than = (most, "more") if value > most else (least, "less")
            raise SizeError(
                f"its {measure.name.replace('_', ' ')} would be {words(value, self.system)}, "
                f"{than} than {words(limit, self.system)}"
            )
        try:
            return measures, self.style.build(measures, self.given)
        except FlatError as error:
            raise SizeError(f"no such piece can be drawn ({error})") from None

    def build(self, said: Mapping[str, Length]) -> Sized:
        """The style with these measures, the others as it assumes them, and its room as folded.

        Raises `SizeError` as `drawn` does.
        """
        key = tuple(sorted(said.items()))
        if key not in self._built:
            measures, construction = self.drawn(said)
            poses = closed(construction)
            clear, _ = clear_inside(construction, poses, self._thick(construction), self._tape)
            self._built[key] = Sized(dict(said), measures, construction, poses, clear)
        return self._built[key]

    def _thick(self, construction: Construction) -> dict[str, Length]:
        return {piece.name: self._thickness for piece in construction.pieces}

    @cached_property
    def usual(self) -> Sized:
        """The style with every measure as it assumes it."""
        return self.build({})

    @cached_property
    def bounded(self) -> tuple[str, ...]:
        """The directions in which something bounds the inside."""
        return tuple(direction for direction in DIRECTIONS if direction in self.usual.clear)

    @cached_property
    def drivers(self) -> tuple[Driver, ...]:
        """The measures that make room, in the style's order, each with what it does.

        A direction is driven by the measure of its own name where that makes room there, otherwise
        by the one that makes most. Raises `SizeError` where nothing makes room in a direction that
        is bounded, or none is.
        """
        if not self.bounded:
            raise SizeError("nothing goes into it")
        tried: dict[str, Driver] = {}
        cavity = self.usual.construction.cavity
        names = [
            measure.name
            for measure in self.style.measures
            # Between more than four walls, the style says what makes room.
            if not cavity.around or measure.name in (cavity.measure, *DIRECTIONS)
        ]
        own = {
            direction
            for direction in self.bounded
            if direction in names and self._try(direction, tried).slopes.get(direction, 0) > 0
        }
        left = [direction for direction in self.bounded if direction not in own]
        chosen = set(own)
        if left:
            for name in names:
                self._try(name, tried)
        for direction in left:
            best = max(names, key=lambda name: tried[name].slopes.get(direction, Fraction(0)))
            if tried[best].slopes.get(direction, 0) <= 0:
                raise SizeError(f"no measure of it makes more room in {direction}")
            chosen.add(best)
        return tuple(tried[name] for name in names if name in chosen)

    def _try(self, name: str, tried: dict[str, Driver]) -> Driver:
        """What a measure does to the room, per its own growth."""
        if name not in tried:
            tried[name] = Driver(name, {}, self.usual)
            for marks in _STRIDES:
                step = self.marks.graduation * marks
                try:
                    there = self.build({name: self.usual.measures[name] + step})
                except SizeError:
                    continue
                slopes = {
                    direction: (there.clear[direction] - self.usual.clear[direction]).over(step)
                    for direction in self.bounded
                    if direction in there.clear
                }
                tried[name] = Driver(name, slopes, there)
                break
        return tried[name]

    def driving(self, direction: str) -> Driver:
        """The measure that makes room in a bounded direction."""
        best = max(self.drivers, key=lambda driver: driver.slopes.get(direction, Fraction(0)))
        return next((one for one in self.drivers if one.measure == direction), best)

    def lacks(self, made: Sized, want: Want) -> dict[str, Length]:
        """How much room is lacking, by direction; empty where there is enough.

        Between more than four walls the proof's own check says what lacks across.
        """
        cavity = made.construction.cavity
        need = want.clear(flat=cavity.flat)
        lacks = {}
        for direction in self.bounded:
            if cavity.around and direction != "height":
                continue
            lack = need[direction] - made.clear[direction]
            if lack > ZERO:
                lacks[direction] = lack
        if cavity.around:
            lack = self._lack_around(made, want)
            if lack > ZERO:
                lacks["width"] = lack
        return lacks

    def _lack_around(self, made: Sized, want: Want) -> Length:
        construction = made.construction
        treat = Treat("the treats", want.width, want.depth, ZERO, want.air, ZERO)
        found = fit_findings(
            construction,
            made.poses,
            # Only what lacks across is asked for here.
            {},
            (treat,),
            self._thick(construction),
            self._tape,
            made.measures,
            self.marks,
            self.system,
        )
        return max((one.amount for one in found if one.amount is not None), default=ZERO)

    def least(self, want: Want, *, rough: bool = False) -> Sized:
        """The style with the least measures, on the maker's marks, that hold what is wanted.

        No one of the measures that make room can be a mark less, unless a `rough` answer, which
        may be a little large, will do. Raises `SizeError` where the
        style cannot be so large.
        """
        usual, mark = self.usual, self.marks.graduation
        need = want.clear(flat=usual.construction.cavity.flat)
        around = bool(usual.construction.cavity.around)
        said: dict[str, Length] = {}
        for direction in self.bounded:
            driver = self.driving(direction)
            if around and direction != "height":
                # Between many walls the room grows evenly, so what lacks at the least size says
                # what is needed.
                wanted = ZERO
            else:
                wanted = usual.measures[driver.measure] + (
                    (need[direction] - usual.clear[direction]) / driver.slopes[direction]
                )
            said[driver.measure] = max(
                self.marks.above(wanted), said.get(driver.measure, self.marks.above(wanted))
            )
        said = self._up_to_limits(said)
        for _ in range(_ROUNDS):
            made = self.build(said)
            lacks = self.lacks(made, want)
            if not lacks:
                return made if rough else self._lowered(made, want)
            raised: dict[str, Length] = {}
            for direction, lack in lacks.items():
                driver = self.driving(direction)
                # The proof says what lacks between many walls across their flats.
                grows = (
                    Fraction(made.construction.cavity.grows)
                    if around and direction != "height"
                    else driver.slopes[direction]
                )
                more = max(mark, self.marks.above(lack / grows))
                raised[driver.measure] = max(more, raised.get(driver.measure, more))
            said = self._up_to_limits(
                {name: length + raised.get(name, ZERO) for name, length in said.items()}
            )
        raise SizeError("no size of it has so much room")

    def _up_to_limits(self, said: Mapping[str, Length]) -> dict[str, Length]:
        """What is said, each measure at least at the mark above its least."""
        raised: dict[str, Length] = {}
        for measure in self.style.measures:
            if measure.name in said:
                before = self.style.complete(raised, self.given)
                least = self.marks.above(measure.least(before, self.given))
                raised[measure.name] = max(said[measure.name], least)
        return raised

    def _lowered(self, made: Sized, want: Want) -> Sized:
        """The same with each measure lowered as far as the room allows."""
        for driver in self.drivers:
            step = self._long_step(made, driver, want)
            while step:
                lower = self._less(made, driver, want, step)
                if lower is None:
                    step //= 2
                else:
                    made = lower
        return made

    def _long_step(self, made: Sized, driver: Driver, want: Want) -> int:
        """By how many marks to try and lower a measure first; 0 where none can go."""
        mark = self.marks.graduation
        cavity = made.construction.cavity
        if cavity.around and driver.measure == cavity.measure:
            return 1
        need = want.clear(flat=cavity.flat)
        marks = []
        for direction in self.bounded:
            slope = driver.slopes.get(direction, Fraction(0))
            if slope <= 0:
                continue
            spare = (made.clear[direction] - need[direction]) / slope
            if spare < mark and self._is_straight(made, direction):
                return 0
            marks.append(int(spare.over(mark)))
        return max(1, min(marks, default=0))

    def _less(self, made: Sized, driver: Driver, want: Want, marks: int) -> Sized | None:
        """The same with one measure so many marks less, where that holds what is wanted."""
        less = made.said[driver.measure] - self.marks.graduation * marks
        try:
            lower = self.build({**made.said, driver.measure: less})
        except SizeError:
            return None
        return None if self.lacks(lower, want) else lower

    def _is_straight(self, made: Sized, direction: str) -> bool:
        """Whether the room here is what the slopes say, so that they say what a mark less gives."""
        room = self.usual.clear[direction]
        for driver in self.drivers:
            more = made.said[driver.measure] - self.usual.measures[driver.measure]
            room = room + more * driver.slopes.get(direction, Fraction(0))
        return room == made.clear[direction]

    def moved_on(self, made: Sized, coarse: Sequence[Ruler]) -> Iterator[dict[str, Length]]:
        """What may be said for kinder numbers: each measure where it is or at a coarser mark.

        Only marks that are the maker's; the same again is left out.
        """
        choices = []
        for length in made.said.values():
            more = [ruler.above(length) for ruler in coarse]
            choices.append(dict.fromkeys([length, *(one for one in more if self.marks.has(one))]))
        for lengths in product(*choices):
            said = dict(zip(made.said, lengths, strict=True))
            if said != made.said:
                yield said
