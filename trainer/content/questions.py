"""The question families set in a technique: how often each is asked, with which ranges and words."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from trainer.content.nodes import Node, Sheet, Text
from trainer.content.pair import Pair
from trainer.content.schema import LONG, SHORT, Fields, nearest, shown
from trainer.kitchen.quiz.drawing import setting_problems
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.family import AnyFamily, Choosing
from trainer.kitchen.quiz.material import material_of
from trainer.kitchen.technique import QuestionSetting, Technique
from trainer.recipe_math.parsing import parse_number
from trainer.recipe_math.quantity import QuantityProblem

Span = tuple[Fraction, Fraction, Fraction]
CODE = "code."
UNIT_WORDS = {"fahrenheit": "°F", "celsius": "°C", "seconds": "s", "minutes": "min", "hours": "h", "days": "days"}


def questions_of(pair: Pair) -> tuple[QuestionSetting, ...]:
    """Return the question families set in this technique, each once."""
    entries: dict[str, Fields] = {}
    for node in pair.structure.many("questions"):
        fields = Fields.of(node, pair.structure.sheet, "a question")
        family = fields.one_of("family", pair.around.families)
        fields.name = family or fields.name
        if family in entries:
            fields.sheet.note(node.line, f"{family} stands twice under questions.", "Put the two counts together.")
        elif family:
            entries[family] = fields
    told = pair.told.block("questions", required=False) or Fields(pair.words.sheet, pair.told.line, "questions")
    spoken = {family: _words_of(pair, family, node) for family, node in told.each(entries)}
    return tuple(_setting(pair, family, fields, spoken.get(family, {})) for family, fields in entries.items())


def _words_of(pair: Pair, family: str, node: Node) -> dict[str, str]:
    """Return the words a family uses in this technique; retired ones, which older content sets, are left out."""
    fields, kind = Fields.of(node, pair.words.sheet, family), pair.around.families[family]
    read = {key: pair.words.of(inner, key, LONG) for key, inner in fields.each([*kind.words, *kind.retired])}
    return {key: text for key, text in read.items() if key not in kind.retired}


def _setting(pair: Pair, family: str, fields: Fields, words: Mapping[str, str]) -> QuestionSetting:
    """Return one family as it is set here; a setting from which nothing can be drawn is noted."""
    before = len(fields.sheet.problems)
    count = fields.whole("count", 1, 50)
    ranges: dict[str, Span] = {}
    block = fields.block("ranges", required=False)
    for key, node in block.each(pair.around.families[family].ranges) if block else ():
        read = _range_of(node, pair, key)
        if read:
            ranges[key] = read
    fields.close()
    setting = QuestionSetting(family, words, ranges, count)
    if len(fields.sheet.problems) == before and not takes_words(pair.around.families[family]):
        for problem in setting_problems(setting):
            fields.sheet.note(fields.line, problem, "Widen the ranges, or leave them to the family.")
    return setting


def takes_words(family: AnyFamily) -> str:
    """Return which words of the technique a family makes its questions from: its faults, its steps; empty for none."""
    return family.takes if isinstance(family, Choosing) else ""


def note_too_few_words(structure: Fields, technique: Technique) -> None:
    """Note a family that asks about the technique's own faults or steps, where there are too few of them."""
    settings = {setting.family: setting for setting in technique.questions}
    for node in structure.many("questions"):
        setting = settings.get(Fields.of(node, Sheet("", []), "").text("family", longest=SHORT))
        takes = takes_words(FAMILIES[setting.family]) if setting else ""
        for problem in setting_problems(setting, material_of(technique)) if setting and takes else ():
            structure.sheet.note(node.line, problem, f"Write more {takes} that differ, or ask less often.")


def _range_of(node: Node, pair: Pair, key: str) -> Span | None:
    """Return (lowest, highest, step) of a text like "8 to 16 step 1/2", or of a limit of the local code."""
    sheet, typed = pair.structure.sheet, node.value if isinstance(node, Text) else ""
    if typed.startswith(CODE):
        return _limit_as_range(typed.removeprefix(CODE), key, pair, node.line)
    span, _, step = typed.partition(" step ")
    lowest, _, highest = span.partition(" to ")
    try:
        low, high, by = (parse_number(part, decimal_mark=".") for part in (lowest, highest, step))
    except QuantityProblem:
        low, high, by = Fraction(1), Fraction(0), Fraction(0)
    if low <= high and by > 0:
        return low, high, by
    mend = 'Write it like "8 to 16 step 1/2", lowest first, or name a limit: code.<id>.'
    sheet.note(node.line, f"{key} is {shown(node)}, not a range.", mend)
    return None


def _limit_as_range(name: str, key: str, pair: Pair, line: int) -> Span | None:
    """Return a limit of the local code as a range of one value, in the unit the range is named after."""
    sheet, limit = pair.structure.sheet, pair.around.code.get(name)
    if limit is None:
        sheet.note(line, f"{key} names code.{name}, which is not known.", nearest(name, pair.around.code))
        return None
    value = limit.target or limit.highest or limit.lowest
    symbol = next((symbol for word, symbol in UNIT_WORDS.items() if word in key.split("_")), "")
    try:
        amount = value.to(symbol).amount if value else Fraction(0)
    except QuantityProblem:
        sheet.note(
            line, f"{key} is not measured as code.{name} is.", "Name a limit of the same kind, or write a range."
        )
        return None
    return amount, amount, Fraction(1)
