"""The page on which a manager or an assessor says that this machine's clock is right, by typing today's date."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, abort, redirect
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.clock_setting import MAY_CONFIRM, confirm_clock
from trainer.actions.clock_watch import clock_trouble
from trainer.actions.outcome import Refused
from trainer.messages import Text, message
from trainer.web import guard
from trainer.web.filters import clock_time
from trainer.web.forms import KitchenForm
from trainer.web.page import Page, show
from trainer.web.shell import start_of
from trainer.web.typed_fields import DayField, NeedsText

pages = Blueprint("clock", __name__)


class ClockForm(KitchenForm):
    """Today's date, typed and not picked."""

    day = DayField(
        message("Today's date"), [NeedsText(message("Type today's date."))], description=message("Year, month, day.")
    )


@dataclass(frozen=True, kw_only=True)
class ClockPage(Page):
    """What is wrong with the clock, the time it shows, and the form; none where it is not for the reader to say."""

    template: ClassVar[str] = "door/clock.html"
    trouble: Text
    act: Text
    time: str
    form: ClockForm | None


@pages.route("/clock", methods=["GET", "POST"])
@guard.needs("person")
def look() -> AnyResponse:
    """Show the clock; keep that it is right, where somebody who may has typed today's date."""
    if not MAY_CONFIRM & guard.roles():
        abort(403, message("Only a manager or an assessor says that the clock is right."))
    k, form = guard.kitchen(), ClockForm()
    if form.is_sent_right() and form.day.day is not None:
        outcome = confirm_clock(k, by=guard.person().id, typed=form.day.day, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return redirect(start_of(guard.roles()), 303)
        form.refuse(outcome)
    trouble = clock_trouble(k, guard.now())
    return show(
        ClockPage(
            title=message("Clock"),
            trouble=trouble.reason if trouble else "",
            act="" if trouble is None or trouble.can_confirm else trouble.act,
            time=clock_time(guard.now()),
            form=None if trouble is not None and not trouble.can_confirm else form,
        )
    )
