"""What a technique asks a cook to know, skill by skill: on which days all of it is there, and what is missing.

A technique is known on the days on which each of its skills is passed and in date. A quiz of the earlier kind, passed
before its skills were asked one by one, counts to its own last day.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from itertools import takewhile

from trainer.kitchen.record import CookRecord
from trainer.kitchen.requirements import Requirement, lacking, of_technique, with_known
from trainer.kitchen.skills.fold import SkillFold
from trainer.kitchen.skills.rule import ADDED_DAYS, ADDED_SAFETY_DAYS, CONFIRM_RIGHT, LOST_DAYS, LOST_SAFETY_DAYS
from trainer.kitchen.skills.skill import Pass, Skill
from trainer.kitchen.spans import NO_END, ONE_DAY, Span, days_later, ends_of, in_words, months_later
from trainer.kitchen.technique import AskedSkill, Technique
from trainer.messages import Text, joined, message

NOT_CARRIED = frozenset(
    {
        "temperature_conversion",
        "temperature_to_fahrenheit",
        "temperature_difference",
        "unit_conversion",
        "cascade_to_measures",
        "flour_from_dough",
        "d_at_other_temperature",
    }
)
"""Families whose earlier questions took the number of the text, copied back, for right: those answers carry nothing."""


@dataclass(frozen=True, slots=True)
class SkillStanding:
    """Where a cook stands in one skill that a technique asks for, on a day.

    `spans` are the days it counts as passed, those included on which it was lost and is still held; `held_until` the
    last of these, where the day asked is one of them.
    """

    asked: AskedSkill
    skill: Skill
    on: date
    spans: tuple[Span, ...]
    held_until: date | None

    @property
    def id(self) -> str:
        """Return the skill's id."""
        return self.asked.id

    @property
    def is_passed(self) -> bool:
        """Return whether it is passed on the day: one to be confirmed is, until then."""
        return self.skill.stage in ("passed", "confirm")

    @property
    def words(self) -> Text:
        """Return in words how far it is: right in a row, practice, a wait, an end."""
        return message("{skill} ({state})", skill=self.asked.name, state=state_in_words(self.skill, self.on))


def state_in_words(skill: Skill, on: date) -> Text:
    """Return the state of a skill on a day in a few words."""
    state = skill.state(on)
    if state == "open":
        is_fresh = not (skill.run or skill.wrong or skill.passes)
        return message("not asked") if is_fresh else _row(skill.run, skill.need)
    if state == "drill":
        return message("practice first, with a person") if skill.by_person else message("practice first")
    if state == "wait":
        return message("goes on {day}", day=in_words(skill.opens or on))
    if state == "confirm":
        row, until = _row(skill.run, CONFIRM_RIGHT), in_words(skill.confirm_until)
        return message("{row}, by {day}", row=row, day=until)
    return message("passed") if state == "passed" else message("ran out, {row}", row=_row(skill.run, skill.need))


def _row(run: int, need: int) -> Text:
    return message("{run} of {need} in a row", run=run, need=need)


def fold_of(record: CookRecord, before: str = "") -> SkillFold:
    """Return everything a record holds of skills, folded; what an earlier kind of quiz said of families included.

    Where an entry is named, what came before it.
    """
    fold = SkillFold(earlier=_earlier_answers(record))
    for happening in takewhile(lambda one: one.entry != before, record.skills):
        fold.take(happening)
    return fold


def _earlier_answers(record: CookRecord) -> Mapping[str, list[bool]]:
    """Return the answers of earlier quizzes by family: those of each technique since its last passed sitting."""
    found: dict[str, list[bool]] = {}
    passed = {line.technique: place for place, line in enumerate(record.sat) if line.passed}
    for place, line in enumerate(record.sat):
        if place > passed.get(line.technique, -1):
            for question in line.kept["questions"]:
                if not (question["right"] and question["family"] in NOT_CARRIED):
                    found.setdefault(question["family"], []).append(question["right"])
    return found


def skills_on(record: CookRecord, asked: Iterable[AskedSkill], on: date) -> tuple[SkillStanding, ...]:
    """Return where a cook stands in each of some skills at the end of a day, by a record as it stood then."""
    fold = record.memo.get("skills")
    if fold is None:
        fold = record.memo["skills"] = fold_of(record)
    return tuple(_standing(one, fold.settled(one.id, one.terms, on, one.setting.family), on) for one in asked)


def _standing(asked: AskedSkill, skill: Skill, on: date) -> SkillStanding:
    spans = tuple(_spans(asked, skill))
    lost = next((span for span in spans if span.holds(on)), None) if skill.stage not in ("passed", "confirm") else None
    return SkillStanding(asked, skill, on, spans, lost.until if lost else None)


def _spans(asked: AskedSkill, skill: Skill) -> Iterator[Span]:
    """Yield the days on which a skill counts, with what follows if nothing more is answered."""
    passes = skill.passes
    if skill.stage == "confirm" and skill.confirm_until < passes[-1].until:
        lost = skill.confirm_until + ONE_DAY
        passes = [replace(one, until=lost - ONE_DAY, lost_from=lost) if one.until >= lost else one for one in passes]
    for one in passes:
        yield Span(one.since, _held_until(asked, one), one.proof)


def _held_until(asked: AskedSkill, one: Pass) -> date:
    """Return the last day a pass counts: one that was lost is held some days more, never past its own term."""
    if one.lost_from is None:
        return one.until
    days = LOST_SAFETY_DAYS if asked.is_safety else LOST_DAYS
    return min(one.term, days_later(one.lost_from, days - 1))


def knowledge(record: CookRecord, technique: Technique, on: date) -> Requirement:
    """Return whether everything a technique asks to be known is known, each skill in date."""
    skills = skills_on(record, technique.knowledge, on)
    spans = (*_together(technique, skills), *_quizzes(record, technique))
    text = message("{technique}: questions passed.", technique=technique.name)
    asked = with_known(of_technique("quiz", technique, spans, on, text), "quiz", record, technique, on)
    asked = replace(asked, turns=(*asked.turns, *_turns(skills)))
    if asked.best is None:
        gap = joined((one.words for one in skills if not any(span.holds(on) for span in one.spans)), "; ")
        return lacking(asked, gap, message("The cook answers a few questions a day; at most two in a skill count."))
    due = joined((_held_words(one) for one in skills if one.held_until or one.skill.stage == "confirm"), "; ")
    return replace(asked, due=asked.due or due) if due and not _is_of_a_quiz(record, asked.best) else asked


def _together(technique: Technique, skills: Iterable[SkillStanding]) -> list[Span]:
    """Return the days on which all the skills count; one asked for later is due some days after it was added.

    These days are for cooks alone who knew all that was asked for before.
    """
    met: list[Span] | None = None
    for one in sorted(skills, key=lambda one: technique.added.get(one.asked.id, date.min)):
        added, spans = technique.added.get(one.asked.id), list(one.spans)
        if added is not None and any(span.holds(added - ONE_DAY) for span in met or ()):
            days = ADDED_SAFETY_DAYS if one.asked.is_safety else ADDED_DAYS
            spans.append(Span(date.min, days_later(added, days - 1)))
        met = spans if met is None else _meet(met, spans)
    return met or []


def _meet(left: list[Span], right: list[Span]) -> list[Span]:
    """Return the days in both, each with the entries that prove both."""
    both = [
        Span(max(a.since, b.since), min(a.until, b.until), tuple(dict.fromkeys((*a.proof, *b.proof))))
        for a in left
        for b in right
    ]
    return [span for span in both if span.since <= span.until]


def _quizzes(record: CookRecord, technique: Technique) -> list[Span]:
    """Return the days on which a quiz of the earlier kind counts."""
    passed = (line for line in record.sat if line.technique == technique.id and line.passed)
    return [Span(line.on, months_later(line.on, technique.quiz_months), (line.entry,)) for line in passed]


def _is_of_a_quiz(record: CookRecord, best: Span) -> bool:
    return any(best.proof == (line.entry,) for line in record.sat)


def _turns(skills: Iterable[SkillStanding]) -> Iterator[date]:
    """Yield the days on which a skill begins to be held only, or stops being so."""
    for one in skills:
        for held in one.skill.passes:
            if held.lost_from is not None:
                yield held.lost_from
        if one.skill.stage == "confirm":
            yield one.skill.confirm_until + ONE_DAY


def skill_turns(skills: Iterable[SkillStanding]) -> Iterator[date]:
    """Yield every day on which a skill is passed, or no longer, or is told in other words."""
    listed = tuple(skills)
    yield from _turns(listed)
    for one in listed:
        yield from ends_of(one.spans)
        yield from (held.until + ONE_DAY for held in one.skill.passes if held.until < NO_END)
        if one.skill.opens is not None:
            yield one.skill.opens


def _held_words(one: SkillStanding) -> Text:
    """Return why a skill that counts is due again."""
    if one.held_until is None:
        return one.words
    return message("{words}; it counts to {day}", words=one.words, day=in_words(one.held_until))
