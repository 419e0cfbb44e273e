"""Something unsafe was seen: asked once more with what it was, and from then on only the stop can be signed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, request, url_for
from wtforms import TextAreaField

from trainer.actions import watching
from trainer.actions.outcome import Refused
from trainer.actions.watching import Look, Practical
from trainer.kitchen.causes import CAUSES, causes_of
from trainer.messages import Text, joined, message
from trainer.web import guard, reading
from trainer.web.assessor.in_hand import mine, naming
from trainer.web.forms import KitchenForm
from trainer.web.offline import late
from trainer.web.page import Page, go, show
from trainer.web.typed_fields import OneOfField

pages = Blueprint("stopping", __name__)


class StopForm(KitchenForm):
    """At which point something unsafe was seen, and what it was."""

    point = OneOfField(message("Seen at"))
    note = TextAreaField(message("Note"))


@dataclass(frozen=True, slots=True)
class Cause:
    """What may have been unsafe: the mark of its hazard, its words, and whether it is picked."""

    id: str
    words: Text
    is_picked: bool


@dataclass(frozen=True, kw_only=True)
class UnsafePage(Page):
    """Asks once whether it was unsafe, before that stays; what else was typed goes with it.

    `stops` begins the addresses that show nothing more to judge on a phone where this waits to be sent.
    """

    template: ClassVar[str] = "assessor/unsafe.html"
    own_url: str
    back: str
    where: Text
    stops: str
    cook_name: Text
    is_of_all: bool
    causes: tuple[Cause, ...]
    off_words: Text
    typed: tuple[tuple[str, str], ...]
    form: KitchenForm


@pages.route("/practicals/<practical>/stop", methods=["GET", "POST"])
@guard.needs("assessor")
def stop(practical: str) -> Response:
    """Ask what was unsafe, and at which point, where no point is on screen: before the first one, and at signing."""
    found = mine(practical)
    if found.unsafe:
        return go("assessor.signing.record", practical=practical)
    named = request.args.get("point", "")
    at = named if named in {point.id for point in found.points} else _last_looked_at(found)
    form = StopForm(point=at)
    form.point.offer({point.id: point.words for point in found.points})
    if form.is_sent_right():
        note, cause = (form.note.data or "").strip(), request.form.get("cause", "")
        look = Look(form.point.data, "unsafe", note=note, cause=cause, done_at=late.done_at())
        kept = watching.see_point(
            guard.kitchen(), by=guard.person().id, practical=practical, look=look, now=guard.now()
        )
        if not isinstance(kept, Refused):
            return go("assessor.signing.record", practical=practical)
        form.refuse(kept)
    own_url = url_for(".stop", practical=practical)
    back = url_for("assessor.practical.resume", practical=practical)
    return unsafe_page(found, form, own_url=own_url, back=back, is_of_all=True)


def unsafe_page(  # noqa: PLR0913 - whose, and all that goes with it
    practical: Practical,
    form: KitchenForm,
    *,
    own_url: str,
    back: str,
    where: Text = "",
    typed: tuple[tuple[str, str], ...] = (),
    is_of_all: bool = False,
) -> Response:
    """Return the page that asks once more whether it was unsafe; nothing is kept yet."""
    form["note"].label.text = message("In your words")
    technique, picked = reading.content().techniques.get(practical.technique), request.form.get("cause", "")
    return show(
        UnsafePage(
            title=message("You saw something unsafe: sign the stop?"),
            own_url=own_url,
            back=back,
            where=where or practical.titles.technique,
            stops=url_for("assessor.practical.resume", practical=practical.id),
            cook_name=naming().person(practical.cook),
            is_of_all=is_of_all,
            causes=tuple(Cause(mark, CAUSES[mark], mark == picked) for mark in causes_of(technique)),
            off_words=off_words(practical),
            typed=typed,
            form=form,
        )
    )


def off_words(practical: Practical) -> Text:
    """Return what a signed stop does: where the cook is off, until when, and where they go on beside a cleared cook."""
    rules, cook = guard.kitchen().day(guard.today()).rules, naming().person(practical.cook)
    asking = rules.stations_asking_for(practical.technique)
    if len(asking) == len(rules.stations):
        return message(
            "Every station asks for this. Signed, {cook} works only beside a cleared cook, until a manager releases "
            "the stop.",
            cook=cook,
        )
    stations = joined((naming().station(station.id) for station in asking), ", ")
    return message("Signed, {cook} is off {stations}, until a manager releases the stop.", cook=cook, stations=stations)


def _last_looked_at(practical: Practical) -> str:
    """Return the point that was looked at last, else the first one."""
    looked_at = [(point.looks[-1].at, point.id) for point in practical.points if point.looks and point.looks[-1].at]
    return max(looked_at)[1] if looked_at else practical.points[0].id
