"""What cooks knew before the book began to tell of them: said by a manager, for many at once, and only for a while."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import denied_by, not_on_roster, save, saved_before, validate_text
from trainer.kitchen.book import NewEntry
from trainer.kitchen.clearance import technique_standing
from trainer.kitchen.desk import minutes_of
from trainer.kitchen.entitlement import Snapshot, may_manage
from trainer.kitchen.from_before import (
    MOST_DAYS,
    MOST_DAYS_OF_SAFETY,
    Ending,
    last_known,
    spread,
    week_from,
    within_hours,
)
from trainer.kitchen.quiz.round_robin import is_about_safety
from trainer.kitchen.roles import works_a_station
from trainer.kitchen.spans import in_words
from trainer.kitchen.technique import Technique
from trainer.messages import message

Days = dict[tuple[str, str], date]
"""To which day a cook is said to know a technique: (cook, technique) to the day."""
NOBODY = Refused(message("Tick at least one cook and station."), "", "cells")


@dataclass(frozen=True, slots=True)
class Knowing:
    """Who knows which station from before (cook, station), until when, and how the manager knows.

    `single` are single techniques of a station instead: (cook, station, technique). `until` is for techniques without
    questions about safety, `until_of_safety` for those that have some. Each is the last of the days; the ends of all
    techniques are spread over the days before it (`days_of`), so that no week asks more than `weekly` minutes of those
    who watch; None: as evenly as it goes.
    """

    cells: tuple[tuple[str, str], ...]
    until: date
    until_of_safety: date
    basis: str
    single: tuple[tuple[str, str, str], ...] = ()
    weekly: int | None = None

    @property
    def places(self) -> tuple[tuple[str, str], ...]:
        """Return every cook with every station named, once each."""
        return tuple(dict.fromkeys((*self.cells, *((cook, station) for cook, station, _ in self.single))))

    def takes(self, cook: str, station: str, technique: str) -> bool:
        """Return whether a technique of a station is said of a cook."""
        return (cook, station) in self.cells or (cook, station, technique) in self.single


@dataclass(frozen=True, slots=True)
class Load:
    """What days ask of those who watch: over how many weeks, the minutes of the fullest, and who they are."""

    weeks: int
    fullest: int
    total: int
    assessors: tuple[str, ...]


def latest_days(today: date) -> tuple[date, date]:
    """Return the last days that may be said: of techniques without questions about safety, and of those with some."""
    return today + timedelta(days=MOST_DAYS), today + timedelta(days=MOST_DAYS_OF_SAFETY)


def days_of(k: Kitchen, *, by: str, knowing: Knowing, now: datetime) -> Days | Refused:
    """Return to which day each technique of each cook would be known, soonest first; or why it cannot be said."""
    day = k.day(k.today(now))
    refusal = NOBODY if not knowing.places else _refusal(by, knowing, day)
    found = refusal or _days(knowing, day)
    return found if isinstance(found, Refused) else dict(sorted(found.items(), key=lambda one: one[1]))


def load_of(k: Kitchen, days: Days, today: date) -> Load:
    """Return what these days ask of the assessors on the roster."""
    day = k.day(today)
    weeks: Counter[int] = Counter()
    for (_, name), end in days.items():
        weeks[week_from(today, end)] += _minutes(name, day)
    last = max(days.values(), default=today)
    return Load(week_from(today, last) + 1, max(weeks.values(), default=0), weeks.total(), assessors_of(day))


def assessors_of(day: Snapshot) -> tuple[str, ...]:
    """Return who assesses, on a day."""
    return tuple(cook for cook in day.cooks() if "assessor" in day.roles(cook))


def left_to_say(cook: str, station: str, day: Snapshot) -> tuple[str, ...]:
    """Return the techniques of a station that may still be said of a cook: neither signed off nor said before."""
    return tuple(one.id for one in _new(cook, station, day))


def _minutes(technique: str, day: Snapshot) -> int:
    """Return how long a practical of a technique takes here, or usually."""
    return minutes_of((line for cook in day.cooks() for line in day.record(cook).watched), technique)


def _days(knowing: Knowing, day: Snapshot) -> Days | Refused:
    """Return the last days, spread evenly: one technique of each cook after the other, so that no week has them all.

    Where the minutes of a week would not do, some go to a week with room.
    """
    safe, others = _in_turn(knowing, day, safety=True), _in_turn(knowing, day, safety=False)
    ends = (*spread(len(safe), day.on, knowing.until_of_safety), *spread(len(others), day.on, knowing.until))
    wanted = (*safe, *others)
    if knowing.weekly is None:
        return dict(zip(wanted, ends, strict=True))
    minutes = {name: _minutes(name, day) for name in {name for _, name in wanted}}
    latest = [*[knowing.until_of_safety] * len(safe), *[knowing.until] * len(others)]
    told = [Ending(end, minutes[name], last) for (_, name), end, last in zip(wanted, ends, latest, strict=True)]
    moved = within_hours(told, day.on, knowing.weekly)
    if moved is None:
        words = message(
            "{total} minutes of practicals do not fit: {weekly} minutes a week are too few before the last days.",
            total=sum(one.minutes for one in told),
            weekly=knowing.weekly,
        )
        return Refused(words, message("Give more minutes a week, or tick less for now."), "weekly")
    return dict(zip(wanted, moved, strict=True))


def _in_turn(knowing: Knowing, day: Snapshot, *, safety: bool) -> list[tuple[str, str]]:
    """Return cooks with their techniques with or without questions about safety: everybody's first, then the second."""
    of_cook: dict[str, list[str]] = {}
    for cook, station in knowing.places:
        names = of_cook.setdefault(cook, [])
        said = (one for one in _new(cook, station, day) if knowing.takes(cook, station, one.id))
        new = (one.id for one in said if has_safety(one) == safety)
        names.extend(name for name in new if name not in names)
    turns = max(map(len, of_cook.values()), default=0)
    return [(cook, names[turn]) for turn in range(turns) for cook, names in of_cook.items() if turn < len(names)]


def know_from_before(k: Kitchen, *, by: str, knowing: Knowing, now: datetime, key: str) -> Outcome:
    """Return the first `known_before` saved, one a cook and station; all of them or none.

    Refused for oneself, for longer than the rule lets, where nothing is left to be shown, and a second time.
    """
    if not knowing.places:
        return NOBODY
    with k.file.writing():
        before = saved_before(k, key_of(key, knowing.places[0]), "known_before", by)
        if before is not None:
            return before
        day = k.day(k.today(k.moment(now)))
        refusal = _refusal(by, knowing, day)
        if refusal is not None:
            return refusal
        days = _days(knowing, day)
        if isinstance(days, Refused):
            return days
        deeds = [
            NewEntry("known_before", now, place[0], by, _body(place, knowing, day, days), key_of(key, place))
            for place in knowing.places
        ]
        outcomes = [save(k, deed, lambda _: None) for deed in deeds]
    return next((one for one in outcomes if isinstance(one, Refused)), outcomes[0])


def key_of(key: str, place: tuple[str, str]) -> str:
    """Return the key of the entry about a cook at a station, of a form with a key of its own."""
    return f"{key}:{place[0]}:{place[1]}"


def _refusal(by: str, knowing: Knowing, day: Snapshot) -> Refused | None:
    found = (
        denied_by(may_manage(by, cook, day)) or _no_cell(cook, station, day) or _said_before(cook, station, day)
        for cook, station in knowing.places
    )
    return (
        next((refusal for refusal in found if refusal), None)
        or next((refusal for one in knowing.single if (refusal := _not_left(*one, day))), None)
        or validate_text(knowing.basis, "basis")
        or _wrong_day(knowing.until, MOST_DAYS, "until", day.on)
        or _wrong_day(knowing.until_of_safety, MOST_DAYS_OF_SAFETY, "until_of_safety", day.on)
    )


def _no_cell(cook: str, station: str, day: Snapshot) -> Refused | None:
    """Return why there is no such cell on the board."""
    if station not in day.rules.stations:
        return Refused(message("There is no station “{station}”.", station=station), "", "cells")
    if not works_a_station(day.roles(cook)):
        return not_on_roster(cook, day) or Refused(
            message("{cook} works no station.", cook=day.name(cook)), message("Give the role of a cook first."), "cells"
        )
    if list(_left(cook, station, day)):
        return None
    words = message(
        "{cook} has shown all that {station} asks for.", cook=day.name(cook), station=day.rules.stations[station].name
    )
    return Refused(words, "", "cells")


def _said_before(cook: str, station: str, day: Snapshot) -> Refused | None:
    """Return why it cannot be said: it was said once of all that is left, or a stop stands."""
    new = list(_new(cook, station, day))
    if not new:
        words = message(
            "It was said before that {cook} knows {station}. It is said once.",
            cook=day.name(cook),
            station=day.rules.stations[station].name,
        )
        return Refused(words, message("Now an assessor watches what is left."), "cells")
    for technique in new:
        standing = technique_standing(cook, technique, day.progress, day.on)
        if standing.is_stopped and standing.practical.missing:
            return Refused(standing.practical.missing.text, standing.practical.missing.next_act, "cells")
    return None


def _not_left(cook: str, station: str, technique: str, day: Snapshot) -> Refused | None:
    """Return why a single technique cannot be said: the station does not ask for it, or nothing is left to say."""
    if technique in left_to_say(cook, station, day):
        return None
    words = message(
        "Of {cook} nothing is left to say about {technique} at {station}.",
        cook=day.name(cook),
        technique=technique,
        station=day.rules.stations[station].name,
    )
    return Refused(words, message("Take that tick away."), "cells")


def _wrong_day(until: date, most: int, field: str, today: date) -> Refused | None:
    """Return what is wrong with a last day: gone by, or later than the rule lets."""
    if until < today:
        return Refused(message("{day} is past.", day=in_words(until)), "", field)
    latest = today + timedelta(days=most)
    if until <= latest:
        return None
    words = message(
        "{day} is too far off: at the most {days} days, to {latest}.",
        day=in_words(until),
        days=most,
        latest=in_words(latest),
    )
    if field == "until":
        return Refused(words, "", field)
    return Refused(words, message("Techniques with questions about safety are watched sooner."), field)


def _left(cook: str, station: str, day: Snapshot) -> Iterator[Technique]:
    """Yield the techniques of a station that the cook has not been signed off for, in their sequence."""
    for name in day.rules.stations[station].techniques:
        technique = day.content.techniques.get(name) or day.rules.techniques[name]
        if not technique_standing(cook, technique, day.progress, day.on).is_signed:
            yield technique


def _new(cook: str, station: str, day: Snapshot) -> Iterator[Technique]:
    """Yield those of them of which it was never said that the cook knows them."""
    record = day.progress.record(cook).as_of(day.on)
    return (one for one in _left(cook, station, day) if last_known(record, one.id) is None)


def has_safety(technique: Technique) -> bool:
    """Return whether some question of a technique is about safety, and carries a caution."""
    if technique.knowledge:
        return any(skill.is_safety for skill in technique.knowledge)
    return any(is_about_safety(setting.family) for setting in technique.questions)


def _body(place: tuple[str, str], knowing: Knowing, day: Snapshot, days: Days) -> dict[str, Any]:
    return {"cells": list(_cells(*place, knowing, day, days)), "basis": knowing.basis.strip()}


def _cells(cook: str, station: str, knowing: Knowing, day: Snapshot, days: Days) -> Iterator[dict[str, Any]]:
    """Yield what is said of a cook at a station: techniques with another last day, or about safety, apart."""
    groups: dict[tuple[date, bool], list[str]] = {}
    for technique in (one for one in _new(cook, station, day) if knowing.takes(cook, station, one.id)):
        groups.setdefault((days[cook, technique.id], has_safety(technique)), []).append(technique.id)
    for (until, safety), names in sorted(groups.items()):
        asked = names if safety else []
        told = {"techniques": names, "until": until.isoformat(), "asked": asked}
        yield {"cook": cook, "station": station, **told}
