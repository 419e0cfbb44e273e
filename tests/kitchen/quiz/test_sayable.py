"""A question is told in the reader's words: all of them from content or the catalogue, every number as it was drawn."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from types import MappingProxyType
from typing import Any

import pytest

from tests.architecture.catalogue import gathered
from tests.kitchen.quiz.asking import WORDS, context, printed
from tests.made_up_language import OPEN_TAUGHT, SHUT_TAUGHT, marked, taught
from tests.web.small_content import NESTS
from trainer.kitchen.quiz.drawing import draw_question, draw_sitting
from trainer.kitchen.quiz.drawn import QuestionContext, context_of
from trainer.kitchen.quiz.drills import drill_for
from trainer.kitchen.quiz.families import FAMILIES, NUMERIC
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.material import PRACTICE, Material, StepWords
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.scenes import Scene, SceneChoice
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.quiz.wording import Measured
from trainer.kitchen.technique import Fault, QuestionSetting, Step, Technique
from trainer.messages import Message, Text

MARKS = frozenset(
    {"lb", "oz", "kg", "g", "L", "mL", "mm", "m", "ft", "min", "s", "h", "C", "F", "Tbsp", "ppm", "A", "B"}
)
"""Symbols of units and letters of steps, the same in every language (common practice in kitchens of the Americas)."""
SPANISH = context(language="es").words
IN_BRACKETS = re.compile(f"{OPEN_TAUGHT}[^{OPEN_TAUGHT}{SHUT_TAUGHT}]*{SHUT_TAUGHT}")


def in_other_words(scene: Scene) -> Scene:
    """Return a scene with each text in brackets, its draws left open."""

    def choice(each: SceneChoice) -> SceneChoice:
        return replace(each, text=marked(each.text), wrong=marked(each.wrong) if each.wrong else "")

    return replace(
        scene,
        seen="".join(part if part.startswith("{") else marked(part) for part in re.split(r"({\w+})", scene.seen)),
        because=marked(scene.because),
        choices=tuple(map(choice, scene.choices)),
        reasons=tuple(map(choice, scene.reasons)),
        pictures=tuple(replace(each, alt=marked(each.alt)) for each in scene.pictures),
    )


MARKED = QuestionContext(
    taught(SPANISH),
    Material(
        marked(PRACTICE.title),
        tuple(StepWords(step.id, marked(step.text)) for step in PRACTICE.steps),
        taught(PRACTICE.faults),
        tuple(map(in_other_words, PRACTICE.scenes)),
    ),
)
"""The Spanish words of questions and of a technique, each piece of a sentence in brackets."""


@cache
def said_once() -> frozenset[str]:
    """Return the sentences a translator gets; of those with a count, the one for one."""
    return frozenset(each[0] if isinstance(each, tuple) else each for each in gathered())


def left_over(text: Any) -> Iterator[str]:
    """Return the words of a text that stand neither in content nor in the catalogue: no translation can reach them."""
    if isinstance(text, Measured):
        text = text.as_text()
    if not isinstance(text, Message):
        outside = IN_BRACKETS.sub(" ", str(text))
        yield from (word for word in re.findall(r"[^\W\d_]+", outside) if word not in MARKS)
        return
    if text.pattern not in said_once():
        yield from left_over(re.sub(r"{\w+}|<[^>]*>", " ", text.pattern))
    for value in text.values.values():
        yield from left_over(value)


def said_by(question: Question) -> list[Text]:
    """Return all that a question says to a cook."""
    wrong = [way.says for way in question.wrong_methods]
    choices = [text for choice in question.every_choice for text in (choice.text, choice.says)]
    return [question.text, *question.solution, question.figure_alt, *wrong, *choices, question.food_word]


@pytest.mark.parametrize("name", sorted(FAMILIES))
def test_every_word_of_a_question_can_be_said(name: str) -> None:
    """Text, worked lines, wrong methods, choices, the figure and the figure in words: whatever is not in brackets.

    No letter of a question told in Spanish comes from anywhere but Spanish content or the catalogue.
    """
    for seed in range(25):
        question = tell(draw_question(name, seed, MARKED), MARKED)
        assert [word for text in said_by(question) for word in left_over(text)] == []
        assert list(left_over(re.sub(r"<[^>]*>", " ", question.figure))) == []


@pytest.mark.parametrize("name", FAMILIES)
def test_a_family_names_itself_in_any_language(name: str) -> None:
    """Its title, its caution, and what it tells cook and teacher are other words in Spanish, none left in English."""
    own, told = WORDS.families[name], SPANISH.families[name]
    assert own.title != told.title
    assert bool(own.caution) == bool(told.caution)
    assert not own.caution or own.caution != told.caution
    assert own.wrong.keys() == told.wrong.keys()
    for method, words in own.wrong.items():
        assert words.cook != told.wrong[method].cook
        assert words.teacher != told.wrong[method].teacher


@pytest.mark.parametrize("name", sorted(NUMERIC))
def test_a_grade_and_a_drill_can_be_said(name: str) -> None:
    """What is read, what is asked again and what a drill shows keep their sentences."""
    question = tell(draw_question(name, 4, MARKED), MARKED)
    for typed in ("7", "", "7 lb", "8 L", "a pinch", "1/0", "1,500", "3 cups of flour"):
        given = grade(question, typed)
        texts = [given.says, given.understood, given.problem or ""]
        assert {word for text in texts for word in left_over(text)} <= set(typed.split()), typed
    drill = drill_for(name, next(iter(NUMERIC[name].wrong)), 9, MARKED)
    assert [word for text in (drill.says, *drill.lines, drill.begun) for word in left_over(text)] == []


STEPS = ("Warm the bowl.", "Pour a ladle.", "Whisk.", "Strain.", "Chill.")
PASOS = ("Entibie el tazón.", "Vierta un cucharón.", "Bata.", "Cuele.", "Enfríe.")
SIGNS = (("It is grainy.", "It was too hot.", "Start anew."), ("It runs.", "It was too cold.", "Warm it gently."),
         ("A skin lies on it.", "It stood open.", "Cover it close."))  # fmt: skip
SENAS = (("Está granulosa.", "Estaba muy caliente.", "Empiece de nuevo."),
         ("Se corre.", "Estaba muy fría.", "Entíbiela."),
         ("Tiene nata.", "Quedó destapada.", "Tápela bien."))  # fmt: skip


def technique(steps: tuple[str, ...], signs: tuple[tuple[str, str, str], ...], *foods: str) -> Technique:
    """Return a technique in some words that asks one question of three families."""
    words: dict[str, dict[str, tuple[str, ...]]] = {
        "amount_to_buy": {"food": foods},
        "choose_fault": {},
        "order_steps": {},
    }
    return replace(
        NESTS,
        title=steps[0],
        steps=tuple(Step(f"s{place}", "do", text, "", "", "", "", ()) for place, text in enumerate(steps)),
        faults=tuple(Fault(f"f{place}", *texts) for place, texts in enumerate(signs)),
        questions=tuple(
            QuestionSetting(name, MappingProxyType(own), MappingProxyType({}), 1) for name, own in words.items()
        ),
    )


OWN = technique(STEPS, SIGNS, "leeks", "kale")
TOLD = technique(PASOS, SENAS, "puerros", "col rizada")
PAIRS = {
    "leeks": "puerros", "kale": "col rizada", **dict(zip(STEPS, PASOS, strict=True)),
    **{one: other for own, told in zip(SIGNS, SENAS, strict=True) for one, other in zip(own, told, strict=True)},
}  # fmt: skip


def same_but_for_words(one: Question, other: Question) -> bool:
    """Return whether two tellings have the same answer, wrong methods and choices, and a solution of as many lines."""
    kept = [
        (
            each.family,
            each.seed,
            each.answer,
            [(way.name, way.value) for way in each.wrong_methods],
            [(choice.key, choice.is_right, choice.name) for choice in each.choices],
            len(each.solution),
            each.safety,
        )
        for each in (one, other)
    ]
    return kept[0] == kept[1]


@pytest.mark.parametrize("seed", range(20))
def test_only_the_words_differ(seed: int) -> None:
    """Told again, a question is equal in all that is no word; each word of the kitchen is the reader's."""
    for drawn in draw_sitting(OWN, seed, WORDS):
        question = tell(drawn, context_of(OWN, drawn.family, WORDS))
        again = tell(drawn, context_of(TOLD, drawn.family, SPANISH))
        assert same_but_for_words(question, again)
        one, other = printed(question), printed(again, "es")
        own = [word for word in PAIRS if word in one.text]
        assert own
        for word in own:
            assert PAIRS[word] in other.text
            assert word not in other.text
        assert [choice.text for choice in other.choices] == [
            PAIRS.get(choice.text, choice.text) for choice in one.choices
        ]


def test_a_kitchen_that_speaks_spanish_tells_a_reader_in_english() -> None:
    """Its own words are Spanish then, and the reader's English: the other way around is as good."""
    drawn = draw_sitting(TOLD, 3, SPANISH)[0]
    question = tell(drawn, context_of(TOLD, drawn.family, SPANISH))
    again = tell(drawn, context_of(OWN, drawn.family, WORDS))
    assert same_but_for_words(question, again)
    text = printed(again).text
    assert any(word in text for word in ("leeks", "kale"))
    assert not any(word in text for word in ("puerros", "col rizada"))


@pytest.mark.parametrize("foods", [("puerros",), ("puerros", "col rizada", "nabos")])
def test_a_list_of_another_length_tells_the_question_all_the_same(foods: tuple[str, ...]) -> None:
    """Where a reader's list is shorter or longer, numbers and answer stay; some word is said."""
    shorter = technique(PASOS, SENAS, *foods)
    for seed in range(10):
        drawn = draw_sitting(OWN, seed, WORDS)[0]
        question = tell(drawn, context_of(OWN, drawn.family, WORDS))
        again = tell(drawn, context_of(shorter, drawn.family, SPANISH))
        assert same_but_for_words(question, again)
        assert any(word in printed(again, "es").text for word in (*foods, "leeks", "kale"))


def test_a_setting_taken_out_leaves_a_kept_sum() -> None:
    """Where the technique asks the family no more, it is told in the family's own words."""
    drawn = draw_sitting(OWN, 1, WORDS)[0]
    question = tell(drawn, context_of(OWN, drawn.family, WORDS))
    again = tell(drawn, context_of(replace(OWN, questions=()), drawn.family, WORDS))
    assert same_but_for_words(question, again)
    assert any(word in printed(again).text for word in WORDS.families[drawn.family].words["food"])
