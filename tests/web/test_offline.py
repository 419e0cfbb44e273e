"""Pages a phone keeps, and what it sends later: only one's own, once a key, on the day it was done."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from types import MappingProxyType
from typing import Any

import pytest
from bs4 import BeautifulSoup, Tag

from tests.web.conftest import NOON, PIN, Clock
from tests.web.hands import Hands
from tests.web.kitchen_people import ask, clear, write
from tests.web.skill_content import COOLING, SKILL_CONTENT
from tests.web.test_answering import begin_skill
from tests.web.test_cook import read_through
from tests.web.test_own_phone import own_phone
from tests.web.test_questions import answer_next, question_before, right_text, wrong_text
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.own_language import keep_own_language
from trainer.actions.practising import alone
from trainer.kitchen.book import Entry
from trainer.kitchen.quiz.practice_scenes import PRACTICE_SCENES
from trainer.web.offline import keeping

NEVER_KEPT = ("/names", "/board", "/people", "/book", "/own-secret", "/codes", "/device", "/sign", "/security")


@dataclass
class Waiting:
    """A form that was sent without network: where to, and its fields."""

    url: str
    fields: dict[str, str]

    def sent(self, hands: Hands, at: datetime, **headers: str) -> dict[str, Any]:
        """Send it later, as done at a moment, by whoever is signed in by then; return what came of it."""
        token = kept(hands)["token"]
        told = {"Done-At": str(int(at.timestamp() * 1000)), **headers}
        answer = hands.client.post(self.url, data={**self.fields, "csrf_token": token}, headers=told)
        found: dict[str, Any] = answer.get_json()
        return found


def kept(hands: Hands) -> dict[str, Any]:
    """Return what the phone is told to keep."""
    found: dict[str, Any] = hands.client.get("/kept.json").get_json()
    return found


def urls(hands: Hands) -> list[str]:
    """Return the addresses the phone keeps."""
    return [page["url"] for page in kept(hands)["pages"]]


def fetched(hands: Hands, url: str) -> BeautifulSoup:
    """Fetch a page to keep it."""
    return BeautifulSoup(hands.client.get(url, headers={"Kept": "yes"}, follow_redirects=True).text, "lxml")


def filled(page: BeautifulSoup, form: str, url: str, **typed: str) -> Waiting:
    """Return a form of a page that may wait, with what was typed."""
    found = page.select_one(form)
    assert isinstance(found, Tag)
    fields = {str(one["name"]): str(one.get("value", "")) for one in found.select("input[type=hidden]")}
    assert fields["waits"]
    return Waiting(str(found.get("action") or url), {**fields, **typed})


def read_late(hands: Hands) -> Waiting:
    """Fetch what comes after the steps of the nests, and say it is read."""
    return filled(fetched(hands, "/techniques/nests/after"), "form.bar", "/techniques/nests/after")


def readings(kitchen: Kitchen) -> list[Entry]:
    """Return Ana's readings."""
    return [entry for entry in kitchen.file.book.of_kind("technique_read") if entry.cook == "ana"]


def test_a_cook_keeps_their_own_pages_and_nobody_elses(ana: Hands, kitchen: Kitchen) -> None:
    """Every page opens, is theirs, says that there is no network, and moves nothing; no PIN, board or signature."""
    found = kept(ana)
    addresses = [page["url"] for page in found["pages"]]
    assert {"/rail", "/record", "/unsent", "/techniques/nests", "/techniques/nests/steps/1"} <= set(addresses)
    assert len(addresses) == len(set(addresses))
    assert not [url for url in addresses if url.startswith(NEVER_KEPT)]
    for page in found["pages"]:
        answer = ana.client.get(page.get("from", page["url"]), headers={"Kept": "yes"}, follow_redirects=True)
        assert (answer.status_code, answer.headers["Kept-For"]) == (200, "ana"), page
        assert "No network. What you do is kept and sent later." in answer.text
        assert 'type="password"' not in answer.text
        assert not [name for name in ("Dev Karim", "Bo Lind", "Cleo Mbeki") if name in answer.text]
    for part in found["parts"]:
        with ana.client.get(part) as drawn:
            assert drawn.status_code == 200, part
    assert not kitchen.file.drafts.list("place")


def test_nobody_and_a_manager_keep_no_cooks_pages(stranger: Hands, cleo: Hands) -> None:
    """Without a person there is nothing to keep; a manager keeps the page of what waits."""
    assert stranger.client.get("/kept.json").status_code == 303
    assert urls(cleo) == ["/unsent", "/unsent?about=network"]


def test_whose_a_page_is_stands_on_it(ana: Hands, stranger: Hands) -> None:
    """So that a phone knows when somebody else signs in."""
    assert ana.client.get("/rail").headers["Kept-For"] == "ana"
    assert "Kept-For" not in stranger.client.get("/", follow_redirects=True).headers


def test_a_page_is_fetched_anew_when_it_changes(ana: Hands, kitchen: Kitchen) -> None:
    """What was done changes the pages about oneself and no step; another language changes all."""
    before = {page["url"]: page["version"] for page in kept(ana)["pages"]}
    assert {page["url"]: page["version"] for page in kept(ana)["pages"]} == before
    read_through(ana)
    after = {page["url"]: page["version"] for page in kept(ana)["pages"]}
    assert after["/rail"] != before["/rail"]
    assert after["/techniques/nests"] != before["/techniques/nests"]
    assert after["/techniques/nests/steps/1"] == before["/techniques/nests/steps/1"]
    assert keep_own_language(kitchen, person="ana", language="es", units="") is None
    spanish = {page["url"]: page["version"] for page in kept(ana)["pages"]}
    assert not [url for url in spanish if spanish[url] == after.get(url)]


def test_the_path_comes_first_and_the_budget_holds(
    ana: Hands, kitchen: Kitchen, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of a path all techniques are kept, whole, as long as there is room."""
    write(kitchen, "path_opened", "ana", {"station": "saute", "by_day": "2026-12-15", "mentor": ""}, days=0.9)
    techniques = {url.split("/")[2] for url in urls(ana) if url.startswith("/techniques/")}
    assert techniques == set(kitchen.content.stations["saute"].techniques)
    to_read = [url for url in urls(ana) if "/try/" not in url and "/rehearse" not in url]
    monkeypatch.setattr(keeping, "MOST_PAGES", len(to_read) - 1)
    assert len({url.split("/")[2] for url in urls(ana) if url.startswith("/techniques/")}) == len(techniques) - 1


def test_what_is_read_without_network_counts_on_its_day(
    ana: Hands, kitchen: Kitchen, clock: Clock, sign_in: Callable[[str], Hands]
) -> None:
    """Sent after the session has ended, twice: one entry, on the day it was done, written on the day it came."""
    ana.open("/techniques/nests/steps/1")
    waits = read_late(ana)
    ana.go_through("nests")
    done = NOON + timedelta(hours=3)
    clock.pass_by(days=7)
    again = sign_in("ana")
    assert [waits.sent(again, done)["saved"] for _ in range(2)] == [True, True]
    (entry,) = readings(kitchen)
    assert (entry.happened, entry.day) == (date(2026, 11, 3), date(2026, 11, 10))
    assert "read" in again.open("/record").work.lower()


@pytest.mark.parametrize("off", [timedelta(days=-1), timedelta(days=2)])
def test_a_phones_wrong_clock_counts_no_other_day(ana: Hands, kitchen: Kitchen, clock: Clock, off: timedelta) -> None:
    """A moment before the page was drawn, or after now, is not believed: it counts on the day it came."""
    waits = read_late(ana)
    ana.go_through("nests")
    clock.pass_by(minutes=5)
    assert waits.sent(ana, clock() + off)["saved"]
    (entry,) = readings(kitchen)
    assert entry.happened == entry.day == date(2026, 11, 3)


@pytest.mark.parametrize("page_at", ["", "0-", "1762189200000-00", "x-y"])
def test_without_the_pages_own_moment_no_earlier_day_is_claimed(
    ana: Hands, kitchen: Kitchen, clock: Clock, sign_in: Callable[[str], Hands], page_at: str
) -> None:
    """Who writes the moment themselves gains nothing by it."""
    waits = read_late(ana)
    ana.go_through("nests")
    clock.pass_by(days=1)
    waits.fields["page_at"] = page_at
    assert waits.sent(sign_in("ana"), NOON)["saved"]
    (entry,) = readings(kitchen)
    assert entry.happened == entry.day


def test_what_is_sent_late_needs_whoever_did_it(ana: Hands, stranger: Hands, kitchen: Kitchen) -> None:
    """Signed out, it is to be sent later; nothing is saved."""
    waits = read_late(ana)
    headers = {"Done-At": str(int(NOON.timestamp() * 1000))}
    answer = stranger.client.post(waits.url, data=waits.fields, headers=headers).get_json()
    assert (answer["saved"], answer["later"]) == (False, True)
    assert not readings(kitchen)


def test_what_is_refused_says_why(ana: Hands, kitchen: Kitchen) -> None:
    """The phone shows it beside what was typed; it is not tried again by itself."""
    ana.open("/techniques/nests/steps/1")
    answer = read_late(ana).sent(ana, NOON)
    assert not answer["saved"]
    assert not answer["later"]
    assert answer["words"][0].startswith("Go through the steps first")
    assert not readings(kitchen)


def test_the_edition_that_was_read_is_the_one_that_counts(ana: Hands, kitchen: Kitchen) -> None:
    """A page kept of edition 1 says nothing of edition 2, which came since."""
    waits = read_late(ana)
    ana.go_through("nests")
    waits.fields["edition"] = "1"
    assert waits.sent(ana, NOON)["saved"]
    assert readings(kitchen)[0].body["edition"] == 1
    assert ana.open("/techniques/nests").work.count("New since you read it") == 1


@pytest.fixture
def asked(kitchen: Kitchen, ana: Hands) -> Hands:
    """Return Ana on the way to the pasta room, with two skills to be asked about."""
    kitchen.content = SKILL_CONTENT
    write(kitchen, "path_opened", "ana", {"station": "pasta_room", "by_day": "2026-12-15", "mentor": ""}, days=0.9)
    read_through(ana)
    return ana


def answered_late(kitchen: Kitchen, hands: Hands, make: Callable[..., str] = right_text) -> Waiting:
    """Fetch the first question of today, and answer it."""
    url = next(url for url in urls(hands) if "?skill=" in url)
    page = fetched(hands, url)
    hands.open(url)
    return filled(page, "#question", url, answer=make(question_before(kitchen, hands)[1]))


def test_the_questions_of_today_are_kept(asked: Hands) -> None:
    """Each opens by itself; the ways to them lead to the list of them: which is next is the kitchen's to say."""
    pages = kept(asked)["pages"]
    assert sorted(page["url"] for page in pages if "?skill=" in page["url"]) == [
        "/techniques/nests/questions?skill=buying",
        "/techniques/nests/questions?skill=cooling",
    ]
    assert {page["url"] for page in pages if page.get("from") == "/unsent"} == {
        "/questions",
        "/techniques/nests/questions",
    }
    links = [str(a["href"]) for a in fetched(asked, "/unsent").select("a[data-answerable]")]
    assert sorted(links) == sorted(page["url"] for page in pages if "?skill=" in page["url"])


def test_an_answer_counts_once_from_two_phones(
    asked: Hands, kitchen: Kitchen, clock: Clock, sign_in: Callable[[str], Hands]
) -> None:
    """The same question answered on two phones without network, one of them sent twice: one entry, on its day."""
    first, second = answered_late(kitchen, asked), answered_late(kitchen, asked, lambda _: "1")
    assert first.fields["key"] != second.fields["key"]
    done = NOON + timedelta(hours=1)
    clock.pass_by(days=3)
    later = sign_in("ana")
    assert [one.sent(later, done)["saved"] for one in (first, first, second)] == [True, True, True]
    (entry,) = kitchen.file.book.of_kind("answered")
    assert (entry.happened, entry.day) == (date(2026, 11, 3), date(2026, 11, 6))
    assert entry.body["verdict"] == "right"


def test_a_question_taken_out_meanwhile_is_told(asked: Hands, kitchen: Kitchen) -> None:
    """What was answered is not dropped in silence: the phone is told why it is not taken."""
    waits = answered_late(kitchen, asked)
    for draft in kitchen.file.drafts.list("question", cook="ana"):
        kitchen.file.drafts.delete(draft.id)
    answer = waits.sent(asked, NOON)
    assert not answer["saved"]
    assert answer["words"] == ["That question is not open any more. Go on with the next one."]


@pytest.mark.parametrize("scene", [scene.id for scene in PRACTICE_SCENES if scene.kind == "next_why"])
def test_an_act_and_its_why_are_asked_at_once(ana: Hands, kitchen: Kitchen, scene: str) -> None:
    """No kitchen is there to ask why once the act is chosen: the kept page asks both, and the answer is whole."""
    act, why = begin_skill(ana, kitchen, scene).key.split()
    url = "/techniques/nests/questions?skill=deciding"
    page = fetched(ana, url)
    assert [{str(one["name"]) for one in field.select("input")} for field in page.select("fieldset")] == [
        {"answer"},
        {"why"},
    ]
    assert filled(page, "#question", url, answer=act, why=why).sent(ana, NOON)["saved"]
    (entry,) = kitchen.file.book.of_kind("answered")
    assert (entry.body["given"], entry.body["verdict"]) == (f"{act} {why}", "right")


@pytest.fixture
def watching(bo: Hands, kitchen: Kitchen) -> Hands:
    """Return Bo, who has begun to watch Ana."""
    clear(kitchen, "bo")
    ask(kitchen, "ana")
    bo.open("/ready")
    bo.press("Watch Ana, Ana Pardo, Pasta nesting")
    return bo


def looks(kitchen: Kitchen) -> list[Any]:
    """Return the looks at the first point of the practical under way."""
    (draft,) = kitchen.file.drafts.list("practical")
    return list(draft.body["points"][0]["looks"])


def point_page(bo: Hands) -> str:
    """Return the address of the first point."""
    return next(url for url in urls(bo) if url.startswith("/practicals/") and url.endswith("/1"))


def test_a_practicals_points_are_kept_and_its_signature_is_not(watching: Hands, kitchen: Kitchen) -> None:
    """In place of the record a page says that signing needs the network; keeping a point shows it to nobody."""
    pages = {page["url"]: page.get("from") for page in kept(watching)["pages"] if page["url"].startswith("/practicals")}
    (record,) = [url for url in pages if url.endswith("/record")]
    assert pages[record] == "/unsent?about=signing"
    points = kitchen.content.techniques["nests"].checklist
    assert len([url for url in pages if "/stop" not in url]) == 2 + len(points) + sum(
        point.pieces for point in points if point.pieces > 1
    )
    page = fetched(watching, pages[record])
    assert page.h1 is not None
    assert page.h1.get_text() == "Signing needs the network"
    assert "Nothing is signed yet." in page.get_text()
    fetched(watching, point_page(watching))
    assert kitchen.file.drafts.list("practical")[0].body.get("shown", {}) == {}


def test_a_point_seen_without_network_keeps_its_moment(watching: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """Sent twice it is one look, with the time it was seen; nothing is signed by it."""
    url = point_page(watching)
    waits = filled(fetched(watching, url), "#point", url, seen="meets it")
    seen_at = clock() + timedelta(minutes=4)
    clock.pass_by(minutes=10)
    assert [waits.sent(watching, seen_at, **{"Looked-For": "5000"})["saved"] for _ in range(2)] == [True, True]
    (look,) = looks(kitchen)
    assert seen_at.strftime("%H:%M") in str(look)
    assert not [entry for entry in kitchen.file.book.of_kind("practical_watched") if entry.cook == "ana"]


def test_a_verdict_too_quick_is_refused_without_network_too(watching: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """The second tap of two is no look."""
    url = point_page(watching)
    waits = filled(fetched(watching, url), "#point", url, seen="meets it")
    clock.pass_by(minutes=1)
    answer = waits.sent(watching, clock(), **{"Looked-For": "300"})
    assert answer["words"] == ["That was quick. Did you see it?"]
    assert looks(kitchen) == []


def test_unsafe_is_asked_once_more_when_it_comes(watching: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """A stop that waited is not signed by itself: the phone says what is to be answered."""
    url = point_page(watching)
    waits = filled(fetched(watching, url), "#point", url, seen="unsafe")
    answer = waits.sent(watching, clock(), **{"Looked-For": "300"})
    assert (answer["saved"], answer["later"]) == (False, False)
    assert answer["words"] == ["You saw something unsafe: sign the stop?"]


def test_a_signature_never_waits(watching: Hands, kitchen: Kitchen) -> None:
    """No form that asks for a secret may be sent later."""
    practical = kitchen.file.drafts.list("practical")[0].id
    for url in (f"/practicals/{practical}/record", "/shifts/new", "/own-secret"):
        page = watching.open(url)
        for form in page.soup.select("form"):
            assert not form.select("[name=waits]"), url
    assert PIN not in watching.page.soup.get_text()


def test_a_house_without_https_says_so_once_where_it_matters(ana: Hands) -> None:
    """Browsers keep pages over HTTPS or on the machine itself (Secure Contexts, section 3.1, from memory)."""
    for host, said in (("http://192.168.1.5:8070", 1), ("https://kitchen.lan", 0), ("http://127.0.0.1:8070", 0)):
        for url in ("/techniques/nests", "/unsent"):
            text = ana.client.get(url, base_url=host).text
            if "Pasta nesting" in text or url == "/unsent":
                assert text.count("Without HTTPS phones keep no pages") == said, (host, url)


def test_the_worker_may_keep_all_and_is_never_stored(stranger: Hands) -> None:
    """It stands at the top of the site, and each visit asks for it anew."""
    answer = stranger.client.get("/sw.js")
    assert answer.mimetype == "text/javascript"
    assert answer.headers["Cache-Control"] == "no-store"
    assert "worker-src 'self'" in answer.headers["Content-Security-Policy"]


def test_questions_kept_are_no_more_than_are_asked(asked: Hands, kitchen: Kitchen) -> None:
    """What is kept is what the start says is asked today."""
    told = kitchen.content.stations["pasta_room"]
    without = replace(kitchen.content, stations=MappingProxyType({"pasta_room": replace(told, techniques=())}))
    assert len([url for url in urls(asked) if "?skill=" in url]) == 2
    kitchen.content = without
    assert not [url for url in urls(asked) if "?skill=" in url]


def test_on_ones_own_phone_pages_stay_for_the_shift(
    at_tablet: Callable[[], Hands], kitchen: Kitchen, clock: Clock, ana: Hands
) -> None:
    """As long as the kitchen would open them there; on a shared device 15 minutes idle close them, as a session."""
    shared, own = kept(ana), at_tablet()
    own_phone(own, kitchen, "ana")
    mine = kept(own)
    assert (shared["idle"], shared["until"] - shared["now"]) == (15 * 60_000, 12 * 3_600_000)
    assert mine["idle"] == kitchen.file.settings.pin_hours * 3_600_000
    clock.pass_by(hours=3)
    assert own.client.get("/kept.json").status_code == 200
    assert ana.client.get("/kept.json").status_code == 303


@pytest.fixture
def practising(asked: Hands, kitchen: Kitchen) -> Hands:
    """Return Ana, who was wrong twice about cooling: practice comes first."""
    for _ in range(2):
        answer_next(kitchen, asked, wrong_text, "cooling")
    return asked


COOLING_ALONE = "/techniques/nests/practice/cooling?part=3"


def alone_late(hands: Hands, kitchen: Kitchen, make: Callable[..., str] = right_text) -> Waiting:
    """Fetch the question to do alone as a phone keeps it, and answer it."""
    page = fetched(hands, COOLING_ALONE)
    seed = page.select_one("#practice [name=seed]")
    assert seed is not None
    question = alone(COOLING, int(str(seed["value"])), kitchen.content)
    return filled(page, "#practice", COOLING_ALONE, answer=make(question))


def practised(kitchen: Kitchen) -> list[Entry]:
    """Return the practice the book has."""
    return list(kitchen.file.book.of_kind("drill_done"))


def test_practice_that_is_due_is_kept_in_its_three_parts(practising: Hands) -> None:
    """The own question, one half worked, one alone; the page of what waits leads there."""
    parts = {url for url in urls(practising) if "/practice/" in url}
    base = "/techniques/nests/practice/cooling"
    assert parts == {base, f"{base}?part=2", f"{base}?part=3"}
    assert [a["href"] for a in fetched(practising, "/unsent").select(f'a[href="{base}"]')] == [base]
    assert "You read how it was when the network is back." in fetched(practising, f"{base}?part=3").get_text()


def test_practice_done_without_network_counts_on_its_day(
    practising: Hands, kitchen: Kitchen, clock: Clock, sign_in: Callable[[str], Hands]
) -> None:
    """Sent twice three days later it is one entry, of the day it was done; the questions go on."""
    waits = alone_late(practising, kitchen)
    clock.pass_by(days=3)
    later = sign_in("ana")
    assert [waits.sent(later, NOON + timedelta(hours=1))["saved"] for _ in range(2)] == [True, True]
    (entry,) = practised(kitchen)
    assert (entry.happened, entry.day) == (date(2026, 11, 3), date(2026, 11, 6))
    assert not [url for url in urls(later) if "/practice/" in url]


def test_practice_that_was_not_right_is_told_and_stays_due(practising: Hands, kitchen: Kitchen) -> None:
    """Nothing is kept of it; the phone says that it was not right, and where another one is."""
    answer = alone_late(practising, kitchen, wrong_text).sent(practising, NOON)
    assert (answer["saved"], answer["later"]) == (False, False)
    assert answer["words"][0].startswith("That was not right.")
    assert answer["words"][0].endswith("Open it for another.")
    assert practised(kitchen) == []


def test_practice_on_a_question_that_changed_is_not_judged(practising: Hands, kitchen: Kitchen) -> None:
    """The same seed draws another question in other measures: what was read is not what would be judged."""
    waits = alone_late(practising, kitchen)
    waits.fields["mark"] = "0" * 16
    answer = waits.sent(practising, NOON)
    assert answer["words"] == ["This question has changed since you read it. Do it as it is now."]
    assert practised(kitchen) == []


def test_one_question_of_each_kind_to_try_is_kept_with_its_answer_folded(asked: Hands) -> None:
    """Nothing is sent of it: it is worked on paper, then looked at; the next kind is kept too."""
    tries = [url for url in urls(asked) if "/try/" in url]
    assert tries
    for url in tries:
        page = fetched(asked, url)
        assert not page.select("form#try")
        assert page.select("details .worked li")
        assert next(a["href"] for a in page.select(".bar a.enamel")) in tries
    assert "/techniques/nests/rehearse" in urls(asked)


def test_practice_never_takes_the_room_of_what_is_to_be_read(asked: Hands, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the budget is used up, no question to try is kept, and no page leads to one."""
    pages = urls(asked)
    to_read = [url for url in pages if "/try/" not in url and "/rehearse" not in url]
    monkeypatch.setattr(keeping, "MOST_PAGES", len(to_read))
    assert urls(asked) == to_read
    assert not fetched(asked, "/unsent").select('a[href*="/try/"]')


def stop_page(watching: Hands) -> str:
    """Return the address of the page that asks once more whether the first point was unsafe."""
    return next(url for url in urls(watching) if "/stop?point=" in url)


def test_the_stop_is_kept_with_every_point_of_a_practical(watching: Hands, kitchen: Kitchen) -> None:
    """Each point leads to its own, where that point is chosen; what follows says that it is kept, and not signed."""
    points = kitchen.content.techniques["nests"].checklist
    stops = [url for url in urls(watching) if "/stop" in url]
    assert len(stops) == 1 + len(points)
    page = fetched(watching, point_page(watching))
    leads = page.select_one("#point [name=stop]")
    assert leads is not None
    assert leads["value"] == stops[1]
    asked = fetched(watching, str(leads["value"]))
    assert [str(one["value"]) for one in asked.select("option[selected]")] == [points[0].id]
    then = asked.select_one("#unsafe [name=go_on]")
    assert then is not None
    said = fetched(watching, str(then["value"])).get_text()
    assert "Stop the work now." in said
    assert "This is kept on this phone and is sent when the network is back. Nothing is signed yet" in said


def test_a_stop_that_waited_stays_and_is_not_signed(watching: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """Sent twice it is one, with the time it was seen; then only the stop can be signed, by whoever saw it."""
    url = stop_page(watching)
    first = kitchen.content.techniques["nests"].checklist[0].id
    waits = filled(fetched(watching, url), "#unsafe", url, seen="unsafe", sure="yes", point=first, cause="hot")
    seen_at = clock() + timedelta(minutes=4)
    clock.pass_by(minutes=10)
    assert [waits.sent(watching, seen_at)["saved"] for _ in range(2)] == [True, True]
    (look,) = looks(kitchen)
    assert seen_at.strftime("%H:%M") in str(look)
    assert not [entry for entry in kitchen.file.book.of_kind("practical_watched") if entry.cook == "ana"]
    assert "Sign the stop" in watching.open(point_page(watching)).work
    assert not [url for url in urls(watching) if "/stop" in url]


def test_signing_out_told_later_leaves_what_waits(ana: Hands, kitchen: Kitchen) -> None:
    """At once a browser clears all; a phone that signed out without network has hidden it, and keeps what waits."""
    told = {"Done-At": str(int(NOON.timestamp() * 1000))}
    answer = ana.client.post("/leave", data={"csrf_token": kept(ana)["token"]}, headers=told)
    assert answer.get_json()["saved"]
    assert "Clear-Site-Data" not in answer.headers
    assert [one.split("=")[0].split("-")[0] for one in answer.headers.getlist("Set-Cookie")][:1] == ["session"]
    assert ana.client.get("/kept.json").status_code == 303
