"""Egg warmed ladle by ladle until the base is warm and the yolk has not set: an estimate, in floats.

Caution: raw egg. Tempering does not make an egg safe to eat: the local code says to what temperature and for how long
egg is cooked, and when pasteurized egg must be used. Hot liquid burns. Whisk all the time and trust a thermometer.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

from trainer.messages import Text, message
from trainer.recipe_math.estimates import METRIC, Writing, a_temperature, above_zero, finite
from trainer.recipe_math.heat import Part, mixed
from trainer.recipe_math.quantity import QuantityProblem

MOST_LADLES = 100
MCGEE = message("McGee, On Food and Cooking (2004), ch. 2")
_NOT_KNOWN = (
    message("how hot it is where the ladle lands: pour slowly and whisk all the time"),
    message("heat lost to bowl, whisk and air, which leaves the base cooler than worked out"),
    message("how far sugar, salt, fat and thinning move the setting of egg"),
)


@dataclass(frozen=True, slots=True)
class SettingBand:
    """Where egg begins to thicken and where it has set, in celsius, and who says so."""

    thickens_celsius: float
    sets_celsius: float
    source: Text

    def __post_init__(self) -> None:
        """Refuse a band that ends before it begins."""
        if a_temperature(self.sets_celsius) < a_temperature(self.thickens_celsius):
            raise QuantityProblem(
                message(
                    "Egg cannot set at {sets_celsius} °C, below where it thickens.",
                    sets_celsius=f"{self.sets_celsius:g}",
                )
            )


YOLK = SettingBand(65, 70, MCGEE)
"""Plain yolk. Texts differ by 2 to 3 °C, so leave a margin."""
WHITE = SettingBand(63, 65, MCGEE)
"""White, to a tender solid; other texts have it begin at 60 °C, and its firmest part sets near 80 °C."""


class EggState(StrEnum):
    """How egg stands at a temperature that is known within bounds."""

    SMOOTH = "smooth"
    MAY_THICKEN = "may thicken"
    THICKENS = "thickens"
    MAY_BE_SET = "may be set"
    SET = "set"


def egg_state(celsius: float, at_most_celsius: float, band: SettingBand) -> EggState:
    """Return whether egg has begun to set at a temperature that is worked out to this, and may be up to that.

    The most is no less than the temperature itself (QuantityProblem).

    >>> [str(egg_state(warm, warm + 2, YOLK)) for warm in (60, 64, 66, 69, 71)]
    ['smooth', 'may thicken', 'thickens', 'may be set', 'set']
    """
    if a_temperature(at_most_celsius) < a_temperature(celsius):
        raise QuantityProblem(
            message(
                "At most {at_most_celsius} °C is less than {celsius} °C.",
                at_most_celsius=f"{at_most_celsius:g}",
                celsius=f"{celsius:g}",
            )
        )
    if celsius >= band.sets_celsius:
        return EggState.SET
    if celsius >= band.thickens_celsius:
        return EggState.MAY_BE_SET if at_most_celsius >= band.sets_celsius else EggState.THICKENS
    return EggState.MAY_THICKEN if at_most_celsius >= band.thickens_celsius else EggState.SMOOTH


@dataclass(frozen=True, slots=True)
class HeatSpread:
    """How far the heat of egg and liquid may lie from their curves, as shares: the egg's least, the liquid's most."""

    egg_least: float = 1.0
    liquid_most: float = 1.0

    def __post_init__(self) -> None:
        """Refuse a least above the curve, or a most below it."""
        if not above_zero(self.egg_least, message("a share")) <= 1 <= finite(self.liquid_most, message("a share")):
            raise QuantityProblem(
                message(
                    "Egg at {egg_least} and liquid at {liquid_most} of their curves: 1 between.",
                    egg_least=f"{self.egg_least:g}",
                    liquid_most=f"{self.liquid_most:g}",
                )
            )

    def warmest(self, base: Part, hot: Part) -> float:
        """Return how warm the two get at most: egg that holds least heat, and liquid that holds most.

        >>> yolk, water = Part(120, 5, (3.1, 0.0, 0.0)), Part(60, 95, (4.19, 0.0, 0.0))
        >>> HeatSpread(egg_least=0.9).warmest(yolk, water) > mixed([yolk, water]).celsius
        True
        """
        return mixed([_scaled(base, self.egg_least), _scaled(hot, self.liquid_most)]).celsius


def _scaled(part: Part, share: float) -> Part:
    c0, c1, c2 = part.heat
    return replace(part, heat=(c0 * share, c1 * share, c2 * share))


EXACT = HeatSpread()


@dataclass(frozen=True, slots=True)
class Ladle:
    """One ladle of hot liquid: its number, its grams, how warm the base is once it is whisked in, and at most."""

    number: int
    grams: float
    base_celsius: float
    at_most_celsius: float


@dataclass(frozen=True, slots=True)
class Pour:
    """How the hot liquid is added: grams a ladle, how warm the base should get, and how far below the band to stay.

    `spread` is how far the heat of egg and liquid may lie from what was worked out.
    """

    ladle_grams: float
    until_celsius: float
    margin_celsius: float = 0.0
    spread: HeatSpread = EXACT

    def __post_init__(self) -> None:
        """Refuse an empty ladle and a margin below zero."""
        above_zero(self.ladle_grams, message("a ladle in grams"))
        a_temperature(self.until_celsius)
        if finite(self.margin_celsius, message("a margin in celsius")) < 0:
            raise QuantityProblem(
                message(
                    "A margin of {margin_celsius} °C is not possible: 0 or more.",
                    margin_celsius=f"{self.margin_celsius:g}",
                )
            )


@dataclass(frozen=True, slots=True)
class Tempering:
    """The ladles that can go in one after another, how warm the base ends, whether that is warm enough, and why so."""

    ladles: tuple[Ladle, ...]
    base_celsius: float
    reached: bool
    reason: Text
    not_known: tuple[Text, ...]


def most_ladles(base: Part, hot: Part, pour: Pour, band: SettingBand) -> int | None:
    """Return how many ladles can go in before the egg may begin to set; None where all of the liquid can.

    Whether the base is warm enough by then does not count. Errors as `tempered`.

    >>> yolk, water = Part(120, 5, (3.1169, 0.0, 0.0)), Part(500, 95, (4.19, 0.0, 0.0))
    >>> most_ladles(yolk, water, Pour(ladle_grams=60, until_celsius=40), YOLK)
    2
    """
    done = tempered(base, hot, replace(pour, until_celsius=band.thickens_celsius), band)
    return None if sum(each.grams for each in done.ladles) >= hot.grams else len(done.ladles)


def tempered(base: Part, hot: Part, pour: Pour, band: SettingBand, writing: Writing = METRIC) -> Tempering:
    """Return ladle by ladle how warm the base gets, stopping when it is warm or the next ladle would set the egg.

    The hot liquid is held at its temperature and whisked in, one ladle at a time (the last may be smaller); a ladle
    that may bring the base to the setting band less the margin, egg and liquid at the ends of their spread, stays
    out. The base may not begin in the band, and at
    most 100 ladles are poured (QuantityProblem). Energy balance as in `heat.mixed`; the band is passed in, and so is
    which units the reason gives first.

    >>> yolk, water = Part(120, 5, (3.1169, 0.0, 0.0)), Part(500, 95, (4.19, 0.0, 0.0))
    >>> done = tempered(yolk, water, Pour(ladle_grams=60, until_celsius=55), YOLK)
    >>> [round(ladle.base_celsius) for ladle in done.ladles], done.reached
    ([41, 57], True)
    """
    limit = band.thickens_celsius - pour.margin_celsius
    if base.celsius >= limit:
        at, thickens = writing.degrees(base.celsius), writing.degrees(limit)
        raise QuantityProblem(
            message("The base is at {at}: egg thickens from {thickens} on.", at=at, thickens=thickens)
        )
    if hot.grams / pour.ladle_grams > MOST_LADLES:
        raise QuantityProblem(
            message(
                "{liquid} by ladles of {ladle} is more than {most} ladles.",
                liquid=writing.weight(hot.grams),
                ladle=writing.weight(pour.ladle_grams),
                most=MOST_LADLES,
            )
        )
    ladles: list[Ladle] = []
    celsius, poured = base.celsius, 0.0
    while celsius < pour.until_celsius and poured < hot.grams:
        grams = min(pour.ladle_grams, hot.grams - poured)
        liquid = replace(hot, grams=poured + grams)
        warmer, at_most = mixed([base, liquid]).celsius, pour.spread.warmest(base, liquid)
        if at_most >= limit:
            return _stopped(ladles, celsius, _would_set(grams, at_most, limit, writing))
        poured, celsius = poured + grams, warmer
        ladles.append(Ladle(len(ladles) + 1, grams, celsius, at_most))
    at = writing.degrees(celsius)
    if celsius < pour.until_celsius:
        used_up = message("The hot liquid is used up at {at}: it is too little or too cool.", at=at)
        return _stopped(ladles, celsius, used_up)
    return Tempering(tuple(ladles), celsius, True, message("The base is at {at}, below the band.", at=at), _NOT_KNOWN)


def _stopped(ladles: list[Ladle], celsius: float, reason: Text) -> Tempering:
    return Tempering(tuple(ladles), celsius, False, reason, _NOT_KNOWN)


def _would_set(grams: float, celsius: float, limit: float, writing: Writing) -> Text:
    return message(
        "Another {ladle} may bring the base to {temperature}; stay below {limit}: "
        "use smaller ladles, or liquid that is less hot.",
        ladle=writing.weight(grams),
        temperature=writing.degrees(celsius),
        limit=writing.degrees(limit),
    )
