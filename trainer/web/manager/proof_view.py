"""What a person holds at a station, as the proof tells it: one line a technique or paper, its entries behind it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import Entry
from trainer.kitchen.clearance import Clearance, Held
from trainer.kitchen.from_before import KNOWN
from trainer.kitchen.known import known_twice
from trainer.kitchen.next_change import next_change
from trainer.kitchen.progress import Person
from trainer.kitchen.record import AsKnown
from trainer.kitchen.state_words import state_word
from trainer.kitchen.technique import ContentName, Station
from trainer.messages import Text, joined, message
from trainer.web import guard
from trainer.web.entry_words import EntryTold, Naming, told
from trainer.web.filters import day, weekday
from trainer.web.leaning_words import Leaning

FindEntry = Callable[[str], Entry | None]


@dataclass(frozen=True, slots=True)
class Proven:
    """One technique, paper or other thing held: who signed and when, how long it is good, and the entries.

    `leans` says which of the entries lean on a voided one.
    """

    title: Text
    line: Text
    days: Text
    entries: tuple[EntryTold, ...]
    leans: tuple[Text, ...] = ()


def proven(held: Iterable[Held], find: FindEntry, naming: Naming, leaning: Leaning) -> tuple[Proven, ...]:
    """Return what is held, all of one technique together; what ends first comes first, and what leans is marked."""
    together: dict[ContentName | str, list[Held]] = {}
    for one in held:
        together.setdefault(one.subject or one.what, []).append(one)
    ending = sorted(together.values(), key=lambda of_one: _end(of_one) or date.max)
    return tuple(_marked(_proven(of_one, find, naming), leaning) for of_one in ending)


def _marked(thing: Proven, leaning: Leaning) -> Proven:
    """Return a line of the proof with what is said of those of its entries that lean on a void."""
    leans = (
        message("Entry {seq}: {leans}", seq=entry.seq, leans=words)
        for entry in thing.entries
        for words in leaning.get(entry.id, ())
    )
    return replace(thing, leans=tuple(leans))


def known_words(k: Kitchen, person: Person, station: Station, found: Clearance) -> tuple[Text, ...]:
    """Return what is due again, what the book said on the day and what is known of it today, where they differ.

    Of today, what comes next.
    """
    today, said = guard.today(), found.due or found.outlook
    due: tuple[Text, ...] = (message("Known, not watched."),) if found.known and found.is_cleared else ()
    due += (said,) if said else ()
    if found.on < today:
        twice = known_twice(person, station, k.progress(), k.content, AsKnown(found.on, today))
        return (*due, twice.then_words, twice.now_words(today)) if twice else due
    comes = next_change(person, station, k.progress(), k.content, today)
    if comes is None:
        return due
    words = message("From {day}: {state}.", day=weekday(comes.on), state=state_word(comes.after))
    return (*due, joined([words, comes.because]))


def _end(held: Sequence[Held]) -> date | None:
    """Return the day the first of these ends; None where none of them does."""
    return min((one.until for one in held if one.until), default=None)


def _proven(held: Sequence[Held], find: FindEntry, naming: Naming) -> Proven:
    """Return one line of the proof."""
    entries = [entry for one in held for entry in map(find, one.proof) if entry]
    end = _end(held)
    until = message("good to the end of {until}", until=weekday(end)) if end else message("no end")
    behind = tuple(told(entry, naming) for entry in entries)
    subject = held[0].subject
    if subject:
        return Proven(joined([subject]), joined((_step(one, find, naming) for one in held), "; "), until, behind)
    since = message("Since {since}", since=weekday(held[0].since)) if held[0].since else message("Held")
    return Proven(held[0].text, "", message("{since}, {until}.", since=since, until=until), behind)


def _step(held: Held, find: FindEntry, naming: Naming) -> Text:
    """Return one of reading, quiz and practical in a few words: when, and who signed."""
    kind, on = held.what.partition(":")[0], day(held.since) if held.since else ""
    if held.known:
        return _known_step(kind, held, find, naming)
    if kind == "practical":
        entry = find(held.proof[0]) if held.proof else None
        return message("signed off by {name}, {day}", name=naming.person(entry.by) if entry else "", day=on)
    if kind == "reading":
        return message("read {day}", day=on)
    return (
        message("questions passed {day}", day=on) if _is_answered(held, find) else message("quiz passed {day}", day=on)
    )


def _is_answered(held: Held, find: FindEntry) -> bool:
    """Return whether what is known follows from answers given one by one, and not from a quiz."""
    entry = find(held.proof[0]) if held.proof else None
    return entry is not None and entry.kind == "answered"


def _known_step(kind: str, held: Held, find: FindEntry, naming: Naming) -> Text:
    """Return one of reading, quiz and practical that is known from before: who said so, and never that it was seen."""
    entry, on = find(held.proof[0]) if held.proof else None, day(held.since) if held.since else ""
    if kind == "practical":
        said = message("said by {name}, {day}", name=naming.person(entry.by) if entry else "", day=on)
        return joined([KNOWN, said], ", ")
    return message("reading known from before") if kind == "reading" else message("questions known from before")
