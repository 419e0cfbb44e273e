"""What a cook does next on a technique, and how near that is: the reading, the quiz, the practical, or a wait."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

from trainer.kitchen.clearance import TechniqueStanding, TechniqueState
from trainer.kitchen.spans import how_long, with_weekday
from trainer.kitchen.technique import Technique
from trainer.messages import Message, Text, joined, message, plural

Act = Literal[
    "be released",
    "finish quiz",
    "wait to be watched",
    "read",
    "wait for quiz",
    "sit quiz",
    "practise",
    "answer questions",
    "wait for questions",
    "ask to be watched",
    "nothing",
]
NEARNESS: dict[Act, int] = {
    "be released": 0,
    "finish quiz": 0,
    "wait to be watched": 2,
    "ask to be watched": 2,
    "sit quiz": 3,
    "practise": 3,
    "answer questions": 3,
    "wait for questions": 4,
    "wait for quiz": 4,
    "read": 5,
    "nothing": 9,
}
"""How near each act is to a sign-off: 0 is nearest. What waits is listed where its next act will be."""
LAPSED, BEGUN = 1, 4


@dataclass(frozen=True, slots=True)
class SkillProgress:
    """How far a cook is in the skills of a technique: so many passed of so many, and what may be done today.

    `practise` is the skill that wants practice first, nothing where an answer counts today or none does.
    """

    passed: int
    asked: int
    answers_today: bool
    practise: str = ""


@dataclass(frozen=True, slots=True)
class TaskProgress:
    """What a cook has begun on a technique: the open quiz, the step come to (from 1) and
    the steps they were at, when a failed quiz opens again.

    The book knows nothing of the first three; the fourth is None where nothing has to be waited for. `skills` are there
    where the technique asks for them, and no quiz is sat.
    """

    sitting: str = ""
    step: int | None = None
    been: frozenset[str] = frozenset()
    quiz_from: date | None = None
    skills: SkillProgress | None = None


@dataclass(frozen=True, slots=True)
class Task:
    """One technique with what a cook does next on it."""

    technique: Technique
    standing: TechniqueStanding
    under_way: TaskProgress
    act: Act

    @property
    def state(self) -> TechniqueState:
        """Return the state to show: studying as soon as a step was come to, though the book knows nothing of it."""
        state = self.standing.state
        return "studying" if state == "not started" and self.under_way.step else state

    @property
    def is_done(self) -> bool:
        """Return whether a sign-off counts and nothing it rests on has run out."""
        return self.state == "signed"

    @property
    def rank(self) -> int:
        """Return how near the act is; what has lapsed comes before everything that was never signed."""
        rank = BEGUN if self.act == "read" and self.under_way.step else NEARNESS[self.act]
        return min(rank, LAPSED) if self.state == "lapsed" else rank

    def words(self, now: datetime) -> Text:
        """Return what is next in one sentence, as it is told at a moment."""
        told = _WAITING.get(self.act)
        if told is not None:
            return told
        if self.act == "be released":
            return _stop_words(self.standing)
        if self.act == "wait to be watched" and self.standing.asked_since:
            since = how_long(self.standing.asked_since, now)
            return message("You asked to be watched. Waiting {asked_since}.", asked_since=since)
        if self.act == "wait for quiz" and self.under_way.quiz_from:
            return message("Sit the quiz again from {first}.", first=with_weekday(self.under_way.quiz_from))
        if self.under_way.skills and self.act in ("practise", "answer questions", "wait for questions"):
            return _skill_words(self.under_way.skills, self.act)
        return _quiz_words(self.technique) if self.act == "sit quiz" else _reading_words(self)


_WAITING: dict[Act, Message] = {
    "finish quiz": message("Your quiz is open."),
    "ask to be watched": message("Show it to a sous chef."),
    "nothing": message("Signed."),
}


def task_of(technique: Technique, standing: TechniqueStanding, under_way: TaskProgress) -> Task:
    """Return what a cook does next on a technique.

    A stop comes before everything, since a manager has to release it; then the quiz left open.
    """
    return Task(technique, standing, under_way, _act(standing, under_way))


def _act(standing: TechniqueStanding, under_way: TaskProgress) -> Act:
    if standing.is_stopped:
        return "be released"
    if under_way.sitting:
        return "finish quiz"
    if standing.asked_since and not standing.is_signed:
        return "wait to be watched"
    if not standing.is_read:
        return "read"
    if not standing.quiz_passed:
        return _knowledge_act(under_way)
    return "nothing" if standing.is_signed else "ask to be watched"


def _knowledge_act(under_way: TaskProgress) -> Act:
    """Return what is next on what a technique asks to be known."""
    if under_way.skills is None:
        return "wait for quiz" if under_way.quiz_from else "sit quiz"
    if under_way.skills.answers_today:
        return "answer questions"
    return "practise" if under_way.skills.practise else "wait for questions"


def _skill_words(skills: SkillProgress, act: Act) -> Message:
    """Return how many skills are passed, and what may be done today."""
    done = message("{passed} of {asked} skills passed", passed=skills.passed, asked=skills.asked)
    if act == "practise":
        return message("{done}. Practice first, then the questions go on.", done=done)
    if act == "wait for questions":
        return message("{done}. Nothing more counts today: go on tomorrow.", done=done)
    return message("{done}. Answer a few.", done=done)


def _stop_words(standing: TechniqueStanding) -> Text:
    """Return why the technique is stopped, and who ends that."""
    stopped = standing.practical.missing
    return joined([stopped.text, stopped.next_act] if stopped else [])


def _reading_words(task: Task) -> Message:
    """Return how many steps there are to read, or which one the cook has come to."""
    total = len(task.technique.steps)
    if task.under_way.step:
        return message("You are at step {number} of {total}.", number=task.under_way.step, total=total)
    return message("Read it: {steps}.", steps=plural("{number} step", "{number} steps", total))


def _quiz_words(technique: Technique) -> Message:
    """Return how many questions the quiz asks."""
    asked = plural("{number} question", "{number} questions", technique.asked)
    if technique.plan:
        asked = message("{asked} at most", asked=asked)
    return message("Sit the quiz: {asked}.", asked=asked)
