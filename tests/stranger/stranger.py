"""A stranger's check of a published design: reads the JSON alone and shares no code with us.

Rotations are scipy's, areas and overlaps are shapely's, fractions are Python's. What the document
means is taken from docs/schema/README.md.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import numpy as np
from scipy.optimize import linprog
from scipy.spatial.transform import Rotation
from shapely import Polygon, box, unary_union

Json = dict[str, Any]

#: mm; a millionth of an inch.
CLOSE = 25.4e-6
#: mm2
SLIVER = 1e-6


def complaints(design: Json) -> list[str]:
    """Everything that does not add up; nothing where all does."""
    found: list[str] = []
    for piece in design["pieces"]:
        found += _lengths(piece) + _tiling(piece) + _scores(piece) + _scoring(piece)
        found += _dressed(design, piece)
    folded = {piece["name"]: fold(piece) for piece in design["pieces"]}
    for piece in design["pieces"]:
        found += _closing(piece, folded[piece["name"]])
        found += _contacts(piece, folded[piece["name"]])
        found += _glue(piece, folded[piece["name"]])
    found += _lengths(design) + _room(design, folded) + _slides(design, folded)
    found += _strap(design) + _steps(design) + _adhesive(design)
    for plan in design["cutting"]:
        found += _cutting(design, plan)
    return found


def mm(length: Json) -> Fraction:
    """A length exactly, mm."""
    return Fraction(length["exact"])


def polygon(corners: list[list[float]]) -> Polygon:
    return Polygon(corners)


def panels(piece: Json) -> dict[str, Json]:
    return {panel["name"]: panel for panel in piece["panels"]}


def _lengths(value: Any, at: str = "") -> list[str]:
    """Every length says the same in mm and exactly."""
    if isinstance(value, dict):
        if set(value) == {"mm", "exact", "words"}:
            same = math.isclose(value["mm"], float(mm(value)), rel_tol=1e-12)
            return [] if same else [f"{at}: {value} says two things"]
        return [one for key, item in value.items() for one in _lengths(item, f"{at}.{key}")]
    if isinstance(value, list):
        return [
            one for number, item in enumerate(value) for one in _lengths(item, f"{at}.{number}")
        ]
    return []


# ---- the flat piece


def _tiling(piece: Json) -> list[str]:
    found = []
    parts = {name: polygon(panel["polygon"]) for name, panel in panels(piece).items()}
    parts |= {
        f"snip {snip['name']}": polygon(snip["polygon"])
        for snip in piece["snips"]
        if len(snip["polygon"]) > 2
    }
    names = list(parts)
    for name, part in parts.items():
        if not part.exterior.is_ccw or not part.is_valid:
            found.append(f"{piece['name']}: {name} does not run anticlockwise")
    for index, one in enumerate(names):
        for other in names[index + 1 :]:
            if parts[one].intersection(parts[other]).area > SLIVER:
                found.append(f"{piece['name']}: {one} and {other} overlap")
    blank = box(0, 0, piece["width"]["mm"], piece["height"]["mm"])
    if unary_union(list(parts.values())).symmetric_difference(blank).area > SLIVER:
        found.append(f"{piece['name']}: panels and snips are not the blank")
    if piece["left_joined"]:
        found.append(f"{piece['name']}: panels left joined")
    return found


def _scores(piece: Json) -> list[str]:
    """Every score is a side of both its panels, with the first on its left."""
    found = []
    known = panels(piece)
    for score in piece["scores"]:
        start, end = np.array(score["start"]), np.array(score["end"])
        along = end - start
        left = np.array([-along[1], along[0]])
        for name, side in zip(score["panels"], (1, -1), strict=True):
            outline = polygon(known[name]["polygon"])
            ends = (outline.exterior.distance(_shape(p)) for p in (start, end))
            if max(ends) > CLOSE:
                found.append(f"{piece['name']}: the score {score['panels']} is no side of {name}")
            centre = np.array(outline.centroid.coords[0])
            if side * left @ (centre - start) <= 0:
                found.append(f"{piece['name']}: {name} lies on the wrong side of its score")
    return found


def _shape(point: np.ndarray) -> Any:
    from shapely import Point

    return Point(point)


def _scoring(piece: Json) -> list[str]:
    """Every score is scored once, where the plan says, with the bead on the right face."""
    found = []
    plan = piece["scoring"]
    width, height = piece["width"]["mm"], piece["height"]["mm"]
    scored: list[frozenset[str]] = []
    by_pair = {frozenset(score["panels"]): score for score in piece["scores"]}
    for one in plan["passes"]:
        for line in one["lines"]:
            up = {"mountain": "outside", "valley": "inside"}[line["fold"]]
            if one["face_up"] != up:
                found.append(f"{piece['name']}: a {line['fold']} scored {one['face_up']} up")
            if one["shift"] is not None:
                moved = mm(line["shifted"]) - mm(one["shift"])
                if abs(moved - mm(line["ruled"])) > 0:
                    found.append(f"{piece['name']}: shifted to {line['shifted']}")
            for pair in line["panels"]:
                score = by_pair[frozenset(pair)]
                scored.append(frozenset(pair))
                for x, y in (score["start"], score["end"]):
                    there = {"left": x, "right": width - x, "bottom": y, "top": height - y}
                    if abs(there[one["fence"]] - line["position"]["mm"]) > CLOSE:
                        found.append(f"{piece['name']}: {pair} is not at {line['position']}")
                if score["fold"] != line["fold"]:
                    found.append(f"{piece['name']}: {pair} folds the other way")
    slanting = [frozenset(pair) for pair in plan["slanting"]]
    if sorted(map(sorted, scored + slanting)) != sorted(map(sorted, by_pair)):
        found.append(f"{piece['name']}: not every score is scored once")
    return found


def _dressed(design: Json, piece: Json) -> list[str]:
    """Mats keep their border, and lie on no glue."""
    found = []
    known = panels(piece)
    for mat in design["mats"]:
        if mat["piece"] != piece["name"]:
            continue
        outline, panel = polygon(mat["polygon"]), polygon(known[mat["panel"]]["polygon"])
        border = mat["border"]["mm"]
        name = f"{piece['name']}: the mat on {mat['panel']}"
        inner = panel.buffer(-border, join_style="mitre")
        if outline.difference(inner.buffer(CLOSE)).area > SLIVER:
            found.append(f"{name} comes nearer than its border")
        if mm(mat["border_total"]) != 2 * mm(mat["border"]):
            found.append(f"{name} has a border in total that is not twice that of a side")
        sizes = sorted((mat["width"]["mm"], mat["height"]["mm"]))
        x0, y0, x1, y1 = outline.bounds
        if not np.allclose(sizes, sorted((x1 - x0, y1 - y0)), atol=CLOSE):
            found.append(f"{name} is not as large as it says")
        for glue in piece["glue"]:
            covered = outline.intersection(polygon(glue["polygon"])).area > SLIVER
            if covered and (glue["panel"], glue["face"]) == (mat["panel"], mat["face"]):
                found.append(f"{name} lies on glue")
    return found


# ---- in space


def fold(piece: Json) -> dict[str, tuple[np.ndarray, np.ndarray]]:
    """Where each panel's blank lies when closed: a turn, and where its place [0, 0] goes."""
    stand = piece["stands"]
    x, y = np.array(stand["x"], float), np.array(stand["y"], float)
    turn = np.column_stack([x, y, np.cross(x, y)])
    shift = np.array(stand["at"]) - turn @ np.array([*stand["flat"], 0.0])
    spin = Rotation.from_rotvec(turn[:, 2] * stand["turned"], degrees=True).as_matrix()
    turn, shift = spin @ turn, spin @ (shift - stand["at"]) + stand["at"]
    placed = {stand["panel"]: (turn, shift)}
    waiting = [stand["panel"]]
    for parent in waiting:
        for score in piece["scores"]:
            if parent not in score["panels"]:
                continue
            one, other = score["panels"]
            child = other if parent == one else one
            if child in placed:
                continue
            turn, shift = placed[parent]
            start, end = (
                turn @ np.array([*p, 0.0]) + shift for p in (score["start"], score["end"])
            )
            # Seen with the moving panel on the left of its hinge, a turn by the right hand lifts
            # it towards the viewer: a valley.
            axis = end - start if child == one else start - end
            degrees = score["degrees"] * (-1 if score["fold"] == "mountain" else 1)
            spin = Rotation.from_rotvec(axis / np.linalg.norm(axis) * degrees, degrees=True)
            matrix = spin.as_matrix()
            placed[child] = (matrix @ turn, matrix @ (shift - start) + start)
            waiting.append(child)
    return placed


Folded = dict[str, tuple[np.ndarray, np.ndarray]]


def place(folded: Folded, panel: str, points: Any) -> np.ndarray:
    turn, shift = folded[panel]
    flat = np.array([[*point, 0.0] for point in points])
    return flat @ turn.T + shift


def normal(folded: Folded, panel: str, face: str = "outside") -> np.ndarray:
    return folded[panel][0][:, 2] * (1 if face == "outside" else -1)


def _closing(piece: Json, folded: Folded) -> list[str]:
    found = []
    if set(folded) != set(panels(piece)):
        return [f"{piece['name']}: some panels hang on nothing"]
    for score in piece["scores"]:
        ends = [place(folded, name, (score["start"], score["end"])) for name in score["panels"]]
        if np.abs(ends[0] - ends[1]).max() > CLOSE:
            found.append(f"{piece['name']}: the score {score['panels']} does not close")
    known = panels(piece)

    def edge(of: Json) -> np.ndarray:
        corners = known[of["panel"]]["polygon"]
        first = of["corner"]
        return place(folded, of["panel"], (corners[first], corners[(first + 1) % len(corners)]))

    for meet in piece["meets"]:
        one, other = edge(meet["one"]) + meet["apart"], edge(meet["other"])
        gap = min(np.abs(one - other).max(), np.abs(one - other[::-1]).max())
        if meet["in_part"]:
            along = (other[1] - other[0]) / np.linalg.norm(other[1] - other[0])
            gap = np.abs(np.cross(one - other[0], along)).max()
        if gap > CLOSE:
            names = (meet["one"]["panel"], meet["other"]["panel"])
            found.append(f"{piece['name']}: {names} stay {gap:.4f} mm apart")
    return found


def _onto(folded: Folded, mate: str, points: np.ndarray) -> tuple[Polygon, float]:
    """The points in the blank's coordinates of a panel, and how far off its plane they lie."""
    turn, shift = folded[mate]
    flat = (points - shift) @ turn
    return Polygon(flat[:, :2]), float(np.abs(flat[:, 2]).max())


def _contacts(piece: Json, folded: Folded) -> list[str]:
    """Panels lie face to face only where an order is declared, and that order has no circle."""
    found = []
    declared = {frozenset((layer["inner"], layer["outer"])) for layer in piece["layers"]}
    known = panels(piece)
    names = list(known)
    for index, one in enumerate(names):
        for other in names[index + 1 :]:
            flat, off = _onto(folded, other, place(folded, one, known[one]["polygon"]))
            meets = off < 1e-3 and flat.intersection(polygon(known[other]["polygon"])).area > 1e-3
            if meets and frozenset((one, other)) not in declared:
                found.append(f"{piece['name']}: {one} and {other} touch")
    inside = {name: {x["outer"] for x in piece["layers"] if x["inner"] == name} for name in names}
    left = set(names)
    while free := {name for name in left if not inside[name] & left}:
        left -= free
    if left:
        found.append(f"{piece['name']}: {sorted(left)} lie in a circle")
    return found


def _glue(piece: Json, folded: Folded) -> list[str]:
    found = []
    known = panels(piece)
    for glue in piece["glue"]:
        name = f"{piece['name']}: {glue['name']}"
        strip = polygon(glue["polygon"])
        if strip.difference(polygon(known[glue["panel"]]["polygon"]).buffer(CLOSE)).area > SLIVER:
            found.append(f"{name} runs off its panel")
        area = glue["width"]["mm"] * glue["length"]["mm"]
        if not math.isclose(strip.area, area, rel_tol=1e-9):
            found.append(f"{name} is not as large as it says")
        flat, off = _onto(folded, glue["mate"], place(folded, glue["panel"], glue["polygon"]))
        mate = polygon(known[glue["mate"]]["polygon"]).buffer(CLOSE)
        if off > CLOSE or flat.difference(mate).area > SLIVER:
            found.append(f"{name} does not lie on {glue['mate']}")
        facing = normal(folded, glue["panel"], glue["face"]) @ normal(
            folded, glue["mate"], glue["mate_face"]
        )
        if facing > -1 + 1e-9:
            found.append(f"{name}: the wrong faces meet")
    return found


def _apart(folded: Folded, piece: Json, pair: list[str], axis: int = 0) -> float:
    """How far apart two parallel panels are, mid-surface to mid-surface; how large one is."""
    one, other = pair
    if one == other:
        along = place(folded, one, panels(piece)[one]["polygon"])[:, axis]
        return float(along.max() - along.min())
    point = place(folded, one, panels(piece)[one]["polygon"][:1])[0]
    turn, shift = folded[other]
    return float(abs((point - shift) @ turn[:, 2]))


def _room(design: Json, all_folded: dict[str, Folded]) -> list[str]:
    """The clear inside is the space between the walls less paper, and the contents go in."""
    found = []
    cavity = design["cavity"]
    piece = next(one for one in design["pieces"] if one["name"] == cavity["piece"])
    paper = next(one for one in design["papers"] if one["name"] == piece["paper"])
    folded, sheet = all_folded[piece["name"]], paper["thickness"]["mm"]
    clear = {side: inside["mm"] for side, inside in design["proof"]["clear_inside"].items()}
    height = clear.pop("height", math.inf)
    if cavity["around"]:
        found += _square_within(folded, cavity, clear, sheet)
    else:
        for side, inside in clear.items():
            lost = _apart(folded, piece, cavity[side], "wd".index(side[0])) - inside
            # Half a wall each side at least; at most a few layers with their adhesive on each.
            if not sheet - CLOSE <= lost <= 8 * sheet + 2:
                found.append(f"{piece['name']}: {lost:.3f} mm of the {side} are lost to paper")
    treats = design["contents"]
    tall = sum(treat["height"]["mm"] for treat in treats)
    for treat in treats:
        air = 2 * treat["allowance"]["mm"] + (tall if cavity["flat"] else 0.0)
        sizes = (treat["width"]["mm"] + air, treat["depth"]["mm"] + air)
        if cavity["around"]:
            rooms = (_spare(folded, cavity, *way) for way in (sizes, sizes[::-1]))
            goes_in = max(rooms) >= sheet / 2 - CLOSE
        else:
            inside = (clear.get("width", math.inf), clear.get("depth", math.inf))
            goes_in = any(
                wide <= inside[0] + CLOSE and deep <= inside[1] + CLOSE
                for wide, deep in (sizes, sizes[::-1])
            )
        if not goes_in:
            found.append(f"{treat['name']} does not go in")
    if treats:
        spare = -treats[-1]["allowance"]["mm"] if cavity["covered"] else treats[-1]["proud"]["mm"]
        if tall > height + spare + CLOSE:
            found.append("the contents are too tall")
    return found


def _square_within(
    folded: Folded, cavity: Json, clear: dict[str, float], sheet: float
) -> list[str]:
    """The clear square stays within every wall, and a hair larger it would not."""
    sides = {clear["width"], clear["depth"]}
    if len(sides) != 1:
        return ["the clear inside is no square"]
    (side,) = sides
    room = _spare(folded, cavity, side, side)
    # Half a wall each side at least; at most a few layers with their adhesive on each.
    return (
        [] if sheet / 2 - CLOSE <= room <= 8 * sheet + 2 else [f"{room:.3f} mm beside the square"]
    )


def _spare(folded: Folded, cavity: Json, wide: float, deep: float) -> float:
    """How far a rectangle keeps from every wall at the best place for it, mm (linear programme)."""
    rows, bounds = [], []
    for wall in cavity["around"]:
        turn, shift = folded[wall]
        x, y = turn[:2, 2]
        rows.append([x, y, 1.0])
        bounds.append(x * shift[0] + y * shift[1] - abs(x) * wide / 2 - abs(y) * deep / 2)
    free = (None, None)
    best = linprog([0, 0, -1], A_ub=rows, b_ub=bounds, bounds=[free, free, free])
    return -float(best.fun)


def _slides(design: Json, folded: dict[str, Folded]) -> list[str]:
    found = []
    pieces = {piece["name"]: piece for piece in design["pieces"]}
    air = {(a["outer"], a["inner"], a["direction"]): a for a in design["proof"]["air"]}
    for slide in design["slides"]:
        for across in slide["across"]:
            outer, one, other, last = across["panels"]
            given = air[slide["outer"], slide["inner"], across["direction"]]
            total = _apart(folded[slide["outer"]], pieces[slide["outer"]], [outer, last]) - _apart(
                folded[slide["inner"]], pieces[slide["inner"]], [one, other]
            )
            if abs(total - given["total"]["mm"]) > CLOSE:
                found.append(f"the {slide['outer']} is {total} mm larger across")
            parts = sum(mm(given[part]) for part in ("paper", "tabs", "mats", "left"))
            if parts != mm(given["total"]):
                found.append(f"the air of the {slide['outer']} does not add up")
            if given["left"]["mm"] < 0:
                found.append(f"the {slide['outer']} does not go on")
        for out, within in slide["around"]:
            given = air[slide["outer"], slide["inner"], "flats"]
            (turn, shift), (_, inner) = folded[slide["outer"]][out], folded[slide["inner"]][within]
            if abs(2 * (shift - inner) @ turn[:, 2] - given["total"]["mm"]) > CLOSE:
                found.append(f"the {slide['outer']} is not that much larger by the {out}")
            if sum(mm(given[part]) for part in ("paper", "tabs", "mats", "left")) != mm(
                given["total"]
            ):
                found.append(f"the air of the {slide['outer']} does not add up")
            if given["left"]["mm"] < 0:
                found.append(f"the {slide['outer']} does not go on")
    return found


# ---- strap, steps, adhesive


def _strap(design: Json) -> list[str]:
    """The strap adds up, and clears its circle: the hull of circle and rim (hand calculation:
    s + 2 d atan(d / s) for a circle of diameter d that stands on the rim between feet s apart)."""
    strap = design["strap"]
    if strap is None:
        return []
    found = []
    if mm(strap["length"]) != mm(strap["trim"]) + mm(strap["free"]) + 2 * mm(strap["foot"]):
        found.append("the strap does not add up")
    d, s = strap["opening"]["mm"], strap["span"]["mm"]
    least = s + 2 * d * math.atan(d / s)
    if strap["free"]["mm"] < least - CLOSE:
        found.append(f"the strap clears no circle of {d} mm")
    if strap["rise"]["mm"] == 0 and strap["free"]["mm"] > least + 25.4:
        found.append("the strap is an inch longer than it need be")
    piece = next(one for one in design["pieces"] if one["name"] == strap["piece"])
    known = panels(piece)
    for name, foot in zip(strap["panels"], strap["feet"], strict=True):
        if polygon(foot).difference(polygon(known[name]["polygon"]).buffer(CLOSE)).area > SLIVER:
            found.append(f"a foot of the strap runs off the {name}")
    return found


def _steps(design: Json) -> list[str]:
    """Taken together, the steps fold every score as far as it goes, and close every glue once."""
    found = []
    for piece in design["pieces"]:
        angles: dict[frozenset[str], float] = {}
        glued: list[str] = []
        for step in design["steps"]:
            if step["piece"] == piece["name"]:
                angles |= {frozenset(turn["panels"]): turn["degrees"] for turn in step["turns"]}
                glued += step["glue"]
        closed = {frozenset(score["panels"]): score["degrees"] for score in piece["scores"]}
        if angles != closed:
            found.append(f"{piece['name']}: the steps do not close it")
        if sorted(glued) != sorted(glue["name"] for glue in piece["glue"]):
            found.append(f"{piece['name']}: the steps do not press every strip once")
    return found


def _adhesive(design: Json) -> list[str]:
    found = []
    for need in design["supplies"]["adhesives"]:
        strips = [one for one in design["adhesive"] if one["adhesive"] == need["adhesive"]]
        if sum(mm(one["length"]) for one in strips) != mm(need["length"]):
            found.append(f"{need['adhesive']}: the strips do not add up")
        if len(strips) != need["strips"]:
            found.append(f"{need['adhesive']}: {len(strips)} strips")
    return found


# ---- cutting


def _walk(node: Json) -> Iterator[Json]:
    yield node
    if node["kind"] == "cut":
        yield from _walk(node["first"])
        yield from _walk(node["rest"])


def _rectangle(region: Json) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    return mm(region["x"]), mm(region["y"]), mm(region["width"]), mm(region["height"])


def _cutting(design: Json, plan: Json) -> list[str]:
    """Cut the sheets again, and count what comes off."""
    name = plan["paper"]
    found = []
    trimmer = design["workshop"]["trimmer"]
    parts = {part["name"]: part for part in plan["parts"]}
    got = dict.fromkeys(parts, 0)
    sheets = 0
    for sheet in plan["sheets"]:
        sheets += sheet["times"]
        root = (Fraction(0), Fraction(0), mm(plan["sheet"]["width"]), mm(plan["sheet"]["height"]))
        if _rectangle(sheet["tree"]["region"]) != root:
            found.append(f"{name}: the tree does not begin with the sheet")
        cuts = []
        for node in _walk(sheet["tree"]):
            x, y, width, height = _rectangle(node["region"])
            if node["kind"] == "cut":
                at = mm(node["at"])
                across = node["axis"] == "across"
                cuts.append((node["axis"], at, (x, y, width, height)))
                first = (x, y, at, height) if across else (x, y, width, at)
                rest = (
                    (x + at, y, width - at, height) if across else (x, y + at, width, height - at)
                )
                if not 0 < at < (width if across else height):
                    found.append(f"{name}: a cut at {node['at']} misses its piece")
                if (_rectangle(node["first"]["region"]), _rectangle(node["rest"]["region"])) != (
                    first, rest,
                ):  # fmt: skip
                    found.append(f"{name}: a cut at {node['at']} gives other pieces than it says")
                if (height if across else width) > mm(trimmer["longest_cut"]):
                    found.append(f"{name}: a cut longer than the trimmer")
                if (at / mm(trimmer["graduation"])).denominator != 1:
                    found.append(f"{name}: {node['at']} is no mark of the trimmer")
            elif node["kind"] == "part":
                part = parts[node["part"]]
                size = (mm(part["width"]), mm(part["height"]))
                if (width, height) != (size[::-1] if node["turned"] else size):
                    found.append(f"{name}: {node['part']} comes off in another size")
                if node["turned"] and not part["turn"]:
                    found.append(f"{name}: {node['part']} lies sideways")
                got[node["part"]] += sheet["times"]
        replayed = [
            (step["axis"], mm(step["setting"]), _rectangle(region))
            for step in sheet["steps"]
            for region in step["pieces"]
        ]
        if sorted(replayed) != sorted(cuts):
            found.append(f"{name}: the steps are not the cuts of the tree")
    sets = plan["sets_per_sheet"] * sheets or 1
    if plan["sets_per_sheet"] == 0 and sheets != plan["sheets_per_set"]:
        found.append(f"{name}: {sheets} sheets are cut")
    for part, count in got.items():
        if count < sets * parts[part]["copies"]:
            found.append(f"{name}: {count} of {part} for {sets} sets")
    return found
