"""The cook's pages: the rail, a technique and its steps, being watched, the own record."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import ClassVar

from flask import Blueprint, abort, url_for
from markupsafe import Markup
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.asking import ask_to_be_watched
from trainer.actions.next_tasks import next_task
from trainer.actions.outcome import Refused
from trainer.actions.studying import acknowledge_reading, clock_running, keep_place
from trainer.content.figure_files import figure
from trainer.kitchen.clearance import Clearance, TechniqueStanding, clearances_of, technique_standing
from trainer.kitchen.next_acts import NextAct, next_acts
from trainer.kitchen.tasks import Task
from trainer.kitchen.technique import Hazard, Source, Station, Step, Technique, Timer, Word
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.cook import contest, tasks
from trainer.web.cook.screen import style_url
from trainer.web.entry_words import Naming
from trainer.web.forms import PlainForm
from trainer.web.page import Page, go, is_looked_at, show
from trainer.web.path_words import path_lines
from trainer.web.paths import PathLine, own_paths

pages = Blueprint("cook", __name__)
pages.register_blueprint(contest.pages)
ON_RAIL = 3
TRUE_SIZE = re.compile(r'<svg[^>]*width="[\d.]+mm"')
ON_SPIKE = 8


@dataclass(frozen=True, slots=True)
class StationLine:
    """A station with what the cook is there, and what to do next for it."""

    station: Station
    clearance: Clearance
    next_acts: tuple[NextAct, ...]
    path: tuple[Text, ...]


@dataclass(frozen=True, kw_only=True)
class RailPage(Page):
    """What to do next, what waits below, stations with the lid on, what is done; `asides` tell of quizzes put aside."""

    template: ClassVar[str] = "cook/rail.html"
    asides: tuple[Text, ...]
    paths: tuple[PathLine, ...]
    rail: tuple[tasks.TaskCard, ...]
    below: tuple[tasks.TaskCard, ...]
    lids: tuple[StationLine, ...]
    spike: tuple[tasks.DoneItem, ...]
    today: tasks.NextAction | None
    act: tasks.NextAction | None
    form: PlainForm


@dataclass(frozen=True, kw_only=True)
class TechniquePage(Page):
    """One technique: goal, words, standard, tools, hazards, allergens."""

    template: ClassVar[str] = "cook/technique.html"
    technique: Technique
    state: str
    edition: int
    changed: str
    stations: tuple[Station, ...]
    allergens: tuple[str, ...]
    act: tasks.NextAction
    asked_line: Text
    form: PlainForm


@dataclass(frozen=True, slots=True)
class Clock:
    """The clock of a step while it runs: when it was started, when it is over, and whether it is by now.

    Of a step with several, `timer` is the one that runs. Moments are also given as milliseconds since 1970, so that a
    browser whose own clock is wrong counts right.
    """

    since: datetime
    until: datetime
    is_over: bool
    until_ms: int
    now_ms: int
    seconds: int
    timer: Timer | None


@dataclass(frozen=True, kw_only=True)
class StepPage(Page):
    """One step, filling the screen."""

    template: ClassVar[str] = "cook/step.html"
    technique: str
    technique_title: str
    number: int
    total: int
    step: Step
    hazards: tuple[Hazard, ...]
    drawing: Markup
    words: tuple[Word, ...]
    clock: Clock | None
    is_true_size: bool
    screen_style: str
    back_url: str
    next_url: str
    form: PlainForm


@dataclass(frozen=True, slots=True)
class Try:
    """A kind of question to try: what it asks for, and where."""

    title: str
    url: str


@dataclass(frozen=True, kw_only=True)
class AfterPage(Page):
    """After the steps: faults, sources, and saying that it is read."""

    template: ClassVar[str] = "cook/after.html"
    technique: Technique
    edition: int
    is_read: bool
    sources: tuple[Source, ...]
    tries: tuple[Try, ...]
    back_url: str
    form: PlainForm


@dataclass(frozen=True, kw_only=True)
class OwnRecordPage(Page):
    """The cook's own record: every station with what is held and missing, and everything done."""

    template: ClassVar[str] = "cook/record.html"
    name: str
    paper_url: str
    places: tuple[StationLine, ...]
    spike: tuple[tasks.DoneItem, ...]


@pages.get("/rail")
@guard.needs("cook")
def rail() -> AnyResponse:
    """Show the cook's rail."""
    return show(_rail_page(PlainForm()))


@pages.get("/techniques/<technique>")
@guard.needs("cook")
def technique(technique: str) -> AnyResponse:
    """Show one technique."""
    return show(_technique_page(tasks.technique_named(technique), PlainForm()))


@pages.get("/techniques/<technique>/steps/<int:number>")
@guard.needs("cook")
def step(technique: str, number: int) -> AnyResponse:
    """Show one step."""
    found = tasks.technique_named(technique)
    if not 1 <= number <= len(found.steps):
        abort(404)
    here = found.steps[number - 1]
    drawing = figure(guard.kitchen().drawings, found.id, here.figure) if here.figure else ""
    page = StepPage(
        title=message("{title}, step {number} of {steps}", title=found.title, number=number, steps=len(found.steps)),
        technique=found.id,
        technique_title=found.title,
        number=number,
        total=len(found.steps),
        step=here,
        hazards=tuple(hazard for hazard in found.hazards if hazard.id in here.hazards),
        drawing=Markup(drawing),  # noqa: S704 - the kitchen's own content; scripts in it cannot run under our policy
        words=found.words,
        clock=_clock(found, here),
        is_true_size=bool(TRUE_SIZE.search(drawing)),
        screen_style=style_url() if drawing else "",
        back_url=_step_url(found, number - 1),
        next_url=_step_url(found, number + 1),
        form=PlainForm(),
    )
    if is_looked_at():
        keep_place(guard.kitchen(), cook=guard.person().id, technique=found, step=here.id, now=guard.now())
    return show(page)


@pages.route("/techniques/<technique>/after", methods=["GET", "POST"])
@guard.needs("cook")
def after(technique: str) -> AnyResponse:
    """Show faults and sources; on a POST, record that the edition is read."""
    found, form = tasks.technique_named(technique), PlainForm()
    if form.is_sent_right():
        outcome = acknowledge_reading(
            guard.kitchen(), cook=guard.person().id, technique=found.id, now=guard.now(), key=form.key.data
        )
        if not isinstance(outcome, Refused):
            return go("cook.technique", technique=found.id, saved=outcome.entry.id)
        form.refuse(outcome)
    content = reading.content()
    page = AfterPage(
        title=message("{title}: check yourself", title=found.title),
        technique=found,
        edition=found.edition_on(guard.today()).number,
        is_read=_standing(found).is_read,
        sources=tuple(content.sources[name] for name in found.sources if name in content.sources),
        tries=tuple(
            Try(
                content.question_words.title(each.family),
                url_for("study.try_one", technique=found.id, family=each.family),
            )
            for each in found.questions
        ),
        back_url=_step_url(found, len(found.steps)),
        form=form,
    )
    return show(page)


@pages.post("/techniques/<technique>/ask")
@guard.needs("cook")
def ask(technique: str) -> AnyResponse:
    """Record that the cook asks to be watched."""
    found, form = tasks.technique_named(technique), PlainForm()
    if form.is_sent_right():
        outcome = ask_to_be_watched(
            guard.kitchen(), cook=guard.person().id, technique=found.id, now=guard.now(), key=form.key.data
        )
        if not isinstance(outcome, Refused):
            return go("cook.rail", saved=outcome.entry.id)
        form.refuse(outcome)
    return show(_technique_page(found, form))


@pages.get("/record")
@guard.needs("cook")
def record() -> AnyResponse:
    """Show the cook's own record."""
    who = guard.person()
    done = guard.kitchen().progress().record(who.id).as_of(guard.today())
    return show(
        OwnRecordPage(
            title=message("My record"),
            name=who.name,
            paper_url=url_for("records.record", cook=who.id),
            places=_places(),
            spike=tasks.done_items(done),
        )
    )


def _rail_page(form: PlainForm) -> RailPage:
    cards = tasks.cards()
    done = guard.kitchen().progress().record(guard.person().id).as_of(guard.today())
    acts = [card.act for card in cards if card.act]
    return RailPage(
        title=message("My rail"),
        asides=tuple(aside.words for aside in tasks.asides()),
        paths=own_paths(),
        rail=cards[:ON_RAIL],
        below=cards[ON_RAIL:],
        lids=tuple(place for place in _places() if place.clearance.is_cleared),
        spike=tasks.done_items(done)[:ON_SPIKE],
        today=tasks.questions_today(),
        act=acts[0] if acts else None,
        form=form,
    )


def _technique_page(found: Technique, form: PlainForm) -> TechniquePage:
    content, edition = reading.content(), found.edition_on(guard.today())
    k = guard.kitchen()
    task = next_task(k, cook=guard.person().id, technique=found, day=k.day(guard.today()))
    card = tasks.card_of(task)
    return TechniquePage(
        title=found.title,
        technique=found,
        state=task.state,
        edition=edition.number,
        changed=edition.changed if edition.number > 1 else "",
        stations=content.stations_asking_for(found.id),
        allergens=tuple(content.allergens.get(name, name) for name in found.allergens),
        act=card.act if card.act and task.standing.is_read else _to_steps(task),
        asked_line=card.line,
        form=form,
    )


def _to_steps(task: Task) -> tasks.NextAction:
    """Return the way into the steps: where the cook left off, or at the first."""
    found, place = task.technique, task.under_way.step
    if place is not None:
        return tasks.NextAction(message("Go on at step {number}", number=place), _step_url(found, place))
    words = message("See the steps again") if task.standing.is_read else message("Start the steps")
    return tasks.NextAction(words, _step_url(found, 1))


def _places() -> tuple[StationLine, ...]:
    k, who = guard.kitchen(), guard.person()
    naming = Naming(k.people(), reading.content())
    stations = tuple(reading.content().stations.values())
    found = clearances_of(who, stations, k.progress(), reading.content(), guard.today())
    return tuple(
        StationLine(station, clearance, next_acts(clearance.missing), path_lines(clearance, naming))
        for station, clearance in zip(stations, found, strict=True)
    )


def _standing(found: Technique) -> TechniqueStanding:
    return technique_standing(guard.person().id, found, guard.kitchen().progress(), guard.today())


def _clock(found: Technique, step: Step) -> Clock | None:
    """Return the clock of a step, counted from its kept start; None where it does not run."""
    running = clock_running(guard.kitchen(), cook=guard.person().id, technique=found)
    if running is None or running[0].step != step.id:
        return None
    started, since = running
    timer = next((each for each in step.timers if each.line == started.line), None)
    seconds = timer.seconds if timer else step.seconds
    if not seconds:
        return None
    until, now = since + timedelta(seconds=seconds), guard.now()
    is_over = until <= now
    return Clock(since, until, is_over, int(until.timestamp() * 1000), int(now.timestamp() * 1000), seconds, timer)


def _step_url(found: Technique, number: int) -> str:
    if number < 1:
        return url_for("cook.technique", technique=found.id)
    if number > len(found.steps):
        return url_for("cook.after", technique=found.id)
    return url_for("cook.step", technique=found.id, number=number)
