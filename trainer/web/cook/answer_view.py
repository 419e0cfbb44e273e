"""One answer on a page: as it was read, what was said of it, how it counted, and where its skill stands today."""

from __future__ import annotations

import json
from datetime import date
from itertools import takewhile
from typing import NamedTuple

from trainer.kitchen.book import Entry
from trainer.kitchen.knowledge import fold_of, skills_on
from trainer.kitchen.papers import paper_text
from trainer.kitchen.quiz.rescoring import key_of
from trainer.kitchen.quiz.seen_text import SeenQuestion, question_of
from trainer.kitchen.quiz.showing_words import second_showing
from trainer.kitchen.skills.rule import CONFIRM_RIGHT
from trainer.kitchen.skills.skill import Outcome, Skill
from trainer.kitchen.spans import in_words as day_in_words
from trainer.messages import Text, joined, message, plural
from trainer.web import guard, reading
from trainer.web.cook.results import AnswerLine, in_words, line_as_read, line_without_words

__all__ = ["AnswerLine", "answer_line", "own_last_wrong", "row_words", "state_words", "told_of", "waits_words"]


def answer_line(entry: Entry) -> AnswerLine:
    """Return a question with its answer as it was read; without the words where these were erased."""
    asked = {**entry.body, "right": entry.body["verdict"] == "right", "method": entry.body["name"]}
    mark, seen = guard.kitchen().file.settings.decimal_mark, _seen(entry)
    line = line_as_read(1, asked, seen, mark) if seen else line_without_words(1, asked, mark)
    record = guard.kitchen().progress().record(entry.cook)
    return line if key_of(asked) not in record.questions_void_on(guard.today()) else line.voided()


def _seen(entry: Entry) -> SeenQuestion | None:
    paper = guard.kitchen().file.book.paper(entry.body["shown"])
    return question_of(json.loads(paper_text(paper))) if paper is not None else None


def row_words(skill: Skill, on: date, name: str = "") -> Text:
    """Return how many are right in a row, of how many: told to the cook, or of one who is named."""
    if skill.stage == "passed":
        return message("A question to keep it fresh")
    need = CONFIRM_RIGHT if skill.stage == "confirm" else skill.need
    if name:
        return message("{name}: {run} of {need} in a row.", name=name, run=skill.run, need=need)
    return message("You have {run} of {need} in a row.", run=skill.run, need=need)


class Told(NamedTuple):
    """What is said of an answer: the word, the sentence about the number, and the three lines where practice is due.

    The second of these is empty where that sentence, as it was read, stands in its place.
    """

    word: Text
    says: Text
    due: tuple[Text, ...]


def told_of(entry: Entry, line: AnswerLine) -> Told:
    """Return what is said of an answer: nothing of it about the cook but what showed twice."""
    if line.is_right:
        return Told(message("Right"), line.says, ())
    skill = _skill_now(entry)
    if skill is None or skill.stage != "drill" or outcome_of(entry) != "drill due":
        return Told(message("Not yet"), line.says, ())
    twice = _twice(entry) or ("" if entry.body["name"] else _no_method(line))
    return Told(message("Practice first"), line.says, (_row_and_others(entry, skill), twice, _goes_on(skill)))


def _row_and_others(entry: Entry, skill: Skill) -> Text:
    """Return how far the skill is, and which others want the same practice, if any do; all the rest stands."""
    today, need = guard.today(), skill.need
    record = guard.kitchen().progress().record(entry.cook).as_of(today)
    standings = skills_on(record, reading.content().skills.values(), today)
    same = [
        one.asked.title
        for one in standings
        if one.id != entry.body["skill"]
        and one.skill.stage == "drill"
        and skill.drill
        and one.skill.drill == skill.drill
    ]
    if same:
        titles = joined(same, ", ")
        return message("You have 0 of {need}, and in {skills} too. Your other skills stand.", need=need, skills=titles)
    return message("You have 0 of {need}. Your other skills stand.", need=need)


def _no_method(line: AnswerLine) -> Text:
    """Return what is said of two wrong answers of which the last showed no method by name."""
    if line.is_choice:
        return message("“{given}” does not fit. See it worked.", given=line.given)
    return message("No known wrong method gives {given}. See it worked.", given=line.given)


def _goes_on(skill: Skill) -> Text:
    """Return the day of the next question, once the practice is done today; or that a person goes through it first."""
    day = day_in_words(skill.opens_after_drill(guard.today()))
    if skill.by_person:
        return message("An assessor goes through it with you. Then next on {day}.", day=day)
    return message("Next on {day}, after practice.", day=day)


def _skill_now(entry: Entry) -> Skill | None:
    """Return where the skill of an answer stands today; None where it is taught no more."""
    asked, today = reading.content().skills.get(entry.body["skill"]), guard.today()
    if asked is None:
        return None
    return skills_on(guard.kitchen().progress().record(entry.cook).as_of(today), (asked,), today)[0].skill


def state_words(entry: Entry) -> tuple[Text, ...]:
    """Return where the skill of an answer stands: how it counted, and what is next."""
    return tuple(line for line in (_counted(entry), _stands(entry), _asked_by(entry)) if line)


def _asked_by(entry: Entry) -> Text:
    """Return who asked a question aloud; nothing where the cook read it."""
    who = guard.kitchen().people().get(entry.body["asked_by"])
    return message("Asked aloud by {person}", person=who.name) if who else ""


def _twice(entry: Entry) -> Text:
    """Return what is said where a wrong method shows the second time: both figures; nothing the first time."""
    name, record = entry.body["name"], guard.kitchen().progress().record(entry.cook).as_of(guard.today())
    if not name:
        return ""
    before = [line for line in takewhile(lambda line: line.entry != entry.id, record.skills) if line.name == name]
    earlier = guard.kitchen().file.book.find(before[-1].entry) if before else None
    clause = reading.content().question_words.clauses(entry.body["family"], name).twice
    if earlier is None or not clause or not entry.body["unit"]:
        return ""
    first, second = (in_words(one.body["given"], one.body["unit"], {}) for one in (earlier, entry))
    return second_showing(clause, first, second)


def _counted(entry: Entry) -> Text:
    """Return what is worth saying of how an answer counted; nothing where it simply did."""
    outcome = outcome_of(entry)
    said: dict[Outcome, Text] = {
        "practice": message("This one was practice: it does not count."),
        "not counted": message("Rounded too early. Once that costs nothing; the next time it counts as wrong."),
        "passed": message("Passed."),
        "refreshed": message("Kept fresh."),
        "renewed": message("Kept fresh three times: its time begins anew."),
        "confirmed": message("Confirmed: it is passed again."),
    }
    return said.get(outcome, "") if outcome else ""


def outcome_of(entry: Entry) -> Outcome | None:
    """Return how an answer counted by the book as it is known today; None where it was voided."""
    record = guard.kitchen().progress().record(entry.cook).as_of(guard.today())
    fold = fold_of(record, before=entry.id)
    happening = next((line for line in record.skills if line.entry == entry.id), None)
    return fold.take(happening) if happening else None


def _stands(entry: Entry) -> Text:
    """Return where the skill stands today, and when more may count."""
    skill, today = _skill_now(entry), guard.today()
    if skill is None:
        return ""
    if skill.stage == "drill":
        return _practice_words(skill)
    if skill.state(today) == "wait":
        return waits_words(skill, today)
    if skill.stage == "passed":
        due = skill.due
        return message("The next question comes on {day}.", day=day_in_words(due)) if due else ""
    return joined([row_words(skill, today), _more_today(skill, today)])


def waits_words(skill: Skill, today: date) -> Text:
    """Return on which day a skill goes on; that it goes on today where nothing waits."""
    if skill.state(today) == "wait":
        return message("Next on {day}.", day=day_in_words(skill.opens or today))
    return _more_today(skill, today)


def _practice_words(skill: Skill) -> Text:
    if skill.by_person:
        return message("Practice comes first, with an assessor. Then it goes on another day.")
    return message("Practice comes first. Then it goes on another day.")


def _more_today(skill: Skill, today: date) -> Text:
    if not skill.takes(today):
        return message("No more count today: go on tomorrow.")
    left = skill.counts_more(today)
    return plural("{number} more counts today, then two a day.", "{number} more count today.", left)


def own_last_wrong(skill: str) -> AnswerLine | None:
    """Return the reader's own last wrong answer in a skill, None where there is none."""
    record = guard.kitchen().progress().record(guard.person().id).as_of(guard.today())
    wrong = [line for line in record.skills if line.skill == skill and line.seed >= 0 and line.act != "right"]
    named = [line for line in wrong if line.name]
    entry = guard.kitchen().file.book.find((named or wrong)[-1].entry) if wrong else None
    return answer_line(entry) if entry else None
