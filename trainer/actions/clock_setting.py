"""What a person says about this machine's clock: that it is right now, or that it ran ahead for some entries."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from trainer.actions.clock_watch import clock_trouble
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.kitchen.book import LOCAL, Entry, NewEntry, moment_text
from trainer.kitchen.entitlement import A_MANAGER
from trainer.kitchen.spans import in_words
from trainer.messages import message
from trainer.store.identity import day_in

MAY_CONFIRM = frozenset({"manager", "assessor"})


@dataclass(frozen=True, slots=True)
class RanAhead:
    """Entries a clock wrote that ran ahead, from `first` to `last` (their numbers), and the day they count from."""

    first: int
    last: int
    day: date


def confirm_clock(k: Kitchen, *, by: str, typed: date, now: datetime, key: str) -> Outcome:
    """Return the saved `clock_confirmed`: somebody typed today's date, and this machine's clock shows the same.

    A manager, an assessor or a command on the machine itself may. A clock behind the last entry is set right first.
    """
    with k.file.writing():
        there = k.file.book.find_key(key)
        if there is not None:
            return Saved(there)
        now = k.moment(now)
        refusal = _may_not_confirm(k, by, now) or _other_date(k, typed, now)
        body = {"day": typed.isoformat()}
        return refusal or Saved(k.file.book.append(NewEntry("clock_confirmed", now, by, by, body, key)))


def _may_not_confirm(k: Kitchen, by: str, now: datetime) -> Refused | None:
    trouble = clock_trouble(k, now)
    if trouble is not None and not trouble.can_confirm:
        return trouble.refusal()
    if by == LOCAL or MAY_CONFIRM & k.progress().roles(by, k.today(now)):
        return None
    return Refused(message("Only a manager or an assessor says that the clock is right."), A_MANAGER)


def _other_date(k: Kitchen, typed: date, now: datetime) -> Refused | None:
    """Return the refusal of a date that is not the one this machine shows, which is named."""
    shown = day_in(k.file.settings.timezone, now)
    if typed == shown:
        return None
    words = message("This machine's clock says {shown}, not {typed}.", shown=in_words(shown), typed=in_words(typed))
    return Refused(words, message("Set the clock right, or mend the date; then send it again."), "day")


def entries_of(k: Kitchen, ran: RanAhead, now: datetime) -> tuple[Entry, ...] | Refused:
    """Return the entries a correction would move to an earlier day or moment, or why it cannot be made.

    All of the book must stand in order of its days afterwards, and none of it in the future.
    """
    entries = k.file.book.since(0)
    if not 1 <= ran.first <= ran.last <= len(entries):
        words = message("Entries {first} to {last}: the book has entries 1 to {end}.", first=ran.first, last=ran.last,
                        end=len(entries))  # fmt: skip
        return Refused(words, "", "last")
    before, those, after = entries[: ran.first - 1], entries[ran.first - 1 : ran.last], entries[ran.last :]
    refusal = _not_that_day(k, ran, now) or _out_of_order(ran, before[-1:], after, now)
    moved = tuple(entry for entry in those if entry.day > ran.day or entry.at > now)
    nothing = Refused(
        message("None of these entries stands on a later day than {day}.", day=in_words(ran.day)), "", "day"
    )
    return refusal or moved or nothing


def _not_that_day(k: Kitchen, ran: RanAhead, now: datetime) -> Refused | None:
    today = day_in(k.file.settings.timezone, now)
    if ran.day <= today:
        return None
    words = message("{day} is still to come: it is {today}.", day=in_words(ran.day), today=in_words(today))
    return Refused(words, message("Set the clock right first."), "day")


def _out_of_order(ran: RanAhead, before: list[Entry], after: list[Entry], now: datetime) -> Refused | None:
    """Return the refusal of a day that the entries before or after those do not allow."""
    for entry in before:
        if entry.day > ran.day or entry.at > now:
            words = message("Entry {seq} before them stands on {day}.", seq=entry.seq, day=in_words(entry.day))
            return Refused(words, message("Begin with an earlier entry, or name a later day."), "first")
    for entry in after:
        if entry.day < ran.day or entry.at > now:
            words = message("Entry {seq} after them stands on {day}.", seq=entry.seq, day=in_words(entry.day))
            return Refused(words, message("Take it in as well, or name an earlier day."), "last")
    return None


def correct_clock(k: Kitchen, *, ran: RanAhead, now: datetime, key: str) -> Outcome:
    """Return the saved `clock_corrected`, by a command on the machine itself: those entries count from that day.

    It alone sets the book's own day and moment back. What the entries themselves say stays as it was written.
    """
    with k.file.writing():
        there = k.file.book.find_key(key)
        if there is not None:
            return Saved(there)
        now = k.moment(now)
        found = entries_of(k, ran, now)
        if isinstance(found, Refused):
            return found
        body = {"first": ran.first, "last": ran.last, "day": ran.day.isoformat(), "at": moment_text(now)}
        return Saved(k.file.book.append(NewEntry("clock_corrected", now, LOCAL, LOCAL, body, key)))
