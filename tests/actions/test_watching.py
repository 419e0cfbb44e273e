"""The request, the practical point by point, and the signature."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from threading import Thread

import pytest

from tests.actions.crew import EVERY_POINT, TODAY, Crew, crew_in, refused, saved
from tests.kitchen.kitchen_for_tests import CHECKLIST, with_technique
from tests.printed import english
from trainer.actions.outcome import Outcome, Saved
from trainer.actions.watching import (
    Look,
    PageSent,
    Practical,
    Signing,
    Watch,
    ask_to_be_watched,
    drop_practical,
    find_practical,
    practicals_by,
    see_point,
    show_point,
    sign_practical,
    start_practical,
    waiting,
)
from trainer.kitchen.practical import AskBack, PointSeen
from trainer.kitchen.technique import Edition

COLD = Watch("ada", "cold_sauces", "cold_side")


def ask(crew: Crew, cook: str = "ada", technique: str = "cold_sauces") -> Outcome:
    """Ask to be watched."""
    return ask_to_be_watched(crew.k, cook=cook, technique=technique, now=crew.now, key=crew.key())


def start(crew: Crew, by: str = "sous", watch: Watch = COLD) -> object:
    """Start a practical."""
    return start_practical(crew.k, by=by, watch=watch, now=crew.now, key=crew.key())


def test_a_request_waits_in_the_book(crew: Crew) -> None:
    """Written by the cook, about the cook."""
    crew.reads("ada", "cold_sauces")
    entry = saved(ask(crew))
    assert (entry.kind, entry.by, entry.body) == ("watch_asked", "ada", {"technique": "cold_sauces"})


def test_reading_and_quiz_come_before_the_request(crew: Crew) -> None:
    """Both are named while both are missing, then the quiz alone; then it is taken."""
    assert english(refused(ask(crew, technique="fresh_pasta")).reason) == (
        "Fresh pasta: edition 1 not read. Fresh pasta: quiz not passed."
    )
    crew.reads("ada", "fresh_pasta")
    assert english(refused(ask(crew, technique="fresh_pasta")).reason) == "Fresh pasta: quiz not passed."
    crew.passes_quiz("ada")
    saved(ask(crew, technique="fresh_pasta"))


def test_a_request_for_nothing_known_or_by_nobody_there_is_refused(crew: Crew) -> None:
    """The technique is named; who left is named."""
    assert english(refused(ask(crew, technique="sushi")).reason) == "There is no technique “sushi”."
    crew.write("cook_left", "ada", {"reason": "moved"})
    assert english(refused(ask(crew)).reason) == "Ada is not on the roster."


def test_one_request_waits_at_a_time(crew: Crew) -> None:
    """Asked already; another technique may be asked for besides."""
    crew.reads("ada", "cold_sauces")
    crew.reads("ada", "pasta_nesting")
    saved(ask(crew))
    assert "waiting" in english(refused(ask(crew)).reason)
    saved(ask(crew, technique="pasta_nesting"))


def test_the_longest_wait_comes_first(crew: Crew) -> None:
    """Ben asked an hour before Ada; a practical answers, leaving takes a request off, and so does a technique gone."""
    for cook in ("ada", "ben", "nils"):
        crew.reads(cook, "cold_sauces")
    saved(ask(crew, "ben"))
    crew.later(hours=1)
    saved(ask(crew, "ada"))
    saved(ask(crew, "nils"))
    found = waiting(crew.k, TODAY)
    assert [(one.cook, one.technique) for one in found] == [
        ("ben", "cold_sauces"),
        ("ada", "cold_sauces"),
        ("nils", "cold_sauces"),
    ]
    assert found[0].since == crew.now - timedelta(hours=1)
    practical = crew.begins_practical("ben")
    crew.sees(practical)
    saved(crew.signs(practical))
    crew.write("cook_left", "nils", {"reason": "moved"})
    assert [one.cook for one in waiting(crew.k, TODAY)] == ["ada"]
    assert waiting(crew.k, TODAY - timedelta(days=1)) == ()
    crew.k.content = replace(crew.k.content, techniques={})
    assert waiting(crew.k, TODAY) == ()


def test_a_practical_needs_no_request(crew: Crew) -> None:
    """Read, entitled, begun: nothing seen yet, and not yet."""
    practical = crew.begins_practical()
    assert (practical.by, practical.cook, practical.edition, practical.station) == ("sous", "ada", 1, "cold_side")
    assert practical.seen == {}
    assert practical.verdict.word == "not yet"


def test_a_practical_is_not_begun_before_reading_and_quiz(crew: Crew) -> None:
    """DOE-HDBK-1074-95, appendix C: prerequisites are complete before the evaluation."""
    assert english(refused(start(crew)).reason) == "Cold sauces: edition 1 not read."


def test_a_practical_is_begun_at_a_station_that_asks_for_it(crew: Crew) -> None:
    """Those that do are named; a technique nobody asks for has none."""
    crew.reads("ada", "cold_sauces")
    found = refused(start(crew, watch=Watch("ada", "cold_sauces", "pasta_room")))
    assert english(found.reason).endswith("Stations that do: Cold side, Grill.")
    crew.k.content = replace(crew.k.content, stations={})
    assert english(refused(start(crew)).reason) == "No station asks for this technique, so nobody can sign it."


@pytest.mark.parametrize(
    ("by", "reason"),
    [
        ("ada", "Nobody signs their own work."),
        ("ben", "Ben is no assessor."),
        ("nils", "Nils is not cleared today at Cold side."),
        ("mara", "Mara is no assessor."),
    ],
)
def test_only_who_may_sign_begins_a_practical(crew: Crew, by: str, reason: str) -> None:
    """Each no has its reason, and Sous is named as who can."""
    crew.reads("ada", "cold_sauces")
    found = refused(start(crew, by=by))
    assert (english(found.reason), english(found.who_can)) == (reason, "Sous can sign.")


def test_an_open_practical_is_gone_on_with(crew: Crew) -> None:
    """The points seen come back; at another station it is another one."""
    practical = crew.begins_practical()
    crew.sees(practical, EVERY_POINT[0])
    again = start(crew)
    assert isinstance(again, Practical)
    assert (again.id, list(again.seen)) == (practical.id, ["guard_on"])
    crew.later(minutes=1)
    paper = {"certificate": "first_aid", "number": "7", "issued": "2026-01-01", "expires": None}
    crew.write("certificate_shown", "sous", paper)
    other = start(crew, watch=replace(COLD, station="grill"))
    assert isinstance(other, Practical)
    assert [one.id for one in practicals_by(crew.k, "sous")] == [practical.id, other.id]


def test_a_key_sent_before_begins_nothing(crew: Crew) -> None:
    """It would write over another's draft."""
    crew.reads("ada", "cold_sauces")
    sitting = crew.begins_sitting("ben")
    for key in (sitting.id, "key-1"):
        outcome = start_practical(crew.k, by="sous", watch=COLD, now=crew.now, key=key)
        assert "already sent" in english(refused(outcome).reason)


@pytest.mark.parametrize("key", ["", "x" * 201, "\ud800", "a\x00"])
def test_a_key_no_book_would_take_begins_nothing(crew: Crew, key: str) -> None:
    """Blank, too long, half a character, or a sign that cannot be printed."""
    crew.reads("ada", "cold_sauces")
    assert "printable" in english(refused(start_practical(crew.k, by="sous", watch=COLD, now=crew.now, key=key)).reason)


def test_each_point_is_kept_as_it_is_seen(crew: Crew) -> None:
    """Judged by its readings, and changed until the signature."""
    practical = crew.begins_practical()
    look = Look("boil", None, ("2 min",), " slow gas ")
    seen = see_point(crew.k, by="sous", practical=practical.id, look=look, now=crew.now)
    assert seen == PointSeen("boil", "not yet", ("2 min",), "slow gas")
    crew.sees(practical, Look("boil", None, ("85 s",)))
    kept = find_practical(crew.k, practical.id)
    assert kept is not None
    assert kept.seen == {"boil": PointSeen("boil", "meets it", ("85 s",), "")}


@pytest.mark.parametrize(
    ("look", "field"),
    [
        (Look("sushi", "meets it"), "point"),
        (Look("guard_on", None), "tick"),
        (Look("boil", "meets it", ("2 min",)), "tick"),
        (Look("boil", None, ("long",)), "reading_1"),
        (Look("weights", None, ("128 g", "heavy", "128 g", "128 g", "128 g")), "reading_2"),
        (Look("guard_on", "meets it", (), "x" * 501), "note"),
        (Look("guard_on", "meets it", (), "\x00"), "note"),
    ],
)
def test_a_point_that_cannot_be_kept_is_refused_at_its_field(crew: Crew, look: Look, field: str) -> None:
    """And nothing is kept of it."""
    practical = crew.begins_practical()
    found = refused(see_point(crew.k, by="sous", practical=practical.id, look=look, now=crew.now))
    assert found.field == field
    kept = find_practical(crew.k, practical.id)
    assert kept is not None
    assert kept.seen == {}


def shown_at(crew: Crew, practical: Practical, look: Look) -> None:
    """Send a point's page to its device, now."""
    page = PageSent(look.point, look.device, look.point, "en")
    show_point(crew.k, by=practical.by, practical=practical.id, page=page, now=crew.now)


def test_a_verdict_takes_a_look(crew: Crew) -> None:
    """0.8 s after the page was first sent to this very device; what comes sooner is refused, and nothing is kept."""
    practical = crew.begins_practical()
    look = Look("guard_on", "meets it", device="tablet")
    shown_at(crew, practical, look)
    crew.later(milliseconds=150)
    shown_at(crew, practical, look)
    soon = see_point(crew.k, by="sous", practical=practical.id, look=look, now=crew.now)
    assert english(refused(soon).reason) == "That was quick. Did you see it?"
    other = see_point(crew.k, by="sous", practical=practical.id, look=replace(look, device="phone"), now=crew.later())
    assert english(refused(other).reason) == "That was quick. Did you see it?"
    crew.later(milliseconds=650)
    seen = see_point(crew.k, by="sous", practical=practical.id, look=look, now=crew.now)
    assert seen == PointSeen("guard_on", "meets it")


def test_a_stop_waits_for_no_look(crew: Crew) -> None:
    """A danger is stopped at once."""
    practical = crew.begins_practical()
    look = Look("guard_on", "unsafe", (), "hand in the die", "tablet")
    seen = see_point(crew.k, by="sous", practical=practical.id, look=look, now=crew.now)
    assert isinstance(seen, PointSeen)


def test_a_page_of_anothers_practical_is_not_kept(crew: Crew) -> None:
    """Only who watches has it on screen."""
    practical = crew.begins_practical()
    shown_at(crew, replace(practical, by="nils"), Look("guard_on", device="tablet"))
    kept = find_practical(crew.k, practical.id)
    assert kept is not None
    assert kept.shown == {}


def test_a_reading_asked_back_stays_in_the_record(crew: Crew) -> None:
    """99999 s of boiling: asked back, timed again, and the entry says what was typed and what was kept."""
    practical = crew.begins_practical()
    asked = see_point(
        crew.k, by="sous", practical=practical.id, look=Look("boil", "meets it", ("99999",)), now=crew.now
    )
    assert asked == AskBack(0, "99999", ("99999 s",))
    crew.sees(practical)
    crew.sees(practical, Look("boil", None, ("86 s",)))
    points = saved(crew.signs(practical)).body["points"]
    first, second = points[2]["looks"]
    assert first["readings"] == [["85", "s", "85 s", [["99999 s"]]]]
    assert second["readings"] == [["86", "s", "86 s"]]


def test_nobody_touches_anothers_practical(crew: Crew) -> None:
    """Neither sees a point, nor puts it away, nor signs."""
    practical = crew.begins_practical()
    crew.clears("nils")
    look = EVERY_POINT[0]
    assert "Somebody else" in english(refused(
        see_point(crew.k, by="nils", practical=practical.id, look=look, now=crew.now)
    ).reason)  # fmt: skip
    assert "Somebody else" in english(refused(drop_practical(crew.k, by="nils", practical=practical.id)).reason)
    assert "Somebody else" in english(refused(crew.signs(replace(practical, by="nils"))).reason)


def test_a_practical_put_away_leaves_nothing(crew: Crew) -> None:
    """No entry, no draft; and then it is not open."""
    practical = crew.begins_practical()
    assert drop_practical(crew.k, by="sous", practical=practical.id) is None
    assert practicals_by(crew.k, "sous") == ()
    assert "not open" in english(refused(drop_practical(crew.k, by="sous", practical=practical.id)).reason)
    assert find_practical(crew.k, crew.begins_sitting().id) is None


def test_a_signed_practical_is_one_entry_with_everything_in_it(crew: Crew) -> None:
    """Points, readings, edition, station, verdict and reasons (SFTM section 3: what was checked, by whom, when)."""
    practical = crew.begins_practical()
    crew.sees(practical)
    entry = saved(crew.signs(practical, note=" well done "))
    assert (entry.kind, entry.cook, entry.by) == ("practical_watched", "ada", "sous")
    body = entry.body
    assert (body["technique"], body["edition"], body["station"]) == ("cold_sauces", 1, "cold_side")
    assert (body["verdict"], body["note"]) == ("meets it", "well done")
    assert body["reasons"] == [{"rule": "critical_met"}, {"rule": "scored", "count": [3, 3, 2]}]
    assert [line["point"] for line in body["points"]] == [point.id for point in CHECKLIST]
    assert find_practical(crew.k, practical.id) is None
    assert crew.k.board(TODAY).rows[0].clearances[1].state == "cleared"


def test_a_critical_point_not_seen_is_written_as_not_yet(crew: Crew) -> None:
    """The verdict follows from the points alone."""
    practical = crew.begins_practical()
    crew.sees(practical, *EVERY_POINT[1:])
    body = saved(crew.signs(practical)).body
    assert (body["verdict"], body["reasons"][0]) == ("not yet", {"rule": "not_seen", "point": "guard_on"})


@pytest.mark.parametrize("minutes", [3, -1, None])
def test_the_pin_is_given_within_two_minutes(crew: Crew, minutes: int | None) -> None:
    """NIST SP 800-63B, reauthentication, from memory: a proof from later than now is none either."""
    practical = crew.begins_practical()
    crew.sees(practical)
    proved_at = None if minutes is None else crew.now - timedelta(minutes=minutes)
    found = refused(crew.signs(practical, proved_at=proved_at))
    assert (english(found.reason), found.field) == ("Enter your PIN again.", "secret")
    assert find_practical(crew.k, practical.id) is not None


def test_two_minutes_to_the_second_still_count(crew: Crew) -> None:
    """The last second is in."""
    practical = crew.begins_practical()
    saved(crew.signs(practical, proved_at=crew.now - timedelta(minutes=2)))


def test_a_right_lost_meanwhile_signs_no_more(crew: Crew) -> None:
    """Begun while cleared, stood down before the signature: refused, and the draft stays."""
    practical = crew.begins_practical()
    crew.sees(practical)
    crew.write("stood_down", "sous", {"station": "cold_side", "reason": "cut hand"})
    found = refused(crew.signs(practical))
    assert english(found.reason) == "Sous is off the station today: Cold side."
    assert find_practical(crew.k, practical.id) is not None


def test_a_right_that_ran_out_overnight_signs_no_more(crew: Crew) -> None:
    """Cleared to 2 March 2027, begun that evening, signed after midnight."""
    crew.later(days=365)
    practical = crew.begins_practical()
    crew.sees(practical)
    crew.later(hours=12)
    assert "not cleared today" in english(refused(crew.signs(practical)).reason)


def test_an_edition_replaced_meanwhile_is_not_signed(crew: Crew) -> None:
    """A signature names the edition of the checklist it was watched by."""
    practical = crew.begins_practical()
    crew.sees(practical)
    editions = (*crew.k.content.techniques["cold_sauces"].editions, Edition(2, TODAY, "New oil.", True))
    crew.k.content = with_technique(crew.k.content, "cold_sauces", editions=editions)
    assert (
        english(refused(crew.signs(practical)).reason) == "You watched edition 1; edition 2 is in force. Watch it anew."
    )


def test_watching_anew_after_another_edition_begins_at_the_first_point(crew: Crew) -> None:
    """To watch it again is no way back to points of the edition before; within one edition it goes on."""
    before = crew.begins_practical()
    crew.sees(before)
    editions = (*crew.k.content.techniques["cold_sauces"].editions, Edition(2, TODAY, "New oil.", True))
    crew.k.content = with_technique(crew.k.content, "cold_sauces", editions=editions)
    anew = crew.begins_practical()
    assert (anew.edition, dict(anew.seen)) == (2, {})
    crew.sees(anew)
    assert crew.begins_practical().id == anew.id
    assert isinstance(crew.signs(anew), Saved)


def void_reading(crew: Crew) -> None:
    """Void Ada's reading."""
    entry = next(e for e in crew.entries("technique_read") if e.cook == "ada")
    crew.write("entry_voided", "ada", {"entry": entry.id, "reason": "slip"})


def test_a_reading_gone_meanwhile_keeps_a_sign_off_from_being_given(crew: Crew) -> None:
    """Knowledge comes first at the signature too."""
    practical = crew.begins_practical()
    crew.sees(practical)
    void_reading(crew)
    assert english(refused(crew.signs(practical)).reason) == "Cold sauces: edition 1 not read."


def test_what_was_unsafe_is_written_down_in_any_case(crew: Crew) -> None:
    """A danger seen is no less seen because a paper is missing."""
    practical = crew.begins_practical()
    crew.sees(practical, Look("guard_on", "unsafe", (), "hand in the die"))
    void_reading(crew)
    entry = saved(crew.signs(practical))
    assert entry.body["verdict"] == "stopped"
    assert entry.body["reasons"][0] == {"rule": "unsafe", "point": "guard_on"}


def test_a_cook_who_left_meanwhile_is_not_signed_for(crew: Crew) -> None:
    """Not on the roster."""
    practical = crew.begins_practical()
    crew.write("cook_left", "ada", {"reason": "moved"})
    assert english(refused(crew.signs(practical)).reason) == "Ada is not on the roster."


def test_an_assessor_may_say_not_yet_over_the_points_with_a_note(crew: Crew) -> None:
    """DOE-HDBK-1074-95, appendix C: coached is not yet."""
    practical = crew.begins_practical()
    crew.sees(practical)
    assert refused(crew.signs(practical, said="not yet")).field == "said"
    body = saved(crew.signs(practical, said="not yet", note="I helped")).body
    assert (body["verdict"], body["reasons"][0]) == ("not yet", {"rule": "stricter"})


def test_nobody_says_meets_it_over_the_points(crew: Crew) -> None:
    """The numbers decide."""
    practical = crew.begins_practical()
    crew.sees(practical, EVERY_POINT[0])
    assert "nobody can say meets it" in english(refused(crew.signs(practical, said="meets it", note="good")).reason)


def test_a_note_is_plain_text_of_some_length(crew: Crew) -> None:
    """501 characters are one too many; the field is named."""
    practical = crew.begins_practical()
    found = refused(crew.signs(practical, note="x" * 501))
    assert (english(found.reason), found.field) == ("The note has 501 characters; it may have 500.", "note")


def test_signing_twice_is_one_entry(crew: Crew) -> None:
    """The same key gives the entry there, long after the PIN; another key finds it closed; another's key is refused."""
    practical = crew.begins_practical()
    crew.sees(practical)
    first = saved(crew.signs(practical, "sign"))
    crew.later(hours=1)
    assert saved(crew.signs(practical, "sign", proved_at=None)) == first
    assert "not open" in english(refused(crew.signs(practical)).reason)
    assert "already sent" in english(refused(crew.signs(replace(practical, by="nils"), "sign")).reason)
    assert len([e for e in crew.entries("practical_watched") if e.cook == "ada"]) == 1


def test_of_many_signatures_at_once_one_is_written(crew: Crew) -> None:
    """Sixteen, each with its own key: one entry, fifteen told it is not open (OWASP ASVS 5.0.0, 15.4.2)."""
    practical = crew.begins_practical()
    crew.sees(practical)
    outcomes: list[Outcome] = []
    signing = Signing(practical.id, crew.now)

    def sign(number: int) -> None:
        outcomes.append(sign_practical(crew.k, by="sous", signing=signing, now=crew.now, key=f"sign-{number}"))

    signers = [Thread(target=sign, args=(number,)) for number in range(16)]
    for signer in signers:
        signer.start()
    for signer in signers:
        signer.join()
    assert sum(isinstance(outcome, Saved) for outcome in outcomes) == 1
    assert sum("not open" in english(outcome.reason) for outcome in outcomes if not isinstance(outcome, Saved)) == 15


def test_a_practical_the_book_will_not_take_stays_open(crew: Crew) -> None:
    """Nothing the assessor saw is lost."""
    practical = crew.begins_practical()
    crew.sees(practical)
    refused(crew.signs(practical, key="\x07"))
    assert find_practical(crew.k, practical.id) is not None


def test_the_decimal_mark_is_the_kitchens(crew: Crew) -> None:
    """1,5 min is 90 seconds where the decimal mark is a comma."""
    crew.k.file.change_settings(replace(crew.k.file.settings, decimal_mark=","))
    practical = crew.begins_practical()
    look = Look("boil", None, ("1,5 min",))
    seen = see_point(crew.k, by="sous", practical=practical.id, look=look, now=crew.now)
    assert isinstance(seen, PointSeen)
    assert seen.seen == "meets it"


def test_a_practical_survives_the_process(crew: Crew) -> None:
    """Opened again, the points are there: a tablet may go dark in the middle."""
    practical = crew.begins_practical()
    crew.sees(practical, EVERY_POINT[0])
    crew.k.file.close()
    assert find_practical(crew.k, practical.id) is not None


def test_a_station_just_opened_lets_its_assessor_sign(crew: Crew) -> None:
    """The first cook of a new station is signed off under a grant."""
    body = {"station": "pasta_room", "until": "2026-03-31", "reason": "new"}
    crew.write("station_opened", "nils", body, by="mara")
    crew.reads("ada", "pasta_nesting")
    watch = Watch("ada", "pasta_nesting", "pasta_room")
    practical = start(crew, by="nils", watch=watch)
    assert isinstance(practical, Practical)
    crew.sees(practical)
    assert saved(crew.signs(practical)).by == "nils"
    assert date(2026, 3, 2) == crew.k.today(crew.now)


def test_two_kitchens_share_nothing(crew: Crew, tmp_path: object) -> None:
    """A practical of one is not open in the other."""
    practical = crew.begins_practical()
    other = crew_in(crew.k.file.folder.parent / "other")
    assert find_practical(other.k, practical.id) is None
    other.k.file.close()
