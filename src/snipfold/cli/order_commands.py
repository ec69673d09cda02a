"""The commands for orders and series."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from .shared import JSON, WORKSHOP, problems_as
from .start import ERRORS_FOUND, UnusableError

if TYPE_CHECKING:
    from fractions import Fraction

    from ..orders import Order, Wanted
    from ..project import Design
    from ..workshop import Workshop

_PREFER = click.option(
    "--prefer",
    type=click.Choice(["sheets", "settings", "offcut"]),
    help="Fewest sheets, fewest trimmer settings, or the largest offcut. Left out: sheets.",
)
_SECONDS = click.option(
    "--seconds",
    type=click.FloatRange(0.1, 3600),
    default=20.0,
    show_default=True,
    help="How long planning may take.",
)
_TO = click.option(
    "--to",
    "folder",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="Write everything into a new or empty folder, or one that was written before.",
)
_EVEN_SO = click.option("--even-so", is_flag=True, help="Order in spite of errors in a project.")


@click.command()
@click.argument("files", metavar="FILE…", type=click.Path(path_type=Path), nargs=-1, required=True)
@click.option(
    "--sets",
    type=int,
    multiple=True,
    metavar="N",
    help="How many sets: once for all files, or once for each in their order.",
)
@click.option("--spare", metavar="SHARE", help="Sets to spare, such as 10%.")
@click.option("--class", "makers", type=int, metavar="N", help="A class of N makers, a kit each.")
@click.option("--tables", type=int, metavar="N", help="At how many tables the class sits.")
@_PREFER
@click.option("--trade", "trading", is_flag=True, help="Compare all three wishes.")
@click.option("--thrift", is_flag=True, help="Cut from under mats, where that saves a sheet.")
@click.option("--finished", is_flag=True, help="Boxes sold made up, not kits in envelopes.")
@_SECONDS
@click.option("--seed", type=int, default=0, help="Another number may find another plan.")
@_TO
@click.option("--deduct", is_flag=True, help="Write the stock that is left to your workshop file.")
@_EVEN_SO
@WORKSHOP
@JSON
def order(
    files: tuple[Path, ...],
    sets: tuple[int, ...],
    spare: str | None,
    makers: int | None,
    tables: int | None,
    prefer: str | None,
    trading: bool,
    thrift: bool,
    finished: bool,
    seconds: float,
    seed: int,
    folder: Path | None,
    deduct: bool,
    even_so: bool,
    workshop: Path | None,
    as_json: bool,
) -> None:
    """Plan an order: what to buy, cut, pack and charge.

    Several project files at once share their sheets. Offcuts on hand go first, and the list is in
    whole packs less what is on hand. Only your own prices and times count.

    \b
    Examples:
      snipfold order bun-bag.toml --sets 24 --spare 10%
      snipfold order bun-bag.toml jam-tray.toml --sets 30 --sets 12 --prefer settings
      snipfold order bun-bag.toml --class 16 --tables 4 --to class
    """
    from ..orders import PREFERS, ClassDay, OrderError, order_of, trade
    from ..orders.telling import told_order
    from ..publish.order_files import order_files
    from ..publish.order_json import order_json

    share = _share(spare)
    if tables is not None and makers is None:
        raise UnusableError("--tables: there is no class; add --class with the number of makers")
    day = None if makers is None else ClassDay(makers, tables or 1)
    with problems_as(as_json):
        designs, shop = _designs(files, workshop)
        wanted = _wanted(designs, _sets(sets, makers, files))
        _refuse_errors(designs, files, even_so)
        try:
            with _progress("Planning") as told:
                made = order_of(
                    wanted,
                    shop,
                    spare=share,
                    day=day,
                    finished=finished,
                    thrift=thrift,
                    prefer=PREFERS[prefer or "sheets"],
                    seconds=seconds,
                    seed=seed,
                    progress=told,
                )
                rows = (
                    trade(
                        [
                            _as_made(one, kit.spare)
                            for one, kit in zip(wanted, made.kits, strict=True)
                        ],
                        shop,
                        seconds=seconds,
                        seed=seed,
                        progress=told,
                    )
                    if trading
                    else ()
                )
        except OrderError as error:
            raise UnusableError(str(error)) from None
    if as_json:
        click.echo(order_json(made, rows), nl=False)
    else:
        _print(told_order(made, rows))
    if folder is not None:
        _write(order_files(made, rows), folder)
    if deduct:
        _deduct(made, shop, workshop)
    _leave(made, designs)


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@_PREFER
@_SECONDS
@click.option("--seed", type=int, default=0, help="Another number may find another plan.")
@_TO
@_EVEN_SO
@WORKSHOP
@JSON
def series(
    file: Path,
    prefer: str | None,
    seconds: float,
    seed: int,
    folder: Path | None,
    even_so: bool,
    workshop: Path | None,
    as_json: bool,
) -> None:
    """Plan a series: its days, and everything bought once.

    A series file names project files with sets and days. You get one list for all and one for
    each project, and with --to a calendar file of the make, film, publish and class days.

    \b
    Example:
      snipfold series autumn.toml --to autumn
    """
    from ..orders import PREFERS, OrderError, read_series, series_order
    from ..orders.telling import told_series
    from ..publish.order_files import series_files
    from ..publish.order_json import series_json
    from .files import read_text

    with problems_as(as_json):
        said = read_series(read_text(file, "series file"), str(file))
        paths = tuple(file.parent / project.file for project in said.projects)
        designs, shop = _designs(paths, workshop)
        _refuse_errors(designs, paths, even_so)
        try:
            with _progress("Planning") as told:
                made = series_order(
                    said,
                    designs,
                    shop,
                    prefer=PREFERS[prefer] if prefer else None,
                    seconds=seconds,
                    seed=seed,
                    progress=told,
                )
        except OrderError as error:
            raise UnusableError(f"{file}: {error}") from None
    if as_json:
        click.echo(series_json(made), nl=False)
    else:
        click.echo(click.style(said.name, bold=True))
        click.echo()
        _print(told_series(made))
    if folder is not None:
        _write(series_files(made), folder)
    _leave(made.whole, designs)


def _share(said: str | None) -> Fraction | None:
    from ..workshop.toml_text import ShareError, parse_share

    if said is None:
        return None
    try:
        return parse_share(said, 100)
    except ShareError as error:
        raise UnusableError(f"--spare “{said}”: {error.wrong}; {error.right}") from None


def _sets(said: Sequence[int], makers: int | None, files: Sequence[Path]) -> Sequence[int]:
    """How many sets of each file."""
    if not said:
        if makers is None:
            raise UnusableError("--sets: missing; say how many, like --sets 12")
        return [makers] * len(files)
    if len(said) == 1:
        return [said[0]] * len(files)
    if len(said) != len(files):
        raise UnusableError(
            f"--sets: said {len(said)} times for {len(files)} files; "
            "say it once for all, or once for each"
        )
    return said


def _designs(files: Sequence[Path], workshop: Path | None) -> tuple[list[Design], Workshop]:
    """The designs of project files, and the workshop of the first one's units."""
    from .files import read_file

    read = [read_file(path, workshop) for path in files]
    first = read[0]
    shop = first.shops(first.project.system)
    return [one.design() for one in read], shop


def _wanted(designs: Sequence[Design], sets: Sequence[int]) -> list[Wanted]:
    from ..orders import Wanted

    return [Wanted(design, count) for design, count in zip(designs, sets, strict=True)]


def _refuse_errors(designs: Sequence[Design], files: Sequence[Path], even_so: bool) -> None:
    """Nobody wants to cut two hundred sheets of a box that does not close."""
    from ..findings import has_errors

    wrong = [
        path for path, design in zip(files, designs, strict=True) if has_errors(design.findings)
    ]
    if wrong and not even_so:
        for path in wrong:
            click.echo(f"{path} has errors. See: snipfold check {path}", err=True)
        click.echo("Nothing was planned. Mend the errors first, or order --even-so.", err=True)
        click.get_current_context().exit(ERRORS_FOUND)


def _print(sections: Sequence[Any]) -> None:
    from .order_words import told_lines

    for line in told_lines(sections):
        click.echo(line)


@contextmanager
def _progress(label: str) -> Iterator[Callable[[str, int, int], None]]:
    """A progress bar on the error stream, moved by what is yielded."""
    # The library types a bar by what it iterates over, and this one iterates over nothing.
    progressbar: Any = click.progressbar
    shown = {"label": label, "file": sys.stderr, "item_show_func": lambda doing: doing or ""}
    with progressbar(length=1, **shown) as bar:

        def told(doing: str, done: int, of: int) -> None:
            bar.length = of
            bar.update(done - bar.pos, doing)

        yield told


def _write(files: Mapping[str, bytes], folder: Path) -> None:
    from ..publish import PublishError
    from ..publish.folder import write_folder

    try:
        write_folder(files, folder)
    except PublishError as error:
        raise UnusableError(str(error)) from None
    click.echo(f"Written in {folder}: {', '.join(files)}", err=True)


def _deduct(made: Order, shop: Workshop, named: Path | None) -> None:
    """Write what is left to the maker's workshop file, and say what changed."""
    from ..orders import stock_after, stock_changes, stock_text
    from ..workshop import default_workshop, read_workshop
    from .files import own_workshop, read_text, write_over
    from .order_words import stock_lines

    path = named or own_workshop()
    if path is None:
        raise UnusableError("--deduct: you have no workshop file yet; name one with --workshop")
    text = read_text(path, "workshop file")
    after = stock_after(made, shop)
    written = stock_text(text, shop, after)
    if read_workshop(written, str(path), default_workshop(shop.system)) != after:
        raise UnusableError(f"{path}: cannot be changed without harm; change the stock by hand")
    write_over(path, written)
    changes = stock_changes(shop, after)
    click.echo(f"{path} now says:" if changes else f"{path} stays as it is", err=True)
    for line in stock_lines(changes, shop.system):
        click.echo(line, err=True)


def _leave(made: Order, designs: Sequence[Design]) -> None:
    """Leave with 1 where a design has errors or parts are missing."""
    from ..findings import has_errors

    short = any(plan.plan.missing for plan in made.papers)
    if short or any(has_errors(design.findings) for design in designs):
        click.get_current_context().exit(ERRORS_FOUND)


def _as_made(one: Wanted, spare: int) -> Wanted:
    from dataclasses import replace

    return replace(one, spare=spare)
