"""A cook's tasks on a page: each with its sentence, its address and the button of its next act; what is done below."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from flask import abort, url_for

from trainer.actions.next_tasks import next_task
from trainer.actions.sitting_drafts import PutAside, put_aside
from trainer.kitchen.notices import notice_title
from trainer.kitchen.practical import WORDS
from trainer.kitchen.record import CookRecord
from trainer.kitchen.tasks import Act, Task
from trainer.kitchen.technique import Technique
from trainer.messages import Text, joined, message, plural
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
    rehearsal: NextAction | None = None


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


def may_ask_to_be_watched(technique: Technique) -> bool:
    """Return whether all of a technique is known, and only being watched is left."""
    day = guard.kitchen().day(guard.today())
    task = next_task(guard.kitchen(), cook=guard.person().id, technique=technique, day=day)
    return task.act == "ask to be watched"


def card_of(task: Task) -> TaskCard:
    """Return a task as a card: what is next in a sentence, and the button that does it."""
    technique = task.technique
    url = url_for("cook.technique", technique=technique.id)
    return TaskCard(technique.title, task.state, task.words(guard.now()), url, _action(task), rehearsal_of(task))


def rehearsal_of(task: Task) -> NextAction | None:
    """Return the way through the points alone, where only the practical is left; else None."""
    if task.act not in ("ask to be watched", "wait to be watched"):
        return None
    points = len(task.technique.checklist)
    words = plural("Go through the {number} point", "Go through the {number} points", points)
    return NextAction(words, url_for("rehearsing.rehearse", technique=task.technique.id))


def _action(task: Task) -> NextAction | None:
    """Return the button of a task's next act; None where there is nothing the cook could do themselves."""
    act = _ACTIONS.get(task.act)
    return act(task) if act else None


def _skill_to_practise(task: Task) -> str:
    return task.under_way.skills.practise if task.under_way.skills else ""


_ACTIONS: Mapping[Act, Callable[[Task], NextAction]] = {
    "finish quiz": lambda task: NextAction(
        message("Go on with the quiz: {name}", name=task.technique.title),
        url_for("quiz.sitting", sitting=task.under_way.sitting),
    ),
    "read": lambda task: NextAction(
        message("Read: {name}", name=task.technique.title), url_for("cook.technique", technique=task.technique.id)
    ),
    "wait for quiz": lambda task: NextAction(
        message("Go through it again: {title}", title=task.technique.title),
        url_for("cook.step", technique=task.technique.id, number=1),
    ),
    "sit quiz": lambda task: NextAction(
        message("Sit the quiz: {title}", title=task.technique.title),
        url_for("quiz.start", technique=task.technique.id),
    ),
    "answer questions": lambda task: NextAction(
        message("Answer questions: {title}", title=task.technique.title),
        url_for("questions.ask", technique=task.technique.id),
    ),
    "practise": lambda task: NextAction(
        message("Practice first: {title}", title=task.technique.title),
        url_for("practice.practise", technique=task.technique.id, skill=_skill_to_practise(task)),
    ),
    "wait for questions": lambda task: NextAction(
        message("Go through it again: {title}", title=task.technique.title),
        url_for("cook.step", technique=task.technique.id, number=1),
    ),
    "ask to be watched": lambda task: NextAction(
        message("Ask to be watched"), url_for("cook.ask", technique=task.technique.id), saves=True
    ),
}


def done_items(record: CookRecord) -> tuple[DoneItem, ...]:
    """Return what a cook has done, newest first."""
    found = [
        *_read_items(record),
        *_notice_items(record),
        *_quiz_items(record),
        *_watched_items(record),
        *_shift_items(record),
    ]
    return tuple(sorted(found, key=lambda item: item.entry, reverse=True))


def _read_items(record: CookRecord) -> list[DoneItem]:
    return [
        DoneItem(r.entry, _title(r.technique), message("Read edition {edition}, {on}", edition=r.edition, on=day(r.on)))
        for r in record.read
    ]


def _notice_items(record: CookRecord) -> list[DoneItem]:
    return [
        DoneItem(
            one.entry,
            reading.printed(notice_title(one.notice)),
            message("Read edition {edition}, {on}", edition=one.edition, on=day(one.on)),
            url_for("notice.look"),
        )
        for one in record.notices
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
