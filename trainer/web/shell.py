"""The frame around every page: whose tape is on it, where they can go, what was just saved."""

from __future__ import annotations

from dataclasses import dataclass

from flask import current_app, g, request, url_for

from trainer.actions.clock_setting import MAY_CONFIRM
from trainer.actions.clock_watch import clock_trouble
from trainer.messages import Text, message
from trainer.store.catalogues import languages, name_of
from trainer.web import guard, reading, witness
from trainer.web.filters import clock_time
from trainer.web.forms import FieldProblem, PlainForm
from trainer.web.offline.late import is_to_be_kept
from trainer.web.running import RunningLine, back_here, running_now

# role ("person": anybody signed in), endpoint, word; the first place of a person's strongest role is where they start
PLACES = (
    ("manager", "board.tonight", message("Board")),
    ("assessor", "assessor.waiting", message("My desk")),
    ("assessor", "board.tonight", message("Board")),
    ("cook", "cook.rail", message("My page")),
    ("cook", "cook.record", message("My record")),
    ("manager", "manager.people", message("People")),
    ("person", "bench.tools", message("Workbench")),
    ("person", "language.choose", ""),  # its word is the name of each other language, in itself
)


@dataclass(frozen=True, slots=True)
class NavLink:
    """A page in the header: its word, its address, and whether it is the one on screen."""

    word: Text
    url: str
    is_here: bool


@dataclass(frozen=True, slots=True)
class LanguageChoice:
    """A language a page can be read in: its tag, and its name in itself."""

    tag: str
    name: str


@dataclass(frozen=True, slots=True)
class Shell:
    """What base.html shows around any page. `notice` is what was just saved, in one line.

    `tongues` are the other languages, to be chosen at the door before anybody is known. `reading_only` says why nothing
    can be saved, where that is so; `clock_href` leads to the page where today's date is typed. `look` is the
    reader's own light, day or night; empty where their system says it. `may_wait`: what is
    done here may wait on a phone until the kitchen is there; `is_kept`: a phone shows it while there is no network;
    `keeps_pages`: a browser keeps pages at all, which it does over HTTPS alone.
    `running` are clocks in the band under the header, stopped by `stop_form`, after which a person comes `back`.
    """

    kitchen: Text
    language: str
    is_demo: bool
    name: str
    places: tuple[NavLink, ...]
    problems: tuple[FieldProblem, ...]
    notice: Text
    sign_out: PlainForm | None
    tongues: tuple[LanguageChoice, ...]
    tongue_form: PlainForm | None
    then: str
    reading_only: Text = ""
    clock: Text = ""
    clock_act: Text = ""
    clock_href: str = ""
    look: str = ""
    may_wait: bool = False
    is_kept: bool = False
    keeps_pages: bool = True
    running: tuple[RunningLine, ...] = ()
    stop_form: PlainForm | None = None
    back: str = ""


def shell_now(problems: tuple[FieldProblem, ...] = ()) -> Shell:
    """Return the frame for this request."""
    settings = guard.kitchen().file.settings
    signed = guard.signed_in()
    is_known = signed is not None or guard.owner() is not None
    trouble = clock_trouble(guard.kitchen(), guard.now())
    may_confirm = trouble is not None and trouble.can_confirm and bool(MAY_CONFIRM & guard.roles())
    return Shell(
        kitchen=settings.name,
        language=reading.now().language,
        is_demo=settings.is_demo,
        name=signed.person.name if signed else "",
        places=places_for(signed.roles) if signed else (),
        problems=problems,
        notice=_notice() if signed and not problems else "",
        sign_out=PlainForm(is_fresh=True) if signed else None,
        tongues=() if is_known else other_languages(),
        tongue_form=None if is_known else PlainForm(is_fresh=True),
        then=request.full_path.rstrip("?"),
        reading_only=guard.kitchen().file.reading_only() or (seen.words if (seen := witness.disagreement()) else ""),
        clock=trouble.reason if trouble else "",
        clock_act=trouble.act if trouble and not may_confirm else "",
        clock_href=url_for("clock.look") if may_confirm else "",
        look=signed.person.look if signed else "",
        may_wait=True,
        is_kept=is_to_be_kept(),
        keeps_pages=request.is_secure or guard.is_private(),
        running=running_now(),
        stop_form=PlainForm(is_fresh=True) if signed else None,
        back=back_here(),
    )


def bare_shell(name: Text, language: str) -> Shell:
    """Return a frame with a name on it and nowhere to go, for a page without a kitchen."""
    return Shell(name, language, False, "", (), (), "", None, (), None, "")


def other_languages() -> tuple[LanguageChoice, ...]:
    """Return the languages this page could be read in, but for the one it is in."""
    here = reading.now().language
    return tuple(LanguageChoice(tag, name_of(tag)) for tag in languages() if tag != here)


def places_for(roles: frozenset[str]) -> tuple[NavLink, ...]:
    """Return the places open to these roles, in the order of the header."""
    rules = current_app.view_functions
    held = {*roles, "person"}
    open_to = {endpoint: word for role, endpoint, word in PLACES if role in held and endpoint in rules}
    others = " / ".join(tongue.name for tongue in other_languages())
    return tuple(
        NavLink(word or others, url_for(endpoint), endpoint == request.endpoint) for endpoint, word in open_to.items()
    )


def start_of(roles: frozenset[str]) -> str:
    """Return the address a person with these roles starts from."""
    return url_for(home_endpoint(roles))


def home_endpoint(roles: frozenset[str]) -> str:
    """Return the page a person with these roles starts from."""
    held = {*roles, "person"}
    found = (endpoint for role, endpoint, _ in PLACES if role in held and endpoint in current_app.view_functions)
    return next(found) if roles else "door.own_secret"


def _notice() -> Text:
    saved = request.args.get("saved", "")[:64]
    entry = guard.kitchen().file.book.find(saved) if saved else None
    signed = g.signed_in
    if entry is None or signed.person.id not in (entry.cook, entry.by):
        return ""
    return message("Saved {time}.", time=clock_time(entry.at))
