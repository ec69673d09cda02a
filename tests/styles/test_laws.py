"""What must hold of every flat piece that any style can build."""

from fractions import Fraction
from importlib import import_module
from inspect import isabstract
from itertools import pairwise
from pathlib import Path

from hypothesis import given as given_by
from hypothesis import settings
from shapely import Polygon, unary_union

from snipfold import styles
from snipfold.flat import EdgeKind, FlatPiece, Role, area, flat_findings
from snipfold.measure import Length, System
from snipfold.styles import STYLES, Construction, Given, Style
from snipfold.styles.scored_blank import ScoredBlank

from .strategies import measured

Drawn = tuple[Style, dict[str, Length], Given, Construction]


def pieces(drawn: Drawn) -> tuple[FlatPiece, ...]:
    return drawn[3].pieces


def test_the_table_holds_every_style_in_the_folder_once() -> None:
    folder = Path(styles.__file__).parent
    # A file is a style's when a style is defined in it; what styles share lies beside them.
    files = {path.stem for path in folder.glob("*.py") if path.stem != "__init__"}
    modules = [import_module(f"{styles.__name__}.{name}") for name in sorted(files)]
    defined = {
        kind
        for module in modules
        for kind in vars(module).values()
        if isinstance(kind, type)
        and issubclass(kind, Style)
        and kind.__module__ == module.__name__
        and not isabstract(kind)
    }
    # A scored blank is made anew from each maker's plan, so it stands beside the table.
    assert {type(style) for style in STYLES} == defined - {ScoredBlank}
    assert len({kind.__module__ for kind in defined}) == len(defined)
    assert len({style.name for style in STYLES}) == len(STYLES)


def test_defaults_lie_within_their_limits() -> None:
    for style in STYLES:
        for system in System:
            given = Given(system, Length.mm(6))
            measures = style.complete({}, given)
            for measure in style.measures:
                least, most = measure.least(measures, given), measure.most(measures, given)
                assert least <= measures[measure.name] <= most, (style.name, measure.name)
            assert style.free in measures


@given_by(measured())
@settings(max_examples=100, deadline=None)
def test_whatever_is_set_the_measures_left_out_lie_within_their_limits(drawn: Drawn) -> None:
    style, measures, given, _ = drawn
    for count in range(len(style.measures)):
        some = {measure.name: measures[measure.name] for measure in style.measures[:count]}
        complete = style.complete(some, given)
        following = style.measures[count]
        least, most = following.least(complete, given), following.most(complete, given)
        assert least <= complete[following.name] <= most, following.name


@given_by(measured())
@settings(max_examples=150, deadline=None)
def test_panels_and_snips_tile_the_blank_exactly(drawn: Drawn) -> None:
    for piece in pieces(drawn):
        parts = [panel.corners for panel in piece.panels]
        parts += [snip.corners for snip in piece.snips if len(snip.corners) > 2]
        assert sum(map(area, parts)) == piece.width.as_mm * piece.height.as_mm
        assert flat_findings(piece, drawn[2].system) == ()


@given_by(measured())
@settings(max_examples=60, deadline=None)
def test_an_independent_geometry_library_finds_no_overlap(drawn: Drawn) -> None:
    """Areas and overlaps by shapely (general-purpose reference library)."""
    for piece in pieces(drawn):
        shapes = [Polygon([(float(x), float(y)) for x, y in p.corners]) for p in piece.panels]
        assert all(shape.is_valid for shape in shapes)
        whole = unary_union(shapes).area
        assert abs(whole - sum(shape.area for shape in shapes)) < 1e-6 * whole


@given_by(measured())
@settings(max_examples=100, deadline=None)
def test_every_score_is_an_edge_of_exactly_two_panels(drawn: Drawn) -> None:
    for piece in pieces(drawn):
        names = {panel.name for panel in piece.panels}
        for edge in piece.edges:
            if edge.kind is EdgeKind.SCORE:
                assert {edge.left, edge.right} <= names
                assert edge.left != edge.right
            else:
                assert edge.kind in (EdgeKind.CUT, EdgeKind.SLIT)
        scored = {frozenset(score.panels) for score in piece.scores}
        assert len(scored) == len(piece.scores)


@given_by(measured())
@settings(max_examples=100, deadline=None)
def test_scores_hold_every_piece_together(drawn: Drawn) -> None:
    for piece in pieces(drawn):
        reached = {piece.panels[0].name}
        for _ in piece.panels:
            for score in piece.scores:
                if reached & set(score.panels):
                    reached |= set(score.panels)
        assert reached == {panel.name for panel in piece.panels}


@given_by(measured())
@settings(max_examples=100, deadline=None)
def test_columns_and_rows_sum_to_the_blank_exactly(drawn: Drawn) -> None:
    """The gaps between neighbouring score lines, and from the outer ones to the edges, make the sheet."""
    for piece in pieces(drawn):
        for axis, size in ((0, piece.width), (1, piece.height)):
            lines = sorted(
                {Fraction(0), size.as_mm}
                | {s.start[axis] for s in piece.scores if s.start[axis] == s.end[axis]}
            )
            steps = [Length.mm(b - a) for a, b in pairwise(lines)]
            assert all(step > Length.mm(0) for step in steps)
            total = Length.mm(0)
            for step in steps:
                total = total + step
            assert total == size


@given_by(measured(styles.style_named("wrap bag")))
@settings(max_examples=60, deadline=None)
def test_the_bag_is_tab_side_front_side_back_and_its_flaps_close_on_one_another(
    drawn: Drawn,
) -> None:
    _, m, _, construction = drawn
    (piece,) = construction.pieces
    assert piece.width == m["tab"] + m["depth"] * 2 + m["width"] * 2
    assert piece.height == m["flap"] + m["height"]

    def free_edge(name: str) -> Fraction:
        xs = [x for x, y in piece.panel(name).corners if y == 0]
        return max(xs) - min(xs)

    # The flaps tucked first lose the sliver at each edge; those that close keep their full width.
    assert free_edge("left flap") == free_edge("right flap") == (m["depth"] - m["sliver"] * 2).as_mm
    assert free_edge("front flap") == free_edge("back flap") == m["width"].as_mm


@given_by(measured())
@settings(max_examples=60, deadline=None)
def test_tabs_are_mitred(drawn: Drawn) -> None:
    """The free edge of every tab is shorter than the edge that it hangs on, at both ends."""
    for piece in pieces(drawn):
        for panel in piece.panels:
            if panel.role is not Role.TAB:
                continue
            (score,) = [s for s in piece.scores if panel.name in s.panels]
            hung = {score.start, score.end}
            free = [corner for corner in panel.corners if corner not in hung]
            axis = 1 if score.start.x == score.end.x else 0
            low, high = sorted(end[axis] for end in hung)
            assert low < min(c[axis] for c in free)
            assert max(c[axis] for c in free) < high


@given_by(measured(styles.style_named("wrap bag")))
@settings(max_examples=40, deadline=None)
def test_the_corner_of_tab_and_bottom_flap_is_cut_away(drawn: Drawn) -> None:
    (piece,) = drawn[3].pieces
    at = (float(drawn[1]["tab"].as_mm / 2), float(drawn[1]["flap"].as_mm / 2))
    inside = [p.name for p in piece.panels if Polygon(p.corners).intersects(Polygon([
        (at[0] - 0.01, at[1] - 0.01), (at[0] + 0.01, at[1] - 0.01), (at[0], at[1] + 0.01)]))]  # fmt: skip
    assert inside == []
