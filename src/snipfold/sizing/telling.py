"""Candidates and yields in words, for whoever prints, draws or publishes them."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from ..measure import Length, Ruler, System, number, typeset_number, unit_word, words
from ..scoring.kindness import unkindness
from .bunch import Bunch
from .contents import Block, Contents, Loose, Round, Treats
from .fit import Candidate
from .yields import Yield

#: The finest mark that numbers of a hardness need, in words.
_FINEST = {
    System.INCH: {0: "whole inches", **{n: f"1/{2**n} in" for n in range(1, 7)}},
    System.METRIC: {0: "whole cm", 1: "5 mm", 2: "1 mm", 3: "0.5 mm"},
}


def size_words(said: Mapping[str, Length], system: System, *, typeset: bool = False) -> str:
    """Measures as a maker says them, the unit once: "width 3, depth 1 1/2, height 4 in"."""
    figure = typeset_number if typeset else number
    named = ", ".join(
        f"{name.replace('_', ' ')} {figure(length, system)}" for name, length in said.items()
    )
    return f"{named} {unit_word(system)}"


#: The clear inside is told to the mark below.
_CLEAR = {System.INCH: Ruler(Length.inch("1/32")), System.METRIC: Ruler(Length.mm("0.5"))}


def clear_words(clear: Mapping[str, Length], system: System) -> str:
    """The clear inside, rounded down: "2 3/4 × 1 1/2 × 4 in", across, deep, high as bounded."""
    marks = _CLEAR[system]
    sides = " × ".join(number(marks.below(length), system) for length in clear.values())
    return f"{sides} {unit_word(system)}"


def yield_words(got: Yield) -> str:
    """What a sheet gives: "3 sets", "1 set of 2 sheets", "none"; "at least" where more may do."""
    least = "" if got.proven else "at least "
    if got.sets:
        return f"{least}{got.sets} {'set' if got.sets == 1 else 'sets'}"
    return f"1 set of {got.sheets} sheets" if got.sheets else "none"


def percent_words(share: Fraction) -> str:
    """A share in whole per cent, half up."""
    return f"{(share * 100 + Fraction(1, 2)).__floor__()} %"


def finest_words(candidate: Candidate, system: System) -> str:
    """The finest mark that any of its numbers needs."""
    hardest = max((unkindness(one, system) for one in candidate.numbers), default=0)
    return _FINEST[system].get(hardest, "off the ruler")


def bunch_words(bunch: Bunch, system: System) -> str:
    """How treats are arranged, and the block that they fill."""
    sides = " × ".join(number(side, system) for side in bunch.sides)
    return f"{bunch.says}: {sides} {unit_word(system)}"


def contents_words(contents: Contents, system: System) -> str:
    """What goes in, in words."""
    if isinstance(contents, Loose):
        millilitres = contents.volume_mm3 / 1000
        share = "" if contents.share == 1 else f", which fill {percent_words(contents.share)}"
        return f"loose, {float(millilitres):.0f} ml{share}"
    return "; ".join(_lot_words(lot, system) for lot in contents)


def _lot_words(lot: Treats, system: System) -> str:
    shape, many = lot.shape, lot.count > 1
    count = str(lot.count) if many else "one"
    if isinstance(shape, Block):
        sides = " × ".join(number(side, system) for side in (shape.width, shape.depth))
        return f"{count} of {sides} × {words(shape.height, system)}"
    if isinstance(shape, Round):
        across = number(shape.across, system)
        return f"{count} round, {across} across and {words(shape.height, system)} tall"
    return f"{count} {'balls' if many else 'ball'}, {words(shape.across, system)} across"
