"""The devices this kitchen trusts: invite one more, revoke one that is lost."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, cast

from flask import Blueprint, Response, abort, current_app, request, url_for
from markupsafe import Markup
from werkzeug.wrappers import Response as AnyResponse
from wtforms import RadioField, ValidationError
from wtforms.fields.choices import SelectChoice

from trainer.actions import enrolling, own_phone
from trainer.actions.kitchen_settings import open_on_own_phones
from trainer.actions.outcome import Refused
from trainer.messages import Text, message
from trainer.store.encryption import house_certificate
from trainer.store.sessions import Device
from trainer.store.settings import MOST_PIN_HOURS, OwnPhone
from trainer.web import guard, proving, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import clock_time, moment
from trainer.web.forms import KitchenForm
from trainer.web.manager.acts import ActPage, ConfirmForm
from trainer.web.page import Page, go, show
from trainer.web.proving import LatelyForm, secret_field
from trainer.web.qr import qr_of
from trainer.web.typed_fields import NeedsText, WholeField

pages = Blueprint("devices", __name__)
OWN_PHONES = message("People's own phones")
OPENS: dict[OwnPhone, Text] = {
    "nothing": message("Nothing: the PIN each time"),
    "study": message("Reading, questions, one's own record"),
    "asking": message("The same, and asking to be watched"),
}


class HoursField(WholeField):
    """As many hours as a session may last."""

    def post_validate(self, form: KitchenForm, validation_stopped: bool) -> None:
        """Refuse more hours than that, and none."""
        super().post_validate(form, validation_stopped)
        if self.number is not None and not 1 <= self.number <= MOST_PIN_HOURS:
            raise ValidationError(message("{typed} hours is not 1 to {most}.", typed=self.number, most=MOST_PIN_HOURS))


class OwnPhonesForm(LatelyForm):
    """What is open without a PIN on one's own phone, and for how many hours after it."""

    opens = RadioField(message("Opens without the PIN"), choices=[SelectChoice(*one) for one in OPENS.items()])
    hours = HoursField(
        message("For how many hours after the PIN"),
        [NeedsText(message("Write a number of hours, 1 to 12."), 6)],
        description=message("1 to 12: the length of a shift."),
    )
    secret = secret_field()


@dataclass(frozen=True, slots=True)
class DeviceLine:
    """One device, who enrolled it and when, whose own phone it is, and the ways to share it again and to revoke it."""

    name: str
    enrolled: Text
    is_this: bool
    revoked: Text
    revoke_href: str
    owner: Text
    share_href: str


@dataclass(frozen=True, slots=True)
class FirstVisit:
    """Where a phone learns to trust the kitchen: the address, as text and as a QR symbol, and what phones show then."""

    address: str
    drawing: Markup
    fingerprint: str


@dataclass(frozen=True, kw_only=True)
class DevicesPage(Page):
    """Every device, and the way to invite another."""

    template: ClassVar[str] = "manager/devices.html"
    devices: tuple[DeviceLine, ...]
    invite_href: str
    door_href: str
    phones_href: str
    first_visit: FirstVisit | None


@dataclass(frozen=True, kw_only=True)
class InvitationPage(Page):
    """A code for one new device, shown once."""

    template: ClassVar[str] = "manager/invitation.html"
    code: str
    good_until: Text
    back: str


@pages.get("/devices")
@guard.needs("manager")
def enrolled() -> Response:
    """Show the devices: those in use first."""
    devices = sorted(guard.kitchen().file.devices.all(), key=lambda one: (one.revoked_at is not None, one.name))
    return show(
        DevicesPage(
            title=message("Devices"),
            devices=tuple(_line(one) for one in devices),
            invite_href=url_for(".invite"),
            door_href=url_for("manager.security.newest"),
            phones_href=url_for(".own_phones"),
            first_visit=_first_visit(),
        )
    )


def _first_visit() -> FirstVisit | None:
    """Return what a phone's first visit takes; None where the kitchen has no certificate of its own."""
    made, address = house_certificate(guard.kitchen().file.folder), current_app.config.get("FIRST_VISIT", "")
    return FirstVisit(address, qr_of(address), made.fingerprint) if made is not None and address else None


@pages.route("/devices/invite", methods=["GET", "POST"])
@guard.needs("manager")
def invite() -> AnyResponse:
    """Make a code for one new device, after asking for the manager's secret; it is shown once."""
    form = ConfirmForm()
    if form.is_sent_right() and proving.proved_now(form) is not None:
        made = enrolling.invite_device(guard.kitchen(), by=guard.person().id, now=guard.now())
        if not isinstance(made, Refused):
            good, back = clock_time(made.good_until), url_for(".enrolled")
            return show(InvitationPage(title=message("New device"), code=made.code, good_until=good, back=back))
        form.refuse(made)
    return _asked_first(
        message("New device"),
        message("A code of 8 figures, good for ten minutes and for one device. It is typed on that device."),
        message("Make the code"),
        form,
    )


@pages.route("/devices/<device>/revoke", methods=["GET", "POST"])
@guard.needs("manager")
def revoke(device: str) -> AnyResponse:
    """Trust a device no longer, after asking once."""
    found = next((one for one in guard.kitchen().file.devices.all() if one.id == device), None)
    if found is None:
        abort(404)
    form = ConfirmForm()
    if form.is_sent_right() and proving.proved_now(form) is not None:
        done = enrolling.revoke_device(guard.kitchen(), device=device, by=guard.person().id, now=guard.now())
        if not isinstance(done, Refused):
            return go(".enrolled")
        form.refuse(done)
    return _asked_first(
        message("Revoke {name}", name=found.name),
        message("Everybody signed in on it is signed out at once. It must be enrolled again before it shows a page."),
        message("Revoke the device"),
        form,
    )


@pages.route("/devices/own-phones", methods=["GET", "POST"])
@guard.needs("manager")
def own_phones() -> AnyResponse:
    """Set what a PIN opens on people's own phones once they were idle, and for how many hours."""
    k = guard.kitchen()
    form = OwnPhonesForm(opens=k.file.settings.own_phone, hours=str(k.file.settings.pin_hours))
    if form.is_sent_right() and proving.is_proved(form):
        hours, opens = form.hours.number or 0, cast("OwnPhone", form.opens.data)
        done = open_on_own_phones(k, by=guard.person().id, opens=opens, hours=hours, now=guard.now(), key=form.key.data)
        if not isinstance(done, Refused):
            return go(".enrolled")
        form.refuse(done)
    proving.leave_out(form)
    return _asked_first(
        OWN_PHONES,
        message("What the PIN of a shift opens on one's own phone after 15 idle minutes. Signing always asks."),
        message("Save"),
        form,
    )


@pages.route("/devices/<device>/share", methods=["GET", "POST"])
@guard.needs("manager")
def share(device: str) -> AnyResponse:
    """Let one's own phone remember nobody any more, after asking once."""
    found = guard.kitchen().file.devices.get(device)
    if found is None or not found.owner:
        abort(404)
    form = ConfirmForm()
    if form.is_sent_right() and proving.proved_now(form) is not None:
        done = own_phone.share_again(guard.kitchen(), device=device, by=guard.person().id, now=guard.now())
        if not isinstance(done, Refused):
            return go(".enrolled")
        form.refuse(done)
    heading = message("Share {name} again", name=found.name)
    return _asked_first(
        heading,
        message("It stays enrolled and remembers nobody: whoever uses it picks a name and gives a PIN each time."),
        message("Share it again"),
        form,
    )


def _asked_first(heading: Text, lead: Text, words: Text, form: KitchenForm) -> Response:
    """Return the page of one act, asked before it is done, with the way back to the devices."""
    back, back_words = url_for(".enrolled"), message("Back, and change nothing")
    page = ActPage(
        title=heading,
        heading=heading,
        lead=lead,
        own_url=request.path,
        back=back,
        back_words=back_words,
        words=words,
        form=form,
    )
    return show(page)


def _line(device: Device) -> DeviceLine:
    """Return one device in words."""
    k = guard.kitchen()
    is_own = bool(device.owner) and device.revoked_at is None
    owner = Naming(k.people(), reading.content()).person(device.owner) if is_own else ""
    by = Naming(k.people(), reading.content()).person(device.by) if device.by else message("the kitchen")
    return DeviceLine(
        name=device.name,
        enrolled=message("Enrolled {enrolled_at}, by {by}", enrolled_at=moment(device.enrolled_at), by=by),
        is_this=device.id == guard.device(),
        revoked=message("Revoked {revoked_at}", revoked_at=moment(device.revoked_at)) if device.revoked_at else "",
        revoke_href=url_for(".revoke", device=device.id) if device.revoked_at is None else "",
        owner=message("Own phone of {name}", name=owner) if is_own else "",
        share_href=url_for(".share", device=device.id) if is_own else "",
    )
