"""What the JSON files share: lengths, and cuts, as plain data."""

from __future__ import annotations

from typing import Any

from ..cutting.plan import Cut, CutStep, Got, Node, Region
from ..measure import Length, System, words

Json = dict[str, Any]


def length_data(length: Length, system: System) -> Json:
    """A length as a number of mm, as an exact fraction of mm, and in words."""
    return {
        "mm": length.float_mm,
        "exact": str(length.as_mm),
        "words": words(length, system),
    }


def region_data(region: Region, system: System) -> Json:
    """A rectangle of a sheet: its lower left corner and its size."""
    sides = ("x", "y", "width", "height")
    return {side: length_data(getattr(region, side), system) for side in sides}


def node_data(node: Node, system: System) -> Json:
    """A tree of cuts."""
    region = region_data(node.region, system)
    if isinstance(node, Cut):
        return {
            "kind": "cut",
            "region": region,
            "axis": node.axis.value,
            "at": length_data(node.at, system),
            "first": node_data(node.first, system),
            "rest": node_data(node.rest, system),
        }
    if isinstance(node, Got):
        return {"kind": "part", "region": region, "part": node.part, "turned": node.turned}
    return {"kind": "offcut", "region": region}


def cut_step_data(step: CutStep, system: System) -> Json:
    """What is cut at one setting of the trimmer."""
    return {
        "setting": length_data(step.setting, system),
        "axis": step.axis.value,
        "pieces": [region_data(region, system) for region in step.pieces],
        "gives": list(step.gives),
    }
