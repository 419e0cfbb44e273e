"""What is written once for the whole house, told in another language: `<language>.yaml` beside `sources.yaml`.

Stations, certificates, allergens, the house's own lines and the sources stand in files of their own, in English. Their
words in another language stand in one file, under the same ids:

    stations: {grill: {title: Parrilla, age_reason: ..., certificates: {food_handler: ...}}}
    allergens: {milk: Leche}
    overrides: {hot_holding: {title: Mantener caliente, reason: ...}}
    sources: {house: {title: ..., place: ...}}
    codes: {us_food_code_2022: {title: ...}}
    instruments: {thin_probe: Sonda delgada}
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from trainer.content.mapping_reader import LONG, nearest, text_of
from trainer.content.nodes import Diagnostics, MappingNode, Node, ScalarNode, read_tree
from trainer.kitchen.technique import Content, Instrument, PointChoice, Source, Station, Technique
from trainer.store.catalogues import ENGLISH

STATIONS, ALLERGENS, OVERRIDES, SOURCES, CODES = "stations", "allergens", "overrides", "sources", "codes"
INSTRUMENTS = "instruments"
TITLE, AGE_REASON, CERTIFICATES, REASON = "title", "age_reason", "certificates", "reason"
SOURCE_WORDS = (TITLE, "edition", "place")

Keys = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class HouseWords:
    """The words of one language, by the keys that lead to them; English, the files' own, has none."""

    language: str = ENGLISH
    texts: Mapping[Keys, str] = field(default_factory=dict)

    def of(self, own: str, *path: str) -> str:
        """Return the words at a path, or the file's own where there are none."""
        return self.texts.get(path) or own


def house_words(folder: Path, language: str) -> HouseWords:
    """Return the house's words in a language, none where there is no such file; `check_house_words` tells problems."""
    path = folder / f"{language}.yaml"
    if language == ENGLISH or not path.is_file():
        return HouseWords(language)
    silent = Diagnostics(path.name, [])
    leaves = _leaves_of(path, silent)
    return HouseWords(language, {where: text_of(node, silent, where[-1], LONG) for where, node in leaves})


def check_house_words(path: Path, known: KnownWords, diagnostics: Diagnostics) -> None:
    """Note what is wrong in the words of one language: what stands under no known id, and what is no text."""
    for where, node in _leaves_of(path, diagnostics):
        text_of(node, diagnostics, ".".join(where), LONG)
        if where not in known.paths and not (where[0] == STATIONS and where[1:2] in known.unread):
            problem = f"{'.'.join(where)} is nothing that has words in English."
            diagnostics.add(node.line, problem, _nearest_path(where, known.paths))


def check_paper_titles(path: Path, diagnostics: Diagnostics) -> None:
    """Note a certificate that two stations call by two titles."""
    titles: dict[str, str] = {}
    for where, node in _leaves_of(path, Diagnostics(path.name, [])):
        if where[0] == STATIONS and where[-2:-1] == (CERTIFICATES,) and isinstance(node, ScalarNode):
            usual = titles.setdefault(where[-1], node.value)
            if usual != node.value:
                problem = f"{where[-1]} is called {node.value!r} here and {usual!r} elsewhere."
                diagnostics.add(node.line, problem, "Give one paper one title.")


def _nearest_path(where: Keys, known: Iterable[Keys]) -> str:
    """Return how to fix the first key of a path that leads nowhere."""
    there = set(known)
    for depth in range(len(where)):
        there, before = {path for path in there if path[depth : depth + 1] == where[depth : depth + 1]}, there
        if not there:
            return nearest(where[depth], {path[depth] for path in before if len(path) > depth})
    return "Write words here, or keys that lead to words."


def house_words_missing(path: Path, known: KnownWords) -> tuple[str, ...]:
    """Return what the words of one language leave in English; sources may, since most are titles of publications."""
    there = {where for where, _ in _leaves_of(path, Diagnostics(path.name, []))} if path.is_file() else set()
    return tuple(".".join(where) for where in known.paths if where[0] != SOURCES and where not in there)


@dataclass(frozen=True, slots=True)
class KnownWords:
    """Every path that has words in English, in reading order, and the stations that could not be read."""

    paths: tuple[Keys, ...]
    unread: frozenset[Keys]


def known_paths(content: Content, overridden: Iterable[str], unread: Iterable[str] = ()) -> KnownWords:
    """Return what may be told in another language of a kitchen's stations, allergens, own lines, code and sources."""
    found: list[Keys] = []
    for station in content.stations.values():
        parts = (TITLE, AGE_REASON) if station.age_reason else (TITLE,)
        found.extend((STATIONS, station.id, part) for part in parts)
        found.extend((STATIONS, station.id, CERTIFICATES, paper.id) for paper in station.certificates)
    found.extend((ALLERGENS, key) for key in content.allergens)
    found.extend((INSTRUMENTS, key) for key in content.instruments)
    found.extend((OVERRIDES, key, part) for key in overridden for part in (TITLE, REASON))
    found.append((CODES, content.code.id, TITLE))
    found.extend((SOURCES, key, part) for key in content.sources for part in SOURCE_WORDS)
    return KnownWords(tuple(found), frozenset((name,) for name in unread))


def allergens_in(words: HouseWords, titles: Mapping[str, str]) -> dict[str, str]:
    """Return the titles of allergens in a language."""
    return {key: words.of(title, ALLERGENS, key) for key, title in titles.items()}


def instruments_in(words: HouseWords, instruments: Mapping[str, Instrument]) -> dict[str, Instrument]:
    """Return instruments with their titles in a language."""
    return {id: replace(each, title=words.of(each.title, INSTRUMENTS, id)) for id, each in instruments.items()}


def with_allergens_in(words: HouseWords, technique: Technique) -> Technique:
    """Return a technique whose points expect allergens by what they are called in a language."""
    if words.language == ENGLISH or not any(
        choice.allergen for point in technique.checklist for choice in point.choices
    ):
        return technique
    points = (
        replace(point, choices=tuple(_allergen_in(words, choice) for choice in point.choices))
        for point in technique.checklist
    )
    return replace(technique, checklist=tuple(points))


def _allergen_in(words: HouseWords, choice: PointChoice) -> PointChoice:
    return replace(choice, text=words.of(choice.text, ALLERGENS, choice.allergen)) if choice.allergen else choice


def station_in(words: HouseWords, station: Station) -> Station:
    """Return a station with its words in a language."""
    path = (STATIONS, station.id)
    papers = (
        replace(paper, title=words.of(paper.title, *path, CERTIFICATES, paper.id)) for paper in station.certificates
    )
    return replace(
        station,
        title=words.of(station.title, *path, TITLE),
        age_reason=words.of(station.age_reason, *path, AGE_REASON),
        certificates=tuple(papers),
    )


def source_in(words: HouseWords, source: Source) -> Source:
    """Return a source with what is told of it in a language."""
    said = {part: words.of(getattr(source, part), SOURCES, source.id, part) for part in SOURCE_WORDS}
    return replace(source, **said)


def _leaves_of(path: Path, diagnostics: Diagnostics) -> tuple[tuple[Keys, Node], ...]:
    """Return what a file says, each with the keys that lead to it; a file that is no block says nothing, noted."""
    tree = read_tree(path, diagnostics)
    if tree is not None and not isinstance(tree, MappingNode):
        diagnostics.add(tree.line, f"{path.name} should hold keys with values.", "Write it as `key: value` lines.")
        return ()
    return tuple(_leaves(tree)) if tree is not None else ()


def _leaves(node: Node, path: Keys = ()) -> Iterator[tuple[Keys, Node]]:
    """Yield whatever is no block, with the keys that lead to it."""
    if isinstance(node, MappingNode):
        for key, value in node.items:
            yield from _leaves(value, (*path, key.value))
    else:
        yield path, node
