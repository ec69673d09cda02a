"""What a panel is called where several pieces may have one of its name."""

from __future__ import annotations

from ..styles import Construction


def panel_key(construction: Construction, piece: str, panel: str) -> str:
    """The panel's name alone ("front"), or with its piece ("base front wall") where that is needed.

    Needed is the piece where several pieces have a panel of that name.
    """
    having = sum(any(own.name == panel for own in one.panels) for one in construction.pieces)
    return panel if having <= 1 else f"{piece} {panel}"


def panel_keys(construction: Construction) -> dict[str, tuple[str, str]]:
    """Every panel's key, with its piece and its name there."""
    return {
        panel_key(construction, piece.name, panel.name): (piece.name, panel.name)
        for piece in construction.pieces
        for panel in piece.panels
    }
