"""First codes: one a person, beside the secret they have, which it replaces only when it is used."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from trainer.kitchen.book import moment_text
from trainer.store.connections import Connections
from trainer.store.identity import moment


@dataclass(frozen=True, slots=True)
class KeptCode:
    """A code that was given and not used: its argon2id hash, and until when it is good."""

    hash: str
    good_until: datetime


class FirstCodes:
    """The first codes of one kitchen, and of which codes each person was told."""

    def __init__(self, connections: Connections, kitchen: str) -> None:
        self._connections = connections
        self._kitchen = kitchen

    def give(self, person: str, code: KeptCode) -> None:
        """Keep a code for a person, in place of an earlier one."""
        self._keep(person, code.hash, moment_text(code.good_until))

    def of(self, person: str) -> KeptCode | None:
        """Return a person's code, good or run out; None where none was given, or it was used."""
        sql = "SELECT hash, good_until FROM first_codes WHERE kitchen = ? AND person = ? AND hash <> ''"
        rows = self._connections.read(sql, (self._kitchen, person))
        return KeptCode(rows[0][0], moment(rows[0][1])) if rows else None

    def use_up(self, person: str, code: KeptCode) -> bool:
        """Take a code away; of two who use it at once, return True to one."""
        sql = "UPDATE first_codes SET hash = '' WHERE kitchen = ? AND person = ? AND hash = ?"
        return self._connections.write(sql, (self._kitchen, person, code.hash)) > 0

    def drop(self, person: str) -> None:
        """Take a person's code away, where there is one."""
        sql = "UPDATE first_codes SET hash = '' WHERE kitchen = ? AND person = ?"
        self._connections.write(sql, (self._kitchen, person))

    def told_up_to(self, person: str) -> int:
        """Return the last entry of the book up to which a person was told of codes given for them; 0 for none."""
        sql = "SELECT told FROM first_codes WHERE kitchen = ? AND person = ?"
        rows = self._connections.read(sql, (self._kitchen, person))
        return int(rows[0][0]) if rows else 0

    def tell(self, person: str, seq: int) -> None:
        """Note that a person was told of every code up to an entry."""
        sql = "UPDATE first_codes SET told = ? WHERE kitchen = ? AND person = ?"
        self._connections.write(sql, (seq, self._kitchen, person))

    def _keep(self, person: str, own_hash: str, good_until: str) -> None:
        sql = (
            "INSERT INTO first_codes (kitchen, person, hash, good_until, told) VALUES (?,?,?,?,0)"
            " ON CONFLICT (kitchen, person) DO UPDATE SET hash = excluded.hash, good_until = excluded.good_until"
        )
        self._connections.write(sql, (self._kitchen, person, own_hash, good_until))
