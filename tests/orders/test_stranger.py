"""An order checked from its JSON alone, with nothing of the program but the text."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import pytest

from snipfold.orders import Wanted, order_of
from snipfold.publish.order_json import order_json

from .samples import OAT, bag, shop, tray, with_paper
from .stand_in import strips_planner


def exact(length: Any) -> Fraction:
    return Fraction(length["exact"])


def leaves(node: Any) -> Iterator[Any]:
    """Leaves of a tree, every cut made again: it must part its region in two."""
    if node["kind"] != "cut":
        yield node
        return
    region, at = node["region"], exact(node["at"])
    x, y, w, h = (exact(region[key]) for key in ("x", "y", "width", "height"))
    if node["axis"] == "across":
        wanted = [(x, y, at, h), (x + at, y, w - at, h)]
    else:
        wanted = [(x, y, w, at), (x, y + at, w, h - at)]
    for side, place in zip(("first", "rest"), wanted, strict=True):
        child = node[side]["region"]
        assert tuple(exact(child[key]) for key in ("x", "y", "width", "height")) == place
        assert min(place[2:]) > 0
        yield from leaves(node[side])


@pytest.mark.parametrize("sets", [1, 7, 24])
def test_a_stranger_finds_every_part_every_sheet_and_every_cent(sets: int) -> None:
    workshop = with_paper(shop(), OAT, on_hand=3)
    order = order_of(
        [Wanted(bag(), sets, 1), Wanted(tray(), sets)], workshop, planner=strips_planner
    )
    told = json.loads(order_json(order))
    packs = {line["name"]: line for line in told["shopping"]["papers"]}
    kits = Counter[str]()
    for kit in told["kits"]:
        for part in kit["parts"]:
            kits[part["part"]] += part["count"] * kit["made"]
    for plan in told["papers"]:
        sizes = {p["name"]: (exact(p["width"]), exact(p["height"])) for p in plan["parts"]}
        given, sheets = Counter[str](), Counter[int]()
        for pattern in plan["patterns"]:
            sheets[pattern["source"]] += pattern["times"]
            source = plan["sources"][pattern["source"]]
            assert exact(pattern["tree"]["region"]["width"]) <= exact(source["width"])
            assert exact(pattern["tree"]["region"]["height"]) <= exact(source["height"])
            for leaf in leaves(pattern["tree"]):
                if leaf["kind"] == "part":
                    given[leaf["part"]] += pattern["times"]
                    size = (exact(leaf["region"]["width"]), exact(leaf["region"]["height"]))
                    assert size == sizes[leaf["part"]][:: -1 if leaf["turned"] else 1]
        assert given == {name: kits[name] for name in sizes}
        assert [source["used"] for source in plan["sources"]] == [
            sheets[number] for number in range(len(plan["sources"]))
        ]
        assert packs[plan["paper"]]["need"] == plan["sheets"]
        assert Fraction(plan["cost"]) - Fraction(plan["cost_bound"]) == Fraction(plan["gap"])
    for line in packs.values():
        assert line["on_hand"] + line["packs"] * line["pack"] - line["need"] == line["left"] >= 0
    shares = sum(Fraction(kit["cost"]["material"]["exact"]) for kit in told["kits"])
    assert shares == Fraction(told["cost"]["material"]["exact"])
    lines = [line for goods in told["shopping"].values() for line in goods]
    spent = [Fraction(line["spend"]["exact"]) for line in lines if line["spend"] is not None]
    assert sum(spent) == Fraction(told["cost"]["to_pay"]["exact"])
