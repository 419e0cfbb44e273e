"""A kitchen's own settings, entered into its book: at its beginning, and whenever they change."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from trainer.actions.clock_watch import after_the_last, refused_by_clock
from trainer.actions.countersigning import LEAST_FOR_STRICT, can_sign
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.kitchen.book import LOCAL, NewEntry
from trainer.kitchen.services import SERVICE_IDS
from trainer.messages import message
from trainer.store.settings import Settings, validate


def enter_settings(k: Kitchen, *, by: str, now: datetime, key: str) -> Outcome:
    """Return the saved `kitchen_set`: what the kitchen's settings are. A book begins with it, after its manager."""
    return Saved(k.file.book.append(after_the_last(k, NewEntry("kitchen_set", now, by, by, _body(k), key))))


def change_settings(k: Kitchen, *, settings: Settings, now: datetime, key: str) -> Outcome:
    """Return the saved `kitchen_set` after a command on the machine itself changed the settings.

    No day of an entry moves with the zone: from here on days are those of the new one, and none before the last
    entry's.
    """
    wrong = validate(settings)
    if wrong:
        return Refused(wrong, field="settings")
    with k.file.writing():
        now = k.moment(now)
        refused = refused_by_clock(k, now)
        if refused is not None:
            return refused
        before = k.file.settings
        if settings == before:
            return Refused(message("These are the kitchen's settings already."))
        too_few = _too_few_for_strict(k, settings, now)
        if too_few is not None:
            return too_few
        k.file.change_settings(settings)
        try:
            return enter_settings(k, by=LOCAL, now=now, key=key)
        except BaseException:
            k.file.settings, k.file.book.timezone = before, before.timezone
            raise


def _too_few_for_strict(k: Kitchen, settings: Settings, now: datetime) -> Refused | None:
    """Return the refusal of *strict* where a second signature would wait for somebody who is not there."""
    if settings.independence != "strict" or k.file.settings.independence == "strict":
        return None
    have = len(can_sign(k.day(k.today(now))))
    if have >= LEAST_FOR_STRICT:
        return None
    words = message("A second signature takes three people who can sign; today there are {number}.", number=have)
    return Refused(words, "", "settings")


def _body(k: Kitchen) -> dict[str, Any]:
    """Return the settings as the book keeps them."""
    s = k.file.settings
    return {
        "name": s.name,
        "zone": s.timezone,
        "units_first": s.units_first,
        "decimal_mark": s.decimal_mark,
        "languages": [s.language],
        "services": list(SERVICE_IDS),
        "independence": s.independence,
    }
