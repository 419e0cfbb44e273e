"""The house's notice on what illness to tell the person in charge: read on a page, and said so with one press."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, redirect, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.noticing import NoticeSeen, acknowledge_notice
from trainer.actions.outcome import Refused
from trainer.kitchen.notices import HEALTH_REPORTING, Notice, read_of
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.filters import day
from trainer.web.forms import PlainForm
from trainer.web.page import Page, show
from trainer.web.shell import start_of

pages = Blueprint("notice", __name__)


@dataclass(frozen=True, kw_only=True)
class NoticePage(Page):
    """The notice; `read` says when the reader has said that they read this edition, empty where they have not."""

    template: ClassVar[str] = "cook/notice.html"
    notice: Notice
    read: Text
    post_url: str
    back: str
    form: PlainForm


@pages.get("/health-notice")
@guard.needs("person")
def look() -> Response:
    """Show the notice, and the button that says it is read."""
    return show(_page(PlainForm()))


@pages.post("/health-notice/<int:edition>")
@guard.needs("person")
def read(edition: int) -> AnyResponse:
    """Write down that the reader has read the edition they had open."""
    form, language = PlainForm(), reading.now().language
    if form.is_sent_right():
        seen = NoticeSeen(HEALTH_REPORTING.id, edition, language, [*map(reading.printed, HEALTH_REPORTING.texts)])
        outcome = acknowledge_notice(
            guard.kitchen(), by=guard.person().id, seen=seen, now=guard.now(), key=form.key.data
        )
        if not isinstance(outcome, Refused):
            return redirect(f"{start_of(guard.roles())}?saved={outcome.entry.id}", 303)
        form.refuse(outcome)
    return show(_page(form))


def notice_to_read() -> str:
    """Return the address of the notice while the reader has not read this edition of it; empty after."""
    return url_for("notice.look") if _read_on() is None else ""


def _read_on() -> Text | None:
    record = guard.kitchen().progress().record(guard.person().id).as_of(guard.today())
    found = read_of(record, HEALTH_REPORTING.id, HEALTH_REPORTING.edition)
    return day(found.on) if found else None


def _page(form: PlainForm) -> NoticePage:
    read_on = _read_on()
    return NoticePage(
        title=HEALTH_REPORTING.title,
        notice=HEALTH_REPORTING,
        read=message("You read this edition on {day}.", day=read_on) if read_on else "",
        post_url=url_for(".read", edition=HEALTH_REPORTING.edition),
        back=start_of(guard.roles()),
        form=form,
    )
