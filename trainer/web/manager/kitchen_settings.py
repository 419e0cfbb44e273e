"""The kitchen's settings on a page: its name, zone, language, units; what a change does is shown before it is saved."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from difflib import get_close_matches
from typing import Any, ClassVar, Literal, cast
from zoneinfo import ZoneInfo, available_timezones

from flask import Blueprint, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import HiddenField, ValidationError

from trainer.actions.kitchen_settings import change_settings
from trainer.actions.outcome import Refused, Saved
from trainer.kitchen.book import canonical, digest_of
from trainer.kitchen.currency import CODES
from trainer.messages import Text, joined, message
from trainer.store.catalogues import languages, name_of
from trainer.store.settings import MOST_NOT_CLEARED_IN_100, Settings
from trainer.web import guard, proving
from trainer.web.filters import weekday
from trainer.web.forms import KitchenForm, TextField
from trainer.web.manager.acts import ActPage
from trainer.web.page import go, show
from trainer.web.proving import LatelyForm, secret_field
from trainer.web.typed_fields import NeedsText, OneOfField, WholeField

pages = Blueprint("kitchen_settings", __name__)
UNITS: dict[str, Text] = {"us": message("lb, oz, quarts, °F first"), "metric": message("g, l, °C first")}
SET_HERE = ("name", "timezone", "language", "units_first", "decimal_mark", "currency", "not_cleared_in_100")
MARKS: dict[str, Text] = {".": message("a point: 2.5"), ",": message("a comma: 2,5")}


class InHundredField(WholeField):
    """So many of a hundred services."""

    def post_validate(self, form: KitchenForm, validation_stopped: bool) -> None:
        """Refuse none, and more than the house may set."""
        super().post_validate(form, validation_stopped)
        if self.number is not None and not 1 <= self.number <= MOST_NOT_CLEARED_IN_100:
            most = MOST_NOT_CLEARED_IN_100
            raise ValidationError(message("{typed} in 100 is not 1 to {most}.", typed=self.number, most=most))


class SettingsForm(LatelyForm):
    """What is set, and the mark of the change as it was shown."""

    name = TextField(message("Name of the kitchen"), [NeedsText(message("Write the name of the kitchen."), 120)])
    timezone = TextField(
        message("Time zone"),
        [NeedsText(message("Write the time zone."), 60)],
        description=message("Like America/New_York or Europe/Rome."),
    )
    language = OneOfField(message("Language"), description=message("Of whoever has chosen none."))
    units_first = OneOfField(message("Units"), description=message("The others stand in brackets."))
    decimal_mark = OneOfField(message("Numbers are written with"))
    currency = TextField(
        message("Currency"),
        [NeedsText(message("Write the currency."), 10)],
        description=message("Three capital letters, such as USD, MXN or EUR."),
    )
    not_cleared_in_100 = InHundredField(
        message("Of 100 services, how many may be run by somebody not cleared"),
        [NeedsText(message("Write a number, 1 to 50."), 6)],
        description=message("1 to 50. Above it the coming nights say so."),
    )
    seen = HiddenField()
    secret = secret_field()

    def validate_timezone(self, field: TextField) -> None:
        """Refuse a zone there is none of, and name the nearest."""
        known = available_timezones()
        if field.data in known:
            return
        near = get_close_matches(field.data.replace(" ", "_"), sorted(known), 1, 0.6)
        words = message("There is no time zone “{typed}”.", typed=field.data[:60])
        more = message("Did you mean {near}?", near=near[0]) if near else message("Write it like America/New_York.")
        raise ValidationError(joined([words, more]))

    def validate_currency(self, field: TextField) -> None:
        """Refuse a currency there is none of."""
        if field.data not in CODES:
            words = message("There is no currency “{typed}”.", typed=field.data[:10])
            raise ValidationError(joined([words, message("Write its three capital letters, such as USD.")]))


@dataclass(frozen=True, kw_only=True)
class SettingsPage(ActPage):
    """The form; once it is filled, what would change."""

    template: ClassVar[str] = "manager/settings.html"
    changes: tuple[Text, ...]


@pages.route("/settings", methods=["GET", "POST"])
@guard.needs("manager")
def settings() -> AnyResponse:
    """Show the kitchen's settings; show what a change does, then save it."""
    k = guard.kitchen()
    before = k.file.settings
    form = _form(before)
    if not form.is_sent_right():
        form.seen.data = ""
        return _shown(form, ())
    there = k.file.book.find_key(str(form.key.data))
    if there is not None and there.kind == "kitchen_set":
        return go(".settings", saved=there.id)
    wanted = _wanted(form, before)
    changes = tuple(_changes(before, wanted, guard.now()))
    saved = _saved(form, before, wanted) if changes else None
    if saved is not None:
        return go(".settings", saved=saved.entry.id)
    if not changes:
        form.refuse(message("These are the kitchen's settings already."))
    form.seen.data = _mark(before, wanted) if changes else ""
    return _shown(form, changes)


def _saved(form: SettingsForm, before: Settings, wanted: Settings) -> Saved | None:
    """Save a change that was shown and is proved; None where it is still to be, or was refused on the form."""
    shown = form.seen.data
    if shown and shown != _mark(before, wanted):
        form.refuse(message("This is not the change that was shown. Look at it, then save it."))
    elif shown and proving.is_proved(form):
        k, by = guard.kitchen(), guard.person().id
        outcome = change_settings(k, settings=wanted, now=guard.now(), key=form.key.data, by=by)
        if not isinstance(outcome, Refused):
            return outcome
        form.refuse(outcome)
    return None


def _shown(form: SettingsForm, changes: tuple[Text, ...]) -> AnyResponse:
    """Return the page: the form, and once there are changes what each does, with the secret to save them."""
    if changes:
        proving.leave_out(form)
    else:
        del form.secret
    heading = message("Settings of the kitchen")
    page = SettingsPage(
        title=heading,
        heading=heading,
        lead=message("What a change does is shown first. Each change is an entry in the book."),
        own_url=request.path,
        back=url_for("board.tonight"),
        back_words=message("Back, and change nothing"),
        words=message("Save this change") if changes else message("Show what changes"),
        form=form,
        changes=changes,
    )
    return show(page)


def _form(before: Settings) -> SettingsForm:
    there: dict[str, Any] = {name: getattr(before, name) for name in SET_HERE}
    form = SettingsForm(**{**there, "not_cleared_in_100": str(before.not_cleared_in_100)})
    form.language.offer({tag: name_of(tag) for tag in languages()}, "")
    form.units_first.offer(UNITS, "")
    form.decimal_mark.offer(MARKS, "")
    return form


def _wanted(form: SettingsForm, before: Settings) -> Settings:
    return replace(
        before,
        name=form.name.data,
        timezone=form.timezone.data,
        language=form.language.data,
        units_first=cast('Literal["us", "metric"]', form.units_first.data),
        decimal_mark=cast('Literal[".", ","]', form.decimal_mark.data),
        currency=form.currency.data,
        not_cleared_in_100=form.not_cleared_in_100.number or 0,
    )


def _mark(before: Settings, wanted: Settings) -> str:
    """Return what stands for a change as it was shown: from what, and to what."""
    told = {name: [str(getattr(one, name)) for one in (before, wanted)] for name in SET_HERE}
    return digest_of(canonical(told).encode())


def _changes(before: Settings, wanted: Settings, now: datetime) -> Iterator[Text]:
    """Yield what each change does, in words."""
    if wanted.name != before.name:
        yield _change(
            message("Name"), before.name, wanted.name, message("It stands on every page and print from then on.")
        )
    if wanted.timezone != before.timezone:
        there = now.astimezone(ZoneInfo(wanted.timezone))
        does = message(
            "It is {time} on {day} there. Days already in the book stay as they are.",
            time=f"{there:%H:%M}",
            day=weekday(there.date()),
        )
        yield _change(message("Time zone"), before.timezone, wanted.timezone, does)
    if wanted.language != before.language:
        does = message("Whoever has chosen a language keeps it.")
        yield _change(message("Language"), name_of(before.language), name_of(wanted.language), does)
    if wanted.units_first != before.units_first:
        does = message("Whoever has chosen units keeps them. No standard and no limit changes.")
        yield _change(message("Units"), UNITS[before.units_first], UNITS[wanted.units_first], does)
    if wanted.decimal_mark != before.decimal_mark:
        does = message("Numbers already in the book stay as they are.")
        yield _change(message("Numbers are written with"), MARKS[before.decimal_mark], MARKS[wanted.decimal_mark], does)
    if wanted.currency != before.currency:
        does = message("Prices keep their figures: nothing is converted.")
        yield _change(message("Currency"), before.currency, wanted.currency, does)
    if wanted.not_cleared_in_100 != before.not_cleared_in_100:
        was, will_be = (f"{one.not_cleared_in_100}" for one in (before, wanted))
        does = message("The coming nights say so from then on; what is closed stays as it is.")
        yield _change(message("Run by somebody not cleared, of 100"), was, will_be, does)


def _change(what: Text, before: Text, after: Text, does: Text) -> Text:
    told = message("{what}: {before} → {after}", what=what, before=before, after=after)
    return message("{told}. {does}", told=told, does=does)
