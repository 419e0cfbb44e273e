"""The recovery sheet on screen: a new secret for a manager at the door, the second person for what waits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import PasswordField

from trainer.actions.giving_codes import FirstCode
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.actions.recovering import NewSheet, SheetTyped, second_by_sheet, secret_by_sheet
from trainer.actions.secret_rules import without_gaps
from trainer.actions.two_people import waiting
from trainer.messages import Text, message, plural
from trainer.web import guard, proving
from trainer.web.filters import moment
from trainer.web.forms import KitchenForm, TextField
from trainer.web.manager.acts import ActPage
from trainer.web.page import Page, show
from trainer.web.typed_fields import NeedsText, OneOfField

pages = Blueprint("recovery", __name__)
AS_PRINTED = message("26 signs, in groups. Capitals, blanks and dashes do not matter.")


def sheet_field() -> TextField:
    """Return the field for the signs of a sheet."""
    return TextField(
        message("The signs on the recovery sheet"),
        [NeedsText(message("Type the signs on the recovery sheet."), 80)],
        description=AS_PRINTED,
    )


class NewSecretForm(KitchenForm):
    """Who sets a new secret by the sheet: a manager; the signs, and the secret twice."""

    person = OneOfField(message("Who you are"))
    sheet = sheet_field()
    secret = PasswordField(message("New passphrase, 15 letters or more"))
    again = PasswordField(message("The same once more"))


class SecondForm(KitchenForm):
    """The sheet as the second person, and the manager's own secret, however lately it was given."""

    sheet = sheet_field()
    secret = PasswordField(message("Your PIN or passphrase"))


@dataclass(frozen=True, slots=True)
class CodeShown:
    """A first code made by the sheet's word: whose, the figures, until when."""

    name: Text
    code: str
    good_until: Text


@dataclass(frozen=True, kw_only=True)
class NewSheetPage(Page):
    """The next recovery sheet, shown this once, with what came of the one used."""

    template: ClassVar[str] = "door/new_sheet.html"
    lines: tuple[Text, ...]
    codes: tuple[CodeShown, ...]
    signs: str
    made: Text
    back: str


@pages.route("/recovery", methods=["GET", "POST"])
@guard.needs("device")
def new_secret() -> AnyResponse:
    """Let a manager set a new secret by the recovery sheet."""
    k, form = guard.kitchen(), NewSecretForm()
    people, progress = k.people(), k.progress()
    managers = {who for who in progress.cooks_on(guard.today()) if "manager" in progress.roles(who, guard.today())}
    form.person.offer({who: people[who].name for who in people if who in managers})
    if form.is_sent_right():
        outcome = _reset(form)
        if not isinstance(outcome, Refused):
            return _sheet_page(outcome, message("Your new passphrase is set. Sign in with it."), url_for("door.names"))
        form.refuse(outcome)
    heading = message("Use the recovery sheet")
    return show(
        ActPage(
            title=heading,
            heading=heading,
            lead=message("For a manager who cannot sign in. The sheet works once; you are shown the next one at once."),
            own_url=url_for(".new_secret"),
            back=url_for("door.names"),
            back_words=message("Back, and change nothing"),
            words=message("Set my new passphrase"),
            form=form,
        )
    )


def _reset(form: NewSecretForm) -> NewSheet | Refused:
    """Return what came of the form."""
    secret = form.secret.data or ""
    if without_gaps(secret) != without_gaps(form.again.data or ""):
        return Refused(message("The two are not the same. Type the same one twice."), field="again")
    typed = SheetTyped(form.sheet.data or "", form.person.data, guard.device() or "")
    return secret_by_sheet(guard.kitchen(), typed=typed, secret=secret, now=guard.now(), key=form.key.data)


@pages.route("/second/recovery", methods=["GET", "POST"])
@guard.needs("manager")
def second() -> AnyResponse:
    """Let the recovery sheet stand as the second person for all that waits."""
    k, form = guard.kitchen(), SecondForm()
    if form.is_sent_right() and proving.proved_now(form) is not None:
        typed = SheetTyped(form.sheet.data or "", guard.person().id, guard.device() or "")
        outcome = second_by_sheet(k, typed=typed, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            entered = sum(isinstance(one, Saved) for one in outcome.done)
            words = plural("{number} act that waited is entered.", "{number} acts that waited are entered.", entered)
            return _sheet_page(outcome, words, url_for("manager.second.listed"))
        form.refuse(outcome)
    number = len(waiting(k))
    heading = message("The recovery sheet as the second person")
    waits: Text = message("Nothing waits.")
    if number:
        waits = plural("{number} act waits and is entered.", "{number} acts wait and are entered.", number)
    lead = message("{waits} The sheet works once; you are shown the next one at once.", waits=waits)
    return show(
        ActPage(
            title=heading,
            heading=heading,
            lead=lead,
            own_url=url_for(".second"),
            back=url_for("manager.second.listed"),
            back_words=message("Back, and change nothing"),
            words=message("Enter all that waits"),
            form=form,
        )
    )


def _sheet_page(made: NewSheet, words: Text, back: str) -> Response:
    """Return the page with the next sheet; nobody sees it a second time."""
    refusals = tuple(one.reason for one in made.done if isinstance(one, Refused))
    return show(
        NewSheetPage(
            title=message("New recovery sheet"),
            lines=(words, *refusals),
            codes=tuple(code for one in made.done for code in _code(one)),
            signs=made.signs,
            made=moment(made.made_at),
            back=back,
        )
    )


def _code(done: Outcome) -> list[CodeShown]:
    """Return a first code to be shown; nothing of other acts."""
    if not isinstance(done, FirstCode):
        return []
    person = guard.kitchen().people().get(done.person)
    return [CodeShown(person.name if person else done.person, done.code, moment(done.good_until))]
