"""Measured lines compared, and printed in the words of the content's own language."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.limit_text import duration_text as time_of
from trainer.kitchen.limit_text import label_text as label_of
from trainer.kitchen.limit_text import limit_text as text_of
from trainer.kitchen.reading_units import System
from trainer.kitchen.technique import Limit
from trainer.messages import translate
from trainer.store.catalogues import ENGLISH, translations

First = System


def limit_text(limit: Limit, first: System = "us", language: str = ENGLISH) -> str:
    """Return a line in a language's words, as `kitchen.limit_text` prints every limit."""
    return translate(text_of(limit, first), translations(language))


def label_text(limit: Limit, first: System = "us", language: str = ENGLISH) -> str:
    """Return a line in a language's words, as short as a drawing's label."""
    return translate(label_of(limit, first), translations(language))


def duration_text(seconds: Fraction | int, language: str = ENGLISH) -> str:
    """Return a time as a language says it.

    >>> duration_text(90), duration_text(7 * 86_400, "es")
    ('1 minute 30 seconds', '7 días')
    """
    return translate(time_of(seconds), translations(language))


def is_same_kind(one: Limit, other: Limit) -> bool:
    """Return whether two lines measure the same kind of thing."""
    ends = [limit.target or limit.highest or limit.lowest for limit in (one, other)]
    return all(ends) and len({end.unit.dimension for end in ends if end}) == 1


def has_ends(limit: Limit) -> bool:
    """Return whether something can lie inside or outside a line; a target alone is a named value."""
    return limit.lowest is not None or limit.highest is not None


def asks_no_less(limit: Limit, published: Limit) -> bool:
    """Return whether everything a line lets in, the published one lets in as well; compared exactly."""
    ends = [end for end in (limit.lowest, limit.highest) if end is not None]
    closed = (published.lowest is None or limit.lowest is not None) and (
        published.highest is None or limit.highest is not None
    )
    return has_ends(published) and bool(ends) and closed and all(published.admits(end) for end in ends)
