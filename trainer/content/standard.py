"""The measured lines of a technique or a recipe, and what the files of one kitchen may name."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace

from trainer.content import kinds
from trainer.content.declarations import Block
from trainer.content.foods import FoodBlock
from trainer.content.kinds import Table
from trainer.content.law import lines_held
from trainer.content.lines import RecipeLine, TypedLine
from trainer.content.mapping_reader import Known
from trainer.content.nodes import Diagnostics
from trainer.content.sums import LINE_SHAPES, Formula
from trainer.content.worked import ComputedLines
from trainer.kitchen.quiz.sentences import NO_QUESTION_WORDS, QuestionWords
from trainer.kitchen.recipe import Recipe
from trainer.kitchen.technique import Instrument, Limit
from trainer.recipe_math.quantity import Quantity, WrongDimension

STANDARD = kinds.by_id(kinds.shapes(*LINE_SHAPES))


@dataclass(frozen=True, slots=True)
class LoadContext:
    """What the techniques and recipes of one kitchen may name.

    `recipes` holds the measured lines of all recipes, each under `<recipe>.<line>`, `made` the recipes themselves as
    far as they are sound; `question_words` are in English.
    """

    sources: Collection[str]
    allergens: Mapping[str, str]
    techniques: Collection[str]
    code: Mapping[str, Limit]
    recipes: Mapping[str, Limit] = field(default_factory=dict)
    question_words: QuestionWords = NO_QUESTION_WORDS
    skills: Collection[str] = ()
    foods: Mapping[str, FoodBlock] = field(default_factory=dict)
    recipe_names: Collection[str] = ()
    made: Mapping[str, Recipe] = field(default_factory=dict)
    instruments: Mapping[str, Instrument] = field(default_factory=dict)

    @property
    def known(self) -> Known:
        """Return the names that a file may use."""
        return {
            "sources": self.sources,
            "allergens": self.allergens,
            "techniques": self.techniques,
            "skills": self.skills,
            "foods": self.foods,
            "recipes": self.recipe_names,
            "instruments": self.instruments,
        }

    def with_recipes(self, lines: Mapping[str, Limit]) -> LoadContext:
        """Return the same with the measured lines of all recipes."""
        return replace(self, recipes=lines)

    def with_made(self, made: Mapping[str, Recipe]) -> LoadContext:
        """Return the same with the recipes that can be made."""
        return replace(self, made=made)

    @property
    def lines(self) -> dict[str, Limit]:
        """Return the lines that any words may name: those of the code, and those of recipes."""
        code = {f"code.{id}": limit for id, limit in self.code.items()}
        return {**code, **{f"recipe.{name}": limit for name, limit in self.recipes.items()}}


def standard_of(
    table: Table[Block] | None, context: LoadContext, amounts: Mapping[str, Quantity | None], diagnostics: Diagnostics
) -> dict[str, Limit]:
    """Return the measured lines by id, in their order; those with a formula worked out, none laxer than the code.

    *amounts* are numbers outside `standard` that a formula may name too: the ingredients of a recipe.
    """
    if table is None:
        return {}
    formulas = {id: line for id, line in table.items() if isinstance(line, Formula) and line.sound}
    typed = {id: _typed(line, id, context, diagnostics) for id, line in table.items() if id not in formulas}
    for id in table.keys() & amounts.keys():
        diagnostics.add(table[id].at.line, f"{id} is an ingredient too.", "Give the line an id of its own.")
    computed = ComputedLines(formulas, typed, amounts)
    lines = {id: computed.line(id) if id in formulas else typed[id] for id in table}
    read = {id: line for id, line in lines.items() if line is not None}
    return lines_held(read, context.code, table.at.lines, diagnostics)


def faulty_lines(table: Table[Block] | None, read: Collection[str]) -> set[str]:
    """Return the measured lines that are there and could not be read, which is told already."""
    return table.at.nodes.keys() - set(read) if table else set()


def _typed(line: Block, id: str, context: LoadContext, diagnostics: Diagnostics) -> Limit | None:
    """Return a line as it is typed, or the line of the recipe it names; None where it has a problem of its own."""
    if isinstance(line, TypedLine):
        return line.limit()
    if not isinstance(line, RecipeLine) or line.recipe is None:
        return None
    name = line.recipe
    if name.text not in context.recipes:
        replace(line.at, diagnostics=diagnostics).unknown(name.line, "recipe", name.text, context.recipes)
        return None
    found, give = context.recipes[name.text], line.give_or_take
    if give is None or found.target is None:
        return replace(found, id=id)
    place = f"{name.text}; what it may give or take: {line.source}"
    try:
        ends = found.target - give, found.target + give
    except WrongDimension as problem:
        replace(line.at, diagnostics=diagnostics).add(f"{id}: {problem}", "Use units of one kind in one line.")
        return None
    return Limit(id, *ends, found.target, found.source, place)
