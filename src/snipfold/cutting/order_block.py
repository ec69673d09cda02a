"""What is cut from a sheet, without saying yet where: pieces set side by side and stacked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple, Protocol

from .grid import Size
from .plan import Axis


class HasPieces(Protocol):
    """Something with pieces in it."""

    @property
    def pieces(self) -> Iterator[int]:
        """The kind of each piece."""


class Block(NamedTuple):
    """A piece of `kind`, or other blocks in a row along `axis`; with the least size that holds it.

    Blocks in a row are never rows along the same axis themselves.
    """

    width: int
    height: int
    axis: Axis | None
    kind: int
    parts: tuple[Block, ...]

    @property
    def pieces(self) -> Iterator[int]:
        """The kind of each piece."""
        if self.axis is None:
            yield self.kind
        for part in self.parts:
            yield from part.pieces


def piece(kind: int, pose: Size) -> Block:
    """One piece, lying so."""
    return Block(*pose, None, kind, ())


def row(axis: Axis, blocks: Iterable[Block]) -> Block | None:
    """The blocks in a row along the axis, side by side (ACROSS) or stacked (UP); None of none."""
    parts: list[Block] = []
    for block in blocks:
        parts += block.parts if block.axis is axis else [block]
    if len(parts) < 2:
        return parts[0] if parts else None
    parts.sort(key=_order, reverse=True)
    if axis is Axis.ACROSS:
        width, height = sum(p.width for p in parts), max(p.height for p in parts)
    else:
        width, height = max(p.width for p in parts), sum(p.height for p in parts)
    return Block(width, height, axis, -1, tuple(parts))


def _order(block: Block) -> tuple[int, int, bool, int]:
    return block.width, block.height, block.axis is None, block.kind


def counted(block: HasPieces | None, kinds: int) -> tuple[int, ...]:
    """How many pieces of each kind a block, or what is laid out, holds."""
    counts = [0] * kinds
    for kind in block.pieces if block else ():
        counts[kind] += 1
    return tuple(counts)
