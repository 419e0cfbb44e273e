"""The cook's pages: their own first page, a technique and its steps, being watched, the own record."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from typing import ClassVar

from flask import Blueprint, abort, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import HiddenField

from trainer.actions.asking import ask_to_be_watched
from trainer.actions.outcome import Refused
from trainer.actions.step_clocks import clocks_running
from trainer.actions.studying import acknowledge_reading, keep_place, steps_been
from trainer.content.figure_files import figure
from trainer.kitchen.clearance import Clearance, TechniqueStanding, clearances_of, technique_standing
from trainer.kitchen.next_acts import NextAct, next_acts
from trainer.kitchen.technique import Hazard, Source, Station, Step, Technique, Word
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.cook import contest, helping, tasks
from trainer.web.cook.front import news_of, step_url, steps_page, technique_page
from trainer.web.cook.helping import Help, help_for
from trainer.web.cook.home import home_page
from trainer.web.cook.saying import step_said
from trainer.web.cook.screen import style_url
from trainer.web.drawn import StepDrawing, drawn, numbers_on
from trainer.web.entry_words import Naming
from trainer.web.forms import KitchenForm, PlainForm
from trainer.web.offline import late
from trainer.web.page import Page, go, is_looked_at, show
from trainer.web.path_words import path_lines
from trainer.web.photographs import photograph_url

pages = Blueprint("cook", __name__)
pages.register_blueprint(contest.pages)
pages.register_blueprint(helping.pages)
TRUE_SIZE = re.compile(r'<svg[^>]*width="[\d.]+mm"')


@dataclass(frozen=True, slots=True)
class StationLine:
    """A station with what the cook is there, and what to do next for it."""

    station: Station
    clearance: Clearance
    next_acts: tuple[NextAct, ...]
    path: tuple[Text, ...]


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
    drawing: StepDrawing
    photograph: str
    words: tuple[Word, ...]
    clocks: Mapping[str, datetime]
    is_true_size: bool
    screen_style: str
    back_url: str
    next_url: str
    to_listen: tuple[Text, ...]
    help: Help
    form: PlainForm


@dataclass(frozen=True, slots=True)
class Try:
    """A kind of question to try: what it asks for, and where."""

    title: str
    url: str


class ReadForm(KitchenForm):
    """That a technique is read, in the edition that stood on the page."""

    edition = HiddenField()

    @property
    def number(self) -> int | None:
        """Return that edition; None where it is none."""
        typed = self.edition.data or ""
        return int(typed) if typed.isascii() and typed.isdigit() and len(typed) < 6 else None


@dataclass(frozen=True, kw_only=True)
class AfterPage(Page):
    """After the steps: faults, sources, and saying that it is read."""

    template: ClassVar[str] = "cook/after.html"
    technique: Technique
    edition: int
    is_read: bool
    to_read: tasks.NextAction | None
    sources: tuple[Source, ...]
    tries: tuple[Try, ...]
    back_url: str
    form: ReadForm


@dataclass(frozen=True, kw_only=True)
class OwnRecordPage(Page):
    """The cook's own record: every station with what is held and missing, and everything done."""

    template: ClassVar[str] = "cook/record.html"
    name: str
    paper_url: str
    pdf_url: str
    places: tuple[StationLine, ...]
    spike: tuple[tasks.DoneItem, ...]


@pages.get("/rail")
@guard.needs("cook")
def rail() -> AnyResponse:
    """Show the cook's own page."""
    return show(home_page(PlainForm()))


@pages.get("/techniques/<technique>")
@guard.needs("cook")
def technique(technique: str) -> AnyResponse:
    """Show one technique."""
    return show(technique_page(tasks.technique_named(technique), PlainForm()))


@pages.get("/techniques/<technique>/steps")
@guard.needs("cook")
def step_list(technique: str) -> AnyResponse:
    """Show the steps by name."""
    return show(steps_page(tasks.technique_named(technique)))


@pages.get("/techniques/<technique>/steps/<int:number>")
@guard.needs("cook")
def step(technique: str, number: int) -> AnyResponse:
    """Show one step."""
    found = tasks.technique_named(technique)
    if not 1 <= number <= len(found.steps):
        abort(404)
    here = found.steps[number - 1]
    read = partial(figure, guard.kitchen().drawings, found.id)
    drawing = drawn(here, numbers_on(found, reading.content().code.limits, read))
    hazards = tuple(hazard for hazard in found.hazards if hazard.id in here.hazards)
    page = StepPage(
        title=message("{step}: {title}, step {number}", step=here.title, title=found.title, number=number),
        technique=found.id,
        technique_title=found.title,
        number=number,
        total=len(found.steps),
        step=here,
        hazards=hazards,
        drawing=drawing,
        photograph=photograph_url(found.id, here),
        words=found.words,
        clocks=_clocks(found, here),
        is_true_size=bool(TRUE_SIZE.search(drawing.single)),
        screen_style=style_url() if drawing.single else "",
        back_url=step_url(found, number - 1),
        next_url=step_url(found, number + 1),
        to_listen=step_said(here, hazards, drawing),
        help=help_for(found.id, step=here.id),
        form=PlainForm(),
    )
    if is_looked_at():
        keep_place(guard.kitchen(), cook=guard.person().id, technique=found, step=here.id, now=guard.now())
    return show(page)


@pages.route("/techniques/<technique>/after", methods=["GET", "POST"])
@guard.needs("cook")
def after(technique: str) -> AnyResponse:
    """Show faults and sources; on a POST, record that the edition is read, once they were at every step."""
    found, form = tasks.technique_named(technique), ReadForm()
    left = None if late.is_to_be_kept() else _left_to_read(found)
    if form.is_sent_right() and left is not None:
        form.refuse(Refused(message("Go through the steps first, from “{step}”.", step=found.steps[left - 1].title)))
    elif form.is_sent_right():
        outcome = acknowledge_reading(
            guard.kitchen(),
            cook=guard.person().id,
            technique=found.id,
            now=guard.now(),
            key=form.key.data,
            edition=form.number,
            done_at=late.done_at(),
        )
        if not isinstance(outcome, Refused):
            return go("cook.technique", technique=found.id, saved=outcome.entry.id)
        form.refuse(outcome)
    content, edition = reading.content(), found.edition_on(guard.today())
    form.edition.data = str(edition.number)
    page = AfterPage(
        title=message("{title}: check yourself", title=found.title),
        technique=found,
        edition=edition.number,
        is_read=_standing(found).is_read and not news_of(found, edition),
        to_read=tasks.NextAction(message("Go on: {step}", step=found.steps[left - 1].title), step_url(found, left))
        if left is not None
        else None,
        sources=tuple(content.sources[name] for name in found.sources if name in content.sources),
        tries=tuple(
            Try(
                content.question_words.title(each.family),
                url_for("study.try_one", technique=found.id, family=each.family),
            )
            for each in found.questions
        ),
        back_url=step_url(found, len(found.steps)),
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
    return show(technique_page(found, form))


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
            pdf_url=url_for("records.as_pdf", cook=who.id),
            places=_places(),
            spike=tasks.done_items(done),
        )
    )


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


def _left_to_read(found: Technique) -> int | None:
    """Return the first step they were not at; None once there is none, and where an edition of it was read before."""
    cook = guard.person().id
    done = guard.kitchen().progress().record(cook).as_of(guard.today())
    if any(each.technique == found.id for each in done.read):
        return None
    been = steps_been(guard.kitchen(), cook=cook, technique=found)
    return next((number for number, step in enumerate(found.steps, 1) if step.id not in been), None)


def _clocks(found: Technique, step: Step) -> dict[str, datetime]:
    """Return until when each clock of a step runs, by its line; the one clock of a step has the line ""."""
    running = clocks_running(guard.kitchen(), cook=guard.person().id, now=guard.now())
    return {one.of.line: one.until for one in running if (one.technique, one.of.step) == (found.id, step.id)}
