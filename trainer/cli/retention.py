"""How long people are kept after they left, at the command line."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any
from uuid import uuid4

import click

from trainer import clock
from trainer.actions.erasing import held_about
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.people_on_record import Written
from trainer.actions.retention import (
    PROPOSED_YEARS,
    Leaver,
    erase_leavers,
    kept_for,
    kept_long_enough,
    law_on,
    leavers,
    read_years,
    set_years,
    years_kept,
)
from trainer.cli.exits import REFUSED, USAGE, CommandError
from trainer.cli.opening import open_here
from trainer.cli.person import write_new_file
from trainer.kitchen.book import LOCAL
from trainer.messages import Text, joined, message, plural, translate

NOBODY_ERASED = message("Nobody was erased.")


@click.command("retention")
@click.option(
    "--years", "typed", metavar="N", help="Keep names for 1 to 100 years after people left, or: never (erase nobody)."
)
@click.option("--preview", "previews", is_flag=True, help="Only list who would be erased, on which day.")
@click.option("--apply", "erases", is_flag=True, help="Erase those who were kept long enough by what is set.")
@click.option(
    "--into",
    type=click.Path(path_type=Path, file_okay=False),
    help="A new folder for all that is held about them, written before anybody is erased.",
)
@click.option("--yes", is_flag=True, help="Do not ask how many they are.")
@click.pass_obj
def retention_command(folder: Path, /, typed: str | None, previews: bool, erases: bool, **apply: Any) -> None:  # noqa: ANN401 - click's own options
    """Set how long people are kept after they left, list whom that would erase on which day, and erase them.

    Nobody is erased by itself. Where a claim is open about somebody, erase the others one by one: trainer erase

    \b
    Example:
      trainer retention --years 3 --preview
      trainer retention --years 3
      trainer retention --apply --into left-long-ago
      trainer retention --years never
    """
    if erases and (previews or typed is not None):
        raise CommandError(
            message("--apply goes by the years set before. Set them, look at the list, then give --apply alone."), USAGE
        )
    kitchen, written = open_here(folder), Written(LOCAL, clock.now(), str(uuid4()))
    if erases:
        _apply(kitchen, written, **apply)
        return
    years = years_kept(kitchen) if typed is None else _years(kitchen, typed, None if previews else written)
    _print_list(kitchen, years, written)


def _years(kitchen: Kitchen, typed: str, written: Written | None) -> int | None:
    """Return the years typed, set where *written* says by whom; what is not taken ends the command."""
    years = read_years(typed)
    if isinstance(years, Refused):
        raise _ends(years)
    if written is None:
        click.echo(translate(joined([message("Only a preview:"), kept_for(years)])))
        return years
    outcome = set_years(kitchen, years, written)
    if isinstance(outcome, Refused):
        raise _ends(outcome)
    click.echo(translate(message("Set. Entry {entry} of the book says so.", entry=outcome.entry.seq)))
    return years


def _print_list(kitchen: Kitchen, years: int | None, written: Written) -> None:
    """Print what a setting means, and everybody who has left with the day they may be erased from."""
    click.echo(translate(kept_for(years)))
    if years is None:
        proposal = message("With {number} years, a proposal, it would be:", number=PROPOSED_YEARS)
        click.echo(translate(proposal))
    found, today = leavers(kitchen, years or PROPOSED_YEARS, written.now), kitchen.today(written.now)
    _print_people(message("Kept long enough:"), (one for one in found if one.erased_from <= today))
    _print_people(message("Still to be kept:"), (one for one in found if one.erased_from > today))
    click.echo(translate(law_on(years)))
    click.echo(translate(NOBODY_ERASED))


def _print_people(heading: Text, people: Iterable[Leaver]) -> None:
    """Print people below a heading, one a line; without anybody the heading says so."""
    lines = [
        message(
            "{name} ({id}): left {left}, may be erased from {day} on", name=one.name, id=one.cook, left=left, day=day
        )
        for one in people
        for left, day in [(one.left.isoformat(), one.erased_from.isoformat())]
    ]
    click.echo(translate(joined([heading, *([] if lines else [message("nobody")])])))
    for line in lines:
        click.echo(f"  {translate(line)}")


def _apply(kitchen: Kitchen, written: Written, into: Path | None, yes: bool) -> None:
    """Erase everybody who was kept long enough, and say of each what came of it."""
    if into is None:
        raise CommandError(
            joined([message("Name a new folder with --into, for all that is held about them."), NOBODY_ERASED]), USAGE
        )
    found = kept_long_enough(kitchen, written.now)
    if isinstance(found, Refused):
        raise _ends(found)
    if not found:
        click.echo(translate(joined([message("Nobody left so long ago."), NOBODY_ERASED])))
        return
    _ask(kitchen, found, yes)
    _make_folder(into)
    done = erase_leavers(kitchen, found, written, lambda one, held: write_new_file(into / f"{one.cook}.json", held))
    _print_done(done, into)


def _ask(kitchen: Kitchen, found: Sequence[Leaver], yes: bool) -> None:
    """Print whom it is about, what of theirs would stay, and ask for their number; another one ends the command."""
    _print_people(kept_for(years_kept(kitchen)), found)
    click.echo(translate(law_on(years_kept(kitchen))))
    older = sum(held_about(kitchen, one.cook).older_texts for one in found)
    if older:
        click.echo(
            translate(
                plural(
                    "{number} text of an older entry stays: it was written into the book itself.",
                    "{number} texts of older entries stay: they were written into the book itself.",
                    older,
                )
            )
        )
    if yes:
        return
    question = message("Type how many people are erased, to do it ({number})", number=len(found))
    typed = click.prompt(translate(question), default="", show_default=False)
    if typed.strip() != str(len(found)):
        wrong = message("“{typed}” is not {number}.", typed=typed, number=len(found))
        raise CommandError(joined([wrong, NOBODY_ERASED]), REFUSED)


def _make_folder(into: Path) -> None:
    """Make a folder that only its owner can read; one that holds anything already ends the command."""
    try:
        into.mkdir(mode=0o700, parents=True, exist_ok=True)
        is_empty = not any(into.iterdir())
    except OSError as problem:
        wrong = message("{path} cannot be made ({problem}).", path=str(into), problem=problem.strerror or "")
        raise CommandError(joined([wrong, NOBODY_ERASED]), REFUSED) from problem
    if not is_empty:
        wrong = message("{path} holds files already. Name a new folder.", path=str(into))
        raise CommandError(joined([wrong, NOBODY_ERASED]), REFUSED)


def _print_done(done: Sequence[tuple[Leaver, Outcome]], into: Path) -> None:
    """Print how many were erased and what to do with their papers; where anybody was not, the command failed."""
    refused = [(one, outcome) for one, outcome in done if isinstance(outcome, Refused)]
    click.echo(translate(plural("{number} person erased.", "{number} people erased.", len(done) - len(refused))))
    told = message("All that was held about them is in {path}: hand it over, then delete it.", path=str(into))
    click.echo(translate(told))
    click.echo(
        translate(
            message("Copies and printed sheets made before keep the name: throw them away when their time is over.")
        )
    )
    if refused:
        raise CommandError(
            joined(
                message("{name} was not erased: {reason}", name=one.name, reason=why.reason) for one, why in refused
            ),
            REFUSED,
        )


def _ends(refusal: Refused) -> CommandError:
    """Return what ends the command: why, and who or what helps."""
    return CommandError(joined(part for part in (refusal.reason, refusal.who_can) if part), REFUSED)
