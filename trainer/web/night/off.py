"""Taking somebody off a station at once: whom, then which stations and why off a list; the words may come later."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, ClassVar

from flask import Blueprint, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import PasswordField, RadioField, TextAreaField
from wtforms.fields.choices import SelectChoice
from wtforms.validators import StopValidation

from trainer.actions.covering import ServiceCover, service_to_show
from trainer.actions.outcome import Refused
from trainer.actions.standing import LaterWords, TakenOff, add_words, take_off
from trainer.kitchen.off_station import EVERY_STATION, WHY_WORDS
from trainer.kitchen.progress import Person
from trainer.messages import Text, message
from trainer.web import guard, proving, reading
from trainer.web.filters import local
from trainer.web.forms import KitchenForm
from trainer.web.page import Page, go, show
from trainer.web.reading import said
from trainer.web.shell import start_of
from trainer.web.typed_fields import AtMost, NeedsText

pages = Blueprint("off", __name__)


class PickField(RadioField):  # type: ignore[misc]
    """One of a few to press."""

    def __init__(self, label: Text, missing: Text, **kwargs: Any) -> None:  # noqa: ANN401 - WTForms' own arguments
        """Take the words for when nothing is pressed."""
        super().__init__(label, validate_choice=False, **kwargs)
        self.missing = missing

    def offer(self, choices: dict[str, Text]) -> None:
        """Put values with their words on it."""
        self.choices = [SelectChoice(value, said(words)) for value, words in choices.items()]

    def pre_validate(self, form: KitchenForm) -> None:
        """Refuse what is not offered."""
        del form
        if self.data not in {choice.value for choice in self.choices or ()}:
            raise StopValidation(self.missing)


class OffForm(KitchenForm):
    """Which stations, why off the list, words if there is time for them, and the secret."""

    stations = PickField(message("Off"), message("Choose the stations."))
    why = PickField(message("Why"), message("Choose the reason."))
    words = TextAreaField(message("Words"), [AtMost(500)])
    secret = PasswordField(message("Your PIN or passphrase"))


class WordsForm(KitchenForm):
    """What was seen, written later."""

    words = TextAreaField(message("Words"), [NeedsText(message("Write what was seen. It stays in the book."), 500)])


@dataclass(frozen=True, slots=True)
class OnPage:
    """Somebody who may be taken off, with where they are planned."""

    name: str
    where: Text
    href: str


@dataclass(frozen=True, kw_only=True)
class ChoosePage(Page):
    """Whom to take off: who is on first, then everybody else."""

    template: ClassVar[str] = "night/off_whom.html"
    on: tuple[OnPage, ...]
    others: tuple[OnPage, ...]
    back: str


@dataclass(frozen=True, kw_only=True)
class OffPage(Page):
    """The one page of the act."""

    template: ClassVar[str] = "night/off.html"
    own_url: str
    back: str
    name: str
    first_name: str
    form: OffForm
    until: Text


@dataclass(frozen=True, kw_only=True)
class WordsPage(Page):
    """The words for one that stands."""

    template: ClassVar[str] = "night/off_words.html"
    own_url: str
    back: str
    form: WordsForm


@pages.get("/off")
@guard.needs("assessor or manager")
def choose() -> AnyResponse:
    """Show who is on at this service, and everybody else who works a station."""
    places = _places(_shown())
    me, people = guard.person().id, guard.kitchen().people()
    on = [who for who in places if who in people and who != me]
    at_stations = guard.kitchen().progress().at_stations_on(guard.today())
    others = [who for who in people if who in at_stations and who not in places and who != me]
    return show(
        ChoosePage(
            title=message("Who comes off?"),
            on=tuple(_one(people[who], places[who]) for who in on),
            others=tuple(_one(people[who], "") for who in others),
            back=start_of(guard.roles()),
        )
    )


@pages.route("/off/<cook>", methods=["GET", "POST"])
@guard.needs("assessor or manager")
def take(cook: str) -> AnyResponse:
    """Take one person off every station, or off one."""
    who, k = guard.kitchen().people().get(cook), guard.kitchen()
    if who is None:
        abort(404)
    shown = _shown()
    form = OffForm(stations=request.args.get("station", EVERY_STATION))
    _offer(form, _places(shown).get(cook, ""))
    if form.is_sent_right() and proving.is_proved(form):
        stations = () if form.stations.data == EVERY_STATION else (form.stations.data,)
        off = TakenOff(cook, stations, form.why.data, form.words.data or "")
        outcome = take_off(k, by=guard.person().id, off=off, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return go(".taken", entry=outcome.entry.id, saved=outcome.entry.id)
        form.refuse(outcome)
    return show(
        OffPage(
            title=message("Take {name} off", name=who.name),
            own_url=url_for(".take", cook=cook),
            back=url_for(".choose"),
            name=who.name,
            first_name=who.name.split()[0],
            form=form,
            until=_until(shown),
        )
    )


@dataclass(frozen=True, kw_only=True)
class TakenPage(Page):
    """What was done, who lifts it, and the words that may still be written."""

    template: ClassVar[str] = "night/off_taken.html"
    where: Text
    has_words: bool
    words_url: str
    back: str
    is_manager: bool


@pages.get("/off/taken/<entry>")
@guard.needs("assessor or manager")
def taken(entry: str) -> AnyResponse:
    """Show that it counts, and offer the words."""
    found = guard.kitchen().file.book.find(entry)
    if found is None or found.kind != "stood_down" or "stations" not in found.body:
        abort(404)
    who, told = guard.kitchen().people().get(found.cook), found.body["stations"]
    titles = {one.id: one.title for one in reading.content().stations.values()}
    name = who.name if who else found.cook
    return show(
        TakenPage(
            title=message("{name} is off the line", name=name),
            where=message("every station") if told == EVERY_STATION else titles.get(told[0], told[0]),
            has_words=bool(found.body["reason"]),
            words_url=url_for(".words", entry=entry),
            back=start_of(guard.roles()),
            is_manager=guard.is_manager(),
        )
    )


@pages.route("/off/<entry>/words", methods=["GET", "POST"])
@guard.needs("assessor or manager")
def words(entry: str) -> AnyResponse:
    """Write the words that had no time before."""
    found, form = guard.kitchen().file.book.find(entry), WordsForm()
    if found is None or found.kind != "stood_down":
        abort(404)
    if form.is_sent_right():
        later = LaterWords(entry, form.words.data)
        outcome = add_words(guard.kitchen(), by=guard.person().id, later=later, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return go("off.taken", entry=entry, saved=outcome.entry.id)
        form.refuse(outcome)
    who = guard.kitchen().people().get(found.cook)
    return show(
        WordsPage(
            title=message("Words about {name}", name=who.name if who else found.cook),
            own_url=url_for(".words", entry=entry),
            back=start_of(guard.roles()),
            form=form,
        )
    )


def _shown() -> ServiceCover | None:
    """Return the service that runs or comes next."""
    return service_to_show(guard.kitchen(), guard.today(), local(guard.now()), reading.content())[0]


def _places(shown: ServiceCover | None) -> dict[str, str]:
    """Return where everybody on today is planned."""
    is_today = shown is not None and shown.on == guard.today()
    return {one.planned.cook: one.planned.station for one in shown.judged} if shown and is_today else {}


def _until(shown: ServiceCover | None) -> Text:
    """Return by when the words are written: the end of the service."""
    if shown is None or shown.on != guard.today():
        return message("Not needed now: write them before today is over. No illness by name.")
    ends = f"{shown.closes:%H:%M}"
    return message("Not needed now: write them by {time}, when the service ends. No illness by name.", time=ends)


def _one(who: Person, station: str) -> OnPage:
    titles = {one.id: one.title for one in reading.content().stations.values()}
    return OnPage(who.name, titles.get(station, station), url_for(".take", cook=who.id))


def _offer(form: OffForm, planned: str) -> None:
    """Put the stations on the form, where the cook is planned first, and the reasons."""
    stations = sorted(reading.content().stations.values(), key=lambda one: one.id != planned)
    titles: dict[str, Text] = {one.id: message("Only {station}", station=one.title) for one in stations}
    form.stations.offer({EVERY_STATION: message("Every station"), **titles})
    form.why.offer(dict(WHY_WORDS))
