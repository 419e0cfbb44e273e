"""The question families, by name. To add one: write its Family in a module here and list it below."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from trainer.kitchen.quiz.families import batches, buying, dates, dough, holding, measures, portions, temperatures
from trainer.kitchen.quiz.family import Family

_ALL = (
    batches.SCALE_BY_YIELD,
    batches.SCALE_BY_PORTION,
    buying.AMOUNT_TO_BUY,
    buying.PACKS_TO_BUY,
    portions.PORTIONS_FROM_BATCH,
    portions.PIECE_SHARE,
    dough.BAKERS_PERCENT,
    dough.HYDRATION_WITH_EGGS,
    dough.FLOUR_FROM_DOUGH,
    measures.UNIT_CONVERSION,
    measures.MIXED_UNITS,
    temperatures.TEMPERATURE_CONVERSION,
    temperatures.TEMPERATURE_TO_FAHRENHEIT,
    temperatures.TEMPERATURE_DIFFERENCE,
    temperatures.TEMPERING_MIX,
    holding.COOLING_FIRST_STAGE,
    holding.COOLING_STAGE,
    holding.DISCARD_TIME,
    dates.DATE_MARK,
)

FAMILIES: Mapping[str, Family] = MappingProxyType({family.name: family for family in _ALL})
"""Every family by its name, in teaching order."""


def teacher_sentence(family: str, method: str) -> str:
    """Return what a wrong method of a family means, said to the teacher; nothing where there is none of that name.

    >>> teacher_sentence("amount_to_buy", "loss_forgotten")
    'Leaves the loss out.'
    """
    known = FAMILIES.get(family)
    return next((way.tells for way in known.wrong if way.name == method), "") if known else ""
