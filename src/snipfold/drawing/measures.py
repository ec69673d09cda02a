"""Measures on drawings: chains of them along an edge, and labels with leaders."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from .inks import THIN
from .layout import middle_text, spread
from .lettering import BOLD, CAPITAL, POINT_MM, width_mm
from .scene import XY, Anchor, Mark, Stroke

#: pt. Measures in drawings, and on the scoring page, read at an arm's length.
MEASURE_PT = 15.0
SCORING_PT = 22.0
#: pt. Names of panels and notes.
NAME_PT = 10.5
NOTE_PT = 11.0

#: mm. From the edge to the first line of measures, and the oblique strokes at its stops.
_OFF_MM = 5.0
_TICK_MM = 0.9
_LABEL_GAP_MM = 1.3


def line_height_mm(size_pt: float) -> float:
    """The height from the top of capitals to the next line's, mm."""
    return size_pt * POINT_MM * 1.05


def chain_below(
    stops: Sequence[float],
    labels: Sequence[str],
    edge_y: float,
    *,
    off_mm: float = _OFF_MM,
    size_pt: float = MEASURE_PT,
    weight: int = BOLD,
) -> tuple[list[Mark], float]:
    """A chain of measures below an edge, and the y below which the next may start.

    `stops` ascend; each label stands below its interval, or, where that is too narrow, in a row
    below with a leader.
    """
    line_y = edge_y - off_mm
    marks: list[Mark] = _line((stops[0], line_y), (stops[-1], line_y))
    for stop in stops:
        marks += _line((stop, edge_y - 1.0), (stop, line_y - 1.2))
        marks.append(_tick((stop, line_y)))
    capital = CAPITAL * size_pt * POINT_MM
    row_y = line_y - _LABEL_GAP_MM - capital / 2
    middles = [(a + b) / 2 for a, b in itertools.pairwise(stops)]
    widths = [width_mm(label, size_pt, weight) for label in labels]
    low = row_y - capital / 2 - 1.5
    crowded = []
    for index, (middle, label) in enumerate(zip(middles, labels, strict=True)):
        if widths[index] <= stops[index + 1] - stops[index] - 0.8:
            marks.append(middle_text((middle, row_y), label, size_pt, weight=weight))
        else:
            crowded.append(index)
    if len(crowded) == len(labels) == 1:
        marks.append(middle_text((middles[0], row_y), labels[0], size_pt, weight=weight))
    elif crowded:
        second_y = row_y - capital - 2.6
        places = spread([middles[i] for i in crowded], [widths[i] for i in crowded], 2.2)
        for index, place in zip(crowded, places, strict=True):
            top = second_y + capital / 2 + 0.8
            marks += _line((middles[index], line_y), (middles[index], row_y - capital / 2))
            marks += _line((middles[index], row_y - capital / 2), (place, top))
            marks.append(middle_text((place, second_y), labels[index], size_pt, weight=weight))
        low = second_y - capital / 2 - 1.5
    return marks, low


def chain_left(
    stops: Sequence[float],
    labels: Sequence[str],
    edge_x: float,
    *,
    off_mm: float = _OFF_MM,
    size_pt: float = MEASURE_PT,
    weight: int = BOLD,
) -> tuple[list[Mark], float]:
    """A chain of measures to the left of an edge, and the x left of which the next may start.

    Labels read upright whatever the height of their interval; crowded ones are spread, with
    leaders.
    """
    line_x = edge_x - off_mm
    marks: list[Mark] = _line((line_x, stops[0]), (line_x, stops[-1]))
    for stop in stops:
        marks += _line((edge_x - 1.0, stop), (line_x - 1.2, stop))
        marks.append(_tick((line_x, stop)))
    capital = CAPITAL * size_pt * POINT_MM
    middles = [(a + b) / 2 for a, b in itertools.pairwise(stops)]
    places = spread(middles, [capital + 1.2] * len(middles), 0.6)
    shifted = any(abs(a - b) > 0.6 for a, b in zip(middles, places, strict=True))
    reach = line_x - (4.5 if shifted else 1.6)
    for middle, place, label in zip(middles, places, labels, strict=True):
        if shifted:
            marks += _line((line_x, middle), (reach + 0.8, place))
        marks.append(middle_text((reach, place), label, size_pt, weight=weight, anchor=Anchor.END))
    widest = max(width_mm(label, size_pt, weight) for label in labels)
    return marks, reach - widest - 0.5


def leader(point: XY, to: XY) -> list[Mark]:
    """A leader from a label to a dot at what it names."""
    (x, y), dot = point, 0.5
    ring = ((x - dot, y), (x, y - dot), (x + dot, y), (x, y + dot))
    return [Stroke((to, point), THIN), Stroke(ring, THIN, True)]


def _line(start: XY, end: XY) -> list[Mark]:
    return [Stroke((start, end), THIN)]


def _tick(at: XY) -> Mark:
    x, y = at
    return Stroke(((x - _TICK_MM, y - _TICK_MM), (x + _TICK_MM, y + _TICK_MM)), THIN)
