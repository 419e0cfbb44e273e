"""A practical keeps what was seen: every look with its time, the words and limits of the day, whatever comes after."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from fractions import Fraction
from threading import Thread
from typing import Any

from tests.actions.crew import EVERY_POINT, Crew, refused, saved
from tests.kitchen.kitchen_for_tests import BOIL, CHECKLIST, with_technique
from tests.printed import english
from trainer.actions.outcome import Outcome, Saved
from trainer.actions.sitting import finish_sitting
from trainer.actions.watching import (
    Look,
    PageSent,
    Practical,
    drop_practical,
    find_practical,
    practicals_by,
    see_point,
    show_point,
)
from trainer.kitchen.rules import rules_of
from trainer.kitchen.technique import Content
from trainer.recipe_math.quantity import Quantity


def found(crew: Crew, practical: Practical) -> Practical:
    """Return a practical as it stands now."""
    kept = find_practical(crew.k, practical.id)
    assert kept is not None
    return kept


def point(body: Any, name: str) -> dict[str, Any]:
    """Return a point of an entry."""
    return next(one for one in body["points"] if one["point"] == name)


def without_techniques(crew: Crew) -> None:
    """Take every technique out of the content."""
    crew.k.content = replace(crew.k.content, techniques={}, stations={})


def test_seen_again_a_point_keeps_the_look_before_with_its_time(crew: Crew) -> None:
    """2 min at noon, 85 s ten minutes later: both are in the entry, and the last one decides."""
    practical = crew.begins_practical()
    crew.sees(practical)
    crew.sees(practical, Look("boil", None, ("2 min",), "slow gas"))
    crew.later(minutes=10)
    crew.sees(practical, Look("boil", None, ("85 s",)))
    body = saved(crew.signs(practical)).body
    assert point(body, "boil")["looks"][1:] == [
        {"at": "2026-03-02T17:00:00.000Z", "by": "sous", "seen": "not yet", "readings": [["2", "min", "2 min"]],
         "note": "slow gas"},
        {"at": "2026-03-02T17:10:00.000Z", "by": "sous", "seen": "meets it", "readings": [["85", "s", "85 s"]]},
    ]  # fmt: skip
    assert body["verdict"] == "meets it"


def test_the_entry_has_words_limits_and_pieces_of_the_day(crew: Crew) -> None:
    """122 to 134 g, 128 aimed at, four of five; source and title as the content had them."""
    practical = crew.begins_practical()
    crew.sees(practical)
    body = saved(crew.signs(practical)).body
    assert point(body, "weights") | {"looks": []} == {
        "point": "weights",
        "words": "nests weigh alike",
        "language": "en",
        "critical": False,
        "judged": "weighed",
        "pieces": [5, 4],
        "limits": [
            {"id": "nest_weight", "low": ["122", "g"], "high": ["134", "g"], "target": ["128", "g"], "source": "house"}
        ],
        "looks": [],
    }
    assert (body["titles"], body["language"]) == ({"technique": "Cold sauces", "station": "Cold side"}, "en")
    assert (body["standard"], body["coached"], body["started"]) == (0, False, "2026-03-02T17:00:00.000Z")


def test_a_point_nobody_looked_at_is_in_the_entry_with_its_words(crew: Crew) -> None:
    """What was never come to can be told of as well."""
    practical = crew.begins_practical()
    crew.sees(practical, EVERY_POINT[0])
    body = saved(crew.signs(practical)).body
    assert (point(body, "told")["words"], point(body, "told")["looks"]) == ("allergens told", [])


def test_helped_is_not_yet_at_most_and_says_so(crew: Crew) -> None:
    """DOE-HDBK-1074-95, appendix C, item 8: no help, prompts or suggestions; item 9: pass or fail."""
    practical = crew.begins_practical()
    crew.sees(practical)
    body = saved(crew.signs(practical, coached=True)).body
    assert (body["verdict"], body["coached"], body["reasons"][0]) == ("not yet", True, {"rule": "coached"})


def test_unsafe_then_met_is_a_stop_all_the_same(crew: Crew) -> None:
    """DOE-HDBK-1074-95, appendix C: ended on danger. Both looks asked for; the second is refused and not kept."""
    practical = crew.begins_practical()
    crew.sees(practical, Look("guard_on", "unsafe", (), "hand in the die"))
    refused(see_point(crew.k, by="sous", practical=practical.id, look=Look("guard_on", "meets it"), now=crew.now))
    crew.sees(practical, *EVERY_POINT[1:])
    body = saved(crew.signs(practical)).body
    assert (body["verdict"], body["reasons"]) == ("stopped", [{"rule": "unsafe", "point": "guard_on"}])
    assert [look["seen"] for look in point(body, "guard_on")["looks"]] == ["unsafe"]


def test_the_words_kept_are_those_of_the_page_that_was_sent(crew: Crew) -> None:
    """Sent in Spanish: the entry says what was read, in which language; sent again the same nothing is written."""
    practical = crew.begins_practical()
    page = PageSent("guard_on", "tablet", "la guarda está puesta", "es")
    for _ in range(2):
        show_point(crew.k, by="sous", practical=practical.id, page=page, now=crew.now)
        crew.later(seconds=1)
    assert found(crew, practical).shown["guard_on"]["tablet"] == crew.now - timedelta(seconds=2)
    crew.sees(practical)
    kept = point(saved(crew.signs(practical)).body, "guard_on")
    assert (kept["words"], kept["language"]) == ("la guarda está puesta", "es")


def test_other_words_change_nothing_that_is_under_way(crew: Crew) -> None:
    """The same checklist in better words: it is gone on with, and signed."""
    practical = crew.begins_practical()
    crew.sees(practical, *EVERY_POINT[:2])
    better = tuple(replace(one, text=f"{one.text}, really") for one in CHECKLIST)
    crew.k.content = with_technique(crew.k.content, "cold_sauces", checklist=better)
    crew.sees(practical, *EVERY_POINT[2:])
    body = saved(crew.signs(practical)).body
    assert (body["verdict"], point(body, "told")["words"]) == ("meets it", "allergens told")


def test_a_checklist_that_asks_something_else_meanwhile_is_watched_anew(crew: Crew) -> None:
    """80 s in place of 90: neither seen further nor signed, and the new one begins at its first point."""
    practical = crew.begins_practical()
    crew.sees(practical)
    limit = replace(BOIL, highest=Quantity.of(Fraction(80), "s"))
    stricter = tuple(replace(one, limit=limit) if one.id == "boil" else one for one in CHECKLIST)
    crew.k.content = with_technique(crew.k.content, "cold_sauces", checklist=stricter)
    words = "The checklist of Cold sauces has changed since you began. Watch it anew."
    look = see_point(crew.k, by="sous", practical=practical.id, look=Look("boil", None, ("85 s",)), now=crew.now)
    assert english(refused(look).reason) == words
    assert english(refused(crew.signs(practical)).reason) == words
    anew = crew.begins_practical()
    assert (anew.id != practical.id, dict(anew.seen)) == (True, {})


def publish(crew: Crew, content: Content) -> None:
    """Write that a standard is published, in force from today."""
    number = len(crew.entries("standard_published")) + 1
    body = {"number": number, "since": crew.k.today(crew.now).isoformat(), "rules": rules_of(content), "texts": ""}
    crew.write("standard_published", "mara", body)


def test_a_standard_published_meanwhile_is_named_where_its_checklist_asks_something_else(crew: Crew) -> None:
    """Standard 2 asks the same: signed, as begun under standard 1. Standard 3 leaves a point out: watched anew."""
    publish(crew, crew.k.content)
    first, second = crew.begins_practical(), crew.begins_practical("ben")
    crew.sees(first)
    crew.sees(second)
    publish(crew, crew.k.content)
    assert saved(crew.signs(first)).body["standard"] == 1
    publish(crew, with_technique(crew.k.content, "cold_sauces", checklist=CHECKLIST[:3]))
    assert english(refused(crew.signs(second)).reason) == (
        "You watched by standard 1; standard 3 is in force, and its checklist asks something else. Watch it anew."
    )


def test_a_quiz_says_under_which_standard_it_was_begun(crew: Crew) -> None:
    """Standard 2 comes while it is open: the sitting goes on by the rules it began with, and says so."""
    publish(crew, crew.k.content)
    sitting = crew.begins_sitting()
    publish(crew, crew.k.content)
    crew.answers(sitting, right=4)
    body = saved(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=crew.key())).body
    assert (body["standard"], body["passed"]) == (1, True)


def test_a_practical_is_gathered_over_fourteen_days(crew: Crew) -> None:
    """A look a week apart each, signed on the 14th day; on the 15th it is watched anew. A stop is signed even then."""
    practical = crew.begins_practical()
    late = crew.begins_practical("ben")
    crew.sees(practical, *EVERY_POINT[:2])
    crew.sees(late, Look("guard_on", "unsafe"))
    crew.later(days=14)
    crew.sees(practical, *EVERY_POINT[2:])
    days = [one["looks"][0]["at"][:10] for one in saved(crew.signs(practical)).body["points"]]
    assert days == ["2026-03-02", "2026-03-02", "2026-03-16", "2026-03-16"]
    again = crew.begins_practical()
    crew.later(days=15)
    assert english(refused(crew.signs(again)).reason) == (
        "This was begun on 16 March 2026, more than 14 days ago. Watch it anew."
    )
    assert crew.begins_practical().id != again.id
    assert saved(crew.signs(late)).body["verdict"] == "stopped"


def test_a_look_is_taken_by_somebody_entitled_then(crew: Crew) -> None:
    """Off the station Sous looks no more; a danger is written down all the same."""
    practical = crew.begins_practical()
    crew.write("stood_down", "sous", {"station": "cold_side", "reason": "cut hand"})
    look = see_point(crew.k, by="sous", practical=practical.id, look=EVERY_POINT[0], now=crew.now)
    assert english(refused(look).reason) == "Sous is off the station today: Cold side."
    crew.sees(practical, Look("guard_on", "unsafe"))
    assert found(crew, practical).unsafe == ("guard_on",)


def test_a_practical_of_a_technique_taken_out_is_put_away(crew: Crew) -> None:
    """It cannot be signed, and does not hang in the hand for ever."""
    practical = crew.begins_practical()
    crew.sees(practical)
    without_techniques(crew)
    problem = refused(crew.signs(practical))
    assert english(problem.reason) == "Cold sauces is not taught any more, so this cannot be signed."
    assert english(problem.who_can) == "Put it away."
    assert drop_practical(crew.k, by="sous", practical=practical.id) is None
    assert practicals_by(crew.k, "sous") == ()


def test_a_stop_of_a_technique_taken_out_is_signed_in_its_own_words(crew: Crew) -> None:
    """A danger seen is no less seen."""
    practical = crew.begins_practical()
    crew.sees(practical, Look("guard_on", "unsafe"))
    without_techniques(crew)
    body = saved(crew.signs(practical)).body
    assert (body["verdict"], point(body, "guard_on")["words"]) == ("stopped", "guard on before power")


def draft_of_before(crew: Crew, practical: Practical, *points: dict[str, Any]) -> None:
    """Put a draft of an earlier program in the place of a practical: the points seen, and no more."""
    draft = crew.k.file.drafts.get(practical.id)
    assert draft is not None
    crew.k.file.drafts.put(replace(draft, body={"edition": 1, "station": "cold_side", "points": list(points)}))


def test_a_practical_begun_before_is_gone_on_with(crew: Crew) -> None:
    """What was seen then has no time of its own; the rest is seen, and it is signed."""
    practical = crew.begins_practical()
    draft_of_before(crew, practical, {"point": "boil", "seen": "meets it", "readings": ["85 s"], "note": ""})
    crew.sees(practical, *(look for look in EVERY_POINT if look.point != "boil"))
    body = saved(crew.signs(practical)).body
    assert point(body, "boil")["looks"] == [{"by": "sous", "seen": "meets it", "readings": [["", "", "85 s"]]}]
    assert body["verdict"] == "meets it"


def test_a_practical_begun_before_of_a_technique_gone_is_put_away_and_its_stop_signed(crew: Crew) -> None:
    """There are no words of it left: the point is named by its id."""
    practical = crew.begins_practical()
    draft_of_before(crew, practical, {"point": "guard_on", "seen": "unsafe", "readings": [], "note": ""})
    other = crew.begins_practical("ben")
    draft_of_before(crew, other)
    without_techniques(crew)
    assert drop_practical(crew.k, by="sous", practical=other.id) is None
    assert saved(crew.signs(practical)).body["reasons"] == [{"rule": "unsafe", "point": "guard_on"}]


def test_of_thirty_two_assessors_with_a_practical_each_one_signs(crew: Crew) -> None:
    """All of one cook and technique, every point met, signed at once: one entry, and 31 are told by whom and when."""
    names = [f"assessor{number}" for number in range(32)]
    for name in names:
        crew.joins(name, "cook", "assessor")
        crew.clears(name)
    practicals = [crew.begins_practical(by=name) for name in names]
    for practical in practicals:
        crew.sees(practical)
    crew.later(minutes=1)
    outcomes: list[Outcome] = []
    signers = [Thread(target=lambda one=one: outcomes.append(crew.signs(one, f"by-{one.by}"))) for one in practicals]
    for signer in signers:
        signer.start()
    for signer in signers:
        signer.join()
    (first,) = (outcome.entry for outcome in outcomes if isinstance(outcome, Saved))
    assert [entry.id for entry in crew.entries("practical_watched") if entry.cook == "ada"] == [first.id]
    told = {english(refused(outcome).reason) for outcome in outcomes if not isinstance(outcome, Saved)}
    assert told == {
        f"{first.by.capitalize()} signed a practical of Ada in this technique on 2 March 2026 at 12:01: meets it."
    }
    assert len(outcomes) == 32


def test_a_key_and_a_pin_sent_again_sign_nothing_else(crew: Crew) -> None:
    """The key of the first is refused for the second; so is its PIN of three minutes ago."""
    first, second = crew.begins_practical(), crew.begins_practical("ben")
    crew.sees(first)
    crew.sees(second)
    proved_at = crew.now
    saved(crew.signs(first, "once", proved_at=proved_at))
    crew.later(minutes=3)
    assert "already sent" in english(refused(crew.signs(second, "once", proved_at=crew.now)).reason)
    assert english(refused(crew.signs(second, proved_at=proved_at)).reason) == "Enter your PIN again."
    assert [one.cook for one in crew.entries("practical_watched") if one.by == "sous"] == ["ada"]
