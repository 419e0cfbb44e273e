"""A manager releases a stop for safety, once the cook was shown how it is done, so that they may be watched again."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import denied_by, not_on_roster, save, validate_text
from trainer.actions.showing import wrong_minutes
from trainer.kitchen.book import Entry, NewEntry
from trainer.kitchen.entitlement import Snapshot, may_manage
from trainer.kitchen.spans import in_words
from trainer.kitchen.stops import RETRY_DAYS, standing_stops
from trainer.messages import message


@dataclass(frozen=True, slots=True)
class Release:
    """The stop to release, by the id of its practical; who showed the cook what, for how many minutes.

    `retry_from` is the first day they may be watched again; None is the earliest there is.
    """

    stop: str
    by: str
    what: str
    minutes: int
    retry_from: date | None = None


def release_stop(k: Kitchen, *, by: str, release: Release, now: datetime, key: str) -> Outcome:
    """Return the saved `stop_released`: the cook may be watched again from a day on, and a new *meets it* alone clears.

    A manager releases it, and not their own. The retry waits a day at least, as after any failed check.
    """
    stop, what = k.file.book.find(release.stop), release.what.strip()
    if stop is None or stop.kind != "practical_watched":
        return Refused(message("There is no stop “{entry}”.", entry=release.stop), "", "stop")
    first = k.today(now) + timedelta(days=RETRY_DAYS)
    retry_from = release.retry_from or first
    taught = {"by": release.by, "what": what, "minutes": release.minutes}
    body = {"stop": stop.id, "taught": taught, "retry_from": retry_from.isoformat()}
    return save(
        k,
        NewEntry("stop_released", now, stop.cook, by, body, key),
        lambda day: (
            denied_by(may_manage(by, stop.cook, day))
            or not_on_roster(stop.cook, day)
            or _not_standing(stop, day)
            or _wrongly_taught(release, stop, day)
            or _too_early(retry_from, first)
        ),
    )


def _not_standing(stop: Entry, day: Snapshot) -> Refused | None:
    """Return the refusal of a practical that was no stop, or whose stop has ended or was voided."""
    standing = standing_stops(day.progress.record(stop.cook).as_of(day.on), stop.body["technique"])
    if any(line.entry == stop.id for line in standing):
        return None
    return Refused(message("That stop does not stand any more: it was released or voided."), "", "stop")


def _wrongly_taught(release: Release, stop: Entry, day: Snapshot) -> Refused | None:
    """Return what is wrong with who showed it, what, and for how long."""
    if release.by == stop.cook:
        return Refused(message("Nobody teaches themselves: write down who showed it."), "", "by")
    if not day.is_on_roster(release.by):
        return Refused(message("{cook} is not on the roster.", cook=day.name(release.by)), "", "by")
    return wrong_minutes(release.minutes) or validate_text(release.what, "what")


def _too_early(retry_from: date, first: date) -> Refused | None:
    """Return the refusal of a retry on the day of the release, or before it."""
    if retry_from >= first:
        return None
    words = message(
        "{day} is too early: after a stop nobody is watched again before {first}.",
        day=in_words(retry_from),
        first=in_words(first),
    )
    return Refused(words, "", "retry_from")
