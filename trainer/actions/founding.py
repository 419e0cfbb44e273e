"""The only manager or the only assessor of a kitchen stands in on their own word, until somebody else is entitled."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import not_on_roster, save, validate_text
from trainer.kitchen.book import NewEntry
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.spans import in_words, months_later
from trainer.messages import message

MOST_MONTHS = 12


@dataclass(frozen=True, slots=True)
class Founding:
    """At which stations somebody signs on their own word, to the end of which day, and what they say to it."""

    stations: tuple[str, ...]
    until: date
    words: str


def stand_as_founder(k: Kitchen, *, by: str, founding: Founding, now: datetime, key: str) -> Outcome:
    """Return the saved `founder_stands`: its writer may sign there, and each signature says that it is on own word."""
    words, until = founding.words.strip(), founding.until.isoformat()
    body = {"stations": list(founding.stations), "until": until, "words": words}
    deed = NewEntry("founder_stands", now, by, by, body, key)

    def refusal(day: Snapshot) -> Refused | None:
        return (
            not_on_roster(by, day)
            or _not_the_only_one(by, day)
            or _wrong_stations(founding, day)
            or _wrong_end(founding.until, day.on)
            or validate_text(founding.words, "words")
        )

    return save(k, deed, refusal)


def _not_the_only_one(by: str, day: Snapshot) -> Refused | None:
    """Return the refusal of anyone who is neither the only manager nor the only assessor."""
    for role in ("manager", "assessor"):
        if [who for who in day.cooks() if role in day.roles(who)] == [by]:
            return None
    words = message("Only the one manager or the one assessor of a kitchen signs on their own word.")
    return Refused(words, message("A manager gives authority to another person."))


def _wrong_stations(founding: Founding, day: Snapshot) -> Refused | None:
    if not founding.stations:
        return Refused(message("Choose the stations."), "", "stations")
    unknown = next((one for one in founding.stations if one not in day.rules.stations), "")
    return Refused(message("There is no station “{station}”.", station=unknown), "", "stations") if unknown else None


def _wrong_end(until: date, today: date) -> Refused | None:
    latest = months_later(today, MOST_MONTHS)
    if today <= until <= latest:
        return None
    words = message(
        "{day}: a last day from today to {latest} is taken. It may be renewed.",
        day=in_words(until),
        latest=in_words(latest),
    )
    return Refused(words, "", "until")
