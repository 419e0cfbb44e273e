"""The training plan on a page: what it takes, each line with its reason, lines taken out, paths opened."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, request, url_for

from trainer.actions.training import Training, TrainingPlan, training_plan
from trainer.kitchen.standard_cost import hours_words
from trainer.messages import Text, joined, message, plural
from trainer.web import guard, reading
from trainer.web.night_words import why_trained
from trainer.web.page import Page, show

pages = Blueprint("training", __name__)
DAYS = 14


@dataclass(frozen=True, slots=True)
class TrainingLine:
    """One training: who, where, what is missing, how long it takes and why; `out` is how the page names the line."""

    cook: str
    station: str
    missing: Text
    takes: Text
    because: Text
    out: str
    path_url: str
    cell_url: str


@dataclass(frozen=True, slots=True)
class TakenOut:
    """A line that was taken out by hand."""

    out: str
    words: Text


@dataclass(frozen=True, kw_only=True)
class TrainingPlanPage(Page):
    """What the plan comes to in one sentence, its lines, and what was taken out."""

    template: ClassVar[str] = "night/training.html"
    told: Text
    lines: tuple[TrainingLine, ...]
    taken_out: tuple[TakenOut, ...]
    own_url: str


@pages.get("/training-plan")
@guard.needs(guard.EITHER)
def plan() -> Response:
    """Show which training would help most; `out` are lines taken out, each `cook:station`."""
    k, content = guard.kitchen(), reading.content()
    pairs = [(cook, station) for cook, _, station in (one.partition(":") for one in request.args.getlist("out"))]
    names = {cook: str(person.name) for cook, person in k.people().items()}
    stations = {station.id: station.title for station in content.stations.values()}
    out = [(cook, station) for cook, station in pairs if cook in names and station in stations]
    found = training_plan(k, guard.today(), DAYS, content, out)
    return show(
        TrainingPlanPage(
            title=message("Training plan"),
            told=_in_short(found),
            lines=tuple(_line(one, names, stations) for one in found.trainings),
            taken_out=tuple(
                TakenOut(f"{cook}:{station}", joined([names[cook], stations[station]], ", ")) for cook, station in out
            ),
            own_url=url_for(".plan"),
        )
    )


def _in_short(found: TrainingPlan) -> Text:
    """Return what the plan takes and brings."""
    if not found.services:
        return message("Nobody is planned in the coming {days} days, so there is nothing to plan for.", days=DAYS)
    services = plural("{number} service", "{number} services", len(found.services))
    short = plural(
        "{number} place stays empty even so: somebody else has to be planned.",
        "{number} places stay empty even so: somebody else has to be planned.",
        found.short,
    )
    if not found.trainings:
        done = message(
            "No training is needed: at the coming {services}, any one person may be missing.", services=services
        )
        return short if found.short else done
    counted = {"time": hours_words(found.minutes), "services": services}
    told = (
        plural(
            "{number} training, {time} in all, helps most at the coming {services}.",
            "{number} trainings, {time} in all, help most at the coming {services}.",
            len(found.trainings),
            **counted,
        )
        if found.short
        else plural(
            "{number} training, {time} in all: then any one person may be missing at the coming {services}.",
            "{number} trainings, {time} in all: then any one person may be missing at the coming {services}.",
            len(found.trainings),
            **counted,
        )
    )
    return joined([told, *([short] if found.short else [])])


def _line(one: Training, names: dict[str, str], stations: dict[str, str]) -> TrainingLine:
    return TrainingLine(
        names[one.cook],
        stations[one.station],
        _missing_words(one),
        hours_words(one.minutes),
        why_trained(one, names, stations),
        f"{one.cook}:{one.station}",
        url_for("paths.new", cook=one.cook, station=one.station),
        url_for("board.proof", cook=one.cook, station=one.station),
    )


def _missing_words(one: Training) -> Text:
    """Return how much of each kind of work is missing."""
    kinds = [missing.what.partition(":")[0] for missing in one.missing]
    read, asked, seen = (kinds.count(kind) for kind in ("reading", "quiz", "practical"))
    told: list[Text] = []
    if read:
        told.append(plural("{number} technique to read", "{number} techniques to read", read))
    if asked:
        told.append(plural("questions of {number} technique", "questions of {number} techniques", asked))
    if seen:
        told.append(plural("{number} practical", "{number} practicals", seen))
    if {"shifts", "practice"} & set(kinds):
        told.append(message("shifts beside a cleared cook"))
    return message("Missing: {things}.", things=joined(told, ", "))
