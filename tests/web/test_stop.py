"""A stop on the pages: it stays, who watches already is said, a manager releases it, the cook reads what is next."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from tests.web.conftest import NOON, PASSPHRASE, PIN, Clock
from tests.web.hands import Hands, Seen, take_all
from tests.web.kitchen_people import ask, clear, sign, study, write
from tests.web.test_assessor import start_watching, watch_all
from trainer.actions.authorizing import give_with_role
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import Entry

SHOWN = {"What was shown": "Shown again.", "Minutes": "20", "Your PIN or passphrase": PASSPHRASE}
STOPPED = "Pasta nesting: stopped for safety on 3 November 2026 at “The guard is on”."


@pytest.fixture
def eve(kitchen: Kitchen, sign_in: Callable[[str], Hands]) -> Hands:
    """Return Dev as a second assessor, cleared in the pasta room."""
    study(kitchen, "dev")
    sign(kitchen, "dev", by="bo")
    roles = write(kitchen, "cook_changed", "dev", {"roles": ["cook", "assessor"]}, by="cleo", days=2)
    give_with_role(kitchen, roles, (), roles.at)
    return sign_in("dev")


def stop(bo: Hands, kitchen: Kitchen) -> Seen:
    """Let Bo stop Ana for safety at the first point, and sign it."""
    start_watching(bo, kitchen)
    bo.press("Stop: unsafe")
    bo.press("Yes, it was unsafe")
    return bo.press("Sign the stop", {"Your PIN": PIN})


def the_stop(kitchen: Kitchen) -> Entry:
    """Return the stop in the book."""
    return next(entry for entry in kitchen.file.book.since(0) if entry.body.get("verdict") == "stopped")


def test_unsafe_leaves_only_stop_and_sign(bo: Hands, kitchen: Kitchen) -> None:
    """The point seen again says so and has no answers; nor is there a way to put it away, or to change the point."""
    first = start_watching(bo, kitchen).path
    bo.press("Stop: unsafe")
    record = bo.press("Yes, it was unsafe")
    assert "Put this away unsigned" not in record.work
    assert not record.soup.find("a", string="Change")
    assert "until a manager releases the stop" in record.work
    page = bo.open(first)
    assert "You saw something unsafe. That stays. Stop the work, and sign the stop." in page.work
    assert not page.soup.select("button[name=seen]")
    assert bo.follow("Sign the stop").heading == "The record as it will be kept"


def test_an_old_page_of_the_point_does_not_unsee_it(bo: Hands, kitchen: Kitchen) -> None:
    """Sent from a page opened before: refused, and the stop stays."""
    start_watching(bo, kitchen)
    before = bo.page
    bo.press("Stop: unsafe")
    bo.press("Yes, it was unsafe")
    bo.page = before
    page = bo.press("Meets it")
    assert page.problems == ["You saw something unsafe here. That stays: sign the stop."]
    assert "Verdict: Stopped" in bo.open(page.link("Sign the stop")).work


def test_a_stop_is_not_put_away(bo: Hands, kitchen: Kitchen) -> None:
    """Not by its address either."""
    path = start_watching(bo, kitchen).path.rsplit("/", 1)[0]
    bo.open(f"{path}/drop")
    before = bo.page
    bo.open(f"{path}/1")
    bo.press("Stop: unsafe")
    bo.press("Yes, it was unsafe")
    bo.page = before
    assert bo.press("Put it away").problems == ["You saw something unsafe, so this cannot be put away. Sign the stop."]


def test_after_a_stop_the_board_says_off_and_why(bo: Hands, cleo: Hands, ana: Hands, kitchen: Kitchen) -> None:
    """No ready to show: manager and cook read the reason and what to do next."""
    stop(bo, kitchen)
    why = cleo.open("/board/ana/pasta_room")
    assert "Stood down" in why.work
    assert STOPPED in why.work
    assert "Next: A manager releases the stop, with a reason; then the cook is watched anew." in why.work
    rail = ana.open("/rail")
    assert f"{STOPPED} A manager releases the stop" in rail.work
    assert "Ask to be watched" not in rail.work
    assert "Ask to be watched" not in ana.open("/techniques/nests").work
    assert "Next: A manager releases the stop" in ana.open("/record").work


def test_a_manager_releases_a_stop_with_a_reason_and_the_secret(bo: Hands, cleo: Hands, kitchen: Kitchen) -> None:
    """Without the reason or with a wrong secret nothing is saved and what was typed stays; then it is in the book."""
    stop(bo, kitchen)
    cleo.open("/cooks/ana")
    page = cleo.follow(f"Release the stop: {STOPPED}")
    assert page.heading == "Release the stop of Ana Pardo"
    assert STOPPED in page.work
    page = cleo.press("Release the stop", {**SHOWN, "What was shown": " "}, taught_by="bo")
    assert page.problems == ["Write what was shown. It stays in the book."]
    page = cleo.press("Release the stop", {**SHOWN, "Your PIN or passphrase": "no"}, taught_by="bo")
    assert page.problems == ["That is not your PIN or passphrase. Nothing was saved yet."]
    assert "Shown again." in str(page.field("What was shown"))
    page = cleo.press("Release the stop", SHOWN, taught_by="bo")
    assert (page.path, "Saved" in page.work) == ("/cooks/ana", True)
    assert "Release the stop" not in page.work
    book = cleo.open("/book").work
    for words in (
        "Stop released",
        f"Releases the stop in entry {the_stop(kitchen).seq}",
        "Shown by Bo Lind, 20 minutes: Shown again.",
        "To be watched again from Wed 4 Nov 2026",
    ):
        assert words in book
    assert cleo.open(f"/cooks/ana/stops/{the_stop(kitchen).id}/release").status == 404


def test_sending_a_release_twice_writes_one_entry(bo: Hands, cleo: Hands, kitchen: Kitchen) -> None:
    """The same form sent again comes to the same page."""
    stop(bo, kitchen)
    cleo.open(f"/cooks/ana/stops/{the_stop(kitchen).id}/release")
    form = cleo.page
    for _ in range(2):
        cleo.page = form
        assert cleo.press("Release the stop", SHOWN, taught_by="bo").path == "/cooks/ana"
    assert len([entry for entry in kitchen.file.book.since(0) if entry.kind == "stop_released"]) == 1


def test_no_manager_releases_their_own(cleo: Hands, kitchen: Kitchen) -> None:
    """The page says who does."""
    write(kitchen, "cook_changed", "cleo", {"roles": ["cook", "manager"]}, by="bo", days=2)
    points = [{"point": "guard_on", "seen": "unsafe", "readings": [], "note": ""}]
    body: dict[str, Any] = {"technique": "nests", "edition": 2, "station": "pasta_room", "points": points}
    body |= {"verdict": "stopped", "reasons": [], "note": ""}
    write(kitchen, "practical_watched", "cleo", body, by="bo", days=0)
    page = cleo.open("/cooks/cleo")
    assert "Another manager releases it." in page.work
    assert "Release the stop" not in page.work
    assert "Release the stop" not in cleo.open("/board/cleo/pasta_room").work


def test_the_cell_leads_to_the_release(bo: Hands, cleo: Hands, kitchen: Kitchen) -> None:
    """Putting back would not help: that is for who was taken off by hand."""
    stop(bo, kitchen)
    page = cleo.open("/board/ana/pasta_room")
    assert "Put back on this station" not in page.work
    assert cleo.follow("Release the stop").heading == "Release the stop of Ana Pardo"


def test_after_a_release_the_cook_asks_and_is_watched_anew(
    bo: Hands, cleo: Hands, kitchen: Kitchen, clock: Clock, sign_in: Callable[[str], Hands]
) -> None:
    """From stop to cleared, page by page; on the day of the release nobody is watched again."""
    stop(bo, kitchen)
    clock.pass_by(minutes=1)
    cleo.open(f"/cooks/ana/stops/{the_stop(kitchen).id}/release")
    cleo.press("Release the stop", SHOWN, taught_by="bo")
    ana = sign_in("ana")
    ana.open("/rail")
    page = ana.press("Ask to be watched")
    assert "To be watched again from 4 November 2026." in page.work
    clock.pass_by(days=1)
    ana = sign_in("ana")
    ana.open("/rail")
    ana.press("Ask to be watched")
    clock.pass_by(minutes=1)
    bo = sign_in("bo")
    bo.open("/ready")
    bo.press("Watch Ana, Ana Pardo, Pasta nesting")
    bo.follow("Start")
    bo.press("Meets it")
    weights: dict[str, Any] = {f"reading_{number}": "4.5" for number in range(1, 6)}
    take_all(bo, weights)
    bo.press("Meets it")
    page = bo.press("Sign", {"Your PIN": PIN})
    assert page.heading == "Saved 12:02"
    assert kitchen.board(kitchen.today(clock())).rows[0].clearances[0].state == "cleared"


def test_a_second_practical_says_who_watches_already(bo: Hands, eve: Hands, kitchen: Kitchen) -> None:
    """On the list, before the first point and over the signature; and to the first one as well."""
    words = "Bo Lind watches this already, since 12:00. Only one can be signed: the first."
    start_watching(bo, kitchen)
    ready = eve.open("/ready")
    assert words in ready.work
    page = eve.press("Watch Ana, Ana Pardo, Pasta nesting")
    assert words in page.work
    assert words in eve.open(f"{page.path}/record").work
    assert "Dev Karim watches this already, since 12:00." in bo.open("/ready").work


def test_a_practical_of_an_edition_replaced_meanwhile_says_so_before_its_next_point(
    bo: Hands, kitchen: Kitchen
) -> None:
    """Anyone who goes on is told at once, not at the signature after every point."""
    path = start_watching(bo, kitchen).path.rsplit("/", 1)[0]
    words = "You watched edition 2; edition 3 is in force. Watch it anew."
    assert words not in bo.open(path).work
    technique = kitchen.content.techniques["nests"]
    newer = replace(technique.editions[-1], number=3, since=kitchen.today(NOON))
    techniques = {**kitchen.content.techniques, technique.id: replace(technique, editions=(*technique.editions, newer))}
    kitchen.content = replace(kitchen.content, techniques=techniques)
    assert words in bo.open(path).work


def test_an_open_sign_off_of_another_does_not_wipe_a_stop(
    bo: Hands, eve: Hands, kitchen: Kitchen, clock: Clock
) -> None:
    """Dev saw every point met before Bo's stop, and signs after it: refused, with by whom and when."""
    watch_all(eve, kitchen)
    path = eve.page.path
    clock.pass_by(minutes=3)
    bo.open("/ready")
    bo.press("Watch Ana, Ana Pardo, Pasta nesting")
    bo.follow("Start")
    bo.press("Stop: unsafe")
    bo.press("Yes, it was unsafe")
    bo.press("Sign the stop", {"Your PIN": PIN})
    clock.pass_by(minutes=1)
    eve.open(path)
    page = eve.press("Sign", {"Your PIN": PIN})
    assert page.problems == [
        "Bo Lind signed a practical of Ana Pardo in this technique on 3 November 2026 at 12:03: stopped. "
        "You had begun yours before that, so it cannot be signed: put it away."
    ]
    assert [line.verdict for line in kitchen.progress().record("ana").watched] == ["stopped"]


def test_an_assessor_off_the_station_gets_no_button(bo: Hands, eve: Hands, kitchen: Kitchen) -> None:
    """Taken off the pasta room: why, and who can instead."""
    clear(kitchen, "bo")
    ask(kitchen, "ana")
    write(kitchen, "stood_down", "bo", {"station": "pasta_room", "reason": "Cut hand."}, by="cleo", days=0)
    page = bo.open("/ready")
    assert "Not for you to sign. Bo Lind is off the station today: Pasta room. Dev Karim can sign." in page.work
    assert not page.soup.select("ol form")
    assert eve.open("/ready").soup.select("ol form")


def test_a_clock_behind_is_told_on_the_page(ana: Hands, kitchen: Kitchen) -> None:
    """The last entry is two days ahead: nothing is saved, in plain words, with what to do."""
    write(kitchen, "technique_read", "dev", {"technique": "sauce", "edition": 1}, days=-2)
    ana.go_through("sauce")
    page = ana.press("I have read edition 1")
    assert page.problems == [
        "This machine's clock is behind the last entry (5 Nov / 3 Nov). Nothing was saved. "
        "Set the clock right, then send this again. If it is right now and ran ahead before: trainer clock correct"
    ]
    assert kitchen.progress().record("ana").read == ()
