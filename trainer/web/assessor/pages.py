"""The assessor's room: the desk is its first page, then the supervised shift by hand; the rest hangs on it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import PasswordField, RadioField
from wtforms.fields.choices import SelectChoice
from wtforms.validators import StopValidation

from trainer.actions import watching
from trainer.actions.outcome import Refused
from trainer.kitchen.services import day_served
from trainer.messages import message
from trainer.web import guard, proving, reading
from trainer.web.assessor import desk, helped, practical, showing, signing, stopping, stopwatch, undoing
from trainer.web.assessor.practical import cooks_but_me
from trainer.web.filters import local
from trainer.web.forms import KitchenForm
from trainer.web.page import Page, go, show
from trainer.web.typed_fields import DayField, NeedsText, OneOfField, WholeField

pages = Blueprint("assessor", __name__)
pages.register_blueprint(practical.pages)
pages.register_blueprint(signing.pages)
pages.register_blueprint(stopwatch.pages)
pages.register_blueprint(stopping.pages)
pages.register_blueprint(undoing.pages)
pages.register_blueprint(showing.pages)
pages.register_blueprint(helped.pages)


class ShiftForm(KitchenForm):
    """A supervised shift: who, where, when, beside whom, for how many guests; a signature asks for the secret."""

    cook = OneOfField(message("Cook"))
    station = OneOfField(message("Station"))
    worked_on = DayField(message("Day"), [NeedsText(message("Write the day of the shift."))])
    sitting = RadioField(message("Service"), validate_choice=False)
    beside = OneOfField(message("Beside whom"))
    guests = WholeField(message("Guests"), [NeedsText(message("Write how many guests were served."))])
    secret = PasswordField(message("Your PIN or passphrase"))

    def validate_sitting(self, field: RadioField) -> None:
        """Refuse a shift at no service."""
        if guard.kitchen().services.find(field.data or "") is None:
            raise StopValidation(message("Choose the service."))


@dataclass(frozen=True, kw_only=True)
class ShiftPage(Page):
    """The form for a supervised shift."""

    template: ClassVar[str] = "assessor/shift.html"
    own_url: str
    form: ShiftForm


@pages.get("/ready")
@guard.needs("assessor")
def waiting() -> Response:
    """Show the desk: the line tonight, whom to watch, what waits for this assessor."""
    return desk.desk_page()


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
    services = guard.kitchen().services.offered
    form.sitting.choices = [SelectChoice(one.id, one.heading) for one in services]
    form.station.offer({station.id: station.title for station in reading.content().stations.values()})
    return form
