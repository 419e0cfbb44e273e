"""The book has digests of names and birth dates, and says from when somebody is old enough."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

from tests.actions.crew import NOON, Crew, crew_in, entered, refused, saved
from tests.printed import english
from trainer.actions.confirming import enter_due
from trainer.actions.people_on_record import (
    ProofOfAge,
    Written,
    deeds_for_everybody,
    deeds_for_new_ages,
    see_age,
)
from trainer.actions.two_people import Waits
from trainer.kitchen.ages import PaperSeen
from trainer.kitchen.book import Entry, NewEntry
from trainer.kitchen.clearance import clearance_of


@pytest.fixture
def crew(tmp_path: Path) -> Crew:
    """Return the crew, in a book from before there were such entries."""
    return crew_in(tmp_path / "kitchen")


def state(crew: Crew, cook: str, on: date, station: str = "pasta_room") -> str:
    """Return the state of a cook's cell on a day."""
    k = crew.k
    return clearance_of(k.people()[cook], k.content.stations[station], k.progress(), k.content, on).state


def paper_of(crew: Crew, digest: str) -> dict[str, str]:
    """Return a text kept beside the book, its digest worked out again by the standard library (FIPS 180-4)."""
    text = crew.k.file.book.paper(digest)
    assert text is not None
    assert hashlib.sha256(text).hexdigest() == digest
    found: dict[str, str] = json.loads(text)
    assert text == json.dumps(found, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()
    return found


def upgraded(crew: Crew) -> None:
    """Write what is missing of everybody, as an upgrade does."""
    with crew.k.file.writing():
        for deed in deeds_for_everybody(crew.k, crew.now):
            crew.k.file.book.append(deed)


def sees(crew: Crew, cook: str, born: date, seen: PaperSeen = "passport", by: str = "mara") -> Any:
    """Let a manager write down a birth date."""
    return see_age(crew.k, proof=ProofOfAge(cook, born, seen), written=Written(by, crew.now, crew.key()))


def test_a_name_and_a_birth_date_are_digests_that_anybody_can_work_out_again(crew: Crew) -> None:
    """The text beside the book has the name, or the day, and 16 random bytes of its own; the entry has neither."""
    upgraded(crew)
    salts = set()
    for kind, field, kept in (("person_named", "name", "Ada"), ("age_seen", "birth", "1990-05-05")):
        entry = next(each for each in crew.k.file.book.since(0) if each.kind == kind and each.cook == "ada")
        paper = paper_of(crew, entry.body[field])
        assert paper.pop("name" if kind == "person_named" else "born") == kept
        salts.add(paper.pop("salt"))
        assert not paper
        assert kept not in json.dumps(entry.body)
    assert {len(bytes.fromhex(salt)) for salt in salts} == {16}
    assert len(salts) == 2
    assert crew.k.file.verify().is_whole


def test_an_upgrade_says_it_once_of_everybody(crew: Crew) -> None:
    """A name and an age each, by the machine, counted for all days before; the second time there is nothing to say."""
    end = crew.k.file.book.end()[0]
    upgraded(crew)
    written = crew.k.file.book.since(end)
    assert sorted((each.cook, each.kind) for each in written) == sorted(
        (cook, kind) for cook in crew.k.people() for kind in ("age_seen", "person_named")
    )
    assert {each.by for each in written} == {"local"}
    assert all(each.body["seen"] == "not seen" for each in written if each.kind == "age_seen")
    assert all(each.body["not_kept_before"] is True for each in written if each.kind == "age_seen")
    assert deeds_for_everybody(crew.k, crew.now) == []


def test_an_upgrade_changes_no_cell_of_a_minor(crew: Crew) -> None:
    """Day by day before and after, while a minor turns 18 between joining and the upgrade (oracle: the years counted).

    29 CFR 570.62 asks 18 years at powered bakery machines.
    """
    crew.joins("tim", "cook", born=date(2008, 4, 1))
    crew.later(days=60)
    days = [crew.k.today(NOON) + timedelta(days=n) for n in range(60)]
    before = [state(crew, "tim", on) for on in days]
    upgraded(crew)
    assert [state(crew, "tim", on) for on in days] == before
    assert [now == "not allowed" for now in before] == [on < date(2026, 4, 1) for on in days]
    (entry,) = (each for each in crew.k.file.book.of_kind("age_seen") if each.cook == "tim")
    assert entry.body["bars"] == [{"years": 18, "from": "2026-04-01"}]


def test_once_the_book_speaks_the_table_of_people_decides_nothing(crew: Crew) -> None:
    """A birth date changed behind the book's back changes no cell, today or in the past."""
    upgraded(crew)
    crew.k.file.people.change(replace(crew.k.people()["ada"], born=date(2015, 1, 1)))
    assert state(crew, "ada", crew.k.today(crew.now)) != "not allowed"


def test_a_later_entry_counts_from_its_own_day(crew: Crew) -> None:
    """What was known on a day decides that day: the birth date put right today bars from today."""
    upgraded(crew)
    crew.later(days=3)
    entry = saved(sees(crew, "ada", date(2010, 3, 4)))
    today = crew.k.today(crew.now)
    assert [state(crew, "ada", today - timedelta(days=n)) == "not allowed" for n in (0, 1, 2)] == [True, False, False]
    assert entry.body["bars"] == [{"years": 18, "from": "2028-03-04"}]
    assert crew.k.people()["ada"].born == date(2010, 3, 4)


@pytest.mark.parametrize(
    ("born", "years", "first"),
    [
        (date(2012, 2, 29), 18, date(2030, 3, 1)),  # 2030 has no 29 February: a day later rather than a day too soon
        (date(2012, 2, 29), 20, date(2032, 2, 29)),
        (date(2012, 2, 28), 18, date(2030, 2, 28)),
        (date(2012, 3, 1), 18, date(2030, 3, 1)),
    ],
)
def test_a_minor_is_let_to_a_machine_on_the_birthday_and_not_before(
    crew: Crew, born: date, years: int, first: date
) -> None:
    """29 CFR 570.62 asks 18 years at powered bakery machines; each day of the week around it is asked."""
    station = replace(crew.k.content.stations["pasta_room"], minimum_age=years)
    crew.k.content = replace(crew.k.content, stations={**crew.k.content.stations, "pasta_room": station})
    crew.joins("tim", "cook", born=None)
    entered(crew, sees(crew, "tim", born))
    week = [first + timedelta(days=n) for n in range(-3, 4)]
    assert [on for on in week if state(crew, "tim", on) == "not allowed"] == week[:3]


def test_a_bar_that_is_lifted_names_the_entry_that_proves_it(crew: Crew) -> None:
    """Held since the birthday, or from always, by the entry that says so."""
    entry = saved(sees(crew, "ada", date(1990, 5, 5), "birth certificate"))
    k = crew.k
    found = clearance_of(k.people()["ada"], k.content.stations["pasta_room"], k.progress(), k.content, k.today(NOON))
    (held,) = (each for each in found.held if each.what == "age")
    assert (held.since, held.proof) == (None, (entry.id,))
    assert entry.body == {
        "birth": entry.body["birth"],
        "seen": "birth certificate",
        "bars": [{"years": 18, "from": "joining"}],
    }


def test_the_same_form_sent_twice_is_one_entry(crew: Crew) -> None:
    """Though a new salt is drawn for each."""
    written = Written("mara", crew.now, "age-1")
    proof = ProofOfAge("ada", date(1990, 5, 5), "passport")
    first = saved(see_age(crew.k, proof=proof, written=written))
    assert saved(see_age(crew.k, proof=proof, written=written)) == first
    assert len(crew.k.file.book.of_kind("age_seen")) == 1


@pytest.mark.parametrize(
    ("proof", "by", "words"),
    [
        (ProofOfAge("ada", date(1990, 5, 5), "passport"), "ben", "no manager"),
        (ProofOfAge("mara", date(1990, 5, 5), "passport"), "mara", "about themselves"),
        (ProofOfAge("ada", date(2026, 3, 3), "passport"), "mara", "3 March 2026 is still to come"),
        (ProofOfAge("ada", date(1899, 3, 3), "passport"), "mara", "before 1900"),
        (ProofOfAge("gone", date(1990, 5, 5), "passport"), "mara", "not on the roster"),
        (ProofOfAge("ada", date(1990, 5, 5), "library card"), "mara", "“library card”"),  # type: ignore[arg-type]
    ],
)
def test_what_is_no_proof_of_age_is_refused(crew: Crew, proof: ProofOfAge, by: str, words: str) -> None:
    """With the value and the rule; nothing is written, and the birth date stays."""
    end = crew.k.file.book.end()
    outcome = see_age(crew.k, proof=proof, written=Written(by, crew.now, "age-1"))
    assert words in english(refused(outcome).reason)
    assert crew.k.file.book.end() == end
    assert crew.k.people()["ada"].born == date(1990, 5, 5)


def new_ages(crew: Crew, *years: int) -> list[Entry]:
    """Write what is missing of these years."""
    return [crew.k.file.book.append(deed) for deed in deeds_for_new_ages(crew.k, years, crew.now)]


def asked_again(deeds: Callable[[], list[NewEntry]]) -> list[str]:
    """Return about whom there is still something to say."""
    return [deed.cook for deed in deeds()]


def test_a_station_that_asks_for_more_years_has_them_said_of_everybody(crew: Crew) -> None:
    """With the digest and the paper of the entry before; who is known to be older already is passed over."""
    crew.joins("tim", "cook", born=date(2009, 4, 1))
    upgraded(crew)
    saved(sees(crew, "ada", date(1990, 5, 5)))
    seen = crew.k.file.book.of_kind("age_seen")[-1]
    written = {each.cook: each.body for each in new_ages(crew, 21)}
    assert set(written) == set(crew.k.people())
    assert written["ada"] == {
        "birth": seen.body["birth"],
        "seen": "passport",
        "bars": [{"years": 18, "from": "joining"}, {"years": 21, "from": "joining"}],
        "corrects": seen.id,
    }
    assert written["tim"]["bars"] == [{"years": 18, "from": "2027-04-01"}, {"years": 21, "from": "2030-04-01"}]
    assert asked_again(lambda: deeds_for_new_ages(crew.k, (21, 18), crew.now)) == []
    assert asked_again(lambda: deeds_for_new_ages(crew.k, (16,), crew.now)) == ["tim"]


def test_years_nobody_has_looked_at_bar(crew: Crew) -> None:
    """Fewer years than were reached before joining are known; more are not, and the manager is told what to do."""
    upgraded(crew)
    k = crew.k
    for years, barred in ((16, False), (18, False), (21, True)):
        station = replace(k.content.stations["cold_side"], minimum_age=years, age_reason="the law of the place")
        found = clearance_of(k.people()["sous"], station, k.progress(), k.content, k.today(NOON))
        assert (found.state == "not allowed") == barred, years
        assert ("age:unknown" in [each.what for each in found.missing]) == barred


def test_a_date_that_lifts_a_bar_takes_a_second_person(crew: Crew) -> None:
    """Alone it waits a day: until then no date is kept, nobody is let to the machine, and nothing is in the book."""
    crew.joins("tim", "cook", born=None)
    before = crew.k.file.book.end()
    outcome = sees(crew, "tim", date(1990, 5, 5))
    assert isinstance(outcome, Waits)
    assert outcome.until == crew.now + timedelta(days=1)
    assert (crew.k.file.book.end(), crew.k.people()["tim"].born) == (before, None)
    assert state(crew, "tim", NOON.date()) == "not allowed"
    (done,) = enter_due(crew.k, crew.later(days=1))
    assert (done.entry.kind, done.entry.body["second"], "asked" in done.entry.body) == ("age_seen", None, True)
    assert crew.k.people()["tim"].born == date(1990, 5, 5)


def test_a_date_that_bars_counts_at_once(crew: Crew) -> None:
    """Tim turns out to be sixteen: off the machine from this moment, with nobody's second word."""
    crew.joins("tim", "cook", born=date(1990, 5, 5))
    saved(sees(crew, "tim", date(2010, 1, 1)))
    assert state(crew, "tim", NOON.date()) == "not allowed"
