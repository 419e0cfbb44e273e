"""One tap after a practical that is not there yet: the assessor showed what was wrong."""

from __future__ import annotations

from flask import Blueprint, abort
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.showing import A_MOMENT, Taught, teach_technique
from trainer.kitchen.book import Entry
from trainer.web import guard
from trainer.web.forms import PlainForm
from trainer.web.page import go

pages = Blueprint("showing", __name__)


@pages.post("/practicals/kept/<entry>/shown")
@guard.needs("assessor")
def shown(entry: str) -> AnyResponse:
    """Write down that what was wrong was shown; pressed twice it is written once."""
    k, found, form = guard.kitchen(), guard.kitchen().file.book.find(entry), PlainForm()
    if found is None or not can_be_shown(found):
        abort(404)
    if form.is_sent_right():
        taught = Taught(found.cook, found.body["technique"])
        teach_technique(k, by=guard.person().id, taught=taught, now=guard.now(), key=key_of(found))
    return go("assessor.signing.kept", entry=entry)


def can_be_shown(found: Entry) -> bool:
    """Return whether something was wrong in a practical of this assessor's that they may have shown."""
    return found.kind == "practical_watched" and found.by == guard.person().id and found.body["verdict"] == "not yet"


def minutes_shown(found: Entry) -> int:
    """Return for how long it was shown; 0 where it was not written down."""
    there = guard.kitchen().file.book.find_key(key_of(found))
    return int(there.body["minutes"]) if there is not None else 0


def key_of(found: Entry) -> str:
    """Return the key under which it is written down once."""
    return f"{found.id}:shown:{A_MOMENT}"
