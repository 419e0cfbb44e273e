"""A past day as it was known then and as it is known later: what differs, and which later entries made it differ."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from trainer.kitchen.clearance import Clearance, clearance_of
from trainer.kitchen.progress import Person, Progress
from trainer.kitchen.record import LINES, AsKnown, CookRecord, Line
from trainer.kitchen.spans import in_words
from trainer.kitchen.state_words import state_word
from trainer.kitchen.technique import Content, Station
from trainer.messages import Text, joined, message

_WORDS: Mapping[str, Text] = {
    "roster": message("roster entry"),
    "read": message("reading"),
    "sat": message("quiz"),
    "skills": message("answer"),
    "watched": message("practical"),
    "shifts": message("supervised shift"),
    "shown": message("certificate"),
    "known_before": message("known from before"),
    "ages": message("age"),
    "paths": message("path"),
}
_ENTRY = message("entry")


@dataclass(frozen=True, slots=True)
class KnownTwice:
    """A clearance as the book said it on the day, and as it is known on a later one; `because` of which entries."""

    then: Clearance
    now: Clearance
    known: date
    because: Text

    @property
    def then_words(self) -> Text:
        """Return what the book said on the day."""
        return message(
            "As the book said on {day}: {state}.", day=in_words(self.then.on), state=state_word(self.then.state)
        )

    def now_words(self, today: date) -> Text:
        """Return what is known later, today or on another day, and which entries made the difference."""
        state = state_word(self.now.state)
        told = joined([state, self.because], "; ") if self.because else state
        if self.known == today:
            return message("As known now: {state}.", state=told)
        return message("As known on {day}: {state}.", day=in_words(self.known), state=told)


def known_twice(
    person: Person, station: Station, progress: Progress, content: Content, on: AsKnown
) -> KnownTwice | None:
    """Return a day as it was known then and on a later day; None where both say the same."""
    then = clearance_of(person, station, progress, content, on.on)
    now = clearance_of(person, station, progress, content, on)
    if (then.state, _missing(then)) == (now.state, _missing(now)):
        return None
    return KnownTwice(then, now, on.known, joined(_because(progress.record(person.id), then, now, on.known), ", "))


def _missing(found: Clearance) -> list[str]:
    return [missing.what for missing in found.missing]


def _because(record: CookRecord, then: Clearance, now: Clearance, known: date) -> list[Text]:
    """Return the entries that count in one answer and not in the other: those that prove either, else all of them."""
    changed = list(_changed(record, then.on, known))
    proof = {*then.proof, *now.proof}
    return [words for entry, words in changed if entry in proof] or [words for _, words in changed]


def _changed(record: CookRecord, on: date, known: date) -> Iterator[tuple[str, Text]]:
    """Yield every entry that counts on a day by what was known on one of two days, and not by the other."""
    for name in LINES:
        lines: tuple[Line, ...] = getattr(record, name)
        for line in lines:
            did, does = record.ledger.counts(line, on, on), record.ledger.counts(line, on, known)
            if did != does:
                yield line.entry, _told(record, _WORDS.get(name, _ENTRY), line, is_voided=did)
    for void in record.question_voids:
        if void.counts(on, on) != void.counts(on, known):
            yield void.line.entry, message("a question voided on {day}", day=in_words(void.line.on))


def _told(record: CookRecord, what: Text, line: Line, *, is_voided: bool) -> Text:
    """Return what was done on which day, and the later day on which it was voided or written down."""
    day = in_words(line.on)
    if is_voided:
        voided = next(void.on for void in record.ledger.voids[line.entry] if void.never)
        return message("{what} of {day} voided on {later}", what=what, day=day, later=in_words(voided))
    written = in_words(record.ledger.written.get(line.entry, line.on))
    return message("{what} of {day} written down on {later}", what=what, day=day, later=written)
