"""What cooks asked to be shown: the list for an assessor's page, and the one tap that says it was shown."""

from __future__ import annotations

from dataclasses import dataclass

from flask import Blueprint, abort, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.helping import CookAsks, give_help, help_wanted
from trainer.actions.outcome import Refused
from trainer.messages import Text, message
from trainer.web import guard
from trainer.web.filters import clock_time, day, local
from trainer.web.forms import PlainForm
from trainer.web.help_words import what_is_asked
from trainer.web.page import go

pages = Blueprint("helped", __name__)


@dataclass(frozen=True, slots=True)
class HelpLine:
    """One cook who wants to be shown something: what, since when, and where it stands where the reader may open it.

    `for_me` says that the cook's button named the reader. `form` sends "Shown" to `url`.
    """

    entry: str
    cook_name: str
    words: Text
    since: Text
    for_me: bool
    step_url: str
    url: str
    form: PlainForm


def asked_help() -> tuple[HelpLine, ...]:
    """Return what cooks other than the reader asked to be shown, those who named the reader first, longest wait first.

    For `assessor/helped.html`, under the name `helped`.
    """
    me = guard.person().id
    found = [_line(one, me) for one in help_wanted(guard.kitchen(), guard.today()) if one.cook != me]
    return tuple(sorted(found, key=lambda one: not one.for_me))


def _line(one: CookAsks, me: str) -> HelpLine:
    asked, person, since = one.asked, guard.kitchen().people().get(one.cook), local(one.asked.at)
    is_today = since.date() == guard.today()
    return HelpLine(
        entry=asked.entry,
        cook_name=person.name if person else one.cook,
        words=what_is_asked(asked.technique, asked.step, asked.skill),
        since=message("since {time}", time=clock_time(asked.at) if is_today else day(since.date())),
        for_me=asked.whom == me,
        step_url=_step_url(asked.technique, asked.step) if asked.step and "cook" in guard.roles() else "",
        url=url_for("assessor.helped.shown", entry=asked.entry),
        form=PlainForm(is_fresh=True),
    )


def _step_url(technique: str, step: str) -> str:
    """Return where a step stands; empty where it is taught no more."""
    steps = [each.id for each in guard.kitchen().content.techniques[technique].steps]
    return url_for("cook.step", technique=technique, number=steps.index(step) + 1) if step in steps else ""


@pages.post("/help/<entry>/shown")
@guard.needs("assessor")
def shown(entry: str) -> AnyResponse:
    """Write down that what a cook asked for was shown; where another did so first, the list says enough."""
    form = PlainForm()
    if not form.is_sent_right():
        abort(400)
    done = give_help(guard.kitchen(), by=guard.person().id, asked=entry, now=guard.now(), key=form.key.data)
    return go("assessor.waiting", saved="" if isinstance(done, Refused) else done.entry.id)
