"""How a technique's quiz is passed: so many right of a fixed number, or questions until the answers decide."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from trainer.content import kinds
from trainer.content.declarations import Block, key
from trainer.content.kinds import WHOLE, Kind
from trainer.content.mapping_reader import MappingReader, shown
from trainer.content.nodes import Node, ScalarNode, SequenceNode
from trainer.kitchen.quiz.drawing import CannotDraw
from trainer.kitchen.quiz.retry_wait import DAYS
from trainer.kitchen.quiz.round_robin import draw_in_turn
from trainer.kitchen.quiz.sentences import QuestionWords
from trainer.kitchen.quiz.sequential_test import FEWEST, MOST, Plan, lines_of
from trainer.kitchen.quiz.sitting import SAFETY_PERCENT
from trainer.kitchen.technique import Technique
from trainer.recipe_math.parsing import parse_number
from trainer.recipe_math.quantity import QuantityProblem

USUAL = Plan()
TRIAL = 1
MOST_WAITS, LONGEST_WAIT = 6, 366
YES = replace(kinds.yes_no(), written="yes", schema={"enum": ["yes", True]})
NO = replace(kinds.yes_no(), written="no", schema={"enum": ["no", False]})


def share() -> Kind:
    """Return a share between 0 and 1, both out; None where it cannot be read."""

    def read(node: Node, name: str, at: MappingReader) -> Fraction | None:
        typed = node.value if isinstance(node, ScalarNode) else ""
        try:
            value = parse_number(typed.removesuffix("%").strip(), decimal_mark=".") / (
                100 if typed.endswith("%") else 1
            )
        except QuantityProblem:
            value = Fraction(0)
        if 0 < value < 1:
            return value
        hint = "Write a share between 0 and 1, such as 0.85, or 85 %."
        at.diagnostics.add(node.line, f"{name} is {shown(node)}, not a share.", hint)
        return None

    return Kind("share, 0.85 or 85 %", read, {"type": ["number", "string"]})


def waits() -> Kind:
    """Return whole days, none shorter than the one before; the usual ones where they cannot be read."""

    def read(node: Node, name: str, at: MappingReader) -> tuple[int, ...]:
        items = kinds.items_of(node, name, at)
        typed = [item.value if isinstance(item, ScalarNode) else "" for item in items]
        days = [int(each) for each in typed if WHOLE.fullmatch(each)]
        if 0 < len(days) == len(typed) <= MOST_WAITS and max(days) <= LONGEST_WAIT and days == sorted(days):
            return tuple(days)
        if not isinstance(node, SequenceNode):
            return DAYS
        limits = f"{MOST_WAITS} or fewer whole days, 0 to {LONGEST_WAIT}"
        hint = f"Write {limits}, none shorter than the one before: [1, 3, 14]."
        at.diagnostics.add(node.line, f"waits are {', '.join(map(repr, typed)) or 'none'}.", hint)
        return DAYS

    return Kind("list: days", read, kinds.list_of(kinds.whole(0, LONGEST_WAIT)).schema, DAYS)


class Quiz(Block):
    """How a quiz is passed."""

    months: int = key(kinds.whole(1, 120), "For how many months it is good.")
    safety_percent: int = key(
        kinds.whole(0, 100),
        "How many in a hundred of the questions with a caution must be right, whatever the rest.",
        default=SAFETY_PERCENT,
    )
    waits: tuple[int, ...] = key(waits(), "Days before the next try, after each fail: [1, 3, 14].", default=DAYS)


class FixedQuiz(Quiz):
    """So many right of a fixed number."""

    need_right: int = key(kinds.whole(1, 100), "How many right answers pass it.")
    decides: bool = key(NO, "No, or left out.", default=False)


class DecidingQuiz(Quiz):
    """Asked until the answers decide."""

    decides: bool = key(YES, "Yes: it ends as soon as the answers suffice.")
    too_little: Fraction | None = key(
        share(), "Who knows so much should not pass.", name="from", default=USUAL.too_little
    )
    enough: Fraction | None = key(share(), "Who knows so much should pass.", name="to", default=USUAL.enough)
    false_pass: Fraction | None = key(share(), "The risk that the first one passes.", default=USUAL.false_pass)
    false_fail: Fraction | None = key(share(), "The risk that the second one fails.", default=USUAL.false_fail)
    at_most: int = key(kinds.whole(FEWEST, MOST), "The most questions it may ask.", default=USUAL.at_most)

    @classmethod
    def fits(cls, at: MappingReader) -> bool:
        """Return whether the quiz decides."""
        decides = at.nodes.get("decides")
        return isinstance(decides, ScalarNode) and decides.value == "yes"

    def check(self) -> None:
        """Add a problem where the shares do not go together."""
        if self.too_little and self.enough and self.too_little >= self.enough:
            self.at.add("`from` is not below `to`.", "`from` should not pass, `to` should: 0.60 and 0.85.")
        if self.false_pass and self.false_fail and self.false_pass + self.false_fail >= 1:
            self.at.add("false_pass and false_fail come to 1 or more.", "Both are risks, such as 0.05 and 0.10.")

    def plan(self) -> Plan:
        """Return the plan of the quiz; the usual one where it cannot be used."""
        if not (self.sound and self.too_little and self.enough and self.false_pass and self.false_fail):
            return replace(USUAL, safety_percent=self.safety_percent)
        shares = (self.too_little, self.enough, self.false_pass, self.false_fail)
        return replace(Plan(*shares, self.at_most), safety_percent=self.safety_percent)


class EarlierQuiz(Block):
    """Beside skills: how long a quiz passed before them still counts."""

    months: int = key(kinds.whole(1, 120), "For how many months a quiz is good that was passed before.")

    @classmethod
    def fits(cls, at: MappingReader) -> bool:
        """Return whether nothing but the months is written."""
        return at.nodes.keys() == {"months"}


AnyQuiz = Quiz | EarlierQuiz


@dataclass(frozen=True, slots=True)
class QuizSetting:
    """What the key `quiz` of a technique says."""

    need_right: int
    months: int
    plan: Plan | None
    safety_percent: int = SAFETY_PERCENT
    waits: tuple[int, ...] = DAYS


def quiz_of(quiz: AnyQuiz | None, asked: int) -> QuizSetting:
    """Return how the quiz is passed; *asked* is how many questions a quiz of fixed length has."""
    if isinstance(quiz, DecidingQuiz):
        plan = quiz.plan()
        return QuizSetting(lines_of(plan).passes[-1], quiz.months, plan, quiz.safety_percent, quiz.waits)
    if not isinstance(quiz, FixedQuiz):
        return QuizSetting(0, quiz.months if quiz else 0, None)
    if quiz.need_right > asked:
        hint = f"Ask for {asked} or fewer, or count more questions."
        quiz.at.add(f"need_right is {quiz.need_right}, but {asked} questions are asked.", hint)
    return QuizSetting(quiz.need_right, quiz.months, None, quiz.safety_percent, quiz.waits)


def check_drawable(quiz: AnyQuiz | None, technique: Technique, words: QuestionWords) -> None:
    """Add a problem where a quiz that decides cannot draw as many different questions as it may ask."""
    if quiz is None or technique.plan is None:
        return
    try:
        draw_in_turn(technique, TRIAL, technique.asked, words)
    except CannotDraw as problem:
        message = f"The quiz may ask {technique.asked} questions: {problem}."
        quiz.at.add(message, "Widen the ranges, set more families, or lower at_most.")
