"""People and their records as tables: who is on the roster, and what each was trained in."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from trainer.actions.record_sheet import record_sheet
from trainer.actions.record_trainings import Training
from trainer.exports.asking import Asked
from trainer.exports.tables import Cell, Table
from trainer.kitchen.practical import WORDS
from trainer.kitchen.roles import roles_in_words
from trainer.messages import Text, joined, message

PEOPLE_HEADS = (message("Name"), message("Roles"), message("Cleared for"))
TRAINING_HEADS = (
    message("Name"),
    message("Technique"),
    message("Edition"),
    message("Read"),
    message("Questions passed"),
    message("Watched last"),
    message("Watched by"),
    message("Result"),
    message("Minutes"),
    message("Good to"),
)


def people_tables(asked: Asked, now: datetime) -> tuple[Table, ...]:
    """Return everybody on the roster, then a row for each technique somebody was trained in."""
    return (
        Table(message("People"), PEOPLE_HEADS, list(_people_rows(asked))),
        Table(message("Records"), TRAINING_HEADS, _training_rows(asked, now)),
    )


def _people_rows(asked: Asked) -> Iterator[tuple[Cell, ...]]:
    day, rows = asked.k.day(asked.on), {row.cook.id: row for row in asked.k.board(asked.on).rows}
    for cook, person in asked.k.people().items():
        roles = sorted(day.roles(cook))
        found = rows[cook].clearances if cook in rows else ()
        stations = (asked.station(one.station) for one in found if one.is_cleared)
        if roles:
            yield person.name, roles_in_words(roles), joined(stations, ", ")


def _training_rows(asked: Asked, now: datetime) -> Iterator[tuple[Cell, ...]]:
    for row in asked.k.board(asked.on).rows:
        for one in record_sheet(asked.k, row.cook.id, now, asked.content).trainings:
            yield row.cook.name, *_training(asked, one)


def _training(asked: Asked, one: Training) -> tuple[Cell, ...]:
    seen = one.watched
    result: Text = message("signed") if one.is_signed else WORDS[seen.verdict] if seen else message("not watched yet")
    by = asked.person(seen.by) if seen else None
    on = seen.on if seen else None
    return one.title, one.edition, one.read, one.quiz, on, by, result, one.minutes or None, one.good_to
