"""Every page each of the three people can open, in both languages, by day and by night, at every size.

A page is looked at in both languages, by day and by night and at three sizes, but not in all twelve ways: of any two of
these, two pages in turn meet every pair. All twelve ways of every page are looked at under the marker bench.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations, product
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser import engine, looks
from tests.browser.conftest import FRIDAY_AT_SIX
from tests.browser.engine import Served
from tests.browser.lived_in import Work, settle
from tests.browser.somebody import Somebody
from tests.browser.walking import SHARES, Found, at_the_door, places_of, reads_in, share_of
from tests.browser.weighing import Scales, Weight
from trainer.actions.open_kitchen import Library
from trainer.kitchen.technique import Content
from trainer.web.app import create_app

SIZES = {360: 780, 768: 1024, 1280: 800}
NARROW = (320, 640)
NOT_PAGES = {"static", "screen.style", "manager.identity.held", "manager.left.held"}  # what is held comes as a file
NOT_PAGES |= {"photographs.photograph", "writing.photographs.shown"}  # pictures
NOT_PAGES |= {"handing_out.take", "handing_out.calendar.feed", "records.as_pdf"}  # files
NOT_PAGES |= {"offline.worker", "offline.kept"}  # what a phone fetches by itself
NOT_PAGES |= {"news.open_it"}  # puts a line away and leads to a page that is walked
OF_QUIZZES = {f"quiz.{page}" for page in ("start", "sitting", "question", "hand_in", "result", "drill")}
OF_QUIZZES |= {"manager.acts.lift_wait"}
"""Pages of content of the former kind, which sits quizzes: the shipped has none. `tests/web` opens them."""

Ways = Mapping[str, tuple[tuple[int, str], ...]]
"""In each language the widths a page is looked at, by day (light) or by night (dark)."""
IN_TURN: tuple[Ways, Ways] = (
    {"en": ((360, "light"), (1280, "dark")), "es": ((768, "dark"),)},
    {"en": ((768, "light"),), "es": ((360, "dark"), (1280, "light"))},
)
ALL_WAYS: Ways = dict.fromkeys(("en", "es"), tuple(product(SIZES, ("light", "dark"))))


@pytest.fixture(scope="module")
def lived_in(
    made: Path, content: Content, library: Library, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Served]:
    """Return the demo kitchen with work under way in it, served."""
    folder = tmp_path_factory.mktemp("lived-in") / "kitchen"
    shutil.copytree(made, folder)
    with engine.serving(folder, content, FRIDAY_AT_SIX, library) as served:
        yield served


@pytest.fixture(scope="module")
def work(lived_in: Served) -> Work:
    """Return what is under way in the kitchen."""
    return settle(lived_in)


def look_at(who: Somebody, where: str, ways: Sequence[tuple[int, str]], found: Found) -> None:
    """Look at the page a person is at: its measures at every size, its colours in the ways it is to be seen."""
    who.page.set_viewport_size({"width": NARROW[0], "height": NARROW[1]})
    found.add("sideways", f"{where} at 320 px", looks.sideways(who.page) + looks.sideways_spaced(who.page))
    for width, height in SIZES.items():
        who.page.set_viewport_size({"width": width, "height": height})
        at = f"{where} at {width} px"
        found.add("sideways", at, looks.sideways(who.page) + looks.sideways_spaced(who.page))
        found.add("small", at, looks.small_controls(who.page) + looks.small_text(who.page))
        schemes = [scheme for wide, scheme in ways if wide == width]
        for scheme in schemes:
            who.page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
            wrong, by_eye = looks.axe(who.page)
            found.axe_runs += 1
            found.by_eye += len(by_eye)
            found.add("axe", f"{at}, {scheme}", wrong)
            found.add("faint", f"{at}, {scheme}", looks.faint_text(who.page))
        if schemes and width == min(SIZES):
            found.add("covered", at, looks.under_the_bar(who.page))


def test_every_page_there_is_is_looked_at(lived_in: Served, work: Work) -> None:
    """The walk meets every route a GET can open; a new page must be added to it."""
    app = create_app(lived_in.kitchen)
    routes = {rule.endpoint for rule in app.url_map.iter_rules() if rule.methods and "GET" in rule.methods}
    at = app.url_map.bind("localhost")
    seen = {at.match(path.partition("?")[0])[0] for _, _, path in places_of(lived_in, work) if path != "/no-such-page"}
    assert routes - seen - NOT_PAGES - OF_QUIZZES == set()


def test_a_page_is_seen_each_way_somewhere_and_two_in_turn_meet_every_pair() -> None:
    """Language, size, and day or night: all of each on every page; all pairs of them on two."""
    rows = [[(language, *way) for language, seen in ways.items() for way in seen] for ways in IN_TURN]
    every = [(language, *way) for language, seen in ALL_WAYS.items() for way in seen]
    for one in range(3):
        assert all({row[one] for row in page} == {row[one] for row in every} for page in rows)
    for one, other in combinations(range(3), 2):
        assert {(row[one], row[other]) for page in rows for row in page} == {(row[one], row[other]) for row in every}


@pytest.mark.parametrize(
    "in_turn", [pytest.param(IN_TURN, id="by pairs"), pytest.param((ALL_WAYS,), id="all", marks=pytest.mark.bench)]
)
@pytest.mark.parametrize("share", range(SHARES))
def test_the_look_holds_on_every_page(
    browser: Browser, lived_in: Served, work: Work, share: int, in_turn: tuple[Ways, ...]
) -> None:
    """Nothing wrong by axe, no sideways scroll, text at 7:1 and of 18 px, controls of 48 px, nothing under the bar.

    axe holds pages to WCAG 2.2 A and AA, to the contrast of AAA and to target sizes. The browser complains of nothing,
    and every request goes to the kitchen's own address.
    """
    mine, found = share_of(places_of(lived_in, work), share), Found()
    for role in dict.fromkeys(role for _, role, _ in mine):
        who = at_the_door(browser, lived_in, role)
        for language in ALL_WAYS:
            reads_in(who, lived_in, work, language)
            for number, path in [(number, path) for number, whose, path in mine if whose == role]:
                who.open(path)
                assert who.page.locator("html").get_attribute("lang") == language
                look_at(who, f"{role} {path} in {language}", in_turn[number % len(in_turn)][language], found)
        found.add("complaints", role, who.faults)
        found.add("strangers", role, who.strangers)
        who.context.close()
    print(f"\n{len(mine)} pages, {found.axe_runs} runs of axe, {found.by_eye} left to the eye")
    assert found.axe_runs
    assert found.faults == {}


@pytest.mark.parametrize("share", range(SHARES))
def test_pages_weigh_little(browser: Browser, lived_in: Served, work: Work, share: int) -> None:
    """A first view is at most 100 KiB, a later one 25 KiB, script 20 kB."""
    weights: dict[str, Weight] = {}
    mine = share_of(places_of(lived_in, work), share)
    for role in dict.fromkeys(role for _, role, _ in mine):
        who = at_the_door(browser, lived_in, role)
        reads_in(who, lived_in, work, "en")
        scales = Scales(who.context)
        weights |= {f"{role} {path}": scales.weigh(path) for _, whose, path in mine if whose == role}
        who.context.close()
    first, later, script = (max(getattr(w, n) for w in weights.values()) for n in ("first", "later", "script"))
    print(f"\nheaviest first view {first} bytes, later {later} bytes, script {script} bytes")
    assert {at: w for at, w in weights.items() if w.first > 100 * 1024 or w.later > 25 * 1024} == {}
    assert script <= 20_000
