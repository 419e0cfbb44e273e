"""A manager who has never seen a content file writes a whole small technique, in two languages, and publishes it."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from tests.browser.engine import Served
from tests.browser.journeys import step_in
from tests.browser.somebody import Somebody
from trainer.actions.demo_door import DEMO_PASSPHRASE
from trainer.actions.teaching import Teaching
from trainer.actions.writing import begin_own_content

OWN = "/writing/garlic_butter"
WORDS: Mapping[str, Mapping[str, str]] = {
    "whole": {
        "en.goal": "You can melt butter slowly and keep garlic pale.",
        "es.title": "Mantequilla de ajo",
        "es.goal": "Puedes derretir mantequilla despacio y dejar el ajo claro.",
    },
    "steps/first": {
        "en.first.do": "Weigh {butter} of butter into a small pan. Set it on low heat.",
        "en.first.cue": "Looks melted and clear, with no brown.",
        "en.first.why": "Brown butter would hide the garlic.",
        "es.first.do": "Pesa {butter} de mantequilla en una olla chica. Ponla a fuego bajo.",
        "es.first.cue": "Se ve derretida y clara, sin nada café.",
        "es.first.why": "La mantequilla café taparía el ajo.",
    },
    "steps/last": {
        "en.last.do": "Stir in the garlic. Take the pan off the heat.",
        "en.last.cue": "Smells of garlic. Looks pale.",
        "en.last.why": "Garlic burns fast and turns bitter.",
        "es.last.do": "Mezcla el ajo. Quita la olla del fuego.",
        "es.last.cue": "Huele a ajo. Se ve claro.",
        "es.last.why": "El ajo se quema rápido y amarga.",
    },
    "hazards/care": {
        "en.care": "Hot butter burns. Hold the pan by its handle with a dry towel.",
        "es.care": "La mantequilla caliente quema. Toma la olla del mango con un trapo seco.",
    },
    "faults/fault_one": {
        "en.fault_one.shows": "The garlic is brown.",
        "en.fault_one.cause": "The pan was too hot.",
        "en.fault_one.cure": "Throw it out and start again on low heat.",
        "es.fault_one.shows": "El ajo está café.",
        "es.fault_one.cause": "La olla estaba muy caliente.",
        "es.fault_one.cure": "Tíralo y empieza otra vez a fuego bajo.",
    },
    "checklist/safe": {"en.safe": "Holds the pan with a dry towel", "es.safe": "Toma la olla con un trapo seco"},
    "checklist/right": {"en.right": "The garlic is pale", "es.right": "El ajo está claro"},
    "checklist/dish": {"en.dish": "The butter is clear", "es.dish": "La mantequilla está clara"},
}
SKILLS = {
    "batch": ("Butter for a batch", "Mantequilla para un lote"),
    "buying": ("Butter to buy", "Mantequilla por comprar"),
    "portions": ("Portions from a batch", "Porciones de un lote"),
}
FOODS = {"en.words": "food: butter|garlic butter", "es.words": "food: mantequilla|mantequilla de ajo"}
READ_BACK = {"hazards/care", "checklist/safe"}


def typed(who: Somebody, words: Mapping[str, str]) -> None:
    """Type into the fields of a sheet by their names, and save it."""
    for name, text in words.items():
        who.page.fill(f'[name="{name}"]', text)
    who.press("Save as a draft")


def test_a_small_technique_is_written_and_published_without_a_file(
    quernstone: Served, sit_down: Callable[..., Somebody]
) -> None:
    """From a name to a standard: 12 sheets, each caution read back, nothing left to fix, on a phone."""
    quernstone.kitchen.teaching = Teaching(quernstone.kitchen.file, begin_own_content(quernstone.kitchen))
    ottilie = sit_down(quernstone)
    step_in(ottilie, quernstone, "Manager")
    ottilie.open("/standard")
    ottilie.press("Write what is taught")
    ottilie.fill("What a cook would call it", "Garlic butter")
    ottilie.press("Begin it")
    assert "things to fix" in ottilie.work
    ottilie.open(f"{OWN}/standard/new")
    line = {"called": "butter", "technique..target": "8 oz", "technique..give_or_take": "0.5 oz"}
    ottilie.page.select_option('[name="technique..source"]', "house")
    typed(
        ottilie, {**line, "en.": "A batch takes {butter} of butter.", "es.": "Un lote lleva {butter} de mantequilla."}
    )
    assert "Kept as a draft." in ottilie.work
    for sheet, words in WORDS.items():
        ottilie.open(f"{OWN}/{sheet}")
        typed(ottilie, words)
        if sheet in READ_BACK:
            assert "You wrote:" in ottilie.work
            ottilie.press("Yes, keep it")
        assert "Kept as a draft." in ottilie.work, sheet
        assert "to fix" not in ottilie.work, sheet
    for skill, (english, spanish) in SKILLS.items():
        ottilie.open(f"{OWN}/skills/garlic_butter_{skill}")
        typed(ottilie, {"en.title": english, "es.title": spanish, **FOODS})
        assert "to fix" not in ottilie.work, skill
    ottilie.open(f"{OWN}/stations")
    ottilie.page.locator("input[name=station]").first.check()
    ottilie.press("Save as a draft")
    assert "Nothing to fix." in ottilie.work
    ottilie.open("/standard")
    ottilie.fill("Your PIN or passphrase", DEMO_PASSPHRASE)
    ottilie.press_starting("Publish standard")
    assert "Saved" in ottilie.work
    assert "garlic_butter" in quernstone.kitchen.content.techniques
