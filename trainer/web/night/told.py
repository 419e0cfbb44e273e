"""What the sous chefs did that managers are told, and the other way round: who is off a station, since when, why."""

from __future__ import annotations

from dataclasses import dataclass

from flask import url_for

from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.off_station import OffStation, lacks_words, off_now, reason_words
from trainer.messages import Text, joined, message
from trainer.web import guard, reading
from trainer.web.filters import clock_time, day

NOT_OLDER_THAN = 7
"""Days a line stands on a sous chef's desk; a manager sees it until it is lifted."""


@dataclass(frozen=True, slots=True)
class OffLine:
    """Somebody off stations: since when, by whom and why; where words may be added, where a manager lifts it.

    `is_new` is what happened today: it stands first.
    """

    name: str
    words: Text
    words_href: str
    lift_href: str
    is_new: bool


def off_lines(k: Kitchen) -> tuple[OffLine, ...]:
    """Return everybody who was taken off a station and not put back."""
    on, people, stations = guard.today(), k.people(), reading.content().stations
    found = []
    for cook in k.progress().at_stations_on(on):
        record = k.progress().record(cook).as_of(on)
        for one in off_now(record, stations) if cook in people else ():
            if guard.is_manager() or (on - one.line.on).days < NOT_OLDER_THAN:
                found.append((one.line.on, _line(k, cook, one)))
    return tuple(line for _, line in sorted(found, key=lambda one: one[0], reverse=True))


def _line(k: Kitchen, cook: str, one: OffStation) -> OffLine:
    line, people, stations = one.line, k.people(), reading.content().stations
    titles = [stations[name].title if name in stations else name for name in line.stations]
    by = people.get(line.by)
    is_today = line.on == guard.today() and line.at is not None
    return OffLine(
        name=people[cook].name,
        words=message(
            "off {stations} since {when}, by {name}: {reason}",
            stations=joined(titles, ", ") if titles else message("every station"),
            when=clock_time(line.at) if is_today and line.at else day(line.on),
            name=by.name if by else line.by,
            reason=reason_words(line, one.words),
        ),
        words_href=url_for("off.words", entry=line.entry) if lacks_words(one, guard.today()) else "",
        lift_href=url_for("manager.acts.put_back", cook=cook) if guard.is_manager() else "",
        is_new=line.on == guard.today(),
    )
