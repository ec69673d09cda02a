"""The command that finds sizes: from what goes in, or from the sheet."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from .shared import JSON, WORKSHOP, problems_as
from .start import UnusableError

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

    from ..measure import Length, System
    from ..publish.fit_files import Sample
    from ..sizing import Candidate, Contents, Wish
    from ..styles import Style
    from ..workshop import Paper, Workshop


def _style_names(
    ctx: click.Context, param: click.Parameter, incomplete: str
) -> list[CompletionItem]:
    from click.shell_completion import CompletionItem

    from ..styles import STYLES

    names = [(style.name.replace(" ", "-"), style.says) for style in STYLES]
    return [CompletionItem(name, help=says) for name, says in names if name.startswith(incomplete)]


@click.command()
@click.option(
    "--treat",
    "treats",
    multiple=True,
    metavar="TREAT",
    help='What goes in: "2 1/2 x 1 x 3 in" as it stands, "round 2 x 1/2 in", "ball 1 in" or '
    '"loose 250 ml". Say it again for another kind on top.',
)
@click.option("--count", "counts", type=int, multiple=True, metavar="N", help="How many of each.")
@click.option(
    "--arrange",
    "arranged",
    multiple=True,
    metavar="HOW",
    help='How they lie: "3 x 2", "2 high", standing, lying, square, staggered. '
    "Left out: blocks as they stand, round treats all ways.",
)
@click.option("--allowance", metavar="LENGTH", help="Air on each side. Left out: 1/8 in, or 3 mm.")
@click.option(
    "--head-room",
    metavar="LENGTH",
    help="Air above. Left out: the allowance under a lid, none in an open box.",
)
@click.option(
    "--style",
    "said_styles",
    multiple=True,
    metavar="STYLE",
    shell_complete=_style_names,
    help="Only this style. Left out: all that hold treats.",
)
@click.option("--sheet", metavar="PAPER", help="The paper. Left out: your first one.")
@click.option("--each", type=click.IntRange(1, 12), default=1, help="Sizes of each style.")
@click.option(
    "--vary",
    metavar="MEASURE",
    help="Without a treat: show every size of this measure at which a sheet gives fewer.",
)
@click.option(
    "--set",
    "measures",
    multiple=True,
    metavar='NAME="MEASURE"',
    help="Without a treat: a measure that stays as it is.",
)
@click.option(
    "--most-room",
    type=click.IntRange(1, 200),
    metavar="N",
    help="Without a treat: find the size with the most room, N sets from a sheet.",
)
@click.option("--units", type=click.Choice(["inch", "metric"]), default="inch", show_default=True)
@click.option(
    "--to",
    "folder",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="Write a contact sheet, and a picture and a project file of each, into this folder.",
)
@WORKSHOP
@JSON
def fit(
    treats: tuple[str, ...],
    counts: tuple[int, ...],
    arranged: tuple[str, ...],
    allowance: str | None,
    head_room: str | None,
    said_styles: tuple[str, ...],
    sheet: str | None,
    each: int,
    vary: str | None,
    measures: tuple[str, ...],
    most_room: int | None,
    units: str,
    folder: Path | None,
    workshop: Path | None,
    as_json: bool,
) -> None:
    """Find the size: from what goes in, or from the sheet.

    Measure your treats, and every style that holds them is sized to them, on the marks of your
    ruler: the most from a sheet first, then the least waste, then the kindest numbers.

    Without a treat, name one style: you see where a little less gives one more from the sheet.

    \b
    Examples:
      snipfold fit --treat "2 1/2 x 1 3/8 x 2 1/2 in"
      snipfold fit --treat "round 2 x 1/2 in" --count 6 --arrange "3 x 2" --to sizes
      snipfold fit --style wrap-bag --vary height --set width="3 in"
      snipfold fit --style wrap-bag --most-room 2
    """
    from ..workshop import SYSTEMS
    from .files import shops

    system = SYSTEMS[units]
    with problems_as(as_json):
        shop = shops(workshop)(system)
    paper = _paper(sheet, shop)
    styles = _styles(said_styles)
    for said, option in ((vary, "--vary"), (measures, "--set"), (most_room, "--most-room")):
        if said and treats:
            raise UnusableError(f"{option} goes without a treat; leave one of the two out")
    if treats:
        from ..sizing import Wish

        air, head = _allowance(allowance, system), _length("--head-room", head_room, system)
        wish = Wish(_contents(treats, counts, arranged, system), air, head)
        _from_contents(wish, styles, paper, shop, system, each, folder, as_json)
    elif len(styles) == 1:
        for given, option in (
            (counts, "--count"), (arranged, "--arrange"), (allowance, "--allowance"),
            (head_room, "--head-room"), (folder, "--to"),
        ):  # fmt: skip
            if given:
                raise UnusableError(f"{option} goes with a treat; add one with --treat")
        _from_sheet(styles[0], vary, measures, most_room, paper, shop, system, as_json)
    else:
        raise UnusableError(
            'nothing to go by: say what goes in, like --treat "2 1/2 x 1 x 3 in", or name one '
            "--style to see what a sheet gives"
        )


def _from_contents(
    wish: Wish,
    styles: Sequence[Style],
    paper: Paper,
    shop: Workshop,
    system: System,
    each: int,
    folder: Path | None,
    as_json: bool,
) -> None:
    from ..publish.fit_json import fit_json
    from ..sizing import fit as fitted_to
    from ..styles import STYLES
    from .fit_words import fit_lines

    try:
        fitted = fitted_to(
            wish, paper, shop, system, styles=styles or STYLES, each=each, open_too=bool(styles)
        )
    except ValueError as error:
        raise UnusableError(f"--arrange: {error}; fix fewer numbers, or other ones") from None
    data = fit_json(fitted, wish, paper, system)
    if as_json:
        click.echo(data, nl=False)
    else:
        for line in fit_lines(fitted, wish, paper, system):
            click.echo(line)
    if folder is not None and fitted.candidates:
        _write(fitted.candidates, wish, paper, shop, system, data, folder)


def _from_sheet(
    style: Style,
    vary: str | None,
    measures: Sequence[str],
    most_room: int | None,
    paper: Paper,
    shop: Workshop,
    system: System,
    as_json: bool,
) -> None:
    from ..publish.fit_json import steps_json
    from ..sizing import SizeError, roomiest, yield_steps
    from ..workshop.toml_text import one_of
    from .fit_words import most_room_lines, steps_lines
    from .options import measures_said

    said = measures_said(style, system, measures)
    names = [measure.name for measure in style.measures]
    varied = (vary or style.free).strip().replace(" ", "_")
    if varied not in names:
        raise UnusableError(f"--vary {vary}: no such measure; {one_of(varied, names)}")
    steps = yield_steps(style, varied, paper, shop, system, said=said)
    try:
        most = (
            roomiest(style, paper, shop, system, sets=most_room, said=said) if most_room else None
        )
    except SizeError as error:
        raise UnusableError(f"--most-room: a {style.name}: {error}") from None
    if as_json:
        click.echo(steps_json(style, varied, steps, most, paper, system), nl=False)
        return
    for line in steps_lines(style, varied, steps, paper, system):
        click.echo(line)
    if most_room:
        for line in most_room_lines(most, most_room, system):
            click.echo(line)


def _write(
    candidates: Sequence[Candidate],
    wish: Wish,
    paper: Paper,
    shop: Workshop,
    system: System,
    data: str,
    folder: Path,
) -> None:
    from ..publish import PublishError
    from ..publish.fit_files import fit_files
    from ..publish.folder import write_folder

    samples = [_sample(one, wish, paper, shop, system) for one in candidates]
    try:
        write_folder(fit_files(samples, data, system), folder)
    except PublishError as error:
        raise UnusableError(str(error)) from None
    click.echo(f"Written in {folder}: contact-sheet.svg and what it shows", err=True)


def _sample(
    candidate: Candidate, wish: Wish, paper: Paper, shop: Workshop, system: System
) -> Sample:
    """A candidate as a project file, and the design that this comes to."""
    from ..project import read_project, resolve
    from ..publish.fit_files import Sample, sized_project_text

    text = sized_project_text(candidate, wish, paper, shop, system)
    design = resolve(read_project(text, candidate.style.name), shop)
    return Sample(candidate, text, design)


def _paper(said: str | None, shop: Workshop) -> Paper:
    from ..workshop.toml_text import one_of

    if said is None:
        return shop.papers[0]
    names = [paper.name for paper in shop.papers]
    for paper in shop.papers:
        if paper.name.casefold() == said.strip().casefold():
            return paper
    raise UnusableError(f"--sheet {said}: no such paper; {one_of(said, names)}")


def _styles(said: Sequence[str]) -> list[Style]:
    from ..styles import STYLES
    from ..workshop.toml_text import one_of

    def plain(name: str) -> str:
        return name.strip().casefold().replace("-", " ")

    by_name = {plain(style.name): style for style in STYLES}
    chosen = []
    for name in said:
        if plain(name) not in by_name:
            advice = one_of(name, [style.name for style in STYLES])
            raise UnusableError(f"--style {name}: no such style; {advice}")
        chosen.append(by_name[plain(name)])
    return list(dict.fromkeys(chosen))


def _contents(
    treats: Sequence[str], counts: Sequence[int], arranged: Sequence[str], system: System
) -> Contents:
    """What `--treat`, `--count` and `--arrange` say together."""
    from ..measure import MeasureError
    from ..sizing import ANYHOW, MOST_TREATS, Loose, Treats
    from ..sizing.said import read_arrange, read_treat

    for said, option in ((counts, "--count"), (arranged, "--arrange")):
        if len(said) not in (0, 1, len(treats)):
            raise UnusableError(
                f"{option}: said {len(said)} times for {len(treats)} treats; say it once for all, "
                "or once for each"
            )
    for count in counts:
        if not 1 <= count <= MOST_TREATS:
            raise UnusableError(f"--count {count}: one box takes 1 to {MOST_TREATS} treats")
    lots = []
    for index, text in enumerate(treats):
        try:
            shape = read_treat(text, system)
        except MeasureError as error:
            raise UnusableError(f"--treat {error}") from None
        if isinstance(shape, Loose):
            if len(treats) > 1 or counts or arranged:
                raise UnusableError(
                    f"--treat {text}: loose treats go alone, without --count and --arrange"
                )
            return shape
        try:
            how = [read_arrange(one) for one in arranged] or [ANYHOW]
        except MeasureError as error:
            raise UnusableError(f"--arrange {error}") from None
        lots.append(
            Treats(
                shape,
                counts[min(index, len(counts) - 1)] if counts else 1,
                how[min(index, len(how) - 1)],
            )
        )
    return tuple(lots)


def _allowance(said: str | None, system: System) -> Length:
    from ..project.read import ALLOWANCE

    length = _length("--allowance", said, system)
    return ALLOWANCE[system] if length is None else length


def _length(option: str, said: str | None, system: System) -> Length | None:
    from ..measure import ZERO, MeasureError, parse_length

    if said is None:
        return None
    try:
        length = parse_length(said, system)
    except MeasureError as error:
        raise UnusableError(f"{option} {error}") from None
    if length < ZERO:
        raise UnusableError(f"{option} {said}: less than nothing; write 0 or more")
    return length
