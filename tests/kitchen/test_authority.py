"""Who could sign on a day, by which entries: role, authority in writing, clearance or grant, not off the station.

DOE-STD-1012-92 and DOE-HDBK-1206-98, 5.1: tests of performance are given by those who are themselves qualified.
NAVEDTRA 14145, PQS: those who may sign are a limited number, designated in writing. DOE-HDBK-1001-96, 5: the
qualification of an instructor is renewed. 21 CFR 11.10(g): only authorized individuals can sign a record.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date, timedelta
from itertools import product
from typing import Any

import pytest

from tests.kitchen.kitchen_for_tests import FIRST, Scribe
from tests.printed import english, in_english
from trainer.kitchen.authority import EVERYTHING, MAY, authorities, latest_end
from trainer.kitchen.entitlement import (
    YES,
    Entitlement,
    entitled_by,
    may_sign,
    may_sign_at,
    signers,
)

D = date
ON = D(2026, 3, 2)
ALL = {"all": True}
LAST = D(2027, 1, 5)


def gives(scribe: Scribe, scope: dict[str, Any], since: date = FIRST, until: date = LAST, **more: Any) -> str:
    """Write an authority of Sous."""
    body = {"scope": scope, "from": since.isoformat(), "until": until.isoformat(), "may": list(MAY), **more}
    return scribe.write("authority_given", "sous", since, body)


def ends(scribe: Scribe, authority: str, when: date) -> str:
    """Write that an authority of Sous ends."""
    return scribe.write("authority_ended", "sous", when, {"authority": authority, "reason": ""})


def names(scribe: Scribe, station: str = "cold_side", on: date = ON) -> tuple[str, ...]:
    """Return who could sign at a station on a day."""
    return tuple(one.cook for one in signers(scribe.content.stations[station], scribe.day(on)))


@pytest.fixture
def scribe() -> Scribe:
    """Return a scribe with Ada a cook, Sous an assessor cleared on the cold side, Mara a manager.

    Sous was made an assessor by an entry of edition 2, so that nothing signs but what is written.
    """
    scribe = Scribe()
    scribe.joins("ada")
    scribe.joins("sous", FIRST, "cook", "assessor", edition=2)
    scribe.joins("mara", FIRST, "manager")
    scribe.clears_for_cold_side("sous", FIRST)
    return scribe


def test_the_role_alone_signs_nothing(scribe: Scribe) -> None:
    """The reason names what lacks; with the authority it is a yes."""
    found = may_sign("sous", "ada", "cold_sauces", "cold_side", scribe.day(ON))
    words = "Sous has no authority in writing to sign at Cold side today."
    nobody = "Nobody today: a manager can open Cold side for an assessor."
    assert in_english(found) == Entitlement(False, words, nobody)
    assert names(scribe) == ()
    gives(scribe, ALL)
    assert may_sign("sous", "ada", "cold_sauces", "cold_side", scribe.day(ON)) == YES


def test_the_answer_names_the_entries_and_the_last_day(scribe: Scribe) -> None:
    """Authority, joining, reading and sign-off; the sign-off is good for 12 months, the authority for less."""
    given = gives(scribe, ALL, until=D(2026, 9, 30))
    (one,) = signers(scribe.content.stations["cold_side"], scribe.day(ON))
    assert (one.cook, one.until, one.techniques, one.shifts) == ("sous", D(2026, 9, 30), ("cold_sauces",), True)
    kinds = {entry.id: entry.kind for entry in scribe.entries}
    assert one.because[0] == given
    assert sorted(kinds[entry] for entry in one.because) == [
        "authority_given", "cook_joined", "practical_watched", "technique_read",
    ]  # fmt: skip
    assert entitled_by("sous", "cold_side", "cold_sauces", scribe.day(ON)) == one.because


def test_of_a_grant_the_answer_names_the_grant(scribe: Scribe) -> None:
    """At a station nobody is cleared on, to the last day of the grant."""
    gives(scribe, ALL)
    grant = scribe.opens("sous", "pasta_room", FIRST, D(2026, 3, 31))
    (one,) = signers(scribe.content.stations["pasta_room"], scribe.day(ON))
    assert (one.cook, one.until, grant in one.because) == ("sous", D(2026, 3, 31), True)
    assert names(scribe, "pasta_room", D(2026, 4, 1)) == ()


@pytest.mark.parametrize(
    ("on", "may"), [(FIRST, False), (D(2026, 2, 1), True), (D(2026, 8, 31), True), (D(2026, 9, 1), False)]
)
def test_an_authority_counts_from_its_first_to_its_last_day(scribe: Scribe, on: date, may: bool) -> None:
    """Both counted; the day before and the day after not."""
    gives(scribe, ALL, D(2026, 2, 1), D(2026, 8, 31))
    assert (names(scribe, on=on) == ("sous",)) == may
    assert may_sign_at("sous", "ada", "cold_side", scribe.day(on)).may == may


def test_a_role_of_edition_1_signs_everywhere_without_end_until_it_is_ended(scribe: Scribe) -> None:
    """Nothing else was written then. A role that is kept by a later entry keeps it, one that is taken away loses it."""
    old = scribe.joins("olga", FIRST, "assessor")
    scribe.clears_for_cold_side("olga", FIRST)
    scribe.write("cook_changed", "olga", FIRST, {"roles": ["cook", "assessor"]}, edition=2)
    (one,) = authorities(scribe.progress().record("olga").as_of(ON), ON)
    assert (one.entry, one.scope, one.until) == (old, EVERYTHING, None)
    assert names(scribe) == ("olga",)
    lost = D(2026, 3, 10)
    scribe.write("cook_changed", "olga", lost, {"roles": ["cook"]}, edition=2)
    scribe.write("cook_changed", "olga", lost + timedelta(1), {"roles": ["assessor"]}, edition=2)
    assert names(scribe, on=lost - timedelta(1)) == ("olga",)
    assert names(scribe, on=lost + timedelta(1)) == ()


def test_the_authority_that_lies_in_an_old_role_can_be_ended(scribe: Scribe) -> None:
    """It is named by the entry that gave the role."""
    old = scribe.joins("olga", FIRST, "assessor")
    scribe.clears_for_cold_side("olga", FIRST)
    scribe.write("authority_ended", "olga", ON, {"authority": old, "reason": ""})
    assert names(scribe, on=ON - timedelta(1)) == ("olga",)
    assert names(scribe, on=ON) == ()


def test_an_authority_voided_counts_no_more(scribe: Scribe) -> None:
    """From the day of the void."""
    given = gives(scribe, ALL)
    scribe.voids(given, ON)
    assert (names(scribe, on=ON - timedelta(1)), names(scribe)) == (("sous",), ())


def test_one_for_techniques_signs_their_practicals_and_no_shift(scribe: Scribe) -> None:
    """At every station that asks for them; a shift needs the station."""
    gives(scribe, {"techniques": ["cold_sauces"]})
    (one,) = signers(scribe.content.stations["cold_side"], scribe.day(ON))
    assert (one.techniques, one.shifts) == (("cold_sauces",), False)
    assert not may_sign_at("sous", "ada", "cold_side", scribe.day(ON)).may


def test_one_for_shifts_alone_signs_no_practical(scribe: Scribe) -> None:
    """`may` narrows it further."""
    gives(scribe, ALL, may=["beside"])
    day = scribe.day(ON)
    assert may_sign_at("sous", "ada", "cold_side", day).may
    assert not may_sign("sous", "ada", "cold_sauces", "cold_side", day).may


def test_a_date_24_months_later() -> None:
    """Two years to the day; from 29 February to 28 February."""
    assert (latest_end(D(2026, 3, 2)), latest_end(D(2028, 2, 29))) == (D(2028, 3, 2), D(2030, 2, 28))


SCOPES: tuple[tuple[str, dict[str, Any], bool], ...] = (
    ("everything", ALL, True),
    ("this station", {"stations": ["grill", "cold_side"]}, True),
    ("this technique", {"techniques": ["cold_sauces"]}, True),
    ("other station", {"stations": ["pasta_room"]}, False),
    ("other technique", {"techniques": ["pasta_nesting"]}, False),
)
BEFALLS: Sequence[tuple[str, Callable[[Scribe, str], object], bool]] = (
    ("nothing", lambda s, a: None, True),
    ("authority ended", lambda s, a: ends(s, a, ON), False),
    ("taken off it", lambda s, a: s.stands_down("sous", "cold_side", ON), False),
    ("taken off another", lambda s, a: s.stands_down("sous", "pasta_room", ON), True),
    ("stopped", lambda s, a: s.watched("sous", "cold_sauces", ON, "stopped", started="2026-03-02T08:00:00Z"), False),
    ("no role", lambda s, a: s.write("cook_changed", "sous", ON, {"roles": ["cook"]}, edition=2), False),
    ("not on the roster", lambda s, a: s.leaves("sous", ON), False),
)
GROUNDS: Sequence[tuple[str, Callable[[Scribe], object], bool]] = (
    ("cleared", lambda s: s.clears_for_cold_side("sous", FIRST), True),
    ("granted", lambda s: s.opens("sous", "cold_side", FIRST, D(2026, 12, 31)), True),
    ("neither", lambda s: s.opens("sous", "pasta_room", FIRST, D(2026, 12, 31)), False),
)


@pytest.mark.parametrize("scope", SCOPES, ids=lambda case: case[0])
@pytest.mark.parametrize("befalls", BEFALLS, ids=lambda case: case[0])
@pytest.mark.parametrize("ground", GROUNDS, ids=lambda case: case[0])
def test_the_whole_matrix(scope: Any, befalls: Any, ground: Any) -> None:
    """A signature takes all of it at once; whoever may sign is in the answer of the day, and nobody else.

    The day before, what befell had not befallen. One's own work is nobody's to sign.
    """
    scribe = Scribe()
    scribe.joins("ada")
    scribe.joins("sous", FIRST, "cook", "assessor", edition=2)
    ground[1](scribe)
    given = gives(scribe, scope[1])
    befalls[1](scribe, given)
    for on, counts in ((ON - timedelta(1), scope[2] and ground[2]), (ON, scope[2] and ground[2] and befalls[2])):
        day = scribe.day(on)
        found = may_sign("sous", "ada", "cold_sauces", "cold_side", day)
        assert found.may == counts, (on, english(found.reason))
        assert ("sous" in names(scribe, on=on)) == counts
        assert not may_sign("sous", "sous", "cold_sauces", "cold_side", day).may


def test_two_authorities_count_beside_each_other(scribe: Scribe) -> None:
    """Any pair: what one of them covers is covered."""
    for one, other in product(SCOPES, SCOPES):
        both = Scribe(entries=list(scribe.entries), people=dict(scribe.people))
        gives(both, one[1])
        gives(both, other[1])
        assert (names(both) == ("sous",)) == (one[2] or other[2])


def test_a_past_day_is_asked_as_it_was_known_then_and_as_it_is_known_now(scribe: Scribe) -> None:
    """A sign-off of Sous voided "never" in April: on 2 March Sous could sign as known then, not as now."""
    gives(scribe, ALL)
    sign_off = next(entry.id for entry in scribe.entries if entry.kind == "practical_watched")
    body = {"entry": sign_off, "counts": "never", "reason": "another cook was meant"}
    scribe.write("entry_voided", "sous", D(2026, 4, 10), body)
    station = scribe.content.stations["cold_side"]
    for known, found in ((None, 1), (D(2026, 4, 9), 1), (D(2026, 4, 10), 0)):
        assert len(signers(station, replace(scribe.day(ON), known=known))) == found
