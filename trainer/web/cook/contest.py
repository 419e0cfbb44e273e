"""What others wrote about a cook lately, and the page on which the cook contests an entry."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import TextAreaField

from trainer.actions import contesting
from trainer.actions.outcome import Refused
from trainer.kitchen.book import Entry
from trainer.kitchen.record import LINES
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.entry_words import Naming, told
from trainer.web.forms import KitchenForm
from trainer.web.page import Page, go, show
from trainer.web.typed_fields import NeedsText

pages = Blueprint("contest", __name__)


class ContestForm(KitchenForm):
    """What is wrong, in the cook's own words."""

    words = TextAreaField(message("What is wrong?"), [NeedsText(message("Write what is wrong."), 500)])


@dataclass(frozen=True, slots=True)
class WrittenLine:
    """One entry about me: what it says, and where it is contested."""

    heading: Text
    lines: tuple[Text, ...]
    href: str


@dataclass(frozen=True, kw_only=True)
class WrittenPage(Page):
    """What others wrote about me in the last 14 days."""

    template: ClassVar[str] = "cook/written.html"
    entries: tuple[WrittenLine, ...]


@dataclass(frozen=True, kw_only=True)
class ContestPage(Page):
    """One entry, and what the cook says is wrong with it."""

    template: ClassVar[str] = "cook/contest.html"
    entry: WrittenLine
    own_url: str
    back: str
    form: ContestForm


@pages.get("/record/written")
@guard.needs("person")
def written() -> Response:
    """Show what others wrote about me lately."""
    k, me = guard.kitchen(), guard.person().id
    record = k.progress().record(me)
    ids = {line.entry for name in LINES for line in getattr(record, name)}
    found = [entry for entry in map(k.file.book.find, ids) if entry is not None]
    day = k.day(guard.today())
    recent = sorted((one for one in found if contesting.can_contest(one, me, day)), key=lambda one: -one.seq)
    return show(WrittenPage(title=message("Written about me lately"), entries=tuple(_line(one) for one in recent)))


def _line(entry: Entry) -> WrittenLine:
    """Return an entry in words."""
    one = told(entry, Naming(guard.kitchen().people(), reading.content()))
    heading = message("{words}, {when}, by {by}", words=one.words, when=one.when, by=one.by)
    return WrittenLine(heading, one.lines, url_for(".contest", entry=entry.id))


@pages.route("/record/written/<entry>", methods=["GET", "POST"])
@guard.needs("person")
def contest(entry: str) -> AnyResponse:
    """Contest an entry about me, in my own words."""
    k, form = guard.kitchen(), ContestForm()
    found = k.file.book.find(entry)
    if found is None or found.cook != guard.person().id:
        abort(404)
    if form.is_sent_right():
        said = contesting.Contest(entry, form.words.data)
        outcome = contesting.contest_entry(k, by=guard.person().id, contest=said, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return go(".written", saved=outcome.entry.id)
        form.refuse(outcome)
    return show(
        ContestPage(
            title=message("Contest an entry"),
            entry=_line(found),
            own_url=request.path,
            back=url_for(".written"),
            form=form,
        )
    )
