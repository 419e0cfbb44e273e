"""Who may open which page, and what every answer carries."""

from __future__ import annotations

import gzip
from collections.abc import Callable
from typing import Any

import pytest
from flask import Flask
from werkzeug.routing import IntegerConverter, Rule

from tests.web.hands import Hands
from trainer.actions.open_kitchen import Kitchen
from trainer.store.problems import CannotSave
from trainer.web.app import create_app

# every endpoint with whom it is for; a page not listed here fails the test
OPEN_TO_ALL = {
    "static",
    "door.first",
    "door.step_in",
    "door.enrol",
    "door.leave",
    "language.at_the_door",
    "offline.worker",
    "offline.unsent",
    "screen.style",
    "handing_out.calendar.feed",
}
OPEN_TO_DEVICES = {"door.names", "door.secret", "board.wall", "recovery.new_secret"}
ROLE_OF_FAMILY = {"cook": "cook", "quiz": "cook"}
PEOPLE = {"cook": "ana", "assessor": "bo", "manager": "cleo"}


def need_of(app: Flask, endpoint: str) -> Any:
    """Return whom the view's guard lets in."""
    return "nobody" if endpoint == "static" else getattr(app.view_functions[endpoint], "needs", None)


def rules(app: Flask) -> list[Rule]:
    """Return every route."""
    return list(app.url_map.iter_rules())


def address(rule: Rule) -> str:
    """Return an address of a route, with made-up parts."""
    values = {name: 1 if isinstance(rule._converters[name], IntegerConverter) else "x" for name in rule.arguments}
    return str(rule.build(values, append_unknown=False)[1])  # type: ignore[index]


def test_every_route_says_whom_it_is_for(app: Flask) -> None:
    """There is no route without a guard."""
    assert [rule.endpoint for rule in rules(app) if need_of(app, rule.endpoint) is None] == []


def test_only_the_door_is_open_to_all(app: Flask) -> None:
    """The pages anybody may open are the listed ones and no others; the same for enrolled devices."""
    found = {rule.endpoint for rule in rules(app) if need_of(app, rule.endpoint) == "nobody"}
    assert found == OPEN_TO_ALL
    assert {rule.endpoint for rule in rules(app) if need_of(app, rule.endpoint) == "device"} == OPEN_TO_DEVICES


def test_the_cooks_pages_are_for_cooks(app: Flask) -> None:
    """Every page of the cook and the quiz asks for the cook's role; what is written about them is everybody's own."""
    found = {rule.endpoint: need_of(app, rule.endpoint) for rule in rules(app)}
    mine = {e: n for e, n in found.items() if e.split(".")[0] in ROLE_OF_FAMILY}
    assert mine
    assert {e: n for e, n in mine.items() if n != "cook"} == {
        "cook.contest.written": "person",
        "cook.contest.contest": "person",
    }


@pytest.mark.parametrize("role", ["cook", "assessor", "manager"])
def test_role_by_route(app: Flask, sign_in: Callable[[str], Hands], kitchen: Kitchen, role: str) -> None:
    """Every route with every method: who lacks the role is refused, who has it is never told to go away for that."""
    held = kitchen.progress().roles(PEOPLE[role], kitchen.today(app.extensions["clock"]()))
    checked = 0
    for rule in rules(app):
        need = need_of(app, rule.endpoint)
        if need in ("nobody", "device", "person"):
            continue
        asked = set(need.split(" or "))
        for method in sorted((rule.methods or set()) & {"GET", "POST"}):
            answer = sign_in(PEOPLE[role]).client.open(address(rule), method=method)
            assert (answer.status_code == 403) is (not asked & held), (rule.rule, method, answer.status_code)
            checked += 1
    assert checked > 10


def test_nobody_signed_in_gets_past_the_door(app: Flask, stranger: Hands, at_tablet: Callable[[], Hands]) -> None:
    """Without a session every guarded page leads to the door, and nothing can be sent."""
    for hands, door in ((stranger, "/"), (at_tablet(), "/names")):
        for rule in rules(app):
            if need_of(app, rule.endpoint) in ("nobody", "device"):
                continue
            for method in sorted((rule.methods or set()) & {"GET", "POST"}):
                answer = hands.client.open(address(rule), method=method)
                if method == "POST":
                    assert answer.status_code == 403, rule.rule
                else:
                    assert answer.status_code == 303, rule.rule
                    assert answer.location.split("?")[0] == door


MAY_BE_KEPT = {"static", "screen.style"}
POLICY_PARTS = (
    "default-src 'none'",
    "script-src 'self'",
    "frame-ancestors 'none'",
    "form-action 'self'",
    "base-uri 'none'",
)


def test_every_answer_is_guarded(app: Flask, cleo: Hands, bo: Hands) -> None:
    """Every route, found or not, carries the policy, nosniff, referrer and cross-origin headers; pages are not stored.

    OWASP ASVS 5.0.0, chapter 3.4 (browser security mechanism headers).
    """
    for rule in rules(app):
        for hands in (cleo, bo):
            answer = hands.client.get(address(rule))
            policy = answer.headers["Content-Security-Policy"]
            assert all(part in policy for part in POLICY_PARTS)
            assert "unsafe" not in policy
            assert answer.headers["X-Content-Type-Options"] == "nosniff"
            assert answer.headers["Referrer-Policy"] == "same-origin"
            assert answer.headers["Cross-Origin-Opener-Policy"] == "same-origin"
            assert answer.headers["Cross-Origin-Resource-Policy"] == "same-origin"
            assert answer.headers["Cache-Control"] == "no-store" or rule.endpoint in MAY_BE_KEPT


def test_no_page_has_inline_script_or_style(app: Flask, cleo: Hands, bo: Hands) -> None:
    """No style attribute or element, no script with words in it, no handler attribute, and nothing from elsewhere."""
    for rule in rules(app):
        if rule.endpoint in MAY_BE_KEPT:
            continue
        for hands in (cleo, bo):
            soup = hands.open(address(rule)).soup
            assert soup.select("style, [style], script:not([src])") == []
            assert [a for tag in soup.find_all(True) for a in tag.attrs if a.startswith("on")] == []
            addresses = [str(t.get("src") or t.get("href")) for t in soup.find_all(["script", "link", "img"])]
            assert [a for a in addresses if not a.startswith("/")] == []


def test_a_form_without_its_token_is_shown_again_filled(stranger: Hands) -> None:
    """A form whose token is missing or foreign saves nothing and keeps what was typed."""
    stranger.open("/device")
    page = stranger.press(
        "Enrol this device", {"Code, 8 figures": "7028 1936", "A name for this device": "Office"}, csrf_token="no"
    )
    assert page.status == 400
    assert "Nothing was saved" in page.problems[0]
    assert page.field("Code, 8 figures")["value"] == "7028 1936"
    assert page.field("A name for this device")["value"] == "Office"


def test_a_forms_token_is_another_one_on_every_page(ana: Hands) -> None:
    """The token is masked again each time, so that the length of a gzipped page tells nothing of it; both are taken."""
    pages = [ana.open("/own-secret") for _ in range(2)]
    tokens = [str(page.soup.find("form", id="own").find("input", {"name": "csrf_token"})["value"]) for page in pages]  # type: ignore[union-attr, index]
    assert tokens[0] != tokens[1]
    for token in tokens:
        page = ana.press("Keep it", csrf_token=token)
        assert "open too long" not in page.work


def test_a_page_comes_gzipped_to_whoever_reads_it_so(ana: Hands) -> None:
    """A page is gzipped where the browser says it reads gzip, and plain where it does not."""
    pressed = ana.client.get("/rail", headers={"Accept-Encoding": "gzip"})
    plain = ana.client.get("/rail")
    assert pressed.headers["Content-Encoding"] == "gzip"
    assert gzip.decompress(pressed.data)[:15] == plain.data[:15] == b"<!doctype html>"
    assert pressed.headers["Vary"] == plain.headers["Vary"] == "Accept-Encoding"
    assert "Content-Encoding" not in plain.headers


def test_another_visitors_token_is_refused(ana: Hands, sign_in: Callable[[str], Hands], kitchen: Kitchen) -> None:
    """A token drawn for one session does not serve another."""
    form = sign_in("dev").go_through("nests").button("I have read edition 2").find_parent("form")
    assert form is not None
    foreign = str(form.find("input", {"name": "csrf_token"})["value"])  # type: ignore[index]
    ana.go_through("nests")
    assert ana.press("I have read edition 2", csrf_token=foreign).status == 400
    assert kitchen.file.book.since(0)[-1].kind == "cook_joined"


@pytest.mark.parametrize(
    ("headers", "is_let_in"),
    [
        ({"Sec-Fetch-Site": "same-origin"}, True),
        ({"Sec-Fetch-Site": "none"}, True),
        ({"Sec-Fetch-Site": "same-site"}, False),
        ({"Sec-Fetch-Site": "cross-site"}, False),
        ({"Origin": "http://localhost"}, True),
        ({"Origin": "https://evil.example"}, False),
        ({"Origin": "null"}, False),
        ({}, True),
    ],
)
def test_sends_from_another_site_are_turned_away(ana: Hands, headers: dict[str, str], is_let_in: bool) -> None:
    """Sec-Fetch-Site is believed where it is sent, Origin where not.

    OWASP Cross-Site Request Forgery Prevention Cheat Sheet, section Fetch Metadata: the fallback is needed.
    """
    form = ana.go_through("nests").button("I have read edition 2").find_parent("form")
    assert form is not None
    data = {str(i["name"]): str(i["value"]) for i in form.find_all("input")}
    answer = ana.client.post("/techniques/nests/after", data=data, headers=headers)
    assert answer.status_code == (303 if is_let_in else 400)


def test_cookies_are_out_of_reach_of_scripts_and_other_sites(stranger: Hands) -> None:
    """The visitor's cookie is HttpOnly and SameSite=Lax."""
    cookie = stranger.client.get("/device").headers["Set-Cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=Lax" in cookie


def test_https_binds_cookies_to_this_host(kitchen: Kitchen) -> None:
    """Over https the cookies are Secure and carry the __Host- prefix (RFC 6265bis, section 4.1.3.2), and HSTS is on."""
    client = create_app(kitchen, https=True).test_client()
    answer = client.get("/device", base_url="https://localhost")
    assert answer.headers["Set-Cookie"].startswith(f"__Host-visit-{kitchen.file.settings.kitchen[:8]}=")
    assert "Secure" in answer.headers["Set-Cookie"]
    assert "includeSubDomains" in answer.headers["Strict-Transport-Security"]


@pytest.mark.parametrize(("path", "size", "words"), [("/roster", 11, "10 MB"), ("/leave", 1, "256 KB")])
def test_too_large_a_send_is_a_plain_page(cleo: Hands, path: str, size: int, words: str) -> None:
    """A file may have 10 MB where files are sent, a form 256 KB; more is refused with a page that says so."""
    answer = cleo.client.post(path, data={"key": "x" * (size * 1024 * 1024)})
    assert answer.status_code == 413
    assert words in answer.get_data(as_text=True)


def test_a_stranger_sends_a_small_form_or_nothing(stranger: Hands, ana: Hands, app: Flask) -> None:
    """What is sent by nobody signed in is judged by its head: 64 KB at the most, whatever it says of itself."""
    limit = app.extensions["body_limit"]
    cookie = stranger.client.get("/device").request.headers.get("Cookie", "session=stolen")
    signed_in = ana.client.get("/rail").request.headers["Cookie"]
    for length in ("150000000", "", "-1", "12e9"):
        assert limit({"CONTENT_LENGTH": length, "COOKIE": cookie}) == 64 * 1024
        assert limit({"CONTENT_LENGTH": length, "COOKIE": "\x00;;=;session"}) == 64 * 1024
        assert limit({"CONTENT_LENGTH": length}) == 64 * 1024
    assert limit({"CONTENT_LENGTH": "11000000", "COOKIE": signed_in}) == 40 * 1024 * 1024
    assert stranger.client.post("/device", data={"name": "x" * 70_000}).status_code == 413


def test_a_full_disk_is_a_plain_page(ana: Hands, kitchen: Kitchen, monkeypatch: pytest.MonkeyPatch) -> None:
    """What cannot be saved is told as not saved, with what is safe and a number to quote."""

    def full(*_: object) -> None:
        raise CannotSave("disk full")

    ana.go_through("nests")
    monkeypatch.setattr(kitchen.file.book, "append", full)
    page = ana.press("I have read edition 2")
    assert page.status == 507
    assert page.heading == "Not saved"
    assert "will not count twice" in page.work
    assert page.soup.select_one(".number") is not None


def test_a_fault_of_ours_is_a_plain_page(ana: Hands, kitchen: Kitchen, monkeypatch: pytest.MonkeyPatch) -> None:
    """An error nobody expected shows no inner workings, only what to do and a number to quote."""

    def broken(*_: object) -> None:
        raise RuntimeError("inner workings")

    ana.go_through("nests")
    monkeypatch.setattr(kitchen, "day", broken)
    page = ana.press("I have read edition 2")
    assert page.status == 500
    assert "inner workings" not in page.work
    assert "Number to quote" in page.work
