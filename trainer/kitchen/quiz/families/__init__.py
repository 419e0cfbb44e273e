"""The question families, by name. To add one: write it in a module here and list it below."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from trainer.kitchen.quiz.families import (
    allergens,
    batches,
    butchery,
    buying,
    costs,
    cuts,
    dates,
    decide,
    dough,
    egg_setting,
    eggs,
    heat,
    holding,
    lethality,
    measures,
    percents,
    portions,
    readings,
    rungs,
    slips,
    solutions,
    spread,
    stock,
    technique_words,
    temperatures,
    tempering,
    timing,
    yields,
)
from trainer.kitchen.quiz.family import AnyFamily, ChoiceFamily, NumericFamily

_ALL: tuple[AnyFamily, ...] = (
    batches.SCALE_BY_YIELD,
    batches.SCALE_BY_PORTION,
    batches.SCALE_BY_INGREDIENT,
    rungs.CASCADE_TO_MEASURES,
    yields.YIELD_PERCENT,
    buying.AMOUNT_TO_BUY,
    yields.TWO_STEP_YIELD,
    buying.PACKS_TO_BUY,
    stock.CANS_FOR_GUESTS,
    stock.PAR_LEVEL,
    yields.EDIBLE_COST,
    costs.COST_PER_PORTION,
    butchery.BUTCHER_CARD,
    butchery.BUTCHER_PORTION,
    butchery.BUTCHER_FACTOR,
    costs.MENU_PRICE,
    costs.FOOD_COST_PERCENT,
    portions.PORTIONS_FROM_BATCH,
    portions.PIECE_SHARE,
    spread.PORTION_MEAN,
    spread.PORTION_SPREAD,
    dough.BAKERS_PERCENT,
    percents.PART_FROM_PERCENT,
    percents.FLOUR_FROM_PART,
    dough.FLOUR_FROM_DOUGH,
    dough.HYDRATION_WITH_EGGS,
    eggs.EGG_COUNT,
    solutions.SALT_BRINE,
    solutions.SANITIZER_DILUTION,
    measures.UNIT_CONVERSION,
    measures.MIXED_UNITS,
    readings.READ_SCALE,
    readings.READ_BALANCE,
    readings.READ_THERMOMETER,
    temperatures.TEMPERATURE_CONVERSION,
    temperatures.TEMPERATURE_TO_FAHRENHEIT,
    temperatures.TEMPERATURE_DIFFERENCE,
    tempering.TEMPERING_MIX,
    egg_setting.TEMPERING_LADLES,
    egg_setting.EGG_STATE,
    heat.ICE_IN_STOCK,
    heat.BOILING_POINT,
    heat.COOLING_TIME,
    timing.THICKNESS_TIME,
    lethality.LOG_REDUCTION,
    lethality.D_AT_OTHER_TEMPERATURE,
    timing.PICKUP_START,
    holding.COOLING_FIRST_STAGE,
    holding.COOLING_STAGE,
    holding.DISCARD_TIME,
    dates.DATE_MARK,
    cuts.NAME_CUT,
    allergens.FIND_ALLERGEN,
    technique_words.CHOOSE_FAULT,
    technique_words.ORDER_STEPS,
    slips.SPOT_SLIP,
    decide.DECIDE,
)

FAMILIES: Mapping[str, AnyFamily] = MappingProxyType({family.name: family for family in _ALL})
"""Every family by its name, in teaching order."""
NUMERIC: Mapping[str, NumericFamily] = MappingProxyType(
    {family.name: family for family in _ALL if isinstance(family, NumericFamily)}
)
"""The families whose answer is a number with a unit."""
CHOICES: Mapping[str, ChoiceFamily] = MappingProxyType(
    {family.name: family for family in _ALL if isinstance(family, ChoiceFamily)}
)
"""The families whose answer is one of a few choices."""
ASKED: Mapping[str, AnyFamily] = MappingProxyType({name: family for name, family in FAMILIES.items() if family.asked})
"""The families a cook is asked; the others are still told where the book has an answer to one."""
