"""What changes next at a station if nothing more is written."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from tests.kitchen.kitchen_for_tests import Scribe, small_content, with_technique
from tests.printed import english
from trainer.kitchen.next_change import NextChange, next_change
from trainer.kitchen.rules import rules_of
from trainer.kitchen.technique import Edition

D = date
SIGNED = D(2026, 3, 2)


@pytest.fixture
def scribe() -> Scribe:
    """Return a scribe whose cook was cleared on the cold side on 2 March 2026, for twelve months."""
    scribe = Scribe()
    scribe.joins("ada", born=D(2009, 5, 5))
    scribe.clears_for_cold_side("ada", SIGNED)
    return scribe


def comes(scribe: Scribe, today: date, station: str = "cold_side") -> NextChange | None:
    """Return what changes next for the cook."""
    place = scribe.content.stations[station]
    return next_change(scribe.people["ada"], place, scribe.progress(), scribe.content, today)


def told(found: NextChange | None) -> tuple[date, str, str, str]:
    """Return a change with its reason printed."""
    assert found is not None
    return found.on, found.before, found.after, english(found.because)


def test_a_clearance_is_due_again_thirty_days_before_its_end(scribe: Scribe) -> None:
    """2 March 2027 less 30 days is 31 January (counted on a calendar); the reason names what ends then."""
    found = told(comes(scribe, SIGNED))
    assert found == (
        D(2027, 1, 31),
        "cleared",
        "due again",
        "Cold sauces: signed off. Good to the end of 2 March 2027.",
    )


def test_a_clearance_due_again_lapses_on_the_day_after_its_last(scribe: Scribe) -> None:
    """The reason is what is missing then."""
    on, before, after, because = told(comes(scribe, D(2027, 2, 10)))
    assert (on, before, after) == (D(2027, 3, 3), "due again", "lapsed")
    assert because == "Cold sauces: sign-off of 2 March 2026 counted to 2 March 2027."


def test_where_nothing_ends_nothing_changes(scribe: Scribe) -> None:
    """A lapsed cook stays lapsed until somebody writes something."""
    assert comes(scribe, D(2027, 3, 3)) is None


def test_a_bar_goes_on_the_birthday(scribe: Scribe) -> None:
    """18 on 5 May 2027: not allowed before (29 CFR 570.62), and the reason is what is reached."""
    scribe.content = small_content(cold_side={"minimum_age": 18, "warn_days": 0})
    on, before, after, because = told(comes(scribe, SIGNED))
    assert (on, before, after) == (D(2027, 3, 3), "not allowed", "not allowed")
    assert "sign-off of 2 March 2026 counted" in because
    on, before, after, because = told(comes(scribe, D(2027, 4, 1)))
    assert (on, before, after, because) == (D(2027, 5, 5), "not allowed", "ready to show", "18 years old or more.")


def test_an_edition_to_come_ends_a_clearance(scribe: Scribe) -> None:
    """Edition 2 asks for everything anew from 1 June; 30 days before, it is due again."""
    first = scribe.content.techniques["cold_sauces"].editions[0]
    scribe.content = with_technique(
        scribe.content, "cold_sauces", editions=(first, Edition(2, D(2026, 6, 1), "", sign_offs_hold=False))
    )
    assert told(comes(scribe, SIGNED))[:3] == (D(2026, 5, 1), "cleared", "due again")
    on, _, after, because = told(comes(scribe, D(2026, 5, 1)))
    assert (on, after) == (D(2026, 6, 1), "lapsed")
    assert "edition 2 has to be read anew" in because


def test_an_edition_that_speaks_from_its_day_is_seen_coming(scribe: Scribe) -> None:
    """A point missed in the sign-off is needed from 1 June: not due again before, but it changes then."""
    scribe.watched("ada", "cold_sauces", SIGNED + timedelta(days=1), missed=["boil"])
    scribe.entries = [entry for entry in scribe.entries if entry.id != "e3"]
    first = scribe.content.techniques["cold_sauces"].editions[0]
    scribe.content = with_technique(
        scribe.content, "cold_sauces", editions=(first, Edition(2, D(2026, 6, 1), "", True, ("boil",)))
    )
    assert told(comes(scribe, D(2026, 4, 1)))[:3] == (D(2026, 6, 1), "cleared", "lapsed")


def test_a_standard_to_come_is_seen_once_it_is_published(scribe: Scribe) -> None:
    """Published on 1 April for 1 June: the station asks for one technique more."""
    standards = Scribe()
    more = small_content(cold_side={"techniques": ("cold_sauces", "pasta_nesting")})
    for number, content, on, since in (
        (1, small_content(), D(2026, 1, 1), D(2026, 1, 1)),
        (2, more, D(2026, 4, 1), D(2026, 6, 1)),
    ):
        body = {"number": number, "since": since.isoformat(), "rules": rules_of(content), "texts": ""}
        standards.write("standard_published", "mara", on, body)
    first, second = standards.entries
    held = [replace(entry, seq=entry.seq + 1) for entry in scribe.entries]
    scribe.entries = [first, *held, replace(second, seq=99)]
    assert told(comes(scribe, D(2026, 3, 31)))[:3] == (D(2027, 1, 31), "cleared", "due again")
    assert told(comes(scribe, D(2026, 4, 1)))[:3] == (D(2026, 5, 1), "cleared", "due again")
    assert told(comes(scribe, D(2026, 5, 31)))[:3] == (D(2026, 6, 1), "due again", "lapsed")
