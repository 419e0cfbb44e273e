"""What changes next at a station if nothing more is written: on which day, from what to what, and because of what."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from trainer.kitchen.clearance import Clearance, State, turning_days
from trainer.kitchen.progress import Person, Progress
from trainer.kitchen.record import AsKnown
from trainer.kitchen.spans import in_words
from trainer.kitchen.technique import Content, Station
from trainer.messages import Text, joined, message


@dataclass(frozen=True, slots=True)
class NextChange:
    """The first later day on which the state or what is missing differs, the states before and after, and why."""

    on: date
    before: State
    after: State
    because: Text


def next_change(
    person: Person, station: Station, progress: Progress, content: Content, today: date
) -> NextChange | None:
    """Return what changes next at a station by what is known today; None where nothing ever will."""
    before, days = turning_days(person, station, progress, content, AsKnown(today, today))
    while days:
        after, days = turning_days(person, station, progress, content, AsKnown(days[0], today))
        if not _says_the_same(before, after):
            return NextChange(after.on, before.state, after.state, _because(before, after))
    return None


def _says_the_same(one: Clearance, other: Clearance) -> bool:
    return one.state == other.state and _missing(one) == _missing(other)


def _missing(found: Clearance) -> set[str]:
    return {missing.what for missing in found.missing}


def _because(before: Clearance, after: Clearance) -> Text:
    """Return what is missing from that day on, else what is there from then on, else which day comes near."""
    lost = [missing.text for missing in after.missing if missing.what not in _missing(before)]
    if lost:
        return joined(lost)
    there = _missing(before) - _missing(after)
    gained = [held.text for held in after.held if held.what in there]
    if gained:
        return joined(gained)
    if after.due:
        return after.due
    if after.until is not None:
        ending = [held.text for held in after.held if held.until == after.until]
        return joined([*ending, message("Good to the end of {day}.", day=in_words(after.until))])
    return message("The rules of that day.")
