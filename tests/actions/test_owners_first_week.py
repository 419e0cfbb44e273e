"""An owner with one tablet and no second manager lives a first week through the pages, and comes back months later.

Two people are asked for where somebody gains power (OWASP ASVS 5.0.0, 2.3.5); whoever is alone must be able to run the
kitchen all the same. Only four acts wait a day: an age that lifts a bar, the void of a stop, the role of a manager and
a manager's first code.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup
from flask import Flask

from tests.web.conftest import NOON, Clock
from tests.web.hands import Hands, take_all
from tests.web.small_content import CONTENT
from tests.web.test_cook import read_through
from tests.web.test_manager import send
from trainer.actions.enrolling import Invited, invite_device
from trainer.actions.kitchen_settings import enter_settings
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Saved
from trainer.actions.roster import first_manager
from trainer.actions.signing_in import Done, set_secret
from trainer.actions.sitting import open_sitting
from trainer.actions.two_people import waiting
from trainer.kitchen.book import LOCAL, Entry, Kind
from trainer.recipe_math.figures import number_text
from trainer.store.kitchen_file import KitchenFile
from trainer.store.settings import Settings
from trainer.web.app import create_app

OWNER, PHRASE = "Ida Brandt", "a wet towel under the board"
PINS = {"Eve Roth": "58203147", "Jon Okafor": "90417263", "Max Lund": "40915826"}
SECRET = "Your PIN or passphrase"
ROSTER = (
    "number,name,birth date,roles\n"
    "1,Eve Roth,1999-04-02,cook\n2,Jon Okafor,1988-04-17,cook\n3,Max Lund,2009-06-01,cook\n"
)
WEIGHTS: dict[str, Any] = {f"reading_{number}": "4.5" for number in range(1, 6)}


@dataclass
class Week:
    """The kitchen, its one tablet, and a clock."""

    k: Kitchen
    app: Flask
    clock: Clock
    tablet: Hands
    owner: str

    def person(self, name: str) -> str:
        """Return somebody's id."""
        return next(who for who, one in self.k.people().items() if one.name == name)

    def signs_in(self, name: str, secret: str = "") -> Hands:
        """Let somebody take the tablet and sign in."""
        self.tablet.client.post("/leave", data=_token(self.tablet.open("/names").soup))
        self.tablet.open(f"/names/{self.person(name)}")
        is_owner = name == OWNER
        label = "Passphrase" if is_owner else "PIN, 8 figures"
        self.tablet.press("Sign in", {label: secret or (PHRASE if is_owner else PINS[name])})
        assert self.tablet.page.path != f"/names/{self.person(name)}", self.tablet.page.problems
        return self.tablet

    def does(self, path: str, button: str, fill: dict[str, str] | None = None, **changes: object) -> Hands:
        """Let the owner do one act on its page."""
        page = self.tablet.open(path)
        assert page.status == 200, (path, page.work)
        fill = dict(fill or {})
        if any(" ".join(label.get_text().split()) == SECRET for label in page.soup.find_all("label")):
            fill[SECRET] = PHRASE
        after = self.tablet.press(button, fill, **changes)
        assert after.status == 200, (path, after.problems)
        return self.tablet

    def entered(self, kind: Kind) -> list[Entry]:
        """Return the entries of a kind."""
        return self.k.file.book.of_kind(kind)

    def waits(self) -> list[str]:
        """Return which acts wait."""
        return [draft.about for draft in waiting(self.k)]


def _token(soup: BeautifulSoup) -> dict[str, str]:
    """Return what the hidden fields of a page hold."""
    found = soup.find_all("input", type="hidden")
    return {str(one["name"]): str(one.get("value", "")) for one in found if one.get("name")}


@pytest.fixture
def week(tmp_path: Path) -> Iterator[Week]:
    """Return a kitchen with its owner and a tablet that was enrolled with a code made on the machine."""
    file = KitchenFile.create(tmp_path / "kitchen", Settings("", "Green Door", timezone="America/New_York"))
    k, clock = Kitchen(file, CONTENT), Clock()
    begun = first_manager(k, name=OWNER, now=NOON, key="first")
    assert isinstance(begun, Saved)
    assert isinstance(set_secret(k, person=begun.entry.cook, secret=PHRASE, now=NOON), Done)
    enter_settings(k, by=begun.entry.cook, now=NOON, key="settings")
    invited = invite_device(k, by=LOCAL, now=NOON)
    assert isinstance(invited, Invited)
    app = create_app(k, clock=clock)
    app.config["PROPAGATE_EXCEPTIONS"] = False
    tablet = Hands(app.test_client(), lambda: clock.pass_by(seconds=1))
    tablet.open("/device")
    tablet.press("Enrol this device", {"Code, 8 figures": invited.code, "A name for this device": "Pass tablet"})
    yield Week(k, app, clock, tablet, begun.entry.cook)
    file.close()


def takes_in_the_roster(week: Week) -> None:
    """Three cooks from a file; one is a minor."""
    send(week.tablet, ROSTER)
    week.tablet.press("Take in 3 rows")
    assert len(week.entered("cook_joined")) == 4


def comes_in_with_a_code(week: Week, name: str) -> None:
    """The owner makes a code at once; the person chooses a PIN of their own with it."""
    page = week.does(f"/cooks/{week.person(name)}/first-code", "Make the code").page
    code = page.soup.select_one("main .big")
    assert code, (name, page.work)
    week.signs_in(name, code.get_text().replace(" ", ""))
    week.tablet.press("Keep it", {"New PIN, 8 figures": PINS[name], "The same once more": PINS[name]})
    week.signs_in(OWNER)


def studies(week: Week, name: str) -> None:
    """Read the nests to their end, and answer the quiz."""
    hands = week.signs_in(name)
    read_through(hands)
    hands.open("/techniques/nests/quiz")
    hands.press("Start the quiz")
    sitting = open_sitting(week.k, cook=week.person(name), technique="nests")
    assert sitting
    for question in sitting.questions:
        hands.open(f"/sittings/{sitting.id}")
        hands.press("Keep it", {"Your answer": number_text(question.answer.value, 3)})
    hands.open(f"/sittings/{sitting.id}")
    hands.press("Hand in")
    week.signs_in(OWNER)


def begins_watching(week: Week, name: str) -> None:
    """Begin a practical of the nests."""
    hands = week.tablet
    hands.open("/practicals/new")
    hands.press("Watch", cook=week.person(name), technique="nests")
    hands.follow("Start")


def signs_off(week: Week, name: str) -> Entry:
    """Watch somebody at the nests and sign."""
    begins_watching(week, name)
    week.tablet.press("Meets it")
    take_all(week.tablet, WEIGHTS)
    week.tablet.press("Meets it")
    week.tablet.press("Sign", {"Your PIN": PHRASE})
    return week.entered("practical_watched")[-1]


def stops(week: Week, name: str) -> Entry:
    """See something unsafe at the first point, and sign the stop."""
    begins_watching(week, name)
    week.tablet.press("Stop: unsafe")
    week.tablet.press("Yes, it was unsafe")
    week.tablet.press("Sign the stop", {"Your PIN": PHRASE})
    return week.entered("practical_watched")[-1]


def stands_in(week: Week) -> None:
    """Let the owner sign on their own word."""
    week.does(
        "/own-word",
        "Stand in on own word",
        {"In your own words: what you can do there": "Ten years."},
        stations=["pasta_room"],
    )


def roles(week: Week, name: str, *wanted: str) -> None:
    """Change somebody's roles."""
    week.does(f"/cooks/{week.person(name)}/roles", "Change the roles", roles=list(wanted))


def age(week: Week, name: str, born: str) -> None:
    """Write down a birth date read off a passport."""
    week.does(f"/cooks/{week.person(name)}/age", "Save this date", {"Birth date": born}, seen="passport")


def stood(week: Week, name: str, *, back: bool) -> None:
    """Take somebody off the pasta room, or put them back."""
    if back:
        week.does(f"/cooks/{week.person(name)}/put-back", "Put back", {"Reason": "A talk."}, station="pasta_room")
    else:
        first = name.split(maxsplit=1)[0]
        week.does(f"/off/{week.person(name)}", f"Take {first} off", stations="pasta_room", why="seen")


def voids(week: Week, entry: Entry) -> None:
    """Void an entry."""
    week.does(f"/book/{entry.id}/void", "Void the entry", {"Reason": "Wrong cook."}, counts="from today")


def code_for(week: Week, name: str) -> None:
    """Ask for a first code."""
    week.does(f"/cooks/{week.person(name)}/first-code", "Make the code")


def test_the_first_week(week: Week) -> None:
    """Each act by its page; what waits is named beside it, and everything else counts at once."""
    week.signs_in(OWNER)
    takes_in_the_roster(week)
    for name in PINS:
        comes_in_with_a_code(week, name)
    stands_in(week)
    studies(week, "Eve Roth")
    studies(week, "Max Lund")
    signed: dict[str, Entry] = {}
    acts: tuple[tuple[str, Callable[[], object], list[str]], ...] = (
        ("a sign-off on own word", lambda: signed.update(eve=signs_off(week, "Eve Roth")), []),
        ("taking off a station", lambda: stood(week, "Eve Roth", back=False), []),
        ("putting back", lambda: stood(week, "Eve Roth", back=True), []),
        ("the void of a sign-off", lambda: voids(week, signed["eve"]), []),
        ("a sign-off again", lambda: signs_off(week, "Eve Roth"), []),
        ("the role of an assessor", lambda: roles(week, "Jon Okafor", "cook", "assessor"), []),
        ("taking it away", lambda: roles(week, "Jon Okafor", "cook"), []),
        ("giving it again", lambda: roles(week, "Jon Okafor", "cook", "assessor"), []),
        ("a code for an assessor with a PIN", lambda: code_for(week, "Jon Okafor"), []),
        ("an age that bars", lambda: age(week, "Max Lund", "2010-06-01"), []),
        ("an age that lifts a bar", lambda: age(week, "Max Lund", "2000-06-01"), ["age"]),
        ("a stop", lambda: signed.update(stop=stops(week, "Max Lund")), []),
        ("the void of a stop", lambda: voids(week, signed["stop"]), ["void"]),
        ("the role of a manager", lambda: roles(week, "Jon Okafor", "cook", "assessor", "manager"), ["roles"]),
        ("a manager's first code", lambda: code_for(week, "Jon Okafor"), ["code"]),
    )
    for name, act, wanted in acts:
        before, entries = week.waits(), week.k.file.book.end()[0]
        week.clock.pass_by(minutes=3)
        week.signs_in(OWNER)
        act()
        new = week.waits()[len(before) :]
        assert new == wanted, name
        assert wanted or week.k.file.book.end()[0] > entries, name
        if wanted:
            week.clock.pass_by(hours=24)
            week.signs_in(OWNER)
            if wanted == ["code"]:
                act()
            else:
                week.tablet.open("/second")
            assert week.waits() == [], name
            assert week.k.file.book.end()[0] > entries, name
    assert "manager" in week.k.progress().roles(week.person("Jon Okafor"), week.k.today(week.clock()))


@pytest.mark.parametrize("days", [31, 91, 93])
def test_nobody_is_locked_out_months_later(week: Week, days: int) -> None:
    """With nothing written meanwhile: the owner types the date, and watches and signs; the cook signs in and reads."""
    week.signs_in(OWNER)
    takes_in_the_roster(week)
    comes_in_with_a_code(week, "Eve Roth")
    stands_in(week)
    studies(week, "Eve Roth")
    week.does(
        "/known-before", "Show the days", {"How you know": "Years."}, cells=[f"{week.person('Jon Okafor')} saute"]
    )
    week.clock.pass_by(days=days)
    hands = week.signs_in(OWNER)
    today = week.k.today(week.clock()).isoformat()
    hands.open("/clock")
    hands.press("The clock is right", {"Today's date": today})
    entry = signs_off(week, "Eve Roth")
    assert (entry.body["verdict"], entry.cook) == ("meets it", week.person("Eve Roth"))
    roles(week, "Jon Okafor", "cook", "assessor")
    assert week.waits() == []
    eve = week.signs_in("Eve Roth")
    read_through(eve, "sauce")
    assert week.entered("technique_read")[-1].body["technique"] == "sauce"
