"""The first page of a technique: what must be known before the first step, and the steps by name."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import ClassVar

from flask import url_for

from trainer.actions.edition_news import changes_since
from trainer.actions.next_tasks import next_task
from trainer.kitchen.edition_changes import StepChange
from trainer.kitchen.motion import StepGroup
from trainer.kitchen.recipe import Ingredient, Recipe
from trainer.kitchen.tasks import Task
from trainer.kitchen.technique import Edition, Hazard, Limit, Station, Step, Technique
from trainer.messages import Text, message, plural
from trainer.web import guard, reading
from trainer.web.cook import tasks
from trainer.web.cook.saying import front_said
from trainer.web.forms import PlainForm
from trainer.web.page import Page

MOST_CAUTIONS = 2
MOST_NUMBERS = 3
MOST_AMOUNTS = 3
SECONDS_A_SCREEN = 25
"""How long a cook reads one step, until their own pace is known: a sentence of 20 words, and a look (from memory)."""


@dataclass(frozen=True, slots=True)
class StepRow:
    """One step in a list: its number, its name, and what it is to the reader: read, here, or still to come."""

    number: int
    step: Step
    url: str
    mark: Text
    is_here: bool = False


@dataclass(frozen=True, slots=True)
class GroupRow:
    """Steps under one name; `url` leads to the one the reader is at, else to the first."""

    name: str
    steps: tuple[StepRow, ...]

    @property
    def here(self) -> StepRow | None:
        """Return the step the reader is at, if it is one of these."""
        return next((row for row in self.steps if row.is_here), None)

    @property
    def url(self) -> str:
        """Return where the group is gone on with."""
        return (self.here or self.steps[0]).url

    @property
    def mark(self) -> Text:
        """Return the mark of the last of them, or that the reader is here."""
        return self.here.mark if self.here else self.steps[-1].mark


@dataclass(frozen=True, slots=True)
class PracticeBatch:
    """A recipe as it is practiced: its first lines, how many are left out, and where the whole stands."""

    recipe: Recipe
    url: str

    @property
    def lines(self) -> tuple[Ingredient, ...]:
        """Return the ingredients that stand on the page."""
        return self.recipe.ingredients[:MOST_AMOUNTS]

    @property
    def left_out(self) -> int:
        """Return how many ingredients stand on the recipe alone."""
        return max(0, len(self.recipe.ingredients) - MOST_AMOUNTS)


@dataclass(frozen=True, kw_only=True)
class TechniquePage(Page):
    """One technique: its goal, what to mind before the first step, amounts, numbers, and the steps by name."""

    template: ClassVar[str] = "cook/technique.html"
    technique: Technique
    state: str
    length: Text
    edition: Edition
    news: tuple[Edition, ...]
    cautions: tuple[Hazard, ...]
    allergens: tuple[str, ...]
    more_cautions: int
    batches: tuple[PracticeBatch, ...]
    numbers: tuple[tuple[Limit, str], ...]
    groups: tuple[GroupRow, ...]
    stations: tuple[Station, ...]
    act: tasks.NextAction
    asked_line: Text
    rehearsal: tasks.NextAction | None
    changes: tuple[StepChange, ...]
    to_listen: tuple[Text, ...]
    form: PlainForm


@dataclass(frozen=True, kw_only=True)
class StepsPage(Page):
    """The steps of a technique by name, in their groups."""

    template: ClassVar[str] = "cook/steps.html"
    technique: Technique
    groups: tuple[GroupRow, ...]
    act: tasks.NextAction


def technique_page(found: Technique, form: PlainForm) -> TechniquePage:
    """Return the first page of a technique, for who reads it now."""
    content, edition, task = reading.content(), found.edition_on(guard.today()), _task(found)
    card, before = tasks.card_of(task), _cautions(found)
    allergens = tuple(content.allergens.get(name, name).split(" (")[0].lower() for name in found.allergens)
    return TechniquePage(
        title=found.title,
        technique=found,
        state=task.state,
        length=_length(found, task),
        edition=edition,
        news=news_of(found, edition),
        cautions=before,
        allergens=allergens,
        more_cautions=len(found.hazards) - len(before),
        batches=tuple(
            PracticeBatch(recipe, url_for("bench.batch", recipe=recipe.id))
            for recipe in content.recipes.values()
            if found.id in recipe.techniques
        )[:1],
        numbers=found.numbers or found.held_to[:MOST_NUMBERS],
        groups=group_rows(found, task),
        stations=content.stations_asking_for(found.id),
        act=card.act if card.act and task.standing.is_read else to_steps(task),
        asked_line=card.line if task.act != "read" else "",
        rehearsal=card.rehearsal,
        changes=_changes(found),
        to_listen=front_said(found, before, allergens),
        form=form,
    )


def steps_page(found: Technique) -> StepsPage:
    """Return the list of steps, for who reads it now."""
    task = _task(found)
    title = message("{technique}: steps", technique=found.title)
    return StepsPage(title=title, technique=found, groups=group_rows(found, task), act=to_steps(task))


def step_url(found: Technique, number: int) -> str:
    """Return where a step is; before the first comes the technique's page, after the last what goes wrong."""
    if number < 1:
        return url_for("cook.technique", technique=found.id)
    if number > len(found.steps):
        return url_for("cook.after", technique=found.id)
    return url_for("cook.step", technique=found.id, number=number)


def to_steps(task: Task) -> tasks.NextAction:
    """Return the way into the steps: where the cook left off, or at the first, by its name."""
    found, place = task.technique, task.under_way.step
    if place is not None:
        return tasks.NextAction(message("Go on: {step}", step=found.steps[place - 1].title), step_url(found, place))
    first = found.steps[0].title
    words = message("See the steps again") if task.standing.is_read else message("Start: {step}", step=first)
    return tasks.NextAction(words, step_url(found, 1))


def group_rows(found: Technique, task: Task) -> tuple[GroupRow, ...]:
    """Return the steps in their groups, each with what it is to the reader; by themselves where there are no groups."""
    rows = [_row(found, task, number, step) for number, step in enumerate(found.steps, 1)]
    groups = found.groups or tuple(StepGroup(row.step.id, row.step.title, row.number, row.number) for row in rows)
    return tuple(GroupRow(group.name, tuple(rows[group.first - 1 : group.last])) for group in groups)


def _row(found: Technique, task: Task, number: int, step: Step) -> StepRow:
    is_here = number == task.under_way.step
    is_read = task.standing.is_read or step.id in task.under_way.been
    mark: Text = message("here") if is_here else message("read") if is_read else ""
    return StepRow(number, step, step_url(found, number), mark, is_here)


def _task(found: Technique) -> Task:
    k = guard.kitchen()
    return next_task(k, cook=guard.person().id, technique=found, day=k.day(guard.today()))


def _length(found: Technique, task: Task) -> Text:
    """Return how many steps there are, and how long the ones left take to read."""
    left = len(found.steps) - (task.under_way.step or 1) + 1
    steps = plural("{number} step", "{number} steps", len(found.steps))
    return message("{steps}, {minutes} min", steps=steps, minutes=ceil(left * SECONDS_A_SCREEN / 60))


def _changes(found: Technique) -> tuple[StepChange, ...]:
    """Return the steps that changed since the edition the reader read, as the book published both."""
    k, now, read = guard.kitchen(), reading.now(), _edition_read(found)
    if not read or read >= found.edition_on(guard.today()).number:
        return ()
    return changes_since(k, now=found, read=read, language=now.language, units=now.units)


def _edition_read(found: Technique) -> int:
    """Return the last edition the reader has read; 0 where they have read none."""
    done = guard.kitchen().progress().record(guard.person().id).as_of(guard.today())
    return max((each.edition for each in done.read if each.technique == found.id), default=0)


def news_of(found: Technique, edition: Edition) -> tuple[Edition, ...]:
    """Return the editions since the one the reader has read; none where they have read none."""
    read = _edition_read(found)
    return tuple(each for each in found.editions if read and read < each.number <= edition.number)


def _cautions(found: Technique) -> tuple[Hazard, ...]:
    """Return the cautions to mind before the first step: those of no step, then those of the first one.

    The allergens are one of the two; what stands at no step is never left out.
    """
    at_steps = {id for step in found.steps for id in step.hazards}
    nowhere = [hazard for hazard in found.hazards if hazard.id not in at_steps]
    first = [hazard for hazard in found.hazards if hazard.id in found.steps[0].hazards]
    room = MOST_CAUTIONS - bool(found.allergens)
    return (*nowhere, *first[: max(0, room - len(nowhere))])
