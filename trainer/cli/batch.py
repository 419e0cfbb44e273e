"""Recipes for tonight at the command line: one for so many portions, or several together with one order."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from difflib import get_close_matches
from pathlib import Path
from typing import Any

import click

from trainer.cli.bench import content_here
from trainer.cli.exits import USAGE, CommandError
from trainer.kitchen.production import OrderRow, Pot, Prep, Production, Wanted, production_of
from trainer.kitchen.recipe import Batch, BatchLine, Recipe, batch_of
from trainer.kitchen.roll_up import (
    Carried,
    SulphiteSum,
    allergens_carried,
    allergens_named,
    raw_in,
    shortest_date,
    sulphites_of,
)
from trainer.kitchen.technique import Content
from trainer.messages import translate
from trainer.recipe_math.estimates import hours_text
from trainer.recipe_math.order_text import on_order, rounded_up
from trainer.recipe_math.printing import both_ways, number_text, written
from trainer.recipe_math.quantity import Quantity, QuantityProblem


@click.command("batch")
@click.argument("recipes", metavar="RECIPE...", nargs=-1, required=True)
@click.option("--portions", type=int, help="How many portions of each that says no number of its own.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
@click.pass_obj
def batch_command(folder: Path, recipes: Sequence[str], portions: int | None, as_json: bool) -> None:
    """Work out recipes for so many portions: weights, what to prepare first, one order, allergens.

    Several are added up: a part that two of them have is made once, and what is bought is rounded up once. RECIPE=N
    asks for a number of its own.

    \b
    Example:
      trainer batch durum_dough --portions 40
      trainer batch yolk_pasta=40 pastry_custard=25
    """
    content = content_here(folder)
    wanted = [wanted_of(text, portions, content) for text in recipes]
    try:
        made = production_of(wanted)
        single = batch_of(wanted[0].recipe, wanted[0].portions) if len(wanted) == 1 else None
    except QuantityProblem as problem:
        raise CommandError(str(problem), USAGE) from problem
    if as_json:
        click.echo(json.dumps(record_of(made, single), ensure_ascii=False))
    elif single and not single.parts:
        print_batch(single, made, content)
    else:
        print_production(made, content)


def wanted_of(text: str, portions: int | None, content: Content) -> Wanted:
    """Return the recipe a text names, and how many portions of it; what is not known ends the command."""
    name, _, own = text.partition("=")
    if name not in content.recipes:
        near = get_close_matches(name, content.recipes, 1)
        hint = f"Did you mean {near[0]!r}?" if near else f"There are: {', '.join(content.recipes) or 'none'}."
        raise CommandError(f"There is no recipe {name!r}. {hint}", USAGE)
    if own and not (own.isascii() and own.isdigit()):
        raise CommandError(f"{own!r} is no number of portions. Write {name}=40.", USAGE)
    number = int(own) if own else portions
    if number is None:
        raise CommandError(f"How many portions of {name}? Give --portions, or {name}=40.", USAGE)
    return Wanted(content.recipes[name], number)


def record_of(made: Production, single: Batch | None) -> dict[str, Any]:
    """Return what is made as a record; of one recipe alone with its own batch, as before."""
    dishes = made.dishes
    return {
        **(batch_record(single) if single else {}),
        "allergens": list(dict.fromkeys(name for dish in dishes for name in allergens_named(dish.recipe))),
        "dishes": [dish_record(dish) for dish in dishes],
        "prep": [prep_record(prep) for prep in made.preps],
        "pots": [pot_record(pot) for pot in made.pots],
        "order": [order_record(row) for row in made.order],
    }


def batch_record(made: Batch) -> dict[str, Any]:
    """Return a batch as a record: exact factor, weights in grams, percentages of the flour where there is flour."""
    return {
        "recipe": made.recipe.id,
        "portions": made.portions,
        "factor": f"{made.factor.numerator}/{made.factor.denominator}",
        "fills": made.fills,
        "grams": number_text(made.weight.base, 3),
        "hydration_percent": None if made.hydration is None else number_text(made.hydration, 3),
        "ingredients": [line_record(line) for line in made.lines],
    }


def line_record(line: BatchLine) -> dict[str, Any]:
    """Return one ingredient of a batch as a record."""
    return {
        "id": line.ingredient.id,
        "name": line.ingredient.name,
        "grams": number_text(line.weight.base, 3),
        "flour_percent": None if line.percentage is None else number_text(line.percentage, 3),
        "buy": {"amount": number_text(line.to_buy.amount, 6), "unit": line.to_buy.unit.symbol},
        "allergens": list(line.ingredient.allergens),
    }


def dish_record(dish: Wanted) -> dict[str, Any]:
    """Return a dish as a record: its allergens with the ways they came, sulphites, what is raw, and its date."""
    recipe = dish.recipe
    summed, date = sulphites_of(recipe), shortest_date(recipe)
    return {
        "recipe": recipe.id,
        "portions": dish.portions,
        "allergens": list(allergens_named(recipe)),
        "came": [carried_record(each) for each in allergens_carried(recipe)],
        "sulphites": sulphite_record(summed) if summed else None,
        "raw": [carried_record(each) for each in raw_in(recipe)],
        "keeps_hours": number_text(date.keeps.base / 3600, 1) if date else None,
    }


def carried_record(carried: Carried) -> dict[str, Any]:
    """Return what a dish carries as a record."""
    return {"what": carried.what, "chains": [list(chain) for chain in carried.chains]}


def sulphite_record(summed: SulphiteSum) -> dict[str, Any]:
    """Return how much sulphite is in a kilogram as served."""
    return {
        "least_mg_per_kg": number_text(summed.least, 2),
        "most_mg_per_kg": None if summed.most is None else number_text(summed.most, 2),
        "named": summed.is_named,
        "made_with": [chain[-1] for chain in summed.chains],
    }


def prep_record(prep: Prep) -> dict[str, Any]:
    """Return what is made of one recipe, once for all dishes."""
    return {
        "recipe": prep.recipe.id,
        "ready_grams": number_text(prep.ready.base, 3),
        "begin_minutes_before": int(prep.before.base / 60),
        "grams": number_text(prep.batch.weight.base, 3),
        "factor": f"{prep.batch.factor.numerator}/{prep.batch.factor.denominator}",
        "ingredients": [line_record(line) for line in prep.batch.lines],
        "parts": [{"recipe": p.part.recipe.id, "grams": number_text(p.needed.base, 3)} for p in prep.batch.parts],
    }


def pot_record(pot: Pot) -> dict[str, Any]:
    """Return a pot of tonight as a record."""
    return {"recipe": pot.recipe.id, "batches": pot.batches, "fills": pot.fills, "held": list(pot.held)}


def order_record(row: OrderRow) -> dict[str, Any]:
    """Return one line of the order: grams, millilitres or a count, rounded up; in which packs, and what is over."""
    needed = rounded_up(row.needed)
    return {
        "ingredient": row.ingredient.food or row.ingredient.id,
        "name": row.name,
        "amount": number_text(needed.amount, 3),
        "unit": needed.unit.symbol,
        "packs": [{"unit": pack.unit, "number": number} for number, pack in row.order.packs] if row.order else [],
        "over": number_text(row.order.over.to(needed.unit.symbol).amount, 3) if row.order else None,
    }


def print_batch(made: Batch, production: Production, content: Content) -> None:
    """Print a batch for a person to weigh out from."""
    print_size(made)
    if made.hydration is not None:
        click.echo(f"  hydration {number_text(made.hydration, 1)} to 100 flour, the water in egg counted")
    print_weights(made)
    for line in order_lines(production):
        click.echo(f"  buy {line}")
    print_dish(made.recipe, content)
    for hazard in made.recipe.hazards:
        click.echo(f"  caution: {hazard.caution}")
    click.echo("  Your local code decides; nothing here says that food is safe.")


def print_size(made: Batch) -> None:
    """Print how much it makes: the portions and the batch, or how often a bath is filled."""
    recipe, bath = made.recipe, made.recipe.bath
    if bath is None:
        click.echo(f"{recipe.title}: {made.portions} portions of {translate(both_ways(recipe.portion))}")
        click.echo(f"  whole batch {rounded(made.weight)}, the recipe times {number_text(made.factor, 3)}")
        return
    often = "once" if made.fills == 1 else f"{made.fills} times"
    batches = rounded(Quantity.of(bath.batches_for(made.portions), bath.batches.unit.symbol))
    click.echo(f"{recipe.title}: for {made.portions} portions the pot is filled {often}")
    click.echo(f"  {rounded(bath.takes)} go in at one time, {batches} in all; one fill lasts {rounded(bath.batches)}")
    click.echo(f"  one fill weighs {rounded(made.weight)}")


def print_weights(made: Batch) -> None:
    """Print what to weigh out, a line an ingredient; of a seasoning what to begin with."""
    rows = [(part.part.recipe.title, f"{rounded(part.needed)}, ready") for part in made.parts]
    rows += [(line.ingredient.name, weight_text(line, made)) for line in made.lines]
    width = max(len(name) for name, _ in rows)
    for name, weight in rows:
        click.echo(f"  {name.ljust(width)}  {weight}")


def weight_text(line: BatchLine, made: Batch) -> str:
    """Return what is weighed of an ingredient."""
    percent = "" if line.percentage is None else f"  {number_text(line.percentage, 1)} %"
    if line.start is not None:
        return f"{rounded(line.start)} to begin with, then taste; {rounded(line.weight)} in all{percent}"
    return f"{rounded(line.amount if made.recipe.bath else line.weight)}{percent}"


def print_production(made: Production, content: Content) -> None:
    """Print all that is made tonight: what to begin first, the pots, one order, and what each dish has in it."""
    click.echo(f"Tonight: {', '.join(f'{dish.recipe.title} {dish.portions}' for dish in made.dishes)}")
    for prep in made.preps:
        when = f"begin {hours_text(int(prep.before.base / 60))} before: " if prep.before.base else ""
        goes = f", for {', '.join(prep.feeds)}" if prep.feeds else ""
        click.echo(f"{when}{prep.recipe.title}, {rounded(prep.ready)} ready{goes}")
        print_weights(prep.batch)
        for hazard in prep.recipe.hazards:
            click.echo(f"  caution: {hazard.caution}")
    for pot in made.pots:
        often = "once" if pot.fills == 1 else f"{pot.fills} times"
        click.echo(f"{pot.recipe.title}: {rounded(pot.at_once)} at one time, {pot.batches} batches, filled {often}")
        print_weights(pot.fill)
    click.echo("To buy")
    for line in order_lines(made):
        click.echo(f"  {line}")
    for dish in made.dishes:
        click.echo(f"{dish.recipe.title} has in it")
        print_dish(dish.recipe, content)
    click.echo("Your local code decides; nothing here says that food is safe.")


def print_dish(recipe: Recipe, content: Content) -> None:
    """Print allergens, each with the way it came where it came by a part; sulphites, what is raw, and the date."""
    named = allergens_named(recipe)
    if named:
        click.echo(f"  allergens: {', '.join(content.allergens.get(name, name) for name in named)}")
    for carried in allergens_carried(recipe) if recipe.parts else ():
        for chain in carried.chains:
            click.echo(f"    {content.allergens.get(carried.what, carried.what)}: {' < '.join(chain)}")
    summed = sulphites_of(recipe)
    if summed is not None:
        click.echo(f"  made with: {', '.join(chain[-1] for chain in summed.chains)}; {sulphite_text(summed)}")
    for carried in raw_in(recipe):
        click.echo(f"  raw {carried.what}: {'; '.join(' < '.join(chain) for chain in carried.chains)}")
        click.echo("    Served so, it needs the words on the menu, and is not for guests at high risk.")
    date = shortest_date(recipe)
    if date:
        click.echo(f"  keeps {translate(written(date.keeps))}: {' < '.join(date.chain)}")


def sulphite_text(summed: SulphiteSum) -> str:
    """Return how much sulphite is in it, against the line of EU law."""
    if summed.most is None:
        return "how much sulphite nobody says, so it is named"
    least, most = number_text(summed.least, 1), number_text(summed.most, 1)
    side = "above" if summed.is_named else "not above"
    return f"{least} to {most} mg of sulphite a kilogram as served, {side} the 10 of EU law"


def order_lines(made: Production) -> Iterator[str]:
    """Yield each thing to buy as an order says it: 2 cartons of 2 lb: Pasteurized yolk, 1 lb 11 3/4 oz over."""
    for row in made.order:
        needed = ordered(row.needed)
        if row.order is None:
            yield f"{needed}: {row.name}"
            continue
        packs = " and ".join(
            f"{rounded(Quantity.of(number, pack.unit))} of {rounded(pack.holds)}" for number, pack in row.order.packs
        )
        yield f"{needed}, as {packs}: {row.name}, {rounded(row.order.over)} over"


def ordered(quantity: Quantity) -> str:
    """Return an amount to buy, rounded up, in both systems, once where both read the same."""
    us, metric = translate(on_order(quantity, "us")), translate(on_order(quantity))
    return us if us == metric else f"{us} ({metric})"


def rounded(quantity: Quantity) -> str:
    """Return an amount rounded and written in both systems, once where both read the same."""
    us, metric = translate(written(quantity, "us")), translate(written(quantity))
    return us if us == metric else f"{us} ({metric})"
