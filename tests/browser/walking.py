"""A walk through every page of a kitchen that is lived in, in shares for the processes of a run, and what it found."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from playwright.sync_api import Browser

from tests.browser.engine import Served
from tests.browser.journeys import step_in
from tests.browser.lived_in import Work, pages_of
from tests.browser.somebody import Somebody
from trainer.actions.own_language import keep_own_language

SHARES = 8
Place = tuple[int, str, str]
"""A page to look at: its number in the walk, whose it is, and its address."""


@dataclass
class Found:
    """What was found wrong on pages, a list of lines a rule, and how much was looked at."""

    faults: dict[str, list[str]] = field(default_factory=dict)
    axe_runs: int = 0
    by_eye: int = 0

    def add(self, rule: str, where: str, told: list[str]) -> None:
        """Keep what was found wrong."""
        if told:
            self.faults.setdefault(rule, []).extend(f"{where}: {line}" for line in told)


def places_of(served: Served, work: Work) -> list[Place]:
    """Return every page there is to look at, in the order of the walk."""
    pages = [(role, path) for role, paths in pages_of(served, work).items() for path in dict.fromkeys(paths)]
    return [(number, role, path) for number, (role, path) in enumerate(pages)]


def share_of(places: list[Place], share: int) -> list[Place]:
    """Return one of the shares of a walk: pages that follow each other, so that few people are needed for it."""
    return places[len(places) * share // SHARES : len(places) * (share + 1) // SHARES]


def at_the_door(browser: Browser, served: Served, role: str) -> Somebody:
    """Return a person signed in; nobody is an enrolled device with nobody signed in."""
    who = Somebody(browser, served.address)
    step_in(who, served, "Manager" if role == "nobody" else role)
    if role == "nobody":
        who.context.clear_cookies(name=re.compile("^session"))
    return who


def reads_in(who: Somebody, served: Served, work: Work, language: str) -> None:
    """Let the three people, and this browser, read in a language."""
    who.context.add_cookies([{"name": "language", "value": language, "url": served.address}])
    for person in (work.hire, work.sous, work.manager):
        assert keep_own_language(served.kitchen, person=person, language=language, units="") is None
