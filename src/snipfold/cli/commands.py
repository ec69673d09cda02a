"""The commands. Each one reads, calls, and prints; what it prints is worded in `words`."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from .. import __version__
from . import fit_command, order_commands
from .shared import JSON, WORKSHOP, problems_as
from .start import ERRORS_FOUND, UNUSABLE, CraftGroup, UnusableError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from click.shell_completion import CompletionItem

    from ..project import Design
    from ..styles import Style

# The rooms are imported inside the commands: help and completion answer without them.


@click.group(cls=CraftGroup, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, "-V", "--version", message="snipfold %(version)s")
def snipfold() -> None:
    """Plan a folded paper box, prove that it folds, and publish how to make it.

    Write down what you want in a project file. Check it, change it, check it again. When nothing
    is left to mend, publish: others get the cutting and scoring measures, a step-by-step guide and
    full-size templates.

    \b
    Start here:
      snipfold styles
      snipfold new bun-bag.toml --style wrap-bag
      snipfold check bun-bag.toml
      snipfold publish bun-bag.toml --to bun-bag
    """


FILE = click.argument("file", type=click.Path(path_type=Path))
EDITION = click.option(
    "--edition",
    type=click.Choice(["inch", "metric"]),
    help="Work it out anew in these units. Left out: those of the file.",
)


def _design(file: Path, workshop: Path | None, edition: str | None) -> tuple[Design, str]:
    """The design of a project file, and the file's text."""
    from ..workshop import SYSTEMS
    from .files import read_file

    read = read_file(file, workshop)
    return read.design(SYSTEMS[edition] if edition else None), read.text


def _leave(design: Design) -> None:
    """Leave with the exit code that the findings ask for."""
    from ..findings import has_errors

    if has_errors(design.findings):
        click.get_current_context().exit(ERRORS_FOUND)


@snipfold.command()
def styles() -> None:
    """List the styles, each with its measures.

    Every measure is shown with what it is where you leave it out, and between which limits it may
    be.

    \b
    Example:
      snipfold styles
    """
    from ..styles import STYLES, ScoredBlank
    from .words import blank_lines, style_lines

    for style in STYLES:
        click.echo("\n".join(style_lines(style)))
    click.echo("\n".join(blank_lines(ScoredBlank)))


def _style_names(
    ctx: click.Context, param: click.Parameter, incomplete: str
) -> list[CompletionItem]:
    from click.shell_completion import CompletionItem

    from ..styles import STYLES, ScoredBlank

    known = [*((style.name, style.says) for style in STYLES), (ScoredBlank.name, ScoredBlank.says)]
    names = [(name.replace(" ", "-"), says) for name, says in known]
    return [CompletionItem(name, help=says) for name, says in names if name.startswith(incomplete)]


def _measure_names(
    ctx: click.Context, param: click.Parameter, incomplete: str
) -> list[CompletionItem]:
    from click.shell_completion import CompletionItem

    from ..styles import STYLES

    said = _plain(str(ctx.params.get("style") or ""))
    measures = {
        f"{measure.name}=": measure.says
        for style in STYLES
        if not said or _plain(style.name) == said
        for measure in style.measures
    }
    return [
        CompletionItem(name, help=says)
        for name, says in measures.items()
        if name.startswith(incomplete)
    ]


def _plain(name: str) -> str:
    return name.strip().casefold().replace("-", " ")


def _style(said: str) -> Style | None:
    """The style that is meant; None for the scored blank, which its own plan makes."""
    from ..styles import STYLES, ScoredBlank
    from ..workshop.toml_text import one_of

    for style in STYLES:
        if _plain(style.name) == _plain(said):
            return style
    if _plain(said) == _plain(ScoredBlank.name):
        return None
    advice = one_of(said, [*(style.name for style in STYLES), ScoredBlank.name])
    raise UnusableError(f"--style “{said}”: no such style; {advice}")


@snipfold.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--style", required=True, shell_complete=_style_names, help="Which box or bag.")
@click.option(
    "--set",
    "measures",
    multiple=True,
    metavar='NAME="MEASURE"',
    shell_complete=_measure_names,
    help='A measure of the style, such as width="4 1/4 in". Say it once for each.',
)
@click.option(
    "--units",
    type=click.Choice(["inch", "metric"]),
    default="inch",
    show_default=True,
    help="What you measure in.",
)
@click.option("--name", default="", help="What the box is called.")
@WORKSHOP
def new(
    file: Path, style: str, measures: Sequence[str], units: str, name: str, workshop: Path | None
) -> None:
    """Start a project file.

    It names every measure with its limits, and waits for yours. A file that is there already stays
    as it is.

    \b
    Examples:
      snipfold new bun-bag.toml --style wrap-bag --set width="4 1/4 in"
      snipfold new tray.toml --style "tray with lift-off lid" --units metric
    """
    from ..project import new_blank_text, new_project_text, read_project
    from ..workshop import SYSTEMS
    from .files import shops, write_new
    from .options import measures_said

    system = SYSTEMS[units]
    chosen = _style(style)
    shop = shops(workshop)(system)
    title = name.strip() or file.stem.replace("-", " ").replace("_", " ").strip().capitalize()
    if chosen is None:
        if measures:
            raise UnusableError(
                f"--set {measures[0]}: a scored blank has no measures; set its lines in the file"
            )
        text = new_blank_text(system, title, shop)
    else:
        lengths = measures_said(chosen, system, measures)
        text = new_project_text(chosen, system, lengths, title, shop)
    read_project(text, f"{file} (not written)")
    write_new(file, text)
    click.echo(f"{file} is ready. Change it to your liking, then: snipfold check {file}")


@snipfold.command()
@FILE
@EDITION
@WORKSHOP
@JSON
def check(file: Path, edition: str | None, workshop: Path | None, as_json: bool) -> None:
    """Check that the box can be made.

    Can it be cut, scored, folded and filled?
    Every law of the proof is shown with its figure, and everything that is wrong with the change
    that mends it. Leaves with 1 if there are errors, with 2 if the file cannot be used.

    \b
    Example:
      snipfold check bun-bag.toml
    """
    with problems_as(as_json):
        design, text = _design(file, workshop, edition)
    if as_json:
        from ..publish.design_json import design_json

        click.echo(design_json(design), nl=False)
    else:
        from .words import check_lines

        for line in check_lines(design, text):
            click.echo(line)
    _leave(design)


@snipfold.command()
@FILE
@EDITION
@WORKSHOP
@JSON
def show(file: Path, edition: str | None, workshop: Path | None, as_json: bool) -> None:
    """Show every measure, from supplies to strap.

    What to buy, how to cut the sheets, where to score and snip, where tape, mats and strap go.

    \b
    Examples:
      snipfold show bun-bag.toml
      snipfold show bun-bag.toml --edition metric
    """
    with problems_as(as_json):
        design, text = _design(file, workshop, edition)
    if as_json:
        from ..publish.design_json import design_json

        click.echo(design_json(design), nl=False)
    else:
        from .words import show_lines

        for line in show_lines(design, text):
            click.echo(line)
    _leave(design)


@contextmanager
def _progress() -> Iterator[Callable[[str, int, int], None]]:
    """A progress bar on the error stream, moved by what is yielded."""
    # The library types a bar by what it iterates over, and this one iterates over nothing.
    progressbar: Any = click.progressbar
    shown = {"label": "Publishing", "file": sys.stderr, "item_show_func": lambda doing: doing or ""}
    with progressbar(length=1, **shown) as bar:

        def told(doing: str, done: int, of: int) -> None:
            bar.length = of
            bar.update(done - bar.pos, doing)

        yield told


@snipfold.command()
@FILE
@click.option(
    "--to",
    "folder",
    type=click.Path(path_type=Path),
    required=True,
    metavar="FOLDER",
    help="A new or empty folder, or one that was published before.",
)
@EDITION
@click.option(
    "--page",
    type=click.Choice(["letter", "a4"]),
    help="The paper in your printer. Left out: letter for inches, a4 for metric.",
)
@click.option("--even-so", is_flag=True, help="Publish in spite of errors.")
@WORKSHOP
def publish(
    file: Path,
    folder: Path,
    edition: str | None,
    page: str | None,
    even_so: bool,
    workshop: Path | None,
) -> None:
    """Publish the guide and its files.

    You get the guide and full-size templates as PDF, a cut file, a picture and the design as data.
    Everything is written at once or not at all. A box with errors is not published, since nobody
    could make it.

    \b
    Examples:
      snipfold publish bun-bag.toml --to bun-bag
      snipfold publish bun-bag.toml --to bun-bag-cm --edition metric --page a4
    """
    from ..findings import has_errors
    from .words import check_lines, finding_lines

    design, text = _design(file, workshop, edition)
    if has_errors(design.findings) and not even_so:
        for line in check_lines(design, text):
            click.echo(line)
        click.echo("Nothing was published. Mend the errors first, or publish --even-so.", err=True)
        click.get_current_context().exit(ERRORS_FOUND)
    from ..publish import PublishError, publish_design

    try:
        with _progress() as told:
            files = publish_design(design, folder, page or design.workshop.page, told)
    except PublishError as error:
        raise UnusableError(str(error)) from None
    for line in finding_lines(design, text):
        click.echo(line)
    click.echo(f"Published in {folder}:")
    for path in files:
        click.echo(f"  {path.name}")
    _leave(design)


snipfold.add_command(fit_command.fit)
snipfold.add_command(order_commands.order)
snipfold.add_command(order_commands.series)


@snipfold.command()
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
def completion(shell: str) -> None:
    """Teach your shell to complete commands.

    Then the Tab key completes commands, options, files, styles and measures.

    \b
    bash: snipfold completion bash > ~/.local/share/bash-completion/completions/snipfold
    zsh:  snipfold completion zsh  > a folder of your $fpath, as _snipfold
    fish: snipfold completion fish > ~/.config/fish/completions/snipfold.fish
    """
    from click.shell_completion import get_completion_class

    made = get_completion_class(shell)
    if made is None:
        click.get_current_context().exit(UNUSABLE)
    click.echo(made(snipfold, {}, "snipfold", "_SNIPFOLD_COMPLETE").source())
