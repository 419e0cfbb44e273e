"""Wrong answers as they are typed: by each known wrong method, and by errors that nobody has a name for."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tests.kitchen.quiz.asking import Asked
from trainer.recipe_math.figures import number_text
from trainer.recipe_math.rounding import to_nearest


def as_asked(question: Asked) -> Fraction:
    """Return the key rounded as the question asks."""
    step = question.answer.step
    return to_nearest(question.answer.value, step) if step else question.answer.value


def other_errors(question: Asked) -> list[str]:
    """Return errors nobody has a name for: one to three off, two neighbouring figures swapped."""
    key = as_asked(question)
    text = number_text(key, 4)
    swapped = {
        text[:place] + text[place + 1] + text[place] + text[place + 2 :]
        for place in range(len(text) - 1)
        if text[place : place + 2].isdigit() and text[place] != text[place + 1]
    }
    off = {number_text(key + step, 4) for step in (-3, -2, -1, 1, 2, 3)}
    return sorted(each for each in off | swapped if not (each.startswith("-") or (each[0] == "0" and each[1:2] != ".")))


def typed_by_methods(question: Asked) -> list[tuple[str, str]]:
    """Return an answer by each wrong method as a person types it, and the method's name.

    A number comes with four decimals, the rounding left to the program; of choices, keys and letters are typed.
    """
    if question.choices:
        return list(_chosen(question))
    return [(number_text(way.value, 4), way.name) for way in question.wrong_methods]


def _chosen(question: Asked) -> Iterator[tuple[str, str]]:
    right = [each for each in question.choices if each.is_right]
    if question.pictures:
        first, second, *rest = (picture.right for picture in question.pictures)
        yield " ".join([second, first, *rest]), "names_swapped"
    elif question.reasons:
        act, why = right[0], next(each for each in question.reasons if each.is_right)
        yield from ((f"{each.letter} {why.letter}", each.name) for each in question.choices if each.name)
        yield from ((f"{act.letter} {each.letter}", each.name) for each in question.reasons if each.name)
    elif question.marks_all:
        marked = [each.letter for each in right]
        yield from ((" ".join([*marked, each.letter]), each.name) for each in question.choices if each.name)
        yield from ((" ".join(marked[:place]), "left_out") for place in range(1, len(marked)))
    else:
        yield from ((each.key, each.name) for each in question.choices if each.name)
