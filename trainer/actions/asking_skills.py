"""Questions one at a time, skill by skill: the one that is open, what is asked next, what is asked today.

A question once seen stays the cook's next one in its skill until it is answered: it is kept by its numbers, and opens
again from these, whatever is reworded.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.saving import not_on_roster
from trainer.kitchen.clearance import is_read
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.knowledge import SkillStanding, skills_on
from trainer.kitchen.open_paths import paths_of
from trainer.kitchen.quiz.drawing import CannotDraw, draw_unseen
from trainer.kitchen.quiz.drawn import DrawnQuestion, QuestionContext, drawn_from
from trainer.kitchen.quiz.family import System
from trainer.kitchen.quiz.material import PRACTICE, material_of
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.telling import CannotTell, tell
from trainer.kitchen.record import CookRecord
from trainer.kitchen.skills.asking import STEM_DAYS, answers_left, dose, is_refresher, is_wanted, next_of
from trainer.kitchen.technique import AskedSkill, Content, Technique
from trainer.messages import Text, message
from trainer.store.drafts import Draft


@dataclass(frozen=True, slots=True)
class OpenQuestion:
    """The question of a skill that a cook has before them, asked in a technique since a moment."""

    id: str
    cook: str
    technique: str
    skill: AskedSkill
    drawn: DrawnQuestion
    asked_at: datetime


@dataclass(frozen=True, slots=True)
class Withdrawn:
    """A question that cannot be told any more, because what it asks about was taken out: another comes in its place."""

    skill: AskedSkill

    @property
    def words(self) -> Text:
        """Return what is said to the cook."""
        return message(
            "The question you had open in {skill} was taken out. It counts neither for you nor against you.",
            skill=self.skill.name,
        )


def standings_of(*, cook: str, technique: Technique, day: Snapshot) -> tuple[SkillStanding, ...]:
    """Return where a cook stands in each skill of a technique at the end of a day."""
    return skills_on(day.progress.record(cook).as_of(day.on), technique.knowledge, day.on)


def next_skill(k: Kitchen, *, cook: str, technique: Technique, day: Snapshot) -> SkillStanding | None:
    """Return the skill of a technique that is asked next today; None where no answer would count today."""
    record = day.progress.record(cook).as_of(day.on)
    standings = skills_on(record, technique.knowledge, day.on)
    return next_of(_open_first(k, cook, standings, day.on), day.on, asked_last(record))


def asked_last(record: CookRecord) -> dict[str, int]:
    """Return the place of the last answer of each skill, counted from 1."""
    return {line.skill: place for place, line in enumerate(record.skills, 1) if line.seed >= 0}


def _open_first(k: Kitchen, cook: str, standings: Sequence[SkillStanding], on: date) -> Sequence[SkillStanding]:
    """Return the skills whose question is open already, where an answer counts; all of them where none is."""
    opened = {draft.about for draft in k.file.drafts.list("question", cook=cook)}
    there = [one for one in standings if one.id in opened and one.skill.takes(on) and one.skill.stage != "passed"]
    return there or standings


@dataclass(frozen=True, slots=True)
class Today:
    """What is asked of a cook today: refreshers first, then the next techniques; `at_most` so many in all.

    `next` is the technique and the skill of the next question, None where none is left.
    """

    refreshers: int
    at_most: int
    next: tuple[str, str] | None


def asked_today(k: Kitchen, *, cook: str, day: Snapshot) -> Today:
    """Return what is asked of a cook today: refreshers, and as many new questions as keep the day of their path.

    Who goes for no station is asked the refreshers alone; of what they study, each technique offers its own.
    """
    record = day.progress.record(cook).as_of(day.on)
    due = refreshers_due(k, cook=cook, day=day)
    fresh, offered = _on_the_path(k, cook, day, record)
    if due:
        return Today(len(due), len(due) + offered, due[0])
    return Today(0, offered, fresh if offered else None)


def refreshers_due(k: Kitchen, *, cook: str, day: Snapshot) -> list[tuple[str, str]]:
    """Return the technique and the skill of every refresher that is due: a technique the cook has read."""
    record = day.progress.record(cook).as_of(day.on)
    read = [one for one in k.content.techniques.values() if _is_read(cook, one, day)]
    home = {skill.id: one.id for one in reversed(read) for skill in one.knowledge}
    asked = (k.content.skills[skill] for skill in home if skill in k.content.skills)
    return [(home[one.id], one.id) for one in skills_on(record, asked, day.on) if is_refresher(one.skill, day.on)]


def questions_of_today(k: Kitchen, *, cook: str, day: Snapshot) -> list[tuple[str, str]]:
    """Return the technique and the skill of every question asked of a cook today, the refreshers first."""
    found, record = refreshers_due(k, cook=cook, day=day), day.progress.record(cook).as_of(day.on)
    paths = [one.path.station for one in paths_of(cook, day) if one.state != "reached"]
    names = dict.fromkeys(
        name for id in paths if id in k.content.stations for name in k.content.stations[id].techniques
    )
    last, there = asked_last(record), {skill for _, skill in found}
    for technique in (k.content.techniques[name] for name in names if name in k.content.techniques):
        if _is_read(cook, technique, day):
            standings = skills_on(record, technique.knowledge, day.on)
            wanted = [one.id for one in standings if is_wanted(one.skill, day.on) and one.id not in there]
            found += [(technique.id, skill) for skill in sorted(wanted, key=lambda skill: last.get(skill, 0))]
            there.update(wanted)
    return found[: asked_today(k, cook=cook, day=day).at_most]


def _is_read(cook: str, technique: Technique, day: Snapshot) -> bool:
    return bool(technique.knowledge) and is_read(cook, technique, day.progress, day.on)


def _on_the_path(k: Kitchen, cook: str, day: Snapshot, record: CookRecord) -> tuple[tuple[str, str] | None, int]:
    """Return the technique and the skill asked next on a cook's paths, and how many questions a day keep their day.

    Only what is read is asked, technique after technique, in the order of the station that comes first.
    """
    paths = [one.path for one in paths_of(cook, day) if one.state != "reached"]
    stations = [k.content.stations[path.station] for path in paths if path.station in k.content.stations]
    names = dict.fromkeys(name for station in stations for name in station.techniques)
    last, left, first, may_count = asked_last(record), dict[str, int](), None, 0
    for technique in (k.content.techniques[name] for name in names if name in k.content.techniques):
        standings = skills_on(record, technique.knowledge, day.on)
        new = [one for one in standings if one.skill.stage == "open" and one.id not in left]
        left |= {one.id: answers_left(one.skill, day.on) for one in new}
        if _is_read(cook, technique, day):
            may_count += sum(one.skill.counts_more(day.on) for one in new)
            found = next_of(new, day.on, last)
            first = first or ((technique.id, found.id) if found else None)
    by_day = min((path.by_day for path in paths), default=None)
    wanted = dose(list(left.values()), (by_day - day.on).days if by_day else None)
    answered = sum(line.on == day.on and line.seed >= 0 for line in record.skills)
    return first, min(may_count, max(0, wanted - answered))


def open_question(  # noqa: PLR0913 - whose question, in which technique and skill, with which seed, when, how read
    k: Kitchen, *, cook: str, technique: str, skill: str, seed: int, now: datetime, units: System = ""
) -> OpenQuestion | Withdrawn | Refused:
    """Return the question a cook has open in a skill, or a new one drawn with a seed, in a system of measures.

    One that cannot be told any more is dropped, and that is the answer: ask again for another.
    """
    with k.file.writing():
        taught, asked = k.content.techniques.get(technique), k.content.skills.get(skill)
        if taught is None or asked is None or asked not in taught.knowledge:
            return Refused(message("There is no such question here any more."), "", "technique")
        refused = refused_by_clock(k, now) or may_answer(cook, taught, k.day(k.today(now)))
        if refused is not None:
            return refused
        draft = k.file.drafts.get(draft_id(cook, skill))
        if draft is not None:
            return _reopened(k, draft, asked)
        return _drawn_anew(k, cook, taught, asked, seed, now, units)


def may_answer(cook: str, technique: Technique, day: Snapshot) -> Refused | None:
    """Return why a cook may not answer questions of a technique: it is not read, or they are not on the roster."""
    away = not_on_roster(cook, day)
    if away or is_read(cook, technique, day.progress, day.on):
        return away
    edition = technique.edition_on(day.on).number
    return Refused(
        message("Read {title}, edition {edition}, first.", title=technique.title, edition=edition),
        message("The cook reads it, and then answers."),
    )


def _reopened(k: Kitchen, draft: Draft, asked: AskedSkill) -> OpenQuestion | Withdrawn:
    found = question_of(draft, asked)
    try:
        tell(found.drawn, context_for(asked, k.content))
    except CannotTell:
        k.file.drafts.delete(draft.id)
        return Withdrawn(asked)
    return found


def _drawn_anew(  # noqa: PLR0913, PLR0917 - as `open_question`
    k: Kitchen, cook: str, technique: Technique, asked: AskedSkill, seed: int, now: datetime, units: System
) -> OpenQuestion | Refused:
    lately = _stems_lately(k.progress().record(cook), asked.id, k.today(now))
    try:
        drawn = draw_unseen(asked.setting.family, seed, context_for(asked, k.content, units), lately)
    except CannotDraw as problem:
        words = message("{skill}: no question can be drawn ({problem}).", skill=asked.name, problem=str(problem))
        return Refused(words, message("Whoever keeps the content can fix it."))
    found = OpenQuestion(draft_id(cook, asked.id), cook, technique.id, asked, drawn, k.moment(now))
    body = {"technique": technique.id, "drawn": drawn.kept()}
    k.file.drafts.put(Draft(found.id, "question", asked.id, cook, cook, body, found.asked_at))
    return found


def _stems_lately(record: CookRecord, skill: str, on: date) -> tuple[str, ...]:
    """Return the stems asked of a cook in a skill in the last 60 days, the oldest first."""
    since = on - timedelta(days=STEM_DAYS)
    return tuple(line.stem for line in record.skills if line.skill == skill and line.on > since and line.stem)


def context_for(asked: AskedSkill, content: Content, units: System = "") -> QuestionContext:
    """Return what a skill's questions are drawn and told with, in the words of a content.

    `units` is the system of measures to draw in; what is drawn is told in its own.
    """
    own = content.skills.get(asked.id, asked)
    home = content.techniques.get(own.of)
    return QuestionContext(content.question_words, material_of(home) if home else PRACTICE, own.setting, units)


def question_told(found: OpenQuestion, content: Content, fallback: Content) -> Question:
    """Return an open question in the words of a content; in other words where it cannot be told in these."""
    try:
        return tell(found.drawn, context_for(found.skill, content))
    except CannotTell:
        return tell(found.drawn, context_for(found.skill, fallback))


def draft_id(cook: str, skill: str) -> str:
    """Return under which id the open question of a cook in a skill is kept."""
    return f"question|{cook}|{skill}"


def question_of(draft: Draft, asked: AskedSkill) -> OpenQuestion:
    """Return a draft as the open question it keeps."""
    return OpenQuestion(draft.id, draft.cook, draft.body["technique"], asked, drawn_from(draft.body["drawn"]), draft.at)
