"""Practice before a skill goes on: done alone, or with an assessor; and a wait that a manager lifts."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from trainer.actions.asking_skills import context_for
from trainer.actions.open_kitchen import Kitchen, Units
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import denied_by, not_on_roster, save, saved_before, validate_text
from trainer.kitchen.book import NewEntry, canonical, digest_of
from trainer.kitchen.entitlement import Snapshot, may_manage
from trainer.kitchen.knowledge import SkillStanding, skills_on
from trainer.kitchen.quiz.drawing import draw_question
from trainer.kitchen.quiz.family import System
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.question import Grade, Question
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.technique import AskedSkill, Content
from trainer.messages import Text, message

CHANGED = Refused(message("This question has changed since you read it. Do it as it is now."), "", "answer")


@dataclass(frozen=True, slots=True)
class OneAlone:
    """The question a cook does alone at the end of a practice, by its seed, and what they wrote.

    `mark` is that of the question they read (`mark_of`), empty where its page said none; `done_at` is when they did it,
    where that was without network and it is sent later.
    """

    cook: str
    technique: str
    skill: str
    seed: int
    text: str
    language: str
    units: Units
    mark: str = ""
    done_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class NotRight:
    """The question done alone was not right, or could not be read (`is_right` None), as it was judged: try again."""

    judged: Grade


def standing_in(cook: str, skill: AskedSkill, day: Snapshot) -> SkillStanding:
    """Return where a cook stands in one skill at the end of a day."""
    return skills_on(day.progress.record(cook).as_of(day.on), (skill,), day.on)[0]


def alone(skill: AskedSkill, seed: int, content: Content, units: System = "") -> Question:
    """Return the question of a seed that is done alone; CannotDraw or CannotTell where there is none."""
    context = context_for(skill, content, units)
    return tell(draw_question(skill.setting.family, seed, context), context)


def mark_of(skill: AskedSkill, seed: int, content: Content, units: System = "") -> str:
    """Return what tells the question of a seed from the one it would be under other content or other measures."""
    kept = draw_question(skill.setting.family, seed, context_for(skill, content, units)).kept()
    return digest_of(canonical(kept).encode())[:16]


def practise_alone(k: Kitchen, *, tried: OneAlone, now: datetime, key: str) -> Outcome | NotRight:
    """Return the saved `drill_done` where the question was right; else how it was judged, and nothing is kept.

    A question that is not any more what was read is not judged.
    """
    skill = k.content.skills.get(tried.skill)
    if skill is None:
        return _no_such_skill(tried.skill)
    before = saved_before(k, key, "drill_done", by=tried.cook)
    if before is not None:
        return before
    if tried.mark and tried.mark != mark_of(skill, tried.seed, k.content, tried.units):
        return CHANGED
    judged = grade(alone(skill, tried.seed, k.content, tried.units), tried.text, k.file.settings.decimal_mark)
    if not judged.is_right:
        told = alone(skill, tried.seed, k.content_for(tried.language, tried.units), tried.units)
        return NotRight(grade(told, tried.text, k.file.settings.decimal_mark))
    with k.file.writing():
        day = k.day(k.today(now))
        body = _body(tried.technique, skill, standing_in(tried.cook, skill, day)) | {"seeds": [tried.seed]}
        on = _done_on(k, tried, now)
        happened = on if on < k.today(now) else None
        return save(
            k,
            NewEntry("drill_done", now, tried.cook, tried.cook, body, key, happened),
            lambda day: not_on_roster(tried.cook, day) or _nothing_due(tried.cook, skill, day, alone=True),
        )


def _done_on(k: Kitchen, tried: OneAlone, now: datetime) -> date:
    """Return the day a practice counts on: its own where it was done without network; a cook's days never run back."""
    if tried.done_at is None:
        return k.today(now)
    return max([k.today(tried.done_at), *(line.on for line in k.progress().record(tried.cook).skills)])


@dataclass(frozen=True, slots=True)
class GivenPractice:
    """Whom an assessor practised with, in which skill of which technique, and what they say of it, or nothing."""

    cook: str
    technique: str
    skill: str
    words: str = ""


def practise_with(k: Kitchen, *, by: str, given: GivenPractice, now: datetime, key: str) -> Outcome:
    """Return the saved `drill_given`: an assessor went through it with the cook."""
    skill, words = k.content.skills.get(given.skill), given.words.strip()
    if skill is None:
        return _no_such_skill(given.skill)
    with k.file.writing():
        day = k.day(k.today(now))
        body = _body(given.technique, skill, standing_in(given.cook, skill, day)) | {"words": words}
        return save(
            k,
            NewEntry("drill_given", now, given.cook, by, body, key),
            lambda day: (
                not_an_assessor(by, given.cook, day)
                or not_on_roster(given.cook, day)
                or _nothing_due(given.cook, skill, day, alone=False)
                or validate_text(words, "words", may_be_blank=True)
            ),
        )


@dataclass(frozen=True, slots=True)
class SkillWait:
    """Whose wait in which skill is lifted, and why."""

    cook: str
    skill: str
    reason: str


def lift_skill_wait(k: Kitchen, *, by: str, wait: SkillWait, now: datetime, key: str) -> Outcome:
    """Return the saved `wait_lifted`: the skill goes on today. A manager lifts it, and not their own.

    Nobody lifts a practice that is due, the length of a row, or the two answers a day.
    """
    skill, reason = k.content.skills.get(wait.skill), wait.reason.strip()
    if skill is None:
        return _no_such_skill(wait.skill)
    body = {"skill": skill.id, "family": skill.setting.family, "base": skill.base, "months": skill.months}
    return save(
        k,
        NewEntry("wait_lifted", now, wait.cook, by, body | {"reason": reason}, key),
        lambda day: (
            denied_by(may_manage(by, wait.cook, day))
            or not_on_roster(wait.cook, day)
            or _no_wait(wait.cook, skill, day)
            or validate_text(reason, "reason")
        ),
    )


def not_an_assessor(by: str, cook: str, day: Snapshot) -> Refused | None:
    """Return the refusal for somebody who may not ask or practise with a cook: it takes another person, an assessor."""
    if by == cook:
        return Refused(message("Somebody else does this with you: an assessor."), "", "cook")
    if "assessor" in day.progress.roles(by, day.on):
        return None
    return Refused(message("It takes an assessor."), message("A manager can make somebody one."))


def _body(technique: str, skill: AskedSkill, standing: SkillStanding) -> dict[str, Any]:
    return {
        "technique": technique,
        "skill": skill.id,
        "family": skill.setting.family,
        "name": standing.skill.drill,
        "base": skill.base,
        "months": skill.months,
    }


def _nothing_due(cook: str, skill: AskedSkill, day: Snapshot, *, alone: bool) -> Refused | None:
    """Return the refusal where no practice is due, or one that takes a person."""
    standing = standing_in(cook, skill, day).skill
    if standing.stage != "drill":
        return Refused(
            message("No practice is due in {skill}: go on with the questions.", skill=skill.name), "", "skill"
        )
    if alone and standing.by_person:
        words = message("This one is practised with a person: {skill}.", skill=skill.name)
        return Refused(words, message("Ask an assessor to go through it with you."), "skill")
    return None


def _no_wait(cook: str, skill: AskedSkill, day: Snapshot) -> Refused | None:
    if standing_in(cook, skill, day).skill.state(day.on) == "wait":
        return None
    told: Text = message("There is no wait in {skill} for {name}.", skill=skill.name, name=day.name(cook))
    return Refused(told, "", "skill")


def _no_such_skill(skill: str) -> Refused:
    return Refused(message("There is no skill “{skill}” here.", skill=skill), "", "skill")
