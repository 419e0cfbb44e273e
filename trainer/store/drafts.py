"""Work begun and not yet in the book: a sitting, a practical, an import, the step a person reads, a clock that runs.

It stays until it is finished or dropped.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from trainer.kitchen.book import canonical, moment_text
from trainer.store.connections import Connections
from trainer.store.identity import moment

DraftKind = Literal["sitting", "question", "practical", "import", "place", "clock", "waiting_for_second"]
COLUMNS = 'id, kind, about, cook, "by", body, at'


@dataclass(frozen=True, slots=True)
class Draft:
    """One piece of work begun: `about` names its technique or file, `cook` whom it is about, `by` who does it."""

    id: str
    kind: DraftKind
    about: str
    cook: str
    by: str
    body: Mapping[str, Any]
    at: datetime


class Drafts:
    """The drafts of one kitchen."""

    def __init__(self, connections: Connections, kitchen: str) -> None:
        self._connections = connections
        self._kitchen = kitchen

    def put(self, draft: Draft) -> None:
        """Keep a draft, in place of an earlier state of it."""
        d = draft
        values = (self._kitchen, d.id, d.kind, d.about, d.cook, d.by, canonical(d.body), moment_text(d.at))
        self._connections.write(f"INSERT OR REPLACE INTO drafts (kitchen, {COLUMNS}) VALUES (?,?,?,?,?,?,?,?)", values)  # noqa: S608

    def get(self, draft_id: str) -> Draft | None:
        """Return a draft, or None."""
        sql = f"SELECT {COLUMNS} FROM drafts WHERE kitchen = ? AND id = ?"  # noqa: S608 - fixed columns
        rows = self._connections.read(sql, (self._kitchen, draft_id))
        return _draft(rows[0]) if rows else None

    def list(
        self, kind: DraftKind | None = None, *, cook: str | None = None, by: str | None = None
    ) -> tuple[Draft, ...]:
        """Return the drafts of a kind, about a cook, by a person (each if named), oldest first."""
        wanted = {"kind": kind, "cook": cook, '"by"': by}
        named = {column: value for column, value in wanted.items() if value is not None}
        where = "".join(f" AND {column} = ?" for column in named)
        sql = f"SELECT {COLUMNS} FROM drafts WHERE kitchen = ?{where} ORDER BY at, id"  # noqa: S608 - fixed columns
        return tuple(_draft(row) for row in self._connections.read(sql, (self._kitchen, *named.values())))

    def delete(self, draft_id: str) -> None:
        """Drop a draft; one that is gone already is no error."""
        self._connections.write("DELETE FROM drafts WHERE kitchen = ? AND id = ?", (self._kitchen, draft_id))


def _draft(row: tuple[Any, ...]) -> Draft:
    """Return a row as a draft."""
    draft_id, kind, about, cook, by, body, at = row
    return Draft(draft_id, kind, about, cook, by, json.loads(body), moment(at))
