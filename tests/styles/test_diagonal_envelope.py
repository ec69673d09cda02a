"""The diagonal envelope: its square, its flaps, and the card that it takes."""

import math
from dataclasses import replace

import pytest
from hypothesis import given as given_by
from hypothesis import settings
from shapely import Polygon, unary_union

from snipfold.dressing import MatWish, StrapWish
from snipfold.findings import has_errors
from snipfold.folding import Treat, closed
from snipfold.guide import Part, guide_of
from snipfold.measure import ZERO, Length, Ruler, System
from snipfold.project import Project, new_project_text, read_project, resolve
from snipfold.scoring import ruler_ends
from snipfold.styles import Construction, Given, Style, style_named
from snipfold.workshop import default_workshop

from .strategies import MARK, measured

INCH, CM = Length.inch, Length.cm
ENVELOPE = style_named("diagonal envelope")
Drawn = tuple[Style, dict[str, Length], Given, Construction]


@pytest.mark.parametrize("card", ["6", "10.5", "14"])
def test_a_square_card_takes_the_published_square(card: str) -> None:
    """lankratzke.blogspot.com/2019/03: for a card L x W cm a rhombus of diagonals 2 L + 2, 2 W + 2.

    Its corners meet in the middle round a rectangle (L + 1) x (W + 1). For a square card that is a
    square blank; ours is larger by the overlap, and cut at the next mark.
    """
    inside = CM(card) + CM(1)
    given = Given(System.METRIC, Length.mm(6))
    measures = ENVELOPE.complete({"width": inside, "depth": inside}, given)
    (envelope,) = ENVELOPE.build(measures, given).pieces
    diagonal = 2 * CM(card).float_mm + 20
    published = diagonal / math.sqrt(2)
    over = envelope.width.float_mm - published
    assert 0 <= over - measures["overlap"].float_mm < 1


def test_the_usual_envelope_is_that_of_its_card() -> None:
    """US A2 is 4 3/8 x 5 3/4 in, ISO 269 C6 is 114 x 162 mm (an encyclopaedia's table of envelopes,
    http://the-uncensored-wiki.com:20082/articles/e/n/v/Envelope_size.html)."""
    usual = {
        System.INCH: (INCH("23/4"), INCH("35/8")),
        System.METRIC: (Length.mm(162), Length.mm(114)),
    }
    for system, size in usual.items():
        measures = ENVELOPE.complete({}, Given(system, Length.mm(6)))
        assert (measures["width"], measures["depth"]) == size


def test_a_card_of_quarter_letter_goes_into_the_usual_envelope() -> None:
    """An A2 card is 4 1/4 x 5 1/2 in (stampingimperfection.com, "card layers")."""
    card = Treat("card", INCH("11/2"), INCH("17/4"), INCH("1/32"), INCH("1/32"), ZERO)
    project = Project(
        name="Hazel Row sampler", style=ENVELOPE.name, system=System.INCH, measures={}, papers={},
        keep_grain=False, mats=MatWish(False, INCH("1/8"), {}, frozenset(), frozenset()),
        strap=StrapWish(False, INCH(1), INCH(2), INCH(1), None), contents=(card,), notes="",
    )  # fmt: skip
    assert not has_errors(resolve(project, default_workshop(System.INCH)).findings)
    thick = Treat("cards", INCH("11/2"), INCH("17/4"), INCH("1/4"), INCH("1/32"), ZERO)
    too_much = replace(project, contents=(thick,))
    assert has_errors(resolve(too_much, default_workshop(System.INCH)).findings)


@given_by(measured(ENVELOPE))
@settings(max_examples=40, deadline=None)
def test_the_square_is_cut_at_a_mark_and_the_overlap_takes_up_what_that_adds(drawn: Drawn) -> None:
    """(W + D) / sqrt 2 is the square whose corners just meet: S^2 = W D + W^2 / 2 + D^2 / 2."""
    _, m, given, construction = drawn
    (envelope,) = construction.pieces
    assert envelope.width == envelope.height
    assert Ruler(MARK[given.system]).has(envelope.width)
    width, depth = m["width"].float_mm, m["depth"].float_mm
    meeting = math.sqrt(width * depth + width**2 / 2 + depth**2 / 2)
    more = envelope.width.float_mm - meeting - m["overlap"].float_mm
    assert -1e-6 <= more < MARK[given.system].float_mm


@given_by(measured(ENVELOPE))
@settings(max_examples=40, deadline=None)
def test_folded_flaps_cover_the_whole_card_and_stay_within_the_front(drawn: Drawn) -> None:
    _, m, _, construction = drawn
    placed = closed(construction)["envelope"].placed
    front = Polygon([corner[:2] for corner in placed["front"].corners])
    assert front.area == pytest.approx(m["width"].float_mm * m["depth"].float_mm, rel=1e-7)
    flaps = [
        Polygon([corner[:2] for corner in one.corners])
        for name, one in placed.items()
        if name != "front"
    ]
    assert all(front.buffer(1e-4).contains(flap) for flap in flaps)
    # Only the slivers at the four notches stay open.
    assert front.difference(unary_union(flaps)).area < 0.05 * front.area
    assert all(abs(corner.z) < 1e-6 for one in placed.values() for corner in one.corners)


@given_by(measured(ENVELOPE))
@settings(max_examples=40, deadline=None)
def test_scores_run_at_45_degrees_between_marks_at_the_rim(drawn: Drawn) -> None:
    (envelope,) = drawn[3].pieces
    assert len(envelope.scores) == 4
    for score in envelope.scores:
        dx, dy = score.end.x - score.start.x, score.end.y - score.start.y
        assert abs(dx) == abs(dy)
        assert score.degrees == 180
        for end in ruler_ends(envelope, score):
            assert 0 in (end.x, end.y) or envelope.width.as_mm in (end.x, end.y)


def test_the_guide_says_where_to_mark_every_score() -> None:
    text = new_project_text(ENVELOPE, System.INCH)
    design = resolve(read_project(text, "envelope.toml"), default_workshop(System.INCH))
    (page,) = guide_of(design).of(Part.SCORE)
    assert len(page.tables[0].rows) == 4
    # By hand: the lower fold keeps depth / sqrt 2 from two corners, 3.094 in; nearest mark 3 1/16.
    marks = {word for row in page.tables[0].rows for cell in row for word in cell}
    assert INCH("49/16") in marks


def test_the_lower_flap_is_stuck_to_the_side_flaps_and_the_upper_to_nothing() -> None:
    given = Given(System.INCH, INCH("1/4"))
    construction = ENVELOPE.build(ENVELOPE.complete({}, given), given)
    (envelope,) = construction.pieces
    assert {(glue.panel, glue.mate) for glue in envelope.glue} == {
        ("lower flap", "left flap"), ("lower flap", "right flap"),
    }  # fmt: skip
    order = [step.moving for step in construction.steps[1:]]
    assert order == [("left flap", "right flap"), ("lower flap",), ("upper flap",)]
