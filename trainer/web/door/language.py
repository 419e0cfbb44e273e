"""In which language, units and light a page is read: by a person, and the language at the door by a browser."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, abort, g, make_response, redirect, request
from werkzeug.wrappers import Response as AnyResponse
from wtforms import RadioField
from wtforms.fields.choices import SelectChoice

from trainer.actions.outcome import Refused
from trainer.actions.own_language import keep_own_language
from trainer.messages import message
from trainer.store.catalogues import languages, name_of
from trainer.web import guard, reading
from trainer.web.forms import KitchenForm, PlainForm
from trainer.web.page import Page, go, own_path, show
from trainer.web.shell import start_of

pages = Blueprint("language", __name__)
AS_THE_KITCHEN = ""
UNITS = {
    AS_THE_KITCHEN: message("As the kitchen does"),
    "us": message("Pounds, cups and °F first"),
    "metric": message("Grams, liters and °C first"),
}
AS_THE_SYSTEM = ""
LOOKS = {
    AS_THE_SYSTEM: message("As this device says"),
    "day": message("Always by day: dark on white"),
    "night": message("Always by night: light on black"),
}


class LanguageForm(KitchenForm):
    """A language, the units that stand first, and by day or by night."""

    language = RadioField(message("Language"), validate_choice=False)
    units = RadioField(message("Units"), validate_choice=False, choices=[SelectChoice(*unit) for unit in UNITS.items()])
    look = RadioField(
        message("Day and night"), validate_choice=False, choices=[SelectChoice(*look) for look in LOOKS.items()]
    )


@dataclass(frozen=True, kw_only=True)
class LanguagePage(Page):
    """The languages there are, each by its own name, the units, and day or night."""

    template: ClassVar[str] = "door/language.html"
    form: LanguageForm


@pages.route("/language", methods=["GET", "POST"])
@guard.needs("person")
def choose() -> AnyResponse:
    """Keep the language and units a person reads in, and by which light."""
    who = guard.person()
    form = LanguageForm(language=reading.now().language, units=who.units, look=who.look)
    form.language.choices = [SelectChoice(tag, name_of(tag)) for tag in languages()]
    if form.is_sent_right():
        refused = keep_own_language(
            guard.kitchen(),
            person=who.id,
            language=form.language.data or "",
            units=form.units.data or "",
            look=form.look.data or "",
        )
        if not isinstance(refused, Refused):
            return redirect(start_of(guard.roles()), 303)
        form.refuse(refused)
    return show(LanguagePage(title=message("Language, units, day and night"), form=form))


@pages.post("/language/<tag>")
@guard.needs("nobody")
def at_the_door(tag: str) -> AnyResponse:
    """Let a browser in which nobody is signed in yet choose a language, and keep it there."""
    if tag not in languages():
        abort(404)
    if not PlainForm().is_sent_right():
        return go("door.first")
    response = make_response(redirect(own_path(request.args.get("then") or "/"), 303))
    g.pop("reading", None)
    guard.set_cookie(response, reading.LANGUAGE, tag, guard.FIVE_YEARS)
    return response
