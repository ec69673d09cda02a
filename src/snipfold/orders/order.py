"""An order as values: what to buy, cut, pack and charge."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from enum import Enum
from fractions import Fraction

from ..cutting.order_plan import OrderPlan, Prefer
from ..cutting.plan import Axis, CutPlan, Region
from ..findings import Finding
from ..measure import Length, System
from ..supplies import PackLine, Posted, RollLine
from ..workshop import ShelvedOffcut
from .asked import ClassDay


class Origin(Enum):
    """Where a rectangle that is cut comes from."""

    SHEET = "sheet"
    SHELF = "offcut on hand"
    LEFT = "offcut of this order"
    """Left over from sheets of this order that are cut first."""
    HIDDEN = "hidden middle"
    """Cut out of a layer where another covers it."""


@dataclass(frozen=True, slots=True)
class Source:
    """What one supply of a plan is: whole sheets or offcuts of a paper, and in words which.

    `colour` is how drawings show its good face.
    """

    paper: str
    origin: Origin
    width: Length
    height: Length
    says: str
    colour: str = "#C9A66B"


class Counted(Enum):
    """What the planner counted as the cost of a sheet."""

    SHEETS = "sheets"
    PRICE = "price"
    AREA = "area"


@dataclass(frozen=True, slots=True)
class SettingRun:
    """One setting of the trimmer in the sequence of an order, and what is cut at it.

    `work` has (number of the pattern, region put in) for every piece, `strokes` how often the
    blade comes down over all sheets, piles counted once. The edge along `axis` lies on the ruler.
    """

    setting: Length
    axis: Axis
    work: tuple[tuple[int, Region], ...]
    strokes: int


@dataclass(frozen=True, slots=True)
class CutSequence:
    """All cuts of one paper, by settings.

    `changes` counts changes of the setting, the first included; `layers` how many sheets lie on
    each other. `strokes` are all strokes of the blade, `strokes_single` what they would be one
    sheet at a time.
    """

    runs: tuple[SettingRun, ...]
    changes: int
    layers: int
    strokes: int
    strokes_single: int


@dataclass(frozen=True, slots=True)
class PaperPlan:
    """The sheets of one paper, or of papers that stand in for each other.

    `paper` is the one that was asked for; `sources` say what each supply of `plan` is. `sheets`
    counts whole sheets of any size; `bound` is the proven least number, where all cost the same
    (else None: then `plan.cost` and `plan.bound` say it, in the currency for `Counted.PRICE`, in
    sheets of `paper`'s area for `Counted.AREA`). `same_sheet` has the parts that were kept on one
    sheet. `offcuts` are worth keeping once all is cut.
    """

    paper: str
    sources: tuple[Source, ...]
    plan: OrderPlan
    counted: Counted
    same_sheet: tuple[tuple[str, ...], ...]
    sequence: CutSequence
    offcuts: tuple[ShelvedOffcut, ...]

    @property
    def sheets(self) -> int:
        """Whole sheets that are cut into, those on hand included."""
        return sum(
            count
            for source, count in zip(self.sources, self.plan.sheets, strict=True)
            if source.origin is Origin.SHEET
        )

    def cut_plan(self, index: int) -> CutPlan:
        """One pattern alone, by its number, as the rooms that draw a make's sheet take it.

        Its figures are those of one sheet that gives no set of its own; `IndexError` where there
        is no such pattern.
        """
        use = self.plan.uses[index]
        sheet = self.plan.supplies[use.supply].sheet
        return CutPlan(sheet, self.plan.parts, 0, 0, 0, True, (use.pattern,), (use.steps,), ())

    @property
    def bound(self) -> int | None:
        """The proven least number of sheets, where sheets are what is counted."""
        return math.ceil(self.plan.bound) if self.counted is Counted.SHEETS else None


@dataclass(frozen=True, slots=True)
class KitPart:
    """A part in an envelope: `name` in its kit, `part` in the cutting plan, size as cut, count."""

    name: str
    part: str
    paper: str
    width: Length
    height: Length
    count: int


@dataclass(frozen=True, slots=True)
class KitExtra:
    """An embellishment in an envelope, and how many."""

    name: str
    count: int


@dataclass(frozen=True, slots=True)
class KitAdhesive:
    """What one set takes of an adhesive: its length and in how many strips."""

    name: str
    length: Length
    strips: int


class Operation(Enum):
    """What takes time; the value is the plural."""

    SETTING = "changes of the trimmer's setting"
    CUT = "strokes of the blade"
    PACK = "envelopes packed"
    SCORE = "lines scored"
    TURN = "turns on the scoring board"
    SNIP = "snips"
    STRIP = "strips of adhesive"
    MAT = "mats laid on"
    STEP = "steps of putting together"


@dataclass(frozen=True, slots=True)
class Work:
    """So many of one operation, and the minutes they take by the maker's watch, exactly.

    `minutes` is None where the maker has not timed it.
    """

    operation: Operation
    count: int
    minutes: Fraction | None


@dataclass(frozen=True, slots=True)
class StepTime:
    """One step of making up a set: its piece, its title, minutes where timed."""

    piece: str
    title: str
    minutes: Fraction | None


@dataclass(frozen=True, slots=True)
class KitCost:
    """What one project of an order costs, exactly.

    `material` is its share of all that is used, for all its kits, spare ones included; `per_set`
    is that spread over the sets asked for. `prep` and `making` are minutes a set: its share of
    cutting and packing, and the making up. `price` is the suggestion for one set, rounded once;
    None where the maker has named no margin. `leaves_out` says in words what neither figure has.
    """

    material: Fraction
    per_set: Fraction
    prep: Fraction
    making: Fraction
    price: Decimal | None
    leaves_out: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Label:
    """The label of a kit: its lines, and how many to print."""

    lines: tuple[str, ...]
    copies: int


@dataclass(frozen=True, slots=True)
class Kit:
    """One project of an order: what each of its envelopes holds, costs and takes.

    `name` is its own in this order. `work` is that of making up one set; `steps` the same, step
    by step of the assembly.
    """

    name: str
    style: str
    system: System
    sets: int
    spare: int
    parts: tuple[KitPart, ...]
    extras: tuple[KitExtra, ...]
    adhesives: tuple[KitAdhesive, ...]
    posted: Posted
    work: tuple[Work, ...]
    steps: tuple[StepTime, ...]
    cost: KitCost
    labels: tuple[Label, ...]

    @property
    def made(self) -> int:
        """All kits that are made."""
        return self.sets + self.spare


@dataclass(frozen=True, slots=True)
class Shopping:
    """What to buy in whole packs and rolls, less what is on hand."""

    papers: tuple[PackLine, ...]
    adhesives: tuple[RollLine, ...]
    embellishments: tuple[PackLine, ...]
    envelopes: tuple[PackLine, ...]

    @property
    def lines(self) -> tuple[PackLine | RollLine, ...]:
        """Every line."""
        return (*self.papers, *self.adhesives, *self.embellishments, *self.envelopes)


@dataclass(frozen=True, slots=True)
class OrderCost:
    """What the whole order costs, exactly, of all that has a price.

    `material` is what is used, what is on hand at the same price; `to_pay` is what the shopping
    list comes to. `unpriced` names what both leave out.
    """

    material: Fraction
    to_pay: Fraction
    unpriced: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RunsOut:
    """A paper of which there is not enough on hand, and what can be made of it all the same.

    `wanting` sheets are short. `works` names the kits that what is on hand does for if they are
    made alone, `partly` the others, with how many sets at least.
    """

    paper: str
    on_hand: int
    wanting: int
    gone: bool
    works: tuple[str, ...]
    partly: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Gang:
    """Blanks that lie in a row in the plan: score the joined piece once, then part it.

    `in_row` blanks are scored together, in `rows` such rows; `lines` are the lines that run through
    all of them, in `passes` passes over the board. `saved_passes` and `saved_lines` are what that
    saves over the whole order.
    """

    kit: str
    piece: str
    in_row: int
    rows: int
    joined: Length
    passes: int
    lines: int
    saved_passes: int
    saved_lines: int


@dataclass(frozen=True, slots=True)
class HiddenMiddle:
    """The middle of a panel that a mat covers: in which kit, how large, and how many."""

    kit: str
    piece: str
    panel: str
    paper: str
    width: Length
    height: Length
    count: int


@dataclass(frozen=True, slots=True)
class Thrift:
    """Parts cut from where a mat will cover it, and the sheets that saves.

    `taken` lists the middles that are used and how many of each. `applied` says whether the plan
    of the order already does so.
    """

    paper: str
    sheets: int
    saved: int
    taken: tuple[tuple[HiddenMiddle, int], ...]
    applied: bool


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool for a class: how many, and whether each maker or each table has one."""

    name: str
    count: int
    each: str


@dataclass(frozen=True, slots=True)
class Classroom:
    """A class: tools to set out, and what to prepare before it, with minutes where timed."""

    day: ClassDay
    tools: tuple[Tool, ...]
    prepare: tuple[tuple[str, Fraction | None], ...]


@dataclass(frozen=True, slots=True)
class Order:
    """An order, worked out.

    `prep` is the work before anything is made up: cutting and packing, over the whole order.
    `finished` says that boxes are sold made up, not as kits. Money is in `currency`, told with
    `places` decimals.
    """

    system: System
    prefer: Prefer
    finished: bool
    kits: tuple[Kit, ...]
    papers: tuple[PaperPlan, ...]
    shopping: Shopping
    prep: tuple[Work, ...]
    cost: OrderCost
    runs_out: tuple[RunsOut, ...]
    gangs: tuple[Gang, ...]
    thrift: tuple[Thrift, ...]
    classroom: Classroom | None
    cautions: tuple[str, ...]
    findings: tuple[Finding, ...]
    currency: str
    places: int

    @property
    def sheets(self) -> int:
        """Whole sheets of all papers."""
        return sum(paper.sheets for paper in self.papers)

    @property
    def proven(self) -> bool:
        """Whether no plan of any paper can be better."""
        return all(paper.plan.proven for paper in self.papers)
