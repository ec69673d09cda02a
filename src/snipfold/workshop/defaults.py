"""The workshop that is assumed until the maker says what theirs holds.

Sheet sizes: 12 x 12 in is a trade size that no standard defines; Letter is ANSI/ASME Y14.1 size A;
A4 is ISO 216. Weights are worked out from the basis weight. Tape widths, graduations, grooves and
slips of hand are common practice, no source; adhesive thicknesses are from memory. No prices are
assumed, since none would be true for long.
"""

from __future__ import annotations

from fractions import Fraction

from ..measure import Length, Ruler, System
from .stock import Adhesive, AdhesiveKind, Paper
from .tools import ScoringBoard, Slips, Trimmer
from .weight import grams_per_square_metre, thickness
from .workshop import Workshop


def default_workshop(system: System) -> Workshop:
    """A plain workshop in inches or in metric: its tools, and the papers and adhesives of both.

    The papers and adhesives of `system` come first, so that the first is the usual one.
    """
    if system is System.INCH:
        return Workshop(
            system=system,
            trimmer=Trimmer(Ruler(Length.inch("1/16")), Length.inch(12)),
            board=ScoringBoard(Ruler(Length.inch("1/8")), Length.inch(12)),
            ruler=Ruler(Length.inch("1/16")),
            slips=Slips(Length.inch("1/64"), Length.inch("1/64"), Length.inch("1/32")),
            papers=(*_INCH_PAPERS, *_METRIC_PAPERS),
            adhesives=(*_INCH_TAPES, *_glues(Length.inch("1/8")), *_METRIC_TAPES),
            tape="1/4 in tape",
            mat_adhesive="1/8 in tape",
            page="letter",
            currency="$",
        )
    return Workshop(
        system=system,
        trimmer=Trimmer(Ruler(Length.mm(1)), Length.mm(310)),
        board=ScoringBoard(Ruler(Length.mm(5)), Length.mm(300)),
        ruler=Ruler(Length.mm(1)),
        slips=Slips(Length.mm("0.4"), Length.mm("0.4"), Length.mm("0.8")),
        papers=(*_METRIC_PAPERS, *_INCH_PAPERS),
        adhesives=(*_METRIC_TAPES, *_glues(Length.mm(3)), *_INCH_TAPES),
        tape="6 mm tape",
        mat_adhesive="3 mm tape",
        page="a4",
        currency="€",
    )


def _paper(
    name: str,
    size: tuple[Length, Length],
    gsm: Fraction,
    cousin: str,
    colour: str,
    *,
    directed: bool = False,
    two_sided: bool = True,
) -> Paper:
    return Paper(
        name,
        *size,
        gsm=gsm,
        thickness=thickness(gsm),
        directed=directed,
        two_sided=two_sided,
        colour=colour,
        # One-sided papers show a plain white core.
        back_colour=colour if two_sided else "#FAF7F0",
        cousin=cousin,
    )


_TWELVE = (Length.inch(12), Length.inch(12))
_TWELVE_METRIC = (Length.mm(305), Length.mm(305))
_THIRTY = (Length.mm(300), Length.mm(300))
_LETTER = (Length.inch("17/2"), Length.inch(11))
_A4 = (Length.mm(210), Length.mm(297))
_SIX = (Length.inch(6), Length.inch(6))
_FIFTEEN = (Length.mm(150), Length.mm(150))

_COVER_65 = grams_per_square_metre(Fraction(65), "cover")
_COVER_80 = grams_per_square_metre(Fraction(80), "cover")
_TEXT_80 = grams_per_square_metre(Fraction(80), "text")
_OAT, _LINEN, _CHECK, _SPRIG, _DOT = "#D9C7A3", "#EFE9DC", "#B9CBB4", "#D8B7A6", "#AFC3CC"

_INCH_PAPERS = (
    _paper("oat cardstock 12 x 12 in", _TWELVE, _COVER_65, "oat cardstock 30.5 cm", _OAT),
    _paper("linen cardstock 12 x 12 in", _TWELVE, _COVER_80, "linen cardstock 30.5 cm", _LINEN),
    _paper("small check 12 x 12 in", _TWELVE, _TEXT_80, "small check 30.5 cm", _CHECK,
           two_sided=False),
    _paper("upright sprig 12 x 12 in", _TWELVE, _TEXT_80, "upright sprig 30.5 cm", _SPRIG,
           directed=True, two_sided=False),
    _paper("oat cardstock Letter", _LETTER, _COVER_65, "oat cardstock A4", _OAT),
    _paper("linen cardstock Letter", _LETTER, _COVER_80, "linen cardstock A4", _LINEN),
    _paper("dotted pad 6 x 6 in", _SIX, _TEXT_80, "dotted pad 15 cm", _DOT, two_sided=False),
)  # fmt: skip

_METRIC_PAPERS = (
    _paper("oat cardstock 30.5 cm", _TWELVE_METRIC, Fraction(176), "oat cardstock 12 x 12 in",
           _OAT),
    _paper("linen cardstock 30.5 cm", _TWELVE_METRIC, Fraction(216), "linen cardstock 12 x 12 in",
           _LINEN),
    _paper("small check 30.5 cm", _TWELVE_METRIC, Fraction(120), "small check 12 x 12 in", _CHECK,
           two_sided=False),
    _paper("upright sprig 30.5 cm", _TWELVE_METRIC, Fraction(120), "upright sprig 12 x 12 in",
           _SPRIG, directed=True, two_sided=False),
    _paper("oat cardstock 30 cm", _THIRTY, Fraction(176), "oat cardstock 12 x 12 in", _OAT),
    _paper("small check 30 cm", _THIRTY, Fraction(120), "small check 12 x 12 in", _CHECK,
           two_sided=False),
    _paper("oat cardstock A4", _A4, Fraction(176), "oat cardstock Letter", _OAT),
    _paper("linen cardstock A4", _A4, Fraction(216), "linen cardstock Letter", _LINEN),
    _paper("dotted pad 15 cm", _FIFTEEN, Fraction(120), "dotted pad 6 x 6 in", _DOT,
           two_sided=False),
)  # fmt: skip

#: mm. From memory: thin double-sided tape, a line of liquid glue once dry, a bead of hot glue.
_TAPE_THICKNESS, _GLUE_THICKNESS, _HOT_THICKNESS = Length.mm("0.1"), Length.mm("0.05"), Length.mm(1)

_INCH_TAPES = (
    Adhesive("1/4 in tape", AdhesiveKind.TAPE, Length.inch("1/4"), _TAPE_THICKNESS),
    Adhesive("1/8 in tape", AdhesiveKind.TAPE, Length.inch("1/8"), _TAPE_THICKNESS),
    Adhesive("1/2 in tape", AdhesiveKind.TAPE, Length.inch("1/2"), _TAPE_THICKNESS),
    Adhesive("1/2 in foam tape", AdhesiveKind.FOAM, Length.inch("1/2"), Length.inch("1/16")),
)

_METRIC_TAPES = (
    Adhesive("6 mm tape", AdhesiveKind.TAPE, Length.mm(6), _TAPE_THICKNESS),
    Adhesive("3 mm tape", AdhesiveKind.TAPE, Length.mm(3), _TAPE_THICKNESS),
    Adhesive("12 mm tape", AdhesiveKind.TAPE, Length.mm(12), _TAPE_THICKNESS),
    Adhesive("12 mm foam tape", AdhesiveKind.FOAM, Length.mm(12), Length.mm("1.5")),
)


def _glues(line: Length) -> tuple[Adhesive, ...]:
    """Glues, laid in lines as wide as `line`."""
    return (
        Adhesive("liquid glue", AdhesiveKind.GLUE, line, _GLUE_THICKNESS),
        Adhesive("hot glue", AdhesiveKind.HOT_GLUE, line, _HOT_THICKNESS),
    )
