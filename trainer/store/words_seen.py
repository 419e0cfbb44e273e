"""Which words to a person they have seen: kept beside the book, since nobody has to prove it."""

from __future__ import annotations

from datetime import datetime

from trainer.kitchen.book import moment_text
from trainer.store.connections import Connections


class WordsSeen:
    """What each person of one kitchen has put away, by the name of the words."""

    def __init__(self, connections: Connections, kitchen: str) -> None:
        self._connections = connections
        self._kitchen = kitchen

    def add(self, person: str, what: str, at: datetime, forget: datetime) -> None:
        """Keep that a person has seen some words; what was seen before *forget* is said no more, and is dropped."""
        with self._connections.writing():
            self._connections.write(
                "DELETE FROM words_seen WHERE kitchen = ? AND person = ? AND at < ?",
                (self._kitchen, person, moment_text(forget)),
            )
            self._connections.write(
                "INSERT OR REPLACE INTO words_seen (kitchen, person, what, at) VALUES (?,?,?,?)",
                (self._kitchen, person, what, moment_text(at)),
            )

    def of(self, person: str) -> frozenset[str]:
        """Return the names of the words a person has seen."""
        rows = self._connections.read(
            "SELECT what FROM words_seen WHERE kitchen = ? AND person = ?", (self._kitchen, person)
        )
        return frozenset(str(row[0]) for row in rows)
