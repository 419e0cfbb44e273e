"""A kitchen's own settings, entered into its book: at its beginning, and whenever they change."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from typing import Any

from trainer.actions.clock_watch import after_the_last, refused_by_clock
from trainer.actions.countersigning import LEAST_FOR_STRICT, can_sign
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.actions.signing_in import NOT_MANAGER, is_manager
from trainer.kitchen.book import LOCAL, NewEntry
from trainer.kitchen.entitlement import A_MANAGER
from trainer.kitchen.own_services import services_told
from trainer.messages import message
from trainer.store.settings import OwnPhone, Settings, validate


def enter_settings(k: Kitchen, *, by: str, now: datetime, key: str) -> Outcome:
    """Return the saved `kitchen_set`: what the kitchen's settings are. A book begins with it, after its manager."""
    return Saved(k.file.book.append(after_the_last(k, NewEntry("kitchen_set", now, by, by, _body(k), key))))


def open_on_own_phones(k: Kitchen, *, by: str, opens: OwnPhone, hours: int, now: datetime, key: str) -> Outcome:  # noqa: PLR0913 - who sets what, when
    """Return the saved `kitchen_set` after a manager set what a PIN opens on people's own phones, and for how long."""
    if not is_manager(k, by, now):
        return Refused(NOT_MANAGER, A_MANAGER)
    wanted = replace(k.file.settings, own_phone=opens, pin_hours=hours)
    return change_settings(k, settings=wanted, now=now, key=key, by=by)


def change_settings(k: Kitchen, *, settings: Settings, now: datetime, key: str, by: str = LOCAL) -> Outcome:
    """Return the saved `kitchen_set` after the settings were changed: by a command on the machine itself, or *by* whom.

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
            return enter_settings(k, by=by, now=now, key=key)
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
    s, own = k.file.settings, services_told(k.services)
    return {
        "name": s.name,
        "zone": s.timezone,
        "units_first": s.units_first,
        "decimal_mark": s.decimal_mark,
        "languages": [s.language],
        "services": [one.id for one in s.services.offered],
        "independence": s.independence,
        "currency": s.currency,
        "own_phone": s.own_phone,
        "pin_hours": s.pin_hours,
        "not_cleared_in_100": s.not_cleared_in_100,
        **({"services_called": own} if own else {}),
    }
