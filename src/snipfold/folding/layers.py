"""Panels that lie face to face: the order over and under, and how high the stacks are."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from shapely.geometry.base import BaseGeometry

from ..findings import Finding, Severity
from ..flat import FlatPiece
from ..measure import ZERO, Length, System, words
from ..measure.tolerance import OVERLAP_MM2
from ..styles import Construction, Layer
from .contact import coplanar, outline, overlap, pierces
from .pose import Pose
from .report import Stack


def contact_findings(
    construction: Construction,
    piece: FlatPiece,
    folded: Pose,
    skip: frozenset[str],
    system: System,
) -> tuple[Finding, ...]:
    """Panels that overlap without a declared order, or pass through each other."""
    declared = {
        frozenset((layer.inner, layer.outer))
        for layer in construction.layers
        if layer.piece == piece.name
    }
    hinged = {frozenset(score.panels) for score in piece.scores}
    found = []
    for one, other in combinations(folded.placed.values(), 2):
        pair = frozenset((one.panel, other.panel))
        if pair in declared or pair & skip:
            continue
        if coplanar(one, other):
            common = overlap(one, other)
            if common is None:
                continue
            low_x, low_y, high_x, high_y = common.bounds
            size = Length.figure(min(high_x - low_x, high_y - low_y))
            found.append(
                Finding(
                    "panels.overlap",
                    Severity.ERROR,
                    (piece.name, one.panel, other.panel),
                    f"{piece.name}: {one.panel} and {other.panel} overlap by "
                    f"{words(size, system)}, and neither is meant to lie inside the other",
                    f"shorten {one.panel} or {other.panel} by {words(size, system)}",
                    size,
                )
            )
        elif pair not in hinged:
            depth = pierces(one, other)
            if depth > 0:
                size = Length.figure(depth)
                found.append(
                    Finding(
                        "panels.cross",
                        Severity.ERROR,
                        (piece.name, one.panel, other.panel),
                        f"{piece.name}: {one.panel} runs {words(size, system)} into {other.panel}",
                        f"shorten {one.panel} or {other.panel} by {words(size, system)}",
                        size,
                    )
                )
    return tuple(found)


def order_findings(construction: Construction, piece: FlatPiece) -> tuple[Finding, ...]:
    """Circles in the order of layers, and layers that the order of assembly cannot make."""
    layers = [layer for layer in construction.layers if layer.piece == piece.name]
    if circle := _circle(layers):
        return (
            Finding(
                "layers.circle",
                Severity.ERROR,
                (piece.name, *circle),
                f"{piece.name}: {', '.join(circle)} each lie inside the next, round in a circle",
                "say again which of them lies inside",
            ),
        )
    found = []
    last = {
        panel: number
        for number, step in enumerate(construction.steps)
        if step.piece == piece.name
        for turn in step.turns
        for panel in _carried(construction, piece, turn.panels)
    }
    for layer in layers:
        inner, outer = last.get(layer.inner, -1), last.get(layer.outer, -1)
        if inner > outer and not layer.slid:
            found.append(
                Finding(
                    "layers.order",
                    Severity.ERROR,
                    (piece.name, layer.inner, layer.outer),
                    f"{piece.name}: the {layer.inner} lies inside the {layer.outer}, but is folded "
                    "after it",
                    f"fold the {layer.inner} before the {layer.outer}",
                )
            )
    return tuple(found)


def _carried(construction: Construction, piece: FlatPiece, hinge: tuple[str, str]) -> Iterator[str]:
    """The panels that a turn about one score carries: those cut off from the standing panel."""
    stands = construction.stand(piece.name).panel
    reached, waiting = {stands}, [stands]
    for panel in waiting:
        for score in piece.scores:
            if panel in score.panels and not score.joins(*hinge):
                for neighbour in score.panels:
                    if neighbour not in reached:
                        reached.add(neighbour)
                        waiting.append(neighbour)
    return (panel.name for panel in piece.panels if panel.name not in reached)


def _circle(layers: list[Layer]) -> tuple[str, ...]:
    outside: dict[str, list[str]] = {}
    for layer in layers:
        outside.setdefault(layer.inner, []).append(layer.outer)
    done: set[str] = set()

    def walk(panel: str, path: tuple[str, ...]) -> tuple[str, ...]:
        if panel in path:
            return path[path.index(panel) :]
        if panel not in done:
            for beyond in outside.get(panel, ()):
                if found := walk(beyond, (*path, panel)):
                    return found
            done.add(panel)
        return ()

    for panel in sorted(outside):
        if found := walk(panel, ()):
            return found
    return ()


def stack_on(
    construction: Construction,
    piece: FlatPiece,
    folded: Pose,
    wall: str,
    paper: Length,
    adhesive: Length,
) -> Stack:
    """The highest stack of panels inside `wall`: what they add to it, adhesive between them.

    `height` is the paper and adhesive inside the wall itself, 0 where nothing lies there.
    """
    layers = {
        (layer.inner, layer.outer) for layer in construction.layers if layer.piece == piece.name
    }
    glued = {frozenset((glue.panel, glue.mate)) for glue in piece.glue}
    seen_in = folded.placed[wall]
    inner = [
        name for name, beyond in layers if beyond == wall and coplanar(seen_in, folded.placed[name])
    ]
    inner.sort(key=lambda name: (sum((name, other) in layers for other in inner), name))
    outlines = {name: outline(folded.placed[name], seen_in) for name in inner}

    def highest(
        common: BaseGeometry, under: str, left: list[str]
    ) -> tuple[Length, tuple[str, ...]]:
        best: tuple[Length, tuple[str, ...]] = (ZERO, ())
        for index, name in enumerate(left):
            rest = common.intersection(outlines[name])
            if rest.area <= OVERLAP_MM2:
                continue
            between = adhesive if frozenset((name, under)) in glued else ZERO
            above, names = highest(rest, name, left[index + 1 :])
            height = paper + between + above
            if height > best[0]:
                best = height, (name, *names)
        return best

    height, names = highest(outline(seen_in, seen_in), wall, inner)
    return Stack(piece.name, (wall, *names), height)
