"""Words to a cook on their own page: each goes away as it is opened, or with one tap."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from flask import Blueprint, redirect, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.news import News, NewsKind, news_for, put_away
from trainer.kitchen.spans import in_short
from trainer.messages import Text, joined, message, plural
from trainer.web import guard, reading
from trainer.web.entry_words import Naming
from trainer.web.forms import PlainForm
from trainer.web.page import go, is_looked_at

pages = Blueprint("news", __name__, url_prefix="/news")


@dataclass(frozen=True, slots=True)
class NewsLine:
    """One thing in a short line, where it leads, and where it is put away."""

    words: Text
    url: str
    away_url: str


_WORDS: Mapping[NewsKind, Callable[[Text, Text, Text, int], Text]] = {
    "meets it": lambda about, by, _, __: message("{name} signed: {about}.", name=by, about=about),
    "not yet": lambda about, by, _, __: message("Not yet: {about}. See what {name} saw.", about=about, name=by),
    "stopped": lambda about, _, __, ___: message("Stopped for safety: {about}. A manager releases it.", about=about),
    "shift": lambda about, _, day, __: message("Your shift of {day} is signed: {about}.", day=day, about=about),
    "path": lambda about, by, _, __: message("{name} agrees: you learn {about}.", name=by, about=about),
    "off": lambda about, _, __, ___: message("You are off this station: {about}.", about=about),
    "back": lambda about, _, __, ___: message("You are back on this station: {about}.", about=about),
    "released": lambda about, _, __, ___: message("The stop is released: {about}.", about=about),
    "ends": lambda about, _, day, __: message("{about} ends on {day}. See what is due.", about=about, day=day),
    "free": lambda about, by, _, number: plural(
        "{names} is on today and can watch: {about}.",
        "{names} are on today and can watch: {about}.",
        number,
        names=by,
        about=about,
    ),
}


def news_lines() -> tuple[NewsLine, ...]:
    """Return what the reader has not seen yet, each in a line."""
    k = guard.kitchen()
    return tuple(_line(one) for one in news_for(k, cook=guard.person().id, day=k.day(guard.today())))


def _line(one: News) -> NewsLine:
    day = guard.kitchen().day(guard.today())
    naming = Naming(guard.kitchen().people(), reading.content())
    about = _about(one, naming)
    by = joined((day.name(who).split()[0] for who in one.by), ", ")
    words = _WORDS[one.kind](about, by, in_short(one.on, with_year=False), len(one.by))
    return NewsLine(words, url_for("news.open_it", what=one.what), url_for("news.seen", what=one.what))


def _about(one: News, naming: Naming) -> Text:
    """Return the titles of what a thing is about."""
    if one.kind in ("off", "back") and not one.about:
        return message("every station")
    named = one.about.split(",")
    stations = reading.content().stations
    return joined((naming.station(name) if name in stations else naming.technique(name) for name in named), ", ")


@pages.get("/<what>")
@guard.needs("cook")
def open_it(what: str) -> AnyResponse:
    """Put one thing away and go where it leads; what is told no more leads to the own page."""
    k, me = guard.kitchen(), guard.person().id
    found = next((one for one in news_for(k, cook=me, day=k.day(guard.today())) if one.what == what), None)
    if found is None:
        return go("cook.rail")
    if is_looked_at():
        put_away(k, cook=me, what=what, now=guard.now())
    return redirect(_target(found), 303)


@pages.post("/<what>/seen")
@guard.needs("cook")
def seen(what: str) -> AnyResponse:
    """Put one thing away."""
    if PlainForm().is_sent_right():
        put_away(guard.kitchen(), cook=guard.person().id, what=what, now=guard.now())
    return go("cook.rail")


def _target(one: News) -> str:
    """Return where one thing leads: what was watched to its sheet, a technique to its page, a path to the own page."""
    if one.kind in ("not yet", "stopped"):
        return url_for("cook.contest.written")
    if one.kind == "path":
        return url_for("cook.rail", station=one.about)
    if one.kind in ("shift", "off", "back", "ends"):
        return url_for("cook.record")
    return url_for("cook.technique", technique=one.about)
