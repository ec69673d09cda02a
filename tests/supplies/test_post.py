"""A stuffed envelope: weight, thickness."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from snipfold.measure import Length, System
from snipfold.supplies import FlatPart, post
from snipfold.workshop import Embellishment, Envelope, Paper, thickness

MM = Length.mm
A4 = Paper("A4", MM(210), MM(297), Fraction(80), thickness(Fraction(80), Fraction(3, 2)))
CARD = Paper("card", MM(300), MM(300), Fraction(200), MM("0.25"))


def test_five_sheets_of_a4_weigh_five_times_one() -> None:
    """ISO 536 and ISO 216: an A4 sheet of 80 g/m2 weighs 4.9896 g
    (0.0623700 m2, https://www.igt.nl/laboratory-testing/basic-properties/); and at volume 1.5 it is
    0.120 mm thick (https://www.dcc-kaestl.com/glossary/papiervolumen/)."""
    posted = post([FlatPart(A4, MM(210), MM(297), 5)], (), (), System.METRIC)
    assert posted.weight == 5 * Fraction("4.9896")
    assert posted.thickness == MM("0.6")
    assert posted.published is not None
    assert posted.published.name == "ISO C4"


def test_weight_is_exact_and_thickness_is_one_pile() -> None:
    """100 x 50 mm and two of 30 x 30 mm at 200 g/m2: 1 g and 2 x 0.18 g; three layers."""
    parts = [FlatPart(CARD, MM(100), MM(50), 1), FlatPart(CARD, MM(30), MM(30), 2)]
    posted = post(parts, (), (), System.METRIC)
    assert posted.weight == Fraction("1.36")
    assert posted.thickness == MM("0.75")
    assert posted.largest == (MM(100), MM(50))


def test_the_makers_own_envelope_and_embellishments_count_where_measured() -> None:
    own = Envelope("kit", MM(120), MM(80), weight=Fraction(4), thickness=MM("0.3"))
    brad = Embellishment("brad", weight=Fraction("0.5"), thickness=MM(2))
    part = FlatPart(CARD, MM(100), MM(50), 1)
    posted = post([part], [(brad, 4)], [own], System.METRIC)
    assert posted.envelope == own
    assert posted.weight == 1 + 4 + 4 * Fraction("0.5")
    assert posted.thickness == MM("0.25") + MM("0.3") + MM(2)
    assert posted.unweighed == posted.unmeasured == ()


def test_what_was_not_weighed_is_named_and_never_guessed() -> None:
    own = Envelope("kit", MM(120), MM(80))
    posted = post(
        [FlatPart(CARD, MM(100), MM(50), 1)], [(Embellishment("bow"), 1)], [own], System.METRIC
    )
    assert posted.weight == 1
    assert posted.unweighed == ("bow", "kit")


def test_the_smallest_of_the_makers_own_envelopes_is_taken_with_its_walls_counted() -> None:
    """60 x 54 flat holds 50 mm across up to 4 mm thick; walls of 5 mm are too much for it."""
    small = Envelope("small", MM(110), MM(54))
    large = Envelope("large", MM(200), MM(100))
    part = FlatPart(CARD, MM(100), MM(50), 1)
    assert post([part], (), [large, small], System.METRIC).envelope == small
    padded = replace(small, thickness=MM(5))
    assert post([part], (), [large, padded], System.METRIC).envelope == large


def test_an_empty_kit_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one part"):
        post((), (), (), System.INCH)
