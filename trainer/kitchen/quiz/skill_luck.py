"""The chance to be right in a skill without knowing, by the form of its questions: cheap, and the same every day.

How often one answer is right in truth is counted from many draws by `skill_figures`.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from trainer.kitchen.quiz.drawing import draw_question, word_lists
from trainer.kitchen.quiz.drawn import DrawnQuestion, QuestionContext
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.family import ChoiceFamily, ChoiceItem, Draw
from trainer.kitchen.quiz.picks import KeptPicks
from trainer.kitchen.quiz.scenes import NAMES_LUCK, NUMBER_LUCK, TWO_PARTS_LUCK, luck_of_bank, luck_of_choices

FORMS_DRAWN = 16
"""Questions looked at for the forms of a family that asks in several."""


def structural_luck(context: QuestionContext) -> Fraction:
    """Return the luck of a context's setting by the form of its questions: the largest of the forms it asks in.

    A bank of scenes has the mean of its scenes. Nothing that can be drawn: CannotDraw.
    """
    setting = context.setting
    if setting is None:
        raise LookupError("luck is asked of a setting")
    kind = FAMILIES[setting.family]
    if not isinstance(kind, ChoiceFamily):
        return NUMBER_LUCK
    if kind.takes == "scenes" and context.material.scenes:
        return luck_of_bank(context.material.scenes)
    return max(map(_luck_of_item, _items(kind, context)))


def _luck_of_item(item: ChoiceItem) -> Fraction:
    if item.keyed:
        return NUMBER_LUCK
    if item.names:
        return NAMES_LUCK
    return TWO_PARTS_LUCK if item.reasons else luck_of_choices(len(item.options), is_mark_all=item.marks_all)


def _items(kind: ChoiceFamily, context: QuestionContext) -> Iterator[ChoiceItem]:
    for seed in range(FORMS_DRAWN):
        yield item_of(kind, draw_question(kind.name, seed, context), context)


def item_of(kind: ChoiceFamily, drawn: DrawnQuestion, context: QuestionContext) -> ChoiceItem:
    """Return a drawn question with its choices: as they were made when it was drawn, else made anew."""
    if drawn.made is not None and drawn.made.context is context:
        return drawn.made.item
    lists = word_lists(kind, context)
    picked = {slot: lists[slot][drawn.words[slot]] for slot in kind.words}
    draw = Draw(KeptPicks(drawn.picks), drawn.numbers, picked, context.material, context.words)
    item = kind.choose(draw)
    if item is None:
        raise LookupError(f"{kind.name} cannot be asked again as it was drawn")
    return item
