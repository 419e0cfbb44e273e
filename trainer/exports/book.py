"""The record book as a table: a row an entry, every column as it is kept, people by name."""

from __future__ import annotations

from collections.abc import Iterator

from trainer.exports.asking import Asked
from trainer.exports.tables import Cell, Table
from trainer.messages import message

BOOK_HEADS = (
    message("Entry"),
    message("Day"),
    message("Happened"),
    message("Written at"),
    message("Kind"),
    message("About"),
    message("By"),
    message("Device"),
    message("Body"),
    message("Check value"),
)


def book_tables(asked: Asked) -> tuple[Table, ...]:
    """Return the whole book."""
    return (Table(message("Book"), BOOK_HEADS, _rows(asked)),)


def _rows(asked: Asked) -> Iterator[tuple[Cell, ...]]:
    names = {cook: str(person.name) for cook, person in asked.k.people().items()}
    for row in asked.k.file.book.rows():
        people = (names.get(row[who], row[who]) for who in ("cook", "by"))
        seen = row["day"], row["happened"], row["at"], row["kind"]
        yield row["seq"], *seen, *people, row["device"], row["body"], row["hash"]
