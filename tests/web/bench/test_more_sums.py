"""Another pan, cups and grams, dough, heat and hold: what is worked out, and what is refused."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from tests.web.bench.looking import asked, cells
from tests.web.hands import Hands


def test_a_recipe_goes_into_another_pan(ana: Hands) -> None:
    """9 x 13 in into two half steam-table pans: 240 / 117 = 2.05, by hand; beyond twice, herbs are held back."""
    page = asked(
        ana,
        "pans",
        old="straight",
        old_length="13 in",
        old_width="9 in",
        new="1/2",
        pans="2",
        new_length="",
        new_width="",
    )
    assert "Multiply every ingredient by 2.05" in page.work
    assert "stands 0.49 times as deep" in page.work
    assert "check early" in page.work
    assert "2 times the herbs" in page.work


def test_a_square_pan_needs_one_side(ana: Hands) -> None:
    """A 9 in round and an 8 in square hold the same batch (common practice): 1.01, and nothing is warned of."""
    page = asked(ana, "pans", old="round", old_length="9", new="straight", new_length="8")
    assert "Multiply every ingredient by 1.01" in page.work
    assert "check early" not in page.work


BAD_PANS: dict[str, tuple[Mapping[str, str], str]] = {
    "no side": ({"old": "round", "new": "full"}, "needs its length"),
    "a weight": ({"old": "round", "old_length": "2 lb", "new": "full"}, "is not a length"),
    "no pans": ({"old": "full", "new": "1/2", "pans": "0"}, "write 1 or more"),
    "no shape": ({"old": "star", "new": "full"}, "choose one from the list"),
}


@pytest.mark.parametrize(("typed", "says"), BAD_PANS.values(), ids=BAD_PANS)
def test_what_is_no_pan_is_told(ana: Hands, typed: Mapping[str, str], says: str) -> None:
    """The value and the rule; nothing is worked out."""
    page = asked(ana, "pans", **typed)
    assert any(says in problem for problem in page.problems), page.problems
    assert "Multiply" not in page.work


def test_a_cup_of_flour_is_told_with_how_far_it_may_be_off(ana: Hands) -> None:
    """USDA SR26: 125 g a cup; a powder is off by 10 in a hundred (from memory): 112.5 to 137.5 g, 4 to 4 3/4 oz."""
    page = asked(ana, "measures", food="flour", amount="1 cup")
    assert "125 g" in page.work
    assert "From 4 oz to 4 3/4 oz" in page.work
    back = asked(ana, "measures", food="sugar", amount="200 g")
    assert "1 cup" in back.work
    assert any(
        "“5 F” is not a volume" in problem for problem in asked(ana, "measures", food="salt", amount="5 F").problems
    )


def test_the_dough_and_its_water(ana: Hands) -> None:
    """By hand: 1 kg at 65 %, 20 % early at 100 %: 200 and 200 g, then 800 and 450 g; water at 60 °F."""
    page = asked(
        ana, "dough", flour="1 kg", hydration="65", salt="2", early="20", early_water="100", wanted="76 F",
        flour_at="70 F", room_at="72 F", friction="26 F",
    )  # fmt: skip
    assert "200 g" in cells(page, "Preferment, the day before")[0][-1] + cells(page, "Preferment, the day before")[0][1]
    assert any("450 g" in " ".join(row) for row in cells(page, "Dough"))
    assert "60 °F" in page.work
    assert "1.67 kg" in page.work


def test_a_dough_that_cannot_be_is_told(ana: Hands) -> None:
    """Too much egg, and water that would be ice."""
    wet = asked(ana, "dough", flour="1 kg", hydration="30", egg="450 g")
    assert any("more than a dough at 30 % takes" in problem for problem in wet.problems)
    cold = asked(
        ana, "dough", flour="1 kg", hydration="65", wanted="60 F", flour_at="90 F", room_at="90 F", friction="30"
    )
    assert any("chill or warm the flour" in problem for problem in cold.problems)


def test_the_tables_of_heat_and_hold_are_looked_up(ana: Hands) -> None:
    """FDA Food Code 2022, section 3-401.11: ground meat at 152 °F by the row of 150 °F: 1 min; the code decides."""
    page = asked(ana, "holds", meat="ground", temperature="152 F")
    assert "1 min" in page.work
    assert "By the row of 150 °F (66 °C)" in page.work
    assert "decides" in page.work
    assert ["165 °F (74 °C)", "at once"] in cells(page, "Poultry, and what is stuffed")
    assert "from memory" in asked(ana, "holds", meat="poultry in plants", temperature="150 F").work
    cold = asked(ana, "holds", meat="poultry", temperature="150 F")
    assert any("the table begins at 165 °F" in problem for problem in cold.problems)


def test_a_reduction_says_how_salty_it_ends_and_how_long_it_takes(ana: Hands) -> None:
    """4 kg at 2 g a kilogram to 1 kg: 8 g a kilogram, 0.8 in 100; 3 kg of water at 2 kW, 56 min. By hand."""
    page = asked(ana, "reduction", before="4 kg", after="1 kg", salt="0.2", wanted="1")
    assert "It ends with 0.8 g of salt in 100." in page.work
    assert "Weigh in last, and taste: 0.07 oz (2 g) of salt." in page.work
    assert "at least 56 min" in page.work


@pytest.mark.parametrize(
    ("wanted", "says"), [("0.8", "No more salt goes in."), ("0.5", "That is more salt than wanted"), ("", "kW of heat")]
)
def test_a_reduction_says_when_no_salt_is_wanted(ana: Hands, wanted: str, says: str) -> None:
    """Nothing, too much already, and not asked."""
    page = asked(ana, "reduction", before="4 kg", after="1 kg", salt="0.2", wanted=wanted)
    assert says in page.work
    assert "Weigh in last, and" not in page.work


def test_what_is_no_reduction_is_told(ana: Hands) -> None:
    """The value and the rule; nothing is worked out."""
    page = asked(ana, "reduction", before="1 kg", after="4 kg")
    assert any("4 kg is no reduction of 1 kg: it must be less" in problem for problem in page.problems), page.problems
