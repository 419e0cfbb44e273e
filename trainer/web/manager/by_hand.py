"""People by hand: put somebody on the roster, change a name, a number, a language, the stations to go for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import HiddenField
from wtforms.fields.choices import SelectChoice

from trainer.actions.outcome import Refused
from trainer.actions.people_by_hand import (
    LONGEST_NUMBER,
    TypedChange,
    TypedPerson,
    add_person,
    change_person,
    listed_person,
    mark_of_person,
    stations_to_go_for,
)
from trainer.kitchen.roles import ROLE_HEADINGS, ROLES
from trainer.messages import Text, message
from trainer.store.catalogues import languages, name_of
from trainer.store.people import LONGEST_NAME
from trainer.web import guard, proving, reading
from trainer.web.forms import KitchenForm, TextField
from trainer.web.manager.acts import ActPage, TicksField
from trainer.web.page import go, show
from trainer.web.proving import LatelyForm, secret_field
from trainer.web.typed_fields import AtMost, DayField, NeedsText, OneOfField

pages = Blueprint("by_hand", __name__)
NAME_NEEDED = message("Write the name.")


class PersonForm(LatelyForm):
    """A person new on the roster, or back on it."""

    name = TextField(message("Name"), [NeedsText(NAME_NEEDED, LONGEST_NAME)])
    number = TextField(
        message("Staff number"), [AtMost(LONGEST_NUMBER)], description=message("Empty where the house has none.")
    )
    born = DayField(
        message("Birth date"),
        description=message("Year, month, day. Empty where it is not known yet: stations that ask for an age wait."),
    )
    language = OneOfField(message("Language"))
    roles = TicksField(message("Roles"), choices=[SelectChoice(role, ROLE_HEADINGS[role]) for role in ROLES])
    stations = TicksField(message("Stations to learn"), description=message("Each opens a path. May stay empty."))
    secret = secret_field()


class ChangeForm(LatelyForm):
    """What is changed of somebody on the roster."""

    name = TextField(message("Name"), [NeedsText(NAME_NEEDED, LONGEST_NAME)])
    number = TextField(
        message("Staff number"), [AtMost(LONGEST_NUMBER)], description=message("Empty: it stays as it is.")
    )
    language = OneOfField(message("Language"))
    stations = TicksField(message("Stations to learn besides"), description=message("Each opens a path."))
    seen = HiddenField()
    secret = secret_field()


@dataclass(frozen=True, slots=True)
class Told:
    """The words around a form: its heading, what it does, its button."""

    heading: Text
    lead: Text
    words: Text


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """Something of a person that is changed on a page of its own."""

    words: Text
    href: str


@dataclass(frozen=True, kw_only=True)
class PersonActPage(ActPage):
    """The form, and where the rest is changed."""

    template: ClassVar[str] = "manager/by_hand.html"
    elsewhere: tuple[Elsewhere, ...]


@pages.route("/cooks/new", methods=["GET", "POST"])
@guard.needs("manager")
def new() -> AnyResponse:
    """Put somebody on the roster."""
    k, again = guard.kitchen(), request.args.get("again", "")
    old = listed_person(k, again) if again else None
    person = old.person if old else None
    form = PersonForm(
        name=person.name if person else "",
        number=(old.number or "") if old else "",
        born=person.born.isoformat() if person and person.born else "",
        language=(person.language if person else "") or k.file.settings.language,
        roles=["cook"],
    )
    _offer(form, tuple(reading.content().stations))
    is_right = form.is_sent_right()
    if is_right and proving.is_proved(form):
        typed = TypedPerson(
            form.name.data,
            form.number.data or "",
            form.born.day,
            form.language.data,
            tuple(form.roles.data or ()),
            _ticked(form),
            again if old else "",
        )
        done = add_person(k, by=guard.person().id, person=typed, now=guard.now(), key=form.key.data)
        if not isinstance(done, Refused):
            if done.waits:
                return go("manager.second.listed", saved=done.entry)
            return go("manager.person", cook=done.cook, saved=done.entry)
        form.refuse(done)
    heading = message("{name} joins again", name=person.name) if person else message("Put somebody on the roster")
    lead = message(
        "From now on they stand on the board. To sign in they need a first code: give it on their page afterwards."
    )
    return _shown(form, Told(heading, lead, message("Put on the roster")), url_for("manager.people"))


@pages.route("/cooks/<cook>/change", methods=["GET", "POST"])
@guard.needs("manager")
def change(cook: str) -> AnyResponse:
    """Change who somebody is: name, number, language, the stations they go for."""
    k = guard.kitchen()
    old = listed_person(k, cook)
    if old is None:
        abort(404)
    form = ChangeForm(
        name=old.person.name,
        number=old.number or "",
        language=old.person.language or k.file.settings.language,
        seen=mark_of_person(old),
    )
    _offer(form, stations_to_go_for(k, cook, guard.today()), old.person.language)
    if form.is_sent_right() and proving.is_proved(form):
        typed = TypedChange(
            cook,
            form.name.data,
            form.number.data or "",
            form.language.data,
            _ticked(form),
            form.seen.data or "",
        )
        refusal = change_person(k, by=guard.person().id, change=typed, now=guard.now(), key=form.key.data)
        if refusal is None:
            return go("manager.person", cook=cook)
        form.refuse(refusal)
        form.seen.data = mark_of_person(old)
    back = url_for("manager.person", cook=cook)
    elsewhere = (
        Elsewhere(message("Birth date, from a paper"), url_for("manager.identity.age", cook=cook)),
        Elsewhere(message("Roles"), url_for("manager.acts.roles", cook=cook)),
        Elsewhere(message("Open paths"), url_for("paths.listed")),
    )
    heading = message("Change {name}", name=old.person.name)
    lead = message("The book keeps that a name was changed, and never the name itself.")
    return _shown(form, Told(heading, lead, message("Save the changes")), back, elsewhere)


def _offer(form: KitchenForm, stations: tuple[str, ...], own: str = "") -> None:
    """Put the languages and the stations on a form's lists; a language the program does not speak stays on it."""
    tags = dict.fromkeys((*languages(), *([own] if own else [])))
    form["language"].offer({tag: name_of(tag) if tag in languages() else tag for tag in tags}, "")
    titles = reading.content().stations
    form["stations"].choices = [SelectChoice(name, titles[name].title) for name in stations if name in titles]
    if not form["stations"].choices:
        del form["stations"]


def _ticked(form: KitchenForm) -> tuple[str, ...]:
    """Return the stations ticked; none where there are none left to tick."""
    return tuple(form["stations"].data or ()) if "stations" in form else ()


def _shown(form: KitchenForm, told: Told, back: str, elsewhere: tuple[Elsewhere, ...] = ()) -> AnyResponse:
    proving.leave_out(form)
    return show(
        PersonActPage(
            title=told.heading,
            heading=told.heading,
            lead=told.lead,
            own_url=request.full_path.rstrip("?"),
            back=back,
            back_words=message("Back, and change nothing"),
            words=told.words,
            form=form,
            elsewhere=elsewhere,
        )
    )
