"""How long people are kept after they left: a setting, who would be erased on which day, and erasing them when told."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.erasing import Erasure, erase_person, export_of
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.people_on_record import Written
from trainer.actions.saving import save
from trainer.kitchen.book import LOCAL, THE_BOOK, NewEntry
from trainer.kitchen.entitlement import A_MANAGER, Snapshot
from trainer.kitchen.names import name_key
from trainer.kitchen.spans import days_later, months_later
from trainer.messages import Message, Text, joined, message, plural

NEVER = "never"
NEVER_WORD = message("never")
"""The same, as a reader calls it."""
LEAST_YEARS, MOST_YEARS = 1, 100
PROPOSED_YEARS = 3
"""What California has personnel records kept for after leaving, at the least (Labor Code 1198.5(c)(1))."""
NOT_SET = Refused(
    message("Nobody has set how long names are kept. Nobody was erased."),
    message(
        "Look at the list first, then set it with “{command}”.", command=f"trainer retention --years {PROPOSED_YEARS}"
    ),
)
LAW_DECIDES = message(
    "Local law decides how long it must be, and may ask for longer: in California 4 years for some papers"
    " (Government Code 12946). Where a claim is open, keep everybody it is about."
)


@dataclass(frozen=True, slots=True)
class Leaver:
    """A person who has left and is still named: when they left, and the first day they may be erased."""

    cook: str
    name: str
    left: date
    erased_from: date


def years_kept(k: Kitchen) -> int | None:
    """Return for how many years after leaving people are kept, by the book; None: until somebody erases them."""
    found = k.file.book.of_kind("retention_set")
    years: int | None = found[-1].body["years"] if found else None
    return years


def kept_for(years: int | None) -> Message:
    """Return a setting in words."""
    if years is None:
        return message("Names of people who left, and texts about them, are kept until somebody erases them.")
    return plural(
        "Names of people who left, and texts about them, are kept for {number} year.",
        "Names of people who left, and texts about them, are kept for {number} years.",
        years,
    )


def law_on(years: int | None) -> Text:
    """Return what to think of before people are kept for so many years only; local law decides."""
    if years is None or years >= PROPOSED_YEARS:
        return LAW_DECIDES
    short = message("That is short: California asks for at least 3 years after leaving (Labor Code 1198.5(c)).")
    return joined([short, LAW_DECIDES])


def read_years(typed: str, never: str = NEVER) -> int | Refused | None:
    """Return the years typed, None for "never" or the reader's own word for it, or the refusal of anything else.

    >>> read_years("3"), read_years("never"), read_years("Nunca", never="nunca")
    (3, None, None)
    """
    if typed.casefold() in {NEVER, never.casefold()}:
        return None
    if typed.isascii() and typed.isdigit() and len(typed) <= 3 and LEAST_YEARS <= int(typed) <= MOST_YEARS:
        return int(typed)
    words = message(
        "“{typed}” is not taken. Type whole years from {least} to {most}, or: {never}. Nothing was changed.",
        typed=typed,
        least=LEAST_YEARS,
        most=MOST_YEARS,
        never=NEVER_WORD,
    )
    return Refused(words, field="years")


def set_years(k: Kitchen, years: int | None, written: Written) -> Outcome:
    """Return the saved `retention_set`; nobody is erased by it. A manager sets it, or whoever is at the machine."""
    deed = NewEntry("retention_set", written.now, THE_BOOK, written.by, {"years": years}, written.key)
    same = Refused(message("It is set like that already. Nothing was changed."), field="years")

    def refusal(day: Snapshot) -> Refused | None:
        if written.by != LOCAL and "manager" not in day.roles(written.by):
            return Refused(message("Only a manager says how long people are kept."), A_MANAGER)
        return same if years_kept(k) == years else None

    return save(k, deed, refusal)


def leavers(k: Kitchen, years: int, now: datetime) -> tuple[Leaver, ...]:
    """Return everybody who has left and is not erased, those who may be erased first before the others.

    The day of leaving does not count, the last day of the last year does: left on 2 March 2026 and kept for three
    years, they may be erased from 3 March 2029. Whoever came back is no leaver; leaving again begins the years anew.
    """
    progress, today = k.progress(), k.today(now)
    found = []
    for cook, person in k.file.people.all().items():
        record = progress.record(cook)
        roster = record.standing(record.roster, today)
        if roster and roster[-1].left:
            left = roster[-1].on
            found.append(Leaver(cook, person.name, left, days_later(months_later(left, 12 * years), 1)))
    return tuple(sorted(found, key=lambda one: (one.erased_from, name_key(one.name), one.cook)))


def kept_long_enough(k: Kitchen, now: datetime) -> tuple[Leaver, ...] | Refused:
    """Return whom the kitchen's own setting lets be erased today.

    Refused where nothing is set, and with a clock that cannot be believed.
    """
    refusal = refused_by_clock(k, now)
    if refusal is not None:
        return refusal
    years = years_kept(k)
    if years is None:
        return NOT_SET
    today = k.today(now)
    return tuple(one for one in leavers(k, years, now) if one.erased_from <= today)


def erase_leavers(
    k: Kitchen, found: Iterable[Leaver], written: Written, keep: Callable[[Leaver, dict[str, Any]], None]
) -> tuple[tuple[Leaver, Outcome], ...]:
    """Return what came of each: erased, or refused, as of whoever came back meanwhile.

    `keep` is given all that is held about each of them, before anything of anybody is erased.
    """
    chosen = tuple(found)
    for one in chosen:
        keep(one, export_of(k, one.cook, written.now))
    return tuple((one, _erase(k, one, written)) for one in chosen)


def _erase(k: Kitchen, one: Leaver, written: Written) -> Outcome:
    own = replace(written, key=f"{written.key}:{one.cook}")
    return erase_person(k, erasure=Erasure(one.cook, "kept long enough"), written=own)
