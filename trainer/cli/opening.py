"""Opens the kitchen a command is about, or says plainly why it cannot."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date
from pathlib import Path

import click

from trainer import clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.teaching import Draft, Teaching, draft_in
from trainer.actions.upgrading import needs_upgrade, upgrade
from trainer.cli.exits import CHECK_FAILED, CommandError
from trainer.content.ready import ReadyContent
from trainer.content.shipped import shipped
from trainer.kitchen.technique import Content, Problem
from trainer.store.kitchen_file import KitchenFile
from trainer.store.problems import KitchenProblem
from trainer.store.settings import Settings


def content_folder(folder: Path) -> Path:
    """Return the kitchen's own content folder where it has one, and what comes with the program where not."""
    own = folder / "content"
    return own if own.is_dir() else shipped("content")


def usable(content: Content | None, problems: Sequence[Problem]) -> Content:
    """Return content that was read; where it cannot be used, its first problem ends the command."""
    if content is None:
        first = problems[0]
        where = f"{first.file}:{first.line}: {first.message}"
        raise CommandError(
            f"The content cannot be used: {where} See all of it with: trainer content check", CHECK_FAILED
        )
    return content


def _said_of(problems: Sequence[Problem]) -> Iterator[str]:
    """Yield what is to be said of problems in content that can be used: what is left out, and what is not."""
    faults = sum(problem.leaves_out for problem in problems)
    if faults:
        yield f"The content has {faults} problems; what they touch is left out. See: trainer content check"
    if faults < len(problems):
        held = f"The content asks for less than the code in {len(problems) - faults} places; it is taught, and judged"
        yield f"{held} as the code asks. See: trainer content check"


def draft_beside(folder: Path, settings: Settings) -> Draft:
    """Return the files a kitchen that is yet to be made will teach from; files that cannot be used end the command."""
    return _looked_at(lambda: draft_in(content_folder(folder), settings.units_first))


def content_from_files(folder: Path) -> ReadyContent:
    """Return what a kitchen that is yet to be made will teach; nothing of it is kept."""
    return ReadyContent(content_folder(folder), folder, None)


def open_here(folder: Path) -> Kitchen:
    """Return the kitchen in *folder*, open until the command ends; one that is missing or damaged ends the command.

    A kitchen that an earlier program left is brought up to date first.
    """
    try:
        file = KitchenFile.open(folder)
    except KitchenProblem as problem:
        raise CommandError(str(problem), CHECK_FAILED) from problem
    command = click.get_current_context(silent=True)
    if command is not None:
        command.call_on_close(file.close)
    kitchen = Kitchen(file, teaching=Teaching(file, content_folder(folder)))
    kitchen.keep_time(lambda: clock.now(), clock.steady)  # noqa: PLW0108 - looked up anew each time
    if needs_upgrade(kitchen):
        _upgrade(kitchen)
    kitchen.today(clock.now())  # what is taught is what was published for today
    file.book.closes_days = True
    return kitchen


def _upgrade(kitchen: Kitchen) -> None:
    """Publish the files as they are as the first standard, and say what the book has to say of its old entries."""
    upgrade(kitchen, draft=draft_of(kitchen), now=clock.now())


def draft_of(kitchen: Kitchen) -> Draft:
    """Return the content files as they are now; files that cannot be used end the command."""
    teaching = kitchen.teaching
    if teaching is None:
        raise CommandError("This kitchen has no content folder.", CHECK_FAILED)
    return _looked_at(teaching.draft)


def _looked_at(read: Callable[[], Draft]) -> Draft:
    """Return files as they were read, after saying what is left out of them."""
    try:
        draft = read()
    except OSError as problem:
        raise CommandError(f"The content cannot be read: {problem}.", CHECK_FAILED) from problem
    usable(draft.content, draft.problems)
    for line in _said_of(draft.problems):
        click.echo(line, err=True)
    return draft


def today_of(kitchen: Kitchen) -> date:
    """Return the day it is in the kitchen."""
    return kitchen.today(clock.now())
