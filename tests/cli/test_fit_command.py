"""`snipfold fit`: what it prints, writes, and refuses."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import jsonschema
import pytest
from click.testing import CliRunner, Result

from snipfold.cli.commands import snipfold

ROOT = Path(__file__).parent.parent.parent
SCHEMA = json.loads((ROOT / "docs/schema/fit.schema.json").read_text(encoding="utf-8"))
BAR = "2 1/2 x 1 3/8 x 2 1/2 in"
TWO = ("--style", "wrap-bag", "--style", "tray-with-lift-off-lid")


@pytest.fixture(autouse=True)
def _nobodys_workshop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "config").mkdir()
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.delenv("SNIPFOLD_DEBUG", raising=False)


def run(*args: object) -> Result:
    result = CliRunner().invoke(snipfold, [str(arg) for arg in args])
    assert "Traceback" not in result.output
    assert "defect" not in result.output
    return result


def data_of(result: Result) -> Any:
    assert result.exit_code == 0
    data = json.loads(result.stdout)
    jsonschema.Draft202012Validator(SCHEMA).validate(data)
    return data


def test_the_table_names_size_yield_waste_and_the_next_command() -> None:
    result = run("fit", "--treat", BAR, *TWO)
    assert result.exit_code == 0
    assert "one of 2 1/2 × 1 3/8 × 2 1/2 in" in result.output
    assert "2 sets" in result.output
    assert "%" in result.output
    assert "snipfold new box.toml --style wrap-bag --set width=" in result.output


def test_the_next_command_makes_a_project_that_checks(tmp_path: Path) -> None:
    import shlex

    output = run("fit", "--treat", BAR, *TWO).output
    (line,) = [line for line in output.splitlines() if "To go on:" in line]
    words = shlex.split(line.partition("snipfold new box.toml")[2])
    path = tmp_path / "box.toml"
    assert run("new", path, *words).exit_code == 0
    assert run("check", path).exit_code == 0


def test_the_data_follow_the_schema_and_hold_the_treats() -> None:
    data = data_of(run("fit", "--treat", "round 2 x 1/2 in", "--count", 4, *TWO, "--json"))
    assert data["contents"] == "4 round, 2 across and 1/2 in tall"
    assert len(data["candidates"]) == 2
    for one in data["candidates"]:
        for side in ("width", "depth"):
            needed = one["arrangement"][side]["mm"] + 2 * data["allowance"]["mm"]
            assert one["clear"][side]["mm"] >= needed


def test_a_metric_fit_speaks_in_centimetres() -> None:
    result = run("fit", "--treat", "60 x 40 x 20 mm", "--units", "metric", *TWO)
    assert " cm" in result.output
    assert not re.search(r"\d in\b", result.output)


def test_the_folder_holds_a_contact_sheet_and_projects_without_errors(tmp_path: Path) -> None:
    folder = tmp_path / "sizes"
    result = run("fit", "--treat", "ball 1 1/4 in", "--count", 3, *TWO, "--to", folder)
    assert result.exit_code == 0
    sheet = ElementTree.fromstring((folder / "contact-sheet.svg").read_text(encoding="utf-8"))
    words = "".join(sheet.itertext())
    assert "wrap bag" in words
    assert "tray with lift-off lid" in words
    assert "sets a sheet" in words
    projects = sorted(folder.glob("*.toml"))
    assert len(projects) == 2
    for path in projects:
        assert path.with_suffix(".svg").is_file()
        assert run("check", path).exit_code == 0
    jsonschema.validate(json.loads((folder / "fit.json").read_text(encoding="utf-8")), SCHEMA)
    # Fitted again, the folder is replaced.
    assert run("fit", "--treat", "ball 1 in", *TWO, "--to", folder).exit_code == 0


def test_a_folder_of_the_makers_own_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine")
    result = run("fit", "--treat", BAR, "--style", "wrap-bag", "--to", tmp_path)
    assert result.exit_code == 2
    assert (tmp_path / "mine.txt").read_text() == "mine"


def test_without_a_treat_it_shows_where_the_sheet_gives_one_more() -> None:
    result = run("fit", "--style", "wrap-bag", "--set", "width=4 in", "--set", "depth=1 in")
    assert result.exit_code == 0
    lines = [" ".join(line.split()) for line in result.output.splitlines()]
    for line in ("up to 11 in 1 set", "up to 5 in 2 sets", "up to 3 in 3 sets"):
        assert line in lines
    data = data_of(
        run("fit", "--style", "wrap-bag", "--vary", "height", "--set", "width=4 in", "--json")
    )
    assert data["varies"] == "height"
    assert data["most_room"] is None


def test_the_most_room_from_a_sheet_is_found(tmp_path: Path) -> None:
    data = data_of(
        run("fit", "--style", "straight tuck carton", "--sheet", "dotted pad 6 x 6 in",
            "--most-room", 1, "--json")
    )  # fmt: skip
    most = data["most_room"]
    assert most["proven"]
    assert most["yield"]["sets_per_sheet"] >= 1


@pytest.mark.parametrize(
    ("options", "says"),
    [
        ([], "nothing to go by"),
        (["--treat", "2 x 3"], "not a treat"),
        (["--treat", "2 x 3 x 0 in"], "leaves nothing"),
        (["--treat", "nan x 1 x 1 in"], "not a measure"),
        (["--treat", BAR, "--count", "0"], "1 to 200"),
        (["--treat", BAR, "--count", "2", "--count", "3"], "said 2 times for 1 treats"),
        (["--treat", BAR, "--arrange", "sideways"], "no arrangement"),
        (["--treat", BAR, "--count", "9", "--arrange", "2 x 2 x 2"], "cannot be arranged"),
        (["--treat", "loose 250 ml", "--count", "2"], "loose treats go alone"),
        (["--treat", "loose 2 cups"], "cups differ"),
        (["--treat", BAR, "--allowance", "-1 in"], "less than nothing"),
        (["--treat", BAR, "--allowance", "1 ft"], "feet are not used"),
        (["--treat", BAR, "--sheet", "oat cardstok Letter"], "did you mean “oat cardstock Letter”"),
        (["--treat", BAR, "--style", "warp bag"], "did you mean “wrap bag”"),
        (["--treat", BAR, "--vary", "height"], "goes without a treat"),
        (["--style", "wrap bag", "--vary", "hight"], "did you mean “height”"),
        (["--style", "wrap bag", "--count", "3"], "goes with a treat"),
        (["--style", "wrap bag", "--set", "width"], "write it like"),
        (["--style", "belly band", "--most-room", "1"], "holds no block"),
    ],
)
def test_bad_options_are_told_in_words(options: list[str], says: str) -> None:
    result = run("fit", *options)
    assert result.exit_code == 2
    assert says in result.output


def test_what_nothing_holds_is_said(tmp_path: Path) -> None:
    result = run("fit", "--treat", "11 x 11 x 11 in", *TWO, "--to", tmp_path / "none")
    assert result.exit_code == 0
    assert "Nothing holds it." in result.output
    assert not (tmp_path / "none").exists()
