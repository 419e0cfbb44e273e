"""Grading what is chosen: one answer, every one that fits, an act and its reason, a name for each picture.

An answer is keys, letters or the text itself; what names no choice, or is only half an answer, is asked again.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence

from trainer.kitchen.quiz.question import Choice, Grade, Question
from trainer.messages import Text, joined, message, translate

RIGHT = message("Right.")
NOTHING_CHOSEN = message("Nothing is chosen yet. Choose one of the answers.")
NONE_MARKED = message("Nothing is marked yet. Mark every one that fits.")
SAY_WHY = message("Now say why.")
EACH_ONCE = message("Give each picture a name, and each name once.")
LONGEST_CHOICE = 2000
_BETWEEN = re.compile(r"[\s,;.:)+]+")


def grade_choice(question: Question, text: str) -> Grade:
    """Return the grade of an answer to a question with choices; `problem` where it is no whole answer."""
    given = text if len(text) <= LONGEST_CHOICE else ""
    if question.answering == "one":
        return _one(question, given, text)
    chosen = _several(question.every_choice, given)
    if chosen is None or not chosen:
        blank = NONE_MARKED if question.answering == "all" else NOTHING_CHOSEN
        return _asked_again(_choose_one(question) if text.strip() else blank)
    by_kind = {"all": _all, "reason": _act_and_reason, "names": _names}
    return by_kind[question.answering](question, chosen)


def is_half(question: Question, text: str) -> bool:
    """Return whether an answer names an act and not yet why."""
    chosen = _several(question.every_choice, text) if question.reasons else None
    return chosen is not None and len(chosen) == 1 and chosen[0] in question.choices


def as_keys(question: Question, text: str) -> str:
    """Return an answer as it is kept: what is named by letters, in the keys it means; any other as typed."""
    if question.answering in {"number", "one"}:
        return text
    chosen = _several(question.every_choice, text)
    return text if chosen is None else " ".join(each.key for each in chosen)


def _asked_again(problem: Text) -> Grade:
    """Return the grade of what was no usable answer: neither right nor wrong."""
    return Grade("asked_again", says="", understood="", problem=problem)


def _one(question: Question, given: str, text: str) -> Grade:
    """Return the grade of one choice, by its text, its key or its letter."""
    plain = _plain(given)
    told = (each for each in question.choices if plain in {each.key, _plain(translate(each.text))})
    chosen = next(told, None) or next((each for each in question.choices if plain == each.letter.casefold()), None)
    if chosen is None:
        return _asked_again(_choose_one(question) if text.strip() else NOTHING_CHOSEN)
    understood = joined([chosen.key, chosen.text], ": ")
    return _right(understood) if chosen.is_right else _wrong(chosen.name, chosen.says, understood)


def _several(choices: Sequence[Choice], given: str) -> list[Choice] | None:
    """Return the choices that keys or letters name, in the order typed; None where one of them names nothing."""
    by_sign = {sign: each for each in choices for sign in (each.key, each.letter.casefold())}
    signs = [sign for sign in _BETWEEN.split(_plain(given)) if sign]
    if len(signs) == 1 and signs[0] not in by_sign and signs[0].isalpha():
        signs = list(signs[0])
    return [by_sign[sign] for sign in signs] if all(sign in by_sign for sign in signs) else None


def _all(question: Question, chosen: Sequence[Choice]) -> Grade:
    """Return the grade of a marking: every choice that fits and no other, in any order."""
    marked = [each for each in question.choices if each in chosen]
    extra = [each for each in marked if not each.is_right]
    missed = [each for each in question.choices if each.is_right and each not in marked]
    if not extra and not missed:
        return _right(_listed(marked))
    says = joined([*(message("{letter} does not fit. {why}", letter=each.letter, why=each.says) for each in extra),
                   *([_left_out(missed)] if missed else [])])  # fmt: skip
    if extra and missed:
        return _wrong("", says, _listed(marked))
    return _wrong(extra[0].name if extra else "left_out", says, _listed(marked))


def _left_out(missed: Sequence[Choice]) -> Text:
    """Return which choices were left out."""
    return message("Left out: {answers}.", answers=_listed(missed))


def _act_and_reason(question: Question, chosen: Sequence[Choice]) -> Grade:
    """Return the grade of an act and its reason: both have to be right."""
    acts = [each for each in chosen if each in question.choices]
    reasons = [each for each in chosen if each in question.reasons]
    if len(acts) != 1 or len(reasons) != 1:
        return _asked_again(SAY_WHY if len(acts) == 1 and not reasons else _choose_one(question))
    wrong = next((each for each in (*acts, *reasons) if not each.is_right), None)
    understood = _listed([*acts, *reasons])
    return _right(understood) if wrong is None else _wrong(wrong.name, wrong.says, understood)


def _names(question: Question, chosen: Sequence[Choice]) -> Grade:
    """Return the grade of names given to pictures, in the order of the pictures."""
    if len(chosen) != len(question.pictures) or len(set(chosen)) < len(chosen):
        return _asked_again(EACH_ONCE)
    named = [(picture, each) for picture, each in zip(question.pictures, chosen, strict=True)]
    understood = joined((joined([picture.letter, each.text]) for picture, each in named), "; ")
    off = [picture.letter for picture, each in named if each.key != picture.right]
    if not off:
        return _right(understood)
    return _wrong("names_swapped", message("Look again at {letters}.", letters=", ".join(off)), understood)


def _right(understood: Text) -> Grade:
    return Grade("right", says=RIGHT, understood=understood)


def _wrong(name: str, says: Text, understood: Text) -> Grade:
    return Grade("method" if name else "unknown", says=says, understood=understood, name=name or None)


def _listed(choices: Sequence[Choice]) -> Text:
    """Return choices by letter and text."""
    return joined((joined([each.letter, each.text]) for each in choices), "; ")


def _choose_one(question: Question) -> Text:
    """Return the keys there are to choose from."""
    shown = [choice.key if question.answering == "one" else choice.letter for choice in question.every_choice]
    *keys, last = shown
    if question.answering == "one":
        return message("Choose one: {keys} or {last}.", keys=", ".join(keys), last=last)
    return message("Choose from {keys} and {last}.", keys=", ".join(keys), last=last)


def _plain(text: str) -> str:
    """Return a text as choices are compared: small letters, single spaces, no mark at the end."""
    return " ".join(unicodedata.normalize("NFKC", text).casefold().split()).rstrip(".):")
