"""The blind rebuild: fold a box from nothing but the text of its printed guide.

    python tests/rebuild/blind.py guide.pdf

Reads the text of the PDF, recovers every cut, score and fold measure, replays the cuts, folds each
piece from its numbers, and says whether the box closes within 1/16 in. It shares no code with the
project: text by pypdf, turning in space by SciPy (`scipy.spatial.transform.Rotation`).
"""

from __future__ import annotations

import re
import sys
from collections import Counter
from dataclasses import dataclass, field
from fractions import Fraction

import numpy as np
import pypdf
from scipy.spatial.transform import Rotation

#: in. What "closes" means.
CLOSE = 1 / 16

_NUMBER = r"(?:\d+ \d+/\d+|\d+/\d+|\d+\.\d+|\d+)"
_MEASURE = rf"{_NUMBER} (?:in|cm)"
_SIZE = rf"{_NUMBER} × {_NUMBER} (?:in|cm)"
_PAIR = r"[a-z][a-z ]*? \| [a-z][a-z ]*"
_PAIRS = rf"{_PAIR}(?:, {_PAIR})*"
_EDGE = r"(?:left|right|top|bottom) edge of the [a-z][a-z ]*?"


class WrongError(Exception):
    """The numbers of the guide do not make the box that it shows."""


def text_of(path: str) -> str:
    """All text of a PDF in one line, without the footers."""
    pages = []
    for page in pypdf.PdfReader(path).pages:
        lines = page.extract_text().strip().split("\n")
        footer = re.compile(r"page \d+ of \d+$")
        pages.append(" ".join(line for line in lines if not footer.search(line.strip())))
    return re.sub(r"\s+", " ", " ".join(pages))


def inches(measure: str) -> Fraction:
    """A worded measure in inches, exactly."""
    *numbers, unit = measure.split()
    value = sum((Fraction(number) for number in numbers), Fraction(0))
    return value if unit == "in" else value * Fraction(100, 254)


def sides(size: str) -> tuple[Fraction, Fraction]:
    """A worded size in inches."""
    one, other = size.split(" × ")
    return inches(f"{one} {size.rsplit(' ', 1)[1]}"), inches(other)


@dataclass
class Line:
    """A score line: the direction in which it is measured, where it lies, and what it parts."""

    axis: int
    at: Fraction
    pairs: list[tuple[str, str]]


@dataclass
class Piece:
    """What the guide says of one piece."""

    name: str
    width: Fraction
    height: Fraction
    lines: list[Line] = field(default_factory=list)
    folds: dict[tuple[str, str], float] = field(default_factory=dict)
    meets: list[tuple[str, str, str, str]] = field(default_factory=list)


def pairs_of(words: str) -> list[tuple[str, str]]:
    found = []
    for pair in words.split(", "):
        one, other = pair.split(" | ")
        found.append((one.strip(), other.strip()))
    return found


def read_scores(text: str) -> dict[str, Piece]:
    """Every piece with its scores, from the pages headed “Score the …”."""
    pieces: dict[str, Piece] = {}
    heads = list(
        re.finditer(
            r"Score the ([a-z][a-z ]*?)(?:, pass \d+ of \d+)? (?=Lay|Give|Turn|Leave)", text
        )
    )
    for head in heads:
        rest = text[head.end() :]
        name = head[1]
        if name not in pieces:
            size = re.match(rf"Lay the {name}, ({_SIZE}),", rest)
            if size is None:
                raise WrongError(f"{name}: no size on its first scoring page")
            pieces[name] = Piece(name, *sides(size[1]))
        piece = pieces[name]
        lies = re.search(r"(outside|inside) up, (left|right|top|bottom) edge at the fence", rest)
        table = re.search(r"score at (after moving )?(groove )?between ", rest)
        if lies is None or table is None:
            raise WrongError(f"{name}: a scoring page without its table")
        row = re.compile(
            rf"({_MEASURE}) " + (rf"({_MEASURE}) " if table[1] else "()")
            + ("(?:groove(?: (?:after|before) moving)?|between two) " if table[2] else "")
            + rf"({_PAIRS}) ?"
        )  # fmt: skip
        at = table.end()
        first: tuple[Fraction, Fraction] | None = None
        while found := row.match(rest, at):
            position = inches(found[1])
            if found[2]:
                moved = inches(found[2])
                first = first or (position, moved)
                if abs((moved - position) - (first[1] - first[0])) > CLOSE:
                    raise WrongError(f"{name}: the two ways of scoring at {found[1]} differ")
            axis = 0 if lies[2] in ("left", "right") else 1
            if lies[2] in ("right", "top"):
                position = (piece.width if axis == 0 else piece.height) - position
            piece.lines.append(Line(axis, position, pairs_of(found[3])))
            at = found.end()
    if not pieces:
        raise WrongError("no scoring page found")
    return pieces


def read_folds(text: str, pieces: dict[str, Piece]) -> None:
    """How far each score is folded, from the tables headed “fold, closed at, between”."""
    tables = re.finditer(r"Lay the ([a-z][a-z ]*?) with its outside up\. Fold ", text)
    for table in tables:
        piece = pieces[table[1]]
        start = text.index("fold closed at between ", table.end()) + len("fold closed at between ")
        row = re.compile(
            rf"(mountain|valley), (?:away from|towards) you (\d+)° ({_PAIRS}) ?"
            r"(?=(?:mountain|valley), |\d|[A-Z]|$)"
        )
        while found := row.match(text, start):
            angle = float(found[2]) * (-1 if found[1] == "mountain" else 1)
            for pair in pairs_of(found[3]):
                piece.folds[pair] = angle
            start = found.end()


def read_meets(text: str, pieces: dict[str, Piece]) -> None:
    """The edges that must come together, each with the piece whose panels they belong to."""
    for table in re.finditer(r"It is right when, on the ([a-z ]+), this edge meets ", text):
        row = re.compile(
            r"(left|right|top|bottom) edge of the ([a-z][a-z ]*?) "
            r"(left|right|top|bottom) edge of the ([a-z][a-z ]*?)(?= (?:left|right|top|bottom) edge of| \d| [A-Z]|$)"
        )
        start = table.end()
        while found := row.match(text, start):
            pieces[table[1]].meets.append((found[1], found[2], found[3], found[4]))
            start = found.end() + 1


def rectangles(piece: Piece) -> dict[str, list[Fraction]]:
    """Every panel as [left, right, bottom, top], from the score lines and the blank's rim."""
    bounds: dict[str, list[Fraction | None]] = {}
    links: list[tuple[int, str, str]] = []
    for line in piece.lines:
        for one, other in line.pairs:
            for name in (one, other):
                bounds.setdefault(name, [None, None, None, None])
            if line.axis == 0:
                bounds[one][1], bounds[other][0] = line.at, line.at
            else:
                bounds[one][2], bounds[other][3] = line.at, line.at
            links.append((line.axis, one, other))
    # Panels beside each other share the other direction.
    for _ in range(len(bounds)):
        for axis, one, other in links:
            for side in (2, 3) if axis == 0 else (0, 1):
                known = bounds[one][side] if bounds[one][side] is not None else bounds[other][side]
                for name in (one, other):
                    if bounds[name][side] is None:
                        bounds[name][side] = known
    rim = (Fraction(0), piece.width, Fraction(0), piece.height)
    return {
        name: [rim[k] if value is None else value for k, value in enumerate(sides_)]
        for name, sides_ in bounds.items()
    }


def folded(piece: Piece) -> dict[str, np.ndarray]:
    """Every panel's corners in space, in: left bottom, right bottom, right top, left top."""
    flat = rectangles(piece)
    beside: dict[str, list[tuple[str, Line, tuple[str, str]]]] = {name: [] for name in flat}
    for line in piece.lines:
        for pair in line.pairs:
            beside[pair[0]].append((pair[1], line, pair))
            beside[pair[1]].append((pair[0], line, pair))
    root = max(beside, key=lambda name: len(beside[name]))
    turned: dict[str, tuple[Rotation, np.ndarray]] = {root: (Rotation.identity(), np.zeros(3))}
    waiting = [root]
    for parent in waiting:
        rotation, shift = turned[parent]
        for child, line, pair in beside[parent]:
            if child in turned:
                continue
            if pair not in piece.folds:
                raise WrongError(f"{piece.name}: no fold given between {pair[0]} and {pair[1]}")
            hinge = np.array([float(line.at), 0, 0] if line.axis == 0 else [0, float(line.at), 0])
            axis = np.array([0.0, 1, 0] if line.axis == 0 else [1.0, 0, 0])
            # The first of a pair lies left of an upright line or above a level one: on the left
            # of the axis. Lifting it towards the viewer is a turn by the right-hand rule.
            sign = 1 if child == pair[0] else -1
            local = Rotation.from_rotvec(axis * sign * np.radians(piece.folds[pair]))
            turned[child] = (
                rotation * local,
                rotation.apply(hinge - local.apply(hinge)) + shift,
            )
            waiting.append(child)
    placed = {}
    for name, (left, right, low, high) in flat.items():
        corners = np.array(
            [[left, low, 0], [right, low, 0], [right, high, 0], [left, high, 0]], dtype=float
        )
        rotation, shift = turned[name]
        placed[name] = rotation.apply(corners) + shift
    return placed


_ENDS = {"bottom": (0, 1), "right": (1, 2), "top": (2, 3), "left": (3, 0)}


def gap(placed: dict[str, np.ndarray], meet: tuple[str, str, str, str]) -> float:
    """How far apart two edges end that should meet, in."""
    edge, one, other_edge, other = meet
    a, b = (placed[one][k] for k in _ENDS[edge])
    c, d = (placed[other][k] for k in _ENDS[other_edge])
    same = max(np.linalg.norm(a - c), np.linalg.norm(b - d))
    crossed = max(np.linalg.norm(a - d), np.linalg.norm(b - c))
    return float(min(same, crossed))


def check_folding(text: str, pieces: dict[str, Piece]) -> dict[str, float]:
    """The worst gap of each piece, in. Raises `WrongError` where a piece does not close."""
    worst = {}
    for piece in pieces.values():
        for line in piece.lines:
            size = piece.width if line.axis == 0 else piece.height
            if not 0 < line.at < size:
                raise WrongError(f"{piece.name}: a score off the piece")
        placed = folded(piece)
        if not piece.meets:
            raise WrongError(f"{piece.name}: the guide does not say which edges meet")
        worst[piece.name] = max(gap(placed, meet) for meet in piece.meets)
        if worst[piece.name] > CLOSE:
            raise WrongError(f"{piece.name}: open by {worst[piece.name]:.4f} in")
        # A panel that hangs on one score and meets nothing may be snipped shorter than the blank.
        parted = Counter(name for line in piece.lines for pair in line.pairs for name in pair)
        meeting = {name for meet in piece.meets for name in (meet[1], meet[3])}
        walls = [name for name in placed if parted[name] > 1 or name in meeting]
        points = np.vstack([placed[name] for name in walls])
        size = sorted(points.max(axis=0) - points.min(axis=0))
        said = re.search(
            rf"Finished size width depth height .*?\b{piece.name.capitalize()} "
            rf"({_MEASURE}) ({_MEASURE}) ({_MEASURE})",
            text,
        )
        if said is None:
            raise WrongError(f"{piece.name}: no finished size")
        wanted = sorted(float(inches(said[k])) for k in (1, 2, 3))
        off = max(abs(a - b) for a, b in zip(size, wanted, strict=True))
        if off > CLOSE:
            raise WrongError(f"{piece.name}: folds {off:.4f} in off its finished size")
    return worst


def check_cuts(text: str, pieces: dict[str, Piece]) -> int:
    """The number of cuts replayed. Raises `WrongError` where they do not give the pieces."""
    sheets = {sides(size) for size in re.findall(rf"({_SIZE}) \d+ g/m²", text)}
    name = r"[a-z][a-z, ]*?"
    row = re.compile(
        rf"(?:\d+ ({_MEASURE}) )?(?:(\d+) × )?({name}), ({_SIZE}) ({_MEASURE}) edge "
        rf"(?:(\d+) times )?({name}), ({_SIZE}) ({name}), ({_SIZE}) ?"
    )
    heads = re.compile(r"cut set the trimmer to put in on the ruler comes off ?stays ")
    have: Counter[tuple[str, Fraction, Fraction]] = Counter()
    done = 0
    at = Fraction(0)
    for found in row.finditer(heads.sub("", text)):
        at = inches(found[1]) if found[1] else at
        put_in, size, along = found[3], sides(found[4]), inches(found[5])
        off, stays = (found[7], *sides(found[8])), (found[9], *sides(found[10]))
        for _ in range(int(found[2] or 1)):
            if put_in == "sheet":
                if size not in sheets:
                    raise WrongError(f"a sheet of {found[4]} is cut, and none is needed")
            elif have[(put_in, *size)] < 1:
                raise WrongError(f"no {put_in}, {found[4]}, has been cut to put in")
            else:
                have[(put_in, *size)] -= 1
            times = int(found[6] or 1)
            ways = []
            for axis in (0, 1):
                if size[axis] == along:
                    one, rest = list(size), list(size)
                    one[axis], rest[axis] = at, along - at * times
                    ways.append(((off[0], *one), (stays[0], *rest)))
            if (off, stays) not in ways:
                raise WrongError(f"{put_in}, {found[4]}, gives other sizes than the guide says")
            have[off] += times
            have[stays] += 1
            done += times
    if not done:
        raise WrongError("no cut found")
    for piece in pieces.values():
        size = (piece.width, piece.height)
        if not any(have[(piece.name, *way)] for way in (size, size[::-1])):
            raise WrongError(f"{piece.name}: not among what is cut")
    for name, copies, size in re.findall(
        rf"([A-Z][a-z, ]*?)(?: × (\d+))? ({_SIZE}) (?=[a-z])", card_of(text)
    ):
        first = "mat" if name.endswith(" mat") else name[0].lower() + name[1:]
        count = sum(have[(first, *way)] for way in {sides(size), sides(size)[::-1]})
        if count < int(copies or 1):
            raise WrongError(f"{first}: {copies or 1} on the card, {count} among what is cut")
    return done


def card_of(text: str) -> str:
    """The cut table of the card."""
    at = text.rindex("Cut part size from ")
    return text[at + len("Cut part size from ") : text.index(" Score piece lies at ", at)]


def check_card(text: str, pieces: dict[str, Piece]) -> None:
    """Raise `WrongError` where the card's score positions are not those of the scoring pages."""
    at = text.rindex("Score piece lies at ")
    rows = re.finditer(
        rf"([A-Z][a-z ]*?) (?:outside|inside) up, (left|right|top|bottom) edge at the fence"
        rf"(?: \(the edge of the [a-z ]+\))? ((?:{_MEASURE}(?:, )?)+)",
        text[at:],
    )
    said: Counter[tuple[str, int, Fraction]] = Counter()
    for row in rows:
        piece = pieces[row[1].lower()]
        axis = 0 if row[2] in ("left", "right") else 1
        whole = piece.width if axis == 0 else piece.height
        for measure in re.findall(_MEASURE, row[3]):
            position = inches(measure)
            said[
                (piece.name, axis, whole - position if row[2] in ("right", "top") else position)
            ] += 1
    drawn = Counter((p.name, line.axis, line.at) for p in pieces.values() for line in p.lines)
    if said != drawn:
        raise WrongError("the card and the scoring pages give different scores")


def rebuild(text: str) -> dict[str, float]:
    """The worst gap of each piece, in, of the box that the text describes.

    Raises `WrongError` where the numbers do not agree, or the box does not close within 1/16 in.
    """
    pieces = read_scores(text)
    read_folds(text, pieces)
    read_meets(text, pieces)
    check_cuts(text, pieces)
    check_card(text, pieces)
    return check_folding(text, pieces)


def main(path: str) -> int:
    """Rebuild the box of one guide and say how it went; 0 where it closes."""
    text = text_of(path)
    try:
        gaps = rebuild(text)
    except WrongError as wrong:
        print(f"{path}: {wrong}")
        return 1
    for name, worst in gaps.items():
        print(f"{name}: closes within {worst:.6f} in")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
