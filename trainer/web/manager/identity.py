"""Who a person is: the birth date a manager read off a paper, all that is held about somebody, and erasing it."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import PasswordField
from wtforms.fields.choices import SelectChoice

from trainer.actions.erasing import Erasure, erase_person, export_of, held_about, may_not_erase
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.people_on_record import ProofOfAge, Written, see_age
from trainer.actions.two_people import Waits
from trainer.messages import Text, joined, message
from trainer.web import guard, proving
from trainer.web.forms import KitchenForm
from trainer.web.manager.acts import ASKED_AGAIN, Asking, TicksField, known_person, show_act
from trainer.web.page import Page, go, show
from trainer.web.person_words import SEEN_WORDS, WHY_ERASED
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


class EraseForm(KitchenForm):
    """Why somebody is erased, that what is held was saved before, and a manager's own secret."""

    why = OneOfField(message("Why"))
    saved = TicksField(
        message("Before that"), choices=[SelectChoice("yes", message("I have saved all that is held about them."))]
    )
    secret = PasswordField(message("Your PIN or passphrase"), description=ASKED_AGAIN)


@dataclass(frozen=True, kw_only=True)
class ErasePage(Page):
    """What would go and what would stay, or why nobody can be erased here."""

    template: ClassVar[str] = "manager/erase.html"
    refusal: Text
    texts: int
    older: int
    export_url: str
    own_url: str
    back: str
    form: EraseForm


@pages.route("/cooks/<cook>/age", methods=["GET", "POST"])
@guard.needs("manager")
def age(cook: str) -> AnyResponse:
    """Write down a birth date, and on what paper it was seen."""
    who, form = known_person(cook), AgeForm()
    form.seen.offer(SEEN_WORDS)

    def save() -> Outcome | Waits:
        if form.born.day is None:
            return Refused(message("Write the birth date."), field="born")
        written = Written(guard.person().id, guard.now(), form.key.data)
        return see_age(guard.kitchen(), proof=ProofOfAge(cook, form.born.day, form.seen.data), written=written)

    lead = message(
        "It decides at which stations somebody may work. The book says from when they are old enough, never the date."
    )
    return show_act(form, Asking(cook, message("Age of {name}", name=who.name), lead, message("Save this date")), save)


@pages.get("/cooks/<cook>/held")
@guard.needs("manager")
def held(cook: str) -> Response:
    """Hand over all that is held about a person, as a file."""
    known_person(cook)
    text = json.dumps(export_of(guard.kitchen(), cook, guard.now()), ensure_ascii=False, indent=1)
    sent = Response(text, mimetype="application/json")
    sent.headers["Content-Disposition"] = f'attachment; filename="{cook}.json"'
    return sent


@pages.route("/cooks/<cook>/erase", methods=["GET", "POST"])
@guard.needs("manager")
def erase(cook: str) -> AnyResponse:
    """Erase a person who has left."""
    who, k, form = known_person(cook), guard.kitchen(), EraseForm()
    form.why.offer(WHY_ERASED)
    refusal = may_not_erase(k, cook, guard.person().id, guard.now())
    if refusal is None and form.is_sent_right() and proving.proved_now(form) is not None:
        outcome = _erase(cook, form)
        if not isinstance(outcome, Refused):
            return go("manager.book.newest", saved=outcome.entry.id)
        form.refuse(outcome)
    about = held_about(k, cook)
    return show(
        ErasePage(
            title=message("Erase {name}", name=who.name),
            refusal=joined([refusal.reason, refusal.who_can]) if refusal else "",
            texts=len(about.texts),
            older=about.older_texts,
            export_url=url_for(".held", cook=cook),
            own_url=request.path,
            back=url_for("manager.person", cook=cook),
            form=form,
        )
    )


def _erase(cook: str, form: EraseForm) -> Outcome:
    """Return what came of it; without what is held saved first, nothing."""
    if not form.saved.data:
        return Refused(message("Save all that is held about them first. Nothing was erased."), field="saved")
    written = Written(guard.person().id, guard.now(), form.key.data)
    return erase_person(guard.kitchen(), erasure=Erasure(cook, form.why.data), written=written)
