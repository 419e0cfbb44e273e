"""What the technique on sanitizing states: parts per million by definition, doses by hand, the rest as published."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.content.measured import line
from tests.printed import english
from trainer.kitchen.technique import Content, LocalCode, Technique
from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.printing import both_ways
from trainer.recipe_math.quantity import Quantity


def test_a_percent_is_ten_thousand_parts_in_a_million() -> None:
    """One in a hundred is 10 000 in a million; 1 mg in 1 kg is one part, and so is 1 mg in a litre of water."""
    assert Quantity.of(1, "%").to("ppm").amount == 10_000
    assert Quantity.of(1, "mg").base / Quantity.of(1, "kg").base == Fraction(1, 1_000_000)
    assert Quantity.of(1, "ppm").base == Fraction(1, 1_000_000)


def test_parts_per_million_read_the_same_in_both_systems() -> None:
    """A test strip has one scale."""
    fifty = parse_quantity("50 parts per million", decimal_mark=".")
    assert (english(both_ways(fifty)), english(both_ways(fifty, "metric"))) == ("50 ppm", "50 ppm")


GALLON_MILLILITRES = Fraction("3785.411784")
"""NIST Special Publication 811, Appendix B: the US gallon of 231 cubic inches."""
PUBLISHED = [
    # line, lowest, highest: each read in the source that its line names, but for 40 CFR 180.940, which is from memory
    ("chlorine_most", None, "200 ppm"),  # 40 CFR 180.940(a)
    # Wis. Admin. Code DHS 196 Appendix, § 4-501.114(A), the table of chlorine (text current 2024-05-28)
    ("high_ph_water", "100 °F", None),
    ("weak_row", "25 ppm", "49 ppm"),
    ("weak_row_water", "120 °F", None),
    ("strong_row", "100 ppm", None),
    ("strong_row_water", "55 °F", None),
    ("california_strength", "100 ppm", None),  # California Health and Safety Code § 114099.6(b)(1)
    ("california_time", "30 s", None),
    ("california_quat", "200 ppm", None),  # § 114099.6(b)(3)
    ("new_york_strength", "50 ppm", None),  # New York State sanitary code § 14-4.112(a)(1), 1985
    ("new_york_time", "1 min", None),
    ("eye_label", "15 min", "20 min"),  # first-aid words on a label registered by the EPA
    ("eye_elsewhere", "15 min", None),  # health library page of a hospital group
]


@pytest.fixture(name="sanitizer")
def _sanitizer(content: Content) -> Technique:
    return content.techniques["sanitizer"]


@pytest.mark.parametrize(("key", "lowest", "highest"), PUBLISHED)
def test_another_figure_is_the_one_published(
    sanitizer: Technique, key: str, lowest: str | None, highest: str | None
) -> None:
    """Where published figures disagree, each stands with its own source."""
    ends = [None if end is None else parse_quantity(end, decimal_mark=".") for end in (lowest, highest)]
    assert [line(sanitizer, key).lowest, line(sanitizer, key).highest] == ends


def test_the_dose_is_that_of_the_dilution_law(sanitizer: Technique) -> None:
    """C1 V1 = C2 V2 (OpenStax Chemistry 2e, section 3.3, from memory): 10 gal at 100 ppm; 6 % is 60 000 ppm."""
    dose, bucket = line(sanitizer, "dose").target, line(sanitizer, "bucket_dose").target
    assert dose is not None
    assert bucket is not None
    assert dose.to("mL").amount == 10 * GALLON_MILLILITRES * 100 / 60_000
    assert bucket.to("mL").amount == 2 * GALLON_MILLILITRES * 100 / 60_000


def test_what_is_mixed_is_inside_what_is_judged(sanitizer: Technique, food_code: LocalCode) -> None:
    """FDA Food Code 2022 § 4-501.114(A): 50 mg/L or more at 75 °F; the house mixes above it and judges no lower."""
    mixed, judged = line(sanitizer, "mixed_to").target, line(sanitizer, "strength")
    assert mixed is not None
    assert judged.admits(mixed)
    assert judged.lowest == food_code.limits["sanitizer_chlorine"].lowest


def test_a_piece_soaks_no_shorter_than_any_figure_read(sanitizer: Technique, food_code: LocalCode) -> None:
    """§ 4-703.11(C): 10 s in chlorine, 30 s in others; California 30 s, New York 1 min."""
    soak = next(step.seconds for step in sanitizer.steps if step.id == "soak")
    times = [food_code.limits[key].lowest for key in ("sanitizer_contact", "sanitizer_contact_chlorine")]
    times += [line(sanitizer, key).lowest for key in ("california_time", "new_york_time")]
    assert soak == 60
    assert all(time is not None and time.to("s").amount <= soak for time in times)


def test_what_never_to_mix_is_told_before_a_bottle_is_opened(sanitizer: Technique) -> None:
    """OSHA, Young Worker Safety in Restaurants: chlorine and ammonia make a gas; so it stands with the label."""
    first = sanitizer.steps[0]
    assert first.id == "read_label"
    assert "never_mix" in first.hazards


def test_another_bottle_has_its_own_strip_water_and_time(sanitizer: Technique, food_code: LocalCode) -> None:
    """§§ 4-501.114(C) and 4-703.11(C)(3): quat in water of 75 °F or more, for 30 s or more."""
    why = sanitizer.steps[0].why
    assert "Quat takes its own strips" in why
    assert english(both_ways(food_code.limits["sanitizer_water_quat"].lowest or Quantity.of(0, "°F"))) in why
    assert "30 seconds" in why
