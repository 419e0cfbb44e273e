"""A cook's own page: the station they go for, every technique of it in its sequence, what is next, what is left."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from trainer.actions.asking_skills import standings_of
from trainer.actions.covering import planned_on
from trainer.actions.next_tasks import next_task, tasks_to_do
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.clearance import LEARNING, Clearance
from trainer.kitchen.entitlement import Snapshot, may_sign_somewhere
from trainer.kitchen.open_paths import PathStanding, paths_of
from trainer.kitchen.skills.asking import answers_left
from trainer.kitchen.tasks import Act, Task
from trainer.kitchen.technique import Content, Station
from trainer.kitchen.time_left import Left, own_pace

FOR_OTHERS: frozenset[Act] = frozenset({"wait to be watched", "be released"})
"""What waits for somebody else: it never stands on the big button."""
CAN_DO: frozenset[Act] = frozenset(
    {"finish quiz", "read", "sit quiz", "practise", "answer questions", "ask to be watched"}
)
LATEST = 20


@dataclass(frozen=True, slots=True)
class Home:
    """What a cook's own page rests on: the path it shows, what is to do in its sequence, what is left of each.

    `path` is None where no station is gone for; `begins` then says that none was ever held, in a house with paths.
    `pace` is how many seconds this cook takes for a question.
    """

    path: PathStanding | None
    others: tuple[PathStanding, ...]
    tasks: tuple[Task, ...]
    left: dict[str, Left]
    shifts_left: int
    pace: float
    begins: bool = False

    @property
    def signed(self) -> tuple[Task, ...]:
        """Return the techniques that are done."""
        return tuple(task for task in self.tasks if task.is_done)

    @property
    def waiting(self) -> tuple[Task, ...]:
        """Return what waits for others."""
        return tuple(task for task in self.tasks if task.act in FOR_OTHERS)

    @property
    def next(self) -> Task | None:
        """Return what the cook does next: what they are in the middle of reading, else the first that can be done."""
        can = [task for task in self.tasks if task.act in CAN_DO]
        begun = (task for task in can if task.act == "read" and task.under_way.step)
        return next(begun, next(iter(can), None))

    @property
    def after(self) -> tuple[Task, ...]:
        """Return the rest, in sequence: neither done, nor next, nor waiting for others."""
        return tuple(task for task in self.tasks if not task.is_done and task.act not in FOR_OTHERS)

    @property
    def all_left(self) -> Left:
        """Return what is left of all of it together."""
        return sum(self.left.values(), Left())

    @property
    def to_show(self) -> int:
        """Return how many techniques are still to be shown."""
        return sum(not task.standing.is_signed for task in self.tasks)


def home_of(k: Kitchen, *, cook: str, day: Snapshot, words: Content, station: str = "") -> Home:
    """Return a cook's own page, in the words of a content; of several paths the one to *station*, else the earliest."""
    paths = [one for one in paths_of(cook, day) if one.state != "reached" and one.path.station in words.stations]
    path = next((one for one in paths if one.path.station == station), next(iter(paths), None))
    if path is not None:
        asked = words.stations[path.path.station]
        tasks, left_at = _in_sequence(k, cook, asked.techniques, words, day), _shifts_left(cook, asked, day)
    else:
        held = _held(cook, day)
        tasks, left_at = _without_a_path(k, cook, day, words, held), 0
        if not held and day.progress.has_paths(day.on, day.on):
            common = [name for name in words.techniques if _all_ask(name, words)]
            tasks = _in_sequence(k, cook, common, words, day)
            return Home(None, (), tasks, left_of(cook, tasks, day), 0, pace_of(k, cook, day), begins=True)
    others = tuple(one for one in paths if one is not path)
    return Home(path, others, tasks, left_of(cook, tasks, day), left_at, pace_of(k, cook, day))


def _in_sequence(k: Kitchen, cook: str, names: Iterable[str], words: Content, day: Snapshot) -> tuple[Task, ...]:
    taught = (words.techniques[name] for name in names if name in words.techniques)
    return tuple(next_task(k, cook=cook, technique=technique, day=day) for technique in taught)


def _without_a_path(
    k: Kitchen, cook: str, day: Snapshot, words: Content, held: tuple[Clearance, ...]
) -> tuple[Task, ...]:
    """Return what is left to do where a cook stands or stood, and is planned today; in a house without paths, all."""
    found = tasks_to_do(k, cook=cook, on=day.on, content=words)
    if not day.progress.has_paths(day.on, day.on):
        return found
    own = {one.station for one in held} | {one.station for one in planned_on(k, day.on) if one.cook == cook}
    asked = {name for station in own if station in words.stations for name in words.stations[station].techniques}
    return tuple(task for task in found if task.technique.id in asked)


def _held(cook: str, day: Snapshot) -> tuple[Clearance, ...]:
    """Return the clearances of a cook who stands or once stood at a station."""
    who = day.people[cook]
    found = (day.clearance(who, station) for station in day.rules.stations.values())
    return tuple(one for one in found if one.state not in (*LEARNING, "not allowed"))


def _all_ask(name: str, words: Content) -> bool:
    return bool(words.stations) and all(name in station.techniques for station in words.stations.values())


def _shifts_left(cook: str, station: Station, day: Snapshot) -> int:
    """Return how many supervised shifts a cook has still to work at a station."""
    asked = day.rules.stations.get(station.id, station)
    worked = sum(line.station == station.id for line in day.record(cook).shifts)
    return max(0, asked.supervised_shifts - worked)


def left_of(cook: str, tasks: Iterable[Task], day: Snapshot) -> dict[str, Left]:
    """Return what is left of each technique; what several ask is counted with the first."""
    found: dict[str, Left] = {}
    counted: set[str] = set()
    for task in tasks:
        technique, standing = task.technique, task.standing
        screens = 0 if standing.is_read else len(technique.steps) - max(0, len(task.under_way.been) - 1)
        questions = 0 if standing.quiz_passed or technique.knowledge else technique.asked
        if technique.knowledge and not standing.quiz_passed:
            new = [one for one in standings_of(cook=cook, technique=technique, day=day) if one.id not in counted]
            counted |= {one.id for one in new}
            questions = sum(answers_left(one.skill, day.on) for one in new)
        found[technique.id] = Left(screens, questions)
    return found


def pace_of(k: Kitchen, cook: str, day: Snapshot) -> float:
    """Return how many seconds a cook takes for a question, by their latest answers."""
    latest = [line.entry for line in day.record(cook).skills if line.seed >= 0][-LATEST:]
    found = (k.file.book.find(entry) for entry in latest)
    return own_pace([_seconds(entry.body["asked_at"], entry.at) for entry in found if entry is not None])


def _seconds(asked_at: str, answered: datetime) -> float:
    return (answered - datetime.fromisoformat(asked_at)).total_seconds()


def on_tonight_for(k: Kitchen, cook: str, technique: str, day: Snapshot) -> tuple[str, ...]:
    """Return who is planned today and may watch a technique of a cook."""
    planned = dict.fromkeys(one.cook for one in planned_on(k, day.on))
    return tuple(who for who in planned if who != cook and may_sign_somewhere(who, cook, technique, day).may)
