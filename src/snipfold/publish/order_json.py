"""An order and a series as data: enough to check every sheet, pack and sum without this program.

Documented in `docs/schema/README.md`; the JSON Schema is `docs/schema/order.schema.json`. Names
are only ever added; a change of meaning raises `VERSION`.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from .. import __version__
from ..measure import Length, System
from ..orders import (
    Classroom,
    Gang,
    HiddenMiddle,
    Kit,
    Order,
    PaperPlan,
    RunsOut,
    SeriesOrder,
    StepTime,
    Thrift,
    TradeRow,
    Work,
)
from ..supplies import PackLine, Posted, RollLine, rounded
from ..workshop import Envelope, ShelvedOffcut
from .design_json import finding_data
from .plain import Json, cut_step_data, length_data, node_data, region_data

ORDER_FORMAT = "snipfold order"
SERIES_FORMAT = "snipfold series"
VERSION = 1


def order_json(order: Order, trade: Sequence[TradeRow] = ()) -> str:
    """The order as JSON text, the same bytes each time, with the trade-off where it was asked for.

    Lengths are objects {"mm": number, "exact": "127/5", "words": "1 in"}; money, weights and
    minutes are {"exact": "7/3", "rounded": "2.33"}.
    """
    return _dumped(order_data(order, trade))


def series_json(series: SeriesOrder) -> str:
    """The series as JSON text, the same bytes each time."""
    return _dumped(series_data(series))


def _dumped(data: Json) -> str:
    return json.dumps(data, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def order_data(order: Order, trade: Sequence[TradeRow] = ()) -> Json:
    """The order as plain dictionaries, lists, words and numbers, as `order_json` writes them."""
    return _head(ORDER_FORMAT) | _Writer(order).document(trade)


def series_data(series: SeriesOrder) -> Json:
    """The series as plain data, as `series_json` writes it."""
    return _head(SERIES_FORMAT) | {
        "name": series.series.name,
        "notes": series.series.notes,
        "projects": [
            {
                "file": project.file,
                "name": name,
                "sets": project.sets,
                "makers": None if project.day is None else project.day.makers,
                "tables": None if project.day is None else project.day.tables,
                "days": [
                    {"occasion": day.occasion.value, "on": day.on.isoformat()}
                    for day in project.days
                ],
                "alone": _Writer(alone).document(()),
            }
            for project, name, alone in zip(
                series.series.projects, series.names, series.alone, strict=True
            )
        ],
        "whole": _Writer(series.whole).document(()),
        "savings": [
            {"name": one.name, "together": one.together, "apart": one.apart}
            for one in series.savings
        ],
    }


def _head(kind: str) -> Json:
    return {"format": kind, "version": VERSION, "made_by": f"snipfold {__version__}"}


def _amount(amount: Fraction | None, places: int = 2) -> Json | None:
    if amount is None:
        return None
    return {"exact": str(amount), "rounded": str(rounded(amount, places))}


def _money(price: Decimal | None) -> str | None:
    return None if price is None else str(price)


class _Writer:
    """Writes one order, its lengths in words of the workshop's system."""

    def __init__(self, order: Order) -> None:
        self.order = order

    def length(self, length: Length, system: System | None = None) -> Json:
        return length_data(length, system or self.order.system)

    def maybe(self, length: Length | None) -> Json | None:
        return None if length is None else self.length(length)

    def cost(self, amount: Fraction | None) -> Json | None:
        return _amount(amount, self.order.places)

    def document(self, trade: Sequence[TradeRow]) -> Json:
        order = self.order
        return {
            "system": order.system.value,
            "currency": order.currency,
            "prefer": order.prefer.value,
            "finished": order.finished,
            "sheets": order.sheets,
            "proven": order.proven,
            "papers": [self._paper(plan) for plan in order.papers],
            "shopping": {
                "papers": [self._pack(line) for line in order.shopping.papers],
                "adhesives": [self._roll(line) for line in order.shopping.adhesives],
                "embellishments": [self._pack(line) for line in order.shopping.embellishments],
                "envelopes": [self._pack(line) for line in order.shopping.envelopes],
            },
            "kits": [self._kit(kit) for kit in order.kits],
            "work": [_work(one) for one in order.prep],
            "cost": {
                "material": self.cost(order.cost.material),
                "to_pay": self.cost(order.cost.to_pay),
                "unpriced": list(order.cost.unpriced),
            },
            "runs_out": [_runs_out(one) for one in order.runs_out],
            "gangs": [self._gang(one) for one in order.gangs],
            "thrift": [self._thrift(one) for one in order.thrift],
            "trade": [self._trade(row) for row in trade],
            "class": None if order.classroom is None else _classroom(order.classroom),
            "cautions": list(order.cautions),
            "findings": [finding_data(finding, order.system) for finding in order.findings],
        }

    def _paper(self, plan: PaperPlan) -> Json:
        made = plan.plan
        return {
            "paper": plan.paper,
            "parts": [
                {
                    "name": part.name,
                    "width": self.length(part.width),
                    "height": self.length(part.height),
                    "copies": part.copies,
                    "turn": part.turn,
                }
                for part in made.parts
            ],
            "sources": [
                {
                    "paper": source.paper,
                    "origin": source.origin.value,
                    "says": source.says,
                    "width": self.length(source.width),
                    "height": self.length(source.height),
                    "cost": str(supply.cost),
                    "most": supply.most,
                    "used": used,
                }
                for source, supply, used in zip(
                    plan.sources, made.supplies, made.sheets, strict=True
                )
            ],
            "sheets": plan.sheets,
            "bound": plan.bound,
            "counted": plan.counted.value,
            "cost": str(made.cost),
            "cost_bound": str(made.bound),
            "gap": str(made.gap),
            "proven": made.proven,
            "ended": made.ended.value,
            "settings": made.settings,
            "missing": [{"part": part, "copies": copies} for part, copies in made.missing],
            "same_sheet": [list(names) for names in plan.same_sheet],
            "patterns": [
                {
                    "source": use.supply,
                    "times": use.pattern.times,
                    "tree": node_data(use.pattern.tree, self.order.system),
                    "steps": [cut_step_data(step, self.order.system) for step in use.steps],
                }
                for use in made.uses
            ],
            "sequence": {
                "changes": plan.sequence.changes,
                "layers": plan.sequence.layers,
                "strokes": plan.sequence.strokes,
                "strokes_single": plan.sequence.strokes_single,
                "runs": [
                    {
                        "setting": self.length(run.setting),
                        "axis": run.axis.value,
                        "strokes": run.strokes,
                        "work": [
                            {"pattern": number, "piece": region_data(region, self.order.system)}
                            for number, region in run.work
                        ],
                    }
                    for run in plan.sequence.runs
                ],
            },
            "offcuts": [self._offcut(offcut) for offcut in plan.offcuts],
        }

    def _offcut(self, offcut: ShelvedOffcut) -> Json:
        return {
            "paper": offcut.paper,
            "width": self.length(offcut.width),
            "height": self.length(offcut.height),
            "count": offcut.count,
        }

    def _pack(self, line: PackLine) -> Json:
        return {
            "name": line.name,
            "need": line.need,
            "on_hand": line.on_hand,
            "pack": line.pack,
            "packs": line.packs,
            "left": line.left,
            "short": line.short,
            "gone": line.gone,
            "price": _money(line.price),
            "spend": self.cost(line.spend),
            "used": self.cost(line.used),
        }

    def _roll(self, line: RollLine) -> Json:
        return {
            "name": line.name,
            "need": self.length(line.need),
            "pieces": line.pieces,
            "on_hand": self.length(line.on_hand),
            "roll": self.maybe(line.roll),
            "rolls": line.rolls,
            "left": self.maybe(line.left),
            "price": _money(line.price),
            "spend": self.cost(line.spend),
            "used": self.cost(line.used),
        }

    def _kit(self, kit: Kit) -> Json:
        return {
            "name": kit.name,
            "style": kit.style,
            "sets": kit.sets,
            "spare": kit.spare,
            "made": kit.made,
            "parts": [
                {
                    "name": part.name,
                    "part": part.part,
                    "paper": part.paper,
                    "width": self.length(part.width, kit.system),
                    "height": self.length(part.height, kit.system),
                    "count": part.count,
                }
                for part in kit.parts
            ],
            "embellishments": [{"name": one.name, "count": one.count} for one in kit.extras],
            "adhesives": [
                {
                    "name": one.name,
                    "length": self.length(one.length, kit.system),
                    "strips": one.strips,
                }
                for one in kit.adhesives
            ],
            "envelope": self._posted(kit.posted),
            "work": [_work(one) for one in kit.work],
            "steps": [_step_time(one) for one in kit.steps],
            "cost": {
                "material": self.cost(kit.cost.material),
                "per_set": self.cost(kit.cost.per_set),
                "prep_minutes": _amount(kit.cost.prep),
                "making_minutes": _amount(kit.cost.making),
                "price": _money(kit.cost.price),
                "leaves_out": list(kit.cost.leaves_out),
            },
            "labels": [
                {"lines": list(label.lines), "copies": label.copies} for label in kit.labels
            ],
        }

    def _posted(self, posted: Posted) -> Json:
        return {
            "weight_grams": _amount(posted.weight),
            "unweighed": list(posted.unweighed),
            "thickness": self.length(posted.thickness),
            "unmeasured": list(posted.unmeasured),
            "own": self._envelope(posted.envelope),
            "published": self._envelope(posted.published),
            "largest_part": [self.length(side) for side in posted.largest],
        }

    def _envelope(self, envelope: Envelope | None) -> Json | None:
        if envelope is None:
            return None
        return {
            "name": envelope.name,
            "width": self.length(envelope.width),
            "height": self.length(envelope.height),
        }

    def _gang(self, gang: Gang) -> Json:
        return {
            "kit": gang.kit,
            "piece": gang.piece,
            "in_row": gang.in_row,
            "rows": gang.rows,
            "joined": self.length(gang.joined),
            "passes": gang.passes,
            "lines": gang.lines,
            "saved_passes": gang.saved_passes,
            "saved_lines": gang.saved_lines,
        }

    def _thrift(self, thrift: Thrift) -> Json:
        return {
            "paper": thrift.paper,
            "sheets": thrift.sheets,
            "saved": thrift.saved,
            "applied": thrift.applied,
            "taken": [
                {"middle": self._middle(middle), "count": count} for middle, count in thrift.taken
            ],
        }

    def _middle(self, middle: HiddenMiddle) -> Json:
        return {
            "kit": middle.kit,
            "piece": middle.piece,
            "panel": middle.panel,
            "paper": middle.paper,
            "width": self.length(middle.width),
            "height": self.length(middle.height),
            "count": middle.count,
        }

    def _trade(self, row: TradeRow) -> Json:
        return {
            "prefer": row.prefer.value,
            "sheets": row.sheets,
            "settings": row.settings,
            "changes": row.changes,
            "strokes": row.strokes,
            "offcut": None if row.offcut is None else self._offcut(row.offcut),
            "proven": row.proven,
        }


def _work(work: Work) -> Json:
    return {
        "operation": work.operation.value,
        "count": work.count,
        "minutes": _amount(work.minutes),
    }


def _step_time(step: StepTime) -> Json:
    return {"piece": step.piece, "title": step.title, "minutes": _amount(step.minutes)}


def _runs_out(one: RunsOut) -> Json:
    return {
        "paper": one.paper,
        "on_hand": one.on_hand,
        "wanting": one.wanting,
        "gone": one.gone,
        "works": list(one.works),
        "partly": [{"name": name, "sets": sets} for name, sets in one.partly],
    }


def _classroom(room: Classroom) -> Json:
    return {
        "makers": room.day.makers,
        "tables": room.day.tables,
        "tools": [
            {"name": tool.name, "count": tool.count, "each": tool.each} for tool in room.tools
        ],
        "prepare": [{"says": says, "minutes": _amount(minutes)} for says, minutes in room.prepare],
    }
