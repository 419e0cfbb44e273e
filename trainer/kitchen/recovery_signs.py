"""The signs of a recovery sheet: 24 signs of Douglas Crockford's base 32 (120 random bits) and two check digits.

`7K2M-QX4F-9T0B-ZR6H-31CW-D5NV-43`: in groups to be typed, the last two figures the remainder of the signs before them,
read as a number, by 97; so one wrong sign, and two neighbours that changed places, are told as a slip of the fingers
and never as a wrong sheet. NIST SP 800-63B-4, 3.1.2 (from memory) asks a look-up secret for 20 bits at the least.
"""

from __future__ import annotations

from trainer.kitchen.short_head import AGAIN, CHECK_SIGNS, REMAINDER_BY, SIGNS, compact
from trainer.messages import Text, message

SIGNS_OF_SHEET, GROUP = 24, 4
BITS = 5 * SIGNS_OF_SHEET


def sheet_text(bits: int) -> str:
    """Return a sheet of so many bits as it is printed.

    >>> sheet_text(1)
    '0000-0000-0000-0000-0000-0001-01'
    """
    signs = "".join(SIGNS[bits >> 5 * place & 31] for place in reversed(range(SIGNS_OF_SHEET)))
    groups = (signs[place : place + GROUP] for place in range(0, SIGNS_OF_SHEET, GROUP))
    return "-".join((*groups, f"{bits % REMAINDER_BY:02}"))


class SheetSigns(str):
    """The signs of a sheet as they were printed, in groups: what is hashed."""

    __slots__ = ()


def read_sheet(typed: str) -> SheetSigns | Text:
    """Return the signs typed off a sheet, or what is wrong with the typing.

    Any case, blanks and dashes anywhere, O for 0, I and L for 1.

    >>> read_sheet("oooo 0000 0000 0000 0000 000l 01")
    '0000-0000-0000-0000-0000-0001-01'
    """
    signs = compact(typed)
    strange = next((sign for sign in signs if sign not in SIGNS), "")
    if strange:
        return message("A recovery sheet has figures and letters, but no U; this has “{sign}”.", sign=strange)
    own, check = signs[:SIGNS_OF_SHEET], signs[SIGNS_OF_SHEET:]
    if len(signs) != SIGNS_OF_SHEET + CHECK_SIGNS or not check.isdigit():
        return message(
            "A recovery sheet has {wanted} signs, the last two of them figures; this has {typed}.",
            wanted=SIGNS_OF_SHEET + CHECK_SIGNS,
            typed=len(signs),
        )
    bits = sum(SIGNS.index(sign) << 5 * place for place, sign in enumerate(reversed(own)))
    if bits % REMAINDER_BY != int(check):
        return message(
            "The last two figures do not fit the signs before them: one was typed wrong. {again}", again=AGAIN
        )
    return SheetSigns(sheet_text(bits))
