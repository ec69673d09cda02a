"""The belly band: its strip, and the room in it."""

from hypothesis import given as given_by
from hypothesis import settings

from snipfold.folding import closed
from snipfold.measure import Length, System
from snipfold.styles import Construction, Given, Style, style_named

from .strategies import measured

INCH = Length.inch
BAND = style_named("belly band")
Drawn = tuple[Style, dict[str, Length], Given, Construction]


def test_band_of_practice() -> None:
    """Common practice, no source: round a box 4 x 1 in with 3/4 in of overlap, 10 3/4 in of strip."""
    given = Given(System.INCH, INCH("1/4"))
    (band,) = BAND.build(
        BAND.complete({"width": INCH(4), "height": INCH(1), "tab": INCH("3/4")}, given), given
    ).pieces
    assert (band.width, band.height) == (INCH("43/4"), INCH("3/2"))
    lines = sorted(Length.mm(score.start.x) for score in band.scores)
    assert lines == [INCH("3/4"), INCH("7/4"), INCH("23/4"), INCH("27/4")]


@given_by(measured(BAND))
@settings(max_examples=40, deadline=None)
def test_the_strip_is_once_round_and_the_overlap(drawn: Drawn) -> None:
    _, m, _, construction = drawn
    (band,) = construction.pieces
    assert band.width == (m["width"] + m["height"]) * 2 + m["tab"]
    assert band.height == m["depth"]


@given_by(measured(BAND))
@settings(max_examples=40, deadline=None)
def test_the_overlap_lies_underneath_where_it_is_not_seen(drawn: Drawn) -> None:
    placed = closed(drawn[3])["band"].placed
    for name in ("tab", "bottom"):
        assert placed[name].outward.z < -0.999
        assert all(abs(corner.z) < 1e-6 for corner in placed[name].corners)
    assert placed["top"].outward.z > 0.999


@given_by(measured(BAND))
@settings(max_examples=40, deadline=None)
def test_the_end_that_goes_inside_does_not_peep_out(drawn: Drawn) -> None:
    """Its free edge keeps a sliver back from both rims of the band."""
    _, m, _, construction = drawn
    tab = construction.pieces[0].panel("tab")
    free = sorted(Length.mm(y) for x, y in tab.corners if x == 0)
    assert free == [m["sliver"], m["depth"] - m["sliver"]]
