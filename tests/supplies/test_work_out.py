"""What one set takes, weighs and costs."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest

from snipfold.cutting.plan import CutPlan, Part, SheetSize
from snipfold.dressing import Dressing, Strip
from snipfold.flat import Face
from snipfold.measure import Length, Ruler, System, total
from snipfold.supplies import sheet_weight, work_out
from snipfold.workshop import (
    Adhesive,
    AdhesiveKind,
    Paper,
    ScoringBoard,
    Slips,
    Trimmer,
    Workshop,
)

MM = Length.mm
CARD = Paper("card", Length.cm(30), Length.cm(30), Fraction(200), MM("0.25"))
TAPE = Adhesive("tape", AdhesiveKind.TAPE, MM(6), MM("0.1"))


def workshop(*adhesives: Adhesive) -> Workshop:
    return Workshop(
        System.METRIC,
        Trimmer(Ruler(MM(1)), Length.cm(31)),
        ScoringBoard(Ruler(MM(5)), Length.cm(30)),
        Ruler(MM(1)),
        Slips(MM("0.4"), MM("0.4"), MM("0.8")),
        (CARD,),
        adhesives or (TAPE,),
        "tape",
        "tape",
        "a4",
        "€",
    )


def plan(*parts: Part, per_sheet: int = 1, per_set: int = 1) -> CutPlan:
    sheet = SheetSize("card", CARD.width, CARD.height)
    return CutPlan(sheet, parts, per_sheet, per_set, 1, True, (), (), ())


def strip(length: Length, adhesive: str = "tape") -> Strip:
    return Strip(
        "seam", adhesive, "bag", "panel", "tab", Face.OUTSIDE, "outer edge", MM(6), length, (), 1
    )


def dressing(*strips: Strip) -> Dressing:
    return Dressing((), None, strips, ())


@pytest.mark.parametrize(
    ("width", "height", "gsm", "grams"),
    [
        # ISO 536: grammage is mass over area; ISO 216: A4 is 210 x 297 mm. 0.21 x 0.297 x 80.
        (210, 297, 80, "4.9896"),
        # ISO 216: A0 is 841 x 1189 mm, a square metre to 0.01 %, so it weighs its grammage.
        (841, 1189, 80, "79.99592"),
    ],
)
def test_a_sheet_weighs_its_grammage_times_its_area(
    width: int, height: int, gsm: int, grams: str
) -> None:
    paper = replace(CARD, gsm=Fraction(gsm))
    part = Part("sheet", MM(width), MM(height), 1, False)
    assert sheet_weight(paper, [part]) == Fraction(grams)


def test_the_weight_of_a_set_counts_every_part_of_it() -> None:
    """100 x 50 mm and three of 20 x 20 mm at 200 g/m2: (5000 + 1200) mm2 x 0.0002 g."""
    parts = (Part("bag", MM(100), MM(50), 1, True), Part("mats", MM(20), MM(20), 3, True))
    supplies = work_out({"bag": CARD, "mats": CARD}, {"card": plan(*parts)}, dressing(), workshop())
    (paper,) = supplies.papers
    assert paper.weight == Fraction("1.24")
    assert paper.parts == (("bag", 1, MM(100), MM(50)), ("mats", 3, MM(20), MM(20)))


def test_adhesives_are_totalled_by_name() -> None:
    foam = Adhesive("foam", AdhesiveKind.FOAM, MM(12), MM(1))
    strips = (strip(MM(95)), strip(MM(30), "foam"), strip(MM("20.5")))
    supplies = work_out({}, {}, dressing(*strips), workshop(TAPE, foam))
    assert [(need.adhesive, need.length, need.strips) for need in supplies.adhesives] == [
        ("tape", MM("115.5"), 2),
        ("foam", MM(30), 1),
    ]
    assert total(need.length for need in supplies.adhesives) == total(s.length for s in strips)


def test_no_price_is_made_up() -> None:
    part = Part("bag", MM(100), MM(50), 1, True)
    supplies = work_out({"bag": CARD}, {"card": plan(part)}, dressing(strip(MM(90))), workshop())
    assert supplies.cost is None
    assert supplies.unpriced == ("card", "tape")


def test_the_cost_of_a_set_is_rounded_once_at_the_end() -> None:
    """A pack of 12 at 10.00, 3 sets a sheet: 10/36 = 0.2777…; 100 mm of a 10 m roll at 2.50: 0.025.

    Together 0.30277… gives 0.30; rounding each first would give 0.28 + 0.03 = 0.31.
    """
    card = replace(CARD, price=Decimal("10.00"), pack=12)
    tape = replace(TAPE, price=Decimal("2.50"), roll=MM(10_000))
    part = Part("bag", MM(100), MM(50), 1, True)
    supplies = work_out(
        {"bag": card}, {"card": plan(part, per_sheet=3)}, dressing(strip(MM(100))), workshop(tape)
    )
    assert supplies.papers[0].price == Fraction(5, 18)
    assert supplies.adhesives[0].price == Fraction(1, 40)
    assert supplies.cost == Decimal("0.30")
    assert supplies.unpriced == ()


def test_a_set_that_takes_several_sheets_pays_for_all_of_them() -> None:
    card = replace(CARD, price=Decimal("1.50"))
    part = Part("bag", MM(290), MM(290), 2, True)
    supplies = work_out(
        {"bag": card},
        {"card": plan(part, per_sheet=0, per_set=2)},
        dressing(strip(MM(100))),
        workshop(),
    )
    assert supplies.cost == Decimal("3.00")
    assert supplies.unpriced == ("tape",)


def test_half_a_hundredth_goes_up() -> None:
    card = replace(CARD, price=Decimal("0.25"), pack=2)
    part = Part("bag", MM(100), MM(50), 1, True)
    supplies = work_out({"bag": card}, {"card": plan(part)}, dressing(), workshop())
    assert str(supplies.cost) == "0.13"


def test_a_part_that_fits_no_sheet_has_no_price() -> None:
    card = replace(CARD, price=Decimal("1.50"))
    part = Part("bag", MM(900), MM(900), 1, True)
    supplies = work_out(
        {"bag": card}, {"card": plan(part, per_sheet=0, per_set=0)}, dressing(), workshop()
    )
    assert supplies.cost is None


def test_tools_are_words_with_their_marks_and_hot_glue_needs_its_gun() -> None:
    supplies = work_out({}, {}, dressing(), workshop())
    assert "scoring board, grooves every 0.5 cm" in supplies.tools
    assert {"bone folder", "scissors", "ruler and pencil"} < set(supplies.tools)
    hot = Adhesive("hot glue", AdhesiveKind.HOT_GLUE, MM(3), MM(1))
    with_gun = work_out({}, {}, dressing(strip(MM(50), "hot glue")), workshop(hot))
    assert set(with_gun.tools) - set(supplies.tools) == {"glue gun"}
