"""Egg warmed ladle by ladle until the base is warm and the yolk has not set: an estimate, in floats.

Caution: raw egg. Tempering does not make an egg safe to eat: the local code says to what temperature and for how long
egg is cooked, and when pasteurized egg must be used. Hot liquid burns. Whisk all the time and trust a thermometer.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

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
            raise QuantityProblem(f"Egg cannot set at {self.sets_celsius} °C, below where it thickens.")


YOLK = SettingBand(65, 70, MCGEE)
"""Plain yolk. Texts differ by 2 to 3 °C, so leave a margin."""
WHITE = SettingBand(63, 65, MCGEE)
"""White, to a tender solid; other texts have it begin at 60 °C, and its firmest part sets near 80 °C."""


@dataclass(frozen=True, slots=True)
class Ladle:
    """One ladle of hot liquid: its number, its grams, and how warm the base is once it is whisked in."""

    number: int
    grams: float
    base_celsius: float


@dataclass(frozen=True, slots=True)
class Pour:
    """How the hot liquid is added: grams a ladle, how warm the base should get, and how far below the band to stay."""

    ladle_grams: float
    until_celsius: float
    margin_celsius: float = 0.0

    def __post_init__(self) -> None:
        """Refuse an empty ladle and a margin below zero."""
        above_zero(self.ladle_grams, "a ladle in grams")
        a_temperature(self.until_celsius)
        if finite(self.margin_celsius, "a margin in celsius") < 0:
            raise QuantityProblem(f"A margin of {self.margin_celsius} °C is not possible: 0 or more.")


@dataclass(frozen=True, slots=True)
class Tempering:
    """The ladles that can go in one after another, how warm the base ends, whether that is warm enough, and why so."""

    ladles: tuple[Ladle, ...]
    base_celsius: float
    reached: bool
    reason: Text
    not_known: tuple[Text, ...]


def tempered(base: Part, hot: Part, pour: Pour, band: SettingBand, writing: Writing = METRIC) -> Tempering:
    """Return ladle by ladle how warm the base gets, stopping when it is warm or the next ladle would set the egg.

    The hot liquid is held at its temperature and whisked in, one ladle at a time (the last may be smaller); a ladle
    that would bring the base to the setting band less the margin stays out. The base may not begin in the band, and at
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
        warmer = mixed([base, replace(hot, grams=poured + grams)]).celsius
        if warmer >= limit:
            return _stopped(ladles, celsius, _would_set(grams, warmer, limit, writing))
        poured, celsius = poured + grams, warmer
        ladles.append(Ladle(len(ladles) + 1, grams, celsius))
    at = writing.degrees(celsius)
    if celsius < pour.until_celsius:
        used_up = message("The hot liquid is used up at {at}: it is too little or too cool.", at=at)
        return _stopped(ladles, celsius, used_up)
    return Tempering(tuple(ladles), celsius, True, message("The base is at {at}, below the band.", at=at), _NOT_KNOWN)


def _stopped(ladles: list[Ladle], celsius: float, reason: Text) -> Tempering:
    return Tempering(tuple(ladles), celsius, False, reason, _NOT_KNOWN)


def _would_set(grams: float, celsius: float, limit: float, writing: Writing) -> Text:
    return message(
        "Another {ladle} would bring the base to {temperature}; stay below {limit}: "
        "use smaller ladles, or liquid that is less hot.",
        ladle=writing.weight(grams),
        temperature=writing.degrees(celsius),
        limit=writing.degrees(limit),
    )
