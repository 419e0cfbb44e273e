"""The door: who is asking, from which device, and what they may open."""

from __future__ import annotations

import secrets
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from functools import wraps
from typing import Literal, ParamSpec, TypeVar
from urllib.parse import urlsplit

from flask import Flask, Response, abort, current_app, g, redirect, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions import own_phone, signing_in
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.progress import Person
from trainer.kitchen.roles import Role, roles_in_words
from trainer.messages import message
from trainer.store.acting import acting_on
from trainer.store.sessions import Session
from trainer.web.headers import KEPT
from trainer.web.own_names import is_this_machine
from trainer.web.remembering import is_open_when_idle

P = ParamSpec("P")
R = TypeVar("R")
Either = Literal["assessor or manager"]
Need = Literal["nobody", "device", "person"] | Either | Role
EITHER: Either = "assessor or manager"
BOTH: tuple[Role, ...] = ("assessor", "manager")
SESSION, DEVICE, VISIT = "session", "device", "visit"
SHORT_ID = 8  # signs of the kitchen's id in the names of its cookies
TWELVE_HOURS = 43_200
FIVE_YEARS = 157_680_000


@dataclass(frozen=True, slots=True)
class CurrentUser:
    """Who is signed in here, with the roles they hold today and the token of their session."""

    person: Person
    roles: frozenset[str]
    session: Session
    token: str
    must_choose: bool


def kitchen() -> Kitchen:
    """Return the kitchen this app serves."""
    opened: Kitchen = current_app.extensions["kitchen"]
    return opened


def now() -> datetime:
    """Return this request's moment, read once from the clock the app was given."""
    if "now" not in g:
        g.now = current_app.extensions["clock"]()
    moment: datetime = g.now
    return moment


def today() -> date:
    """Return the date in the kitchen's own zone."""
    return kitchen().today(now())


def signed_in() -> CurrentUser | None:
    """Return who is signed in, or None."""
    found: CurrentUser | None = g.get("signed_in")
    return found


def person() -> Person:
    """Return who is signed in; a page without a guard that asks is turned away."""
    found = signed_in()
    if found is None:
        abort(403)
    return found.person


def roles() -> frozenset[str]:
    """Return the roles of anyone who is signed in; none when nobody is."""
    found = signed_in()
    return found.roles if found else frozenset()


def device() -> str | None:
    """Return the id of the enrolled device asking, or None."""
    found: str | None = g.get("device")
    return found


def owner() -> Person | None:
    """Return whose own phone is asking; None on a shared device, and wherever its line to the kitchen is open."""
    found: Person | None = g.get("owner")
    return found


def remembered() -> CurrentUser | None:
    """Return the owner of the phone that is asking, where they were idle and their PIN of this shift still holds."""
    found: CurrentUser | None = g.get("remembered")
    return found


def is_private() -> bool:
    """Return whether nobody can read along: over HTTPS, or on the machine itself (W3C Secure Contexts, section 3.1)."""
    return bool(current_app.config["HTTPS"]) or is_this_machine(request.host)


def is_manager() -> bool:
    """Return whether anyone signed in holds a manager's role: some pages others may read, and only they act on."""
    return "manager" in roles()


def token() -> str:
    """Return the token of the session; empty when nobody is signed in."""
    found = signed_in()
    return found.token if found else ""


def needs(need: Need) -> Callable[[Callable[P, R]], Callable[P, R | AnyResponse]]:
    """Return a decorator that lets a page be opened only by those it is for.

    nobody: anybody may; device: an enrolled device; person: anybody signed in; else that role, or one of two, held
    today.
    """

    def guarded(view: Callable[P, R]) -> Callable[P, R | AnyResponse]:
        @wraps(view)
        def asked(*args: P.args, **kwargs: P.kwargs) -> R | AnyResponse:
            signed = signed_in()
            with acting_on(_acting_device(), signed.session.proof if signed else None):
                return _deny(need) or view(*args, **kwargs)

        asked.needs = need  # type: ignore[attr-defined]
        return asked

    return guarded


def _acting_device() -> str:
    """Return the id of the device a request comes from; one nobody enrolled has none, and enters nothing."""
    signed = signed_in()
    return device() or (signed.session.device if signed else "")


def _deny(need: Need) -> AnyResponse | None:
    if need == "nobody":
        return None
    signed = signed_in()
    if need == "device":
        return None if device() or signed else _to("door.enrol")
    if signed is None:
        return _to_the_owner(owner()) or _to("door.names" if device() else "door.first")
    if signed.must_choose and request.endpoint != "door.own_secret":
        return _to("door.own_secret")
    if need == EITHER and not signed.roles & set(BOTH):
        abort(403, message("This page is for assessors and managers. You are neither today."))
    if need not in ("person", EITHER, *signed.roles):
        abort(
            403,
            message(
                "This page is for the {need} role, which you do not hold today. A manager can give it.",
                need=roles_in_words([need]),
            ),
        )
    return None


def _to(endpoint: str) -> AnyResponse:
    if request.method != "GET":
        abort(403, message("You are not signed in, so nothing was saved. Sign in, then send it again."))
    then = request.full_path.rstrip("?")
    return redirect(url_for(endpoint, then=then if then != "/" else None), 303)


def _to_the_owner(who: Person | None) -> AnyResponse | None:
    """Return the way to the owner's PIN, and from there back to the page in hand; what was sent is sent again then."""
    if who is None:
        return None
    if request.method == "GET":
        return redirect(url_for("door.secret", cook=who.id, then=request.full_path.rstrip("?")), 303)
    came_from = urlsplit(request.referrer or "")
    then = (
        came_from.path + (f"?{came_from.query}" if came_from.query else "") if came_from.netloc == request.host else ""
    )
    return redirect(url_for("door.secret", cook=who.id, then=then or None, unsent=1), 303)


def register_auth(app: Flask) -> None:
    """Find out, before every page, who is asking; give a new visitor a cookie to bind forms to."""

    @app.before_request
    def who_is_asking() -> None:
        g.visit = cookie(VISIT)  # first, so that a page can tell of a fault in what follows
        g.device = _device_of(cookie(DEVICE))
        g.owner = own_phone.owner_of(kitchen(), device=g.device, now=now()) if g.device and is_private() else None
        g.signed_in = _signed_in_by(cookie(SESSION))
        g.remembered = _remembered_by(cookie(SESSION)) if g.owner is not None and g.signed_in is None else None
        if is_open_when_idle(request.endpoint, kitchen().file.settings.own_phone):
            g.signed_in = g.signed_in or g.remembered
        g.new_visit = ""
        g.visit = g.signed_in.token if g.signed_in else cookie(VISIT)
        if not g.visit:
            g.visit = g.new_visit = secrets.token_urlsafe(32)

    @app.after_request
    def set_visitor_cookie(response: Response) -> Response:
        if request.endpoint in KEPT:
            return response
        if g.get("new_visit"):
            set_cookie(response, VISIT, g.new_visit, TWELVE_HOURS)
        handed_out = response.headers.getlist("Set-Cookie")
        if not any(each.startswith((f"{cookie_name(DEVICE)}=", f"{cookie_name(SESSION)}=")) for each in handed_out):
            _rename_cookies(response)
        return response


def cookie_name(name: str) -> str:
    """Return a cookie's name: the kitchen's own, since ports of one machine share cookies (RFC 6265, section 8.5).

    Where the connection is encrypted it is bound to this very host besides.
    """
    return f"{_former_name(name)}-{kitchen().file.settings.kitchen[:SHORT_ID]}"


def names_of(name: str) -> tuple[str, str]:
    """Return a cookie's name and the one it had formerly."""
    return (cookie_name(name), _former_name(name))


def cookie(name: str) -> str:
    """Return a cookie's value; one handed out under its former name counts until it is handed out again."""
    found = request.cookies.get(cookie_name(name))
    return request.cookies.get(_former_name(name), "") if found is None else found


def _former_name(name: str) -> str:
    """Return a cookie's name as it was before it named the kitchen."""
    return f"__Host-{name}" if current_app.config["HTTPS"] else name


def _rename_cookies(response: Response) -> None:
    """Hand a trusted device and an open session their cookies under the kitchen's own name, once.

    The former one is taken back: its value is this kitchen's, so no other kitchen on the machine can want it.
    """
    for name, is_ours, seconds in (
        (DEVICE, device() is not None, FIVE_YEARS),
        (SESSION, signed_in() is not None, TWELVE_HOURS),
    ):
        value = request.cookies.get(_former_name(name))
        if value and is_ours and cookie_name(name) not in request.cookies:
            set_cookie(response, name, value, seconds)
            _drop(response, _former_name(name))


def set_cookie(response: Response, name: str, value: str, seconds: int) -> None:
    """Hand out a cookie that scripts cannot read and other sites do not send."""
    secure = current_app.config["HTTPS"]
    response.set_cookie(
        cookie_name(name), value, max_age=seconds, httponly=True, samesite="Lax", secure=secure, path="/"
    )


def drop_cookie(response: Response, name: str) -> None:
    """Take a cookie back, under the name it may have had as well."""
    _drop(response, cookie_name(name))
    if name == SESSION and signed_in() is not None:
        _drop(response, _former_name(name))


def _drop(response: Response, full_name: str) -> None:
    """Take one cookie back by its whole name."""
    secure = current_app.config["HTTPS"]
    response.delete_cookie(full_name, httponly=True, samesite="Lax", secure=secure, path="/")


def _device_of(token: str) -> str | None:
    if not token:
        return None
    found = kitchen().file.devices.find(token)
    return found.id if found else None


def _signed_in_by(token: str) -> CurrentUser | None:
    """Return who is signed in with this token; it counts on the device it was given to and on no other."""
    session = signing_in.session_of(kitchen(), token=token, now=now()) if token else None
    return _user_of(session, token) if session is not None and session.device == device() else None


def _remembered_by(token: str) -> CurrentUser | None:
    """Return whose idle session this is, where their own phone remembers them still."""
    session = own_phone.remembered(kitchen(), token=token, device=device() or "", now=now()) if token else None
    return _user_of(session, token) if session is not None else None


def _user_of(session: Session, token: str) -> CurrentUser:
    who = kitchen().people()[session.person]
    held = kitchen().progress().roles(who.id, today())
    if any(line.until >= today() for line in kitchen().progress().record(who.id).as_of(today()).founder):
        held |= {"assessor"}  # the only manager of a kitchen opens the pages on which to sign on their own word
    return CurrentUser(who, held, session, token, signing_in.must_choose(kitchen(), person=who.id))
