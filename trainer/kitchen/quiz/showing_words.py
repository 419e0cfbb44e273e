"""What is said where a wrong method or a slip shows: the first time about the number, the second about the cook."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from trainer.messages import Message, Printable, Text, message


class Clauses(NamedTuple):
    """What was done, in one clause: as it stands after "if", and as it stands after "twice"."""

    once: Text
    twice: Text


SLIPS: Mapping[str, Clauses] = MappingProxyType(
    {
        "slip_x1000": Clauses(
            message("a thousand is lost on the way from one unit to the other"),
            message("a thousand was lost on the way from one unit to the other"),
        ),
        "slip_x100": Clauses(
            message("a hundred is lost on the way from one unit to the other"),
            message("a hundred was lost on the way from one unit to the other"),
        ),
        "slip_x60": Clauses(
            message("hours, minutes and seconds are taken for one another"),
            message("hours, minutes and seconds were taken for one another"),
        ),
        "slip_x16": Clauses(
            message("a sixteen is lost on the way from one unit to the other"),
            message("a sixteen was lost on the way from one unit to the other"),
        ),
        "slip_point": Clauses(
            message("the decimal point stands one place off"), message("the decimal point stood one place off")
        ),
        "slip_lb_oz": Clauses(
            message("the ounces are written behind the point"), message("the ounces were written behind the point")
        ),
        "slip_clock": Clauses(
            message("the minutes or seconds are written behind the point"),
            message("the minutes or seconds were written behind the point"),
        ),
        "slip_share": Clauses(
            message("a share is written with the percent sign"), message("a share was written with the percent sign")
        ),
        "slip_unit": Clauses(
            message("the number is right and another unit stands with it"),
            message("the number was right and another unit stood with it"),
        ),
    }
)
"""What each slip of `slip_layer` means, for a cook and a teacher alike."""


def first_showing(figure: Text | Printable, clause: Text) -> Message:
    """Return what is said the first time: what number comes out if a clause is so."""
    return message("{figure} is what comes out if {clause}.", figure=figure, clause=clause)


def second_showing(twice: Text, first: Text, second: Text) -> Message:
    """Return what is said the second time, with both figures given.

    >>> from trainer.messages import translate
    >>> translate(second_showing("the loss was left out", "5.2 kg", "3.9 kg"))
    'Twice the loss was left out: 5.2 kg and 3.9 kg. See one worked, then go on.'
    """
    return message(
        "Twice {clause}: {first} and {second}. See one worked, then go on.", clause=twice, first=first, second=second
    )
