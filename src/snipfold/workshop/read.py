"""Reading a maker's own workshop file, which changes and adds to the assumed workshop."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from ..findings import ProjectFileError
from ..measure import Length, Ruler, System, words
from .read_shelf import (
    MOST_OFFCUTS,
    embellishments_of,
    envelopes_of,
    known_name,
    offcuts_of,
    on_hand_of,
    pace_of,
    pack_of,
    price_of,
    terms_of,
)
from .stock import Adhesive, AdhesiveKind, Edge, EdgeStrip, Grain, Paper
from .toml_text import Table, read_toml, shown
from .tools import ScoringBoard, Slips, Trimmer
from .weight import BASIC_SHEETS, grams_per_square_metre, thickness, thickness_of_points
from .workshop import Workshop

SYSTEMS = {"inch": System.INCH, "metric": System.METRIC}

_WEIGHT = re.compile(r"(\d+(?:[.,]\d+)?)\s*(lbs?\.?|#|gsm|g|g/m2|g/m²)\s*(\w*)", re.IGNORECASE)
_POINTS = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:pts?|points?)\.?", re.IGNORECASE)
_ROLL = re.compile(r"(\d+(?:[.,]\d+)?)\s*(m|yds?)", re.IGNORECASE)
_COLOUR = re.compile(r"#[0-9a-fA-F]{6}")
_GRADES = {**{grade: grade for grade in BASIC_SHEETS}, "book": "text"}
#: A yard, exactly (international yard of 1959).
_YARD = Length.inch(36)
#: g/m2. Thinner is tissue, thicker is board that no hand scores.
_LIGHTEST, _HEAVIEST = Fraction(15), Fraction(2000)
_THICKEST = Length.mm(5)
_MOST_LAYERS = 500
_LONGEST_ROLL = Length.mm(1_000_000)


def read_workshop(text: str, source: str, base: Workshop) -> Workshop:
    """The workshop `base` with what the TOML `text` changes and adds.

    The tools, tape and page of the file hold for editions in the file's own units; papers,
    adhesives, the rest of the shelf, times, terms and the currency hold for every edition. Raises `ProjectFileError` with every
    problem; `source` is the file's name for the messages.
    """
    top = read_toml(text, source)
    system = top.choice("units", SYSTEMS)
    if system is None and "units" not in top:
        top.problem(("units",), "", "missing", 'write units = "inch" or units = "metric"')
    system = system or base.system
    made = base
    if currency := top.words("currency"):
        made = replace(made, currency=currency)
    made = replace(made, adhesives=_adhesives(top.table("adhesives"), made.adhesives, system))
    made = replace(made, papers=_papers(top.table("papers"), made.papers, system))
    places = top.count("currency_places", 2, "decimals", zero=True)
    made = replace(
        made,
        places=made.places if places is None else places,
        # A file that lists offcuts lists all of them.
        offcuts=offcuts_of(top.tables("offcuts", MOST_OFFCUTS), made.papers, system)
        if "offcuts" in top
        else made.offcuts,
        envelopes=envelopes_of(top.table("envelopes"), made.envelopes, system),
        embellishments=embellishments_of(top.table("embellishments"), made.embellishments, system),
        pace=pace_of(top.table("pace"), made.pace),
        terms=terms_of(top.table("selling"), made.terms),
    )
    if first := known_name(top, "first_paper", [paper.name for paper in made.papers]):
        ordered = sorted(made.papers, key=lambda paper: paper.name != first)
        made = replace(made, papers=tuple(ordered))
    tools = _tools(top, made, system)
    top.finish()
    if top.problems:
        raise ProjectFileError(top.problems)
    return tools if system is base.system else made


def _tools(top: Table, made: Workshop, system: System) -> Workshop:
    adhesives = [adhesive.name for adhesive in made.adhesives]
    pages = {"letter": "letter", "a4": "a4"}
    trimmer, board = top.table("trimmer"), top.table("scoring_board")
    ruler, slips = top.table("ruler"), top.table("slips")
    result = replace(
        made,
        tape=known_name(top, "tape", adhesives) or made.tape,
        mat_adhesive=known_name(top, "mat_adhesive", adhesives) or made.mat_adhesive,
        page=top.choice("page", pages) or made.page,
        trimmer=Trimmer(
            _ruler(trimmer, "graduation", system, made.trimmer.ruler),
            trimmer.length("longest_cut", system) or made.trimmer.longest_cut,
            trimmer.count("layers", _MOST_LAYERS, "layers") or made.trimmer.layers,
            _weight(trimmer, "layers_weight") or made.trimmer.layers_gsm,
        ),
        board=ScoringBoard(
            _ruler(board, "grooves", system, made.board.grooves),
            board.length("length", system) or made.board.length,
        ),
        ruler=_ruler(ruler, "graduation", system, made.ruler),
        slips=Slips(
            _slip(slips, "cut", system, made.slips.cut),
            _slip(slips, "score", system, made.slips.score),
            _slip(slips, "line_up", system, made.slips.line_up),
        ),
    )
    for table in (trimmer, board, ruler, slips):
        table.finish()
    return result


def _ruler(table: Table, key: str, system: System, otherwise: Ruler) -> Ruler:
    graduation = table.length(key, system)
    return otherwise if graduation is None else Ruler(graduation)


def _slip(table: Table, key: str, system: System, otherwise: Length) -> Length:
    slip = table.length(key, system, zero=True)
    return otherwise if slip is None else slip


def _papers(table: Table, base: tuple[Paper, ...], system: System) -> tuple[Paper, ...]:
    papers = {paper.name: paper for paper in base}
    tables = [(name, table.table(name)) for name in table.keys]
    for name, one in tables:
        paper = _paper(one, name, papers.get(name), system)
        if paper is not None:
            papers[name] = paper
    for _, one in tables:
        known_name(one, "cousin", list(papers))
        one.finish()
    return tuple(papers.values())


def _paper(table: Table, name: str, base: Paper | None, system: System) -> Paper | None:
    size = table.size("size", system)
    gsm = _weight(table)
    thick = _thickness(table, system)
    if base is None:
        for key, right in (("size", "12 x 12 in"), ("weight", "65 lb cover")):
            if key not in table:
                table.problem((key,), "", "missing for a new paper", f'write {key} = "{right}"')
        width, height = size or (Length.mm(300), Length.mm(300))
        weight = gsm or Fraction(176)
        base = Paper(name, width, height, weight, thickness(weight))
    elif size is not None:
        base = replace(base, width=size[0], height=size[1])
    if gsm is not None:
        base = replace(base, gsm=gsm, thickness=thickness(gsm))
    measured = _measured(table, base, system)
    directed, two_sided = table.yes_no("directed"), table.yes_no("two_sided")
    gone = table.yes_no("discontinued")
    return replace(
        base,
        thickness=thick or base.thickness,
        measured_width=measured[0] if measured else base.measured_width,
        measured_height=measured[1] if measured else base.measured_height,
        grain=table.choice("grain", {grain.value: grain for grain in Grain}) or base.grain,
        directed=base.directed if directed is None else directed,
        two_sided=base.two_sided if two_sided is None else two_sided,
        strip=_strip(table, base, system),
        price=price_of(table, base.price),
        pack=pack_of(table, base.pack, "sheets"),
        colour=_colour(table, "colour", base.colour),
        back_colour=_colour(table, "back_colour", base.back_colour),
        cousin=table.words("cousin") or base.cousin,
        on_hand=on_hand_of(table, base.on_hand, "sheets"),
        discontinued=base.discontinued if gone is None else gone,
        stock=table.words("stock") or base.stock,
    )


def _measured(table: Table, paper: Paper, system: System) -> tuple[Length, Length] | None:
    measured = table.size("measured", system)
    if measured is None:
        return None
    for found, sold in zip(measured, (paper.width, paper.height), strict=True):
        if abs(found - sold) * 10 > sold:
            table.problem(
                ("measured",),
                shown(table.raw("measured")),
                f"more than a tenth off the {words(sold, system)} that the sheet is sold as",
                "measure again, or correct size",
            )
            return None
    return measured


def _strip(table: Table, paper: Paper, system: System) -> EdgeStrip | None:
    strip = table.table("strip")
    if "strip" not in table:
        return paper.strip
    edge = strip.choice("edge", {edge.value: edge for edge in Edge})
    width = strip.length("width", system)
    for key, right in (("edge", "bottom"), ("width", "1/2 in")):
        if key not in strip:
            strip.problem((key,), "", "missing", f'write {key} = "{right}"')
    strip.finish()
    if edge is None or width is None:
        return None
    across = paper.width if edge in (Edge.LEFT, Edge.RIGHT) else paper.height
    if width >= across:
        right = f"write less than {words(across, system)}"
        strip.problem(("width",), shown(strip.raw("width")), "as wide as the sheet", right)
        return None
    return EdgeStrip(edge, width)


def _number(text: str) -> Fraction:
    return Fraction(text.replace(",", "."))


def _weight(table: Table, key: str = "weight") -> Fraction | None:
    """g/m2 from "65 lb cover" or "176 gsm"."""
    value = table.raw(key)
    if value is None:
        return None
    right = 'write it like "65 lb cover" or "176 gsm"'
    match = _WEIGHT.fullmatch(value.strip()) if isinstance(value, str) else None
    if match is None:
        table.problem((key,), shown(value), "not a weight of paper", right)
        return None
    amount, unit, grade = _number(match[1]), match[2].casefold(), match[3].casefold()
    if unit.startswith("g"):
        if grade:
            table.problem((key,), value, "g/m2 need no grade", right)
            return None
        gsm = amount
    elif grade in _GRADES:
        gsm = grams_per_square_metre(amount, _GRADES[grade])
    else:
        may = ", ".join(
            f"{name} ({round(grams_per_square_metre(amount, name))} g/m2)" for name in BASIC_SHEETS
        )
        wrong = f"no grade of paper called “{grade}”" if grade else "pounds of which grade?"
        table.problem((key,), value, wrong, f"add one of {may}")
        return None
    if not _LIGHTEST <= gsm <= _HEAVIEST:
        wrong = f"{round(gsm)} g/m2 is no paper that is scored and folded"
        table.problem((key,), value, wrong, right)
        return None
    return gsm


def _thickness(table: Table, system: System) -> Length | None:
    """A thickness from "8 pt", "0.2 mm" or "0.008 in"."""
    value = table.raw("thickness")
    if isinstance(value, str) and (match := _POINTS.fullmatch(value.strip())):
        thick = thickness_of_points(_number(match[1]))
        if Length.mm(0) < thick <= _THICKEST:
            return thick
        table.problem(
            ("thickness",), value, "no paper is so thick or so thin", 'write it like "8 pt"'
        )
        return None
    return table.length("thickness", system, most=_THICKEST)


def _colour(table: Table, key: str, otherwise: str) -> str:
    value = table.raw(key)
    if value is None:
        return otherwise
    if not isinstance(value, str) or not _COLOUR.fullmatch(value):
        table.problem((key,), shown(value), "not a colour", 'write it like "#C9A66B"')
        return otherwise
    return value.upper()


def _adhesives(table: Table, base: tuple[Adhesive, ...], system: System) -> tuple[Adhesive, ...]:
    adhesives = {adhesive.name: adhesive for adhesive in base}
    kinds = {kind.value: kind for kind in AdhesiveKind}
    for name in table.keys:
        one = table.table(name)
        old = adhesives.get(name)
        kind, width = one.choice("kind", kinds), one.length("width", system)
        thick = one.length("thickness", system, zero=True, most=_THICKEST)
        left = _roll(one, system, "on_hand")
        if old is None:
            for key, right in (("kind", "tape"), ("width", "1/4 in")):
                if key not in one:
                    one.problem(
                        (key,), "", "missing for a new adhesive", f'write {key} = "{right}"'
                    )
            old = Adhesive(name, AdhesiveKind.TAPE, Length.mm(6), Length.mm("0.1"))
        adhesives[name] = replace(
            old,
            kind=kind or old.kind,
            width=width or old.width,
            thickness=old.thickness if thick is None else thick,
            roll=_roll(one, system) or old.roll,
            price=price_of(one, old.price),
            on_hand=old.on_hand if left is None else left,
        )
        one.finish()
    return tuple(adhesives.values())


def _roll(table: Table, system: System, key: str = "roll") -> Length | None:
    """The length on a roll, which shops give in metres or yards; or what is left, maybe nothing."""
    value = table.raw(key)
    left = key != "roll"
    if isinstance(value, str) and (match := _ROLL.fullmatch(value.strip())):
        times = _number(match[1])
        roll = Length.mm(times * 1000) if match[2].casefold() == "m" else _YARD * times
        if Length.mm(0) < roll <= _LONGEST_ROLL or (left and not roll):
            return roll
        table.problem((key,), value, "no roll is so long or so short", 'write it like "25 m"')
        return None
    return table.length(key, system, zero=left, most=_LONGEST_ROLL)
