"""The workshop that is assumed until the maker says otherwise."""

from __future__ import annotations

from fractions import Fraction

import pytest

from snipfold.measure import Length, System
from snipfold.workshop import Workshop, default_workshop, grams_per_square_metre

WORKSHOPS = [default_workshop(system) for system in System]


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [
        # Trade size that no standard defines:
        # https://ourpastimes.com/different-sizes-of-scrapbooking-paper-12279554.html
        ("oat cardstock 12 x 12 in", Length.inch(12), Length.inch(12)),
        # Sold in metric countries, 5 mm smaller each way:
        # http://scissorsandstickytape.blogspot.com/2009/04/standard-sizes-for-scrapbook-layouts.html
        ("oat cardstock 30 cm", Length.mm(300), Length.mm(300)),
        # ANSI/ASME Y14.1 size A
        ("oat cardstock Letter", Length.mm("215.9"), Length.mm("279.4")),
        # ISO 216
        ("oat cardstock A4", Length.mm(210), Length.mm(297)),
        # Pad: https://ourpastimes.com/different-sizes-of-scrapbooking-paper-12279554.html
        ("dotted pad 6 x 6 in", Length.mm("152.4"), Length.mm("152.4")),
    ],
)
def test_sheets_have_the_sizes_of_their_standard_or_trade(
    name: str, width: Length, height: Length
) -> None:
    for workshop in WORKSHOPS:
        paper = workshop.paper(name)
        assert (paper.width, paper.height) == (width, height)


@pytest.mark.parametrize("workshop", WORKSHOPS, ids=lambda workshop: workshop.system.value)
def test_the_default_workshop_hangs_together(workshop: Workshop) -> None:
    names = [paper.name for paper in workshop.papers]
    adhesives = [adhesive.name for adhesive in workshop.adhesives]
    assert len(set(names)) == len(names)
    assert len(set(adhesives)) == len(adhesives)
    assert {workshop.tape, workshop.mat_adhesive} <= set(adhesives)
    for paper in workshop.papers:
        assert workshop.paper(paper.cousin).cousin
        assert Length.mm("0.1") < paper.thickness < Length.mm("0.3")
        assert paper.price is None


@pytest.mark.parametrize("workshop", WORKSHOPS, ids=lambda workshop: workshop.system.value)
def test_tools_can_be_set_to_their_own_longest_cut_and_the_tape_lies_on_the_ruler(
    workshop: Workshop,
) -> None:
    assert workshop.trimmer.ruler.has(workshop.trimmer.longest_cut)
    assert workshop.board.grooves.has(workshop.board.length)
    assert workshop.ruler.has(workshop.adhesive(workshop.tape).width)
    first = workshop.papers[0]
    assert max(first.width, first.height) <= workshop.trimmer.longest_cut


def test_each_paper_of_one_system_has_a_cousin_in_the_other() -> None:
    inch, metric = WORKSHOPS
    for paper in inch.papers:
        cousin = metric.paper(paper.cousin)
        assert (paper.width.as_inch.denominator <= 2) != (cousin.width.as_inch.denominator <= 2)
        assert abs(cousin.width - paper.width) < Length.mm(7)
        assert paper.directed == cousin.directed
        assert paper.two_sided == cousin.two_sided
        assert abs(cousin.gsm - paper.gsm) < 2


def test_weights_of_inch_papers_are_exact_basis_weights() -> None:
    paper = WORKSHOPS[0].paper("oat cardstock 12 x 12 in")
    assert paper.gsm == grams_per_square_metre(Fraction(65), "cover")
