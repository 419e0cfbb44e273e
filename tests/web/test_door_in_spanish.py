"""Every door, every error and every refusal in the reader's language: their own once known, else the browser's."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NoReturn

import polib
import pytest
from bs4 import BeautifulSoup
from flask import Flask, abort, request
from werkzeug.test import TestResponse

from tests.web.conftest import Clock
from tests.web.hands import Hands
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.own_language import keep_own_language
from trainer.store.file_watch import EXCHANGED
from trainer.store.problems import CannotSave, KeyReused, ReadingOnly
from trainer.web import guard

SPANISH = {"Accept-Language": "es-MX,es;q=0.9,en;q=0.5"}
CATALOGUE = Path(__file__).parents[2] / "trainer" / "languages" / "es.po"
NOT_WORDS = {"English", "Español"}  # a language is called by its own name


@pytest.fixture(scope="session")
def english() -> re.Pattern[str]:
    """Return what matches a sentence of the program that stands in English where its Spanish is another one."""
    texts = set()
    for entry in polib.pofile(str(CATALOGUE), encoding="utf-8"):
        pairs = [(entry.msgid, entry.msgstr)] if not entry.msgid_plural else []
        pairs += [(one, entry.msgstr_plural[0]) for one in (entry.msgid, entry.msgid_plural) if entry.msgid_plural]
        texts |= {source for source, spanish in pairs if source != spanish and re.search("[A-Za-z]{3}", source)}
    parts = [re.sub(r"\\\{.*?\\\}", ".*?", re.escape(text)) for text in texts - NOT_WORDS]
    return re.compile(
        "|".join(sorted((part for part in parts if re.search("[A-Za-z]{3}", part)), key=len, reverse=True))
    )


def told(answer: TestResponse) -> Iterator[str]:
    """Return every text of a page, and what its controls are called."""
    soup = BeautifulSoup(answer.get_data(as_text=True), "lxml")
    for text in soup.find_all(string=True):
        if text.parent and text.parent.name not in ("style", "script") and text.strip():
            yield " ".join(text.split())
    for tag in soup.select("[aria-label], [placeholder], [data-getting], [data-slow]"):
        yield from (str(tag[name]) for name in ("aria-label", "data-getting", "data-slow") if name in tag.attrs)


def in_spanish(answer: TestResponse, english: re.Pattern[str]) -> None:
    """Hold a page to be in Spanish: it says so, and no sentence of the program stands in English."""
    soup = BeautifulSoup(answer.get_data(as_text=True), "lxml")
    assert soup.html is not None, answer.get_data(as_text=True)
    assert soup.html["lang"] == "es"
    assert [text for text in told(answer) if english.fullmatch(text)] == []


def test_an_english_page_is_seen_to_be_one(stranger: Hands, english: re.Pattern[str]) -> None:
    """What this module looks for is there where nobody asks for Spanish."""
    found = [text for text in told(stranger.client.get("/device")) if english.fullmatch(text)]
    assert {"Enrol this device", "Code, 8 figures", "Skip to the work", "Getting it"} <= set(found)


DOORS = ("/", "/device", "/names", "/names?q=wolfgang", "/names/ana", "/names/cleo", "/recovery", "/wall")


@pytest.mark.parametrize("path", DOORS)
def test_every_door_is_in_the_browsers_language(
    at_tablet: Callable[[], Hands], kitchen: Kitchen, path: str, english: re.Pattern[str]
) -> None:
    """Before anybody is known there. The person of the PIN page reads Spanish too."""
    for who in ("ana", "cleo"):
        keep_own_language(kitchen, person=who, language="es", units="")
    in_spanish(at_tablet().client.get(path, headers=SPANISH, follow_redirects=True), english)


@pytest.mark.parametrize("path", ["/", "/device"])
def test_a_new_device_is_met_in_its_language(stranger: Hands, path: str, english: re.Pattern[str]) -> None:
    """A phone nobody enrolled."""
    in_spanish(stranger.client.get(path, headers=SPANISH), english)


def test_the_doors_own_refusals_are_in_it_too(
    stranger: Hands, at_tablet: Callable[[], Hands], kitchen: Kitchen, clock: Clock, english: re.Pattern[str]
) -> None:
    """A wrong code, no name, a wrong PIN, the wait after five, a form of yesterday, a search in vain."""
    keep_own_language(kitchen, person="ana", language="es", units="")
    for data in ({}, {"code": "1111 2222", "name": "Oficina"}, {"code": "", "name": ""}):
        token = _token(stranger.client.get("/device", headers=SPANISH))
        in_spanish(stranger.client.post("/device", data={**token, **data}, headers=SPANISH), english)
    in_spanish(stranger.client.post("/device", data={"code": "1"}, headers=SPANISH), english)
    client = at_tablet().client
    for _ in range(7):
        token = _token(client.get("/names/ana", headers=SPANISH))
        answer = client.post("/names/ana", data={**token, "secret": "11112222"}, headers=SPANISH)
        in_spanish(answer, english)
    assert "Espera" in answer.get_data(as_text=True)


def _token(answer: TestResponse) -> dict[str, str]:
    """Return the hidden fields of a page's last form."""
    form = BeautifulSoup(answer.get_data(as_text=True), "lxml").find_all("form")[-1]
    return {str(i["name"]): str(i.get("value", "")) for i in form.find_all("input", type="hidden")}


FAULTS: dict[str, Callable[[], str]] = {
    "400": lambda: abort(400),
    "400-nothing-sent": lambda: request.form["nothing"],
    "403": lambda: abort(403),
    "404": lambda: abort(404),
    "405": lambda: abort(405),
    "409": lambda: _raise(KeyReused("k")),
    "413": lambda: abort(413),
    "416": lambda: abort(416),
    "429": lambda: abort(429),
    "500": lambda: _raise(RuntimeError("inner workings")),
    "501": lambda: abort(501),
    "503": lambda: _raise(ReadingOnly(EXCHANGED)),
    "507": lambda: _raise(CannotSave("disk full")),
}


def _raise(problem: Exception) -> NoReturn:
    raise problem


@pytest.fixture
def faulty(app: Flask) -> Flask:
    """Return the app with a page for each thing that can go wrong."""
    for code, fault in FAULTS.items():
        app.add_url_rule(f"/fault/{code}", f"fault.{code}", guard.needs("nobody")(fault))
    return app


@pytest.mark.parametrize("code", FAULTS)
def test_every_fault_is_told_in_spanish(
    faulty: Flask, sign_in: Callable[[str], Hands], kitchen: Kitchen, code: str, english: re.Pattern[str]
) -> None:
    """To a stranger whose browser asks for it, and to a person who reads it, whatever their browser asks for."""
    stranger = faulty.test_client().get(f"/fault/{code}", headers=SPANISH)
    keep_own_language(kitchen, person="ana", language="es", units="")
    anas = sign_in("ana").client.get(f"/fault/{code}", headers={"Accept-Language": "en"})
    for answer in (stranger, anas):
        assert answer.status_code >= 400
        in_spanish(answer, english)


def test_when_no_page_can_be_made_the_last_words_are_in_spanish(
    faulty: Flask, monkeypatch: pytest.MonkeyPatch, english: re.Pattern[str]
) -> None:
    """The frame itself is broken: plain text, in the browser's language, with a number to quote."""
    monkeypatch.setattr("trainer.web.page.shell_now", lambda problems: 1 / 0)
    answer = faulty.test_client().get("/fault/500", headers=SPANISH)
    assert answer.status_code == 500
    assert answer.mimetype == "text/plain"
    assert "Algo falló." in answer.get_data(as_text=True)
    assert re.search(r"\d{6}", answer.get_data(as_text=True))


def test_who_is_not_signed_in_is_refused_in_spanish(
    at_tablet: Callable[[], Hands], app: Flask, english: re.Pattern[str]
) -> None:
    """What was sent after the time is up, from elsewhere, or too long."""
    client = at_tablet().client
    in_spanish(client.post("/techniques/nests/after", headers=SPANISH), english)
    in_spanish(client.post("/device", headers={**SPANISH, "Origin": "https://evil.example"}), english)
    in_spanish(client.post("/device", data={"name": "x" * 70_000}, headers=SPANISH), english)
    app.config["OWN_NAMES"] = frozenset()
    in_spanish(client.get("/", headers=SPANISH, base_url="http://evil.example"), english)


@pytest.mark.parametrize("who", ["ana", "bo", "cleo"])
def test_a_page_for_others_is_refused_in_ones_own_language(
    sign_in: Callable[[str], Hands], kitchen: Kitchen, who: str, english: re.Pattern[str]
) -> None:
    """Each role at the pages of the others."""
    keep_own_language(kitchen, person=who, language="es", units="")
    hands = sign_in(who)
    for path in ("/rail", "/ready", "/board", "/cooks", "/devices", "/no-such-page", "/clock", "/own-secret"):
        in_spanish(hands.client.get(path, headers={"Accept-Language": "en"}), english)


@pytest.mark.parametrize(
    ("asked", "language"),
    [
        ("es", "es"),
        ("es-419,en;q=0.3", "es"),
        ("fr,es;q=0.5", "es"),
        ("en-US,en;q=0.9,es;q=0.8", "en"),
        ("es;q=0,en", "en"),
        ("fr", "en"),
        ("*", "en"),
        ("", "en"),
        ("\x00;;q=x", "en"),
    ],
)
def test_the_browsers_wish_is_read_as_the_standard_says(stranger: Hands, asked: str, language: str) -> None:
    """RFC 9110, section 12.5.4: the greatest weight first, none with the weight 0; else the kitchen's language."""
    answer = stranger.client.get("/device", headers={"Accept-Language": asked})
    assert f'<html lang="{language}">' in answer.get_data(as_text=True)


def test_what_was_chosen_at_the_door_goes_before_what_the_browser_asks_for(at_tablet: Callable[[], Hands]) -> None:
    """Somebody pressed English on a tablet that is set up in Spanish."""
    hands = at_tablet()
    hands._see(hands.client.get("/names", headers=SPANISH))
    hands.press("English")
    assert '<html lang="en">' in hands.client.get("/names", headers=SPANISH).get_data(as_text=True)
