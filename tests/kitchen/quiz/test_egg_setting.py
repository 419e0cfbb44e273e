"""Whether egg has begun to set, and how many ladles before it may: no key is a set egg that is not called so."""

from __future__ import annotations

from collections import Counter

from tests.kitchen.quiz.asking import draw_question
from tests.kitchen.quiz.worked_by_hand import pieces

LEAST = {"yolks": 2.81, "eggs": 3.2}
"""kJ/(kg K): Geankoplis, App. A.4-1 (from memory), and Earle, App. 7: the least of any table, so the warmest mix."""
MOST = {"milk": 3.9, "cream": 3.27}
"""The most: Earle, App. 7, and Geankoplis, App. A.4-1 (from memory); of anything else water, 4.185 (the same)."""
THICKENS = {"yolks": 65, "eggs": 63}
"""Celsius: McGee, On Food and Cooking (2004), ch. 2."""


def warmest(text: str, grams: int) -> tuple[float, str]:
    """Return how warm egg gets at most with so much liquid, by any table, and which egg it is."""
    liquid, hot, egg, kind, cold = pieces(r"(\w+) at (\d+) °C into (\d+) g of (?:beaten )?(\w+) at (\d+) °C", text)
    parts = grams * MOST.get(liquid, 4.185), int(egg) * LEAST[kind]
    return (parts[0] * int(hot) + parts[1] * int(cold)) / sum(parts), kind


def test_no_number_of_ladles_that_is_right_sets_the_egg_by_any_table() -> None:
    """Even egg that holds the least heat published stays below where it thickens."""
    for seed in range(300):
        question = draw_question("tempering_ladles", seed)
        (ladle,) = pieces(r"One ladle holds (\d+) g", question.text)
        celsius, kind = warmest(question.text, int(question.answer.value) * int(ladle))
        assert celsius < THICKENS[kind] + 0.5, question.text


def test_a_mix_that_may_thicken_by_another_table_says_so() -> None:
    """The solution names the warmer figure; else it says that the egg stays smooth."""
    warned = 0
    for seed in range(500):
        question = draw_question("tempering_mix", seed)
        (grams,) = pieces(r"whisk (\d+) g", question.text)
        celsius, kind = warmest(question.text, int(grams))
        said = "Take care: tables differ" in " ".join(question.solution)
        warned += said
        assert said or celsius < THICKENS[kind] + 0.5
        assert said is not ("stays smooth" in " ".join(question.solution))
    assert warned > 0


def test_each_way_egg_can_stand_is_asked_about_as_often() -> None:
    """Smooth, begun to thicken, set: about a third each."""
    right = Counter(
        choice.text for seed in range(300) for choice in draw_question("egg_state", seed).choices if choice.is_right
    )
    assert set(right) == {"It is still smooth", "It has begun to thicken", "It has set"}
    assert min(right.values()) > 60


def test_no_mix_lies_so_near_a_limit_that_the_table_of_heat_decides() -> None:
    """By the least heat published the state is the same."""
    sets = {"yolks": 70, "eggs": 73}
    for seed in range(300):
        question = draw_question("egg_state", seed)
        (grams,) = pieces(r"whisk (\d+) g", question.text)
        celsius, kind = warmest(question.text, int(grams))
        state = "set" if celsius >= sets[kind] + 1 else "thicken" if celsius >= THICKENS[kind] + 1 else "smooth"
        (right,) = (choice.text for choice in question.choices if choice.is_right)
        assert state in right, question.text
