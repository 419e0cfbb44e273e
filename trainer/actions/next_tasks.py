"""A cook's tasks: every technique a station asks for with what is next on it, nearest first."""

from __future__ import annotations

from datetime import date

from trainer.actions.asking_skills import standings_of
from trainer.actions.covering import days_planned, planned_on
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.sitting import open_sitting, sits_again_from
from trainer.actions.studying import place_of, steps_been
from trainer.kitchen.clearance import technique_standing
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.open_paths import paths_of
from trainer.kitchen.planned import LOOK_AHEAD
from trainer.kitchen.skills.asking import is_wanted
from trainer.kitchen.tasks import SkillProgress, Task, TaskProgress, task_of
from trainer.kitchen.technique import Content, Technique


def next_task(k: Kitchen, *, cook: str, technique: Technique, day: Snapshot) -> Task:
    """Return what a cook does next on one technique, from the book and from what they have begun."""
    standing = technique_standing(cook, technique, day.progress, day.on)
    sitting = None if technique.knowledge else open_sitting(k, cook=cook, technique=technique.id)
    is_at_the_quiz = standing.is_read and not standing.quiz_passed
    under_way = TaskProgress(
        sitting=sitting.id if sitting else "",
        step=place_of(k, cook=cook, technique=technique),
        been=steps_been(k, cook=cook, technique=technique),
        quiz_from=sits_again_from(cook, technique.id, day) if is_at_the_quiz else None,
        skills=skill_progress(cook, technique, day) if technique.knowledge and is_at_the_quiz else None,
    )
    return task_of(technique, standing, under_way)


def skill_progress(cook: str, technique: Technique, day: Snapshot) -> SkillProgress:
    """Return how far a cook is in the skills of a technique."""
    standings = standings_of(cook=cook, technique=technique, day=day)
    waiting = (one.id for one in standings if one.skill.stage == "drill")
    return SkillProgress(
        passed=sum(one.is_passed for one in standings),
        asked=len(standings),
        answers_today=any(is_wanted(one.skill, day.on) for one in standings),
        practise=next(waiting, ""),
    )


def tasks_to_do(k: Kitchen, *, cook: str, on: date, content: Content | None = None) -> tuple[Task, ...]:
    """Return what is left to do of all that stations ask for, in the words of *content*.

    The nearest act comes first; of acts as near, what the stations a cook goes for ask for, the earliest day first,
    then those of their coming shifts.
    """
    words, day = content or k.content, k.day(on)
    asked = {name for station in words.stations.values() for name in station.techniques}
    techniques = (technique for technique in words.techniques.values() if technique.id in asked)
    tasks = [next_task(k, cook=cook, technique=technique, day=day) for technique in techniques]
    soon = _asked_soon(k, cook, day)
    left = (task for task in tasks if not task.is_done)
    return tuple(sorted(left, key=lambda task: (task.rank, soon.get(task.technique.id, len(soon)))))


def _asked_soon(k: Kitchen, cook: str, day: Snapshot) -> dict[str, int]:
    """Return the place of each technique asked for where a cook has a path, or is planned in the next two weeks."""
    planned = (one for on in days_planned(k, day.on, day.on + LOOK_AHEAD) for one in planned_on(k, on))
    going = [one.path.station for one in paths_of(cook, day)]
    wanted = [*going, *(one.station for one in planned if one.cook == cook)]
    stations = map(k.content.stations.get, wanted)
    names = dict.fromkeys(name for station in stations if station for name in station.techniques)
    return {name: place for place, name in enumerate(names)}
