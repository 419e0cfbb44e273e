"""How often an assessor taps: from who waits to the signature, every figure, unit and key of the PIN counted."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from math import ceil, floor

from playwright.sync_api import Locator

from tests.browser.engine import SHORT_PHONE, Served
from tests.browser.journeys import HELD, begin, person_id, ready_to_show, step_in
from tests.browser.somebody import Somebody
from trainer.actions import watching
from trainer.actions.demo_door import DEMO_PIN
from trainer.kitchen.practical import PICKED
from trainer.kitchen.reading_units import line_end
from trainer.kitchen.technique import Limit, Point, Technique
from trainer.recipe_math.figures import number_text
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.units import UNITS

MOST_TAPS = 38  # a practical of ten points, by the design of these pages; a PIN has eight keys
AT_THE_POINT = 180  # seconds: a longer time is read off the wall, and keyed in
DECIMALS = range(4)


class Watcher:
    """An assessor at a phone who counts each tap: what is pressed, a field that is tapped into, a key."""

    def __init__(self, who: Somebody, served: Served) -> None:
        """Begin to count."""
        self.who, self.served, self.taps = who, served, 0

    def tap(self, what: Locator) -> None:
        """Tap one thing, once its answers are no longer held."""
        self.who.page.wait_for_timeout(HELD)
        self.who.tap(what)
        self.taps += 1

    def key(self, field: Locator, text: str) -> None:
        """Key a figure in: by the page's keys, else by the phone's own once the field is tapped."""
        pad = self.who.page.locator(".keypad:visible")
        if not pad.count():
            self.tap(field)
            field.fill(text)
        for sign in text if pad.count() else "":
            pad.locator(f'[data-key="{sign}"]').click()
        self.taps += len(text)
        assert field.input_value() == text

    def take(self, point: Point, place: int) -> None:
        """Take one reading of the piece on screen: a short time by the stopwatch, all else keyed in its own unit."""
        limit, field = point.line_of(place), self.who.page.locator(".readout input").nth(place)
        unit = self.who.page.locator(f'.unit-keys input[name="{("unit", "unit_2")[place]}"]:checked').input_value()
        end = line_end(limit)
        assert end is not None
        if end.unit.dimension == "duration" and end.base <= AT_THE_POINT:
            for words in ("Start the watch", "Stop the watch"):
                self.tap(self.who.button_or_link(words))
                self.served.clock.put_forward(seconds=float(end.base))
        else:
            by_hand = self.who.page.locator(".by-hand:not([open]) summary")
            if by_hand.count():
                self.tap(by_hand)
            self.key(field, shown_in(limit, unit))

    def judge(self, point: Point) -> None:
        """Watch one point, and say what was seen."""
        page = self.who.page
        for piece in range(point.pieces):
            for place in range(len(point.lines) if point.judged != "ticked" else 0):
                self.take(point, place)
            if piece < point.pieces - 1:
                self.tap(page.locator(".bar button[name=save]"))
        for said in page.locator('input[name="said"]').all() if point.judged == "says" else ():
            self.tap(said)
        right = 'button[name="said"][value="right"]' if point.judged in PICKED else 'button[value="meets it"]'
        self.tap(page.locator(right))


def shown_in(limit: Limit, symbol: str) -> str:
    """Return the shortest reading inside a line, in a unit, as an instrument shows it."""
    end = line_end(limit)
    assert end is not None
    for decimals in DECIMALS:
        exact = end.to(UNITS[symbol]).amount * 10**decimals
        for rounded in (round(exact), floor(exact), ceil(exact)):
            found = Fraction(rounded, 10**decimals)
            if limit.admits(Quantity(found, UNITS[symbol])):
                return number_text(found, decimals)
    raise AssertionError(limit)


def taps_of(served: Served, renzo: Somebody, technique: Technique, part: str) -> int:
    """Watch one part of a technique, from the desk to the signature; return how often it was tapped."""
    hire = person_id(served, "New hire")
    asked = watching.waiting(served.kitchen, served.kitchen.today(served.clock()))
    if (hire, technique.id) not in {(one.cook, one.technique) for one in asked}:
        ready_to_show(served, hire, technique)
    renzo.open("/ready")
    hand = Watcher(renzo, served)
    hand.tap(renzo.page.get_by_role("button", name=re.compile(f"^Watch .*{technique.title}$")).first)
    if renzo.page.locator('input[name="part"]:checked').input_value() != part:
        hand.tap(renzo.page.locator(f'input[name="part"][value="{part}"]'))
    begin(renzo, technique)
    hand.taps += 1
    points = technique.points_in(next((case.id for case in technique.cases), ""), part)
    for point in points:
        hand.judge(point)
    assert "Verdict: Meets it" in renzo.work
    hand.key(renzo.page.get_by_label("Your PIN", exact=True), DEMO_PIN)
    hand.tap(renzo.button_or_link("Sign"))
    assert renzo.heading.startswith("Saved ")
    print(f"\n{technique.id}, {part}: {len(points)} points, {hand.taps} taps, {len(DEMO_PIN) + 1} of them to sign")
    return hand.taps


WATCHED = {
    ("cold_side_basics", "prep"): MOST_TAPS,  # a wash timed, two places read, two things said
    ("grill_doneness", "bars"): MOST_TAPS,  # a heat read, four things said, a rest timed
    ("pastry_custard", "pour"): MOST_TAPS,  # three heats read, six things said
    ("pastry_custard", "cream"): MOST_TAPS + 4,  # eleven points: a pair, a weight, three long times, four things said
    ("cold_side_basics", "plates"): MOST_TAPS + 4,  # seven points, eight pieces weighed: each has its figures and a tap
}


def test_ten_points_take_so_many_taps(quernstone: Served, sit_down: Callable[..., Somebody]) -> None:
    """With the PIN; each point has its own verdict, and no answer is pressed while it is held."""
    renzo = sit_down(quernstone, SHORT_PHONE)
    step_in(renzo, quernstone, "Sous chef")
    taught = quernstone.kitchen.content.techniques
    taps = {(name, part): taps_of(quernstone, renzo, taught[name], part) for name, part in WATCHED}
    assert {key: found for key, found in taps.items() if found > WATCHED[key]} == {}
