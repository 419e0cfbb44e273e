"""One tap that asks to be shown a step, or what a question asks for; and the tap that takes it back."""

from __future__ import annotations

from dataclasses import dataclass

from flask import Blueprint, abort, redirect, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions import helping
from trainer.actions.outcome import Refused
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.help_requests import help_open_for
from trainer.kitchen.record import HelpAsked
from trainer.messages import Text, message
from trainer.web import guard
from trainer.web.filters import clock_time, day, local
from trainer.web.forms import TOO_OLD, PlainForm
from trainer.web.page import here, own_path

pages = Blueprint("helping", __name__)


@dataclass(frozen=True, slots=True)
class Help:
    """The button that asks (`asked` is empty), or what was asked and when, with the tap that takes it back."""

    words: Text
    asked: Text
    url: str
    form: PlainForm


def help_for(technique: str, *, step: str = "", skill: str = "") -> Help:
    """Return the help a cook can ask for at a step or in a skill, named after the assessor nearest to it."""
    k, me = guard.kitchen(), guard.person().id
    today = k.day(guard.today())
    there = help_open_for(today.record(me), technique, step=step, skill=skill)
    form = PlainForm(is_fresh=True)
    if there is not None:
        return Help(
            message("Undo"), _asked(there, today), url_for("cook.helping.undo", entry=there.entry, then=here()), form
        )
    whom = helping.whom_to_ask(k, cook=me, technique=technique, day=today)
    words = message("Ask {name}", name=first_name(whom, today)) if whom else message("Ask for help")
    url = url_for("cook.helping.ask", technique=technique, step=step or None, skill=skill or None, then=here())
    return Help(words, "", url, form)


def first_name(person: str, today: Snapshot) -> str:
    """Return how a person is called on a button; their whole name where another has the same first one."""
    names = [today.name(cook) for cook in today.cooks() if cook != person]
    whole = today.name(person)
    first = whole.split()[0] if whole.split() else whole
    return whole if any(name.split()[:1] == [first] for name in names) else first


def _asked(there: HelpAsked, today: Snapshot) -> Text:
    """Return whom the cook asked, and when."""
    since = local(there.at)
    is_today = since.date() == today.on
    when = message("at {time}", time=clock_time(there.at)) if is_today else message("on {day}", day=day(since.date()))
    if not there.whom:
        return message("You asked for help {when}, not seen yet.", when=when)
    return message("You asked {name} {when}, not seen yet.", name=first_name(there.whom, today), when=when)


@pages.post("/techniques/<technique>/help")
@guard.needs("cook")
def ask(technique: str) -> AnyResponse:
    """Put a step, or a question's skill, on the assessors' page; asked twice it stands there once."""
    k, me, form = guard.kitchen(), guard.person().id, _sent()
    step, skill = (request.args.get(name, "") for name in ("step", "skill"))
    whom = helping.whom_to_ask(k, cook=me, technique=technique, day=k.day(guard.today()))
    wanted = helping.Wanted(technique, step, skill, whom)
    done = helping.ask_for_help(k, cook=me, wanted=wanted, now=guard.now(), key=form.key.data)
    if isinstance(done, Refused) and not _is_open(technique, step, skill):
        abort(400, done.reason)
    return redirect(own_path(request.args.get("then", "")), 303)


@pages.post("/help/<entry>/undo")
@guard.needs("cook")
def undo(entry: str) -> AnyResponse:
    """Take an asking back."""
    k, me, form = guard.kitchen(), guard.person().id, _sent()
    done = helping.take_back(k, cook=me, asked=entry, now=guard.now(), key=form.key.data)
    if isinstance(done, Refused):
        abort(400, done.reason)
    return redirect(own_path(request.args.get("then", "")), 303)


def _sent() -> PlainForm:
    """Return the form that was sent, or answer that it was open too long."""
    form = PlainForm()
    if not form.is_sent_right():
        abort(400, TOO_OLD)
    return form


def _is_open(technique: str, step: str, skill: str) -> bool:
    record = guard.kitchen().day(guard.today()).record(guard.person().id)
    return help_open_for(record, technique, step=step, skill=skill) is not None
