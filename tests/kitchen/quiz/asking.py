"""Questions as tests ask them: drawn and told with the words that come with the program."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from trainer.content.question_words import shipped_words
from trainer.kitchen.quiz import drawing, drills
from trainer.kitchen.quiz.answers import is_askable
from trainer.kitchen.quiz.drawn import DrawnQuestion, QuestionContext, context_of
from trainer.kitchen.quiz.families import NUMERIC
from trainer.kitchen.quiz.family import System
from trainer.kitchen.quiz.material import PRACTICE, Material
from trainer.kitchen.quiz.question import Choice, Question, WrongMethod
from trainer.kitchen.quiz.sentences import FamilyWords, QuestionWords, WrongWords
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.technique import QuestionSetting, Technique
from trainer.messages import Text, translate
from trainer.store.catalogues import translations

WORDS = shipped_words("en")


def context(
    setting: QuestionSetting | None = None, material: Material = PRACTICE, language: str = "en", units: System = ""
) -> QuestionContext:
    """Return a context with the words that come with the program."""
    return QuestionContext(shipped_words(language), material, setting, units)


@dataclass(frozen=True, slots=True)
class AskedChoice(Choice):
    """A choice, printed."""

    text: str
    says: str = ""


@dataclass(frozen=True, slots=True)
class AskedMethod(WrongMethod):
    """A wrong method, printed."""

    says: str
    clause: str = ""


@dataclass(frozen=True, slots=True)
class Asked(Question):
    """A question as a person reads it: every text of it printed."""

    text: str
    wrong_methods: tuple[AskedMethod, ...]
    choices: tuple[AskedChoice, ...] = ()
    reasons: tuple[AskedChoice, ...] = ()
    figure_alt: str = ""
    language: str = "en"

    @property
    def solution(self) -> tuple[str, ...]:
        """Return the worked solution, printed."""
        return tuple(translate(line, translations(self.language)) for line in self.solved())


@dataclass(frozen=True, slots=True)
class AskedDrill(drills.Drill):
    """A drill as a person reads it: every text of it printed."""

    worked: Asked
    half: Asked
    lines: tuple[str, ...]
    begun: str


def printed(question: Question, language: str = "en") -> Asked:
    """Return a question as a person reads it in a language."""

    def told(text: Text) -> str:
        return translate(text, translations(language))

    def chosen(each: Choice) -> AskedChoice:
        return AskedChoice(each.key, told(each.text), each.is_right, each.name, told(each.says))

    return Asked(
        family=question.family,
        seed=question.seed,
        text=told(question.text),
        answer=question.answer,
        solved=question.solved,
        wrong_methods=tuple(
            AskedMethod(way.name, way.value, told(way.says), told(way.clause)) for way in question.wrong_methods
        ),
        choices=tuple(map(chosen, question.choices)),
        reasons=tuple(map(chosen, question.reasons)),
        marks_all=question.marks_all,
        pictures=question.pictures,
        figure=question.figure,
        figure_alt=told(question.figure_alt),
        food=question.food,
        food_word=question.food_word,
        safety=question.safety,
        hints=question.hints,
        early=question.early,
        early_is_right=question.early_is_right,
        numbers=question.numbers,
        off=question.off,
        language=language,
    )


def drawn_question(
    family: str, seed: int, setting: QuestionSetting | None = None, material: Material = PRACTICE
) -> DrawnQuestion:
    """Return a question as drawn, without words."""
    return drawing.draw_question(family, seed, context(setting, material))


def draw_question(
    family: str,
    seed: int,
    setting: QuestionSetting | None = None,
    material: Material = PRACTICE,
    language: str = "en",
    *,
    units: System = "",
) -> Asked:
    """Return a question drawn and told."""
    asked = context(setting, material, language, units)
    return printed(tell(drawing.draw_question(family, seed, asked), asked), language)


def draw_sitting(technique: Technique, seed: int) -> tuple[Asked, ...]:
    """Return the questions of a sitting, told."""
    drawn = drawing.draw_sitting(technique, seed, WORDS)
    return tuple(printed(tell(each, context_of(technique, each.family, WORDS))) for each in drawn)


def question_from(family: str, numbers: Mapping[str, Fraction], words: Mapping[str, str] | None = None) -> Asked | None:
    """Return the question with these very numbers and words; None where it may not be asked."""
    kind, first = (
        NUMERIC[family].form_of(numbers),
        {slot: each[0] for slot, each in WORDS.families[family].words.items()},
    )
    if not is_askable(kind, numbers):
        return None
    picked = {slot: (word,) for slot, word in {**first, **(words or {})}.items()}
    drawn = DrawnQuestion(family, 0, numbers, dict.fromkeys(picked, 0))
    return printed(tell(drawn, context(QuestionSetting(family, picked, {}, 1))))


def drill_for(
    family: str, method: str, seed: int, setting: QuestionSetting | None = None, material: Material = PRACTICE
) -> AskedDrill:
    """Return a drill told with the words that come with the program."""
    drill = drills.drill_for(family, method, seed, context(setting, material))
    return AskedDrill(
        method=drill.method,
        says=drill.says,
        worked=printed(drill.worked),
        half=printed(drill.half),
        lines=tuple(map(translate, drill.lines)),
        begun=translate(drill.begun),
    )


def shown(question: Asked) -> tuple[str, ...]:
    """Return all that tells a question from another: its text, its figure and what there is to choose."""
    return (question.text, question.figure, *(choice.text for choice in (*question.choices, *question.reasons)))


def reworded(words: QuestionWords) -> QuestionWords:
    """Return words in which every text is another one."""

    def family(each: FamilyWords) -> FamilyWords:
        return FamilyWords(
            title=f"{each.title}!",
            words={slot: tuple(f"{word}!" for word in texts) for slot, texts in each.words.items()},
            sentences={key: f"{text}!" for key, text in each.sentences.items()},
            wrong={
                name: WrongWords(f"{way.cook}!", f"{way.teacher}!", f"{way.clause}!", f"{way.was}!")
                for name, way in each.wrong.items()
            },
            caution=f"{each.caution}!",
        )

    return QuestionWords({name: family(each) for name, each in words.families.items()}, words.foods)
