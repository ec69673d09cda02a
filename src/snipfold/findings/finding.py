"""`Finding`: one thing that a check has to say to the maker."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from ..measure import Length


class Severity(Enum):
    """How much a finding matters."""

    ERROR = "error"
    """As it stands, the piece cannot be made or does not close."""
    CAUTION = "caution"
    """It can be made, and will look or hold worse than it should."""
    NOTE = "note"
    """Worth knowing."""


@dataclass(frozen=True, slots=True)
class Mend:
    """The one change of the project file that mends a finding.

    `field` is the path of the field ("measures.height", "mats.border"); `now` and `to` are values
    as the file would hold them. `now` is empty where the file leaves the field out.
    """

    field: str
    now: str
    to: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing found: its code, how serious, where, what, by how much, and the mend.

    `where` names the piece and then the panels, scores or parts concerned. `amount` is the figure
    by which a limit is missed, when it is a length. `advice` says in words how to mend it.
    """

    code: str
    severity: Severity
    where: tuple[str, ...]
    says: str
    advice: str
    amount: Length | None = None
    mend: Mend | None = None


def has_errors(findings: Iterable[Finding]) -> bool:
    """Whether any finding is an error."""
    return any(finding.severity is Severity.ERROR for finding in findings)


def worst_first(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings, errors first, otherwise in the order given."""
    order = list(Severity)
    return tuple(sorted(findings, key=lambda finding: order.index(finding.severity)))
