"""The commands for orders and series, as a maker uses them."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import jsonschema
import pytest
from click.testing import CliRunner, Result

from snipfold.cli.commands import snipfold
from snipfold.project import edit_field

from ..orders.stand_in import strips_planner

ROOT = Path(__file__).parent.parent.parent
SHOP = """\
units = "inch"
currency = "$"

[papers."oat cardstock 12 x 12 in"]
price = "5.50"     # at the corner shop
pack = 25
on_hand = 7

[[offcuts]]
paper = "oat cardstock 12 x 12 in"
size = "3 x 12 in"
count = 4
"""


@pytest.fixture(autouse=True)
def _nobodys_workshop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "config").mkdir()
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.delenv("SNIPFOLD_DEBUG", raising=False)
    monkeypatch.setattr("snipfold.orders.take._planner", lambda: strips_planner)


@pytest.fixture
def bag(tmp_path: Path) -> Path:
    return Path(shutil.copy(ROOT / "examples/fair-bag.toml", tmp_path / "bag.toml"))


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    path = tmp_path / "workshop.toml"
    path.write_text(SHOP, encoding="utf-8")
    return path


def run(*args: object) -> Result:
    result = CliRunner().invoke(snipfold, [str(arg) for arg in args])
    assert "Traceback" not in result.output
    assert "defect" not in result.output
    return result


def validator() -> Any:
    text = (ROOT / "docs/schema/order.schema.json").read_text(encoding="utf-8")
    schema = json.loads(text)
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


def data(result: Result) -> Any:
    return json.loads(result.stdout)


# ---- what is printed


def test_an_order_says_what_to_buy_cut_pack_and_charge(bag: Path, shop: Path) -> None:
    result = run("order", bag, "--sets", 24, "--spare", "10%", "--workshop", shop)
    assert result.exit_code == 0
    for heading in ("Sheets", "Cut oat cardstock", "Buy", "Fair bag: 24 sets, with 3 to spare",
                    "Time before making up", "Cost, from your own prices", "Take care"):  # fmt: skip
        assert heading in result.stdout
    assert "10 × 5 1/2 in" in result.stdout
    assert "4 × offcut 3 × 12 in of oat cardstock 12 x 12 in first" in result.stdout
    assert "1 pack of 25" in result.stdout
    assert "your margin" in result.stdout


def test_the_same_order_as_data_holds_to_its_schema(bag: Path, shop: Path) -> None:
    result = run(
        "order", bag, ROOT / "examples/fudge-tray.toml", "--sets", 24, "--sets", 12, "--class", 12,
        "--tables", 3, "--trade", "--workshop", shop, "--json",
    )  # fmt: skip
    assert result.exit_code == 0
    order = data(result)
    validator().validate(order)
    assert [kit["sets"] for kit in order["kits"]] == [24, 12]
    assert [row["prefer"] for row in order["trade"]] == [
        "fewest sheets", "fewest trimmer settings", "largest usable offcut",
    ]  # fmt: skip
    assert order["class"]["makers"] == 12
    copies = {part["name"]: part["copies"] for plan in order["papers"] for part in plan["parts"]}
    assert copies["Fair bag: bag"] == order["kits"][0]["made"]


def test_a_field_that_the_schema_does_not_know_is_noticed(bag: Path) -> None:
    order = data(run("order", bag, "--sets", 2, "--json"))
    checks = validator()
    checks.validate(order)
    order["kits"][0]["colour"] = "red"
    assert not checks.is_valid(order)


def test_the_same_order_gives_the_same_bytes(bag: Path) -> None:
    first, second = (run("order", bag, "--sets", 9, "--json").stdout for _ in range(2))
    assert first == second


def test_everything_is_written_into_a_folder_at_once(bag: Path, tmp_path: Path) -> None:
    folder = tmp_path / "made"
    result = run("order", bag, "--sets", 3, "--to", folder)
    assert result.exit_code == 0
    names = {path.name for path in folder.iterdir()}
    assert {"order.txt", "order.json", "packing.txt", "labels.txt"} <= names
    pictures = [ElementTree.parse(path).getroot() for path in folder.glob("*.svg")]
    assert len(pictures) == sum(
        len(plan["patterns"])
        for plan in json.loads((folder / "order.json").read_text("utf-8"))["papers"]
    )
    assert all(picture.get("width", "").endswith("mm") for picture in pictures)
    assert "Print 3:" in (folder / "labels.txt").read_text(encoding="utf-8")
    assert "[ ] 1 bag, 10 × 5 1/2 in" in (folder / "packing.txt").read_text(encoding="utf-8")
    assert json.loads((folder / "order.json").read_text(encoding="utf-8")) == data(
        run("order", bag, "--sets", 3, "--json")
    )


def test_a_folder_with_something_of_yours_in_it_is_left_alone(bag: Path, tmp_path: Path) -> None:
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "letter.txt").write_text("dear", encoding="utf-8")
    result = run("order", bag, "--sets", 3, "--to", tmp_path / "full")
    assert result.exit_code == 2
    assert [path.name for path in (tmp_path / "full").iterdir()] == ["letter.txt"]


# ---- stock


def test_stock_is_deducted_only_when_asked_and_remarks_stay(bag: Path, shop: Path) -> None:
    run("order", bag, "--sets", 10, "--workshop", shop)
    assert shop.read_text(encoding="utf-8") == SHOP
    result = run("order", bag, "--sets", 10, "--workshop", shop, "--deduct")
    assert result.exit_code == 0
    text = shop.read_text(encoding="utf-8")
    assert "# at the corner shop" in text
    assert "now says" in result.stderr
    # 4 straps come from offcuts, so 5 sheets of two bags: 2 of the 7 are left.
    assert "on_hand = 2" in text


def test_stock_without_a_file_to_write_it_to_is_refused(bag: Path) -> None:
    result = run("order", bag, "--sets", 10, "--deduct")
    assert result.exit_code == 2
    assert "--workshop" in result.stderr


# ---- what cannot be done


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (["--sets", "0"], "ask for at least 1 set"),
        (["--sets", "-4"], "less than none"),
        (["--sets", "1000000"], "100000 or fewer"),
        ([], "--sets: missing"),
        (["--sets", "3", "--sets", "4"], "once for all, or once for each"),
        (["--sets", "3", "--spare", "400%"], "at most 100%"),
        (["--sets", "3", "--spare", "-1%"], "less than nothing"),
        (["--sets", "3", "--spare", "some"], "10%"),
        (["--class", "0"], "at least 1 set"),
        (["--class", "4", "--tables", "9"], "tables"),
        (["--sets", "3", "--tables", "2"], "--class"),
        (["--sets", "3", "--prefer", "speed"], "sheets"),
        (["--sets", "3", "--seconds", "0"], "--seconds"),
    ],
)
def test_what_nobody_can_order_is_refused_with_the_mend(
    bag: Path, options: list[str], words: str
) -> None:
    result = run("order", bag, *options)
    assert result.exit_code == 2
    assert words in result.stderr
    assert result.stdout == ""


def test_a_paper_that_is_not_in_the_workshop_is_named_by_line(bag: Path) -> None:
    text = bag.read_text(encoding="utf-8")
    bag.write_text(edit_field(text, "papers.bag", "oak cardstock"), encoding="utf-8")
    result = run("order", bag, "--sets", 3)
    assert result.exit_code == 2
    assert "papers.bag: “oak cardstock”: no such paper in the workshop" in result.stderr


def test_a_negative_price_is_named_by_line(bag: Path, shop: Path) -> None:
    shop.write_text(SHOP.replace('"5.50"', '"-5.50"'), encoding="utf-8")
    result = run("order", bag, "--sets", 3, "--workshop", shop)
    assert result.exit_code == 2
    assert "line 5" in result.stderr
    assert "less than nothing" in result.stderr


def test_a_box_with_errors_is_not_ordered_unless_asked(bag: Path) -> None:
    text = bag.read_text(encoding="utf-8")
    bag.write_text(edit_field(text, "contents.1.height", "9 in"), encoding="utf-8")
    if run("check", bag).exit_code == 0:
        bag.write_text(edit_field(text, "contents.1.width", "9 in"), encoding="utf-8")
    refused = run("order", bag, "--sets", 3)
    assert refused.exit_code == 1
    assert refused.stdout == ""
    assert "snipfold check" in refused.stderr
    made = run("order", bag, "--sets", 3, "--even-so")
    assert made.exit_code == 1
    assert "Sheets" in made.stdout


def test_a_paper_that_runs_out_leaves_with_1_and_says_what_is_missing(
    bag: Path, shop: Path
) -> None:
    shop.write_text(SHOP.replace("on_hand = 7", "on_hand = 3\ndiscontinued = true"), "utf-8")
    result = run("order", bag, "--sets", 24, "--workshop", shop)
    assert result.exit_code == 1
    assert "no more to be had" in result.stdout
    assert "cannot be cut" in result.stdout


# ---- series

SERIES = ROOT / "examples/series/hazel-row-autumn.toml"


def test_the_example_series_is_bought_once_and_has_a_calendar(tmp_path: Path) -> None:
    folder = tmp_path / "autumn"
    result = run("series", SERIES, "--to", folder)
    assert result.exit_code == 0
    assert "2026-10-03  class" in result.stdout
    assert "Saved by buying once" in result.stdout
    assert (folder / "calendar.ics").read_bytes().startswith(b"BEGIN:VCALENDAR\r\n")
    validator().validate(json.loads((folder / "series.json").read_text(encoding="utf-8")))


def test_a_series_as_data_is_what_it_writes(tmp_path: Path) -> None:
    series = data(run("series", SERIES, "--json"))
    validator().validate(series)
    assert [project["sets"] for project in series["projects"]] == [24, 12, 8]
    whole = {line["name"]: line["packs"] for line in series["whole"]["shopping"]["papers"]}
    for saving in series["savings"]:
        if saving["name"] in whole:
            assert saving["together"] == whole[saving["name"]] < saving["apart"]


def test_a_series_file_with_slips_names_them_all(tmp_path: Path) -> None:
    path = tmp_path / "autumn.toml"
    path.write_text('[[projects]]\nfile = "bag.toml"\nsets = 0\nmake = 7\n', encoding="utf-8")
    result = run("series", path)
    assert result.exit_code == 2
    assert "line 3, projects.1.sets" in result.stderr
    assert "line 4, projects.1.make" in result.stderr
    told = data(run("series", path, "--json"))
    assert told["format"] == "snipfold problems"


def test_a_project_that_is_not_there_is_named(tmp_path: Path) -> None:
    path = tmp_path / "autumn.toml"
    path.write_text('[[projects]]\nfile = "gone.toml"\nsets = 2\n', encoding="utf-8")
    result = run("series", path)
    assert result.exit_code == 2
    assert "gone.toml: no such file" in result.stderr
