"""The sentences of questions: a key with its values here, the words in content, in every language."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from trainer.kitchen.quiz.showing_words import SLIPS, Clauses
from trainer.messages import joined, message


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence by its key among those of its family, with the values for its braces.

    `family` is set where it is another family's than the question's. `price` stands after the sentence: what the
    result comes to in money. A value may be a sentence itself.
    """

    key: str
    values: Mapping[str, Any]
    family: str = ""
    price: Sentence | Series | str = ""


def sentence(key: str, /, **values: Any) -> Sentence:  # noqa: ANN401 - whatever can be printed
    """Return the sentence of this key with these values."""
    return Sentence(key, values)


def priced(line: Sentence, price: Sentence | Series | str) -> Sentence:
    """Return a line followed by the price it comes to."""
    return replace(line, price=price)


@dataclass(frozen=True, slots=True)
class Series:
    """Several sentences or texts, one after the other with a mark between."""

    parts: tuple[Any, ...]
    by: str = " "


@dataclass(frozen=True, slots=True)
class WrongWords:
    """What is said of a wrong method: to the cook who used it, and to the teacher.

    `clause` says what is done, to stand after "if", and `was` what was done, to stand after "twice": `the loss is
    left out`, `the loss was left out`. Both are empty where a kitchen's own content has none.
    """

    cook: str
    teacher: str
    clause: str = ""
    was: str = ""


@dataclass(frozen=True, slots=True)
class FamilyWords:
    """The words of one question family in one language.

    `words` are lists to pick from, by slot; `sentences` have braces for values; `wrong` is by method; `caution` stands
    with questions about heat, time, chemicals or allergens.
    """

    title: str
    words: Mapping[str, tuple[str, ...]]
    sentences: Mapping[str, str]
    wrong: Mapping[str, WrongWords]
    caution: str = ""


@dataclass(frozen=True, slots=True)
class QuestionWords:
    """The words of all question families in one language, by family, and how foods are called, by id."""

    families: Mapping[str, FamilyWords]
    foods: Mapping[str, str]

    def title(self, family: str) -> str:
        """Return what a family is called; its name where it is not known."""
        return self.families[family].title if family in self.families else family

    def for_cook(self, family: str, method: str) -> str:
        """Return what is said to the cook about a wrong method; empty where it is not known."""
        return self._wrong(family, method).cook

    def for_teacher(self, family: str, method: str) -> str:
        """Return what a wrong method means, said to the teacher; empty where it is not known."""
        return self._wrong(family, method).teacher

    def clauses(self, family: str, name: str) -> Clauses:
        """Return what a wrong method or a slip is, in one clause after "if" and one after "twice"."""
        wrong = self._wrong(family, name)
        return SLIPS.get(name) or Clauses(wrong.clause, wrong.was)

    def _wrong(self, family: str, method: str) -> WrongWords:
        known = self.families.get(family)
        return known.wrong.get(method, NO_WORDS) if known else NO_WORDS

    def told(self, value: Any, family: str) -> Any:  # noqa: ANN401 - whatever a sentence is filled with
        """Return a sentence of a family with its values filled in; any other value as it is."""
        if isinstance(value, Series):
            return joined((self.told(each, family) for each in value.parts), value.by)
        if not isinstance(value, Sentence):
            return value
        of = value.family or family
        filled = {name: self.told(each, of) for name, each in value.values.items()}
        line = message(self.families[of].sentences[value.key], **filled)
        return joined([line, self.told(value.price, of)], ": ") if value.price else line


NO_WORDS = WrongWords("", "")
NO_QUESTION_WORDS = QuestionWords({}, {})
