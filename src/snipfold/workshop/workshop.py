"""`Workshop`: everything a maker owns and buys, by name."""

from __future__ import annotations

from dataclasses import dataclass

from ..measure import Ruler, System
from .selling import Pace, Terms
from .shelf import Embellishment, Envelope, ShelvedOffcut
from .stock import Adhesive, Paper
from .tools import ScoringBoard, Slips, Trimmer

_NOT_TIMED, _NOT_SAID = Pace(), Terms()


@dataclass(frozen=True, slots=True)
class Workshop:
    """Tools, papers and adhesives of one maker.

    `ruler` is the hand ruler for pencil marks. `tape` and `foam` name entries of `adhesives`.
    `page` is the size of the paper in the printer ("letter" or "a4"), `currency` how prices are
    worded, with `places` decimals. `offcuts`, `envelopes` and `embellishments` are what else lies
    on the shelf; `pace` and `terms` are the maker's own times and terms.
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
    places: int = 2
    offcuts: tuple[ShelvedOffcut, ...] = ()
    envelopes: tuple[Envelope, ...] = ()
    embellishments: tuple[Embellishment, ...] = ()
    pace: Pace = _NOT_TIMED
    terms: Terms = _NOT_SAID

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

    def embellishment(self, name: str) -> Embellishment | None:
        """The embellishment of that name, or None where the workshop knows nothing of it."""
        return next((one for one in self.embellishments if one.name == name), None)
