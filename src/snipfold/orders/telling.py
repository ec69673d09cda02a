"""An order in words: sections of tables, for whoever prints or typesets them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from ..cutting.plan import Axis, Got
from ..findings import Severity
from ..measure import Length, System, number, words
from ..supplies import PackLine, RollLine, rounded
from .labels import part_words
from .order import Kit, Order, Origin, PaperPlan, Work
from .series import Occasion, SeriesOrder
from .sheets import nodes, worded_cost
from .trade import TradeRow

_AXES = {Axis.ACROSS: "from the left edge", Axis.UP: "from the bottom edge"}


@dataclass(frozen=True, slots=True)
class Listing:
    """A table in words: a caption (may be empty), headings (may be none), and rows."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Told:
    """A section in words: its heading, its tables, then short remarks."""

    heading: str
    listings: tuple[Listing, ...] = ()
    says: tuple[str, ...] = ()


def told_order(order: Order, trade: Sequence[TradeRow] = ()) -> tuple[Told, ...]:
    """The order in words: sheets, cutting, shopping, kits, time, cost, offers, cautions."""
    made = (
        _sheets(order),
        *(_cutting(plan, order.system) for plan in order.papers),
        _shopping(order),
        *(_kit(kit, order) for kit in order.kits),
        _time(order),
        _cost(order),
        _offers(order),
        _trade(order, trade),
        _runs_out(order),
        _classroom(order),
        Told("Take care", (), order.cautions),
        _findings(order),
    )
    return tuple(one for one in made if one.listings or one.says)


def told_series(series: SeriesOrder) -> tuple[Told, ...]:
    """The series in words: its days, what it takes together, and each project alone."""
    days = sorted(
        (
            (day.on, list(Occasion).index(day.occasion), day.occasion.value, name)
            for project, name in zip(series.series.projects, series.names, strict=True)
            for day in project.days
        ),
    )
    rows = tuple((on.isoformat(), occasion, name) for on, _, occasion, name in days)
    saved = tuple(
        f"{one.name}: {one.together} bought once, {one.apart} project by project"
        for one in series.savings
    )
    made = [
        Told("Days", (Listing("", (), rows),) if rows else ()),
        Told("Saved by buying once", (), saved),
        *told_order(series.whole),
    ]
    for name, alone in zip(series.names, series.alone, strict=True):
        listing = _shopping(alone)
        made.append(Told(f"{name} alone", listing.listings, (_sum_words(alone), *listing.says)))
    return tuple(one for one in made if one.listings or one.says)


def packing_text(order: Order) -> str:
    """What goes into each envelope, kit by kit, as plain text."""
    lines: list[str] = []
    for kit in order.kits:
        lines.append(f"{kit.name}: {_made_words(kit)}")
        lines += [f"  [ ] {said}" for said in packing_lines(kit)]
        lines.append("")
    return "\n".join(lines)


def label_text(order: Order) -> str:
    """Every label once, with how many to print, as plain text."""
    lines: list[str] = []
    for kit in order.kits:
        for label in kit.labels:
            lines += [f"Print {label.copies}:", *(f"  {line}" for line in label.lines), ""]
    return "\n".join(lines)


def packing_lines(kit: Kit) -> tuple[str, ...]:
    """Everything that goes into one envelope: each part with its size and count."""
    return (
        *(part_words(part, kit.system) for part in kit.parts),
        *(f"{extra.count} {extra.name}" for extra in kit.extras),
    )


def minute_words(minutes: Fraction) -> str:
    """Minutes for a reader: "1 h 25 min", "4 min", "40 s".

    >>> minute_words(Fraction(85)), minute_words(Fraction(2, 3))
    ('1 h 25 min', '40 s')
    """
    seconds = int(minutes * 60 + Fraction(1, 2))
    if seconds < 120:
        return f"{seconds} s"
    whole = int(minutes + Fraction(1, 2))
    hours, rest = divmod(whole, 60)
    return f"{whole} min" if not hours else f"{hours} h {rest} min" if rest else f"{hours} h"


def _money(amount: Fraction | Decimal, order: Order) -> str:
    exact = amount if isinstance(amount, Fraction) else Fraction(amount)
    return f"{order.currency}{rounded(exact, order.places)}"


def _plural(count: int, one: str, many: str = "") -> str:
    return f"{count} {one if count == 1 else many or f'{one}s'}"


def _size(width: Length, height: Length, system: System) -> str:
    return f"{number(width, system)} × {words(height, system)}"


def _made_words(kit: Kit) -> str:
    spare = f", {kit.spare} of them spare" if kit.spare else ""
    return f"{_plural(kit.made, 'set')}{spare}"


def _sum_words(order: Order) -> str:
    return f"{_plural(order.sheets, 'sheet')}, {_money(order.cost.to_pay, order)} to pay"


def _sheets(order: Order) -> Told:
    rows = []
    says: list[str] = []
    for plan in order.papers:
        rows.append((plan.paper, _plural(plan.sheets, "sheet"), _proof(plan, order)))
        for source, used in zip(plan.sources, plan.plan.sheets, strict=True):
            if used and source.origin is not Origin.SHEET:
                says.append(f"{used} × {source.says} first")
            elif used and source.paper != plan.paper:
                says.append(f"{_plural(used, 'sheet')} of {source.paper} for {plan.paper}")
        for names in plan.same_sheet:
            says.append(f"{', '.join(names)}: those of one set always from the same sheet")
        says += (
            f"{_plural(copies, 'copy', 'copies')} of {part} cannot be cut: {plan.paper} runs out"
            for part, copies in plan.plan.missing
        )
    return Told("Sheets", (Listing("", (), tuple(rows)),), tuple(says))


def _proof(plan: PaperPlan, order: Order) -> str:
    made = plan.plan
    if made.missing:
        return "not enough for all parts"
    if made.proven:
        return (
            "proven: no plan takes fewer" if plan.bound is not None else "proven: none is cheaper"
        )
    if plan.bound is not None:
        if plan.bound == plan.sheets:
            return "proven: no plan takes fewer"
        return f"at least {plan.bound} are needed; stopped {made.ended.value}"
    least = worded_cost(made.bound, plan.counted, order.currency, order.places)
    return f"at least {least}; stopped {made.ended.value}"


def _cutting(plan: PaperPlan, system: System) -> Told:
    patterns = []
    for index, use in enumerate(plan.plan.uses, start=1):
        gives = Counter(node.part for node in nodes(use.pattern.tree) if isinstance(node, Got))
        said = ", ".join(f"{count} {part}" for part, count in sorted(gives.items()))
        source = plan.sources[use.supply]
        patterns.append((str(index), f"{use.pattern.times} × {source.says}", said))
    runs = tuple(
        (
            words(run.setting, system),
            _AXES[run.axis],
            _plural(run.strokes, "stroke"),
            f"pattern {', '.join(str(n + 1) for n in sorted({use for use, _ in run.work}))}",
        )
        for run in plan.sequence.runs
    )
    says = []
    if plan.sequence.layers > 1:
        says.append(
            f"up to {plan.sequence.layers} sheets on each other: {plan.sequence.strokes} strokes "
            f"instead of {plan.sequence.strokes_single}"
        )
    says += [
        f"keep {offcut.count} offcut{'' if offcut.count == 1 else 's'} "
        f"{_size(offcut.width, offcut.height, system)}"
        for offcut in plan.offcuts
    ]
    listings = [Listing("how often each sheet is cut, and what it gives", (), tuple(patterns))]
    if runs:
        changes = _plural(plan.sequence.changes, "change")
        listings.append(Listing(f"settings of the trimmer in order, {changes}", (), runs))
    return Told(f"Cut {plan.paper}", tuple(listings), tuple(says))


def _shopping(order: Order) -> Told:
    rows = []
    for line in order.shopping.lines:
        rows.append(
            _pack_row(line, order) if isinstance(line, PackLine) else _roll_row(line, order)
        )
    says = [f"in all {_money(order.cost.to_pay, order)}"] if order.cost.to_pay else []
    return Told(
        "Buy", (Listing("", ("", "needed", "on hand", "to buy", "costs"), tuple(rows)),),
        tuple(says),
    )  # fmt: skip


def _cost_words(spend: Fraction | None, order: Order) -> str:
    return "no price" if spend is None else _money(spend, order) if spend else ""


def _pack_row(line: PackLine, order: Order) -> tuple[str, ...]:
    what = "sheet" if line.goods.value == "paper" else "piece"
    if line.gone and line.short:
        buy = f"{_plural(line.short, what)} short, no more to be had"
    elif not line.packs:
        buy = "nothing"
    elif line.pack == 1:
        buy = _plural(line.packs, what)
    else:
        buy = f"{_plural(line.packs, 'pack')} of {line.pack}"
    return (
        line.name, _plural(line.need, what), str(line.on_hand), buy,
        _cost_words(line.spend, order),
    )  # fmt: skip


def _roll_row(line: RollLine, order: Order) -> tuple[str, ...]:
    if line.rolls is None:
        buy = f"{_long(line.need - line.on_hand, order.system)} (length of a roll unknown)"
    elif not line.rolls:
        buy = "nothing"
    else:
        roll = "" if line.roll is None else f" of {_long(line.roll, order.system)}"
        buy = f"{_plural(line.rolls, 'roll')}{roll}"
    on_hand = _long(line.on_hand, order.system) if line.on_hand else "0"
    return (
        line.name, f"{_long(line.need, order.system)} in {line.pieces}", on_hand, buy, _cost_words(line.spend, order)
    )  # fmt: skip


def _long(length: Length, system: System) -> str:
    """A length of adhesive, rounded up, as shops measure it: feet and metres."""
    if system is System.METRIC:
        tenths = -(-length.as_mm // 100)
        return f"{tenths // 10}.{tenths % 10} m" if tenths % 10 else f"{tenths // 10} m"
    feet = -(-length.as_inch // 12)
    return f"{feet} ft"


def _kit(kit: Kit, order: Order) -> Told:
    rows = [
        (str(part.count), part.name, _size(part.width, part.height, kit.system), part.paper)
        for part in kit.parts
    ]
    rows += [(str(extra.count), extra.name, "", "embellishment") for extra in kit.extras]
    caption = "in each envelope" if not order.finished else "for each"
    says = []
    if not order.finished:
        says.append(_post_words(kit, order))
    spare = f", with {kit.spare} to spare" if kit.spare else ""
    says += [f"{adhesive}" for adhesive in _adhesive_words(kit)]
    return Told(
        f"{kit.name}: {_plural(kit.sets, 'set')}{spare}",
        (Listing(caption, (), tuple(rows)),),
        tuple(says),
    )


def _adhesive_words(kit: Kit) -> Iterator[str]:
    for one in kit.adhesives:
        strips = _plural(one.strips, "strip")
        yield f"{words(one.length, kit.system)} of {one.name} for a set, in {strips}"


def _post_words(kit: Kit, order: Order) -> str:
    posted = kit.posted
    grams = rounded(posted.weight, 1)
    thick = words(posted.thickness, System.METRIC) if order.system is System.METRIC else None
    thick = thick or f"{float(posted.thickness.as_mm):.1f} mm"
    without = ", ".join(posted.unweighed)
    weight = f"weighs {grams} g" + (f" without {without}" if without else "")
    if posted.envelope is not None:
        goes = f"goes into {posted.envelope.name}"
    elif posted.published is not None:
        size = _size(posted.published.width, posted.published.height, order.system)
        goes = f"smallest published envelope: {posted.published.name}, {size}"
    else:
        size = _size(*posted.largest, order.system)
        goes = f"no published envelope takes {size} flat: send it in a larger one"
    return f"{goes}; {weight}, at most {thick} thick"


def _time(order: Order) -> Told:
    rows = [_work_row(one) for one in order.prep]
    says = []
    for kit in order.kits:
        timed = sum((one.minutes for one in kit.work if one.minutes is not None), Fraction(0))
        if timed:
            says.append(f"making up one {kit.name}: {minute_words(timed)}")
    if any(one.minutes is None for one in order.prep):
        says.append("time yourself, and write it under [pace] in your workshop file")
    return Told(
        "Time before making up", (Listing("", (), tuple(rows)),) if rows else (), tuple(says)
    )


def _work_row(work: Work) -> tuple[str, ...]:
    time = "not timed" if work.minutes is None else minute_words(work.minutes)
    return (str(work.count), work.operation.value, time)


def _cost(order: Order) -> Told:
    rows: list[tuple[str, ...]] = []
    says = []
    for kit in order.kits:
        cost = kit.cost
        price = (
            "no price suggested" if cost.price is None else f"charge {_money(cost.price, order)}"
        )
        material = "nothing has a price"
        if cost.per_set:
            material = f"{_money(cost.per_set, order)} of material a set"
        rows.append((kit.name, material, price))
        if cost.leaves_out:
            says.append(f"{kit.name} leaves out {_listed(cost.leaves_out)}")
    rows.append(("in all", f"{_money(order.cost.material, order)} of material", ""))
    return Told("Cost, from your own prices", (Listing("", (), tuple(rows)),), tuple(says))


def _listed(names: Iterable[str]) -> str:
    found = list(names)
    if len(found) < 2:
        return "".join(found)
    return f"{', '.join(found[:-1])} and {found[-1]}"


def _offers(order: Order) -> Told:
    says = [
        f"{gang.kit}: leave {gang.in_row} {gang.piece} blanks joined "
        f"({words(gang.joined, order.system)}), score "
        f"{_plural(gang.lines, 'line')} once, then part them: saves "
        f"{_plural(gang.saved_passes, 'pass', 'passes')} over the board"
        for gang in order.gangs
    ]
    for thrift in order.thrift:
        middles = _listed(
            f"{count} from under the mat on {middle.panel} of {middle.kit} "
            f"({_size(middle.width, middle.height, order.system)})"
            for middle, count in thrift.taken
        )
        saves = f"{_plural(thrift.saved, 'sheet')} of {thrift.paper}"
        if thrift.applied:
            says.append(f"saved {saves}: cut {middles}; the wall loses some of its stiffness")
        else:
            says.append(
                f"--thrift saves {saves}: it cuts {middles}, and the wall loses some of its "
                "stiffness"
            )
    return Told("Offers", (), tuple(says))


def _trade(order: Order, rows: Sequence[TradeRow]) -> Told:
    if not rows:
        return Told("")
    listed = []
    for row in rows:
        offcut = "none worth keeping"
        if row.offcut is not None:
            offcut = f"offcut {_size(row.offcut.width, row.offcut.height, order.system)}"
        listed.append(
            (
                row.prefer.value, _plural(row.sheets, "sheet"),
                _plural(row.settings, "setting"), _plural(row.changes, "change"), offcut,
            )
        )  # fmt: skip
    return Told("Pick what you want least of", (Listing("", (), tuple(listed)),))


def _runs_out(order: Order) -> Told:
    says = []
    for one in order.runs_out:
        have = f"{one.paper}: {_plural(one.on_hand, 'sheet')} on hand, {one.wanting} short"
        says.append(have + ("; no more to be had" if one.gone else ""))
        says += [f"still works alone with what is on hand: {name}" for name in one.works]
        says += [
            f"{name} alone: {_plural(sets, 'set')} at least, not all" for name, sets in one.partly
        ]
    return Told("Runs out", (), tuple(says))


def _classroom(order: Order) -> Told:
    room = order.classroom
    if room is None:
        return Told("")
    tools = tuple((str(tool.count), tool.name, f"one a {tool.each}") for tool in room.tools)
    prepare = tuple(
        (says, "" if minutes is None else minute_words(minutes)) for says, minutes in room.prepare
    )
    makers, tables = _plural(room.day.makers, "maker"), _plural(room.day.tables, "table")
    return Told(
        f"Class: {makers} at {tables}",
        (Listing("set out", (), tools), Listing("prepare", (), prepare)),
        # A class planned for 3 runners each and needed 10:
        # https://13myblogmylife13.blogspot.com/2011/06
        ("bring adhesive to spare: a class takes far more than the measures say",),
    )


def _findings(order: Order) -> Told:
    said = tuple(
        f"{finding.says[:1].upper()}{finding.says[1:]}. {finding.advice[:1].upper()}"
        f"{finding.advice[1:]}."
        for finding in order.findings
        if finding.severity is not Severity.NOTE
    )
    return Told("To mend", (), said)
