"""From the contents to sizes: every suitable style, sized, ranked."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from ..findings import Finding, Severity
from ..folding import Treat, prove
from ..measure import ZERO, Length, Ruler, System, total, words
from ..scoring.kindness import unkindness
from ..scoring.turning import UPRIGHT, score_positions
from ..styles import STYLES, Construction, Style
from ..workshop import Edge, Paper, Workshop
from .bunch import Bunch, bunches, loose_bunches
from .contents import Contents, Loose
from .sizer import DIRECTIONS, Sized, SizeError, Sizer, Want
from .yields import Yield, most_sets, parts_of, sheet_of, waste_of, yield_of

#: Arrangements that are sized in each style: those that take the least paper to wrap, which a
#: block's surface stands for. The grid of a fit is these, in every style.
MOST_BUNCHES = 6
#: What a flat box takes at most, all treats together. Common practice, no source: thicker ones make
#: a pocket gape.
FLAT_MOST = {System.INCH: Length.inch("1/4"), System.METRIC: Length.mm(6)}
#: Wastes that differ by less than this share of a sheet are alike, and kinder numbers decide.
ALIKE = Fraction(1, 20)
#: Marks that a measure may go on up to, for kinder numbers: no further than treats may rattle.
KIND_MARKS = {
    System.INCH: (Ruler(Length.inch("1/8")), Ruler(Length.inch("1/4"))),
    System.METRIC: (Ruler(Length.mm(5)),),
}
#: Sizes with kinder numbers that are built and tried, the kindest first.
_KIND_TRIES = 4


@dataclass(frozen=True, slots=True)
class Wish:
    """What must go in, and how it is to be held.

    `allowance` is air on each side, across and deep. `head_room` is air above; None asks for the
    allowance where the box is closed over, and for none where it is open.
    """

    contents: Contents
    allowance: Length
    head_room: Length | None = None

    def want(self, bunch: Bunch, construction: Construction) -> Want:
        """The room that a bunch asks for in a box of that construction."""
        covered = construction.cavity.covered
        head = self.head_room
        if head is None:
            head = self.allowance if covered else ZERO
        if isinstance(self.contents, Loose):
            return Want(*bunch.sides, ZERO, head)
        return Want(*bunch.sides, self.allowance, head)


@dataclass(frozen=True, slots=True)
class Candidate:
    """One style, sized for one arrangement of the contents.

    `measures` are all of the style's, `said` those that make the room. `clear` is the clear inside
    by direction, `spare` what of it is more than was asked for (between more than four walls, that
    of the height alone). `waste` is the share of the sheets that ends up
    in no box. `numbers` are those that the maker sets on tools: each blank's sides and, from its
    nearer edge, each score; `unkindness` is the sum of how hard they are to find.
    """

    style: Style
    bunch: Bunch
    said: Mapping[str, Length]
    measures: Mapping[str, Length]
    clear: Mapping[str, Length]
    spare: Mapping[str, Length]
    construction: Construction
    got: Yield
    waste: Fraction
    numbers: tuple[Length, ...]
    unkindness: int
    findings: tuple[Finding, ...] = ()

    @property
    def rank(self) -> tuple[object, ...]:
        """The lesser is the better.

        Most sets from a sheet; then waste, in steps of `ALIKE`; then kind numbers; then waste to
        the last.
        """
        return (*self.got.rank, self.waste // ALIKE, self.unkindness, self.waste)


@dataclass(frozen=True, slots=True)
class Unfit:
    """A style that holds none of it, and why, in words that go after its name."""

    style: Style
    reason: str


@dataclass(frozen=True, slots=True)
class Fitted:
    """Every candidate, best first, and the styles that do not come into question."""

    candidates: tuple[Candidate, ...]
    unfit: tuple[Unfit, ...]


def fit(
    wish: Wish,
    paper: Paper,
    workshop: Workshop,
    system: System,
    *,
    styles: Sequence[Style] = STYLES,
    each: int = 1,
    most_bunches: int = MOST_BUNCHES,
    kinder: bool = True,
    open_too: bool = False,
) -> Fitted:
    """The best `each` candidates of every style, ranked together, cut from one paper.

    For each arrangement that comes into question the style gets its least measures on the maker's
    marks; then, with `kinder`, each measure goes on up to one of `KIND_MARKS` where that costs no
    set and no law of the proof. Sets count the blanks alone: straps and mats come from what is
    left, or from other paper.
    Styles that are open in some direction hold nothing and are left out, unless `open_too`. Raises
    `ValueError` where the contents cannot be arranged as was said.
    """
    wanted = _wanted(wish.contents)[:most_bunches]
    candidates: list[Candidate] = []
    unfit = []
    for style in styles:
        own = _Fitting(style, wish, paper, workshop, system)
        try:
            if not open_too:
                own.must_hold()
            found = own.best(wanted, each, kinder=kinder)
        except SizeError as error:
            unfit.append(Unfit(style, str(error)))
        else:
            candidates += found
    # Sorting keeps the order of the styles where nothing else decides.
    return Fitted(tuple(sorted(candidates, key=lambda one: one.rank)), tuple(unfit))


def _wanted(contents: Contents) -> list[Bunch]:
    """The arrangements that come into question, those with least surface first."""
    made = loose_bunches(contents) if isinstance(contents, Loose) else bunches(contents)

    def surface(bunch: Bunch) -> Fraction:
        w, d, h = (side.as_mm for side in bunch.sides)
        return w * d + w * h + d * h

    return sorted(made, key=surface)


class _Fitting:
    """One style, sized for the contents."""

    def __init__(
        self, style: Style, wish: Wish, paper: Paper, workshop: Workshop, system: System
    ) -> None:
        self.style, self.wish, self.system = style, wish, system
        self.paper, self.workshop = paper, workshop
        self.sheet = sheet_of(paper)
        self.sizer = Sizer(style, paper, workshop, system)
        self._yields: dict[tuple[tuple[Length, Length], ...], Yield] = {}

    def must_hold(self) -> None:
        """Raise `SizeError` where the style is open in some direction."""
        cavity, bounded = self.sizer.usual.construction.cavity, self.sizer.bounded
        needed = DIRECTIONS[:2] if cavity.flat else DIRECTIONS
        missing = [direction for direction in needed if direction not in bounded]
        if missing:
            raise SizeError(f"it is open in {' and '.join(missing)}, so it holds nothing")

    def best(self, wanted: Sequence[Bunch], each: int, *, kinder: bool) -> list[Candidate]:
        """The best candidates whose proof holds. Raises `SizeError` where there is none."""
        sized: list[tuple[Bunch, Sized]] = []
        why: SizeError | None = None
        for bunch in wanted:
            try:
                sized.append((bunch, self._least(bunch)))
            except SizeError as error:
                why = why or error
        if not sized:
            raise why or SizeError("nothing was asked for")
        found: list[Candidate] = []
        wrong = ""
        for bunch, size in self._ranked(sized, each):
            if not self._yield(size).sheets:
                wrong = wrong or self._no_sheet(size)
                continue
            candidate = self._kind(bunch, size) if kinder else None
            candidate = candidate or self._candidate(bunch, size)
            errors = [one for one in candidate.findings if one.severity is Severity.ERROR]
            if errors:
                wrong = wrong or errors[0].says
                continue
            # One size may hold the treats in several ways; the first will do.
            if any(other.measures == candidate.measures for other in found):
                continue
            found.append(candidate)
            if len(found) == each:
                break
        if not found:
            raise SizeError(wrong)
        return found

    def _no_sheet(self, size: Sized) -> str:
        blanks = " and ".join(
            f"a {piece.name} of {words(piece.width, self.system)} x "
            f"{words(piece.height, self.system)}"
            for piece in size.construction.pieces
        )
        return f"it takes {blanks}, more than {self.sheet.name} gives"

    def _want(self, bunch: Bunch) -> Want:
        return self.wish.want(bunch, self.sizer.usual.construction)

    def _least(self, bunch: Bunch) -> Sized:
        want = self._want(bunch)
        if self.sizer.usual.construction.cavity.flat and want.height > FLAT_MOST[self.system]:
            raise SizeError(
                f"it lies flat, and the treats are {words(want.height, self.system)} thick"
            )
        if not isinstance(self.wish.contents, Loose):
            return self.sizer.least(want)
        return self._less_high(bunch, self.sizer.least(want, rough=True))

    def _less_high(self, bunch: Bunch, size: Sized) -> Sized:
        """The same for loose treats: what rounding gave across and deep, they need less in height."""
        driver, marks = self.sizer.driving("height"), self.sizer.marks
        less = marks.below(self._spare(bunch, size)["height"] / driver.slopes["height"])
        while less > ZERO:
            try:
                lower = self.sizer.build(
                    {**size.said, driver.measure: size.said[driver.measure] - less}
                )
            except SizeError:
                lower = None
            if lower is not None and self._roomy(bunch, lower):
                return lower
            less = less - marks.graduation
        return size

    def _loose_height(self, size: Sized) -> Length | None:
        """How high loose treats stand in a size; None for other contents."""
        if not isinstance(self.wish.contents, Loose):
            return None
        if len(size.clear) < len(DIRECTIONS):
            raise SizeError("it holds nothing loose")
        floor = size.clear["width"].as_mm * size.clear["depth"].as_mm
        return Length.mm(self.wish.contents.room_mm3 / floor)

    def _ranked(
        self, sized: Sequence[tuple[Bunch, Sized]], each: int
    ) -> Iterator[tuple[Bunch, Sized]]:
        """The sizes, best first; what a limit rules out of the best `each` comes unplanned, last."""
        limits = [
            most_sets(parts_of(size.construction, self.paper), self.sheet, self.workshop.trimmer)
            for _, size in sized
        ]
        ranked: list[tuple[tuple[object, ...], int]] = []
        order = sorted(range(len(sized)), key=lambda index: -limits[index])
        left = list(order)
        while left:
            bar = sorted(self._yield(sized[i][1]).sets for _, i in ranked)[-each:]
            if len(bar) == each and limits[left[0]] < bar[0]:
                break
            index = left.pop(0)
            ranked.append((self._rank(sized[index][1]), index))
        ranked.sort(key=lambda pair: pair[0])
        for _, index in ranked:
            yield sized[index]
        for index in left:
            yield sized[index]

    def _rank(self, size: Sized) -> tuple[object, ...]:
        got = self._yield(size)
        waste = waste_of(size.construction, self.sheet, got)
        return (*got.rank, waste // ALIKE, unkindness_of(size.construction, self.system), waste)

    def _yield(self, size: Sized) -> Yield:
        blanks = tuple((piece.width, piece.height) for piece in size.construction.pieces)
        got = self._yields.get(blanks)
        if got is None:
            parts = parts_of(size.construction, self.paper)
            got = self._yields[blanks] = yield_of(parts, self.sheet, self.workshop.trimmer)
        return got

    def _kind(self, bunch: Bunch, size: Sized) -> Candidate | None:
        """The same with kinder numbers, as many sets and no error; None where none are kinder.

        Of all ways to move measures on, those are built whose numbers should be kindest, until one
        holds what is wanted and keeps its sets.
        """
        now = unkindness_of(size.construction, self.system)
        ways = sorted(
            self.sizer.moved_on(size, KIND_MARKS[self.system]),
            key=lambda said: (self.numbers.unkindness(said), sorted(said.items())),
        )
        for said in ways[:_KIND_TRIES]:
            if self.numbers.unkindness(said) >= now:
                break
            try:
                larger = self.sizer.build(said)
            except SizeError:
                continue
            if unkindness_of(larger.construction, self.system) >= now:
                continue
            if self._roomy(bunch, larger) and self._yield(larger).rank <= self._yield(size).rank:
                candidate = self._candidate(bunch, larger)
                if not any(one.severity is Severity.ERROR for one in candidate.findings):
                    return candidate
        return None

    @cached_property
    def numbers(self) -> _Numbers:
        """What the numbers are for any measures, as far as they grow in straight lines."""
        return _Numbers(self.sizer, self.system)

    def _roomy(self, bunch: Bunch, size: Sized) -> bool:
        want = self._want(bunch)
        if (tall := self._loose_height(size)) is not None:
            return size.clear["height"] >= tall + want.head
        return not self.sizer.lacks(size, want)

    def _candidate(self, bunch: Bunch, size: Sized) -> Candidate:
        got = self._yield(size)
        numbers = tuple(min(pair) for pair in settings_of(size.construction))
        return Candidate(
            self.style, bunch, size.said, size.measures, size.clear,
            self._spare(bunch, size),
            size.construction, got, waste_of(size.construction, self.sheet, got), numbers,
            sum(unkindness(number, self.system) for number in numbers), self._proof(bunch, size),
        )  # fmt: skip

    def _spare(self, bunch: Bunch, size: Sized) -> dict[str, Length]:
        want = self._want(bunch)
        if (tall := self._loose_height(size)) is not None:
            return {"width": ZERO, "depth": ZERO, "height": size.clear["height"] - tall - want.head}
        cavity = size.construction.cavity
        need = want.clear(flat=cavity.flat)
        return {
            direction: size.clear[direction] - need[direction]
            for direction in size.clear
            if direction == "height" or not cavity.around
        }

    def _proof(self, bunch: Bunch, size: Sized) -> tuple[Finding, ...]:
        workshop = self.workshop
        tape = workshop.adhesive(workshop.tape)
        loose = isinstance(self.wish.contents, Loose)
        treat = Treat("the treats", *bunch.sides, self.wish.allowance, ZERO)
        return prove(
            size.construction,
            size.measures,
            thickness={piece.name: self.paper.thickness for piece in size.construction.pieces},
            tape=tape.thickness,
            covers={},
            # Loose treats fill whatever corner there is; their volume was seen to.
            treats=() if loose or self.wish.head_room is not None else (treat,),
            ruler=workshop.ruler,
            trimmer=workshop.trimmer.ruler,
            system=self.system,
        ).findings


def settings_of(construction: Construction) -> tuple[tuple[Length, Length], ...]:
    """What the maker sets on tools: each side of a blank, and each score from two edges.

    A side is given twice; of a score, either number will do.
    """
    settings: list[tuple[Length, Length]] = []
    for piece in construction.pieces:
        settings += [(piece.width, piece.width), (piece.height, piece.height)]
        positions = score_positions(piece)
        for edge, side in ((UPRIGHT[0], piece.width), (Edge.BOTTOM, piece.height)):
            settings += [(at, side - at) for at in positions[edge]]
    return tuple(settings)


def unkindness_of(construction: Construction, system: System) -> int:
    """How hard the numbers of a construction are to find on a ruler, added up."""
    return sum(unkindness(min(pair), system) for pair in settings_of(construction))


class _Numbers:
    """The numbers of a style for any measures, along the straight lines from its usual size.

    What they say is only to choose what to build: where a style grows otherwise, they are off.
    """

    def __init__(self, sizer: Sizer, system: System) -> None:
        self._system = system
        self._usual = sizer.usual
        self._start = settings_of(sizer.usual.construction)
        self._known: dict[tuple[tuple[str, Length], ...], int] = {}
        self._slopes: list[tuple[str, list[tuple[Fraction, Fraction]]]] = []
        for driver in sizer.drivers:
            there = settings_of(driver.grown.construction)
            step = driver.grown.measures[driver.measure] - self._usual.measures[driver.measure]
            if len(there) == len(self._start) and step:
                slopes = [
                    ((one - was_one).over(step), (other - was_other).over(step))
                    for (one, other), (was_one, was_other) in zip(there, self._start, strict=True)
                ]
                self._slopes.append((driver.measure, slopes))

    def unkindness(self, said: Mapping[str, Length]) -> int:
        """How hard the numbers should be to find, added up, with these measures."""
        key = tuple(said.items())
        if key not in self._known:
            more = {name: said[name] - self._usual.measures[name] for name in said}
            self._known[key] = sum(
                unkindness(
                    min(
                        one + total(more[name] * slopes[index][0] for name, slopes in self._slopes),
                        other
                        + total(more[name] * slopes[index][1] for name, slopes in self._slopes),
                    ),
                    self._system,
                )
                for index, (one, other) in enumerate(self._start)
            )
        return self._known[key]
