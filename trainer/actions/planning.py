"""The week's services and the plan, entered into the book: what the house asks for, and who was planned where."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta
from typing import Any

from trainer.actions.clock_watch import after_the_last
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.actions.saving import save, validate_text
from trainer.actions.weeks_set import weeks_after
from trainer.kitchen.book import LOCAL, THE_BOOK, NewEntry, canonical, digest_of
from trainer.kitchen.entitlement import A_MANAGER, Snapshot
from trainer.kitchen.nights import Place, PlanPublished, plan_text
from trainer.kitchen.planned import Planned, Verdict, judge
from trainer.kitchen.services import HouseServices
from trainer.kitchen.spans import in_words
from trainer.kitchen.technique import Content
from trainer.kitchen.week_typed import wrong_week
from trainer.messages import Text, message

MOST_DAYS = 35
ONE_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A planned row that no plan can hold, and why."""

    place: Place
    reason: Text


@dataclass(frozen=True, slots=True)
class PlanDraft:
    """What a plan of some days would say as things stand, what it leaves out, and which plans it would replace.

    `lacking` are the places of cooks who are not cleared there: they trail, unless a reason lets them run the station.
    """

    since: date
    until: date
    places: tuple[Place, ...]
    lacking: tuple[Place, ...]
    left_out: tuple[LeftOut, ...]
    overlaps: tuple[PlanPublished, ...]

    @property
    def mark(self) -> str:
        """Return what stands for the draft as it was seen: who is where, and which plans it would replace."""
        told = [f"{one.day} {one.service} {one.cook} {one.station}" for one in self.places]
        return digest_of(canonical({"places": told, "plans": [plan.entry for plan in self.overlaps]}).encode())


@dataclass(frozen=True, slots=True)
class PlanWanted:
    """The days to plan, who is in charge of them, who is away, and why somebody not cleared runs a station.

    `despite` has the reasons by day, service and cook. `replaces` says that plans of the same days give way. `seen` is
    the mark of the draft that was looked at: another one is not published in its place.
    """

    since: date
    until: date
    in_charge: str = ""
    away: tuple[tuple[str, date, date], ...] = ()
    despite: Mapping[tuple[date, str, str], str] = field(default_factory=dict)
    replaces: bool = False
    seen: str = ""


def set_services(k: Kitchen, *, by: str, told: Mapping[str, Any], now: datetime, key: str) -> Outcome:
    """Return the saved `services_set`: which services the house holds from a day on, and the hands each needs.

    It counts until the day another week begins: what was set for later is entered again after it, just as it was.
    """
    wrong = wrong_week(told, list(k.day(k.today(k.moment(now))).rules.stations), k.services)
    if wrong:
        return Refused(wrong, "", "services")
    since = date.fromisoformat(told["since"])
    with k.file.writing():
        is_new, later = k.file.book.find_key(key) is None, weeks_after(k, since)
        deed = NewEntry("services_set", now, THE_BOOK, by, dict(told), key)
        outcome = save(k, deed, lambda day: not_a_manager(by, day) or _since_before(since, day))
        if is_new and isinstance(outcome, Saved):
            for number, body in enumerate(later, 1):
                own = digest_of(f"{key}:{number}".encode())
                k.file.book.append(after_the_last(k, replace(deed, at=outcome.entry.at, body=dict(body), key=own)))
        return outcome


def plan_draft(k: Kitchen, wanted: PlanWanted, today: date, content: Content | None = None) -> PlanDraft:
    """Return what a plan of some days would say: the planned rows, each judged; reasons in the words of *content*."""
    places: list[Place] = []
    lacking: list[Place] = []
    left_out: list[LeftOut] = []
    for place, verdict, reason in _rows(k, wanted, today, content):
        if verdict == "kept away":
            left_out.append(LeftOut(place, reason))
            continue
        key, learns = (place.day, place.service, place.cook), verdict == "learns"
        own = replace_runs(place, runs=not learns or bool(wanted.despite.get(key, "").strip()))
        places.append(own)
        lacking += [own] if learns else []
    return PlanDraft(
        wanted.since, wanted.until, tuple(places), tuple(lacking), tuple(left_out), overlapping(k, wanted, today)
    )


def replace_runs(place: Place, *, runs: bool) -> Place:
    """Return a place whose cook runs the station, or trails."""
    return place._replace(runs=runs)


def overlapping(k: Kitchen, wanted: PlanWanted, today: date) -> tuple[PlanPublished, ...]:
    """Return the plans that count and have a day in common with the one wanted, those that others replaced left out."""
    nights, days = k.progress().nights, list(_days(wanted))
    found = (nights.plan(day, today, today) for day in days)
    return tuple({one.entry: one for one in found if one is not None}.values())


def publish_plan(k: Kitchen, *, by: str, wanted: PlanWanted, now: datetime, key: str) -> Outcome:
    """Return the saved `plan_published`: the planned rows of some days, as the plan that counts from here on.

    By a manager, for today and days to come. Rows of people who may not stand there at all are left out; those who are
    not cleared trail, or run the station with a reason. A plan of the same days is replaced only where that is said.
    """
    with k.file.writing():
        today = k.today(k.moment(now))
        wrong = _wrong_span(wanted, today)
        if wrong:
            return wrong
        draft = plan_draft(k, wanted, today)
        deed = NewEntry("plan_published", now, THE_BOOK, by, _plan_body(wanted, draft), key)
        return save(k, deed, lambda day: not_a_manager(by, day) or _wrong_plan(wanted, draft, day, k.services))


def _rows(
    k: Kitchen, wanted: PlanWanted, today: date, content: Content | None
) -> Iterator[tuple[Place, Verdict, Text]]:
    """Yield every planned row with its verdict and the reason."""
    for shift in k.file.shifts.between(wanted.since, wanted.until):
        place = Place(shift.on, shift.sitting, shift.cook, shift.station, True)
        yield place, *judged_place(k, place, wanted.away, today, content)


def judged_place(
    k: Kitchen,
    place: Place,
    away: Iterable[tuple[str, date, date]],
    today: date,
    content: Content | None = None,
) -> tuple[Verdict, Text]:
    """Return what is to be said of a cook at a station of a service of a day, as known today, and the reason."""
    week = k.progress().nights.week(place.day, today, today)
    if week is not None and week.needs(place.day, place.service) is None:
        return "kept away", message("That service is not held that day.")
    if any(place.cook == cook and first <= place.day <= last for cook, first, last in away):
        return "kept away", message("Away that day.")
    day = replace(k.day(place.day), content=content or k.content)
    judged = judge(Planned(place.cook, place.station, place.service), day)
    return judged.verdict, judged.reason


def _plan_body(wanted: PlanWanted, draft: PlanDraft) -> dict[str, Any]:
    charge = dict.fromkeys(_days(wanted), wanted.in_charge) if wanted.in_charge else {}
    return {
        "from": wanted.since.isoformat(),
        "to": wanted.until.isoformat(),
        "plan": plan_text(draft.places, charge, wanted.away),
        "despite": [
            {
                "day": place.day.isoformat(),
                "service": place.service,
                "cook": place.cook,
                "station": place.station,
                "reason": wanted.despite[place.day, place.service, place.cook].strip(),
            }
            for place in draft.lacking
            if place.runs
        ],
        "replaces": [plan.entry for plan in draft.overlaps],
    }


def _days(wanted: PlanWanted) -> Iterator[date]:
    for number in range((wanted.until - wanted.since).days + 1):
        yield wanted.since + number * ONE_DAY


def _wrong_span(wanted: PlanWanted, today: date) -> Refused | None:
    """Return what is wrong with the days of a plan: gone by, the wrong way round, or too many."""
    if wanted.since < today:
        words = message("{day} is over. A plan is published for today and days to come.", day=in_words(wanted.since))
        return Refused(words, "", "since")
    if wanted.until < wanted.since:
        words = message("{last} is before {first}.", last=in_words(wanted.until), first=in_words(wanted.since))
        return Refused(words, "", "until")
    days = (wanted.until - wanted.since).days + 1
    if days > MOST_DAYS:
        return Refused(message("{days} days: a plan has {most} at most.", days=days, most=MOST_DAYS), "", "until")
    return None


def _wrong_plan(wanted: PlanWanted, draft: PlanDraft, day: Snapshot, house: HouseServices) -> Refused | None:
    return (
        _nobody(draft)
        or _changed_since(wanted, draft)
        or _overlap(wanted, draft)
        or _wrong_people(wanted, day)
        or _wrong_reasons(wanted, draft, day, house)
    )


def _changed_since(wanted: PlanWanted, draft: PlanDraft) -> Refused | None:
    """Return the refusal of a plan that is no longer the one that was looked at."""
    if not wanted.seen or wanted.seen == draft.mark:
        return None
    words = message("Since you looked, the plan of these days has changed. Nothing was published.")
    return Refused(words, message("Look at it below, and publish again."))


def _nobody(draft: PlanDraft) -> Refused | None:
    if draft.places:
        return None
    words = message(
        "Nobody is planned from {first} to {last}.", first=in_words(draft.since), last=in_words(draft.until)
    )
    return Refused(words, message("Take in a shift file first."), "since")


def _overlap(wanted: PlanWanted, draft: PlanDraft) -> Refused | None:
    if wanted.replaces or not draft.overlaps:
        return None
    other = draft.overlaps[0]
    words = message(
        "Entry {seq} plans {first} to {last} already.",
        seq=other.seq,
        first=in_words(other.since),
        last=in_words(other.until),
    )
    return Refused(words, message("Say that this plan takes its place, or choose other days."), "replaces")


def _wrong_people(wanted: PlanWanted, day: Snapshot) -> Refused | None:
    """Return the refusal of somebody in charge, or away, who is not on the roster; and of days the wrong way round."""
    named = [(wanted.in_charge, "in_charge")] if wanted.in_charge else []
    for cook, place in [*named, *((cook, "away") for cook, _, _ in wanted.away)]:
        if not day.is_on_roster(cook):
            return Refused(message("{cook} is not on the roster.", cook=day.name(cook)), "", place)
    for _, first, last in wanted.away:
        if last < first:
            return Refused(message("{last} is before {first}.", last=in_words(last), first=in_words(first)), "", "away")
    return None


def _wrong_reasons(wanted: PlanWanted, draft: PlanDraft, day: Snapshot, house: HouseServices) -> Refused | None:
    """Return the refusal of a reason that is too long, or for a place that needs none or is not planned."""
    lacking = {(place.day, place.service, place.cook) for place in draft.lacking}
    for (on, service, cook), reason in wanted.despite.items():
        if reason.strip() and (on, service, cook) not in lacking:
            words = message(
                "{cook}, {service} on {day}: no planned place there needs a reason.",
                cook=day.name(cook),
                service=house.word(service),
                day=in_words(on),
            )
            return Refused(words, "", "despite")
        wrong = validate_text(reason, "reason", may_be_blank=True)
        if wrong:
            return replace(wrong, field="despite")
    return None


def not_a_manager(by: str, day: Snapshot) -> Refused | None:
    """Return the refusal of anybody who is neither a manager nor at the machine itself."""
    if by == LOCAL or "manager" in day.roles(by):
        return None
    return Refused(message("{name} is no manager.", name=day.name(by)), A_MANAGER)


def _since_before(since: date, day: Snapshot) -> Refused | None:
    if since >= day.on:
        return None
    words = message("{day} is over: services are set from today or a later day on.", day=in_words(since))
    return Refused(words, "", "since")
