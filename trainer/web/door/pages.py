"""The door: the first page, enrolling a device, picking a name tape, the PIN, choosing an own secret, signing out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, abort, make_response, redirect, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import BooleanField, PasswordField

from trainer.actions import enrolling, own_phone, signing_in
from trainer.actions.demo_door import Door, doors
from trainer.actions.enrolling import AtTheDoor, enrol_with_code
from trainer.actions.giving_codes import codes_asked
from trainer.actions.names_at_the_door import names_offered
from trainer.actions.outcome import Refused
from trainer.actions.secret_rules import without_gaps
from trainer.actions.two_people import told_of
from trainer.kitchen.progress import Person
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.filters import moment
from trainer.web.forms import KitchenForm, PlainForm, TextField
from trainer.web.offline import late
from trainer.web.page import Page, go, own_path, show
from trainer.web.shell import start_of
from trainer.web.way_back import LEFT, page_left

pages = Blueprint("door", __name__)
MY_PHONE = message("This is my phone")
SEARCH_FROM = 9  # names: fewer are seen at once


class EnrolForm(KitchenForm):
    """The code that invites this device, and a name for it."""

    code = TextField(message("Code, 8 figures"))
    name = TextField(message("A name for this device"))
    mine = BooleanField(MY_PHONE)


class SignInForm(KitchenForm):
    """A PIN or a passphrase, and whether the device is one's own phone."""

    secret = PasswordField(message("PIN"))
    mine = BooleanField(MY_PHONE)


class OwnSecretForm(KitchenForm):
    """A new secret, typed twice; the one used now as well, unless it is a first code."""

    current = PasswordField(message("The one you use now"))
    secret = PasswordField(message("New PIN"))
    again = PasswordField(message("The same once more"))


@dataclass(frozen=True, kw_only=True)
class DemoPage(Page):
    """As whom to step into the demo kitchen."""

    template: ClassVar[str] = "door/demo.html"
    kitchen: str
    doors: tuple[Door, ...]
    form: PlainForm


@dataclass(frozen=True, kw_only=True)
class FirstPage(Page):
    """A device nobody has enrolled yet: how to."""

    template: ClassVar[str] = "door/first.html"
    kitchen: str


@dataclass(frozen=True, kw_only=True)
class EnrolPage(Page):
    """The form that enrols this device. `open_line` says why it is not remembered, where that is so."""

    template: ClassVar[str] = "door/enrol.html"
    form: EnrolForm
    open_line: Text


@dataclass(frozen=True, kw_only=True)
class NamesPage(Page):
    """The names of everybody on the roster today, who is on tonight first; `typed` is what is looked for."""

    template: ClassVar[str] = "door/names.html"
    tonight: tuple[Person, ...]
    others: tuple[Person, ...]
    typed: str
    can_search: bool
    is_found: bool
    kept: tuple[tuple[str, str], ...]


@dataclass(frozen=True, kw_only=True)
class SecretPage(Page):
    """The PIN of one person, or a manager's passphrase.

    `is_own`: on their own phone; `asks_whose`: it may become that, or `open_line` says why not; `unsent`: something was
    sent while they were away, and not saved.
    """

    template: ClassVar[str] = "door/secret.html"
    cook: Person
    is_pin: bool
    is_own: bool
    asks_whose: bool
    open_line: Text
    unsent: bool
    form: SignInForm


@dataclass(frozen=True, kw_only=True)
class CodesGivenPage(Page):
    """The first codes given for a person, of which they were not told yet, and those that wait."""

    template: ClassVar[str] = "door/codes.html"
    given: tuple[Text, ...]
    own_url: str
    form: PlainForm


@dataclass(frozen=True, kw_only=True)
class OwnSecretPage(Page):
    """The form to choose an own PIN or passphrase. `must` is set after a first code."""

    template: ClassVar[str] = "door/own_secret.html"
    is_pin: bool
    must: bool
    form: OwnSecretForm


@pages.get("/")
@guard.needs("nobody")
def first() -> AnyResponse:
    """Show the way in that fits the caller."""
    signed = guard.signed_in()
    if signed:
        return redirect(start_of(signed.roles), 303)
    known, owner, settings = guard.remembered(), guard.owner(), guard.kitchen().file.settings
    if known is not None:
        return redirect(page_left(start_of(known.roles)), 303)
    if settings.is_demo:
        return show(_demo_page(PlainForm()))
    if owner is not None:
        return go("door.secret", cook=owner.id)
    if guard.device():
        return go("door.names")
    return show(FirstPage(title=message("This device is new here"), kitchen=settings.name))


@pages.post("/step-in/<person>")
@guard.needs("nobody")
def step_in(person: str) -> AnyResponse:
    """Sign in as one of the demo kitchen's three people: the same action as by hand, with the PIN filled in."""
    k, form = guard.kitchen(), PlainForm()
    door = next((d for d in doors(k, guard.today()) if d.person == person), None)
    if door is None:
        abort(404)
    if not form.is_sent_right():
        return show(_demo_page(form))
    device, cookie = guard.device(), ""
    if device is None:
        enrolled = enrolling.enrol_device(k, name="Demo device", by=person, now=guard.now())
        if isinstance(enrolled, Refused):
            abort(403, enrolled.reason)
        device, cookie = enrolled.device.id, enrolled.secret
    response = _sign_in(form, device, person, door.secret)
    if response is None:
        return show(_demo_page(form))
    if cookie:
        guard.set_cookie(response, guard.DEVICE, cookie, guard.FIVE_YEARS)
    return response


@pages.route("/device", methods=["GET", "POST"])
@guard.needs("nobody")
def enrol() -> AnyResponse:
    """Enrol this device, with a code a manager made on another one or on the machine itself."""
    form = EnrolForm()
    if not guard.is_private():
        del form.mine
    if form.is_sent_right():
        given = AtTheDoor(form.code.data, form.name.data, request.remote_addr or "")
        outcome = enrol_with_code(guard.kitchen(), given=given, now=guard.now())
        if isinstance(outcome, Refused):
            form.refuse(outcome)
        else:
            response = go("door.names", mine=1 if "mine" in form and form.mine.data else None)
            guard.set_cookie(response, guard.DEVICE, outcome.secret, guard.FIVE_YEARS)
            return response
    return show(EnrolPage(title=message("Enrol this device"), form=form, open_line=_open_line()))


@pages.get("/names")
@guard.needs("device")
def names() -> AnyResponse:
    """Show the names of everybody on the roster today; on one's own phone only who asks for them sees them."""
    kept = tuple((name, request.args[name]) for name in ("then", "mine", "all") if request.args.get(name))
    owner = guard.owner()
    if owner is not None and "all" not in request.args:
        return go("door.secret", cook=owner.id, **dict(kept))
    typed = " ".join(request.args.get("q", "")[:80].split())
    offered = names_offered(guard.kitchen(), device=guard.device() or "", typed=typed, now=guard.now())
    return show(
        NamesPage(
            title=message("Who are you?"),
            tonight=offered.tonight,
            others=offered.others,
            typed=typed,
            can_search=offered.number >= SEARCH_FROM,
            is_found=offered.is_found,
            kept=kept,
        )
    )


@pages.route("/names/<cook>", methods=["GET", "POST"])
@guard.needs("device")
def secret(cook: str) -> AnyResponse:
    """Ask for the PIN (a manager: the passphrase) and sign in."""
    k = guard.kitchen()
    who = k.people().get(cook)
    if who is None or cook not in k.progress().cooks_on(guard.today()):
        abort(404)
    reading.read_as(who)
    device, owner = guard.device() or "", guard.owner()
    form = SignInForm(mine="mine" in request.args)
    can_be_own = owner is None and not own_phone.others_on(k, device=device, person=cook, now=guard.now())
    asks_whose = can_be_own and guard.is_private()
    kept = k.file.people.secret_of(cook)
    is_pin = kept is None or kept.kind != "passphrase"
    form.secret.label.text = message("PIN, 8 figures") if is_pin else message("Passphrase")
    if form.is_sent_right():
        signed = _sign_in(form, device, cook, form.secret.data or "")
        if signed:
            if asks_whose and form.mine.data:
                own_phone.make_own(k, device=device, person=cook, now=guard.now())
            return signed
    return show(
        SecretPage(
            title=message("{name}: sign in", name=who.name),
            cook=who,
            is_pin=is_pin,
            is_own=owner is not None and owner.id == cook,
            asks_whose=asks_whose,
            open_line=_open_line() if can_be_own else "",
            unsent="unsent" in request.args,
            form=form,
        )
    )


def _open_line() -> Text:
    """Return why no phone is remembered here, in one sentence; "" where it can be."""
    if guard.is_private():
        return ""
    return message("No phone is remembered over plain HTTP. A manager sees under “Devices” how to change that.")


@pages.route("/own-secret", methods=["GET", "POST"])
@guard.needs("person")
def own_secret() -> AnyResponse:
    """Let a person choose their own secret; after a first code they must."""
    signed = guard.signed_in()
    assert signed is not None  # noqa: S101 - the guard let them in
    is_pin = "manager" not in signed.roles
    form = OwnSecretForm()
    form.secret.label.text = message("New PIN, 8 figures") if is_pin else message("New passphrase, 15 letters or more")
    if form.is_sent_right():
        refused = _new_secret(form, signed)
        if refused is None:
            return redirect(_told_first(signed.person.id, start_of(signed.roles)), 303)
        form.refuse(refused)
    return show(OwnSecretPage(title=message("Choose your own"), is_pin=is_pin, must=signed.must_choose, form=form))


def _new_secret(form: OwnSecretForm, signed: guard.CurrentUser) -> Refused | None:
    """Return why the new secret was not kept, or None."""
    k, now = guard.kitchen(), guard.now()
    if without_gaps(form.secret.data or "") != without_gaps(form.again.data or ""):
        return Refused(message("The two are not the same. Type the same one twice."), field="again")
    if not signed.must_choose:
        proved = signing_in.prove_again(k, token=signed.token, secret=form.current.data or "", now=now)
        if isinstance(proved, Refused):
            return Refused(proved.reason, proved.who_can, "current")
    outcome = signing_in.choose_secret(k, token=signed.token, secret=form.secret.data or "", now=now)
    return outcome if isinstance(outcome, Refused) else None


@pages.route("/codes-given", methods=["GET", "POST"])
@guard.needs("person")
def codes_given() -> AnyResponse:
    """Tell a person of each first code given for them since they were told last, and of any asked for."""
    k, form, person = guard.kitchen(), PlainForm(), guard.person().id
    if form.is_sent_right():
        signing_in.codes_told(k, person=person)
        return redirect(own_path(request.args.get("then") or "/"), 303)
    people = k.people()
    given: tuple[Text, ...] = tuple(
        message(
            "A code was given for you by {name}, {when}.",
            name=people[entry.by].name if entry.by in people else entry.by,
            when=moment(entry.at),
        )
        for entry in signing_in.codes_to_tell(k, person=person)
    )
    asked: tuple[Text, ...] = tuple(
        message(
            "{name} asked for a code for you, {when}. It waits, and any manager can put it away.",
            name=people[one.by].name if one.by in people else one.by,
            when=moment(one.at),
        )
        for one in codes_asked(k, person=person)
    )
    asked += _asked_since_removed(person)
    own_url = url_for(".codes_given", then=request.args.get("then"))
    return show(CodesGivenPage(title=message("Codes given for you"), given=given + asked, own_url=own_url, form=form))


def _asked_since_removed(person: str) -> tuple[Text, ...]:
    """Return what a manager asks for alone, for somebody who managed the kitchen with them until lately."""
    people = guard.kitchen().people()
    return tuple(
        message(
            "You were a manager here until lately. {name}, alone now, asks for what takes two, about {about}, {when}."
            " It waits a day. You can contest in your record that you were taken off.",
            name=people[one.by].name if one.by in people else one.by,
            about=people[one.cook].name if one.cook in people else one.cook,
            when=moment(one.at),
        )
        for one in told_of(guard.kitchen(), person=person)
    )


def _told_first(person: str, then: str) -> str:
    """Return where a person goes on to: *then*, or first to what they have to be told."""
    k = guard.kitchen()
    is_news = signing_in.codes_to_tell(k, person=person) or codes_asked(k, person=person) or told_of(k, person=person)
    if not is_news:
        return then
    return url_for(".codes_given", then=then if then != "/" else None)


@pages.post("/leave")
@guard.needs("nobody")
def leave() -> AnyResponse:
    """Sign out. What is under way is kept under the person and waits."""
    signed = guard.signed_in()
    if signed and PlainForm().is_sent_right():
        signing_in.sign_out(guard.kitchen(), token=signed.token)
    response = go("door.first")
    guard.drop_cookie(response, guard.SESSION)
    guard.drop_cookie(response, LEFT)
    if not late.is_late():  # a phone that tells it later has wiped what it kept, and holds what waits for its owner
        response.headers["Clear-Site-Data"] = '"cache", "storage"'
    return response


def _demo_page(form: PlainForm) -> DemoPage:
    k = guard.kitchen()
    return DemoPage(title=message("Step in"), kitchen=k.file.settings.name, doors=doors(k, guard.today()), form=form)


def _sign_in(form: KitchenForm, device: str, person: str, secret: str) -> Response | None:
    """Return the way on with a session cookie, or None with the refusal put on the form."""
    outcome = signing_in.sign_in(guard.kitchen(), device=device, person=person, secret=secret, now=guard.now())
    if isinstance(outcome, Refused):
        form.refuse(outcome)
        return None
    signing_in.sign_out(guard.kitchen(), token=guard.cookie(guard.SESSION))  # the new session takes the old one's place
    owner = guard.owner()
    left = page_left("/") if owner is not None and owner.id == person else "/"
    then = own_path(request.args.get("then") or left)
    response = make_response(redirect(then if outcome.must_choose else _told_first(person, then), 303))
    guard.set_cookie(response, guard.SESSION, outcome.token, guard.TWELVE_HOURS)
    return response
