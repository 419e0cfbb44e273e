"""Why a text is no quantity, in words that name the value and the rule it breaks."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping

from trainer.messages import Message, Text, message
from trainer.recipe_math.quantity import QuantityProblem

SHOWN = 60
_LIQUIDS = "water|milk|cream|wine|stock|broth|oil|juice|vinegar|beer|syrup|liquid|liqueur|brandy|coffee|tea|buttermilk"
_FIGURE = r"[0-9][0-9.,/ ]*"


class NotAQuantity(QuantityProblem):
    """A text that is no quantity: `text` as given (cut short), `rule` the rule it breaks."""

    def __init__(self, text: str, rule: Text) -> None:
        """Keep the text and the rule; the message names both."""
        self.text = text[:SHOWN]
        self.rule = rule
        super().__init__(message("“{text}”: {rule}", text=self.text, rule=rule))


class Ambiguous(QuantityProblem):
    """A text with more than one reading: `readings` can each be given instead, and read one way only."""

    def __init__(self, text: str, readings: tuple[str, ...], why: Text) -> None:
        """Keep the text and its readings; the message asks which is meant."""
        self.text = text[:SHOWN]
        self.readings = readings
        super().__init__(
            message(
                "“{text}”: {why}. Which is meant: {one} or {other}?",
                text=self.text,
                why=why,
                one=readings[0],
                other=readings[1],
            )
        )


UNMEASURED = message("that cannot be measured: write a weight or a volume.")
NO_NUMBER = message("there is no number in it: write figures, as in 2 cups.")
_OF_KIND: Mapping[str, tuple[Message, Message]] = {
    "temperature": (
        message("that is no temperature: write the degrees."),
        message("there is no number in it: write the degrees in figures."),
    ),
    "temperature difference": (
        message("that is no temperature: write the degrees."),
        message("there is no number in it: write the degrees in figures."),
    ),
    "duration": (
        message("that is no time: write minutes, hours or days."),
        message("there is no number in it: write minutes, hours or days in figures."),
    ),
    "length": (
        message("that is no length: write it in figures."),
        message("there is no number in it: write a length in figures."),
    ),
    "share": (
        message("that is no percentage: write the percent."),
        message("there is no number in it: write the percent in figures."),
    ),
    "money": (
        message("that is no amount of money: write it in figures."),
        message("there is no number in it: write the amount in figures."),
    ),
    "count": (
        message("that is no count: write how many."),
        message("there is no number in it: write how many in figures."),
    ),
}
"""What to write in place of words that measure nothing, and of a text without a number, by what is asked for."""
_RULES = tuple(
    (re.compile(pattern, re.IGNORECASE), rule)
    for pattern, rule in (
        (r"\s*", message("there is nothing to read; write a number and a unit, as in 2 1/2 cups.")),
        (r".*\b(?:nan|inf|infinity|infinite)\b.*", message("NaN and infinity are no amounts.")),
        (r".*[0-9]_[0-9].*", message("an underscore has no place in a number.")),
        (r".*(?:[0-9.]e[+-]?[0-9]|[0-9]\s*(?:\^|\*\*)\s*[0-9]).*",
         message("exponents are not read: write the number out.")),
        (r".*(?:#|\b(?:no|nr|number)\b\.?)\s*[0-9].*",
         message(
             "a can number is a size, not an amount: write how many and the weight of one, as in 2 (6 lb 9 oz) cans."
         )),
        (r".*[$€£].*[a-z].*", message("an amount of money stands alone: write $4.50.")),
        (r"\s*-.*", message("an amount cannot be negative; only temperatures can.")),
        (r".*[0-9]\s*(?:-|–|—|\.\.+|\bto\b|\bor\b|\ba\b|\bo\b)\s*\$?[0-9].*|.*\b(?:between|entre)\b.*",
         message("a range is two amounts: write one; a whole number and a fraction stand apart, as in 2 1/2.")),
        (r".*\s-\s*[$€£]?[0-9].*", message("nothing is taken away inside a quantity: write what is left.")),
        (r".*\b(?:pinch|dash|handful|knob|splash|drizzle|smidgen|to taste|some|few"
         r"|pizca|puñado|chorrito|chorro|al gusto|poco|poquito)\b.*",
         UNMEASURED),
        (r".*(?:\b(?:about|approx|approximately|around|ca|circa|heaped|heaping|scant|rounded|generous|nearly"
         r"|unos|unas|como|casi|aprox|aproximadamente|colmad[ao]s?|copetead[ao]s?)\b|~|≈).*",
         message("an amount is exact: leave out words such as about or heaped.")),
        (rf".*[0-9]\s*(?:oz|ounces?)\.?\s+(?:of\s+)?(?:\w+\s+)?(?:{_LIQUIDS})\b.*",
         message(
             "oz is a weight, and a liquid may be meant by volume: write fl oz for volume, or oz alone for weight."
         )),
        (rf"\s*{_FIGURE}\s*[a-z\"]*\s*[x×]\s*{_FIGURE}\s*[a-z\"]*\s*",
         message("two sides make an area: write all three sides of a box, as in 12x20x2.5 in.")),
        (r".*/.*/.*|\s*/.*|.*/\s*", message("a fraction is one number over another, as in 3/4.")),
        (r"\s*[.,]?[0-9][0-9.,]*(?:\s*/\s*[0-9]+|\s+[0-9]+\s*/\s*[0-9]+)?\s*",
         message("the unit is missing: write it after the number, as in 510 g.")),
        (r".*[0-9]\s*:\s*[0-9].*",
         message("a clock time stands alone and has two figures after each colon, as in 1:02:30.")),
        (r".*[+,&;:(]\s*", message("something is missing at the end.")),
        (r"\s*\+.*", message("a plus stands between two amounts only.")),
        (r".*[0-9]\s+[0-9].*",
         message("two numbers stand side by side: write thousands without a gap, or a unit between.")),
        (r"[^0-9]*", NO_NUMBER),
        (r".*[0-9]\s*", message("the last number has no unit: write it after the number, as in 1 lb 2 oz.")),
    )
)  # fmt: skip


def refusal(text: str, kind: str | None = None) -> NotAQuantity:
    """Return the refusal of a text, with the first rule it breaks; where none is known, that its unit is unknown.

    *kind* is the dimension asked for, so that where a temperature is asked nobody is sent to a scale.

    >>> from trainer.messages import translate
    >>> print(translate(refusal("2-3 cups").rule))
    a range is two amounts: write one; a whole number and a fraction stand apart, as in 2 1/2.
    """
    for pattern, rule in _RULES:
        if pattern.fullmatch(text):
            return NotAQuantity(text, _of_kind(rule, kind))
    words = " ".join(re.sub(r"[^\w#\"°%. ]|[0-9]", " ", text).split())[:SHOWN]
    return NotAQuantity(
        text,
        message(
            "“{words}” is not a unit this kitchen knows; write the amount alone, without the ingredient.", words=words
        ),
    )


def _of_kind(rule: Message, kind: str | None) -> Message:
    """Return a rule that names what to write as it is said of another kind than weights and volumes."""
    named = _OF_KIND.get((kind or "").split(":")[0])
    if named is None:
        return rule
    return {UNMEASURED: named[0], NO_NUMBER: named[1]}.get(rule, rule)


def bad_figure(figures: str, mark: str | None) -> Text:
    """Return the rule that figures break when points and commas stand where they mean nothing.

    >>> from trainer.messages import translate
    >>> translate(bad_figure("1,5", "."))
    '1,5 is no number where the decimal mark is a point: a comma then stands before three figures only.'
    """
    if mark is None:
        return message(
            "{figures} is no number: points and commas part thousands in threes, or stand before the decimals once.",
            figures=figures,
        )
    if mark == ".":
        return message(
            "{figures} is no number where the decimal mark is a point: a comma then stands before three figures only.",
            figures=figures,
        )
    return message(
        "{figures} is no number where the decimal mark is a comma: a point then stands before three figures only.",
        figures=figures,
    )


def made_plain(text: str) -> str:
    """Return the text with full-width figures, one-sign fractions and odd spaces made plain (Unicode form NFKC).

    Raises NotAQuantity for raised or lowered figures, which would change the number, and for signs nobody writes in a
    quantity, such as emoji.

    >>> made_plain("１ ½ cups"), made_plain("2½")
    ('1 1/2 cups', '2 1/2')
    """
    parts = [_plain_sign(sign, text) for sign in text]
    plain = unicodedata.normalize("NFKC", "".join(parts)).translate(_SAME_AS)
    return " ".join(plain.split())


_SAME_AS = str.maketrans({"⁄": "/", "∕": "/", "−": "-", "″": '"', "”": '"'})
_KEPT = frozenset('°%$€£¢×/⁄∕−–—-+&~≈"″”.,:;()#’')


def _plain_sign(sign: str, text: str) -> str:
    """Return what a sign stands for: a one-sign fraction gets a space before it, so 1½ is not 11/2."""
    if sign == "º":
        return "°"
    kind = unicodedata.decomposition(sign)
    if kind.startswith("<fraction>"):
        return f" {sign}"
    category = unicodedata.category(sign)
    if kind.startswith(("<super>", "<sub>")):
        raise NotAQuantity(text, message("the raised or lowered {sign} is not read: write the number out.", sign=sign))
    if category in {"Nd", "Zs"} or category.startswith("L") or sign in _KEPT or sign.isascii() or kind:
        return _figure_or_sign(sign, text)
    raise NotAQuantity(text, message("only letters, the figures 0 to 9 and plain signs are read."))


def _figure_or_sign(sign: str, text: str) -> str:
    if sign.isdecimal() and not unicodedata.normalize("NFKC", sign).isascii():
        raise NotAQuantity(text, message("the figure {sign} is not read: write the figures 0 to 9.", sign=sign))
    return sign
