"""The exit codes every command keeps to, and the way a command says no."""

from __future__ import annotations

from typing import IO, Any

import click

OK, CHECK_FAILED, USAGE, REFUSED, DISK = 0, 1, 2, 3, 5


class Stop(click.ClickException):
    """Ends a command: says why on the error stream, and leaves with its exit code."""

    def __init__(self, text: str, code: int) -> None:
        super().__init__(text)
        self.exit_code = code  # type: ignore[misc]

    def show(self, file: IO[Any] | None = None) -> None:
        """Print the reason, as it is."""
        click.echo(self.message, file=file, err=file is None)
