"""The exit codes every command keeps to, and the two ways a command says no."""

from __future__ import annotations

import sys
from typing import NoReturn

import click

OK, CHECK_FAILED, USAGE, REFUSED, DISK = 0, 1, 2, 3, 5


def stop(text: str, code: int) -> NoReturn:
    """Say why on the error stream and end with *code*."""
    click.echo(text, err=True)
    sys.exit(code)
