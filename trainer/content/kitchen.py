"""Sources, allergens, the local code with the house's own lines, and stations: read from content files."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from trainer.content.house_words import OVERRIDES, REASON, TITLE, HouseWords
from trainer.content.limits import First, asks_no_less, is_same_kind, limit_of, limit_text
from trainer.content.nodes import Keyed, Sheet, read_tree
from trainer.content.said import said
from trainer.content.schema import SHORT, Fields, note_unless_id
from trainer.kitchen.technique import HOUSE, CertificateAsked, Limit, LocalCode, Source, Station

KNOWN = ("read", "computed", "from memory", "common practice", "house")
LISTS = ("us", "eu")
KITCHEN_CODE = "kitchen_code.yaml"


def sources_of(path: Path, sheet: Sheet) -> dict[str, Source] | None:
    """Return the sources by id; None where the file cannot be read at all."""
    tree = read_tree(path, sheet)
    if tree is None:
        return None
    found = {}
    for key, node in Fields.of(tree, sheet, "sources").each():
        fields = Fields.of(node, sheet, key)
        title, edition = fields.text("title"), fields.text("edition", longest=SHORT)
        found[key] = Source(key, title, edition, fields.text("place"), fields.one_of("known", KNOWN))
        fields.close()
    return found


@dataclass(frozen=True, slots=True)
class Allergen:
    """An allergen's title, and which lists of law name it: us, eu."""

    title: str
    lists: tuple[str, ...]


def allergens_of(path: Path, sheet: Sheet) -> dict[str, Allergen] | None:
    """Return the allergens by id; None where the file cannot be read."""
    tree = read_tree(path, sheet)
    if tree is None:
        return None
    found = {}
    for key, node in Fields.of(tree, sheet, "allergens").each():
        fields = Fields.of(node, sheet, key)
        found[key] = Allergen(fields.text("title", longest=SHORT), fields.words("lists", LISTS))
        fields.close()
    return found


def code_of(
    folder: Path, problems: Sheet, sources: Collection[str], first: First, words: HouseWords
) -> LocalCode | None:
    """Return the local code the kitchen names, its own lines applied; None where there is none to work under."""
    tree = read_tree(folder / KITCHEN_CODE, problems)
    if tree is None:
        return None
    fields = Fields.of(tree, problems, "the kitchen's code")
    named = fields.node("code")
    name = fields.text("code", longest=SHORT)
    overrides = fields.block("overrides", required=False)
    fields.close()
    if named is None or not note_unless_id(name, named.line, problems):
        return None
    path = folder / "local_code" / f"{name}.yaml"
    code = published_code_of(path, Sheet(f"local_code/{path.name}", problems.problems), sources)
    return code if code is None or overrides is None else _overridden(code, overrides, sources, first, words)


def codes_beside(folder: Path, problems: Sheet, sources: Collection[str], used: str) -> None:
    """Note the problems of the codes in the folder that this kitchen does not work under."""
    for path in sorted((folder / "local_code").glob("*.yaml")):
        if path.stem != used:
            published_code_of(path, Sheet(f"local_code/{path.name}", problems.problems), sources)


def published_code_of(path: Path, sheet: Sheet, sources: Collection[str]) -> LocalCode | None:
    """Return a code as published."""
    tree = read_tree(path, sheet)
    if tree is None:
        return None
    fields = Fields.of(tree, sheet, path.stem)
    title, edition = fields.text("title", longest=SHORT), fields.text("edition", longest=SHORT)
    block = fields.block("limits")
    fields.close()
    limits = {}
    for key, node in block.each() if block else ():
        inner = Fields.of(node, sheet, key)
        inner.node("place")
        limit = limit_of(inner, key, sources)
        inner.close()
        if limit:
            limits[key] = limit
    return LocalCode(path.stem, title, edition, limits) if limits else None


def _overridden(
    code: LocalCode, overrides: Fields, sources: Collection[str], first: First, words: HouseWords
) -> LocalCode:
    """Return the code with the house's lines in place of its own; a laxer line needs the law that allows it."""
    limits, told = dict(code.limits), []
    for key, node in overrides.each(code.limits):
        fields = Fields.of(node, overrides.sheet, key)
        limit, law, reason = limit_of(fields, key, sources), fields.one_of("law", sources, False), fields.text("reason")
        fields.close()
        published = code.limits.get(key)
        if limit and published and _may_stand(limit, published, law, fields):
            place = limit.place or f"in place of {published.place}"
            limits[key] = replace(limit, place=place)
            told.append(_override_told(limit, published, reason, first, words))
    return replace(code, limits=limits, overrides=tuple(told))


def _override_told(limit: Limit, published: Limit, reason: str, first: First, words: HouseWords) -> str:
    """Return a line of the house in words: its name, both lines, where the code says its own, and why."""
    return said(
        words.language,
        "instead",
        name=words.of(limit.id.replace("_", " ").capitalize(), OVERRIDES, limit.id, TITLE),
        line=limit_text(limit, first, words.language),
        published=limit_text(published, first, words.language),
        place=published.place,
        reason=words.of(reason, OVERRIDES, limit.id, REASON),
    )


def overridden_lines(folder: Path) -> tuple[str, ...]:
    """Return the ids of the lines the house has of its own."""
    tree = read_tree(folder / KITCHEN_CODE, Sheet(KITCHEN_CODE, []))
    if not isinstance(tree, Keyed):
        return ()
    return tuple(
        key.value
        for name, block in tree.items
        if name.value == OVERRIDES and isinstance(block, Keyed)
        for key, _ in block.items
    )


def _may_stand(limit: Limit, published: Limit, law: str, fields: Fields) -> bool:
    """Return whether a house line may replace the code's: the same kind, and stricter unless a law is named.

    The house itself is no law.
    """
    if not is_same_kind(limit, published):
        fields.sheet.note(
            fields.line,
            f"{fields.name} measures something else than the code.",
            f"The code says {limit_text(published)}.",
        )
        return False
    if law not in ("", HOUSE) or asks_no_less(limit, published):
        return True
    fields.sheet.note(
        fields.line,
        f"{fields.name} is laxer than the code ({limit_text(published)}, {published.place}).",
        "Make it stricter, or name the law that allows it: `law:` with an id of sources.yaml.",
    )
    return False


def station_of(path: Path, sheet: Sheet, techniques: Collection[str]) -> Station | None:
    """Return a station; None where its file cannot be read or says something wrong."""
    before = len(sheet.problems)
    tree = read_tree(path, sheet)
    if tree is None or not note_unless_id(path.stem, 1, sheet):
        return None
    fields = Fields.of(tree, sheet, path.stem)
    age = fields.whole("minimum_age", 14, 99, default=0)
    station = Station(
        id=path.stem,
        title=fields.text("title", longest=SHORT),
        techniques=fields.words("techniques", techniques),
        certificates=_certificates_of(fields),
        minimum_age=age or None,
        age_reason=fields.text("age_reason", required=age > 0),
        supervised_shifts=fields.whole("supervised_shifts", 0, 60),
        warn_days=fields.whole("warn_days", 1, 365, default=30),
    )
    fields.close()
    return station if len(sheet.problems) == before else None


def _certificates_of(fields: Fields) -> tuple[CertificateAsked, ...]:
    """Return the papers a station asks for, each once."""
    found: dict[str, CertificateAsked] = {}
    for node in fields.many("certificates", required=False):
        inner = Fields.of(node, fields.sheet, "a certificate")
        paper = CertificateAsked(inner.text("id", longest=SHORT), inner.text("title", longest=SHORT), inner.yes("bars"))
        inner.close()
        if paper.id in found:
            fields.sheet.note(node.line, f"{paper.id} stands twice under certificates.", "Keep one of the two.")
        elif paper.id and note_unless_id(paper.id, node.line, fields.sheet):
            found[paper.id] = paper
    return tuple(found.values())


def note_titles_that_differ(stations: Mapping[str, Station], sheet_of: Mapping[str, Sheet]) -> None:
    """Note a paper that two stations call by two titles."""
    titles: dict[str, str] = {}
    for key, station in stations.items():
        for paper in station.certificates:
            if titles.setdefault(paper.id, paper.title) != paper.title:
                problem = f"{paper.id} is called {paper.title!r} here and {titles[paper.id]!r} elsewhere."
                sheet_of[key].note(1, problem, "Give one paper one title.")
