"""The short form of a book's head, to be printed and typed: how many entries, 80 bits of their tree, two check digits.

`1093-7K2M-QX4F-9T0B-ZR6H-43`: the signs between size and check digits are those of Douglas Crockford's base 32
(crockford.com/base32.html), five bits each; the last two figures are the remainder of all before them by 97. So one
wrong sign, and two neighbours that changed places, never pass for right.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from trainer.messages import Text, message

SIGNS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
LOOK_ALIKE = str.maketrans("OIL", "011")
BITS_OF_ROOT, ROOT_SIGNS, CHECK_SIGNS = 80, 16, 2
MOST_FIGURES = 12  # of a size
REMAINDER_BY = 97
FEWEST_OLD, MOST_OLD, STRONG_OLD = 12, 64, 20
"""How many signs of an entry's hash stand for a head in the form of older sheets, and how many are 80 bits."""
AGAIN = message("Type it again, sign by sign.")


@dataclass(frozen=True, slots=True)
class ShortHead:
    """A book's first *size* entries, and the first 80 bits of the root of the tree over them as a number."""

    size: int
    bits: int

    @classmethod
    def of(cls, size: int, root: bytes) -> ShortHead:
        """Return the short head of a book with so many entries and this root (32 bytes)."""
        return cls(size, int.from_bytes(root[: BITS_OF_ROOT // 8]))

    @property
    def check(self) -> int:
        """Return what the two check digits say: 0 to 96."""
        return (self.size << BITS_OF_ROOT | self.bits) % REMAINDER_BY

    def as_text(self) -> str:
        """Return the head as it is printed.

        >>> ShortHead(1, 0).as_text()
        '1-0000-0000-0000-0000-01'
        """
        signs = "".join(SIGNS[self.bits >> 5 * place & 31] for place in reversed(range(ROOT_SIGNS)))
        groups = (signs[place : place + 4] for place in range(0, ROOT_SIGNS, 4))
        return "-".join((str(self.size), *groups, f"{self.check:02}"))


@dataclass(frozen=True, slots=True)
class OldHead:
    """The first signs of the last entry's hash, in small letters: what boards and copies of before printed."""

    signs: str

    @property
    def is_weak(self) -> bool:
        """Return whether a book with the same signs could be searched for: 12 signs are 48 bits, some hours' work."""
        return len(self.signs) < STRONG_OLD


def read_head(typed: str) -> ShortHead | OldHead | Text:
    """Return the head typed, in the form of now or of older sheets, or what is wrong with it; "" where none is typed.

    >>> read_head("488496 476B96")
    OldHead(signs='488496476b96')
    """
    signs = "".join(typed.split()).lower()
    found = read_short_head(typed) if signs else ""
    is_old = FEWEST_OLD <= len(signs) <= MOST_OLD and not set(signs) - set("0123456789abcdef")
    return OldHead(signs) if is_old and not isinstance(found, ShortHead) else found


def compact(typed: str) -> str:
    """Return a head as typed with neither blanks nor dashes, in capitals, and 0 and 1 for the letters like them.

    >>> compact("l093-7k2m QX4F 9tOb")
    '10937K2MQX4F9T0B'
    """
    return "".join(typed.replace("-", "").split()).upper().translate(LOOK_ALIKE)


def read_short_head(typed: str) -> ShortHead | Text:
    """Return the head a person typed off paper, or what is wrong with the typing; which never says that it is forged.

    Any case, blanks and dashes anywhere, O for 0, I and L for 1.
    """
    signs = compact(typed)
    strange = next((sign for sign in signs if sign not in SIGNS), "")
    if strange:
        return message(
            "A check value has figures and letters, but no U; this has “{sign}”. {again}", sign=strange, again=AGAIN
        )
    rest, check = signs[:-CHECK_SIGNS], signs[-CHECK_SIGNS:]
    size, root = rest[:-ROOT_SIGNS], rest[-ROOT_SIGNS:]
    if not (size.isdigit() and check.isdigit() and len(size) <= MOST_FIGURES and int(size)):
        return message("A check value looks like 1093-7K2M-QX4F-9T0B-ZR6H-43. {again}", again=AGAIN)
    head = ShortHead(int(size), sum(SIGNS.index(sign) << 5 * place for place, sign in enumerate(reversed(root))))
    if head.check != int(check):
        return message(
            "The last two figures do not fit the signs before them: one was typed wrong. {again}", again=AGAIN
        )
    return head


def says_what_was_lost(restored: Mapping[str, Any], size: int) -> bool:
    """Return whether the body of a `book_restored` says that a head over so many entries is of a book that was lost."""
    first, last = restored["lost_from"], restored["lost_to"]
    return bool(first <= size and (last == 0 or size <= last))
