"""A stop for safety: it stays, whatever is seen or signed after it, until a manager releases it with a reason."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from tests.actions.crew import EVERY_POINT, TODAY, Crew, refused, saved
from tests.kitchen.kitchen_for_tests import with_technique
from tests.printed import english
from trainer.actions.outcome import Outcome
from trainer.actions.releasing import Release, release_stop
from trainer.actions.watching import (
    Look,
    Practical,
    Watch,
    ask_to_be_watched,
    drop_practical,
    find_practical,
    see_point,
    start_practical,
    waiting,
    watched_by_others,
)
from trainer.kitchen.book import Entry
from trainer.kitchen.technique import Edition

UNSAFE = Look("guard_on", "unsafe", (), "hand in the die")
STOP_WORDS = "Cold sauces: stopped for safety on 2 March 2026 at “guard on before power”."
RELEASE_WORDS = "A manager releases the stop, with a reason; then the cook is watched anew."


@pytest.fixture
def two(crew: Crew) -> Crew:
    """Return the crew with a second assessor cleared on the cold side."""
    crew.joins("ines", "cook", "assessor")
    crew.clears("ines")
    crew.later(minutes=1)
    return crew


def stopped(crew: Crew, by: str = "sous") -> Entry:
    """Stop Ada for safety, and return the entry."""
    practical = crew.begins_practical(by=by)
    crew.sees(practical, UNSAFE)
    crew.later(minutes=1)
    return saved(crew.signs(practical))


def release(crew: Crew, stop: str, by: str = "mara", what: str = "shown again", **more: Any) -> Outcome:
    """Release a stop, after Sous has shown it for twenty minutes."""
    shown = Release(stop, more.pop("shown_by", "sous"), what, more.pop("minutes", 20), **more)
    return release_stop(crew.k, by=by, release=shown, now=crew.now, key=crew.key())


def on(crew: Crew) -> date:
    """Return today."""
    return crew.k.today(crew.now)


def state(crew: Crew, cook: str = "ada") -> str:
    """Return a person's state on the cold side today."""
    return next(row.clearances[1].state for row in crew.k.board(on(crew)).rows if row.cook.id == cook)


def begins(crew: Crew, by: str) -> Practical:
    """Let an assessor begin to watch Ada at cold sauces, and return it."""
    watch = Watch("ada", "cold_sauces")
    begun = start_practical(crew.k, by=by, watch=watch, now=crew.now, key=crew.key())
    assert isinstance(begun, Practical), begun
    return begun


def test_unsafe_stays_when_the_point_is_seen_again(crew: Crew) -> None:
    """Neither meets it nor not yet takes its place; said again with another note it is unsafe still."""
    practical = crew.begins_practical()
    crew.sees(practical, UNSAFE)
    for tick in ("meets it", "not yet"):
        look = Look("guard_on", tick)
        seen = see_point(crew.k, by="sous", practical=practical.id, look=look, now=crew.now)
        assert english(refused(seen).reason) == "You saw something unsafe here. That stays: sign the stop."
    crew.sees(practical, Look("guard_on", "unsafe", (), "hand in the die, twice"))
    found = find_practical(crew.k, practical.id)
    assert found is not None
    assert (found.unsafe, found.verdict.word) == (("guard_on",), "stopped")
    assert found.seen["guard_on"].note == "hand in the die, twice"


def test_a_stop_is_not_put_away_unsigned(crew: Crew) -> None:
    """What was seen is signed."""
    practical = crew.begins_practical()
    crew.sees(practical, UNSAFE)
    found = refused(drop_practical(crew.k, by="sous", practical=practical.id))
    assert english(found.reason) == "You saw something unsafe, so this cannot be put away. Sign the stop."
    assert find_practical(crew.k, practical.id) is not None


def test_a_stop_takes_the_cook_off_at_once_and_says_when_it_was_begun(crew: Crew) -> None:
    """No entry of its own: the stop is enough."""
    crew.clears("ada")
    assert state(crew) == "cleared"
    began = crew.now
    entry = stopped(crew)
    assert (entry.body["verdict"], entry.body["started"]) == ("stopped", "2026-03-02T17:00:00.000Z")
    assert began < entry.at
    assert state(crew) == "stood down"


def test_a_sign_off_begun_before_a_stop_does_not_wipe_it(two: Crew) -> None:
    """Ines began first and saw every point met; Sous stopped Ada; Ines is refused, with by whom and when."""
    open_one = two.begins_practical(by="ines")
    two.sees(open_one)
    two.later(minutes=4)
    stopped(two)
    two.later(minutes=1)
    found = refused(two.signs(open_one))
    assert english(found.reason) == (
        "Sous signed a practical of Ada in this technique on 2 March 2026 at 12:06: stopped."
    )
    assert "put it away" in english(found.who_can)
    assert state(two) == "stood down"
    assert find_practical(two.k, open_one.id) is not None


def test_another_assessor_a_minute_later_cannot_begin(two: Crew) -> None:
    """Neither begin a practical, nor be asked for one; the words say what comes first."""
    stopped(two)
    two.later(minutes=1)
    watch = Watch("ada", "cold_sauces", "cold_side")
    found = refused(start_practical(two.k, by="ines", watch=watch, now=two.now, key=two.key()))
    assert (english(found.reason), english(found.who_can)) == (STOP_WORDS, RELEASE_WORDS)
    asked = ask_to_be_watched(two.k, cook="ada", technique="cold_sauces", now=two.now, key=two.key())
    assert english(refused(asked).reason) == STOP_WORDS


def test_whoever_asked_is_not_on_the_list_while_a_stop_stands(crew: Crew) -> None:
    """Asked after the stop was written by an older program: nobody is sent to watch."""
    crew.reads("ada", "cold_sauces")
    said = {"points": [], "verdict": "stopped", "reasons": [], "note": ""}
    body = {"technique": "cold_sauces", "edition": 1, "station": "cold_side", **said}
    crew.write("practical_watched", "ada", body, by="sous")
    crew.write("watch_asked", "ada", {"technique": "cold_sauces"})
    assert waiting(crew.k, TODAY) == ()


def test_a_released_stop_needs_a_practical_begun_after_it(two: Crew) -> None:
    """The sign-off before it does not come back; the open one of before stays refused; a new one clears."""
    two.clears("ada")
    two.later(minutes=1)
    open_one = two.begins_practical(by="ines")
    two.sees(open_one)
    entry = stopped(two)
    two.later(minutes=1)
    released = saved(release(two, entry.id))
    taught = {"by": "sous", "what": "shown again", "minutes": 20}
    assert released.body == {"stop": entry.id, "taught": taught, "retry_from": "2026-03-03"}
    assert state(two) == "ready to show"
    assert "so it cannot be signed" in english(refused(two.signs(open_one)).who_can)
    assert drop_practical(two.k, by="ines", practical=open_one.id) is None
    two.later(days=1)
    again = begins(two, "ines")
    two.sees(again)
    two.later(minutes=1)
    saved(two.signs(again))
    assert state(two) == "cleared"


def test_a_retry_waits_for_the_day_after_the_release(two: Crew) -> None:
    """10 CFR 55.35(a): a retest waits, and says what training came first. The manager may name a later day only."""
    entry = stopped(two)
    two.later(minutes=1)
    found = refused(release(two, entry.id, retry_from=TODAY))
    assert (found.field, english(found.reason)) == (
        "retry_from", "2 March 2026 is too early: after a stop nobody is watched again before 3 March 2026.",
    )  # fmt: skip
    saved(release(two, entry.id, retry_from=TODAY + timedelta(days=3)))
    words = "Stopped for safety lately. To be watched again from 5 March 2026."
    for _ in range(3):
        asked = ask_to_be_watched(two.k, cook="ada", technique="cold_sauces", now=two.now, key=two.key())
        assert english(refused(asked).reason) == words
        watch = Watch("ada", "cold_sauces", "cold_side")
        found = refused(start_practical(two.k, by="ines", watch=watch, now=two.now, key=two.key()))
        assert english(found.reason) == words
        two.later(days=1)
    assert begins(two, "ines").station == "cold_side"


@pytest.mark.parametrize(
    ("more", "field", "words"),
    [
        ({"by": "ada"}, "by", "Nobody teaches themselves: write down who showed it."),
        ({"by": "olga"}, "by", "olga is not on the roster."),
        ({"minutes": 0}, "minutes", "0 minutes: from 1 to 480 are taken."),
        ({"minutes": 481}, "minutes", "481 minutes: from 1 to 480 are taken."),
    ],
)
def test_a_release_says_who_showed_what(crew: Crew, more: dict[str, Any], field: str, words: str) -> None:
    """Another person on the roster, for a time somebody can have taken."""
    entry = stopped(crew)
    who = {"shown_by" if name == "by" else name: value for name, value in more.items()}
    found = refused(release(crew, entry.id, **who))
    assert (found.field, english(found.reason)) == (field, words)


@pytest.mark.parametrize(
    ("by", "what", "words"),
    [
        ("sous", "x", "Sous is no manager."),
        ("mara", " ", "The text is blank."),
        ("mara", "x" * 501, "The text has 501 characters; it may have 500."),
    ],
)
def test_a_stop_is_released_by_a_manager_with_what_was_shown(crew: Crew, by: str, what: str, words: str) -> None:
    """Nobody else, and not in silence."""
    entry = stopped(crew)
    assert english(refused(release(crew, entry.id, by=by, what=what)).reason) == words
    assert state(crew) == "stood down"


def test_no_manager_releases_their_own_stop(crew: Crew) -> None:
    """Another manager does."""
    practical = crew.begins_practical("nils")
    crew.sees(practical, UNSAFE)
    entry = saved(crew.signs(practical))
    assert english(refused(release(crew, entry.id, by="nils")).who_can) == "Another manager can do this."
    saved(release(crew, entry.id, by="mara"))


def test_only_a_stop_that_stands_is_released(crew: Crew) -> None:
    """Once; and neither a sign-off nor an entry that is not there, nor of a cook who left."""
    entry = stopped(crew)
    signed = next(e for e in crew.entries("practical_watched") if e.cook == "sous")
    assert english(refused(release(crew, "nothing")).reason) == "There is no stop “nothing”."
    assert "does not stand" in english(refused(release(crew, signed.id)).reason)
    saved(release(crew, entry.id))
    assert "does not stand" in english(refused(release(crew, entry.id)).reason)
    crew.write("cook_left", "ada", {"reason": "moved"})
    assert english(refused(release(crew, entry.id)).reason) == "Ada is not on the roster."


def test_who_watches_already_is_known(two: Crew) -> None:
    """Of the same cook and technique, by others, since when; one's own and others' cooks are not named."""
    first = two.begins_practical(by="sous")
    two.begins_practical("ben", by="sous")
    two.later(minutes=3)
    begins(two, "ines")
    found = watched_by_others(two.k, by="ines", cook="ada", technique="cold_sauces")
    assert [(one.by, one.started) for one in found] == [("sous", two.now - timedelta(minutes=3))]
    assert [one.id for one in found] == [first.id]
    assert watched_by_others(two.k, by="ines", cook="ada", technique="pasta_nesting") == ()


def test_of_two_practicals_the_first_to_be_signed_counts(two: Crew) -> None:
    """Both see every point met; the second is refused with who signed and when, and loses nothing."""
    first, second = two.begins_practical(by="sous"), two.begins_practical(by="ines")
    two.sees(first)
    two.sees(second)
    two.later(minutes=9)
    saved(two.signs(second))
    assert english(refused(two.signs(first)).reason) == (
        "Ines signed a practical of Ada in this technique on 2 March 2026 at 12:10: meets it."
    )
    assert find_practical(two.k, first.id) is not None


def test_a_stop_is_signed_even_when_another_signed_first(two: Crew) -> None:
    """A danger seen is written down: it ends the sign-off that came before it."""
    first, second = two.begins_practical(by="sous"), two.begins_practical(by="ines")
    two.sees(first, UNSAFE)
    two.sees(second)
    saved(two.signs(second))
    assert state(two) == "cleared"
    saved(two.signs(first))
    assert state(two) == "stood down"


def test_a_draft_of_an_older_program_is_held_against_the_clock(two: Crew) -> None:
    """It does not say after which entry it was begun: the moment does."""
    practical = two.begins_practical(by="ines")
    two.sees(practical)
    draft = two.k.file.drafts.get(practical.id)
    assert draft is not None
    body = {name: value for name, value in draft.body.items() if name != "after"}
    two.k.file.drafts.put(replace(draft, body=body))
    two.later(minutes=1)
    stopped(two)
    assert "stopped" in english(refused(two.signs(practical)).reason)


def test_a_stop_is_signed_whatever_was_lost_meanwhile(crew: Crew) -> None:
    """Another edition, the assessor taken off the station, the cook gone: the danger was seen all the same."""
    practical = crew.begins_practical()
    crew.sees(practical, *EVERY_POINT)
    crew.sees(practical, UNSAFE)
    crew.write("stood_down", "sous", {"station": "cold_side", "reason": "x"})
    crew.write("cook_left", "ada", {"reason": "moved"})
    editions = (*crew.k.content.techniques["cold_sauces"].editions, Edition(2, TODAY, "New oil.", True))
    crew.k.content = with_technique(crew.k.content, "cold_sauces", editions=editions)
    assert refused(crew.signs(practical, proved_at=None)).field == "secret"
    assert saved(crew.signs(practical)).body["verdict"] == "stopped"


def test_an_assessor_taken_off_a_station_signs_at_another_that_asks(crew: Crew) -> None:
    """Where no station is named, the practical counts at the first at which the assessor may sign."""
    paper = {"certificate": "first_aid", "number": "7", "issued": "2026-01-01", "expires": None}
    crew.write("certificate_shown", "sous", paper)
    crew.write("stood_down", "sous", {"station": "cold_side", "reason": "x"})
    crew.reads("ada", "cold_sauces")
    at_cold = Watch("ada", "cold_sauces", "cold_side")
    found = refused(start_practical(crew.k, by="sous", watch=at_cold, now=crew.now, key=crew.key()))
    assert english(found.reason) == "Sous is off the station today: Cold side."
    assert begins(crew, "sous").station == "grill"
    crew.write("stood_down", "sous", {"station": "grill", "reason": "x"})
    nowhere = Watch("ada", "cold_sauces")
    found = refused(start_practical(crew.k, by="sous", watch=nowhere, now=crew.now, key=crew.key()))
    assert english(found.reason) == "Sous is off the station today: Cold side or Grill."
