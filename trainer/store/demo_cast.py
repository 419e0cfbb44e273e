"""Who is made up in a demo kitchen: kept with it, so that nobody who joined it since is taken for one of them."""

from __future__ import annotations

from trainer.store.connections import Connections


class DemoCast:
    """The made-up people of one demo kitchen; empty in any other kitchen."""

    def __init__(self, connections: Connections, kitchen: str) -> None:
        self._connections = connections
        self._kitchen = kitchen

    def add(self, person: str) -> None:
        """Keep a person as made up."""
        self._connections.write(
            "INSERT OR IGNORE INTO demo_cast (kitchen, person) VALUES (?, ?)", (self._kitchen, person)
        )

    def all(self) -> frozenset[str]:
        """Return the ids of everybody made up."""
        rows = self._connections.read("SELECT person FROM demo_cast WHERE kitchen = ?", (self._kitchen,))
        return frozenset(str(row[0]) for row in rows)
