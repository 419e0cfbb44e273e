"""Whether a sample of packages may stand, by inspectors' methods: borrowed for portions, a duty for packages only.

The rules are those of NIST Handbook 133 (2026), chapter 2, and of European and British law on packed goods. A plated
portion is under none of them: a house that uses one says so and sets its own allowed shortfall. What packages for sale
must meet is decided by the law in force where they are sold, and by its inspectors.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from trainer.recipe_math.quantiles import t_quantile
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.statistics import mean, sample_deviation, square_root

HANDBOOK_LEVEL = Fraction("0.975")
"""NIST Handbook 133: t with 2.5 percent on the one side. The table itself (Appendix A, 2-1) was not read."""
BRITISH_LEVEL = Fraction("0.995")
"""The Weights and Measures (Packaged Goods) Regulations 2006 (SI 2006/659), Schedule 2, paragraph 4: 0.503 for 30."""
_STEP = Fraction(1, 10**9)


@dataclass(frozen=True, slots=True)
class Sample:
    """What weighed packages show against their label, in the label's unit.

    `mean_error` and `deviation` are of the errors (weight less label), `error_limit` is how far below nothing the mean
    error may lie, `short` how many errors lie further below than the allowed shortfall, of `allowed` that may.
    """

    weighed: int
    mean_error: Quantity
    deviation: Quantity
    error_limit: Quantity
    short: int
    allowed: int

    def mean_is_good(self) -> bool:
        """Return whether the mean error is not negative, or negative by no more than the sample error limit.

        >>> grams = [Quantity.of(weight, "g") for weight in (99, 100, 101)]
        >>> judged_by_handbook(grams, Shortfall(Quantity.of(100, "g"), Quantity.of(7, "g"))).mean_is_good()
        True
        """
        return -self.mean_error.amount <= self.error_limit.amount

    def passes(self) -> bool:
        """Return whether the mean is good and no more packages fall short than are allowed.

        >>> grams = [Quantity.of(weight, "g") for weight in (92, 104, 104)]
        >>> judged_by_handbook(grams, Shortfall(Quantity.of(100, "g"), Quantity.of(7, "g"))).passes()
        False
        """
        return self.mean_is_good() and self.short <= self.allowed


@dataclass(frozen=True, slots=True)
class Shortfall:
    """What a sample is judged against: the labelled weight, the most one package may fall short, and how many may more.

    `one_package` is the handbook's maximum allowable variation, from the edition in force or set by the house.
    `moisture` is what may have dried out (flour and dry pasta, 3 percent); it widens both limits.
    """

    labelled: Quantity
    one_package: Quantity
    allowed: int = 0
    moisture: Quantity | None = None

    def __post_init__(self) -> None:
        """Refuse a label of nothing and shortfalls below nothing."""
        if self.labelled.amount <= 0:
            raise QuantityProblem(f"A label of {self.labelled} is none: it must be above zero.")
        for given in (self.one_package, self.drying()):
            if given.amount < 0:
                raise QuantityProblem(f"A shortfall of {given} is not possible: it is not negative.")
        if self.allowed < 0:
            raise QuantityProblem(f"{self.allowed} packages cannot be allowed: it is none or more.")

    def drying(self) -> Quantity:
        """Return the moisture allowance in the label's unit; nothing where there is none.

        >>> print(Shortfall(Quantity.of(907, "g"), Quantity.of("31.7", "g")).drying())
        0 g
        """
        return self.labelled * 0 if self.moisture is None else self.moisture.to(self.labelled.unit)

    def for_one(self) -> Quantity:
        """Return how far one package may fall short, moisture included, in the label's unit.

        Source: NIST Handbook 133 (2026), section 2.3.8: 31.7 g and 27 g are 58.7 g.

        >>> print(Shortfall(Quantity.of(907, "g"), Quantity.of("31.7", "g"), moisture=Quantity.of(27, "g")).for_one())
        58.7 g
        """
        return self.drying() + self.one_package


def sample_correction_factor(number: int, level: Fraction = HANDBOOK_LEVEL) -> Fraction:
    """Return t with number - 1 degrees of freedom over the root of the number, to nine decimals.

    Two to 121 packages (QuantityProblem). NIST Handbook 133 takes level 0.975 (12 packages, 0.635), the British
    regulations 0.995 (`BRITISH_LEVEL`).

    >>> from trainer.recipe_math.figures import number_text
    >>> number_text(sample_correction_factor(12), 3), number_text(sample_correction_factor(30, BRITISH_LEVEL), 3)
    ('0.635', '0.503')
    """
    return to_nearest(t_quantile(level, number - 1) / square_root(Fraction(number)), _STEP)


def sample_error_limit(deviation: Quantity, number: int, level: Fraction = HANDBOOK_LEVEL) -> Quantity:
    """Return the sample error limit: the standard deviation of the errors times the sample correction factor.

    The deviation is not negative (QuantityProblem). Source: NIST Handbook 133 (2026), section 2.3.7.2.

    >>> print(sample_error_limit(Quantity.of(2, "g"), 4))
    3.18245 g
    """
    if deviation.amount < 0:
        raise QuantityProblem(f"A deviation of {deviation} is not possible: it is not negative.")
    return deviation * sample_correction_factor(number, level)


def judged_by_handbook(weights: Sequence[Quantity], against: Shortfall, level: Fraction = HANDBOOK_LEVEL) -> Sample:
    """Return what a sample shows by the method of NIST Handbook 133: its mean error against the sample error limit.

    A lot fails where the mean error is negative by more than the limit, or where more packages than allowed fall short
    by more than the allowed shortfall. Net weights of 2 to 121 packages (QuantityProblem), of the label's kind
    (WrongDimension). With `BRITISH_LEVEL` the mean is judged as by SI 2006/659. Source: Handbook 133 (2026), sections
    2.3.7.1 and 2.3.7.2.

    >>> grams = [Quantity.of(weight, "g") for weight in (905, 903, 907, 909)]
    >>> sample = judged_by_handbook(grams, Shortfall(Quantity.of(907, "g"), Quantity.of("31.7", "g")))
    >>> print(sample.mean_error, sample.short, sample.passes())
    -1 g 0 True
    """
    unit = against.labelled.unit
    errors = [(weight - against.labelled).to(unit).amount for weight in weights]
    deviation = Quantity(sample_deviation(errors), unit)
    return Sample(
        weighed=len(errors),
        mean_error=Quantity(mean(errors), unit),
        deviation=deviation,
        error_limit=sample_error_limit(deviation, len(errors), level) + against.drying(),
        short=sum(-error > against.for_one().amount for error in errors),
        allowed=against.allowed,
    )


def largest_division(one_package: Quantity) -> Quantity:
    """Return the coarsest scale division that can judge an allowed shortfall: a sixth of it.

    Source: NIST Handbook 133 (2026), section 2.2.1: 7.2 g for a label of 113 g, so 1.2 g; a 1 g scale is used.

    >>> print(largest_division(Quantity.of("7.2", "g")))
    1.2 g
    """
    if one_package.amount <= 0:
        raise QuantityProblem(f"A shortfall of {one_package} cannot be weighed: it must be above zero.")
    return one_package / 6


def scale_is_fit(capacity: Quantity, division: Quantity, one_package: Quantity) -> bool:
    """Return whether a scale has a hundred divisions at least, none coarser than a sixth of the allowed shortfall.

    Source: NIST Handbook 133 (2026), section 2.2.1. Capacity and division are above zero (QuantityProblem).

    >>> scale_is_fit(Quantity.of(3, "kg"), Quantity.of(1, "g"), Quantity.of("7.2", "g"))
    True
    """
    if division.amount <= 0 or capacity.amount <= 0:
        raise QuantityProblem(f"A scale of {capacity} by {division} weighs nothing: both must be above zero.")
    return capacity.over(division) >= 100 and division <= largest_division(one_package)


def moisture_allowance(labelled: Quantity, share: Fraction = Fraction("0.03")) -> Quantity:
    """Return how much a package may have dried out since it was packed: a share of the label, from 0 up to 1.

    Source: NIST Handbook 133 (2026), section 2.3.8: 3 percent for flour and dry pasta; of 907 g, 27 g.

    >>> print(moisture_allowance(Quantity.of(907, "g")))
    27.21 g
    """
    if not 0 <= share < 1:
        raise QuantityProblem(f"A moisture share of {share} is not possible: it is from 0 up to, not including, 1.")
    return labelled * share


_EUROPEAN = tuple(
    (top, Fraction(share), Fraction(fixed))
    for top, share, fixed in (
        (50, "0.09", "0"),
        (100, "0", "4.5"),
        (200, "0.045", "0"),
        (300, "0", "9"),
        (500, "0.03", "0"),
        (1000, "0", "15"),
        (10_000, "0.015", "0"),
    )
)
"""Up to so many g or mL: a share of them, or a fixed amount."""


def tolerable_negative_error(nominal: Quantity) -> Quantity:
    """Return how far one package may fall short of what it says, by Council Directive 76/211/EEC, Annex I, 2.4.

    In grams or millilitres, for 5 to 10,000 of them (QuantityProblem); not rounded. The mean of a lot is not below the
    label, at most 1 in 40 fall short by more than this, none by more than twice this. The last band, above 1000, is
    from memory: check it before it decides anything.

    >>> print(tolerable_negative_error(Quantity.of(250, "g")), "and", tolerable_negative_error(Quantity.of(1, "L")))
    9 g and 15 mL
    """
    base = {"mass": "g", "volume": "mL"}.get(nominal.unit.dimension)
    if base is None:
        raise WrongDimension(f"{nominal} is {nominal.unit.dimension}: the directive goes by weight or volume.")
    amount = nominal.to(base)
    if not 5 <= amount.amount <= 10_000:
        raise QuantityProblem(f"{nominal} is outside the directive's table: it has 5 to 10,000 {base}.")
    share, fixed = next((share, fixed) for top, share, fixed in _EUROPEAN if amount.amount <= top)
    return Quantity(amount.amount * share + fixed, amount.unit)
