"""How long meat is held at a temperature, by printed tables: roasts, ground meat, poultry. Looked up, never worked out.

Between two rows the cooler row counts, with its longer time; below the first row there is no time at all. The times are
for the coldest place of the food, held there without a break.

Caution: the local code decides, and it may ask for more. A table for federal plants is no permission in a restaurant:
its rows come with conditions (moist heat, whole muscle, fat) that are not told here. Measure with a thin probe.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from trainer.messages import Text, message
from trainer.recipe_math.quantity import TEMPERATURE, Quantity, QuantityProblem, WrongDimension


class Meat(StrEnum):
    """Which table is asked."""

    ROAST = "roast"
    GROUND = "ground"
    POULTRY = "poultry"
    POULTRY_IN_PLANTS = "poultry in plants"


@dataclass(frozen=True, slots=True)
class HoldTable:
    """Rows of degrees Fahrenheit and seconds (0: at once), warmest last, and where they are read.

    `from_memory` marks a table that was written down from memory: compare it with the printed one before use.
    """

    name: Text
    rows: tuple[tuple[int, int], ...]
    source: Text
    from_memory: bool = False


@dataclass(frozen=True, slots=True)
class Hold:
    """How long food is held: the row that counts, its time, and the table it is from."""

    row: Quantity
    time: Quantity
    table: HoldTable


_ROAST = (
    (130, 6720), (131, 5340), (133, 3360), (135, 2160), (136, 1680), (138, 1080), (140, 720), (142, 480), (144, 300),
    (145, 240), (147, 134), (149, 85), (151, 54), (153, 34), (155, 22), (157, 14), (158, 0),
)  # fmt: skip
TABLES: Mapping[Meat, HoldTable] = MappingProxyType(
    {
        Meat.ROAST: HoldTable(
            message("Whole roasts of beef, pork, lamb and cured pork"),
            _ROAST,
            message("FDA Food Code 2022, § 3-401.11(B)(2); the 6.5-log column of FSIS Appendix A (1999)"),
        ),
        Meat.GROUND: HoldTable(
            message("Ground or injected meat, and eggs that are pooled or held"),
            ((145, 180), (150, 60), (155, 17), (158, 0)),
            message("FDA Food Code 2022, § 3-401.11(A)(2)"),
        ),
        Meat.POULTRY: HoldTable(
            message("Poultry, and what is stuffed"),
            ((165, 0),),
            message("FDA Food Code 2022, § 3-401.11(A)(3)"),
        ),
        Meat.POULTRY_IN_PLANTS: HoldTable(
            message("Chicken of 1 % fat, in federal plants"),
            ((136, 3798), (140, 1512), (145, 504), (150, 162), (155, 45), (160, 14)),
            message("FSIS Appendix A, 7-log for Salmonella, seconds rounded up; from memory"),
            from_memory=True,
        ),
    }
)
"""The tables by what is cooked."""


def hold_at(meat: Meat, temperature: Quantity) -> Hold:
    """Return how long food of a kind is held at a temperature; a time of 0 is at once.

    A temperature (WrongDimension) no cooler than the first row (QuantityProblem).

    >>> found = hold_at(Meat.GROUND, Quantity.of(152, "°F"))
    >>> print(found.row, found.time)
    150 °F 60 s
    """
    if temperature.unit.dimension != TEMPERATURE:
        raise WrongDimension(message("{typed} is no temperature.", typed=temperature))
    table = TABLES[meat]
    rows = [(Quantity.of(degrees, "°F"), seconds) for degrees, seconds in table.rows]
    reached = [row for row in rows if row[0] <= temperature]
    if not reached:
        raise QuantityProblem(
            message("At {typed} no time is enough: the table begins at {first}.", typed=temperature, first=rows[0][0])
        )
    degrees, seconds = reached[-1]
    return Hold(degrees, Quantity.of(seconds, "s"), table)
