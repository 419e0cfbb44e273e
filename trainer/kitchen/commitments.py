"""Names and birth dates as the book has them: the digest of a text that is kept beside it and can be dropped.

The text holds a salt of 16 random bytes too, so that nobody can find a birth date by trying every day of a century. A
text dropped takes both with it, and what is left in the book tells nothing.
"""

from __future__ import annotations

from datetime import date

from trainer.kitchen.book import canonical

SALT_BYTES = 16


def name_paper(name: str, salt: str) -> bytes:
    """Return the text that stands for a name: canonical JSON of the name and the salt."""
    return canonical({"name": name, "salt": salt}).encode()


def birth_paper(born: date, salt: str) -> bytes:
    """Return the text that stands for a birth date: canonical JSON of the day and the salt."""
    return canonical({"born": born.isoformat(), "salt": salt}).encode()
