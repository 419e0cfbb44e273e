"""What a cook is told on their own page: what others wrote lately, what ends soon, who is on to watch them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Literal

from trainer.actions.covering import planned_on
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.clearance import open_requests
from trainer.kitchen.entitlement import Snapshot, may_sign_somewhere
from trainer.kitchen.record import CookRecord

NewsKind = Literal["meets it", "not yet", "stopped", "shift", "path", "off", "back", "released", "ends", "free"]
LATELY = timedelta(days=7)
"""Older entries are no news; everything stays on the record."""
KEPT = timedelta(days=400)
_VERDICTS: Mapping[str, NewsKind] = {"meets it": "meets it", "not yet": "not yet", "stopped": "stopped"}


@dataclass(frozen=True, slots=True)
class News:
    """One thing to tell: about a technique or a station, by whom, on a day; `what` names it, so that it goes away.

    Of stations one is taken off there may be several, with commas between; none is every one.
    """

    what: str
    kind: NewsKind
    about: str
    by: tuple[str, ...]
    on: date


def news_for(k: Kitchen, *, cook: str, day: Snapshot) -> tuple[News, ...]:
    """Return what a cook has not seen yet, the newest first; what ends soon and who is on come last."""
    seen = k.file.words_seen.of(cook)
    lately = sorted(_written(day.record(cook), day.on), key=lambda one: (one.on, one.what), reverse=True)
    return tuple(one for one in (*lately, *_free(k, cook, day), *_ends(cook, day)) if one.what not in seen)


def put_away(k: Kitchen, *, cook: str, what: str, now: datetime) -> None:
    """Keep that a cook has seen one thing; what is not to be told is passed over."""
    if any(one.what == what for one in news_for(k, cook=cook, day=k.day(k.today(now)))):
        with k.file.writing():
            k.file.words_seen.add(cook, what, now, now - KEPT)


def _written(record: CookRecord, on: date) -> Iterator[News]:
    """Yield what others wrote about a cook in the last days."""
    stopped = {line.entry: line.technique for line in record.watched}
    found = (
        *(News(one.entry, _VERDICTS[one.verdict], one.technique, (one.by,), one.on) for one in record.watched),
        *(News(one.entry, "shift", one.station, (), one.on) for one in record.shifts),
        *(News(one.entry, "path", one.station, (one.by,), one.on) for one in record.paths if one.by != record.cook),
        *(
            News(one.entry, "back" if one.restored else "off", ",".join(one.stations), (), one.on)
            for one in record.stood_down
        ),
        *(News(one.entry, "released", stopped.get(one.stop, ""), (), one.on) for one in record.released),
    )
    yield from (one for one in found if one.on >= on - LATELY)


def _free(k: Kitchen, cook: str, day: Snapshot) -> Iterator[News]:
    """Yield for each technique a cook asked to be watched at who is on today and may do it."""
    on = [one.cook for one in planned_on(k, day.on)]
    if cook not in on:
        return
    for asked in open_requests(day.record(cook), day.rules.techniques, day.on):
        may = [who for who in dict.fromkeys(on) if who != cook]
        can = tuple(who for who in may if may_sign_somewhere(who, cook, asked.technique, day).may)
        if can:
            yield News(f"free:{asked.technique}:{day.on}", "free", asked.technique, can, day.on)


def _ends(cook: str, day: Snapshot) -> Iterator[News]:
    """Yield the stations whose clearance ends soon."""
    for station in day.rules.stations.values():
        found = day.clearance(day.people[cook], station)
        if found.state == "due again" and found.until is not None:
            yield News(f"ends:{station.id}:{found.until}", "ends", station.id, (), found.until)
