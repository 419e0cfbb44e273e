"""What a technique takes from the recipe it makes: its allergens, and the numbers that stand there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from trainer.content.lines import TypedLine
from trainer.content.standard import LoadContext
from trainer.kitchen.roll_up import allergens_named

if TYPE_CHECKING:
    from trainer.content.techniques import TechniqueFile


def allergens_of_recipe(recipe: str, context: LoadContext) -> tuple[str, ...]:
    """Return what a recipe has in it, by its parts; nothing where no recipe is named."""
    return allergens_named(context.made[recipe]) if recipe in context.made else ()


def check_recipe(block: TechniqueFile, context: LoadContext) -> None:
    """Add what a technique types although it follows from its recipe, and a recipe that cannot be made."""
    if not block.recipe:
        return
    lines, add = block.at.lines, block.at.diagnostics.add
    if block.recipe not in context.made:
        add(lines["recipe"], f"The recipe {block.recipe} has a problem of its own.", "Mend the recipe first.")
        return
    follows = [each for each in allergens_of_recipe(block.recipe, context) if each in block.allergens]
    if follows:
        message = f"{', '.join(follows)} of allergens follow from the recipe {block.recipe}."
        add(lines["allergens"], message, "Take them out: a change of the recipe would leave them wrong.")
    for id, line in (block.standard or {}).items():
        if isinstance(line, TypedLine) and f"{block.recipe}.{id}" in context.recipes:
            message = f"{id} is typed here, and stands in the recipe {block.recipe} too."
            line.at.add(message, f"Write {id}: {{recipe: {block.recipe}.{id}}}, or give the line an id of its own.")
