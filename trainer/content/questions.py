"""The question families set in a technique: how often each is asked, with which ranges and words."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace
from fractions import Fraction

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional
from trainer.content.kinds import Kind, Schema, Table, Written
from trainer.content.mapping_reader import MappingReader, nearest, shown
from trainer.content.nodes import Node, ScalarNode
from trainer.content.words import Filler
from trainer.kitchen.quiz.drawing import ranges_of, setting_problems
from trainer.kitchen.quiz.drawn import QuestionContext
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.family import AnyFamily, ChoiceFamily, Range
from trainer.kitchen.quiz.material import material_of
from trainer.kitchen.quiz.sentences import QuestionWords
from trainer.kitchen.technique import Limit, QuestionSetting, Technique
from trainer.recipe_math.parsing import parse_number
from trainer.recipe_math.quantity import QuantityProblem

A_RANGE = Kind("8 to 16 step 1/2, or code.<id>", lambda node, name, at: node, {})
"""A range, read by the family it is set for."""

Span = tuple[Fraction, Fraction, Fraction]
CODE = "code."
UNIT_WORDS = {"fahrenheit": "°F", "celsius": "°C", "seconds": "s", "minutes": "min", "hours": "h", "days": "days"}


class QuestionBlock(Block):
    """A question family, set."""

    called, named_by, entry_id, twice = "a question", "family", "family", "Put the two counts together."

    family: str = key(kinds.one_of(FAMILIES), "Which family; `trainer families` lists them.")
    count: int = key(kinds.whole(1, 50), "How often it is asked in a sitting or a round.")
    ranges: Table[Node] | None = optional(
        kinds.by_id(A_RANGE, free=True), "Numbers to draw from; `trainer families <family>` lists them."
    )

    @classmethod
    def schema(cls) -> Schema:
        """Return the block as JSON Schema; each family knows its own ranges."""
        return {**super().schema(), "allOf": closed_ranges()}


def closed_ranges() -> list[Schema]:
    """Return which ranges each family has, as JSON Schema."""
    return [_schema_of_ranges(name, family) for name, family in FAMILIES.items()]


def words_of_families() -> Kind:
    """Return the words that families use in this technique, each family its own."""
    told = {**kinds.words().schema, "description": "Things a question may draw, with | between them."}
    families = {
        name: {"type": "object", "properties": dict.fromkeys(family.words, told), "additionalProperties": False}
        for name, family in FAMILIES.items()
    }
    schema = {"type": "object", "properties": families, "additionalProperties": False}
    return replace(kinds.by_id(kinds.words_by_id(), free=True), schema=schema)


def _schema_of_ranges(name: str, family: AnyFamily) -> Schema:
    """Return which ranges a family has, as JSON Schema."""
    ranges = {id: _schema_of_range(usual) for id, usual in ranges_of(family).items()}
    closed = {"properties": ranges, "additionalProperties": False}
    return {"if": {"properties": {"family": {"const": name}}}, "then": {"properties": {"ranges": closed}}}


def _schema_of_range(usual: Range) -> Schema:
    """Return what a range means and how one is written, as JSON Schema."""
    return {"type": "string", "description": f"The {usual.means}: 8 to 16 step 1/2, or a limit, code.<id>."}


def setting_of(block: QuestionBlock, code: Mapping[str, Limit]) -> QuestionSetting:
    """Return a family as it is set, without its words."""
    return QuestionSetting(block.family, {}, settings_ranges(block.family, block.ranges, code, block.at), block.count)


def settings_ranges(
    family: str, table: Table[Node] | None, code: Mapping[str, Limit], at: MappingReader
) -> dict[str, Span]:
    """Return the ranges that are set for a family; one that it does not have, or that is none, is a problem."""
    nodes = table.known(ranges_of(FAMILIES[family])) if table and family in FAMILIES else {}
    spans = {id: _range_of(node, id, code, at) for id, node in nodes.items()}
    return {id: span for id, span in spans.items() if span is not None}


def family_words(
    table: Table[Table[Written]] | None, blocks: Collection[str], filler: Filler
) -> dict[str, dict[str, tuple[str, ...]]]:
    """Return the words of each family in this technique; retired ones, which older content sets, are left out."""
    found = {}
    for family, words in (table.known(blocks) if table else {}).items():
        kind = FAMILIES[family]
        told = words.known([*kind.words, *kind.retired])
        found[family] = {id: alternatives(filler.fill(text)) for id, text in told.items() if id in kind.words}
    return found


def alternatives(text: str) -> tuple[str, ...]:
    """Return the words of a list written as `carrots|leeks`."""
    return tuple(text.split("|"))


def takes_words(family: AnyFamily) -> str:
    """Return which words of the technique a family makes its questions from: its faults, its steps; empty for none."""
    return family.takes if isinstance(family, ChoiceFamily) else ""


def check_settings(blocks: Mapping[str, QuestionBlock], technique: Technique, words: QuestionWords) -> None:
    """Add a problem for each setting from which nothing can be drawn.

    A family that asks about the technique's own faults or steps needs enough of them.
    """
    for setting in technique.questions:
        block, takes = blocks[setting.family], takes_words(FAMILIES[setting.family])
        if takes:
            hint = f"Write more {takes} that differ, or ask less often."
            problems = setting_problems(setting, QuestionContext(words, material_of(technique)))
        else:
            hint = "Widen the ranges, or leave them to the family."
            is_sound = block.sound and len(setting.ranges) == len(block.ranges or ())
            problems = setting_problems(setting, QuestionContext(words)) if is_sound else ()
        for problem in problems:
            block.at.add(problem, hint)


def _range_of(node: Node, id: str, code: Mapping[str, Limit], at: MappingReader) -> Span | None:
    """Return (lowest, highest, step) of a text like "8 to 16 step 1/2", or of a limit of the local code."""
    typed = node.value if isinstance(node, ScalarNode) else ""
    if typed.startswith(CODE):
        return _limit_as_range(Written(node.line, id, typed.removeprefix(CODE)), code, at)
    span, _, step = typed.partition(" step ")
    lowest, _, highest = span.partition(" to ")
    try:
        low, high, by = (parse_number(part, decimal_mark=".") for part in (lowest, highest, step))
    except QuantityProblem:
        low, high, by = Fraction(1), Fraction(0), Fraction(0)
    if low <= high and by > 0:
        return low, high, by
    hint = 'Write it like "8 to 16 step 1/2", lowest first, or name a limit: code.<id>.'
    at.diagnostics.add(node.line, f"{id} is {shown(node)}, not a range.", hint)
    return None


def _limit_as_range(named: Written, code: Mapping[str, Limit], at: MappingReader) -> Span | None:
    """Return a limit of the local code as a range of one value, in the unit the range is named after."""
    line, id, name = named.line, named.key, named.text
    limit = code.get(name)
    if limit is None:
        at.diagnostics.add(line, f"{id} names code.{name}, which is not known.", nearest(name, code))
        return None
    value = limit.target or limit.highest or limit.lowest
    symbol = next((symbol for word, symbol in UNIT_WORDS.items() if word in id.split("_")), "")
    try:
        amount = value.to(symbol).amount if value else Fraction(0)
    except QuantityProblem:
        hint = "Name a limit of the same kind, or write a range."
        at.diagnostics.add(line, f"{id} is not measured as code.{name} is.", hint)
        return None
    return amount, amount, Fraction(1)
