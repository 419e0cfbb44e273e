"""The services of the week: what is set, and a form that sets one service on the days ticked, or takes it off them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, time
from typing import Any, ClassVar

from flask import Blueprint, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import Field, TextAreaField
from wtforms.fields.choices import SelectChoice
from wtforms.validators import StopValidation, ValidationError

from trainer.actions.outcome import Refused
from trainer.actions.weeks_set import week_in_force, weeks_after
from trainer.kitchen.spans import EVERY_WEEKDAY
from trainer.kitchen.week_typed import closes_too_late, overlap_text, overlaps
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import weekday as day_words
from trainer.web.forms import KitchenForm, TextField
from trainer.web.manager.acts import TicksField
from trainer.web.night.services_change import (
    Body,
    ChangeForm,
    day_in,
    hands_hint,
    hands_text,
    hands_typed,
    over_already,
    shown_of,
)
from trainer.web.night_words import hours_line, one_day_line
from trainer.web.page import Page, go, show
from trainer.web.typed_fields import DayField, NeedsText, OneOfField, WholeField

pages = Blueprint("services", __name__)
HELD: dict[str, Text] = {"held": message("Held on these days"), "off": message("Not held on these days")}


class NeededIfHeld(NeedsText):
    """Refuses an empty field where the service is held; where it is not, the field is passed over."""

    def __call__(self, form: KitchenForm, field: Field) -> None:
        """Refuse blank text and text that is too long."""
        if form["held"].data == "off":
            raise StopValidation
        super().__call__(form, field)


class TimeField(TextField):
    """A time of day."""

    def post_validate(self, form: KitchenForm, validation_stopped: bool) -> None:
        """Refuse what is no time, with the value and the rule."""
        del form
        if validation_stopped:
            return
        try:
            time.fromisoformat(self.data if len(self.data) == 5 else "")
        except ValueError:
            words = message("“{typed}” is no time. Write it like 17:30.", typed=self.data[:40])
            raise ValidationError(words) from None


class ServiceForm(ChangeForm):
    """One service on some weekdays: whether it is held, its hours, its guests, the hands it needs."""

    service = OneOfField(message("Service"))
    weekdays = TicksField(
        message("Weekdays"), choices=[SelectChoice(str(number), word) for number, word in enumerate(EVERY_WEEKDAY, 1)]
    )
    held = OneOfField(message("It is"))
    opens = TimeField(
        message("Opens"), [NeededIfHeld(message("Write when it opens."))], description=message("Like 17:30.")
    )
    closes = TimeField(
        message("Closes"),
        [NeededIfHeld(message("Write when it closes."))],
        description=message("After midnight too, like 00:30."),
    )
    guests = WholeField(message("Guests"), [NeededIfHeld(message("Write how many guests are usual."))])
    hands = TextAreaField(
        message("Hands"),
        [NeededIfHeld(message("Write one line a need."), 2_000)],
    )
    since = DayField(message("From"), description=message("Year, month, day. Empty: from today."))


@dataclass(frozen=True, slots=True)
class ServiceLine:
    """A line of what is set, and where it is changed."""

    words: Text
    href: str


@dataclass(frozen=True, slots=True)
class LaterWeek:
    """What is set otherwise from a later day on, and what is then no longer held."""

    heading: Text
    lines: tuple[ServiceLine, ...]
    gone: tuple[Text, ...]


@dataclass(frozen=True, kw_only=True)
class ServicesPage(Page):
    """What is set, and the form; once it is filled, what would change."""

    template: ClassVar[str] = "night/services.html"
    own_url: str
    form: ServiceForm
    lines: tuple[ServiceLine, ...]
    later: tuple[LaterWeek, ...]
    changes: tuple[Text, ...]
    hands_hint: Text
    one_day_url: str


@pages.route("/services", methods=["GET", "POST"])
@guard.needs("manager")
def services() -> AnyResponse:
    """Show the services of the week; show what a change of one does, then save it."""
    k, today = guard.kitchen(), guard.today()
    form = _form()
    shown = shown_of(form, lambda before: _told(form, before, today), lambda: form.since.day)
    if shown.entry is not None:
        return go(".services", saved=shown.entry.id)
    return show(
        ServicesPage(
            title=message("Services of the week"),
            own_url=url_for(".services"),
            form=form,
            lines=tuple(_lines(week_in_force(k, today))),
            later=tuple(_later_weeks(today)),
            changes=shown.changes,
            hands_hint=hands_hint(),
            one_day_url=url_for("one_day.one_day"),
        )
    )


def _form() -> ServiceForm:
    """Return the form as it was sent, else with what is set for the service, weekday and day of the address."""
    asked = {name: request.args.get(name, "")[:40] for name in ("service", "weekday", "since")}
    day = day_in(asked["since"])
    before = week_in_force(guard.kitchen(), day or guard.today())
    found = _same(before, asked["service"], asked["weekday"])
    since = {"since": day.isoformat()} if day else {}
    form = ServiceForm(held="held", **(_filled(before, found) | since if found else since))
    form.service.offer({service.id: service.heading for service in guard.kitchen().services.offered})
    form.held.offer(HELD, "")
    return form


def _same(before: Body, service: str, weekday: str) -> Body | None:
    return next(
        (one for one in before.get("weekly", ()) if (one["service"], str(one["weekday"])) == (service, weekday)), None
    )


def _filled(before: Body, found: Body) -> dict[str, Any]:
    """Return the fields of a service with every weekday that has it just so."""
    like = [one for one in before["weekly"] if {**one, "weekday": 0} == {**found, "weekday": 0}]
    return {
        "service": found["service"],
        "weekdays": [str(one["weekday"]) for one in like],
        "opens": found["opens"],
        "closes": found["closes"],
        "guests": str(found["guests"]),
        "hands": hands_text(found["needs"]),
    }


def _lines(week: Body, since: str | None = None) -> list[ServiceLine]:
    """Return what is set, a line each with where it is changed: from a later day on where one is named."""
    naming = Naming(guard.kitchen().people(), reading.content())
    weekly = [
        ServiceLine(
            hours_line(one, naming),
            url_for(".services", service=one["service"], weekday=one["weekday"], since=since),
        )
        for one in week.get("weekly", ())
    ]
    own = [
        ServiceLine(one_day_line(one, naming), url_for("one_day.one_day", service=one["service"], day=one["day"]))
        for one in week.get("days", ())
    ]
    return [*weekly, *own]


def _later_weeks(today: date) -> Iterator[LaterWeek]:
    """Yield the weeks set for later, each with what is otherwise than in the week before it."""
    k = guard.kitchen()
    before, naming = week_in_force(k, today), Naming(k.people(), reading.content())
    for week in weeks_after(k, today):
        since, old = week["since"], before.get("weekly", ())
        other = {
            "weekly": [one for one in week["weekly"] if one not in old],
            "days": [one for one in week["days"] if one not in before.get("days", ())],
        }
        held = {(one["weekday"], one["service"]) for one in week["weekly"]}
        gone = tuple(hours_line(one, naming) for one in old if (one["weekday"], one["service"]) not in held)
        heading = message("From {day} on", day=day_words(date.fromisoformat(since)))
        yield LaterWeek(heading, tuple(_lines(other, since)), gone)
        before = week


def _told(form: ServiceForm, before: Body, today: date) -> dict[str, Any] | Refused:
    """Return the week with one service set on the days ticked, or taken off them; or what is wrong with that."""
    days = [int(day) for day in form.weekdays.data or ()]
    if not days:
        return Refused(message("Tick at least one weekday."), "", "weekdays")
    old, new = list(before.get("weekly", ())), _typed(form, days)
    if isinstance(new, Refused):
        return new
    kept = [one for one in old if one["weekday"] not in days or one["service"] != form.service.data]
    weekly = sorted([*kept, *new], key=lambda one: (one["weekday"], one["opens"]))
    since = (form.since.day or today).isoformat()
    own = [one for one in before.get("days", ()) if one["day"] >= since]
    wrong = over_already(form.since.day or today, "since") or _wrong_week(weekly, old)
    return wrong or {"since": since, "weekly": weekly, "days": own}


def _typed(form: ServiceForm, days: list[int]) -> list[dict[str, Any]] | Refused:
    """Return the lines typed, one a weekday; none where the service is taken off."""
    if form.held.data == "off":
        return []
    needs = hands_typed(form.hands.data)
    if isinstance(needs, Refused):
        return needs
    hours = {"service": form.service.data, "opens": form.opens.data, "closes": form.closes.data}
    wrong = closes_too_late(hours)
    if wrong:
        return Refused(wrong, "", "closes")
    return [{**hours, "weekday": day, "guests": form.guests.number or 0, "needs": needs} for day in days]


def _wrong_week(weekly: list[Body], old: list[Body]) -> Refused | None:
    """Return the refusal of a week without services, of services that overlap, and of no change."""
    if not weekly:
        return Refused(message("One service has to stay: this would leave none at all."), "", "held")
    if weekly == old:
        return Refused(message("This is set already."))
    for one, other in overlaps(weekly):
        words = message(
            "{where}: {problem}",
            where=EVERY_WEEKDAY[one["weekday"] - 1],
            problem=overlap_text(one, other, guard.kitchen().services),
        )
        return Refused(words, "", "opens")
    return None
