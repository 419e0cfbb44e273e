"""The assessor: who waits, a practical point by point, the record, the signature, the supervised shift."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from tests.web.conftest import PIN, Clock
from tests.web.hands import Hands, Seen, take_all
from tests.web.kitchen_people import ask, clear, sign, study, write
from trainer.actions.open_kitchen import Kitchen

WEIGHTS: dict[str, Any] = {
    f"reading_{number}": text for number, text in enumerate(("4.5", "128 g", "4 1/2 oz", "4.4", "5"), 1)
}


def start_watching(bo: Hands, kitchen: Kitchen) -> Seen:
    """Let Bo, who is cleared, begin to watch Ana, who asked; return the first point."""
    clear(kitchen, "bo")
    ask(kitchen, "ana")
    bo.open("/ready")
    bo.press("Watch Ana, Ana Pardo, Pasta nesting")
    return bo.follow("Start")


def test_beside_the_stop_the_cook_has_their_first_name_from_the_start_on(bo: Hands, kitchen: Kitchen) -> None:
    """There is room for it on a small phone, as on the points; whose practical it is stood on the button before."""
    first = start_watching(bo, kitchen)
    begun = bo.open(first.path.rsplit("/", 1)[0])
    assert begun.soup.select("a.stop")
    assert begun.soup.select(".top-title b")[0].get_text() == "Ana"
    assert begun.soup.select(".top-title span")[0].get_text() == "Pasta room"


def watch_all(bo: Hands, kitchen: Kitchen) -> Seen:
    """Let Bo see all three points met; return the record as it will be kept."""
    start_watching(bo, kitchen)
    bo.press("Meets it")
    take_all(bo, WEIGHTS)
    return bo.press("Meets it")


def test_a_cook_who_asked_for_two_things_is_one_ticket(bo: Hands, kitchen: Kitchen) -> None:
    """One name, a line a technique, longest wait first; each has a button of its own."""
    ask(kitchen, "ana", days=1)
    write(kitchen, "technique_read", "ana", {"technique": "sauce", "edition": 1}, days=3)
    write(kitchen, "watch_asked", "ana", {"technique": "sauce"}, days=2)
    page = bo.open("/ready")
    (ticket,) = page.soup.select(".rail .ticket")
    lines = [line.b.get_text() for line in ticket.select(".asked-for") if line.b]
    assert lines == ["Butter sauce", "Pasta nesting"]


def test_an_assessor_starts_on_who_is_ready_to_show(bo: Hands) -> None:
    """The first page after signing in is the list of who waits; empty, it says so."""
    page = bo.open("/")
    assert page.path == "/ready"
    assert "No one is waiting to be watched." in page.work


def test_the_longest_wait_comes_first(bo: Hands, kitchen: Kitchen) -> None:
    """Of two who wait, the one who asked first stands on top, with how long."""
    clear(kitchen, "bo")
    ask(kitchen, "ana", days=1)
    ask(kitchen, "dev", days=3)
    page = bo.open("/ready")
    assert [h.get_text() for h in page.soup.select("ol h3")] == ["Dev Karim", "Ana Pardo"]
    assert "Waiting 3 days" in page.work


def test_who_may_not_sign_is_told_why_and_who_can(bo: Hands, kitchen: Kitchen) -> None:
    """An assessor not cleared there gets no button, but the reason."""
    ask(kitchen, "ana")
    page = bo.open("/ready")
    assert "Not for you to sign." in page.work
    assert not page.soup.select("ol form")


def test_hazards_come_before_the_first_point(bo: Hands, kitchen: Kitchen) -> None:
    """Beginning a practical shows every hazard of the technique and its allergens."""
    clear(kitchen, "bo")
    ask(kitchen, "ana")
    bo.open("/ready")
    page = bo.press("Watch Ana, Ana Pardo, Pasta nesting")
    assert page.heading == "Pasta nesting"
    assert "Keep fingers out of the die" in page.work
    assert "wheat, egg" in page.work


def test_a_measured_point_shows_its_line_and_a_slot_a_piece(bo: Hands, kitchen: Kitchen) -> None:
    """Five pieces are five slots, under the line in its own unit; one of them is on screen."""
    start_watching(bo, kitchen)
    page = bo.press("Meets it")
    assert page.heading == "Nests weigh the same."
    assert "from 4.3 to 4.7 oz" in page.work
    assert "4 of 5 inside" in page.work
    assert page.field("Weight 1 of 5")["inputmode"] == "decimal"
    assert len(page.soup.select(".slots li")) == 5


def test_units_and_fractions_are_taken_as_typed(bo: Hands, kitchen: Kitchen) -> None:
    """Readings in grams and in fractions of an ounce are kept as typed."""
    page = watch_all(bo, kitchen)
    assert page.heading == "The record as it will be kept"
    assert "4.5 oz, 128 g, 4 1/2 oz, 4.4 oz, 5 oz" in page.work


def test_numbers_outside_cannot_meet_it(bo: Hands, kitchen: Kitchen) -> None:
    """Meets it over readings outside is refused, and the reading stays in its field."""
    start_watching(bo, kitchen)
    bo.press("Meets it")
    page = take_all(bo, {**WEIGHTS, "reading_4": "4.8", "reading_5": "6 oz"})
    assert page.status == 400
    assert "the readings decide" in page.problems[0]
    assert page.field("Weight 5 of 5")["value"] == "6 oz"
    assert page.title.startswith("Error: ")


def test_a_reading_that_is_no_number_is_named(bo: Hands, kitchen: Kitchen) -> None:
    """A word in a reading's field is refused at that field, with the word."""
    start_watching(bo, kitchen)
    bo.press("Meets it")
    page = take_all(bo, {**WEIGHTS, "reading_2": "heavy"})
    assert "heavy" in page.problems[0]
    assert page.field("Weight 2 of 5")["aria-invalid"] == "true"


def test_not_yet_over_good_numbers_asks_for_a_note(bo: Hands, kitchen: Kitchen) -> None:
    """Being stricter than the numbers needs a note, and the note's field says so."""
    start_watching(bo, kitchen)
    bo.press("Meets it")
    page = take_all(bo, WEIGHTS, "Not yet")
    assert page.field("Note")["aria-invalid"] == "true"


def test_the_two_answers_look_alike(bo: Hands, kitchen: Kitchen) -> None:
    """Meets it and Not yet are buttons of one class: colour does not lead the hand."""
    page = start_watching(bo, kitchen)
    assert page.button("Meets it")["class"] == page.button("Not yet")["class"]


def test_every_answer_is_kept_at_once(bo: Hands, kitchen: Kitchen, sign_in: Callable[[str], Hands]) -> None:
    """On another device the assessor comes back to the same point."""
    start_watching(bo, kitchen)
    bo.press("Meets it")
    again = sign_in("bo")
    page = again.open("/ready")
    assert "1 of 3 points seen." in page.work
    again.follow("Go on")
    assert again.follow("Go on at point 2").heading == "Nests weigh the same."


def test_unsafe_goes_straight_to_the_record(bo: Hands, kitchen: Kitchen) -> None:
    """After Stop: unsafe nothing more is watched; the verdict is stopped."""
    start_watching(bo, kitchen)
    bo.press("Stop: unsafe")
    page = bo.press("Yes, it was unsafe")
    assert page.heading == "The record as it will be kept"
    assert "Verdict: Stopped" in page.work


def test_the_record_names_edition_station_and_verdict(bo: Hands, kitchen: Kitchen) -> None:
    """Before signing, everything that will be kept is on the page."""
    page = watch_all(bo, kitchen)
    for words in ("Ana Pardo", "Pasta nesting", "Edition 2", "Pasta room", "Bo Lind", "Verdict: Meets it", "Line:"):
        assert words in page.work


def test_the_verdict_stands_before_the_points(bo: Hands, kitchen: Kitchen) -> None:
    """Verdict first, then every point, then the signature."""
    work = watch_all(bo, kitchen).work
    assert work.index("Verdict: Meets it") < work.index("The guard is on.") < work.index("You sign as")


def test_signing_asks_for_the_pin_again(bo: Hands, kitchen: Kitchen) -> None:
    """A wrong PIN signs nothing, and the note typed stays."""
    watch_all(bo, kitchen)
    page = bo.press("Sign", {"Your PIN": "11112222"}, note="Clean hands.")
    assert page.problems == ["That is not your PIN or passphrase. Nothing was saved yet."]
    assert "Clean hands." in str(page.field("Note"))
    assert kitchen.progress().record("ana").watched == ()


def test_an_empty_pin_signs_nothing(bo: Hands, kitchen: Kitchen) -> None:
    """No PIN typed, nothing saved, and it says so."""
    watch_all(bo, kitchen)
    page = bo.press("Sign")
    assert "Nothing was saved yet." in page.problems[0]


def test_a_signed_practical_is_on_the_spike(bo: Hands, kitchen: Kitchen) -> None:
    """The right PIN signs; the page says when it was saved and shows the record as kept."""
    watch_all(bo, kitchen)
    page = bo.press("Sign", {"Your PIN": PIN})
    assert page.heading == "Saved 12:00"
    assert "4.5 oz, 128 g, 4 1/2 oz, 4.4 oz, 5 oz" in page.work
    (watched,) = kitchen.progress().record("ana").watched
    assert (watched.verdict, watched.by, watched.edition) == ("meets it", "bo", 2)


def test_sending_the_signature_twice_writes_one_entry(bo: Hands, kitchen: Kitchen) -> None:
    """The same form sent again gives the same page, and one entry."""
    watch_all(bo, kitchen)
    record = bo.page
    bo.press("Sign", {"Your PIN": PIN})
    bo.page = record
    page = bo.press("Sign", {"Your PIN": PIN})
    assert page.heading == "Saved 12:00"
    assert len(kitchen.progress().record("ana").watched) == 1


def test_an_assessor_who_helped_can_say_not_yet_at_most(bo: Hands, kitchen: Kitchen) -> None:
    """Ticked, every point met is not yet, with that as its reason and no note needed (DOE-HDBK-1074-95, appendix C)."""
    watch_all(bo, kitchen)
    page = bo.press("Sign", {"Your PIN": PIN}, coached="y")
    assert "Verdict: Not yet" in page.work
    assert "The assessor helped or prompted: not yet at most." in page.work


def test_an_assessor_can_say_not_yet_all_the_same_with_a_note(bo: Hands, kitchen: Kitchen) -> None:
    """Without the note nothing is saved, and the tick stays."""
    watch_all(bo, kitchen)
    page = bo.press("Sign", {"Your PIN": PIN}, not_yet="y")
    assert page.problems == ["The points say meets it: say in the note why it is not yet."]
    page = bo.press("Sign", {"Your PIN": PIN}, not_yet="y", note="Slow, and the board was wet.")
    assert "The assessor says not yet: Slow, and the board was wet." in page.work


def test_a_practical_belongs_to_who_watches(bo: Hands, ana: Hands, cleo: Hands, kitchen: Kitchen) -> None:
    """Cook and manager cannot open an assessor's practical."""
    start_watching(bo, kitchen)
    path = bo.page.path
    assert ana.open(path).status == 403
    assert cleo.open(path).status == 403


def test_putting_it_away_is_asked_once_and_writes_nothing(bo: Hands, kitchen: Kitchen) -> None:
    """A practical put away unsigned is gone from the list and not in the book."""
    watch_all(bo, kitchen)
    bo.follow("Put this away unsigned")
    page = bo.press("Put it away")
    assert page.path == "/ready"
    assert "In your hand" not in page.work
    assert kitchen.progress().record("ana").watched == ()


def test_a_cook_who_has_not_studied_is_not_watched(bo: Hands, kitchen: Kitchen) -> None:
    """Choosing a person who has not passed the quiz is refused with what is missing, both choices kept."""
    clear(kitchen, "bo")
    bo.open("/practicals/new")
    page = bo.press("Watch", cook="ana", technique="nests")
    assert page.problems
    assert page.soup.select_one("#cook option[selected]")["value"] == "ana"  # type: ignore[index]


def test_a_supervised_shift_is_kept(bo: Hands, kitchen: Kitchen) -> None:
    """Cook, station, day, beside whom and guests make one entry."""
    clear(kitchen, "bo")
    bo.open("/shifts-worked/new")
    answers: dict[str, Any] = {
        "cook": "ana",
        "station": "pasta_room",
        "beside": "bo",
        "guests": "64",
        "sitting": "dinner",
    }
    page = bo.press("Keep this shift", secret=PIN, **answers)
    assert "dinner begins no earlier than 15:00" in page.problems[0]
    page = bo.press("Keep this shift", secret=PIN, **{**answers, "sitting": "lunch"})
    assert page.path == "/ready", page.work
    (worked,) = kitchen.progress().record("ana").shifts
    assert (worked.station, worked.beside) == ("pasta_room", "bo")


def test_after_midnight_the_form_has_the_day_of_the_dinner(sign_in: Callable[[str], Hands], clock: Clock) -> None:
    """Who opens it at half past midnight signs what was served that night."""
    evening = clock().date().isoformat()
    clock.pass_by(hours=12, minutes=30)
    assert sign_in("bo").open("/shifts-worked/new").field("Day")["value"] == evening


def test_a_shift_form_keeps_what_was_typed(bo: Hands) -> None:
    """A day that is no day is named at its field, and everything else stays."""
    bo.open("/shifts-worked/new")
    page = bo.press("Keep this shift", worked_on="yesterday", guests="about forty", cook="ana")
    assert page.field("Day")["value"] == "yesterday"
    assert any("“yesterday” is not a day" in problem for problem in page.problems)
    assert any("“about forty” is not a whole number" in problem for problem in page.problems)
    assert page.soup.select_one("#cook option[selected]")["value"] == "ana"  # type: ignore[index]


def test_a_right_lost_meanwhile_signs_nothing(bo: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """Stood down between watching and signing, an assessor is refused, and the record waits."""
    watch_all(bo, kitchen)
    write(kitchen, "stood_down", "bo", {"station": "pasta_room", "reason": "Cut hand."}, by="cleo", days=0)
    clock.pass_by(seconds=5)
    page = bo.press("Sign", {"Your PIN": PIN})
    assert page.status == 400
    assert kitchen.progress().record("ana").watched == ()


def test_after_not_yet_one_tap_says_that_it_was_shown(bo: Hands, kitchen: Kitchen) -> None:
    """Once, five minutes; the next signature says that its signer taught it."""
    clear(kitchen, "bo")
    entry = sign(kitchen, "ana", by="bo", days=0)
    assert "I showed what was wrong" not in bo.open(f"/practicals/kept/{entry.id}").work
    body = {**entry.body, "verdict": "not yet"}
    failed = write(kitchen, "practical_watched", "ana", body, by="bo", days=0)
    bo.open(f"/practicals/kept/{failed.id}")
    page = bo.press("I showed what was wrong, 5 min")
    assert "You showed what was wrong, 5 min." in page.work
    (taught,) = kitchen.file.book.of_kind("technique_taught")
    assert (taught.cook, taught.by, taught.body["minutes"]) == ("ana", "bo", 5)
    again = write(kitchen, "practical_watched", "ana", {**entry.body, "taught_by": [taught.id]}, by="bo", days=0)
    assert "Taught by the signer." in bo.open(f"/practicals/kept/{again.id}").work


def test_an_open_practical_is_handed_on_and_signed_by_the_other(
    bo: Hands, sign_in: Callable[[str], Hands], kitchen: Kitchen
) -> None:
    """Who took it sees the rest; the record tells of each point who saw it; Bo has it no more."""
    write(kitchen, "cook_changed", "dev", {"roles": ["cook", "assessor"]}, by="cleo", days=60)
    everything = {"scope": {"all": True}, "from": "2026-09-01", "until": "2027-09-01", "may": ["sign"]}
    write(kitchen, "authority_given", "dev", everything, by="cleo", days=60)
    study(kitchen, "dev")
    sign(kitchen, "dev", by="cleo")
    start_watching(bo, kitchen)
    bo.press("Meets it")
    bo.press("Save 1 of 5", reading_1="9 oz")
    practical = kitchen.file.drafts.list("practical")[0].id
    bo.open(f"/practicals/{practical}/record")
    page = bo.follow("Hand this on to another assessor")
    assert "Ana Pardo: Pasta nesting. 1 of 3 points seen." in page.work
    assert bo.press("Hand it on").problems == ["Who goes on with it: choose one from the list."]
    assert bo.press("Hand it on", to="dev").path == "/ready"
    assert bo.open(f"/practicals/{practical}/record").status == 404
    dev = sign_in("dev")
    dev.open(f"/practicals/{practical}/2")
    take_all(dev, WEIGHTS)
    dev.press("Meets it")
    dev.press("Sign", {"Your PIN": PIN})
    assert "Bo Lind" in dev.page.work
    entry = kitchen.file.book.of_kind("practical_watched")[-1]
    assert (entry.by, [point["looks"][0]["by"] for point in entry.body["points"]]) == ("dev", ["bo", "dev", "dev"])


def test_with_nobody_to_take_it_the_page_says_so(bo: Hands, kitchen: Kitchen) -> None:
    """No list to choose from, and no button."""
    start_watching(bo, kitchen)
    practical = kitchen.file.drafts.list("practical")[0].id
    assert "Nobody else can sign this today." in bo.open(f"/practicals/{practical}/hand-on").work
