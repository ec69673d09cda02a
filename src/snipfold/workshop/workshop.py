"""`Workshop`: everything a maker owns and buys, by name."""

from __future__ import annotations

from dataclasses import dataclass

from ..measure import Ruler, System
from .stock import Adhesive, Paper
from .tools import ScoringBoard, Slips, Trimmer


@dataclass(frozen=True, slots=True)
class Workshop:
    """Tools, papers and adhesives of one maker.

    `ruler` is the hand ruler for pencil marks. `tape` and `foam` name entries of `adhesives`.
    `page` is the size of the paper in the printer ("letter" or "a4"), `currency` how prices are
    worded.
    """

    system: System
    trimmer: Trimmer
    board: ScoringBoard
    ruler: Ruler
    slips: Slips
    papers: tuple[Paper, ...]
    adhesives: tuple[Adhesive, ...]
    tape: str
    mat_adhesive: str
    page: str
    currency: str

    def paper(self, name: str) -> Paper:
        """The paper of that name; `KeyError` if there is none."""
        for paper in self.papers:
            if paper.name == name:
                return paper
        raise KeyError(name)

    def adhesive(self, name: str) -> Adhesive:
        """The adhesive of that name; `KeyError` if there is none."""
        for adhesive in self.adhesives:
            if adhesive.name == name:
                return adhesive
        raise KeyError(name)
