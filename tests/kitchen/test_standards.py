"""Standards: which rules held on which day, by what was known then, and what follows for a clearance."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from tests.kitchen.kitchen_for_tests import Scribe, small_content, with_technique
from trainer.kitchen.clearance import clearance_of, technique_standing
from trainer.kitchen.record import AsKnown
from trainer.kitchen.rules import NewerRules, rules_of
from trainer.kitchen.standards import Standards
from trainer.kitchen.technique import Content, Edition, Station, Technique

D = date
JOINED, SIGNED = D(2026, 1, 5), D(2026, 3, 2)
ANEW = Edition(2, D(2026, 6, 1), "", sign_offs_hold=False)


def published(scribe: Scribe, content: Content, on: date, since: date | None = None, **more: Any) -> str:
    """Write that a standard is published, in force from *since* or from the day itself."""
    number = 1 + sum(entry.kind == "standard_published" for entry in scribe.entries)
    body = {"number": number, "since": (since or on).isoformat(), "rules": rules_of(content), "texts": "", **more}
    return scribe.write("standard_published", "mara", on, body)


def with_edition(content: Content, *editions: Edition, technique: str = "cold_sauces") -> Content:
    """Return content in which a technique has these editions after its first."""
    first = content.techniques[technique].editions[0]
    return with_technique(content, technique, editions=(first, *editions))


@pytest.fixture
def scribe() -> Scribe:
    """Return a scribe of a kitchen with standard 1, whose cook was cleared on the cold side on 2 March."""
    scribe = Scribe()
    published(scribe, scribe.content, D(2026, 1, 1))
    scribe.joins("ada", JOINED)
    scribe.clears_for_cold_side("ada", SIGNED)
    return scribe


def state(scribe: Scribe, on: date, known: date | None = None, station: str = "cold_side") -> tuple[str, date | None]:
    """Return a cook's state and last good day at a station, by what was known on a day."""
    place = Station(station, "", (), (), None, "", 0)
    found = clearance_of(scribe.people["ada"], place, scribe.progress(), scribe.content, AsKnown(on, known or on))
    return found.state, found.until


def numbers(standards: Standards, on: date, known: date | None = None) -> int:
    """Return the number of the standard in force."""
    found = standards.in_force(on, known)
    assert found is not None
    return found.number


def test_a_book_without_standards_is_judged_by_the_content_given() -> None:
    """As if it had been in force for ever."""
    content = small_content()
    assert Standards().in_force(SIGNED) is None
    assert Standards().content_on(SIGNED, content) is content


def test_the_last_standard_that_has_come_and_was_known_is_in_force(scribe: Scribe) -> None:
    """Standard 2 is published on 1 April for 15 April; before, the first is."""
    published(scribe, scribe.content, D(2026, 4, 1), D(2026, 4, 15))
    standards = scribe.progress().standards
    assert [numbers(standards, D(2025, 1, 1)), numbers(standards, D(2026, 4, 14))] == [1, 1]
    assert numbers(standards, D(2026, 4, 15)) == 2
    assert numbers(standards, D(2026, 4, 15), known=D(2026, 3, 31)) == 1


def test_a_standard_published_later_takes_over_from_its_day(scribe: Scribe) -> None:
    """Standard 2 is to hold from 1 May; standard 3, published after it, holds from 20 April, and 2 never does."""
    published(scribe, scribe.content, D(2026, 4, 1), D(2026, 5, 1))
    published(scribe, scribe.content, D(2026, 4, 10), D(2026, 4, 20))
    standards = scribe.progress().standards
    assert [numbers(standards, D(2026, day, 19), D(2026, 4, 10)) for day in (4, 5)] == [1, 3]
    runs = standards.runs(D(2026, 4, 10), scribe.content)
    assert [(run.since, run.until) for run in runs] == [
        (date.min, D(2026, 4, 19)),
        (D(2026, 4, 20), date.max),
    ]


def test_the_standard_of_a_book_taken_over_holds_on_the_days_before(scribe: Scribe) -> None:
    """None was kept then: entries of before are judged by it, on every day and by whatever was known."""
    old = Scribe()
    old.joins("ada", JOINED)
    old.clears_for_cold_side("ada", SIGNED)
    published(old, old.content, D(2026, 7, 1), not_kept_before=True)
    first = old.progress().standards.in_force(D(2026, 3, 2))
    assert first is not None
    assert first.is_from_before
    assert state(old, SIGNED) == state(scribe, SIGNED) == ("cleared", D(2027, 3, 2))


def test_content_edited_since_changes_no_answer(scribe: Scribe) -> None:
    """Another month, another technique, no station at all: a book with a standard is judged by that alone."""
    before = [state(scribe, SIGNED + timedelta(days=number)) for number in range(0, 500, 7)]
    scribe.content = replace(small_content(), stations={}, techniques={})
    assert [state(scribe, SIGNED + timedelta(days=number)) for number in range(0, 500, 7)] == before


def test_an_edition_typed_with_a_past_day_ends_nothing_in_the_past(scribe: Scribe) -> None:
    """Published on 1 August with a since of 1 June: nobody becomes lapsed two months ago."""
    published(scribe, with_edition(scribe.content, ANEW), D(2026, 8, 1))
    assert state(scribe, D(2026, 7, 31)) == ("cleared", D(2027, 3, 2))
    assert state(scribe, D(2026, 7, 31), known=D(2026, 8, 1)) == ("due again", D(2026, 7, 31))
    assert state(scribe, D(2026, 8, 1)) == ("lapsed", D(2026, 7, 31))


def test_an_edition_keeps_its_day_in_the_first_standard(scribe: Scribe) -> None:
    """What the first standard says held on every day before it too."""
    old = Scribe()
    published(old, with_edition(old.content, ANEW), D(2026, 8, 1))
    old.joins("ada", JOINED)
    old.clears_for_cold_side("ada", SIGNED)
    assert state(old, D(2026, 8, 1), known=D(2026, 8, 2)) == ("lapsed", D(2026, 5, 31))
    del scribe


def test_an_edition_counts_from_the_first_standard_that_has_it(scribe: Scribe) -> None:
    """Standard 3 has it too, and moves nothing."""
    later = with_edition(scribe.content, ANEW)
    published(scribe, later, D(2026, 8, 1))
    published(scribe, later, D(2026, 9, 1))
    assert state(scribe, D(2026, 9, 2)) == ("lapsed", D(2026, 7, 31))


def test_a_clearance_runs_on_from_one_standard_into_the_next(scribe: Scribe) -> None:
    """What the next asks for is there too: the last good day is past the change, and the change is no gap."""
    published(scribe, scribe.content, D(2026, 4, 1), D(2026, 6, 1))
    assert state(scribe, D(2026, 5, 1)) == ("cleared", D(2027, 3, 2))
    assert state(scribe, D(2027, 3, 3)) == ("lapsed", D(2027, 3, 2))


def test_a_standard_to_come_ends_a_clearance_once_it_is_known(scribe: Scribe) -> None:
    """From 1 June the cold side asks for another technique; that is known from 1 April."""
    content = small_content(cold_side={"techniques": ("cold_sauces", "pasta_nesting")})
    published(scribe, content, D(2026, 4, 1), D(2026, 6, 1))
    assert state(scribe, D(2026, 3, 31)) == ("cleared", D(2027, 3, 2))
    assert state(scribe, D(2026, 4, 1)) == ("cleared", D(2026, 5, 31))
    assert state(scribe, D(2026, 5, 20)) == ("due again", D(2026, 5, 31))
    assert state(scribe, D(2026, 6, 1)) == ("lapsed", D(2026, 5, 31))


def test_what_a_standard_asked_for_once_does_not_undo_what_was(scribe: Scribe) -> None:
    """A sign-off good for one month only, by a later standard, was good for twelve before it."""
    strict = with_technique(scribe.content, "cold_sauces", sign_off_months=1)
    published(scribe, strict, D(2026, 8, 1))
    assert state(scribe, D(2026, 8, 1)) == ("lapsed", D(2026, 7, 31))
    assert state(scribe, D(2026, 7, 1), known=D(2026, 8, 1)) == ("due again", D(2026, 7, 31))


def test_a_station_of_a_later_standard_is_not_there_before(scribe: Scribe) -> None:
    """Nobody was cleared at it, and the words say why; a station that is gone says since when."""
    plain = scribe.content.stations
    cold, grill = {"cold_side": plain["cold_side"]}, {"grill": plain["grill"]}
    fresh = Scribe()
    published(fresh, replace(fresh.content, stations=cold), D(2026, 1, 1))
    fresh.joins("ada", JOINED)
    fresh.clears_for_cold_side("ada", SIGNED)
    fresh.shows("ada", "first_aid", SIGNED, SIGNED, None)
    published(fresh, replace(fresh.content, stations=grill), D(2026, 5, 1))
    assert state(fresh, D(2026, 4, 30), station="grill") == ("not started", None)
    assert state(fresh, D(2026, 5, 1), station="grill") == ("cleared", D(2027, 3, 2))
    assert state(fresh, D(2026, 5, 1), station="cold_side") == ("lapsed", D(2026, 4, 30))


def test_a_technique_is_asked_by_the_rules_of_the_day(scribe: Scribe) -> None:
    """Its quiz came with standard 2: a sign-off was enough on the day before."""
    given: Technique = scribe.content.techniques["cold_sauces"]
    quiz = {"questions": small_content().techniques["fresh_pasta"].questions, "need_right": 3}
    published(scribe, with_technique(scribe.content, "cold_sauces", **quiz), D(2026, 8, 1))
    progress = scribe.progress()
    assert technique_standing("ada", given, progress, D(2026, 7, 31)).state == "signed"
    assert technique_standing("ada", given, progress, D(2026, 8, 1)).quiz_passed is False


def test_a_standard_of_a_newer_program_is_refused(scribe: Scribe) -> None:
    """Its rules are in a form this program does not know."""
    body = {"number": 2, "since": "2026-04-01", "rules": {**rules_of(scribe.content), "form": 4}}
    scribe.write("standard_published", "mara", D(2026, 4, 1), body)
    with pytest.raises(NewerRules, match="Standard 2"):
        scribe.progress()
