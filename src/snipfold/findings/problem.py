"""`ProjectFileError`: a file of the maker's that cannot be used as it stands, and why."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from .finding import Mend


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong with a project or workshop file.

    `line` counts from one (0 where no line can be named), `field` is the path of the field
    ("measures.height"; tables of an array count from one: "contents.2.width"). `read` is what
    stood there, `wrong` what is wrong with it, `right` what would be right. `mend` holds the one
    change that mends it, where one does.
    """

    source: str
    line: int
    field: str
    read: str
    wrong: str
    right: str
    mend: Mend | None = None

    def __str__(self) -> str:
        place = [self.source]
        if self.line:
            place.append(f"line {self.line}")
        if self.field:
            place.append(self.field)
        said = f"{self.read!r}: " if self.read and not self.read.isprintable() else ""
        if self.read and not said:
            said = f"“{self.read}”: "
        return f"{', '.join(place)}: {said}{self.wrong}; {self.right}"


class ProjectFileError(ValueError):
    """A project or workshop file that cannot be used: every problem found, in reading order."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(map(str, self.problems)))
