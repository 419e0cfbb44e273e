"""The devices this kitchen trusts: invite one more, revoke one that is lost."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions import enrolling
from trainer.actions.outcome import Refused
from trainer.messages import Text, message
from trainer.store.sessions import Device
from trainer.web import guard, proving, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import clock_time, moment
from trainer.web.manager.acts import ActPage, ConfirmForm
from trainer.web.page import Page, go, show

pages = Blueprint("devices", __name__)


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
    """Every device, and the way to invite another."""

    template: ClassVar[str] = "manager/devices.html"
    devices: tuple[DeviceLine, ...]
    invite_href: str
    door_href: str


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
        )
    )


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
    return show(
        ActPage(
            title=message("New device"),
            heading=message("New device"),
            lead=message("A code of 8 figures, good for ten minutes and for one device. It is typed on that device."),
            own_url=request.path,
            back=url_for(".enrolled"),
            back_words=message("Back, and change nothing"),
            words=message("Make the code"),
            form=form,
        )
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
