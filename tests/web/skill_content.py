"""The small content, in which a technique asks for skills one by one, and no quiz is sat."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType

from tests.web.small_content import CONTENT, NESTS
from trainer.kitchen.technique import AskedSkill, QuestionSetting


def _skill(name: str, title: str, family: str, *, safety: bool = False) -> AskedSkill:
    setting = QuestionSetting(family, MappingProxyType({}), MappingProxyType({}), 1)
    return AskedSkill(name, title, setting, safety, 6 if safety else 12, Fraction(1, 10), 3)


BUYING = _skill("buying", "What to buy", "amount_to_buy")
SCALING = _skill("scaling", "Scaling a batch", "scale_by_yield")
COOLING = _skill("cooling", "First cooling stage", "cooling_first_stage", safety=True)
SKILLS = {one.id: one for one in (BUYING, SCALING, COOLING)}
SKILLED = replace(NESTS, knowledge=(BUYING, COOLING), questions=(BUYING.setting, COOLING.setting))
SKILL_CONTENT = replace(
    CONTENT,
    techniques=MappingProxyType({**CONTENT.techniques, "nests": SKILLED}),
    skills=MappingProxyType(SKILLS),
)
