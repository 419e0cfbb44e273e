"""A board worked out from the rows of a book's database alone: sqlite3 and json, and nothing of the program.

It knows what the small kitchen of `test_known_then_and_now.py` does and no more: joining, standing down, reading,
practicals, first aid, voids, standards. The rules are read from the rows too; each is a line of the store's README.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path
from typing import Any

Row = Mapping[str, Any]


def rows_of(database: Path) -> list[Row]:
    """Return every entry of a book in order, its body read."""
    connection = sqlite3.connect(f"file:{database}?mode=ro", uri=True)
    connection.row_factory = sqlite3.Row
    found = connection.execute("SELECT seq, id, kind, day, happened, cook, body FROM book ORDER BY seq").fetchall()
    connection.close()
    return [{**dict(row), "body": json.loads(row["body"])} for row in found]


def counting(rows: list[Row], cook: str, on: str, known: str) -> list[Row]:
    """Return the entries about a cook that had happened by a day, were written by another, and were not voided."""
    voids = [row for row in rows if row["kind"] == "entry_voided" and row["day"] <= known]
    out = {v["body"]["entry"] for v in voids if v["body"].get("counts") == "never" or v["day"] <= on}
    mine = [row for row in rows if row["cook"] == cook and row["id"] not in out]
    return [row for row in mine if row["happened"] <= on and row["day"] <= known]


def rules_on(rows: list[Row], on: str, known: str) -> dict[str, Any]:
    """Return the rules in force on a day, each edition dated no earlier than the first standard that has it."""
    published = [row["body"] for row in rows if row["kind"] == "standard_published" and row["day"] <= known]
    found = [body for body in published if body["since"] <= on]
    last = found[-1] if found else published[0]
    rules: dict[str, Any] = json.loads(json.dumps(last["rules"]))
    for technique in rules["techniques"]:
        for edition in technique["editions"]:
            had = [b["since"] for b in published if b["number"] <= last["number"] and has(b, technique, edition)]
            if published[0]["since"] not in had:
                edition["since"] = max(edition["since"], min(had))
    return rules


def has(body: Row, technique: Row, edition: Row) -> bool:
    """Return whether a standard has an edition of a technique."""
    names = [(t["id"], e["number"]) for t in body["rules"]["techniques"] for e in t["editions"]]
    return (technique["id"], edition["number"]) in names


def one_year_later(day: str) -> str:
    """Return the same day of the next year; the small kitchen's days have one."""
    return date.fromisoformat(day).replace(year=int(day[:4]) + 1).isoformat()


def is_cleared(rows: list[Row], cook: str, station: str, on: str, known: str) -> bool:
    """Return whether a cook was cleared at a station on a day by what was known on another."""
    rules, mine = rules_on(rows, on, known), counting(rows, cook, on, known)
    asked = next((one for one in rules["stations"] if one["id"] == station), None)
    if asked is None or [row for row in mine if row["kind"] in ("cook_joined", "cook_left")][-1:] == []:
        return False
    stood = [row for row in mine if row["kind"] in ("stood_down", "restored") and row["body"]["station"] == station]
    if stood and stood[-1]["kind"] == "stood_down":
        return False
    papers = all(any(shown(row, paper["id"], on) for row in mine) for paper in asked["certificates"])
    techniques = [one for one in rules["techniques"] if one["id"] in asked["techniques"]]
    return papers and all(is_learnt(mine, technique, on) for technique in techniques)


def shown(row: Row, paper: str, on: str) -> bool:
    """Return whether an entry shows a certificate that is in date."""
    body = row["body"]
    if row["kind"] != "certificate_shown" or body["certificate"] != paper:
        return False
    return bool(body["issued"] <= on and (body["expires"] is None or on <= body["expires"]))


def is_learnt(mine: list[Row], technique: Row, on: str) -> bool:
    """Return whether a technique is read and signed off, in an edition that holds; a sign-off is good for a year."""
    made = list(proofs(mine, technique, on))
    read = any(row["kind"] == "technique_read" for row in made)
    signed = any(row["kind"] == "practical_watched" and on <= one_year_later(row["happened"]) for row in made)
    return read and signed


def proofs(mine: list[Row], technique: Row, on: str) -> Iterator[Row]:
    """Yield the entries about a technique whose edition no later edition in force asks for anew."""
    for row in mine:
        if row["body"].get("technique") == technique["id"]:
            anew = [e for e in technique["editions"] if e["since"] <= on and not e["sign_offs_hold"]]
            if all(edition["number"] <= row["body"]["edition"] for edition in anew):
                yield row
