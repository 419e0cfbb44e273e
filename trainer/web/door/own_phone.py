"""The page on which somebody says that the device in their hand is their own phone, or that it is shared again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.outcome import Refused
from trainer.actions.own_phone import make_own, share_again
from trainer.actions.signing_in import Done
from trainer.messages import Text, message, plural
from trainer.store.settings import OwnPhone
from trainer.web import guard
from trainer.web.forms import PlainForm
from trainer.web.page import Page, go, show

pages = Blueprint("own_phone", __name__)
OPENS: dict[OwnPhone, Text] = {
    "nothing": message("After 15 idle minutes it asks for your PIN, and opens the page you left."),
    "study": message("Your PIN once in a shift, then reading, questions and your own record open without it."),
    "asking": message(
        "Your PIN once in a shift, then reading, questions, your own record and asking to be watched open without it."
    ),
}
STILL_ASKED = message("Signing always asks for it.")


@dataclass(frozen=True, kw_only=True)
class OwnPhonePage(Page):
    """Whose phone this is, what that opens, and the one button; none where it cannot be anybody's own."""

    template: ClassVar[str] = "door/own_phone.html"
    lines: tuple[Text, ...]
    button: Text
    form: PlainForm


@pages.route("/this-phone", methods=["GET", "POST"])
@guard.needs("person")
def this_phone() -> AnyResponse:
    """Make this device the own phone of who is signed in, or shared again."""
    form, owner = PlainForm(), guard.owner()
    is_mine = owner is not None and owner.id == guard.person().id
    if form.is_sent_right() and guard.is_private():
        done = _changed(share=is_mine)
        if not isinstance(done, Refused):
            return go(".this_phone")
        form.refuse(done)
    return show(OwnPhonePage(title=message("This phone"), lines=_lines(is_mine), button=_button(is_mine), form=form))


def _changed(*, share: bool) -> Done | Refused:
    """Return what came of making this device shared, or one's own."""
    k, device, person = guard.kitchen(), guard.device() or "", guard.person().id
    if share:
        return share_again(k, device=device, by=person, now=guard.now())
    return make_own(k, device=device, person=person, now=guard.now())


def _lines(is_mine: bool) -> tuple[Text, ...]:
    """Return what is so now, and what the button would change."""
    if not guard.is_private():
        return (message("No phone is remembered over plain HTTP. A manager sees under “Devices” how to change that."),)
    settings = guard.kitchen().file.settings
    hours = plural("A shift is {number} hour here.", "A shift is {number} hours here.", settings.pin_hours)
    opens = (OPENS[settings.own_phone], *(() if settings.own_phone == "nothing" else (hours,)), STILL_ASKED)
    if is_mine:
        return (message("This is your own phone: your name stands at its door, and nobody else's."), *opens)
    return (message("This device is shared. If it is your own phone, it can remember your name."), *opens)


def _button(is_mine: bool) -> Text:
    """Return the words of the button; "" where there is none."""
    if not guard.is_private():
        return ""
    return message("Make it shared again") if is_mine else message("This is my phone")
