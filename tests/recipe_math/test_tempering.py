"""Hot liquid goes into egg ladle by ladle, and the egg stays below its setting band."""

from __future__ import annotations

import pytest

from tests.printed import all_english, english
from trainer.recipe_math.heat import Part
from trainer.recipe_math.quantity import QuantityProblem
from trainer.recipe_math.tempering import (
    WHITE,
    YOLK,
    HeatSpread,
    Pour,
    SettingBand,
    egg_state,
    most_ladles,
    tempered,
)


def yolk(grams: float = 120, celsius: float = 5) -> Part:
    """The yolk of the worked example: 3.1169 kJ/(kg K)."""
    return Part(grams, celsius, (3.1169, 0.0, 0.0))


def water(grams: float, celsius: float = 95) -> Part:
    """The water of the worked example: 4.19 kJ/(kg K)."""
    return Part(grams, celsius, (4.19, 0.0, 0.0))


def test_two_ladles_of_pasta_water_warm_the_yolk() -> None:
    """Energy balance worked out apart from this program: 60 g of water give 41.18 °C, 120 g give 56.61 °C."""
    done = tempered(yolk(), water(500), Pour(ladle_grams=60, until_celsius=55), YOLK)
    assert [ladle.number for ladle in done.ladles] == [1, 2]
    assert [ladle.base_celsius for ladle in done.ladles] == pytest.approx([41.18, 56.61], abs=0.006)
    assert done.reached
    assert done.base_celsius == done.ladles[-1].base_celsius


def test_a_ladle_that_would_set_the_yolk_stays_out() -> None:
    """By the same balance 1 kg of water at 90 °C on 250 g of yolk at 20 °C gives 79.02 °C: past 65 °C, so it stays out.

    McGee, On Food and Cooking (2004), ch. 2: yolk thickens from 65 °C.
    """
    done = tempered(yolk(250, 20), water(1000, 90), Pour(ladle_grams=1000, until_celsius=60), YOLK)
    assert done.ladles == ()
    assert (done.base_celsius, done.reached) == (20, False)
    assert "79 °C (174.2 °F)" in english(done.reason)
    assert "smaller ladles" in english(done.reason)


def test_the_band_begins_on_its_first_degree() -> None:
    """By hand: as much at 90 °C as at 40 °C, alike in heat, comes to 65 °C, where yolk thickens: it stays out."""
    alike = Part(100, 40, (4.0, 0.0, 0.0)), Part(100, 90, (4.0, 0.0, 0.0))
    assert tempered(*alike, Pour(ladle_grams=100, until_celsius=60), YOLK).ladles == ()


def test_the_margin_is_kept_below_the_band() -> None:
    """A second ladle to 56.61 °C is fine below 65 °C, not 10 °C below it."""
    pour = Pour(ladle_grams=60, until_celsius=55, margin_celsius=10)
    done = tempered(yolk(), water(500), pour, YOLK)
    assert [round(ladle.base_celsius, 2) for ladle in done.ladles] == [41.18]
    assert not done.reached
    assert "stay below 55 °C" in english(done.reason)


def test_liquid_that_is_used_up_leaves_the_base_where_it_is() -> None:
    """60 g in ladles of 40 and 20 end at 41.18 °C whichever way they are poured, short of 55 °C."""
    done = tempered(yolk(), water(60), Pour(ladle_grams=40, until_celsius=55), YOLK)
    assert [ladle.grams for ladle in done.ladles] == [40, 20]
    assert done.base_celsius == pytest.approx(41.18, abs=0.006)
    assert not done.reached
    assert "used up" in english(done.reason)


def test_a_base_that_is_warm_needs_no_ladle() -> None:
    """Nothing is poured into what is warm enough already."""
    done = tempered(yolk(celsius=56), water(60), Pour(ladle_grams=40, until_celsius=55), YOLK)
    assert (done.ladles, done.reached) == ((), True)


def test_it_says_what_it_does_not_know() -> None:
    """Where the ladle lands it is hotter than the mixture, and no word says the egg is safe."""
    done = tempered(yolk(), water(500), Pour(ladle_grams=60, until_celsius=55), YOLK)
    assert any("where the ladle lands" in english(unknown) for unknown in done.not_known)
    assert "safe" not in " ".join(all_english([done.reason, *done.not_known]))


def test_the_bands_are_those_of_the_text() -> None:
    """McGee, On Food and Cooking (2004), ch. 2: yolk thickens at 65 and sets at 70 °C; white at 63 and 65 °C."""
    assert (YOLK.thickens_celsius, YOLK.sets_celsius) == (65, 70)
    assert (WHITE.thickens_celsius, WHITE.sets_celsius) == (63, 65)


def test_what_cannot_be_poured_is_refused_and_named() -> None:
    """A base in the band, an empty ladle, a margin below zero, a band upside down, more ladles than anybody pours."""
    with pytest.raises(QuantityProblem, match=r"The base is at 65 °C \(149 °F\)"):
        tempered(yolk(celsius=65), water(60), Pour(ladle_grams=40, until_celsius=70), YOLK)
    with pytest.raises(QuantityProblem, match="more than 100 ladles"):
        tempered(yolk(), water(1000), Pour(ladle_grams=1, until_celsius=55), YOLK)
    with pytest.raises(QuantityProblem, match="0 is not a ladle"):
        Pour(ladle_grams=0, until_celsius=55)
    with pytest.raises(QuantityProblem, match="A margin of -1"):
        Pour(ladle_grams=1, until_celsius=55, margin_celsius=-1)
    with pytest.raises(QuantityProblem, match="Egg cannot set at 60"):
        SettingBand(65, 60, "nobody")


@pytest.mark.parametrize(
    ("celsius", "at_most", "state"),
    [
        (64.9, 64.9, "smooth"),
        (62, 65, "may thicken"),
        (65, 67, "thickens"),
        (69, 69.9, "thickens"),
        (69, 70, "may be set"),
        (70, 72, "set"),
    ],
)
def test_whether_egg_has_begun_to_set(celsius: float, at_most: float, state: str) -> None:
    """Yolk begins to thicken at 65 °C and has set at 70 °C (McGee, On Food and Cooking, 2004, ch. 2)."""
    assert egg_state(celsius, at_most, YOLK) == state


def test_a_most_below_the_temperature_is_refused() -> None:
    """Bounds run upward; a spread too."""
    with pytest.raises(QuantityProblem, match="is less than"):
        egg_state(60, 59, YOLK)
    with pytest.raises(QuantityProblem, match="of their curves"):
        HeatSpread(egg_least=1.1)


def test_how_many_ladles_before_the_egg_may_set() -> None:
    """By hand, 4.19 and 3.1169: three ladles of 60 g bring 120 g of yolk to 65.2 °C, so two; of 30 g, five (60.8)."""
    assert most_ladles(yolk(), water(500), Pour(60, until_celsius=40), YOLK) == 2
    assert most_ladles(yolk(), water(500), Pour(30, until_celsius=40), YOLK) == 5
    assert most_ladles(yolk(), water(90), Pour(60, until_celsius=40), YOLK) is None


def test_egg_that_may_hold_less_heat_takes_fewer_ladles() -> None:
    """At 0.9 of 3.1169 kJ/(kg K) two ladles come to 58.9 °C, by hand: with 7 °C of margin the second stays out."""
    spread = HeatSpread(egg_least=0.9)
    pour = Pour(60, until_celsius=57, margin_celsius=7)
    assert len(tempered(yolk(), water(500), pour, YOLK).ladles) == 2
    done = tempered(yolk(), water(500), Pour(60, 57, 7, spread), YOLK)
    assert len(done.ladles) == 1
    assert done.ladles[0].at_most_celsius == pytest.approx(25566.1 / 588.03, abs=0.01)
