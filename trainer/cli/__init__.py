"""The command line: one click command a thing to do; it prints and decides nothing."""

from __future__ import annotations

import importlib
import sys
from difflib import get_close_matches
from pathlib import Path
from typing import Any

import click

from trainer.cli.exits import CHECK_FAILED, DISK
from trainer.store.problems import ReadingOnly

WHERE = {
    "demo": "kitchens",
    "new": "kitchens",
    "serve": "kitchens",
    "https": "encryption",
    "backup": "safekeeping",
    "restore": "safekeeping",
    "doctor": "doctor",
    "content": "content",
    "roster": "roster",
    "settings": "settings",
    "secret": "secret",
    "recover": "recover",
    "device": "device",
    "clock": "clock",
    "erase": "person",
    "retention": "retention",
    "record": "record",
    "board": "clearance",
    "why": "clearance",
    "signers": "signers",
    "inspection": "inspection",
    "path": "paths",
    "waiting": "waiting",
    "next": "tasks",
    "cover": "cover",
    "training-plan": "training",
    "services": "plan",
    "plan": "plan",
    "service": "service",
    "book": "book",
    "export": "export",
    "quantity": "sums",
    "question": "sums",
    "families": "sums",
    "grade": "sums",
    "batch": "batch",
    "cooling": "bench",
}


class LazyCommands(click.Group):
    """A group that imports a command's module only when that command is run, so that every start is quick."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the commands in the order a new kitchen meets them."""
        return list(WHERE)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return the command, or None when there is none of that name."""
        if cmd_name not in WHERE:
            return None
        module = importlib.import_module(f"trainer.cli.{WHERE[cmd_name]}")
        command: click.Command = getattr(module, f"{cmd_name.replace('-', '_')}_command")
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Return the command; for a name with a slip in it, name the nearest one."""
        near = [] if args[0] in WHERE or args[0].startswith("-") else get_close_matches(args[0], WHERE, 1)
        if near:
            raise click.UsageError(f"There is no command {args[0]!r}. Did you mean {near[0]!r}?", ctx)
        return super().resolve_command(ctx, args)


@click.command(
    cls=LazyCommands,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="Exit codes: 0 done, 1 a check failed, 2 wrong use, 3 refused, 5 the disk would not take it.",
)
@click.option(
    "--kitchen",
    "folder",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path(".kitchen"),
    envvar="TRAINER_KITCHEN",
    show_default=True,
    show_envvar=True,
    help="The folder that holds the kitchen's book.",
)
@click.version_option(package_name="kitchen-trainer", prog_name="trainer")
@click.pass_context
def trainer(ctx: click.Context, folder: Path) -> None:
    """Teach a kitchen's standard, check it, keep the record, say who is cleared.

    \b
    Example, a first look:
      trainer demo
      trainer serve
    """
    ctx.obj = folder


def main(args: list[str] | None = None, **extra: Any) -> None:  # noqa: ANN401 - click's own keyword arguments
    """Run the command line; a disk that will not take an entry ends in a plain line and exit code 5."""
    try:
        trainer.main(args, **extra)
    except ReadingOnly as problem:
        click.echo(f"Not saved: {problem}", err=True)
        sys.exit(CHECK_FAILED)
    except OSError as problem:
        click.echo(
            f"Not saved: {problem.strerror or problem}. Nothing was half-written. Free some room, then try again.",
            err=True,
        )
        sys.exit(DISK)
