"""A drawn question in words: text, solution, choices and what is said of each wrong method, in one language."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from html import escape
from typing import Any

from trainer.kitchen.quiz.answers import work_out
from trainer.kitchen.quiz.drawing import word_lists
from trainer.kitchen.quiz.drawn import DrawnQuestion, QuestionContext
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.family import (
    NO_FIGURE,
    AnyFamily,
    ChoiceFamily,
    ChoiceItem,
    Draw,
    Figure,
    Keyed,
    NumericFamily,
    Option,
    Words,
)
from trainer.kitchen.quiz.picks import KeptPicks
from trainer.kitchen.quiz.question import Answer, Choice, NamedPicture, Question, WrongMethod
from trainer.kitchen.quiz.scenes import LETTERS
from trainer.kitchen.quiz.sentences import FamilyWords
from trainer.kitchen.quiz.showing_words import first_showing
from trainer.kitchen.quiz.wording import Measured
from trainer.messages import joined, message, translate
from trainer.recipe_math.quantity import QuantityProblem

YOUR_CODE = message("This is a practice sum: your local code decides.")


class CannotTell(ValueError):
    """A kept question that cannot be shown any more; the message says what is gone."""


def tell(drawn: DrawnQuestion, context: QuestionContext) -> Question:
    """Return a drawn question in the words of a context.

    Where a list of words has become shorter, one of those left is told: no word moves a number. A family or a pick that
    is not there any more, or numbers today's family cannot work out: CannotTell.
    """
    kind = FAMILIES.get(drawn.family)
    if kind is None:
        raise CannotTell(drawn.family)
    try:
        lists = word_lists(kind, context)
        picked = {slot: lists[slot][drawn.words[slot] % len(lists[slot])] for slot in kind.words}
        told = _calculation if isinstance(kind, NumericFamily) else _choice
        return told(kind, drawn, picked, context)  # type: ignore[arg-type]
    except (LookupError, QuantityProblem, ZeroDivisionError) as problem:
        raise CannotTell(str(problem)) from problem


def _calculation(kind: NumericFamily, drawn: DrawnQuestion, picked: Words, context: QuestionContext) -> Question:
    """Return a calculation in words: what is asked, how fine to round, and whose limits count."""
    kind = kind.form_of(drawn.numbers)
    numbers, (answer, wrong) = drawn.numbers, drawn.worked or work_out(kind, drawn.numbers)
    told, own = _teller(kind, context), context.words.families[kind.name]
    asked = told(kind.ask(numbers, picked))
    parts = (asked, kind.tolerance.asks(answer.value), YOUR_CODE if kind.safety else "")
    figure, alt = _figure(kind, kind.picture(numbers) if kind.picture else NO_FIGURE, context)
    food = picked.get("food", "")
    return Question(
        family=kind.name,
        seed=drawn.seed,
        text=joined(part for part in parts if part),
        answer=answer,
        solved=lambda: (
            *map(told, kind.solve(numbers)),
            *([joined([own.caution, YOUR_CODE])] if kind.safety else ()),
        ),
        wrong_methods=tuple(_as_wrong(name, value, kind.unit, own) for name, value in wrong.items()),
        figure=figure,
        figure_alt=alt,
        food=next((name for name, word in context.words.foods.items() if word == food), ""),
        food_word=food,
        safety=kind.safety,
        early=tuple(kind.early(numbers)),
        early_is_right=kind.early_is_right,
        numbers=(*numbers.values(), *kind.told(numbers)),
        off=kind.off,
    )


def _as_wrong(name: str, value: Fraction, unit: str, words: FamilyWords) -> WrongMethod:
    """Return a wrong method with what is said of it: about its number where content has a clause for it."""
    said = words.wrong[name]
    says = first_showing(Measured(value, unit), said.clause) if said.clause else said.cook
    return WrongMethod(name, value, says, said.clause)


def _choice(kind: ChoiceFamily, drawn: DrawnQuestion, picked: Words, context: QuestionContext) -> Question:
    """Return a question with choices in words; the answer is the key of the right one, or of all that are."""
    item = _item(kind, drawn, picked, context)
    told, caution = _teller(kind, context), context.words.families[kind.name].caution
    figure, alt = _figure(kind, item.figure, context)
    asked = Question(
        family=kind.name,
        seed=drawn.seed,
        text=told(item.text),
        answer=Answer(Fraction(0), "", Fraction(0)),
        solved=lambda: (*map(told, item.solution), *([caution] if kind.safety else ())),
        wrong_methods=(),
        figure=figure,
        figure_alt=alt,
        safety=kind.safety,
        hints=item.hints,
    )
    return _to_key(asked, item.keyed, context) if item.keyed else _to_choose(asked, item, told)


def _item(kind: ChoiceFamily, drawn: DrawnQuestion, picked: Words, context: QuestionContext) -> ChoiceItem:
    """Return what there is to choose: as it was made when it was drawn, where that was in this very context."""
    if drawn.made is not None and drawn.made.context is context:
        return drawn.made.item
    item = kind.choose(Draw(KeptPicks(drawn.picks), drawn.numbers, picked, context.material, context.words))
    if item is None:
        raise CannotTell(kind.name)
    return item


def _to_choose(asked: Question, item: ChoiceItem, told: Any) -> Question:  # noqa: ANN401 - a teller
    """Return a question with what there is to choose, the right key and what is wrong."""
    choices = tuple(_as_choice(place, each, told) for place, each in enumerate(item.options, 1))
    reasons = tuple(_as_choice(place, each, told) for place, each in enumerate(item.reasons, len(choices) + 1))
    keys = {option.id: choice.key for option, choice in zip(item.options, choices, strict=True)}
    pictures = tuple(NamedPicture(LETTERS[place], keys[name]) for place, name in enumerate(item.names))
    question = replace(asked, choices=choices, reasons=reasons, marks_all=item.marks_all, pictures=pictures)
    if not item.marks_all and not pictures and _count_right(choices) != 1:
        raise CannotTell(asked.family)
    wrong = [WrongMethod(each.name, Fraction(each.key), each.says) for each in question.every_choice if each.name]
    if item.marks_all:
        wrong.append(WrongMethod("left_out", Fraction(0), ""))
    if pictures:
        wrong.append(WrongMethod("names_swapped", Fraction(0), ""))
    return replace(
        question,
        answer=Answer(Fraction(question.key.replace(" ", "")), "", Fraction(0)),
        wrong_methods=tuple(wrong),
    )


def _count_right(choices: Sequence[Choice]) -> int:
    return sum(choice.is_right for choice in choices)


def _to_key(asked: Question, keyed: Keyed, context: QuestionContext) -> Question:
    """Return a question for a number."""
    wrong = context.words.families[asked.family].wrong
    return replace(
        asked,
        answer=Answer(keyed.value, keyed.unit, keyed.tolerance, step=2 * keyed.tolerance),
        wrong_methods=tuple(WrongMethod(name, value, wrong[name].cook) for name, value in keyed.wrong.items()),
    )


def _as_choice(place: int, option: Option, told: Any) -> Choice:  # noqa: ANN401 - a teller
    says = told(option.why) if option.why else ""
    return Choice(str(place), told(option.text), is_right=not option.method, name=option.method, says=says)


def _teller(kind: AnyFamily, context: QuestionContext) -> Any:  # noqa: ANN401 - whatever is told comes back as itself
    """Return a function that puts sentences of a family into words."""
    return lambda value: context.words.told(value, kind.name)


def _figure(kind: AnyFamily, figure: Figure, context: QuestionContext) -> tuple[str, str]:
    """Return a figure with its labels in words, and the same said in words; both empty where there is none."""
    told = _teller(kind, context)
    labels = {name: escape(translate(told(label))) for name, label in figure.labels.items()}
    return figure.svg.format_map(labels) if labels else figure.svg, told(figure.alt) if figure.alt else ""
