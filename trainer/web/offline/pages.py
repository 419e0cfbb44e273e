"""What a phone needs to go on without network: the worker, the list of pages to keep, the page of what waits."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from typing import ClassVar

from flask import Blueprint, Response, current_app, g, jsonify, request

from trainer.messages import Text, message
from trainer.web import guard
from trainer.web.forms import PlainForm
from trainer.web.offline import keeping
from trainer.web.page import Page, show

pages = Blueprint("offline", __name__)


@dataclass(frozen=True, kw_only=True)
class UnsentPage(Page):
    """What waits on this phone to be sent, or why a page does not open; `questions` and `practice` go on meanwhile."""

    template: ClassVar[str] = "offline/unsent.html"
    lead: Text
    questions: tuple[tuple[str, str], ...]
    practice: tuple[tuple[str, str], ...]


TITLES = {
    "": (
        message("Waiting to be sent"),
        message("What was done on this phone without network stands here until the kitchen has it."),
    ),
    "network": (
        message("This needs the network"),
        message("If you sent something that is not listed here, it was not saved: go back, it is still there."),
    ),
    "left": (
        message("Signed out on this phone"),
        message("It shows nothing of yours any more. The kitchen is told as soon as the network is back."),
    ),
    "stopped": (
        message("Stop the work now."),
        message(
            "This is kept on this phone and is sent when the network is back. Nothing is signed yet: open the "
            "practical then, and sign the stop."
        ),
    ),
    "signing": (
        message("Signing needs the network"),
        message(
            "Nothing is signed yet. What you saw is kept here; when the network is back, open the record and sign."
        ),
    ),
}


@pages.get("/sw.js")
@guard.needs("nobody")
def worker() -> Response:
    """Return the worker that keeps pages; it stands at the top, since it may keep only what is below it."""
    script = (Path(current_app.static_folder or "") / "sw.js").read_text("utf-8")
    return Response(script, mimetype="text/javascript")


@pages.get("/kept.json")
@guard.needs("person")
def kept() -> Response:
    """Return what this phone keeps for whoever is signed in, for how long, and a token to send with."""
    signed = guard.signed_in()
    assert signed is not None  # noqa: S101 - the guard let them in
    found, parts = keeping.pages_to_keep(), keeping.parts_to_keep()
    until, idle = _shown_for(signed)
    return jsonify(
        who=signed.person.id,
        token=PlainForm(is_fresh=True).csrf_token.current_token,
        now=int(guard.now().timestamp() * 1000),
        until=int(until.timestamp() * 1000),
        idle=int(idle.total_seconds() * 1000),
        most=keeping.MOST_BYTES,
        version=keeping.version_of([*(f"{page}" for page in found), *parts]),
        pages=found,
        parts=parts,
    )


def _shown_for(signed: guard.CurrentUser) -> tuple[datetime, timedelta]:
    """Return until when a phone shows what it keeps, and how long it may lie idle: as the kitchen itself would do.

    On one's own phone that is the shift; on any other a session's 12 hours and its idle time.
    """
    settings, session, owner = guard.kitchen().file.settings, signed.session, g.get("owner")
    if owner is not None and owner.id == signed.person.id and settings.own_phone != "nothing":
        shift = timedelta(hours=settings.pin_hours)
        return session.opened_at + shift, shift
    return session.ends_at, timedelta(minutes=session.idle_minutes)


@pages.get("/unsent")
@guard.needs("nobody")
def unsent() -> Response:
    """Show what waits to be sent; the list itself is on the phone alone."""
    about = request.args.get("about", "")
    title, lead = TITLES.get(about, TITLES[""])
    questions = tuple(keeping.question_links()) if guard.signed_in() else ()
    practice = tuple(keeping.practice_links()) if guard.signed_in() else ()
    return show(UnsentPage(title=title, lead=lead, questions=questions, practice=practice))
