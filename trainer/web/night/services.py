"""The services of the week: what is set, and a form that sets one service on the days ticked."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any, ClassVar

from flask import Blueprint, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import TextAreaField
from wtforms.fields.choices import SelectChoice

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.planning import set_services
from trainer.kitchen.services import SERVICES
from trainer.messages import Text, joined, message
from trainer.web import guard, reading
from trainer.web.entry_words import Naming
from trainer.web.forms import KitchenForm, TextField
from trainer.web.manager.acts import TicksField
from trainer.web.night_words import LINES, WEEKDAYS
from trainer.web.page import Page, go, show
from trainer.web.typed_fields import DayField, NeedsText, OneOfField, WholeField

pages = Blueprint("services", __name__)


class ServiceForm(KitchenForm):
    """One service on some weekdays: its hours, its guests, the hands it needs."""

    service = OneOfField(message("Service"))
    weekdays = TicksField(
        message("Weekdays"), choices=[SelectChoice(str(number), word) for number, word in enumerate(WEEKDAYS, 1)]
    )
    opens = TextField(
        message("Opens"), [NeedsText(message("Write when it opens."))], description=message("Like 17:30.")
    )
    closes = TextField(
        message("Closes"),
        [NeedsText(message("Write when it closes."))],
        description=message("After midnight too, like 00:30."),
    )
    guests = WholeField(message("Guests"), [NeedsText(message("Write how many guests are usual."))])
    hands = TextAreaField(
        message("Hands"),
        [NeedsText(message("Write one line a need."), 2_000)],
    )
    since = DayField(message("From"), description=message("Year, month, day. Empty: from today."))


@dataclass(frozen=True, kw_only=True)
class ServicesPage(Page):
    """What is set, and the form."""

    template: ClassVar[str] = "night/services.html"
    own_url: str
    form: ServiceForm
    lines: tuple[Text, ...]
    hands_hint: Text


@pages.route("/services", methods=["GET", "POST"])
@guard.needs("manager")
def services() -> AnyResponse:
    """Show the services of the week; set one on the days ticked."""
    k, form = guard.kitchen(), ServiceForm()
    form.service.offer({service.id: service.heading for service in SERVICES})
    if form.is_sent_right():
        told = _told(form, _body(k), guard.today())
        outcome = told if isinstance(told, Refused) else _set(k, told, form)
        if not isinstance(outcome, Refused):
            return go(".services", saved=outcome.entry.id)
        form.refuse(outcome)
    body, naming = _body(k), Naming(k.people(), reading.content())
    return show(
        ServicesPage(
            title=message("Services of the week"),
            own_url=url_for(".services"),
            form=form,
            lines=tuple(LINES["services_set"](body, naming)) if body else (),
            hands_hint=message(
                "One line a need: stations, joined by + where one hand holds all, and how many. Stations: {titles}.",
                titles=joined([one.title for one in reading.content().stations.values()], ", "),
            ),
        )
    )


def _set(k: Kitchen, told: Mapping[str, Any], form: ServiceForm) -> Any:  # noqa: ANN401 - an outcome
    return set_services(k, by=guard.person().id, told=told, now=guard.now(), key=form.key.data)


def _body(k: Kitchen) -> Mapping[str, Any]:
    """Return what was set last; nothing where nothing was."""
    weeks = k.progress().nights.weeks
    found = k.file.book.find(weeks[-1].entry) if weeks else None
    return found.body if found else {}


def _told(form: ServiceForm, before: Mapping[str, Any], today: date) -> dict[str, Any] | Refused:
    """Return the week with one service set anew on the days ticked, or what is wrong with the hands or the days."""
    days, needs = [int(day) for day in form.weekdays.data or ()], _needs(form.hands.data)
    if not days:
        return Refused(message("Tick at least one weekday."), "", "weekdays")
    if isinstance(needs, Refused):
        return needs
    kept = [
        one for one in before.get("weekly", ()) if one["weekday"] not in days or one["service"] != form.service.data
    ]
    line = {"service": form.service.data, "opens": form.opens.data, "closes": form.closes.data}
    new = [{**line, "weekday": day, "guests": form.guests.number or 0, "needs": needs} for day in days]
    since = (form.since.day or today).isoformat()
    weekly = sorted([*kept, *new], key=lambda one: (one["weekday"], one["opens"]))
    return {"since": since, "weekly": weekly, "days": list(before.get("days", ()))}


def _needs(text: str) -> list[dict[str, Any]] | Refused:
    """Return the needs typed, one a line: stations joined by a plus, then a number."""
    found = []
    for line in filter(None, (line.strip() for line in text.splitlines())):
        stations, _, hands = line.rpartition(" ")
        if not hands.isascii() or not hands.isdigit() or not stations.strip():
            title = next(iter(reading.content().stations.values())).title
            words = message(
                "“{line}”: write stations, then how many hands, like “{title} 2”.", line=line[:60], title=title
            )
            return Refused(words, "", "hands")
        found.append({"stations": _names(stations.split("+")), "hands": int(hands[:6])})
    return found


def _names(parts: Iterable[str]) -> list[str]:
    """Return the ids of stations typed by their titles or ids; what is neither as it stands."""
    stations = reading.content().stations.values()
    ids = {name.casefold(): one.id for one in stations for name in (one.id, one.title)}
    return [ids.get(part.strip().casefold(), part.strip()) for part in parts]
