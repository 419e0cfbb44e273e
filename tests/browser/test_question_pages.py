"""Every kind of question on a phone: what is asked, its drawing, the answer and all its keys are on one screen."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType

import pytest

from tests.browser.engine import Served
from tests.browser.journeys import person_id, step_in
from tests.browser.somebody import Somebody
from tests.printed import english
from trainer.actions import studying
from trainer.actions.asking_skills import OpenQuestion, open_question
from trainer.actions.open_kitchen import Library, Units
from trainer.actions.practising import alone
from trainer.kitchen.quiz.drawing import draw_question
from trainer.kitchen.quiz.drawn import QuestionContext
from trainer.kitchen.quiz.families import NUMERIC
from trainer.kitchen.quiz.material import material_of
from trainer.kitchen.technique import AskedSkill, QuestionSetting

TECHNIQUE, LUCK = "knife_cuts", Fraction(1, 10)
SEEDS = 20
REACH = """() => {
  const bar = document.querySelector('.bar').getBoundingClientRect().top;
  const keys = [...document.querySelectorAll('.sums button')].map(key => key.getBoundingClientRect());
  return {
    under: Math.max(...keys.map(key => key.bottom)) - bar,
    small: keys.filter(key => key.width < 48 || key.height < 48).length,
    aside: document.documentElement.scrollWidth - innerWidth,
  };
}"""


def asking_everything(served: Served, cook: str, units: Units = "us") -> dict[str, str]:
    """Let a technique the cook has read ask for a skill of each family of sums, each with a long question open.

    Return the page of each.
    """
    content, nothing = served.kitchen.content, MappingProxyType[str, tuple[str, ...]]({})
    skills = {
        name: AskedSkill(name, name, QuestionSetting(name, nothing, MappingProxyType({}), 1), False, 12, LUCK, 3)
        for name in NUMERIC
    }
    every = replace(content.techniques[TECHNIQUE], knowledge=tuple(skills.values()))
    techniques = MappingProxyType({**content.techniques, TECHNIQUE: every})
    served.kitchen.content = replace(content, techniques=techniques, skills=MappingProxyType(skills))
    k, now = served.kitchen, served.clock()
    studying.acknowledge_reading(k, cook=cook, technique=TECHNIQUE, now=now, key="read")
    for name, skill in skills.items():
        seed = longest(skill, served, units)
        opened = open_question(k, cook=cook, technique=TECHNIQUE, skill=name, seed=seed, now=now, units=units)
        assert isinstance(opened, OpenQuestion), opened
    return {name: f"/techniques/{TECHNIQUE}/questions?skill={name}" for name in skills}


def longest(skill: AskedSkill, served: Served, units: Units) -> int:
    """Return the seed of the longest question of the first few."""
    return max(range(SEEDS), key=lambda seed: len(english(alone(skill, seed, served.kitchen.content, units).text)))


def test_every_sum_fits_a_phone(quernstone: Served, sit_down: Callable[..., Somebody]) -> None:
    """At 360 × 780 no key lies under the bar or is smaller than a fingertip, and nothing runs off to the side."""
    noor, cook = sit_down(quernstone), person_id(quernstone, "New hire")
    pages = asking_everything(quernstone, cook)
    step_in(noor, quernstone, "New hire")
    amiss = {}
    for family, page in pages.items():
        noor.open(page)
        assert noor.page.locator("input[name=skill]").get_attribute("value") == family
        found = noor.page.evaluate(REACH)
        if found["under"] > 0 or found["small"] or found["aside"] > 0:
            amiss[family] = found
    assert amiss == {}


def test_the_keys_write_a_mixed_number_below_zero(quernstone: Served, sit_down: Callable[..., Somebody]) -> None:
    """Minus, figures, gap and stroke: -2 1/2; Erase takes back one sign; letters come from the phone's own keys."""
    noor, cook = sit_down(quernstone), person_id(quernstone, "New hire")
    pages = asking_everything(quernstone, cook)
    step_in(noor, quernstone, "New hire")
    noor.open(next(iter(pages.values())))
    for key in ("−, below zero", "2", "Space", "1", "/, for a fraction", "2", "7", "Erase one"):
        noor.press(key)
    answer = noor.page.get_by_label("Your answer")
    assert answer.input_value() == "-2 1/2"
    assert answer.evaluate("input => input.inputMode") == "text"


SCENE = """() => {
  const bar = document.querySelector('.bar').getBoundingClientRect().top;
  const rows = [...document.querySelectorAll('.tick, .names-of select')].map(row => row.getBoundingClientRect());
  return {
    under: Math.max(0, ...rows.map(row => row.bottom)) - bar,
    small: rows.filter(row => row.height < 56).length,
    aside: document.documentElement.scrollWidth - innerWidth,
  };
}"""


@pytest.mark.parametrize("technique", ["safe_holding", "knife_cuts", "allergens"])
def test_every_scene_fits_a_phone(quernstone: Served, sit_down: Callable[..., Somebody], technique: str) -> None:
    """At 360 × 740 each scene has its drawing and all its answers above the bar, in rows of 56 px or more."""
    noor = sit_down(quernstone)
    noor.page.set_viewport_size({"width": 360, "height": 740})
    step_in(noor, quernstone, "New hire")
    content = quernstone.kitchen.content
    context = QuestionContext(content.question_words, material_of(content.techniques[technique]))
    seeds: dict[str, int] = {}
    for seed in range(600):
        seeds.setdefault(draw_question("decide", seed, context).stem, seed)
    assert seeds.keys() == {scene.id for scene in content.techniques[technique].scenes}
    amiss = {}
    for scene, seed in seeds.items():
        noor.open(f"/techniques/{technique}/try/decide?seed={seed}")
        found = noor.page.evaluate(SCENE)
        if found["under"] > 0 or found["small"] or found["aside"] > 0:
            amiss[scene] = found
    assert amiss == {}


@pytest.mark.parametrize("language", ["en", "es"])
def test_every_technique_in_words_fits_a_phone(
    quernstone: Served, sit_down: Callable[..., Somebody], library: Library, language: str
) -> None:
    """At 360 × 740 each skill about faults or steps has its question and all its answers above the bar, at 18 px."""
    noor, content = sit_down(quernstone), quernstone.kitchen.content
    quernstone.kitchen._library = library
    noor.page.set_viewport_size({"width": 360, "height": 740})
    step_in(noor, quernstone, "New hire")
    noor.speak(language)
    asked = [one for one in content.skills.values() if one.setting.family in {"choose_fault", "order_steps"}]
    amiss = {}
    for seed, one in ((seed, one) for one in asked for seed in range(3)):
        noor.open(f"/techniques/{one.of}/try/{one.setting.family}?seed={seed}")
        found = noor.page.evaluate(SCENE)
        if found["under"] > 0 or found["small"] or found["aside"] > 0:
            amiss[one.id, seed] = found
    assert len(asked) > 20
    assert amiss == {}


def test_the_button_says_the_choice_again(quernstone: Served, sit_down: Callable[..., Somebody]) -> None:
    """Letters of all that is marked, in the order of the page; none, and it says only what it does."""
    noor = sit_down(quernstone)
    step_in(noor, quernstone, "New hire")
    noor.open("/techniques/allergens/try/find_allergen?seed=6")
    boxes, button = noor.page.get_by_role("checkbox"), noor.page.locator("button.enamel")
    assert boxes.count() == 6
    boxes.nth(2).check()
    boxes.nth(0).check()
    assert button.inner_text() == "Answer A, C"
    boxes.nth(2).uncheck()
    assert button.inner_text() == "Answer A"
    boxes.nth(0).uncheck()
    assert button.inner_text() == "Answer"
