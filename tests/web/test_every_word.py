"""No page keeps a word of English to itself: told in a made-up language, every sentence is in it."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag
from bs4.element import NavigableString
from flask import Flask
from werkzeug.exceptions import HTTPException

from tests.made_up_language import OPEN, OPEN_TAUGHT, SHUT, SHUT_TAUGHT, TAG, in_brackets, spoken
from tests.web.at_work import FILES, OWN, Work, opened, pages_of, put_to_work
from tests.web.conftest import PEOPLE
from tests.web.hands import Hands, Seen
from tests.web.test_guard import rules
from trainer.actions.demo_door import DEMO_PASSPHRASE
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.own_language import keep_own_language
from trainer.imports.roster_plan import COLUMNS
from trainer.kitchen.roles import ROLES
from trainer.kitchen.services import THE_THREE
from trainer.kitchen.short_codes import short_code
from trainer.store.kitchen_file import KitchenFile

TOLD = re.compile(f"{OPEN}[^{OPEN}{SHUT}]*{SHUT}|{OPEN_TAUGHT}[^{OPEN_TAUGHT}{SHUT_TAUGHT}]*{SHUT_TAUGHT}")
NAMES = [person.name for person, _, _ in PEOPLE.values()]
THE_SAME = (
    *NAMES,
    *(name.split()[0] for name in NAMES),
    *(short_code("technique", name) for name in OWN.techniques),
    *(short_code("station", name) for name in OWN.stations),
    *("Corner Kitchen", "America/New_York", "Pass tablet", "English", "EST", "localhost/go", DEMO_PASSPHRASE),
    "Neat",  # a note a person wrote
)
OF_A_FILE = (
    *(cell for rows in FILES.values() for cell in re.split(r"[,\n]", rows) if cell),
    *(spelling for name in OWN.stations for spelling in (name, name.replace("_", " "))),
    *(*COLUMNS["roster"], *COLUMNS["shifts"], *ROLES, *THE_THREE.ids, TAG),
)
INITIALS, CHECK_VALUE = r"\b[A-Z]{2}\b", r"\b[0-9a-f]{12,64}\b|\b\d+(?:-[0-9A-Z]{4}){4}-\d\d\b"
COMMAND = r"\btrainer(?: [a-z]+){1,2}\b"
CALENDAR = r"http://localhost/calendar/[\w-]+\.ics"


def _any_of(words: Iterable[str]) -> re.Pattern[str]:
    """Return what finds any of the words, the longest first."""
    by_length = map(re.escape, sorted(words, key=len, reverse=True))
    return re.compile("|".join([*by_length, INITIALS, CHECK_VALUE, COMMAND, CALENDAR]))


SAME_IN_ALL = _any_of(THE_SAME)
SAME_ON_A_FILE = _any_of([*THE_SAME, *OF_A_FILE])
UNIT = r"(?:°?[FC]|lb|oz|fl oz|kg|g|mL|L|Tbsp|tsp|qt|gal|pt|mm|cm|in|min|s|h|ppm)\b"
FIGURES = re.compile(rf"[0-9½¼¾_][0-9_.,/\s\u2013-]*\s*{UNIT}")
ONLY_UNITS = re.compile(rf"(?:\W*{UNIT})+\W*")
SEEN = ("aria-label", "placeholder", "alt", "title", "data-over", "data-getting", "data-slow")
ONLY_LEAD_ON = {"quiz.sitting", "news.open_it", "manager.identity.held", "manager.left.held"}
FILES_SENT = {"handing_out.take", "handing_out.calendar.feed", "records.as_pdf"}
LEFT_ALONE = {"static", "screen.style", "offline.worker", "offline.kept", *FILES_SENT, *ONLY_LEAD_ON}  # no words


@pytest.fixture
def kitchen(prepared: Path, tmp_path: Path) -> Iterator[Kitchen]:
    """Return the invented kitchen, which speaks English and the made-up language."""
    folder = tmp_path / "kitchen"
    shutil.copytree(prepared, folder)
    file = KitchenFile.open(folder)
    (tmp_path / "languages").mkdir()
    with spoken(tmp_path / "languages", in_brackets):
        yield opened(file)
    file.close()


@pytest.fixture
def work(kitchen: Kitchen) -> Work:
    """Return what is under way, everybody there reading the made-up language."""
    under_way = put_to_work(kitchen)
    for person in PEOPLE:
        keep_own_language(kitchen, person=person, language=TAG, units="")
    return under_way


def english_on(page: Seen) -> set[str]:
    """Return each text of a page that stands outside every bracket and is nobody's name, no figure and no unit."""
    same = SAME_ON_A_FILE if "/roster" in page.path else SAME_IN_ALL
    texts = {text for text in _texts(page.soup) if any(sign.isalpha() for sign in _left_of(text, same))}
    return {" ".join(text.split()) for text in texts}


def _texts(soup: BeautifulSoup) -> Iterator[str]:
    """Yield every text that is seen or heard, but for what says itself to be in another language."""
    for tag in soup.find_all(True):
        if tag.name in ("script", "style", "textarea") or _is_in_english(tag):
            continue
        yield from (child for child in tag.children if type(child) is NavigableString)
        yield from (str(tag[name]) for name in SEEN if tag.get(name))


def _is_in_english(tag: Tag) -> bool:
    return any(one.get("lang") == "en" for one in (tag, *tag.parents) if isinstance(one, Tag))


def _left_of(text: str, same: re.Pattern[str] = SAME_IN_ALL) -> str:
    """Return a text without what is told, without what is the same in every language, without figures and units."""
    before = ""
    while text != before:
        before, text = text, TOLD.sub(" ", text)
    left = FIGURES.sub(" ", same.sub(" ", text))
    return "" if ONLY_UNITS.fullmatch(left) else left


def looked_at(hands: dict[str, Hands], work: Work) -> Iterator[Seen]:
    """Yield every page of everybody; `path` says whose it is."""
    for who, addresses in pages_of(work).items():
        for address in addresses:
            page = hands[who].open(address)
            yield Seen(page.response, f"{who}{address}")


@pytest.fixture
def everybody(
    stranger: Hands, at_tablet: Callable[[], Hands], sign_in: Callable[[str], Hands], work: Work
) -> dict[str, Hands]:
    """Return the browsers of a person unknown, of a tablet, of the cook, the assessor and the manager."""
    del work
    tablet = at_tablet()
    for hands in (stranger, tablet):
        hands.client.set_cookie("language", TAG)
    return {"stranger": stranger, "tablet": tablet, **{who: sign_in(who) for who in ("ana", "bo", "cleo")}}


def test_every_page_is_told_in_the_readers_language(everybody: dict[str, Hands], work: Work, app: Flask) -> None:
    """Each word on each page comes from the catalogue or from the kitchen's own words in that language."""
    english: dict[str, set[str]] = {}
    opened_to: set[str] = set()
    for page in looked_at(everybody, work):
        assert page.status < 500, page.path
        opened_to.add(_endpoint(app, page.response.request.path))
        for text in english_on(page):
            english.setdefault(text, set()).add(page.path)
    assert not english, _told_where(english)
    missing = _pages(app) - opened_to
    assert not missing, f"Add an address to pages_of in at_work.py for: {missing}"


def test_the_demo_door_is_told_in_the_readers_language(everybody: dict[str, Hands], kitchen: Kitchen) -> None:
    """A demo kitchen asks as whom to step in, and says on every page what it is."""
    kitchen.file.change_settings(replace(kitchen.file.settings, is_demo=True))
    page = everybody["stranger"].open("/")
    assert page.soup.select("button")
    assert english_on(page) | english_on(everybody["ana"].open("/rail")) == set()


def _told_where(english: dict[str, set[str]]) -> str:
    """Return each text with the first of its pages, and how many more there are."""
    return "\n".join(f"{text} — {min(where)}, {len(where)} pages" for text, where in english.items())


def _pages(app: Flask) -> set[str]:
    """Return every endpoint that answers with a page."""
    return {rule.endpoint for rule in rules(app) if "GET" in (rule.methods or ()) and rule.endpoint not in LEFT_ALONE}


def _endpoint(app: Flask, path: str) -> str:
    try:
        return str(app.url_map.bind("").match(path)[0])
    except HTTPException:
        return ""


BLANK, ODD = "", "⟪?⟫"


def test_every_refusal_is_told_in_the_readers_language(everybody: dict[str, Hands], work: Work) -> None:
    """Each form sent with nothing in it, and with something that is nothing, is refused in that language."""
    english: dict[str, set[str]] = {}
    for who, addresses in pages_of(work).items():
        for address in addresses:
            for filled in (BLANK, ODD):
                for page in _sent(everybody[who], address, filled):
                    assert page.status < 500, page.path
                    for text in english_on(page):
                        english.setdefault(text, set()).add(f"{who}{address}")
    assert not english, _told_where(english)


def _sent(hands: Hands, address: str, filled: str) -> Iterator[Seen]:
    """Send each form of a page, its fields filled so, one without fields once; yield what comes back."""
    forms = hands.open(address).soup.select("main form[method=post]")
    for form in forms:
        to_fill = form.select("input:not([type=hidden], [type=radio], [type=checkbox], [type=file]), textarea")
        if to_fill or not filled:
            data = {str(i["name"]): str(i.get("value", "")) for i in form.select("input[type=hidden]")}
            data |= {str(i["name"]): filled for i in to_fill}
            yield hands._see(hands.client.post(str(form.get("action") or address), data=data, follow_redirects=True))


def test_the_check_sees_a_word_of_english(everybody: dict[str, Hands]) -> None:
    """A word outside the catalogue is found; a name, an amount and a unit are not."""
    del everybody
    soup = BeautifulSoup(
        f"<main><p>Ana Pardo: 4.5 oz</p><p>{OPEN}of {SHUT}3{OPEN} left{SHUT}</p><p>{OPEN}Step{SHUT} two</p>"
        '<input placeholder="Type here"></main>',
        "html.parser",
    )
    assert [text for text in _texts(soup) if any(s.isalpha() for s in _left_of(text))] == [
        f"{OPEN}Step{SHUT} two",
        "Type here",
    ]
