"""Authority in writing on screen: who may sign what, to when, renewed, narrowed and ended; who could on any day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from flask import Blueprint, Response, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import RadioField, TextAreaField
from wtforms.fields.choices import SelectChoice
from wtforms.validators import StopValidation

from trainer.actions import authorizing
from trainer.actions.outcome import Outcome, Refused
from trainer.kitchen.authority import ASSESSOR, EVERYTHING, MAY, RENEW_DAYS, Authority, Scope, latest_end
from trainer.kitchen.entitlement import Signer, Snapshot, signers
from trainer.kitchen.names import name_key
from trainer.kitchen.spans import in_words
from trainer.messages import Text, joined, message
from trainer.web import guard, proving, reading
from trainer.web.authority_words import MAY_WORDS, scope_told
from trainer.web.entry_words import Naming
from trainer.web.filters import weekday
from trainer.web.forms import KitchenForm
from trainer.web.manager.acts import ActPage, TicksField
from trainer.web.page import Page, go, show
from trainer.web.proving import LatelyForm, secret_field
from trainer.web.typed_fields import AS_ISO, DayField, NeedsText

pages = Blueprint("authority", __name__)
SCOPES = {
    "everything": message("Every station"),
    "stations": message("Only these stations"),
    "techniques": message("Only these techniques, wherever they are asked for"),
}
NOTHING = "nothing"


class RenewForm(LatelyForm):
    """Whose authority goes on: one list, one proof."""

    renewed = TicksField(message("Renew for 24 months"), choices=[], validate_choice=False)
    secret = secret_field()


class AuthorityForm(LatelyForm):
    """What an assessor may sign, and to which day."""

    scope = RadioField(message("May sign at"), choices=[], validate_choice=False)
    stations = TicksField(message("Stations"), choices=[])
    techniques = TicksField(message("Techniques"), choices=[])
    may = TicksField(message("May"), choices=[SelectChoice(act, MAY_WORDS[act]) for act in MAY])
    until = DayField(
        message("Good to"), description=message("Year, month, day. Empty: 24 months from today, the longest there is.")
    )
    reason = TextAreaField(message("Reason"), [NeedsText(message("Write the reason. It stays in the book."))])
    secret = secret_field()

    def offer(self, *, with_nothing: bool) -> None:
        """Put what may be chosen on the lists."""
        content = reading.content()
        scopes = {**SCOPES, NOTHING: message("Nothing more: it ends today")} if with_nothing else SCOPES
        self.scope.choices = [SelectChoice(value, words) for value, words in scopes.items()]
        self.stations.choices = [SelectChoice(one.id, one.title) for one in content.stations.values()]
        self.techniques.choices = [SelectChoice(one.id, one.title) for one in content.techniques.values()]
        if not with_nothing:
            del self.reason

    def validate_scope(self, field: RadioField) -> None:
        """Refuse what is not on the list, and nothing at all."""
        if field.data not in {choice.value for choice in field.choices}:
            raise StopValidation(message("Choose what may be signed."))

    @property
    def wanted(self) -> Scope:
        """Return what was chosen."""
        if self.scope.data == "everything":
            return EVERYTHING
        if self.scope.data == "stations":
            return Scope(stations=tuple(self.stations.data or ()))
        return Scope(techniques=tuple(self.techniques.data or ()))


@dataclass(frozen=True, slots=True)
class AuthorityLine:
    """One authority of one assessor: what it covers, to when, and where it is changed (not one's own)."""

    name: str
    covers: Text
    until: Text
    href: str


@dataclass(frozen=True, kw_only=True)
class AuthorityPage(Page):
    """Who may sign what today; those whose authority ends soon in a list to renew."""

    template: ClassVar[str] = "manager/authority.html"
    lines: tuple[AuthorityLine, ...]
    form: RenewForm
    own_url: str
    ending: bool
    signers_url: str


@dataclass(frozen=True, slots=True)
class SignerLine:
    """Who could sign: what, to when, and by which entries, each with its place in the book."""

    name: str
    what: Text
    until: Text
    entries: tuple[tuple[int, str], ...]


@dataclass(frozen=True, kw_only=True)
class SignersPage(Page):
    """Who could sign at each station on a day."""

    template: ClassVar[str] = "manager/signers.html"
    on: str
    problem: Text
    own_url: str
    stations: tuple[tuple[str, tuple[SignerLine, ...]], ...]
    back: str


@pages.route("/authority", methods=["GET", "POST"])
@guard.needs("manager")
def listed() -> AnyResponse:
    """Show every authority, and renew those that end within 30 days in one list."""
    k, form = guard.kitchen(), RenewForm()
    day = k.day(guard.today())
    _offer_renewals(form, day)
    if form.is_sent_right() and proving.is_proved(form):
        renewed = [tuple(value.split(" ", 1)) for value in form.renewed.data or [] if " " in value]
        outcome = authorizing.renew_authorities(
            k, by=guard.person().id, renewed=renewed, now=guard.now(), key=form.key.data
        )
        if not isinstance(outcome, Refused):
            return go(".listed", saved=outcome.entry.id)
        form.refuse(outcome)
    proving.leave_out(form)
    return show(
        AuthorityPage(
            title=message("Who may sign"),
            lines=tuple(_lines(day)),
            form=form,
            own_url=request.path,
            ending=bool(form.renewed.choices),
            signers_url=url_for(".could_sign"),
        )
    )


def _offer_renewals(form: RenewForm, day: Snapshot) -> None:
    """Put on the list what ends within 30 days, but for one's own."""
    soon = [
        SelectChoice(
            f"{cook} {one.entry}",
            message(
                "{name}: {covers}, to {until}",
                name=day.name(cook),
                covers=scope_told(one.scope, Naming(day.people, reading.content())),
                until=weekday(one.until),
            ),
        )
        for cook in _assessors(day)
        for one in day.authorities(cook)
        if one.until is not None and (one.until - day.on).days <= RENEW_DAYS and cook != guard.person().id
    ]
    form.renewed.choices = soon


def _assessors(day: Snapshot) -> list[str]:
    """Return the assessors of the day, by name."""
    found = [cook for cook in day.progress.cooks_on(day.on) if ASSESSOR in day.roles(cook)]
    return sorted(found, key=lambda cook: name_key(day.name(cook)))


def _lines(day: Snapshot) -> list[AuthorityLine]:
    """Return a line an authority, and one for an assessor who has none."""
    lines = []
    for cook in _assessors(day):
        found = day.authorities(cook)
        lines += [_line(cook, one, day) for one in found]
        if not found:
            href = _change_url(cook, "new")
            lines.append(AuthorityLine(day.name(cook), message("No authority in force"), "", href))
    return lines


def _line(cook: str, one: Authority, day: Snapshot) -> AuthorityLine:
    until = message("to {until}", until=weekday(one.until)) if one.until else message("without end")
    covers = scope_told(one.scope, Naming(day.people, reading.content()))
    if len(one.may) < len(MAY):
        covers = message("{covers}: {acts}", covers=covers, acts=joined((MAY_WORDS[act] for act in one.may), ", "))
    return AuthorityLine(day.name(cook), covers, until, _change_url(cook, one.entry))


def _change_url(cook: str, entry: str) -> str:
    """Return where an authority is changed; nothing for one's own."""
    return "" if cook == guard.person().id else url_for(".change", cook=cook, entry=entry)


@pages.route("/cooks/<cook>/authority/<entry>", methods=["GET", "POST"])
@guard.needs("manager")
def change(cook: str, entry: str) -> AnyResponse:
    """Narrow or end an authority, or give one to an assessor who has none (`new`)."""
    k = guard.kitchen()
    who, day = k.people().get(cook), k.day(guard.today())
    old = next((one for one in day.authorities(cook) if one.entry == entry), None)
    if who is None or (old is None and entry != "new" and request.method == "GET"):
        abort(404)
    chosen = (
        ""
        if old is None
        else "everything"
        if old.scope.everything
        else ("stations" if old.scope.stations else "techniques")
    )
    scope = old.scope if old else EVERYTHING
    may = list(old.may if old else MAY)
    form = AuthorityForm(scope=chosen, stations=scope.stations, techniques=scope.techniques, may=may)
    form.offer(with_nothing=entry != "new")
    if form.is_sent_right() and proving.is_proved(form):
        outcome = _kept(form, cook, entry)
        if not isinstance(outcome, Refused):
            return go(".listed", saved=outcome.entry.id)
        form.refuse(outcome)
    return _change_page(form, who.name, entry)


def _kept(form: AuthorityForm, cook: str, entry: str) -> Outcome:
    """Return what came of the form."""
    k, by, now, key = guard.kitchen(), guard.person().id, guard.now(), form.key.data
    today = guard.today()
    until = form.until.day or latest_end(today)
    given = authorizing.NewAuthority(cook, form.wanted, today, until, tuple(form.may.data or ()))
    if entry == "new":
        return authorizing.give_authority(k, by=by, given=given, now=now, key=key)
    instead = None if form.scope.data == NOTHING else given
    ending = authorizing.Ending(cook, entry, form.reason.data, instead)
    return authorizing.end_authority(k, by=by, ending=ending, now=now, key=key)


def _change_page(form: KitchenForm, name: str, entry: str) -> Response:
    """Return the page on which an authority is given or changed."""
    proving.leave_out(form)
    heading = message("What {name} may sign", name=name)
    lead = message("A signature takes this, and a clearance or a grant at the station. What was signed before stays.")
    return show(
        ActPage(
            title=heading,
            heading=heading,
            lead=lead,
            own_url=request.path,
            back=url_for(".listed"),
            back_words=message("Back, and change nothing"),
            words=message("Give this authority") if entry == "new" else message("Change this authority"),
            form=form,
        )
    )


@pages.get("/signers")
@guard.needs("manager")
def could_sign() -> Response:
    """Show who could sign at each station on the day asked, today if none is."""
    k, typed = guard.kitchen(), request.args.get("on", "")[:20].strip()
    on, problem = _day_asked(typed)
    day = k.day(on)
    stations = tuple(
        (Naming(day.people, reading.content()).station(one.id), _signer_lines(signers(one, day), day))
        for one in day.rules.stations.values()
    )
    title = message("Who could sign on {day}?", day=in_words(on))
    return show(
        SignersPage(
            title=title,
            on=typed or on.isoformat(),
            problem=problem,
            own_url=url_for(".could_sign"),
            stations=stations,
            back=url_for(".listed"),
        )
    )


def _day_asked(typed: str) -> tuple[date, Text]:
    """Return the day asked for; today, with what is wrong, where it is none."""
    try:
        return (date.fromisoformat(typed) if typed else guard.today()), ""
    except ValueError:
        return guard.today(), joined([message("“{typed}” is not a day.", typed=typed), AS_ISO])


def _signer_lines(found: tuple[Signer, ...], day: Snapshot) -> tuple[SignerLine, ...]:
    return tuple(_signer_line(one, day) for one in found)


def _signer_line(one: Signer, day: Snapshot) -> SignerLine:
    """Return who could sign there, in words."""
    book, naming = guard.kitchen().file.book, Naming(day.people, reading.content())
    entries = [entry.seq for entry in map(book.find, one.because) if entry is not None]
    techniques = joined((naming.technique(name) for name in one.techniques), ", ")
    shifts = message("supervised shifts")
    return SignerLine(
        name=day.name(one.cook),
        what=joined(
            [techniques, shifts] if one.shifts and one.techniques else [shifts if one.shifts else techniques], ", "
        ),
        until=message("to {until}", until=weekday(one.until)) if one.until else message("without end"),
        entries=tuple((seq, url_for("manager.book.newest", before=seq + 1)) for seq in sorted(entries)),
    )
