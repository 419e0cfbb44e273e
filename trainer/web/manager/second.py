"""What waits for a second person: the list, one act shown whole and confirmed, and putting it away."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import PasswordField, TextAreaField

from trainer.actions.confirming import confirm, enter_due
from trainer.actions.giving_codes import FirstCode, code_is_due
from trainer.actions.outcome import Refused
from trainer.actions.two_people import Second, lately_removed, put_away, seconds_for, until_of, waiting, waiting_for
from trainer.kitchen.roles import roles_in_words
from trainer.messages import Text, message
from trainer.store.acting import acting_proof
from trainer.store.drafts import Draft
from trainer.web import guard, proving, reading
from trainer.web.entry_words import Naming, told
from trainer.web.filters import clock_time, local, moment, weekday
from trainer.web.forms import KitchenForm, PlainForm
from trainer.web.manager.acts import ActPage
from trainer.web.manager.codes import show_code
from trainer.web.page import Page, go, show
from trainer.web.person_words import SEEN_WORDS
from trainer.web.typed_fields import AtMost

pages = Blueprint("second", __name__)
LONGEST = 500


class ConfirmForm(KitchenForm):
    """The second person's word: why, if they say so, and their own secret, however lately it was given."""

    reason = TextAreaField(message("Reason"), [AtMost(LONGEST)], description=message("If there is one to add."))
    secret = PasswordField(
        message("Your PIN or passphrase"), description=message("Always asked: you sign for this too.")
    )


@dataclass(frozen=True, slots=True)
class WaitingLine:
    """One act that waits: what it does, who asked for it when, what it waits for, and where it is seen whole."""

    heading: Text
    what: Text
    asked: Text
    waits: Text
    href: str
    drop_href: str


@dataclass(frozen=True, kw_only=True)
class WaitingPage(Page):
    """All that waits."""

    template: ClassVar[str] = "manager/second.html"
    lines: tuple[WaitingLine, ...]
    form: PlainForm


@pages.before_app_request
def enter_what_is_due() -> None:
    """Enter what has waited its day, before anything is shown of it."""
    k = guard.kitchen()
    if request.endpoint != "static" and not k.file.reading_only():
        enter_due(k, guard.now())


@pages.get("/second")
@guard.needs("manager")
def listed() -> Response:
    """Show all that waits for a second person, or for its day."""
    lines = tuple(_line(one) for one in waiting(guard.kitchen()))
    return show(WaitingPage(title=message("Waits for a second person"), lines=lines, form=PlainForm(is_fresh=True)))


@pages.route("/second/<draft>", methods=["GET", "POST"])
@guard.needs("manager")
def whole(draft: str) -> AnyResponse:
    """Show one act whole, and confirm it as the second person."""
    k, form = guard.kitchen(), ConfirmForm()
    found = waiting_for(k, draft)
    there = k.file.book.find_key(draft)
    if found is None:
        return go(".listed", saved=there.id) if there is not None else abort(404)
    if form.is_sent_right() and proving.proved_now(form) is not None:
        second = Second(guard.person().id, _proof(), form.reason.data or "")
        outcome = confirm(k, draft=draft, second=second, now=guard.now())
        if isinstance(outcome, FirstCode):
            return show_code(outcome)
        if not isinstance(outcome, Refused):
            return go(".listed", saved=outcome.entry.id)
        form.refuse(outcome)
    line = _line(found)
    return show(
        ActPage(
            title=line.heading,
            heading=line.heading,
            lead=message("{what} {asked} {waits}", what=line.what, asked=line.asked, waits=line.waits),
            own_url=request.path,
            back=url_for(".listed"),
            back_words=message("Back, and change nothing"),
            words=message("Confirm as the second person"),
            form=form,
        )
    )


@pages.post("/second/<draft>/drop")
@guard.needs("manager")
def drop(draft: str) -> AnyResponse:
    """Put away what waits; nothing enters the book."""
    form = PlainForm()
    if form.is_sent_right():
        put_away(guard.kitchen(), by=guard.person().id, draft=draft, now=guard.now())
    return go(".listed")


def _proof() -> dict[str, str]:
    """Return how the second person has just proved who they are."""
    proof = acting_proof()
    return proof.body() if proof else {}


def _line(draft: Draft) -> WaitingLine:
    """Return what waits, in words."""
    k = guard.kitchen()
    naming = Naming(k.people(), reading.content())
    heading, what = WORDS[draft.about](draft, naming)
    asked = message("{name} asked for it on {when}.", name=naming.person(draft.by), when=moment(draft.at))
    return WaitingLine(
        heading=heading,
        what=what,
        asked=asked,
        waits=_waits(draft),
        href=_href(draft),
        drop_href=url_for(".drop", draft=draft.id),
    )


def _href(draft: Draft) -> str:
    """Return where an act is seen whole; a code that has waited its day is made where it was asked for."""
    if draft.by == guard.person().id and code_is_due(guard.kitchen(), draft.id, guard.now()):
        return url_for("manager.codes.give", cook=draft.cook)
    return url_for(".whole", draft=draft.id)


def _waits(draft: Draft) -> Text:
    """Return what an act waits for."""
    k, until = guard.kitchen(), until_of(draft)
    if code_is_due(k, draft.id, guard.now()):
        return message("Its day is over: {name} can make the code now.", name=k.people()[draft.by].name)
    if draft.body.get("held"):
        return message("It can no longer be entered as it was asked for. Put it away, and ask again if it is needed.")
    if until is not None:
        day, time = weekday(local(until).date()), clock_time(until)
        return message("In effect {day} {time}; you are alone.", day=day, time=time)
    if not seconds_for(k, draft.by, draft.cook, k.day(guard.today())):
        if lately_removed(k, draft.by, k.day(guard.today())):
            return message("Nobody is left to confirm it. Put it away, and ask again: it then waits a day.")
        return message("Nobody is left to confirm it. Put it away, and ask again: it then counts without a second.")
    return message("Another manager confirms it.")


def _roles(draft: Draft, naming: Naming) -> tuple[Text, Text]:
    """Return the words of a change of roles: whose, from what to what."""
    before = roles_in_words(sorted(guard.kitchen().progress().roles(draft.cook, guard.today())))
    after = roles_in_words(draft.body["args"]["roles"])
    heading = message("Roles of {name}", name=naming.person(draft.cook))
    return heading, message("{before} → {after}.", before=before or message("none"), after=after)


def _void(draft: Draft, naming: Naming) -> tuple[Text, Text]:
    """Return the words of a void: of which entry, about whom, and why."""
    args = draft.body["args"]
    entry = guard.kitchen().file.book.find(args["entry"])
    if entry is None:
        return message("Void an entry"), args["reason"]
    one = told(entry, naming)
    what = message(
        "{words}: {about}, {when}. Reason: {reason}",
        words=one.words,
        about=one.about,
        when=one.when,
        reason=args["reason"],
    )
    return message("Void entry {seq}", seq=entry.seq), what


def _age(draft: Draft, naming: Naming) -> tuple[Text, Text]:
    """Return the words of a birth date: whose, on what paper it was seen; the second looks at the paper too."""
    args = draft.body["args"]
    paper = SEEN_WORDS.get(args["seen"], args["seen"])
    what = message("Birth date {day}, paper: {paper}.", day=args["born"], paper=paper)
    return message("Age of {name}", name=naming.person(draft.cook)), what


def _code(draft: Draft, naming: Naming) -> tuple[Text, Text]:
    """Return the words of a first code: for whom, with which roles, and who is to hand it over."""
    roles = roles_in_words(sorted(guard.kitchen().progress().roles(draft.cook, guard.today())))
    name = naming.person(draft.cook)
    what = message(
        "With a code somebody can sign in as {name} ({roles}). Whoever confirms is shown it, once, and hands it over.",
        name=name,
        roles=roles,
    )
    return message("First code for {name}", name=name), what


WORDS: Mapping[str, Callable[[Draft, Naming], tuple[Text, Text]]] = {
    "roles": _roles,
    "void": _void,
    "age": _age,
    "code": _code,
}
