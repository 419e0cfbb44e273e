"""Questions one by one under way in the invented kitchen: a technique that asks for skills, answers, practice due."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from types import MappingProxyType

from tests.web.conftest import NOON
from tests.web.kitchen_people import write
from tests.web.small_content import NESTS
from trainer.actions.answering import Given, answer
from trainer.actions.asking_skills import OpenQuestion, context_for, open_question
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Saved
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.technique import AskedSkill, QuestionSetting, Technique
from trainer.recipe_math.figures import number_text


def _skill(name: str, family: str) -> AskedSkill:
    setting = QuestionSetting(family, MappingProxyType({}), MappingProxyType({}), 1)
    return AskedSkill(name, f"The {name} skill", setting, is_safety=False, months=12, luck=Fraction(1, 10), base=3)


SKILLS = {one.id: one for one in (_skill("buy", "amount_to_buy"), _skill("scale", "scale_by_yield"))}
ASKED_BY_SKILL: Technique = replace(
    NESTS,
    id="skills",
    title="The skills",
    knowledge=tuple(SKILLS.values()),
    questions=tuple(one.setting for one in SKILLS.values()),
)


@dataclass(frozen=True, slots=True)
class Answers:
    """The entries of a right and of a wrong answer."""

    right: str
    wrong: str


def put_questions_to_work(k: Kitchen) -> Answers:
    """Let Ana answer one skill rightly and the other wrongly, twice: practice is due; Dev's last wait is lifted."""
    for cook in ("ana", "dev"):
        write(k, "technique_read", cook, {"technique": "skills", "edition": 2})
    right = _answered(k, "buy", "right")
    wrong = [_answered(k, "scale", "wrong") for _ in range(2)]
    body = {"skill": "scale", "family": "scale_by_yield", "base": 3, "months": 12}
    write(k, "drill_given", "dev", {**body, "technique": "skills", "name": "", "words": ""}, by="bo")
    write(k, "drill_done", "dev", {**body, "technique": "skills", "name": "", "seeds": [1]})
    write(k, "wait_lifted", "dev", {**body, "reason": ""}, by="cleo")
    return Answers(right, wrong[-1])


def _answered(k: Kitchen, skill: str, how: str) -> str:
    found = open_question(k, cook="ana", technique="skills", skill=skill, seed=5, now=NOON)
    assert isinstance(found, OpenQuestion), found
    value = tell(found.drawn, context_for(found.skill, k.content)).answer.value
    text = number_text(value if how == "right" else value * 7, 3)
    done = answer(
        k,
        given=Given("ana", skill, found.drawn.seed, text, "en", "us"),
        now=NOON,
        key=f"{skill}-{found.drawn.seed}-{how}",
    )
    assert isinstance(done, Saved), done
    return done.entry.id


def cook_pages(answers: Answers) -> Iterable[str]:
    """Return the cook's pages about questions."""
    yield from ("/questions", "/techniques/skills/questions", "/techniques/skills/questions?skill=buy")
    yield from (f"/techniques/skills/practice/scale?part={part}" for part in (1, 2, 3))
    yield from ("/techniques/skills/practice/buy/done", "/techniques/nests/rehearse", "/techniques/sauce/rehearse")
    yield from ("/techniques/skills/practice/scale", f"/answers/{answers.right}", f"/answers/{answers.wrong}")


def teacher_pages() -> Iterable[str]:
    """Return the pages of whoever teaches."""
    yield from (
        "/knows/ana",
        "/knows/dev",
        "/knows/bo",
        "/knows/ana/skills/aloud",
        "/knows/aloud",
        "/knows/ana/skills/scale/practised",
    )


def manager_pages() -> Iterable[str]:
    """Return the pages of the manager."""
    yield from ("/knows/ana", "/knows/ana/waits/scale/lift")
