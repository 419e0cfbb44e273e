"""One answer on a page: as it was read, what was said of it, how it counted, and where its skill stands today."""

from __future__ import annotations

import json
from datetime import date
from itertools import takewhile

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

__all__ = ["AnswerLine", "answer_line", "outcome_words", "own_last_wrong", "row_words"]


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


def row_words(skill: Skill, on: date) -> Text:
    """Return how many are right in a row, of how many."""
    if skill.stage == "passed":
        return message("A question to keep it fresh")
    need = CONFIRM_RIGHT if skill.stage == "confirm" else skill.need
    return message("You have {run} of {need} in a row.", run=skill.run, need=need)


def outcome_words(entry: Entry) -> tuple[Text, Text, tuple[Text, ...]]:
    """Return the word for an answer, what is said of it, and where the skill stands: how it counted, what is next."""
    word = message("Right") if entry.body["verdict"] == "right" else message("Not yet")
    return word, _twice(entry), tuple(line for line in (_counted(entry), _stands(entry)) if line)


def _twice(entry: Entry) -> Text:
    """Return what is said where a wrong method shows the second time: both figures; nothing the first time."""
    name, record = entry.body["name"], guard.kitchen().progress().record(entry.cook).as_of(guard.today())
    if not name or outcome_of(entry) != "drill due":
        return ""
    before = [line for line in takewhile(lambda line: line.entry != entry.id, record.skills) if line.name == name]
    earlier = guard.kitchen().file.book.find(before[-1].entry) if before else None
    clause = reading.content().question_words.clauses(entry.body["family"], name).twice
    if earlier is None or not clause:
        return ""
    first, second = (in_words(one.body["given"], one.body["unit"], {}) for one in (earlier, entry))
    return second_showing(clause, first, second) if entry.body["unit"] else ""


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
    asked, today = reading.content().skills.get(entry.body["skill"]), guard.today()
    if asked is None:
        return ""
    skill = skills_on(guard.kitchen().progress().record(entry.cook).as_of(today), (asked,), today)[0].skill
    state = skill.state(today)
    if state == "drill":
        return _practice_words(skill)
    if state == "wait":
        return message("It goes on {day}.", day=day_in_words(skill.opens or today))
    if state == "passed":
        due = skill.due
        return message("The next question comes on {day}.", day=day_in_words(due)) if due else ""
    return joined([row_words(skill, today), _more_today(skill, today)])


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
