"""How a technique's quiz is passed: so many right of a fixed number, or questions until the answers decide."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from trainer.content.nodes import Text
from trainer.content.schema import WHOLE, Fields, shown
from trainer.kitchen.quiz.cooling_off import DAYS
from trainer.kitchen.quiz.deciding import FEWEST, MOST, Plan, lines_of
from trainer.kitchen.quiz.drawing import CannotDraw
from trainer.kitchen.quiz.in_turn import draw_in_turn
from trainer.kitchen.quiz.sitting import SAFETY_PERCENT
from trainer.kitchen.technique import Technique
from trainer.recipe_math.parsing import parse_number
from trainer.recipe_math.quantity import QuantityProblem

USUAL = Plan()
TRIAL = 1
MOST_WAITS, LONGEST_WAIT = 6, 366
WAITS = f"Write {MOST_WAITS} or fewer whole days, 0 to {LONGEST_WAIT}, none shorter than the one before: [1, 3, 14]."
PERCENT = "Write a share between 0 and 1, such as 0.85, or 85 %."


@dataclass(frozen=True, slots=True)
class QuizSetting:
    """What the key `quiz` of a technique says."""

    need_right: int
    months: int
    plan: Plan | None
    safety_percent: int = SAFETY_PERCENT
    waits: tuple[int, ...] = DAYS


def quiz_of(quiz: Fields | None, asked: int) -> QuizSetting:
    """Return how the quiz is passed; *asked* is how many questions a quiz of fixed length has."""
    if quiz is None:
        return QuizSetting(0, 1, None)
    months, floor = quiz.whole("months", 1, 120), quiz.whole("safety_percent", 0, 100, SAFETY_PERCENT)
    waits = _waits(quiz)
    if quiz.yes("decides", default=False):
        plan = replace(_plan(quiz), safety_percent=floor)
        found = QuizSetting(lines_of(plan).passes[-1], months, plan, floor, waits)
    else:
        found = QuizSetting(_need_right(quiz, asked), months, None, floor, waits)
    quiz.close()
    return found


def note_undrawable(quiz: Fields | None, technique: Technique) -> None:
    """Note a quiz that decides and whose settings cannot give as many different questions as it may ask."""
    if quiz is None or technique.plan is None:
        return
    try:
        draw_in_turn(technique, TRIAL, technique.asked)
    except CannotDraw as problem:
        words = f"The quiz may ask {technique.asked} questions: {problem}."
        quiz.sheet.note(quiz.line, words, "Widen the ranges, set more families, or lower at_most.")


def _plan(quiz: Fields) -> Plan:
    """Return the plan of a quiz that decides; the usual one where it cannot be used."""
    before = len(quiz.sheet.problems)
    shares = _shares(quiz)
    at_most = quiz.whole("at_most", FEWEST, MOST, USUAL.at_most)
    if shares["from"] >= shares["to"]:
        quiz.sheet.note(quiz.line, "`from` is not below `to`.", "`from` should not pass, `to` should: 0.60 and 0.85.")
    if shares["false_pass"] + shares["false_fail"] >= 1:
        mend = "Both are risks, such as 0.05 and 0.10."
        quiz.sheet.note(quiz.line, "false_pass and false_fail come to 1 or more.", mend)
    if len(quiz.sheet.problems) > before:
        return USUAL
    return Plan(shares["from"], shares["to"], shares["false_pass"], shares["false_fail"], at_most)


def _waits(quiz: Fields) -> tuple[int, ...]:
    """Return the days to wait after the first fail, the second, and every further one; the usual where none are set."""
    there = quiz.node("waits", required=False)
    if there is None:
        return DAYS
    typed = [node.value if isinstance(node, Text) else "" for node in quiz.many("waits")]
    if 0 < len(typed) <= MOST_WAITS and all(WHOLE.fullmatch(each) and int(each) <= LONGEST_WAIT for each in typed):
        days = tuple(int(each) for each in typed)
        if list(days) == sorted(days):
            return days
    quiz.sheet.note(there.line, f"waits are {', '.join(map(repr, typed)) or 'none'}.", WAITS)
    return DAYS


def _shares(quiz: Fields) -> Mapping[str, Fraction]:
    """Return the four shares, each the usual one where it is not named."""
    usual = {
        "from": USUAL.too_little,
        "to": USUAL.enough,
        "false_pass": USUAL.false_pass,
        "false_fail": USUAL.false_fail,
    }
    return {key: _share(quiz, key, default) for key, default in usual.items()}


def _share(quiz: Fields, key: str, default: Fraction) -> Fraction:
    """Return a share between 0 and 1, both out; the default where there is none or it cannot be read."""
    node = quiz.node(key, required=False)
    if node is None:
        return default
    typed = node.value if isinstance(node, Text) else ""
    try:
        value = parse_number(typed.removesuffix("%").strip(), decimal_mark=".") / (100 if typed.endswith("%") else 1)
    except QuantityProblem:
        value = Fraction(0)
    if 0 < value < 1:
        return value
    quiz.sheet.note(node.line, f"{key} is {shown(node)}, not a share.", PERCENT)
    return default


def _need_right(quiz: Fields, asked: int) -> int:
    """Return how many right answers pass a quiz of fixed length."""
    need = quiz.whole("need_right", 1, 100)
    if need > asked:
        mend = f"Ask for {asked} or fewer, or count more questions."
        quiz.sheet.note(quiz.line, f"need_right is {need}, but {asked} questions are asked.", mend)
    return need
