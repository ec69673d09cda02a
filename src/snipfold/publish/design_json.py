"""The design as data: everything that a stranger needs to check it without this program.

Documented in `docs/schema/README.md`; its JSON Schema is `docs/schema/design.schema.json`. Names
are only ever added; a change of meaning raises `VERSION`.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from fractions import Fraction
from math import isfinite

from .. import __version__
from ..cutting.plan import CutPlan
from ..dressing import Mark, Mat, Strap, Strip
from ..findings import Finding, Mend
from ..flat import EdgeKind, FlatPiece, GlueArea, Point, Score
from ..folding import Air, Law, Stack, Treat
from ..measure import Length, System
from ..project import Design
from ..scoring import ScoreLine, ScorePass, ScoringPlan
from ..styles import Cavity, HandlePlace, Slide, Stand, Step
from ..workshop import Adhesive, Paper
from .plain import Json, cut_step_data, length_data, node_data

FORMAT = "snipfold design"
VERSION = 1


def design_json(design: Design) -> str:
    """The design as JSON text, the same bytes each time: lengths exact, places in mm.

    Lengths are objects {"mm": number, "exact": "127/5", "words": "1 in"}; places on a blank are
    [x, y] in mm, x to the right and y up, the outside face up.
    """
    return json.dumps(design_data(design), ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def design_data(design: Design) -> Json:
    """The design as plain dictionaries, lists, words and numbers, as `design_json` writes them."""
    return _Writer(design).document()


def finding_data(finding: Finding, system: System) -> Json:
    """One finding as plain data."""
    amount = None if finding.amount is None else length_data(finding.amount, system)
    return {
        "code": finding.code,
        "severity": finding.severity.value,
        "where": list(finding.where),
        "says": finding.says,
        "advice": finding.advice,
        "amount": amount,
        "mend": mend_data(finding.mend),
    }


def mend_data(mend: Mend | None) -> Json | None:
    """One mend as plain data."""
    return None if mend is None else {"field": mend.field, "now": mend.now, "to": mend.to}


def _point(point: Point) -> list[float]:
    return [float(point.x), float(point.y)]


def _points(corners: Iterable[Point]) -> list[list[float]]:
    return [_point(corner) for corner in corners]


def _rounded(value: Fraction | None) -> float | None:
    """A price or a weight, to a hundredth of a hundredth."""
    return None if value is None else round(float(value), 4)


class _Writer:
    """Writes one design, its lengths in words of the design's system."""

    def __init__(self, design: Design) -> None:
        self.design = design

    def length(self, length: Length) -> Json:
        return length_data(length, self.design.system)

    def maybe(self, length: Length | None) -> Json | None:
        return None if length is None else self.length(length)

    def document(self) -> Json:
        design = self.design
        made = design.construction
        return {
            "format": FORMAT,
            "version": VERSION,
            "made_by": f"snipfold {__version__}",
            "name": design.project.name,
            "notes": design.project.notes,
            "style": design.style.name,
            "system": design.system.value,
            "measures": [
                {
                    "name": measure.name,
                    "says": measure.says,
                    "given": measure.name in design.project.measures,
                    "length": self.length(design.measures[measure.name]),
                }
                for measure in design.style.measures
            ],
            "contents": [self._treat(treat) for treat in design.project.contents],
            "workshop": self._workshop(),
            "papers": self._papers(),
            "pieces": [self._piece(piece) for piece in made.pieces],
            "cavity": self._cavity(made.cavity),
            "slides": [self._slide(slide) for slide in made.slides],
            "handle": None if made.handle is None else self._handle(made.handle),
            "steps": [self._step(step) for step in made.steps],
            "mats": [self._mat(mat) for mat in design.dressing.mats],
            "strap": None if design.dressing.strap is None else self._strap(design.dressing.strap),
            "adhesive": [self._strip(strip) for strip in design.dressing.strips],
            "cutting": [self._plan(name, plan) for name, plan in design.cutting.items()],
            "supplies": self._supplies(),
            "proof": self._proof(),
            "findings": [finding_data(finding, design.system) for finding in design.findings],
        }

    def _treat(self, treat: Treat) -> Json:
        sides = ("width", "depth", "height", "allowance", "proud")
        return {"name": treat.name} | {side: self.length(getattr(treat, side)) for side in sides}

    def _workshop(self) -> Json:
        shop = self.design.workshop
        return {
            "trimmer": {
                "graduation": self.length(shop.trimmer.ruler.graduation),
                "longest_cut": self.length(shop.trimmer.longest_cut),
            },
            "scoring_board": {
                "grooves": self.length(shop.board.grooves.graduation),
                "length": self.length(shop.board.length),
            },
            "ruler": {"graduation": self.length(shop.ruler.graduation)},
            "tape": self._adhesive(shop.adhesive(shop.tape)),
            "mat_adhesive": self._adhesive(shop.adhesive(shop.mat_adhesive)),
        }

    def _adhesive(self, adhesive: Adhesive) -> Json:
        return {
            "name": adhesive.name,
            "kind": adhesive.kind.value,
            "width": self.length(adhesive.width),
            "thickness": self.length(adhesive.thickness),
        }

    def _papers(self) -> list[Json]:
        uses: dict[str, tuple[Paper, list[str]]] = {}
        for use, paper in self.design.papers.items():
            uses.setdefault(paper.name, (paper, []))[1].append(use)
        return [self._paper(paper, names) for paper, names in uses.values()]

    def _paper(self, paper: Paper, uses: list[str]) -> Json:
        return {
            "name": paper.name,
            "for": uses,
            "width": self.length(paper.width),
            "height": self.length(paper.height),
            "measured_width": self.length(paper.true_width),
            "measured_height": self.length(paper.true_height),
            "usable_width": self.length(paper.usable_width),
            "usable_height": self.length(paper.usable_height),
            "gsm": _rounded(paper.gsm),
            "thickness": self.length(paper.thickness),
            "grain": paper.grain.value,
            "directed": paper.directed,
            "two_sided": paper.two_sided,
            "colour": paper.colour,
            "back_colour": paper.back_colour,
        }

    def _piece(self, piece: FlatPiece) -> Json:
        made = self.design.construction
        plans = [plan for plan in self.design.scoring if plan.piece == piece.name]
        return {
            "name": piece.name,
            "paper": self.design.papers[piece.name].name,
            "width": self.length(piece.width),
            "height": self.length(piece.height),
            "panels": [
                {
                    "name": panel.name,
                    "role": panel.role.value,
                    "polygon": _points(panel.corners),
                }
                for panel in piece.panels
            ],
            "scores": [self._score(score) for score in piece.scores],
            "cuts": self._edges(piece, EdgeKind.CUT, EdgeKind.SLIT),
            "left_joined": self._edges(piece, EdgeKind.PLAIN),
            "snips": [
                {"name": snip.name, "polygon": _points(snip.corners)} for snip in piece.snips
            ],
            "glue": [self._glue(glue) for glue in piece.glue],
            "stands": self._stand(made.stand(piece.name)),
            "meets": [
                {
                    "one": {"panel": meet.one.panel, "corner": meet.one.corner},
                    "other": {"panel": meet.other.panel, "corner": meet.other.corner},
                    "apart": [length.float_mm for length in meet.apart],
                    "in_part": meet.in_part,
                    "backed": meet.backed,
                }
                for meet in made.meets
                if meet.piece == piece.name
            ],
            "layers": [
                {"inner": layer.inner, "outer": layer.outer, "slid": layer.slid}
                for layer in made.layers
                if layer.piece == piece.name
            ],
            "scoring": self._scoring(plans[0]) if plans else None,
        }

    def _score(self, score: Score) -> Json:
        return {
            "panels": list(score.panels),
            "start": _point(score.start),
            "end": _point(score.end),
            "fold": score.fold.value,
            "degrees": score.degrees,
        }

    def _edges(self, piece: FlatPiece, *kinds: EdgeKind) -> list[Json]:
        return [
            {
                "start": _point(piece.vertices[edge.start]),
                "end": _point(piece.vertices[edge.end]),
                "panels": [name for name in (edge.left, edge.right) if name],
            }
            for edge in piece.edges
            if edge.kind in kinds
        ]

    def _glue(self, glue: GlueArea) -> Json:
        return {
            "name": glue.name,
            "panel": glue.panel,
            "face": glue.face.value,
            "polygon": _points(glue.corners),
            "mate": glue.mate,
            "mate_face": glue.mate_face.value,
            "width": self.length(glue.width),
            "length": self.length(glue.length),
            "edge": glue.edge,
            "inset": self.length(glue.inset),
        }

    def _stand(self, stand: Stand) -> Json:
        return {
            "panel": stand.panel,
            "x": list(stand.x),
            "y": list(stand.y),
            "flat": _point(stand.flat),
            "at": [length.float_mm for length in stand.at],
            "turned": stand.turned,
        }

    def _scoring(self, plan: ScoringPlan) -> Json:
        return {
            "turns": plan.turns,
            "flips": plan.flips,
            "passes": [self._pass(one) for one in plan.passes],
            "slanting": [list(score.panels) for score in plan.slanting],
        }

    def _pass(self, one: ScorePass) -> Json:
        return {
            "face_up": one.face_up.value,
            "fence": one.fence.value,
            "move": one.move.value,
            "shift": self.maybe(one.shift),
            "lines": [self._line(line) for line in one.lines],
        }

    def _line(self, line: ScoreLine) -> Json:
        return {
            "position": self.length(line.position),
            "ruled": self.length(line.ruled),
            "groove": line.groove,
            "shifted": self.maybe(line.shifted),
            "shifted_groove": line.shifted_groove,
            "fold": line.fold.value,
            "panels": [list(pair) for pair in line.panels],
        }

    def _cavity(self, cavity: Cavity) -> Json:
        return {
            "piece": cavity.piece,
            "width": None if cavity.width is None else list(cavity.width),
            "depth": None if cavity.depth is None else list(cavity.depth),
            "floor": cavity.floor,
            "rim": cavity.rim,
            "covered": cavity.covered,
            "flat": cavity.flat,
            "around": list(cavity.around),
        }

    def _slide(self, slide: Slide) -> Json:
        return {
            "outer": slide.outer,
            "inner": slide.inner,
            "measure": slide.measure,
            "off": list(slide.off),
            "across": [
                {"direction": direction, "panels": list(panels)}
                for direction, panels in slide.across
            ],
            "around": [list(pair) for pair in slide.around],
        }

    def _handle(self, handle: HandlePlace) -> Json:
        return {
            "piece": handle.piece,
            "panels": list(handle.panels),
            "face": handle.face.value,
            "rims": [{"panel": rim.panel, "corner": rim.corner} for rim in handle.rims],
        }

    def _step(self, step: Step) -> Json:
        return {
            "piece": step.piece,
            "title": step.title,
            "moment": step.moment.value,
            "doing": step.doing.value,
            "turns": [
                {"panels": list(turn.panels), "degrees": turn.degrees} for turn in step.turns
            ],
            "glue": list(step.glue),
            "moving": list(step.moving),
        }

    def _mat(self, mat: Mat) -> Json:
        return {
            "piece": mat.piece,
            "panel": mat.panel,
            "face": mat.face.value,
            "polygon": _points(mat.corners),
            "width": self.length(mat.width),
            "height": self.length(mat.height),
            "border": self.length(mat.border),
            "border_total": self.length(mat.border_total),
        }

    def _strap(self, strap: Strap) -> Json:
        sides = ("width", "length", "foot", "free", "least_free", "opening", "span", "rise", "trim")
        return {
            "piece": strap.piece,
            "panels": list(strap.panels),
            "face": strap.face.value,
            **{side: self.length(getattr(strap, side)) for side in sides},
            "feet": [_points(foot) for foot in strap.feet],
            "marks": [self._mark(mark) for mark in strap.marks],
        }

    def _mark(self, mark: Mark) -> Json:
        return {
            "piece": mark.piece,
            "panel": mark.panel,
            "face": mark.face.value,
            "start": _point(mark.start),
            "end": _point(mark.end),
            "says": mark.says,
        }

    def _strip(self, strip: Strip) -> Json:
        return {
            "name": strip.name,
            "adhesive": strip.adhesive,
            "piece": strip.piece,
            "on": strip.on,
            "item": strip.item,
            "face": strip.face.value,
            "edge": strip.edge,
            "width": self.length(strip.width),
            "length": self.length(strip.length),
            "polygon": _points(strip.corners),
            "stage": strip.stage,
        }

    def _plan(self, paper: str, plan: CutPlan) -> Json:
        return {
            "paper": paper,
            "sheet": {
                "width": self.length(plan.sheet.width),
                "height": self.length(plan.sheet.height),
            },
            "parts": [
                {
                    "name": part.name,
                    "width": self.length(part.width),
                    "height": self.length(part.height),
                    "copies": part.copies,
                    "turn": part.turn,
                }
                for part in plan.parts
            ],
            "sets_per_sheet": plan.sets_per_sheet,
            "sheets_per_set": plan.sheets_per_set,
            "bound": plan.bound,
            "proven": plan.proven,
            "sheets": [
                {
                    "times": pattern.times,
                    "tree": node_data(pattern.tree, self.design.system),
                    "steps": [cut_step_data(step, self.design.system) for step in steps],
                }
                for pattern, steps in zip(plan.patterns, plan.steps, strict=True)
            ],
        }

    def _supplies(self) -> Json:
        supplies = self.design.supplies
        return {
            "papers": [
                {
                    "paper": need.paper,
                    "sets_per_sheet": need.sets_per_sheet,
                    "sheets_per_set": need.sheets_per_set,
                    "parts": [
                        {
                            "name": name,
                            "copies": copies,
                            "width": self.length(width),
                            "height": self.length(height),
                        }
                        for name, copies, width, height in need.parts
                    ],
                    "weight_grams": _rounded(need.weight),
                    "price": _rounded(need.price),
                }
                for need in supplies.papers
            ],
            "adhesives": [
                {
                    "adhesive": need.adhesive,
                    "length": self.length(need.length),
                    "strips": need.strips,
                    "price": _rounded(need.price),
                }
                for need in supplies.adhesives
            ],
            "tools": list(supplies.tools),
            "cost": None if supplies.cost is None else str(supplies.cost),
            "currency": supplies.currency,
            "unpriced": list(supplies.unpriced),
        }

    def _proof(self) -> Json:
        proof = self.design.proof
        return {
            "laws": [self._law(law) for law in proof.laws],
            "clear_inside": {name: self.length(clear) for name, clear in proof.clear.items()},
            "stacks": [self._stack(stack) for stack in proof.stacks],
            "air": [self._air(air) for air in proof.air],
            "gap_designed": self.length(proof.gap_designed),
            "gap_marked": self.length(proof.gap_marked),
        }

    def _law(self, law: Law) -> Json:
        return {
            "code": law.code,
            "asks": law.asks,
            "holds": law.holds,
            # A figure without bound (nothing meets at all) is no number in JSON.
            "figure": law.figure if isfinite(law.figure) else None,
            "limit": law.limit,
            "unit": law.unit,
            "says": law.says,
        }

    def _stack(self, stack: Stack) -> Json:
        return {
            "piece": stack.piece,
            "panels": list(stack.panels),
            "height": self.length(stack.height),
        }

    def _air(self, air: Air) -> Json:
        sides = ("total", "paper", "tabs", "mats", "left")
        return {
            "outer": air.outer,
            "inner": air.inner,
            "direction": air.direction,
            **{side: self.length(getattr(air, side)) for side in sides},
        }
