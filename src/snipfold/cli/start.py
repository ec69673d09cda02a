"""Where the command line begins, and how every failure ends: in words, never in a traceback."""

from __future__ import annotations

import io
import os
import sys
import traceback
from typing import Any

import click

#: Exit codes: findings with errors, a file or option that cannot be used, a defect of ours.
ERRORS_FOUND, UNUSABLE, DEFECT, STOPPED = 1, 2, 3, 130

DEBUG = "SNIPFOLD_DEBUG"


class UnusableError(click.ClickException):
    """Something that was given cannot be used; the message says what, and what would be right."""

    exit_code = UNUSABLE

    def show(self, file: Any = None) -> None:
        """Print the message alone."""
        click.echo(self.message, err=True)


class CraftGroup(click.Group):
    """Commands in the order in which a maker needs them, and failures in words."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The commands in the order in which they were added."""
        return list(self.commands)

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; turn what goes wrong into a message and an exit code."""
        if os.environ.get("NO_COLOR"):
            ctx.color = False
        try:
            return super().invoke(ctx)
        except (click.ClickException, click.exceptions.Exit, click.Abort, BrokenPipeError):
            raise
        except KeyboardInterrupt:
            click.echo("Stopped.", err=True)
            ctx.exit(STOPPED)
        except Exception as error:
            ctx.exit(_explain(error))


def _explain(error: Exception) -> int:
    """Say what went wrong; the exit code."""
    # Only a failure needs these, and a command that does not fail should not wait for them.
    from ..findings import ProjectFileError

    if isinstance(error, ProjectFileError):
        click.echo(str(error), err=True)
        return UNUSABLE
    if isinstance(error, OSError):
        name = f"{error.filename}: " if error.filename else ""
        click.echo(f"{name}{error.strerror or error}", err=True)
        return UNUSABLE
    if os.environ.get(DEBUG):
        traceback.print_exception(error)
    said = " ".join(str(error).split())[:200]
    click.echo(
        f"This is a defect of snipfold, not of your file ({type(error).__name__}: {said}). "
        f"Please report it with the file; {DEBUG}=1 shows where it happened.",
        err=True,
    )
    return DEFECT


def main() -> None:
    """Run the command line and leave with its exit code."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            # A terminal that has no ½ or “ still gets the rest.
            stream.reconfigure(errors="replace")
    from .commands import snipfold

    snipfold.main(prog_name="snipfold")
