"""The end of a practical: the record as it will be kept, the signature, the record as kept, or putting it away."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from flask import Blueprint, Response, abort, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import BooleanField, PasswordField, TextAreaField

from trainer.actions import watching
from trainer.actions.countersigning import Asks, asks_of, second_signers
from trainer.actions.handing_on import hand_on, who_can_take
from trainer.actions.outcome import Refused
from trainer.actions.two_people import Second
from trainer.actions.watching import Practical, Signing
from trainer.kitchen.book import Entry
from trainer.kitchen.entitlement import WRITER_MAY_VOID_FOR
from trainer.kitchen.practical import VerdictWord
from trainer.messages import Text, message
from trainer.web import guard, proving, reading
from trainer.web.assessor import showing
from trainer.web.assessor.in_hand import mine, naming, outdated_words, so_far_words, watched_by_words
from trainer.web.assessor.record_view import Record, record_kept, record_of
from trainer.web.assessor.stopping import off_words
from trainer.web.assessor.undoing import undo_href, undo_told
from trainer.web.authority_words import second_signed, signature_told
from trainer.web.filters import clock_time, moment
from trainer.web.forms import KitchenForm, PlainForm
from trainer.web.page import Page, go, show
from trainer.web.proof_words import signed_told
from trainer.web.typed_fields import OneOfField

pages = Blueprint("signing", __name__)


class SecondField(OneOfField):
    """Who signs with somebody who trained the cook; nobody is named where the verdict is lowered."""

    def pre_validate(self, form: KitchenForm) -> None:
        """Refuse a person who is not on the list; whether one is needed is the action's to say."""
        if self.data:
            super().pre_validate(form)


class SignForm(KitchenForm):
    """The signature: the assessor's secret again, a note, and the right to say *not yet* all the same."""

    coached = BooleanField(message("I helped or prompted: not yet at most"))
    not_yet = BooleanField(message("Say not yet all the same: write why in the note"))
    note = TextAreaField(message("Note"))
    independence = TextAreaField(message("Why you sign, though you trained this cook"))
    second = SecondField(message("The second to sign"))
    second_secret = PasswordField(message("PIN or passphrase of the second"))
    secret = PasswordField(message("Your PIN"))


@dataclass(frozen=True, kw_only=True)
class PracticalRecordPage(Page):
    """The record as it will be kept, and the signature."""

    template: ClassVar[str] = "assessor/record.html"
    own_url: str
    record: Record
    can_lower: bool
    is_stopped: bool
    asks: Asks
    told: tuple[Text, ...]
    form: SignForm
    drop_href: str
    hand_href: str
    was_coached: bool
    off_words: Text
    undo_words: Text
    stop_href: str


class HandOnForm(KitchenForm):
    """To whom an open practical goes, and whether its holder had helped."""

    to = OneOfField(message("Who goes on with it"))
    coached = BooleanField(message("I helped or prompted: not yet at most"))


@dataclass(frozen=True, kw_only=True)
class HandOnPage(Page):
    """To whom an open practical is handed."""

    template: ClassVar[str] = "assessor/hand_on.html"
    own_url: str
    back: str
    lead: Text
    can: bool
    form: HandOnForm


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
    undo_told: Text
    undo_href: str
    off_href: str
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
    _offer_seconds(found, form)
    proved_at = proving.proved_now(form) if form.is_sent_right() else None
    second = _second(found, form) if proved_at is not None else None
    if proved_at is None or form.errors:
        return _record_page(found, form)
    outcome = watching.sign_practical(
        guard.kitchen(),
        by=guard.person().id,
        signing=_signing(found, form, proved_at, second),
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
            title=message("Practical signed"),
            heading=message("Saved {at}", at=clock_time(found.at)),
            record=record_kept(found, naming()),
            signed_at=moment(found.at),
            seq=found.seq,
            signature=_signature(found),
            shown_minutes=showing.minutes_shown(found),
            shown_url=url_for("assessor.showing.shown", entry=found.id) if showing.can_be_shown(found) else "",
            undo_told=undo_told(found),
            undo_href=undo_href(found),
            off_href=url_for("off.take", cook=found.cook) if found.body["verdict"] == "stopped" else "",
            form=PlainForm(is_fresh=True),
        )
    )


def _signature(entry: Entry) -> tuple[Text, ...]:
    """Return who signed, by which right, and who signed with them."""
    told, second = signature_told(entry.body), second_signed(entry.body, naming())
    return (*told, *second, *signed_told(entry, naming(), ""))


@pages.route("/practicals/<practical>/hand-on", methods=["GET", "POST"])
@guard.needs("assessor")
def hand(practical: str) -> AnyResponse:
    """Hand an open practical to another assessor, who goes on with it and signs."""
    k, found, form = guard.kitchen(), mine(practical), HandOnForm()
    able = who_can_take(found, k.day(guard.today()))
    form.to.offer({who: naming().person(who) for who in able})
    if form.is_sent_right():
        coached = bool(form.coached.data)
        outcome = hand_on(
            k, by=guard.person().id, practical=practical, to=form.to.data, now=guard.now(), coached=coached
        )
        if not isinstance(outcome, Refused):
            return go("assessor.waiting")
        form.refuse(outcome)
    cook, title = naming().person(found.cook), found.titles.technique
    lead = message("{cook}: {technique}. {so_far}", cook=cook, technique=title, so_far=so_far_words(found))
    return show(
        HandOnPage(
            title=message("Hand this on"),
            own_url=url_for(".hand", practical=practical),
            back=url_for("assessor.practical.resume", practical=practical),
            lead=lead,
            can=bool(able),
            form=form,
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


def _asks(practical: Practical) -> Asks:
    """Return what this signature takes of a signer who trained the cook; nothing where the verdict frees nobody."""
    k = guard.kitchen()
    return asks_of(k, practical, k.day(guard.today())) if practical.verdict.word == "meets it" else "nothing"


def _offer_seconds(practical: Practical, form: SignForm) -> None:
    """Put everybody who may sign with the signer on the list."""
    k = guard.kitchen()
    form.second.offer({who: naming().person(who) for who in second_signers(practical, k.day(guard.today()))})


def _second(practical: Practical, form: SignForm) -> Second | None:
    """Return the word of the second to sign, where one is asked for and named and has proved themselves."""
    is_lowered = form.coached.data or form.not_yet.data
    if _asks(practical) != "second" or is_lowered or not form.second.data:
        return None
    return proving.word_of_another(form, form.second.data, "second_secret")


def _signing(practical: Practical, form: SignForm, proved_at: datetime, second: Second | None) -> Signing:
    """Return what is signed."""
    is_lowered = form.not_yet.data and practical.verdict.word == "meets it"
    said: VerdictWord | None = "not yet" if is_lowered else None
    note, why = (form.note.data or "").strip(), form.independence.data or ""
    return Signing(practical.id, proved_at, note, said, bool(form.coached.data), why, second)


def _undo_words(practical: Practical) -> Text:
    """Return until when the signature can be taken back, were it given now, and by whom later."""
    if practical.unsafe:
        return message("A stop is not taken back: a manager releases it.")
    until = clock_time(guard.now() + WRITER_MAY_VOID_FOR)
    return message("Undo until {until}, then a manager can void it.", until=until)


def _record_page(practical: Practical, form: SignForm) -> Response:
    """Return the record with the signature under it."""
    is_taught = practical.technique in reading.content().techniques
    _offer_seconds(practical, form)
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
            asks=_asks(practical),
            told=(*outdated_words(practical), *watched_by_words(practical.cook, practical.technique, practical.part)),
            form=form,
            drop_href=url_for(".drop", practical=practical.id),
            hand_href=url_for(".hand", practical=practical.id),
            was_coached=practical.coached,
            off_words=off_words(practical) if practical.unsafe else "",
            undo_words=_undo_words(practical),
            stop_href="" if practical.unsafe else url_for("assessor.stopping.stop", practical=practical.id),
        )
    )
