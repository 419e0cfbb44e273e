"""Who asked to be watched: those of this shift first, then the others with what is in the way and when it will do."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime

from flask import url_for

from trainer.actions import watching
from trainer.actions.covering import ServiceCover
from trainer.actions.desk import coming_shifts
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.desk import Shift, WhenToWatch, minutes_of, next_together, when_to_watch
from trainer.kitchen.entitlement import Snapshot, may_sign_somewhere
from trainer.kitchen.requirements import parts_left
from trainer.messages import Text, joined, message
from trainer.web import guard, reading
from trainer.web.assessor.in_hand import so_far_words, watched_by_words
from trainer.web.filters import clock_time, day, local, waited, weekday
from trainer.web.forms import PlainForm
from trainer.web.result_view import teacher_lines


@dataclass(frozen=True, slots=True)
class HalfDone:
    """A practical this assessor has begun and not signed."""

    cook_name: str
    technique_title: str
    so_far: Text
    href: str


@dataclass(frozen=True, slots=True)
class AskedFor:
    """One technique a cook waits to show: with a form for anyone who may watch it, else with the reason and who can."""

    technique: str
    technique_title: str
    wait: Text
    methods: tuple[Text, ...]
    watched_by: tuple[Text, ...]
    form: PlainForm | None
    reason: Text
    who_can: Text
    when: WhenToWatch
    minutes: int
    is_first: bool = False


@dataclass(frozen=True, slots=True)
class WaitingCook:
    """A cook who asked to be watched, with all they wait to show, longest wait first; `when` is what is in the way."""

    cook: str
    cook_name: str
    first_name: str
    asked_for: tuple[AskedFor, ...]
    when: Text = ""


@dataclass(frozen=True, slots=True)
class ToWatch:
    """Who can be watched on this shift, and who another time; each longest wait first."""

    now: tuple[WaitingCook, ...]
    later: tuple[WaitingCook, ...]

    @property
    def first(self) -> WaitingCook | None:
        """Return the first who can be watched now by the reader."""
        return next((one for one in self.now if any(asked.is_first for asked in one.asked_for)), None)


@dataclass(frozen=True, slots=True)
class Asking:
    """What the list is worked out from: the day, the reader, the clock, the shift shown, the shifts to come."""

    today: Snapshot
    me: str
    now: datetime
    shift: Shift | None
    coming: tuple[Shift, ...]


def to_watch(k: Kitchen, found: ServiceCover | None) -> ToWatch:
    """Return who waits, for the reader, beside the service that runs or comes next today."""
    on, now = guard.today(), local(guard.now()).replace(tzinfo=None)
    shift = None
    if found is not None and found.on == on:
        shift = Shift(found.opens, found.closes, frozenset(one.planned.cook for one in found.judged))
    today = replace(k.day(on), content=reading.content())
    asking = Asking(today, guard.person().id, now, shift, coming_shifts(k, now))
    everybody = _waiting_cooks(watching.waiting(k, on), asking)
    later = tuple(replace(one, when=_when(one, asking)) for one in everybody if not _is_now(one))
    return ToWatch(_first_marked([one for one in everybody if _is_now(one)]), later)


def half_done(k: Kitchen) -> tuple[HalfDone, ...]:
    """Return the practicals the reader has under way."""
    return tuple(_half_done(k, practical) for practical in watching.practicals_by(k, guard.person().id))


def _half_done(k: Kitchen, practical: watching.Practical) -> HalfDone:
    person = k.people().get(practical.cook)
    return HalfDone(
        cook_name=person.name if person else practical.cook,
        technique_title=practical.titles.technique,
        so_far=so_far_words(practical),
        href=url_for("assessor.practical.resume", practical=practical.id),
    )


def _is_now(one: WaitingCook) -> bool:
    return any(asked.when == "now" for asked in one.asked_for)


def _first_marked(cooks: list[WaitingCook]) -> tuple[WaitingCook, ...]:
    """Return them with the one request the bar's button begins marked."""
    done, found = False, []
    for cook in cooks:
        asked = []
        for one in cook.asked_for:
            is_first = not done and one.form is not None and one.when == "now"
            asked.append(replace(one, is_first=is_first))
            done = done or is_first
        found.append(replace(cook, asked_for=tuple(asked)))
    return tuple(found)


def _when(one: WaitingCook, asking: Asking) -> Text:
    """Return what is in the way on this shift, and when the two work together next."""
    reasons = {asked.when for asked in one.asked_for}
    if reasons == {"not mine"}:
        return ""
    if "no time" in reasons and asking.shift is not None:
        longest = max(asked.minutes for asked in one.asked_for if asked.when == "no time")
        if asking.now >= asking.shift.opens:
            return message("The service runs. After it, or before the next: about {minutes} min.", minutes=longest)
        opens = f"{asking.shift.opens:%H:%M}"
        return message("Too near the service at {time}: it takes about {minutes} min.", time=opens, minutes=longest)
    together = next_together(asking.coming, (one.cook, asking.me), asking.now)
    if together is None:
        return message("Not on this shift, and not planned with you in the coming days.")
    return message("Not on this shift. You are both on: {when}.", when=_moment(together.opens, asking.today.on))


def _moment(opens: datetime, today: date) -> Text:
    if opens.date() == today:
        return message("today {time}", time=f"{opens:%H:%M}")
    return joined([weekday(opens.date()), f"{opens:%H:%M}"], " ")


def _waiting_cooks(requests: Iterable[watching.Waiting], asking: Asking) -> tuple[WaitingCook, ...]:
    """Return who waits, whose longest wait is longest first, each with everything they asked for."""
    of_cook: dict[str, list[watching.Waiting]] = {}
    for one in requests:
        of_cook.setdefault(one.cook, []).append(one)
    found = []
    for cook, asked in of_cook.items():
        person = asking.today.people.get(cook)
        name = person.name if person else cook
        found.append(WaitingCook(cook, name, name.split()[0], tuple(_asked_for(one, asking) for one in asked)))
    return tuple(found)


def _asked_for(one: watching.Waiting, asking: Asking) -> AskedFor:
    """Return a request in words, with this assessor's right to answer it."""
    today = asking.today
    right = may_sign_somewhere(asking.me, one.cook, one.technique, today)
    technique = today.content.techniques.get(one.technique)
    is_today = local(one.since).date() == today.on
    left = parts_left(today.progress.record(one.cook).as_of(today.on), technique, today.on) if technique else ()
    parts = [message("Left to watch: {parts}", parts=joined([part.title for part in left], ", "))] if left else []
    watched = (line for cook in today.cooks() for line in today.record(cook).watched)
    minutes = minutes_of(watched, one.technique)
    return AskedFor(
        technique=one.technique,
        technique_title=technique.title if technique else one.technique,
        wait=joined(
            [
                message(
                    "Waiting {since}, since {since2}",
                    since=waited(one.since),
                    since2=clock_time(one.since) if is_today else day(local(one.since).date()),
                ),
                *parts,
            ],
            ". ",
        ),
        methods=teacher_lines(one.cook, one.technique),
        watched_by=watched_by_words(one.cook, one.technique),
        form=PlainForm(is_fresh=True) if right.may else None,
        reason=right.reason,
        who_can=right.who_can,
        when=when_to_watch(one.cook, minutes, asking.shift, asking.now, may=right.may),
        minutes=minutes,
    )
