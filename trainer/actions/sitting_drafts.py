"""Sittings begun, as their drafts keep them: every question by its numbers and picks, the answers given, what passes.

An open sitting is read back from its draft and never drawn again, so that no edit of words takes a cook's answers away.
What cannot go on is put aside, and the cook told.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any, Literal, overload

from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.quiz.drawing import draw_sitting
from trainer.kitchen.quiz.drawn import DrawnQuestion, context_of, drawn_from
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.keeping import question_from_kept
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.round_robin import draw_in_turn
from trainer.kitchen.quiz.rules import SittingRules, rules_kept, rules_of
from trainer.kitchen.quiz.seen_text import SeenQuestion, question_kept, question_of
from trainer.kitchen.quiz.sentences import QuestionWords
from trainer.kitchen.quiz.sequential_test import SequentialState
from trainer.kitchen.quiz.sitting import Tally
from trainer.kitchen.quiz.telling import CannotTell, tell
from trainer.kitchen.technique import Content, Technique
from trainer.messages import Text, message, plural
from trainer.store.drafts import Draft


@dataclass(frozen=True, slots=True)
class Sitting:
    """A sitting under way: the questions as drawn, and the answers given so far by place (0 is the first).

    `questions` are told when asked for, in the kitchen's own words; `drawn` is what is kept of them. A sitting of
    before kept them `whole`, and nothing is drawn. In a quiz that decides the questions are the most it may ask, and
    `standing` is how it stands; else that is None. `rules` say what passes, `grader` by which edition it was drawn and
    `standard` which number was in force, as they were when it began; `seen` is what was read of each question when it
    was answered.
    """

    id: str
    cook: str
    technique: str
    title: str
    edition: int
    seed: int
    grader: int
    questions: Sequence[Question]
    answers: Mapping[int, str]
    started: datetime
    rules: SittingRules
    standing: SequentialState | None = None
    drawn: tuple[DrawnQuestion, ...] = ()
    whole: Sequence[Mapping[str, Any]] = ()
    standard: int = 0
    seen: Mapping[int, SeenQuestion] = field(default_factory=dict)

    @property
    def decides(self) -> bool:
        """Return whether answers stand once given and the sitting ends by itself."""
        return self.standing is not None

    @property
    def unanswered(self) -> tuple[int, ...]:
        """Return the places without an answer; none once a quiz that decides is decided."""
        if self.standing is not None and self.standing.outcome != "go on":
            return ()
        return tuple(place for place in range(len(self.questions)) if place not in self.answers)

    @property
    def next_unanswered(self) -> int | None:
        """Return the first place without an answer, or None when every question has one."""
        return next(iter(self.unanswered), None)


WhyAside = Literal["not taught", "changed", "not kept"]


@dataclass(frozen=True, slots=True)
class PutAside:
    """A sitting that cannot go on as things are: of what, since when, with how many answers, and why."""

    id: str
    technique: str
    title: str
    began: datetime
    answers: int
    why: WhyAside

    @property
    def words(self) -> Text:
        """Return what the cook is told: what is kept, and what to do next."""
        answers = plural("{number} answer", "{number} answers", self.answers)
        if self.why == "not taught":
            return message(
                "Your quiz of {title} is put aside with {answers}: {title} is not taught right now. Nothing is lost. "
                "Ask whoever keeps the content; once it is back, you go on where you stopped.",
                title=self.title,
                answers=answers,
            )
        if self.why == "changed":
            return message(
                "Your quiz of {title} with {answers} cannot go on: something its questions are made from was taken out "
                "of the technique. It counts neither for you nor against you. Start the quiz again.",
                title=self.title,
                answers=answers,
            )
        return message(
            "Your quiz of {title} with {answers} cannot be opened any more: it was begun before this program kept its "
            "questions, and they have changed since. It counts neither for you nor against you. Start the quiz anew.",
            title=self.title,
            answers=answers,
        )


def draft_of(sitting: Sitting) -> Draft:
    """Return a sitting as it is kept."""
    body = {
        "title": str(sitting.title),
        "edition": sitting.edition,
        "seed": sitting.seed,
        "grader": sitting.grader,
        **({"questions": sitting.whole} if sitting.whole else {"drawn": [each.kept() for each in sitting.drawn]}),
        "rules": sitting.rules.kept(),
        "answers": {str(place): text for place, text in sitting.answers.items()},
        "standard": sitting.standard,
        "seen": {str(place): question_kept(seen) for place, seen in sitting.seen.items()},
    }
    return Draft(sitting.id, "sitting", sitting.technique, sitting.cook, sitting.cook, body, sitting.started)


class ToldQuestions(Sequence[Question]):
    """Drawn questions of a technique in the words of a content; each is put into words when it is first asked for."""

    def __init__(self, drawn: Sequence[DrawnQuestion], technique: Technique, content: Content) -> None:
        """Take the questions as drawn; asking for one that cannot be told raises `CannotTell`."""
        self._drawn, self._technique, self._content = tuple(drawn), technique, content
        self._told: dict[int, Question] = {}

    def __len__(self) -> int:
        """Return how many were drawn."""
        return len(self._drawn)

    @overload
    def __getitem__(self, place: int) -> Question: ...
    @overload
    def __getitem__(self, place: slice) -> Sequence[Question]: ...
    def __getitem__(self, place: int | slice) -> Question | Sequence[Question]:
        """Return a question in words; of a slice only those in it are told."""
        if isinstance(place, slice):
            return tuple(self[each] for each in range(*place.indices(len(self))))
        if place not in self._told:
            one = self._drawn[place]
            self._told[place] = tell(one, context_of(self._technique, one.family, self._content.question_words))
        return self._told[place]


def sitting_of(k: Kitchen, draft: Draft, asked: int | None = None) -> Sitting | PutAside:
    """Return a draft as a sitting, its questions as they were drawn; or why it is put aside.

    Where only one question is *asked* for, no other is told but those whose answers decide.
    """
    technique, body = k.content.techniques.get(draft.about), draft.body
    if technique is None:
        return _aside(draft, body.get("title", draft.about), "not taught")
    drawn = tuple(map(drawn_from, body.get("drawn", ())))
    questions = ToldQuestions(drawn, technique, k.content) if drawn else _questions_of_before(body)
    if not questions:
        return _aside(draft, technique.title, "not kept")
    rules = rules_kept(body["rules"]) if "rules" in body else rules_of(technique)
    answers = {int(place): text for place, text in body["answers"].items()}
    try:
        told = tuple(questions) if asked is None else questions
        _ = told[asked : asked + 1] if asked is not None and asked >= 0 else ()
        state = standing_after(k, rules, told, answers)
    except CannotTell:
        return _aside(draft, technique.title, "changed")
    return Sitting(
        id=draft.id,
        cook=draft.cook,
        technique=draft.about,
        title=technique.title,
        edition=body["edition"],
        seed=body["seed"],
        grader=body["grader"],
        questions=told,
        answers=answers,
        started=draft.at,
        rules=rules,
        standing=state,
        drawn=drawn,
        whole=body.get("questions", ()),
        standard=body.get("standard", 0),
        seen={int(place): question_of(seen) for place, seen in body.get("seen", {}).items()},
    )


def told_in(drawn: Sequence[DrawnQuestion], technique: Technique, content: Content) -> tuple[Question, ...]:
    """Return drawn questions of a technique in the words of a content."""
    return tuple(tell(each, context_of(technique, each.family, content.question_words)) for each in drawn)


def questions_told(sitting: Sitting, content: Content) -> Sequence[Question]:
    """Return the questions of a sitting in the words of a content; those of a sitting of before as they were kept.

    Where they cannot be told in these words they are told in the kitchen's own.
    """
    technique = content.techniques.get(sitting.technique)
    if not sitting.drawn or technique is None:
        return sitting.questions
    try:
        return told_in(sitting.drawn, technique, content)
    except CannotTell:
        return sitting.questions


def question_told(sitting: Sitting, place: int, content: Content) -> Question:
    """Return one question of a sitting in the words of a content, as `questions_told` tells all of them."""
    one = replace(sitting, questions=sitting.questions[place : place + 1], drawn=sitting.drawn[place : place + 1])
    return questions_told(one, content)[0]


def _aside(draft: Draft, title: str, why: WhyAside) -> PutAside:
    return PutAside(draft.id, draft.about, title, draft.at, len(draft.body["answers"]), why)


def _questions_of_before(body: Mapping[str, Any]) -> tuple[Question, ...]:
    """Return the questions of a draft that keeps them whole; none of one older still."""
    return tuple(map(question_from_kept, body.get("questions", ())))


def drawn(technique: Technique, seed: int, words: QuestionWords) -> tuple[DrawnQuestion, ...]:
    """Return the questions of a sitting; of a quiz that decides, the most it may ask."""
    if technique.plan:
        return draw_in_turn(technique, seed, technique.asked, words)
    return draw_sitting(technique, seed, words)


def count_of(k: Kitchen, questions: Sequence[Question], answers: Mapping[int, str]) -> Tally:
    """Return how many answers are right, and how many of those about safety."""
    count = Tally(0, 0)
    for place, text in sorted(answers.items()):
        is_right = grade(questions[place], text, k.file.settings.decimal_mark).is_right is True
        count = count.plus(is_right=is_right, is_safety=questions[place].safety)
    return count


def standing_after(
    k: Kitchen, rules: SittingRules, questions: Sequence[Question], answers: Mapping[int, str]
) -> SequentialState | None:
    """Return how a quiz that decides stands after these answers; None for one of fixed length, where none is graded."""
    return rules.standing_of(count_of(k, questions, answers)) if rules.plan else None


def put_aside(k: Kitchen, *, cook: str) -> tuple[PutAside, ...]:
    """Return the sittings of a cook that cannot go on as things are, oldest first."""
    found = (sitting_of(k, draft) for draft in k.file.drafts.list("sitting", cook=cook))
    return tuple(each for each in found if isinstance(each, PutAside))
