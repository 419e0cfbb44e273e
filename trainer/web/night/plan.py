"""The plan: what the planned rows of some days would publish, what is left out of it, and the button that seals it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import ClassVar

from flask import Blueprint, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import BooleanField

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.planning import MOST_DAYS, PlanDraft, PlanWanted, plan_draft, publish_plan
from trainer.kitchen.nights import Place, PlanPublished
from trainer.kitchen.services import SERVICE_IDS, SERVICE_WORDS
from trainer.messages import Text, joined, message, plural
from trainer.web import guard, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import weekday
from trainer.web.forms import KitchenForm
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
    replaces = BooleanField(message("This plan takes the place of those published for these days"))


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


@dataclass(frozen=True, kw_only=True)
class PlanPage(Page):
    """What would be published for some days, what stands already, and what is left out."""

    template: ClassVar[str] = "night/plan.html"
    own_url: str
    form: PlanForm
    standing: tuple[Text, ...]
    services: tuple[PlanService, ...]
    left_out: tuple[Text, ...]


@pages.route("/plan", methods=["GET", "POST"])
@guard.needs("manager")
def plan() -> AnyResponse:
    """Show the plan of some days as the planned rows have it; publish it."""
    k, today = guard.kitchen(), guard.today()
    form = PlanForm(
        since=request.args.get("since", today.isoformat())[:40],
        until=request.args.get("until", (today + WEEK).isoformat())[:40],
    )
    day = k.day(today)
    cooks = {cook: day.name(cook) for cook in day.cooks()}
    form.in_charge.offer(cooks, message("Nobody named"))
    if form.is_sent_right():
        outcome = publish_plan(k, by=guard.person().id, wanted=_wanted(form, today), now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return go(".plan", saved=outcome.entry.id, since=form.since.data, until=form.until.data)
        form.refuse(outcome)
    return _shown(k, form, today)


def _wanted(form: PlanForm, today: date) -> PlanWanted:
    """Return what the form asks for; days that cannot be read are this week."""
    since = form.since.day or _day(form.since.data) or today
    until = form.until.day or _day(form.until.data) or since + WEEK
    reasons = {_key(name): text for name, text in request.form.items() if name.startswith("despite:")}
    despite = {key: text for key, text in reasons.items() if key is not None}
    return PlanWanted(since, until, form.in_charge.data or "", (), despite, bool(form.replaces.data))


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
    wanted = PlanWanted(wanted.since, last, despite=wanted.despite)
    draft, naming = plan_draft(k, wanted, today, reading.content()), Naming(k.people(), reading.content())
    if not draft.overlaps:
        del form.replaces
    return show(
        PlanPage(
            title=message("The plan"),
            own_url=url_for(".plan"),
            form=form,
            standing=tuple(_standing(one, draft) for one in draft.overlaps),
            services=tuple(_services(draft, wanted, naming)),
            left_out=tuple(
                message("{place}: {reason}", place=_place(one.place, naming, dated=True), reason=one.reason)
                for one in draft.left_out
            ),
        )
    )


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
    held = sorted({(place.day, SERVICE_IDS.index(place.service)) for place in draft.places})
    for day, number in held:
        service = SERVICE_IDS[number]
        lines = (one for one in draft.places if (one.day, one.service) == (day, service))
        heading = message("{day}, {service}", day=weekday(day), service=SERVICE_WORDS[service])
        yield PlanService(heading, tuple(_line(one, draft, wanted, naming) for one in lines))


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
        return message(
            "{cook}, {station}, {service} on {day}",
            cook=cook,
            station=station,
            service=SERVICE_WORDS[place.service],
            day=weekday(place.day),
        )
    if place.runs:
        return message("{cook} at {station}", cook=cook, station=station)
    return message("{cook} trails at {station}", cook=cook, station=station)
