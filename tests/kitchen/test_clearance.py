"""Clearance: what holds, what is missing, until when, and whether there ever was one."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime

import pytest

from tests.kitchen.kitchen_for_tests import FIRST, Scribe, asking, small_content, technique, with_technique
from tests.printed import all_english, english
from trainer.kitchen.clearance import Clearance, clearances_of, technique_standing
from trainer.kitchen.technique import Edition

D = date
SIGNED = D(2026, 3, 2)


@pytest.fixture
def scribe() -> Scribe:
    """Return a scribe who has put Ada on the roster."""
    scribe = Scribe()
    scribe.joins("ada", born=D(1990, 5, 5))
    return scribe


@pytest.fixture
def cleared(scribe: Scribe) -> Scribe:
    """Return a scribe who has cleared Ada for both stations on 2 March 2026."""
    scribe.clears_for_pasta_room("ada", SIGNED)
    scribe.clears_for_cold_side("ada", SIGNED)
    return scribe


def what_is_missing(found: Clearance) -> list[str]:
    """Return the kinds of things missing."""
    return [missing.what for missing in found.missing]


def test_somebody_with_everything_is_cleared(cleared: Scribe) -> None:
    """State, the last good day, and nothing missing: sign-off and quiz are good for 12 months, the last day counted."""
    found = cleared.clearance("ada", "pasta_room", SIGNED)
    assert (found.state, found.until, found.missing) == ("cleared", D(2027, 3, 2), ())
    assert found.is_cleared


def test_a_clearance_names_the_entries_that_prove_it(cleared: Scribe) -> None:
    """Joining, two readings, a quiz, two sign-offs, two shifts, one certificate: each once."""
    found = cleared.clearance("ada", "pasta_room", SIGNED)
    kinds = sorted(entry.kind for entry in cleared.entries if entry.id in found.proof)
    assert kinds == [
        "certificate_shown",
        "cook_joined",
        "practical_watched",
        "practical_watched",
        "quiz_sat",
        "shift_worked",
        "shift_worked",
        "technique_read",
        "technique_read",
    ]
    assert len(set(found.proof)) == len(found.proof)


def test_each_thing_held_says_since_when_until_when_and_why(cleared: Scribe) -> None:
    """The age from the birthday with no end, the quiz for its 12 months."""
    held = {each.what: each for each in cleared.clearance("ada", "pasta_room", SIGNED).held}
    assert (held["age"].since, held["age"].until, held["age"].proof) == (D(2008, 5, 5), None, ())
    assert (held["quiz:fresh_pasta"].since, held["quiz:fresh_pasta"].until) == (SIGNED, D(2027, 3, 2))
    assert list(held) == [
        "age",
        "certificate:food_handler",
        "reading:fresh_pasta",
        "quiz:fresh_pasta",
        "practical:fresh_pasta",
        "reading:pasta_nesting",
        "practical:pasta_nesting",
        "shifts",
    ]


def test_every_missing_thing_is_listed_with_the_next_act(scribe: Scribe) -> None:
    """A person who has done nothing reads the whole way, in words."""
    found = scribe.clearance("ada", "pasta_room", SIGNED)
    assert found.state == "not started"
    assert what_is_missing(found) == [
        "certificate:food_handler",
        "reading:fresh_pasta",
        "quiz:fresh_pasta",
        "practical:fresh_pasta",
        "reading:pasta_nesting",
        "practical:pasta_nesting",
        "shifts",
    ]
    texts = [missing.text for missing in found.missing]
    assert "Food handler card: none shown." in all_english(texts)
    assert "Supervised shifts: 0 of 2 worked." in all_english(texts)
    assert "Fresh pasta: edition 1 not read." in all_english(texts)
    assert "Fresh pasta: quiz not passed." in all_english(texts)
    assert "Fresh pasta: no sign-off." in all_english(texts)
    assert all(missing.next_act for missing in found.missing)


def test_the_last_day_counts_and_the_day_after_does_not(cleared: Scribe) -> None:
    """Good to the end of 2 March 2027; lapsed on the 3rd, and it says when it ended."""
    assert cleared.clearance("ada", "pasta_room", D(2027, 3, 2)).is_cleared
    after = cleared.clearance("ada", "pasta_room", D(2027, 3, 3))
    assert (after.state, after.until) == ("lapsed", D(2027, 3, 2))
    assert "Fresh pasta: quiz passed on 2 March 2026, good to 2 March 2027." in [english(m.text) for m in after.missing]
    assert "Fresh pasta: sign-off of 2 March 2026 counted to 2 March 2027." in [english(m.text) for m in after.missing]
    assert english(after.reason) == english(after.missing[0].text)


@pytest.mark.parametrize(("on", "state"), [(D(2027, 1, 30), "cleared"), (D(2027, 1, 31), "due again")])
def test_a_clearance_that_ends_within_thirty_days_is_due_again(cleared: Scribe, on: date, state: str) -> None:
    """31 January to 2 March 2027 is 30 days: due again, and still cleared."""
    found = cleared.clearance("ada", "pasta_room", on)
    assert (found.state, found.is_cleared, found.until) == (state, True, D(2027, 3, 2))


def test_a_clearance_without_end_is_never_due_again(scribe: Scribe) -> None:
    """Where nothing ends there is no last day."""
    endless = technique("cold_sauces", sign_off_months=12 * 9000)
    scribe.content = with_technique(scribe.content, "cold_sauces", sign_off_months=endless.sign_off_months)
    scribe.clears_for_cold_side("ada", SIGNED)
    found = scribe.clearance("ada", "cold_side", D(2060, 1, 1))
    assert (found.state, found.until) == ("cleared", None)


def test_a_past_day_is_answered_as_the_book_said_then(cleared: Scribe) -> None:
    """The day before she was signed off she was on the roster and no more, whatever came after."""
    assert cleared.clearance("ada", "pasta_room", D(2026, 3, 1)).state == "not started"
    cleared.stands_down("ada", "pasta_room", D(2026, 6, 1))
    assert cleared.clearance("ada", "pasta_room", D(2026, 5, 31)).state == "cleared"


def test_a_void_counts_from_the_day_it_is_recorded(scribe: Scribe) -> None:
    """Who was cleared on the 9th stays cleared on the 9th; from the 10th the entry never was."""
    sign_off = scribe.clears_for_cold_side("ada", SIGNED)
    scribe.voids(sign_off, D(2026, 3, 10))
    assert scribe.clearance("ada", "cold_side", D(2026, 3, 9)).state == "cleared"
    assert scribe.clearance("ada", "cold_side", D(2026, 3, 10)).state == "ready to show"


def test_a_void_of_a_standing_down_puts_the_cook_back(cleared: Scribe) -> None:
    """A standing down written for the wrong cook is voided, and counts for nothing."""
    entry = cleared.stands_down("ada", "pasta_room", D(2026, 4, 1))
    cleared.voids(entry, D(2026, 4, 2))
    assert cleared.clearance("ada", "pasta_room", D(2026, 4, 1)).state == "stood down"
    assert cleared.clearance("ada", "pasta_room", D(2026, 4, 2)).state == "cleared"


def test_the_states_on_the_way_to_a_clearance(scribe: Scribe) -> None:
    """Not started, studying; ready to show with nothing but a practical left, supervised with nothing but shifts."""
    states = [scribe.clearance("ada", "pasta_room", FIRST).state]
    steps: list[Callable[[], str]] = [
        lambda: scribe.reads("ada", "fresh_pasta", FIRST),
        lambda: scribe.sits("ada", "fresh_pasta", FIRST),
        lambda: scribe.watched("ada", "fresh_pasta", FIRST),
        lambda: scribe.reads("ada", "pasta_nesting", FIRST),
        lambda: scribe.works("ada", "pasta_room", FIRST),
        lambda: scribe.shows("ada", "food_handler", FIRST, FIRST, None),
        lambda: scribe.watched("ada", "pasta_nesting", FIRST),
        lambda: scribe.works("ada", "pasta_room", FIRST),
    ]
    for step in steps:
        step()
        states.append(scribe.clearance("ada", "pasta_room", FIRST).state)
    assert states == [
        "not started",
        "studying",
        "studying",
        "studying",
        "studying",
        "studying",
        "studying",
        "supervised",
        "cleared",
    ]


def test_a_shared_quiz_makes_nobody_ready_to_show_at_a_station(scribe: Scribe) -> None:
    """One technique read and its quiz passed, the rest of the station to come: studying, though it may be watched."""
    scribe.reads("ada", "fresh_pasta", FIRST)
    scribe.sits("ada", "fresh_pasta", FIRST)
    found = scribe.clearance("ada", "pasta_room", FIRST)
    assert (found.state, len(found.missing)) == ("studying", 5)
    pasta = scribe.content.techniques["fresh_pasta"]
    assert technique_standing("ada", pasta, scribe.progress(), FIRST).state == "ready to show"


def test_a_station_is_ready_to_show_with_nothing_but_practicals_left(scribe: Scribe) -> None:
    """Two practicals left of the pasta room, and no more; a card that is missing is more."""
    for what in ("fresh_pasta", "pasta_nesting"):
        scribe.reads("ada", what, FIRST)
    scribe.sits("ada", "fresh_pasta", FIRST)
    scribe.works("ada", "pasta_room", FIRST)
    scribe.works("ada", "pasta_room", FIRST)
    assert scribe.clearance("ada", "pasta_room", FIRST).state == "studying"
    scribe.shows("ada", "food_handler", FIRST, FIRST, None)
    found = scribe.clearance("ada", "pasta_room", FIRST)
    assert (found.state, what_is_missing(found)) == (
        "ready to show",
        ["practical:fresh_pasta", "practical:pasta_nesting"],
    )


def test_a_paper_that_is_missing_makes_nobody_supervised(scribe: Scribe) -> None:
    """All techniques signed, the card and a shift left: not supervised before the card is there."""
    scribe.reads("ada", "fresh_pasta", FIRST)
    scribe.sits("ada", "fresh_pasta", FIRST)
    scribe.reads("ada", "pasta_nesting", FIRST)
    scribe.watched("ada", "fresh_pasta", FIRST)
    scribe.watched("ada", "pasta_nesting", FIRST)
    assert scribe.clearance("ada", "pasta_room", FIRST).state == "studying"
    scribe.shows("ada", "food_handler", FIRST, FIRST, None)
    assert scribe.clearance("ada", "pasta_room", FIRST).state == "supervised"


def test_a_failed_quiz_is_no_quiz_but_is_studying(scribe: Scribe) -> None:
    """Only a pass counts."""
    scribe.sits("ada", "fresh_pasta", FIRST, passed=False)
    found = scribe.clearance("ada", "pasta_room", FIRST)
    assert found.state == "studying"
    assert "quiz:fresh_pasta" in what_is_missing(found)


def test_a_later_not_yet_leaves_a_sign_off_as_it_was(cleared: Scribe) -> None:
    """Watched again and not yet there: the earlier sign-off runs to its end."""
    cleared.watched("ada", "fresh_pasta", D(2026, 4, 1), "not yet")
    assert cleared.clearance("ada", "pasta_room", D(2026, 4, 1)).state == "cleared"


def test_stopped_ends_a_sign_off_from_that_day_until_the_next_meets_it(cleared: Scribe) -> None:
    """In a book of an older program: stopped on 1 April, off that day; meets it on the 5th: cleared again from then."""
    cleared.watched("ada", "pasta_nesting", D(2026, 4, 1), "stopped")
    cleared.watched("ada", "pasta_nesting", D(2026, 4, 5))
    assert cleared.clearance("ada", "pasta_room", D(2026, 3, 31)).state == "cleared"
    stopped = cleared.clearance("ada", "pasta_room", D(2026, 4, 1))
    assert (stopped.state, stopped.until) == ("stood down", D(2026, 3, 31))
    assert [english(m.text) for m in stopped.missing] == ["Pasta nesting: stopped for safety on 1 April 2026."]
    assert cleared.clearance("ada", "pasta_room", D(2026, 4, 5)).state == "cleared"


def test_stopped_on_the_day_of_a_sign_off_leaves_no_day(scribe: Scribe) -> None:
    """Signed off at noon, stopped in the evening: never cleared."""
    scribe.clears_for_cold_side("ada", SIGNED)
    scribe.watched("ada", "cold_sauces", datetime(2026, 3, 2, 20, tzinfo=UTC), "stopped")
    found = scribe.clearance("ada", "cold_side", SIGNED)
    assert (found.state, found.until) == ("stood down", None)


def test_not_yet_is_named_when_there_is_no_sign_off(scribe: Scribe) -> None:
    """What was seen last is said."""
    scribe.watched("ada", "cold_sauces", SIGNED, "not yet")
    texts = [m.text for m in scribe.clearance("ada", "cold_side", SIGNED).missing]
    assert "Cold sauces: not yet, watched on 2 March 2026." in all_english(texts)


def test_an_edition_whose_sign_offs_hold_changes_nothing(cleared: Scribe) -> None:
    """A corrected word in edition 2 asks nobody to be watched again."""
    editions = (*cleared.content.techniques["cold_sauces"].editions, Edition(2, D(2026, 6, 1), "A word.", True))
    cleared.content = with_technique(cleared.content, "cold_sauces", editions=editions)
    assert cleared.clearance("ada", "cold_side", D(2026, 6, 1)).state == "cleared"


def test_an_edition_whose_sign_offs_do_not_hold_asks_for_everything_anew(cleared: Scribe) -> None:
    """Cleared to the day before the new edition; then reading and sign-off are both missing."""
    editions = (*cleared.content.techniques["cold_sauces"].editions, Edition(2, D(2026, 6, 1), "New oil.", False))
    cleared.content = with_technique(cleared.content, "cold_sauces", editions=editions)
    assert cleared.clearance("ada", "cold_side", D(2026, 5, 31)).until == D(2026, 5, 31)
    after = cleared.clearance("ada", "cold_side", D(2026, 6, 1))
    assert (after.state, after.until) == ("lapsed", D(2026, 5, 31))
    assert [english(m.text) for m in after.missing] == [
        "Cold sauces: read in edition 1; edition 2 has to be read anew.",
        "Cold sauces: sign-off of 2 March 2026 counted to 31 May 2026.",
    ]


def test_a_sign_off_on_an_edition_that_was_already_replaced_never_counts(scribe: Scribe) -> None:
    """Edition 1 signed after edition 2 asked for everything again."""
    editions = (*scribe.content.techniques["cold_sauces"].editions, Edition(2, D(2026, 1, 1), "New oil.", False))
    scribe.content = with_technique(scribe.content, "cold_sauces", editions=editions)
    scribe.clears_for_cold_side("ada", SIGNED)
    found = scribe.clearance("ada", "cold_side", SIGNED)
    assert found.state == "studying"
    assert "Cold sauces: the sign-off no longer counts." in [english(m.text) for m in found.missing]


def test_a_proof_on_an_edition_no_longer_kept_never_counts(scribe: Scribe) -> None:
    """Content that begins with edition 3, which asks for everything again, honours no proof on edition 1."""
    scribe.content = with_technique(
        scribe.content, "cold_sauces", editions=(Edition(3, D(2026, 1, 1), "Written anew.", False),)
    )
    scribe.clears_for_cold_side("ada", SIGNED)
    assert scribe.clearance("ada", "cold_side", SIGNED).state == "studying"


def test_a_certificate_counts_from_the_day_it_was_shown_to_its_last_day(scribe: Scribe) -> None:
    """Issued in January, shown on 10 March, good to 1 June (food handler cards run three years; common practice)."""
    scribe.clears_for_cold_side("ada", SIGNED)
    scribe.shows("ada", "first_aid", D(2026, 3, 10), D(2026, 1, 1), D(2026, 6, 1))
    assert scribe.clearance("ada", "grill", D(2026, 3, 9)).state == "not allowed"
    assert scribe.clearance("ada", "grill", D(2026, 3, 10)).until == D(2026, 6, 1)
    assert scribe.clearance("ada", "grill", D(2026, 5, 23)).state == "due again"
    after = scribe.clearance("ada", "grill", D(2026, 6, 2))
    assert (after.state, english(after.reason)) == ("not allowed", "First aid: ended on 1 June 2026.")


def test_a_certificate_issued_later_than_shown_counts_from_its_issue(scribe: Scribe) -> None:
    """A card that begins next week begins next week."""
    scribe.clears_for_cold_side("ada", SIGNED)
    scribe.shows("ada", "first_aid", SIGNED, D(2026, 3, 9), None)
    assert scribe.clearance("ada", "grill", D(2026, 3, 8)).state == "not allowed"
    assert scribe.clearance("ada", "grill", D(2026, 3, 9)).state == "cleared"


def test_a_certificate_that_does_not_bar_leaves_the_cook_supervised(scribe: Scribe) -> None:
    """Every technique signed and a paper short: may stand there beside a person."""
    scribe.clears_for_pasta_room("ada", SIGNED, expires=D(2026, 4, 1))
    assert scribe.clearance("ada", "pasta_room", D(2026, 4, 1)).is_cleared
    assert scribe.clearance("ada", "pasta_room", D(2026, 4, 2)).state == "lapsed"


def test_shifts_count_at_their_station_in_any_sequence(scribe: Scribe) -> None:
    """Worked before the sign-off they count; worked at another station they do not."""
    scribe.works("ada", "pasta_room", D(2026, 2, 1))
    scribe.works("ada", "cold_side", D(2026, 2, 2))
    assert "shifts" in what_is_missing(scribe.clearance("ada", "pasta_room", D(2026, 2, 3)))
    scribe.works("ada", "pasta_room", D(2026, 2, 3))
    held = {each.what: each for each in scribe.clearance("ada", "pasta_room", D(2026, 2, 3)).held}
    assert (held["shifts"].since, held["shifts"].until) == (D(2026, 2, 3), None)


@pytest.mark.parametrize(("on", "state"), [(D(2026, 5, 2), "not allowed"), (D(2026, 5, 3), "cleared")])
def test_nobody_under_the_age_stands_at_the_machine(scribe: Scribe, on: date, state: str) -> None:
    """29 CFR 570.62(a): operating power-driven dough mixers and sheeters is barred under 18; open on the birthday."""
    scribe.joins("kit", born=D(2008, 5, 3))
    scribe.clears_for_pasta_room("kit", SIGNED)
    found = scribe.clearance("kit", "pasta_room", on)
    assert found.state == state
    if state == "not allowed":
        assert english(found.reason).startswith("Age: not 18 before 3 May 2026 (29 CFR 570.62")
        assert found.until is None


def test_age_bars_before_everything_else(scribe: Scribe) -> None:
    """Stood down and too young: the age is said first."""
    scribe.joins("kit", born=D(2010, 1, 1))
    scribe.stands_down("kit", "pasta_room", SIGNED)
    assert scribe.clearance("kit", "pasta_room", SIGNED).state == "not allowed"


def test_no_birth_date_is_not_old_enough(scribe: Scribe) -> None:
    """Nobody is guessed to be 18."""
    scribe.joins("kit", born=None)
    scribe.clears_for_pasta_room("kit", SIGNED)
    found = scribe.clearance("kit", "pasta_room", SIGNED)
    assert found.state == "not allowed"
    assert "no birth date on record" in english(found.reason)
    assert scribe.clearance("kit", "cold_side", SIGNED).state != "not allowed"


def test_stood_down_until_put_back(cleared: Scribe) -> None:
    """From the day itself to the day before being put back; the reason is said; the other station stays."""
    cleared.stands_down("ada", "pasta_room", D(2026, 4, 1))
    cleared.stands_down("ada", "pasta_room", D(2026, 4, 2))
    cleared.restores("ada", "pasta_room", D(2026, 4, 8))
    found = cleared.clearance("ada", "pasta_room", D(2026, 4, 7))
    assert (found.state, english(found.reason)) == ("stood down", "Stood down on 1 April 2026: cut hand")
    assert cleared.clearance("ada", "cold_side", D(2026, 4, 7)).state == "cleared"
    assert cleared.clearance("ada", "pasta_room", D(2026, 4, 8)).state == "cleared"


def test_put_back_without_having_been_stood_down_changes_nothing(cleared: Scribe) -> None:
    """An odd line in the book takes nothing away."""
    cleared.restores("ada", "pasta_room", D(2026, 4, 1))
    assert cleared.clearance("ada", "pasta_room", D(2026, 4, 1)).state == "cleared"


def test_who_left_is_cleared_nowhere_from_that_day(cleared: Scribe) -> None:
    """Cleared the day before; then lapsed, with leaving among what is missing; back again, the proofs still count."""
    cleared.leaves("ada", D(2026, 4, 1))
    assert cleared.clearance("ada", "cold_side", D(2026, 3, 31)).state == "cleared"
    gone = cleared.clearance("ada", "cold_side", D(2026, 4, 1))
    assert (gone.state, gone.until) == ("lapsed", D(2026, 3, 31))
    assert english(gone.reason) == "Left the kitchen on 1 April 2026."
    cleared.joins("ada", D(2026, 6, 1))
    assert cleared.clearance("ada", "cold_side", D(2026, 6, 1)).state == "cleared"


def test_who_never_joined_is_cleared_nowhere(cleared: Scribe) -> None:
    """Not on the roster is the first thing missing."""
    cleared.people["ghost"] = cleared.people["ada"].__class__("ghost", "Ghost", D(1990, 1, 1))
    cleared.clears_for_cold_side("ghost", SIGNED)
    found = cleared.clearance("ghost", "cold_side", SIGNED)
    assert not found.is_cleared
    assert english(found.missing[0].text) == "Not on the roster."


def test_days_turn_at_the_kitchens_midnight(scribe: Scribe) -> None:
    """Signed off at 23:30 in New York on 7 March, which is 04:30 UTC on the 8th: it counts on the 7th."""
    scribe.timezone = "America/New_York"
    late = datetime(2026, 3, 8, 4, 30, tzinfo=UTC)
    scribe.reads("ada", "cold_sauces", late)
    scribe.watched("ada", "cold_sauces", late)
    found = scribe.clearance("ada", "cold_side", D(2026, 3, 7))
    assert (found.state, found.until) == ("cleared", D(2027, 3, 7))


def test_one_sign_off_after_another_runs_on_without_a_gap(scribe: Scribe) -> None:
    """Signed again a month before the end: the clearance runs to the end of the second."""
    scribe.clears_for_cold_side("ada", SIGNED)
    scribe.watched("ada", "cold_sauces", D(2027, 2, 1))
    assert scribe.clearance("ada", "cold_side", D(2027, 2, 1)).until == D(2028, 2, 1)
    assert scribe.clearance("ada", "cold_side", D(2028, 2, 2)).until == D(2028, 2, 1)


def test_a_paper_that_begins_before_the_last_one_ends_runs_on(scribe: Scribe) -> None:
    """Shown ahead of its first day: until then the old one holds, after it the new one."""
    scribe.clears_for_cold_side("ada", SIGNED)
    scribe.shows("ada", "first_aid", SIGNED, D(2026, 1, 1), D(2026, 6, 1))
    scribe.shows("ada", "first_aid", D(2026, 4, 1), D(2026, 5, 20), D(2027, 1, 1))
    assert scribe.clearance("ada", "grill", D(2026, 4, 1)).until == D(2027, 1, 1)


def test_requirements_that_never_met_on_one_day_were_no_clearance(scribe: Scribe) -> None:
    """The quiz ran out before the sign-off was given: cleared on no day, so not lapsed."""
    scribe.content = with_technique(scribe.content, "cold_sauces", **asking(4), quiz_months=1)
    scribe.reads("ada", "cold_sauces", D(2026, 1, 5))
    scribe.sits("ada", "cold_sauces", D(2026, 1, 5))
    scribe.watched("ada", "cold_sauces", D(2026, 3, 5))
    found = scribe.clearance("ada", "cold_side", D(2026, 3, 5))
    assert (found.state, found.until) == ("studying", None)


def test_a_station_that_asks_for_nothing_clears_whoever_is_on_the_roster(scribe: Scribe) -> None:
    """An empty list asks for nothing."""
    scribe.content = small_content(cold_side={"techniques": ()})
    assert scribe.clearance("ada", "cold_side", FIRST).state == "cleared"


def test_several_stations_at_once_say_the_same_as_one_by_one(cleared: Scribe) -> None:
    """The board's way and the page's way agree."""
    stations = tuple(cleared.content.stations.values())
    progress, on = cleared.progress(), D(2026, 5, 1)
    together = clearances_of(cleared.people["ada"], stations, progress, cleared.content, on)
    assert together == tuple(cleared.clearance("ada", station.id, on) for station in stations)


def test_where_a_cook_stands_with_a_technique(scribe: Scribe) -> None:
    """Not started, studying, ready to show, signed, lapsed; without a quiz reading alone makes ready."""
    pasta, on = scribe.content.techniques["fresh_pasta"], SIGNED

    def state(day: date = on) -> str:
        return technique_standing("ada", pasta, scribe.progress(), day).state

    assert state() == "not started"
    scribe.reads("ada", "fresh_pasta", on)
    assert state() == "studying"
    scribe.sits("ada", "fresh_pasta", on)
    assert state() == "ready to show"
    scribe.watched("ada", "fresh_pasta", on)
    assert state() == "signed"
    assert state(D(2027, 3, 3)) == "lapsed"
    scribe.reads("ada", "cold_sauces", on)
    sauces = technique_standing("ada", scribe.content.techniques["cold_sauces"], scribe.progress(), on)
    assert (sauces.state, sauces.quiz, sauces.quiz_passed) == ("ready to show", None, True)
    assert (sauces.is_read, sauces.may_be_watched, sauces.is_signed) == (True, True, False)


def test_a_request_waits_until_a_later_practical_answers_it(scribe: Scribe) -> None:
    """Asked twice, the first counts; any verdict answers; asked again, it waits again."""
    sauces = scribe.content.techniques["cold_sauces"]

    def asked() -> datetime | None:
        return technique_standing("ada", sauces, scribe.progress(), D(2026, 4, 1)).asked_since

    assert asked() is None
    scribe.asks("ada", "cold_sauces", datetime(2026, 3, 2, 9, tzinfo=UTC))
    scribe.asks("ada", "cold_sauces", datetime(2026, 3, 3, 9, tzinfo=UTC))
    assert asked() == datetime(2026, 3, 2, 9, tzinfo=UTC)
    scribe.watched("ada", "cold_sauces", D(2026, 3, 4), "not yet")
    assert asked() is None
    scribe.asks("ada", "cold_sauces", datetime(2026, 3, 5, 9, tzinfo=UTC))
    assert asked() == datetime(2026, 3, 5, 9, tzinfo=UTC)
