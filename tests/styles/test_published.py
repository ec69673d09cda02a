"""Blanks against published and practised examples."""

import pytest

from snipfold.flat import FlatPiece
from snipfold.measure import Length, System
from snipfold.styles import Given, style_named

INCH, CM = Length.inch, Length.cm


def build(style: str, system: System, **measures: Length) -> tuple[FlatPiece, ...]:
    made = style_named(style)
    given = Given(system, Length.inch("1/4") if system is System.INCH else Length.mm(6))
    return made.build(made.complete(measures, given), given).pieces


def lines(piece: FlatPiece, axis: int) -> list[Length]:
    return [
        Length.mm(at)
        for at in sorted({s.start[axis] for s in piece.scores if s.start[axis] == s.end[axis]})
    ]


def test_wrap_bag_of_practice() -> None:
    """Common practice, no source: a 4 x 1 x 4 in wrap bag with a 1/2 in tab."""
    (bag,) = build(
        "wrap bag", System.INCH, width=INCH(4), depth=INCH(1), height=INCH(4), tab=INCH("1/2")
    )
    assert (bag.width, bag.height) == (INCH("21/2"), INCH(5))
    assert lines(bag, 0) == [INCH("1/2"), INCH("3/2"), INCH("11/2"), INCH("13/2")]
    assert lines(bag, 1) == [INCH(1)]


@pytest.mark.parametrize(
    ("size", "sheet", "score"),
    [
        # stampinmoments.com 2008/11, "Tutorial Tuesday: box measurements": 12 x 12 x 4.5 cm.
        ((CM(12), CM(12), CM("4.5")), (CM(21), CM(21)), CM("4.5")),
        # cathyscraftroom.blogspot.com 2010/02, "Simple box instructions": 4 1/2 x 5 3/4 x 1 in.
        ((INCH("9/2"), INCH("23/4"), INCH(1)), (INCH("13/2"), INCH("31/4")), INCH(1)),
        # catherinepooler.com 2013/03/27: 1 1/8 x 3 1/2 x 1 in.
        ((INCH("9/8"), INCH("7/2"), INCH(1)), (INCH("25/8"), INCH("11/2")), INCH(1)),
    ],
)
def test_tray_blanks_match_published_examples(
    size: tuple[Length, Length, Length], sheet: tuple[Length, Length], score: Length
) -> None:
    width, depth, height = size
    base, _ = build(
        "tray with lift-off lid", System.METRIC, width=width, depth=depth, height=height
    )
    assert (base.width, base.height) == sheet
    assert lines(base, 0) == [score, sheet[0] - score]
    assert lines(base, 1) == [score, sheet[1] - score]


def test_lid_of_the_published_tray_is_2_5_mm_larger_in_total() -> None:
    """stampinmoments.com 2008/11: lid 12.25 cm, 2.5 cm deep, from a 17.25 cm sheet scored at 2.5."""
    _, lid = build(
        "tray with lift-off lid", System.METRIC, width=CM(12), depth=CM(12), height=CM("4.5"),
        lid_height=CM("2.5"), clearance=CM("0.25"),
    )  # fmt: skip
    assert (lid.width, lid.height) == (CM("17.25"), CM("17.25"))
    assert lines(lid, 0) == [CM("2.5"), CM("14.75")]


def test_lid_from_a_sheet_of_the_same_size_gains_twice_what_its_walls_lose() -> None:
    """cathyscraftroom.blogspot.com 2010/02: the lid from the base's own sheet, scored at 15/16 for 1.

    Each wall 1/16 in lower makes the lid 1/8 in larger in total across.
    """
    _, lid = build(
        "tray with lift-off lid", System.INCH, width=INCH("9/2"), depth=INCH("23/4"),
        height=INCH(1), lid_height=INCH("15/16"), clearance=INCH("1/8"),
    )  # fmt: skip
    assert (lid.width, lid.height) == (INCH("13/2"), INCH("31/4"))


def test_lid_sheet_a_sixteenth_over_the_base_sheet() -> None:
    """catherinepooler.com 2013/05/29: 8 9/16 x 9 13/16 over 8 1/2 x 9 3/4 in, both scored at 2."""
    base, lid = build(
        "tray with lift-off lid", System.INCH, width=INCH("9/2"), depth=INCH("23/4"),
        height=INCH(2), lid_height=INCH(2), clearance=INCH("1/16"),
    )  # fmt: skip
    assert (base.width, base.height) == (INCH("17/2"), INCH("39/4"))
    assert (lid.width, lid.height) == (INCH("137/16"), INCH("157/16"))
