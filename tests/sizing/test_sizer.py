"""From the room that is needed to measures: enough, and no mark too much, for every style."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from snipfold.folding import Treat, prove
from snipfold.measure import ZERO, Length, System
from snipfold.sizing import SizeError, Sizer, Want
from snipfold.styles import STYLES, Style, style_named

from .workshops import INCH, METRIC, ideal, sheet, with_marks

I = Length.inch  # noqa: E741
SIZED = [style for style in STYLES if Sizer(style, INCH.papers[0], INCH, System.INCH).bounded]
WANTS = [
    Want(I("5/2"), I("11/8"), I("1/8"), I("1/8"), ZERO),
    Want(Length.mm(47), Length.mm("61.3"), Length.mm(5), Length.mm(3), Length.mm(3)),
]


def named(style: Style) -> str:
    return style.name


@pytest.mark.parametrize("want", WANTS, ids=["inch", "odd"])
@pytest.mark.parametrize("style", SIZED, ids=named)
def test_the_size_found_is_enough_and_one_mark_less_is_not(style: Style, want: Want) -> None:
    for workshop, system in ((INCH, System.INCH), (METRIC, System.METRIC)):
        sizer = Sizer(style, workshop.papers[0], workshop, system)
        try:
            made = sizer.least(want)
        except SizeError:
            # Some limits let a style be wider than deep but not deeper than wide.
            want = replace(want, width=want.depth, depth=want.width)
            made = sizer.least(want)
        assert not sizer.lacks(made, want)
        for name, length in made.said.items():
            assert sizer.marks.has(length)
            less = {**made.said, name: length - sizer.marks.graduation}
            try:
                smaller = sizer.build(less)
            except SizeError:
                continue
            assert sizer.lacks(smaller, want), f"{name} could be a mark less"


@pytest.mark.parametrize("style", SIZED, ids=named)
def test_the_proof_finds_that_the_treats_fit(style: Style) -> None:
    """The proof measures the room on its own; the sizer only solves for it."""
    air = I("1/8")
    sizer = Sizer(style, INCH.papers[0], INCH, System.INCH)
    covered = sizer.usual.construction.cavity.covered
    want = Want(I(2), I("3/2"), I("1/8"), air, air if covered else ZERO)
    made = sizer.least(want)
    paper, tape = INCH.papers[0], INCH.adhesive(INCH.tape)
    proof = prove(
        made.construction,
        made.measures,
        thickness={piece.name: paper.thickness for piece in made.construction.pieces},
        tape=tape.thickness,
        covers={},
        treats=(Treat("a bar", want.width, want.depth, want.height, air, ZERO),),
        ruler=INCH.ruler,
        trimmer=INCH.trimmer.ruler,
        system=System.INCH,
    )
    assert not [found for found in proof.findings if found.code.startswith("treat.")]
    assert {side: proof.clear[side] for side in made.clear} == made.clear


def test_a_tray_for_an_object_is_a_quarter_inch_larger_all_round() -> None:
    """An eighth on each side: https://messageinafold.wordpress.com/2011/12/19/boxed-in-the-ears-by-math/

    Paper without thickness, as the page counts it; above, its quarter inch is the head room.
    """
    sizer = Sizer(
        style_named("tray with lift-off lid"), sheet("12", "12", thin=True), ideal(), System.INCH
    )
    made = sizer.least(Want(I(3), I("9/4"), I(1), I("1/8"), I("1/4")))
    assert made.said == {"width": I("13/4"), "depth": I("5/2"), "height": I("5/4")}


@pytest.mark.parametrize("name", ["wrap bag", "tray with lift-off lid"])
def test_the_least_size_is_one_of_those_that_trying_all_sizes_leaves(name: str) -> None:
    workshop = with_marks("1/4")
    sizer = Sizer(style_named(name), workshop.papers[0], workshop, System.INCH)
    want = Want(I("7/4"), I("9/8"), I("3/2"), I("1/8"), ZERO)
    enough = set()
    for marks in product(range(5, 10), repeat=3):
        said = {
            name: I("1/4") * number
            for name, number in zip(("width", "depth", "height"), marks, strict=True)
        }
        try:
            made = sizer.build(said)
        except SizeError:
            continue
        if not sizer.lacks(made, want):
            enough.add(marks)
    least = [
        one
        for one in enough
        if not any(
            other != one and all(b <= a for a, b in zip(one, other, strict=True))
            for other in enough
        )
    ]
    found = sizer.least(want).said
    assert tuple(int(found[side].over(I("1/4"))) for side in ("width", "depth", "height")) in least


def test_a_size_beyond_the_style_is_refused_with_its_limit() -> None:
    sizer = Sizer(style_named("wrap bag"), INCH.papers[0], INCH, System.INCH)
    # 45 in and an eighth on each side, and the paper, to the next sixteenth.
    with pytest.raises(SizeError, match="its width would be 45 5/16 in, more than 40 in"):
        sizer.least(Want(I(45), I(2), I(2), I("1/8")))


def test_more_room_never_makes_a_smaller_box() -> None:
    for style in SIZED:
        sizer = Sizer(style, INCH.papers[0], INCH, System.INCH)
        before: dict[str, Length] = {}
        for size in ("1", "3/2", "9/4"):
            made = sizer.least(Want(I(size), I(size), I("1/8"), I("1/8")))
            assert all(made.said[name] >= length for name, length in before.items()), style.name
            before = dict(made.said)
