"""What a voice is given to say: numbers, units and signs as words; and what each page reads aloud."""

from __future__ import annotations

import pytest

from tests.web.hands import Hands
from tests.web.skill_content import SKILL_CONTENT
from tests.web.test_cook import read_through
from trainer.actions.open_kitchen import Kitchen
from trainer.messages import Text, translate
from trainer.store.catalogues import translations
from trainer.web.spoken import say, spoken

SPANISH = translations("es")
"""Units and their names as spoken: The NIST Guide for the Use of the International System of Units (SP 811, 2008),
table 6 and appendix B.8; in Spanish as in Norma Oficial Mexicana NOM-008-SCFI-2002, tables 1 and 20 (from memory)."""


def in_spanish(text: Text) -> str:
    """Return a message in Spanish."""
    return translate(text, SPANISH)


@pytest.mark.parametrize(
    ("printed", "said"),
    [
        ("176–185 °F (80–85 °C)", "176 to 185 degrees Fahrenheit (80 to 85 degrees Celsius)"),
        ("1/2 in", "one half inch"),
        ("1 1/2 fl oz each", "1 and one half fluid ounces each"),
        ("4 lb 14 oz", "4 pounds 14 ounces"),
        ("1 lb", "1 pound"),
        ("4 h − 1 h 45 = 2 h 15", "4 hours minus 1 hour 45 minutes equals 2 hours 15 minutes"),
        ("It is 16:20.", "It is 16:20."),
        ("1:3 vinegar to oil", "1 to 3 vinegar to oil"),
        ("50–200 ppm", "50 to 200 parts per million"),
        ("Lay 2 in the pan, 2 in apart", "Lay 2 in the pan, 2 inches apart"),
        ("5/12 of 1,500 g", "5 over 12 of 1,500 grams"),
        ("28 ÷ 4 × 2 ≥ 14 %", "28 divided by 4 times 2 at least 14 percent"),
        ("Whisk the whole time.", "Whisk the whole time."),
    ],
)
def test_a_voice_is_given_words_where_it_would_misread(printed: str, said: str) -> None:
    """A number with its unit, a fraction, a span, a sign; a clock and plain words stay as they are."""
    assert say(printed, translate) == said


@pytest.mark.parametrize(
    ("printed", "said"),
    [
        ("57 °C (135 °F) o más", "57 grados Celsius (135 grados Fahrenheit) o más"),
        ("3/4 lb", "tres cuartos de libra"),
        ("1 1/2 h", "1 y medio horas"),
        ("2–3 min", "2 a 3 minutos"),
        ("5.2 kg × 3 = 15.6 kg", "5.2 kilogramos por 3 es igual a 15.6 kilogramos"),
    ],
)
def test_it_is_so_in_spanish_too(printed: str, said: str) -> None:
    """By the same rules, with the words of the catalogue."""
    assert say(printed, in_spanish) == said


def test_parts_are_said_as_sentences() -> None:
    """Each ends as one, so that a voice pauses; nothing is said of nothing."""
    assert spoken(["Weigh", "", "Is it 4 oz?"], translate) == "Weigh. Is it 4 ounces?"


def heard(hands: Hands, path: str) -> str:
    """Return what the one button of a page reads aloud."""
    (button,) = hands.open(path).soup.select("[data-say]")
    assert button["type"] == "button"
    assert button.has_attr("hidden")
    return str(button["data-say"])


def test_a_step_is_read_with_its_caution_first(ana: Hands) -> None:
    """Caution, name, sentence, time, cue: in the order in which they matter."""
    assert heard(ana, "/techniques/nests/steps/3") == (
        "Caution: The pot is hot. Use dry cloths. Boil one. Boil one nest as a trial. 1 minute 30 seconds. "
        "Looks loose after a stir."
    )


def test_the_first_page_is_read_with_cautions_and_allergens(ana: Hands) -> None:
    """What to mind comes before the name and the goal."""
    said = heard(ana, "/techniques/nests")
    assert said.startswith("Caution: Keep fingers out of the die while it runs. Allergens: wheat, egg.")
    assert said.endswith("Pasta nesting. Catch and nest fresh strands so every plate weighs the same.")


def test_a_question_and_what_came_of_it_are_read(kitchen: Kitchen, ana: Hands) -> None:
    """What is asked; after an answer what is said of it and how it is worked."""
    kitchen.content = SKILL_CONTENT
    read_through(ana)
    assert "ounces" in heard(ana, "/techniques/nests/questions") or "?" in heard(ana, "/techniques/nests/questions")
    ana.press("Answer", {"Your answer": "1"})
    assert str(ana.page.soup.select("[data-say]")[0]["data-say"]).startswith("Not yet.")
