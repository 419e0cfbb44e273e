"""A quiz sitting: started with a seed, answered one question at a time, finished once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from trainer.actions.open_kitchen import OpenKitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.kitchen.quiz.question import Question


@dataclass(frozen=True, slots=True)
class Sitting:
    """A sitting under way: the questions as drawn, and the answers given so far by place (0 is the first)."""

    id: str
    cook: str
    technique: str
    edition: int
    seed: int
    questions: tuple[Question, ...]
    answers: Mapping[int, str]
    started: datetime

    @property
    def next_unanswered(self) -> int | None:
        """Return the first place without an answer, or None when every question has one."""
        raise NotImplementedError


@dataclass(frozen=True, slots=True)
class Answered:
    """What the answer was understood as, and kept; or the `problem`, and nothing kept: ask again.

    Right or wrong is not told before the sitting is finished, as an answer may be changed until then.
    """

    index: int
    understood: str
    problem: str | None = None


def start_sitting(  # noqa: PLR0913 - who, what, seed, when, key: as every action, and the seed
    k: OpenKitchen, *, cook: str, technique: str, seed: int, now: datetime, key: str
) -> Sitting | Refused:
    """Return the cook's open sitting of this technique, or a new one with this seed; `key` becomes its id."""
    raise NotImplementedError


def find_sitting(k: OpenKitchen, sitting: str) -> Sitting | None:
    """Return an open sitting by id; whoever calls sees to it that a cook meets only their own."""
    raise NotImplementedError


def open_sitting(k: OpenKitchen, *, cook: str, technique: str) -> Sitting | None:
    """Return the cook's open sitting of a technique, if there is one."""
    raise NotImplementedError


def answer_question(k: OpenKitchen, *, sitting: str, index: int, text: str, now: datetime) -> Answered | Refused:
    """Return what the answer was read as, after keeping it; with `problem` set nothing was kept."""
    raise NotImplementedError


def finish_sitting(
    k: OpenKitchen, *, sitting: str, now: datetime, key: str, blanks_are_wrong: bool = False
) -> Outcome:
    """Return the saved `quiz_sat`, every answer graded and the wrong methods named."""
    raise NotImplementedError
