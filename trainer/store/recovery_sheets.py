"""The recovery sheet of a kitchen: only the argon2id hash of the one that is good, and when it was made."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from trainer.kitchen.book import moment_text
from trainer.store.connections import Connections
from trainer.store.identity import moment


@dataclass(frozen=True, slots=True)
class KeptSheet:
    """A sheet that was printed and not used: the hash of its signs, and when it was made."""

    hash: str
    made_at: datetime


class RecoverySheets:
    """One sheet a kitchen: a new one ends the one before."""

    def __init__(self, connections: Connections, kitchen: str) -> None:
        self._connections = connections
        self._kitchen = kitchen

    def current(self) -> KeptSheet | None:
        """Return the sheet that is good now; None in a kitchen that never had one."""
        sql = "SELECT hash, made_at FROM recovery_sheets WHERE kitchen = ?"
        rows = self._connections.read(sql, (self._kitchen,))
        return KeptSheet(rows[0][0], moment(rows[0][1])) if rows else None

    def keep(self, sheet: KeptSheet) -> None:
        """Keep a sheet in place of the one before."""
        sql = "INSERT OR REPLACE INTO recovery_sheets (kitchen, hash, made_at) VALUES (?, ?, ?)"
        self._connections.write(sql, (self._kitchen, sheet.hash, moment_text(sheet.made_at)))
