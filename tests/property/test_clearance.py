"""Clearance against a second, naive implementation: day by day, straight loops over the entries, no spans."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from random import Random
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from tests.kitchen.kitchen_for_tests import Scribe, asking, small_content, with_technique
from tests.seeds import first_and_rest
from trainer.kitchen.book import Entry, moment_text
from trainer.kitchen.clearance import Clearance, clearance_of
from trainer.kitchen.progress import Person
from trainer.kitchen.technique import Content, Edition, Station, Technique

FIRST_DAY = date(2026, 1, 1)
DAYS = 5 * 365 + 2  # 2026 to 2030, with 29 February 2028
ZONE = "America/New_York"
COOK = "ada"


def written_content(rng: Random) -> Content:
    """Return the small content with editions, months, ages and numbers of shifts drawn again."""
    content = small_content(
        pasta_room={"supervised_shifts": rng.choice([0, 1, 3]), "minimum_age": rng.choice([None, 16, 18])},
        grill={"warn_days": rng.choice([0, 10, 60])},
    )
    for name in content.techniques:
        questions = rng.choice([{}, asking(4)])
        months = {"quiz_months": rng.choice([1, 6, 12]), "sign_off_months": rng.choice([1, 11, 24])}
        content = with_technique(content, name, editions=written_editions(rng), **questions, **months)
    return content


def written_editions(rng: Random) -> tuple[Edition, ...]:
    """Return one to four editions, some of which ask for everything again."""
    days = sorted(rng.sample(range(1, DAYS), rng.randrange(4)))
    later = [
        Edition(n, FIRST_DAY + timedelta(days=d), "", rng.random() < 0.6, some_points(rng))
        for n, d in enumerate(days, 2)
    ]
    return (Edition(1, date(2025, 1, 1), "", True), *later)


def some_points(rng: Random) -> tuple[str, ...]:
    """Return none, one or several points of the checklist."""
    return tuple(rng.sample(["weights", "boil", "told"], rng.choice([0, 1, 2, 3])))


def written_history(rng: Random, content: Content) -> Scribe:
    """Return a scribe who has written a random history of one cook, in order of time."""
    scribe = Scribe(ZONE, content)
    scribe.joins(COOK, moment(rng, 0), born=written_birth_date(rng))
    days = sorted(rng.choices(range(DAYS), k=rng.randrange(5, 40)))
    for day in days:
        rng.choice(DEEDS)(rng, scribe, moment(rng, day))
    return scribe


def written_birth_date(rng: Random) -> date | None:
    """Return a birth date: long ago, 29 February 2012 (16 in 2028, 18 in 2030), or within reach of 18; or none."""
    soon = date(2009, 1, 1) + timedelta(days=rng.randrange(1500))
    return rng.choice([date(1980, 6, 1), date(2012, 2, 29), soon, soon, None])


def moment(rng: Random, day: int) -> datetime:
    """Return a moment of a kitchen's day: noon mostly, else a minute from midnight on either side."""
    clock = rng.choice([time(12), time(12), time(0, 1), time(23, 59)])
    return datetime.combine(FIRST_DAY + timedelta(days=day), clock, ZoneInfo(ZONE)).astimezone(UTC)


def a_technique(rng: Random, scribe: Scribe) -> Technique:
    """Return one of the techniques."""
    return rng.choice(list(scribe.content.techniques.values()))


def a_station(rng: Random) -> str:
    """Return one of the stations."""
    return rng.choice(["pasta_room", "cold_side", "grill"])


def learn(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a reading, a quiz and a practical of every technique, so that clearances are not rare."""
    for technique in scribe.content.techniques.values():
        edition = technique.edition_on(at.astimezone(ZoneInfo(ZONE)).date()).number
        scribe.reads(COOK, technique.id, at, edition)
        scribe.sits(COOK, technique.id, at)
        scribe.watched(COOK, technique.id, at, edition=edition, missed=some_points(rng))


def read(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a reading of some edition."""
    scribe.reads(COOK, a_technique(rng, scribe).id, at, rng.randrange(1, 5))


def sit(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a quiz, passed or not."""
    scribe.sits(COOK, a_technique(rng, scribe).id, at, passed=rng.random() < 0.7)


def watch(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a practical as an older program did or with the moment it was begun, some points of it missed."""
    verdict = rng.choice(["meets it", "meets it", "not yet", "stopped", "stopped"])
    more: dict[str, Any] = {"missed": some_points(rng)}
    if rng.random() < 0.6:
        more["started"] = moment_text(at - timedelta(minutes=rng.choice([0, 5, 60, 60 * 24 * 30])))
    if verdict == "stopped" and rng.random() < 0.2:
        more["happened"] = (at.date() - timedelta(days=rng.randrange(1, 200))).isoformat()
    scribe.watched(COOK, a_technique(rng, scribe).id, at, verdict, edition=rng.randrange(1, 5), **more)


def stop(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a stop, and as often as not its release and another practical within the hour."""
    technique = a_technique(rng, scribe)
    edition = technique.edition_on(at.astimezone(ZoneInfo(ZONE)).date()).number
    stopped = scribe.watched(COOK, technique.id, at, "stopped", started=moment_text(at))
    if rng.random() < 0.5:
        scribe.releases(stopped, at + timedelta(minutes=rng.choice([0, 20, 20])))
    begun = moment_text(at + timedelta(minutes=rng.choice([0, 20, 25])))
    scribe.watched(COOK, technique.id, at + timedelta(minutes=30), edition=edition, started=begun)


def release(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a release of some stop, or of a practical that was none."""
    practicals = [entry for entry in scribe.entries if entry.kind == "practical_watched"]
    stops = [entry for entry in practicals if entry.body["verdict"] == "stopped"]
    if practicals:
        scribe.releases(rng.choice(stops or practicals).id, at)


def work(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a supervised shift."""
    body = {"station": a_station(rng), "worked_on": at.date().isoformat(), "beside": "sous", "guests": 1}
    scribe.write("shift_worked", COOK, at, body)


def show(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a certificate, some with no end, some that begin later."""
    issued = at.date() + timedelta(days=rng.randrange(-100, 20))
    expires = rng.choice([None, issued + timedelta(days=rng.randrange(700))])
    body = {"certificate": rng.choice(["food_handler", "first_aid"]), "number": "1", "issued": issued.isoformat()}
    scribe.write("certificate_shown", COOK, at, {**body, "expires": expires.isoformat() if expires else None})


def stand(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a standing down or a putting back."""
    body = {"station": a_station(rng), "reason": "x"}
    if rng.random() < 0.5:
        scribe.write("restored", COOK, at, body)
        return
    if rng.random() < 0.2:
        body["happened"] = (at.date() - timedelta(days=rng.randrange(1, 200))).isoformat()
    scribe.write("stood_down", COOK, at, body)


def come_or_go(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a leaving or a joining."""
    if rng.random() < 0.5:
        scribe.write("cook_left", COOK, at, {"reason": "x"})
    else:
        scribe.write("cook_joined", COOK, at, {"roles": ["cook"]})


def void(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a void of some entry, a void among them now and then."""
    entry = rng.choice(scribe.entries)
    scribe.write("entry_voided", COOK, at, {"entry": entry.id, "reason": "x"})


Dated = Sequence[tuple[date, Entry]]
Deed = Callable[[Random, Scribe, datetime], None]
DEEDS: Sequence[Deed] = [
    *(learn, learn, learn, read, sit, watch, watch, work, work, show, show),
    *(stop, release, release, stand, come_or_go, void),
]


def days_of(entries: Sequence[Entry]) -> list[tuple[date, Entry]]:
    """Return each entry with the kitchen's day it counts from: when it was recorded, or the day it says it happened."""
    days = []
    for entry in entries:
        day = entry.at.astimezone(ZoneInfo(ZONE)).date()
        if "happened" in entry.body and date.fromisoformat(entry.body["happened"]) < day:
            day = date.fromisoformat(entry.body["happened"])
        days.append((day, entry))
    return days


def as_the_book_stood(dated: Dated, on: date) -> list[tuple[date, Entry]]:
    """Return the entries recorded by a day and not voided by then."""
    seen = [(day, entry) for day, entry in dated if day <= on]
    voided = {entry.body["entry"] for _, entry in seen if entry.kind == "entry_voided"}
    return [(day, entry) for day, entry in seen if entry.id not in voided]


def months_between_hold(day: date, months: int, on: date) -> bool:
    """Return whether *on* is no later than *months* after *day*, counting month by month on the calendar."""
    year, month = day.year, day.month
    for _ in range(months):
        year, month = (year + 1, 1) if month == 12 else (year, month + 1)
    return (on.year, on.month, on.day) <= (year, month, day.day)


def naive_cleared(book: Dated, person: Person, station: Station, content: Content, on: date) -> bool:
    """Return whether every link is there on a day, from entries already cut to what the book said."""
    return not naive_left(book, person, station, content, on)


def naive_left(book: Dated, person: Person, station: Station, content: Content, on: date) -> set[str]:
    """Return the kinds of things that are left to be done on a day."""
    book = [(day, entry) for day, entry in book if day <= on]
    asked = [content.techniques[name] for name in station.techniques]
    answers = {
        "roster": naive_present(book),
        "off": naive_standing(book, station) and not any(naive_stops(book, technique) for technique in asked),
        "age": naive_age(person, station, on),
        "barring paper": naive_papers(book, station, on, bars=True),
        "paper": naive_papers(book, station, on, bars=False),
        "reading": all(naive_read(book, technique, on) for technique in asked),
        "quiz": all(naive_passed(book, technique, on) for technique in asked),
        "practical": all(naive_signed(book, technique, on) for technique in asked),
        "shifts": naive_shifts(book, station),
    }
    return {kind for kind, is_there in answers.items() if not is_there}


def naive_present(book: Dated) -> bool:
    """Return whether the last word is joined."""
    there = False
    for _, entry in book:
        if entry.kind == "cook_joined":
            there = True
        if entry.kind == "cook_left":
            there = False
    return there


def naive_standing(book: Dated, station: Station) -> bool:
    """Return whether the last word is not that the cook is taken off this station."""
    standing = True
    for _, entry in book:
        if entry.kind in ("stood_down", "restored") and entry.body["station"] == station.id:
            standing = entry.kind == "restored"
    return standing


def naive_age(person: Person, station: Station, on: date) -> bool:
    """Return whether enough birthdays have passed, comparing month and day: 1 March comes after 29 February."""
    if station.minimum_age is None:
        return True
    if person.born is None:
        return False
    years = on.year - person.born.year
    if (on.month, on.day) < (person.born.month, person.born.day):
        years -= 1
    return years >= station.minimum_age


def naive_papers(book: Dated, station: Station, on: date, *, bars: bool) -> bool:
    """Return whether each certificate that bars, or each that does not, was shown and is in date."""
    for paper in station.certificates:
        good = paper.bars != bars
        for _, entry in book:
            if entry.kind == "certificate_shown" and entry.body["certificate"] == paper.id:
                begun = date.fromisoformat(entry.body["issued"]) <= on
                good = good or (begun and (entry.body["expires"] is None or on.isoformat() <= entry.body["expires"]))
        if not good:
            return False
    return True


def naive_shifts(book: Dated, station: Station) -> bool:
    """Return whether enough shifts were worked there."""
    worked = 0
    for _, entry in book:
        if entry.kind == "shift_worked" and entry.body["station"] == station.id:
            worked += 1
    return worked >= station.supervised_shifts


def naive_read(book: Dated, technique: Technique, on: date) -> bool:
    """Return whether an edition that still holds was read."""
    for _, entry in book:
        if entry.kind != "technique_read" or entry.body["technique"] != technique.id:
            continue
        if still_holds(technique, entry.body["edition"], on):
            return True
    return False


def naive_passed(book: Dated, technique: Technique, on: date) -> bool:
    """Return whether the quiz was passed not too long ago, or there is none."""
    passed = not technique.questions
    for day, entry in book:
        if entry.kind == "quiz_sat" and entry.body["technique"] == technique.id and entry.body["passed"]:
            passed = passed or months_between_hold(day, technique.quiz_months, on)
    return passed


def naive_practicals(book: Dated, technique: Technique) -> tuple[list[tuple[date, Entry]], list[str]]:
    """Return the sign-offs that count at the end of a book (day and entry), and the stops that stand.

    A stop wipes every sign-off before it. It stands until its release; one of an older program, which does not say when
    the practical was begun, also until a sign-off of that program on a later day. A sign-off counts if no stop stands,
    and if it was begun after the last stop had ended.
    """
    signed: list[tuple[date, Entry]] = []
    standing: dict[str, tuple[date, bool]] = {}
    last_end = datetime.min.replace(tzinfo=UTC)
    for day, entry in book:
        if entry.kind == "stop_released" and standing.pop(entry.body["stop"], False):
            last_end = max(last_end, entry.at)
        if entry.kind != "practical_watched" or entry.body["technique"] != technique.id:
            continue
        started, verdict = entry.body.get("started"), entry.body["verdict"]
        if verdict == "stopped":
            signed = []
            standing[entry.id] = (day, started is None)
        if verdict == "meets it" and started is None:
            ended = [name for name, (stopped_on, is_old) in standing.items() if is_old and stopped_on < day]
            last_end = max(last_end, entry.at) if ended else last_end
            standing = {name: stop for name, stop in standing.items() if name not in ended}
        begun_late = started is None or datetime.fromisoformat(started) >= last_end
        if verdict == "meets it" and not standing and begun_late:
            signed.append((day, entry))
    return signed, list(standing)


def naive_stops(book: Dated, technique: Technique) -> list[str]:
    """Return the stops that stand."""
    return naive_practicals(book, technique)[1]


def naive_signed(book: Dated, technique: Technique, on: date) -> bool:
    """Return whether a sign-off counts."""
    signed, _ = naive_practicals(book, technique)
    good = [
        day
        for day, entry in signed
        if still_holds(technique, entry.body["edition"], on) and still_enough(technique, entry, on)
    ]
    return any(months_between_hold(day, technique.sign_off_months, on) for day in good)


def still_holds(technique: Technique, edition: int, on: date) -> bool:
    """Return whether a proof made on an edition still counts on a date: every later edition in force lets it."""
    later = [each for each in technique.editions if each.number > edition and each.since <= on]
    return all(each.sign_offs_hold for each in later)


def still_enough(technique: Technique, practical: Entry, on: date) -> bool:
    """Return whether no later edition in force asks for a point that this practical shows as missed."""
    for each in technique.editions:
        if each.number > practical.body["edition"] and each.since <= on:
            for seen in practical.body["points"]:
                if seen["seen"] == "not yet" and seen["point"] in each.unless_missed:
                    return False
    return True


def as_known_on(content: Content, on: date) -> Content:
    """Return the content without what editions ask for that are not in force yet: they speak from their day."""
    known = {
        name: replace(t, editions=tuple(e if e.since <= on else replace(e, unless_missed=()) for e in t.editions))
        for name, t in content.techniques.items()
    }
    return replace(content, techniques=known)


def agree_on(found: Clearance, book: Dated, person: Person, content: Content) -> None:
    """Assert that a clearance says what the naive way says: cleared or not, to which day, and whether it ever was."""
    station, on = content.stations[found.station], found.on
    content = as_known_on(content, on)
    cleared = naive_cleared(book, person, station, content, on)
    assert found.is_cleared == cleared, (found, book)
    assert found.is_cleared == (not found.missing)
    if cleared:
        last = found.until or on
        assert naive_cleared(book, person, station, content, last), (found, book)
        if found.until is not None:
            assert not naive_cleared(book, person, station, content, last + timedelta(days=1)), (found, book)
            assert (found.state == "due again") == ((last - on).days <= station.warn_days)
    if found.state == "lapsed":
        assert found.until is not None
        assert naive_cleared(book, person, station, content, found.until), (found, book)
    if found.state in ("not started", "studying", "ready to show", "supervised"):
        days = [day for day, _ in book if day <= on]
        assert not any(naive_cleared(book, person, station, content, day) for day in days), (found, book)
    agree_on_state(found, naive_left(book, person, station, content, on))


def agree_on_state(found: Clearance, left: set[str]) -> None:
    """Assert that the word of a state follows from what is left: what bars first, then being off the station."""
    barred = bool(left & {"age", "barring paper"})
    assert (found.state == "not allowed") == barred, (found, left)
    assert (found.state == "stood down") == ("off" in left and not barred), (found, left)
    for state, kind in (("ready to show", "practical"), ("supervised", "shifts")):
        if found.state == state:
            assert left == {kind}, (found, left)
        if left == {kind}:
            assert found.state in (state, "lapsed"), (found, left)


def walk(seed: int) -> int:
    """Compare one random history on some of its days at every station; return how many clearances were found."""
    rng = Random(seed)  # noqa: S311 - a kept seed
    content = written_content(rng)
    scribe = written_history(rng, content)
    person, progress, dated = scribe.people[COOK], scribe.progress(), days_of(scribe.entries)
    last = [day for day, _ in dated]
    asked = {*rng.sample(last, min(4, len(last))), FIRST_DAY + timedelta(days=rng.randrange(DAYS))}
    asked |= {
        date(2028, 2, 29),
        date(2030, 2, 28),
        date(2030, 3, 1),
        rng.choice(last) + timedelta(days=rng.randrange(60)),
    }
    cleared = 0
    for on in asked:
        book = as_the_book_stood(dated, on)
        for station in content.stations.values():
            found = clearance_of(person, station, progress, content, on)
            agree_on(found, book, person, content)
            cleared += found.is_cleared
    return cleared


@pytest.mark.parametrize("hundred", range(2))
def test_no_clearance_has_a_missing_link(hundred: int) -> None:
    """Over random histories of five years, leap day and clock changes included, both ways agree on every day asked."""
    assert sum(walk(seed) for seed in range(hundred * 100, hundred * 100 + 100)) > 20


@pytest.mark.bench
def test_no_clearance_has_a_missing_link_in_ten_thousand_histories() -> None:
    """The same over 10,000 histories."""
    cleared = sum(walk(seed) for seed in range(10_000))
    print(f"10,000 random histories: {cleared} clearances found, 0 with a missing link")
    assert cleared > 2_000


def test_the_two_ways_differ_when_one_of_them_is_wrong() -> None:
    """The comparison can fail: an age bar taken out of one side alone is seen."""
    content = small_content()
    scribe = Scribe(ZONE, content)
    scribe.joins(COOK, born=None)
    scribe.clears_for_pasta_room(COOK, date(2026, 3, 2))
    lax = small_content(pasta_room={"minimum_age": None})
    found = clearance_of(scribe.people[COOK], lax.stations["pasta_room"], scribe.progress(), lax, date(2026, 3, 2))
    book = as_the_book_stood(days_of(scribe.entries), date(2026, 3, 2))
    with pytest.raises(AssertionError):
        agree_on(found, book, scribe.people[COOK], content)
    agree_on(replace(found), book, scribe.people[COOK], lax)


def test_the_two_ways_differ_when_one_of_them_lets_a_missed_point_pass() -> None:
    """The comparison can fail: the points an edition names, taken out of one side alone, are seen."""
    later = Edition(2, date(2026, 6, 1), "", True, ("boil",))
    editions = (*small_content().techniques["cold_sauces"].editions, later)
    content = with_technique(small_content(), "cold_sauces", editions=editions)
    scribe = Scribe(ZONE, content)
    scribe.joins(COOK)
    scribe.reads(COOK, "cold_sauces", date(2026, 3, 2))
    scribe.watched(COOK, "cold_sauces", date(2026, 3, 2), missed=["boil"])
    book, person = days_of(scribe.entries), scribe.people[COOK]
    for on, differs in ((date(2026, 5, 31), False), (date(2026, 6, 1), True)):
        lax = clearance_of(
            person, content.stations["cold_side"], scribe.progress(), as_known_on(content, date(2026, 5, 31)), on
        )
        assert lax.is_cleared
        strict = clearance_of(person, content.stations["cold_side"], scribe.progress(), content, on)
        agree_on(strict, book, person, content)
        assert strict.is_cleared != differs
        assert naive_cleared(book, person, content.stations["cold_side"], content, on) != differs


@pytest.mark.parametrize("seeds", first_and_rest(1, every=3))
def test_every_day_of_five_years_agrees(seeds: range) -> None:
    """Some histories, every single day, every station."""
    for seed in seeds:
        rng = Random(seed)  # noqa: S311 - a kept seed
        content = written_content(rng)
        scribe = written_history(rng, content)
        person, progress, dated = scribe.people[COOK], scribe.progress(), days_of(scribe.entries)
        for number in range(DAYS):
            on = FIRST_DAY + timedelta(days=number)
            book = as_the_book_stood(dated, on)
            for station in content.stations.values():
                cleared = naive_cleared(book, person, station, content, on)
                assert clearance_of(person, station, progress, content, on).is_cleared == cleared
