"""A cook's tasks on a page: each with its sentence, its address and the button of its next act; what is done below."""

from __future__ import annotations

from dataclasses import dataclass, replace

from flask import abort, url_for

from trainer.actions.next_tasks import tasks_to_do
from trainer.actions.sitting_drafts import PutAside, put_aside
from trainer.kitchen.practical import WORDS
from trainer.kitchen.record import CookRecord
from trainer.kitchen.tasks import Task
from trainer.kitchen.technique import Technique
from trainer.messages import Text, joined, message
from trainer.web import guard, reading
from trainer.web.filters import day
from trainer.web.result_view import word_for


@dataclass(frozen=True, slots=True)
class NextAction:
    """The next act on a technique: its words, where it leads, and whether one press there saves something."""

    words: Text
    url: str
    saves: bool = False


@dataclass(frozen=True, slots=True)
class TaskCard:
    """One technique as it hangs on the rail or waits below it."""

    title: str
    state: str
    line: Text
    url: str
    act: NextAction | None


@dataclass(frozen=True, slots=True)
class DoneItem:
    """One thing done, on the spike."""

    entry: str
    title: str
    line: Text
    url: str = ""


def technique_named(name: str) -> Technique:
    """Return the technique of an address, or answer that there is none."""
    found = reading.content().techniques.get(name)
    if found is None:
        abort(404, message("There is no technique “{name}” in this kitchen.", name=name))
    return found


def asides() -> tuple[PutAside, ...]:
    """Return the reader's sittings that are put aside, each title in the reader's words where it is still taught."""
    taught = reading.content().techniques
    found = put_aside(guard.kitchen(), cook=guard.person().id)
    return tuple(
        replace(each, title=taught[each.technique].title) if each.technique in taught else each for each in found
    )


def cards() -> tuple[TaskCard, ...]:
    """Return a card for everything the reader has still to do, nearest first."""
    found = tasks_to_do(guard.kitchen(), cook=guard.person().id, on=guard.today(), content=reading.content())
    return tuple(card_of(task) for task in found)


def card_of(task: Task) -> TaskCard:
    """Return a task as a card: what is next in a sentence, and the button that does it."""
    technique = task.technique
    url = url_for("cook.technique", technique=technique.id)
    return TaskCard(technique.title, task.state, task.words(guard.now()), url, _action(task))


def _action(task: Task) -> NextAction | None:
    """Return the button of a task's next act; None where there is nothing the cook could do themselves."""
    name, title = task.technique.id, task.technique.title
    if task.act == "finish quiz":
        words = message("Go on with the quiz: {name}", name=title)
        return NextAction(words, url_for("quiz.sitting", sitting=task.under_way.sitting))
    if task.act == "read":
        return NextAction(message("Read: {name}", name=title), url_for("cook.technique", technique=name))
    if task.act == "wait for quiz":
        words = message("Go through it again: {title}", title=title)
        return NextAction(words, url_for("cook.step", technique=name, number=1))
    if task.act == "sit quiz":
        return NextAction(message("Sit the quiz: {title}", title=title), url_for("quiz.start", technique=name))
    if task.act == "ask to be watched":
        return NextAction(message("Ask to be watched"), url_for("cook.ask", technique=name), saves=True)
    return None


def done_items(record: CookRecord) -> tuple[DoneItem, ...]:
    """Return what a cook has done, newest first."""
    found = [*_read_items(record), *_quiz_items(record), *_watched_items(record), *_shift_items(record)]
    return tuple(sorted(found, key=lambda item: item.entry, reverse=True))


def _read_items(record: CookRecord) -> list[DoneItem]:
    return [
        DoneItem(r.entry, _title(r.technique), message("Read edition {edition}, {on}", edition=r.edition, on=day(r.on)))
        for r in record.read
    ]


def _quiz_items(record: CookRecord) -> list[DoneItem]:
    found = []
    for sat in record.sat:
        outcome = word_for(sat.passed, undecided=sat.undecided)
        line = message(
            "Quiz: {right} of {asked} right, {outcome}, {on}",
            right=sat.right,
            asked=sat.asked,
            outcome=outcome,
            on=day(sat.on),
        )
        found.append(DoneItem(sat.entry, _title(sat.technique), line, url_for("quiz.result", entry=sat.entry)))
    return found


def _watched_items(record: CookRecord) -> list[DoneItem]:
    people = guard.kitchen().people()
    found = []
    for watched in record.watched:
        parts: list[Text] = [WORDS.get(watched.verdict, watched.verdict), day(watched.on)]
        if watched.by in people:
            parts.append(message("signed {name}", name=people[watched.by].name))
        found.append(DoneItem(watched.entry, _title(watched.technique), joined(parts, ", ")))
    return found


def _shift_items(record: CookRecord) -> list[DoneItem]:
    return [
        DoneItem(s.entry, _title(s.station), message("Supervised shift, {worked_on}", worked_on=day(s.worked_on)))
        for s in record.shifts
    ]


def _title(name: str) -> str:
    """Return the title of a technique or station; its id where the content no longer has it."""
    content = reading.content()
    found = content.techniques.get(name) or content.stations.get(name)
    return found.title if found else name
