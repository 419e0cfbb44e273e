"""A day that is not like its weekday: a service not held then, or held with other hands."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any, ClassVar

from flask import Blueprint, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import Field, TextAreaField
from wtforms.validators import StopValidation

from trainer.actions.outcome import Refused
from trainer.actions.weeks_set import week_in_force
from trainer.messages import Text, message
from trainer.web import guard
from trainer.web.forms import KitchenForm
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
from trainer.web.page import Page, go, show
from trainer.web.typed_fields import DayField, NeedsText, OneOfField

pages = Blueprint("one_day", __name__)
HOW: dict[str, Text] = {
    "closed": message("Not held that day"),
    "hands": message("Held with other hands"),
    "usual": message("Like its weekday again"),
}


class NeededWithHands(NeedsText):
    """Refuses empty hands where the day has its own; else the field is passed over."""

    def __call__(self, form: KitchenForm, field: Field) -> None:
        """Refuse blank text and text that is too long."""
        if form["how"].data != "hands":
            raise StopValidation
        super().__call__(form, field)


class OneDayForm(ChangeForm):
    """A service of one day: not held, with hands of its own, or like its weekday again."""

    service = OneOfField(message("Service"))
    day = DayField(message("Day"), [NeedsText(message("Write the day."))], description=message("Year, month, day."))
    how = OneOfField(message("It is"))
    hands = TextAreaField(message("Hands"), [NeededWithHands(message("Write one line a need."), 2_000)])


@dataclass(frozen=True, kw_only=True)
class OneDayPage(Page):
    """The form; once it is filled, what would change."""

    template: ClassVar[str] = "night/one_day.html"
    own_url: str
    form: OneDayForm
    changes: tuple[Text, ...]
    hands_hint: Text


@pages.route("/services/one-day", methods=["GET", "POST"])
@guard.needs("manager")
def one_day() -> AnyResponse:
    """Show what another service on one day does, then save it."""
    form = _form()
    shown = shown_of(form, lambda before: _told(form, before, guard.today()), lambda: form.day.day)
    if shown.entry is not None:
        return go("services.services", saved=shown.entry.id)
    return show(
        OneDayPage(
            title=message("A day that is different"),
            own_url=url_for(".one_day"),
            form=form,
            changes=shown.changes,
            hands_hint=hands_hint(),
        )
    )


def _form() -> OneDayForm:
    """Return the form as it was sent, else with what is set for the service and day of the address."""
    service, day = request.args.get("service", ""), request.args.get("day", "")[:40]
    before = week_in_force(guard.kitchen(), day_in(day) or guard.today())
    found = next((one for one in before.get("days", ()) if (one["service"], one["day"]) == (service, day)), None)
    hands = hands_text(found["needs"]) if found and not found.get("closed") else ""
    form = OneDayForm(service=service, day=day, how="hands" if hands else "closed", hands=hands)
    form.service.offer({one.id: one.heading for one in guard.kitchen().services.offered})
    form.how.offer(HOW, "")
    return form


def _told(form: OneDayForm, before: Body, today: date) -> dict[str, Any] | Refused:
    """Return the week with that day as it is asked for, or what is wrong with it."""
    day = form.day.day or today
    over = over_already(day, "day")
    if over:
        return over
    if not before:
        return Refused(message("No services are set yet. Set the weekdays first."))
    own = _typed(form, day)
    if isinstance(own, Refused):
        return own
    since = max(today.isoformat(), before["since"])
    old = list(before.get("days", ()))
    kept = [one for one in old if (one["day"], one["service"]) != (day.isoformat(), form.service.data)]
    days = sorted([*kept, *own], key=lambda one: (one["day"], one["service"]))
    if days == old:
        return Refused(message("This is set already."))
    return {"since": since, "weekly": list(before["weekly"]), "days": [one for one in days if one["day"] >= since]}


def _typed(form: OneDayForm, day: date) -> list[dict[str, Any]] | Refused:
    """Return the line of that day; none where it is like its weekday again."""
    if form.how.data == "usual":
        return []
    line = {"day": day.isoformat(), "service": form.service.data}
    if form.how.data == "closed":
        return [{**line, "closed": True}]
    needs = hands_typed(form.hands.data)
    return needs if isinstance(needs, Refused) else [{**line, "needs": needs}]
