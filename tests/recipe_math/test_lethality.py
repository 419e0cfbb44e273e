"""D and z give log reductions, and a published table is looked up, never worked out."""

from __future__ import annotations

import pytest
from scipy.integrate import quad
from scipy.stats import linregress

from trainer.recipe_math.estimates import Reading, in_celsius
from trainer.recipe_math.lethality import (
    ROAST_7_LOG,
    ROAST_65_LOG,
    HeatResistance,
    TimeTable,
    equivalent_minutes,
    fitted_resistance,
    log_reduction,
    looked_up,
    minutes_for,
    survivors,
)
from trainer.recipe_math.quantity import Quantity, QuantityProblem

TEN_FAHRENHEIT = 50 / 9
"""A difference of 10 °F in celsius."""

# FSIS Compliance Guidelines, Appendix A (1999, 64 FR 732), cooked and roast beef: °F, seconds for 6.5 and 7 log.
FSIS_APPENDIX_A = [
    (130, 112 * 60, 121 * 60), (131, 89 * 60, 97 * 60), (132, 71 * 60, 77 * 60), (133, 56 * 60, 62 * 60),
    (134, 45 * 60, 47 * 60), (135, 36 * 60, 37 * 60), (136, 28 * 60, 32 * 60), (137, 23 * 60, 24 * 60),
    (138, 18 * 60, 19 * 60), (139, 15 * 60, 15 * 60), (140, 12 * 60, 12 * 60), (141, 9 * 60, 10 * 60),
    (142, 8 * 60, 8 * 60), (143, 6 * 60, 6 * 60), (144, 5 * 60, 5 * 60), (145, 4 * 60, 4 * 60),
    (146, 169, 182), (147, 134, 144), (148, 107, 115), (149, 85, 91), (150, 67, 72), (151, 54, 58), (152, 43, 46),
    (153, 34, 37), (154, 27, 29), (155, 22, 23), (156, 17, 19), (157, 14, 15), (158, 0, 0), (159, 0, 0), (160, 0, 0),
]  # fmt: skip

GARIBALDI = HeatResistance(0.40, 60, 4.6, "Garibaldi, Straka and Ijichi (1969), Appl. Microbiol. 17:491, yolk")
SCHUMAN = HeatResistance(0.28, 60, 4.33, "Schuman and Sheldon (1997), J. Food Prot. 60(6), yolk")
GURTLER = HeatResistance(0.69, 60, 4.72, "Gurtler et al., four strains in liquid egg yolk")


def fahrenheit(degrees: float) -> float:
    return in_celsius(Quantity.of(str(degrees), "°F"))


@pytest.mark.parametrize(("degrees", "for_65", "for_7"), FSIS_APPENDIX_A)
def test_both_columns_are_as_printed(degrees: int, for_65: int, for_7: int) -> None:
    """FSIS Compliance Guidelines, Appendix A (1999, 64 FR 732): both columns, row by row."""
    assert looked_up(ROAST_65_LOG, degrees).seconds == for_65
    assert looked_up(ROAST_7_LOG, degrees).seconds == for_7
    assert looked_up(ROAST_7_LOG, degrees).row_fahrenheit == degrees


@pytest.mark.parametrize(
    ("degrees", "minutes"), [(130, 112), (131, 89), (133, 56), (135, 36), (136, 28), (138, 18), (140, 12), (142, 8),
                             (144, 5), (145, 4), (147, 134 / 60), (149, 85 / 60), (151, 54 / 60), (153, 34 / 60),
                             (155, 22 / 60), (157, 14 / 60), (158, 0)],
)  # fmt: skip
def test_the_roast_table_of_the_food_code_is_the_lower_column(degrees: int, minutes: float) -> None:
    """FDA Food Code 2022, section 3-401.11(B)(2), through Wash. Admin. Code 246-215-03400(2), Table 3-2."""
    assert looked_up(ROAST_65_LOG, degrees).seconds == pytest.approx(minutes * 60)


@pytest.mark.parametrize(("degrees", "for_65"), [(row[0], row[1]) for row in FSIS_APPENDIX_A if row[1]])
def test_the_lower_column_follows_d_and_z(degrees: int, for_65: int) -> None:
    """112 min x 10^((130 - T) / 10) is within 60 s where the table prints minutes, within 1 s from 146 °F."""
    beef = HeatResistance(112 / 6.5, fahrenheit(130), TEN_FAHRENHEIT, "row 130 of the table")
    seconds = minutes_for(beef, 6.5, fahrenheit(degrees)) * 60
    assert seconds == pytest.approx(for_65, abs=60 if degrees < 146 else 1)


def test_the_line_through_the_lower_column_has_z_of_ten_fahrenheit() -> None:
    """Least squares through the 28 rows, apart from this program: z 10.01 °F (5.56 °C), D at 140 °F 1.77 min."""
    rows = [(fahrenheit(row[0]), row[1] / 60 / 6.5) for row in FSIS_APPENDIX_A if row[1]]
    beef = fitted_resistance(rows, fahrenheit(140), "the table")
    assert len(rows) == 28
    assert beef.z_celsius * 9 / 5 == pytest.approx(10.01, abs=0.006)
    assert beef.d_minutes == pytest.approx(1.77, abs=0.006)
    worst = max(abs(minutes_for(beef, 1, celsius) / d_minutes - 1) for celsius, d_minutes in rows)
    assert worst == pytest.approx(0.092, abs=0.001)


def test_the_upper_column_is_not_the_lower_one_made_longer() -> None:
    """FSIS Appendix A: at 136 °F it prints 1,920 s, where 7/6.5 of the lower would be 1,809."""
    lower, upper = looked_up(ROAST_65_LOG, 136).seconds, looked_up(ROAST_7_LOG, 136).seconds
    assert lower is not None
    assert upper == 1920
    assert upper > lower * 7 / 6.5 + 100


@pytest.mark.parametrize(("degrees", "row"), [(136.9, 136), (130, 130), (157.99, 157), (200, 160)])
def test_between_rows_the_cooler_one_counts(degrees: float, row: int) -> None:
    """Never worked out between rows: the next cooler row has the longer time. Above the last row, the last."""
    assert looked_up(ROAST_7_LOG, degrees).row_fahrenheit == row


def test_below_the_table_there_is_no_time() -> None:
    """The table begins at 130 °F."""
    found = looked_up(ROAST_7_LOG, 129.9)
    assert (found.seconds, found.row_fahrenheit) == (None, None)
    assert found.reason == "7 log Salmonella begins at 130 °F: there is no time below."


def test_a_table_says_what_it_is_not_for() -> None:
    """A roast's table is not for poultry; no answer says that food is safe."""
    found = looked_up(ROAST_65_LOG, 140)
    assert any("not for poultry" in unknown for unknown in found.not_known)
    assert "safe" not in " ".join([found.reason, *found.not_known])
    assert looked_up(TimeTable("mine", "here", "this", ((60, 5),)), 61).seconds == 5


@pytest.mark.parametrize(
    ("resistance", "degrees", "seconds", "logs"),
    [
        (GARIBALDI, 145, 15, 2.51), (GARIBALDI, 145, 180, 30.12), (GARIBALDI, 150, 60, 40.33),
        (GARIBALDI, 155, 17, 45.9), (GARIBALDI, 158, 1, 6.22), (GARIBALDI, 160, 1, 10.85),
        (GARIBALDI, 142, 210, 15.26), (GARIBALDI, 140, 372, 15.5),
        (SCHUMAN, 145, 15, 3.91), (SCHUMAN, 145, 180, 46.93), (SCHUMAN, 150, 60, 68.53),
        (SCHUMAN, 155, 17, 85.05), (SCHUMAN, 158, 1, 12.14), (SCHUMAN, 160, 1, 21.92),
        (SCHUMAN, 142, 210, 22.57), (SCHUMAN, 140, 372, 22.14),
        (GURTLER, 145, 15, 1.40), (GURTLER, 145, 180, 16.86), (GURTLER, 150, 60, 21.79),
        (GURTLER, 155, 17, 23.93), (GURTLER, 158, 1, 3.17), (GURTLER, 160, 1, 5.46),
        (GURTLER, 142, 210, 8.72), (GURTLER, 140, 372, 8.99),
    ],
)  # fmt: skip
def test_the_log_reduction_in_yolk_by_three_sets_of_d_and_z(
    resistance: HeatResistance, degrees: int, seconds: float, logs: float
) -> None:
    """Worked out apart from this program: t / (D60 x 10^((60 - T) / z)). 145 °F for 15 s gives 1.4 to 3.9 logs only."""
    found = log_reduction(resistance, seconds / 60, fahrenheit(degrees))
    assert found.logs == pytest.approx(logs, abs=0.006)
    assert "lag" in " ".join(found.not_known)


def test_ten_times_d_and_d_itself() -> None:
    """Process lethality note: D at 65 °C of 3 min, 5 log: 15 min. Boundless Microbiology: D 12.6 s, 12 D: 151 s."""
    assert minutes_for(HeatResistance(3, 65, 5, "note"), 5, 65) == 15
    assert minutes_for(HeatResistance(12.6 / 60, 121, 10, "Boundless"), 12, 121) * 60 == pytest.approx(151, abs=1)


@pytest.mark.parametrize(
    ("d_minutes", "logs", "minutes"),
    [(1.723, 6.5, 11.1995), (3, 5, 15), (1.723, 1, 1.723)],
)
def test_a_hold_is_the_logs_times_d(d_minutes: float, logs: float, minutes: float) -> None:
    """Worked out apart from this program, to six figures: 1.723 min x 6.5."""
    assert minutes_for(HeatResistance(d_minutes, 60, 5, "example"), logs, 60) == pytest.approx(minutes, rel=1e-5)


def test_a_million_after_four_d_are_a_hundred() -> None:
    """Worked out apart from this program: 1e6 x 10^(-12 / 3)."""
    found = log_reduction(HeatResistance(3, 65, 5, "example"), 12, 65)
    assert survivors(1_000_000, found.logs) == pytest.approx(100)


def test_d_two_z_warmer_is_a_hundredth() -> None:
    """Worked out apart from this program: 17.23 min at 130 °F, z 10 °F, at 150 °F: 0.1723 min."""
    beef = HeatResistance(17.23, fahrenheit(130), TEN_FAHRENHEIT, "example")
    assert beef.d_at(fahrenheit(150)) == pytest.approx(0.1723, rel=1e-9)


def test_one_d_kills_nine_in_ten() -> None:
    """OpenStax Microbiology, section 13.1: D is the time that kills 90 percent."""
    found = log_reduction(HeatResistance(3, 65, 5, "note"), 3, 65)
    assert found.share_left == pytest.approx(0.1)
    assert survivors(1000, found.logs) == pytest.approx(100)


@pytest.mark.parametrize(
    ("measured", "z", "off"),
    [
        ([(60, 0.28), (62.2, 0.087)], 4.334, 0.001),  # Schuman and Sheldon (1997), yolk
        ([(58, 1.83), (60, 0.69)], 4.72, 0.01),  # Gurtler et al., yolk, the first two
        ([(58, 1.83), (60, 0.69), (62, 0.26), (64, 0.096), (66, 0.036)], 4.7, 0.07),  # all five; printed 4.7, SE 0.07
    ],
)
def test_z_follows_from_measured_d(measured: list[tuple[float, float]], z: float, off: float) -> None:
    """Published pairs of D, and the z printed with them or worked out from them."""
    assert fitted_resistance(measured, 60, "as printed").z_celsius == pytest.approx(z, abs=off)


def test_the_line_through_many_d_is_that_of_least_squares() -> None:
    """scipy.stats.linregress on log10 of D."""
    from math import log10

    measured = [(58, 1.83), (60, 0.69), (62, 0.26), (64, 0.096), (66, 0.036)]
    line = linregress([one[0] for one in measured], [log10(one[1]) for one in measured])
    found = fitted_resistance(measured, 61, "as printed")
    assert found.z_celsius == pytest.approx(-1 / line.slope, rel=1e-9)
    assert found.d_minutes == pytest.approx(10 ** (line.intercept + 61 * line.slope), rel=1e-9)


def test_warming_up_counts_for_what_it_is() -> None:
    """50 to 65 °C in 10 min, z 10 °F, at 60 °C: 12.751 min (scipy.integrate of 10^((T - 60) / z))."""
    found = equivalent_minutes([Reading(0, 50), Reading(10, 65)], 60, TEN_FAHRENHEIT)
    assert found == pytest.approx(12.751, abs=0.005)
    area, _ = quad(lambda minute: 10 ** ((50 + 1.5 * minute - 60) / TEN_FAHRENHEIT), 0, 10)
    assert found == pytest.approx(area, rel=1e-9)


def test_standing_at_the_temperature_counts_minute_for_minute() -> None:
    """By hand: 5 min at 60 °C and 5 min at one z above it are 5 + 50, with a jump in no time to speak of."""
    profile = [Reading(0, 60), Reading(5, 60), Reading(5.000001, 65), Reading(10.000001, 65)]
    assert equivalent_minutes(profile, 60, 5) == pytest.approx(55, abs=1e-4)


@pytest.mark.parametrize(
    ("measured", "rule"),
    [([(60, 0.28)], "two temperatures"), ([(60, 0.28), (60, 0.3)], "two temperatures"),
     ([(60, 0.28), (62, 0.3)], "does not fall"), ([(60, 0.28), (62, 0)], "0 is not a D in minutes")],
)  # fmt: skip
def test_no_z_follows_from_less_than_two_falling_d(measured: list[tuple[float, float]], rule: str) -> None:
    """The message names the rule."""
    with pytest.raises(QuantityProblem, match=rule):
        fitted_resistance(measured, 60, "nobody")


def test_what_cannot_be_is_refused_and_named() -> None:
    """A time below zero, no logs, logs below zero, a D or z of zero, temperatures out of all reach."""
    with pytest.raises(QuantityProblem, match="-1 min is not a time"):
        log_reduction(GURTLER, -1, 60)
    with pytest.raises(QuantityProblem, match="0 is not a number of logs"):
        minutes_for(GURTLER, 0, 60)
    with pytest.raises(QuantityProblem, match="-1 logs"):
        survivors(10, -1)
    with pytest.raises(QuantityProblem, match="a D in minutes"):
        HeatResistance(0, 60, 5, "nobody")
    with pytest.raises(QuantityProblem, match="a z in celsius"):
        HeatResistance(1, 60, 0, "nobody")
    with pytest.raises(QuantityProblem, match="out of all reach"):
        GURTLER.d_at(5000)
    with pytest.raises(QuantityProblem, match="out of all reach"):
        equivalent_minutes([Reading(0, 60), Reading(1, 5000)], 60, 5)
