"""What many draws show of the skills of a content folder, and what its stations come to.

This is told by the check alone: a kitchen's skill is asked all the same, so that no station disappears because of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from pathlib import Path

from trainer.content.answers import line_of_key
from trainer.content.nodes import Diagnostics
from trainer.content.skills import STRUCTURE
from trainer.kitchen.quiz.drawing import CannotDraw, ranges_of
from trainer.kitchen.quiz.drawn import QuestionContext
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.family import Span
from trainer.kitchen.quiz.material import PRACTICE, material_of
from trainer.kitchen.quiz.skill_figures import SkillFigures, figures_of
from trainer.kitchen.skills.bounds import MOST_A_TECHNIQUE
from trainer.kitchen.skills.rule import MOST_SAFETY_LUCK, TooLucky, base_of
from trainer.kitchen.technique import AskedSkill, Content, Problem, Station, Technique
from trainer.messages import translate

WIDEN = "Widen the ranges so that answers differ, or ask another family."
STEMS = "Write more faults, steps or scenes, or give each question more choices."
APART = "Keep one of them, or set ranges of one number apart."
ECHO = "Change the ranges, so that no quantity of the text is the answer."


@dataclass(frozen=True, slots=True)
class SkillCheck:
    """What the draws of each skill showed, by id, and the problems found."""

    figures: Mapping[str, SkillFigures]
    problems: tuple[Problem, ...]


def check_skills(folder: Path, content: Content | None) -> SkillCheck:
    """Return what the skills and stations of a folder come to, with a problem for each that asks too little or much."""
    diagnostics = Diagnostics("", [])
    if content is None:
        return SkillCheck({}, ())
    figures = {id: found for id, skill in content.skills.items() if (found := _figures(skill, content)) is not None}
    for id, found in figures.items():
        file = f"skills/{id}/{STRUCTURE}"
        line = line_of_key(folder / file, "ranges")
        for message, hint in _problems(content.skills[id], found):
            diagnostics.of(file).warn(line, message, hint)
    for technique in content.techniques.values():
        _check_alike(folder, technique, diagnostics)
    for station in content.stations.values():
        _check_station(folder, station, content, diagnostics)
    return SkillCheck(figures, tuple(diagnostics.problems))


def context_of_skill(skill: AskedSkill, techniques: Mapping[str, Technique], content: Content) -> QuestionContext:
    """Return what the questions of a skill are drawn with."""
    material = material_of(techniques[skill.of]) if skill.of in techniques else PRACTICE
    return QuestionContext(content.question_words, material, skill.setting)


def _figures(skill: AskedSkill, content: Content) -> SkillFigures | None:
    try:
        return figures_of(skill, context_of_skill(skill, content.techniques, content))
    except CannotDraw:
        return None


def _problems(skill: AskedSkill, found: SkillFigures) -> Iterator[tuple[str, str]]:
    """Yield what is wrong with a skill by its draws, each with how to fix it."""
    if _asks_for_more(found.share, skill):
        percent, answer = round(found.share * 100), translate(found.answer)
        yield f"{skill.id}: the answer is {answer} in {percent} of 100 questions.", WIDEN
    needed = found.enough(skill.base)
    if found.questions < needed:
        what = "stems" if found.has_stems else "questions"
        hint = STEMS if found.has_stems else WIDEN
        yield f"{skill.id} has {found.questions} different {what}; with {skill.base} in a row it needs {needed}.", hint
    if found.echoes:
        percent = max(1, round(found.echoes * 100))
        yield f"{skill.id}: in {percent} of 100 questions a quantity of the text would be graded right.", ECHO


def _asks_for_more(share: Fraction, skill: AskedSkill) -> bool:
    """Return whether the commonest answer is right so often that the skill would need a longer row, or be refused."""
    try:
        return base_of(share) > skill.base or (skill.is_safety and share > MOST_SAFETY_LUCK)
    except TooLucky:
        return True


def _check_alike(folder: Path, technique: Technique, diagnostics: Diagnostics) -> None:
    """Add a problem for each two skills of a technique that one question could belong to."""
    for one, other in combinations(technique.knowledge, 2):
        if _overlap(one, other):
            file = f"techniques/{technique.id}/technique.yaml"
            message = (
                f"{one.id} and {other.id} ask {one.setting.family} with ranges that overlap: one thing, asked twice."
            )
            diagnostics.of(file).warn(line_of_key(folder / file, "knowledge"), message, APART)


def _overlap(one: AskedSkill, other: AskedSkill) -> bool:
    """Return whether two skills are of one family and of the same words, and each range of one meets the other's."""
    if (one.setting.family, one.of) != (other.setting.family, other.of):
        return False
    first, second = (_spans(skill) for skill in (one, other))
    return all(first[name][0] <= second[name][1] and second[name][0] <= first[name][1] for name in first)


def _spans(skill: AskedSkill) -> dict[str, Span]:
    """Return the ranges a skill draws from, those of its family where it sets none."""
    return {name: each[:3] for name, each in ranges_of(FAMILIES[skill.setting.family]).items()} | {
        **skill.setting.ranges
    }


def _check_station(folder: Path, station: Station, content: Content, diagnostics: Diagnostics) -> None:
    """Add a problem for a station that asks for too many skills."""
    asking = [each for id in station.techniques if (each := content.techniques[id]).knowledge]
    skills = {skill.id for technique in asking for skill in technique.knowledge}
    if asking and Fraction(len(skills), len(asking)) > MOST_A_TECHNIQUE:
        file = f"stations/{station.id}.yaml"
        message = f"{station.id} asks for {len(skills)} skills in {len(asking)} techniques."
        hint = f"Ask for {MOST_A_TECHNIQUE} a technique on the average: share skills, keep those about safety first."
        diagnostics.of(file).warn(line_of_key(folder / file, "techniques"), message, hint)
