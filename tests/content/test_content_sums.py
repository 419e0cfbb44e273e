"""Measured lines worked out from other lines: exact, told with their sum, and every bad one told with its fix."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from tests.content.test_recipe_files import RECIPE, kitchen_with_recipe
from tests.content.test_recipe_files import WORDS as RECIPE_WORDS
from tests.store.small_kitchen import change, small_kitchen
from trainer.content.files import load_content
from trainer.content.limits import First, limit_text
from trainer.kitchen.technique import Limit, Problem
from trainer.recipe_math.quantity import Quantity

STRUCTURE = "techniques/rolling/technique.yaml"
WORDS = "techniques/rolling/en.yaml"
BENCH = "bench: {target: 68 F, source: house}"
TYPED = {
    "durum": "7 lb",
    "semolina": "3 lb",
    "egg": "500 g",
    "water": "2 lb",
    "kept": "80 %",
    "count": "12 nests",
    "cup": "1 cup",
    "hot": "95 C",
    "cold": "20 C",
    "yolk": "120 g",
    "fridge": "5 C",
    "ladle": "60 g",
}


def read(folder: Path, bench: str, first: First = "us") -> tuple[Limit | None, tuple[Problem, ...], str]:
    """Return the last line of the technique once it is written as *bench*, the problems, and how the line prints."""
    small_kitchen(folder)
    lines = "".join(f"{name}: {{target: {value}, source: house}}\n  " for name, value in TYPED.items())
    change(folder, STRUCTURE, BENCH, f"{lines}bench: {bench}")
    sentences = "".join(f'  {name}: "It is {{{name}}}."\n' for name in TYPED)
    change(folder, WORDS, '  bench: "The', sentences + '  bench: "The')
    content, problems = load_content(folder)
    technique = content.techniques.get("rolling") if content else None
    line = technique.standard[-1] if technique else None
    return line, problems, limit_text(line, first) if line else ""


@pytest.mark.parametrize(
    ("bench", "said", "place"),
    [
        # 7 + 3 + 2 lb and 500 g: 1 lb = 453.59237 g exactly (NIST SP 811, Appendix B), so 5943.10844 g, 13 lb 1.64 oz
        ("{sum: [durum, semolina, egg, water]}", "13 lb 1 3/4 oz (5.943 kg)", "durum + semolina + egg + water"),
        # 2 of 10 is 20 in 100; 500 g of 7 lb, 3175.14659 g, is 15.75 in 100; 1407.18 of 4535.92 g is 31.02
        ("{share: water, of: [durum, semolina]}", "20 %", "water / (durum + semolina)"),
        ("{share: egg, of: durum}", "15.7 %", "egg / durum"),
        ("{share: [egg, water], of: [durum, semolina]}", "31 %", "(egg + water) / (durum + semolina)"),
        # 7 lb less 3 lb; 7 lb less 500 g is 2675.14659 g, 5 lb 14.36 oz
        ("{take: semolina, from: durum}", "4 lb (1.814 kg)", "durum - semolina"),
        ("{take: [egg], from: durum}", "5 lb 14 1/4 oz (2.675 kg)", "durum - egg"),
        # 4 oz twelve times are 48 oz, 3 lb; a quarter of 500 g is 125 g, 4.41 oz; 80 in 100 of 7 lb, 5 lb 9.6 oz
        ("{times: sheet_weight, by: 12}", "3 lb (1.361 kg)", "sheet weight × 12"),
        # told in kilograms: 48 oz of 28.349523125 g each are 1360.78 g
        ("{times: sheet_weight, by: 12, in: kg}", "3 lb (1.361 kg)", "sheet weight × 12"),
        ("{times: sheet_weight, by: count}", "3 lb (1.361 kg)", "sheet weight × count"),
        ("{times: egg, by: 1/4}", "4 1/2 oz (125 g)", "egg × 0.25"),
        ("{times: durum, by: kept}", "5 lb 9 1/2 oz (2.54 kg)", "durum × kept"),
        # Choi and Okos (1986) near 20 °C, kJ/(kg K): water 4.18, protein 2.03, fat 2.02, carbohydrate 1.6, ash 1.1; so
        # yolk (52.3, 15.9, 26.5, 3.6 and 1.7 in 100) takes 3.12; by hand, 120 g at 5 °C and 60 g of water at 95 °C come
        # to (120 × 3.12 × 5 + 60 × 4.18 × 95) / (120 × 3.12 + 60 × 4.18) = 41 °C
        (
            "{mix: [{food: yolks, amount: yolk, at: fridge}, {food: water, amount: ladle, at: hot}]}",
            "106 °F (41 °C)",
            "yolk at fridge + ladle at hot, an estimate by the heat of each",
        ),
        # from 20 to 95 °C are 75 degrees Celsius and 135 Fahrenheit: a difference has no freezing point
        ("{take: cold, from: hot}", "135 °F (75 °C)", "hot - cold"),
    ],
)
def test_a_line_is_worked_out_and_printed_both_ways(tmp_path: Path, bench: str, said: str, place: str) -> None:
    """Sum, share in percent, what is left, and so many times; the place is the sum as a cook would write it."""
    line, problems, text = read(tmp_path, bench)
    assert problems == ()
    assert line is not None
    assert (text, line.source, line.place) == (said, "computed", place)


def test_a_line_is_exact_inside_and_rounded_where_it_is_printed(tmp_path: Path) -> None:
    """500 g of 7 lb of 453.59237 g each, in percent, by hand: 50,000 / 3175.14659 as a fraction."""
    line, _, text = read(tmp_path, "{share: egg, of: durum}")
    assert line is not None
    assert line.target == Quantity.of(Fraction(50_000) / Fraction("3175.14659"), "%")
    assert text == "15.7 %"


def test_a_kitchen_that_reads_metric_first_gets_kilograms_first(tmp_path: Path) -> None:
    """A line that is worked out follows the setting like every other."""
    assert read(tmp_path, "{times: sheet_weight, by: 12}", "metric")[2] == "1.361 kg (3 lb)"


def test_a_line_may_stand_on_another_that_is_worked_out_further_down(tmp_path: Path) -> None:
    """The order in the file is the reader's: flour 10 lb, water 2 lb, so a fifth."""
    small_kitchen(tmp_path)
    sums = "part: {share: rest_of_it, of: flour}\n  flour: {times: rest_of_it, by: 5}\n  "
    change(tmp_path, STRUCTURE, BENCH, sums + "rest_of_it: {target: 2 lb, source: house}")
    told = '  part: "{part}."\n  flour: "{flour}."\n  rest_of_it: "{rest_of_it}."\n'
    change(tmp_path, WORDS, '  bench: "The bench is about {bench}."\n', told)
    content, problems = load_content(tmp_path)
    assert problems == ()
    assert content is not None
    assert content.techniques["rolling"].standard_text[2:] == ("20 %.", "10 lb (4.536 kg).", "2 lb (907 g).")


def test_a_line_that_is_worked_out_may_have_room_of_its_own(tmp_path: Path) -> None:
    """48 oz give or take 2 oz lets in 46 and 50 oz; whose tolerance it is stands in the place."""
    line, problems, text = read(tmp_path, "{times: sheet_weight, by: 12, give_or_take: 2 oz, source: house}")
    assert problems == ()
    assert line is not None
    assert (line.lowest, line.highest) == (Quantity.of(46, "oz"), Quantity.of(50, "oz"))
    assert text == "3 lb (1.361 kg), give or take 2 oz (57 g)"
    assert line.place == "sheet weight × 12; what it may give or take: house"


@pytest.mark.parametrize(
    ("bench", "problem", "mend"),
    [
        ("{sum: [durum, semolna]}", "bench names 'semolna', which is no line here", "Did you mean semolina?"),
        ("{sum: [durum, cup]}", "they are not the same kind", "Look at the lines it names"),
        ("{share: durum, of: cup}", "they are not the same kind", "Look at the lines it names"),
        ("{sum: [hot, cold]}", "cannot be added", "Look at the lines it names"),
        ("{times: hot, by: 2}", "a temperature is a place", "Look at the lines it names"),
        ("{times: durum, by: semolina}", "multiply by a count or a share", "Look at the lines it names"),
        ("{sum: [durum, bench]}", "A circle: bench from bench", "Type the number of one"),
        ("{sum: [durum, rest]}", "bench needs one number, and rest runs from", "Give rest a target"),
        ("{sum: [durum, semolina], in: bucket}", "'bucket' is no unit", "Name one the sum can be told in"),
        ("{sum: [durum, semolina], in: cup}", "cup", "Look at the lines it names"),
        ("{sum: [durum]}", "does not name two lines or more", "[durum, water]"),
        ("{sum: {a: b}}", "does not name two lines or more", "[durum, water]"),
        ("{take: durum}", "bench has no from", "Add `from"),
        ("{take: durum, from: semolina}", "(semolina - durum) comes to -4 lb", "Turn it around"),
        ("{take: durum, from: durum}", "(durum - durum) comes to 0 lb", "Turn it around"),
        ("{times: durum, by: 0}", "by of bench is '0'", "a number above nothing"),
        ("{times: durum, by: [12]}", "by of bench is a list, which does not name a line", "[durum, water]"),
        ("{mix: [{food: yolks, amount: yolk, at: fridge}]}", "mixes fewer than two things", "Name two parts"),
        ("{mix: [{food: yolks, amount: yolk, at: ladle}, {food: milk, amount: egg, at: hot}]}", "not the same", "Look"),
        ("{mix: [{food: yolk, amount: yolk, at: hot}, {food: milk, amount: egg, at: hot}]}", "'yolk'", "mean yolks?"),
        ("{mix: [{food: yolks, amount: yolk, at: hat}, {food: milk, amount: egg, at: hot}]}", "no line here", "hot?"),
        ("{sum: [durum, water], target: 9 lb}", "target is not a key of bench", ""),
        ("{sum: [durum, water], source: house}", "source is not a key of bench", ""),
        ("{sum: [durum, water], give_or_take: 1 oz}", "the give_or_take names no source", "Add `source:`"),
        ("{sum: [durum, water], give_or_take: 1 mL, source: house}", "they are not the same kind", "one kind"),
    ],
)
def test_a_bad_sum_is_told_at_its_line_with_its_mend(tmp_path: Path, bench: str, problem: str, mend: str) -> None:
    """An unknown line, unlike units, a circle, a line with no one number, a sum that comes to nothing."""
    line, problems, _ = read(tmp_path, bench)
    told = [found for found in problems if found.file == STRUCTURE]
    assert line is None
    assert [found.line for found in told] == [20]
    assert problem in told[0].message
    assert mend in told[0].hint


def test_a_circle_through_two_lines_is_told_once_with_its_way_around(tmp_path: Path) -> None:
    """One circle is one problem, however many lines stand in it."""
    small_kitchen(tmp_path)
    change(tmp_path, STRUCTURE, BENCH, "bench: {times: rise, by: 2}\n  rise: {times: bench, by: 1/2}")
    change(tmp_path, WORDS, '  bench: "The', '  rise: "It is {rise}."\n  bench: "The')
    told = [found.message for found in load_content(tmp_path)[1] if found.file == STRUCTURE]
    assert told == ["A circle: bench from rise from bench."]


def test_a_sum_over_a_line_with_its_own_problem_stays_silent(tmp_path: Path) -> None:
    """One mistake is told once, where it stands."""
    small_kitchen(tmp_path)
    change(tmp_path, STRUCTURE, BENCH, "bench: {times: sheet_weight, by: 2}")
    change(tmp_path, STRUCTURE, "target: 4 oz", "target: four-ish")
    told = [found.message for found in load_content(tmp_path)[1] if found.file == STRUCTURE]
    assert len([problem for problem in told if "four-ish" in problem]) == 1
    assert not [problem for problem in told if "bench" in problem]


def in_recipe(folder: Path, line: str) -> tuple[str, tuple[Problem, ...]]:
    """Return the sentence of a method that names a line of the recipe's standard, and the problems."""
    kitchen_with_recipe(folder)
    change(
        folder, RECIPE, "rest: {target: 30 min, source: house}", f"rest: {{target: 30 min, source: house}}\n  {line}"
    )
    change(folder, RECIPE_WORDS, "mix: Mix it.", f'mix: "{{{line.partition(":")[0]}}}"')
    content, problems = load_content(folder)
    recipe = content.recipes.get("sheet_dough") if content else None
    return recipe.method[0] if recipe else "", problems


def test_a_recipe_works_with_the_weights_of_its_ingredients(tmp_path: Path) -> None:
    """2 lb of flour, 6 eggs that weigh 300 g: 300 / 907.18474 is 33.07 in 100 (NIST SP 811: 1 lb = 453.59237 g)."""
    assert in_recipe(tmp_path, "eggs_on_flour: {share: eggs, of: flour}") == ("33.1 %", ())


def test_a_line_of_a_recipe_may_not_be_called_like_an_ingredient(tmp_path: Path) -> None:
    """A sum over `flour` must mean one thing."""
    _, problems = in_recipe(tmp_path, "flour: {target: 2 lb, source: house}")
    assert [found.message for found in problems if found.file == RECIPE] == ["flour is an ingredient too."]


def test_a_sum_over_an_ingredient_with_a_problem_of_its_own_stays_silent(tmp_path: Path) -> None:
    """What is wrong with the ingredient is told once, at the ingredient."""
    kitchen_with_recipe(tmp_path)
    change(tmp_path, RECIPE, "amount: 2 lb", "amount: plenty")
    change(tmp_path, RECIPE, "rest: {target: 30 min, source: house}", "rest: {sum: [flour, greens]}")
    told = [found.message for found in load_content(tmp_path)[1] if found.file == RECIPE]
    assert len(told) == 1
    assert "'plenty'" in told[0]
