"""A calendar under an address of one's own: made, shown once, withdrawn, and read by programs that cannot sign in."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import chain
from typing import ClassVar

from flask import Blueprint, Response, abort, make_response, url_for
from markupsafe import Markup
from werkzeug.wrappers import Response as AnyResponse

from trainer.exports.asking import Asked
from trainer.exports.calendars import Event, calendar_of, lapse_events, path_events, shift_events
from trainer.messages import Text, message, translate
from trainer.store.calendar_feeds import CalendarFeed, FeedOf
from trainer.store.catalogues import nearest_language, translations
from trainer.web import guard
from trainer.web.filters import moment
from trainer.web.forms import PlainForm
from trainer.web.page import Page, go, show
from trainer.web.qr import qr_of

pages = Blueprint("calendar", __name__)
AHEAD, ENDS_AHEAD = timedelta(days=60), timedelta(days=366)
OF_WORDS: dict[FeedOf, Text] = {"own": message("My shifts and days"), "kitchen": message("The whole kitchen")}


@dataclass(frozen=True, slots=True)
class FeedShown:
    """One calendar a person may have: what it shows, since when there is an address, and where to make or end it."""

    title: Text
    since: Text
    make_url: str
    withdraw_url: str


@dataclass(frozen=True, kw_only=True)
class CalendarPage(Page):
    """The calendars a person may have; right after one was made, its address, which nobody sees a second time."""

    template: ClassVar[str] = "handing_out/calendar.html"
    feeds: tuple[FeedShown, ...]
    address: str
    drawing: Markup | None
    form: PlainForm


@pages.get("/calendar")
@guard.needs("person")
def look() -> Response:
    """Show which calendars there are, and whether they have an address."""
    return _page()


@pages.post("/calendar/<of>/make")
@guard.needs("person")
def make(of: str) -> AnyResponse:
    """Make an address, and show it once; the one before answers no more."""
    wanted = _allowed(of)
    if not PlainForm().is_sent_right():
        return go(".look")
    secret = guard.kitchen().file.calendar_feeds.make(guard.person().id, wanted, guard.now())
    return _page(url_for("handing_out.calendar.feed", secret=secret, _external=True))


@pages.post("/calendar/<of>/withdraw")
@guard.needs("person")
def withdraw(of: str) -> AnyResponse:
    """Let an address answer no more."""
    if PlainForm().is_sent_right():
        guard.kitchen().file.calendar_feeds.withdraw(guard.person().id, _allowed(of), guard.now())
    return go(".look")


@pages.get("/calendar/<secret>.ics")
@guard.needs("nobody")
def feed(secret: str) -> Response:
    """Send the calendar an address leads to; whoever has the address may read it, until it is withdrawn."""
    k, now = guard.kitchen(), guard.now()
    found = k.file.calendar_feeds.find(secret)
    if found is None:
        abort(404)
    if found.withdrawn_at is not None or not _may_still(found):
        return _gone(found)
    person, own = k.people()[found.person], k.file.settings
    language = nearest_language(person.language, own.language)
    told = k.content_for(language, person.units or own.units_first)
    catalogue = translations(language)
    events = _events(Asked(k, told, guard.today()), found)
    data = calendar_of(OF_WORDS[found.of], events, now, lambda words: translate(words, catalogue))
    return _sent(data, "text/calendar; charset=utf-8")


def _events(asked: Asked, found: CalendarFeed) -> chain[Event]:
    cook = found.person if found.of == "own" else ""
    shifts = shift_events(asked, asked.on + AHEAD, cook)
    return chain(shifts, lapse_events(asked, asked.on + ENDS_AHEAD, cook), path_events(asked, cook))


def _may_still(found: CalendarFeed) -> bool:
    """Return whether the person is on the roster, and for everybody's calendar a manager, to this day."""
    roles = guard.kitchen().progress().roles(found.person, guard.today())
    return "manager" in roles if found.of == "kitchen" else bool(roles)


def _gone(found: CalendarFeed) -> Response:
    """Return that the address answers no more, and what to do (410, RFC 9110, 15.5.11)."""
    k = guard.kitchen()
    person = k.people().get(found.person)
    language = nearest_language(person.language if person else "", k.file.settings.language)
    words = message("This calendar's address was withdrawn. Make a new one: sign in, then Calendar.")
    return _sent(translate(words, translations(language)).encode(), "text/plain; charset=utf-8", 410)


def _sent(data: bytes, mime: str, status: int = 200) -> Response:
    sent = make_response(data, status)
    sent.headers["Content-Type"] = mime
    return sent


def _allowed(of: str) -> FeedOf:
    """Return which calendar is meant; a manager alone may have everybody's."""
    if of == "own":
        return "own"
    if of != "kitchen":
        abort(404)
    if "manager" not in guard.roles():
        abort(403)
    return "kitchen"


def _page(address: str = "") -> Response:
    kinds: tuple[FeedOf, ...] = ("own", "kitchen") if "manager" in guard.roles() else ("own",)
    return show(
        CalendarPage(
            title=message("Calendar"),
            feeds=tuple(_shown(of) for of in kinds),
            address=address,
            drawing=qr_of(address) if address else None,
            form=PlainForm(is_fresh=True),
        )
    )


def _shown(of: FeedOf) -> FeedShown:
    found = guard.kitchen().file.calendar_feeds.current(guard.person().id, of)
    return FeedShown(
        OF_WORDS[of],
        message("It has an address since {when}.", when=_when(found.made_at)) if found else "",
        url_for(".make", of=of),
        url_for(".withdraw", of=of) if found else "",
    )


def _when(at: datetime) -> Text:
    return moment(at)
