"""What the technique on clean hands states, against the codes and the sheet it names."""

from __future__ import annotations

import pytest

from tests.content.measured import line
from trainer.kitchen.technique import Content, LocalCode, Technique
from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.quantity import Quantity

SIGNS = ("throw up", "loose stools", "yellow skin", "sore throat with fever", "open sore")
"""FDA Food Code 2022, § 2-201.11(A)(1), read in Code of Maine Rules 10-144 ch. 200 (2024-09-18): five signs."""
DIAGNOSES = ("norovirus", "hepatitis A", "Shigella", "E. coli", "typhoid", "other Salmonella")
"""§ 2-201.11(A)(2), read in 12VAC5-421-80 (2024-11): six illnesses that a doctor names."""


@pytest.fixture(name="hands")
def _hands(content: Content) -> Technique:
    return content.techniques["clean_hands"]


def quantity(text: str) -> Quantity:
    """Return a quantity as the code prints it."""
    return parse_quantity(text, decimal_mark=".")


def test_it_asks_for_the_five_signs_of_the_code(hands: Technique) -> None:
    """Vomiting, diarrhea, jaundice, sore throat with fever, a lesion that is open."""
    step = next(step for step in hands.steps if step.id == "come_well")
    assert all(sign in step.text for sign in SIGNS)


def test_it_asks_for_the_six_illnesses_of_the_code(hands: Technique) -> None:
    """Norovirus, hepatitis A, Shigella, Shiga toxin E. coli, typhoid fever, nontyphoidal Salmonella."""
    step = next(step for step in hands.steps if step.id == "doctor_said")
    assert all(name in step.text for name in DIAGNOSES)


@pytest.mark.parametrize(
    ("key", "published"),
    [
        ("rub_elsewhere", "20 s"),  # Code of Maine Rules 10-144 ch. 200 § 2-301.12(B)(3)
        ("back_elsewhere", "48 h"),  # sheet for restaurants, 2013-02-21: at least two days after the last symptom
        ("sink_water_before", "100 °F"),  # FDA Food Code 2017 § 5-202.12, as a review of 2023-01-01 tells it
    ],
)
def test_another_figure_is_the_one_published(hands: Technique, key: str, published: str) -> None:
    """Where published figures disagree, each stands with its own source."""
    assert line(hands, key).lowest == quantity(published)


def test_the_house_goes_no_lower_than_the_code(hands: Technique, food_code: LocalCode) -> None:
    """§§ 2-301.12(B)(3) and 2-201.13(A)(1): 10 to 15 s of rubbing; 24 h without symptoms."""
    rub, back = line(hands, "rub_time").lowest, line(hands, "back_after").lowest
    assert rub is not None
    assert food_code.limits["handwash_rub"].admits(rub)
    assert back is not None
    assert food_code.limits["symptom_free"].admits(back)
    assert back >= quantity("48 h")


def test_the_rub_fits_in_the_wash(hands: Technique) -> None:
    """§ 2-301.12(A): the whole wash takes at least 20 s, of which at most 15 s are the rub."""
    rub = next(step for step in hands.steps if step.id == "rub")
    assert rub.seconds is not None
    assert rub.seconds <= 15
