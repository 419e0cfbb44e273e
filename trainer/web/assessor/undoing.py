"""Whoever signed takes the signature back within ten minutes: a void that counts for every day, as if never written."""

from __future__ import annotations

from flask import Blueprint, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.correcting import Correction, void_entry
from trainer.actions.outcome import Refused
from trainer.kitchen.book import Entry
from trainer.kitchen.entitlement import WRITER_MAY_VOID_FOR, is_slip
from trainer.messages import Text, message
from trainer.web import guard
from trainer.web.assessor.in_hand import naming
from trainer.web.assessor.record_view import record_kept
from trainer.web.filters import clock_time
from trainer.web.forms import PlainForm
from trainer.web.manager.acts import ActPage
from trainer.web.page import go, show

pages = Blueprint("undoing", __name__)


@pages.route("/practicals/kept/<entry>/undo", methods=["GET", "POST"])
@guard.needs("assessor")
def undo(entry: str) -> AnyResponse:
    """Take a signature back, after asking once."""
    k, form, found = guard.kitchen(), PlainForm(), guard.kitchen().file.book.find(entry)
    if found is None or found.kind != "practical_watched" or found.by != guard.person().id:
        abort(404)
    if form.is_sent_right():
        outcome = void_entry(
            k, by=guard.person().id, correction=Correction(entry, ""), now=guard.now(), key=form.key.data
        )
        if not isinstance(outcome, Refused):
            return go("assessor.waiting")
        form.refuse(outcome)
    said = record_kept(found, naming())
    lead = message(
        "{cook}: {technique}. It stays in the book as undone, and counts for no day. What you saw is watched anew.",
        cook=said.cook_name,
        technique=said.technique_title,
    )
    return show(
        ActPage(
            title=message("Undo the signature"),
            heading=message("Undo the signature"),
            lead=lead,
            own_url=request.path,
            back=url_for("assessor.signing.kept", entry=entry),
            back_words=message("Back, and change nothing"),
            words=message("Undo"),
            form=form,
        )
    )


def undo_href(found: Entry) -> str:
    """Return the address to take a signature back; empty once ten minutes are over, or where it is no slip."""
    is_open = is_slip(guard.person().id, found, guard.now()) and not _is_undone(found)
    return url_for("assessor.undoing.undo", entry=found.id) if is_open else ""


def undo_told(found: Entry) -> Text:
    """Return until when a signature can be taken back, and by whom after that; or that it was."""
    if _is_undone(found):
        return message("Undone: it counts for no day.")
    if undo_href(found):
        until = clock_time(found.at + WRITER_MAY_VOID_FOR)
        return message("Undo until {until}, then a manager can void it.", until=until)
    return message("A manager can void it.")


def _is_undone(found: Entry) -> bool:
    return guard.kitchen().progress().voided_on(found.id, found.cook) is not None
