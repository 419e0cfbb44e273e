"""The exit codes every command keeps to, and the way a command says no."""

from __future__ import annotations

from datetime import date
from typing import IO, Any

import click

from trainer.messages import Message, Text, translate

OK, CHECK_FAILED, USAGE, REFUSED, DISK = 0, 1, 2, 3, 5


def plain(value: object) -> str:
    """Return a day or a message as a record for other programs has it: the day as ISO 8601, the message in English.

    >>> plain(date(2026, 5, 3))
    '2026-05-03'
    """
    if isinstance(value, Message):
        return translate(value)
    if isinstance(value, date):
        return value.isoformat()
    raise TypeError(f"A {type(value).__name__} has no place in a record.")


class CommandError(click.ClickException):
    """Ends a command: says why on the error stream, and leaves with its exit code."""

    def __init__(self, text: Text, code: int) -> None:
        super().__init__(translate(text))
        self.exit_code = code  # type: ignore[misc]

    def show(self, file: IO[Any] | None = None) -> None:
        """Print the reason, as it is."""
        click.echo(self.message, file=file, err=file is None)
