"""The manager's list of who was let in, kept out or given a way in.

OWASP ASVS 5.0.0, 16.2.1 (from memory): each such entry says when, where, who and what.
"""

from __future__ import annotations

from collections.abc import Callable

from tests.web.conftest import Clock
from tests.web.hands import Hands
from tests.web.kitchen_people import clear
from trainer.actions import giving_codes
from trainer.actions.enrolling import enrol_device
from trainer.actions.open_kitchen import Kitchen


def test_locks_codes_and_devices_newest_first(
    cleo: Hands, at_tablet: Callable[[], Hands], kitchen: Kitchen, clock: Clock
) -> None:
    """A device, a code, a lock; a sign-off is no matter of the door."""
    enrol_device(kitchen, name="Office", by="cleo", now=clock())
    giving_codes.first_code(kitchen, by="cleo", cook="dev", now=clock())
    clear(kitchen, "bo")
    hands = at_tablet()
    hands.open("/names/ana")
    for _ in range(5):
        hands.press("Sign in", {"PIN, 8 figures": "11112222"})
    cleo.open("/devices")
    page = cleo.follow("At the door")
    headings = [" ".join(found.get_text().split()) for found in page.soup.select("main h2")]
    assert headings == [
        "Locked out after wrong tries: Ana Pardo",
        "First code given: Dev Karim",
        "Device enrolled: Cleo Mbeki",
    ]
    assert "5 wrong tries on Pass tablet" in page.work
    assert "by Cleo Mbeki" in page.work


def test_it_is_for_managers(bo: Hands) -> None:
    """An assessor sees none of it."""
    assert bo.open("/book/door").status == 403
