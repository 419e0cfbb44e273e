"""The record book on screen: newest entries first, one cook's if asked, a void with its reason, and the check."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import RadioField, TextAreaField
from wtforms.fields.choices import SelectChoice
from wtforms.validators import StopValidation

from trainer.actions import correcting
from trainer.actions.leaning import Upheld, leaning_entries, marked, uphold
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.two_people import Waits
from trainer.kitchen.book import Entry
from trainer.kitchen.entitlement import is_lasting
from trainer.kitchen.names import name_key
from trainer.kitchen.record import LINES
from trainer.messages import Text, message
from trainer.web import guard, proving, reading, witness
from trainer.web.cook.answer_view import answer_line
from trainer.web.cook.results import lines_of
from trainer.web.entry_words import EntryTold, Naming, told
from trainer.web.filters import weekday
from trainer.web.leaning_words import leans_words
from trainer.web.manager.acts import ActPage, ReasonForm
from trainer.web.manager.keeping import copy_words
from trainer.web.manager.keeping import pages as keeping_pages
from trainer.web.page import Page, go, show
from trainer.web.proving import LatelyForm, secret_field
from trainer.web.result_view import outcome_today
from trainer.web.typed_fields import NeedsText

pages = Blueprint("book", __name__)
pages.register_blueprint(keeping_pages)
ON_A_PAGE = 50
MOST_SHOWN = 40


class QuestionForm(LatelyForm):
    """Which question of a sitting, and why."""

    question = RadioField(message("Which question"), choices=[], validate_choice=False)
    reason = TextAreaField(message("Reason"), [NeedsText(message("Write the reason. It stays in the book."))])
    secret = secret_field()

    def offer(self, entry: Entry, decimal_mark: str) -> None:
        """Put the questions of a sitting on the list."""
        self.question.choices = [
            SelectChoice(
                str(line.number),
                message(
                    "{number}. {text} Right: “{right}”. Given: “{given}”.",
                    number=line.number,
                    text=line.text,
                    right=line.right,
                    given=line.given,
                ),
            )
            for line in ((answer_line(entry),) if entry.kind == "answered" else lines_of(entry, decimal_mark))
        ]

    def validate_question(self, field: RadioField) -> None:
        """Refuse a question that is not on the list, and none at all."""
        if field.data not in {choice.value for choice in field.choices}:
            raise StopValidation(message("Choose the question to void."))

    def question_of(self, entry: Entry) -> correcting.BadQuestion:
        """Return the question chosen."""
        asked = correcting.questions_in(entry)[int(self.question.data) - 1]
        return correcting.BadQuestion(entry.id, asked["family"], asked["seed"], self.reason.data.strip())


class VoidForm(LatelyForm):
    """From when an entry counts no longer, and why."""

    counts = RadioField(
        message("It counts no longer"),
        choices=[
            SelectChoice("from today", message("from today: earlier days stay as they were")),
            SelectChoice("never", message("for no day: it was never true")),
        ],
        validate_choice=False,
    )
    reason = TextAreaField(message("Reason"), [NeedsText(message("Write the reason. It stays in the book."))])
    secret = secret_field()


@dataclass(frozen=True, kw_only=True)
class VoidPage(ActPage):
    """A void before it is done, with what leans on the entry: it counts on, marked."""

    template: ClassVar[str] = "manager/void.html"
    leaning: tuple[Text, ...]
    more: int


@dataclass(frozen=True, slots=True)
class EntryLine:
    """One entry on the page, with the day it was voided, or the way to void it.

    A sitting a question of which is voided is told as scored again; one that counts has a way to void a question.
    """

    entry: EntryTold
    voided: Text
    void_href: str
    scored_again: Text = ""
    question_href: str = ""
    leans: tuple[Text, ...] = ()
    stands_href: str = ""


@dataclass(frozen=True, kw_only=True)
class BookPage(Page):
    """Entries of the book, newest first."""

    template: ClassVar[str] = "manager/book.html"
    entries: tuple[EntryLine, ...]
    cooks: tuple[tuple[str, str], ...]
    cook: str
    own_url: str
    older_href: str
    verify_href: str
    last_seq: int


@dataclass(frozen=True, kw_only=True)
class VerifyPage(Page):
    """What a check of the whole book found, and what became of a printed check value typed in."""

    template: ClassVar[str] = "manager/verify.html"
    entries: str
    head: Text
    problems: tuple[Text, ...]
    back: str
    own_url: str
    kept_href: str
    lost_href: str
    copy: Text
    typed: str
    up_to: str
    weak: Text
    not_found: Text


@pages.get("/book")
@guard.needs("manager")
def newest() -> Response:
    """Show the newest entries, of everybody or of one cook."""
    k = guard.kitchen()
    cook = request.args.get("cook", "")[:64]
    before = _number(request.args.get("before", ""))
    last, _ = k.file.book.end()
    found = _of_cook(k, cook, before) if cook else _of_everybody(k, last, before)
    oldest = found[-1].seq if len(found) == ON_A_PAGE else 0
    people = sorted(k.people().values(), key=lambda person: name_key(person.name))
    return show(
        BookPage(
            title=message("The book"),
            entries=tuple(_line(k, entry) for entry in found),
            cooks=tuple((person.id, person.name) for person in people),
            cook=cook,
            own_url=url_for(".newest"),
            older_href=url_for(".newest", cook=cook or None, before=oldest) if oldest > 1 else "",
            verify_href=url_for(".verify"),
            last_seq=last,
        )
    )


@pages.get("/book/verify")
@guard.needs("manager")
def verify() -> Response:
    """Check the whole book now, and show what was found; with a printed check value, up to where it vouches."""
    typed = request.args.get("head", "")[:100].strip()
    found = guard.kitchen().file.book.verify(typed)
    problems = tuple(
        message("Entry {seq}: {problem}", seq=problem.seq, problem=problem.problem) for problem in found.problems
    )
    return show(
        VerifyPage(
            title=message("The book holds") if not problems else message("The book is damaged"),
            entries=f"{found.entries:,}",
            head=found.short_head or message("none yet"),
            problems=problems,
            back=url_for(".newest"),
            own_url=url_for(".verify"),
            kept_href=url_for(".keeping.kept"),
            lost_href=url_for(".keeping.restored") if witness.disagreement() else "",
            copy=copy_words(guard.kitchen(), guard.now()).words,
            typed=typed,
            up_to=f"{found.up_to:,}" if found.up_to else "",
            weak=found.weak,
            not_found=found.not_found,
        )
    )


@pages.route("/book/<entry>/void", methods=["GET", "POST"])
@guard.needs("manager")
def void(entry: str) -> AnyResponse:
    """Void an entry by a later one, with a reason."""
    k, form = guard.kitchen(), VoidForm(counts="from today")
    found = k.file.book.find(entry)
    if found is None:
        abort(404)
    if form.is_sent_right() and proving.is_proved(form):
        correction = correcting.Correction(entry, form.reason.data.strip(), form.counts.data)
        outcome = correcting.void_entry(
            k, by=guard.person().id, correction=correction, now=guard.now(), key=form.key.data
        )
        if isinstance(outcome, Waits):
            return go("manager.second.listed")
        if not isinstance(outcome, Refused):
            return go(".newest", saved=outcome.entry.id)
        form.refuse(outcome)
    words = told(found, Naming(k.people(), reading.content()))
    leaning = leaning_entries(k, entry)
    proving.leave_out(form)
    return show(
        VoidPage(
            leaning=tuple(_leaning_line(k, one) for one in leaning[:MOST_SHOWN]),
            more=max(0, len(leaning) - MOST_SHOWN),
            title=message("Void entry {seq}", seq=words.seq),
            heading=message("Void entry {seq}", seq=words.seq),
            lead=message(
                "{words}: {about}, {when}. It stays in the book, and counts no longer.",
                words=words.words,
                about=words.about,
                when=words.when,
            ),
            own_url=request.path,
            back=url_for(".newest"),
            back_words=message("Back, and change nothing"),
            words=message("Void the entry"),
            form=form,
        )
    )


@pages.route("/book/<entry>/questions/void", methods=["GET", "POST"])
@guard.needs("manager")
def void_question(entry: str) -> AnyResponse:
    """Void one question of a sitting, with a reason; every sitting that asked it is scored again."""
    k, form = guard.kitchen(), QuestionForm()
    found = k.file.book.find(entry)
    if found is None or not correcting.questions_in(found):
        abort(404)
    form.offer(found, k.file.settings.decimal_mark)
    if form.is_sent_right() and proving.is_proved(form):
        outcome = correcting.void_question(
            k, by=guard.person().id, question=form.question_of(found), now=guard.now(), key=form.key.data
        )
        if not isinstance(outcome, Refused):
            return go(".newest", saved=outcome.entry.id)
        form.refuse(outcome)
    words = told(found, Naming(k.people(), reading.content()))
    proving.leave_out(form)
    lead = message(
        "{words}: {about}, {when}. Every sitting that asked it is scored again without it.",
        words=words.words,
        about=words.about,
        when=words.when,
    )
    return show(
        ActPage(
            title=message("Void a question of entry {seq}", seq=words.seq),
            heading=message("Void a question of entry {seq}", seq=words.seq),
            lead=message("{lead} Both results stay in the book.", lead=lead),
            own_url=request.path,
            back=url_for(".newest"),
            back_words=message("Back, and change nothing"),
            words=message("Void the question"),
            form=form,
        )
    )


def _number(text: str) -> int | None:
    """Return a number from an address, or None for anything else."""
    return int(text) if text.isascii() and text.isdigit() and len(text) < 12 else None


def _of_everybody(k: Kitchen, last: int, before: int | None) -> list[Entry]:
    """Return the newest entries before a number, newest first."""
    end = last if before is None else min(last, before - 1)
    after = max(0, end - ON_A_PAGE)
    return [entry for entry in reversed(k.file.book.since(after)) if entry.seq <= end]


def _of_cook(k: Kitchen, cook: str, before: int | None) -> list[Entry]:
    """Return the newest entries about one cook, newest first, found through the fold and not by reading the book."""
    record = k.progress().record(cook)
    ids = [line.entry for name in LINES for line in getattr(record, name)]
    found = [entry for entry in map(k.file.book.find, ids) if entry and (before is None or entry.seq < before)]
    return sorted(found, key=lambda entry: -entry.seq)[:ON_A_PAGE]


def _line(k: Kitchen, entry: Entry) -> EntryLine:
    """Return an entry with what can be done about it."""
    voided = k.progress().voided_on(entry.id, entry.cook)
    can_void = voided is None and not is_lasting(entry)
    voids = marked(k).get(entry.id, ()) if voided is None else ()
    is_sitting = entry.kind == "quiz_sat" and voided is None and bool(entry.body["questions"])
    is_answer = entry.kind == "answered" and voided is None
    return EntryLine(
        entry=told(entry, Naming(k.people(), reading.content())),
        voided=message("Voided on {voided}", voided=weekday(voided)) if voided else "",
        void_href=url_for(".void", entry=entry.id) if can_void else "",
        scored_again=outcome_today(entry).scored_again if is_sitting else "",
        question_href=url_for(".void_question", entry=entry.id) if is_sitting or is_answer else "",
        leans=tuple(leans_words(k, void) for void in voids),
        stands_href=url_for(".stands", entry=entry.id, void=voids[0].id) if voids else "",
    )


def _leaning_line(k: Kitchen, entry: str) -> Text:
    """Return an entry that leans on one to be voided, in one line."""
    found = k.file.book.find(entry)
    if found is None:
        return entry
    one = told(found, Naming(k.people(), reading.content()))
    return message(
        "Entry {seq}: {words}, {about}, {when}", seq=one.seq, words=one.words, about=one.about, when=one.when
    )


@pages.route("/book/<entry>/stands/<void>", methods=["GET", "POST"])
@guard.needs("manager")
def stands(entry: str, void: str) -> AnyResponse:
    """Say of an entry that leans on a void that it stands all the same, with a reason."""
    k, form = guard.kitchen(), ReasonForm()
    found, why = k.file.book.find(entry), k.file.book.find(void)
    if found is None or why is None or why.kind != "entry_voided":
        abort(404)
    if form.is_sent_right() and proving.is_proved(form):
        upheld = Upheld(entry, void, form.reason.data)
        outcome = uphold(k, by=guard.person().id, upheld=upheld, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return go(".newest", saved=outcome.entry.id)
        form.refuse(outcome)
    proving.leave_out(form)
    heading = message("Entry {seq} stands", seq=found.seq)
    return show(
        ActPage(
            title=heading,
            heading=heading,
            lead=message("{line}. {leans}", line=_leaning_line(k, entry), leans=leans_words(k, why)),
            own_url=request.path,
            back=url_for(".newest"),
            back_words=message("Back, and change nothing"),
            words=message("Say that it stands"),
            form=form,
        )
    )
