"""The words of questions in content files: what is wrong is told by file and line, and nothing is lost by it."""

from __future__ import annotations

import shutil
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest

from trainer.content.files import load_content
from trainer.content.nodes import Diagnostics
from trainer.content.question_words import QuestionFiles, shipped_words
from trainer.content.shipped import shipped
from trainer.kitchen.quiz.drawing import draw_question
from trainer.kitchen.quiz.drawn import QuestionContext
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.sentences import QuestionWords
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.technique import Problem

LANGUAGES = ("en", "es")
MOST_SEEDS = 3000
SHARED_BY: Mapping[str, tuple[str, ...]] = {"scale_by_portion": ("work_in_pounds_is", "work_in_pounds_lb")}
"""Sentences that stand for several families of a file, and that one of them does not use."""


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """Return a content folder that has its own words for questions about dough."""
    shutil.copytree(shipped("content") / "questions" / "dough", tmp_path / "questions" / "dough")
    return tmp_path


def edit(own: Path, language: str, old: str, new: str) -> None:
    path = own / "questions" / "dough" / f"{language}.yaml"
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def problems_in(own: Path) -> list[Problem]:
    found: list[Problem] = []
    QuestionFiles.read(own, Diagnostics("", found))
    return found


def told_by(own: Path, language: str) -> QuestionWords:
    return QuestionFiles.read(own, Diagnostics("", [])).told(language)


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_family_has_its_words_in_every_language(language: str) -> None:
    """All families, and as many wrong methods, lists and sentences as in English."""
    told, english = shipped_words(language).families, shipped_words("en").families
    assert set(told) == set(FAMILIES)
    for name, kind in FAMILIES.items():
        words = told[name]
        assert words.title
        assert set(words.wrong) == set(kind.methods())
        assert bool(words.caution) == kind.safety
        assert set(words.sentences) == set(english[name].sentences)
        assert {slot: len(each) for slot, each in words.words.items()} == {
            slot: len(each) for slot, each in english[name].words.items()
        }


class Noting(dict[str, str]):
    """Sentences that note which of them were asked for."""

    def __init__(self, sentences: Mapping[str, str]) -> None:
        super().__init__(sentences)
        self.asked: set[str] = set()

    def __getitem__(self, key: str) -> str:
        self.asked.add(key)
        return super().__getitem__(key)


@pytest.mark.parametrize("name", sorted(FAMILIES))
def test_every_sentence_is_asked_for_by_its_family(name: str) -> None:
    """Drawn often enough, a family uses each of its sentences: none is left from before."""
    english = shipped_words("en")
    shared = set(SHARED_BY.get(name, ()))
    noting = Noting(english.families[name].sentences)
    families = {**english.families, name: replace(english.families[name], sentences=noting)}
    context = QuestionContext(QuestionWords(families, english.foods))
    for seed in range(MOST_SEEDS):
        for units in ("us", "metric"):
            form = context._replace(units=units)
            assert tell(draw_question(name, seed, form), form).solution
        if set(noting) - noting.asked <= shared:
            return
    assert set(noting) - noting.asked == shared


@pytest.mark.parametrize(
    ("old", "new", "problem"),
    [
        ("all_the_flour:", "all_flour:", "no all_the_flour"),
        ("{main} {unit} + {second}", "{main} {unit} + {third}", "{third}"),
        ("one_flour_only:", "one_flour:", "one_flour"),
        ("bakers_percent:", "bakers_share:", "no question family"),
        ("title: A part", "titel: A part", "titel"),
        ("words:", "word:", "word"),
    ],
)
def test_a_slip_in_a_words_file_is_told_by_file_and_line(own: Path, old: str, new: str, problem: str) -> None:
    """A sentence, a brace, a wrong method, a family or a key that is not known; and the program's words are told."""
    edit(own, "en", old, new)
    found = problems_in(own)
    assert any(problem in each.message for each in found), found
    assert all(each.file == "questions/dough/en.yaml" and each.line > 0 for each in found)
    told = told_by(own, "en")
    assert told.families["bakers_percent"] == shipped_words("en").families["bakers_percent"]


def test_a_word_too_few_in_another_language_is_told(own: Path) -> None:
    """One index picks one thing in every language."""
    edit(own, "es", "[harina de fuerza, harina de trigo suave, harina de durum]", "[harina de fuerza, harina de durum]")
    (found,) = problems_in(own)
    assert found.file == "questions/dough/es.yaml"
    assert "2 words here and 3 in English" in found.message


def test_a_kitchen_words_a_family_as_it_likes(own: Path) -> None:
    """Its own sentence is told; every other family keeps the program's."""
    edit(own, "en", "title: A part of a dough as a baker's percentage", "title: Baker's percentage")
    told = told_by(own, "en")
    assert told.title("bakers_percent") == "Baker's percentage"
    assert told.families["salt_brine"] == shipped_words("en").families["salt_brine"]


def test_own_english_words_without_spanish_ones_are_told_in_english(own: Path) -> None:
    """As a technique is: English until it has words."""
    (own / "questions/dough/es.yaml").unlink()
    edit(own, "en", "title: A part of a dough as a baker's percentage", "title: Baker's percentage")
    told = told_by(own, "es")
    assert told.title("bakers_percent") == "Baker's percentage"
    assert told.title("salt_brine") == shipped_words("es").title("salt_brine")


def test_a_problem_in_the_words_takes_no_technique_away(tmp_path: Path) -> None:
    """A slip in a question's words leaves out those words, never a technique or a station."""
    content = tmp_path / "content"
    shutil.copytree(shipped("content"), content)
    path = content / "questions" / "dough" / "en.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("all_the_flour:", "all_flour:"), encoding="utf-8")
    taught, problems = load_content(content)
    whole, _ = load_content(shipped("content"))
    assert problems
    assert taught is not None
    assert whole is not None
    assert set(taught.techniques) == set(whole.techniques)
    assert set(taught.stations) == set(whole.stations)
