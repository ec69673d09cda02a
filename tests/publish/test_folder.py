"""Publishing gives everything or leaves everything as it was."""

import json
import os
from pathlib import Path

import pytest

from snipfold.measure import System
from snipfold.publish import FORMATS, MANIFEST, PublishError, folder, publish_design
from snipfold.publish.folder import write_folder

from .designs import design

SAMPLE = {"guide.pdf": b"one", "box.png": b"two"}


def contents(place: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in place.iterdir()}


def test_everything_is_published_and_named(tmp_path: Path) -> None:
    told: list[tuple[str, int, int]] = []
    target = tmp_path / "deep" / "sampler"
    written = publish_design(
        design("wrap bag", System.INCH), target, "letter", lambda *step: told.append(step)
    )
    names = {"guide.pdf", "template.pdf", "cut-bag.svg", "box.png", "design.json"}
    assert {path.name for path in written} == names
    assert set(contents(target)) == {*names, MANIFEST}
    assert all(path.stat().st_size > 100 for path in written)
    json.loads((target / "design.json").read_text(encoding="utf-8"))
    assert [done for _, done, _ in told] == list(range(len(FORMATS) + 1))
    assert list(target.parent.iterdir()) == [target]


def test_publishing_twice_gives_the_same_bytes(tmp_path: Path) -> None:
    made = design("tray with lift-off lid", System.METRIC)
    publish_design(made, tmp_path / "one", "a4")
    publish_design(made, tmp_path / "two", "a4")
    publish_design(made, tmp_path / "two", "a4")
    assert contents(tmp_path / "one") == contents(tmp_path / "two")


def test_a_folder_that_was_published_is_replaced(tmp_path: Path) -> None:
    write_folder({**SAMPLE, "old.svg": b"old"}, tmp_path / "out")
    write_folder(SAMPLE, tmp_path / "out")
    assert set(contents(tmp_path / "out")) == {*SAMPLE, MANIFEST}
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_an_empty_folder_is_used(tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    write_folder(SAMPLE, tmp_path / "out")
    assert set(contents(tmp_path / "out")) == {*SAMPLE, MANIFEST}


def test_a_folder_of_somebody_else_is_left_alone(tmp_path: Path) -> None:
    place = tmp_path / "photos"
    place.mkdir()
    (place / "aunt.jpg").write_bytes(b"aunt")
    with pytest.raises(PublishError, match="photos") as error:
        write_folder(SAMPLE, place)
    assert "aunt.jpg" in str(error.value)
    assert contents(place) == {"aunt.jpg": b"aunt"}


def test_a_file_that_the_maker_added_is_not_lost(tmp_path: Path) -> None:
    place = tmp_path / "out"
    write_folder(SAMPLE, place)
    (place / "my notes.txt").write_text("keep")
    with pytest.raises(PublishError, match=r"my notes\.txt"):
        write_folder(SAMPLE, place)
    assert (place / "my notes.txt").read_text() == "keep"


def test_a_failure_while_making_leaves_the_old_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "out"
    write_folder(SAMPLE, place)
    before = contents(place)

    def broken(*_: object) -> dict[str, bytes]:
        raise RuntimeError("out of ink")

    forms = (*FORMATS[2:3], folder.FORMATS[0].__class__("broken", broken))
    monkeypatch.setattr(folder, "FORMATS", forms)
    with pytest.raises(RuntimeError):
        publish_design(design("wrap bag", System.INCH), place)
    assert contents(place) == before
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_a_failure_while_writing_leaves_the_old_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "out"
    write_folder(SAMPLE, place)
    before = contents(place)
    whole = Path.write_bytes

    def full(self: Path, data: bytes) -> int:
        if self.name == "box.png":
            raise OSError(28, "No space left on device")
        return whole(self, data)

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(PublishError, match="No space left"):
        write_folder({"guide.pdf": b"new", "box.png": b"new"}, place)
    monkeypatch.undo()
    assert contents(place) == before
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_a_failure_while_swapping_puts_the_old_folder_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "out"
    write_folder(SAMPLE, place)
    before = contents(place)
    rename = Path.rename

    def stubborn(self: Path, target: Path) -> Path:
        if self.name == "new":
            raise OSError(13, "Permission denied")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", stubborn)
    with pytest.raises(PublishError):
        write_folder({"guide.pdf": b"new"}, place)
    monkeypatch.undo()
    assert contents(place) == before
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_a_file_in_the_way_is_named(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file")
    with pytest.raises(PublishError, match="out: a file is in the way"):
        write_folder(SAMPLE, tmp_path / "out")
    with pytest.raises(PublishError, match="out: a file is in the way"):
        write_folder(SAMPLE, tmp_path / "out" / "deeper")
    assert (tmp_path / "out").read_text() == "a file"


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may write anywhere")
def test_a_folder_that_may_not_be_written_is_named(tmp_path: Path) -> None:
    locked = tmp_path / "locked"
    locked.mkdir(mode=0o500)
    with pytest.raises(PublishError, match="locked"):
        write_folder(SAMPLE, locked / "out")


def test_a_parent_that_cannot_be_made_is_a_clear_error(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object, **__: object) -> str:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(folder.tempfile, "mkdtemp", refuse)
    with pytest.raises(PublishError, match="Permission denied"):
        write_folder(SAMPLE, tmp_path / "out")
    assert not (tmp_path / "out").exists()


def test_an_unknown_page_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="letter or a4"):
        publish_design(design("wrap bag", System.INCH), tmp_path / "out", "a3")
