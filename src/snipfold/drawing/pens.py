"""`Pen`: what a drawing is drawn onto; every output format is one pen."""

from __future__ import annotations

from typing import Protocol

from .inks import Ink

_XY = tuple[float, float]


class Pen(Protocol):
    """Something to draw onto. All places are millimetres, x to the right, y up."""

    def begin(self, name: str, width_mm: float, height_mm: float, alt: str) -> None:
        """Start a drawing of this size."""

    def layer(self, name: str) -> None:
        """Start a layer; what follows lies in it."""

    def stroke(self, points: tuple[_XY, ...], ink: Ink, closed: bool) -> None:
        """Draw a polyline."""

    def fill(self, rings: tuple[tuple[_XY, ...], ...], colour: str) -> None:
        """Fill a polygon: its outer ring, then its holes."""

    def text(
        self,
        at: _XY,
        says: str,
        size_pt: float,
        anchor: str,
        weight: int,
        degrees: float,
        colour: str,
    ) -> None:
        """Set a text: `anchor` is "start", "middle" or "end"."""

    def end(self) -> None:
        """Finish the drawing."""


class RecordingPen:
    """A pen that writes down its calls, as tuples that start with the name of the call."""

    def __init__(self) -> None:
        self.calls: list[tuple[object, ...]] = []

    def begin(self, name: str, width_mm: float, height_mm: float, alt: str) -> None:
        """Note the start."""
        self.calls.append(("begin", name, width_mm, height_mm, alt))

    def layer(self, name: str) -> None:
        """Note a layer."""
        self.calls.append(("layer", name))

    def stroke(self, points: tuple[_XY, ...], ink: Ink, closed: bool) -> None:
        """Note a polyline."""
        self.calls.append(("stroke", points, ink.key, closed))

    def fill(self, rings: tuple[tuple[_XY, ...], ...], colour: str) -> None:
        """Note a filled polygon."""
        self.calls.append(("fill", rings, colour))

    def text(
        self,
        at: _XY,
        says: str,
        size_pt: float,
        anchor: str,
        weight: int,
        degrees: float,
        colour: str,
    ) -> None:
        """Note a text."""
        self.calls.append(("text", at, says, size_pt, anchor, weight, degrees, colour))

    def end(self) -> None:
        """Note the end."""
        self.calls.append(("end",))
