"""What must hold of any flat piece, whoever built it."""

from __future__ import annotations

from ..findings import Finding, Severity
from ..measure import Length, System, words
from .piece import EdgeKind, FlatPiece, area


def flat_findings(piece: FlatPiece, system: System) -> tuple[Finding, ...]:
    """Every break of the flat laws: panels that are not parted, and blanks that are not covered."""
    return (*_plain_edges(piece, system), *_covering(piece))


def _plain_edges(piece: FlatPiece, system: System) -> list[Finding]:
    found = []
    for edge in piece.edges:
        if edge.kind is not EdgeKind.PLAIN:
            continue
        (x0, y0), (x1, y1) = piece.vertices[edge.start], piece.vertices[edge.end]
        # Plain edges run along the rows and columns of a blank; a slanting one is rounded.
        length = (
            Length.mm(abs(x1 - x0) + abs(y1 - y0))
            if x0 == x1 or y0 == y1
            else Length.figure(float((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5)
        )
        found.append(
            Finding(
                "snip.missing",
                Severity.ERROR,
                (piece.name, edge.left, edge.right),
                f"{piece.name}: {edge.left} and {edge.right} are still joined over "
                f"{words(length, system)}, so neither can fold",
                f"snip between {edge.left} and {edge.right}, {words(length, system)} long",
                length,
            )
        )
    return found


def _covering(piece: FlatPiece) -> list[Finding]:
    covered = sum((area(p.corners) for p in piece.panels), start=piece.width.as_mm * 0)
    covered += sum(area(s.corners) for s in piece.snips if len(s.corners) > 2)
    missing = piece.width.as_mm * piece.height.as_mm - covered
    if missing == 0:
        return []
    return [
        Finding(
            "flat.not-covered",
            Severity.ERROR,
            (piece.name,),
            f"{piece.name}: panels and snips differ from the blank by {float(abs(missing)):.3f} mm2",
            "measure the panels again: across and up, their sums must be the size of the blank",
        )
    ]
