"""One cook's record on paper: ten items, a line a technique, three lines to sign, and the head of the book."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from flask import Blueprint, abort, make_response, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.people_on_record import Written
from trainer.actions.record_sheet import Giving, RecordSheet, give_record, may_open_record, record_sheet
from trainer.exports.record_pdf import file_name, record_pdf
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.filters import moment
from trainer.web.forms import KitchenForm, TextField
from trainer.web.page import Page, go, show
from trainer.web.typed_fields import AtMost, NeedsText

pages = Blueprint("records", __name__)


class GiveForm(KitchenForm):
    """To whom a record is given, and what for."""

    to = TextField(message("To whom"), [NeedsText(message("Write to whom you give it."), 200)])
    what_for = TextField(message("What for"), [AtMost(200)])


@dataclass(frozen=True, slots=True)
class AttemptLine:
    """A line of the second list: a quiz, or a practical with the name of who watched it."""

    on: date
    title: str
    result: Text
    by_name: str


@dataclass(frozen=True, kw_only=True)
class RecordPage(Page):
    """The sheet, and above it the form that says to whom it goes; `signed` names who the letters stand for.

    `every` is the second list, empty unless it was asked for; `every_url` asks for it.
    """

    template: ClassVar[str] = "sheets/record.html"
    sheet: RecordSheet
    as_of: Text
    signed: tuple[Text, ...]
    equipment: tuple[str, ...]
    own_url: str
    pdf_url: str
    back: str
    form: GiveForm
    every: tuple[AttemptLine, ...]
    every_url: str


@pages.get("/cooks/<cook>/record.pdf")
@guard.needs("person")
def as_pdf(cook: str) -> AnyResponse:
    """Send a person's record as a PDF, in the reader's language: one's own, or anybody's to a manager."""
    k = guard.kitchen()
    sheet = _sheet_of(k, cook)
    data = record_pdf(
        sheet,
        units=k.file.settings.units_first,
        language=reading.now().language,
        say=reading.printed,
        name_of=k.day(sheet.on).name,
    )
    sent = make_response(data)
    sent.headers["Content-Type"] = "application/pdf"
    sent.headers["Content-Disposition"] = f'attachment; filename="{file_name(sheet)}.pdf"'
    return sent


def _sheet_of(k: Kitchen, cook: str) -> RecordSheet:
    """Return a person's record, or answer why the reader may not have it, or that there is nobody."""
    refusal = may_open_record(guard.person().id, cook, k.day(guard.today()))
    if refusal is not None:
        abort(403, refusal.reason)
    if cook not in k.people():
        abort(404)
    return record_sheet(k, cook, guard.now(), reading.content())


@pages.route("/cooks/<cook>/record", methods=["GET", "POST"])
@guard.needs("person")
def record(cook: str) -> AnyResponse:
    """Show a person's record, to be printed: one's own, or anybody's to a manager."""
    k, by, form = guard.kitchen(), guard.person().id, GiveForm()
    sheet = _sheet_of(k, cook)
    if form.is_sent_right():
        giving = Giving(form.to.data or "", form.what_for.data or "")
        outcome = give_record(k, sheet=sheet, giving=giving, written=Written(by, guard.now(), form.key.data))
        if not isinstance(outcome, Refused):
            return go(".record", cook=cook, saved=outcome.entry.id)
        form.refuse(outcome)
    return show(_page(k, sheet, form, has_every="every" in request.args))


def _page(k: Kitchen, sheet: RecordSheet, form: GiveForm, *, has_every: bool) -> RecordPage:
    """Return the page of a sheet, with the second list where it is asked for."""
    name_of = k.day(sheet.on).name
    every = tuple(AttemptLine(x.on, x.title, x.result, name_of(x.by) if x.by else "") for x in sheet.attempts)
    is_own = sheet.cook == guard.person().id
    return RecordPage(
        title=message("Record of {name}", name=sheet.name),
        sheet=sheet,
        as_of=message("as the book stood on {when} ({zone})", when=moment(sheet.at), zone=sheet.zone),
        signed=tuple(
            message("{letter}: {name}", letter=letter, name=name_of(signer)) for signer, letter in sheet.signers.items()
        ),
        equipment=tuple(dict.fromkeys(tool for one in sheet.trainings for tool in one.equipment)),
        own_url=request.path,
        pdf_url=url_for(".as_pdf", cook=sheet.cook),
        back=url_for("cook.record") if is_own else url_for("manager.person", cook=sheet.cook),
        form=form,
        every=every if has_every else (),
        every_url=url_for(".record", cook=sheet.cook, every=1) if every and not has_every else "",
    )
