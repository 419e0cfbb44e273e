"""Tempering egg: ladle by ladle, with the band drawn and the local code beside it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Literal

import pytest

from tests.web.bench.looking import asked, cells, plot_told
from tests.web.hands import Hands
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.own_language import keep_own_language

TEMPERING = {
    "base": "yolks",
    "amount": "120 g",
    "temperature": "5 C",
    "liquid": "water",
    "hot": "95 C",
    "pot": "240 g",
    "ladle": "60 g",
    "until": "55 C",
}


def test_tempering_opens_with_an_example(ana: Hands) -> None:
    """Something to play with at once, said to be an example, with its caution above."""
    page = ana.open("/bench/tempering")
    assert "An example." in page.work
    assert page.work.index("Raw egg") < page.work.index("Egg base")
    plot_told(page)


def test_a_bare_number_is_in_the_kitchens_unit_whoever_reads(ana: Hands, kitchen: Kitchen) -> None:
    """An address sent on means the same to all, so the page says which unit that is; the example has its own."""
    keep_own_language(kitchen, person="ana", language="en", units="metric")
    page = ana.open("/bench/tempering")
    assert "A bare number is °F, or oz." in page.work
    assert page.field("Weight of the base")["value"] == "120 g"
    bare = {"amount": "4.5", "temperature": "41", "hot": "203", "ladle": "2", "pot": "8", "until": "125"}
    written = {
        "amount": "4.5 oz",
        "temperature": "41 F",
        "hot": "203 F",
        "ladle": "2 oz",
        "pot": "8 oz",
        "until": "125 F",
    }
    answers = [
        asked(ana, "tempering", **{**TEMPERING, **typed}).soup.select_one(".outcome") for typed in (bare, written)
    ]
    assert str(answers[0]) == str(answers[1])


def test_two_ladles_warm_the_yolks_as_by_hand(ana: Hands) -> None:
    """Yolk 3.05 (ASHRAE, from memory) and water 4.18 kJ/(kg K): 107 °F after one ladle, 135 after two."""
    page = asked(ana, "tempering", **TEMPERING)
    ladles = cells(page, "Ladle by ladle")
    assert [row[0] for row in ladles] == ["1", "2"]
    shown = [int(row[2].split()[0]) for row in ladles]
    assert shown == pytest.approx([107, 135], abs=2)
    assert "An example." not in page.work


def test_the_band_of_setting_is_drawn_and_told(ana: Hands) -> None:
    """Yolk thickens at 65 °C and has set at 70 °C (McGee, On Food and Cooking, 2004, ch. 2): 149 and 158 °F."""
    page = asked(ana, "tempering", **TEMPERING)
    assert "149 °F (65 °C) and has set at 158 °F (70 °C)" in page.work
    assert "sets here" in plot_told(page)


def test_the_local_code_stands_beside_the_estimate(ana: Hands) -> None:
    """Tempering cooks nothing: what the code asks of pooled eggs stands on the page."""
    page = asked(ana, "tempering", **TEMPERING)
    assert "Pooled, or held: at or above 155 °F (68 °C)" in page.work
    assert "Your local code decides; this is an estimate." in page.work


BAD_TEMPERINGS: dict[str, tuple[Mapping[str, str], str]] = {
    "a weight that is none": ({"amount": "some"}, "“some”"),
    "nothing": ({"amount": ""}, "Weight of the base is empty. Write a weight, like 4 oz or 120 g."),
    "a weight of nothing": ({"ladle": "0 g"}, "“0 g” is nothing"),
    "a temperature by weight": ({"hot": "95 g"}, "“95 g” is not a temperature"),
    "a figure with two readings": ({"amount": "1,500 g", "hot": "1/0 C"}, "1/0"),
    "a base that is none": ({"base": "stones"}, "Egg base: choose one from the list."),
    "liquid too cold": ({"hot": "4 C"}, "no hotter than the base"),
    "a base that has set": ({"temperature": "66 C", "until": "80 C"}, "egg thickens"),
    "warm enough": ({"until": "5 C"}, "already"),
    "beyond the curves": ({"hot": "200 C"}, "150"),
    "colder than cold": ({"temperature": "-400 C"}, "-400 C"),
    "not a number": ({"amount": "NaN"}, "NaN"),
    "a thimble": ({"ladle": "0.01 g"}, "ladles"),
}


STOPS = {
    "set": {"ladle": "240 g", "pot": "240 g", "until": "60 C"},
    "used up": {"pot": "30 g", "until": "60 C"},
    "has set": {"temperature": "66 C", "until": "80 C"},
    "beyond the curves": {"hot": "200 C"},
    "a thimble": {"ladle": "0.01 g"},
}


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("changed", STOPS.values(), ids=STOPS)
def test_every_reason_gives_the_kitchens_own_units_first(
    ana: Hands, kitchen: Kitchen, units: Literal["us", "metric"], changed: Mapping[str, str]
) -> None:
    """Why the ladles stop, or why nothing can be worked out, stands as this kitchen reads."""
    kitchen.file.change_settings(replace(kitchen.file.settings, units_first=units))
    page = asked(ana, "tempering", **{**TEMPERING, **changed})
    words = " ".join([page.work, *page.problems])
    us_first, metric_first = r"[\d./]+\s(?:°F|oz) \(", r"[\d.]+\s(?:°C|g|kg) \("
    pairs = {"us": (us_first, metric_first), "metric": (metric_first, us_first)}
    own, other = pairs[units]
    assert re.search(own, words)
    assert not re.search(other, words)


@pytest.mark.parametrize(("changed", "says"), BAD_TEMPERINGS.values(), ids=BAD_TEMPERINGS)
def test_a_wrong_amount_is_told_and_all_is_kept(ana: Hands, changed: Mapping[str, str], says: str) -> None:
    """One bad field keeps all the others as typed."""
    typed = {**TEMPERING, **changed}
    page = asked(ana, "tempering", **typed)
    assert page.status == 400
    assert any(says in problem for problem in page.problems), page.problems
    kept = {str(field["name"]): str(field.get("value", "")) for field in page.soup.select(".ask input")}
    assert {key: value for key, value in typed.items() if key in kept} == kept
    assert page.soup.find("svg", class_="plot") is None
