"""Questions one at a time: the next one of today or of a technique, and what came of an answer."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, abort, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions import asking_skills
from trainer.actions.answering import answer_entry
from trainer.actions.outcome import Saved
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.cook import tasks
from trainer.web.cook.answer_view import AnswerLine, answer_line, state_words, told_of
from trainer.web.cook.helping import Help, help_for
from trainer.web.cook.next_question import NextStep, next_after
from trainer.web.cook.question_view import AnswerForm, Asking, NothingMorePage, kept, question_page
from trainer.web.page import Page, go, show

pages = Blueprint("questions", __name__)


@dataclass(frozen=True, kw_only=True)
class AnsweredPage(Page):
    """What came of one answer: right or wrong, in a sentence, worked; where the skill stands; what is next.

    `due` are the three lines of a practice that comes first; empty where none does.
    """

    template: ClassVar[str] = "cook/answered.html"
    skill_title: str
    technique_title: str
    line: AnswerLine
    word: Text
    says: Text
    due: tuple[Text, ...]
    state: tuple[Text, ...]
    help: Help | None
    next: NextStep
    to_listen: tuple[Text, ...]


@pages.get("/questions")
@guard.needs("cook")
def today() -> AnyResponse:
    """Go to the next question of today, whatever technique it belongs to; say so where there is none."""
    k, me, day = guard.kitchen(), guard.person().id, guard.kitchen().day(guard.today())
    found = asking_skills.asked_today(k, cook=me, day=day)
    if found.next:
        technique, skill = found.next
        return go("questions.ask", technique=technique, skill=skill)
    title = message("No more questions today")
    return show(
        NothingMorePage(title=title, technique=None, lines=(), practise_url="", said="", leave_url=url_for("cook.rail"))
    )


@pages.route("/techniques/<technique>/questions", methods=["GET", "POST"])
@guard.needs("cook")
def ask(technique: str) -> AnyResponse:
    """Ask the next question of a technique, or of a skill the address names; on a POST, keep the answer."""
    found, form = tasks.technique_named(technique), AnswerForm()
    if not found.knowledge:
        return go("quiz.start", technique=found.id)
    asking = Asking(guard.person().id, url_for("questions.ask", technique=found.id), url_for("cook.rail"))
    if form.is_sent_right():
        done = kept(form, asking)
        if isinstance(done, Saved):
            return go("questions.answered", entry=done.entry.id)
    return question_page(found, form, asking)


@pages.get("/answers/<entry>")
@guard.needs("cook")
def answered(entry: str) -> AnyResponse:
    """Show what came of an answer, as the book has it, and where the skill stands today."""
    found = answer_entry(guard.kitchen(), entry, guard.person().id)
    if found is None:
        abort(404)
    body, line, content = found.body, answer_line(found), reading.content()
    skill, technique = content.skills.get(body["skill"]), content.techniques.get(body["technique"])
    title = skill.title if skill else body["skill"]
    told, state = told_of(found, line), state_words(found)
    can_ask = not line.is_right and technique is not None and body["skill"] in {one.id for one in technique.knowledge}
    return show(
        AnsweredPage(
            title=message("{skill}: {word}", skill=title, word=told.word),
            skill_title=title,
            technique_title=technique.title if technique else body["technique"],
            line=line,
            word=told.word,
            says=told.says,
            due=told.due,
            state=state,
            help=help_for(body["technique"], skill=body["skill"]) if can_ask else None,
            next=next_after(body["technique"], body["skill"]),
            to_listen=(
                told.word,
                *([words or told.says for words in told.due] or [told.says]),
                line.text,
                *line.solution,
                *state,
            ),
        )
    )
