"""A photograph of the kitchen's own beside a step's drawing: taken on a phone, made safe, told in both languages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import FileField, TextAreaField

from trainer.actions.outcome import Refused
from trainer.actions.writing import write
from trainer.content.form_fields import parts
from trainer.content.photo_files import ENDING, photograph_in
from trainer.content.photographs import RefusedPhotograph, photograph
from trainer.content.written import SPANISH, STRUCTURE, Sheet, WrittenTechnique, write_whole
from trainer.messages import Text, message
from trainer.store.catalogues import ENGLISH
from trainer.web import guard
from trainer.web.forms import KitchenForm, PlainForm
from trainer.web.page import Page, go, show
from trainer.web.photographs import jpeg
from trainer.web.typed_fields import NeedsText
from trainer.web.writing.folders import Writing, writing_of

pages = Blueprint("photographs", __name__)
STEPS, KEY = "steps", "photograph"
FEW_WORDS = message("Say in fifteen words or more what somebody would see.")


class PhotographForm(KitchenForm):
    """A picture, and what it shows for whoever cannot see it."""

    file = FileField(message("Photograph"))
    in_english = TextAreaField(message("What it shows, in English"), [NeedsText(FEW_WORDS, 400)], description=FEW_WORDS)
    in_spanish = TextAreaField(message("What it shows, in Spanish"), [NeedsText(FEW_WORDS, 400)], description=FEW_WORDS)


@dataclass(frozen=True, kw_only=True)
class PhotographPage(Page):
    """The photograph of a step as it is now, and the form for another."""

    template: ClassVar[str] = "writing/photograph.html"
    step: Text
    told_in: str
    url: str
    alt: Text
    own_url: str
    away_url: str
    back_url: str
    form: PhotographForm
    away_form: PlainForm


@pages.route("/writing/<technique>/steps/<entry>/photograph", methods=["GET", "POST"])
@guard.needs("manager")
def take(technique: str, entry: str) -> AnyResponse:
    """Show the photograph of a step, and keep another in its place."""
    here, sheet = _step(technique, entry)
    said = {each.name: each.field.value for each in sheet.fields}
    form = PhotographForm(in_english=said.get(_alt(entry, ENGLISH), ""), in_spanish=said.get(_alt(entry, SPANISH), ""))
    if SPANISH not in here.written.texts:
        del form.in_spanish  # words in a language that says nothing else yet would be a file of blanks
    if form.is_sent_right():
        refused = _kept(here, entry, form)
        if refused is None:
            return go(".take", technique=here.id, entry=entry)
        form.refuse(refused)
    words, told_in = here.entry(parts()[STEPS], entry)
    name = said.get(f"{STRUCTURE}.{KEY}", "")
    return show(
        PhotographPage(
            title=message("Photograph of this step"),
            step=words,
            told_in=told_in,
            url=url_for(".shown", technique=here.id, name=name) if photograph_in(here.folder, name) else "",
            alt=said.get(_alt(entry, ENGLISH), ""),
            own_url=url_for(".take", technique=here.id, entry=entry),
            away_url=url_for(".away", technique=here.id, entry=entry),
            back_url=url_for("writing.sheets.entry", technique=here.id, part=STEPS, entry=entry),
            form=form,
            away_form=PlainForm(is_fresh=True),
        )
    )


@pages.post("/writing/<technique>/steps/<entry>/photograph/away")
@guard.needs("manager")
def away(technique: str, entry: str) -> AnyResponse:
    """Take the photograph of a step out of the draft; what is published keeps its own."""
    here, sheet = _step(technique, entry)
    if PlainForm().is_sent_right():
        said = {each.name: each.field.value for each in sheet.fields}
        refused = write(guard.kitchen(), here.folder, lambda written: _told(written, entry, dict.fromkeys(said, "")))
        if refused is None:
            (here.folder / f"{entry}{ENDING}").unlink(missing_ok=True)
    return go(".take", technique=here.id, entry=entry)


@pages.get("/writing/<technique>/photographs/<name>")
@guard.needs("manager")
def shown(technique: str, name: str) -> Response:
    """Return a photograph of the draft."""
    return jpeg(photograph_in(writing_of(technique).folder, name))


def _step(technique: str, entry: str) -> tuple[Writing, Sheet]:
    here = writing_of(technique)
    if entry not in here.written.entries(parts()[STEPS]):
        abort(404)
    return here, here.written.sheet(parts()[STEPS], entry)


def _alt(entry: str, language: str) -> str:
    """Return what the field is called that tells the photograph in a language."""
    return f"{language}.{entry}.{KEY}"


def _kept(here: Writing, entry: str, form: PhotographForm) -> Refused | None:
    """Keep the photograph that was sent, with its words; without a new one, the words alone."""
    sent, name = request.files.get(form.file.name), f"{entry}{ENDING}"
    try:
        if sent and sent.filename:
            write_whole(here.folder / name, photograph(sent.read()))
        elif not photograph_in(here.folder, name):
            photograph(b"")
    except RefusedPhotograph as problem:
        return Refused(problem.told, field=form.file.name)
    said = {f"{STRUCTURE}.{KEY}": name, _alt(entry, ENGLISH): form.in_english.data}
    if form.in_spanish:
        said[_alt(entry, SPANISH)] = form.in_spanish.data
    return write(guard.kitchen(), here.folder, lambda written: _told(written, entry, said))


def _told(written: WrittenTechnique, entry: str, said: Mapping[str, str]) -> WrittenTechnique:
    """Return the files with what is said of a step's photograph, and nothing else changed."""
    sheet = written.sheet(parts()[STEPS], entry)
    own = {each.name for each in sheet.fields if each.field.path[-1] == KEY}
    return written.saved(sheet, {name: " ".join(text.split()) for name, text in said.items() if name in own})
