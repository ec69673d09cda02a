"""An independent reader of SVG: real millimetres, by the document's own width and view box."""

import re
import xml.etree.ElementTree as ET
from dataclasses import dataclass

_MM = {"mm": 1.0, "cm": 10.0, "in": 25.4, "pt": 25.4 / 72, "px": 25.4 / 96}
NAMESPACE = "{http://www.w3.org/2000/svg}"


@dataclass
class Path:
    """A path of straight lines: its layer, its subpaths in mm, y up, and its attributes."""

    layer: str
    subpaths: list[list[tuple[float, float]]]
    closed: bool
    attributes: dict[str, str]


def _length_mm(text: str) -> float:
    match = re.fullmatch(r"([\d.]+)(mm|cm|in|pt|px)", text)
    assert match is not None, text
    return float(match[1]) * _MM[match[2]]


def size_mm(text: str) -> tuple[float, float]:
    """The size of the document, mm."""
    root = ET.fromstring(text)
    return _length_mm(root.attrib["width"]), _length_mm(root.attrib["height"])


def paths(text: str) -> list[Path]:
    """Every path, in real mm."""
    root = ET.fromstring(text)
    width, height = size_mm(text)
    x0, y0, wide, high = map(float, root.attrib["viewBox"].split())
    found = []
    for group in root.iter(NAMESPACE + "g"):
        for element in group.findall(NAMESPACE + "path"):
            subpaths = []
            for part in re.findall(r"M([^MZ]+)", element.attrib["d"]):
                numbers = [float(n) for n in re.findall(r"-?[\d.]+(?:e-?\d+)?", part)]
                subpaths.append(
                    [
                        ((x - x0) * width / wide, height - (y - y0) * height / high)
                        for x, y in zip(numbers[::2], numbers[1::2], strict=True)
                    ]
                )
            closed = element.attrib["d"].rstrip().endswith("Z")
            found.append(Path(group.attrib["data-layer"], subpaths, closed, dict(element.attrib)))
    return found


def texts(text: str) -> list[str]:
    """What every text says, its runs joined."""
    root = ET.fromstring(text)
    return [
        "".join(element.itertext()).replace(" ", " ") for element in root.iter(NAMESPACE + "text")
    ]
