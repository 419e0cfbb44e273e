"""A recipe worked out for tonight, and the sheet to print."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from tests.web.bench.looking import asked, cells
from tests.web.hands import Hands


def test_a_card_for_100_is_worked_out_for_348(ana: Hands) -> None:
    """1 lb 4 oz x 3.48 prints 4 lb 5 1/2 oz (Armed Forces Recipe Service, General Information No. 1): 1.973 kg."""
    page = asked(ana, "batch/card", portions="348")
    assert "348 portions" in page.work
    assert "Recipe times 3.48" in page.work
    assert cells(page, "What to weigh out") == [["Onions", "4 lb 5 1/2 oz 1.973 kg"]]


def test_what_is_trimmed_is_on_the_list_to_buy(ana: Hands) -> None:
    """4.35 lb at 80 percent is 5.4375 lb, 5 lb 7 oz, 2.466 kg: worked by hand."""
    page = asked(ana, "batch/card", portions="348")
    assert cells(page, "What to buy") == [["Onions before trimming", "5 lb 7 oz 2.466 kg"]]


def test_a_dough_shows_percentages_hydration_and_allergens(ana: Hands) -> None:
    """Durum 70, semolina 30, water 20 of the flour; (907.18 + 380) / 4535.92 = 28.4: worked by hand."""
    page = asked(ana, "batch/dough", portions="20")
    rows = {row[0].split()[0]: row[-1] for row in cells(page, "What to weigh out")}
    assert rows == {"Durum": "70", "Semolina": "30", "Eggs": "11", "Water": "20"}
    assert "28.4 water to 100 flour" in page.work
    assert "Allergens: wheat, egg." in page.work
    assert "from 8 eggs" in page.work


def test_a_volume_is_rounded_to_what_a_jug_shows(ana: Hands) -> None:
    """3 gal x 10 / 11.346 is 42.3 cups, to the nearest cup 42: 10 1/2 qt. What keeps a ratio is rounded no coarser.

    Menu and Recipe Manual for Early Childhood Institutions, Appendix 7, page 306.
    """
    page = asked(ana, "batch/water", portions="10")
    water, salt = cells(page, "What to weigh out")
    assert water[0] == "Water about 10 1/2 qt (10.01 L)"
    assert "tsp" in salt[0]
    assert page.soup.select_one("[aria-label='What to buy']") is None


def test_guests_make_portions(ana: Hands) -> None:
    """64 guests of whom 45 in 100 take it: 28.8, so 29 portions."""
    page = asked(ana, "batch/dough", guests="64", share="45")
    assert "29 portions" in page.work
    assert "For 64 guests, of whom 45 in 100 take it." in page.work
    assert "For 30 guests, one portion each." in asked(ana, "batch/dough", guests="30").work


def test_a_recipe_opens_as_it_is_written(ana: Hands) -> None:
    """13.1 lb of dough make 26 full half pounds, rounded down; every amount stays as the card has it."""
    page = ana.open("/bench/batch/dough")
    assert "26 portions, as the recipe is written" in page.work
    assert "Recipe times 1 " in page.work
    assert [row[1] for row in cells(page, "What to weigh out")][:2] == ["7 lb 3.175 kg", "3 lb 1.361 kg"]
    assert "from 10 eggs" in page.work


def test_the_sheet_has_a_box_to_tick_for_each_ingredient(ana: Hands) -> None:
    """On paper each line has a box, and there is room for a day and two names."""
    page = asked(ana, "batch/dough", portions="20")
    assert len(page.soup.select(".tickbox")) == 4 + 1
    assert "Made by" in page.work
    assert page.soup.select("[data-print]")


def test_cautions_stand_above_what_is_weighed(ana: Hands) -> None:
    """Heat, machines, allergens: before the amounts."""
    work = asked(ana, "batch/dough", portions="20").work
    assert work.index("The pot is hot") < work.index("Weigh out")
    assert work.index("Allergens:") < work.index("Weigh out")
    assert "local code" in work


BAD_BATCHES: dict[str, tuple[Mapping[str, str], str, str]] = {
    "words": ({"portions": "lots"}, "Portions", "“lots” is not a whole number"),
    "a part": ({"portions": "2.5"}, "Portions", "“2.5” is not a whole number"),
    "none": ({"portions": "0"}, "Portions", "0 portions is no batch: from 1 to 20000."),
    "a town": ({"portions": "20001"}, "Portions", "20001 portions is no batch"),
    "below none": ({"guests": "-3"}, "Or guests tonight", "“-3” is not a whole number"),
    "no guests": ({"guests": "0"}, "Or guests tonight", "0 guests need no batch"),
    "both": ({"portions": "40", "guests": "64"}, "Or guests tonight", "40 portions and 64 guests were typed"),
    "more than all": ({"guests": "64", "share": "120"}, "Of 100 guests, how many take it", "“120” in a hundred"),
    "other figures": ({"portions": "４０"}, "Portions", "is not a whole number"),
    "too long": ({"portions": "1" * 30}, "Portions", "20"),
}


@pytest.mark.parametrize(("typed", "label", "says"), BAD_BATCHES.values(), ids=BAD_BATCHES)
def test_a_wrong_number_is_told_and_kept(ana: Hands, typed: Mapping[str, str], label: str, says: str) -> None:
    """The message names value and rule, on top and at the field; all that was typed stays; nothing is worked out."""
    page = asked(ana, "batch/dough", **typed)
    assert page.status == 400
    assert any(says in problem for problem in page.problems)
    assert page.title.startswith("Error: ")
    assert page.field(label)["aria-invalid"] == "true"
    kept = {str(field["name"]): str(field.get("value", "")) for field in page.soup.select(".ask input")}
    assert typed.items() <= kept.items()
    assert "Weigh out" not in page.work


def test_an_unknown_recipe_is_a_plain_page(ana: Hands) -> None:
    """An address that names no recipe says so."""
    page = ana.open("/bench/batch/stew")
    assert page.status == 404
    assert "There is no recipe 'stew'" in page.work


def test_a_pot_is_filled_again_and_its_amounts_stay(ana: Hands) -> None:
    """Six nests at once, seven batches a fill: 43 portions are two fills of 3 gal, never 46 gal. By hand."""
    page = asked(ana, "batch/pot", portions="43")
    assert "Fill the pot 2 times" in page.work
    assert "Goes in at one time 6 nests; tonight 8 batches" in page.work
    assert "One fill lasts 7 batches" in page.work
    assert "Recipe times" not in page.work
    assert "One portion" not in page.work
    assert cells(page, "What to weigh out")[0][0] == "Water about 3 gal (11.36 L)"
    assert "Fill the pot 1 time" in asked(ana, "batch/pot", portions="42").work


def test_what_is_sold_in_cartons_is_bought_whole(ana: Hands) -> None:
    """4.35 lb in cartons of 2 lb: three, and 1.65 lb over, 1 lb 10 1/2 oz. By hand."""
    page = asked(ana, "batch/carton", portions="348")
    ((name, amount),) = cells(page, "What to buy")
    assert name == "Onions"
    assert amount.startswith("3 cartons of 2 lb (907 g); 1 lb 10 1/2 oz")
    assert amount.endswith("left over")


def test_a_seasoning_is_begun_with_three_quarters(ana: Hands) -> None:
    """An ounce of salt in all: 3/4 of it first, then taste (common practice)."""
    page = asked(ana, "batch/seasoned", portions="10")
    salt = cells(page, "What to weigh out")[1]
    assert salt == ["Salt begin with 3/4 oz (21 g), taste, and write down what it took", "1 oz 28 g"]
    night = asked(ana, "tonight", seasoned="10")
    assert ["Salt to begin with; taste, then up to 1 oz (28 g)", "3/4 oz 21 g"] in cells(night, "Weigh out: Seasoned")
