"""Every quantity of a question's text, as it stands there with its unit: what a cook could copy as an answer."""

from __future__ import annotations

import re

from tests.kitchen.quiz.asking import Asked

_NUMBER = r"(?:\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?)"
_UNITS = (
    r"°F|°C|kg|g|lb|oz|mL|L|%|ppm|in|mm|min|minutes|h|hours|seconds|s|days|degrees|gallons?|quarts?|pints?|cups?|"
    r"fluid ounces?|cases?|cans?|portions|pieces|pounds|ounces|guests|feet"
)
_QUANTITY = re.compile(rf"\$?{_NUMBER} lb {_NUMBER} oz|\$?-?{_NUMBER}(?: (?:{_UNITS})(?![A-Za-z]))?")
_NO_QUANTITY = re.compile(r"\d+:\d\d|\d+ (?:January|February|March|April|May|June|July|August|September|October|"
                          r"November|December)|answer 0\b")  # fmt: skip
"""A time of day, a date, and an answer that the text itself tells for a case are no quantities to copy."""


def echoes(question: Asked) -> tuple[str, ...]:
    """Return each quantity of the text as it stands with its unit, none twice; nothing where there is a choice."""
    text = "" if question.choices else _NO_QUANTITY.sub(" ", question.text)
    return tuple(dict.fromkeys(match[0] for match in _QUANTITY.finditer(text)))
