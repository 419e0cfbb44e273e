"""The devices this kitchen trusts: enrol the one in hand, revoke one that is lost."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions import signing_in
from trainer.actions.outcome import Refused
from trainer.messages import Text, message
from trainer.store.sessions import Device
from trainer.web import guard, proving, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import moment
from trainer.web.forms import TextField
from trainer.web.manager.acts import ActPage, ConfirmForm
from trainer.web.page import Page, go, show
from trainer.web.typed_fields import NeedsText

pages = Blueprint("devices", __name__)


class DeviceForm(ConfirmForm):
    """A name for the device in hand."""

    name = TextField(
        message("A name for this device"), [NeedsText(message("Give the device a name, like Pass tablet."), 80)]
    )


@dataclass(frozen=True, slots=True)
class DeviceLine:
    """One device, who enrolled it and when, and the way to revoke it."""

    name: str
    enrolled: Text
    is_this: bool
    revoked: Text
    revoke_href: str


@dataclass(frozen=True, kw_only=True)
class DevicesPage(Page):
    """Every device, and the form that enrols this one."""

    template: ClassVar[str] = "manager/devices.html"
    devices: tuple[DeviceLine, ...]
    this_is_enrolled: bool
    own_url: str
    form: DeviceForm


@pages.get("/devices")
@guard.needs("manager")
def enrolled() -> Response:
    """Show the devices."""
    return _devices_page(DeviceForm())


@pages.post("/devices")
@guard.needs("manager")
def enrol() -> AnyResponse:
    """Enrol the device in hand."""
    form = DeviceForm()
    if not form.is_sent_right() or proving.proved_now(form) is None:
        return _devices_page(form)
    made = signing_in.enrol_device(guard.kitchen(), name=form.name.data, by=guard.person().id, now=guard.now())
    if isinstance(made, Refused):
        form.refuse(made)
        return _devices_page(form)
    response = go(".enrolled")
    guard.set_cookie(response, guard.DEVICE, made.secret, guard.FIVE_YEARS)
    return response


@pages.route("/devices/<device>/revoke", methods=["GET", "POST"])
@guard.needs("manager")
def revoke(device: str) -> AnyResponse:
    """Trust a device no longer, after asking once."""
    found = next((one for one in guard.kitchen().file.devices.all() if one.id == device), None)
    if found is None:
        abort(404)
    form = ConfirmForm()
    if form.is_sent_right() and proving.proved_now(form) is not None:
        done = signing_in.revoke_device(guard.kitchen(), device=device, by=guard.person().id, now=guard.now())
        if not isinstance(done, Refused):
            return go(".enrolled")
        form.refuse(done)
    return show(
        ActPage(
            title=message("Revoke {name}", name=found.name),
            heading=message("Revoke {name}", name=found.name),
            lead=message(
                "Everybody signed in on it is signed out at once. It must be enrolled again before it shows a page."
            ),
            own_url=request.path,
            back=url_for(".enrolled"),
            back_words=message("Back, and change nothing"),
            words=message("Revoke the device"),
            form=form,
        )
    )


def _devices_page(form: DeviceForm) -> Response:
    """Return the page of devices: those in use first."""
    devices = sorted(guard.kitchen().file.devices.all(), key=lambda one: (one.revoked_at is not None, one.name))
    return show(
        DevicesPage(
            title=message("Devices"),
            devices=tuple(_line(one) for one in devices),
            this_is_enrolled=any(one.id == guard.device() and one.revoked_at is None for one in devices),
            own_url=url_for(".enrol"),
            form=form,
        )
    )


def _line(device: Device) -> DeviceLine:
    """Return one device in words."""
    k = guard.kitchen()
    by = Naming(k.people(), reading.content()).person(device.by) if device.by else message("the kitchen")
    return DeviceLine(
        name=device.name,
        enrolled=message("Enrolled {enrolled_at}, by {by}", enrolled_at=moment(device.enrolled_at), by=by),
        is_this=device.id == guard.device(),
        revoked=message("Revoked {revoked_at}", revoked_at=moment(device.revoked_at)) if device.revoked_at else "",
        revoke_href=url_for(".revoke", device=device.id) if device.revoked_at is None else "",
    )
