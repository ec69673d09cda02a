"""Reading the files that commands are given."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from ..findings import ProjectFileError, worst_first
from ..measure import System
from ..project import Design, Project, check_papers, for_edition, read_project, resolve
from ..workshop import Workshop, default_workshop, read_workshop, text_of
from ..workshop.toml_text import MOST_BYTES
from .start import UnusableError

Shops = Callable[[System], Workshop]
"""The maker's workshop, for editions of one system."""


def read_text(path: Path, what: str) -> str:
    """The text of a file. Raises `UnusableError` or `ProjectFileError`."""
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except IsADirectoryError:
        raise UnusableError(f"{path}: a folder; name the {what} in it") from None
    except FileNotFoundError:
        raise UnusableError(f"{path}: no such file; {_instead(path, what)}") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise UnusableError(f"{path}: cannot be read ({reason})") from None
    return text_of(data, str(path))


def _instead(path: Path, what: str) -> str:
    if what != "project file":
        return f"name a {what} that is there"
    near = (
        sorted(other.name for other in path.parent.glob("*.toml")) if path.parent.is_dir() else []
    )
    if near:
        return f"beside it lie {', '.join(near[:5])}"
    return "start one with: snipfold new"


def own_workshop() -> Path | None:
    """Where the maker's workshop file lies if it is not named: None where there is none."""
    folder = os.environ.get("XDG_CONFIG_HOME") or os.path.expanduser("~/.config")
    path = Path(folder) / "snipfold" / "workshop.toml"
    return path if path.is_file() else None


def shops(named: Path | None) -> Shops:
    """The maker's workshop: the file that is named, the one in its usual place, or neither."""
    path = named or own_workshop()
    if path is None:
        return default_workshop
    text = read_text(path, "workshop file")
    return lambda system: read_workshop(text, str(path), default_workshop(system))


@dataclass(frozen=True)
class ReadFile:
    """A project file that was read: its path, its text, the project, and the maker's workshop."""

    path: Path
    text: str
    project: Project
    shops: Shops

    def design(self, edition: System | None = None) -> Design:
        """The design, in the file's own system or worked out anew for the other."""
        project = self.project
        workshop = self.shops(project.system)
        edition = edition or project.system
        project, workshop, gave = for_edition(project, workshop, edition, self.shops(edition))
        design = resolve(project, workshop)
        return replace(design, findings=worst_first((*design.findings, *gave)))


def read_file(path: Path, workshop: Path | None) -> ReadFile:
    """A project file, checked against the maker's workshop.

    Raises `UnusableError`, and `ProjectFileError` with the problems of one of the two files.
    """
    text = read_text(path, "project file")
    mine = shops(workshop)
    project = read_project(text, str(path))
    check_papers(project, mine(project.system), text, str(path))
    return ReadFile(path, text, project, mine)


def write_new(path: Path, text: str) -> None:
    """Write a new file, never over one that is there. Raises `UnusableError`."""
    try:
        with path.open("x", encoding="utf-8", newline="\n") as file:
            try:
                file.write(text)
                file.flush()
            except OSError:
                path.unlink(missing_ok=True)
                raise
    except FileExistsError:
        raise UnusableError(
            f"{path}: is there already, and stays as it is; name a new file"
        ) from None
    except FileNotFoundError:
        raise UnusableError(f"{path}: there is no folder {path.parent}; make it first") from None
    except OSError as error:
        raise UnusableError(f"{path}: cannot be written ({error.strerror or error})") from None


def write_over(path: Path, text: str) -> None:
    """Put `text` in the place of a file, whole or not at all. Raises `UnusableError`."""
    path = path.resolve()
    beside = path.with_name(f".{path.name}.new")
    try:
        beside.write_text(text, encoding="utf-8", newline="\n")
        beside.replace(path)
    except OSError as error:
        beside.unlink(missing_ok=True)
        raise UnusableError(f"{path}: cannot be written ({error.strerror or error})") from None


def problems_of(error: ProjectFileError) -> list[dict[str, object]]:
    """The problems of a file as plain data."""
    return [
        {
            "source": problem.source,
            "line": problem.line,
            "field": problem.field,
            "read": problem.read,
            "wrong": problem.wrong,
            "right": problem.right,
            "mend": None
            if problem.mend is None
            else {"field": problem.mend.field, "now": problem.mend.now, "to": problem.mend.to},
        }
        for problem in error.problems
    ]
