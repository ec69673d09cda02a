"""The commands, as a maker uses them: what they print, write, and leave with."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import click
import jsonschema
import pytest
from click.testing import CliRunner, Result

from snipfold import __version__
from snipfold.cli.commands import snipfold
from snipfold.cli.words import finding_lines
from snipfold.findings import Finding, Mend, Severity
from snipfold.project import Design, edit_field, read_project, resolve
from snipfold.publish import PublishError
from snipfold.workshop import default_workshop

ROOT = Path(__file__).parent.parent.parent
EXAMPLES = sorted(
    path for path in (ROOT / "examples").glob("*.toml") if path.name != "workshop.toml"
)


def _schema(name: str) -> Any:
    text = (ROOT / "docs/schema" / name).read_text(encoding="utf-8")
    return jsonschema.Draft202012Validator(json.loads(text))


@pytest.fixture(autouse=True)
def _nobodys_workshop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "config").mkdir()
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.delenv("SNIPFOLD_DEBUG", raising=False)


def run(*args: object) -> Result:
    result = CliRunner().invoke(snipfold, [str(arg) for arg in args])
    assert "Traceback" not in result.output
    return result


@pytest.fixture
def bag(tmp_path: Path) -> Path:
    return Path(shutil.copy(ROOT / "examples/fair-bag.toml", tmp_path / "bag.toml"))


def change(path: Path, field: str, value: str) -> None:
    path.write_text(edit_field(path.read_text(encoding="utf-8"), field, value), encoding="utf-8")


# ---- the examples


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_checks_clean(path: Path) -> None:
    result = run("check", path)
    assert result.exit_code == 0
    # Nothing to mend, or nothing more than notes.
    assert re.fullmatch(r"Nothing to mend\.|\d+ notes?\.", result.output.splitlines()[-1])
    assert "FAILS" not in result.output


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_checks_without_errors_in_its_stalls_workshop(path: Path) -> None:
    assert run("check", path, "--workshop", ROOT / "examples/workshop.toml").exit_code == 0


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_has_both_editions_without_errors(path: Path) -> None:
    for edition, unit in (("inch", " in"), ("metric", " cm")):
        result = run("show", path, "--edition", edition)
        assert result.exit_code == 0
        assert unit in result.output


# ---- new


def test_a_new_file_can_be_checked_at_once(tmp_path: Path) -> None:
    path = tmp_path / "soap-box.toml"
    result = run(
        "new", path, "--style", "Tray with lift-off lid", "--units", "metric", "--set", "width=9 cm"
    )
    assert result.exit_code == 0
    held = tomllib.loads(path.read_text(encoding="utf-8"))
    assert (held["name"], held["units"], held["measures"]["width"]) == (
        "Soap box", "metric", "9 cm",
    )  # fmt: skip
    assert run("check", path).exit_code == 0


def test_a_style_may_be_written_with_hyphens(tmp_path: Path) -> None:
    assert run("new", tmp_path / "a.toml", "--style", "wrap-bag").exit_code == 0


def test_a_new_file_never_goes_over_one_that_is_there(bag: Path) -> None:
    before = bag.read_bytes()
    result = run("new", bag, "--style", "wrap-bag")
    assert result.exit_code == 2
    assert "is there already" in result.output
    assert bag.read_bytes() == before


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (["--style", "warp bag"], "did you mean “wrap bag”?"),
        (["--style", "wrap-bag", "--set", "widht=4"], "did you mean “width”?"),
        (["--style", "wrap-bag", "--set", "width"], "write it like"),
        (["--style", "wrap-bag", "--set", "width=31/2"], "3 1/2 or 15 1/2"),
        (["--style", "wrap-bag", "--set", "width=4", "--set", "width=5"], "set twice"),
        (["--style", "wrap-bag", "--set", "width=0"], "write 1 in or more"),
        (["--style", "wrap-bag", "--set", "height=9 miles"], "no unit"),
        (["--style", "wrap-bag", "--name", "a\x07b"], "cannot be printed"),
        (["--style", "wrap-bag", "--units", "cubits"], "cubits"),
        ([], "--style"),
    ],
)
def test_what_cannot_be_started_is_told_and_not_written(
    tmp_path: Path, options: list[str], words: str
) -> None:
    path = tmp_path / "new.toml"
    result = run("new", path, *options)
    assert result.exit_code == 2
    assert words in result.output
    assert not path.exists()


def test_every_slip_of_the_options_is_told_at_once(tmp_path: Path) -> None:
    result = run("new", tmp_path / "n.toml", "--style", "wrap-bag", "--set", "a=1", "--set", "b=1")
    assert "--set a=1" in result.output
    assert "--set b=1" in result.output


# ---- check


def test_a_treat_that_is_too_tall_is_told_with_the_mend_that_mends_it(bag: Path) -> None:
    change(bag, "contents.1.height", "4 1/4 in")
    result = run("check", bag)
    assert result.exit_code == 1
    (mend,) = [
        line
        for line in result.output.splitlines()
        if line.startswith("  In the file: measures.height = ")
    ]
    lines = bag.read_text(encoding="utf-8").splitlines()
    number = lines.index('height = "3 3/4 in"') + 1
    assert f"line {number}, now 3 3/4 in" in mend
    change(bag, "measures.height", mend.partition(" = ")[2].partition("  (")[0])
    assert run("check", bag).exit_code == 0


def test_data_of_a_check_is_as_its_schema_says_whether_it_is_clean_or_not(bag: Path) -> None:
    schema = _schema("design.schema.json")
    clean = run("check", bag, "--json")
    assert clean.exit_code == 0
    schema.validate(json.loads(clean.output))
    assert clean.output == run("show", bag, "--json").output
    change(bag, "measures.width", "9 in")
    wrong = run("check", bag, "--json")
    assert wrong.exit_code == 1
    schema.validate(json.loads(wrong.output))


def test_a_file_that_cannot_be_used_is_told_as_data_where_data_is_asked_for(bag: Path) -> None:
    change(bag, "measures.width", "4 cubits")
    result = CliRunner().invoke(snipfold, ["check", str(bag), "--json"])
    assert result.exit_code == 2
    told = json.loads(result.stdout)
    _schema("problems.schema.json").validate(told)
    assert [problem["field"] for problem in told["problems"]] == ["measures.width"]
    assert "cubits" in result.stderr


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "empty"),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "UTF-8"),
        (b"\xff\xfe\x00", "UTF-16"),
        (b"#" * 1_000_001, "1 MB"),
        (b"style = wrap bag", "line 1"),
        (
            b'style = "wrap bag"\nunits = "inch"\n[measures]\nwidth = "0 in"\n',
            "line 4, measures.width",
        ),
        (
            b'style = "wrap bag"\nunits = "inch"\n[papers]\nbag = "gold leaf"\n',
            "line 4, papers.bag",
        ),
    ],
)
def test_a_file_that_cannot_be_used_is_told_by_name_line_and_field(
    tmp_path: Path, content: bytes, words: str
) -> None:
    path = tmp_path / "bad.toml"
    path.write_bytes(content)
    for command in ("check", "show"):
        result = run(command, path)
        assert result.exit_code == 2
        assert str(path) in result.output
        assert words in result.output


def test_a_file_that_is_not_there_is_told_with_those_that_are(bag: Path) -> None:
    result = run("check", bag.with_name("bga.toml"))
    assert result.exit_code == 2
    assert "beside it lie bag.toml" in result.output


def test_a_folder_is_no_project_file(tmp_path: Path) -> None:
    result = run("check", tmp_path)
    assert result.exit_code == 2
    assert "a folder" in result.output


# ---- the maker's workshop


def test_the_workshop_in_its_usual_place_is_used(bag: Path, tmp_path: Path) -> None:
    """A sheet that measures 11 15/16 in: http://scrappyhare.blogspot.com/2007/02/size-does-matter.html."""
    usual = tmp_path / "config/snipfold/workshop.toml"
    usual.parent.mkdir()
    usual.write_text(
        'units = "inch"\n[papers."oat cardstock 12 x 12 in"]\nmeasured = "11 15/16 x 12 in"\n'
    )
    told = json.loads(run("show", bag, "--json").output)
    oat = next(paper for paper in told["papers"] if paper["name"].startswith("oat"))
    assert oat["usable_width"]["words"] == "11 15/16 in"


def test_a_workshop_that_is_named_goes_before_the_usual_one(bag: Path, tmp_path: Path) -> None:
    usual = tmp_path / "config/snipfold/workshop.toml"
    usual.parent.mkdir()
    usual.write_text("broken")
    assert run("check", bag).exit_code == 2
    assert run("check", bag, "--workshop", ROOT / "examples/workshop.toml").exit_code == 0


def test_a_workshop_that_cannot_be_used_is_told_by_name_line_and_field(
    bag: Path, tmp_path: Path
) -> None:
    shop = tmp_path / "shop.toml"
    shop.write_text('units = "inch"\n[trimmer]\nlongest_cut = "30 furlongs"\n')
    result = run("check", bag, "--workshop", shop)
    assert result.exit_code == 2
    assert f"{shop}, line 3, trimmer.longest_cut" in result.output
    missing = run("check", bag, "--workshop", tmp_path / "none.toml")
    assert missing.exit_code == 2
    assert "no such file" in missing.output


# ---- show


def test_what_is_shown_begins_with_the_measures_and_holds_every_part(bag: Path) -> None:
    output = run("show", bag).output
    parts = ("Measures", "Pieces", "What you need", "Cut ", "Score ", "Snip ", "Tape ", "Mats ")
    places = [output.index(f"\n{part}") for part in parts]
    assert places == sorted(places)
    assert "strap" in output[places[-1] :]
    for measure in ("3 in", "1 3/4 in", "3 3/4 in"):
        assert measure in output


def test_columns_lie_under_each_other(bag: Path) -> None:
    lines = run("show", bag).output.splitlines()
    start = lines.index("Measures") + 1
    says = ["how wide", "how deep the bag", "how tall"]
    places = {line.index(words) for line, words in zip(lines[start:], says, strict=False)}
    assert len(places) == 1


def test_there_is_no_colour_where_there_is_no_terminal(bag: Path) -> None:
    change(bag, "measures.width", "9 in")
    assert "\x1b" not in run("check", bag).output


def test_no_colour_can_be_asked_for_in_a_terminal_too(
    bag: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """https://no-color.org: NO_COLOR present and not empty."""
    change(bag, "measures.width", "9 in")
    coloured = CliRunner().invoke(snipfold, ["check", str(bag)], color=True)
    assert "\x1b[" in coloured.output
    monkeypatch.setenv("NO_COLOR", "1")
    assert "\x1b" not in CliRunner().invoke(snipfold, ["check", str(bag)], color=True).output


def test_styles_are_listed_with_every_measure_and_its_limits() -> None:
    output = run("styles").output
    for words in ("wrap bag", "tray with lift-off lid", "clearance", "twice the width"):
        assert words in output


# ---- publish


def test_a_box_with_errors_is_not_published(bag: Path, tmp_path: Path) -> None:
    change(bag, "contents.1.height", "9 in")
    result = run("publish", bag, "--to", tmp_path / "out")
    assert result.exit_code == 1
    assert "Nothing was published" in result.output
    assert not (tmp_path / "out").exists()


@pytest.fixture
def printer(monkeypatch: pytest.MonkeyPatch) -> list[tuple[Design, Path, str]]:
    """Takes the place of what writes the files, and remembers what it was asked for."""
    asked: list[tuple[Design, Path, str]] = []

    def publish(design: Design, folder: Path, page: str, progress: Any) -> tuple[Path, ...]:
        progress("guide", 0, 1)
        asked.append((design, folder, page))
        if folder.name == "taken":
            raise PublishError(f"{folder}: a file is in the way")
        progress("done", 1, 1)
        return (folder / "guide.pdf",)

    monkeypatch.setattr("snipfold.publish.publish_design", publish)
    return asked


def test_what_was_published_is_listed(
    bag: Path, tmp_path: Path, printer: list[tuple[Design, Path, str]]
) -> None:
    result = run("publish", bag, "--to", tmp_path / "out")
    assert result.exit_code == 0
    assert "guide.pdf" in result.output
    ((design, folder, page),) = printer
    assert (folder, page, design.project.name) == (tmp_path / "out", "letter", "Fair bag")


def test_the_other_edition_goes_on_the_other_page_unless_told(
    bag: Path, tmp_path: Path, printer: list[tuple[Design, Path, str]]
) -> None:
    run("publish", bag, "--to", tmp_path / "a", "--edition", "metric")
    run("publish", bag, "--to", tmp_path / "b", "--edition", "metric", "--page", "letter")
    assert [page for _, _, page in printer] == ["a4", "letter"]
    assert all(design.system.value == "metric" for design, _, _ in printer)


def test_a_box_with_errors_is_published_even_so_when_asked(
    bag: Path, tmp_path: Path, printer: list[tuple[Design, Path, str]]
) -> None:
    change(bag, "contents.1.height", "9 in")
    assert run("publish", bag, "--to", tmp_path / "out", "--even-so").exit_code == 1
    assert len(printer) == 1


def test_a_folder_that_cannot_be_used_is_told(
    bag: Path, tmp_path: Path, printer: list[tuple[Design, Path, str]]
) -> None:
    result = run("publish", bag, "--to", tmp_path / "taken")
    assert result.exit_code == 2
    assert "a file is in the way" in result.output


def test_publishing_as_a_whole_process_writes_everything_or_nothing(
    bag: Path, tmp_path: Path
) -> None:
    out = tmp_path / "out"
    done = _whole("publish", str(bag), "--to", str(out))
    assert done.returncode == 0
    listed = [line.strip() for line in done.stdout.splitlines() if line.startswith("  ")]
    assert {"guide.pdf", "template.pdf", "design.json"} <= set(listed)
    assert all((out / name).stat().st_size for name in listed)
    _schema("design.schema.json").validate(json.loads((out / "design.json").read_text("utf-8")))
    before = sorted(path.name for path in tmp_path.iterdir())
    in_the_way = _whole("publish", str(bag), "--to", str(bag))
    assert in_the_way.returncode == 2
    assert str(bag) in in_the_way.stderr
    assert "Traceback" not in in_the_way.stderr
    assert sorted(path.name for path in tmp_path.iterdir()) == before


# ---- defects, help, completion


def test_a_defect_of_ours_ends_in_one_line_that_asks_to_report_it(
    bag: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*args: object) -> None:
        raise IndexError("list index out of range")

    monkeypatch.setattr("snipfold.cli.files.resolve", broken)
    result = run("check", bag)
    assert result.exit_code == 3
    assert "report" in result.output
    assert len(result.output.splitlines()) == 1


def test_a_mend_is_shown_with_the_line_that_it_changes(bag: Path) -> None:
    text = bag.read_text(encoding="utf-8")
    project = read_project(text, "bag")
    design = resolve(project, default_workshop(project.system))
    mend = Mend("mats.border", "1/16 in", "1/8 in")
    finding = Finding("x", Severity.NOTE, ("bag", "front"), "it is so", "do that", None, mend)
    lines = [
        click.unstyle(one) for one in finding_lines(replace(design, findings=(finding,)), text)
    ]
    number = next(n for n, line in enumerate(text.splitlines(), 1) if line.startswith("border"))
    assert lines == [
        "note  bag, front  [x]",
        "  It is so.",
        "  To mend it: do that.",
        f"  In the file: mats.border = 1/8 in  (line {number}, now 1/16 in)",
        "",
        "1 note.",
    ]


@pytest.mark.parametrize("command", ["styles", "new", "check", "show", "publish", "completion"])
def test_every_command_has_help_with_an_example(command: str) -> None:
    result = run(command, "--help")
    assert result.exit_code == 0
    assert f"snipfold {command}" in result.output


def test_the_help_lists_the_commands_in_the_order_of_the_work() -> None:
    output = run("--help").output
    commands = output[output.index("Commands:") :]
    places = [
        commands.index(f"\n  {name}") for name in ("styles", "new", "check", "show", "publish")
    ]
    assert places == sorted(places)


def test_the_version_is_told() -> None:
    assert run("--version").output == f"snipfold {__version__}\n"


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_completion_is_printed_for_each_shell(shell: str) -> None:
    result = run("completion", shell)
    assert result.exit_code == 0
    assert "_SNIPFOLD_COMPLETE" in result.output


def _whole(*args: str, **env: str) -> subprocess.CompletedProcess[str]:
    """The command as a whole process."""
    return subprocess.run(
        [sys.executable, "-m", "snipfold", *args],
        capture_output=True, text=True, encoding="utf-8", timeout=60, check=False,
        env={**os.environ, **env},
    )  # fmt: skip


@pytest.mark.parametrize(
    ("words", "count", "offered"),
    [
        ("snipfold ch", "1", "check"),
        ("snipfold new a.toml --style wr", "4", "wrap-bag"),
        ("snipfold new a.toml --style wrap-bag --set sl", "6", "sliver="),
    ],
)
def test_a_shell_gets_commands_styles_and_measures(words: str, count: str, offered: str) -> None:
    done = _whole(_SNIPFOLD_COMPLETE="bash_complete", COMP_WORDS=words, COMP_CWORD=count)
    assert f"plain,{offered}" in done.stdout.splitlines()


def test_a_whole_process_leaves_with_the_code_and_no_traceback(tmp_path: Path) -> None:
    bad = tmp_path / "bad.toml"
    bad.write_text('style = "wrap bag"\nunits = "inch"\n[measures]\nwidth = "½ inch wide"\n')
    for args, code in ((("check", str(bad)), 2), (("check", str(EXAMPLES[0])), 0), (("x",), 2)):
        done = _whole(*args, PYTHONIOENCODING="ascii")
        assert done.returncode == code
        assert "Traceback" not in done.stderr
