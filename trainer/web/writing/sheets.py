"""One sheet at a time: what is typed is kept as a draft, each problem beside its field, safety read back first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, abort, request, url_for
from werkzeug.datastructures import MultiDict
from werkzeug.wrappers import Response as AnyResponse
from wtforms import HiddenField

from trainer.actions.outcome import Refused
from trainer.actions.writing import write
from trainer.content.form_fields import Part, ways_of
from trainer.content.written import (
    STRUCTURE,
    WHOLE,
    Sheet,
    WrittenTechnique,
    new_id,
    part_named,
    problems_at,
)
from trainer.kitchen.book import digest_of
from trainer.messages import Text, message
from trainer.store.catalogues import name_of
from trainer.web import guard
from trainer.web.forms import KitchenForm, TextField
from trainer.web.page import Page, go, show
from trainer.web.writing.fields import SheetView, typed_into, view_of
from trainer.web.writing.folders import Writing, writing_of
from trainer.web.writing.words import help_word, one_more, part_word

pages = Blueprint("sheets", __name__)
AGAIN = "again"
"""What the button sends that goes back to the sheet from what was read back."""
FIRST = "first"
CHANGED = message(
    "Somebody else has changed this since you opened it. What you typed is still here, and what stands in the file now "
    "is beside it. Save again to put yours in its place."
)


class SheetForm(KitchenForm):
    """What goes with the fields of a sheet: as which it was opened, and which safety sentences were read back."""

    seen = HiddenField()
    said_back = HiddenField()


class NewForm(SheetForm):
    """What a new entry is called."""

    called = TextField(
        message("A short name"),
        description=message("Two or three words that you know it by: dust the tray. It stays, whatever the words say."),
    )


@dataclass(frozen=True, slots=True)
class OtherWay:
    """Another way in which a new line may be told."""

    words: Text
    url: str
    is_here: bool


@dataclass(frozen=True, kw_only=True)
class SheetPage(Page):
    """A sheet to fill in, with what is wrong with it."""

    template: ClassVar[str] = "writing/sheet.html"
    told_in: str
    technique: Text
    part: Text
    sheet: SheetView
    to_fix: int
    is_kept: bool
    is_new: bool
    ways: tuple[OtherWay, ...]
    behind: Mapping[str, Text]
    numbers: tuple[str, ...]
    out_url: str
    photograph_url: str
    own_url: str
    back_url: str
    form: SheetForm


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence read back: the language it is in, "" for what is no sentence, and its words."""

    tongue: Text
    told_in: str
    words: Text


@dataclass(frozen=True, kw_only=True)
class SaidBackPage(Page):
    """Sentences on which safety hangs, before they are kept; what else was typed goes with them."""

    template: ClassVar[str] = "writing/said_back.html"
    question: Text
    sentences: tuple[Sentence, ...]
    sent: tuple[tuple[str, str], ...]
    own_url: str
    form: SheetForm


@pages.route("/writing/<technique>/<part>/<entry>", methods=["GET", "POST"])
@guard.needs("manager")
def entry(technique: str, part: str, entry: str) -> AnyResponse:
    """Show one entry of a part, and keep what is typed into it."""
    here, found = writing_of(technique), part_named(part)
    if found is None or entry not in here.written.entries(found):
        abort(404)
    return _sheet(here, found, entry)


@pages.route("/writing/<technique>/whole", methods=["GET", "POST"])
@guard.needs("manager")
def whole(technique: str) -> AnyResponse:
    """Show what stands beside the parts: name, goal, what is asked."""
    return _sheet(writing_of(technique), None, "")


@pages.route("/writing/<technique>/<part>/new", methods=["GET", "POST"])
@guard.needs("manager")
def new(technique: str, part: str) -> AnyResponse:
    """Show an empty sheet, and add it to its part."""
    here, found = writing_of(technique), part_named(part)
    if found is None:
        abort(404)
    way = request.args.get("way", "")
    number = int(way) if way.isascii() and way.isdigit() and len(way) < 3 else 0
    sheet = _begun(here, found, here.written.sheet(found, "", number))
    form = NewForm(seen="new")
    if request.method == "POST":
        sheet = sheet.filled(typed_into(sheet))
    if AGAIN not in request.form and form.is_sent_right():
        outcome = _added(here, found, sheet, form, number)
        if not isinstance(outcome, Refused):
            return outcome
        form.refuse(outcome)
    return _new_page(here, found, sheet, form, number)


def _begun(here: Writing, part: Part, sheet: Sheet) -> Sheet:
    """Return an empty sheet with what is sure: the first of a closed list, the next number, today."""
    first = {each.name: each.field.choices[0] for each in sheet.fields if each.field.needed and each.field.choices}
    if part.how == "numbered":
        first |= {"technique.number": str(len(here.written.entries(part)) + 1), "technique.since": f"{guard.today()}"}
    return sheet.filled(first)


def _added(here: Writing, part: Part, sheet: Sheet, form: NewForm, way: int) -> AnyResponse | Refused:
    """Return the way on from an entry added; refused where it has no name of its own."""
    if not _named(here.written, part, form):
        words = message("“{typed}” gives no name. Write two or three words in letters.", typed=form.called.data or "")
        return Refused(words, field="called")
    asked = _to_read_back(here, part, sheet, (), form)
    if asked is not None:
        return asked
    typed = {each.name: each.field.value for each in sheet.fields}
    made = ""

    def change(written: WrittenTechnique) -> WrittenTechnique:
        nonlocal made
        made, ids = _named(written, part, form), written.entries(part)
        return written.added(part, made, typed, way=way, after=_place(ids, request.form.get("behind", "")))

    refused = write(guard.kitchen(), here.folder, change)
    return refused or go("writing.sheets.entry", technique=here.id, part=part.name, entry=made, kept=1)


def _named(written: WrittenTechnique, part: Part, form: NewForm) -> str:
    """Return the id of an entry to be added; empty where its name gives none."""
    ids = written.entries(part)
    return str(len(ids) + 1) if part.how == "numbered" else new_id(form.called.data or "", ids)


def _place(ids: tuple[str, ...], behind: str) -> int:
    """Return the place of the entry a new one goes behind; the last where none is named."""
    return ids.index(behind) if behind in ids else -1 if behind == FIRST else len(ids) - 1


def _new_page(here: Writing, part: Part, sheet: Sheet, form: NewForm, way: int) -> AnyResponse:
    own = url_for(".new", technique=here.id, part=part.name, way=way or None)
    ways = ways_of(part.item)
    return show(
        SheetPage(
            title=one_more(part.name),
            told_in="",
            technique=here.title,
            part=part_word(part.name),
            sheet=view_of(sheet, here.names, {}),
            to_fix=0,
            is_kept=False,
            is_new=True,
            ways=tuple(
                OtherWay(
                    help_word(each.get("description", ""), ""),
                    url_for(".new", technique=here.id, part=part.name, way=number),
                    number == way,
                )
                for number, each in enumerate(ways)
            ),
            behind={id: here.entry(part, id)[0] for id in here.written.entries(part)} if part.how == "blocks" else {},
            numbers=here.numbers,
            out_url="",
            photograph_url="",
            own_url=own,
            back_url=url_for("writing.part", technique=here.id, part=part.name),
            form=form,
        )
    )


def _sheet(here: Writing, part: Part | None, id: str) -> AnyResponse:
    """Show a sheet; keep what was sent."""
    sheet = here.written.sheet(part, id)
    form, now = SheetForm(seen=sheet.digest), {}
    if request.method == "POST":
        typed = typed_into(sheet)
        if AGAIN not in request.form and form.is_sent_right():
            outcome = _kept(here, sheet, typed, form)
            if not isinstance(outcome, Refused):
                return outcome
            form.refuse(outcome)
        if form.seen.data != sheet.digest:
            now = {each.name: each.field.value for each in sheet.fields if typed.get(each.name) != each.field.value}
            form.seen.data = sheet.digest
        sheet = sheet.filled(typed)
    return _page(here, sheet, form, now)


def _kept(here: Writing, sheet: Sheet, typed: Mapping[str, str], form: SheetForm) -> AnyResponse | Refused:
    """Return the way on from what was typed and kept; refused where somebody else was faster, or it cannot be read."""
    if sheet.digest != form.seen.data:
        return Refused(CHANGED)
    asked = _to_read_back(here, sheet.part, sheet.filled(typed), sheet.safety(), form)
    if asked is not None:
        return asked

    def change(written: WrittenTechnique) -> WrittenTechnique | Refused:
        there = written.sheet(sheet.part, sheet.id if sheet.part else "")
        return written.saved(there, typed) if there.digest == sheet.digest else Refused(CHANGED)

    refused = write(guard.kitchen(), here.folder, change)
    if refused is not None:
        return refused
    if sheet.part is None:
        return go("writing.sheets.whole", technique=here.id, kept=1)
    return go("writing.sheets.entry", technique=here.id, part=sheet.part.name, entry=sheet.id, kept=1)


def _page(here: Writing, sheet: Sheet, form: SheetForm, now: Mapping[str, str]) -> AnyResponse:
    part = sheet.part
    problems = problems_at(sheet, here.draft.problems, f"techniques/{here.id}")
    name = part.name if part else WHOLE
    title, told_in = here.entry(part, sheet.id) if part else (part_word(WHOLE), "")
    return show(
        SheetPage(
            title=title,
            told_in=told_in,
            technique=here.title,
            part=part_word(name) if part else "",
            sheet=view_of(sheet, here.names, problems, now),
            to_fix=sum(len(each) for each in problems.values()),
            is_kept=request.args.get("kept", "") == "1" and request.method == "GET",
            is_new=False,
            ways=(),
            behind={},
            numbers=here.numbers,
            out_url=url_for("writing.take_out", technique=here.id, part=name, entry=sheet.id) if part else "",
            photograph_url=url_for("writing.photographs.take", technique=here.id, entry=sheet.id)
            if name == "steps"
            else "",
            own_url=request.path,
            back_url=url_for("writing.part", technique=here.id, part=name)
            if part
            else url_for("writing.technique", technique=here.id),
            form=form,
        )
    )


def _to_read_back(
    here: Writing, part: Part | None, filled: Sheet, before: tuple[tuple[str, str], ...], form: SheetForm
) -> AnyResponse | None:
    """Return the page that reads new safety sentences back; None where there are none, or they were read."""
    new = [each for each in filled.safety() if each not in before]
    digest = digest_of("\0".join(words for _, words in new).encode())[:16]
    if not new or form.said_back.data == digest:
        return None
    form.said_back.data = digest
    kept = {form.csrf_token.name, form.key.name, form.seen.name, form.said_back.name}
    sent = MultiDict(request.form)
    return show(
        SaidBackPage(
            title=message("Read it once more"),
            question=_question(part),
            sentences=tuple(_sentence(here, name, words) for name, words in new),
            sent=tuple((name, value) for name, value in sent.items(multi=True) if name not in kept),
            own_url=request.full_path.rstrip("?"),
            form=form,
        )
    )


def _question(part: Part | None) -> Text:
    if part is None:
        return message("Are these all the allergens in this work, and no others?")
    if part.name == "checklist":
        return message("Is that what an assessor must see, each time?")
    return message("Is that what a cook must do?")


def _sentence(here: Writing, name: str, words: str) -> Sentence:
    file = name.split(".", maxsplit=1)[0]
    if file != STRUCTURE:
        return Sentence(name_of(file), file, words)
    known = here.draft.allergens
    return Sentence("", "", ", ".join(known.get(each, each) for each in words.split("\n")))
