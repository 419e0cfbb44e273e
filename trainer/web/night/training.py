"""The training plan on a page: what it takes, each line with its reason, lines taken out, paths opened."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any, ClassVar

from flask import Blueprint, Response, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions import paths
from trainer.actions.knowing import assessors_of
from trainer.actions.outcome import Refused
from trainer.actions.training import RingAdvised, Training, TrainingPlan, training_plan, watched_by
from trainer.kitchen.book import digest_of
from trainer.kitchen.clearance import Clearance
from trainer.kitchen.open_paths import path_standing, proposed_day
from trainer.kitchen.spans import in_short
from trainer.kitchen.standard_cost import hours_words
from trainer.messages import Text, joined, message, plural
from trainer.web import guard, reading
from trainer.web.filters import weekday
from trainer.web.forms import PlainForm
from trainer.web.manager.cover_view import Called
from trainer.web.manager.known_before import MINUTES_A_WEEK
from trainer.web.night_words import why_trained
from trainer.web.page import Page, go, show
from trainer.web.paths import mentor_of

pages = Blueprint("training", __name__)
DAYS = 14


@dataclass(frozen=True, slots=True)
class TrainingLine:
    """One training: who, where, what is missing, how long it takes and why; `out` is how the page names the line.

    Once it is accepted the path is open, and `accepted` says so; until then `accept` is what the button says.
    """

    number: int
    cook: str
    station: str
    missing: Text
    takes: Text
    because: Text
    out: str
    watched: Text
    waits: Text
    accepted: Text
    accept: Text
    cook_id: str
    station_id: str
    by_day: str
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
    ring: tuple[Text, ...]
    ring_told: Text
    taken_out: tuple[TakenOut, ...]
    own_url: str
    accept_url: str
    weekly: str
    form: PlainForm


@pages.get("/training-plan")
@guard.needs(guard.EITHER)
def plan() -> Response:
    """Show which training would help most; `out` are lines taken out, each `cook:station`."""
    return _shown(PlainForm())


@pages.post("/training-plan/accept")
@guard.needs(guard.EITHER)
def accept() -> AnyResponse:
    """Open the path of one line, by the day it says; the lines taken out stay so."""
    form, k, sent = PlainForm(), guard.kitchen(), request.form
    cook, station = sent.get("cook", "")[:80], sent.get("station", "")[:80]
    by_day = _day(sent.get("by_day", ""))
    if by_day is None or station not in k.content.stations or cook not in k.people():
        abort(404, message("There is no such line in the plan."))
    if form.is_sent_right():
        path = paths.NewPath(cook, station, by_day, mentor_of(cook))
        key = digest_of(f"{form.key.data}:{cook}:{station}".encode())
        outcome = paths.start_path(k, by=guard.person().id, path=path, now=guard.now(), key=key)
        if not isinstance(outcome, Refused):
            return go(".plan", saved=outcome.entry.id, **_asked())
        form.refuse(outcome)
    return _shown(form)


def _asked() -> dict[str, Any]:
    """Return what the page was asked for: the lines taken out, the minutes there are for watching."""
    return {"out": request.args.getlist("out") or None, "weekly": request.args.get("weekly") or None}


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def _weekly() -> int:
    """Return the minutes a week for watching: as typed, else the house's own number for each who assesses."""
    typed = request.args.get("weekly", "").strip()
    if typed.isascii() and typed.isdigit() and int(typed[:6]):
        return int(typed[:6])
    return MINUTES_A_WEEK * max(len(assessors_of(guard.kitchen().day(guard.today()))), 1)


def _shown(form: PlainForm) -> Response:
    k, content, weekly = guard.kitchen(), reading.content(), _weekly()
    pairs = [(cook, station) for cook, _, station in (one.partition(":") for one in request.args.getlist("out"))]
    names = {cook: str(person.name) for cook, person in k.people().items()}
    stations = {station.id: station.title for station in content.stations.values()}
    out = [(cook, station) for cook, station in pairs if cook in names and station in stations]
    found = training_plan(k, guard.today(), DAYS, content, out)
    days = watched_by(found.trainings, weekly, guard.today())
    return show(
        TrainingPlanPage(
            title=message("Training plan"),
            told=_in_short(found),
            lines=tuple(
                _line(number, one, days[number], Called(names, stations)) for number, one in enumerate(found.trainings)
            ),
            ring=tuple(_ring_lines(found.ring, Called(names, stations))) if found.ring else (),
            ring_told=_ring_told(found.ring) if found.ring else "",
            taken_out=tuple(
                TakenOut(f"{cook}:{station}", joined([names[cook], stations[station]], ", ")) for cook, station in out
            ),
            own_url=url_for(".plan"),
            accept_url=url_for(".accept", **_asked()),
            weekly=str(weekly),
            form=form,
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


def _ring_lines(ring: RingAdvised, called: Called) -> Iterator[Text]:
    """Yield who would learn which station, and how long that takes."""
    for cook, station, minutes in ring.learns:
        yield message(
            "{name} learns {station}: {time}",
            name=called.cooks[cook],
            station=called.stations[station],
            time=hours_words(minutes),
        )


def _ring_told(ring: RingAdvised) -> Text:
    """Return what the ring takes and brings, in whole places of a hundred, nothing rounded up."""
    brings = ring.brings
    now, filled, at_most = (100 * each // brings.hands for each in (brings.now, brings.filled, brings.at_most))
    return message(
        "If each of these learns one station more, every station shares somebody with the next, and the last with the "
        "first: {time} in all. With any two people missing, {now} of 100 places can be filled today, {filled} with the "
        "ring, and {most} if everybody learned everything.",
        time=hours_words(ring.minutes),
        now=now,
        filled=filled,
        most=at_most,
    )


def _line(number: int, one: Training, watched: date, called: Called) -> TrainingLine:
    day, k = guard.kitchen().day(guard.today()), guard.kitchen()
    found = day.clearance(k.people()[one.cook], day.rules.stations[one.station])
    waiting = one.wait.begins - day.on
    by_day = max(proposed_day(found, day.rules.stations[one.station]) + waiting, watched, one.wait.all_from)
    return TrainingLine(
        number,
        called.cooks[one.cook],
        called.stations[one.station],
        _missing_words(one),
        hours_words(one.minutes),
        why_trained(one, dict(called.cooks), dict(called.stations)),
        f"{one.cook}:{one.station}",
        _watched_words(one, watched),
        _wait_words(one.wait.begins) if waiting else "",
        _accepted_words(found),
        message("Accept: ready by {day}", day=in_short(by_day, with_year=True)),
        one.cook,
        one.station,
        by_day.isoformat(),
        url_for("paths.new", cook=one.cook, station=one.station, by_day=by_day),
        url_for("board.proof", cook=one.cook, station=one.station),
    )


def _wait_words(begins: date) -> Text:
    """Return from which day training can begin."""
    return message("From {day}: before that nothing of it can be asked or watched.", day=weekday(begins))


def _accepted_words(found: Clearance) -> Text:
    """Return that the path somebody else opened for the cook is open, and how late it is; "" where there is none."""
    path = path_standing(found)
    if path is None or path.path.by == found.cook:
        return ""
    day = weekday(path.path.by_day)
    if path.state != "late":
        return message("Accepted: the path is open, ready by {day}.", day=day)
    return plural(
        "Accepted: the path is open, ready by {day}. It is {number} day late.",
        "Accepted: the path is open, ready by {day}. It is {number} days late.",
        -path.days_left,
        day=day,
    )


def _watched_words(one: Training, watched: date) -> Text:
    """Return how long somebody stands beside, and by when there is time for it."""
    if not one.watching:
        return ""
    return message(
        "Somebody beside: {time}; there is time for it by {day}.", time=hours_words(one.watching), day=weekday(watched)
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
