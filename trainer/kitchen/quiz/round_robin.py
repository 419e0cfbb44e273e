"""Questions for a quiz that decides: the technique's settings in turn, all different, from one kept seed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import cycle, islice

from trainer.kitchen.quiz.drawing import draw_sitting
from trainer.kitchen.quiz.drawn import DrawnQuestion
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.sentences import QuestionWords
from trainer.kitchen.technique import QuestionSetting, Technique


def draw_in_turn(technique: Technique, seed: int, how_many: int, words: QuestionWords) -> tuple[DrawnQuestion, ...]:
    """Return the first so many questions of a sitting that decides; more of them begin with the same ones."""
    in_turn = tuple(replace(setting, count=1) for setting in settings_in_turn(technique.questions, how_many))
    return draw_sitting(replace(technique, questions=in_turn), seed, words)


def settings_in_turn(settings: Sequence[QuestionSetting], how_many: int) -> tuple[QuestionSetting, ...]:
    """Return the settings in the order asked: each once, then again those with a count left, round after round."""
    most = max((setting.count for setting in settings), default=0)
    one_round = [setting for lap in range(most) for setting in settings if setting.count > lap]
    return tuple(islice(cycle(one_round), how_many))


def is_about_safety(family: str) -> bool:
    """Return whether a family is about heat, time, chemicals or allergens: its questions have a floor of their own."""
    known = FAMILIES.get(family)
    return known is not None and known.safety


def safety_places(technique: Technique) -> tuple[bool, ...]:
    """Return for each place of a sitting that decides whether the question there is about safety."""
    return tuple(is_about_safety(setting.family) for setting in settings_in_turn(technique.questions, technique.asked))
