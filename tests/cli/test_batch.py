"""Recipes for tonight at the command line, with what comes with the program and no kitchen made."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.test_bench import record_of, run


def test_a_dough_is_worked_out_by_weight(tmp_path: Path) -> None:
    """40 portions of 6.5 oz less 2 %: 260 / 0.98 = 265.306 oz, 7521.3 g; durum 70 in 100 of the flour. By hand."""
    record = record_of(run(tmp_path, "batch", "durum_dough", "--portions", "40", "--json"))
    assert float(record["grams"]) == pytest.approx(7521.3, abs=0.1)
    by_id = {line["id"]: line for line in record["ingredients"]}
    assert by_id["durum"]["flour_percent"] == "70"
    assert by_id["eggs"]["buy"] == {"amount": "13", "unit": "egg"}
    assert record["allergens"] == ["wheat", "gluten_cereals", "egg"]
    assert sum(float(line["grams"]) for line in record["ingredients"]) == pytest.approx(
        float(record["grams"]), abs=0.01
    )


def test_a_batch_is_printed_with_its_cautions_and_allergens(tmp_path: Path) -> None:
    """A person reads weights both ways, what to buy, allergens and cautions."""
    result = run(tmp_path, "batch", "durum_dough", "--portions", "40")
    assert result.exit_code == 0
    assert "Durum flour" in result.output
    assert "buy 13 eggs" in result.output
    assert "allergens: Wheat" in result.output
    assert "caution: Keep hands out" in result.output
    assert "local code" in result.output


def test_a_recipe_without_flour_has_no_percentages(tmp_path: Path) -> None:
    """A sauce is not counted by flour."""
    result = run(tmp_path, "batch", "rendered_pork", "--portions", "20")
    assert "hydration" not in result.output
    assert record_of(run(tmp_path, "batch", "rendered_pork", "--portions", "20", "--json"))["hydration_percent"] is None


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (("durum_doug", "--portions", "40"), "Did you mean 'durum_dough'?"),
        (("stew", "--portions", "40"), "There are: breaded_fish, custard_base"),
        (("durum_dough", "--portions", "0"), "0 portions is no batch"),
        (("durum_dough", "--portions", "many"), "many"),
        (("durum_dough",), "--portions"),
    ],
)
def test_wrong_use_of_batch_says_why(tmp_path: Path, args: tuple[str, ...], says: str) -> None:
    """Exit code 2, with the value and what would do."""
    result = run(tmp_path, "batch", *args)
    assert result.exit_code == 2
    assert says in result.output


def test_several_recipes_have_one_order(tmp_path: Path) -> None:
    """40 plates take 2 lb 4 1/4 oz of yolk: two cartons of 2 lb, 1 lb 11 3/4 oz (786 g) over; 62.5 oz of base. By hand.

    62.5 oz × 408 g / 702.84 g of a batch = 36.28 oz, 1,028.57 g; 1,814.37 - 1,028.57 = 785.8 g.
    """
    record = record_of(run(tmp_path, "batch", "yolk_pasta=40", "pastry_custard=25", "--json"))
    order = {row["ingredient"]: row for row in record["order"]}
    assert order["pasteurized_yolk"]["packs"] == [{"unit": "carton", "number": 2}]
    assert (order["pasteurized_yolk"]["amount"], order["pasteurized_yolk"]["unit"]) == ("1030", "g")
    assert float(order["pasteurized_yolk"]["over"]) == pytest.approx(785.8, abs=0.1)
    assert all(float(row["amount"]) > 0 for row in record["order"])
    assert "water" not in order
    assert order["shell_egg"]["unit"] == "egg"


def test_the_record_says_allergens_and_the_way_they_came(tmp_path: Path) -> None:
    """Union over the parts; celery came in with the pork. Sulphites are under the line of EU law, and wine is told."""
    record = record_of(run(tmp_path, "batch", "yolk_pasta", "--portions", "40", "--json"))
    assert sorted(record["allergens"]) == ["celery", "egg", "gluten_cereals", "milk", "wheat"]
    (dish,) = record["dishes"]
    came = {each["what"]: each["chains"] for each in dish["came"]}
    assert came["celery"] == [["Rendered cured pork", "Celery, small dice"]]
    assert dish["sulphites"]["named"] is False
    assert dish["sulphites"]["made_with"] == ["Dry white wine"]
    assert dish["raw"] == []


def test_a_night_is_printed_with_what_to_begin_first(tmp_path: Path) -> None:
    """First the pork, eight hours before; the order with packs; nothing by the spoon; each dish's allergens."""
    output = run(tmp_path, "batch", "yolk_pasta=40", "pastry_custard=25").output
    lines = output.splitlines()
    begun = [line for line in lines if line.startswith("begin ")]
    assert begun[0].startswith("begin 8 h before: Rendered cured pork")
    assert "2 cartons of 2 lb (907 g): Pasteurized yolk, 1 lb 11 3/4 oz (786 g) over" in output
    order = lines[lines.index("To buy") + 1 :]
    assert not [line for line in order if "tsp" in line or "Tbsp" in line or line.strip().startswith("0 ")]
    assert "Celery: Rendered cured pork < Celery, small dice" in output
    assert "made with: Dry white wine" in output


def test_raw_egg_is_told_with_its_words_for_the_menu(tmp_path: Path) -> None:
    """A raw dough, asked for by itself, says that it is raw."""
    output = run(tmp_path, "batch", "durum_dough=40").output
    assert "raw egg: Whole eggs" in output
    assert "not for guests at high risk" in output


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (("yolk_pasta=many",), "'many' is no number of portions"),
        (("yolk_pasta=0",), "0 portions is no batch"),
        (("yolk_pasta=40", "durum_dough"), "How many portions of durum_dough?"),
        (("yolk_past=40",), "Did you mean 'yolk_pasta'?"),
    ],
)
def test_wrong_use_of_several_says_why(tmp_path: Path, args: tuple[str, ...], says: str) -> None:
    """Exit code 2, with the value and what would do."""
    result = run(tmp_path, "batch", *args)
    assert result.exit_code == 2
    assert says in result.output
