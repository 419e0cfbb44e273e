"""Without network: a phone goes on reading and answering, and what it did is in the book once when the network is back.

The server's clock is days behind the phone's, so that every moment told by the phone would be wrong by itself.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from time import monotonic, sleep

import pytest
from playwright.sync_api import Browser, expect

from tests.browser.engine import Served
from tests.browser.journeys import (
    answer,
    begin,
    first_name,
    person_id,
    question_alone,
    question_before,
    ready_to_show,
    right,
    sign,
    step_in,
    watch,
)
from tests.browser.somebody import Somebody
from trainer.actions import answering, asking_skills, studying, watching
from trainer.actions.answering import Given
from trainer.actions.asking_skills import OpenQuestion
from trainer.actions.outcome import Saved
from trainer.actions.sitting_drafts import PutAside
from trainer.kitchen.book import Entry
from trainer.kitchen.quiz.families import NUMERIC
from trainer.kitchen.technique import Technique
from trainer.web.cook import tasks
from trainer.web.offline import keeping

BAND = "No network. What you do is kept and sent later."


@pytest.fixture
def at_phone(browser: Browser) -> Iterator[Callable[[Served], Somebody]]:
    """Return a way to sit a person down at a phone that keeps pages."""
    with ExitStack() as until_the_end:

        def sit(served: Served) -> Somebody:
            who = Somebody(browser, served.address, keeps=True)
            until_the_end.callback(who.context.close)
            return who

        yield sit


def all_is_kept(who: Somebody, path: str = "/record", seconds: int = 60) -> None:
    """Wait until the phone has all it is to keep, a page of it named."""
    script = """async (path) => {
      const name = document.documentElement.dataset.kept;
      return Boolean(name && await (await caches.open(name)).match(path));
    }"""
    until = monotonic() + seconds
    while not who.page.evaluate(script, path):
        assert monotonic() < until, f"{path} was never kept"
        who.page.wait_for_timeout(100)


@contextmanager
def without_network(who: Somebody) -> Iterator[None]:
    """Take the network away, and give it back."""
    who.context.set_offline(offline=True)
    yield
    who.context.set_offline(offline=False)


def all_is_sent(who: Somebody) -> None:
    """Wait until nothing waits on the phone any more."""
    who.open("/unsent")
    expect(who.page.locator("[data-none]")).to_be_visible(timeout=30_000)
    expect(who.page.locator("[data-waiting] a")).to_have_text("")


def answers_one(who: Somebody, served: Served) -> None:
    """Answer the first question on the list of those that can be answered without network."""
    who.open("/questions")
    who.tap(who.page.locator("[data-answerable]").first)
    text = right(question_before(who, served, person_id(served, "New hire"))[1])
    if not who.page.locator("input[name=why]").count():
        return answer(who, text)
    for name, key in zip(("answer", "why"), text.split(), strict=True):
        who.page.locator(f"input[name={name}][value='{key}']").check()
    return who.tap(who.page.locator("button.enamel"))


def entries(served: Served, kind: str, cook: str) -> list[Entry]:
    """Return a cook's entries of a kind."""
    return [entry for entry in served.kitchen.file.book.since(0) if entry.kind == kind and entry.cook == cook]


def kept_urls(who: Somebody) -> set[str]:
    """Return the addresses of all the phone keeps."""
    script = """async () => {
      const names = await caches.keys(), found = [];
      for (const name of names) for (const one of await (await caches.open(name)).keys()) found.push(one.url);
      return found;
    }"""
    return {url.removeprefix(who.address) for url in who.page.evaluate(script)}


def queue(who: Somebody, *items: dict[str, object]) -> None:
    """Let things wait on the phone as an earlier program left them."""
    script = """async (items) => {
      const store = await new Promise((done) => {
        const asked = indexedDB.open("kept", 1);
        asked.onsuccess = () => done(asked.result.transaction("queue", "readwrite").objectStore("queue"));
      });
      for (const item of items) store.add(item);
      await new Promise((done) => { store.transaction.oncomplete = done; });
    }"""
    who.page.evaluate(script, list(items))


@pytest.fixture
def little_room(monkeypatch: pytest.MonkeyPatch) -> None:
    """Keep few techniques, so that a test need not wait for all."""
    monkeypatch.setattr(keeping, "MOST_PAGES", 40)


@pytest.fixture
def noor(quernstone: Served, at_phone: Callable[[Served], Somebody], little_room: None) -> Somebody:
    """Return the new hire at a phone that has kept its pages; a technique is read, so that questions are asked."""
    del little_room
    hire, now = person_id(quernstone, "New hire"), quernstone.clock()
    studying.acknowledge_reading(quernstone.kitchen, cook=hire, technique="knife_care", now=now, key="knife care")
    who = at_phone(quernstone)
    step_in(who, quernstone, "New hire")
    all_is_kept(who)
    return who


def test_a_technique_is_read_without_network(quernstone: Served, noor: Somebody) -> None:
    """From its first page to the last step, and said to be read: the book has it once, and the place is let go."""
    hire = person_id(quernstone, "New hire")
    done, kept = {each.technique for each in quernstone.kitchen.progress().record(hire).read}, kept_urls(noor)
    to_read = (one for one in quernstone.kitchen.content.techniques.values() if one.id not in done)
    technique = next(one for one in to_read if f"/techniques/{one.id}" in kept)
    before = len(entries(quernstone, "technique_read", hire))
    with without_network(noor):
        noor.open(f"/techniques/{technique.id}")
        assert BAND in noor.work
        for number, step in enumerate(technique.steps, 1):
            noor.open(f"/techniques/{technique.id}/steps/{number}")
            assert step.title in noor.page.inner_text("header")
        noor.press("Next")
        noor.press_starting("I have read edition")
        assert noor.path == f"/techniques/{technique.id}"
        noor.open("/unsent")
        assert f"Read: {technique.title}" in noor.work
        assert "Waiting to be sent: 1." in noor.work
        assert len(entries(quernstone, "technique_read", hire)) == before
    all_is_sent(noor)
    last = entries(quernstone, "technique_read", hire)[-1]
    assert len(entries(quernstone, "technique_read", hire)) == before + 1
    assert (last.body["technique"], last.happened) == (technique.id, quernstone.kitchen.today(quernstone.clock()))
    assert quernstone.kitchen.file.drafts.get(f"place:{hire}:{technique.id}") is None


def test_a_question_is_answered_without_network(quernstone: Served, noor: Somebody) -> None:
    """Answered on the kept page, it stands on the list with what was typed, then in the book, once and right."""
    hire = person_id(quernstone, "New hire")
    before = len(entries(quernstone, "answered", hire))
    with without_network(noor):
        answers_one(noor, quernstone)
        assert noor.heading == "Waiting to be sent"
        assert noor.page.locator(".unsent li").count() == 1
        assert noor.page.locator(".unsent [data-typed]").inner_text()
        assert "Right" not in noor.work
    all_is_sent(noor)
    (entry,) = entries(quernstone, "answered", hire)[before:]
    assert entry.body["verdict"] == "right"
    assert entry.happened == quernstone.kitchen.today(quernstone.clock())


def wrong_twice(served: Served, cook: str) -> tuple[str, str]:
    """Let a cook be wrong twice about mixing sanitizer; return the technique and the skill, whose practice is due."""
    k, now, technique = served.kitchen, served.clock(), "sanitizer"
    studying.acknowledge_reading(k, cook=cook, technique=technique, now=now, key="sanitizer read")
    skill = next(one.id for one in k.content.techniques[technique].knowledge if one.setting.family in NUMERIC)
    for seed in (1, 2):
        opened = asking_skills.open_question(k, cook=cook, technique=technique, skill=skill, seed=seed, now=now)
        assert isinstance(opened, OpenQuestion)
        given = Given(cook, skill, opened.drawn.seed, "98765", "en", "us")
        assert isinstance(answering.answer(k, given=given, now=now, key=f"wrong {seed}"), Saved)
    return technique, skill


def test_practice_is_done_without_network(
    quernstone: Served, at_phone: Callable[[Served], Somebody], little_room: None
) -> None:
    """Its three parts are read; the one done alone waits, and is in the book once when the network is back."""
    del little_room
    hire, noor = person_id(quernstone, "New hire"), at_phone(quernstone)
    technique, skill = wrong_twice(quernstone, hire)
    step_in(noor, quernstone, "New hire")
    start = f"/techniques/{technique}/practice/{skill}"
    all_is_kept(noor, f"{start}?part=3")
    with without_network(noor):
        noor.open("/questions")
        noor.tap(noor.page.locator(f'a[href="{start}"]'))
        assert noor.heading == "Practice first"
        noor.press("Next: half worked")
        noor.press("Next: one alone")
        assert "You read how it was when the network is back." in noor.work
        answer(noor, right(question_alone(noor, quernstone)))
        assert noor.heading == "Waiting to be sent"
        assert not entries(quernstone, "drill_done", hire)
    all_is_sent(noor)
    (done,) = entries(quernstone, "drill_done", hire)
    assert done.body["skill"] == skill


def test_what_needs_the_network_says_so(quernstone: Served, noor: Somebody) -> None:
    """A page that is not kept says that it needs the network, and so does a form that may not wait."""
    del quernstone
    with without_network(noor):
        noor.open("/bench")
        assert noor.heading == "This needs the network"
        noor.open("/rail")
        assert BAND in noor.work
    noor.open("/bench")
    assert noor.heading != "This needs the network"


def test_signing_out_wipes_what_was_kept(quernstone: Served, noor: Somebody) -> None:
    """At once, without network: nothing of it is seen. The kitchen is told first; what waits stays for its owner."""
    assert "/record" in kept_urls(noor)
    noor.context.set_offline(offline=True)
    answers_one(noor, quernstone)
    noor.open("/rail")
    noor.page.locator("summary").first.click()
    noor.press("Sign out")
    assert noor.heading == "Signed out on this phone"
    assert kept_urls(noor) == {"/unsent?about=network", "/unsent?about=left"}
    noor.open("/record")
    assert first_name(quernstone, "New hire") not in noor.page.inner_text("body")
    (session,) = (one for one in noor.context.cookies() if one["name"].startswith("session"))
    token = session["value"]
    assert quernstone.kitchen.file.sessions.kept(token) is not None
    noor.context.set_offline(offline=False)
    noor.open("/record")
    assert quernstone.kitchen.file.sessions.kept(token) is None
    expect(noor.page.locator("[data-waiting]")).to_have_text("Waiting to be sent: 1. Sign in to send it.")
    step_in(noor, quernstone, "New hire")
    all_is_sent(noor)
    noor.open("/rail")
    noor.page.locator("summary").first.click()
    noor.press("Sign out")
    assert noor.page.locator("main").count() == 1
    assert not [one for one in noor.context.cookies() if one["name"].startswith("session")]


def test_nothing_of_one_person_is_shown_to_the_next(quernstone: Served, noor: Somebody) -> None:
    """On a shared tablet: when somebody else signs in, the former one's pages go, and their answers wait for them."""
    hire = person_id(quernstone, "New hire")
    before = len(entries(quernstone, "answered", hire))
    with without_network(noor):
        answers_one(noor, quernstone)
        noor.context.clear_cookies(name=re.compile("^session"))
    noor.open("/")
    expect(noor.page.locator("[data-waiting]")).to_have_text("Waiting to be sent: 1. Sign in to send it.")
    step_in(noor, quernstone, "Sous chef")
    all_is_kept(noor)
    assert "/record" in kept_urls(noor)
    noor.open("/unsent")
    expect(noor.page.locator("[data-others]")).to_contain_text("Somebody else has something waiting here: 1.")
    assert noor.page.locator(".unsent li").count() == 0
    with without_network(noor):
        noor.open("/rail")
        assert first_name(quernstone, "New hire") not in noor.page.inner_text("body")
    assert len(entries(quernstone, "answered", hire)) == before
    noor.context.clear_cookies(name=re.compile("^session"))
    step_in(noor, quernstone, "New hire")
    all_is_sent(noor)
    assert len(entries(quernstone, "answered", hire)) == before + 1


def begun_by(renzo: Somebody, served: Served, technique: Technique) -> watching.Practical:
    """Let the sous chef begin to watch the new hire at a technique; return the practical."""
    ready_to_show(served, person_id(served, "New hire"), technique)
    step_in(renzo, served, "Sous chef")
    renzo.press_starting(f"Watch {first_name(served, 'New hire')}")
    begin(renzo, technique)
    mine = watching.practicals_by(served.kitchen, person_id(served, "Sous chef"))
    (practical,) = (one for one in mine if one.technique == technique.id)
    return practical


def test_a_tap_of_a_practical_waits_and_is_never_shown_signed(
    quernstone: Served, at_phone: Callable[[Served], Somebody], little_room: None
) -> None:
    """Points are seen without network, and wait; the record says that signing needs it. Then they are all there."""
    del little_room
    technique = quernstone.kitchen.content.techniques["pasta_nesting"]
    renzo, sous = at_phone(quernstone), person_id(quernstone, "Sous chef")
    practical = begun_by(renzo, quernstone, technique)
    all_is_kept(renzo, f"/practicals/{practical.id}/record")
    signed = len(quernstone.kitchen.file.book.of_kind("practical_watched"))
    with without_network(renzo):
        renzo.open(f"/practicals/{practical.id}/1")
        watch(renzo, technique, heading="Signing needs the network")
        assert "Nothing is signed yet." in renzo.work
        assert f"Waiting to be sent: {sum(point.pieces for point in technique.checklist)}." in renzo.work
        assert renzo.page.get_by_role("button", name="Sign").count() == 0
    all_is_sent(renzo)
    (found,) = (one for one in watching.practicals_by(quernstone.kitchen, sous) if one.id == practical.id)
    assert len(found.done) == len(technique.checklist)
    assert len(quernstone.kitchen.file.book.of_kind("practical_watched")) == signed
    renzo.open(f"/practicals/{practical.id}/record")
    sign(renzo)
    assert len(quernstone.kitchen.file.book.of_kind("practical_watched")) == signed + 1


def test_unsafe_without_network_stops_the_work_and_waits(
    quernstone: Served, at_phone: Callable[[Served], Somebody], little_room: None
) -> None:
    """Pressed twice it is kept; nothing more is judged and nothing is signed. Then the stop is there to be signed."""
    del little_room
    technique = quernstone.kitchen.content.techniques["pasta_nesting"]
    renzo, sous = at_phone(quernstone), person_id(quernstone, "Sous chef")
    practical = begun_by(renzo, quernstone, technique)
    base, point = f"/practicals/{practical.id}", technique.checklist[1].id
    all_is_kept(renzo, f"{base}/stop?point={point}")
    with without_network(renzo):
        renzo.open(f"{base}/2")
        renzo.press("Stop: unsafe")
        assert renzo.path == f"{base}/stop?point={point}"
        renzo.press("Yes, it was unsafe")
        assert renzo.heading == "Stop the work now."
        assert "This is kept on this phone and is sent when the network is back. Nothing is signed yet" in renzo.work
        assert "Waiting to be sent: 1." in renzo.work
        for path in (f"{base}/1", f"{base}/record"):
            renzo.open(path)
            assert renzo.heading == "Stop the work now."
        assert renzo.page.get_by_role("button", name="Sign").count() == 0
    all_is_sent(renzo)
    (found,) = (one for one in watching.practicals_by(quernstone.kitchen, sous) if one.id == practical.id)
    assert list(found.unsafe) == [point]
    assert not [
        one for one in entries(quernstone, "practical_watched", practical.cook) if one.body["verdict"] == "stopped"
    ]
    renzo.open(f"{base}/1")
    assert "Sign the stop" in renzo.work


def test_a_full_queue_of_an_earlier_program_is_sent_once(quernstone: Served, noor: Somebody) -> None:
    """What was left by the first form of the queue, each there three times: the book has each once, nothing is lost."""
    hire, k = person_id(quernstone, "New hire"), quernstone.kitchen
    now = int(quernstone.clock().timestamp() * 1000)
    noor.open("/record")
    ids = [one.id for one in k.content.techniques.values()]
    items = [
        {
            "v": 1, "who": hire, "at": now, "url": f"/techniques/{id}/after", "form": 1, "words": id, "typed": [],
            "page": "/rail", "body": f"csrf_token=old&key=left-{id}&waits={id}",
        }
        for id in ids
    ]  # fmt: skip
    for id in ids:
        taught = k.content.techniques[id]
        for step in taught.steps:
            studying.keep_place(k, cook=hire, technique=taught, step=step.id, now=quernstone.clock())
    before = len(entries(quernstone, "technique_read", hire))
    queue(noor, *items, *items, *items)
    assert 3 * len(items) >= 60
    all_is_sent(noor)
    found = entries(quernstone, "technique_read", hire)[before:]
    assert sorted(entry.key for entry in found) == sorted(f"left-{id}" for id in ids)


def test_what_the_kitchen_will_not_take_is_told_and_dropped_by_hand(quernstone: Served, noor: Somebody) -> None:
    """A question that was taken out meanwhile: the answer stays on the list with the reason, until it is dropped."""
    hire = person_id(quernstone, "New hire")
    with without_network(noor):
        answers_one(noor, quernstone)
        for draft in quernstone.kitchen.file.drafts.list("question", cook=hire):
            quernstone.kitchen.file.drafts.delete(draft.id)
    noor.open("/unsent")
    refused = noor.page.locator(".unsent li")
    expect(refused).to_contain_text("Not taken: That question is not open any more. Go on with the next one.")
    assert refused.locator("[data-typed]").inner_text()
    refused.get_by_role("button", name="Drop it").click()
    expect(noor.page.locator("[data-none]")).to_be_visible()


def test_a_slow_kitchen_is_not_waited_for(quernstone: Served, noor: Somebody, monkeypatch: pytest.MonkeyPatch) -> None:
    """After three seconds the kept page is there."""

    def slow() -> tuple[PutAside, ...]:
        sleep(9)
        return ()

    monkeypatch.setattr(tasks, "asides", slow)
    del quernstone
    begun = monotonic()
    noor.open("/rail")
    assert BAND in noor.work
    assert 2.5 < monotonic() - begun < 7
