"""A question before a cook, whether they read it themselves or an assessor reads it aloud; or that none is left."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from typing import ClassVar, NamedTuple

from flask import request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import HiddenField

from trainer.actions import asking_skills
from trainer.actions.answering import AskedAgain, Given, answer
from trainer.actions.asking_skills import OpenQuestion, Withdrawn
from trainer.actions.outcome import Refused, Saved
from trainer.kitchen.knowledge import SkillStanding, state_in_words
from trainer.kitchen.quiz.drawing import SEEDS
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.wording import unit_word
from trainer.kitchen.skills.asking import is_wanted
from trainer.kitchen.technique import AskedSkill, Technique
from trainer.messages import Text, joined, message
from trainer.store.catalogues import languages, name_of
from trainer.web import guard, reading
from trainer.web.cook.answer_field import AnswerField
from trainer.web.cook.answer_view import row_words
from trainer.web.cook.saying import question_said
from trainer.web.forms import KitchenForm
from trainer.web.offline import late
from trainer.web.page import Page, show


class AnswerForm(KitchenForm):
    """One answer, as typed, and to which question: the skill, and the seed it was drawn by."""

    answer = AnswerField(message("Your answer"))
    skill = HiddenField()
    seed = HiddenField()
    why = HiddenField()

    @property
    def text(self) -> str:
        """Return the answer; an act with its why, where both were asked at once."""
        return " ".join(part for part in (self.answer.data, self.why.data) if part)

    @property
    def number(self) -> int:
        """Return the seed; -1 where it is none."""
        typed = self.seed.data or ""
        return int(typed) if typed.isascii() and typed.isdigit() and len(typed) < 12 else -1


@dataclass(frozen=True, slots=True)
class Aloud:
    """Who asks whom, what came of the answer before, and how the button says what the cook says (… for letters)."""

    name: str
    asks: Text
    last: Text
    says: Text
    button: Text


@dataclass(frozen=True, slots=True)
class Telling:
    """A question in one language, to be read aloud; `mark` is its tag in capitals."""

    language: str
    name: str
    parts: tuple[Text, ...]

    @property
    def mark(self) -> str:
        """Return the language's tag, in capitals."""
        return self.language.upper()


@dataclass(frozen=True, kw_only=True)
class AskedPage(Page):
    """One question of a skill; `withdrawn` says that the one before was taken out."""

    template: ClassVar[str] = "cook/asked.html"
    skill: AskedSkill
    row: Text
    question: Question
    unit: Text
    point: str
    withdrawn: Text
    own_url: str
    leave_url: str
    aloud: Aloud | None
    tellings: tuple[Telling, ...]
    to_listen: tuple[Text, ...]
    form: AnswerForm


@dataclass(frozen=True, slots=True)
class SkillLine:
    """A skill in a list: its title and how far it is."""

    title: str
    state: Text
    is_passed: bool


@dataclass(frozen=True, kw_only=True)
class NothingMorePage(Page):
    """No answer would count today: how far each skill is, and what may be done."""

    template: ClassVar[str] = "cook/nothing_more.html"
    technique: Technique | None
    lines: tuple[SkillLine, ...]
    practise_url: str
    said: Text
    leave_url: str


class Asking(NamedTuple):
    """Who answers, where the form goes, where one leaves to; `aloud` tells for whom an assessor reads it."""

    cook: str
    own_url: str
    leave_url: str
    aloud: Aloud | None = None
    asked_by: str = ""


def kept(form: AnswerForm, asking: Asking) -> Saved | AskedAgain | Refused:
    """Return what became of an answer; what was wrong with it stands on the form."""
    now = reading.now()
    given = Given(
        asking.cook,
        form.skill.data or "",
        form.number,
        form.text,
        now.language,
        now.units,
        asking.asked_by,
        late.done_at(),
    )
    done = answer(guard.kitchen(), given=given, now=guard.now(), key=form.key.data)
    if not isinstance(done, Saved) and not (isinstance(done, AskedAgain) and done.is_half):
        form.refuse(Refused(done.problem, field="answer") if isinstance(done, AskedAgain) else done)
    return done


def question_page(found: Technique, form: AnswerForm, asking: Asking) -> AnyResponse:
    """Return the next question of a technique, of the skill that is named where an answer to it counts."""
    k, me, day = guard.kitchen(), asking.cook, guard.kitchen().day(guard.today())
    standings = asking_skills.standings_of(cook=me, technique=k.content.techniques[found.id], day=day)
    named = form.skill.data or request.args.get("skill", "")
    asked = next((one for one in standings if one.id == named), None)
    if asked is None or not (is_wanted(asked.skill, day.on) or form.problems()):
        asked = asking_skills.next_skill(k, cook=me, technique=k.content.techniques[found.id], day=day)
    if asked is None:
        return show(nothing_page(found, standings, asking))
    opened = _opened(found, asked, me)
    if isinstance(opened, Refused):
        said = joined(part for part in (opened.reason, opened.who_can) if part)
        return show(nothing_page(found, standings, asking, said), 400)
    question, withdrawn = opened
    form.skill.data, form.seed.data = asked.id, str(question.drawn.seed)
    told = asking_skills.question_told(question, reading.content(), k.content)
    skill = reading.content().skills.get(asked.id, asked.asked)
    page = AskedPage(
        title=message("{skill}: a question", skill=skill.title),
        skill=skill,
        row=row_words(asked.skill, day.on, asking.aloud.name if asking.aloud else ""),
        question=told,
        unit=unit_word(told.answer.unit),
        point=k.file.settings.decimal_mark,
        withdrawn=withdrawn,
        own_url=asking.own_url,
        leave_url=asking.leave_url,
        aloud=asking.aloud,
        tellings=_tellings(question, form.answer.data or "") if asking.aloud else (),
        to_listen=question_said(told, form.answer.data or ""),
        form=form,
    )
    return show(page)


def _tellings(question: OpenQuestion, given: str) -> tuple[Telling, ...]:
    """Return a question in every language of the program, in the kitchen's own where it has no words in one."""
    k, units = guard.kitchen(), reading.now().units
    told = {tag: asking_skills.question_told(question, k.content_for(tag, units), k.content) for tag in languages()}
    return tuple(Telling(tag, name_of(tag), question_said(one, given)) for tag, one in told.items())


def _opened(found: Technique, asked: SkillStanding, cook: str) -> tuple[OpenQuestion, Text] | Refused:
    """Return the open question of a skill, and what was said of one that had to be withdrawn."""
    said: Text = ""
    for _ in range(2):
        opened = asking_skills.open_question(
            guard.kitchen(),
            cook=cook,
            technique=found.id,
            skill=asked.id,
            seed=secrets.randbelow(SEEDS),
            now=guard.now(),
            units=reading.now().units,
        )
        if not isinstance(opened, Withdrawn):
            return opened if isinstance(opened, Refused) else (opened, said)
        said = opened.words
    return Refused(said)


def nothing_page(
    found: Technique, standings: tuple[SkillStanding, ...], asking: Asking, said: Text = ""
) -> NothingMorePage:
    """Return that no answer would count today, with how far each skill is; or what stands in the way."""
    skills, on = reading.content().skills, guard.today()
    waiting = next((one.id for one in standings if one.skill.stage == "drill"), "")
    all_passed = all(one.is_passed for one in standings)
    done = message("All questions passed") if all_passed else message("No more questions today")
    title = message("Not today") if said else done
    return NothingMorePage(
        title=title,
        technique=found,
        lines=tuple(
            SkillLine(skills.get(one.id, one.asked).title, state_in_words(one.skill, on), one.is_passed)
            for one in standings
        ),
        practise_url=url_for("practice.practise", technique=found.id, skill=waiting)
        if waiting and not asking.asked_by
        else "",
        said=said,
        leave_url=asking.leave_url,
    )
