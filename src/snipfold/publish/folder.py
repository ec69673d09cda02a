"""Publishing into a folder: everything or nothing."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path

from ..project import Design
from .formats import FORMATS
from .typesetting import PAGES

#: Lists the files of a published folder; by it we know a folder that we may replace.
MANIFEST = "published.json"

Progress = Callable[[str, int, int], None]
"""Told what is being made, how many formats are done, and how many there are."""


class PublishError(Exception):
    """A folder that cannot be published to, and why."""


def publish_design(
    design: Design, folder: Path, page: str = "letter", progress: Progress | None = None
) -> tuple[Path, ...]:
    """Write everything that other makers need into `folder`; the files written, in order.

    All files are made before any is written. They go to a folder beside it, which then takes its
    place, so that a failure leaves what was there untouched. A folder that is there already is
    replaced only if it is empty, or holds nothing but what was published before. Raises
    `PublishError`, which names the folder, and `ValueError` for an unknown page.
    """
    if page not in PAGES:
        raise ValueError(f"no page “{page}”: {' or '.join(PAGES)}")
    folder = Path(os.path.abspath(folder))
    _must_be_free(folder)
    files: dict[str, bytes] = {}
    for done, form in enumerate(FORMATS):
        if progress is not None:
            progress(form.says, done, len(FORMATS))
        files.update(form.files(design, page))
    write_folder(files, folder)
    if progress is not None:
        progress("done", len(FORMATS), len(FORMATS))
    return tuple(folder / name for name in files)


def write_folder(files: Mapping[str, bytes], folder: Path) -> None:
    """Make `folder` hold exactly these files and the list of them. Raises `PublishError`."""
    _must_be_free(folder)
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        beside = Path(tempfile.mkdtemp(prefix=f".{folder.name}-", dir=folder.parent))
    except OSError as error:
        raise PublishError(_cannot("write in", folder.parent, error)) from error
    try:
        fresh = beside / "new"
        fresh.mkdir()
        for name, data in files.items():
            (fresh / name).write_bytes(data)
        (fresh / MANIFEST).write_text(_manifest(files), encoding="utf-8")
        _swap(fresh, folder, beside / "old")
    except OSError as error:
        shutil.rmtree(beside / "new", ignore_errors=True)
        raise PublishError(_cannot("write", folder, error)) from error
    finally:
        _clear(beside)


def _swap(fresh: Path, folder: Path, old: Path) -> None:
    """Put `fresh` in the place of `folder`, which goes to `old`; put it back if that fails."""
    if folder.exists():
        folder.rename(old)
        try:
            fresh.rename(folder)
        except OSError:
            old.rename(folder)
            raise
        shutil.rmtree(old, ignore_errors=True)
    else:
        fresh.rename(folder)


def _clear(beside: Path) -> None:
    """Take the working folder away; never an old folder that could not be put back."""
    if not (beside / "old").exists():
        shutil.rmtree(beside, ignore_errors=True)


def _must_be_free(folder: Path) -> None:
    """Raise `PublishError` unless the folder can be made, or replaced without loss."""
    for place in (folder, *folder.parents):
        if place.is_symlink() or place.exists():
            if not place.is_dir():
                raise PublishError(f"{place}: a file is in the way; name a folder that is free")
            break
    if not folder.exists():
        return
    if folder.is_symlink() or folder.parent == folder:
        raise PublishError(f"{folder}: not a folder that can be replaced; name another")
    try:
        there = {entry.name for entry in folder.iterdir()}
    except OSError as error:
        raise PublishError(_cannot("read", folder, error)) from error
    if not there:
        return
    foreign = sorted(there - _published(folder) - {MANIFEST})
    if MANIFEST not in there:
        raise PublishError(
            f"{folder}: holds {_some(foreign)}, and was not published from here; "
            "name a new or an empty folder"
        )
    if foreign:
        raise PublishError(
            f"{folder}: holds {_some(foreign)}, which publishing would lose; "
            "move that elsewhere, or name a new folder"
        )


def _some(names: list[str]) -> str:
    shown = ", ".join(names[:3])
    return shown if len(names) <= 3 else f"{shown} and {len(names) - 3} more"


def _published(folder: Path) -> set[str]:
    try:
        listed = json.loads((folder / MANIFEST).read_text(encoding="utf-8"))["files"]
        return {str(name) for name in listed}
    except (OSError, ValueError, KeyError, TypeError):
        return set()


def _manifest(files: Mapping[str, bytes]) -> str:
    listed = {name: hashlib.sha256(data).hexdigest() for name, data in files.items()}
    return json.dumps({"published by": "snipfold", "files": listed}, indent=2) + "\n"


def _cannot(doing: str, place: Path, error: OSError) -> str:
    return f"{place}: cannot {doing} it ({error.strerror or error}); name a folder you may write in"
