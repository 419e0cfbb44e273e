"""Which stations ask for a technique: until one does, nobody learns it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.writing import ask_for, asking_stations
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.forms import PlainForm
from trainer.web.page import Page, go, show
from trainer.web.writing.fields import Choice
from trainer.web.writing.folders import Writing, writing_of

pages = Blueprint("stations", __name__)


@dataclass(frozen=True, kw_only=True)
class StationsPage(Page):
    """Every station, and whether it asks for the technique."""

    template: ClassVar[str] = "writing/stations.html"
    technique: Text
    stations: tuple[Choice, ...]
    own_url: str
    back_url: str
    form: PlainForm


@pages.route("/writing/<technique>/stations", methods=["GET", "POST"])
@guard.needs("manager")
def stations(technique: str) -> AnyResponse:
    """Show which stations ask for it; change that in the draft."""
    here, form = writing_of(technique), PlainForm()
    if form.is_sent_right():
        ask_for(guard.kitchen(), here.content, here.id, request.form.getlist("station"))
        return go("writing.technique", technique=here.id)
    return show(
        StationsPage(
            title=message("Stations that ask for it"),
            technique=here.title,
            stations=choices(here),
            own_url=url_for(".stations", technique=here.id),
            back_url=url_for("writing.technique", technique=here.id),
            form=form,
        )
    )


def choices(here: Writing) -> tuple[Choice, ...]:
    """Return every station of the draft by what it is called, and whether it asks for the technique."""
    taught = reading.content().stations
    return tuple(
        Choice(id, taught[id].title if id in taught else id.replace("_", " "), asks)
        for id, asks in asking_stations(here.content, here.id).items()
    )
