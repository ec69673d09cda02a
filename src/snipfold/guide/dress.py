"""What goes on before the box is closed: tape with its liner on, mats, and the strap."""

from __future__ import annotations

from fractions import Fraction

from ..drawing import mats_picture, strap_picture, tape_picture
from ..dressing import Mark, Mat, Strap, Strip
from ..flat import Face, FlatPiece
from ..measure import Length, total
from ..project import Design
from ..workshop import AdhesiveKind
from .cautions import OF_ADHESIVE
from .content import Caution, Column, Part, Section, Size, Table, Tone, Words
from .wording import face_words, listed, unique, upper_first


def tape(design: Design) -> tuple[Section, ...]:
    """One section for each piece and face that has adhesive on its panels."""
    sections: list[Section] = []
    for piece in design.construction.pieces:
        for face in Face:
            strips = [
                strip
                for strip in design.dressing.strips
                if strip.on == "panel" and strip.piece == piece.name and strip.face is face
            ]
            if strips:
                sections.append(_taped(design, piece, face, strips, first=not sections))
    return tuple(sections)


def kinds(design: Design, strips: list[Strip]) -> tuple[AdhesiveKind, ...]:
    """The kinds of adhesive that those strips are of, each once."""
    return tuple(dict.fromkeys(design.workshop.adhesive(strip.adhesive).kind for strip in strips))


def cautions(design: Design, strips: list[Strip]) -> tuple[Caution, ...]:
    """The cautions that those adhesives bring with them."""
    return tuple(c for kind in kinds(design, strips) for c in OF_ADHESIVE[kind])


def _lined(kind: AdhesiveKind) -> bool:
    return kind in (AdhesiveKind.TAPE, AdhesiveKind.FOAM)


def _taped(
    design: Design, piece: FlatPiece, face: Face, strips: list[Strip], *, first: bool
) -> Section:
    sentences: list[Words] = [(f"Lay the {piece.name} flat with its {face.value} up.",)]
    lined = all(_lined(kind) for kind in kinds(design, strips))
    if lined:
        sentences += [
            (f"Stick {listed(unique(strip.adhesive for strip in strips))} where it is hatched.",),
            ("Leave the liner on.",),
        ]
    else:
        sentences.append(("Mark where the adhesive goes; lay it on when you close it.",))
    insets = {area.name: area.inset for area in piece.glue}
    alike: dict[tuple[str, Length | None, Length, Length], list[str]] = {}
    for strip in strips:
        key = (strip.edge, insets.get(strip.name), strip.width, strip.length)
        alike.setdefault(key, []).append(strip.item)
    rows: list[tuple[Words, ...]] = [
        (
            (upper_first(listed(items)),),
            (inset, f" from its {edge}") if inset else (edge,),
            (Size(width, length),),
        )
        for (edge, inset, width, length), items in alike.items()
    ]
    return Section(
        Part.TAPE,
        f"{'Tape' if lined else 'Adhesive on'} the {piece.name}, {face_words(face)} up",
        figures=(tape_picture(design, piece.name, face),),
        tables=(
            Table(
                (),
                (Column("on"), Column("along"), Column("strip", Tone.MEASURE)),
                tuple(rows),
            ),
        ),
        sentences=tuple(sentences),
        facts=(("In total ", total(strip.length for strip in strips), "."),),
        cautions=cautions(design, strips) if first else (),
    )


def mats(design: Design) -> tuple[Section, ...]:
    """One section for each piece that has mats."""
    sections = []
    for piece in design.construction.pieces:
        matted = design.dressing.mats_on(piece.name)
        if not matted:
            continue
        strips = [s for s in design.dressing.strips if s.on == "mat" and s.piece == piece.name]
        sentences: list[Words] = [
            ("Burnish first, then stick the mats while the piece lies flat.",)
        ]
        facts: list[Words] = []
        if strips:
            names = listed(unique(strip.adhesive for strip in strips))
            sentences.append((f"Run {names} along the edges of the back of each mat.",))
            facts.append((f"{upper_first(names)} in total ", total(s.length for s in strips), "."))
        sentences.append(("Leave the same border all round.",))
        sections.append(
            Section(
                Part.MATS,
                f"Mats on the {piece.name}",
                figures=(mats_picture(design, piece.name),),
                tables=(mat_table(matted),),
                sentences=tuple(sentences),
                facts=tuple(facts),
                cautions=cautions(design, strips),
            )
        )
    return tuple(sections)


def mat_table(matted: tuple[Mat, ...]) -> Table:
    """The mats of a piece by size: width and height as they lie on the standing box, and borders."""
    alike: dict[tuple[Length, Length, Length, Face], list[str]] = {}
    for mat in matted:
        alike.setdefault((mat.width, mat.height, mat.border, mat.face), []).append(mat.panel)
    return Table(
        (),
        (
            Column("mat, wide × high", Tone.LOUD),
            Column("on"),
            Column("border each side", Tone.MEASURE),
            Column("in total", Tone.MEASURE),
        ),
        tuple(
            (
                (Size(width, height),),
                (listed(panels) + ("" if face is Face.OUTSIDE else f", {face_words(face)}"),),
                (border,),
                (border * 2,),
            )
            for (width, height, border, face), panels in alike.items()
        ),
    )


def strap(design: Design) -> tuple[Section, ...]:
    """Sections for the strap: cutting it and marking where it goes, where there is one."""
    made = design.dressing.strap
    if made is None:
        return ()
    strips = [s for s in design.dressing.strips if s.on == "strap"]
    first, second = made.panels
    cut_and_marked = Section(
        Part.STRAP,
        "Cut the strap and draw its marks",
        figures=(strap_picture(design),),
        tables=tuple(table for table in (_strap_measures(made), _marks(design, made)) if table.rows),
        sentences=(
            (f"Lay the {made.piece} flat with its {face_words(made.face)} up.",),
            (f"Draw the marks lightly, before you close the {made.piece}.",),
        ),
        facts=(
            (
                "With ", made.free, " free between its ends it clears a circle of ",
                made.opening, " over the rim; it needs at least ",
                design.workshop.ruler.above(made.least_free), ".",
            ),
        ),
    )  # fmt: skip
    stuck_on = Section(
        Part.STRAP,
        "Stick the strap on",
        tables=(_strap_tape(strips),) if strips else (),
        sentences=(
            (f"Stick the first end on the {first}, {face_words(made.face)}, inside its marks.",),
            (f"Let the second end hang until the {made.piece} stands.",),
            (f"Then bring it over and stick it on the {second}, inside its marks.",),
        ),
        cautions=cautions(design, strips),
    )
    return cut_and_marked, stuck_on


def _strap_tape(strips: list[Strip]) -> Table:
    """The adhesive on the strap's ends: which face, how large, how many strips."""
    alike: dict[tuple[Face, Length, Length], list[str]] = {}
    for strip in strips:
        alike.setdefault((strip.face, strip.width, strip.length), []).append(strip.item)
    return Table(
        ("On the strap",),
        (Column("on"), Column("face"), Column("strip", Tone.MEASURE), Column("how many")),
        tuple(
            (
                (upper_first(listed(unique(items))),),
                (face_words(face),),
                (Size(width, length),),
                (str(len(items)),),
            )
            for (face, width, length), items in alike.items()
        ),
    )


def _strap_measures(made: Strap) -> Table:
    return Table(
        (),
        (
            Column("cut the strap", Tone.LOUD),
            Column("stuck down each end", Tone.MEASURE),
            Column("free between", Tone.MEASURE),
        ),
        (((Size(made.width, made.length),), (made.foot,), (made.free,)),),
    )


def _marks(design: Design, made: Strap) -> Table:
    rows: list[tuple[Words, ...]] = []
    for mark in made.marks:
        across, down = _on_panel(design.construction.piece(mark.piece), mark)
        rows.append(
            (
                (upper_first(mark.says),),
                (f"{mark.panel}, {face_words(mark.face)}",),
                across,
                down,
            )
        )
    return Table(
        ("Pencil marks, measured on the panel as it lies upright",),
        (
            Column("mark"),
            Column("on"),
            Column("from its left edge", Tone.MEASURE),
            Column("from its top edge", Tone.MEASURE),
        ),
        tuple(rows),
    )


def _on_panel(piece: FlatPiece, mark: Mark) -> tuple[Words, Words]:
    """Where a mark lies on its panel, as seen from the marked face."""
    corners = piece.panel(mark.panel).corners
    left, right = min(c.x for c in corners), max(c.x for c in corners)
    top = max(c.y for c in corners)
    xs = sorted(
        (p.x - left if mark.face is Face.OUTSIDE else right - p.x) for p in (mark.start, mark.end)
    )
    ys = sorted(top - p.y for p in (mark.start, mark.end))
    return _span(xs[0], xs[1]), _span(ys[0], ys[1])


def _span(low: Fraction, high: Fraction) -> Words:
    one, other = Length.mm(low), Length.mm(high)
    return (one,) if one == other else (one, " to ", other)
