"""The shipped words in other languages: whole where they are, and nothing of the house left in English."""

from __future__ import annotations

import re

import pytest

from tests.content.conftest import CONTENT
from trainer.kitchen.technique import Content
from trainer.store.content_files import content_notes, load_content

LOADER_SAYS = re.compile(r"\b(?:give or take|at (?:least|most|or)|hours?|minutes?|seconds?|days|cups?)\b")
EU_IN_SPANISH = {
    # Reglamento (UE) 1169/2011, anexo II, in Spanish: apio, mostaza, sulfitos, moluscos
    "celery": "apio", "mustard": "mostaza", "sulphites": "sulfitos", "molluscs": "moluscos", "egg": "huevo",
    "fish": "pescado", "milk": "leche", "crustaceans": "crustáceos",
}  # fmt: skip


@pytest.fixture(scope="module")
def spanish() -> Content:
    """Return the shipped content in Spanish."""
    content, problems = load_content(CONTENT, "es")
    assert problems == ()
    assert content is not None
    return content


def test_the_house_speaks_spanish_throughout(content: Content, spanish: Content) -> None:
    """Every station, paper, reason, allergen and line of the house has its Spanish words."""
    notes = "".join(content_notes(CONTENT))
    assert not re.search(r"stations\.|allergens\.|overrides\.|codes\.", notes)
    assert all(spanish.stations[key].title != station.title for key, station in content.stations.items())


def test_the_loader_leaves_no_english_in_a_spanish_technique(spanish: Content) -> None:
    """A number in a Spanish sentence is told in Spanish."""
    for technique in spanish.techniques.values():
        if technique.words_edition == "es":
            steps = [f"{step.text} {step.cue} {step.why}" for step in technique.steps]
            told = [*technique.standard_text, *steps, *(point.text for point in technique.checklist)]
            assert not LOADER_SAYS.findall(" ".join(told)), technique.id


def test_a_spanish_technique_has_the_structure_of_the_english(content: Content, spanish: Content) -> None:
    """Only words differ: the same steps, limits, points and questions."""
    for key, technique in spanish.techniques.items():
        there = content.techniques[key]
        assert technique.standard == there.standard
        assert [step.id for step in technique.steps] == [step.id for step in there.steps]
        assert [(p.id, p.critical, p.limit) for p in technique.checklist] == [
            (p.id, p.critical, p.limit) for p in there.checklist
        ]
        assert [q.ranges for q in technique.questions] == [q.ranges for q in there.questions]


@pytest.mark.parametrize("allergen", sorted(EU_IN_SPANISH))
def test_allergens_are_called_as_the_law_calls_them(spanish: Content, allergen: str) -> None:
    """Reglamento (UE) n.º 1169/2011, anexo II; from memory."""
    assert EU_IN_SPANISH[allergen] in spanish.allergens[allergen].lower()
