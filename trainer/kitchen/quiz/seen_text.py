"""What a cook read of a question and of its solution, kept word for word: evidence, which is shown and never parsed."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from typing import Any

from trainer.kitchen.papers import packed, paper_text
from trainer.kitchen.quiz.question import Grade, Question
from trainer.messages import Translations, translate


@dataclass(frozen=True, slots=True)
class SeenQuestion:
    """A question as it was read, in a language (a BCP 47 tag).

    `choices` are the texts by key; `figure` is the drawing (SVG) and `figure_alt` the same in words; `says` is what was
    said of a wrong answer.
    """

    language: str
    text: str
    choices: Mapping[str, str]
    solution: tuple[str, ...]
    figure: str = ""
    figure_alt: str = ""
    says: str = ""


SHOWN = tuple(each.name for each in fields(SeenQuestion))


def seen_question(asked: Question, given: Grade, language: str, words: Translations) -> SeenQuestion:
    """Return a question as it is read in a language, with what is said of the answer given."""
    return SeenQuestion(
        language=language,
        text=translate(asked.text, words),
        choices={choice.key: translate(choice.text, words) for choice in asked.every_choice},
        solution=tuple(translate(line, words) for line in asked.solution),
        figure=asked.figure,
        figure_alt=translate(asked.figure_alt, words),
        says="" if given.is_right else translate(given.says, words),
    )


def question_kept(seen: SeenQuestion) -> dict[str, Any]:
    """Return a question as drafts and papers keep it; what it does not have is left out."""
    kept = {name: getattr(seen, name) for name in SHOWN} | {"solution": list(seen.solution)}
    return {name: value for name, value in kept.items() if value}


def question_of(kept: Mapping[str, Any]) -> SeenQuestion:
    """Return a question as it was kept."""
    solution = tuple(kept.get("solution", ()))
    return SeenQuestion(**{"choices": {}, **kept, "solution": solution})


@dataclass(frozen=True, slots=True)
class SeenSitting:
    """What was read in a whole sitting: the technique's title, and every question that was answered."""

    title: str
    questions: tuple[SeenQuestion, ...]


def sitting_paper(title: str, questions: Sequence[SeenQuestion]) -> bytes:
    """Return the paper of a sitting."""
    return packed({"title": title, "questions": [question_kept(one) for one in questions]})


def sitting_on(paper: bytes) -> SeenSitting:
    """Return what a paper says was read."""
    kept = json.loads(paper_text(paper))
    return SeenSitting(kept["title"], tuple(map(question_of, kept["questions"])))
