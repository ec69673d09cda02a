"""What several commands share: their options, and problems told as data."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import click

WORKSHOP = click.option(
    "--workshop",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Your own papers and tools. Left out: ~/.config/snipfold/workshop.toml, if it is there.",
)
JSON = click.option("--json", "as_json", is_flag=True, help="Print data for programs instead.")


@contextmanager
def problems_as(as_json: bool) -> Iterator[None]:
    """Where data is asked for, a file that cannot be used is told as data too."""
    import json

    from ..findings import ProjectFileError
    from .files import problems_of

    try:
        yield
    except ProjectFileError as error:
        if as_json:
            told = {"format": "snipfold problems", "version": 1, "problems": problems_of(error)}
            click.echo(json.dumps(told, ensure_ascii=False, indent=1))
        raise
