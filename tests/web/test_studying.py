"""Studying in the hand: come back to the same step, a clock that runs on, questions that count for nothing."""

from __future__ import annotations

from datetime import date

import pytest

from tests.web.conftest import NOON, Clock
from tests.web.hands import Hands
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import NewEntry
from trainer.kitchen.technique import Technique
from trainer.store import connections
from trainer.store.drafts import Draft


def timed(kitchen: Kitchen) -> tuple[Technique, int]:
    """Return a technique with a step that takes so many seconds, and that step's number."""
    for technique in kitchen.content.techniques.values():
        for number, step in enumerate(technique.steps, 1):
            if step.seconds:
                return technique, number
    raise AssertionError("no step of the small kitchen takes its time")


def test_a_cook_goes_on_at_the_step_they_had_come_to(ana: Hands, kitchen: Kitchen) -> None:
    """Close the phone at step two and come back: the technique leads there."""
    technique = next(t for t in kitchen.content.techniques.values() if len(t.steps) > 1)
    ana.open(f"/techniques/{technique.id}/steps/1")
    assert ana.open(f"/techniques/{technique.id}").link(f"Start: {technique.steps[0].title}").endswith("/steps/1")
    ana.open(f"/techniques/{technique.id}/steps/2")
    assert ana.open(f"/techniques/{technique.id}").link(f"Go on: {technique.steps[1].title}").endswith("/steps/2")


def test_what_was_begun_comes_first(ana: Hands, kitchen: Kitchen) -> None:
    """What a person is in the middle of comes before what they have not begun, with the step they came to."""
    last = [t for t in kitchen.content.techniques.values() if len(t.steps) > 1][-1]
    ana.open(f"/techniques/{last.id}/steps/2")
    first = ana.open("/").soup.select_one(".ticket.next")
    assert first is not None
    assert " ".join(first.get_text(" ").split()).startswith(f"{last.title} studying Step 2 of ")
    assert ana.page.link(f"Go on: {last.steps[1].title}") == f"/techniques/{last.id}/steps/2"


def test_reading_it_lets_the_place_go(ana: Hands, kitchen: Kitchen) -> None:
    """Who has said that it is read begins at the first step the next time."""
    technique = next(t for t in kitchen.content.techniques.values() if len(t.steps) > 1)
    ana.open(f"/techniques/{technique.id}/steps/2")
    ana.go_through(technique.id)
    edition = technique.edition_on(date(2026, 11, 3)).number
    ana.press(f"I have read edition {edition}")
    assert kitchen.file.drafts.list("place", cook="ana") == ()


@pytest.mark.parametrize("ahead", ["prefetch", "prefetch;prerender", "head"])
def test_a_browser_that_fetches_ahead_moves_nobody(ana: Hands, kitchen: Kitchen, ahead: str) -> None:
    """The place is where a person looked. Sec-Purpose: Fetch Standard, section 3.6 (from memory)."""
    technique = next(t for t in kitchen.content.techniques.values() if len(t.steps) > 1)
    address = f"/techniques/{technique.id}/steps/2"
    if ahead == "head":
        assert ana.client.head(address).status_code == 200
    else:
        assert ana.client.get(address, headers={"Sec-Purpose": ahead}).status_code == 200
    assert kitchen.file.drafts.list("place") == ()


def test_a_step_can_be_read_while_nothing_can_be_kept(
    ana: Hands, kitchen: Kitchen, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another person holds the file, as a full disk would: the step is there all the same, a minute later too."""
    technique = next(t for t in kitchen.content.techniques.values() if len(t.steps) > 1)
    monkeypatch.setattr(connections, "BUSY_SECONDS", 0)
    kitchen.file.close()
    holder = connections.engine.connect(str(kitchen.file.path), isolation_level=None)
    try:
        holder.execute("BEGIN IMMEDIATE")
        clock.pass_by(minutes=1)
        assert ana.open(f"/techniques/{technique.id}/steps/2").status == 200
    finally:
        holder.close()
    assert kitchen.file.drafts.list("place") == ()


def test_work_under_an_id_like_that_of_a_place_stops_no_other_cook(ana: Hands, kitchen: Kitchen) -> None:
    """A key comes by a form, so a sitting of Dev's may have the id that Ana's place or clock would have."""
    technique, number = timed(kitchen)
    for kind in ("place", "clock"):
        name = f"{kind}:ana:{technique.id}"
        kitchen.file.drafts.put(Draft(name, "sitting", technique.id, "dev", "dev", {"seed": 1}, NOON))
    assert ana.open(f"/techniques/{technique.id}").status == 200
    assert ana.open(f"/techniques/{technique.id}/steps/{number}").status == 200


def test_the_words_a_cook_needs_are_on_every_step(ana: Hands, kitchen: Kitchen) -> None:
    """Nobody leaves a step to look up a word."""
    technique = next(t for t in kitchen.content.techniques.values() if t.words)
    ana.open(f"/techniques/{technique.id}/steps/1")
    assert technique.words[0].means in ana.page.work


def test_a_clock_counts_from_its_kept_start(ana: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """A phone that sleeps through the time finds that it is up; the start is kept by the kitchen, not by the page."""
    technique, number = timed(kitchen)
    seconds = technique.steps[number - 1].seconds or 0
    ana.open(f"/techniques/{technique.id}/steps/{number}")
    ana.press("Start the clock")
    shown = ana.page.soup.select_one("[role=timer]")
    assert shown is not None
    assert int(str(shown["data-until"])) - int(str(shown["data-now"])) == seconds * 1000
    clock.pass_by(seconds=seconds - 1)
    assert "Time is up" not in ana.open(f"/techniques/{technique.id}/steps/{number}").running
    clock.pass_by(seconds=1)
    assert "Time is up" in ana.open(f"/techniques/{technique.id}/steps/{number}").running


def test_a_clock_can_be_stopped(ana: Hands, kitchen: Kitchen) -> None:
    """A clock started by mistake is stopped, and can be started again."""
    technique, number = timed(kitchen)
    ana.open(f"/techniques/{technique.id}/steps/{number}")
    ana.press("Start the clock")
    ana.press("Stop")
    assert ana.page.button("Start the clock")


def test_a_question_to_try_counts_for_nothing(ana: Hands, kitchen: Kitchen) -> None:
    """It is graded at once, with the sum worked; nothing of it is in the book."""
    before = kitchen.file.book.end()
    technique = next(t for t in kitchen.content.techniques.values() if t.questions)
    family = technique.questions[0].family
    page = ana.open(f"/techniques/{technique.id}/try/{family}?seed=7&answer=0.001")
    assert "Right" in page.work
    assert page.soup.select("ol.worked li")
    assert kitchen.file.book.end() == before


def test_an_answer_that_cannot_be_read_is_asked_again(ana: Hands, kitchen: Kitchen) -> None:
    """What was typed stays, and the question is the same one."""
    technique = next(t for t in kitchen.content.techniques.values() if t.questions)
    family = technique.questions[0].family
    asked = ana.open(f"/techniques/{technique.id}/try/{family}?seed=7").heading
    page = ana.open(f"/techniques/{technique.id}/try/{family}?seed=7&answer=lots")
    assert (page.status, page.heading) == (400, asked)
    assert page.field("Your answer")["value"] == "lots"


def test_there_is_no_question_of_a_kind_the_technique_does_not_ask(ana: Hands, kitchen: Kitchen) -> None:
    """An address with another family is a plain page that says so."""
    technique = next(t for t in kitchen.content.techniques.values() if t.questions)
    assert ana.open(f"/techniques/{technique.id}/try/no_such_family").status == 404


def test_reading_is_said_after_every_step_alone(ana: Hands, kitchen: Kitchen) -> None:
    """Whoever skips steps is led to the first of them; whoever was at each, in any sequence, may say it."""
    page = ana.open("/techniques/nests/after")
    assert page.link("Go on: Catch") == "/techniques/nests/steps/1"
    assert "I have read" not in page.work
    ana.open("/techniques/nests/steps/3")
    ana.open("/techniques/nests/steps/1")
    assert ana.open("/techniques/nests/after").link("Go on: Weigh").endswith("/steps/2")
    ana.open("/techniques/nests/steps/2")
    ana.open("/techniques/nests/after")
    ana.press("I have read edition 2")
    assert kitchen.file.book.since(0)[-1].kind == "technique_read"


def test_reading_sent_past_the_steps_is_refused(ana: Hands, kitchen: Kitchen) -> None:
    """The form alone, sent by hand, says nothing read."""
    ana.go_through("nests")
    button = ana.page.button("I have read edition 2")
    form = button.find_parent("form")
    assert form is not None
    data = {str(i["name"]): str(i["value"]) for i in form.find_all("input")}
    kitchen.file.drafts.delete("place:ana:nests")
    answer = ana.client.post("/techniques/nests/after", data=data)
    assert answer.status_code == 400
    assert "Go through the steps first, from" in answer.text
    assert all(entry.kind != "technique_read" or entry.cook != "ana" for entry in kitchen.file.book.since(0))


def test_steps_are_listed_with_what_is_read_and_where_the_reader_is(ana: Hands) -> None:
    """Each step stands by its name, with read, here, or nothing."""
    ana.open("/techniques/nests/steps/3")
    ana.open("/techniques/nests/steps/2")
    rows = ana.open("/techniques/nests/steps").soup.select(".groups a")
    marks = [mark.get_text() if (mark := row.select_one(".mark")) else "" for row in rows]
    assert marks == ["", "here", "read"]
    assert [str(row["href"])[-1] for row in rows] == ["1", "2", "3"]


def test_a_place_an_older_program_kept_counts_up_to_its_furthest_step(ana: Hands, kitchen: Kitchen) -> None:
    """Who was in the middle of reading when the program was renewed goes on from there."""
    steps = kitchen.content.techniques["nests"].steps
    body = {"step": steps[0].id, "furthest": steps[1].id}
    kitchen.file.drafts.put(Draft("place:ana:nests", "place", "nests", "ana", "ana", body, NOON))
    rows = ana.open("/techniques/nests/steps").soup.select(".groups a")
    assert [bool(row.select_one(".mark")) for row in rows] == [True, True, False]
    assert ana.open("/techniques/nests/after").link(f"Go on: {steps[2].title}").endswith("/steps/3")


def test_a_reader_of_an_older_edition_gets_what_changed(ana: Hands, kitchen: Kitchen) -> None:
    """Who read edition 1 sees what edition 2 changed, and may say at once that it is read."""
    body = {"technique": "nests", "edition": 1}
    kitchen.file.book.append(NewEntry("technique_read", NOON, "ana", "ana", body, "earlier"))
    technique = kitchen.content.techniques["nests"]
    page = ana.open("/techniques/nests")
    assert "New since you read it" in page.work
    assert technique.editions[1].changed in page.work
    assert technique.editions[0].changed not in page.work.replace(technique.editions[1].changed, "")
    ana.open("/techniques/nests/after")
    assert "Saved" in ana.press("I have read edition 2").work
    assert "New since you read it" not in ana.open("/techniques/nests").work
