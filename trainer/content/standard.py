"""The measured lines of a technique or a recipe, and what the files of one kitchen may name."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace

from trainer.content import kinds
from trainer.content.declarations import Block
from trainer.content.kinds import Table
from trainer.content.law import lines_held
from trainer.content.lines import RecipeLine, TypedLine
from trainer.content.mapping_reader import Known
from trainer.content.nodes import Diagnostics
from trainer.content.sums import LINE_SHAPES, Formula
from trainer.content.worked import ComputedLines
from trainer.kitchen.quiz.sentences import NO_QUESTION_WORDS, QuestionWords
from trainer.kitchen.technique import Limit
from trainer.recipe_math.quantity import Quantity

STANDARD = kinds.by_id(kinds.shapes(*LINE_SHAPES))


@dataclass(frozen=True, slots=True)
class LoadContext:
    """What the techniques and recipes of one kitchen may name.

    `recipes` holds the measured lines of all recipes, each under `<recipe>.<line>`; `question_words` are in English.
    """

    sources: Collection[str]
    allergens: Collection[str]
    techniques: Collection[str]
    code: Mapping[str, Limit]
    recipes: Mapping[str, Limit] = field(default_factory=dict)
    question_words: QuestionWords = NO_QUESTION_WORDS
    skills: Collection[str] = ()

    @property
    def known(self) -> Known:
        """Return the names that a file may use."""
        return {
            "sources": self.sources,
            "allergens": self.allergens,
            "techniques": self.techniques,
            "skills": self.skills,
        }

    def with_recipes(self, lines: Mapping[str, Limit]) -> LoadContext:
        """Return the same with the measured lines of all recipes."""
        return replace(self, recipes=lines)


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
    return replace(context.recipes[name.text], id=id)
