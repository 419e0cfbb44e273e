"""All that is taught, read from one folder of plain files, with every problem in them at once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from trainer.content.foods import foods_of
from trainer.content.house_words import (
    HouseWords,
    allergens_in,
    check_house_words,
    check_paper_titles,
    house_words,
    house_words_missing,
    instruments_in,
    known_paths,
    source_in,
    station_in,
    with_allergens_in,
)
from trainer.content.instruments import instruments_of
from trainer.content.kinds import Table
from trainer.content.kitchen import (
    KITCHEN_CODE,
    CodeInForce,
    allergens_of,
    check_certificate_titles,
    code_of,
    codes_beside,
    sources_of,
    station_of,
)
from trainer.content.languages import languages_missing, languages_of
from trainer.content.limits import First
from trainer.content.nodes import Diagnostics
from trainer.content.question_words import QuestionFiles
from trainer.content.recipe_parts import Cards
from trainer.content.recipes import RecipeShelf, recipe_blocks, recipe_lines, recipe_shelf
from trainer.content.skills import SettledSkills, SkillFiles, settle_skills, skill_files
from trainer.content.standard import LoadContext
from trainer.content.techniques import STRUCTURE, TechniqueFiles, technique_files
from trainer.kitchen.quiz.material import material_of
from trainer.kitchen.short_codes import sharing
from trainer.kitchen.skills.bounds import bound_problems
from trainer.kitchen.technique import Content, Problem, Source, Station
from trainer.messages import translate
from trainer.store.catalogues import ENGLISH


def load_content(
    folder: Path, language: str = ENGLISH, units_first: First = "us"
) -> tuple[Content | None, tuple[Problem, ...]]:
    """Return what the folder teaches, in a language and with some units first, and every problem found in it."""
    library = Library(folder)
    return library.content(language, units_first), library.problems


@dataclass(frozen=True, slots=True)
class SharedFiles:
    """What every technique and recipe of a folder may name; None for sources or a code that cannot be read."""

    folder: Path
    sources: Mapping[str, Source] | None
    allergens: Mapping[str, str]
    code: CodeInForce | None
    recipes: RecipeShelf
    questions: QuestionFiles
    skills: Mapping[str, SkillFiles]
    context: LoadContext

    @classmethod
    def read(cls, folder: Path, diagnostics: Diagnostics) -> SharedFiles:
        """Return what is written once for the whole kitchen."""
        sources = sources_of(folder / "sources.yaml", diagnostics.of("sources.yaml"))
        allergens = allergens_of(folder / "allergens.yaml", diagnostics.of("allergens.yaml"))
        code = code_of(folder, diagnostics.of(KITCHEN_CODE), sources or {})
        codes_beside(folder, diagnostics, sources or {}, code.code.id if code else "")
        titles = {id: allergen.title for id, allergen in (allergens or {}).items()}
        techniques = [each.name for each in folders_of(folder, "techniques")]
        questions = QuestionFiles.read(folder, diagnostics)
        limits = code.code.limits if code else {}
        skills = [each.name for each in folders_of(folder, "skills")]
        words = questions.told(ENGLISH)
        tools = instruments_of(folder, diagnostics)
        context = LoadContext(
            sources or {}, titles, techniques, limits, question_words=words, skills=skills, instruments=tools
        )
        recipes, context = _recipes(folder, context, diagnostics)
        read = {each.name: skill_files(each, context, diagnostics) for each in folders_of(folder, "skills")}
        found = {id: files for id, files in read.items() if files is not None}
        return cls(folder, sources, titles, code, recipes, questions, found, context)

    def settled(self, techniques: Mapping[str, TechniqueFiles]) -> SettledSkills:
        """Return the skills that can be asked, their luck by what these techniques give to their questions."""
        found = {id: each.files.told(ENGLISH, "us") for id, each in techniques.items()}
        materials = {id: material_of(technique) for id, technique in found.items() if technique is not None}
        return settle_skills(self.skills, materials, self.context)


class Library:
    """One content folder, its files read once and checked, to be told in any language and with either units first.

    A technique with a problem is left out whole, and so is a station that asks for it: a standard half read would
    clear a person for less than the station asks. A recipe with a problem is left out by itself. There is no content at
    all (None) only where the local code or the sources cannot be read. Words are those of the language asked for, and
    English where there are none or bad ones; the words of every language there is are checked.
    """

    def __init__(self, folder: Path) -> None:
        found: list[Problem] = []
        diagnostics = Diagnostics("", found)
        self.folder = folder
        self._shared = SharedFiles.read(folder, diagnostics)
        self._techniques = _techniques(self._shared, diagnostics)
        self._skills = self._shared.settled(self._techniques)
        self._check_knowledge(diagnostics)
        _check_judged_elsewhere(self._techniques, diagnostics)
        self._stations = _stations(folder, self._shared.context.techniques, diagnostics)
        english = self._all(HouseWords(), "us")
        if english is not None:
            _check_house_words(folder, english, self._overridden, diagnostics)
            _check_short_codes(english, diagnostics)
        self.problems = in_order(found)

    @property
    def techniques_read(self) -> Mapping[str, TechniqueFiles]:
        """Return the techniques whose structure can be read, sound or not."""
        return self._techniques

    def _check_knowledge(self, diagnostics: Diagnostics) -> None:
        """Add what is wrong with the skills each technique asks for, and leave such a technique out."""
        skills = self._skills.told(ENGLISH, "us")
        told = {id: each.told(ENGLISH, "us", skills) for id, each in self._techniques.items()}
        asking = {id: technique for id, technique in told.items() if technique is not None and technique.knowledge}
        asked_by = Counter(skill.id for technique in asking.values() for skill in technique.knowledge)
        for id, technique in asking.items():
            read = self._techniques[id]
            own, line = diagnostics.of(f"techniques/{id}/{STRUCTURE}"), read.structure.block.at.lines["knowledge"]
            for problem, hint in bound_problems(technique, asked_by):
                own.add(line, translate(problem), translate(hint))
                read.files.is_sound = False

    @property
    def _overridden(self) -> tuple[str, ...]:
        """Return the limits that the house has a line of its own for."""
        return self._shared.code.named if self._shared.code else ()

    def content(self, language: str, first: First) -> Content | None:
        """Return what the folder teaches; None where what everything else refers to cannot be read."""
        content = self._all(house_words(self.folder, language), first)
        if content is None:
            return None
        taught = {id: each for id, each in content.stations.items() if content.techniques.keys() >= {*each.techniques}}
        return replace(content, stations=taught)

    def _all(self, words: HouseWords, first: First) -> Content | None:
        """Return the content with every station, whatever is taught."""
        shared = self._shared
        if shared.sources is None or shared.code is None:
            return None
        skills = self._skills.told(words.language, first)
        taught = {id: each.told(words.language, first, skills) for id, each in self._techniques.items()}
        return Content(
            techniques={
                id: with_allergens_in(words, technique) for id, technique in taught.items() if technique is not None
            },
            stations={id: station_in(words, station) for id, station in self._stations.items()},
            code=shared.code.told(first, words),
            sources={id: source_in(words, source) for id, source in shared.sources.items()},
            allergens=allergens_in(words, shared.allergens),
            recipes=shared.recipes.told(words.language, first),
            skills=skills,
            question_words=shared.questions.told(words.language),
            instruments=instruments_in(words, shared.context.instruments),
        )

    def notes(self) -> tuple[str, ...]:
        """Return what no rule asks for, a line each: what has words in one language and not yet in another."""
        content = self.content(ENGLISH, "us")
        folders = {path.name: path for kind in ("techniques", "recipes") for path in folders_of(self.folder, kind)}
        folders |= {f"skills/{path.name}": path for path in folders_of(self.folder, "skills")}
        missing = languages_missing(folders)
        known = {tag for path in [self.folder, *folders.values()] for tag in languages_of(path)}
        notes = []
        for tag in sorted(known - {ENGLISH}):
            lacking = list(missing.get(tag, ()))
            if content is not None:
                lacking += house_words_missing(self.folder / f"{tag}.yaml", known_paths(content, self._overridden))
            if lacking:
                notes.append(f"{tag}: told in English until they have words: {', '.join(lacking)}")
        return tuple(notes)


def in_order(problems: Collection[Problem]) -> tuple[Problem, ...]:
    """Return problems once each, by file and line."""
    return tuple(sorted(set(problems), key=lambda found: (found.file, found.line, found.message)))


def folders_of(folder: Path, kind: str) -> list[Path]:
    """Return the folders of one kind, techniques, recipes or skills, by name."""
    return sorted(each for each in folder.glob(f"{kind}/*") if each.is_dir() and not each.name.startswith("."))


def _techniques(shared: SharedFiles, diagnostics: Diagnostics) -> dict[str, TechniqueFiles]:
    """Return the techniques of a folder; none at all is a problem."""
    folders = folders_of(shared.folder, "techniques")
    if not folders:
        hint = f"Add a folder with {STRUCTURE} in it."
        diagnostics.of("techniques").add(1, "There is no technique here.", hint)
    read = {each.name: technique_files(each, shared.context, diagnostics) for each in folders}
    return {id: files for id, files in read.items() if files is not None}


def _recipes(folder: Path, context: LoadContext, diagnostics: Diagnostics) -> tuple[RecipeShelf, LoadContext]:
    """Return the recipes of a folder, and what techniques may name with them; no recipes at all is no problem."""
    folders = folders_of(folder, "recipes")
    foods = foods_of(folder, diagnostics, context.sources, context.allergens)
    context = replace(context, foods=foods, recipe_names=[each.name for each in folders])
    blocks = recipe_blocks(folders, context, diagnostics)
    context = context.with_recipes(recipe_lines(blocks, context))
    shelf = recipe_shelf(folders, Cards(blocks, foods), context, diagnostics)
    return shelf, context.with_made(shelf.told(ENGLISH, "us"))


def _stations(folder: Path, techniques: Collection[str], diagnostics: Diagnostics) -> dict[str, Station]:
    """Return the stations that have no problem of their own."""
    own = {path: diagnostics.of(f"stations/{path.name}") for path in sorted(folder.glob("stations/*.yaml"))}
    read = {path.stem: station_of(path, own[path], techniques) for path in own}
    stations = {id: station for id, station in sorted(read.items()) if station is not None}
    check_certificate_titles(stations, {path.stem: found for path, found in own.items()})
    return stations


def _check_judged_elsewhere(read: Mapping[str, TechniqueFiles], diagnostics: Diagnostics) -> None:
    """Add a problem for a limit that another technique is said to watch, and does not; and leave the technique out."""
    for id, technique in read.items():
        table = technique.structure.block.judged_in or Table(technique.structure.block.at)
        own = diagnostics.of(f"techniques/{id}/{STRUCTURE}")
        for other, names in table.items():
            judged = read[other].structure.judges if other in read else frozenset()
            if other in read and not read[other].structure.is_typed:
                continue  # a list of the former kind is not asked for it
            for name in (name for name in names if name.text not in judged):
                what = "does not judge it" if other in read else "is not there"
                hint = "Name the technique whose checklist has a point with that limit."
                own.add(name.line, f"{name.text} is said to be judged in {other}, which {what}.", hint)
                technique.files.is_sound = False


def _check_house_words(folder: Path, content: Content, overridden: Collection[str], diagnostics: Diagnostics) -> None:
    """Add what is wrong in the house's words of every language."""
    unread = {path.stem for path in folder.glob("stations/*.yaml")} - content.stations.keys()
    known = known_paths(content, overridden, unread)
    for language in (tag for tag in languages_of(folder) if tag != ENGLISH):
        path = folder / f"{language}.yaml"
        check_house_words(path, known, diagnostics.of(path.name))
        check_paper_titles(path, diagnostics.of(path.name))


def _check_short_codes(content: Content, diagnostics: Diagnostics) -> None:
    """Add a problem for a card whose code would open another one."""
    files = {"station": "stations/{}.yaml", "technique": f"techniques/{{}}/{STRUCTURE}"}
    for coded, other in sharing(content):
        message = f"The short code of {coded.id} is that of the {other.kind} {other.id}, too."
        own = diagnostics.of(files[coded.kind].format(coded.id))
        own.add(1, message, "Give the newer of the two another id.")
