"""Sources, allergens, the local code with the house's own lines, and stations: read from content files."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional, read_file
from trainer.content.house_words import CODES, OVERRIDES, REASON, TITLE, HouseWords
from trainer.content.kinds import Table, Written
from trainer.content.limits import First, asks_no_less, is_same_kind, limit_text
from trainer.content.lines import TypedLine
from trainer.content.mapping_reader import SHORT, check_id
from trainer.content.nodes import Diagnostics
from trainer.kitchen.technique import HOUSE, CertificateAsked, Limit, LocalCode, Practice, Source, Station
from trainer.messages import message, translate
from trainer.store.catalogues import translations

KNOWN = ("read", "computed", "from memory", "common practice", "house")
LISTS = ("us", "eu")
KITCHEN_CODE = "kitchen_code.yaml"


class SourceBlock(Block):
    """Where a number or a rule comes from."""

    title: str = key(kinds.text(), "What the text is called.")
    edition: str = key(kinds.text(SHORT), "Which one of it.")
    place: str = key(kinds.text(), "Where in it.")
    known: str = key(
        kinds.one_of(KNOWN), "How you know: read there, worked out, from memory, as the trade does, by the house."
    )


class Allergen(Block):
    """An allergen."""

    title: str = key(kinds.text(SHORT), "What a cook calls it.")
    lists: tuple[str, ...] = key(kinds.each_once(kinds.one_of(LISTS)), "Which lists of law name it.")


class PublishedLimit(TypedLine):
    """A limit of a local code, as published."""

    place: str = key(kinds.text(), "Where the code says so.")


class LocalCodeFile(Block):
    """A local code as published: `local_code/<id>.yaml`."""

    title: str = key(kinds.text(SHORT), "What the code is called.")
    edition: str = key(kinds.text(SHORT), "Which one.")
    limits: Table[PublishedLimit] | None = key(kinds.by_id(kinds.nested(PublishedLimit)), "Its limits.")


class Override(TypedLine):
    """A line of the house in place of the code's."""

    law: str = optional(kinds.name_of("sources"), "The law that allows it, where it is laxer than the code.")
    reason: str = key(kinds.text(), "Why the house has its own.")


class KitchenCodeFile(Block):
    """Which local code the kitchen works under, and the lines of its own: `kitchen_code.yaml`."""

    code: Written | None = key(kinds.placed_text(SHORT), "A file of local_code, without its ending.")
    overrides: Table[Override] | None = optional(
        kinds.by_id(kinds.nested(Override), free=True), "The house's lines, by the id of the limit they replace."
    )


class CertificateBlock(Block):
    """A paper from outside."""

    called, twice = "a certificate", "Keep one of the two."

    id: str = key(kinds.own_id())
    title: str = key(kinds.text(SHORT), "What the paper is called.")
    bars: bool = key(kinds.yes_no(), "Nobody works here without it.")
    grace_days: int = key(kinds.whole(1, 365), "How many days it still counts after its end.", default=0)
    most_years: int = key(kinds.whole(1, 50), "How many years it counts from its issue at the most.", default=0)
    within_days: int = key(kinds.whole(1, 365), "How many days who joins has to show it.", default=0)


class PracticeBlock(Block):
    """How often the station is worked to stay cleared; a shift counts on its day and as many days after it."""

    shifts: int = key(kinds.whole(1, 60), "How many shifts are asked.")
    days: int = key(kinds.whole(1, 730), "In how many days.")
    return_shifts: int = key(kinds.whole(1, 30), "How many supervised shifts bring back who was away longer.")
    return_days: int = key(kinds.whole(1, 365), "Within how many days these are worked.")

    def check(self) -> None:
        """Add a problem where whoever has just come back would be out of practice again at once."""
        if self.return_days > self.days:
            self.at.add(
                f"return_days is {self.return_days}, more than the {self.days} days.",
                "Give a way back that is no longer than the practice it brings back.",
            )


class StationFile(Block):
    """A station and what it asks for: `stations/<id>.yaml`."""

    title: str = key(kinds.text(SHORT), "What a cook calls it.")
    techniques: tuple[str, ...] = key(kinds.names_of("techniques"), "What must be learned.")
    certificates: Mapping[str, CertificateBlock] = optional(kinds.entries(CertificateBlock), "Papers it asks for.")
    minimum_age: int = key(kinds.whole(14, 99), "Nobody younger works here.", default=0)
    age_reason: str = key(kinds.text(), "The law, or the house's reason.", beside=("minimum_age",))
    supervised_shifts: int = key(kinds.whole(0, 60), "Shifts worked beside a cleared cook.")
    warn_days: int = key(kinds.whole(1, 365), "How many days before a proof ends the cook is told.", default=30)
    practice: PracticeBlock | None = optional(
        kinds.nested(PracticeBlock), "How often it is worked; not asked if left out."
    )


SOURCES, ALLERGENS = kinds.by_id(kinds.nested(SourceBlock)), kinds.by_id(kinds.nested(Allergen))


def sources_of(path: Path, diagnostics: Diagnostics) -> dict[str, Source] | None:
    """Return the sources by id; None where the file cannot be read at all."""
    table = read_file(path, SOURCES, "sources", diagnostics)
    if table is None:
        return None
    return {id: Source(id, each.title, each.edition, each.place, each.known) for id, each in table.items()}


def allergens_of(path: Path, diagnostics: Diagnostics) -> Mapping[str, Allergen] | None:
    """Return the allergens by id; None where the file cannot be read."""
    found: Mapping[str, Allergen] | None = read_file(path, ALLERGENS, "allergens", diagnostics)
    return found


@dataclass(frozen=True, slots=True)
class OwnLine:
    """A line of the house, the published one it replaces, and why."""

    limit: Limit
    published: Limit
    reason: str


@dataclass(frozen=True, slots=True)
class CodeInForce:
    """The local code a kitchen works under, with the house's lines in place of its own, which are told apart.

    `named` are the limits the house has, or tried to have, a line of its own for.
    """

    code: LocalCode
    own: tuple[OwnLine, ...]
    named: tuple[str, ...]

    def told(self, first: First, words: HouseWords) -> LocalCode:
        """Return the code with its title and the house's lines in words."""
        title = words.of(self.code.title, CODES, self.code.id, TITLE)
        overrides = tuple(_override_told(own, first, words) for own in self.own)
        return replace(self.code, title=title, overrides=overrides)


def code_of(folder: Path, diagnostics: Diagnostics, sources: Collection[str]) -> CodeInForce | None:
    """Return the code the kitchen names, its own lines applied; None where there is none to work under."""
    known = {"sources": sources}
    file: KitchenCodeFile | None = read_file(
        folder / KITCHEN_CODE, kinds.nested(KitchenCodeFile), "the kitchen's code", diagnostics, known
    )
    if file is None or file.code is None or not check_id(file.code.text, file.code.line, diagnostics):
        return None
    path = folder / "local_code" / f"{file.code.text}.yaml"
    code = published_code_of(path, diagnostics.of(f"local_code/{path.name}"), sources)
    if code is None or file.overrides is None:
        return CodeInForce(code, (), ()) if code else None
    own = tuple(_own_lines(code, file.overrides))
    limits = {**code.limits, **{line.limit.id: line.limit for line in own}}
    return CodeInForce(replace(code, limits=limits), own, tuple(file.overrides.at.nodes))


def _own_lines(code: LocalCode, overrides: Table[Override]) -> Iterator[OwnLine]:
    """Yield the lines of the house that may stand; a laxer one needs the law that allows it."""
    for id, override in overrides.known(code.limits).items():
        published, limit = code.limits[id], override.limit()
        if limit and _may_stand(limit, published, override):
            place = limit.place or f"in place of {published.place}"
            yield OwnLine(replace(limit, place=place), published, override.reason)


def codes_beside(folder: Path, diagnostics: Diagnostics, sources: Collection[str], used: str) -> None:
    """Add the problems of the codes in the folder that this kitchen does not work under."""
    for path in sorted((folder / "local_code").glob("*.yaml")):
        if path.stem != used:
            published_code_of(path, diagnostics.of(f"local_code/{path.name}"), sources)


def published_code_of(path: Path, diagnostics: Diagnostics, sources: Collection[str]) -> LocalCode | None:
    """Return a code as published."""
    file: LocalCodeFile | None = read_file(
        path, kinds.nested(LocalCodeFile), path.stem, diagnostics, {"sources": sources}
    )
    if file is None:
        return None
    limits = {id: limit for id, line in (file.limits or {}).items() if (limit := line.limit())}
    return LocalCode(path.stem, file.title, file.edition, limits) if limits else None


def _override_told(own: OwnLine, first: First, words: HouseWords) -> str:
    """Return a line of the house in words: its name, both lines, where the code says its own, and why."""
    id = own.limit.id
    told = message(
        "{name}: {line}, in place of {published} ({place}). {reason}",
        name=words.of(id.replace("_", " ").capitalize(), OVERRIDES, id, TITLE),
        line=limit_text(own.limit, first, words.language),
        published=limit_text(own.published, first, words.language),
        place=own.published.place,
        reason=words.of(own.reason, OVERRIDES, id, REASON),
    )
    return translate(told, translations(words.language))


def _may_stand(limit: Limit, published: Limit, override: Override) -> bool:
    """Return whether a house line may replace the code's: the same kind, and stricter unless a law is named.

    The house itself is no law.
    """
    if not is_same_kind(limit, published):
        hint = f"The code says {limit_text(published)}."
        override.at.add(f"{limit.id} measures something else than the code.", hint)
        return False
    if override.law not in ("", HOUSE) or asks_no_less(limit, published):
        return True
    override.at.add(
        f"{limit.id} is laxer than the code ({limit_text(published)}, {published.place}).",
        "Make it stricter, or name the law that allows it: `law:` with an id of sources.yaml.",
    )
    return False


def station_of(path: Path, diagnostics: Diagnostics, techniques: Collection[str]) -> Station | None:
    """Return a station; None where its file cannot be read or says something wrong."""
    if not check_id(path.stem, 1, diagnostics):
        return None
    known = {"techniques": techniques}
    file: StationFile | None = read_file(path, kinds.nested(StationFile), path.stem, diagnostics, known)
    if file is None or not file.sound:
        return None
    papers = tuple(
        CertificateAsked(paper.id, paper.title, paper.bars, paper.grace_days, paper.most_years, paper.within_days)
        for paper in file.certificates.values()
    )
    return Station(
        id=path.stem,
        title=file.title,
        techniques=file.techniques,
        certificates=papers,
        minimum_age=file.minimum_age or None,
        age_reason=file.age_reason,
        supervised_shifts=file.supervised_shifts,
        warn_days=file.warn_days,
        practice=_practice(file.practice),
    )


def _practice(block: PracticeBlock | None) -> Practice | None:
    if block is None:
        return None
    return Practice(block.shifts, block.days, block.return_shifts, block.return_days)


def check_certificate_titles(stations: Mapping[str, Station], diagnostics: Mapping[str, Diagnostics]) -> None:
    """Add a problem for a paper that two stations call by two titles."""
    titles: dict[str, str] = {}
    for id, station in stations.items():
        for paper in station.certificates:
            if titles.setdefault(paper.id, paper.title) != paper.title:
                problem = f"{paper.id} is called {paper.title!r} here and {titles[paper.id]!r} elsewhere."
                diagnostics[id].add(1, problem, "Give one paper one title.")
