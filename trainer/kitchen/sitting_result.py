"""A quiz sitting in a cook's record, and what voiding a question does to it."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from trainer.kitchen.quiz.rescoring import QuestionKey, Score, key_of, score_kept, score_without


@dataclass(frozen=True, slots=True)
class SittingResult:
    """A quiz sitting, finished. `kept` is its body in the book, less voided questions.

    `before` is its score before a question was voided; None where none was.
    """

    entry: str
    on: date
    technique: str
    edition: int
    right: int
    asked: int
    need: int
    passed: bool
    kept: Mapping[str, Any] = field(repr=False, compare=False)
    undecided: bool = False
    before: Score | None = None

    @property
    def failed(self) -> bool:
        """Return whether the answers say no; a sitting a voided question left undecided says nothing."""
        return not self.passed and not self.undecided

    def without(self, voided: Collection[QuestionKey]) -> SittingResult:
        """Return the sitting scored again without the voided questions; itself where none of them was asked."""
        left = [asked for asked in self.kept["questions"] if key_of(asked) not in voided]
        if len(left) == len(self.kept["questions"]):
            return self
        now = score_without(self.kept, voided)
        scored = {name: getattr(now, name) for name in ("right", "asked", "need", "passed", "undecided")}
        return replace(self, kept={**self.kept, "questions": left}, before=score_kept(self.kept), **scored)


@dataclass(frozen=True, slots=True)
class QuestionVoided:
    """A question taken out of every sitting that asked it, from that day on."""

    entry: str
    on: date
    question: QuestionKey
    reason: str
