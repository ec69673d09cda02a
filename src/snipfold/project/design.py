"""`Design`: a project worked out through all the rooms."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..cutting.plan import CutPlan
from ..dressing import Dressing
from ..findings import Finding
from ..folding import Proof
from ..measure import Length, System
from ..scoring import ScoringPlan
from ..styles import Construction, Style
from ..supplies import Supplies
from ..workshop import Paper, Workshop
from .project import Project


@dataclass(frozen=True, slots=True)
class Design:
    """A project, worked out.

    `measures` are all the style's measures. `papers` maps each piece, and "mats" and "strap"
    where there are any, to its paper. `cutting` has one plan for each paper that is cut, by the
    paper's name; its parts are named by piece ("bag"), "strap", and mats as "front mat" or, where
    several pieces have one, "base front wall mat" (equal mats share one part: names joined with
    ", "). `findings` are those of every room, worst first.
    """

    project: Project
    workshop: Workshop
    style: Style
    system: System
    measures: Mapping[str, Length]
    construction: Construction
    papers: Mapping[str, Paper]
    proof: Proof
    dressing: Dressing
    scoring: tuple[ScoringPlan, ...]
    cutting: Mapping[str, CutPlan]
    supplies: Supplies
    findings: tuple[Finding, ...]
