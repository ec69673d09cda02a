"""Sizes as data: what was asked for, every candidate, and what is no use.

Documented in `docs/schema/README.md`; the JSON Schema is `docs/schema/fit.schema.json`. Names are
only ever added; a change of meaning raises `VERSION`.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from fractions import Fraction

from .. import __version__
from ..measure import Length, System
from ..sizing import Candidate, Fitted, Roomiest, Wish, Yield, YieldStep
from ..sizing.telling import contents_words
from ..styles import Style
from ..workshop import Paper
from .plain import Json, length_data

FIT_FORMAT, STEPS_FORMAT = "snipfold fit", "snipfold yields"
VERSION = 1


def fit_json(fitted: Fitted, wish: Wish, paper: Paper, system: System) -> str:
    """The candidates as JSON text, best first, the same bytes each time."""
    head = None if wish.head_room is None else length_data(wish.head_room, system)
    return _dumped(
        {
            **_head(FIT_FORMAT, paper, system),
            "contents": contents_words(wish.contents, system),
            "allowance": length_data(wish.allowance, system),
            "head_room": head,
            "candidates": [_candidate(one, system) for one in fitted.candidates],
            "unfit": [{"style": one.style.name, "reason": one.reason} for one in fitted.unfit],
        }
    )


def steps_json(
    style: Style,
    vary: str,
    steps: Sequence[YieldStep],
    most: Roomiest | None,
    paper: Paper,
    system: System,
) -> str:
    """Where the yield changes, and the most room where it was asked for, as JSON text."""
    return _dumped(
        {
            **_head(STEPS_FORMAT, paper, system),
            "style": style.name,
            "varies": vary,
            "steps": [
                {"size": length_data(step.size, system), "yield": _yield(step.got)}
                for step in steps
            ],
            "most_room": None
            if most is None
            else {
                "measures": _lengths(most.size.said, system),
                "clear": _lengths(most.size.clear, system),
                "room_mm3": _exact(most.room_mm3),
                "yield": _yield(most.got),
                "proven": most.proven,
            },
        }
    )


def _head(form: str, paper: Paper, system: System) -> Json:
    return {
        "format": form,
        "version": VERSION,
        "program": f"snipfold {__version__}",
        "units": system.value,
        "sheet": {
            "paper": paper.name,
            "width": length_data(paper.usable_width, system),
            "height": length_data(paper.usable_height, system),
        },
    }


def _candidate(one: Candidate, system: System) -> Json:
    sides = zip(("width", "depth", "height"), one.bunch.sides, strict=True)
    return {
        "style": one.style.name,
        "arrangement": {"says": one.bunch.says, **_lengths(dict(sides), system)},
        "makes_room": list(one.said),
        "measures": _lengths(one.measures, system),
        "clear": _lengths(one.clear, system),
        "spare": _lengths(one.spare, system),
        "pieces": [
            {
                "name": piece.name,
                "width": length_data(piece.width, system),
                "height": length_data(piece.height, system),
            }
            for piece in one.construction.pieces
        ],
        "yield": _yield(one.got),
        "waste": _exact(one.waste),
        "numbers": [length_data(length, system) for length in one.numbers],
        "unkindness": one.unkindness,
    }


def _yield(got: Yield) -> Json:
    return {"sets_per_sheet": got.sets, "sheets_per_set": got.sheets, "proven": got.proven}


def _lengths(lengths: Mapping[str, Length], system: System) -> Json:
    return {name: length_data(length, system) for name, length in lengths.items()}


def _exact(value: Fraction) -> Json:
    return {"exact": str(value), "about": round(float(value), 6)}


def _dumped(data: Json) -> str:
    return json.dumps(data, ensure_ascii=False, indent=1, allow_nan=False) + "\n"
