"""What a workshop file says of stock, envelopes, times and terms."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from snipfold.findings import Problem, ProjectFileError
from snipfold.measure import ZERO, Length, System
from snipfold.workshop import (
    Embellishment,
    Envelope,
    Pace,
    ShelvedOffcut,
    Terms,
    Workshop,
    default_workshop,
    read_workshop,
)

INCH = default_workshop(System.INCH)
OAT = "oat cardstock 12 x 12 in"


def read(text: str) -> Workshop:
    return read_workshop(f'units = "inch"\n{text}', "stall.toml", INCH)


def problems(text: str) -> tuple[Problem, ...]:
    with pytest.raises(ProjectFileError) as refused:
        read(text)
    return refused.value.problems


def test_nothing_is_assumed_of_stock_times_and_terms() -> None:
    """No price, time or margin would be true of everybody."""
    assert INCH.pace == Pace()
    assert INCH.terms == Terms()
    assert (INCH.offcuts, INCH.envelopes, INCH.embellishments) == ((), (), ())
    assert all(not paper.on_hand and not paper.discontinued for paper in INCH.papers)
    assert INCH.trimmer.layers == 1


def test_the_shelf_is_read_whole() -> None:
    shop = read(f'''
        currency_places = 0
        [trimmer]
        layers = 10
        layers_weight = "80 gsm"
        [papers."{OAT}"]
        on_hand = 7
        discontinued = true
        stock = "oat"
        [adhesives."1/4 in tape"]
        on_hand = "2 yd"
        [[offcuts]]
        paper = "{OAT}"
        size = "3 x 12 in"
        count = 4
        [envelopes.kit]
        size = "6 x 9 in"
        price = "4.00"
        pack = 25
        weight = "9.5 g"
        [embellishments.bow]
        price = 4
        pack = 50
        thickness = "1/8 in"
        [pace]
        cut = "10 s"
        setting = 0.5
        step = "1.5 min"
        [selling]
        hourly_rate = "18.50"
        margin = "30%"
    ''')
    assert shop.places == 0
    assert (shop.trimmer.layers, shop.trimmer.layers_gsm) == (10, 80)
    paper = shop.paper(OAT)
    assert (paper.on_hand, paper.discontinued, paper.stock) == (7, True, "oat")
    assert shop.adhesive("1/4 in tape").on_hand == Length.inch(72)
    assert shop.offcuts == (ShelvedOffcut(OAT, Length.inch(3), Length.inch(12), 4),)
    assert shop.envelopes == (
        Envelope("kit", Length.inch(6), Length.inch(9), Decimal("4.00"), 25, 0, Fraction("9.5")),
    )
    assert shop.embellishments == (
        Embellishment("bow", Decimal("4.0"), 50, 0, None, Length.inch("1/8")),
    )
    assert shop.pace == Pace(cut=Fraction(1, 6), setting=Fraction(1, 2), step=Fraction(3, 2))
    assert shop.terms == Terms(Decimal("18.50"), Fraction(3, 10))


def test_what_is_left_of_a_roll_may_be_nothing() -> None:
    assert (
        read('[adhesives."1/4 in tape"]\non_hand = "0 m"').adhesive("1/4 in tape").on_hand == ZERO
    )


@pytest.mark.parametrize(
    ("line", "field", "word"),
    [
        (f'papers."{OAT}".price = "-4.50"', f"papers.{OAT}.price", "less than nothing"),
        (f'papers."{OAT}".price = -4', f"papers.{OAT}.price", "less than nothing"),
        (f'papers."{OAT}".on_hand = -1', f"papers.{OAT}.on_hand", "less than no sheets"),
        (f'papers."{OAT}".on_hand = 2.5', f"papers.{OAT}.on_hand", "not a number of sheets"),
        (f'papers."{OAT}".discontinued = "yes"', f"papers.{OAT}.discontinued", "true or false"),
        ("trimmer.layers = 0", "trimmer.layers", "no layers"),
        ("trimmer.layers = 9999", "trimmer.layers", "more than 500 layers"),
        ('trimmer.layers_weight = "heavy"', "trimmer.layers_weight", "176 gsm"),
        ('envelopes.kit.price = "4"', "envelopes.kit.size", "missing"),
        ('envelopes.kit = {size = "6 x 9 in", weight = "0 g"}', "envelopes.kit.weight", "nothing"),
        ('envelopes.kit = {size = "6 x 9 in", price = "-1"}', "envelopes.kit.price", "less than"),
        ("embellishments.bow.pack = 0", "embellishments.bow.pack", "no pieces"),
        ('pace.cut = "quick"', "pace.cut", "30 s"),
        ('pace.cut = "9000 min"', "pace.cut", "longer than a day"),
        ('pace.fold = "9 s"', "pace.fold", "known here"),
        ('selling.hourly_rate = "-18"', "selling.hourly_rate", "less than nothing"),
        ('selling.margin = "100%"', "selling.margin", "less than 100%"),
        ('selling.margin = "-5%"', "selling.margin", "less than nothing"),
        ("currency_places = 5", "currency_places", "0 to 2"),
        ('offcuts = [{size = "3 x 12 in"}]', "offcuts.1.paper", "missing"),
        ('offcuts = [{paper = "oak", size = "3 x 12 in"}]', "offcuts.1.paper", "not in this"),
        (f'offcuts = [{{paper = "{OAT}", size = "13 x 3 in"}}]', "offcuts.1.size",
         "larger than its sheet"),
        (f'offcuts = [{{paper = "{OAT}", size = "1 x 3 in", count = 0}}]', "offcuts.1.count",
         "no offcuts"),
    ],
)  # fmt: skip
def test_each_slip_names_its_line_its_field_and_what_would_be_right(
    line: str, field: str, word: str
) -> None:
    (problem,) = problems(line)
    assert (problem.source, problem.line, problem.field) == ("stall.toml", 2, field)
    assert word in str(problem)
