"""The standard: what the kitchen asks, since when, and what publishing the files as they are now would cost."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from flask import Blueprint, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import HiddenField, PasswordField

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.publishing import NOTHING_NEW, Preview, Publishing, preview, publish
from trainer.actions.teaching import Draft
from trainer.kitchen.spans import in_words
from trainer.kitchen.standard_cost import Loss, cost_words
from trainer.messages import Text, joined, message
from trainer.web import guard, proving, reading
from trainer.web.forms import KitchenForm
from trainer.web.manager.acts import ASKED_AGAIN
from trainer.web.page import Page, go, show
from trainer.web.typed_fields import AS_ISO, DayField

pages = Blueprint("standard", __name__)
PATHS_SHOWN = 12


class PublishForm(KitchenForm):
    """From which day, and the manager's own secret; `previewed` says which preview was looked at."""

    since = DayField(message("First day"), description=message("Year, month, day. Leave it empty for today."))
    previewed = HiddenField()
    secret = PasswordField(message("Your PIN or passphrase"), description=ASKED_AGAIN)


@dataclass(frozen=True, slots=True)
class Change:
    """What publishing the files as they are would do: the files, the cost in a sentence, who loses what."""

    digest: str
    words: Text
    button: Text
    paths: tuple[str, ...]
    more_paths: int
    cost: Text
    losses: tuple[Text, ...]


@dataclass(frozen=True, kw_only=True)
class StandardPage(Page):
    """The standards published, and the change that the files would make; without one, why there is none."""

    template: ClassVar[str] = "manager/standard.html"
    published: tuple[Text, ...]
    change: Change | None
    no_change: Text
    is_halted: bool
    own_url: str
    form: PublishForm


@pages.route("/standard", methods=["GET", "POST"])
@guard.needs("manager")
def standard() -> AnyResponse:
    """Show what publishing would change from a day on; publish it."""
    k, form = guard.kitchen(), PublishForm(since=request.args.get("since", "")[:40])
    if k.teaching is None:
        abort(404)
    draft = k.teaching.draft()
    if form.is_sent_right() and proving.is_proved(form):
        publishing = Publishing(draft, form.since.day, form.previewed.data or "")
        outcome = publish(k, by=guard.person().id, publishing=publishing, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return go(".standard", saved=outcome.entry.id)
        form.refuse(outcome)
    return _shown(k, form, draft)


def _shown(k: Kitchen, form: PublishForm, draft: Draft) -> AnyResponse:
    """Return the page for the day asked about; a day that cannot be read shows what publishing today would do."""
    found = preview(k, draft=draft, since=_asked(form), now=guard.now())
    if isinstance(found, Refused) and found.field == "since":
        form.refuse(found)
        found = preview(k, draft=draft, since=None, now=guard.now())
    change = _change(k, found) if isinstance(found, Preview) else None
    form.previewed.data = change.digest if change else ""
    return show(
        StandardPage(
            title=message("The standard"),
            published=tuple(_published(k)),
            change=change,
            no_change=joined([found.reason, found.who_can]) if isinstance(found, Refused) else "",
            is_halted=isinstance(found, Refused) and found != NOTHING_NEW,
            own_url=url_for(".standard"),
            form=form,
        )
    )


def _asked(form: PublishForm) -> date | None:
    """Return the day asked about, in the address or in the form; None for today, and for one that cannot be read."""
    typed = form.since.data or ""
    try:
        return date.fromisoformat(typed) if typed else None
    except ValueError:
        if not form.since.errors:
            words = message("“{typed}” is not a day.", typed=typed[:40])
            form.refuse(Refused(joined([words, AS_ISO]), field="since"))
        return None


def _change(k: Kitchen, found: Preview) -> Change:
    """Return a preview in words."""
    words = message(
        "Standard {number} would count from {day} on. It changes these files:",
        number=found.number,
        day=in_words(found.since),
    )
    return Change(
        digest=found.digest,
        words=words,
        button=message("Publish standard {number}", number=found.number),
        paths=found.paths[:PATHS_SHOWN],
        more_paths=max(0, len(found.paths) - PATHS_SHOWN),
        cost=message("Only words and drawings change: nobody loses a clearance.")
        if found.is_words_only
        else cost_words(found.cost, found.since),
        losses=tuple(_loss(k, loss) for loss in found.cost.losses),
    )


def _loss(k: Kitchen, loss: Loss) -> Text:
    """Return whose clearance would be lost, where, and what would be missing."""
    people, station = k.people(), reading.content().stations.get(loss.station)
    return message(
        "{name}, {station}: {missing}",
        name=people[loss.cook].name if loss.cook in people else loss.cook,
        station=station.title if station else loss.station,
        missing=joined([each.text for each in loss.missing]) or message("the station is no more"),
    )


def _published(k: Kitchen) -> Iterator[Text]:
    """Yield every standard, the newest first, with the day it counts from and who published it when."""
    people = k.people()
    for entry in reversed(k.file.book.of_kind("standard_published")):
        yield message(
            "Standard {number}, from {since} on. Published on {day} by {name}.",
            number=entry.body["number"],
            since=in_words(date.fromisoformat(entry.body["since"])),
            day=in_words(entry.day),
            name=people[entry.by].name if entry.by in people else message("this machine"),
        )
