"""D and z give log reductions, and a published table of times follows from them."""

from __future__ import annotations

from math import log10

import pytest
from scipy.stats import linregress

from trainer.recipe_math.estimates import in_celsius
from trainer.recipe_math.lethality import (
    HeatResistance,
    log_reduction,
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


@pytest.mark.parametrize(("degrees", "for_65"), [(row[0], row[1]) for row in FSIS_APPENDIX_A if row[1]])
def test_the_lower_column_follows_d_and_z(degrees: int, for_65: int) -> None:
    """112 min x 10^((130 - T) / 10) is within 60 s where the table prints minutes, within 1 s from 146 °F."""
    beef = HeatResistance(112 / 6.5, fahrenheit(130), TEN_FAHRENHEIT, "row 130 of the table")
    seconds = 6.5 * beef.d_at(fahrenheit(degrees)) * 60
    assert seconds == pytest.approx(for_65, abs=60 if degrees < 146 else 1)


def test_the_line_through_the_lower_column_has_z_of_ten_fahrenheit() -> None:
    """Least squares through the 28 rows by scipy: z 10.01 °F (5.56 °C), D at 140 °F 1.77 min; no row is 10 % off it."""
    rows = [(fahrenheit(row[0]), row[1] / 60 / 6.5) for row in FSIS_APPENDIX_A if row[1]]
    line = linregress([celsius for celsius, _ in rows], [log10(d_minutes) for _, d_minutes in rows])
    d_minutes = 10 ** (line.intercept + fahrenheit(140) * line.slope)
    beef = HeatResistance(d_minutes, fahrenheit(140), -1 / line.slope, "the table")
    assert len(rows) == 28
    assert beef.z_celsius * 9 / 5 == pytest.approx(10.01, abs=0.006)
    assert beef.d_minutes == pytest.approx(1.77, abs=0.006)
    worst = max(abs(beef.d_at(celsius) / d_minutes - 1) for celsius, d_minutes in rows)
    assert worst == pytest.approx(0.092, abs=0.001)


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
    assert log_reduction(HeatResistance(3, 65, 5, "note"), 15, 65).logs == 5
    canned = HeatResistance(12.6 / 60, 121, 10, "Boundless")
    assert log_reduction(canned, 151 / 60, 121).logs == pytest.approx(12, abs=0.1)


def test_a_million_after_four_d_are_a_hundred() -> None:
    """Worked out apart from this program: 1e6 x 10^(-12 / 3)."""
    found = log_reduction(HeatResistance(3, 65, 5, "example"), 12, 65)
    assert 1_000_000 * 10**-found.logs == pytest.approx(100)


def test_d_two_z_warmer_is_a_hundredth() -> None:
    """Worked out apart from this program: 17.23 min at 130 °F, z 10 °F, at 150 °F: 0.1723 min."""
    beef = HeatResistance(17.23, fahrenheit(130), TEN_FAHRENHEIT, "example")
    assert beef.d_at(fahrenheit(150)) == pytest.approx(0.1723, rel=1e-9)


def test_what_cannot_be_is_refused_and_named() -> None:
    """A time below zero, a D or z of zero, temperatures out of all reach."""
    with pytest.raises(QuantityProblem, match="-1 min is not a time"):
        log_reduction(GURTLER, -1, 60)
    with pytest.raises(QuantityProblem, match="a D in minutes"):
        HeatResistance(0, 60, 5, "nobody")
    with pytest.raises(QuantityProblem, match="a z in celsius"):
        HeatResistance(1, 60, 0, "nobody")
    with pytest.raises(QuantityProblem, match="out of all reach"):
        GURTLER.d_at(5000)
