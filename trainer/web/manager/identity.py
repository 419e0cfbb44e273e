"""Who a person is: the birth date a manager read off a paper."""

from __future__ import annotations

from flask import Blueprint
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.outcome import Outcome, Refused
from trainer.actions.people_on_record import ProofOfAge, Written, see_age
from trainer.messages import message
from trainer.web import guard
from trainer.web.entry_words import SEEN_WORDS
from trainer.web.manager.acts import Asking, known_person, show_act
from trainer.web.proving import LatelyForm, secret_field
from trainer.web.typed_fields import DayField, NeedsText, OneOfField

pages = Blueprint("identity", __name__)


class AgeForm(LatelyForm):
    """A birth date, and the paper it was read off."""

    born = DayField(
        message("Birth date"),
        [NeedsText(message("Write the birth date."))],
        description=message("Year, month, day."),
    )
    seen = OneOfField(message("Which paper did you see?"))
    secret = secret_field()


@pages.route("/cooks/<cook>/age", methods=["GET", "POST"])
@guard.needs("manager")
def age(cook: str) -> AnyResponse:
    """Write down a birth date, and on what paper it was seen."""
    who, form = known_person(cook), AgeForm()
    form.seen.offer(SEEN_WORDS)

    def save() -> Outcome:
        if form.born.day is None:
            return Refused(message("Write the birth date."), field="born")
        written = Written(guard.person().id, guard.now(), form.key.data)
        return see_age(guard.kitchen(), proof=ProofOfAge(cook, form.born.day, form.seen.data), written=written)

    lead = message(
        "It decides at which stations somebody may work. The book says from when they are old enough, never the date."
    )
    return show_act(form, Asking(cook, message("Age of {name}", name=who.name), lead, message("Keep this date")), save)
