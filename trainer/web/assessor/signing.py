"""The end of a practical: the record as it will be kept, the signature, the record as kept, or putting it away."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from flask import Blueprint, Response, abort, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import BooleanField, PasswordField, TextAreaField

from trainer.actions import watching
from trainer.actions.outcome import Refused
from trainer.actions.watching import Practical, Signing
from trainer.kitchen.practical import VerdictWord
from trainer.messages import Text, message
from trainer.web import guard, proving, reading
from trainer.web.assessor import showing
from trainer.web.assessor.in_hand import mine, naming, outdated_words, so_far_words, watched_by_words
from trainer.web.assessor.record_view import Record, record_kept, record_of
from trainer.web.authority_words import signature_told
from trainer.web.filters import clock_time, moment
from trainer.web.forms import KitchenForm, PlainForm
from trainer.web.page import Page, go, show
from trainer.web.proof_words import signed_told

pages = Blueprint("signing", __name__)


class SignForm(KitchenForm):
    """The signature: the assessor's secret again, a note, and the right to say *not yet* all the same."""

    coached = BooleanField(message("I helped or prompted: not yet at most"))
    not_yet = BooleanField(message("Say not yet all the same: write why in the note"))
    note = TextAreaField(message("Note"))
    secret = PasswordField(message("Your PIN"))


@dataclass(frozen=True, kw_only=True)
class PracticalRecordPage(Page):
    """The record as it will be kept, and the signature."""

    template: ClassVar[str] = "assessor/record.html"
    own_url: str
    record: Record
    can_lower: bool
    is_stopped: bool
    told: tuple[Text, ...]
    form: SignForm
    drop_href: str


@dataclass(frozen=True, kw_only=True)
class DropPage(Page):
    """Whether to put a practical away unsigned."""

    template: ClassVar[str] = "assessor/drop.html"
    own_url: str
    back: str
    cook_name: Text
    technique_title: str
    so_far: Text
    form: PlainForm


@dataclass(frozen=True, kw_only=True)
class KeptPage(Page):
    """A signed practical, as the book keeps it."""

    template: ClassVar[str] = "assessor/kept.html"
    heading: Text
    record: Record
    signed_at: Text
    seq: int
    signature: tuple[Text, ...]
    shown_minutes: int
    shown_url: str
    form: PlainForm


@pages.get("/practicals/<practical>/record")
@guard.needs("assessor")
def record(practical: str) -> Response:
    """Show the record as it will be kept."""
    return _record_page(mine(practical), SignForm())


@pages.post("/practicals/<practical>/record")
@guard.needs("assessor")
def sign(practical: str) -> AnyResponse:
    """Sign the record: the secret is asked for again, and the entry is in the book before "Saved" is said."""
    form = SignForm()
    there = guard.kitchen().file.book.find_key(form.key.data)
    is_mine = there is not None and there.kind == "practical_watched" and there.by == guard.person().id
    if there is not None and is_mine and watching.find_practical(guard.kitchen(), practical) is None:
        return go("assessor.signing.kept", entry=there.id)
    found = mine(practical)
    proved_at = proving.proved_now(form) if form.is_sent_right() else None
    if proved_at is None:
        return _record_page(found, form)
    outcome = watching.sign_practical(
        guard.kitchen(),
        by=guard.person().id,
        signing=_signing(found, form, proved_at),
        now=guard.now(),
        key=form.key.data,
    )
    if isinstance(outcome, Refused):
        form.refuse(outcome)
        return _record_page(found, form)
    return go("assessor.signing.kept", entry=outcome.entry.id)


@pages.get("/practicals/kept/<entry>")
@guard.needs("assessor")
def kept(entry: str) -> Response:
    """Show a signed practical to anyone who signed it."""
    found = guard.kitchen().file.book.find(entry)
    if found is None or found.kind != "practical_watched" or found.by != guard.person().id:
        abort(404)
    return show(
        KeptPage(
            title=message("On the spike"),
            heading=message("Saved {at}, on the spike", at=clock_time(found.at)),
            record=record_kept(found, naming()),
            signed_at=moment(found.at),
            seq=found.seq,
            signature=(*signature_told(found.body), *signed_told(found, naming(), "")),
            shown_minutes=showing.minutes_shown(found),
            shown_url=url_for("assessor.showing.shown", entry=found.id) if showing.can_be_shown(found) else "",
            form=PlainForm(is_fresh=True),
        )
    )


@pages.route("/practicals/<practical>/drop", methods=["GET", "POST"])
@guard.needs("assessor")
def drop(practical: str) -> AnyResponse:
    """Put a practical away unsigned, after asking once."""
    under_way = mine(practical)
    form = PlainForm()
    if form.is_sent_right():
        refused = watching.drop_practical(guard.kitchen(), by=guard.person().id, practical=practical)
        if refused is None:
            return go("assessor.waiting")
        form.refuse(refused)
    return show(
        DropPage(
            title=message("Put this away unsigned?"),
            own_url=url_for(".drop", practical=practical),
            back=url_for("assessor.practical.resume", practical=practical),
            cook_name=naming().person(under_way.cook),
            technique_title=under_way.titles.technique,
            so_far=so_far_words(under_way),
            form=form,
        )
    )


def _signing(practical: Practical, form: SignForm, proved_at: datetime) -> Signing:
    """Return what is signed."""
    is_lowered = form.not_yet.data and practical.verdict.word == "meets it"
    said: VerdictWord | None = "not yet" if is_lowered else None
    return Signing(practical.id, proved_at, (form.note.data or "").strip(), said, coached=bool(form.coached.data))


def _record_page(practical: Practical, form: SignForm) -> Response:
    """Return the record with the signature under it."""
    is_taught = practical.technique in reading.content().techniques
    hrefs = {
        point.id: url_for("assessor.practical.point", practical=practical.id, number=number)
        for number, point in enumerate(practical.points, 1)
        if is_taught and point.id not in practical.unsafe
    }
    return show(
        PracticalRecordPage(
            title=message("The record as it will be kept"),
            own_url=url_for(".sign", practical=practical.id),
            record=record_of(practical, naming(), hrefs),
            can_lower=practical.verdict.word == "meets it",
            is_stopped=bool(practical.unsafe),
            told=(*outdated_words(practical), *watched_by_words(practical.cook, practical.technique)),
            form=form,
            drop_href=url_for(".drop", practical=practical.id),
        )
    )
