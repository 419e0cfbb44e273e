"""What cooks contest, for a manager to decide; and the founder's own word, for a kitchen that has nobody else yet."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import RadioField, TextAreaField
from wtforms.fields.choices import SelectChoice

from trainer.actions import contesting, founding
from trainer.actions.outcome import Refused
from trainer.kitchen.book import Entry
from trainer.kitchen.spans import months_later
from trainer.messages import Text, joined, message
from trainer.web import guard, proving, reading
from trainer.web.authority_words import OUTCOMES
from trainer.web.entry_words import Naming, told
from trainer.web.manager.acts import ActPage, TicksField
from trainer.web.page import Page, go, show
from trainer.web.proving import LatelyForm, secret_field
from trainer.web.typed_fields import DayField, NeedsText

pages = Blueprint("contested", __name__)


class DecisionForm(LatelyForm):
    """What comes of a contest, and why."""

    outcome = RadioField(
        message("What comes of it"),
        choices=[SelectChoice(value, words) for value, words in OUTCOMES.items()],
        validate_choice=False,
    )
    reason = TextAreaField(message("Reason"), [NeedsText(message("Write the reason. It stays in the book."))])
    secret = secret_field()


class FounderForm(LatelyForm):
    """At which stations the only manager or assessor signs on their own word, and to which day."""

    stations = TicksField(message("Stations"), choices=[])
    until = DayField(
        message("Good to"), description=message("Year, month, day. Empty: 12 months, the longest there is.")
    )
    words = TextAreaField(
        message("In your own words: what you can do there"),
        [NeedsText(message("Write it down. It stays in the book."), 500)],
    )
    secret = secret_field()


@dataclass(frozen=True, slots=True)
class ContestLine:
    """A contest: who says what is wrong with which entry, and where it is decided."""

    heading: Text
    lines: tuple[Text, ...]
    href: str


@dataclass(frozen=True, kw_only=True)
class ContestsPage(Page):
    """All that is contested and not decided."""

    template: ClassVar[str] = "manager/contests.html"
    contests: tuple[ContestLine, ...]


@pages.get("/contests")
@guard.needs("manager")
def listed() -> Response:
    """Show what is contested."""
    found = contesting.open_contests(guard.kitchen())
    return show(ContestsPage(title=message("Contested"), contests=tuple(_line(one) for one in found)))


def _line(contest: Entry) -> ContestLine:
    """Return a contest in words."""
    k = guard.kitchen()
    naming, entry = Naming(k.people(), reading.content()), k.file.book.find(contest.body["entry"])
    lines: list[Text] = [message("“{words}”", words=contest.body["words"])]
    if entry is not None:
        one = told(entry, naming)
        lines.append(
            message("Entry {seq}: {words}, {when}, by {by}", seq=one.seq, words=one.words, when=one.when, by=one.by)
        )
    return ContestLine(naming.person(contest.cook), tuple(lines), url_for(".decide", contest=contest.id))


@pages.route("/contests/<contest>", methods=["GET", "POST"])
@guard.needs("manager")
def decide(contest: str) -> AnyResponse:
    """Decide a contest, with a reason."""
    k, form = guard.kitchen(), DecisionForm()
    found = k.file.book.find(contest)
    if found is None or found.kind != "entry_contested":
        abort(404)
    if form.is_sent_right() and proving.is_proved(form):
        decision = contesting.Decision(contest, form.outcome.data or "", form.reason.data)
        outcome = contesting.decide_contest(
            k, by=guard.person().id, decision=decision, now=guard.now(), key=form.key.data
        )
        if not isinstance(outcome, Refused):
            return go(".listed", saved=outcome.entry.id)
        form.refuse(outcome)
    proving.leave_out(form)
    line = _line(found)
    lead = message(
        "{lines}. The entry stays in the book; where it is wrong, void it next.", lines=joined(line.lines, ". ")
    )
    heading = message("{name} contests an entry", name=line.heading)
    return _act_page(form, heading, lead, message("Decide"), url_for(".listed"))


@pages.route("/own-word", methods=["GET", "POST"])
@guard.needs("manager")
def own_word() -> AnyResponse:
    """Stand in on one's own word, where the kitchen has no other manager or assessor."""
    k, form = guard.kitchen(), FounderForm()
    form.stations.choices = [SelectChoice(one.id, one.title) for one in reading.content().stations.values()]
    if form.is_sent_right() and proving.is_proved(form):
        until = form.until.day or months_later(guard.today(), founding.MOST_MONTHS)
        standing = founding.Founding(tuple(form.stations.data or ()), until, form.words.data)
        outcome = founding.stand_as_founder(
            k, by=guard.person().id, founding=standing, now=guard.now(), key=form.key.data
        )
        if not isinstance(outcome, Refused):
            return go("manager.authority.listed", saved=outcome.entry.id)
        form.refuse(outcome)
    proving.leave_out(form)
    lead = message(
        "For a kitchen in which nobody else can sign yet. Each signature says “on own word”, and it ends "
        "at a station as soon as somebody else is entitled there."
    )
    return _act_page(
        form, message("Sign on own word"), lead, message("Stand in on own word"), url_for("manager.authority.listed")
    )


def _act_page(form: LatelyForm, heading: Text, lead: Text, words: Text, back: str) -> Response:
    """Return the page of one act."""
    return show(
        ActPage(
            title=heading,
            heading=heading,
            lead=lead,
            own_url=request.path,
            back=back,
            back_words=message("Back, and change nothing"),
            words=words,
            form=form,
        )
    )
