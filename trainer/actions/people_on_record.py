"""What the book says of who people are: a digest of each name and birth date, and from when somebody is old enough."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import denied_by, not_on_roster, save, saved_before
from trainer.actions.two_people import Asked, Second, Waits, keep_waiting, need_of, said_by, until_of, waiting_for
from trainer.imports.people_rows import OLDEST
from trainer.kitchen.ages import NOT_SEEN, PAPERS_SEEN, PaperSeen, age_change, bars_of
from trainer.kitchen.book import LOCAL, NewEntry, digest_of
from trainer.kitchen.entitlement import Snapshot, may_manage
from trainer.kitchen.papers import birth_paper, name_paper
from trainer.kitchen.progress import Person
from trainer.kitchen.record import CookRecord
from trainer.kitchen.spans import in_words
from trainer.messages import message
from trainer.store.drafts import Draft
from trainer.store.identity import new_id, new_salt


@dataclass(frozen=True, slots=True)
class Written:
    """By whom something is written down, when, and under which key."""

    by: str
    now: datetime
    key: str


@dataclass(frozen=True, slots=True)
class ProofOfAge:
    """Whose birth date, and on what paper it was seen."""

    cook: str
    born: date
    seen: PaperSeen


def name_deed(k: Kitchen, person: Person, written: Written) -> NewEntry:
    """Return the `person_named` of a person: a digest, and the entry of the name before where there is one."""
    paper = name_paper(person.name, new_salt())
    before = [line.entry for line in k.progress().record(person.id).noted if line.kind == "person_named"]
    body = {"name": digest_of(paper)} | ({"corrects": before[-1]} if before else {})
    return NewEntry("person_named", written.now, person.id, written.by, body, written.key, papers=(paper,))


def age_deed(k: Kitchen, proof: ProofOfAge, written: Written) -> NewEntry:
    """Return the `age_seen` of a birth date: a digest, the paper seen, and the years stations ask for."""
    paper = birth_paper(proof.born, new_salt())
    record, today = k.progress().record(proof.cook), k.today(written.now)
    bars = bars_of(proof.born, ages_asked(k), _joined(record, today))
    body = {"birth": digest_of(paper), "seen": proof.seen, "bars": bars}
    body |= {"corrects": record.ages[-1].entry} if record.ages else {}
    return NewEntry("age_seen", written.now, proof.cook, written.by, body, written.key, papers=(paper,))


def deeds_of(k: Kitchen, before: Person | None, person: Person, written: Written) -> Iterator[NewEntry]:
    """Yield what the book has to say of a person put on the roster or changed: only what is not as it was."""
    if before is None or before.name != person.name:
        yield name_deed(k, person, replace(written, key=f"{written.key}:name"))
    if person.born is not None and (before is None or before.born != person.born):
        proof = ProofOfAge(person.id, person.born, NOT_SEEN)
        yield age_deed(k, proof, replace(written, key=f"{written.key}:age"))


def ages_asked(k: Kitchen) -> frozenset[int]:
    """Return the years stations ask for."""
    return frozenset(station.minimum_age for station in k.content.stations.values() if station.minimum_age)


def _joined(record: CookRecord, today: date) -> date:
    """Return the day a person first joined; today for anyone who is only joining."""
    return min((line.on for line in record.roster), default=today)


def deeds_for_everybody(k: Kitchen, now: datetime) -> list[NewEntry]:
    """Return a `person_named` and an `age_seen` for everybody listed who has none, for a book from before there were.

    They count for all days before them: what was known then stood beside the book.
    """
    return [deed for person in k.file.people.all().values() for deed in deeds_for_one(k, person, now)]


def deeds_for_one(k: Kitchen, person: Person, now: datetime) -> Iterator[NewEntry]:
    """Yield what the book has not said yet of one person's name and birth date."""
    record, written = k.progress().record(person.id), Written(LOCAL, now, new_id(now))
    if not any(line.kind == "person_named" for line in record.noted):
        yield name_deed(k, person, replace(written, key=f"{written.key}:name"))
    if person.born is not None and not record.ages:
        deed = age_deed(k, ProofOfAge(person.id, person.born, NOT_SEEN), replace(written, key=f"{written.key}:age"))
        yield replace(deed, body={**deed.body, "not_kept_before": True})


def deeds_for_new_ages(k: Kitchen, years: Collection[int], now: datetime) -> list[NewEntry]:
    """Return an `age_seen` for everybody of whom the book does not say yet from when they are so many years old.

    The paper seen, and the digest, are those of the entry before: nobody has looked again.
    """
    return [deed for person in k.file.people.all().values() for deed in _of_new_ages(k, person, years, now)]


def _of_new_ages(k: Kitchen, person: Person, years: Iterable[int], now: datetime) -> Iterator[NewEntry]:
    """Yield the entry of one person, where there is one before it that lacks some of the years."""
    record = k.progress().record(person.id)
    if person.born is None or not record.ages:
        return
    last = record.ages[-1]
    entry = k.file.book.find(last.entry)
    if entry is None or all(last.reached_from(each) is not None for each in years):
        return
    asked = {*years, *(bar for bar, _ in last.bars)}
    bars = bars_of(person.born, asked, _joined(record, k.today(now)))
    body = {"birth": entry.body["birth"], "seen": entry.body["seen"], "bars": bars, "corrects": last.entry}
    yield NewEntry("age_seen", now, person.id, LOCAL, body, new_id(now))


def see_age(k: Kitchen, *, proof: ProofOfAge, written: Written) -> Outcome | Waits:
    """Return the saved `age_seen` of a birth date a manager read off a paper, or was told; kept with the person too.

    A date that lifts a bar takes a second person, and waits a day where there is none; one that bars counts at once.
    """
    with k.file.writing():
        there, waits = saved_before(k, written.key, "age_seen", written.by), waiting_for(k, written.key)
        if there is not None:
            return there
        if waits is not None:
            return Waits(written.key, until_of(waits))
        day = k.day(k.today(written.now))
        refusal = refused_by_clock(k, written.now) or _may_not_see(proof, written.by, day)
        if refusal is not None:
            return refusal
        if not lifts_a_bar(k, proof, day):
            return _age_kept(k, proof, written, {})
        args = {"born": proof.born.isoformat(), "seen": proof.seen}
        asked = Asked("age", proof.cook, written.by, args, written.key, waits_alone=True)
        return keep_waiting(k, asked, need_of(k, asked, day), written.now)


def lifts_a_bar(k: Kitchen, proof: ProofOfAge, day: Snapshot) -> bool:
    """Return whether a birth date frees a person for a station, now or sooner than the date before."""
    before = day.people[proof.cook].born if proof.cook in day.people else None
    return bool(age_change(before, proof.born, day.rules.stations.values(), day.on).frees)


def enter_age(k: Kitchen, draft: Draft, second: Second | None, now: datetime) -> Outcome:
    """Return the entry of a birth date that waited, asked of the kitchen again as of now."""
    args = draft.body["args"]
    proof = ProofOfAge(draft.cook, date.fromisoformat(args["born"]), args["seen"])
    return _age_kept(k, proof, Written(draft.by, now, draft.id), said_by(second, draft.at))


def _age_kept(k: Kitchen, proof: ProofOfAge, written: Written, said: Mapping[str, Any]) -> Outcome:
    """Return the entry of a birth date, with the date kept beside the book."""
    deed = age_deed(k, proof, written)
    own = replace(deed, body={**deed.body, **said})
    outcome = save(k, own, lambda day: _may_not_see(proof, written.by, day))
    if not isinstance(outcome, Refused):
        k.file.people.change(replace(k.file.people.all()[proof.cook], born=proof.born))
    return outcome


def _may_not_see(proof: ProofOfAge, by: str, day: Snapshot) -> Refused | None:
    return (
        denied_by(may_manage(by, proof.cook, day))
        or not_on_roster(proof.cook, day)
        or _wrong_day(proof.born, day.on)
        or _wrong_paper(proof.seen)
    )


def _wrong_day(born: date, today: date) -> Refused | None:
    if born > today:
        return Refused(message("{day} is still to come.", day=in_words(born)), field="born")
    if born < OLDEST:
        return Refused(message("{day} is before 1900. Look at the year.", day=in_words(born)), field="born")
    return None


def _wrong_paper(seen: str) -> Refused | None:
    if seen in PAPERS_SEEN:
        return None
    return Refused(message("“{seen}” is none of the papers that are asked for.", seen=seen), field="seen")
