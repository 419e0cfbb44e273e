"""Money in the kitchen's own currency: the sign and its place by language, and amounts typed with any sign."""

from __future__ import annotations

from fractions import Fraction

import pytest
from babel.core import get_global
from babel.numbers import get_currency_symbol

from tests.kitchen.quiz.asking import context
from trainer.kitchen.currency import CODES, PATTERNS, in_currency, sign_of, without_sign
from trainer.kitchen.quiz.drawing import draw_question
from trainer.kitchen.quiz.families import ASKED, NUMERIC
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.quiz.wording import with_unit
from trainer.messages import translate
from trainer.recipe_math.figures import number_text
from trainer.store.catalogues import translations

MONEY_FAMILIES = (
    "edible_cost",
    "butcher_card",
    "butcher_portion",
    "butcher_factor",
    "cost_per_portion",
    "menu_price",
    "food_cost_percent",
)


def test_the_codes_are_those_in_use() -> None:
    """Legal tender of some territory today (Unicode CLDR, supplemental data, of the installed Babel)."""
    tender = {
        code
        for used in get_global("territory_currencies").values()
        for code, _, end, legal in used
        if legal and not end
    }
    assert tender == CODES
    assert PATTERNS.keys() <= CODES


@pytest.mark.parametrize(
    "code", sorted(set(PATTERNS) - {"MXN", "CAD", "AUD", "NZD", "ARS", "CLP", "COP", "UYU", "DOP"})
)
def test_a_sign_is_the_one_its_people_write(code: str) -> None:
    """The sign of the country's own locale (Unicode CLDR): Q in Guatemala, S/ in Peru."""
    home = {
        "USD": "en_US", "EUR": "en_IE", "GBP": "en_GB", "PEN": "es_PE", "GTQ": "es_GT", "CRC": "es_CR", "HNL": "es_HN",
        "NIO": "es_NI", "BOB": "es_BO", "PYG": "es_PY", "BRL": "pt_BR", "JPY": "en_JP", "CNY": "zh_CN", "INR": "en_IN",
        "PHP": "en_PH", "KRW": "ko_KR", "ILS": "he_IL",
    }  # fmt: skip
    written = get_currency_symbol(code, locale=home[code])
    assert sign_of(PATTERNS[code].pattern) in {written, {"JPY": "¥", "PYG": "₲"}.get(code, written)}


@pytest.mark.parametrize(
    ("code", "language", "says"),
    [
        ("USD", "en", "$12.50"),
        ("MXN", "es", "$12.50"),
        ("EUR", "en", "€12.50"),
        ("EUR", "es", "12.50 €"),
        ("GBP", "es", "£12.50"),
        ("PEN", "es", "S/ 12.50"),
        ("SEK", "en", "SEK 12.50"),
    ],
)
def test_the_sign_stands_where_the_language_has_it(code: str, language: str, says: str) -> None:
    """Before the amount in English, behind it in Spanish where the euro is paid with (common practice)."""
    assert translate(with_unit(Fraction(25, 2), "$"), in_currency(translations(language), code)) == says


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("family", MONEY_FAMILIES)
def test_a_question_about_money_speaks_of_one_currency(family: str, language: str) -> None:
    """Text, solution and what is said of a wrong method: no dollar is left in a kitchen that counts in pounds."""
    words = in_currency(translations(language), "GBP")
    for seed in range(5):
        asked = context(language=language)
        question = tell(draw_question(family, seed, asked), asked)
        told = [question.text, *question.solution, *(each.says for each in question.wrong_methods)]
        printed = " ".join(translate(each, words) for each in told)
        assert "£" in printed
        assert "$" not in printed


def test_no_other_family_speaks_of_money() -> None:
    """The families above are all that have an amount of money in text or answer."""
    for family in sorted({*ASKED} & NUMERIC.keys() - {*MONEY_FAMILIES}):
        question = tell(draw_question(family, 1, context()), context())
        assert "$" not in translate(question.text), family


@pytest.mark.parametrize("around", ["{}", "${}", "€{}", "{} €", "{}€", "S/ {}", "MXN {}", "{} usd", "Q{}", " {} "])
def test_an_amount_is_read_with_any_sign(around: str) -> None:
    """A kitchen counts in one currency: whichever sign a cook types, the amount is what is graded."""
    question = tell(draw_question("menu_price", 3, context()), context())
    right = number_text(question.answer.value, 2)
    assert grade(question, around.format(right), ".").is_right
    assert translate(grade(question, around.format(right), ".").understood) == f"${float(right):.2f}"


@pytest.mark.parametrize("text", ["3 lb", "12 cups", "$", "", "a pinch", "12 13", "x" * 10_000])
def test_what_is_no_amount_of_money_stays_as_it_was_typed(text: str) -> None:
    """It is then asked again, with what was typed."""
    assert without_sign(text) in {text, text.strip(), ""}
    question = tell(draw_question("menu_price", 3, context()), context())
    assert grade(question, text, ".").is_right is None
