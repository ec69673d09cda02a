"""`Blank`: how a style builds a flat piece."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import pairwise
from math import lcm

from ..measure import Length
from .piece import Edge, EdgeKind, Face, FlatPiece, Fold, GlueArea, Panel, Point, Role, Score, Snip

Corner = tuple[Length, Length]


class FlatError(ValueError):
    """A style has described a piece that is no piece: panels overlap, leave a hole or do not meet."""


def _points(corners: Iterable[Corner]) -> tuple[Point, ...]:
    return tuple(Point(x.as_mm, y.as_mm) for x, y in corners)


class Blank:
    """A rectangle of cardstock, on which a style lays panels, snips and scores.

    Every part of the rectangle belongs to a panel or is snipped away. `build` checks that and
    works out the edges; scores and slits are named by the two panels that they part.
    """

    def __init__(self, name: str, width: Length, height: Length) -> None:
        self.name = name
        self.width = width
        self.height = height
        self._panels: list[Panel] = []
        self._snips: list[Snip] = []
        self._scores: dict[frozenset[str], tuple[Fold, float, str]] = {}
        self._slits: dict[frozenset[str], str] = {}
        self._short_slits: list[tuple[frozenset[str], str, tuple[Point, Point]]] = []
        self._glue: list[GlueArea] = []

    def panel(self, name: str, role: Role, *corners: Corner) -> None:
        """Lay a panel: its corners anticlockwise, seen from the outside."""
        self._panels.append(Panel(name, role, _points(corners)))

    def snip(self, name: str, *corners: Corner) -> None:
        """Take a corner or sliver away: its corners anticlockwise."""
        self._snips.append(Snip(name, _points(corners)))

    def score(
        self,
        one: str,
        other: str,
        fold: Fold = Fold.MOUNTAIN,
        degrees: float = 90,
        *,
        said_in: str = "",
    ) -> None:
        """Score the edge between two panels.

        `said_in` is the field of the project file that says where that edge lies, if one does.
        """
        self._scores[frozenset((one, other))] = (fold, degrees, said_in)

    def slit(
        self, name: str, one: str, other: str, run: tuple[Corner, Corner] | None = None
    ) -> None:
        """Cut the edge between two panels, taking nothing away.

        With `run`, only from its one end to its other: the rest of that edge stays scored.
        """
        pair = frozenset((one, other))
        if run is None:
            self._slits[pair] = name
        else:
            start, end = _points(run)
            self._short_slits.append((pair, name, (start, end)))

    def glue(
        self,
        name: str,
        panel: str,
        face: Face,
        low: Corner,
        high: Corner,
        *,
        mate: str,
        mate_face: Face,
        edge: str,
        inset: Length,
    ) -> None:
        """Lay a strip of adhesive from its `low` to its `high` corner on one face of a panel."""
        (x0, y0), (x1, y1) = low, high
        sides = sorted((x1 - x0, y1 - y0))
        self._glue.append(
            GlueArea(
                name,
                panel,
                face,
                _points(((x0, y0), (x1, y0), (x1, y1), (x0, y1))),
                mate,
                mate_face,
                sides[0],
                sides[1],
                edge,
                inset,
            )
        )

    def build(self) -> FlatPiece:
        """The flat piece. Raises `FlatError` where panels and snips do not tile the rectangle.

        Why the check is exact: when every polygon is simple and anticlockwise and every one of
        its directed edges either meets its opposite on a neighbour or lies on the rectangle's
        rim, the sum of the polygons and the rectangle have the same boundary, so they cover the
        same points, each once.
        """
        faces = [(panel.name, panel.corners) for panel in self._panels]
        names = [name for name, _ in faces]
        if len(set(names)) != len(names):
            raise FlatError(f"{self.name}: two panels have one name")
        faces += [(f"\0{index}", snip.corners) for index, snip in enumerate(self._snips)]
        grid = 1
        ends = [point for _, _, run in self._short_slits for point in run]
        for point in (*ends, *(point for _, corners in faces for point in corners)):
            grid = lcm(grid, point.x.denominator, point.y.denominator)
        width, height = self.width.as_mm * grid, self.height.as_mm * grid
        vertices: dict[tuple[int, int], int] = {}
        exact: list[Point] = []
        loops: list[tuple[str, list[tuple[int, int]]]] = []
        for name, corners in faces:
            loop = []
            for point in corners:
                key = _on_grid(point, grid)
                if key not in vertices:
                    vertices[key] = len(exact)
                    exact.append(point)
                loop.append(key)
            _must_be_simple(self.name, name, loop)
            loops.append((name, loop))
        for point in ends:
            key = _on_grid(point, grid)
            if key not in vertices:
                vertices[key] = len(exact)
                exact.append(point)
        keys = list(vertices)
        left_of: dict[tuple[int, int], str] = {}
        for name, loop in loops:
            for a, b in zip(loop, loop[1:] + loop[:1], strict=True):
                stops = [a, *_between(a, b, vertices), b]
                for near, far in pairwise(stops):
                    half = (vertices[near], vertices[far])
                    if half in left_of:
                        raise FlatError(f"{self.name}: {name} overlaps {left_of[half]}")
                    left_of[half] = name
        edges = []
        for (u, v), name in left_of.items():
            beyond = left_of.get((v, u))
            if beyond is None and not _on_rim(keys[u], keys[v], width, height):
                raise FlatError(
                    f"{self.name}: {name} has an edge from {exact[u]} to {exact[v]} beside no "
                    "panel, no snip and no rim"
                )
            edge = self._edge(u, v, name, beyond, exact)
            if edge is not None and (beyond is None or beyond.startswith("\0") or u < v):
                edges.append(edge)
        covered = sum((_twice_area(loop) for _, loop in loops), 0)
        if covered != 2 * width * height:
            raise FlatError(f"{self.name}: panels and snips do not cover the blank")
        piece = FlatPiece(
            self.name,
            self.width,
            self.height,
            tuple(exact),
            tuple(edges),
            tuple(self._panels),
            tuple(self._lines(edges, exact)),
            tuple(self._snips) + tuple(self._slit_snips(edges, exact)),
            tuple(self._glue),
        )
        for pair in self._scores:
            if not any(frozenset(score.panels) == pair for score in piece.scores):
                raise FlatError(f"{self.name}: {' and '.join(sorted(pair))} share no edge to score")
        return piece

    def _edge(
        self, u: int, v: int, name: str, beyond: str | None, exact: list[Point]
    ) -> Edge | None:
        if name.startswith("\0"):
            return None
        if beyond is None or beyond.startswith("\0"):
            return Edge(u, v, EdgeKind.CUT, name, "")
        pair = frozenset((name, beyond))
        if any(
            pair == slit and _on_run(exact[u], run) and _on_run(exact[v], run)
            for slit, _, run in self._short_slits
        ):
            kind = EdgeKind.SLIT
        elif pair in self._scores:
            kind = EdgeKind.SCORE
        elif pair in self._slits:
            kind = EdgeKind.SLIT
        else:
            kind = EdgeKind.PLAIN
        return Edge(u, v, kind, name, beyond)

    def _lines(self, edges: list[Edge], exact: list[Point]) -> Iterable[Score]:
        for pair, (fold, degrees, said_in) in self._scores.items():
            run = [
                edge
                for edge in edges
                if edge.kind is EdgeKind.SCORE and frozenset((edge.left, edge.right)) == pair
            ]
            if not run:
                continue
            first = run[0]
            ends = [
                (exact[e.start], exact[e.end])
                if e.left == first.left
                else (exact[e.end], exact[e.start])
                for e in run
            ]
            starts = {start for start, _ in ends}
            stops = {end for _, end in ends}
            (start,) = starts - stops
            (end,) = stops - starts
            yield Score((first.left, first.right), start, end, fold, degrees, said_in)

    def _slit_snips(self, edges: list[Edge], exact: list[Point]) -> Iterable[Snip]:
        for pair, name in self._slits.items():
            for edge in edges:
                if edge.kind is EdgeKind.SLIT and frozenset((edge.left, edge.right)) == pair:
                    yield Snip(name, (exact[edge.start], exact[edge.end]))
        for _, name, run in self._short_slits:
            yield Snip(name, run)


def _on_run(at: Point, run: tuple[Point, Point]) -> bool:
    """Whether a point lies on a straight run, its ends among it."""
    (x0, y0), (x1, y1) = run
    level = (x1 - x0) * (at.y - y0) == (y1 - y0) * (at.x - x0)
    return level and min(x0, x1) <= at.x <= max(x0, x1) and min(y0, y1) <= at.y <= max(y0, y1)


def _on_grid(point: Point, grid: int) -> tuple[int, int]:
    """A point counted in steps of 1/`grid` mm, where it lies on such steps."""
    x, y = point
    return x.numerator * (grid // x.denominator), y.numerator * (grid // y.denominator)


def _cross(o: tuple[int, int], a: tuple[int, int], b: tuple[int, int]) -> int:
    return (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0])


def _between(
    a: tuple[int, int], b: tuple[int, int], points: Iterable[tuple[int, int]]
) -> list[tuple[int, int]]:
    """The points strictly inside the segment from a to b, in order from a."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = dx * dx + dy * dy
    inside = []
    for p in points:
        px, py = p[0] - a[0], p[1] - a[1]
        if dx * py == dy * px:
            along = dx * px + dy * py
            if 0 < along < length:
                inside.append((along, p))
    return [p for _, p in sorted(inside)]


def _on_rim(a: tuple[int, int], b: tuple[int, int], width: Fraction, height: Fraction) -> bool:
    (ax, ay), (bx, by) = a, b
    return (ax == bx and ax in (0, width)) or (ay == by and ay in (0, height))


def _twice_area(loop: list[tuple[int, int]]) -> int:
    return sum(
        x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(loop, loop[1:] + loop[:1], strict=True)
    )


def _must_be_simple(piece: str, name: str, loop: list[tuple[int, int]]) -> None:
    if len(loop) < 3 or len(set(loop)) != len(loop) or _twice_area(loop) <= 0:
        raise FlatError(f"{piece}: {name.lstrip(chr(0))} has no area, or its corners run clockwise")
    sides = list(zip(loop, loop[1:] + loop[:1], strict=True))
    for i, (a, b) in enumerate(sides):
        for c, d in sides[i + 2 : len(sides) - (i == 0)]:
            turns = (_cross(a, b, c), _cross(a, b, d), _cross(c, d, a), _cross(c, d, b))
            if turns[0] * turns[1] <= 0 and turns[2] * turns[3] <= 0:
                collinear = turns == (0, 0, 0, 0)
                if not collinear or _share(a, b, c, d):
                    raise FlatError(f"{piece}: the outline of {name.lstrip(chr(0))} meets itself")


def _share(a: tuple[int, int], b: tuple[int, int], c: tuple[int, int], d: tuple[int, int]) -> bool:
    low, high = sorted((a, b))
    first, last = sorted((c, d))
    return low <= last and first <= high
