"""The house's own services on a page: what each is called, when it usually runs, what is off the list."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.house_services import Change, Listing, change_services, names_of
from trainer.actions.outcome import Refused
from trainer.kitchen.own_services import MOST_LETTERS, ServiceWanted
from trainer.kitchen.services import Service
from trainer.messages import Text, joined, message
from trainer.store.catalogues import languages, name_of
from trainer.web import guard
from trainer.web.forms import KitchenForm, PlainForm, TextField
from trainer.web.page import Page, go, show
from trainer.web.typed_fields import AtMost

pages = Blueprint("service_names", __name__)
LONGEST_TYPED = 3 * MOST_LETTERS
"""A longer name than a service may have still comes back whole, with the rule."""


class NameForm(KitchenForm):
    """One service: its name in the kitchen's language and in another, its usual hours."""

    name = TextField(message("Name"), [AtMost(LONGEST_TYPED)])
    second = TextField(
        message("Name"), [AtMost(LONGEST_TYPED)], description=message("Empty: called alike in both languages.")
    )
    opens = TextField(message("Usually opens"), description=message("Like 17:30."))
    closes = TextField(message("Usually closes"), description=message("After midnight too, like 00:30."))


@dataclass(frozen=True, slots=True)
class NameLine:
    """A service in words, under its id, and where it is changed."""

    id: str
    words: Text
    also: Text
    href: str


@dataclass(frozen=True, kw_only=True)
class NamesPage(Page):
    """The house's list, what is off it, and the form; `form` is of the buttons that take off and put back."""

    template: ClassVar[str] = "night/service_names.html"
    own_url: str
    form: PlainForm
    name_form: NameForm
    heading: Text
    is_new: bool
    offered: tuple[NameLine, ...]
    off: tuple[NameLine, ...]


@pages.route("/services/names", methods=["GET", "POST"])
@guard.needs("manager")
def names() -> AnyResponse:
    """Show what the services are called; name one, add one, take one off the list or put it back."""
    k, listing = guard.kitchen(), _listing()
    asked = k.services.find(request.args.get("service", ""))
    form, name_form = PlainForm(is_fresh=listing is None), _form(asked, is_fresh=listing is not None)
    sent: KitchenForm = form if listing else name_form
    if sent.is_sent_right():
        change: Change = listing or _wanted(asked, name_form)
        outcome = change_services(k, by=guard.person().id, changes=[change], now=guard.now(), key=sent.key.data)
        if not isinstance(outcome, Refused):
            return go(".names", saved=outcome.entry.id)
        sent.refuse(outcome)
    house = k.services
    return show(
        NamesPage(
            title=message("Names of the services"),
            own_url=url_for(".names", service=asked.id) if asked else url_for(".names"),
            form=form,
            name_form=name_form,
            heading=message("Change: {service}", service=asked.heading) if asked else message("Add a service"),
            is_new=asked is None,
            offered=tuple(_lines(one for one in house.known if one.is_offered)),
            off=tuple(_lines(one for one in house.known if not one.is_offered)),
        )
    )


def _listing() -> Listing | None:
    """Return which service a button takes off the list or puts back; None where another form was sent."""
    for name, is_offered in (("takes_off", False), ("puts_back", True)):
        if name in request.form:
            return Listing(request.form[name][:80], is_offered)
    return None


def _tags() -> tuple[str, str]:
    """Return the kitchen's own language, and the other that names are written in."""
    own = guard.kitchen().file.settings.language
    return own, next(tag for tag in languages() if tag != own)


def _form(asked: Service | None, *, is_fresh: bool) -> NameForm:
    """Return the form as it was sent, else with the service of the address."""
    own, other = _tags()
    there = names_of(asked) if asked else {}
    form = NameForm(
        is_fresh=is_fresh,
        name=there.get(own, ""),
        second=there.get(other, ""),
        opens=f"{asked.opens:%H:%M}" if asked else "",
        closes=f"{asked.closes:%H:%M}" if asked else "",
    )
    for field, tag in ((form.name, own), (form.second, other)):
        field.label.text = message("Name ({language})", language=name_of(tag))
    return form


def _wanted(asked: Service | None, form: NameForm) -> ServiceWanted:
    own, other = _tags()
    names = ((own, form.name.data), (other, form.second.data))
    return ServiceWanted(asked.id if asked else "", names, form.opens.data, form.closes.data)


def _lines(services: Iterator[Service]) -> Iterator[NameLine]:
    """Yield what each is called, with its usual hours and its name in the other language."""
    for one in services:
        words = message(
            "{service}, usually {opens} to {closes}",
            service=one.heading,
            opens=f"{one.opens:%H:%M}",
            closes=f"{one.closes:%H:%M}",
        )
        told = [message("{language}: {name}", language=name_of(tag), name=name) for tag, name in one.names]
        yield NameLine(one.id, words, joined(told, ", ") if len(told) > 1 else "", url_for(".names", service=one.id))
