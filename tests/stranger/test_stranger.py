"""The published data is enough for a stranger to check a design, and to see when it is wrong."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from snipfold.findings import has_errors
from snipfold.measure import Length, System
from snipfold.project import new_project_text, read_project, resolve
from snipfold.publish.design_json import design_json
from snipfold.styles import STYLES, Given, Style
from snipfold.workshop import default_workshop

from .stranger import complaints

ROOT = Path(__file__).parent.parent.parent
EXAMPLES = sorted(
    path for path in (ROOT / "examples").glob("*.toml") if path.name != "workshop.toml"
)
SCHEMA = json.loads((ROOT / "docs/schema/design.schema.json").read_text(encoding="utf-8"))
SCHEMAS = jsonschema.Draft202012Validator(SCHEMA)

Json = dict[str, Any]


def published(text: str) -> Json:
    project = read_project(text, "file")
    read: Json = json.loads(design_json(resolve(project, default_workshop(project.system))))
    return read


def new(style: Style, system: System) -> str:
    return new_project_text(style, system)


CASES = [
    *(pytest.param(path.read_text(encoding="utf-8"), id=path.stem) for path in EXAMPLES),
    *(
        pytest.param(new(style, system), id=f"{style.name}, {system.value}")
        for style in STYLES
        for system in System
    ),
]


@pytest.mark.parametrize("text", CASES)
def test_a_stranger_finds_nothing_wrong_with_what_is_published(text: str) -> None:
    assert complaints(published(text)) == []


@pytest.mark.parametrize("text", CASES)
def test_what_is_published_is_as_its_schema_says(text: str) -> None:
    SCHEMAS.validate(published(text))


def test_the_schema_itself_follows_the_draft() -> None:
    """JSON Schema, draft 2020-12 (https://json-schema.org/draft/2020-12/schema)."""
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


#: Sizes that are drawn, in sixteenths of an inch; other measures are the style's own.
SIXTEENTHS = {"width": (20, 80), "depth": (12, 60), "height": (12, 80), "side": (14, 40)}


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(STYLES), st.data())
def test_a_stranger_agrees_about_designs_without_errors(style: Style, data: st.DataObject) -> None:
    measures: dict[str, Length] = {}
    given_ = Given(System.INCH, Length.inch("1/4"))
    for measure in style.measures:
        least, most = measure.least(measures, given_), measure.most(measures, given_)
        low, high = SIXTEENTHS.get(measure.name, (0, 0))
        drawn = Length.inch(data.draw(st.integers(low, high), label=measure.name)) / 16
        usual = measure.default(measures, given_)
        measures[measure.name] = min(max(drawn, least), most) if high else usual
    text = new_project_text(style, System.INCH, measures)
    design = resolve(read_project(text, "file"), default_workshop(System.INCH))
    read = json.loads(design_json(design))
    SCHEMAS.validate(read)
    if not has_errors(design.findings):
        assert complaints(read) == []


def test_a_design_with_errors_is_published_as_its_schema_says_too() -> None:
    text = new(STYLES[0], System.INCH).replace('width = "3 3/4 in"', 'width = "14 in"')
    assert "14 in" in text
    read = published(text)
    SCHEMAS.validate(read)
    assert any(finding["severity"] == "error" for finding in read["findings"])


def _first(design: Json, kind: str) -> Json:
    item: Json = design["pieces"][0][kind][0]
    return item


def _move(points: list[list[float]], x: float, y: float) -> None:
    for point in points:
        point[0] += x
        point[1] += y


def _score_off(design: Json) -> None:
    score = design["pieces"][0]["scores"][1]
    _move([score["start"], score["end"]], 3.175, 0)


def _fold_reversed(design: Json) -> None:
    score = design["pieces"][0]["scores"][1]
    score["fold"] = "valley" if score["fold"] == "mountain" else "mountain"


def _wall_short(design: Json) -> None:
    _move(_first(design, "panels")["polygon"][:1], 0.5, 0)


def _glue_on_the_wrong_face(design: Json) -> None:
    _first(design, "glue")["face"] = "inside"


def _glue_off(design: Json) -> None:
    _move(_first(design, "glue")["polygon"], 0, 10)


def _layer_forgotten(design: Json) -> None:
    design["pieces"][0]["layers"].pop()


def _mat_too_large(design: Json) -> None:
    _move(design["mats"][0]["polygon"][1:3], 2, 0)


def _cut_elsewhere(design: Json) -> None:
    tree = design["cutting"][0]["sheets"][0]["tree"]
    tree["at"] = {"mm": 25.4, "exact": "127/5", "words": "1 in"}


def _strap_short(design: Json) -> None:
    free = design["strap"]["free"]
    free["mm"], free["exact"] = 100.0, "100"


def _position_wrong(design: Json) -> None:
    line = design["pieces"][0]["scoring"]["passes"][0]["lines"][0]
    line["position"] = {"mm": 30.0, "exact": "30", "words": "3 cm"}


def _score_forgotten(design: Json) -> None:
    design["pieces"][0]["scoring"]["passes"][0]["lines"].pop()


def _treat_too_tall(design: Json) -> None:
    height = design["contents"][0]["height"]
    height["mm"], height["exact"] = 400.0, "400"


@pytest.mark.parametrize(
    "damage",
    [
        _score_off,
        _fold_reversed,
        _wall_short,
        _glue_on_the_wrong_face,
        _glue_off,
        _layer_forgotten,
        _mat_too_large,
        _cut_elsewhere,
        _strap_short,
        _position_wrong,
        _score_forgotten,
        _treat_too_tall,
    ],
)
def test_a_stranger_notices_what_is_wrong(damage: Any) -> None:
    design = published((ROOT / "examples/fair-bag.toml").read_text(encoding="utf-8"))
    damaged = copy.deepcopy(design)
    damage(damaged)
    assert complaints(design) == []
    assert complaints(damaged)


def test_the_stranger_shares_no_code_with_us() -> None:
    text = (Path(__file__).parent / "stranger.py").read_text(encoding="utf-8")
    assert "snipfold" not in text.replace("docs/schema/README.md", "")
