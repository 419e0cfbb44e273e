"""All that is taught, read from one folder of plain files, with every problem in them at once."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from trainer.content.house_words import (
    HouseWords,
    content_in,
    house_words,
    house_words_missing,
    known_paths,
    note_house_words,
    note_papers_that_differ,
)
from trainer.content.kitchen import (
    KITCHEN_CODE,
    allergens_of,
    code_of,
    codes_beside,
    note_titles_that_differ,
    overridden_lines,
    sources_of,
    station_of,
)
from trainer.content.languages import languages_missing, languages_of
from trainer.content.limits import First
from trainer.content.nodes import Sheet
from trainer.content.pair import Around
from trainer.content.recipes import recipe_lines, recipes_of
from trainer.content.said import ENGLISH
from trainer.content.techniques import STRUCTURE, technique_of
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.short_codes import sharing
from trainer.kitchen.technique import Content, LocalCode, Problem, Source, Station, Technique


def load_content(
    folder: Path, language: str = "en", units_first: First = "us"
) -> tuple[Content | None, tuple[Problem, ...]]:
    """Return what the folder teaches and every problem found, by file and line.

    A technique with a problem is left out whole, and so is a station that asks for it: a standard half read would
    clear somebody for less than the station asks. A recipe with a problem is left out by itself. There is no content at
    all (None) only where the local code or the sources cannot be read. Words are those of the language asked for, and
    English where there are none or bad ones; the words of every language there is are checked.
    """
    problems: list[Problem] = []
    content = _content(folder, problems, language, units_first)
    return content, tuple(sorted(set(problems), key=lambda found: (found.file, found.line, found.problem)))


def content_notes(folder: Path) -> tuple[str, ...]:
    """Return what no rule asks for, a line each: what has words in one language and not yet in another."""
    content = _content(folder, [], ENGLISH, "us")
    folders = {path.name: path for kind in ("techniques", "recipes") for path in _folders(folder, kind)}
    missing = languages_missing(folders)
    known = {tag for path in folders.values() for tag in languages_of(path)} | set(languages_of_house(folder))
    notes = []
    for tag in sorted(known - {ENGLISH}):
        lacking = list(missing.get(tag, ()))
        if content is not None:
            lacking += house_words_missing(folder / f"{tag}.yaml", known_paths(content, overridden_lines(folder)))
        if lacking:
            notes.append(f"{tag}: told in English until they have words: {', '.join(lacking)}")
    return tuple(notes)


def languages_of_house(folder: Path) -> tuple[str, ...]:
    """Return the languages the house's own words are told in, besides English."""
    return tuple(tag for tag in languages_of(folder) if tag != ENGLISH)


def _content(folder: Path, problems: list[Problem], language: str, first: First) -> Content | None:
    """Return the content, or None where what everything else refers to cannot be read."""
    shared = shared_of(folder, problems, language, first)
    folders = _technique_folders(folder, problems)
    techniques = _techniques(folders, shared.around, problems)
    names = [each.name for each in folders]
    stations = _stations(folder, names, problems)
    recipes = recipes_of(folder, shared.around, names, Sheet("recipes", problems))
    if shared.sources is None or shared.code is None:
        return None
    content = Content(techniques, stations, shared.code, shared.sources, shared.allergens, recipes)
    _note_house_words(folder, content, problems)
    _note_shared_codes(content, problems)
    taught = {key: each for key, each in stations.items() if all(name in techniques for name in each.techniques)}
    return content_in(shared.words, replace(content, stations=taught))


@dataclass(frozen=True, slots=True)
class Shared:
    """What every technique and recipe of a folder may name; None for sources or a code that cannot be read."""

    words: HouseWords
    sources: Mapping[str, Source] | None
    allergens: Mapping[str, str]
    code: LocalCode | None
    around: Around


def shared_of(folder: Path, problems: list[Problem], language: str, first: First) -> Shared:
    """Return what stands in files of its own for the whole kitchen, its problems noted."""
    words = house_words(folder, language)
    sources = sources_of(folder / "sources.yaml", Sheet("sources.yaml", problems))
    allergens = allergens_of(folder / "allergens.yaml", Sheet("allergens.yaml", problems))
    code = code_of(folder, Sheet(KITCHEN_CODE, problems), sources or {}, first, words)
    codes_beside(folder, Sheet("local_code", problems), sources or {}, code.id if code else "")
    titles = {key: allergen.title for key, allergen in (allergens or {}).items()}
    around = Around(sources or {}, titles, code.limits if code else {}, FAMILIES, language, first)
    return Shared(words, sources, titles, code, replace(around, recipes=recipe_lines(folder, around)))


def _note_house_words(folder: Path, content: Content, problems: list[Problem]) -> None:
    """Note what is wrong in the house's words of every language."""
    unread = {path.stem for path in folder.glob("stations/*.yaml")} - content.stations.keys()
    known = known_paths(content, overridden_lines(folder), unread)
    for language in languages_of_house(folder):
        path = folder / f"{language}.yaml"
        note_house_words(path, known, Sheet(path.name, problems))
        note_papers_that_differ(path, Sheet(path.name, problems))


def _note_shared_codes(content: Content, problems: list[Problem]) -> None:
    """Note a card whose code would open another one."""
    files = {"station": "stations/{}.yaml", "technique": f"techniques/{{}}/{STRUCTURE}"}
    for coded, other in sharing(content):
        problem = f"The short code of {coded.id} is that of the {other.kind} {other.id}, too."
        Sheet(files[coded.kind].format(coded.id), problems).note(1, problem, "Give the newer of the two another id.")


def _folders(folder: Path, kind: str) -> list[Path]:
    """Return the folders of one kind, by name."""
    return sorted(each for each in folder.glob(f"{kind}/*") if each.is_dir() and not each.name.startswith("."))


def _technique_folders(folder: Path, problems: list[Problem]) -> list[Path]:
    """Return the folders that hold a technique; none at all is noted."""
    found = _folders(folder, "techniques")
    if not found:
        Sheet("techniques", problems).note(1, "There is no technique here.", f"Add a folder with {STRUCTURE} in it.")
    return found


def _techniques(folders: Collection[Path], around: Around, problems: list[Problem]) -> dict[str, Technique]:
    """Return the techniques that have no problem."""
    read = (technique_of(each, around, Sheet(each.name, problems)) for each in folders)
    return {technique.id: technique for technique in read if technique is not None}


def _stations(folder: Path, named: Collection[str], problems: list[Problem]) -> dict[str, Station]:
    """Return the stations that have no problem of their own."""
    stations: dict[str, Station] = {}
    sheets = {path.stem: Sheet(f"stations/{path.name}", problems) for path in folder.glob("stations/*.yaml")}
    for name in sorted(sheets):
        station = station_of(folder / "stations" / f"{name}.yaml", sheets[name], named)
        if station is not None:
            stations[name] = station
    note_titles_that_differ(stations, sheets)
    return stations
