"""What leans on an entry of the book, what a void has marked, and a manager's word that it stands all the same."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import denied_by, save, validate_text
from trainer.kitchen.book import Entry, NewEntry
from trainer.kitchen.entitlement import entitled_by, may_manage
from trainer.kitchen.leaning import leaning_on
from trainer.messages import message


@dataclass(frozen=True, slots=True)
class Upheld:
    """An entry that leans on a void, the void, and why it stands all the same."""

    entry: str
    void: str
    reason: str


def leaning_entries(k: Kitchen, entry: str) -> tuple[str, ...]:
    """Return the ids of the signed entries that lean on one, in the order of the book.

    An entry of before kept no `entitled_by`: there it is what cleared its signer at the station that day.
    """
    signed = [each for kind in ("practical_watched", "shift_worked") for each in k.file.book.of_kind(kind)]
    known: dict[tuple[str, str, str, date], tuple[str, ...]] = {}
    ids = {each.seq: each.id for each in k.file.book.since(0)}
    graph = {each.id: _entitled(k, each, ids, known) for each in sorted(signed, key=lambda one: one.seq)}
    return leaning_on(entry, graph)


def _entitled(
    k: Kitchen, entry: Entry, ids: Mapping[int, str], known: dict[tuple[str, str, str, date], tuple[str, ...]]
) -> tuple[str, ...]:
    """Return the ids of the entries that entitled whoever signed one."""
    if "entitled_by" in entry.body:
        taken = (point["leans_on"][0] for point in entry.body.get("points", ()) if "leans_on" in point)
        return (*(ids[number] for number in entry.body["entitled_by"]), *taken)
    asked = (entry.by, entry.body["station"], entry.body.get("technique", ""), entry.day)
    if asked not in known:
        known[asked] = entitled_by(*asked[:3], k.day(entry.day))
    return known[asked]


def marked(k: Kitchen) -> dict[str, tuple[Entry, ...]]:
    """Return, by entry, the voids it leans on, of which nobody has said that it stands."""
    upheld = {(each.body["entry"], each.body["void"]) for each in k.file.book.of_kind("entry_upheld")}
    found: dict[str, tuple[Entry, ...]] = {}
    for void in k.file.book.of_kind("entry_voided"):
        for entry in void.body.get("leaning", ()):
            if (entry, void.id) not in upheld:
                found[entry] = (*found.get(entry, ()), void)
    return found


def uphold(k: Kitchen, *, by: str, upheld: Upheld, now: datetime, key: str) -> Outcome:
    """Return the saved `entry_upheld`: the entry counts on, and is marked no more for this void.

    A manager says so, with a reason, and not about themselves.
    """
    entry, reason = k.file.book.find(upheld.entry), upheld.reason.strip()
    if entry is None or all(void.id != upheld.void for void in marked(k).get(entry.id, ())):
        there = k.file.book.find_key(key)
        if entry is None or there is None:
            return Refused(message("That entry leans on no such void, or was said to stand already."), "", "entry")
    body = {"entry": entry.id, "void": upheld.void, "reason": reason}
    deed = NewEntry("entry_upheld", now, entry.cook, by, body, key)
    return save(
        k, deed, lambda day: denied_by(may_manage(by, entry.cook, day)) or validate_text(upheld.reason, "reason")
    )
