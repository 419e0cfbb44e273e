"""The plan: what the planned rows of some days would publish, what is left out of it, and the button that seals it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import ClassVar

from flask import Blueprint, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import BooleanField, HiddenField
from wtforms.fields.choices import SelectChoice

from trainer.actions.like_last_week import LastWeek, TakeOver, free_days, like_last_week, take_over
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.planning import MOST_DAYS, LeftOut, PlanDraft, PlanWanted, plan_draft, publish_plan
from trainer.kitchen.nights import Place, PlanPublished
from trainer.messages import Text, joined, message, plural
from trainer.web import guard, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import weekday
from trainer.web.forms import KitchenForm
from trainer.web.manager.acts import TicksField
from trainer.web.page import Page, go, show
from trainer.web.typed_fields import DayField, NeedsText, OneOfField

pages = Blueprint("plan", __name__)
WEEK = timedelta(days=6)
LONGEST_REASON = 500


class NobodyOrOneField(OneOfField):
    """A list to pick one from, or nobody."""

    def pre_validate(self, form: KitchenForm) -> None:
        """Refuse a value that is not on the list."""
        if self.data:
            super().pre_validate(form)


class PlanForm(KitchenForm):
    """The days to publish, who is in charge of them, and whether plans of the same days give way."""

    since = DayField(message("First day"), [NeedsText(message("Write the first day."))])
    until = DayField(message("Last day"), [NeedsText(message("Write the last day."))])
    in_charge = NobodyOrOneField(message("Person in charge"))
    away = TicksField(message("Away on these days"))
    replaces = BooleanField(message("This plan takes the place of those published for these days"))
    seen = HiddenField()


class LikeForm(KitchenForm):
    """The days without a plan, who is away, and the mark of what the week before would bring, as it was shown."""

    since = HiddenField()
    until = HiddenField()
    days = HiddenField()
    away = HiddenField()
    seen = HiddenField()


@dataclass(frozen=True, slots=True)
class PlanLine:
    """One planned place in words; of a cook who is not cleared, the field for the reason to let them run it."""

    words: Text
    reason_field: str = ""
    reason_label: Text = ""
    reason: str = ""


@dataclass(frozen=True, slots=True)
class PlanService:
    """One service of one day with its places."""

    heading: Text
    lines: tuple[PlanLine, ...]
    href: str


@dataclass(frozen=True, slots=True)
class LikePanel:
    """What the week before would bring to the days without a plan, before anything is taken over."""

    told: Text
    places: tuple[Text, ...]
    trailing: tuple[Text, ...]
    left_out: tuple[Text, ...]
    form: LikeForm


@dataclass(frozen=True, kw_only=True)
class PlanPage(Page):
    """What would be published for some days, what stands already, and what is left out."""

    template: ClassVar[str] = "night/plan.html"
    own_url: str
    form: PlanForm
    standing: tuple[Text, ...]
    services: tuple[PlanService, ...]
    left_out: tuple[Text, ...]
    like: LikePanel | None
    like_url: str
    empty: tuple[PlanService, ...]
    told: Text


@pages.route("/plan", methods=["GET", "POST"])
@guard.needs("manager")
def plan() -> AnyResponse:
    """Show the plan of some days as the planned rows have it; publish it."""
    k, today = guard.kitchen(), guard.today()
    form = _form(k, today)
    if form.is_sent_right():
        outcome = publish_plan(k, by=guard.person().id, wanted=_wanted(form, today), now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return go(".plan", saved=outcome.entry.id, since=form.since.data, until=form.until.data)
        form.refuse(outcome)
    return _shown(k, form, today)


@pages.post("/plan/like-last-week")
@guard.needs("manager")
def like() -> AnyResponse:
    """Plan the days that have no plan as the same weekdays of the week before."""
    k, today, sent = guard.kitchen(), guard.today(), LikeForm()
    form = _form(k, today, fresh=sent)
    if sent.is_sent_right():
        days = tuple(day for text in (sent.days.data or "").split()[:MOST_DAYS] if (day := _day(text)))
        wanted = TakeOver(days, _wanted(form, today).away, sent.seen.data or "")
        done = take_over(k, by=guard.person().id, wanted=wanted, now=guard.now())
        if not isinstance(done, Refused):
            return go(".plan", since=form.since.data, until=form.until.data, away=form.away.data, taken=done)
        sent.refuse(done)
    for problem in sent.problems():
        form.refuse(problem.text)
    return _shown(k, form, today)


def _form(k: Kitchen, today: date, fresh: LikeForm | None = None) -> PlanForm:
    """Return the form of the plan: as it was sent, else for the days of the address, or of *fresh*."""
    asked = {"since": fresh.since.data, "until": fresh.until.data} if fresh else request.args
    away = (fresh.away.data or "").split() if fresh else request.args.getlist("away")
    form = PlanForm(
        is_fresh=fresh is not None,
        since=(asked.get("since") or today.isoformat())[:40],
        until=(asked.get("until") or (today + WEEK).isoformat())[:40],
        away=away,
    )
    day = k.day(today)
    cooks = day.cooks_by_name()
    form.in_charge.offer(cooks, message("Nobody named"))
    form.away.choices = [SelectChoice(cook, name) for cook, name in cooks.items()]
    return form


def _wanted(form: PlanForm, today: date) -> PlanWanted:
    """Return what the form asks for; days that cannot be read are this week."""
    since = form.since.day or _day(form.since.data) or today
    until = form.until.day or _day(form.until.data) or since + WEEK
    reasons = {_key(name): text for name, text in request.form.items() if name.startswith("despite:")}
    despite = {key: text for key, text in reasons.items() if key is not None}
    away = tuple((cook, since, until) for cook in form.away.data or ())
    return PlanWanted(
        since, until, form.in_charge.data or "", away, despite, bool(form.replaces.data), form.seen.data or ""
    )


def _day(text: str | None) -> date | None:
    try:
        return date.fromisoformat(text or "")
    except ValueError:
        return None


def _key(name: str) -> tuple[date, str, str] | None:
    """Return the day, service and cook a reason is for, from the name of its field."""
    parts = name.split(":", 3)
    on = _day(parts[1]) if len(parts) == 4 else None
    return (on, parts[2], parts[3]) if on else None


def _shown(k: Kitchen, form: PlanForm, today: date) -> AnyResponse:
    wanted = _wanted(form, today)
    last = max(wanted.since, min(wanted.until, wanted.since + timedelta(days=MOST_DAYS)))
    wanted = replace(wanted, until=last)
    draft, naming = plan_draft(k, wanted, today, reading.content()), Naming(k.people(), reading.content())
    if not draft.overlaps:
        del form.replaces
    form.seen.data = draft.mark
    taken = request.args.get("taken", "")
    return show(
        PlanPage(
            title=message("The plan"),
            own_url=url_for(".plan"),
            form=form,
            standing=tuple(_standing(one, draft) for one in draft.overlaps),
            services=tuple(_services(draft, wanted, naming)),
            left_out=_with_reasons(draft.left_out, naming),
            like=_panel(k, form, wanted, today, naming),
            like_url=url_for(".like"),
            empty=tuple(_empty(k, draft, wanted, today)),
            told=_taken(int(taken)) if taken.isdecimal() and len(taken) < 5 else "",
        )
    )


def _taken(number: int) -> Text:
    return plural(
        "Planned like last week: {number} place. Change what is different, then publish.",
        "Planned like last week: {number} places. Change what is different, then publish.",
        number,
    )


def _with_reasons(lines: Iterable[LeftOut], naming: Naming) -> tuple[Text, ...]:
    """Return a line for each person and reason, with all the places it is about."""
    alike: dict[tuple[str, Text], list[Place]] = {}
    for one in lines:
        alike.setdefault((one.place.cook, one.reason), []).append(one.place)
    return tuple(
        message(
            "{cook}, {places}: {reason}",
            cook=naming.person(cook),
            places=joined([_dated(place, naming) for place in places], "; "),
            reason=reason,
        )
        for (cook, reason), places in alike.items()
    )


def _dated(place: Place, naming: Naming) -> Text:
    return message(
        "{station}, {service} on {day}",
        station=naming.station(place.station),
        service=naming.service(place.service),
        day=weekday(place.day),
    )


def _panel(k: Kitchen, form: PlanForm, wanted: PlanWanted, today: date, naming: Naming) -> LikePanel | None:
    """Return what the week before would bring; None where every day has a plan, or nobody was planned then."""
    days = free_days(k, wanted.since, wanted.until, today)
    found = like_last_week(k, days, wanted.away, today, reading.content())
    if not found.places and not found.left_out:
        return None
    like = LikeForm(
        is_fresh=True,
        since=form.since.data,
        until=form.until.data,
        days=" ".join(day.isoformat() for day in days),
        away=" ".join(form.away.data or ()),
        seen=found.mark,
    )
    return LikePanel(
        _told(found),
        tuple(_place(one, naming, dated=True) for one in found.places),
        _with_reasons(found.trailing, naming),
        _with_reasons(found.left_out, naming),
        like,
    )


def _told(found: LastWeek) -> Text:
    """Return in one sentence how many days have no plan, and how many places the week before would bring."""
    days = plural("{number} day has no plan.", "{number} days have no plan.", len(found.days))
    places = plural(
        "The same weekdays of the week before bring {number} place.",
        "The same weekdays of the week before bring {number} places.",
        len(found.places),
    )
    return joined([days, places])


def _empty(k: Kitchen, draft: PlanDraft, wanted: PlanWanted, today: date) -> Iterator[PlanService]:
    """Yield the services of these days at which nobody is planned: those the house holds, or all where it set none."""
    held = {(one.day, one.service) for one in (*draft.places, *(out.place for out in draft.left_out))}
    for number in range((wanted.until - wanted.since).days + 1):
        day = wanted.since + timedelta(days=number)
        week = k.progress().nights.week(day, today, today)
        for service in (one.id for one in k.services.offered):
            is_held = week is None or week.needs(day, service) is not None
            if is_held and day >= today and (day, service) not in held:
                yield PlanService(_heading(day, service), (), url_for("plan_rows.rows", day=day, service=service))


def _heading(day: date, service: str) -> Text:
    return message("{day}, {service}", day=weekday(day), service=guard.kitchen().services.word(service))


def _standing(plan: PlanPublished, draft: PlanDraft) -> Text:
    """Return which plan is published for some of these days, and how many places are planned otherwise now."""
    words = message(
        "Published: {first} to {last}, entry {seq}.",
        first=weekday(plan.since),
        last=weekday(plan.until),
        seq=plan.seq,
    )
    days = {place.day for place in draft.places} | {place.day for place in plan.places}
    shared = {day for day in days if plan.covers(day) and draft.since <= day <= draft.until}
    told, now = (_seats(places, shared) for places in (plan.places, draft.places))
    differ = len(told ^ now)
    if not differ:
        return words
    return joined([words, plural("{number} place differs from it.", "{number} places differ from it.", differ)])


def _seats(places: Iterable[Place], days: set[date]) -> set[tuple[date, str, str, str]]:
    return {place[:4] for place in places if place.day in days}


def _services(draft: PlanDraft, wanted: PlanWanted, naming: Naming) -> Iterator[PlanService]:
    """Yield the services of these days in their sequence."""
    sequence = guard.kitchen().services.sequence
    held = {(place.day, place.service) for place in draft.places}
    for day, service in sorted(held, key=lambda one: (one[0], sequence(one[1]))):
        lines = (one for one in draft.places if (one.day, one.service) == (day, service))
        href = url_for("plan_rows.rows", day=day, service=service)
        yield PlanService(_heading(day, service), tuple(_line(one, draft, wanted, naming) for one in lines), href)


def _line(place: Place, draft: PlanDraft, wanted: PlanWanted, naming: Naming) -> PlanLine:
    words = _place(place, naming)
    if place not in draft.lacking:
        return PlanLine(words)
    label = message("Why {name} runs it and is not cleared (empty: trails)", name=naming.person(place.cook))
    reason = wanted.despite.get((place.day, place.service, place.cook), "")
    return PlanLine(words, f"despite:{place.day}:{place.service}:{place.cook}", label, reason)


def _place(place: Place, naming: Naming, *, dated: bool = False) -> Text:
    cook, station = naming.person(place.cook), naming.station(place.station)
    if dated:
        return joined([cook, _dated(place, naming)], ", ")
    if place.runs:
        return message("{cook} at {station}", cook=cook, station=station)
    return message("{cook} trails at {station}", cook=cook, station=station)
