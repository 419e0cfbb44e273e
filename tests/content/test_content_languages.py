"""Words in every language: all checked, held alike, and told in the language asked for."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.content.test_recipe_files import kitchen_with_recipe
from tests.store.small_kitchen import change, small_kitchen
from trainer.content.files import Library, load_content
from trainer.content.limits import First
from trainer.kitchen.technique import Content, Problem

STRUCTURE, ENGLISH, SPANISH = (f"techniques/rolling/{name}.yaml" for name in ("technique", "en", "es"))
HOUSE = "es.yaml"
WORDS = """\
title: Estirar
goal: Una lámina pareja que no se rompe.
words:
  lámina: Masa estirada.
standard:
  sheet_weight: "Una lámina pesa {sheet_weight}."
  rest: "Reposa {rest}."
  bench: "La mesa está a {bench}."
tools: [Rodillo, Báscula]
steps:
  roll:
    do: Estira desde el centro.
    cue: Se ve lisa.
    why: Una lámina dispareja se cuece dispareja.
    figure: Dos manos estiran una lámina de masa desde el centro hacia afuera en una mesa con harina.
  wait: {do: "Espera {seconds}."}
hazards:
  rollers: Lejos de los rodillos.
faults:
  torn: {shows: Un hoyo., cause: Muy seca., cure: Tapa la masa.}
checklist:
  guard_on: La guarda está puesta.
  weights: "{pieces_inside} de {pieces} láminas pesan {sheet_weight}."
  kept_hot: "La salsa está a {code.hot_holding}."
"""
HOUSE_WORDS = """\
stations:
  bench: {title: Mesa, age_reason: Una regla inventada., certificates: {food_handler: Tarjeta}}
allergens: {egg: Huevo}
overrides: {hot_holding: {title: Mantener caliente, reason: Entra aire.}}
codes: {town: {title: Código del pueblo}}
sources: {house: {title: La casa}}
"""


def spanish_kitchen(folder: Path) -> Path:
    """Return a small content folder told in English and in Spanish."""
    small_kitchen(folder)
    (folder / SPANISH).write_text(WORDS, encoding="utf-8")
    (folder / HOUSE).write_text(HOUSE_WORDS, encoding="utf-8")
    return folder


def loaded(folder: Path, language: str = "es", first: First = "us") -> tuple[Content, tuple[Problem, ...]]:
    """Return the content of a folder that has some, and its problems."""
    content, problems = load_content(folder, language, first)
    assert content is not None
    return content, problems


def test_a_technique_is_told_in_the_language_asked_for(tmp_path: Path) -> None:
    """Title, steps and checklist; a cook who reads English still reads English."""
    folder = spanish_kitchen(tmp_path)
    told = {language: loaded(folder, language)[0].techniques["rolling"] for language in ("es", "en", "fr")}
    assert {key: (each.title, each.words_edition) for key, each in told.items()} == {
        "es": ("Estirar", "es"),
        "en": ("Rolling", "en"),
        "fr": ("Rolling", "en"),
    }
    assert loaded(folder)[1] == ()


def test_a_number_in_words_is_told_in_the_language_of_the_words(tmp_path: Path) -> None:
    """Give or take, from and to, or more, and times: none of them stays English in a Spanish sentence."""
    technique = loaded(spanish_kitchen(tmp_path))[0].techniques["rolling"]
    assert technique.standard_text == (
        "Una lámina pesa 4 oz (113 g), más o menos 0.2 oz (6 g).",
        "Reposa de 30 minutos a 2 horas.",
        "La mesa está a 68 °F (20 °C).",
    )
    assert technique.steps[1].text == "Espera 1 minuto 30 segundos."
    assert technique.checklist[2].text == "La salsa está a 140 °F (60 °C) o más."


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("highest: 41 F", "41 °F (5 °C) o menos"),
        ("lowest: 90 s", "al menos 1 minuto 30 segundos"),
        ("highest: 7 days", "como máximo 7 días"),
        ("within: 2 F", "con diferencia de hasta 2 °F (1 °C)"),
        ("target: 2.5 cups", "2 1/2 tazas (591 mL)"),
        ("target: 12 nests", "12 nidos"),
        ("lowest: 1 Tbsp, highest: 2 Tbsp", "de 1 cda (15 mL) a 2 cda (30 mL)"),
        ("target: 2 h, give_or_take: 5 min", "2 horas, más o menos 5 minutos"),
    ],
)
def test_every_kind_of_line_is_told_in_spanish(tmp_path: Path, line: str, said: str) -> None:
    """As a cook says it; 1 US cup is 236.5882 mL and 1 Tbsp 14.787 mL (NIST SP 811, Appendix B)."""
    folder = spanish_kitchen(tmp_path)
    change(folder, STRUCTURE, "bench: {target: 68 F", f"bench: {{{line}")
    content, problems = loaded(folder)
    assert problems == ()
    assert content.techniques["rolling"].standard_text[2] == f"La mesa está a {said}."


def test_a_house_tells_its_stations_allergens_lines_and_sources(tmp_path: Path) -> None:
    """What stands once for the whole house stands once in another language too."""
    content, problems = loaded(spanish_kitchen(tmp_path))
    station = content.stations["bench"]
    assert problems == ()
    assert (station.title, station.age_reason) == ("Mesa", "Una regla inventada.")
    assert station.certificates[0].title == "Tarjeta"
    assert (content.allergens["egg"], content.code.title) == ("Huevo", "Código del pueblo")
    assert content.sources["house"].title == "La casa"
    assert content.code.overrides == (
        "Mantener caliente: 140 °F (60 °C) o más, en lugar de 135 °F (57 °C) o más (Part 1). Entra aire.",
    )


def test_english_stays_as_it_stands_in_its_own_files(tmp_path: Path) -> None:
    """Another language beside it changes nothing for who reads English."""
    folder = spanish_kitchen(tmp_path)
    both, _ = loaded(folder, "en")
    (folder / HOUSE).unlink()
    (folder / SPANISH).unlink()
    assert loaded(folder, "en")[0] == both


def test_what_changed_in_an_edition_may_be_told_as_well(tmp_path: Path) -> None:
    """A list of as many sentences as there are editions, in their order."""
    folder = spanish_kitchen(tmp_path)
    change(folder, SPANISH, "title: Estirar", "title: Estirar\neditions: [Primera edición., Otro rodillo.]")
    content, problems = loaded(folder)
    assert problems == ()
    assert [edition.changed for edition in content.techniques["rolling"].editions] == [
        "Primera edición.",
        "Otro rodillo.",
    ]


def test_a_fault_in_another_language_is_told_whatever_language_is_asked_for(tmp_path: Path) -> None:
    """`content check` reads in English, and finds what is wrong in Spanish."""
    folder = spanish_kitchen(tmp_path)
    change(folder, SPANISH, "Muy seca.", "Muy seca por 3 minutos.")
    for language in ("en", "es"):
        assert [problem.file for problem in loaded(folder, language)[1]] == [SPANISH]


def test_a_fault_in_another_language_leaves_out_that_language_and_no_technique(tmp_path: Path) -> None:
    """A slip of a translator takes nobody off the line: the technique is taught in English until it is fixed."""
    folder = spanish_kitchen(tmp_path)
    change(folder, SPANISH, "{bench}", "{banch}")
    content, _ = loaded(folder)
    assert content.techniques["rolling"].words_edition == "en"
    assert list(content.stations) == ["bench"]


def test_a_fault_in_the_structure_is_told_once(tmp_path: Path) -> None:
    """Two languages read one structure, and one problem is one problem."""
    folder = spanish_kitchen(tmp_path)
    change(folder, STRUCTURE, "kind: do", "kind: done")
    assert len(loaded(folder)[1]) == 1
    assert loaded(folder)[0].techniques == {}


FAULTS = {
    "a missing step": ("  wait: {do", "  waits: {do", "The step wait has no words", "Add"),
    "a missing cue": ("    cue: Se ve lisa.\n", "", "roll has no cue, which English has", "Add `cue"),
    "a cue that English lacks": (
        '{do: "Espera',
        '{cue: Nada., do: "Espera',
        "wait has a cue, which English lacks",
        "en.yaml",
    ),
    "a missing tool": (", Báscula]", "]", "tools holds 1 here and 2 in English", "the same order"),
    "a missing word": ("words:\n  lámina: Masa estirada.\n", "", "words holds 0 here and 1 in English", "in both"),
    "a number left out": ("Reposa {rest}.", "Reposa.", "rest names other numbers than in English", "{rest}"),
    "another number": ("pesa {sheet_weight}.", "pesa {rest}.", "sheet_weight names other numbers", "{sheet_weight}"),
    "an unknown key": ("title: Estirar", "titulo: Estirar", "the words has no title", "Add"),
    "a digit": ("Un hoyo.", "1 hoyo.", "A number is typed in shows", "in braces"),
    "a figure told too short": (
        " desde el centro hacia afuera en una mesa con harina",
        "",
        "told in 7 words",
        "15 words",
    ),
}


@pytest.mark.parametrize(("old", "new", "problem", "mend"), FAULTS.values(), ids=FAULTS)
def test_a_fault_in_another_language_is_told(tmp_path: Path, old: str, new: str, problem: str, mend: str) -> None:
    """Whatever is checked in English is checked in every language, and both must say the same."""
    folder = spanish_kitchen(tmp_path)
    change(folder, SPANISH, old, new)
    found = [each for each in loaded(folder, "en")[1] if problem in each.message]
    assert [each.file for each in found] == [SPANISH]
    assert mend in found[0].hint


@pytest.mark.parametrize(
    ("english", "spanish", "problem"),
    [
        ("durum|semolina", "trigo duro|sémola", ""),
        ("durum|semolina", "trigo duro", "food of scale_by_yield has 1 alternatives here and 2 in English"),
        ("durum|semolina", None, "questions: scale_by_yield has no food, which English has"),
        (None, "trigo duro", "alternatives here"),
    ],
)
def test_one_seed_draws_the_same_thing_in_every_language(
    tmp_path: Path, english: str | None, spanish: str | None, problem: str
) -> None:
    """As many alternatives as in English, or as the family itself has."""
    folder = spanish_kitchen(tmp_path)
    for file, words in ((ENGLISH, english), (SPANISH, spanish)):
        if words:
            path = folder / file
            path.write_text(f"{path.read_text()}questions: {{scale_by_yield: {{food: {words}}}}}\n")
    found = [each.message for each in loaded(folder, "en")[1]]
    assert len(found) == bool(problem)
    assert problem in "".join(found)


HOUSE_FAULTS = {
    "an unknown station": ("  bench: {", "  banch: {", "stations.banch.title is nothing that has words", "mean bench?"),
    "an unknown key": ("title: Mesa", "titel: Mesa", "stations.bench.titel", "mean title?"),
    "an unknown paper": ("food_handler", "food_handlr", "food_handlr", "mean food_handler?"),
    "an unknown allergen": ("egg: Huevo", "eg: Huevo", "allergens.eg", "mean egg?"),
    "an unknown block": ("allergens: {egg", "alergenos: {egg", "alergenos.egg", ""),
    "a block that is a text": (
        "overrides: {hot_holding: {title: Mantener caliente, reason: Entra aire.}}",
        "stations: x",
        "stations is nothing",
        "keys",
    ),
    "a list": ("title: Mesa", "title: [Mesa]", "stations.bench.title should be words", "one text"),
}


@pytest.mark.parametrize(("old", "new", "problem", "mend"), HOUSE_FAULTS.values(), ids=HOUSE_FAULTS)
def test_a_fault_in_the_words_of_the_house_is_told(tmp_path: Path, old: str, new: str, problem: str, mend: str) -> None:
    """What stands under no known id would never be read, and what is no text could not be."""
    folder = spanish_kitchen(tmp_path)
    change(folder, HOUSE, old, new)
    found = [each for each in loaded(folder, "en")[1] if problem in each.message]
    assert [each.file for each in found][:1] == [HOUSE]
    assert mend in found[0].hint


@pytest.mark.parametrize("text", ["- stations\n", "stations\n"], ids=["a list", "a word"])
def test_words_of_the_house_that_are_no_block_are_told(tmp_path: Path, text: str) -> None:
    """The file is named with how to fix it, and the house is told in English."""
    folder = spanish_kitchen(tmp_path)
    (folder / HOUSE).write_text(text)
    content, (problem,) = loaded(folder)
    assert (problem.file, problem.message) == (HOUSE, "es.yaml should hold keys with values.")
    assert content is not None
    assert content.stations["bench"].title == "Bench"


def test_a_station_left_out_for_a_technique_keeps_its_words(tmp_path: Path) -> None:
    """Its Spanish is no mistake of anybody's."""
    folder = spanish_kitchen(tmp_path)
    change(folder, STRUCTURE, "kind: do", "kind: done")
    assert HOUSE not in {problem.file for problem in loaded(folder)[1]}


def test_one_paper_has_one_title_in_every_language(tmp_path: Path) -> None:
    """Two stations that call it two names would ask for two papers."""
    folder = spanish_kitchen(tmp_path)
    second = (folder / "stations/bench.yaml").read_text().replace("title: Bench", "title: Second")
    (folder / "stations/second.yaml").write_text(second)
    change(
        folder,
        HOUSE,
        "allergens:",
        "  second: {title: Otra, age_reason: R., certificates: {food_handler: Papel}}\nallergens:",
    )
    (problem,) = loaded(folder)[1]
    assert (problem.file, problem.message) == (HOUSE, "food_handler is called 'Papel' here and 'Tarjeta' elsewhere.")


def test_a_file_that_no_language_reads_is_told(tmp_path: Path) -> None:
    """A person who writes spanish.yaml would wait in vain."""
    folder = small_kitchen(tmp_path)
    (folder / "techniques/rolling/spanish.yaml").write_text("title: Estirar\n")
    (problem,) = loaded(folder)[1]
    assert (problem.file, problem.message) == ("techniques/rolling/spanish.yaml", "Nobody reads this file.")


def test_notes_say_what_a_language_lacks_and_are_no_problem(tmp_path: Path) -> None:
    """A kitchen may add a language bit by bit."""
    folder = kitchen_with_recipe(tmp_path)
    assert Library(folder).notes() == ()
    (folder / SPANISH).write_text(WORDS, encoding="utf-8")
    (folder / HOUSE).write_text("stations: {bench: {title: Mesa}}\nallergens: {egg: Huevo}\n", encoding="utf-8")
    assert loaded(folder)[1] == ()
    assert Library(folder).notes() == (
        "es: told in English until they have words: sheet_dough, stations.bench.age_reason, "
        "stations.bench.certificates.food_handler, overrides.hot_holding.title, overrides.hot_holding.reason, "
        "codes.town.title",
    )
