"""What could cost the kitchen its book, at the command line."""

from __future__ import annotations

import json
import sys
from dataclasses import asdict
from pathlib import Path

import click

from trainer import clock
from trainer.cli.exits import CHECK_FAILED
from trainer.store.doctor import CHECKS, Check, Patient, examine

ALL_CHECKS: tuple[Check, ...] = CHECKS
"""The checks in their order. One that reads content or actions is added here."""


@click.command("doctor")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
@click.pass_obj
def doctor_command(folder: Path, as_json: bool) -> None:
    """Look for what could cost the kitchen its book: copies, clock, disk, guards, texts. Nothing is changed.

    \b
    Example:
      trainer doctor
      trainer doctor --json
    """
    found = examine(Patient(folder, clock.now()), ALL_CHECKS)
    if as_json:
        click.echo(json.dumps({"findings": [asdict(each) for each in found]}, ensure_ascii=False))
    else:
        for each in found:
            click.echo(f"{each.name}: {each.what}\n  {each.act}")
        click.echo(
            f"{len(found)} findings" if found else "Nothing found: the book, its copies and this machine are fine."
        )
    sys.exit(CHECK_FAILED if found else 0)
