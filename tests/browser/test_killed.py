"""The browser killed at any moment, with and without network: what a person was shown as kept is there, once.

A cook answers at one phone, an assessor watches at another. Each life of a browser ends by SIGKILL; the next one has
the same folder, and nothing else.
"""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from tests.browser.engine import Served
from tests.browser.journeys import (
    TICK,
    answer,
    first_name,
    inside,
    person_id,
    question_before,
    ready_to_show,
    right,
    step_in,
)
from tests.browser.short_lived import ShortLived
from tests.browser.test_offline import all_is_kept, entries
from trainer.actions import studying, watching
from trainer.actions.asking_skills import draft_id
from trainer.actions.outcome import Saved
from trainer.kitchen.book import Entry
from trainer.kitchen.practical import PointSeen
from trainer.web.offline import keeping

WATCHED = "knife_cuts"
LIVES, SHORTEST, LONGEST = 4, 6, 9
MANY, SHARES, MANY_SHORTEST, MANY_LONGEST = 200, 4, 5, 20
UNTIL_SHOWN = 3000  # ms
A_WHILE = 180  # seconds


class AtRisk:
    """The two people and their phones, and what of it the kitchen has."""

    def __init__(self, browser: Browser, served: Served, folder: Path, seed: int) -> None:
        """Let a cook have read all techniques, and an assessor have begun to watch that cook."""
        self.days = 0
        self.served, self.luck = served, random.Random(seed)  # noqa: S311 - which moment, no secret
        self.hire, self.sous = person_id(served, "New hire"), person_id(served, "Sous chef")
        served.clock.put_forward(days=5)  # the editions that change this week have changed
        k, now = served.kitchen, served.clock()
        for technique in k.content.techniques:
            done = studying.acknowledge_reading(k, cook=self.hire, technique=technique, now=now, key=f"r-{technique}")
            assert isinstance(done, Saved), done
        self.begun_with = {entry.id for entry in self._answered()}
        ready_to_show(served, self.hire, k.content.techniques[WATCHED])
        watch = watching.Watch(self.hire, WATCHED)
        begun = watching.start_practical(k, by=self.sous, watch=watch, now=now, key="watched")
        assert isinstance(begun, watching.Practical), begun
        self.phones = [self._phone(browser, folder / name) for name in ("cook", "assessor")]

    def _phone(self, browser: Browser, profile: Path) -> ShortLived:
        profile.mkdir()
        return ShortLived(browser, self.served.address, profile)

    def settle(self) -> None:
        """Let each phone keep its pages once, so that its lives can begin without network; its browser is killed."""
        pages = (("New hire", "/record"), ("Sous chef", "/practicals/watched/2"))
        for who, (role, path) in zip(self.phones, pages, strict=True):
            who.begin()
            step_in(who, self.served, role)
            who.open("/rail")
            all_is_kept(who, path, A_WHILE)
            who.end()

    def lives(self, number: int, shortest: float, longest: float) -> None:
        """Let the phones live so many lives, by turns."""
        acts = (self.answers, self.ticks)
        for turn in range(number):
            seconds, has_network = self.luck.uniform(shortest, longest), self.luck.random() < 0.5
            self.phones[turn % 2].live(acts[turn % 2], seconds, has_network=has_network)

    def answers(self) -> None:
        """Let the cook answer the next question there is; the network comes and goes."""
        noor, told = self.phones[0], self.phones[0].told
        self._on_the_way(noor, "New hire", self._questions(noor))
        ready = noor.page.locator("[data-answerable]:visible")
        if not noor.page.locator("input[name=skill]").count() and ready.count():
            noor.tap(ready.first)
        if not noor.page.locator("input[name=skill]").count():
            return self._nothing_left(noor)
        name = "/".join(noor.page.locator(f"input[name={one}]").input_value() for one in ("skill", "seed"))
        if self.served.kitchen.file.drafts.get(draft_id(self.hire, name.split("/")[0])) is None:
            told.stale += 1
            return noor.network(there=True)
        text = right(question_before(noor, self.served, self.hire)[1])
        told.pressed.append(name)
        if noor.page.locator("input[name=why]").count():
            for field, key in zip(("answer", "why"), text.split(), strict=True):
                noor.page.locator(f"input[name={field}][value='{key}']").check()
            noor.tap(noor.page.locator("button.enamel"))
        else:
            answer(noor, text)
        return self._note(noor, name, is_in_book=noor.path.startswith("/answers/"))

    def ticks(self) -> None:
        """Let the assessor look at a point, new or seen before; each look has a note of its own."""
        renzo, told = self.phones[1], self.phones[1].told
        points = self.served.kitchen.content.techniques[WATCHED].checklist
        number = self.luck.choice([n for n, point in enumerate(points, 1) if point.judged == "ticked"])
        path = f"/practicals/watched/{number}"
        self._on_the_way(renzo, "Sous chef", path)
        if renzo.path != path or not renzo.page.locator("#point").count():
            return self.phones[1].network(there=True)
        name = f"Look {len(told.pressed) + 1}."
        renzo.page.locator("details:has([name=note]) > summary").click()
        renzo.fill("Note", name)
        told.pressed.append(name)
        with renzo.page.expect_navigation():
            renzo.press(self.luck.choice((TICK, "Not yet")))
        return self._note(renzo, name, is_in_book=renzo.has_network and renzo.path != path)

    def _on_the_way(self, who: ShortLived, role: str, path: str) -> None:
        """Take or give the network now and then; open a page, signed in."""
        if self.luck.random() < 0.3:
            who.network(there=not who.has_network)
        who.open(path)
        if who.page.get_by_text(f"Step in as {first_name(self.served, role)}").count():
            who.network(there=True)
            step_in(who, self.served, role)
            who.open(path)

    def _questions(self, noor: ShortLived) -> str:
        """Return where to look for a question: among those of today, and with network of any technique."""
        taught = [f"/techniques/{name}/questions" for name in self.served.kitchen.content.techniques]
        return self.luck.choice(("/questions", self.luck.choice(taught))) if noor.has_network else "/questions"

    def _nothing_left(self, noor: ShortLived) -> None:
        """Give the network back; where nothing is asked today any more, let a day go by: a practical lasts 14."""
        if noor.has_network and noor.path == "/questions" and self.days < 9:
            self.days += 1
            self.served.clock.put_forward(days=1)
        noor.network(there=True)

    def _note(self, who: ShortLived, name: str, *, is_in_book: bool) -> None:
        """Keep what the page says of what was just pressed."""
        band = who.page.locator("[data-waiting] a", has_text="Waiting to be sent")
        if is_in_book and not who.page.title().startswith("Error"):
            who.told.shown[name] = who.heading
        elif not who.has_network:
            band.wait_for(timeout=UNTIL_SHOWN)
            who.told.shown[name] = band.inner_text()

    def all_is_sent(self) -> None:
        """Open both phones a last time with network, and wait until nothing waits on them."""
        for who, role in zip(self.phones, ("New hire", "Sous chef"), strict=True):
            who.begin()
            who.open("/unsent")
            if not who.page.locator("[data-none]:visible").count():
                step_in(who, self.served, role)
                who.open("/unsent")
            expect(who.page.locator("[data-none]")).to_be_visible(timeout=60_000)
            expect(who.page.locator("[data-waiting] a")).to_have_text("")
            who.end()

    def close(self) -> None:
        """Let no browser run on."""
        for each in self.phones:
            each.end()

    def _answered(self) -> list[Entry]:
        return entries(self.served, "answered", self.hire)

    def answers_kept(self) -> list[str]:
        """Return the question of each answer the book has from these lives."""
        mine = [entry for entry in self._answered() if entry.id not in self.begun_with]
        return [f"{entry.body['skill']}/{entry.body['seed']}" for entry in mine]

    def signed(self) -> list[list[str]]:
        """See what nobody looked at, sign, and return the notes of each point's looks as the book has them."""
        k, now = self.served.kitchen, self.served.clock()
        found = watching.find_practical(k, "watched")
        assert found is not None
        for point in k.content.techniques[WATCHED].checklist:
            if point.id not in found.done:
                line = point.limit
                end = (line.target or line.highest or line.lowest) if line else None
                values = (f"{inside(line)} {end.unit.symbol}",) if line and end else ()
                look = watching.Look(point.id, "meets it", values, said=tuple(one.id for one in point.choices))
                judged = watching.see_point(k, by=self.sous, practical="watched", look=look, now=now)
                assert isinstance(judged, PointSeen), judged
        signing = watching.Signing("watched", now)
        done = watching.sign_practical(k, by=self.sous, signing=signing, now=now, key="signed")
        assert isinstance(done, Saved), done
        return [[look.get("note", "") for look in point["looks"]] for point in done.entry.body["points"]]


@dataclass(frozen=True, slots=True)
class Held:
    """What came of all lives: how much was pressed, shown as kept and kept, by the cook and by the assessor.

    `lost` was shown as kept and is not there; `doubled` is there more than once; `out_of_order` are a point's looks
    that do not stand as they were pressed. `stale` counts questions shown again that were answered before.
    """

    lives: int
    pressed: tuple[int, int]
    shown: tuple[int, int]
    shown_waiting: int
    kept: tuple[int, int]
    lost: list[str]
    doubled: list[str]
    out_of_order: list[list[str]]
    stale: int
    stumbles: list[str]


def held(risk: AtRisk) -> Held:
    """Return what of all that was shown as kept is there."""
    noor, renzo = (phone.told for phone in risk.phones)
    answered, points = Counter(risk.answers_kept()), [[note for note in notes if note] for notes in risk.signed()]
    looks = Counter(note for notes in points for note in notes)
    return Held(
        lives=noor.lives + renzo.lives,
        pressed=(len(noor.pressed), len(renzo.pressed)),
        shown=(len(noor.shown), len(renzo.shown)),
        shown_waiting=sum("Waiting" in words for told in (noor, renzo) for words in told.shown.values()),
        kept=(answered.total(), looks.total()),
        lost=[*(noor.shown.keys() - answered.keys()), *(renzo.shown.keys() - looks.keys())],
        doubled=[name for name, times in (answered + looks).items() if times > 1],
        out_of_order=[notes for notes in points if notes != sorted(notes, key=renzo.pressed.index)],
        stale=noor.stale,
        stumbles=noor.stumbles + renzo.stumbles,
    )


def after_lives(risk: AtRisk, number: int, shortest: float, longest: float) -> Held:
    """Let the phones live and be killed, and return what came of it."""
    try:
        risk.settle()
        risk.lives(number, shortest, longest)
        risk.all_is_sent()
    finally:
        risk.close()
    return held(risk)


def test_nothing_shown_as_kept_is_lost_when_a_browser_is_killed(
    browser: Browser, quernstone: Served, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Four lives of a few seconds: each answer and each look that was shown as kept is in the book, once."""
    monkeypatch.setattr(keeping, "MOST_PAGES", 40)
    found = after_lives(AtRisk(browser, quernstone, tmp_path, 7), LIVES, SHORTEST, LONGEST)
    assert (found.lost, found.doubled, found.out_of_order) == ([], [], []), found
    assert min(found.shown) > 0, found


@pytest.mark.bench
@pytest.mark.parametrize("share", range(SHARES))
def test_two_hundred_lives(
    browser: Browser, quernstone: Served, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, share: int
) -> None:
    """The same for 200 lives of 5 to 20 seconds, in shares for the processes of a run; prints what there was."""
    monkeypatch.setattr(keeping, "MOST_PAGES", 40)
    risk = AtRisk(browser, quernstone, tmp_path, share)
    found = after_lives(risk, MANY // SHARES, MANY_SHORTEST, MANY_LONGEST)
    print(found)
    assert (found.lost, found.doubled, found.out_of_order) == ([], [], []), found
