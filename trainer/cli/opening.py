"""Opens the kitchen a command is about, or says plainly why it cannot."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path

import click

from trainer import clock
from trainer.actions.open_kitchen import Kitchen
from trainer.cli.exits import CHECK_FAILED, CommandError
from trainer.content.ready import ReadyContent
from trainer.content.shipped import shipped
from trainer.kitchen.technique import Content, Problem
from trainer.store.catalogues import ENGLISH
from trainer.store.kitchen_file import KitchenFile
from trainer.store.problems import KitchenProblem
from trainer.store.settings import Settings


def content_folder(folder: Path) -> Path:
    """Return the kitchen's own content folder where it has one, and what comes with the program where not."""
    own = folder / "content"
    return own if own.is_dir() else shipped("content")


def content_of(ready: ReadyContent, settings: Settings) -> Content:
    """Return what a kitchen teaches, in English as the book is; content that cannot be used ends the command."""
    content, problems = ready.read(ENGLISH, settings.units_first)
    if content is None:
        first = problems[0]
        where = f"{first.file}:{first.line}: {first.message}"
        raise CommandError(
            f"The content cannot be used: {where} See all of it with: trainer content check", CHECK_FAILED
        )
    for line in _said_of(problems):
        click.echo(line, err=True)
    return content


def _said_of(problems: Sequence[Problem]) -> Iterator[str]:
    """Yield what is to be said of problems in content that can be used: what is left out, and what is not."""
    faults = sum(problem.leaves_out for problem in problems)
    if faults:
        yield f"The content has {faults} problems; what they touch is left out. See: trainer content check"
    if faults < len(problems):
        held = f"The content asks for less than the code in {len(problems) - faults} places; it is taught, and judged"
        yield f"{held} as the code asks. See: trainer content check"


def content_from_files(folder: Path) -> ReadyContent:
    """Return what a kitchen that is yet to be made will teach; nothing of it is kept."""
    return ReadyContent(content_folder(folder), folder, None)


def ready_content(file: KitchenFile) -> ReadyContent:
    """Return what a kitchen teaches, kept ready in its folder where it has a key that is its own."""
    try:
        key = file.secret_key()
    except (KitchenProblem, OSError):
        key = None
    return ReadyContent(content_folder(file.folder), file.folder, key)


def open_here(folder: Path) -> Kitchen:
    """Return the kitchen in *folder*, open until the command ends; one that is missing or damaged ends the command."""
    try:
        file = KitchenFile.open(folder)
    except KitchenProblem as problem:
        raise CommandError(str(problem), CHECK_FAILED) from problem
    command = click.get_current_context(silent=True)
    if command is not None:
        command.call_on_close(file.close)
    ready = ready_content(file)
    kitchen = Kitchen(file, content_of(ready, file.settings), lambda language, units: ready.read(language, units)[0])
    kitchen.keep_time(lambda: clock.now(), clock.steady)  # noqa: PLW0108 - looked up anew each time
    return kitchen


def today_of(kitchen: Kitchen) -> date:
    """Return the day it is in the kitchen."""
    return kitchen.today(clock.now())
