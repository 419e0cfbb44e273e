"""The assessor's first page, who is ready to show, and the supervised shift; practicals are in their own module."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import ClassVar

from flask import Blueprint, Response, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import PasswordField, RadioField
from wtforms.fields.choices import SelectChoice
from wtforms.validators import StopValidation

from trainer.actions import watching
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.kitchen.entitlement import Snapshot, may_sign_somewhere
from trainer.kitchen.services import SERVICE_WORDS, SERVICES, day_served
from trainer.messages import Text, message
from trainer.web import guard, proving, reading
from trainer.web.assessor import practical, showing, signing
from trainer.web.assessor.in_hand import so_far_words, watched_by_words
from trainer.web.assessor.practical import cooks_but_me
from trainer.web.assessor.to_teach import ToTeach, to_teach
from trainer.web.filters import clock_time, day, local, waited
from trainer.web.forms import KitchenForm, PlainForm
from trainer.web.page import Page, go, show
from trainer.web.result_view import teacher_lines
from trainer.web.typed_fields import DayField, NeedsText, OneOfField, WholeField

pages = Blueprint("assessor", __name__)
pages.register_blueprint(practical.pages)
pages.register_blueprint(signing.pages)
pages.register_blueprint(showing.pages)


class ShiftForm(KitchenForm):
    """A supervised shift: who, where, when, beside whom, for how many guests; a signature asks for the secret."""

    cook = OneOfField(message("Cook"))
    station = OneOfField(message("Station"))
    worked_on = DayField(message("Day"), [NeedsText(message("Write the day of the shift."))])
    sitting = RadioField(
        message("Service"),
        validate_choice=False,
        choices=[SelectChoice(service.id, service.heading) for service in SERVICES],
    )
    beside = OneOfField(message("Beside whom"))
    guests = WholeField(message("Guests"), [NeedsText(message("Write how many guests were served."))])
    secret = PasswordField(message("Your PIN or passphrase"))

    def validate_sitting(self, field: RadioField) -> None:
        """Refuse a shift at no service."""
        if field.data not in SERVICE_WORDS:
            raise StopValidation(message("Choose the service."))


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


@dataclass(frozen=True, slots=True)
class WaitingCook:
    """A cook who asked to be watched, with all they wait to show, longest wait first."""

    cook: str
    cook_name: str
    first_name: str
    asked_for: tuple[AskedFor, ...]


@dataclass(frozen=True, kw_only=True)
class WaitingPage(Page):
    """Who is ready to show, longest wait first."""

    template: ClassVar[str] = "assessor/waiting.html"
    half_done: tuple[HalfDone, ...]
    waiting: tuple[WaitingCook, ...]
    teach: tuple[ToTeach, ...]


@dataclass(frozen=True, kw_only=True)
class ShiftPage(Page):
    """The form for a supervised shift."""

    template: ClassVar[str] = "assessor/shift.html"
    own_url: str
    form: ShiftForm


@pages.get("/ready")
@guard.needs("assessor")
def waiting() -> Response:
    """Show who is ready to show, longest wait first, and what this assessor has in hand."""
    k, me = guard.kitchen(), guard.person().id
    today = replace(k.day(guard.today()), content=reading.content())
    return show(
        WaitingPage(
            title=message("Ready to show"),
            half_done=tuple(_half_done(k, practical) for practical in watching.practicals_by(k, me)),
            waiting=_waiting_cooks(watching.waiting(k, today.on), me, today),
            teach=to_teach(),
        )
    )


@pages.get("/shifts-worked/new")
@guard.needs("assessor")
def work_shift_form() -> Response:
    """Show the form for a supervised shift, with the day of what was served last in it."""
    form = ShiftForm(worked_on=day_served(local(guard.now())).isoformat())
    return _shift_page(form)


@pages.post("/shifts-worked/new")
@guard.needs("assessor")
def work_shift() -> AnyResponse:
    """Keep a supervised shift."""
    form = _offered(ShiftForm())
    if not form.is_sent_right() or not proving.is_proved(form):
        return _shift_page(form)
    shift = watching.SupervisedShift(
        cook=form.cook.data,
        station=form.station.data,
        worked_on=form.worked_on.day or guard.today(),
        beside=form.beside.data,
        guests=form.guests.number or 0,
        sitting=form.sitting.data,
    )
    outcome = watching.work_shift(
        guard.kitchen(), by=guard.person().id, shift=shift, now=guard.now(), key=form.key.data
    )
    if isinstance(outcome, Refused):
        form.refuse(outcome)
        return _shift_page(form)
    return go("assessor.waiting", saved=outcome.entry.id)


def _shift_page(form: ShiftForm) -> Response:
    """Return the shift's page."""
    own_url = url_for("assessor.work_shift")
    return show(ShiftPage(title=message("Record a supervised shift"), own_url=own_url, form=_offered(form)))


def _offered(form: ShiftForm) -> ShiftForm:
    """Return the form with the kitchen's people and stations on its lists."""
    form.cook.offer(cooks_but_me())
    form.beside.offer(cooks_but_me(with_me=True))
    form.station.offer({station.id: station.title for station in reading.content().stations.values()})
    return form


def _half_done(k: Kitchen, practical: watching.Practical) -> HalfDone:
    """Return a practical under way in words."""
    person = k.people().get(practical.cook)
    return HalfDone(
        cook_name=person.name if person else practical.cook,
        technique_title=practical.titles.technique,
        so_far=so_far_words(practical),
        href=url_for("assessor.practical.resume", practical=practical.id),
    )


def _waiting_cooks(requests: Iterable[watching.Waiting], me: str, today: Snapshot) -> tuple[WaitingCook, ...]:
    """Return who waits, whose longest wait is longest first, each with everything they asked for."""
    of_cook: dict[str, list[watching.Waiting]] = {}
    for one in requests:
        of_cook.setdefault(one.cook, []).append(one)
    found = []
    for cook, asked in of_cook.items():
        person = today.people.get(cook)
        name = person.name if person else cook
        found.append(WaitingCook(cook, name, name.split()[0], tuple(_asked_for(one, me, today) for one in asked)))
    return tuple(found)


def _asked_for(one: watching.Waiting, me: str, today: Snapshot) -> AskedFor:
    """Return a request in words, with this assessor's right to answer it."""
    right = may_sign_somewhere(me, one.cook, one.technique, today)
    technique = today.content.techniques.get(one.technique)
    is_today = local(one.since).date() == today.on
    return AskedFor(
        technique=one.technique,
        technique_title=technique.title if technique else one.technique,
        wait=message(
            "Waiting {since}, since {since2}",
            since=waited(one.since),
            since2=clock_time(one.since) if is_today else day(local(one.since).date()),
        ),
        methods=teacher_lines(one.cook, one.technique),
        watched_by=watched_by_words(one.cook, one.technique),
        form=PlainForm(is_fresh=True) if right.may else None,
        reason=right.reason,
        who_can=right.who_can,
    )
