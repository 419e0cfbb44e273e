"""What the technique on allergens states, against the lists of law and the study it names."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
import yaml

from tests.content.conftest import CONTENT
from tests.content.measured import value
from trainer.kitchen.technique import Content, Technique

US_NINE = ("milk", "egg", "fish", "crustacean shellfish", "tree nuts", "wheat", "peanut", "soy", "sesame")
"""21 U.S.C. 321(qq), as amended by the FASTER Act of 2021, in its order but for wheat and peanuts."""
EUROPE_ADDS = ("gluten grains", "celery", "mustard", "lupin", "mollusks", "sulfites")
"""Regulation (EU) No 1169/2011, Annex II, points 1, 9, 10, 12, 13, 14: what is not, or not so, on the American list."""


@pytest.fixture(name="allergens")
def _allergens(content: Content) -> Technique:
    return content.techniques["allergens"]


def test_the_first_step_names_what_both_lists_name(allergens: Technique) -> None:
    """Nine in the United States; Europe has six points more or wider, of which gluten grains include wheat."""
    step = allergens.steps[0]
    assert all(name in step.text for name in US_NINE)
    assert all(name in step.cue for name in EUROPE_ADDS)
    assert len(US_NINE) + len(EUROPE_ADDS) - 1 == 14


def test_shellfish_is_asked_about_and_a_notice_in_writing_is_named(allergens: Technique) -> None:
    """21 U.S.C. 321(qq) names Crustacean shellfish alone, and a guest may mean clams.

    FDA Food Code 2022, § 3-602.12(C): written notice of allergens in unpackaged food.
    """
    assert "may mean clams too, so ask" in allergens.steps[0].why
    sheet = next(word.means for word in allergens.words if word.word == "allergen sheet")
    assert "notice in writing for food that is not packed" in sheet


def test_it_handles_every_allergen_there_is(allergens: Technique) -> None:
    """A plate for a guest with any of them goes the same way."""
    listed = yaml.safe_load((Path(CONTENT) / "allergens.yaml").read_text("utf-8"))
    assert set(allergens.allergens) == set(listed)


def test_sulphites_count_above_ten_milligrams(allergens: Technique) -> None:
    """Annex II, point 12: more than 10 mg/kg or 10 mg/L; 1 mg in a kilogram is one part per million."""
    assert value(allergens, "sulphite_line") == Fraction(10, 1_000_000)


def test_hands_after_gel_are_those_of_the_study(allergens: Technique) -> None:
    """Perry and others, J Allergy Clin Immunol, May 2004: 6 of 12 hands after gel, 3 of 12 after plain water."""
    assert (value(allergens, "gel_leaves"), value(allergens, "water_leaves")) == (Fraction(6, 12), Fraction(3, 12))
