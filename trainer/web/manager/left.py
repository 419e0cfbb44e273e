"""People who left: how long they are kept, whom a setting would erase on which day, and erasing them in one act."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from flask import Blueprint, Response, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import PasswordField
from wtforms.fields.choices import SelectChoice

from trainer.actions.erasing import export_of, held_about
from trainer.actions.outcome import Refused, Saved
from trainer.actions.people_on_record import Written
from trainer.actions.retention import (
    NEVER_WORD,
    PROPOSED_YEARS,
    Leaver,
    erase_leavers,
    kept_for,
    kept_long_enough,
    law_on,
    leavers,
    read_years,
    set_years,
    years_kept,
)
from trainer.kitchen.book import digest_of
from trainer.messages import Text, joined, message
from trainer.web import guard, proving
from trainer.web.forms import KitchenForm, PlainForm, TextField
from trainer.web.manager.acts import TicksField
from trainer.web.page import Page, go, show
from trainer.web.reading import said
from trainer.web.typed_fields import NeedsText

pages = Blueprint("left", __name__)
CHANGED = message("The list has changed since it was shown. Look at it again. Nobody was erased.")


class EraseLeftForm(KitchenForm):
    """That what is held was saved, how many are erased, and a manager's own secret."""

    saved = TicksField(
        message("Before that"), choices=[SelectChoice("yes", message("I have saved all that is held about them."))]
    )
    number = TextField(
        message("How many people are erased"), [NeedsText(message("Type how many people are erased."), 10)]
    )
    secret = PasswordField(
        message("Your PIN or passphrase"), description=message("Asked again: nobody brings it back.")
    )


@dataclass(frozen=True, slots=True)
class LeaverShown:
    """Somebody who left: their name, their page, when they left, and from when they may be erased."""

    name: str
    href: str
    left: date
    erased_from: date


@dataclass(frozen=True, kw_only=True)
class LeftPage(Page):
    """What is set, or would be, and everybody who has left; `is_preview` where nothing of it is set yet.

    `never` is the reader's word for keeping everybody, `typed` is what stands in the field of years, `refused` what is
    wrong with it, `erase_url` where those who were kept long enough are erased, with `erasable` many.
    """

    template: ClassVar[str] = "manager/left.html"
    kept: Text
    is_preview: bool
    law: Text
    proposed: Text
    never: Text
    typed: str
    refused: Text
    long_enough: tuple[LeaverShown, ...]
    still: tuple[LeaverShown, ...]
    erasable: int
    erase_url: str
    own_url: str
    set_url: str
    back: str
    form: PlainForm


@dataclass(frozen=True, kw_only=True)
class EraseLeftPage(Page):
    """Whom it is about, what would stay of theirs, and what has to be done first."""

    template: ClassVar[str] = "manager/erase_left.html"
    kept: Text
    law: Text
    people: tuple[LeaverShown, ...]
    older: int
    export_url: str
    own_url: str
    back: str
    form: EraseLeftForm


@pages.route("/left", methods=["GET", "POST"])
@guard.needs("manager")
def listed() -> AnyResponse:
    """Show who has left and what a setting would do to them; set it."""
    k, form, typed = guard.kitchen(), PlainForm(), request.args.get("years", "").strip()
    asked = read_years(typed, str(said(NEVER_WORD))) if typed else years_kept(k)
    if typed and not isinstance(asked, Refused) and form.is_sent_right():
        outcome = set_years(k, asked, Written(guard.person().id, guard.now(), form.key.data))
        if isinstance(outcome, Saved):
            return go(".listed", saved=outcome.entry.id)
        form.refuse(outcome)
    return show(_listed(typed, asked, form))


def _listed(typed: str, asked: int | Refused | None, form: PlainForm) -> LeftPage:
    """Return the page for years asked about; for what is no number of years, the page of what is set."""
    k, today = guard.kitchen(), guard.today()
    refused = asked.reason if isinstance(asked, Refused) else ""
    now_set = years_kept(k)
    years = now_set if isinstance(asked, Refused) else asked
    found = leavers(k, years or PROPOSED_YEARS, guard.now())
    due = () if now_set is None else (one for one in leavers(k, now_set, guard.now()) if one.erased_from <= today)
    is_preview = bool(typed) and not refused
    return LeftPage(
        title=message("People who left"),
        kept=kept_for(years),
        is_preview=is_preview,
        law=law_on(years),
        proposed="" if years else message("With {number} years, a proposal, it would be:", number=PROPOSED_YEARS),
        never=NEVER_WORD,
        typed=typed[:40],
        refused=refused,
        long_enough=_shown(one for one in found if one.erased_from <= today),
        still=_shown(one for one in found if one.erased_from > today),
        erasable=0 if is_preview else len(tuple(due)),
        erase_url=url_for(".erase"),
        own_url=url_for(".listed"),
        set_url=url_for(".listed", years=typed) if is_preview else "",
        back=url_for("manager.people"),
        form=form,
    )


def _shown(people: Iterable[Leaver]) -> tuple[LeaverShown, ...]:
    return tuple(
        LeaverShown(one.name, url_for("manager.person", cook=one.cook), one.left, one.erased_from) for one in people
    )


@pages.get("/left/held")
@guard.needs("manager")
def held() -> AnyResponse:
    """Hand over all that is held about those who were kept long enough, as one file."""
    k, now = guard.kitchen(), guard.now()
    found = kept_long_enough(k, now)
    if isinstance(found, Refused):
        return go(".listed")
    text = json.dumps([export_of(k, one.cook, now) for one in found], ensure_ascii=False, indent=1)
    sent = Response(text, mimetype="application/json")
    sent.headers["Content-Disposition"] = f'attachment; filename="left-{guard.today().isoformat()}.json"'
    return sent


@pages.route("/left/erase", methods=["GET", "POST"])
@guard.needs("manager")
def erase() -> AnyResponse:
    """Erase everybody who was kept long enough by what is set."""
    k, form = guard.kitchen(), EraseLeftForm()
    found = kept_long_enough(k, guard.now())
    if isinstance(found, Refused) or not found:
        return go(".listed")
    shown = _digest(found)
    if form.is_sent_right() and proving.proved_now(form) is not None:
        refusal = _unread(form, found, shown)
        if refusal is None:
            return _erased(form, found)
        form.refuse(refusal)
    return show(
        EraseLeftPage(
            title=message("Erase those kept long enough"),
            kept=kept_for(years_kept(k)),
            law=law_on(years_kept(k)),
            people=_shown(found),
            older=sum(held_about(k, one.cook).older_texts for one in found),
            export_url=url_for(".held"),
            own_url=url_for(".erase", shown=shown),
            back=url_for(".listed"),
            form=form,
        )
    )


def _digest(people: Iterable[Leaver]) -> str:
    """Return a short digest of whom a list names, so that another list is known for one."""
    return digest_of(" ".join(sorted(one.cook for one in people)).encode())[:16]


def _unread(form: EraseLeftForm, found: tuple[Leaver, ...], shown: str) -> Refused | None:
    """Return what shows that the list was not read, or what is held not saved."""
    if request.args.get("shown") != shown:
        return Refused(CHANGED)
    if not form.saved.data:
        return Refused(message("Save all that is held about them first. Nothing was erased."), field="saved")
    typed = (form.number.data or "").strip()
    if typed != str(len(found)):
        wrong = message("“{typed}” is not {number}.", typed=typed, number=len(found))
        return Refused(joined([wrong, message("Nobody was erased.")]), field="number")
    return None


def _erased(form: EraseLeftForm, found: tuple[Leaver, ...]) -> AnyResponse:
    """Erase them, and go where it says so; to those who could not be, with the reason."""
    written = Written(guard.person().id, guard.now(), form.key.data)
    done = erase_leavers(guard.kitchen(), found, written, lambda _one, _held: None)
    refused = [(one, outcome) for one, outcome in done if isinstance(outcome, Refused)]
    if not refused:
        last = done[-1][1]
        return go("manager.book.newest", saved=last.entry.id if isinstance(last, Saved) else "")
    again = PlainForm(is_fresh=True)
    for one, why in refused:
        again.refuse(message("{name} was not erased: {reason}", name=one.name, reason=why.reason))
    return show(_listed("", years_kept(guard.kitchen()), again))
