"""The shipped words in other languages: whole where they are, and nothing of the house left in English."""

from __future__ import annotations

import re

import pytest

from tests.content.conftest import CONTENT
from trainer.content.files import Library, load_content
from trainer.kitchen.technique import Content

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
    notes = "".join(Library(CONTENT).notes())
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


MISLEADING = {
    # Mexican kitchen Spanish, common practice: what misled a reader, and where it stood
    r"Enfríala luego|Seca luego": "luego is later, and the step means at once",
    r"baño de vapor": "a steam room; the steam well is a baño maría",
    r"[Ll]a concha cruda": "the shell; the oysters, clams and mussels are raw",
    r"Casi todos los brotes": "nearly all; the study says more than half",
    r"suelta el cuchillo": "drop the knife; it is laid down on the table",
    r"huevos junt(?:os|ados)|yema cruda juntada": "gathered; pooled egg is mixed egg",
}


@pytest.mark.parametrize("wording", sorted(MISLEADING))
def test_no_spanish_word_says_something_else(wording: str) -> None:
    """A slip of a word that changes what a cook does; the steam well's nine places among them."""
    found = [
        f"{path.parent.name}: {line.strip()[:80]}"
        for path in CONTENT.glob("*/*/es.yaml")
        for line in path.read_text("utf-8").splitlines()
        if re.search(wording, line)
    ]
    assert found == [], MISLEADING[wording]


def test_the_spanish_says_what_the_english_does(spanish: Content) -> None:
    """At once; more than half; the animals and not the shell."""
    keep = " ".join(spanish.recipes["yolk_sauce_base"].method)
    assert "Enfríala de inmediato" in keep
    come = next(step for step in spanish.techniques["clean_hands"].steps if step.id == "come_well")
    assert "Más de la mitad" in come.why
    cautions = {hazard.id: hazard.caution for hazard in spanish.techniques["cold_side_basics"].hazards}
    assert cautions["raw_shellfish"].startswith("Los ostiones, almejas y mejillones crudos")
    assert not re.search(r"baño(?! maría| de hielo)", repr(spanish.techniques["safe_holding"].steps))


@pytest.mark.parametrize("allergen", sorted(EU_IN_SPANISH))
def test_allergens_are_called_as_the_law_calls_them(spanish: Content, allergen: str) -> None:
    """Reglamento (UE) n.º 1169/2011, anexo II; from memory."""
    assert EU_IN_SPANISH[allergen] in spanish.allergens[allergen].lower()


SAFETY = (
    "grill_doneness",
    "allergens",
    "safe_holding",
    "clean_hands",
    "sanitizer",
    "cold_side_basics",
    "station_opening",
)
ONE_WORD = r"\b(?:bandejas?|fregaderos?|encargad[oa]|tomates?|registro de|el registro)\b"
"""What a Mexican kitchen calls charola, tarja, persona a cargo, jitomate and bitácora: common practice."""


@pytest.mark.parametrize("name", SAFETY)
def test_one_thing_has_one_word_of_the_kitchen(name: str) -> None:
    """Tray, sink, person in charge, tomato and log have one word each, in steps and scenes alike."""
    words = (CONTENT / "techniques" / name / "es.yaml").read_text("utf-8")
    assert re.findall(ONE_WORD, words, re.IGNORECASE) == []
