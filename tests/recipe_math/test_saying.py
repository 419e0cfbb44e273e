"""A saying is its English to whoever reads it, and its pattern and values to whoever tells it in another language."""

from __future__ import annotations

import copy
import json
from fractions import Fraction

from trainer.recipe_math.saying import joined, say, say_many


def test_a_saying_is_a_text() -> None:
    """It equals, hashes and is kept as the English it reads."""
    line = say("{food}: {weight} to buy", food="onions", weight="4 lb")
    assert line == "onions: 4 lb to buy"
    assert line in {"onions: 4 lb to buy"}
    assert json.dumps([line]) == '["onions: 4 lb to buy"]'
    assert (line.pattern, dict(line.values)) == ("{food}: {weight} to buy", {"food": "onions", "weight": "4 lb"})


def test_a_count_chooses_the_words() -> None:
    """One is told apart from every other number, and an exact fraction counts as well."""
    assert say_many("{number} step", "{number} steps", 1) == "1 step"
    assert say_many("{number} step", "{number} steps", 0) == "0 steps"
    assert say_many("{number} portion of {food}", "{number} portions of {food}", Fraction(3), food="soup") == (
        "3 portions of soup"
    )


def test_braces_in_a_text_without_values_stay() -> None:
    """A text with nothing to fill in is taken as it is written."""
    assert say("Write {name_of_the_line}.") == "Write {name_of_the_line}."


def test_an_error_gives_its_saying_back_whole() -> None:
    """A problem raised with a saying can still be told in another language."""
    assert str(ValueError(say("{text} is no number.", text="x"))).pattern == "{text} is no number."  # type: ignore[attr-defined]


def test_texts_joined_can_still_be_told_apart() -> None:
    """What is joined keeps its parts, a brace in between included."""
    line = joined([say("Milk"), say("Egg")], " {&} ")
    assert line == "Milk {&} Egg"
    assert [part.pattern for part in line.values.values()] == ["Milk", "Egg"]


def test_a_record_that_holds_a_saying_can_be_copied() -> None:
    """`dataclasses.asdict` copies what it finds; a saying without values in it is copied as itself."""
    saying = say("Nothing is missing.")
    assert copy.deepcopy({"text": saying})["text"] is saying
