"""What a manager does about a person, one page an act: roles, papers, standing down, a first code, leaving."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import PasswordField, SelectMultipleField, TextAreaField
from wtforms.fields.choices import SelectChoice
from wtforms.widgets import CheckboxInput, ListWidget

from trainer.actions import certifying, lifting, releasing, signing_in, standing
from trainer.actions.handing_back import coming_places
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.two_people import Waits
from trainer.kitchen.certificates import HOUSE_PAPERS
from trainer.kitchen.nights import Place
from trainer.kitchen.off_station import EVERY_STATION
from trainer.kitchen.progress import Person
from trainer.kitchen.record import Watched
from trainer.kitchen.requirements import stop_in_words
from trainer.kitchen.roles import ROLE_HEADINGS, ROLES
from trainer.kitchen.stops import standing_stops
from trainer.kitchen.technique import Content
from trainer.messages import Text, message
from trainer.web import guard, proving, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import weekday
from trainer.web.forms import KitchenForm, TextField
from trainer.web.page import Page, go, show
from trainer.web.proving import LatelyForm, secret_field
from trainer.web.typed_fields import DayField, NeedsText, OneOfField, WholeField

pages = Blueprint("acts", __name__)
ASKED_AGAIN = message("Asked again, since this changes what somebody may do.")


class TicksField(SelectMultipleField):  # type: ignore[misc]
    """Several to tick, each on its own line."""

    widget = ListWidget(prefix_label=False)
    option_widget = CheckboxInput()


class RolesForm(KitchenForm):
    """The roles of one person."""

    roles = TicksField(
        message("Roles"),
        choices=[SelectChoice(role, ROLE_HEADINGS[role]) for role in ROLES],
    )
    secret = PasswordField(message("Your PIN or passphrase"), description=ASKED_AGAIN)


class PaperForm(LatelyForm):
    """A certificate, as the paper says."""

    certificate = OneOfField(message("Certificate"))
    number = TextField(message("Number on the paper"), [NeedsText(message("Write the number on the paper."), 80)])
    issued = DayField(
        message("Issued"), [NeedsText(message("Write the day of issue."))], description=message("Year, month, day.")
    )
    expires = DayField(
        message("Good to"), description=message("Year, month, day. Leave it empty when the paper names no end.")
    )
    secret = secret_field()


class StandingForm(LatelyForm):
    """A station, and why."""

    station = OneOfField(message("Station"))
    reason = TextAreaField(message("Reason"), [NeedsText(message("Write the reason. It stays in the book."))])
    secret = secret_field()


class GrantForm(KitchenForm):
    """A station nobody is cleared on yet, opened for an assessor."""

    station = OneOfField(message("Station"))
    until = DayField(
        message("Good to"),
        [NeedsText(message("Write the last day of the grant."))],
        description=message("Year, month, day."),
    )
    reason = TextAreaField(message("Reason"), [NeedsText(message("Write the reason. It stays in the book."))])
    secret = PasswordField(message("Your PIN or passphrase"), description=ASKED_AGAIN)


class ReasonForm(LatelyForm):
    """Why."""

    reason = TextAreaField(message("Reason"), [NeedsText(message("Write the reason. It stays in the book."))])
    secret = secret_field()


class ReleaseForm(KitchenForm):
    """Who showed the cook what before a stop is released, and a manager's own secret, however lately it was given."""

    taught_by = OneOfField(message("Who showed it again"))
    what = TextAreaField(
        message("What was shown"), [NeedsText(message("Write what was shown. It stays in the book."), 500)]
    )
    minutes = WholeField(message("Minutes"), [NeedsText(message("Write for how many minutes."))])
    retry_from = DayField(
        message("To be watched again from"), description=message("Year, month, day. Empty: tomorrow, the earliest.")
    )
    secret = PasswordField(message("Your PIN or passphrase"), description=ASKED_AGAIN)


class ConfirmForm(KitchenForm):
    """A manager's own secret, asked again."""

    secret = PasswordField(message("Your PIN or passphrase"), description=ASKED_AGAIN)


@dataclass(frozen=True, kw_only=True)
class ActPage(Page):
    """One act with its form: what it does, the fields, the button that does it."""

    template: ClassVar[str] = "manager/act.html"
    heading: Text
    lead: Text
    own_url: str
    back: str
    back_words: Text
    words: Text
    form: KitchenForm


@dataclass(frozen=True, kw_only=True)
class LeavesPage(ActPage):
    """The form, and the coming places that are handed back with it."""

    template: ClassVar[str] = "manager/leaves.html"
    coming: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class Asking:
    """The words around one act on one person."""

    cook: str
    heading: Text
    lead: Text
    words: Text


@pages.route("/cooks/<cook>/roles", methods=["GET", "POST"])
@guard.needs("manager")
def roles(cook: str) -> AnyResponse:
    """Change what a person is: cook, assessor, manager."""
    who, k = known_person(cook), guard.kitchen()
    form = RolesForm(roles=sorted(k.progress().roles(cook, guard.today())))
    lead = message(
        "An assessor signs practicals at stations they are cleared on. A manager keeps roster, papers and rights."
    )

    def save() -> Outcome | Waits:
        change = standing.NewRoles(cook, form.roles.data or [])
        return standing.change_roles(k, by=guard.person().id, change=change, now=guard.now(), key=form.key.data)

    return show_act(
        form, Asking(cook, message("Roles of {name}", name=who.name), lead, message("Change the roles")), save
    )


@pages.route("/cooks/<cook>/certificates/new", methods=["GET", "POST"])
@guard.needs("manager")
def certificate(cook: str) -> AnyResponse:
    """Write down a paper a person showed."""
    who, k = known_person(cook), guard.kitchen()
    form = PaperForm()
    naming = Naming(k.people(), reading.content())
    asked = {paper.id for station in reading.content().stations.values() for paper in station.certificates}
    asked |= set(HOUSE_PAPERS)
    form.certificate.offer({paper: naming.certificate(paper) for paper in sorted(asked)})

    def save() -> Outcome:
        if form.issued.day is None:
            return Refused(message("Write the day of issue."), field="issued")
        paper = certifying.Paper(cook, form.certificate.data, form.number.data, form.issued.day, form.expires.day)
        return certifying.show_certificate(k, by=guard.person().id, paper=paper, now=guard.now(), key=form.key.data)

    lead = message("Write down what the paper itself says. Look at the paper, not at a photo of it.")
    return show_act(
        form,
        Asking(cook, message("A certificate of {name}", name=who.name), lead, message("Keep this certificate")),
        save,
    )


@pages.route("/cooks/<cook>/put-back", methods=["GET", "POST"])
@guard.needs("manager")
def put_back(cook: str) -> AnyResponse:
    """Put a person back on a station, with a reason."""
    who, form = known_person(cook), StandingForm(station=request.args.get("station", EVERY_STATION))
    titles: dict[str, Text] = {station.id: station.title for station in reading.content().stations.values()}
    form.station.offer({EVERY_STATION: message("Every station"), **titles})

    def save() -> Outcome:
        stations = () if form.station.data == EVERY_STATION else (form.station.data,)
        back = standing.PutBack(cook, stations, form.reason.data.strip())
        return standing.put_back(guard.kitchen(), by=guard.person().id, back=back, now=guard.now(), key=form.key.data)

    lead = message("What they had shown counts again, as far as it is still good.")
    return show_act(form, Asking(cook, message("Put {name} back", name=who.name), lead, message("Put back")), save)


@pages.route("/cooks/<cook>/grant", methods=["GET", "POST"])
@guard.needs("manager")
def grant(cook: str) -> AnyResponse:
    """Open a station nobody is cleared on for one assessor, until a day."""
    who, form = known_person(cook), GrantForm(station=request.args.get("station", ""))
    _offer_stations(form)

    def save() -> Outcome:
        if form.until.day is None:
            return Refused(message("Write the last day of the grant."), field="until")
        given = standing.Grant(cook, form.station.data, form.until.day, form.reason.data.strip())
        return standing.open_station(
            guard.kitchen(), by=guard.person().id, grant=given, now=guard.now(), key=form.key.data
        )

    lead = message("For a station nobody is cleared on yet: this assessor may then sign there, to the end of that day.")
    return show_act(
        form, Asking(cook, message("Open a station for {name}", name=who.name), lead, message("Open the station")), save
    )


@pages.route("/cooks/<cook>/leaves", methods=["GET", "POST"])
@guard.needs("manager")
def leaves(cook: str) -> AnyResponse:
    """Take a person off the roster; their record stays."""
    who, form = known_person(cook), ReasonForm()

    k = guard.kitchen()
    if form.is_sent_right() and proving.is_proved(form):
        leaving = standing.Leaving(cook, form.reason.data.strip())
        outcome = standing.cook_leaves(k, by=guard.person().id, leaving=leaving, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            if outcome.entry.body.get("places"):
                return go("open_places.listed", saved=outcome.entry.id)
            return go("manager.person", cook=cook, saved=outcome.entry.id)
        form.refuse(outcome)
    proving.leave_out(form)
    naming, heading = Naming(k.people(), reading.content()), message("{name} leaves", name=who.name)
    return show(
        LeavesPage(
            coming=tuple(_coming(place, naming) for place in coming_places(k, cook, guard.now())),
            title=heading,
            heading=heading,
            lead=message(
                "From today they are off the board and can no longer sign in. Their record stays in the book."
            ),
            own_url=request.path,
            back=url_for("manager.person", cook=cook),
            back_words=message("Back, and change nothing"),
            words=message("Take off the roster"),
            form=form,
        )
    )


def _coming(place: Place, naming: Naming) -> Text:
    return message(
        "{station}, {service} on {day}",
        station=naming.station(place.station),
        service=naming.service(place.service),
        day=weekday(place.day),
    )


@pages.route("/cooks/<cook>/try-again", methods=["GET", "POST"])
@guard.needs("manager")
def try_again(cook: str) -> AnyResponse:
    """Clear a person's wrong tries, so that they may sign in again at once."""
    who, form = known_person(cook), ConfirmForm()
    if form.is_sent_right() and proving.proved_now(form) is not None:
        done = signing_in.let_try_again(guard.kitchen(), by=guard.person().id, now=guard.now(), person=cook)
        if not isinstance(done, Refused):
            return go("manager.person", cook=cook)
        form.refuse(done)
    lead = message(
        "After too many wrong PINs somebody must wait. This clears the wait. Make sure that it is really them."
    )
    return act_page(form, Asking(cook, message("Let {name} try again", name=who.name), lead, message("Clear the wait")))


@pages.route("/cooks/<cook>/techniques/<technique>/lift-wait", methods=["GET", "POST"])
@guard.needs("manager")
def lift_wait(cook: str, technique: str) -> AnyResponse:
    """Lift the wait after a failed quiz, with a reason."""
    who, found, form = known_person(cook), reading.content().techniques.get(technique), ReasonForm()
    if found is None:
        abort(404)

    def save() -> Outcome:
        wait = lifting.Wait(cook, found.id, form.reason.data.strip())
        return lifting.lift_wait(guard.kitchen(), by=guard.person().id, wait=wait, now=guard.now(), key=form.key.data)

    heading = message("Lift the wait of {name}: {title}", name=who.name, title=found.title)
    lead = message("The quiz may then be sat again at once. The fail stands, and the wait after another one is longer.")
    return show_act(form, Asking(cook, heading, lead, message("Lift the wait")), save)


@pages.route("/cooks/<cook>/stops/<stop>/release", methods=["GET", "POST"])
@guard.needs("manager")
def release_stop(cook: str, stop: str) -> AnyResponse:
    """Release a stop for safety, with a reason."""
    who, k, form = known_person(cook), guard.kitchen(), ReleaseForm()
    here = k.progress().cooks_on(guard.today())
    form.taught_by.offer({one.id: one.name for one in k.people().values() if one.id in here and one.id != cook})
    standing = {line.entry: words for line, words in stops_in_words(who, reading.content())}
    if stop not in standing and not form.is_sent_right():
        abort(404, message("That stop does not stand any more: it was released or voided."))

    def save() -> Outcome:
        release = releasing.Release(
            stop, form.taught_by.data, form.what.data, form.minutes.number or 0, form.retry_from.day
        )
        return releasing.release_stop(k, by=guard.person().id, release=release, now=guard.now(), key=form.key.data)

    lead = message(
        "{stop} Once it is released the cook may be watched again. Only a new sign-off puts them back on the station.",
        stop=standing.get(stop, ""),
    )
    return show_act(
        form,
        Asking(cook, message("Release the stop of {name}", name=who.name), lead, message("Release the stop")),
        save,
    )


def stops_in_words(who: Person, content: Content) -> tuple[tuple[Watched, Text], ...]:
    """Return a person's stops that stand today, each in words."""
    record = guard.kitchen().progress().record(who.id).as_of(guard.today())
    return tuple(
        (line, stop_in_words(technique, line))
        for technique in content.techniques.values()
        for line in standing_stops(record, technique.id)
    )


def known_person(cook: str) -> Person:
    """Return a person by id, or answer that there is none."""
    who = guard.kitchen().people().get(cook)
    if who is None:
        abort(404)
    return who


def _offer_stations(form: KitchenForm) -> None:
    """Put the stations on a form's list."""
    titles = {station.id: station.title for station in reading.content().stations.values()}
    form["station"].offer(titles)


def show_act(form: KitchenForm, asking: Asking, save: Callable[[], Outcome | Waits]) -> AnyResponse:
    """Return the person's page with "Saved" after the act, the list of what waits, or the page with what is to fix."""
    if form.is_sent_right() and proving.is_proved(form):
        outcome = save()
        if isinstance(outcome, Waits):
            return go("manager.second.listed")
        if not isinstance(outcome, Refused):
            return go("manager.person", cook=asking.cook, saved=outcome.entry.id)
        form.refuse(outcome)
    return act_page(form, asking)


def act_page(form: KitchenForm, asking: Asking) -> Response:
    """Return the page of one act."""
    proving.leave_out(form)
    return show(
        ActPage(
            title=asking.heading,
            heading=asking.heading,
            lead=asking.lead,
            own_url=request.path,
            back=url_for("manager.person", cook=asking.cook),
            back_words=message("Back, and change nothing"),
            words=asking.words,
            form=form,
        )
    )
