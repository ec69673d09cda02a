"""What a stuffed envelope weighs, and how thick it is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..measure import ZERO, Length, System, total
from ..workshop import Embellishment, Envelope, Paper
from .envelopes import EASE, PUBLISHED, smallest

_MM2_IN_M2 = 10**6


@dataclass(frozen=True, slots=True)
class FlatPart:
    """A part that lies flat in the envelope: its paper, its size as cut, and how many."""

    paper: Paper
    width: Length
    height: Length
    count: int

    @property
    def weight(self) -> Fraction:
        """Grams, exactly, of all of them. Source: ISO 536, grammage is mass over area."""
        area = self.width.as_mm * self.height.as_mm
        return self.paper.gsm * area * self.count / _MM2_IN_M2

    @property
    def thickness(self) -> Length:
        """All of them on one pile."""
        return self.paper.thickness * self.count


@dataclass(frozen=True, slots=True)
class Posted:
    """One stuffed envelope.

    `weight` is in grams, exactly, of all that can be weighed; `unweighed` names the rest.
    `thickness` is that of everything on one pile, so at most that; `unmeasured` names what it
    leaves out. `envelope` is the smallest of the maker's own that takes the parts and `published`
    the smallest published size of their system; None where none does. `largest` is the part that
    an envelope must take.
    """

    weight: Fraction
    unweighed: tuple[str, ...]
    thickness: Length
    unmeasured: tuple[str, ...]
    envelope: Envelope | None
    published: Envelope | None
    largest: tuple[Length, Length]


def post(
    parts: Sequence[FlatPart],
    embellishments: Iterable[tuple[Embellishment, int]],
    envelopes: Sequence[Envelope],
    system: System,
) -> Posted:
    """The envelope of one kit: `parts`, and so many of each embellishment.

    `envelopes` are the maker's own. Raises `ValueError` for a kit without parts.
    """
    if not parts:
        raise ValueError("a kit has at least one part")
    extras = list(embellishments)
    weight = sum((part.weight for part in parts), Fraction(0))
    weight += sum((one.weight * count for one, count in extras if one.weight is not None), 0)
    pile = total(part.thickness for part in parts)
    # Small things lie beside each other: the thickest of each kind counts once.
    pile += max((one.thickness for one, _ in extras if one.thickness is not None), default=ZERO)
    sizes = [(part.width, part.height) for part in parts]
    own = min(
        (
            one
            for one in envelopes
            if smallest((one,), sizes, pile + (one.thickness or ZERO), EASE[system])
        ),
        key=lambda one: (one.width.as_mm * one.height.as_mm, max(one.width, one.height)),
        default=None,
    )
    unweighed = [one.name for one, _ in extras if one.weight is None]
    unmeasured = [one.name for one, _ in extras if one.thickness is None]
    if own is not None and own.weight is not None:
        weight += own.weight
    else:
        unweighed.append(own.name if own is not None else "envelope")
    if own is not None and own.thickness is not None:
        walls = own.thickness
    else:
        walls = ZERO
        unmeasured.append(own.name if own is not None else "envelope")
    return Posted(
        weight,
        tuple(unweighed),
        pile + walls,
        tuple(unmeasured),
        own,
        smallest(PUBLISHED[system], sizes, pile, EASE[system]),
        max(sizes, key=lambda size: (max(size), min(size))),
    )
