"""Views: how the box lies, and from where it is seen, in parallel projection."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin

from ..folding import Vec


@dataclass(frozen=True, slots=True)
class View:
    """A parallel view: the picture's axes as unit directions in space, and how the box lies.

    `right` and `up` run along the picture, `toward` from it to the viewer; `ground` points away
    from the table. `lies` says how the box lies and `seen` from where, in words.
    """

    right: Vec
    up: Vec
    toward: Vec
    ground: Vec
    lies: str
    seen: str

    def place(self, at: Vec) -> Vec:
        """A point of space in the picture: x right, y up, z nearer to the viewer."""
        return Vec(at.dot(self.right), at.dot(self.up), at.dot(self.toward))


#: How the box may lie: words, its right, its depth away from the maker, its up.
_LIES = (
    ("standing", Vec(1, 0, 0), Vec(0, 1, 0), Vec(0, 0, 1)),
    ("lying on its front, the bottom towards you", Vec(-1, 0, 0), Vec(0, 0, 1), Vec(0, 1, 0)),
    ("lying on its back, the bottom towards you", Vec(1, 0, 0), Vec(0, 0, 1), Vec(0, -1, 0)),
    ("upside down", Vec(-1, 0, 0), Vec(0, 1, 0), Vec(0, 0, -1)),
)
#: From where: words, degrees to the right of straight ahead.
_SEEN = (
    ("from the front right", 34.0),
    ("from the front left", -34.0),
    ("from the back right", 146.0),
    ("from the back left", -146.0),
)


def view(lies: int, seen: int, tilt_degrees: float) -> View:
    """The view of a box that lies in way number `lies`, seen from side `seen`, from so far above."""
    words, x, y, z = _LIES[lies]
    side, turn = _SEEN[seen]
    c, s = cos(radians(turn)), sin(radians(turn))
    ce, se = cos(radians(tilt_degrees)), sin(radians(tilt_degrees))
    nothing = Vec(0, 0, 0)
    level = nothing.plus(x, s).plus(y, -c)
    right = nothing.plus(x, c).plus(y, s)
    toward = nothing.plus(level, ce).plus(z, se)
    up = nothing.plus(level, -se).plus(z, ce)
    return View(right, up, toward, z, words, f"{side} and above")


#: The view in which finished boxes are shown.
FRONT_RIGHT = view(0, 0, 27.0)
#: The view in which flat ones are shown.
FROM_ABOVE = view(0, 0, 52.0)
FRONT_LEFT = view(0, 1, 27.0)
BACK_RIGHT = view(0, 2, 27.0)
BACK_LEFT = view(0, 3, 27.0)


def candidates(outward: Vec) -> tuple[View, ...]:
    """The views that a step may be drawn in, the likeliest first.

    `outward` is where the panel looks that stays still on the closed box: one that looks down
    stands as it is, a top that looks up is worked on upside down, and a wall may lie on the table.
    """
    if outward.z > 0.5:
        lies: tuple[int, ...] = (3,)
    elif outward.z < -0.5:
        lies = (0,)
    else:
        lies = (0, 1, 2)
    return tuple(
        view(way, seen, tilt) for way in lies for tilt in (27.0, 46.0) for seen in range(len(_SEEN))
    )
